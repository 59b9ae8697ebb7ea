import { createReadStream } from 'node:fs';
import { type FileHandle, link, open, readFile, rename, rm, stat, truncate, writeFile } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { createInterface } from 'node:readline';
import { InputError } from '../errors.js';
import { says } from '../wording.js';
import { draftsIn } from './drafts.js';
import { makeFolder, refuseFolder, removeFolders, writeFiles } from './files.js';
import { isAlive } from './isAlive.js';

/** Which study a folder holds: a digest of all it is made of, and how many passages it has. */
export interface StudyKey {
  readonly digest: string;
  readonly passages: number;
}

/** A folder in which a study is sailed. */
export interface StudyFolder {
  /** Passages that are there already. */
  readonly done: number;
  /** Whether a finished study of another kind stands there, which this one replaces when it is finished. */
  readonly replaces: boolean;
  /** Adds the line of the next passage. */
  append(line: string): Promise<void>;
  /** The lines of all passages that are there. */
  lines(): AsyncIterable<string>;
  /**
   * Puts the other files of a study beside its passages, which are then complete: first those written piece by piece. Until all are
   * written an earlier study stands as it is.
   */
  finish(
    streamed: Readonly<Record<string, AsyncIterable<string>>>,
    files: () => Readonly<Record<string, string>>,
    signal?: AbortSignal,
  ): Promise<void>;
  /** Lets go of the folder; what is there is gone on with another time. */
  close(): Promise<void>;
}

const PASSAGES = 'passages.jsonl';
/** Under way the lines stand under another name, beside a file that tells of which study they are. */
const PARTIAL = 'passages.partial.jsonl';
const KEY = 'study.partial.json';
const LOCK = 'study.lock';
const RESULTS = ['passages.csv', 'study.json', 'study.md', 'report.html'];

/**
 * Opens a folder for a study, to go on with it where it was begun there: lines are added one after another, and one that was cut off
 * with the process is sailed again.
 * @throws InputError where the folder holds another study that is not finished, or another process is at work in it
 * @example
 * const path = `${sample.folder}/study`;
 * const begun = await openStudyFolder(path, { digest: 'of the inputs', passages: 2 });
 * await begun.append(passageJsonLine(sample.records[0]));
 * await begun.close();
 * const gone = await openStudyFolder(path, { digest: 'of the inputs', passages: 2 });
 * gone.done // 1
 * await gone.close();
 */
export async function openStudyFolder(folder: string, key: StudyKey): Promise<StudyFolder> {
  const made = await makeFolder(folder);
  const path = (name: string) => join(folder, name);
  try {
    await lock(folder);
  } catch (error) {
    await removeFolders(made);
    throw error;
  }
  try {
    for (const name of [PASSAGES, ...RESULTS]) await refuseFolder(path(name));
    const finished = (await exists(path(PARTIAL))) ? undefined : await keyIn(path('study.json'));
    const known = await keyIn(path(KEY));
    if (known !== undefined && known.digest !== key.digest && known.digest !== finished?.digest)
      throw new InputError([{ file: folder, ...says.otherStudy(KEY, PARTIAL) }]);
    const isFinished =
      finished?.digest === key.digest && (await wholeLines(path(PASSAGES), key.passages)).count === key.passages;
    if (!isFinished && known?.digest !== key.digest) {
      // Lines of which nobody knows what they are of are no passages of this study.
      await rm(path(PARTIAL), { force: true });
      await writeFiles(folder, { [KEY]: `${JSON.stringify(key)}\n` });
    }
    const lines = path(isFinished ? PASSAGES : PARTIAL);
    const { count, bytes } = await wholeLines(lines, key.passages);
    if (!isFinished && (await exists(lines))) await truncate(lines, bytes);
    const file: FileHandle | undefined = isFinished ? undefined : await open(lines, 'a');
    return {
      done: count,
      replaces: !isFinished && finished !== undefined,
      append: async (line) => {
        await file!.appendFile(`${line}\n`);
      },
      lines: () => createInterface({ input: createReadStream(lines), crlfDelay: Number.POSITIVE_INFINITY }),
      async finish(streamed, files, signal) {
        await file?.close();
        const drafts = await draftsIn(folder, signal);
        try {
          for (const [name, text] of Object.entries(streamed)) await drafts.add(name, text);
          for (const [name, text] of Object.entries(files())) await drafts.add(name, text);
          // Passages of an earlier study go first: they must never stand beside the summary of this one.
          await drafts.settle(isFinished ? [] : [PASSAGES]);
        } finally {
          await drafts.drop();
        }
        // The passages last: until they have their name the study is not finished.
        if (!isFinished) await rename(lines, path(PASSAGES));
        await rm(path(KEY), { force: true });
      },
      async close() {
        await file?.close();
        await unlock(folder);
      },
    };
  } catch (error) {
    await unlock(folder);
    await removeFolders(made);
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

/** Folders at work in this process. */
const held = new Set<string>();

/** Keeps two studies from the same folder; a lock whose process is gone is no lock. */
async function lock(folder: string): Promise<void> {
  const own = resolve(folder);
  const path = join(folder, LOCK);
  const inUse = (pid: number) => new InputError([{ file: folder, ...says.studyInUse(LOCK, pid) }]);
  if (held.has(own)) throw inUse(process.pid);
  held.add(own);
  // Written whole beside its place and then given its name, which fails where that is taken: nobody sees a lock without its process.
  const draft = join(folder, `.${LOCK}.${process.pid}.draft`);
  try {
    await writeFile(draft, `${process.pid}\n`);
    for (;;) {
      try {
        await link(draft, path);
        return;
      } catch (error) {
        if (!(error instanceof Error && 'code' in error && error.code === 'EEXIST')) throw error;
        const owner = Number(await readFile(path, 'utf8').catch(() => ''));
        if (owner > 0 && owner !== process.pid && isAlive(owner)) throw inUse(owner);
        await rm(path, { force: true });
      }
    }
  } catch (error) {
    held.delete(own);
    throw error;
  } finally {
    await rm(draft, { force: true });
  }
}

/** Lets go of a folder, if it is this process's. */
async function unlock(folder: string): Promise<void> {
  if (!held.delete(resolve(folder))) return;
  await rm(join(folder, LOCK), { force: true });
}
