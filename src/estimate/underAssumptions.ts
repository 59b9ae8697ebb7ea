import type { KnownSpeed } from '../boat/boat.js';
import type { Polar } from '../polar/polar.js';
import { type Assumptions, MID } from './assumptions.js';
import { type Balance, balanceOf } from './balance.js';
import { type FittedTo, fittedBy, fittedResistance } from './fit.js';
import { isTouched } from './forceTables.js';
import { balancedPoints, driveOfKnown, LEAST_KN, pointsOf } from './known.js';
import { forcesOf, type Model } from './model.js';
import type { EstimateOptions, KnownSpeedMet, Misfit, PointsWithout } from './record.js';
import type { Resistance } from './resistance.js';
import { misfitOf, sharesOf } from './split.js';

/** Default winds, 4 to 40 kn, and angles, 0 to 180°. */
export const ESTIMATED_TWS_KN = [4, 6, 8, 10, 12, 14, 16, 18, 20, 22, 25, 28, 32, 36, 40] as const;
export const ESTIMATED_TWA_DEG = [
  0, 10, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 75, 80, 85, 90, 95, 100, 105, 110, 115, 120, 125, 130, 135, 140,
  145, 150, 155, 160, 165, 170, 175, 180,
] as const;

/** An estimate under one set of assumptions. */
export interface Under {
  /** By plan, at each angle and wind, before any split. */
  readonly made: ReadonlyMap<string, readonly Balance[]>;
  readonly plans: Readonly<Record<string, Polar>>;
  readonly hull: Resistance;
  readonly fittedTo: FittedTo | undefined;
  readonly knownSpeeds: readonly KnownSpeedMet[];
  /** Known speeds beyond what the sails drive, with the plan. */
  readonly impossible: readonly (readonly [number: number, sailPlan: string])[];
  readonly misfit: Misfit | undefined;
  readonly pointsWithout: readonly PointsWithout[];
}

/** The whole estimate under one set of assumptions: fitted, and split where there is a polar of the whole boat. */
export function estimatedUnder(
  assumed: Assumptions,
  model: Model,
  knownSpeeds: readonly KnownSpeed[],
  { boatPolar, twsKn, twaDeg }: EstimateOptions,
  given: Resistance | undefined,
  mid: Under | undefined,
): Under {
  const forces = forcesOf(model, assumed);
  const points = boatPolar === undefined ? undefined : pointsOf(boatPolar);
  const met = knownSpeeds.map((known) => ({ known, ...driveOfKnown(model, forces, known) }));
  const impossible = met.flatMap(({ sailPlan, driveN }, i) => (driveN > 0 ? [] : [[i, sailPlan] as const]));
  const balanced =
    points === undefined
      ? met.flatMap(({ known: { stwKn }, driveN }) => (driveN > 0 ? [{ stwKn, driveN }] : []))
      : balancedPoints(model, forces, points);
  const known = points?.filter(({ stwKn }) => stwKn >= LEAST_KN) ?? knownSpeeds;
  // With an exponent assumed at an end of its band, it is not fitted.
  const most = assumed.waveExponent === MID.waveExponent ? Number.POSITIVE_INFINITY : 2;
  const fittedTo = fittedBy(Math.min(most, strengthsOf(known.map((one) => one.twsKn))));
  // Known speeds that an assumption leaves without drive fit nothing: the hull is as it was.
  const isLost = balanced.length === 0 && known.length > 0;
  const hull =
    given ??
    (isLost && mid !== undefined
      ? mid.hull
      : fittedResistance(balanced, model.of, assumed.waveExponent, balanced.length === 0 ? 'nothing' : fittedTo));
  const speed = (id: string, wind: number, angle: number) => balanceOf(forces.get(id)!, model.of, hull, wind, angle);
  const winds = boatPolar === undefined ? (twsKn ?? ESTIMATED_TWS_KN) : [...new Set(points!.map((one) => one.twsKn))];
  const angles = boatPolar?.twaDeg ?? twaDeg ?? ESTIMATED_TWA_DEG;
  const isSameHull = mid !== undefined && isSame(hull, mid.hull);
  const made = new Map(
    model.plans.map((plan): readonly [string, readonly Balance[]] => {
      const { id } = plan;
      // What an assumption does not touch is as it was.
      if (isSameHull && !isTouched(plan, assumed)) return [id, mid.made.get(id)!];
      return [id, angles.flatMap((angle) => winds.map((wind) => speed(id, wind, angle)))];
    }),
  );
  const shares = points === undefined ? undefined : sharesOf(points, model, made);
  const plans = [...made].map(([id, balances]) => {
    // No plan is faster than the boat is under whatever sails are best.
    const stwKn = balances.map((one, i) =>
      Math.min(one.stwKn * (shares?.[i]?.share ?? 1), points?.[i]?.stwKn ?? one.stwKn),
    );
    return [id, { twsKn: winds, twaDeg: angles, stwKn }] as const;
  });
  const pointsWithout = [...made].map(([sailPlan, balances]) => ({
    sailPlan,
    noDrive: balances.filter(({ why }) => why === 'no-drive').length,
    noEnd: balances.filter(({ why }) => why === 'no-end').length,
  }));
  return {
    made,
    plans: Object.fromEntries(plans),
    hull,
    fittedTo: points !== undefined && balanced.length === 0 ? undefined : fittedTo,
    knownSpeeds: met.map(({ known: one, sailPlan }) => {
      const { stwKn: estimatedKn } = speed(sailPlan, one.twsKn, one.twaDeg);
      return { ...one, sailPlan, estimatedKn, misfitPercent: 100 * (estimatedKn / one.stwKn - 1) };
    }),
    impossible,
    misfit: shares === undefined ? undefined : misfitOf(shares),
    pointsWithout: pointsWithout.filter(({ noDrive, noEnd }) => noDrive + noEnd > 0),
  };
}

const isSame = (a: Resistance, b: Resistance) =>
  a.scale === b.scale && a.waveShare === b.waveShare && a.waveExponent === b.waveExponent;

/** Winds this many times stronger than the last are another strength. */
const STRONGER = 1.25;

function strengthsOf(twsKn: readonly number[]): number {
  let [count, last] = [0, 0];
  for (const wind of [...twsKn].sort((a, b) => a - b)) {
    if (wind < last * STRONGER) continue;
    [count, last] = [count + 1, wind];
  }
  return count;
}
