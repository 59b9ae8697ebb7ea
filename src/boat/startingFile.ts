import { isOnStay, kindOf, type Rig } from '../catalogue/catalogue.js';
import type { SailKind } from '../sail/sail.js';
import type { BoatFile, Hull } from './boat.js';

/** What a starting file is made from. */
export interface StartingBoat {
  readonly hull: Hull['type'];
  readonly name?: string;
  readonly crew?: number;
  readonly rig?: Rig;
  readonly size?: Pick<Hull, 'waterlineM' | 'displacementKg' | 'hullCentresM'>;
  /** Absent: a usual cruising wardrobe of the hull. */
  readonly kinds?: readonly SailKind[];
}

const USUAL: Readonly<Record<Hull['type'], readonly SailKind[]>> = {
  catamaran: ['full-roach-main', 'self-tacking-jib', 'code-zero', 'gennaker', 'storm-jib', 'trysail'],
  monohull: ['pin-head-main', 'overlapping-genoa', 'gennaker', 'storm-jib', 'trysail'],
};

const RIG_WANTED = [
  'Measure your rig, in metres, and put it here; areas follow from it:',
  'iM: deck to forestay at the mast; jM: mast to forestay at the deck; pM: hoist of the main; eM: foot of the main;',
  'ispM: hoist of flying sails, if not iM; spritM: bowsprit beyond the forestay; poleM: length of a pole; innerForestay: true or false.',
];
const LEEWAY = '"leeway": [[35, 6], [120, 0]] would be a start without boards (a placeholder)';

/** A commented boat file to start from, of kinds and, where it is known, the rig. Comments stand under `comment`: it is plain JSON. */
export function startingBoatFile({ hull, name, crew, rig, size, kinds = USUAL[hull] }: StartingBoat): string {
  const ids = new Map<string, number>();
  const file: BoatFile = {
    name: name ?? `My ${hull}`,
    comment: [
      'A starting file. Everything it leaves out follows from the kinds of sail and the rig, mostly by common practice or placeholders:',
      'look at it with "windwardrobe boat show", and put what you know in its place. What stands here always wins.',
      'Boat speeds: without "polars" they are estimated ("boat speeds" shows them), which wants rig and hull; one speed you know, in flat water, makes them hers:',
      '"knownSpeeds": [{ "twsKn": 14, "twaDeg": 90, "stwKn": 8, "sailPlan": "main+jib" }], light, medium and strong ones fix more.',
      'With polars: "polars", the path of a file with a speed for each sail plan ("boat show" lists them); or "boatPolar", one for the whole boat.',
      `Optional: "currency", "house" rules (gustFactor, tackMinutes, ...), leeway (${LEEWAY}).`,
    ],
    ...(crew === undefined ? {} : { crew }),
    hull: {
      type: hull,
      comment: `To estimate speeds: waterlineM, displacementKg (as she sails)${hull === 'catamaran' ? ', hullCentresM between the centrelines of the hulls' : ''}.`,
      ...size,
    },
    rig: { comment: RIG_WANTED, ...rig },
    sails: kinds.map((kind) => {
      const { usualId, what } = kindOf(kind);
      const count = (ids.get(usualId) ?? 0) + 1;
      ids.set(usualId, count);
      return { id: count === 1 ? usualId : `${usualId}-${count}`, kind, comment: `${what} ${hintOf(kind)}` };
    }),
  };
  return `${JSON.stringify(file, null, 2)}\n`;
}

/** What an owner may know of a sail and write down. */
function hintOf(kind: SailKind): string {
  const { place, area } = kindOf(kind);
  const measures = Object.keys(area.measures ?? {}).filter(
    (name) => !(kind === 'self-tacking-jib' && name === 'overlapPercent'),
  );
  const girths = isOnStay(place) ? ['luffM', 'lpM', 'halfWidthM'] : place === 'flying' ? ['halfWidthM', 'footM'] : [];
  const keys = [
    'areaM2',
    ...new Set([...measures, ...girths]),
    'window',
    'reefs',
    'setBy',
    'daylightOnly',
    'operations',
    'gybe',
    'life',
    'price',
  ];
  return `Yours to add: ${keys.join(', ')}.`;
}
