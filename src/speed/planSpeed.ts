import type { LeewayByAngle } from '../boat/boat.js';
import {
  type Polar,
  type PolarDegrees,
  type PolarSpeed,
  polarColumn,
  polarDegrees,
  polarSpeed,
} from '../polar/polar.js';
import { RAD_PER_DEG } from '../units.js';
import { apparentWind, windAtHeight } from '../wind/wind.js';
import { mostLeewayOf, settledLeeway } from './leeway.js';

/** Speeds of a plan through the water at sea, skipper's factor included. */
export interface PlanSpeed {
  /** Speed by the true wind at 10 m and its angle to the course through the water. */
  readonly at: PolarSpeed;
  /** The same at whole degrees from 0 to 180, NaN where there is none. */
  readonly byDegree: PolarDegrees;
  /** The angles to the course through the water between which the plan has a speed. */
  edgesAt(twsKn: number): readonly [minDeg: number, maxDeg: number];
  /** The highest speed of the polar. */
  readonly mostKn: number;
  /** Highest true wind of the polar, at 10 m. */
  readonly twsMaxKn: number;
  /** Leeway on a course at an angle to the true wind; undefined where the boat has none. */
  readonly leewayAt: ((twsKn: number, courseAngleDeg: number, stwKn: number) => number) | undefined;
  /** Never less than the plan's best speed made good to windward (`up`) or to leeward (`down`). */
  vmgBound(twsKn: number, way: 'up' | 'down'): number;
}

/** The speed look-up of a plan from its polar, and the leeway of the boat, if any. */
export function planSpeed(polar: Polar, skipperFactor: number, leeway?: LeewayByAngle): PlanSpeed {
  const raw = polarSpeed(polar);
  const scaled: PolarSpeed = (twsKn, twaDeg) => {
    const speed = raw(twsKn, twaDeg);
    return speed === undefined ? undefined : speed * skipperFactor;
  };
  const [twaMinDeg, twaMaxDeg] = [polar.twaDeg[0]!, polar.twaDeg.at(-1)!];
  const settled = leeway === undefined ? undefined : settledLeeway(leeway);
  const atHeading = polar.twaReference === 'heading' ? settled : undefined;
  const mostLeewayDeg = atHeading === undefined ? 0 : mostLeewayOf(leeway!);
  const bounds = { up: vmgBounds(polar, 1, 0), down: vmgBounds(polar, -1, mostLeewayDeg) };
  // As a polar of one angle, so that the bound is interpolated over wind speed exactly as the speeds are.
  const asPolar = (stwKn: readonly number[]) => polarSpeed({ ...polar, twaDeg: [0, 180], stwKn: [...stwKn, ...stwKn] });
  const boundAt = { up: asPolar(bounds.up), down: asPolar(bounds.down) };
  const degrees = polarDegrees(polar);
  const at = atHeading === undefined ? scaled : speedByHeading(scaled, twaMinDeg, twaMaxDeg, atHeading);
  return {
    at,
    byDegree(twsKn, into) {
      if (atHeading === undefined) {
        degrees(twsKn, into);
        for (let degree = 0; degree <= 180; degree += 1) into[degree]! *= skipperFactor;
      } else for (let degree = 0; degree <= 180; degree += 1) into[degree] = at(twsKn, degree) ?? Number.NaN;
    },
    edgesAt: (twsKn) =>
      atHeading === undefined
        ? [twaMinDeg, twaMaxDeg]
        : [courseAngleOf(scaled, twsKn, twaMinDeg, atHeading), courseAngleOf(scaled, twsKn, twaMaxDeg, atHeading)],
    mostKn: polar.stwKn.reduce((fastest, kn) => Math.max(fastest, kn), 0) * skipperFactor,
    twsMaxKn: polar.twsKn.at(-1)! / windAtHeight(1, polar.windHeightM ?? 10),
    leewayAt:
      settled === undefined
        ? undefined
        : (twsKn, courseAngleDeg, stwKn) => {
            const { awaDeg } = apparentWind(twsKn, Math.abs(courseAngleDeg), stwKn);
            return settled(() => awaDeg);
          },
    vmgBound: (twsKn, way) => boundAt[way](twsKn, 90)! * skipperFactor,
  };
}

type SettledLeeway = ReturnType<typeof settledLeeway>;

/** A hair outside the last angle is on it: the leeway is found to so much only. */
const HAIR_DEG = 1e-6;

/** Speeds by the angle to the course, of a polar whose angles are off the heading: leeway and speed are found together. */
function speedByHeading(byHeading: PolarSpeed, minDeg: number, maxDeg: number, settled: SettledLeeway): PolarSpeed {
  const held = (twaDeg: number) => Math.min(maxDeg, Math.max(minDeg, twaDeg));
  return (twsKn, courseAngleDeg) => {
    const angle = Math.abs(courseAngleDeg);
    const leewayDeg = settled((tried) => apparentWind(twsKn, angle, byHeading(twsKn, held(angle - tried))!).awaDeg);
    const twaDeg = angle - leewayDeg;
    return twaDeg > minDeg - HAIR_DEG && twaDeg < maxDeg + HAIR_DEG ? byHeading(twsKn, held(twaDeg)) : undefined;
  };
}

/** The angle to the course that goes with an angle off the heading, at most 180. */
function courseAngleOf(byHeading: PolarSpeed, twsKn: number, twaDeg: number, settled: SettledLeeway): number {
  const stwKn = byHeading(twsKn, twaDeg)!;
  const courseAngleDeg = (leewayDeg: number) => Math.min(180, twaDeg + leewayDeg);
  return courseAngleDeg(settled((tried) => apparentWind(twsKn, courseAngleDeg(tried), stwKn).awaDeg));
}

/** The finer, the tighter the bound: 1 % at half a degree, computed once a plan. */
const BOUND_CELL_DEG = 0.5;

/**
 * For each wind speed of a polar, a bound on speed made good up (sign 1) or down wind (−1): per half degree, fastest end × best
 * cosine, the angles opened by as much as leeway may.
 */
function vmgBounds(polar: Polar, sign: 1 | -1, openedDeg: number): number[] {
  const { twsKn, twaDeg } = polar;
  const angles: number[] = [];
  for (let i = 1; i < twaDeg.length; i += 1)
    for (let angle = twaDeg[i - 1]!; angle < twaDeg[i]!; angle += BOUND_CELL_DEG) angles.push(angle);
  angles.push(twaDeg.at(-1)!);
  const cosines = angles.map((angle, i) => {
    const ends = [angle, angles[i + 1] ?? angle, Math.min(180, (angles[i + 1] ?? angle) + openedDeg)];
    return Math.max(...ends.map((end) => sign * Math.cos(end * RAD_PER_DEG)));
  });
  return twsKn.map((_, j) => {
    const column = polarColumn(polar, j);
    const speeds = angles.map((angle) => column(angle)!);
    return speeds.reduce(
      (bound, speed, i) => Math.max(bound, Math.max(speed, speeds[i + 1] ?? speed) * cosines[i]!),
      0,
    );
  });
}
