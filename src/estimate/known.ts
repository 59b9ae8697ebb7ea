import type { KnownSpeed } from '../boat/boat.js';
import type { Polar } from '../polar/polar.js';
import { windAtHeight } from '../wind/wind.js';
import type { Balanced } from './fit.js';
import { carried, type Model } from './model.js';
import type { PlanForces } from './planForces.js';

/** A point of the polar of the whole boat, its wind at 10 m. */
export interface PolarPoint {
  readonly twsKn: number;
  readonly twaDeg: number;
  readonly stwKn: number;
}

/** Slower than this, the share of a boat's own polar says little. */
const LEAST_KN = 1;

/** The plan with the most drive at a wind, an angle and a speed, of those that may be carried: the one the boat is under. */
export function mostDrive(
  model: Model,
  forces: ReadonlyMap<string, PlanForces>,
  { twsKn, twaDeg, stwKn }: PolarPoint,
): { readonly sailPlan: string; readonly driveN: number } {
  const all = carried(model, twsKn, twaDeg, () => stwKn).map(({ id }) => ({
    sailPlan: id,
    driveN: forces.get(id)!(twsKn, twaDeg, stwKn).driveN,
  }));
  return all.reduce((best, one) => (one.driveN > best.driveN ? one : best));
}

/** The plan and drive of a speed the owner knows. */
export function driveOfKnown(model: Model, forces: ReadonlyMap<string, PlanForces>, known: KnownSpeed) {
  const { sailPlan, twsKn, twaDeg, stwKn } = known;
  if (sailPlan === undefined) return mostDrive(model, forces, known);
  return { sailPlan, driveN: forces.get(sailPlan)!(twsKn, twaDeg, stwKn).driveN };
}

/** The points of a boat's polar, their wind brought to 10 m, by angle and then by wind. */
export function pointsOf({ twsKn, twaDeg, stwKn, windHeightM = 10 }: Polar): readonly PolarPoint[] {
  const to10m = 1 / windAtHeight(1, windHeightM);
  return twaDeg.flatMap((angle, i) =>
    twsKn.map((wind, j) => ({ twsKn: wind * to10m, twaDeg: angle, stwKn: stwKn[i * twsKn.length + j]! })),
  );
}

/** The speeds of a boat's polar with the drive of the best plan there; those without drive are left out. */
export function balancedPoints(
  model: Model,
  forces: ReadonlyMap<string, PlanForces>,
  points: readonly PolarPoint[],
): readonly Balanced[] {
  return points
    .filter(({ stwKn }) => stwKn >= LEAST_KN)
    .map((point) => ({ stwKn: point.stwKn, driveN: mostDrive(model, forces, point).driveN }))
    .filter(({ driveN }) => driveN > 0);
}
