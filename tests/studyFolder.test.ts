import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { openStudyFolder } from '../src/node/node.js';

// States in which a study may be found when its process was gone at any moment.

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'windwardrobe-'));
});
afterEach(() => rmSync(folder, { recursive: true }));

const A = { digest: 'a', passages: 2 };
const B = { digest: 'b', passages: 2 };
const write = (files: Readonly<Record<string, string>>) => {
  for (const [name, text] of Object.entries(files)) writeFileSync(join(folder, name), text);
};
const read = (name: string) => readFileSync(join(folder, name), 'utf8');
const has = (name: string) => existsSync(join(folder, name));
const lineOf = (n: number, of = '') => JSON.stringify({ n, of });
const LINES = `${lineOf(0)}\n${lineOf(1)}\n`;
const keyText = ({ digest, passages }: typeof A) => `${JSON.stringify({ digest, passages })}\n`;

async function* none() {}

/** Opens, adds what is missing and finishes; how many were there already. */
async function sail(key: typeof A, of = ''): Promise<number> {
  const study = await openStudyFolder(folder, key);
  try {
    for (let n = study.done; n < key.passages; n += 1) await study.append(lineOf(n, of));
    await study.finish({ 'passages.csv': none() }, () => ({
      'study.json': JSON.stringify({ digest: key.digest }),
      'study.md': '',
    }));
    return study.done;
  } finally {
    await study.close();
  }
}

const FINISHED = ['passages.csv', 'passages.jsonl', 'study.json', 'study.md'];

describe('the folder of a study', () => {
  test('begun anew, finished, and asked for again', async () => {
    expect(await sail(A)).toBe(0);
    expect(readdirSync(folder).sort()).toEqual(FINISHED);
    expect(await sail(A)).toBe(2);
    // Another takes its place when it is finished, and not before.
    const other = await openStudyFolder(folder, B);
    expect(other.done).toBe(0);
    await other.append(lineOf(0, 'b'));
    await other.close();
    expect(read('passages.jsonl')).toContain('"of":""');
    expect(await sail(B, 'b')).toBe(1);
    expect(read('passages.jsonl')).toBe(`${lineOf(0, 'b')}\n${lineOf(1, 'b')}\n`);
    expect(readdirSync(folder).sort()).toEqual(FINISHED);
  });

  test.each([
    ['a line cut off', `${lineOf(0)}\n{"n":1,"o`, 1],
    ['a last line without its end', `${lineOf(0)}\n${lineOf(1)}`, 1],
    ['nothing but zeros, as after a loss of power', '\0\0\0\0', 0],
    ['a passage that is not the next', `${lineOf(0)}\n${lineOf(0)}\n`, 1],
    ['more lines than passages', `${LINES}${lineOf(2)}\n`, 2],
    ['nothing', '', 0],
  ])('with %s it goes on after the last whole line', async (_, text, done) => {
    write({ 'study.partial.json': keyText(A), 'passages.partial.jsonl': text });
    expect(await sail(A)).toBe(done);
    expect(read('passages.jsonl')).toBe(LINES);
  });

  test('all lines there, nothing finished', async () => {
    write({ 'study.partial.json': keyText(A), 'passages.partial.jsonl': LINES });
    expect(await sail(A)).toBe(2);
    expect(readdirSync(folder).sort()).toEqual(FINISHED);
  });

  test('all named, the key still there: finished, and no other study is kept out', async () => {
    const left = { 'study.partial.json': keyText(A), 'passages.jsonl': LINES, 'study.json': '{"digest":"a"}' };
    write(left);
    expect(await sail(A)).toBe(2);
    write(left);
    expect(await sail(B, 'b')).toBe(0);
    expect(read('passages.jsonl')).toContain('"of":"b"');
  });

  test('the summary there, the lines not yet named: the lines count', async () => {
    write({ 'study.partial.json': keyText(A), 'passages.partial.jsonl': LINES, 'study.json': '{"digest":"a"}' });
    expect(await sail(A)).toBe(2);
    expect(read('passages.jsonl')).toBe(LINES);
  });

  test('lines without their key are of nobody', async () => {
    write({ 'passages.partial.jsonl': `${lineOf(0, 'of another')}\n` });
    expect(await sail(A)).toBe(0);
    write({ 'study.partial.json': '', 'passages.partial.jsonl': `${lineOf(0, 'of another')}\n` });
    expect(await sail(B)).toBe(0);
    expect(read('passages.jsonl')).toBe(LINES);
  });

  test('an earlier study stands as it is until all of the later is written, and where it cannot be', async () => {
    await sail(A);
    const earlier = Object.fromEntries(FINISHED.map((name) => [name, read(name)]));
    const standsAsItWas = () => {
      for (const name of FINISHED) expect(read(name)).toBe(earlier[name]);
    };
    const begun = await openStudyFolder(folder, B);
    await begun.append(lineOf(0, 'b'));
    await begun.append(lineOf(1, 'b'));
    const files = () => {
      standsAsItWas();
      return { 'study.json': '{"digest":"b"}', 'study.md': 'b' };
    };
    // Written, and not to be put in its place: a folder came there meanwhile.
    mkdirSync(join(folder, 'worth.md'));
    await expect(begun.finish({ 'passages.csv': none() }, () => ({ ...files(), 'worth.md': 'b' }))).rejects.toThrow(
      'EISDIR',
    );
    await begun.close();
    standsAsItWas();
    rmSync(join(folder, 'worth.md'), { recursive: true });
    const again = await openStudyFolder(folder, B);
    expect(again.done).toBe(2);
    await again.finish({ 'passages.csv': none() }, files);
    await again.close();
    expect(readdirSync(folder).sort()).toEqual(FINISHED);
    expect(read('passages.jsonl')).toBe(`${lineOf(0, 'b')}\n${lineOf(1, 'b')}\n`);
  });

  test('another that is not finished is refused and left as it is', async () => {
    write({ 'study.partial.json': keyText(A), 'passages.partial.jsonl': `${lineOf(0)}\n` });
    await expect(openStudyFolder(folder, B)).rejects.toThrow(/study in this folder was begun/);
    expect(readdirSync(folder).sort()).toEqual(['passages.partial.jsonl', 'study.partial.json']);
    expect(await sail(A)).toBe(1);
  });

  test('one at a time, in this process too', async () => {
    const one = await openStudyFolder(folder, A);
    await expect(openStudyFolder(folder, A)).rejects.toThrow(`process ${process.pid} at work`);
    expect(has('study.lock')).toBe(true);
    await one.close();
    expect(has('study.lock')).toBe(false);
    expect(await sail(A)).toBe(0);
  });

  test('a lock of nobody is no lock, one of a process that lives is', async () => {
    for (const text of ['', 'x', '999999999']) {
      write({ 'study.lock': text });
      await (await openStudyFolder(folder, A)).close();
    }
    write({ 'study.lock': `${process.ppid}` });
    await expect(openStudyFolder(folder, A)).rejects.toThrow(`process ${process.ppid} at work`);
    expect(read('study.lock')).toBe(`${process.ppid}`);
  });

  test('a folder in the way of a result is told before anything is sailed', async () => {
    mkdirSync(join(folder, 'passages.csv'));
    await expect(openStudyFolder(folder, A)).rejects.toThrow(/passages\.csv is a folder/);
    expect(has('study.lock')).toBe(false);
  });
});
