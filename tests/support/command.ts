import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { run } from '../../src/cli/cli.js';

/** What a command printed on each stream, and its exit code. */
export interface Ran {
  readonly code: number;
  readonly out: string;
  readonly error: string;
}

/** Runs the command line in this process. */
export async function ran(...args: readonly string[]): Promise<Ran> {
  let [out, error] = ['', ''];
  const code = await run(args, {
    out: (text) => {
      out += text;
    },
    error: (text) => {
      error += text;
    },
    isTerminal: false,
  });
  return { code, out, error };
}

/** A folder of its own, in which commands are run as a person would: files are named as they are given. */
export function workFolder() {
  const home = process.cwd();
  const folder = mkdtempSync(join(tmpdir(), 'windwardrobe-'));
  process.chdir(folder);
  return {
    write(texts: Readonly<Record<string, string | Uint8Array>>) {
      for (const [name, text] of Object.entries(texts)) writeFileSync(join(folder, name), text);
    },
    read: (name: string) => readFileSync(join(folder, name), 'utf8'),
    exists: (name: string) => existsSync(join(folder, name)),
    leave() {
      process.chdir(home);
      rmSync(folder, { recursive: true });
    },
  };
}

/** The rows of a CSV text without quotes, by their columns. */
export function rowsOf(csv: string): Readonly<Record<string, string>>[] {
  const [head, ...rows] = csv
    .trimEnd()
    .split('\n')
    .map((line) => line.split(','));
  return rows.map((cells) => Object.fromEntries(head!.map((name, i) => [name, cells[i]!])));
}
