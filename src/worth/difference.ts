import { errorFunction, mean } from 'simple-statistics';
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

/** Less is rounding. */
const ROUNDING = 1e-9;

/** Fewer tell nothing of how they are spread: with so few the interval is wide enough. */
export const LEAST_INDEPENDENT = 2;

/** The standard error of a mean, how many of it make an interval of 95 %, its degrees of freedom, and the deviation of the values; null of fewer than two. */
export function errorOfMean(
  values: readonly number[],
  series: readonly number[],
): { readonly standard: number; readonly times: number; readonly freedom: number; readonly deviation: number } | null {
  const deviation = values.length === 0 ? null : deviationOf(values, mean([...values]));
  if (deviation === null) return null;
  if (deviation < ROUNDING) return { standard: 0, times: 0, freedom: values.length - 1, deviation: 0 };
  const count = Math.max(LEAST_INDEPENDENT, independentOf(values, series));
  return { standard: deviation / Math.sqrt(count), times: studentT975(count - 1), freedom: count - 1, deviation };
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
 * Quantile 0.975 of Student's t by its degrees of freedom, 1 at least: the expansion of Cornish and Fisher (Abramowitz and Stegun 26.7.5,
 * from memory; under 3 straight between known values), made exact by Newton's steps.
 */
export function studentT975(freedom: number): number {
  let t = firstGuess(freedom);
  for (let step = 0; step < NEWTON_STEPS; step += 1)
    t -= (studentShare(t, freedom) - 0.975) / studentDensity(t, freedom);
  return t;
}
const NEWTON_STEPS = 4;

function firstGuess(freedom: number): number {
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

/** More degrees of freedom than this are as good as any number. */
const MANY = 300;
const STEPS = 400;

/** Integral of cos^(n − 1) from nought, by Simpson's rule. */
function cosines(to: number, freedom: number): number {
  const step = to / STEPS;
  let sum = 0;
  for (let i = 0; i <= STEPS; i += 1)
    sum += (i === 0 || i === STEPS ? 1 : i % 2 === 1 ? 4 : 2) * Math.max(0, Math.cos(i * step)) ** (freedom - 1);
  return (sum * step) / 3;
}

/**
 * Share of Student's t below a value: the integral of cos^(n − 1) up to the angle whose tangent is t / √n, over that of half a round; of many
 * degrees of freedom the normal's.
 */
export function studentShare(t: number, freedom: number): number {
  if (freedom > MANY) return 0.5 * (1 + errorFunction(t / Math.SQRT2));
  return 0.5 + (0.5 * cosines(Math.atan(t / Math.sqrt(freedom)), freedom)) / cosines(Math.PI / 2, freedom);
}

function studentDensity(t: number, freedom: number): number {
  if (freedom > MANY) return Math.exp(-(t * t) / 2) / Math.sqrt(2 * Math.PI);
  const cosine = 1 / Math.sqrt(1 + (t * t) / freedom);
  return (0.5 * cosine ** (freedom + 1)) / Math.sqrt(freedom) / cosines(Math.PI / 2, freedom);
}
