import { type FaultList, faultList } from '../errors.js';
import { checkTypes, mustBeGiven } from '../given.js';
import { says } from '../wording.js';
import type { Climatology } from './climatology.js';
import { riceMeanKn, spreadKn } from './rice.js';

/** How the variance that a month's means imply is split; the three add up to 1. */
export interface SpreadShares {
  /** What stays the same over a whole passage: how this year differs from others. */
  readonly passage: number;
  /** What comes and goes within days: the weather. */
  readonly weather: number;
  /** Errors of observation: they are in the means, and not in the wind. Dropped. */
  readonly observation: number;
}

/**
 * How the variance is split where nobody says: placeholders, without a source.
 * @example
 * DEFAULT_SPREAD_SHARES // { passage: 0.2, weather: 0.5, observation: 0.3 }
 */
export const DEFAULT_SPREAD_SHARES: SpreadShares = { passage: 0.2, weather: 0.5, observation: 0.3 };
/**
 * Hours in which drawn weather keeps 1/e of itself where nobody says: a placeholder, without a source.
 * @example
 * DEFAULT_E_FOLD_HOURS // 36
 */
export const DEFAULT_E_FOLD_HOURS = 36;

/** One drawing of synthetic weather: with the same one the weather is the same, whatever is asked and in which order. */
export interface Draw {
  /** A whole number from 0 to 4 294 967 295. */
  readonly seed: number;
  /** From where its days are counted, mostly the departure. */
  readonly fromEpochSeconds: number;
  readonly shares: SpreadShares;
  readonly eFoldHours: number;
}

/** How to draw. */
export interface DrawOptions {
  readonly seed: number;
  readonly fromEpochSeconds: number;
  /** Default: 20 % for the passage, 50 % weather, 30 % observation, which is dropped: placeholders. */
  readonly shares?: SpreadShares;
  /** Default 36, a placeholder. */
  readonly eFoldHours?: number;
}

const LARGEST_SEED = 2 ** 32 - 1;
const MOST_E_FOLD_HOURS = 1000;

/**
 * A climatology whose wind is no longer the mean but one synthetic drawing: the mean vector, and a disturbance of the same shape at
 * every place, whose spread is that of the place and month. Components are normal and independent of each other. What the mean holds of
 * gales, squalls and lulls is no more than its spread.
 * @throws InputError where the climatology, the seed, time, shares or hours are none
 * @example
 * const fromEpochSeconds = Date.UTC(2027, 0, 11) / 1000;
 * const climatology = drawnFrom(sample.climatology, { seed: 1, fromEpochSeconds });
 * const { route, boat, polars } = sample;
 * planPassage({ route, boat, polars, climatology }, { departure: '2027-01-11T12:00Z' }).synthetic
 * // { seed: 1, eFoldHours: 36, … }
 */
export function drawnFrom(climatology: Climatology, options: DrawOptions): Climatology {
  mustBeGiven(climatology, 'meanSpeedKn', 'climatology', 'readClimatology');
  checkTypes(options, { shares: 'object?', eFoldHours: 'number?' }, 'draw');
  const { seed, fromEpochSeconds, shares = DEFAULT_SPREAD_SHARES, eFoldHours = DEFAULT_E_FOLD_HOURS } = options;
  const draw = { seed, fromEpochSeconds, shares, eFoldHours };
  const faults = faultList();
  checkDraw(draw, faults);
  faults.throwIfAny();
  return { ...climatology, draw };
}

/** Adds a fault for every value of a drawing that is none. */
export function checkDraw({ seed, fromEpochSeconds, shares, eFoldHours }: Draw, faults: FaultList): void {
  const add = (path: string, expected: string, got: unknown) => {
    faults.add({ file: 'draw', path, ...says.wrongValue(expected, String(got)) });
  };
  if (!Number.isInteger(seed) || seed < 0 || seed > LARGEST_SEED) {
    add('seed', `a whole number from 0 to ${LARGEST_SEED}`, seed);
  }
  if (!Number.isFinite(fromEpochSeconds)) add('fromEpochSeconds', 'a number', fromEpochSeconds);
  const { passage, weather, observation } = shares;
  const each = [passage, weather, observation];
  const sum = passage + weather + observation;
  if (!each.every((share) => typeof share === 'number' && share >= 0) || !(Math.abs(sum - 1) < 1e-9)) {
    add('shares', 'passage, weather and observation from 0, together 1', each.join(', '));
  }
  if (!(eFoldHours > 0 && eFoldHours <= MOST_E_FOLD_HOURS)) {
    add('eFoldHours', `more than 0 and at most ${MOST_E_FOLD_HOURS}`, eFoldHours);
  }
}

/**
 * Mean speed over many drawings where the month's means are these: the Rice mean at the variance that is kept. Under the month's mean
 * speed, because the errors of observation that are dropped were in it.
 *
 * @example
 * keptMeanSpeedKn(14, 16) // 15.36… */
export function keptMeanSpeedKn(
  vectorKn: number,
  meanSpeedKn: number,
  shares: SpreadShares = DEFAULT_SPREAD_SHARES,
): number {
  return riceMeanKn(vectorKn, spreadKn(vectorKn, meanSpeedKn) * Math.sqrt(shares.passage + shares.weather));
}
