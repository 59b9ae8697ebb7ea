import { withoutUnseen } from '../errors.js';
import { fileProblem, writeFiles, writeNewFile } from '../node/node.js';
import { type CommandIo, EXIT } from './io.js';

/** Writes a new file and says so; one that is there is not written over. A failure is told, and the exit code given. */
export async function writeNew(path: string, text: string, printed: string, io: CommandIo): Promise<number> {
  try {
    await writeNewFile(path, text);
  } catch (error) {
    const problem = fileProblem(error);
    if (problem === undefined) throw error;
    io.error(
      `${withoutUnseen(path)}: cannot be written to: ${problem === 'no such file' ? 'no such folder' : problem}\n`,
    );
    return EXIT.failure;
  }
  io.out(`Written to ${withoutUnseen(path)}. ${printed}\n`);
  return EXIT.complete;
}

/** Writes files into a folder and says so after what is printed; a failure is told, and the exit code given. */
export async function writeOut(
  folder: string,
  files: Readonly<Record<string, string>>,
  printed: string,
  io: CommandIo,
): Promise<number> {
  const stop = new AbortController();
  const release = io.onInterrupt?.(() => stop.abort());
  try {
    await writeFiles(folder, files, { signal: stop.signal });
  } catch (error) {
    if (stop.signal.aborted) {
      io.error('Stopped: nothing was written.\n');
      return EXIT.interrupted;
    }
    const problem = fileProblem(error);
    if (problem === undefined) throw error;
    const place = error instanceof Error && 'path' in error && problem === 'a folder' ? String(error.path) : folder;
    io.error(`${withoutUnseen(place)}: cannot be written to: ${problem}\n`);
    return EXIT.failure;
  } finally {
    release?.();
  }
  io.out(`${printed}\nWritten to ${withoutUnseen(folder)}: ${Object.keys(files).join(', ')}\n`);
  return EXIT.complete;
}
