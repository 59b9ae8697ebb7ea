import { mustBeGiven } from '../given.js';
import { windAtHeight } from '../wind/wind.js';
import type { Polar } from './polar.js';

/** Speed of a polar at a true wind at 10 m, in knots; undefined outside its angles. */
export type PolarSpeed = (twsKn: number, twaDeg: number) => number | undefined;

/**
 * A look-up in a polar by the true wind at 10 m, and the angle the polar refers to: bilinear in TWS and |TWA|, straight to
 * zero below the lowest TWS, held above the highest. Never above the fastest of the four speeds around. Where the polar
 * states another wind height the wind is moved there first, by the power law of 0.11 over the sea.
 * @throws InputError where the polar is none
 * @example
 * const { plans } = sample.polars;
 * polarSpeed(plans['main+jib'])(14, 90) // 7.57…
 * polarSpeed(plans['main+jib'])(14, 10) // undefined
 */
export function polarSpeed(polar: Polar): PolarSpeed {
  mustBeGiven(polar, 'stwKn', 'polar', 'readPolars or estimatePolars');
  const tws = Float64Array.from(polar.twsKn);
  const twa = Float64Array.from(polar.twaDeg);
  const stw = Float64Array.from(polar.stwKn);
  const columns = tws.length;
  const [lowest, highest] = [tws[0]!, tws[columns - 1]!];
  const atHeight = windAtHeight(1, polar.windHeightM ?? 10);
  return (windAt10mKn, twaDeg) => {
    const twsKn = windAt10mKn * atHeight;
    const angle = Math.abs(twaDeg);
    if (!(angle >= twa[0]! && angle <= twa[twa.length - 1]!)) return undefined;
    const i = cellOf(twa, angle);
    const share = (angle - twa[i]!) / (twa[i + 1]! - twa[i]!);
    const j = twsKn <= lowest ? 0 : twsKn >= highest ? columns - 1 : cellOf(tws, twsKn);
    const cell = i * columns + j;
    const atColumn = stw[cell]! * (1 - share) + stw[cell + columns]! * share;
    if (twsKn <= lowest) return lowest === 0 ? atColumn : (atColumn * twsKn) / lowest;
    if (twsKn >= highest) return atColumn;
    const windShare = (twsKn - tws[j]!) / (tws[j + 1]! - tws[j]!);
    const atNext = stw[cell + 1]! * (1 - share) + stw[cell + columns + 1]! * share;
    return atColumn * (1 - windShare) + atNext * windShare;
  };
}

/** The speeds at one of the true winds of a polar, by its place in the list, over the angle; undefined outside the angles. */
export function polarColumn(polar: Polar, column: number): (twaDeg: number) => number | undefined {
  const { twsKn, twaDeg, stwKn } = polar;
  const speeds = twaDeg.map((_, i) => stwKn[i * twsKn.length + column]!);
  const at = polarSpeed({ ...polar, windHeightM: 10, twsKn: [1], stwKn: speeds });
  return (angleDeg) => at(1, angleDeg);
}

/** Writes the speeds at a true wind at whole degrees from 0 to 180; NaN outside the angles of the polar. */
export type PolarDegrees = (twsKn: number, into: Float64Array) => void;

/** The speeds of a polar at all whole degrees at once, each as `polarSpeed` has it. */
export function polarDegrees(polar: Polar): PolarDegrees {
  const { twsKn: tws } = polar;
  const atHeight = windAtHeight(1, polar.windHeightM ?? 10);
  const ofColumn = tws.map((_, j) => {
    const column = polarColumn(polar, j);
    return Float64Array.from({ length: 181 }, (_degree, twaDeg) => column(twaDeg) ?? Number.NaN);
  });
  return (windAt10mKn, into) => {
    const twsKn = windAt10mKn * atHeight;
    const [lowest, highest] = [tws[0]!, tws[tws.length - 1]!];
    if (twsKn <= lowest || twsKn >= highest) {
      const factor = twsKn < lowest ? twsKn / lowest : 1;
      const column = ofColumn[twsKn <= lowest ? 0 : tws.length - 1]!;
      for (let degree = 0; degree <= 180; degree += 1) into[degree] = column[degree]! * factor;
      return;
    }
    let j = 0;
    while (tws[j + 1]! <= twsKn) j += 1;
    const share = (twsKn - tws[j]!) / (tws[j + 1]! - tws[j]!);
    const [one, other] = [ofColumn[j]!, ofColumn[j + 1]!];
    for (let degree = 0; degree <= 180; degree += 1) into[degree] = one[degree]! * (1 - share) + other[degree]! * share;
  };
}

/** The cell of a rising axis that holds a value: index of its lower end, at most the last but one. */
function cellOf(axis: Float64Array, value: number): number {
  let i = 0;
  while (i < axis.length - 2 && axis[i + 1]! <= value) i += 1;
  return i;
}
