import type { Boat, LeewayByAngle } from '../boat/boat.js';
import { type Figure, placeholder, practice } from '../catalogue/catalogue.js';
import type { FaultList } from '../errors.js';
import { says } from '../wording.js';

/** What the estimator wants to know of a hull and rig, all filled in; metres, kilograms, degrees. */
export interface Particulars {
  readonly isCatamaran: boolean;
  readonly waterlineM: number;
  readonly displacementKg: number;
  readonly hullCentresM: number;
  readonly lengthM: number;
  readonly beamM: number;
  readonly freeboardM: number;
  readonly wettedAreaM2: number;
  readonly metacentricHeightM: number;
  readonly stabilityShare: number;
  readonly heelLimitDeg: number;
  readonly boomHeightM: number;
  readonly boomLimitDeg: number;
  readonly leeway: LeewayByAngle;
  /** Wave resistance at a Froude number of 0.4 as a share of the weight, before it is fitted to anything. */
  readonly waveShare: number;
  /** What was filled in, by its path in the boat file (`waveShare` has none), and on what ground. */
  readonly filledIn: Readonly<Record<string, Figure<unknown>>>;
}

/** Density of sea water, kg/m³, and its kinematic viscosity, m²/s, at 15 °C (ITTC values, from memory). */
export const SEA_WATER = { densityKgM3: 1025, viscosityM2S: 1.19e-6 } as const;

/**
 * Taylor's rule for the wetted area of a hull, S = 2.6 · √(volume · waterline), m; the constant is from memory. A catamaran has two
 * hulls of half the volume. Keels and rudders come on top: a placeholder.
 */
export function wettedAreaM2(waterlineM: number, displacementKg: number, isCatamaran: boolean): number {
  const hulls = isCatamaran ? 2 : 1;
  const volumeM3 = displacementKg / SEA_WATER.densityKgM3 / hulls;
  return hulls * TAYLOR * Math.sqrt(volumeM3 * waterlineM) * (1 + (isCatamaran ? 0.1 : 0.25));
}
const TAYLOR = 2.6;

/** Fills in what a boat file leaves out of hull and rig; adds a fault for each thing that nothing can be filled in for. */
export function particularsOf(boat: Boat, file: string, faults: FaultList): Particulars {
  const { hull, rig = {} } = boat;
  const isCatamaran = hull.type === 'catamaran';
  const needed = (path: string, value: number | undefined): number => {
    if (value === undefined) faults.add({ file, path, ...says.neededToEstimate() });
    return value ?? 1;
  };
  const waterlineM = needed('hull.waterlineM', hull.waterlineM);
  const displacementKg = needed('hull.displacementKg', hull.displacementKg);
  const hullCentresM = isCatamaran ? needed('hull.hullCentresM', hull.hullCentresM) : 0;
  const filledIn: Record<string, Figure<unknown>> = {};
  const or = <Value>(path: string, value: Value | undefined, usual: Figure<Value>): Value => {
    if (value !== undefined) return value;
    filledIn[path] = usual;
    return usual.value;
  };
  const ofWaterline = (share: number) => placeholder(share * waterlineM, `${share} of the waterline`);
  return {
    isCatamaran,
    waterlineM,
    displacementKg,
    hullCentresM,
    lengthM: or('hull.lengthM', hull.lengthM, ofWaterline(isCatamaran ? 1.03 : 1.1)),
    beamM: or(
      'hull.beamM',
      hull.beamM,
      isCatamaran
        ? placeholder(hullCentresM + 0.115 * waterlineM, 'hull centres and one hull of 0.115 of the waterline')
        : ofWaterline(0.36),
    ),
    freeboardM: or('hull.freeboardM', hull.freeboardM, ofWaterline(isCatamaran ? 0.12 : 0.1)),
    wettedAreaM2: or(
      'hull.wettedAreaM2',
      hull.wettedAreaM2,
      placeholder(
        wettedAreaM2(waterlineM, displacementKg, isCatamaran),
        `Taylor's 2.6 · √(volume · waterline) of each hull, from memory, and ${isCatamaran ? 10 : 25} % for keels and rudders`,
      ),
    ),
    metacentricHeightM: isCatamaran ? 0 : or('hull.metacentricHeightM', hull.metacentricHeightM, ofWaterline(0.1)),
    stabilityShare: isCatamaran
      ? or('hull.stabilityShare', hull.stabilityShare, placeholder(0.33, 'a quarter to a third is heard'))
      : 1,
    heelLimitDeg: isCatamaran
      ? 0
      : or('hull.heelLimitDeg', hull.heelLimitDeg, practice(22.5, 'a monohull reefs at 20 to 25° of steady heel')),
    boomHeightM: or('rig.boomHeightM', rig.boomHeightM, ofWaterline(isCatamaran ? 0.14 : 0.11)),
    boomLimitDeg: or(
      'rig.boomLimitDeg',
      rig.boomLimitDeg,
      placeholder(
        isCatamaran ? 70 : 80,
        isCatamaran ? 'swept shrouds limit the boom (S11), by how much is not printed' : 'the boom meets the shrouds',
      ),
    ),
    leeway: or(
      'leeway',
      boat.leeway,
      placeholder<LeewayByAngle>(
        [
          [30, isCatamaran ? 6 : 4],
          [120, 0],
        ],
        isCatamaran ? 'without boards; up to about 10° is heard (S57)' : 'a keel boat',
      ),
    ),
    waveShare: or(
      'waveShare',
      undefined,
      placeholder(isCatamaran ? 0.018 : 0.022, 'the order of published residuary resistance, from memory'),
    ),
    filledIn,
  };
}
