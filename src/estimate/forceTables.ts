import { RAD_PER_DEG } from '../units.js';
import { type Assumptions, MID, SHADOW_END_DEG } from './assumptions.js';
import { ASYMMETRIC, ASYMMETRIC_2026, type CoefficientTable, coefficientsAt, JIB } from './coefficients.js';
import type { PlanSet, SailSet } from './sailsSet.js';

/** Forces of all sails of a plan, by whole degrees of AWA from 0 to 180: coefficients times areas, m². */
export interface ForceTables {
  readonly liftM2: Float64Array;
  /** Parasitic drag. */
  readonly dragM2: Float64Array;
  /** Drag that goes with lift squared: profile and induced together, for the full lift. */
  readonly ofLiftM2: Float64Array;
}

/** Effective height over the height of the rig at two angles, straight between and held beyond (S1, of which only these two were found). */
const HEIGHT_BY_AWA = { closeDeg: 20, close: 1.45, wideDeg: 80, wide: 0.8 } as const;

/**
 * The sails of a plan together, as the rating documentation adds them (S1): lift and parasitic drag by areas; the drag of lift from
 * the sails' own shares of lift squared and, induced, lift² / (π · height²) of an effective height over all.
 */
export function forceTables(plan: PlanSet, assumed: Assumptions, boomLimitDeg: number): ForceTables {
  const [liftM2, dragM2, ofLiftM2] = [new Float64Array(181), new Float64Array(181), new Float64Array(181)];
  const headM = Math.max(0, ...plan.sails.map((sail) => sail.headM));
  for (let awaDeg = 0; awaDeg <= 180; awaDeg += 1) {
    let [lift, drag, profile] = [0, 0, 0];
    for (const sail of plan.sails) {
      for (const { table, weight, kp } of partsOf(sail, plan, assumed, awaDeg)) {
        const own = coefficientsAt(table, awaDeg);
        const { cl, cd } = sail.hasBoom ? boomLimited(own.cl, own.cd, awaDeg, boomLimitDeg) : own;
        lift += cl * weight * sail.areaM2;
        drag += cd * weight * sail.areaM2;
        profile += kp * cl ** 2 * weight * sail.areaM2;
      }
    }
    const heightM = effectiveHeightM(awaDeg, plan, headM);
    liftM2[awaDeg] = lift;
    dragM2[awaDeg] = drag;
    ofLiftM2[awaDeg] = profile + (heightM > 0 ? lift ** 2 / (Math.PI * heightM ** 2) : 0);
  }
  return { liftM2, dragM2, ofLiftM2 };
}

function effectiveHeightM(awaDeg: number, { spanFactor }: PlanSet, headM: number): number {
  const { closeDeg, close, wideDeg, wide } = HEIGHT_BY_AWA;
  const share = Math.min(1, Math.max(0, (awaDeg - closeDeg) / (wideDeg - closeDeg)));
  return (close + (wide - close) * share) * spanFactor * headM;
}

interface Part {
  readonly table: CoefficientTable;
  readonly weight: number;
  readonly kp: number;
}

/** The parts of a sail that stand like one table or another, with what shadow and a missing main make of them. */
function partsOf(sail: SailSet, { hasMain }: PlanSet, assumed: Assumptions, awaDeg: number): readonly Part[] {
  const table = sail.stands !== 'asymmetric' ? sail.stands : assumed.edition === 2026 ? ASYMMETRIC_2026 : ASYMMETRIC;
  const lit = sail.isShadowed && hasMain ? lightLeft(awaDeg, assumed.shadowFromDeg) : 1;
  // What stands like a headsail falls behind the main; what stands like a spinnaker was measured with one.
  const alone = sail.isFlying && !hasMain ? assumed.setWithoutMain : 1;
  const own: Part = { table, weight: sail.share * (sail.isFlying ? alone : lit), kp: table.kp };
  return sail.share === 1 ? [own] : [own, { table: JIB, weight: (1 - sail.share) * lit, kp: JIB.kp }];
}

/** Whether the forces of a plan are others under what is assumed than in the middle of every band. */
export function isTouched({ sails, hasMain }: PlanSet, assumed: Assumptions): boolean {
  return (
    (assumed.edition !== MID.edition && sails.some(({ stands }) => stands === 'asymmetric')) ||
    (assumed.setWithoutMain !== MID.setWithoutMain && !hasMain && sails.some(({ isFlying }) => isFlying)) ||
    (assumed.shadowFromDeg !== MID.shadowFromDeg && hasMain && sails.some(({ isShadowed }) => isShadowed))
  );
}

/** What is left of a headsail's force behind a main. */
export function lightLeft(awaDeg: number, fromDeg: number): number {
  return Math.min(1, Math.max(0, (SHADOW_END_DEG - awaDeg) / (SHADOW_END_DEG - fromDeg)));
}

/**
 * Coefficients of a main whose boom goes no further off than its limit. The force of a stalled sail stands square on the boom: where
 * the tables' resultant points nearer to the bow than that, it is turned away from it, its size kept.
 */
function boomLimited(
  cl: number,
  cd: number,
  awaDeg: number,
  boomLimitDeg: number,
): { readonly cl: number; readonly cd: number } {
  const { drive, side } = resolved(cl, cd, awaDeg);
  const offBowDeg = Math.atan2(side, drive) / RAD_PER_DEG;
  const leastDeg = 90 - boomLimitDeg;
  if (awaDeg < 90 || Math.abs(offBowDeg) >= leastDeg) return { cl, cd };
  const size = Math.sqrt(cl ** 2 + cd ** 2);
  const [cos, sin] = [Math.cos(leastDeg * RAD_PER_DEG), Math.sin(leastDeg * RAD_PER_DEG)];
  const [limitedDrive, limitedSide] = [size * cos, size * sin];
  const [cosAwa, sinAwa] = [Math.cos(awaDeg * RAD_PER_DEG), Math.sin(awaDeg * RAD_PER_DEG)];
  return {
    cl: limitedDrive * sinAwa + limitedSide * cosAwa,
    cd: limitedSide * sinAwa - limitedDrive * cosAwa,
  };
}

/** Lift and drag resolved along the boat and across her: CR = CL sin β − CD cos β, CH = CL cos β + CD sin β. */
function resolved(cl: number, cd: number, awaDeg: number): { readonly drive: number; readonly side: number } {
  const [cos, sin] = [Math.cos(awaDeg * RAD_PER_DEG), Math.sin(awaDeg * RAD_PER_DEG)];
  return { drive: cl * sin - cd * cos, side: cl * cos + cd * sin };
}
