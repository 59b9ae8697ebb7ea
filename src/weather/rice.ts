import { falsePosition } from '../falsePosition.js';

/**
 * Mean speed of a wind whose components are normal about a mean vector, each with the standard deviation `sigmaKn`, independent of one
 * another: the mean of the Rice distribution, sigma · √(π/2) · L½(−ν²/2sigma²), ν the length of the vector.
 * Source: Rice 1945, Bell System Technical Journal 24, 46; L½(−x) = M(−½, 1, −x) by Abramowitz & Stegun 1964, 22.5.54.
 *
 * @example
 * riceMeanKn(0, 10) // 12.53… */
export function riceMeanKn(vectorKn: number, sigmaKn: number): number {
  if (!(sigmaKn > 0)) return vectorKn;
  const x = (vectorKn * vectorKn) / (2 * sigmaKn * sigmaKn);
  return x > ASYMPTOTIC_FROM ? vectorKn * asymptotic(x) : sigmaKn * Math.sqrt(Math.PI / 2) * laguerreHalf(x);
}

/** From here on ten terms of the asymptotic series are good to 1e-10. */
const ASYMPTOTIC_FROM = 25;

/** L½(−x) = M(−½, 1, −x) = e^−x · M(3/2, 1, x) (Kummer; A & S 13.1.27): a series without a change of sign. */
function laguerreHalf(x: number): number {
  let [term, sum] = [1, 1];
  for (let k = 1; term > sum * 1e-17; k += 1) {
    term *= ((k + 0.5) * x) / (k * k);
    sum += term;
  }
  return Math.exp(-x) * sum;
}

/** The mean over the vector's length where that is large beside sigma (A & S 13.5.1): 1 + 1/4x + 1/32x² + … */
function asymptotic(x: number): number {
  let [term, sum] = [1, 1];
  for (let k = 1; k <= 10; k += 1) {
    term *= ((k - 1.5) * (k - 1.5)) / (k * x);
    sum += term;
  }
  return sum;
}

/**
 * The spread a month's means imply: the standard deviation of each component under which the mean of the Rice distribution is the mean
 * speed. It holds weather, the differences between years, and errors of observation, so that it is an upper bound of each. 0 where the
 * vector is as long as the speed or longer.
 * @example
 * spreadKn(14, 16) // 7.15…
 */
export function spreadKn(vectorKn: number, meanSpeedKn: number): number {
  if (!(meanSpeedKn > vectorKn)) return 0;
  const most = meanSpeedKn * CALM_SHARE;
  const over = (sigma: number) => riceMeanKn(vectorKn, sigma) - meanSpeedKn;
  return falsePosition(over, 0, over(0), most, over(most));
}

/** Spread over mean speed where the mean vector is nought: √(2/π). */
const CALM_SHARE = Math.sqrt(2 / Math.PI);

/** Cells of the table of spreads: it is straight where it matters, and off by at most 4e-5 of the speed. */
const TABLE_CELLS = 512;
let table: Float64Array | undefined;

/**
 * `spreadKn` by a table, for sampling: the variance over the square of the mean speed depends on the steadiness alone, and nearly
 * straight. The steadiness is from 0 to 1.
 */
export function spreadShare(steadiness: number): number {
  // Worked out where it is first asked for, and the same for ever.
  table ??= Float64Array.from({ length: TABLE_CELLS + 2 }, (_, i) => spreadKn(i / TABLE_CELLS, 1) ** 2);
  const at = steadiness * TABLE_CELLS;
  const cell = Math.floor(at);
  return Math.sqrt(table[cell]! + (at - cell) * (table[cell + 1]! - table[cell]!));
}
