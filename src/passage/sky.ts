import type { Fault } from '../errors.js';
import { isoUtc } from '../time.js';
import {
  type Adjustment,
  adjustedClimatology,
  adjustedForecast,
  type Climatology,
  type Forecast,
  type SpreadShares,
  UNSTEADY_UNDER,
  type WeatherAt,
  weatherAt,
} from '../weather/weather.js';
import { says } from '../wording.js';
import { windTimesOf } from './departure.js';
import type { Hour } from './log.js';

/** What a passage is sailed in: a forecast, a monthly climatology behind it, or one of them alone. */
export type SkyInputs =
  | { readonly forecast: Forecast; readonly climatology?: Climatology }
  | { readonly forecast?: Forecast; readonly climatology: Climatology };

/** The same, adjusted; a forecast that is not there holds nothing. */
export interface Sky {
  readonly forecast: Forecast;
  readonly climatology: Climatology | undefined;
}

/** Weather by one drawing of a climatology, and of what it was drawn. */
export interface Synthetic {
  readonly seed: number;
  /** From where the days of the drawing are counted. */
  readonly from: string;
  readonly shares: SpreadShares;
  readonly eFoldHours: number;
}

export function skyOf({ forecast, climatology }: SkyInputs, adjustment: Adjustment): Sky {
  return {
    forecast: adjustedForecast(forecast ?? { file: climatology?.file ?? 'climatology', grids: [] }, adjustment),
    climatology: climatology && adjustedClimatology(climatology, adjustment),
  };
}

export const weatherOf = ({ forecast, climatology }: Sky, maxGapHours: number): WeatherAt =>
  weatherAt(forecast, maxGapHours, climatology);

/** By a climatology she is let sail at this speed and so many days more; then something is wrong with the boat or the route. */
const SLOWEST_KN = 2;
const DAYS_MORE = 10;
const MOST_HOURS = 365 * 24;

/** The last instant a passage may come to: the end of the forecast, or with a climatology behind it a bound on the time it may take. */
export function lastInstantOf({ forecast, climatology }: Sky, departureEpochSeconds: number, lengthNm: number): number {
  const ofForecast = windTimesOf(forecast)?.toEpochSeconds ?? departureEpochSeconds;
  if (climatology === undefined) return ofForecast;
  const hours = Math.min(MOST_HOURS, lengthNm / SLOWEST_KN + DAYS_MORE * 24);
  return departureEpochSeconds + hours * 3600;
}

/** A warning of hours whose wind is no forecast, and what it does not hold. */
export function climateWarning(hours: readonly Hour[], { climatology }: Sky): Fault[] {
  const hoursOf = (some: readonly Hour[]) =>
    Number((some.reduce((sum, { minutes }) => sum + minutes, 0) / 60).toFixed(1));
  const by = hours.filter(({ weather }) => weather === 'climatology');
  if (climatology === undefined || by.length === 0) return [];
  const { file, draw } = climatology;
  if (draw !== undefined) return [{ file, ...says.bySyntheticWeather(hoursOf(by), draw.seed) }];
  const unsteady = by.filter(({ steadiness }) => steadiness! < UNSTEADY_UNDER);
  return [{ file, ...says.byClimatology(hoursOf(by), hoursOf(unsteady), UNSTEADY_UNDER) }];
}

/** What the plan says of a drawing; nothing without one. */
export function syntheticOf({ climatology }: Sky): { readonly synthetic?: Synthetic } {
  if (climatology?.draw === undefined) return {};
  const { seed, fromEpochSeconds, shares, eFoldHours } = climatology.draw;
  return { synthetic: { seed, from: isoUtc(fromEpochSeconds), shares, eFoldHours } };
}
