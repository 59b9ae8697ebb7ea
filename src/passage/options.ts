import { type Boat, checkHouse, type House, plansWithout } from '../boat/boat.js';
import { GUST_OVER_MEAN } from '../catalogue/catalogue.js';
import { type FaultList, faultList, shown } from '../errors.js';
import { addTypeFaults } from '../given.js';
import type { PolarSet } from '../polar/polar.js';
import { SKIPPER_FACTOR } from '../speed/speed.js';
import { DEFAULT_MAX_GAP_HOURS } from '../weather/weather.js';
import { says } from '../wording.js';

/**
 * How sail plans are chosen: `planned` takes the best sequence over the whole passage, in which changes take their time and have
 * their price and the house rules hold; `fastest` takes each hour by itself the most distance made good, changes cost no time,
 * and of the rules only windows and `daylightOnly` hold: the baseline.
 */
export type Choice = 'planned' | 'fastest';

export const CHOICES: readonly Choice[] = ['planned', 'fastest'];

/** What a caller may set for a passage; house rules given here stand before those of the boat file. */
export interface PassageOptions {
  /** Departure, ISO 8601 with Z or an offset. */
  readonly departure: string;
  readonly choice?: Choice;
  /** People who stand watches; before those of the boat file. */
  readonly crew?: number;
  /** Ways of coming to a plan that the search keeps apart by half a mile: more look further round where bars depend on place. */
  readonly labels?: number;
  /** Minutes between decisions, and of a row of the log. */
  readonly decisionMinutes?: number;
  /** Hours ahead that the weather is known when the passage is planned; it is planned again under way. Absent: all of it. */
  readonly horizonHours?: number;
  /** Hours from one planning to the next where there is a horizon, at most that. */
  readonly replanHours?: number;
  /** Arrive between sunrise and sunset. */
  readonly arriveDaylight?: boolean;
  /** Longest inner step, at most 10 minutes. */
  readonly stepMinutes?: number;
  /** Longest step between forecast times that is bridged. */
  readonly maxGapHours?: number;
  readonly house?: House;
  /** Factor on the forecast's wind and gusts, to see how much the plan hangs on it. */
  readonly windFactor?: number;
  /** Hours by which the forecast's weather comes late; negative: early. */
  readonly windShiftHours?: number;
  /** Id of the sail plan that is set at departure: taking it down is a sail change. Absent: nothing is known to be set. */
  readonly planSet?: string;
  /** Ids of sails that may not be set: with a cloth go all its settings, with a setting it alone. */
  readonly without?: readonly string[];
}

/** The options a passage was really planned with, every default filled in. */
export interface SettledOptions {
  readonly departure: string;
  readonly choice: Choice;
  /** Null where nobody says how many they are. */
  readonly crew: number | null;
  readonly labels: number;
  readonly decisionMinutes: number;
  readonly horizonHours: number | null;
  readonly replanHours: number | null;
  readonly arriveDaylight: boolean;
  readonly stepMinutes: number;
  readonly maxGapHours: number;
  readonly house: Required<House>;
  readonly windFactor: number;
  readonly windShiftHours: number;
  readonly planSet: string | null;
  readonly without: readonly string[];
  /** House rules that nobody set and whose default has no source: a skipper knows better. */
  readonly placeholders: readonly (keyof House)[];
}

/**
 * Defaults. The gust factor is that by which the catalogue makes gust limits of mean winds, and has its source there. Minutes and hours of tacks and gybes, and the skipper's factor of 0.9 on designed speeds, are placeholders without a
 * source: a skipper knows better.
 * @example
 * DEFAULT_HOUSE // { gustFactor: 1.3, wakeMinutes: 30, changesInDark: 'any', … }
 */
export const DEFAULT_HOUSE = {
  gustFactor: GUST_OVER_MEAN,
  gustMargin: 1,
  tackMinutes: 3,
  gybeMinutes: 6,
  tackEveryHours: 2,
  gybeEveryHours: 12,
  wakeMinutes: 30,
  leastHoursBetweenChanges: 0,
  changesInDark: 'any',
  nightReefAboveKn: null,
  waveMaxM: {},
  gybesByDay: true,
  squalls: false,
  squallFactor: 2,
  squallChance: null,
  squallThreshold: 0.02,
  motorBelowKn: null,
  motorPriceMinutes: 30,
} as const satisfies House;

/**
 * What a sail change is worth in minutes of arrival time, by the people who stand watches, from one to four and more: the fewer,
 * the more it asks of each. Placeholders without a source.
 */
const PRICE_BY_CREW = [30, 20, 15, 10] as const;
/** Where nobody says how many they are. */
export const USUAL_CREW = 2;

export const priceByCrew = (crew: number | undefined): number =>
  PRICE_BY_CREW[Math.min(PRICE_BY_CREW.length, Math.max(1, crew ?? USUAL_CREW)) - 1]!;

/** Settings by which it is computed; they are of our own choice, and docs/model.md tells what they cost. */
export const COMPUTED_BY = {
  labels: 4,
  decisionMinutes: 60,
  stepMinutes: 10,
  maxGapHours: DEFAULT_MAX_GAP_HOURS,
} as const;
const DEFAULT_REPLAN_HOURS = 12;

// A step of 10 minutes is the promise of the log; a gap of ten days is no forecast any more.
// Ten times the wind, or weather ten days late, is another forecast.
export const OPTION_RANGES = {
  crew: [1, 100],
  labels: [1, 64],
  decisionMinutes: [10, 60],
  horizonHours: [1, 1000],
  replanHours: [1, 1000],
  stepMinutes: [0.1, 10],
  maxGapHours: [0, 240],
  windFactor: [0.1, 10],
  windShiftHours: [-240, 240],
} as const;

/** Of these such as count something. */
const WHOLE: ReadonlySet<string> = new Set(['crew', 'labels']);

const KEYS: readonly string[] = [
  'departure',
  'choice',
  'arriveDaylight',
  ...Object.keys(OPTION_RANGES),
  'house',
  'planSet',
  'without',
];

/**
 * Checks what a caller set; the departure is checked against the forecast.
 * @throws InputError with every option that is none
 */
export function checkOptions(options: PassageOptions, boat: Boat): void {
  const faults = faultList();
  const file = FILE;
  if (typeof options !== 'object' || options === null) {
    faults.add({ file, ...says.wrongValue('an object with a departure', shown(options)) });
    faults.throwIfAny();
  }
  for (const key of Object.keys(options)) {
    if (key === 'rules') faults.add({ file, path: key, ...says.rulesApart() });
    else if (!KEYS.includes(key)) faults.add({ file, path: key, ...says.unknownKey(key, KEYS) });
  }
  if (typeof options.departure !== 'string') {
    faults.add({ file, path: 'departure', ...says.instantMalformed(String(options.departure)) });
  }
  checkRanges(options, Object.keys(OPTION_RANGES) as (keyof typeof OPTION_RANGES)[], faults);
  const types = { arriveDaylight: 'boolean?', planSet: 'string?', without: 'string[]?' } as const;
  const before = faults.count;
  addTypeFaults(options, types, file, faults);
  // Sails and plans are looked up below, which wants texts.
  if (faults.count > before) faults.throwIfAny();
  const { horizonHours, replanHours } = options;
  // Beyond what she sees there is no plan to sail by.
  if (horizonHours !== undefined && replanHours !== undefined && replanHours > horizonHours) {
    faults.add({ file, path: 'replanHours', ...says.beyondHorizon(horizonHours, replanHours) });
  }
  if (options.choice !== undefined && !CHOICES.includes(options.choice)) {
    faults.add({ file, path: 'choice', ...says.choice(CHOICES, String(options.choice)) });
  }
  const plans = boat.sailPlans.map(({ id }) => id);
  if (options.planSet !== undefined && !plans.includes(options.planSet)) {
    faults.add({ file, path: 'planSet', ...says.planAsked(plans, options.planSet) });
  }
  const sails = boat.sails.map(({ id }) => id);
  (options.without ?? []).forEach((id, i) => {
    if (!sails.includes(id)) faults.add({ file, path: `without[${i}]`, ...says.sailAboard(sails, id) });
  });
  if (faults.count === 0 && plansWithout(boat, options.without ?? []).length === 0) {
    faults.add({ file, path: 'without', ...says.noPlanLeft() });
  }
  if (options.house !== undefined) checkHouse(options.house, file, faults, sails);
  faults.throwIfAny();
}

const FILE = 'options';

/** Adds a fault for each of some options that is no number of its range. */
export function checkRanges(
  options: Omit<PassageOptions, 'departure'>,
  paths: readonly (keyof typeof OPTION_RANGES)[],
  faults: FaultList,
): void {
  for (const path of paths) {
    const [value, [min, max]] = [options[path], OPTION_RANGES[path]];
    if (value !== undefined && !(typeof value === 'number' && value >= min && value <= max)) {
      faults.add({ file: FILE, path, ...says.number(min, max, String(value)) });
    } else if (value !== undefined && WHOLE.has(path) && !Number.isInteger(value)) {
      faults.add({ file: FILE, path, ...says.wrongValue(`a whole number from ${min} to ${max}`, String(value)) });
    }
  }
}

/** House rules whose default has no source. */
const PLACEHOLDERS: readonly (keyof House)[] = ['tackMinutes', 'gybeMinutes', 'tackEveryHours', 'gybeEveryHours'];

/** Fills in every default: options before the boat's house rules before the defaults of the library. */
export function settle(options: PassageOptions, boat: Boat, polars: PolarSet): Omit<SettledOptions, 'departure'> {
  const { comment: _, ...ofBoat } = boat.house ?? {};
  const given: House = { ...ofBoat, ...options.house };
  const planned = (options.choice ?? 'planned') === 'planned';
  const crew = options.crew ?? boat.crew;
  return {
    choice: options.choice ?? 'planned',
    crew: crew ?? null,
    labels: options.labels ?? COMPUTED_BY.labels,
    decisionMinutes: options.decisionMinutes ?? COMPUTED_BY.decisionMinutes,
    horizonHours: options.horizonHours ?? null,
    replanHours:
      options.horizonHours === undefined
        ? null
        : (options.replanHours ?? Math.min(options.horizonHours, DEFAULT_REPLAN_HOURS)),
    arriveDaylight: options.arriveDaylight ?? false,
    stepMinutes: options.stepMinutes ?? COMPUTED_BY.stepMinutes,
    maxGapHours: options.maxGapHours ?? COMPUTED_BY.maxGapHours,
    windFactor: options.windFactor ?? 1,
    windShiftHours: options.windShiftHours ?? 0,
    planSet: options.planSet ?? null,
    without: options.without ?? [],
    house: {
      ...DEFAULT_HOUSE,
      skipperFactor: SKIPPER_FACTOR[polars.status],
      pricePerChangeMinutes: priceByCrew(crew),
      ...given,
    },
    placeholders: [
      ...PLACEHOLDERS,
      ...(polars.status === 'measured' ? [] : (['skipperFactor'] as const)),
      ...(planned ? plannedPlaceholders(given, boat) : []),
    ].filter((rule) => given[rule] === undefined),
  };
}

/** The same of rules that only a planned choice asks, as far as they are in force. */
function plannedPlaceholders({ squalls, motorBelowKn }: House, { watches, engine }: Boat): (keyof House)[] {
  return [
    'pricePerChangeMinutes',
    ...(watches === undefined ? [] : (['wakeMinutes'] as const)),
    ...(squalls === true ? (['squallChance', 'squallThreshold'] as const) : []),
    ...(engine === undefined || (motorBelowKn ?? null) === null ? [] : (['motorPriceMinutes'] as const)),
  ];
}
