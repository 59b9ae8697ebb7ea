import { createReadStream } from 'node:fs';
import { type FileHandle, open, readFile, rename, rm, stat, truncate } from 'node:fs/promises';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { InputError } from '../errors.js';
import { says } from '../wording.js';
import { makeFolder, writeFiles } from './files.js';

/** Which study a folder holds: a digest of all it is made of, and how many passages it has. */
export interface StudyKey {
  readonly digest: string;
  readonly passages: number;
}

/** A folder in which a study is sailed. */
export interface StudyFolder {
  /** Passages that are there already. */
  readonly done: number;
  /** Adds the line of the next passage. */
  append(line: string): Promise<void>;
  /** The lines of all passages that are there. */
  lines(): AsyncIterable<string>;
  /** Puts the other files of a study beside its passages, which are then complete: first those written piece by piece. */
  finish(
    streamed: Readonly<Record<string, AsyncIterable<string>>>,
    files: () => Readonly<Record<string, string>>,
  ): Promise<void>;
  /** Lets go of the folder; what is there is gone on with another time. */
  close(): Promise<void>;
}

const PASSAGES = 'passages.jsonl';
/** Under way the lines stand under another name, beside a file that tells of which study they are. */
const PARTIAL = 'passages.partial.jsonl';
const KEY = 'study.partial.json';
const LOCK = 'study.lock';

/**
 * Opens a folder for a study, to go on with it where it was begun there: lines are added one after another, and one that was cut off
 * with the process is sailed again.
 * @throws InputError where the folder holds another study that is not finished, or another process is at work in it
 */
export async function openStudyFolder(folder: string, key: StudyKey): Promise<StudyFolder> {
  await makeFolder(folder);
  const path = (name: string) => join(folder, name);
  await lock(folder);
  try {
    const known = await keyIn(path(KEY));
    if (known !== undefined && known.digest !== key.digest)
      throw new InputError([{ file: folder, ...says.otherStudy(KEY, PARTIAL) }]);
    const isFinished =
      (await keyIn(path('study.json')))?.digest === key.digest &&
      !(await exists(path(PARTIAL))) &&
      (await wholeLines(path(PASSAGES), key.passages)).count === key.passages;
    if (!isFinished && known === undefined) await writeFiles(folder, { [KEY]: `${JSON.stringify(key)}\n` });
    const lines = path(isFinished ? PASSAGES : PARTIAL);
    const { count, bytes } = await wholeLines(lines, key.passages);
    if (!isFinished && (await exists(lines))) await truncate(lines, bytes);
    const file: FileHandle | undefined = isFinished ? undefined : await open(lines, 'a');
    return {
      done: count,
      append: async (line) => {
        await file!.appendFile(`${line}\n`);
      },
      lines: () => createInterface({ input: createReadStream(lines), crlfDelay: Number.POSITIVE_INFINITY }),
      async finish(streamed, files) {
        await file?.close();
        for (const [name, text] of Object.entries(streamed)) await writeStreamed(path(name), text);
        await writeFiles(folder, files());
        // The passages last: until they have their name the study is not finished.
        if (!isFinished) await rename(lines, path(PASSAGES));
        await rm(path(KEY), { force: true });
        await rm(path(LOCK), { force: true });
      },
      async close() {
        await file?.close();
        await rm(path(LOCK), { force: true });
      },
    };
  } catch (error) {
    await rm(path(LOCK), { force: true });
    throw error;
  }
}

/** The whole lines at the start of a file that are the passages in their order, and the bytes they take. */
async function wholeLines(path: string, most: number): Promise<{ readonly count: number; readonly bytes: number }> {
  if (!(await exists(path))) return { count: 0, bytes: 0 };
  let count = 0;
  let bytes = 0;
  const { size } = await stat(path);
  for await (const line of createInterface({ input: createReadStream(path), crlfDelay: Number.POSITIVE_INFINITY })) {
    const end = bytes + Buffer.byteLength(line) + 1;
    if (count >= most || end > size || !isPassage(line, count)) break;
    count += 1;
    bytes = end;
  }
  return { count, bytes };
}

function isPassage(line: string, n: number): boolean {
  try {
    return (JSON.parse(line) as { n?: unknown }).n === n;
  } catch {
    return false;
  }
}

async function keyIn(path: string): Promise<{ readonly digest: string } | undefined> {
  try {
    const { digest } = JSON.parse(await readFile(path, 'utf8')) as { digest?: unknown };
    return typeof digest === 'string' ? { digest } : undefined;
  } catch {
    return undefined;
  }
}

const exists = (path: string) =>
  stat(path).then(
    () => true,
    () => false,
  );

/** Writes a file piece by piece beside its place, and then renames it. */
async function writeStreamed(path: string, text: AsyncIterable<string>): Promise<void> {
  const draft = `${path}.draft`;
  const file = await open(draft, 'w');
  try {
    for await (const piece of text) await file.appendFile(piece);
    await file.close();
    await rename(draft, path);
  } finally {
    await file.close().catch(() => {});
    await rm(draft, { force: true });
  }
}

/** Keeps two processes from the same folder; a lock whose process is gone is no lock. */
async function lock(folder: string): Promise<void> {
  const path = join(folder, LOCK);
  for (;;) {
    try {
      const file = await open(path, 'wx');
      await file.writeFile(`${process.pid}\n`);
      await file.close();
      return;
    } catch (error) {
      if (!(error instanceof Error && 'code' in error && error.code === 'EEXIST')) throw error;
      const owner = Number(await readFile(path, 'utf8').catch(() => ''));
      if (owner > 0 && owner !== process.pid && isAlive(owner))
        throw new InputError([{ file: folder, ...says.studyInUse(LOCK, owner) }]);
      await rm(path, { force: true });
    }
  }
}

function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    // One of another person's may not be asked, but is there.
    return error instanceof Error && 'code' in error && error.code === 'EPERM';
  }
}
