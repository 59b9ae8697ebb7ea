import { mustBeGiven } from '../given.js';
import { type Climatology, MONTHS } from './climatology.js';
import { median } from './median.js';
import { stepsOf } from './steps.js';

/** Steadiness below which the mean wind of a month says little of the wind of a day: 0.7, as the design of this library has it. */
export const UNSTEADY_UNDER = 0.7;

/** What a climatology holds. Longitudes from west to east; east may pass 180. */
export interface ClimatologySummary {
  readonly lats: number;
  readonly lons: number;
  readonly latMinDeg: number;
  readonly latMaxDeg: number;
  readonly lonWestDeg: number;
  readonly lonEastDeg: number;
  /** Usual steps between neighbours; null where there is one only. */
  readonly latStepDeg: number | null;
  readonly lonStepDeg: number | null;
  /** Grid points by months that have wind, and the share that has none. */
  readonly cells: number;
  readonly absentShare: number;
  readonly meanSpeedMinKn: number;
  readonly meanSpeedMaxKn: number;
  /** Length of the mean vector over the mean speed, at most 1: the mean over cells, and the share of cells under 0.7. */
  readonly steadiness: number;
  readonly unsteadyShare: number;
  /** Cells whose mean vector is as long as the mean speed or longer: no spread follows from them. */
  readonly withoutSpread: number;
}

/**
 * What a climatology holds, over all months; cells count alike, whatever their size.
 * @throws InputError where it is none
 * @example
 * describeClimatology(sample.climatology)
 * // { cells: 1584, meanSpeedMinKn: 10.20…, meanSpeedMaxKn: 16.52…, steadiness: 0.728…, … }
 */
export function describeClimatology(climatology: Climatology): ClimatologySummary {
  mustBeGiven(climatology, 'meanSpeedKn', 'climatology', 'readClimatology');
  const { lats, lons, wraps, windEastKn, windNorthKn, meanSpeedKn } = climatology;
  let [cells, sum, unsteady, withoutSpread] = [0, 0, 0, 0];
  let [least, most] = [Number.POSITIVE_INFINITY, 0];
  for (let i = 0; i < meanSpeedKn.length; i += 1) {
    const speedKn = meanSpeedKn[i]!;
    if (Number.isNaN(speedKn)) continue;
    const vectorKn = Math.sqrt(windEastKn[i]! ** 2 + windNorthKn[i]! ** 2);
    const steadiness = speedKn > 0 ? Math.min(1, vectorKn / speedKn) : 0;
    cells += 1;
    sum += steadiness;
    if (steadiness < UNSTEADY_UNDER) unsteady += 1;
    if (vectorKn >= speedKn) withoutSpread += 1;
    least = Math.min(least, speedKn);
    most = Math.max(most, speedKn);
  }
  const stepOf = (rising: Float64Array) => (rising.length < 2 ? null : median(stepsOf(rising)));
  return {
    lats: lats.length,
    lons: lons.length,
    latMinDeg: lats[0]!,
    latMaxDeg: lats.at(-1)!,
    lonWestDeg: lons[0]!,
    lonEastDeg: wraps ? lons[0]! + 360 : lons.at(-1)!,
    latStepDeg: stepOf(lats),
    lonStepDeg: stepOf(lons),
    cells,
    absentShare: 1 - cells / (MONTHS * lats.length * lons.length),
    meanSpeedMinKn: cells === 0 ? 0 : least,
    meanSpeedMaxKn: most,
    steadiness: cells === 0 ? 0 : sum / cells,
    unsteadyShare: cells === 0 ? 0 : unsteady / cells,
    withoutSpread,
  };
}
