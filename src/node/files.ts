import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { mkdir, readFile, rename, rm, stat, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import type { ForecastFile, TextFile } from '../load/load.js';

/**
 * Why a file could not be read, in words; undefined for errors that are not of the file system.
 * @example
 * const error = await readTextFile('no-such-file.csv').catch((thrown) => thrown);
 * fileProblem(error) // 'no such file'
 * fileProblem(new Error('something else')) // undefined
 */
export function fileProblem(error: unknown): string | undefined {
  const code = error instanceof Error && 'code' in error ? String(error.code) : undefined;
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
  };
  return words[code] ?? code;
}

/**
 * Reads a text file whole.
 * @throws Error of the file system, which `fileProblem` puts into words
 * @example
 * (await readTextFile(sample.path('route.csv'))).text // 'name,lat,lon,to_next…'
 */
export async function readTextFile(path: string): Promise<TextFile> {
  const bytes = await readFile(path);
  return { text: bytes.toString('utf8'), sha256: createHash('sha256').update(bytes).digest('hex') };
}

/**
 * A forecast file, ready to be streamed.
 * @throws Error of the file system where there is none, or it is a folder
 * @example
 * const file = await forecastFile(sample.path('forecast.csv'));
 * const { forecast } = await readForecast(file);
 * file.bytesRead() === file.sizeBytes // true
 * forecast.grids.length // 1
 */
export async function forecastFile(path: string): Promise<ForecastFile> {
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
 * Writes files into a folder, which is made if need be: each beside its place and then renamed, so that a reader never
 * sees half a file. After a failure nothing new stands there.
 * @throws Error of the file system, which `fileProblem` puts into words
 * @example
 * await writeFiles(sample.folder, { 'hours.csv': hoursCsv(sample.passage) });
 * (await readTextFile(`${sample.folder}/hours.csv`)).text // 'time,lat,lon…'
 */
export async function writeFiles(folder: string, files: Readonly<Record<string, string>>): Promise<void> {
  await makeFolder(folder);
  for (const name of Object.keys(files)) await refuseFolder(join(folder, name));
  const drafts = Object.entries(files).map(([name, text]) => ({
    name,
    text,
    draft: join(folder, `.${name}.${process.pid}.draft`),
  }));
  try {
    for (const { draft, text } of drafts) await writeFile(draft, text);
    for (const { name, draft } of drafts) await rename(draft, join(folder, name));
  } finally {
    await Promise.all(drafts.map(({ draft }) => rm(draft, { force: true })));
  }
}

/** Makes a folder and those it lies in. Not by one recursive call: that never ends where a parent refuses, as /proc does. */
export async function makeFolder(path: string): Promise<void> {
  try {
    await mkdir(path);
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? error.code : undefined;
    if (code === 'EEXIST' && (await isFolder(path))) return;
    const parent = dirname(path);
    if (code !== 'ENOENT' || parent === path || (await isFolder(parent))) throw error;
    await makeFolder(parent);
    await mkdir(path);
  }
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
