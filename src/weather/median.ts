import { medianSorted } from 'simple-statistics';

/** The median of numbers in any order. Not the library's own `median`, which brings 1 kB of selection with it into a browser. */
export function median(values: readonly number[]): number {
  return medianSorted([...values].sort((a, b) => a - b));
}
