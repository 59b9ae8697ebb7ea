import { heldBetween } from '../rising.js';
import { RAD_PER_DEG } from '../units.js';
import type { ApparentWind } from '../wind/wind.js';
import type { ForceTables } from './forceTables.js';
import type { PlanSet } from './sailsSet.js';
import { pressureN } from './windFelt.js';

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
/** A way to trim: how flat, what that makes of parasitic drag, and how high the force then stands. */
export interface Trim {
  readonly flat: number;
  readonly drag: number;
  readonly effortM: number;
}

/** The trims that are tried, full first: flattening also twists, which lowers the centre of effort (S1, 2023). */
export function trimsOf({ sails, fraction }: PlanSet, effortM: number): readonly Trim[] {
  const least = LEAST_FLAT[sails.some(({ isFlying }) => isFlying) ? 'flying' : 'working'];
  const flats = [1, 0.95, 0.9, 0.85, 0.8, 0.75, 0.7, 0.65, 0.6, 0.55, 0.5, 0.45].filter((flat) => flat > least);
  return [...flats, least].map((flat) => ({
    flat,
    drag: heldBetween(DRAG_BY_FLAT, flat)!,
    effortM: effortM * (1 - 0.406 * (1 - flat) - 0.902 * (1 - flat) * (1 - fraction)),
  }));
}

/** What a trim makes. */
export interface Trimmed {
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
export function bestTrim(
  { liftM2, dragM2, ofLiftM2 }: ForceTables,
  felt: ApparentWind,
  gust: ApparentWind,
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
