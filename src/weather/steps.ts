import { median } from './median.js';

/** A step in time is a gap where it is more than half as long again as the steps around it. */
const GAP_FACTOR = 1.5;

/** The steps between the values of a rising axis. */
export function stepsOf(rising: Float64Array): number[] {
  return Array.from(rising.subarray(1), (value, i) => value - rising[i]!);
}

/** The median of the steps around a time, four each side and the one after it; 0 where there is none. */
export function usualStepAt(steps: readonly number[], time: number): number {
  const around = steps.slice(Math.max(0, time - 4), time + 5);
  return around.length === 0 ? 0 : median(around);
}

/** Whether a step is a gap beside the usual one. */
export function isLongStep(step: number, usual: number): boolean {
  return step > GAP_FACTOR * usual;
}
