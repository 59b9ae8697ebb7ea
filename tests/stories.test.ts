import { spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';

// The worked stories of docs/ are run: every command of their console blocks, in the order in which they stand, in a folder with copies of the samples.

const BIN = resolve('dist/cli/bin.js');
const folder = mkdtempSync(join(tmpdir(), 'windwardrobe-stories-'));
cpSync('data-samples', folder, { recursive: true });
afterAll(() => rmSync(folder, { recursive: true }));

interface Shown {
  readonly command: string;
  readonly printed: string;
}

/** The commands of a document with what it says they print. */
function shownIn(document: string): readonly Shown[] {
  return [...document.matchAll(/^```console\n([\s\S]*?)^```$/gm)].flatMap(([, block = '']) =>
    block
      .split(/^\$ /m)
      .slice(1)
      .map((part) => {
        const end = part.indexOf('\n');
        return { command: part.slice(0, end), printed: part.slice(end + 1).trimEnd() };
      }),
  );
}

/** The arguments of a command as a shell cuts them: at spaces, but for those in double quotes. */
const argumentsOf = (command: string) =>
  [...command.matchAll(/"([^"]*)"|(\S+)/g)].map(([, quoted, plain]) => quoted ?? plain ?? '').slice(1);

/** Whether a text is the one that is shown, in which a line `…` stands for any lines, and a beginning of one for lines cut before it. */
function isShown(text: string, shown: string): boolean {
  const parts = shown.split(/^…$/m).map((part) => part.trim());
  let at = 0;
  return parts.every((part, i) => {
    if (part === '') return true;
    const found = text.indexOf(part, at);
    if (found < 0 || (i === 0 && found !== 0)) return false;
    at = found + part.length;
    return i < parts.length - 1 || shown.trimEnd().endsWith('…') || text.slice(at).trim() === '';
  });
}

describe.each(['navigator', 'owner'])('the story of docs/%s.md', (name) => {
  const all = shownIn(readFileSync(`docs/${name}.md`, 'utf8'));

  test('has commands', () => {
    expect(all.length).toBeGreaterThan(3);
  });

  test.each(all)('$command', ({ command, printed }) => {
    expect(command).toMatch(/^windwardrobe /);
    const { status, stdout, stderr } = spawnSync('node', [BIN, ...argumentsOf(command)], {
      cwd: folder,
      encoding: 'utf8',
    });
    const text = status === 0 ? stdout : `${stderr}(exit code ${status})\n`;
    expect(isShown(text, printed), `${text}\n--- is to be\n${printed}`).toBe(true);
  });
});

describe('the check of what is shown', () => {
  test('finds what is not so', () => {
    const text = 'one\ntwo\nthree\nfour\n';
    expect([
      isShown(text, 'one\n…\nthree\n…'),
      isShown(text, 'one\ntwo\nthree\nfour'),
      isShown(text, '…\nfour'),
      isShown(text, 'two\n…'),
      isShown(text, 'one\n…\nfive\n…'),
      isShown(text, 'one\ntwo'),
      isShown(text, '…\nthree\n…\ntwo\n…'),
    ]).toEqual([true, true, true, false, false, false, false]);
  });
});
