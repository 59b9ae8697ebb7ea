import { type Polar, type PolarSpeed, polarSpeed } from '../polar/polar.js';
import { RAD_PER_DEG } from '../units.js';

/** Speeds of a plan through the water at sea, skipper's factor included. */
export interface PlanSpeed {
  readonly at: PolarSpeed;
  readonly twaMinDeg: number;
  readonly twaMaxDeg: number;
  readonly twsMaxKn: number;
  /** Never less than the plan's best speed made good to windward (`up`) or to leeward (`down`). */
  vmgBound(twsKn: number, way: 'up' | 'down'): number;
}

/** The speed look-up of a plan from its polar. */
export function planSpeed(polar: Polar, skipperFactor: number): PlanSpeed {
  const raw = polarSpeed(polar);
  const at: PolarSpeed = (twsKn, twaDeg) => {
    const speed = raw(twsKn, twaDeg);
    return speed === undefined ? undefined : speed * skipperFactor;
  };
  const bounds = { up: vmgBounds(polar, 1), down: vmgBounds(polar, -1) };
  // As a polar of one angle, so that the bound is interpolated over wind speed exactly as the speeds are.
  const asPolar = (stwKn: readonly number[]) =>
    polarSpeed({ twsKn: polar.twsKn, twaDeg: [0, 180], stwKn: [...stwKn, ...stwKn] });
  const boundAt = { up: asPolar(bounds.up), down: asPolar(bounds.down) };
  return {
    at,
    twaMinDeg: polar.twaDeg[0]!,
    twaMaxDeg: polar.twaDeg.at(-1)!,
    twsMaxKn: polar.twsKn.at(-1)!,
    vmgBound: (twsKn, way) => boundAt[way](twsKn, 90)! * skipperFactor,
  };
}

/** For each wind speed of a polar, a bound on speed made good up (sign 1) or down wind (−1): per cell, fastest end × best cosine. */
function vmgBounds(polar: Polar, sign: 1 | -1): number[] {
  const { twsKn, twaDeg, stwKn } = polar;
  return twsKn.map((_, j) => {
    let bound = 0;
    for (let i = 1; i < twaDeg.length; i += 1) {
      const fastest = Math.max(stwKn[(i - 1) * twsKn.length + j]!, stwKn[i * twsKn.length + j]!);
      const cosines = [twaDeg[i - 1]!, twaDeg[i]!].map((angle) => sign * Math.cos(angle * RAD_PER_DEG));
      bound = Math.max(bound, fastest * Math.max(...cosines));
    }
    return bound;
  });
}
