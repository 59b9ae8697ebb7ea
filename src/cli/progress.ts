import cliProgress from 'cli-progress';
import { withoutUnseen } from '../errors.js';
import type { ReadingProgress } from '../node/node.js';
import type { CommandIo } from './io.js';

/** Reading shorter than this shows no bar. */
const QUIET_MS = 1000;

/** A bar of passages on the terminal; nothing where no person watches. */
export function sailingProgress(io: CommandIo, done: number, passages: number): { sailed(): void; clear(): void } {
  if (!io.isTerminal || done === passages) return { sailed() {}, clear() {} };
  const bar = new cliProgress.SingleBar({
    format: 'passages {bar} {value} of {total}, {eta_formatted} left',
    clearOnComplete: true,
    stream: process.stderr,
  });
  bar.start(passages, done);
  return { sailed: () => bar.increment(), clear: () => bar.stop() };
}

/** A bar on the terminal once reading takes longer than a second; nothing where no person watches. */
export function readingProgress(io: CommandIo): { show(progress: ReadingProgress): void; clear(): void } {
  const started = Date.now();
  let bar: cliProgress.SingleBar | undefined;
  return {
    show({ file, bytesRead, bytesTotal }) {
      if (!io.isTerminal || Date.now() - started < QUIET_MS) return;
      const named = { file: withoutUnseen(file) };
      if (bar === undefined) {
        bar = new cliProgress.SingleBar({
          format: 'reading {file} {bar} {percentage} %',
          clearOnComplete: true,
          stream: process.stderr,
        });
        bar.start(bytesTotal, bytesRead, named);
      }
      // Of several files each has its own length.
      bar.setTotal(bytesTotal);
      bar.update(bytesRead, named);
    },
    clear: () => bar?.stop(),
  };
}
