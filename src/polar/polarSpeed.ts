import { windAtHeight } from '../wind/wind.js';
import type { Polar } from './polar.js';

/** Speed of a polar at a true wind at 10 m, in knots; undefined outside its angles. */
export type PolarSpeed = (twsKn: number, twaDeg: number) => number | undefined;

/**
 * A look-up in a polar by the true wind at 10 m, and the angle the polar refers to: bilinear in TWS and |TWA|, straight to
 * zero below the lowest TWS, held above the highest. Never above the fastest of the four speeds around. Where the polar
 * states another wind height the wind is moved there first, by the power law of 0.11 over the sea.
 */
export function polarSpeed(polar: Polar): PolarSpeed {
  const tws = Float64Array.from(polar.twsKn);
  const twa = Float64Array.from(polar.twaDeg);
  const stw = Float64Array.from(polar.stwKn);
  const columns = tws.length;
  const lowest = tws[0]!;
  const atHeight = windAtHeight(1, polar.windHeightM ?? 10);
  return (windAt10mKn, twaDeg) => {
    const twsKn = windAt10mKn * atHeight;
    const angle = Math.abs(twaDeg);
    if (!(angle >= twa[0]! && angle <= twa[twa.length - 1]!)) return undefined;
    const i = cellOf(twa, angle);
    const share = (angle - twa[i]!) / (twa[i + 1]! - twa[i]!);
    const [lower, upper] = [i * columns, (i + 1) * columns];
    const at = (j: number) => stw[lower + j]! * (1 - share) + stw[upper + j]! * share;
    if (twsKn <= lowest) return lowest === 0 ? at(0) : (at(0) * twsKn) / lowest;
    if (twsKn >= tws[columns - 1]!) return at(columns - 1);
    const j = cellOf(tws, twsKn);
    const windShare = (twsKn - tws[j]!) / (tws[j + 1]! - tws[j]!);
    return at(j) * (1 - windShare) + at(j + 1) * windShare;
  };
}

/** The cell of a rising axis that holds a value: index of its lower end, at most the last but one. */
function cellOf(axis: Float64Array, value: number): number {
  let i = 0;
  while (i < axis.length - 2 && axis[i + 1]! <= value) i += 1;
  return i;
}
