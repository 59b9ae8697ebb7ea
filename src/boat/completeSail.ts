import { areaOf, type KindOfSail, kindOf, type SetBy } from '../catalogue/catalogue.js';
import type { BoatFile, Sail, SailGiven } from './boat.js';
import { reefsOf } from './defaultReefs.js';
import { type Measures, tenth, windowOf } from './defaultWindow.js';
import { type Defaults, filled, type Marks } from './fill.js';

/**
 * A sail with everything its file leaves out, field by field: by its kind, her measures and the rig. Each value filled in is
 * marked in `derived` with its status. A limit that is null stays none. Where one of the two gust limits is given, the other
 * keeps the catalogue's proportion to it, and so do those of reefs to the full sail's.
 */
export function completeSail(given: SailGiven, boat: Pick<BoatFile, 'hull' | 'rig' | 'sails'>): Sail {
  const entry = kindOf(given.kind);
  const marks: Marks = { ...given.derived };
  const measured = measuresOf(given, entry, marks);
  const window = windowOf(given, measured, entry, boat, marks);
  const areaM2 = areaFor(given, measured, entry, boat, marks);
  const reefs = reefsOf(given, measured, window, entry, boat, marks);
  const { daylightOnly, setBy, gybe, operations, ...rest } = given;
  const plain = filled(
    { daylightOnly, setBy, gybe, operations },
    {
      daylightOnly: entry.daylightOnly,
      setBy: { value: entry.setBy, status: 'common-practice' },
      gybe: entry.gybe as unknown as Defaults,
      operations: operationsOf(entry, setBy),
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
  boat: Pick<BoatFile, 'rig' | 'sails'>,
  marks: Marks,
) {
  if (given.areaM2 !== undefined) return given.areaM2;
  const cloth = boat.sails.find(({ id }) => id === given.clothOf);
  if (cloth !== undefined) {
    const areaM2 = cloth.areaM2 ?? areaOf(kindOf(cloth.kind), cloth, boat.rig);
    if (areaM2 !== undefined) marks.areaM2 = { status: 'derived', basis: `the area of ${cloth.id}` };
    return areaM2 === undefined ? undefined : tenth(areaM2);
  }
  const areaM2 = areaOf(entry, { ...given, ...measures }, boat.rig);
  // No sail of a boat file is smaller or larger: a rig that gives such a one is none to go by.
  if (areaM2 === undefined || areaM2 < 0.5 || areaM2 > 2000) return undefined;
  const { rule: basis, source, share } = entry.area;
  const status = share?.status === 'placeholder' ? 'placeholder' : 'derived';
  marks.areaM2 = { status, ...(source === undefined ? {} : { source }), basis };
  return tenth(areaM2);
}

/** Operations of the kind; a sail that is set by other means than its kind usually is has those of such a sail. */
function operationsOf(entry: KindOfSail, setBy: SetBy | undefined): Defaults {
  if (setBy === undefined || setBy === entry.setBy) return entry.operations as unknown as Defaults;
  return otherOperations(entry, setBy) as unknown as Defaults;
}

function otherOperations({ place, operations }: KindOfSail, setBy: SetBy) {
  const like = {
    furler: place === 'flying' ? 'code-zero' : 'self-tacking-jib',
    snuffer: 'gennaker',
    halyard: 'heavy-weather-jib',
    track: 'pin-head-main',
  } as const;
  const { reef, shakeOut } = operations;
  const { reef: _, shakeOut: __, ...usual } = kindOf(like[setBy]).operations;
  // Whether a sail is reefed does not hang on how it is set, except that a furler reefs.
  const reefing = setBy === 'furler' && place !== 'flying' ? kindOf(like.furler).operations : { reef, shakeOut };
  return { ...usual, ...(reefing.reef === undefined ? {} : { reef: reefing.reef, shakeOut: reefing.shakeOut }) };
}
