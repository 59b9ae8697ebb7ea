import { sailingBetween } from '../geo/geo.js';
import { lastAtMost } from '../rising.js';
import { RAD_PER_DEG, wrap180, wrapLon } from '../units.js';
import { speedOf } from '../wind/wind.js';
import type { Forecast, Grid } from './forecast.js';
import { type WeatherAt, weatherAt } from './sample.js';

/** The nearest place with a strong mean wind, seen from another, and the strongest wind of all such places. */
export interface StrongWind {
  readonly latDeg: number;
  readonly lonDeg: number;
  readonly distanceNm: number;
  /** From where it is seen. */
  readonly bearingDeg: number;
  readonly strongestKn: number;
}

/** Strong wind near a place at an instant; undefined where there is none. */
export type StrongWindNear = (latDeg: number, lonDeg: number, epochSeconds: number) => StrongWind | undefined;

const NM_PER_DEG = 60;

/**
 * A look-out for a mean wind of `fromKn` and more within `withinNm`: at the grid points of the forecast and at the place
 * itself, over the ground. Where the forecast was cropped to a route it sees no further than the crop.
 */
export function strongWindNear(
  forecast: Forecast,
  fromKn: number,
  withinNm: number,
  maxGapHours: number,
): StrongWindNear {
  const at = weatherAt(forecast, maxGapHours);
  const grids = forecast.grids.filter((grid) => grid.fields.windEastKn !== undefined);
  const strongest = grids.map(strongestOf);
  return (latDeg, lonDeg, epochSeconds) => {
    const seen: StrongWind[] = [];
    const look = (lat: number, lon: number) => {
      const wind = windOf(at, lat, lon, epochSeconds);
      if (!(wind >= fromKn)) return;
      const { distanceNm, courseDeg } = sailingBetween(
        { latDeg, lonDeg },
        { latDeg: lat, lonDeg: lon },
        'great-circle',
      );
      if (distanceNm > withinNm) return;
      seen.push({ latDeg: lat, lonDeg: lon, distanceNm, bearingDeg: courseDeg, strongestKn: wind });
    };
    look(latDeg, lonDeg);
    grids.forEach((grid, g) => {
      // Between two times a component wind is never stronger than at both.
      const before = Math.max(0, lastAtMost(grid.epochSeconds, epochSeconds));
      const after = Math.min(grid.epochSeconds.length - 1, before + 1);
      if (Math.max(strongest[g]!(before), strongest[g]!(after)) < fromKn) return;
      for (const [lat, lon] of pointsNear(grid, latDeg, lonDeg, withinNm)) look(lat, lon);
    });
    if (seen.length === 0) return undefined;
    const nearest = seen.reduce((a, b) => (b.distanceNm < a.distanceNm ? b : a));
    return { ...nearest, strongestKn: Math.max(...seen.map(({ strongestKn }) => strongestKn)) };
  };
}

function windOf(at: WeatherAt, latDeg: number, lonDeg: number, epochSeconds: number): number {
  const weather = at(latDeg, lonDeg, epochSeconds);
  return weather === undefined ? Number.NaN : speedOf(weather.wind);
}

/** The strongest wind of a grid at each of its times, each found once. */
function strongestOf({ lats, lons, fields }: Grid): (time: number) => number {
  const slice = lats.length * lons.length;
  const found = new Map<number, number>();
  return (time) => {
    const known = found.get(time);
    if (known !== undefined) return known;
    const [u, v] = [fields.windEastKn!, fields.windNorthKn!];
    let most = 0;
    for (let i = time * slice; i < (time + 1) * slice; i += 1) {
      const squared = u[i]! * u[i]! + v[i]! * v[i]!;
      if (squared > most) most = squared;
    }
    // A hair more than rounding takes away.
    const strongest = Math.sqrt(most) * (1 + 1e-6);
    found.set(time, strongest);
    return strongest;
  };
}

/** The points of a grid in a box round a place. */
function* pointsNear(
  { lats, lons }: Grid,
  latDeg: number,
  lonDeg: number,
  withinNm: number,
): Generator<readonly [latDeg: number, lonDeg: number]> {
  const latReach = withinNm / NM_PER_DEG;
  for (const lat of lats) {
    if (Math.abs(lat - latDeg) > latReach) continue;
    // The meridians of a circle close in towards the pole: its reach in longitude at its highest latitude.
    const highest = Math.min(89, Math.max(Math.abs(latDeg) + latReach, Math.abs(lat)));
    const lonReach = latReach / Math.cos(highest * RAD_PER_DEG);
    for (const lon of lons) if (Math.abs(wrap180(lon - lonDeg)) <= lonReach) yield [lat, wrapLon(lon)];
  }
}
