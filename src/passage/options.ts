import { type Boat, checkHouse, type House, plansWithout } from '../boat/boat.js';
import { GUST_OVER_MEAN } from '../catalogue/catalogue.js';
import { faultList } from '../errors.js';
import type { PolarSet } from '../polar/polar.js';
import { SKIPPER_FACTOR } from '../speed/speed.js';
import { DEFAULT_MAX_GAP_HOURS } from '../weather/weather.js';
import { says } from '../wording.js';

/** How each hour's sail plan is picked: `fastest` takes the most distance made good in that hour, and changes cost no time. */
export type Choice = 'fastest';

const CHOICES: readonly Choice[] = ['fastest'];

/** What a caller may set for a passage; house rules given here stand before those of the boat file. */
export interface PassageOptions {
  /** Departure, ISO 8601 with Z or an offset. */
  readonly departure: string;
  readonly choice?: Choice;
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
 */
export const DEFAULT_HOUSE = {
  gustFactor: GUST_OVER_MEAN,
  gustMargin: 1,
  tackMinutes: 3,
  gybeMinutes: 6,
  tackEveryHours: 2,
  gybeEveryHours: 12,
} as const satisfies House;

const DEFAULT_STEP_MINUTES = 10;

// A step of 10 minutes is the promise of the log; a gap of ten days is no forecast any more.
// Ten times the wind, or weather ten days late, is another forecast.
export const OPTION_RANGES = {
  stepMinutes: [0.1, 10],
  maxGapHours: [0, 240],
  windFactor: [0.1, 10],
  windShiftHours: [-240, 240],
} as const;

const KEYS: readonly string[] = ['departure', 'choice', ...Object.keys(OPTION_RANGES), 'house', 'planSet', 'without'];

/**
 * Checks what a caller set; the departure is checked against the forecast.
 * @throws InputError with every option that is none
 */
export function checkOptions(options: PassageOptions, boat: Boat): void {
  const faults = faultList();
  const file = 'options';
  for (const key of Object.keys(options)) {
    if (!KEYS.includes(key)) faults.add({ file, path: key, ...says.unknownKey(key, KEYS) });
  }
  if (typeof options.departure !== 'string') {
    faults.add({ file, path: 'departure', ...says.instantMalformed(String(options.departure)) });
  }
  for (const path of Object.keys(OPTION_RANGES) as (keyof typeof OPTION_RANGES)[]) {
    const [value, [min, max]] = [options[path], OPTION_RANGES[path]];
    if (value !== undefined && !(typeof value === 'number' && value >= min && value <= max)) {
      faults.add({ file, path, ...says.number(min, max, String(value)) });
    }
  }
  if (options.choice !== undefined && !CHOICES.includes(options.choice)) {
    faults.add({ file, path: 'choice', ...says.choice(CHOICES, String(options.choice)) });
  }
  const plans = boat.sailPlans.map(({ id }) => id);
  if (options.planSet !== undefined && !plans.includes(options.planSet)) {
    faults.add({ file, path: 'planSet', ...says.planOfBoat(plans, options.planSet) });
  }
  const sails = boat.sails.map(({ id }) => id);
  (options.without ?? []).forEach((id, i) => {
    if (!sails.includes(id)) faults.add({ file, path: `without[${i}]`, ...says.sailAboard(sails, id) });
  });
  if (faults.count === 0 && plansWithout(boat, options.without ?? []).length === 0) {
    faults.add({ file, path: 'without', ...says.noPlanLeft() });
  }
  if (options.house !== undefined) checkHouse(options.house, file, faults);
  faults.throwIfAny();
}

/** House rules whose default has no source; the skipper's factor is one for designed polars only. */
const PLACEHOLDERS: readonly (keyof House)[] = [
  'tackMinutes',
  'gybeMinutes',
  'tackEveryHours',
  'gybeEveryHours',
  'skipperFactor',
];

/** Fills in every default: options before the boat's house rules before the defaults of the library. */
export function settle(options: PassageOptions, boat: Boat, polars: PolarSet): Omit<SettledOptions, 'departure'> {
  const { comment: _, ...ofBoat } = boat.house ?? {};
  const given: House = { ...ofBoat, ...options.house };
  const measured = polars.status === 'measured';
  return {
    choice: options.choice ?? 'fastest',
    stepMinutes: options.stepMinutes ?? DEFAULT_STEP_MINUTES,
    maxGapHours: options.maxGapHours ?? DEFAULT_MAX_GAP_HOURS,
    windFactor: options.windFactor ?? 1,
    windShiftHours: options.windShiftHours ?? 0,
    planSet: options.planSet ?? null,
    without: options.without ?? [],
    house: { ...DEFAULT_HOUSE, skipperFactor: SKIPPER_FACTOR[polars.status], ...given },
    placeholders: PLACEHOLDERS.filter((rule) => given[rule] === undefined && !(rule === 'skipperFactor' && measured)),
  };
}
