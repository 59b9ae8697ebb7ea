import type { LimitByAngle, SailKind } from '../sail/sail.js';
import { TRYSAIL_SHARE } from './areas.js';
import { type Band, type ClothName, EUR_PER_M2 } from './cloths.js';
import {
  derived,
  type Figure,
  GUST_OVER_MEAN,
  gustLimit,
  gustOf,
  gustPlaceholder,
  placeholder,
  practice,
  type SourceId,
  sourced,
} from './figure.js';
import {
  FURLED_FLYING,
  FURLED_GYBE,
  type Gybe,
  IN_SNUFFER,
  IN_SNUFFER_BY_THREE,
  ON_FURLER,
  ON_HALYARD,
  ON_POLE,
  ON_TRACK,
  type Operations,
  PLAIN_GYBE,
  POLE_GYBE,
  type SetBy,
  SPINNAKER_GYBE,
} from './handling.js';
import type { SailMeasures } from './measures.js';
import { reefLadder } from './reefLadder.js';
import { codeSailOf, genoaOf } from './scales.js';

/** What a sail may need of the boat. */
export type Need = 'sprit' | 'pole' | 'two bows' | 'inner forestay';

/**
 * Where a sail stands, which tells what it may stand with: one at the mast, one on the forestay, one on the inner stay, one
 * set flying before the forestay. `winged` is a headsail out on a pole, `twins` are two of them.
 */
export type Place = 'mast' | 'forestay' | 'inner-stay' | 'flying' | 'winged' | 'twins' | 'storm-mast' | 'storm-stay';

/**
 * Where headsails stand.
 * @example
 * STAYS // ['forestay', 'inner-stay', 'storm-stay']
 */
export const STAYS = ['forestay', 'inner-stay', 'storm-stay'] as const satisfies readonly Place[];

/**
 * Whether a sail stands on a stay.
 * @example
 * isOnStay(kindOf('self-tacking-jib').place) // true
 * isOnStay(kindOf('vented-downwind').place) // false
 */
export const isOnStay = (place: Place): boolean => (STAYS as readonly Place[]).includes(place);

/**
 * Whether a kind is for strong wind and safety, not for speed.
 * @example
 * isStormSail(kindOf('trysail')) // true
 * isStormSail(kindOf('pin-head-main')) // false
 */
export const isStormSail = ({ kind, place }: Pick<KindOfSail, 'kind' | 'place'>): boolean =>
  place === 'storm-mast' || place === 'storm-stay' || kind === 'heavy-weather-jib';

/** The default window of a kind; what is absent is no limit. */
export interface DefaultWindow {
  readonly awaMinDeg: Figure;
  readonly awaMaxDeg: Figure;
  readonly awsMinKn?: Figure;
  readonly awsMaxKn: Figure<number | LimitByAngle>;
  readonly twsMaxKn?: Figure;
}

/** A default reef, or a part-furled setting of a headsail. */
export interface DefaultReef {
  readonly areaShare: Figure;
  readonly awaMinDeg?: Figure;
  readonly awsMaxKn: Figure;
  readonly twsMaxKn?: Figure;
}

/** All that is known of a kind of sail. */
export interface KindOfSail {
  readonly kind: SailKind;
  /** What such a sail is usually called aboard: its id in a starting file. */
  readonly usualId: string;
  readonly what: string;
  readonly pointOfSail: string;
  readonly place: Place;
  readonly window: DefaultWindow;
  /** Other angles that are also heard, beside the default. */
  readonly alsoHeard?: { readonly awaMinDeg: Figure; readonly awaMaxDeg: Figure };
  /** Where the sail draws best. */
  readonly bestAwaDeg?: Figure;
  readonly area: {
    /** How the area follows from the rig. */
    readonly rule: string;
    readonly source?: SourceId;
    /** What the rule needs of the sail, with its default. */
    readonly measures?: Readonly<Partial<Record<keyof SailMeasures, Figure>>>;
    /** Share of the area that the rule compares with. */
    readonly share?: Figure;
  };
  readonly cloth: {
    readonly material: Figure<string>;
    readonly weightGPerM2: Figure;
    /** What the constants of its life go by (`CLOTH_LIVES`); null: nothing is known of such a cloth. */
    readonly life: ClothName | null;
    /** In EUR for each m² of a new sail, where it is not that of the cloth. */
    readonly eurPerM2?: Figure<Band>;
  };
  readonly setBy: SetBy;
  readonly operations: Operations<Figure>;
  readonly gybe: Gybe<Figure, Figure<boolean>>;
  readonly daylightOnly: Figure<boolean>;
  /** One of these is wanted; empty: nothing. */
  readonly needsOneOf: readonly Need[];
  readonly reefs?: readonly DefaultReef[];
  /** Of a headsail: from which reef of the main on it is set beside it, and up to which; absent: with all. */
  readonly withMainReefs?: { readonly from: Figure; readonly to?: Figure };
}

const WOVEN = practice('woven polyester');
const NYLON = practice('nylon');
const LIGHT_NYLON = practice(48, '48 and 75 g/m² are the usual spinnaker cloths');
const USUAL_NYLON = practice(75, '48 and 75 g/m² are the usual spinnaker cloths');
const HEAVY_NYLON = placeholder(95, 'a 2.2 oz cloth');
const workingCloth = { material: WOVEN, weightGPerM2: placeholder(350), life: 'woven-polyester' } as const;
const stormCloth = { material: WOVEN, weightGPerM2: placeholder(400), life: 'storm-polyester' } as const;
const codeCloth = {
  material: practice('laminate'),
  weightGPerM2: placeholder(150),
  life: 'laminate',
  eurPerM2: EUR_PER_M2.code,
} as const;
const nylonCloth = { material: NYLON, weightGPerM2: USUAL_NYLON, life: 'nylon' } as const;
const lightCloth = { material: NYLON, weightGPerM2: LIGHT_NYLON, life: 'nylon-light' } as const;
const heavyCloth = { material: NYLON, weightGPerM2: HEAVY_NYLON, life: 'nylon-heavy' } as const;
const anyTime = placeholder(false);
const byDaylight = sourced(true, 'S26', 'two people: no spinnaker at night, none after 17:00');
const collapse = placeholder(4);

/** A limit by angle of a sail set flying: less at the close end, for a big sail heels most there. */
const CLOSE_END = 0.7;
const byAngle = (closeDeg: number, wideDeg: number, meanKn: number, from: string): Figure<LimitByAngle> =>
  placeholder(
    [
      [closeDeg, gustOf(meanKn * CLOSE_END)],
      [wideDeg, gustOf(meanKn)],
    ],
    `${GUST_OVER_MEAN} × ${meanKn} kn mean (${from}) at the wide end; ${CLOSE_END} of it at the close end`,
  );
const TRUE_FOR_AWS = 'its limit in true wind taken for AWS';
const AWS_PRACTICE = 'AWS, common practice';

// Full main to 18 kn true or apparent (S11; S13 agrees); 24, 30 and 36 kn for the reefs by common practice.
const LADDER = reefLadder(3);
const REEF_ANGLES = [30, 35, 40];
const REEF_SHARES = [0.78, 0.58, 0.4];
const mainReefs: readonly DefaultReef[] = REEF_SHARES.map((share, i) => ({
  areaShare: placeholder(share),
  awaMinDeg: practice(REEF_ANGLES[i]!),
  awsMaxKn: gustLimit(LADDER[i + 1]!.meanMaxKn),
  twsMaxKn: gustLimit(LADDER[i + 1]!.meanMaxKn, undefined, 'the list is to be written in true wind (S11)'),
}));
const mainWindow = (awaMinDeg: Figure): DefaultWindow => ({
  awaMinDeg,
  awaMaxDeg: practice(180, 'the boom meets the shrouds at about 150, and beyond a gybe threatens'),
  awsMaxKn: gustLimit(18, 'S11', 'a catamaran; a monohull reefs at 20 to 25° of steady heel (common practice)'),
  twsMaxKn: gustLimit(18, 'S11', 'the list is to be written in true wind'),
});

const main = {
  place: 'mast',
  cloth: workingCloth,
  setBy: 'track',
  operations: ON_TRACK,
  gybe: PLAIN_GYBE,
  daylightOnly: anyTime,
  needsOneOf: [],
  reefs: mainReefs,
} as const;

const mainArea = (roachFactor: number) => ({
  rule: '0.5 · P · E · roach factor',
  source: 'S3' as const,
  measures: { roachFactor: placeholder(roachFactor) },
});

const headsail = {
  place: 'forestay',
  cloth: workingCloth,
  setBy: 'furler',
  operations: ON_FURLER,
  gybe: PLAIN_GYBE,
  daylightOnly: anyTime,
  needsOneOf: [],
} as const;

const GENOA_OVERLAP = 135;
const genoa = genoaOf(GENOA_OVERLAP);

const CODE_MID_GIRTH = 0.65;
const code = codeSailOf(CODE_MID_GIRTH);

const spinnaker = {
  place: 'flying',
  cloth: nylonCloth,
  setBy: 'snuffer',
  operations: IN_SNUFFER,
  gybe: SPINNAKER_GYBE,
  daylightOnly: byDaylight,
} as const;

const asymmetricArea = {
  rule: 'share · 1.15 · SL · J, SL = √(hoist² + J²)',
  source: 'S3' as const,
  share: derived(0.8, 'asymmetrics have 15 to 25 % less than a symmetric on the same luff', 'S22'),
};
const heavyAsymmetricArea = { ...asymmetricArea, share: placeholder(0.7, 'a heavy one is smaller') };

/**
 * The catalogue: every kind of sail a boat file may name, with its defaults. Angles are apparent, off the bow; limits are in
 * the gust (a limit in mean wind × 1.3), `awsMinKn` is the mean AWS under which the sail collapses. Of ranges the cautious end
 * is taken. Every number has its status; owners know their own sails better.
 * @example
 * KINDS.length // 21
 * KINDS[0] // { kind: 'full-roach-main', place: 'mast', … }
 */
export const KINDS: readonly KindOfSail[] = [
  {
    ...main,
    kind: 'full-roach-main',
    usualId: 'main',
    what: 'A mainsail whose leech bows out far behind the line from head to clew on full battens; the large roach opens in a gust and sheds it.',
    pointOfSail: 'all, close-hauled to running',
    window: mainWindow(practice(28)),
    area: mainArea(1.2),
  },
  {
    ...main,
    kind: 'square-top-main',
    usualId: 'main',
    what: 'A mainsail with a wide head on a gaff batten, which carries area high and the load of a gust with it.',
    pointOfSail: 'all, close-hauled to running',
    window: mainWindow(practice(28)),
    area: mainArea(1.25),
  },
  {
    ...main,
    kind: 'pin-head-main',
    usualId: 'main',
    what: 'A mainsail that runs to a point at the head, with little roach, as a standing backstay asks for.',
    pointOfSail: 'all, close-hauled to running',
    window: mainWindow(placeholder(30)),
    area: mainArea(1.08),
  },
  {
    ...main,
    kind: 'wing-sail',
    usualId: 'wing',
    what: 'A soft, rigid or air-filled wing that turns on its mast and replaces the main; little is published, and every number here is thin; reefs only if the boat file gives them.',
    pointOfSail: 'all, close-hauled to running',
    window: {
      awaMinDeg: placeholder(25),
      awaMaxDeg: placeholder(180),
      awsMaxKn: gustPlaceholder(18, 'as a main'),
      twsMaxKn: gustPlaceholder(18, 'as a main'),
    },
    area: { rule: '0.5 · P · E · roach factor, as a main; thin data', measures: { roachFactor: placeholder(1.2) } },
    cloth: {
      material: placeholder('woven polyester over a frame, a shell, or air-filled cloth'),
      weightGPerM2: placeholder(400),
      life: null,
    },
    reefs: [],
  },
  {
    ...main,
    kind: 'trysail',
    usualId: 'trysail',
    what: 'A small storm sail without a boom, set on the mast in place of the main.',
    pointOfSail: 'close reach to broad reach, in storm',
    place: 'storm-mast',
    window: {
      awaMinDeg: practice(45, 'S33 has the use, for force 8 and over, not the angles'),
      awaMaxDeg: practice(160, 'S33 has the use, for force 8 and over, not the angles'),
      awsMaxKn: gustPlaceholder(50, 'made for force 8 and over (S33), no upper end published'),
      twsMaxKn: gustPlaceholder(55),
    },
    area: {
      rule: '0.175 · P · E, a rule from memory',
      share: placeholder(TRYSAIL_SHARE, 'from memory, not found in a text'),
    },
    cloth: stormCloth,
    operations: ON_HALYARD,
    reefs: [],
  },
  {
    ...headsail,
    kind: 'self-tacking-jib',
    usualId: 'jib',
    what: 'A jib inside the fore-triangle whose sheet runs on a track before the mast, so that it tacks by itself; weak off the wind.',
    pointOfSail: 'close-hauled to beam reach',
    window: {
      awaMinDeg: practice(25),
      awaMaxDeg: practice(
        110,
        'to 180 when winged out, which is a setting of its own; weak below 15 kn true deep (S55)',
      ),
      awsMaxKn: gustLimit(30),
    },
    area: {
      rule: '0.5 · √(I² + J²) · LP, at most the fore-triangle 0.5 · I · J',
      source: 'S3',
      measures: { overlapPercent: practice(90, '90 to 100 % of J') },
    },
    reefs: [{ areaShare: placeholder(0.65, 'part-furled'), awsMaxKn: gustPlaceholder(36, 'part-furled') }],
  },
  {
    ...headsail,
    kind: 'overlapping-genoa',
    usualId: 'genoa',
    what: 'A headsail that reaches aft of the mast, its luff perpendicular 100 to 150 % of J.',
    pointOfSail: 'close-hauled to broad reach',
    window: {
      awaMinDeg: sourced(genoa.awaMinDeg, 'S32', '135 to 145 %'),
      awaMaxDeg: sourced(genoa.awaMaxDeg, 'S32', '135 to 145 %'),
      awsMaxKn: derived(
        genoa.awsMaxKn,
        `${GUST_OVER_MEAN} × mean, between 20 kn at 110 % and 15 kn at 150 % (common practice), at ${GENOA_OVERLAP} %; best under 12 to 13 kn`,
        'S32',
      ),
    },
    area: {
      rule: '0.5 · √(I² + J²) · LP',
      source: 'S3',
      measures: { overlapPercent: derived(GENOA_OVERLAP, 'of 135 to 145 %', 'S32') },
    },
    reefs: [
      {
        areaShare: derived(
          Math.round(11000 / GENOA_OVERLAP) / 100,
          `furled from ${GENOA_OVERLAP} to 110 %, which keeps its shape`,
          'S32',
        ),
        awsMaxKn: gustLimit(20, 'S32', 'as a genoa of 110 %'),
      },
      { areaShare: placeholder(0.55, 'part-furled'), awsMaxKn: gustPlaceholder(30, 'part-furled') },
    ],
    withMainReefs: { from: practice(0), to: practice(1) },
  },
  {
    ...headsail,
    kind: 'staysail',
    usualId: 'staysail',
    what: 'A small headsail on an inner forestay, close to the mast, for when the wind is too much for the headsail before it.',
    pointOfSail: 'close-hauled to beam reach, in a breeze',
    place: 'inner-stay',
    window: {
      awaMinDeg: practice(25),
      awaMaxDeg: practice(120),
      awsMaxKn: gustLimit(40, undefined, 'useful from 22 kn AWS'),
    },
    area: { rule: 'share · 0.5 · I · J', share: placeholder(0.5) },
    needsOneOf: ['inner forestay'],
    withMainReefs: { from: practice(1) },
  },
  {
    ...headsail,
    kind: 'heavy-weather-jib',
    usualId: 'heavy-jib',
    what: 'A strong jib for force 6, at most 0.135 times the square of the height of the fore-triangle.',
    pointOfSail: 'close-hauled to broad reach, in strong wind',
    window: {
      awaMinDeg: practice(30, 'S33 has the use, for force 6, not the angles'),
      awaMaxDeg: practice(150, 'S33 has the use, for force 6, not the angles'),
      awsMaxKn: gustPlaceholder(34, 'made for force 6 (S33), no upper end published; to where force 8 begins'),
    },
    area: { rule: '0.135 · I², the most the rule allows, at most the fore-triangle', source: 'S33' },
    cloth: stormCloth,
    setBy: 'halyard',
    operations: ON_HALYARD,
    reefs: [],
    withMainReefs: { from: practice(2) },
  },
  {
    ...headsail,
    kind: 'storm-jib',
    usualId: 'storm-jib',
    what: 'The smallest jib, for force 8 and over, of heavy cloth in a colour that is seen.',
    pointOfSail: 'close reach to broad reach, in storm',
    place: 'storm-stay',
    window: {
      awaMinDeg: practice(35, 'S33 has the use, for force 8, not the angles'),
      awaMaxDeg: practice(160, 'S33 has the use, for force 8, not the angles'),
      awsMaxKn: gustPlaceholder(50, 'made for force 8 (S33), no upper end published'),
      twsMaxKn: gustPlaceholder(55),
    },
    area: { rule: '0.05 · I², the most the rule allows', source: 'S33' },
    cloth: stormCloth,
    setBy: 'halyard',
    operations: ON_HALYARD,
    needsOneOf: ['inner forestay'],
    reefs: [],
    withMainReefs: { from: practice(3) },
  },
  {
    kind: 'code-zero',
    usualId: 'code',
    what: 'A flat sail set flying on its own luff rope and furled on it, between a genoa and a spinnaker: half width under 75 % of the foot.',
    pointOfSail: 'close reach to broad reach, in light and moderate wind',
    place: 'flying',
    window: {
      awaMinDeg: sourced(code.awaMinDeg, 'S26', 'mid-girth 0.60 to 0.70; the mid-girth scale moves it'),
      awaMaxDeg: sourced(code.awaMaxDeg, 'S26', 'mid-girth 0.60 to 0.70; the mid-girth scale moves it'),
      awsMinKn: collapse,
      awsMaxKn: placeholder(
        code.awsMaxKn,
        `${GUST_OVER_MEAN} × 15 kn AWS mean (S26) at the wide end; 13 kn at the close end is a placeholder`,
      ),
      twsMaxKn: gustLimit(25, 'S26', 'about 25 kn true at AWA 130'),
    },
    bestAwaDeg: placeholder(code.bestAwaDeg),
    area: {
      rule: 'share by mid-girth · 1.15 · SL · J, SL = √(hoist² + J²): 40 to 30 % less than a symmetric',
      source: 'S22',
      measures: { midGirthRatio: derived(CODE_MID_GIRTH, 'of 60 to 70 %', 'S21') },
    },
    cloth: codeCloth,
    setBy: 'furler',
    operations: FURLED_FLYING,
    gybe: FURLED_GYBE,
    daylightOnly: anyTime,
    needsOneOf: ['sprit'],
  },
  {
    ...spinnaker,
    kind: 'gennaker',
    usualId: 'gennaker',
    what: 'An all-purpose asymmetric spinnaker for cruising, tacked to the bow or a sprit.',
    pointOfSail: 'beam reach to broad reach',
    window: {
      awaMinDeg: practice(70, 'in light air'),
      awaMaxDeg: practice(130, 'in a breeze; with a sprit to 155 up to 15 kn true'),
      awsMinKn: collapse,
      awsMaxKn: byAngle(70, 130, 20, TRUE_FOR_AWS),
      twsMaxKn: gustLimit(20),
    },
    alsoHeard: { awaMinDeg: practice(70), awaMaxDeg: practice(155, 'with a sprit, up to 15 kn true') },
    area: asymmetricArea,
    needsOneOf: [],
  },
  {
    ...spinnaker,
    kind: 'asymmetric-reaching-light',
    usualId: 'light-reacher',
    what: 'A large, flat asymmetric of the lightest cloth for reaching in very light air.',
    pointOfSail: 'close reach to beam reach, in light air',
    window: {
      awaMinDeg: placeholder(60),
      awaMaxDeg: sourced(90, 'S23'),
      awsMinKn: placeholder(2),
      awsMaxKn: byAngle(60, 90, 7, 'S24, its light air taken for AWS'),
      twsMaxKn: gustLimit(7, 'S24', 'light air, under 7 to 8 kn'),
    },
    area: asymmetricArea,
    cloth: { ...lightCloth, weightGPerM2: placeholder(32) },
    needsOneOf: ['sprit', 'pole'],
  },
  {
    ...spinnaker,
    kind: 'asymmetric-reaching',
    usualId: 'reacher',
    what: 'A flat asymmetric spinnaker for reaching in moderate wind.',
    pointOfSail: 'beam reach',
    window: {
      awaMinDeg: practice(70),
      awaMaxDeg: practice(130),
      awsMinKn: collapse,
      awsMaxKn: byAngle(70, 130, 20, AWS_PRACTICE),
      twsMaxKn: gustPlaceholder(20, 'its 20 kn AWS taken for true wind'),
    },
    area: asymmetricArea,
    needsOneOf: ['sprit', 'pole'],
  },
  {
    ...spinnaker,
    kind: 'asymmetric-reaching-heavy',
    usualId: 'heavy-reacher',
    what: 'A smaller, flat asymmetric of heavy cloth for reaching in a breeze.',
    pointOfSail: 'beam reach, in a breeze',
    window: {
      awaMinDeg: practice(70),
      awaMaxDeg: practice(125),
      awsMinKn: placeholder(8, 'a heavy sail hangs in light air'),
      awsMaxKn: byAngle(70, 125, 28, AWS_PRACTICE),
      twsMaxKn: gustPlaceholder(28, 'its 28 kn AWS taken for true wind'),
    },
    area: heavyAsymmetricArea,
    cloth: heavyCloth,
    needsOneOf: ['sprit', 'pole'],
  },
  {
    ...spinnaker,
    kind: 'asymmetric-running',
    usualId: 'runner',
    what: 'A full asymmetric spinnaker with broad shoulders for running deep.',
    pointOfSail: 'broad reach to running',
    window: {
      awaMinDeg: sourced(90, 'S23', 'S24 agrees'),
      awaMaxDeg: sourced(165, 'S23', 'S24 agrees'),
      awsMinKn: collapse,
      awsMaxKn: byAngle(90, 165, 18, TRUE_FOR_AWS),
      twsMaxKn: gustLimit(18, undefined, 'from 7 kn (S24)'),
    },
    area: asymmetricArea,
    cloth: lightCloth,
    needsOneOf: ['sprit', 'pole'],
  },
  {
    ...spinnaker,
    kind: 'asymmetric-running-heavy',
    usualId: 'heavy-runner',
    what: 'A smaller, full asymmetric of heavy cloth for running in a breeze.',
    pointOfSail: 'broad reach to running, in a breeze',
    window: {
      awaMinDeg: practice(110),
      awaMaxDeg: practice(165),
      awsMinKn: placeholder(8, 'a heavy sail hangs in light air'),
      awsMaxKn: byAngle(110, 165, 28, TRUE_FOR_AWS),
      twsMaxKn: gustLimit(28),
    },
    area: heavyAsymmetricArea,
    cloth: heavyCloth,
    needsOneOf: ['sprit', 'pole'],
  },
  {
    ...spinnaker,
    kind: 'symmetric-cruising',
    usualId: 'spinnaker',
    what: 'A symmetric spinnaker, sheeted to the two bows of a catamaran or set with a pole.',
    pointOfSail: 'broad reach to dead run',
    window: {
      awaMinDeg: sourced(120, 'S27', 'sheeted to two bows, 170 to 175° TWA'),
      awaMaxDeg: sourced(180, 'S27', 'sheeted to two bows, 170 to 175° TWA'),
      awsMinKn: collapse,
      awsMaxKn: byAngle(120, 180, 20, TRUE_FOR_AWS),
      twsMaxKn: gustLimit(20, 'S26', 'not over 20 kn true; hard to snuff above 18 for two (S27)'),
    },
    area: { rule: '1.15 · SL · J, SL = √(hoist² + J²)', source: 'S3' },
    cloth: { ...nylonCloth, eurPerM2: EUR_PER_M2.symmetric },
    needsOneOf: ['two bows', 'pole'],
  },
  {
    ...spinnaker,
    kind: 'vented-downwind',
    usualId: 'vented',
    what: 'A downwind sail with an opening through which part of the wind passes, said to lift and to steady it.',
    pointOfSail: 'beam reach to dead run',
    window: {
      awaMinDeg: practice(100),
      awaMaxDeg: practice(180),
      awsMinKn: collapse,
      awsMaxKn: byAngle(100, 180, 20, TRUE_FOR_AWS),
      twsMaxKn: gustLimit(
        20,
        undefined,
        'of 20 to 25 kn true; one crew flew it through small squalls of 30 kn and was knocked down by a larger (S56)',
      ),
    },
    alsoHeard: {
      awaMinDeg: practice(70, 'commonly claimed; a sceptic says no wider than a good spinnaker (S30)'),
      awaMaxDeg: practice(180),
    },
    area: { ...asymmetricArea, share: placeholder(0.8, 'as an asymmetric') },
    operations: IN_SNUFFER_BY_THREE,
    cloth: { ...nylonCloth, eurPerM2: EUR_PER_M2.vented },
    needsOneOf: ['two bows', 'pole', 'sprit'],
  },
  {
    ...headsail,
    kind: 'poled-out-headsail',
    usualId: 'poled-jib',
    what: 'A headsail held out to windward, on a pole or on a catamaran by a line to the bow: alone, or wing and wing with the main.',
    pointOfSail: 'dead run',
    place: 'winged',
    window: {
      awaMinDeg: sourced(150, 'S55', 'one catamaran held it to 160 on the other side'),
      awaMaxDeg: sourced(180, 'S55'),
      awsMaxKn: gustPlaceholder(22, 'above it furled'),
      twsMaxKn: gustPlaceholder(25, '10 to 35 kn true, furled to reef (S55): the full sail to less'),
    },
    area: { rule: "its cloth's; else 0.5 · √(I² + J²) · J", source: 'S3' },
    operations: ON_POLE,
    gybe: POLE_GYBE,
    needsOneOf: ['pole', 'two bows'],
    reefs: [
      {
        areaShare: placeholder(0.6, 'part-furled'),
        awsMaxKn: gustPlaceholder(32, 'part-furled'),
        twsMaxKn: gustLimit(35, 'S55', '10 to 35 kn true, furled to reef'),
      },
    ],
  },
  {
    ...headsail,
    kind: 'twin-headsails',
    usualId: 'twins',
    what: 'Two headsails set side by side before the wind, each out on its own side, without the main.',
    pointOfSail: 'dead run',
    place: 'twins',
    window: {
      awaMinDeg: sourced(150, 'S27'),
      awaMaxDeg: sourced(180, 'S27'),
      awsMaxKn: gustPlaceholder(24, 'above it furled'),
      twsMaxKn: gustLimit(30, 'S27', '8 to 30 kn true; on a catamaran on poles (S18)'),
    },
    area: { rule: '2 · 0.5 · √(I² + J²) · J', source: 'S3' },
    operations: ON_POLE,
    gybe: POLE_GYBE,
    needsOneOf: ['pole'],
    reefs: [
      {
        areaShare: placeholder(0.5, 'part-furled'),
        awsMaxKn: gustPlaceholder(27, 'part-furled'),
        twsMaxKn: gustLimit(30, 'S27', 'part-furled'),
      },
    ],
  },
];
