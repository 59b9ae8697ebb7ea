import { mean } from 'simple-statistics';
import { type Percentiles, percentilesOf } from '../totals/totals.js';

/**
 * What B has over A, B minus A. `mid` is the mean over the passages, `low` and `high` are the ends of its interval of 95 % by the number
 * of passages alone (Student's t), null of one passage.
 */
export interface Difference {
  readonly low: number | null;
  readonly mid: number;
  readonly high: number | null;
  /** Means of either. */
  readonly a: number;
  readonly b: number;
  /** Standard deviation over the passages; null of one. */
  readonly deviation: number | null;
  /** Over the passages. */
  readonly spread: Percentiles;
  /** Passages in which B has less, as much and more. */
  readonly fewer: number;
  readonly same: number;
  readonly more: number;
}

/** Values of passages that were sailed alike but for A and B, in the order of their starts; a new series where another weather or route begins. */
export interface Pairs {
  readonly a: readonly number[];
  readonly b: readonly number[];
  /** For each pair which series it belongs to. */
  readonly series: readonly number[];
}

/** Records are kept to six decimals. */
const SAME = 1e-6;

/** The difference of pairs; null where there are none. */
export function differenceOf({ a, b, series }: Pairs): Difference | null {
  const values = b.map((value, i) => value - a[i]!);
  const spread = percentilesOf(values);
  if (spread === null) return null;
  const mid = mean(values);
  const deviation = deviationOf(values, mid);
  const error = errorOfMean(values, series);
  return {
    low: error === null ? null : mid - error.times * error.standard,
    mid,
    high: error === null ? null : mid + error.times * error.standard,
    a: mean([...a]),
    b: mean([...b]),
    deviation,
    spread,
    fewer: values.filter((value) => value < -SAME).length,
    same: values.filter((value) => Math.abs(value) <= SAME).length,
    more: values.filter((value) => value > SAME).length,
  };
}

function deviationOf(values: readonly number[], mid: number): number | null {
  if (values.length < 2) return null;
  return Math.sqrt(values.reduce((sum, value) => sum + (value - mid) ** 2, 0) / (values.length - 1));
}

/** Fewer tell nothing of how they are spread: with so few the interval is wide enough. */
export const LEAST_INDEPENDENT = 2;

/** The standard error of a mean, and how many of it make an interval of 95 %; null where it cannot be told. */
export function errorOfMean(
  values: readonly number[],
  series: readonly number[],
): { readonly standard: number; readonly times: number } | null {
  const deviation = values.length === 0 ? null : deviationOf(values, mean([...values]));
  if (deviation === null) return null;
  if (deviation === 0) return { standard: 0, times: 0 };
  const count = Math.max(LEAST_INDEPENDENT, independentOf(values, series));
  return { standard: deviation / Math.sqrt(count), times: studentT975(count - 1) };
}

/**
 * As how many independent ones so many values count: passages of neighbouring starts share their weather. n (1 − r) / (1 + r), r the
 * correlation of each with the one before it in its series, none where it is negative (Zwiers and von Storch 1995, Journal of Climate 8,
 * 336; from memory).
 */
export function independentOf(values: readonly number[], series: readonly number[]): number {
  const mid = values.length === 0 ? 0 : mean([...values]);
  let [along, count, square] = [0, 0, 0];
  values.forEach((value, i) => {
    square += (value - mid) ** 2;
    if (i === 0 || series[i] !== series[i - 1]) return;
    along += (value - mid) * (values[i - 1]! - mid);
    count += 1;
  });
  if (count === 0 || square === 0) return values.length;
  const r = Math.min(1, Math.max(0, along / count / (square / values.length)));
  return (values.length * (1 - r)) / (1 + r);
}

/** Normal quantile of an interval of 95 %. */
const Z = 1.959964;

/**
 * Quantile 0.975 of Student's t by its degrees of freedom, 1 at least: exact of 1 and 2, else by the expansion of Cornish and Fisher
 * (Abramowitz and Stegun 26.7.5, from memory), straight between 1, 2 and 3.
 */
export function studentT975(freedom: number): number {
  const [ONE, TWO] = [12.7062, 4.30265];
  if (freedom < 2) return ONE + (TWO - ONE) * (freedom - 1);
  if (freedom < 3) return TWO + (expanded(3) - TWO) * (freedom - 2);
  return expanded(freedom);
}

function expanded(n: number): number {
  const z2 = Z * Z;
  return (
    Z *
    (1 +
      (z2 + 1) / (4 * n) +
      ((5 * z2 + 16) * z2 + 3) / (96 * n ** 2) +
      (((3 * z2 + 19) * z2 + 17) * z2 - 15) / (384 * n ** 3) +
      ((((79 * z2 + 776) * z2 + 1482) * z2 - 1920) * z2 - 945) / (92_160 * n ** 4))
  );
}
