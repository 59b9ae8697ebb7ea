import type { Boat, KnownSpeed } from '../boat/boat.js';
import { type Figure, GUST_OVER_MEAN } from '../catalogue/catalogue.js';
import { faultList } from '../errors.js';
import { checkPolars, type Polar, type PolarSet, type PolarVariant } from '../polar/polar.js';
import { says } from '../wording.js';
import { ASSUMED, type Assumptions, LEAST_BAND, MID, SCENARIOS } from './assumptions.js';
import { type Balance, balanceOf } from './balance.js';
import { basisOf } from './basis.js';
import { type FittedTo, fittedBy, fittedResistance } from './fit.js';
import { isTouched } from './forceTables.js';
import { balancedPoints, driveOfKnown, LEAST_KN, type PolarPoint, pointsOf } from './known.js';
import { carried, forcesOf, type Model, modelOf } from './model.js';
import type { Resistance } from './resistance.js';

/** How to estimate speeds. */
export interface EstimateOptions {
  /** Name of the boat's file in faults. Default `boat`. */
  readonly file?: string;
  /** The one polar of the whole boat, which the estimate is fitted to and splits between the plans. */
  readonly boatPolar?: Polar;
  /** Another estimate of the same hull, whose resistance is taken instead of fitting one. */
  readonly hullOf?: Pick<Estimate, 'resistance' | 'variantResistances'>;
  /** Whether bands are worked out too (default); without them `low` and `high` are the estimate and there are no variants. */
  readonly bands?: boolean;
  /** Winds and angles to estimate; not with a polar of the boat, whose own they then are. */
  readonly twsKn?: readonly number[];
  readonly twaDeg?: readonly number[];
}

/** A speed the owner knows beside what the estimate makes of it. */
export interface KnownSpeedMet extends KnownSpeed {
  readonly sailPlan: string;
  readonly estimatedKn: number;
  readonly misfitPercent: number;
}

/** How the estimate misses a polar of the whole boat before it is split: the best plan's speed over the polar's. */
export interface Misfit {
  readonly points: number;
  readonly meanPercent: number;
  readonly worstPercent: number;
  readonly worstTwsKn: number;
  readonly worstTwaDeg: number;
}

/** Points of a plan at which she makes no speed, or where none was found. */
export interface PointsWithout {
  readonly sailPlan: string;
  /** The sails do not drive her from rest. */
  readonly noDrive: number;
  /** They still drive her at 60 kn: something in the boat file is not right. */
  readonly noEnd: number;
}

/** What an estimate rests on. */
export interface Estimate {
  readonly fittedTo: FittedTo;
  readonly resistance: Resistance;
  /** The same for each of the variants, in their order. */
  readonly variantResistances: readonly Resistance[];
  readonly knownSpeeds: readonly KnownSpeedMet[];
  readonly misfit?: Misfit;
  /** Gust over mean wind within which a catamaran is kept from heeling too much. */
  readonly gustFactor: number;
  /** What the boat file leaves out and what is assumed, by path or name, each with its ground. */
  readonly filledIn: Readonly<Record<string, Figure<unknown>>>;
  readonly pointsWithout: readonly PointsWithout[];
}

/** Estimated polars with their bands and what they rest on. */
export interface EstimatedPolars extends PolarSet {
  readonly status: 'estimated';
  readonly low: Readonly<Record<string, Polar>>;
  readonly high: Readonly<Record<string, Polar>>;
  readonly variants: readonly PolarVariant[];
  readonly basis: readonly string[];
  readonly estimate: Estimate;
}

/** Default winds, 4 to 40 kn, and angles, 0 to 180°. */
export const ESTIMATED_TWS_KN = [4, 6, 8, 10, 12, 14, 16, 18, 20, 22, 25, 28, 32, 36, 40] as const;
export const ESTIMATED_TWA_DEG = [
  0, 10, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 75, 80, 85, 90, 95, 100, 105, 110, 115, 120, 125, 130, 135, 140,
  145, 150, 155, 160, 165, 170, 175, 180,
] as const;

/**
 * Speeds of every sail plan of a boat without polars: at each wind and angle the speed at which the drive of her sails and windage is
 * the resistance of her hull. Sail forces are those of the ORC coefficients of 2023 on cloth area, added as the rating rule adds them,
 * flattened, twisted and eased so far that the heeling moment stays allowed; resistance is ITTC-57 friction and a wave term, fitted
 * to the speeds the boat file knows (`knownSpeeds`) or to one polar for the whole boat. docs/model.md has the equations.
 *
 * Steady, in flat water, with a clean hull: at sea a skipper's factor of 0.9 is taken. `low` and `high` add up what each assumption may
 * make; `variants` has them singly, so that two plans can be compared under the same assumption.
 *
 * @throws InputError where the boat file lacks what speeds are estimated from, or a known speed is beyond what her sails drive
 */
export function estimatePolars(boat: Boat, options: EstimateOptions = {}): EstimatedPolars {
  const { file = 'boat', boatPolar } = options;
  const faults = faultList();
  const gustFactor = boat.house?.gustFactor ?? GUST_OVER_MEAN;
  const model = modelOf(boat, gustFactor, file, faults);
  if (boatPolar !== undefined) {
    checkPolars({ plans: { boatPolar }, status: 'measured' }, file, faults);
    if (boatPolar.twaReference === 'heading') {
      faults.add({ file, path: 'boatPolar', ...says.wrongValue('angles to the course', 'angles to the heading') });
    }
  }
  if (boat.boatPolar !== undefined && boatPolar === undefined && options.hullOf === undefined) {
    faults.add({ file, path: 'boatPolar', ...says.boatPolarToGive() });
  }
  const { twsKn = ESTIMATED_TWS_KN, twaDeg = ESTIMATED_TWA_DEG } = options;
  const grid = { twsKn, twaDeg, stwKn: twaDeg.flatMap(() => twsKn.map(() => 0)) };
  checkPolars({ plans: { grid }, status: 'estimated' }, 'options', faults);
  faults.throwIfAny();
  const { hullOf } = options;
  const estimated = (assumed: Assumptions, hull: Resistance | undefined, mid?: Under) =>
    estimatedUnder(assumed, model, boat.knownSpeeds ?? [], options, hull, mid);
  const mid = estimated(MID, hullOf?.resistance);
  for (const [i, known] of mid.impossible) {
    faults.add({ file, path: `knownSpeeds[${i}].stwKn`, ...says.knownSpeedTooFast(known) });
  }
  const { scale } = mid.hull;
  if (mid.fittedTo !== undefined && (scale < SCALES[0] || scale > SCALES[1])) {
    const path = boatPolar === undefined ? 'knownSpeeds' : 'boatPolar';
    faults.add({ file, path, ...says.resistanceOff(SCALES, scale) });
  }
  if (mid.fittedTo === undefined) faults.add({ file, path: 'boatPolar', ...says.boatPolarTooFast() });
  faults.throwIfAny();
  const scenarios = options.bands === false ? [] : SCENARIOS;
  const under = scenarios.map(({ assumed }, i) => estimated(assumed, hullOf?.variantResistances[i], mid));
  const variants = scenarios.map(({ assumption, instead }, i): PolarVariant => {
    const { plans } = under[i]!;
    const moved = Object.entries(plans).filter(([id, { stwKn }]) =>
      stwKn.some((speed, i) => Math.abs(speed - mid.plans[id]!.stwKn[i]!) > 1e-6),
    );
    return { assumption, instead, plans: Object.fromEntries(moved) };
  });
  const estimate: Estimate = {
    fittedTo: mid.fittedTo!,
    resistance: mid.hull,
    variantResistances: under.map(({ hull }) => hull),
    knownSpeeds: mid.knownSpeeds,
    ...(mid.misfit === undefined ? {} : { misfit: mid.misfit }),
    gustFactor,
    filledIn: { ...model.of.filledIn, ...ASSUMED },
    pointsWithout: mid.pointsWithout,
  };
  const polars = { plans: mid.plans, ...bandOf(mid.plans, variants, scenarios.length > 0 ? LEAST_BAND : 0) };
  return {
    ...polars,
    status: 'estimated',
    variants,
    basis: basisOf(estimate, polars, boatPolar !== undefined, scenarios.length > 0),
    estimate,
  };
}

/** Beyond these the resistance of no hull is: a slip in the file. */
const SCALES = [0.2, 6] as const;

interface Under {
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
function estimatedUnder(
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

/** A point of the boat's polar beside the best plan's estimate there. */
interface Share extends PolarPoint {
  readonly estimatedKn: number;
  /** What every plan's estimate is multiplied by, so that the best plan makes what the polar says. */
  readonly share: number;
}

function sharesOf(
  points: readonly PolarPoint[],
  model: Model,
  made: ReadonlyMap<string, readonly Balance[]>,
): readonly Share[] {
  return points.map((point, i) => {
    const allowed = carried(model, point.twsKn, point.twaDeg, ({ id }) => made.get(id)![i]!.stwKn);
    const bestOf = (plans: readonly { readonly id: string }[]) =>
      Math.max(...plans.map(({ id }) => made.get(id)![i]!.stwKn));
    const [ofAllowed, ofAll] = [bestOf(allowed), bestOf(model.plans)];
    const estimatedKn = ofAllowed < LEAST_SPEED * ofAll ? ofAll : ofAllowed;
    return { ...point, estimatedKn, share: estimatedKn === 0 ? 1 : point.stwKn / estimatedKn };
  });
}

/** Slower than this share of the best there is, and the polar is of more sail than the windows allow, as with drive. */
const LEAST_SPEED = 0.7;

function misfitOf(shares: readonly Share[]): Misfit | undefined {
  const off = shares
    .filter(({ stwKn }) => stwKn >= LEAST_KN)
    .map(({ twsKn, twaDeg, stwKn, estimatedKn }) => ({ twsKn, twaDeg, percent: 100 * (estimatedKn / stwKn - 1) }));
  if (off.length === 0) return undefined;
  const worst = off.reduce((most, one) => (Math.abs(one.percent) > Math.abs(most.percent) ? one : most));
  return {
    points: off.length,
    meanPercent: off.reduce((sum, { percent }) => sum + Math.abs(percent), 0) / off.length,
    worstPercent: worst.percent,
    worstTwsKn: worst.twsKn,
    worstTwaDeg: worst.twaDeg,
  };
}

/** The band of each plan: what each assumption at its worse and its better end takes or adds, summed over the assumptions. */
function bandOf(mid: Readonly<Record<string, Polar>>, variants: readonly PolarVariant[], least: number) {
  const assumptions = [...new Set(variants.map(({ assumption }) => assumption))];
  const band = (sign: 1 | -1) =>
    Object.fromEntries(
      Object.entries(mid).map(([id, polar]) => {
        const moved = assumptions.map((name) =>
          variants.flatMap((variant) => (variant.assumption === name ? (variant.plans[id] ?? []) : [])),
        );
        const stwKn = polar.stwKn.map((speed, i) => {
          const by = moved.map((polars) => Math.max(0, ...polars.map((other) => sign * (other.stwKn[i]! - speed))));
          const off = Math.max(
            least * speed,
            by.reduce((sum, one) => sum + one, 0),
          );
          return Math.max(0, speed + sign * off);
        });
        return [id, { ...polar, stwKn }];
      }),
    );
  return { low: band(-1), high: band(1) };
}
