import { heldBetween } from '../rising.js';
import { GRAVITY, KN_PER_MPS, RAD_PER_DEG } from '../units.js';
import type { Assumptions } from './assumptions.js';
import { type ForceTables, forceTables } from './forceTables.js';
import type { Particulars } from './particulars.js';
import type { PlanSet } from './sailsSet.js';
import { gradientAt } from './windFelt.js';

/** What sails and windage make at a speed, newtons; trim as the crew would set it. */
export interface Forces {
  /** Along the way through the water, windage and the drag of leeway taken off. */
  readonly driveN: number;
  /** Heeling moment in the wind that is limited: the gust of a catamaran, the mean wind of a monohull. */
  readonly heelingNm: number;
  /** Lift over the full lift of the tables. */
  readonly flat: number;
  /** Share of the sails' force that is kept by easing sheets; 1: nothing is eased. Close to the wind drag is kept. */
  readonly eased: number;
  /** At the centre of effort. */
  readonly awaDeg: number;
  readonly awsKn: number;
}

/** The forces of a plan at a true wind at 10 m, its angle to the course and a speed through the water. */
export type PlanForces = (twsKn: number, twaDeg: number, stwKn: number) => Forces;

const AIR_DENSITY = 1.225;
/** Least lift over the full lift by flattening: of working sails, and with a sail set flying (S1, S5). */
const LEAST_FLAT = { working: 0.42, flying: 0.53 } as const;
/** Parasitic drag over that of the tables, by flattening (S1, S5). */
const DRAG_BY_FLAT = [
  [0.4, 1.06],
  [0.55, 1.06],
  [0.6, 1.055],
  [0.65, 1.048],
  [0.7, 1.035],
  [0.75, 1.02],
  [0.8, 1.008],
  [0.85, 1.002],
  [0.9, 1],
  [0.95, 1.004],
  [1, 1.06],
] as const;
/** Windage: drag coefficients of hull and mast, from ahead and abeam (S1). */
const WINDAGE = { hull: 0.816, mastAhead: 0.4, mastAbeam: 0.6, mastBare: 0.8, hullCentre: 0.66 } as const;
/** Placeholders: mast section over its height, from ahead and abeam; deckhouse over the waterline and over the beam and length. */
const MAST = { ahead: 0.013, abeam: 0.02 } as const;
const HOUSE = {
  catamaran: { height: 0.06, beam: 0.7, length: 0.5 },
  monohull: { height: 0.03, beam: 0.5, length: 0.3 },
};

/** The forces of a plan under what is assumed; its tables are made once and asked many times. */
export function planForces(
  plan: PlanSet,
  of: Particulars,
  assumed: Assumptions,
  mastM: number,
  gustFactor: number,
): PlanForces {
  const tables = forceTables(plan, assumed, of.boomLimitDeg);
  const areaM2 = plan.sails.reduce((sum, sail) => sum + sail.areaM2, 0);
  const effortM =
    areaM2 === 0 ? 1 : plan.sails.reduce((sum, sail) => sum + sail.areaM2 * sail.centreOfEffortM, 0) / areaM2;
  const effortGradient = gradientAt(effortM);
  const windage = windageOf(plan, of, mastM);
  const trims = trimsOf(plan, effortM);
  const limitNm = limitMomentNm(of);
  const limitedGust = of.isCatamaran ? gustFactor : 1;
  return (twsKn, twaDeg, stwKn) => {
    const felt = feltAt(twsKn * effortGradient, twaDeg, stwKn);
    const gust = limitedGust === 1 ? felt : feltAt(twsKn * effortGradient * limitedGust, twaDeg, stwKn);
    const own = feltAt(twsKn * windage.gradient, twaDeg, stwKn);
    const windDragN =
      pressureN(own.awsKn) *
      (windage.aheadM2 * Math.abs(Math.cos(own.awaDeg * RAD_PER_DEG)) +
        windage.abeamM2 * Math.abs(Math.sin(own.awaDeg * RAD_PER_DEG)));
    const windSideN = windDragN * Math.sin(own.awaDeg * RAD_PER_DEG);
    const leewaySin = Math.sin(heldBetween(of.leeway, felt.awaDeg)! * RAD_PER_DEG);
    // What stands across the way at an angle of leeway is drag by its sine, as of a keel of low aspect.
    const alongN = (driveN: number, sideN: number) => driveN - Math.max(0, sideN + windSideN) * leewaySin;
    const trim = bestTrim(tables, felt, gust, trims, limitNm, alongN);
    return {
      driveN: alongN(trim.driveN, trim.sideN) - windDragN * Math.cos(own.awaDeg * RAD_PER_DEG),
      heelingNm: trim.heelingNm,
      flat: trim.flat,
      eased: trim.eased,
      awaDeg: felt.awaDeg,
      awsKn: felt.awsKn,
    };
  };
}

/** The heeling moment that is allowed, N m. */
export function limitMomentNm(of: Particulars): number {
  const weightN = of.displacementKg * GRAVITY;
  return of.isCatamaran
    ? of.stabilityShare * weightN * 0.5 * of.hullCentresM
    : weightN * of.metacentricHeightM * Math.sin(of.heelLimitDeg * RAD_PER_DEG);
}

const pressureN = (awsKn: number): number => 0.5 * AIR_DENSITY * (awsKn / KN_PER_MPS) ** 2;

interface Felt {
  readonly awaDeg: number;
  readonly awsKn: number;
}

function feltAt(twsKn: number, twaDeg: number, stwKn: number): Felt {
  const ahead = stwKn + twsKn * Math.cos(twaDeg * RAD_PER_DEG);
  const across = twsKn * Math.sin(twaDeg * RAD_PER_DEG);
  return { awsKn: Math.sqrt(ahead * ahead + across * across), awaDeg: Math.atan2(across, ahead) / RAD_PER_DEG };
}

function windageOf({ sails }: PlanSet, of: Particulars, mastM: number) {
  const house = HOUSE[of.isCatamaran ? 'catamaran' : 'monohull'];
  const houseM = house.height * of.waterlineM;
  const hasSail = sails.some(({ isMain }) => isMain);
  const aheadM2 = of.beamM * (of.freeboardM + house.beam * houseM);
  const abeamM2 = of.lengthM * (of.freeboardM + house.length * houseM);
  const mastAhead = MAST.ahead * mastM ** 2;
  const mastAbeam = MAST.abeam * mastM ** 2;
  return {
    // Hull and mast feel the wind each at its height; the mast's is brought to the hull's by its pressure.
    gradient: gradientAt(WINDAGE.hullCentre * of.freeboardM),
    aheadM2:
      WINDAGE.hull * aheadM2 + (hasSail ? WINDAGE.mastAhead : WINDAGE.mastBare) * mastAhead * mastPressure(of, mastM),
    abeamM2:
      WINDAGE.hull * abeamM2 + (hasSail ? WINDAGE.mastAbeam : WINDAGE.mastBare) * mastAbeam * mastPressure(of, mastM),
  };
}

const mastPressure = ({ freeboardM }: Particulars, mastM: number): number =>
  (gradientAt(freeboardM + mastM / 2) / gradientAt(WINDAGE.hullCentre * freeboardM)) ** 2;

/** A way to trim: how flat, what that makes of parasitic drag, and how high the force then stands. */
interface Trim {
  readonly flat: number;
  readonly drag: number;
  readonly effortM: number;
}

/** The trims that are tried, full first: flattening also twists, which lowers the centre of effort (S1, 2023). */
function trimsOf({ sails, fraction }: PlanSet, effortM: number): readonly Trim[] {
  const least = LEAST_FLAT[sails.some(({ isFlying }) => isFlying) ? 'flying' : 'working'];
  const flats = [1, 0.95, 0.9, 0.85, 0.8, 0.75, 0.7, 0.65, 0.6, 0.55, 0.5, 0.45].filter((flat) => flat > least);
  return [...flats, least].map((flat) => ({
    flat,
    drag: heldBetween(DRAG_BY_FLAT, flat)!,
    effortM: effortM * (1 - 0.406 * (1 - flat) - 0.902 * (1 - flat) * (1 - fraction)),
  }));
}

interface Trimmed {
  readonly driveN: number;
  readonly sideN: number;
  readonly heelingNm: number;
  readonly flat: number;
  readonly eased: number;
}

/**
 * The trim that drives her most along her way, by what the heeling limit allows: every trim as it is, or with its sheets eased so far that
 * it is allowed, and the one just allowed between two. Which trim heels least hangs on the angle: abaft the beam lift stands to windward,
 * and flattening heels her more.
 */
function bestTrim(
  { liftM2, dragM2, ofLiftM2 }: ForceTables,
  felt: Felt,
  gust: Felt,
  trims: readonly Trim[],
  limitNm: number,
  alongN: (driveN: number, sideN: number) => number,
): Trimmed {
  const [lift, drag, ofLift] = [at(liftM2, felt.awaDeg), at(dragM2, felt.awaDeg), at(ofLiftM2, felt.awaDeg)];
  const [cos, sin] = [Math.cos(felt.awaDeg * RAD_PER_DEG), Math.sin(felt.awaDeg * RAD_PER_DEG)];
  const pressure = pressureN(felt.awsKn);
  const isGust = gust !== felt;
  const gustLift = isGust ? at(liftM2, gust.awaDeg) : lift;
  const gustDrag = isGust ? at(dragM2, gust.awaDeg) : drag;
  const gustOfLift = isGust ? at(ofLiftM2, gust.awaDeg) : ofLift;
  const [gustCos, gustSin] = [Math.cos(gust.awaDeg * RAD_PER_DEG), Math.sin(gust.awaDeg * RAD_PER_DEG)];
  const gustPressure = pressureN(gust.awsKn);
  // A sail that luffs close to the wind still drags; before the wind, where drag drives, easing spills it too.
  const dragKept = Math.max(0, cos);
  // Heeling of what easing takes, and of what it leaves.
  const taken = ({ flat, drag: more, effortM }: Trim) =>
    gustPressure *
    (gustLift * flat * gustCos + (gustDrag * more * (1 - dragKept) + gustOfLift * flat * flat) * gustSin) *
    effortM;
  const kept = ({ drag: more, effortM }: Trim) => gustPressure * gustDrag * more * dragKept * gustSin * effortM;
  let best: Trimmed | undefined;
  let bestAlongN = Number.NEGATIVE_INFINITY;
  const consider = (trim: Trim) => {
    const { flat, drag: more } = trim;
    const [takenNm, keptNm] = [taken(trim), kept(trim)];
    const eased = takenNm + keptNm <= limitNm ? 1 : Math.max(0, (limitNm - keptNm) / takenNm);
    const l = eased * lift * flat;
    const d = drag * more * (eased + (1 - eased) * dragKept) + eased * ofLift * flat * flat;
    const [driveN, sideN] = [pressure * (l * sin - d * cos), pressure * (l * cos + d * sin)];
    const along = alongN(driveN, sideN);
    if (along <= bestAlongN) return;
    bestAlongN = along;
    best = { driveN, sideN, heelingNm: eased * takenNm + keptNm, flat, eased };
  };
  let before: { readonly trim: Trim; readonly heelingNm: number } | undefined;
  for (const trim of trims) {
    const heelingNm = taken(trim) + kept(trim);
    if (before !== undefined && before.heelingNm > limitNm !== heelingNm > limitNm) {
      const share = (limitNm - heelingNm) / (before.heelingNm - heelingNm);
      consider({
        flat: trim.flat + share * (before.trim.flat - trim.flat),
        drag: trim.drag + share * (before.trim.drag - trim.drag),
        effortM: trim.effortM + share * (before.trim.effortM - trim.effortM),
      });
    }
    consider(trim);
    before = { trim, heelingNm };
  }
  return best!;
}

/** The value of a table at an angle, straight between whole degrees. */
function at(table: Float64Array, awaDeg: number): number {
  const angle = Math.min(180, Math.abs(awaDeg));
  const i = Math.min(179, Math.floor(angle));
  return table[i]! + (angle - i) * (table[i + 1]! - table[i]!);
}
