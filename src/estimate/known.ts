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

/**
 * Where what may be carried has less than this of the drive there is, the owner of the polar was under more than the windows allow: at
 * their close edge a small jib alone would be taken for the whole boat.
 */
const LEAST_DRIVE = 0.5;

/** Slower than this, the share of a boat's own polar says little. */
export const LEAST_KN = 1;

/** The plan with the most drive at a wind, an angle and a speed, of those that may be carried: the one the boat is under. */
function mostDrive(
  model: Model,
  forces: ReadonlyMap<string, PlanForces>,
  { twsKn, twaDeg, stwKn }: PolarPoint,
): { readonly sailPlan: string; readonly driveN: number } {
  const best = (of: readonly { readonly id: string }[]) =>
    of
      .map(({ id }) => ({ sailPlan: id, driveN: forces.get(id)!(twsKn, twaDeg, stwKn).driveN }))
      .reduce((most, one) => (one.driveN > most.driveN ? one : most));
  const ofCarried = best(carried(model, twsKn, twaDeg, () => stwKn));
  const ofAll = best(model.plans);
  return ofCarried.driveN < LEAST_DRIVE * ofAll.driveN ? ofAll : ofCarried;
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
