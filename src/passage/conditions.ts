import type { TrackPoint } from '../route/route.js';
import type { Winds } from '../speed/speed.js';
import type { Weather } from '../weather/weather.js';
import { fromDirectionOf, limitGust, sailingWind, speedOf, type VelocityKn } from '../wind/wind.js';
import type { SettledOptions } from './options.js';

/** What a boat meets at a place and instant: winds over the water, the current, and the course to make good. */
export interface Conditions extends Winds {
  readonly courseDeg: number;
  readonly twdDeg: number;
  readonly current: VelocityKn;
}

const STILL: VelocityKn = { eastKn: 0, northKn: 0 };

/** Winds over the water and current at a point of the track. A missing current is none. */
export function conditionsAt(
  point: TrackPoint,
  weather: Weather,
  { house }: Pick<SettledOptions, 'house'>,
): Conditions {
  const current = weather.current ?? STILL;
  const wind = sailingWind(weather.wind, current);
  const gustWind = sailingWind(limitGust(weather.wind, weather.gustKn, house.gustFactor, house.gustMargin), current);
  return {
    courseDeg: point.courseDeg,
    twdDeg: fromDirectionOf(wind),
    twsKn: speedOf(wind),
    gustWind,
    gustTwsKn: speedOf(gustWind),
    current,
  };
}
