import { type Figure, placeholder } from '../catalogue/catalogue.js';
import type { Particulars } from './particulars.js';
import type { PlanSet } from './sailsSet.js';
import { gradientAt } from './windFelt.js';

/** Windage: drag coefficients of hull and mast, from ahead and abeam (S1). */
const WINDAGE = { hull: 0.816, mastAhead: 0.4, mastAbeam: 0.6, mastBare: 0.8, hullCentre: 0.66 } as const;
/** Mast section over its height, and deckhouse over the waterline, the beam and the length: `windageAssumed` tells of them. */
const MAST = { ahead: 0.013, abeam: 0.02 } as const;
const HOUSE = {
  catamaran: { height: 0.06, beam: 0.7, length: 0.5 },
  monohull: { height: 0.03, beam: 0.5, length: 0.3 },
};

/** What is assumed of mast and deckhouse, for who reads an estimate. */
export const windageAssumed = ({ isCatamaran }: Particulars): Readonly<Record<string, Figure<unknown>>> => ({
  mastSection: placeholder(MAST, 'its width over its height'),
  deckhouse: placeholder(HOUSE[isCatamaran ? 'catamaran' : 'monohull'], 'over waterline, beam and length'),
});

/** Areas of hulls, deckhouse and mast by their drag, m², and the gradient of the wind on them. */
export function windageOf({ sails }: PlanSet, of: Particulars, mastM: number) {
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
