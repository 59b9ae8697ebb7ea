import { heldBetween } from '../rising.js';
import { GRAVITY, RAD_PER_DEG } from '../units.js';
import { apparentWind } from '../wind/wind.js';
import type { Assumptions } from './assumptions.js';
import { forceTables } from './forceTables.js';
import type { Particulars } from './particulars.js';
import type { PlanSet } from './sailsSet.js';
import { bestTrim, trimsOf } from './trim.js';
import { windageOf } from './windage.js';
import { gradientAt, pressureN } from './windFelt.js';

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
    const felt = apparentWind(twsKn * effortGradient, twaDeg, stwKn);
    const gust = limitedGust === 1 ? felt : apparentWind(twsKn * effortGradient * limitedGust, twaDeg, stwKn);
    const own = apparentWind(twsKn * windage.gradient, twaDeg, stwKn);
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
