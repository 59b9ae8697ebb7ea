import { availableParallelism } from 'node:os';
import { Tinypool } from 'tinypool';
import { InputError } from '../errors.js';
import { checkTypes } from '../given.js';
import { casesIn, type Study } from '../study/study.js';
import { says } from '../wording.js';
import { inSharedBuffers } from './sharedBuffers.js';
import type { LineOrFaults } from './studyWorker.js';

/** How a study is run. */
export interface RunStudyOptions {
  /** Worker threads, at least one; absent: one for each core. */
  readonly threads?: number;
  /** The first passage to sail, those before it being there already. Default 0. */
  readonly from?: number;
  readonly signal?: AbortSignal;
}

/** So many passages are under way for each thread, so that none waits while lines are written. */
const UNDER_WAY = 4;

/**
 * Sails a study in worker threads and gives the line of each passage for `passages.jsonl`, in the order of their numbers, whatever
 * thread sailed it and however many there are.
 * @throws InputError where the study or an option is none or a passage cannot start; what the signal was aborted with
 * @example
 * const lines = [];
 * for await (const line of runStudy(sample.study, { threads: 1 })) lines.push(JSON.parse(line));
 * lines.map(({ n }) => n) // [0, 1]
 */
export async function* runStudy(study: Study, options: RunStudyOptions = {}): AsyncGenerator<string, void, undefined> {
  checkTypes(study, { options: 'object' }, 'study');
  checkTypes(options, { threads: 'number?', from: 'number?', signal: 'object?' });
  const { threads = availableParallelism(), from = 0, signal } = options;
  // Functions do not cross threads, and how the attempt fails says nothing of rules.
  if ('rules' in study.options) throw new InputError([{ file: 'options', path: 'rules', ...says.rulesApart() }]);
  const count = casesIn(study);
  if (from >= count) return;
  const most = Math.max(1, Math.min(Math.floor(threads), count - from));
  const pool = new Tinypool({
    filename: new URL('./studyWorker.js', import.meta.url).href,
    name: 'lineOf',
    minThreads: most,
    maxThreads: most,
    isolateWorkers: false,
    // What the program was started with is not for a thread: code given on the command line would be looked for there.
    execArgv: [],
    workerData: inSharedBuffers(study),
  });
  const aborted = new Promise<never>((_, reject) => {
    signal?.addEventListener('abort', () => reject(signal.reason), { once: true });
  });
  // It is heard where a line is waited for.
  aborted.catch(() => {});
  try {
    const underWay: Promise<LineOrFaults>[] = [];
    let next = from;
    for (let n = from; n < count; n += 1) {
      signal?.throwIfAborted();
      for (; next < count && underWay.length < most * UNDER_WAY; next += 1) {
        const line = pool.run(next) as Promise<LineOrFaults>;
        // What fails is told when its turn comes.
        line.catch(() => {});
        underWay.push(line);
      }
      const line = await Promise.race([underWay.shift()!, aborted]);
      if (typeof line !== 'string') throw new InputError(line.faults, line.omitted);
      yield line;
    }
  } finally {
    await pool.destroy();
  }
}
