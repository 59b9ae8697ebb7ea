import { tenth } from '../units.js';
import { type Band, band, between, type ClothName, eur } from './cloths.js';
import { derived, type Figure, gustOf, placeholder, practice, sourced } from './figure.js';
import type { Operation } from './handling.js';

/** The constants of a cloth's life. */
export interface ClothLife {
  readonly cloth: ClothName;
  /** Hours set, of the reference use, until she wants a new sail; from all causes together. */
  readonly lifeHours: Figure<Band>;
  /** AWS in the gust that the full sail is made for; of a heavier cloth more, by the root of its weight. */
  readonly designAwsKn: Figure<Band>;
  /** Weight of cloth that this goes with. */
  readonly weightGPerM2: Figure;
  /** Share of its strength that it loses in a month in the open, day and night, unprotected. */
  readonly uvLossPerMonth: Figure<Band>;
  /** In EUR for each m² of a new sail. */
  readonly eurPerM2: Figure<Band>;
}

/** What a cloth is made for is known to a tenth at best. */
const tenthEitherWay = (kn: number): Band => band(tenth(kn * 0.9), kn, tenth(kn * 1.1));

const WOVEN_HOURS = sourced(
  between(3500, 4000),
  'S35',
  'a woven polyester working sail, well kept; a charter set was spent after about 2,000 h (S36), an offshore owner replaces at 20,000 to 25,000 Nm (S37)',
);
const WOVEN_LOSS = derived(
  band(0.02, 0.03, 0.04),
  'webbing: about 30 %, nearly all of it in the first 12 months, so about 3 % a month in the first year; the ends are placeholders',
  'S41',
);
const NYLON_HOURS = placeholder(band(300, 550, 800), 'no source found');
const nylonLoss = (low: number, mid: number, high: number) =>
  placeholder(
    band(low, mid, high),
    'between webbing, 2 % a month (S41), and thin undyed cloth, 62 to 94 % a week (S40), of which no sail of 300 h could be made; thinner goes faster',
  );
const nylonDesign = (meanKn: number, cloth: string) =>
  placeholder(
    tenthEitherWay(gustOf(meanKn)),
    `1.3 × ${meanKn} kn, an unsourced limit of ${cloth} in true wind, taken for AWS`,
  );

/**
 * The lives of cloths. Most of it has no authority: a sailmaker who has seen the sail knows better.
 * @example
 * Object.keys(CLOTH_LIVES) // ['woven-polyester', 'storm-polyester', …]
 */
export const CLOTH_LIVES: Readonly<Record<ClothName, ClothLife>> = {
  'woven-polyester': {
    cloth: 'woven-polyester',
    lifeHours: WOVEN_HOURS,
    designAwsKn: placeholder(tenthEitherWay(32), 'a full sail; no source found'),
    weightGPerM2: placeholder(350),
    uvLossPerMonth: WOVEN_LOSS,
    eurPerM2: eur(70, 120),
  },
  'storm-polyester': {
    cloth: 'storm-polyester',
    lifeHours: placeholder(WOVEN_HOURS.value, 'as a working sail of woven polyester (S35)'),
    designAwsKn: placeholder(tenthEitherWay(50), 'force 8 and over, in the gust'),
    weightGPerM2: placeholder(400),
    uvLossPerMonth: WOVEN_LOSS,
    eurPerM2: eur(70, 120),
  },
  laminate: {
    cloth: 'laminate',
    lifeHours: placeholder(between(1500, 2500), 'no source found; two old sets came apart soon after hard use (S37)'),
    designAwsKn: placeholder(tenthEitherWay(32), 'a full sail; no source found'),
    weightGPerM2: placeholder(250),
    uvLossPerMonth: placeholder(
      band(0.008, 0.02, 0.04),
      'no source found for the films; threads of UHMWPE lose up to 40 % in 4 to 5 years of strong sun (S44)',
    ),
    eurPerM2: eur(150, 260),
  },
  'nylon-light': {
    cloth: 'nylon-light',
    lifeHours: NYLON_HOURS,
    designAwsKn: nylonDesign(16.5, 'a 0.75 oz cloth'),
    weightGPerM2: practice(48),
    uvLossPerMonth: nylonLoss(0.03, 0.07, 0.11),
    eurPerM2: eur(35, 70),
  },
  nylon: {
    cloth: 'nylon',
    lifeHours: NYLON_HOURS,
    designAwsKn: nylonDesign(22, 'a 1.5 oz cloth'),
    weightGPerM2: practice(75),
    uvLossPerMonth: nylonLoss(0.02, 0.06, 0.1),
    eurPerM2: eur(35, 70),
  },
  'nylon-heavy': {
    cloth: 'nylon-heavy',
    lifeHours: NYLON_HOURS,
    designAwsKn: nylonDesign(27, 'a 2.2 oz cloth'),
    weightGPerM2: placeholder(95),
    uvLossPerMonth: nylonLoss(0.02, 0.05, 0.08),
    eurPerM2: eur(35, 70),
  },
};

/** What flogs a sail. */
export type Flogging = Operation | 'tack' | 'gybe';

const minutes = (value: number) => placeholder(value);

/**
 * The constants of wear that hang on no cloth.
 * @example
 * WEAR.loadExponent
 * // { value: { low: 5, mid: 6.5, high: 8 }, status: 'placeholder', basis: 'no curve of sailcloth under repeated load
 * // was found' }
 */
export const WEAR = {
  /** Wear goes with the load to this power. */
  loadExponent: placeholder(band(5, 6.5, 8), 'no curve of sailcloth under repeated load was found'),
  /** Share of the ultraviolet that reaches a sail furled or stowed in the open, through its cover. */
  uvCover: placeholder(band(0.02, 0.05, 0.1)),
  /** Ozone overhead, Dobson units. */
  ozoneDu: practice(300, 'that of the formula; the tropics have 10 to 15 % less'),
  /** Sailing hours of the reference use that an hour of flogging counts as. */
  floggingFactor: placeholder(between(5, 10), 'flogging is named as a cause of wear (S35); no measured rate was found'),
  /** The same of an hour of slatting in light air with a sea running. */
  slattingFactor: placeholder(band(1, 1.5, 2)),
  /** Slatting is under this mean AWS, in waves of this height and more. */
  slattingAwsKn: placeholder(6),
  slattingWaveM: placeholder(0.8),
  /** Minutes of flogging in each. */
  floggingMinutes: {
    set: minutes(5),
    douse: minutes(3),
    unfurl: minutes(1),
    furl: minutes(1),
    reef: minutes(5),
    shakeOut: minutes(3),
    tack: minutes(1),
    gybe: minutes(1),
  } satisfies Readonly<Record<Flogging, Figure>>,
  /** The use in which a sail lasts its life hours. Of it a woven polyester main is the measure. */
  reference: {
    /** Hours set in a year; the rest of it she is stowed. */
    hoursPerYear: sourced(1728, 'S35', 'living aboard in a warm sea'),
    /** Where: the sun of the middle of March, June, September and December there. */
    latDeg: placeholder(15, 'a warm sea'),
    /** AWS in the gust over what the sail is made for, and the share of the hours of each. */
    winds: placeholder(
      [
        [0.3, 0.3],
        [0.5, 0.4],
        [0.65, 0.2],
        [0.8, 0.08],
        [1, 0.02],
      ] as readonly (readonly [ofDesign: number, share: number])[],
      'a warm sea with trade winds',
    ),
    /** In a day (24 h) set. */
    perDay: {
      sets: placeholder(0.3, 'set and doused every third day'),
      reefs: placeholder(2, 'taken and shaken out'),
      turns: placeholder(8, 'tacks and gybes'),
      slattingHours: placeholder(1),
    },
    /** Of sails that are not set in the dark: ship's solar time of the hours in which they are. */
    daylight: placeholder([8, 18] as const),
    /** What of a life the sun takes from a woven polyester main; flogging and slatting take theirs by their factors (0.2), load the rest (0.45). */
    uvShare: placeholder(0.35),
    /** Load keeps so much at least, whatever the sun and the handling take by what an owner says. */
    leastLoadShare: placeholder(0.1),
  },
  /** Mean speed by which miles are hours. */
  milesKn: derived(6.5, '25,000 Nm, after which an offshore owner replaces, are then 3,850 h', 'S37'),
  /** Hours set in a year where only the age of a sail is known. */
  hoursPerYear: derived(
    band(240, 644, 1728),
    'from weekends to living aboard in a warm sea; the geometric mean of the two',
    'S35',
  ),
  /** How far an eye may be off that sees what is left of a sail. */
  inspectionError: placeholder(0.1),
  /** An inspection moves a sail's rate of wear between these. */
  recalibration: placeholder([0.5, 2] as const),
  /** Life used at which to have a sail looked at. */
  lookAt: placeholder(0.75, 'three quarters of its life; stitching goes before cloth (S35)'),
} as const;
