import { KN_PER_MPS } from '../units.js';
import { BANDS } from './assumptions.js';
import type { Particulars } from './particulars.js';
import { type Resistance, resistanceN } from './resistance.js';

/** A speed at which the drive is known, and so the resistance. */
export interface Balanced {
  readonly stwKn: number;
  readonly driveN: number;
}

/** Ends of the wave share over its default within which a fit looks; of the exponent they are those of its band. */
const SHARES = [0.1, 10] as const;
const ROUNDS = 4;
const TRIED = 13;

/** What of the resistance is fitted: nothing, its scale, the share of waves as well, their exponent too. */
export type FittedTo = 'nothing' | 'scale' | 'scale and waves' | 'scale, waves and exponent';

/** What so many different strengths of wind can fix: one the scale only, two the share of waves too, three their exponent. */
export function fittedBy(strengths: number): FittedTo {
  return (['nothing', 'scale', 'scale and waves'] as const)[strengths] ?? 'scale, waves and exponent';
}

/**
 * The resistance that agrees best with speeds at which the drive is known: least squares of the logarithm of resistance over drive. The
 * scale follows from the mean; the share of waves and the exponent are searched over a grid that is made finer round its best.
 */
export function fittedResistance(
  known: readonly Balanced[],
  of: Particulars,
  waveExponent: number,
  fitted: FittedTo,
): Resistance {
  if (fitted === 'nothing') return { scale: 1, waveShare: of.waveShare, waveExponent };
  const withScale = (waveShare: number, exponent: number) => {
    const raw = known.map(({ stwKn, driveN }) =>
      Math.log(driveN / resistanceN(stwKn / KN_PER_MPS, of, { scale: 1, waveShare, waveExponent: exponent })),
    );
    const mean = raw.reduce((sum, one) => sum + one, 0) / raw.length;
    const off = raw.reduce((sum, one) => sum + (one - mean) ** 2, 0);
    return { off, hull: { scale: Math.exp(mean), waveShare, waveExponent: exponent } };
  };
  if (fitted === 'scale') return withScale(of.waveShare, waveExponent).hull;
  let shares: Range = [Math.log(SHARES[0] * of.waveShare), Math.log(SHARES[1] * of.waveShare)];
  let exponents: Range = fitted === 'scale and waves' ? [waveExponent, waveExponent] : BANDS.waveExponent;
  let best = withScale(of.waveShare, waveExponent);
  for (let round = 0; round < ROUNDS; round += 1) {
    for (const share of spread(shares)) {
      for (const exponent of spread(exponents)) {
        const tried = withScale(Math.exp(share), exponent);
        if (tried.off < best.off) best = tried;
      }
    }
    shares = around(Math.log(best.hull.waveShare), shares);
    exponents = around(best.hull.waveExponent, exponents);
  }
  return best.hull;
}

type Range = readonly [from: number, to: number];

const spread = ([from, to]: Range): number[] =>
  from === to ? [from] : Array.from({ length: TRIED }, (_, i) => from + ((to - from) * i) / (TRIED - 1));

/** A sixth of a range on either side of a value, within it. */
function around(value: number, [from, to]: Range): Range {
  const reach = (to - from) / 6;
  return [Math.max(from, value - reach), Math.min(to, value + reach)];
}
