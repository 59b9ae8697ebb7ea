import { spawnSync } from 'node:child_process';
import { resolve } from 'node:path';
import type { Ran } from './command.js';

/** What a child may take: memory of its own objects, and the time after which it is killed for not ending. */
export interface ChildLimits {
  readonly cwd: string;
  readonly heapMiB?: number;
  /** Largest file that it may write, in blocks of 512 bytes. */
  readonly fileBlocks?: number;
}

/** Generous: it is not measured how fast a child is, but whether it ends. */
const KILLED_AFTER_MS = 280_000;

/** Runs the built command in a process of its own, within limits. */
export function ranIn({ cwd, heapMiB = 512, fileBlocks }: ChildLimits, ...args: readonly string[]): Ran {
  const command = ['node', `--max-old-space-size=${heapMiB}`, resolve('dist/cli/bin.js'), ...args];
  const [program, ...rest] =
    fileBlocks === undefined ? command : ['sh', '-c', `ulimit -f ${fileBlocks}; exec "$@"`, 'sh', ...command];
  const { status, stdout, stderr, signal, error } = spawnSync(program!, rest, {
    cwd,
    encoding: 'utf8',
    timeout: KILLED_AFTER_MS,
    maxBuffer: 1 << 28,
  });
  if (error !== undefined || status === null)
    throw new Error(`ended by ${signal ?? error?.message}: ${stderr.slice(0, 500)}`);
  return { code: status, out: stdout, error: stderr };
}
