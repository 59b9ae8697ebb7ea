import { link, lstat, open, readdir, rename, rm, writeFile } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { isAlive } from './isAlive.js';

/**
 * Files written beside their places, which take their places together or not at all.
 * @internal
 */
export interface Drafts {
  /** Writes the draft of a file, whole or piece by piece. */
  add(name: string, text: string | AsyncIterable<string>): Promise<void>;
  /**
   * Takes away what must not stand beside the drafts, and puts them in their places. Where one of them cannot be put, what stood there
   * before stands there again.
   */
  settle(away?: readonly string[]): Promise<void>;
  /** Removes what is left of the drafts; to be called in any case. */
  drop(): Promise<void>;
}

/**
 * Drafts in a folder, from which those of processes that are gone are removed. Writing breaks off when the signal is aborted.
 * @internal
 */
export async function draftsIn(folder: string, signal?: AbortSignal): Promise<Drafts> {
  await removeStale(folder);
  const names: string[] = [];
  const written = new Set<string>();
  const beside = (name: string, as: 'draft' | 'earlier') => besideOf(join(folder, name), as);
  return {
    async add(name, text) {
      signal?.throwIfAborted();
      names.push(name);
      written.add(beside(name, 'draft'));
      await writeDraft(beside(name, 'draft'), text, signal);
    },
    async settle(away = []) {
      signal?.throwIfAborted();
      const before = new Map<string, Before>();
      for (const name of [...away, ...names]) {
        written.add(beside(name, 'earlier'));
        before.set(name, await keep(join(folder, name), beside(name, 'earlier')));
      }
      const changed: string[] = [];
      try {
        for (const name of away) {
          changed.push(name);
          await rm(join(folder, name), { force: true });
        }
        for (const name of names) {
          await rename(beside(name, 'draft'), join(folder, name));
          changed.push(name);
        }
      } catch (error) {
        for (const name of changed) await restore(join(folder, name), beside(name, 'earlier'), before.get(name)!);
        throw error;
      }
    },
    async drop() {
      await Promise.all([...written].map((path) => rm(path, { force: true })));
    },
  };
}

/**
 * Writes a file whose name is free, whole or not at all.
 * @throws the error of the file system, EEXIST where the name is taken
 * @example
 * await writeNewFile(`${sample.folder}/new-boat.json`, sample.boatJson);
 * (await writeNewFile(`${sample.folder}/new-boat.json`, '').catch(({ code }) => code)) // 'EEXIST'
 */
export async function writeNewFile(path: string, text: string): Promise<void> {
  const draft = besideOf(path, 'draft');
  try {
    await writeDraft(draft, text);
    // A second name fails where it is taken, as renaming does not.
    await link(draft, path).catch(async (error: unknown) => {
      if (!isWithoutLinks(error)) throw error;
      await writeFile(path, '', { flag: 'wx' });
      await rename(draft, path);
    });
  } finally {
    await rm(draft, { force: true });
  }
}

/** What stood in a place: a file that has a second name now, nothing, or a file in a file system without second names. */
type Before = 'kept' | 'absent' | 'unknown';

async function keep(path: string, earlier: string): Promise<Before> {
  // One of a process that was killed and had the same number.
  await rm(earlier, { force: true });
  try {
    await link(path, earlier);
    return 'kept';
  } catch {
    return await lstat(path).then(
      () => 'unknown',
      () => 'absent',
    );
  }
}

async function restore(path: string, earlier: string, before: Before): Promise<void> {
  if (before === 'kept') await rename(earlier, path);
  if (before === 'absent') await rm(path, { force: true });
}

/** Begins with a dot, so that it does not show, and tells whose it is: no file of anybody else's is ever taken for one. */
const besideOf = (path: string, as: 'draft' | 'earlier') =>
  join(dirname(path), `.windwardrobe-${basename(path)}.${process.pid}.${as}`);
const BESIDE = /^\.windwardrobe-.+\.(\d+)\.(?:draft|earlier)$/;

/** Drafts of processes that were killed. */
async function removeStale(folder: string): Promise<void> {
  for (const name of await readdir(folder)) {
    const pid = Number(BESIDE.exec(name)?.[1] ?? process.pid);
    if (pid !== process.pid && !isAlive(pid)) await rm(join(folder, name), { force: true });
  }
}

async function writeDraft(path: string, text: string | AsyncIterable<string>, signal?: AbortSignal): Promise<void> {
  // One of a process that was killed and had the same number.
  await rm(path, { force: true });
  const file = await open(path, 'wx');
  try {
    for await (const piece of typeof text === 'string' ? [text] : text) {
      signal?.throwIfAborted();
      await file.appendFile(piece);
    }
  } finally {
    await file.close();
  }
}

/** Whether a file system has no second names. */
const isWithoutLinks = (error: unknown) =>
  error instanceof Error &&
  'code' in error &&
  ['EPERM', 'ENOTSUP', 'EOPNOTSUPP', 'ENOSYS'].includes(String(error.code));
