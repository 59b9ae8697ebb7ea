import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { mkdir, rmdir, stat } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { InputError } from '../errors.js';
import { checkTypes } from '../given.js';
import { type ForecastFile, LARGEST_FILES_MIB, type ReadTextFileOptions, type TextFile } from '../load/load.js';
import { says } from '../wording.js';
import { draftsIn } from './drafts.js';

/**
 * Why a file could not be read, in words; undefined for errors that are not of the file system.
 * @example
 * const error = await readTextFile('no-such-file.csv').catch((thrown) => thrown);
 * fileProblem(error) // 'no such file'
 * fileProblem(new Error('something else')) // undefined
 */
export function fileProblem(error: unknown): string | undefined {
  const code = error instanceof Error && 'code' in error ? String(error.code) : undefined;
  // Such a name may stand in a boat file; the file system is not even asked for it.
  if (code === 'ERR_INVALID_ARG_VALUE' && /null bytes/.test(String(error))) return 'a name with a zero byte';
  if (code === undefined || !/^E[A-Z]+$/.test(code)) return undefined;
  const words: Readonly<Record<string, string>> = {
    ENOENT: 'no such file',
    EISDIR: 'a folder',
    EACCES: 'no permission',
    EPERM: 'no permission',
    ENOTDIR: 'a file where a folder is needed',
    EEXIST: 'a file of that name in the way',
    ENOSPC: 'no space left',
    EROFS: 'a read-only place',
    EADDRINUSE: 'another program is there',
    EDQUOT: 'no space left for this user',
    EFBIG: 'a file larger than may be written',
    EIO: 'the device failed',
    ELOOP: 'links that lead in a circle',
    ENAMETOOLONG: 'a name too long',
    EMFILE: 'too many files are open',
  };
  return words[code] ?? code;
}

/**
 * Reads a text file whole.
 * @throws InputError where it is larger than any of ours, or the path or an option is none
 * @throws Error of the file system, which `fileProblem` puts into words
 * @example
 * (await readTextFile(sample.path('route.csv'))).text // 'name,lat,lon,to_next…'
 */
export async function readTextFile(path: string, options: ReadTextFileOptions = {}): Promise<TextFile> {
  checkTypes({ path }, { path: 'string' }, 'file');
  checkTypes(options, { name: 'string?', largestMiB: 'number?' });
  const { name = path, largestMiB = LARGEST_FILES_MIB.plan } = options;
  const hash = createHash('sha256');
  const pieces: Uint8Array[] = [];
  let bytesRead = 0;
  for await (const piece of createReadStream(path, { highWaterMark: 1 << 18 })) {
    const bytes = piece as Uint8Array;
    bytesRead += bytes.length;
    if (bytesRead > largestMiB * 2 ** 20) throw new InputError([{ file: name, ...says.tooLarge(largestMiB) }]);
    hash.update(bytes);
    pieces.push(bytes);
  }
  return { text: Buffer.concat(pieces).toString('utf8'), sha256: hash.digest('hex') };
}

/**
 * A forecast file, ready to be streamed.
 * @throws InputError where the path is none
 * @throws Error of the file system where there is none, or it is a folder
 * @example
 * const file = await forecastFile(sample.path('forecast.csv'));
 * const { forecast } = await readForecast(file);
 * file.bytesRead() === file.sizeBytes // true
 * forecast.grids.length // 1
 */
export async function forecastFile(path: string): Promise<ForecastFile> {
  checkTypes({ path }, { path: 'string' }, 'file');
  const found = await stat(path);
  if (found.isDirectory()) throw Object.assign(new Error(`${path} is a folder`), { code: 'EISDIR', path });
  const { size } = found;
  let hash = createHash('sha256');
  let read = 0;
  return {
    name: path,
    sizeBytes: size,
    async *open() {
      hash = createHash('sha256');
      read = 0;
      for await (const chunk of createReadStream(path, { highWaterMark: 1 << 18 })) {
        const bytes = chunk as Uint8Array;
        hash.update(bytes);
        read += bytes.length;
        yield bytes;
      }
    },
    sha256: () => hash.copy().digest('hex'),
    bytesRead: () => read,
  };
}

/**
 * Writes files into a folder, which is made if need be: all of them beside their places, and then each is renamed, so that a reader
 * never sees half a file. After a failure, or when the signal is aborted, everything stands there as before.
 * @throws Error of the file system, which `fileProblem` puts into words
 * @example
 * await writeFiles(sample.folder, { 'hours.csv': hoursCsv(sample.passage) });
 * (await readTextFile(`${sample.folder}/hours.csv`)).text // 'time,lat,lon…'
 */
export async function writeFiles(
  folder: string,
  files: Readonly<Record<string, string>>,
  { signal }: { readonly signal?: AbortSignal } = {},
): Promise<void> {
  const made = await makeFolder(folder);
  try {
    for (const name of Object.keys(files)) await refuseFolder(join(folder, name));
    const drafts = await draftsIn(folder, signal);
    try {
      for (const [name, text] of Object.entries(files)) await drafts.add(name, text);
      await drafts.settle();
    } finally {
      await drafts.drop();
    }
  } catch (error) {
    await removeFolders(made);
    throw error;
  }
}

/**
 * Makes a folder and those it lies in, and gives those that were not there, the outermost first. Not by one recursive call: that never
 * ends where a parent refuses, as /proc does.
 * @internal
 */
export async function makeFolder(path: string): Promise<readonly string[]> {
  try {
    await mkdir(path);
    return [path];
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? error.code : undefined;
    if (code === 'EEXIST' && (await isFolder(path))) return [];
    const parent = dirname(path);
    if (code !== 'ENOENT' || parent === path || (await isFolder(parent))) throw error;
    const made = await makeFolder(parent);
    try {
      await mkdir(path);
    } catch (inner) {
      await removeFolders(made);
      throw inner;
    }
    return [...made, path];
  }
}

/**
 * Removes folders that were made for nothing, the innermost first; what somebody put something into stays.
 * @internal
 */
export async function removeFolders(made: readonly string[]): Promise<void> {
  for (const path of [...made].reverse()) await rmdir(path).catch(() => {});
}

async function isFolder(path: string): Promise<boolean> {
  return stat(path).then(
    (found) => found.isDirectory(),
    () => false,
  );
}

/** Fails as the renaming would, but before anything is written. */
export async function refuseFolder(path: string): Promise<void> {
  if (await isFolder(path)) throw Object.assign(new Error(`${path} is a folder`), { code: 'EISDIR', path });
}
