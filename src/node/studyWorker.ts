import { passageJsonLine } from '../output/output.js';
import { type PassageRecord, type Study, studySailer } from '../study/study.js';

let sail: ((n: number) => PassageRecord) | undefined;

/** Runs in a thread of the pool: sails a passage of the study, which came with the thread, and gives its line. */
export function lineOf(n: number): string {
  sail ??= studySailer(process.__tinypool_state__.workerData as Study);
  return passageJsonLine(sail(n));
}
