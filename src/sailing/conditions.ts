import type { TrackPoint } from '../route/route.js';
import type { Winds } from '../speed/speed.js';
import type { Weather } from '../weather/weather.js';
import { fromDirectionOf, limitGust, sailingWind, speedOf, type VelocityKn } from '../wind/wind.js';

/** What a boat meets at a place and instant: winds over the water, the current, and the course to make good. */
export interface Conditions extends Winds {
  readonly courseDeg: number;
  readonly twdDeg: number;
  readonly current: VelocityKn;
}

/** How the limit gust is made of a forecast. */
export interface GustRules {
  /** Gust over mean wind where the forecast has no gust. */
  readonly gustFactor: number;
  /** Factor on the gust for safety. */
  readonly gustMargin: number;
}

/** What tacks and gybes cost and how often they are made, where the course is made good on alternate tacks. */
export interface ManoeuvreRules {
  readonly tackMinutes: number;
  readonly gybeMinutes: number;
  readonly tackEveryHours: number;
  readonly gybeEveryHours: number;
}

const STILL: VelocityKn = { eastKn: 0, northKn: 0 };

/**
 * Winds over the water and current at a point of the track. A missing current is none. Where squalls are allowed for, the limit
 * gust is no less than the mean times their factor.
 */
export function conditionsAt(
  point: TrackPoint,
  weather: Weather,
  { gustFactor, gustMargin }: GustRules,
  squallFactor = 0,
): Conditions {
  const current = weather.current ?? STILL;
  const wind = sailingWind(weather.wind, current);
  const limit = limitGust(weather.wind, weather.gustKn, gustFactor, gustMargin);
  const squall = limitGust(weather.wind, 0, 0, squallFactor);
  const gustWind = sailingWind(speedOf(squall) > speedOf(limit) ? squall : limit, current);
  return {
    courseDeg: point.courseDeg,
    twdDeg: fromDirectionOf(wind),
    twsKn: speedOf(wind),
    gustWind,
    gustTwsKn: speedOf(gustWind),
    current,
  };
}
