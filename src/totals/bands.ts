import { quantileSorted } from 'simple-statistics';
import type { Hour } from '../passage/passage.js';

/** Hours in a band of wind speeds or angles: from its lower end, up to and without the upper, null where it has none. */
export interface HoursBand {
  readonly from: number;
  readonly to: number | null;
  readonly hours: number;
}

/** Percentiles of some numbers: what a share of them does not pass, drawn straight between the sorted numbers. */
export interface Percentiles {
  readonly p5: number;
  readonly p25: number;
  readonly p50: number;
  readonly p75: number;
  readonly p95: number;
}

const AWS_BAND_KN = 5;
const AWS_BANDS = 9;
const AWA_BAND_DEG = 20;
const AWA_BANDS = 9;

/** Hours by AWS in bands of 5 kn, the last from 40 kn on. */
export const byAws = (hours: readonly Hour[]): readonly HoursBand[] =>
  banded(hours, ({ awsKn }) => awsKn, AWS_BAND_KN, AWS_BANDS, null);

/** Hours by AWA in bands of 20°, on either side; what has no heading is in none. */
export const byAwa = (hours: readonly Hour[]): readonly HoursBand[] =>
  banded(hours, ({ awaDeg }) => (awaDeg === null ? undefined : Math.abs(awaDeg)), AWA_BAND_DEG, AWA_BANDS, 180);

function banded(
  hours: readonly Hour[],
  valueAt: (hour: Hour) => number | undefined,
  width: number,
  count: number,
  end: number | null,
): readonly HoursBand[] {
  const sums = new Float64Array(count);
  for (const hour of hours) {
    const value = valueAt(hour);
    if (value !== undefined) sums[Math.min(count - 1, Math.floor(value / width))]! += hour.minutes / 60;
  }
  return Array.from(sums, (sum, i) => ({
    from: i * width,
    to: i === count - 1 ? end : (i + 1) * width,
    hours: sum,
  }));
}

/** Percentiles of some numbers; null where there are none. */
export function percentilesOf(values: readonly number[]): Percentiles | null {
  if (values.length === 0) return null;
  const sorted = Float64Array.from(values).sort();
  const at = (share: number) => quantileSorted(sorted as unknown as number[], share);
  return { p5: at(0.05), p25: at(0.25), p50: at(0.5), p75: at(0.75), p95: at(0.95) };
}
