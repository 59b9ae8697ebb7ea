import { areaOf, isMeasured, type KindOfSail, kindOf } from '../catalogue/catalogue.js';
import { tenth } from '../units.js';
import type { BoatFile, Sail, SailGiven } from './boat.js';
import { operationsOf } from './defaultOperations.js';
import { reefsOf } from './defaultReefs.js';
import { type Measures, windowOf } from './defaultWindow.js';
import { type Defaults, filled, type Marks } from './fill.js';
import { AREA_M2 } from './ranges.js';

/**
 * A sail with everything its file leaves out, field by field: by its kind, her measures and the rig. Each value filled in is
 * marked in `derived` with its status. A limit that is null stays none. Where one of the two gust limits is given, the other
 * keeps the catalogue's proportion to it, and so do those of reefs to the full sail's.
 */
export function completeSail(given: SailGiven, boat: Pick<BoatFile, 'hull' | 'rig' | 'sails'>): Sail {
  const entry = kindOf(given.kind);
  const marks: Marks = { ...given.derived };
  const cloth = clothOf(given, boat);
  const own = cloth === undefined ? given : { ...asCloth(cloth, entry, marks, given), ...given };
  const measured = measuresOf(own, entry, marks);
  const window = windowOf(own, measured, entry, boat, marks);
  const areaM2 = areaFor(own, measured, entry, cloth, boat, marks);
  const reefs = reefsOf(own, measured, window, entry, boat, marks);
  const { daylightOnly, setBy, gybe, operations, reefs: _, ...rest } = own;
  const plain = filled(
    { daylightOnly, setBy, gybe, operations },
    {
      daylightOnly: entry.daylightOnly,
      setBy: { value: entry.setBy, status: 'common-practice' },
      gybe: entry.gybe as unknown as Defaults,
      operations: operationsOf(entry, own, reefs),
    },
    '',
    marks,
  ) as Pick<Sail, 'daylightOnly' | 'setBy' | 'gybe' | 'operations'>;
  return {
    ...rest,
    ...measured,
    ...(areaM2 === undefined ? {} : { areaM2 }),
    window,
    ...(reefs === undefined ? {} : { reefs }),
    ...plain,
    ...(Object.keys(marks).length === 0 ? {} : { derived: marks }),
  };
}

/** The cloth of a setting, completed; undefined of a sail that is one. */
function clothOf(given: SailGiven, boat: Pick<BoatFile, 'hull' | 'rig' | 'sails'>): Sail | undefined {
  const cloth = boat.sails.find(({ id, clothOf }) => id === given.clothOf && clothOf === undefined);
  return cloth === undefined ? undefined : completeSail(cloth, boat);
}

/** What a setting has of its cloth where the file does not say: how it is set, if not as its kind is, and that it has no reefs. */
function asCloth(cloth: Sail, entry: KindOfSail, marks: Marks, given: SailGiven): Partial<SailGiven> {
  const isOther = kindOf(cloth.kind).setBy !== cloth.setBy && cloth.setBy !== entry.setBy;
  const origin = { status: 'derived', basis: `as ${cloth.id}` } as const;
  const takesSetBy = isOther && cloth.setBy !== undefined && given.setBy === undefined;
  const takesReefs = cloth.reefs?.length === 0 && given.reefs === undefined;
  if (takesSetBy) marks.setBy = origin;
  if (takesReefs) marks.reefs = origin;
  return { ...(takesSetBy ? { setBy: cloth.setBy } : {}), ...(takesReefs ? { reefs: [] } : {}) };
}

/** The measures on which the defaults of a kind hang. */
function measuresOf(given: SailGiven, { area, kind, place }: KindOfSail, marks: Marks): Measures {
  const { midGirthRatio, overlapPercent, roachFactor, halfWidthM, footM } = given;
  const byWidths =
    midGirthRatio === undefined && halfWidthM !== undefined && footM !== undefined ? halfWidthM / footM : undefined;
  if (byWidths !== undefined) {
    marks.midGirthRatio = { status: 'derived', basis: 'half width over foot' };
    return { midGirthRatio: byWidths };
  }
  const measures = { midGirthRatio, overlapPercent, roachFactor };
  // The LP of a self-tacking jib serves its area only and is no field of the boat file; nor does a roach once the area is given.
  const servesArea = kind === 'self-tacking-jib' || (place === 'mast' && given.areaM2 !== undefined);
  const usual = servesArea ? {} : (area.measures ?? {});
  return filled(measures, usual as Defaults, '', marks) as Measures;
}

function areaFor(
  given: SailGiven,
  measures: Measures,
  entry: KindOfSail,
  cloth: Sail | undefined,
  boat: Pick<BoatFile, 'rig'>,
  marks: Marks,
) {
  if (given.areaM2 !== undefined) return given.areaM2;
  if (cloth !== undefined) {
    if (cloth.areaM2 !== undefined) marks.areaM2 = { status: 'derived', basis: `the area of ${cloth.id}` };
    return cloth.areaM2;
  }
  const areaM2 = areaOf(entry, { ...given, ...measures }, boat.rig);
  // No sail of a boat file is smaller or larger: a rig that gives such a one is none to go by.
  if (areaM2 === undefined || areaM2 < AREA_M2[0] || areaM2 > AREA_M2[1]) return undefined;
  if (isMeasured(entry, given)) {
    marks.areaM2 = { status: 'derived', source: 'S33', basis: 'measured: 0.255 · luff · (LP + 2 · half width)' };
    return tenth(areaM2);
  }
  const { rule: basis, source, share } = entry.area;
  const status = share?.status === 'placeholder' ? 'placeholder' : 'derived';
  marks.areaM2 = { status, ...(source === undefined ? {} : { source }), basis };
  return tenth(areaM2);
}
