import { InputError } from '../errors.js';
import { passageJsonLine } from '../output/output.js';
import { type PassageRecord, type Study, studySailer } from '../study/study.js';

let sail: ((n: number) => PassageRecord) | undefined;

/** The line of a passage, or what is wrong with its input. */
export type LineOrFaults = string | Pick<InputError, 'faults' | 'omitted'>;

/** Runs in a thread of the pool: sails a passage of the study, which came with the thread, and gives its line. */
export function lineOf(n: number): LineOrFaults {
  try {
    sail ??= studySailer(process.__tinypool_state__.workerData as Study);
    return passageJsonLine(sail(n));
  } catch (error) {
    // An error of our own kind would come out of the thread as any other.
    if (error instanceof InputError) return { faults: error.faults, omitted: error.omitted };
    throw error;
  }
}
