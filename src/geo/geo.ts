import { bearing, destination, distance, rhumbBearing, rhumbDestination, rhumbDistance } from '@turf/turf';
import { wrap360, wrapLon } from '../units.js';

export { cutAtDateLine, turnsAlong } from './dateline.js';
export { positionText } from './positionText.js';

/** A place on the handbook sphere. */
export interface Position {
  readonly latDeg: number;
  readonly lonDeg: number;
}

/** How a leg is sailed: on one course, or on the shortest line. */
export type LegKind = 'rhumb' | 'great-circle';

/** Course and distance of the line from one place to another. */
export interface Sailing {
  /** Course at the start, clockwise from true north. */
  readonly courseDeg: number;
  readonly distanceNm: number;
}

const DEGREES = { units: 'degrees' } as const;
const NM_PER_DEG = 60;
const lonLat = (place: Position) => [place.lonDeg, place.latDeg];

/**
 * Course and distance along a rhumb line or a great circle on the handbook sphere, where one minute of arc is one
 * nautical mile; the shorter way round across the date line. The sphere is off the ellipsoid by up to 0.5 % in
 * distance (docs/accuracy.md). Angles come from `@turf/turf`, asked in degrees so that its own earth radius plays no part.
 * @example
 * sailingBetween({ latDeg: 16.9, lonDeg: -25 }, { latDeg: 13.1, lonDeg: -59.6 }, 'great-circle')
 * // { courseDeg: 268.3…, distanceNm: 2015.6… }
 */
export function sailingBetween(from: Position, to: Position, kind: LegKind): Sailing {
  const [a, b] = [lonLat(from), lonLat(to)];
  return kind === 'rhumb'
    ? { courseDeg: wrap360(rhumbBearing(a, b)), distanceNm: rhumbDistance(a, b, DEGREES) * NM_PER_DEG }
    : { courseDeg: wrap360(bearing(a, b)), distanceNm: distance(a, b, DEGREES) * NM_PER_DEG };
}

/**
 * The place reached after a distance on a course: kept along a rhumb line, or set at the start of a great circle.
 * Rhumb lines must end short of the poles; longitudes come back −180 ≤ x < 180.
 * @example
 * placeFrom({ latDeg: 28, lonDeg: -15 }, 270, 60, 'rhumb') // { latDeg: 28, lonDeg: -16.13… }
 */
export function placeFrom(from: Position, courseDeg: number, distanceNm: number, kind: LegKind): Position {
  const arcDeg = distanceNm / NM_PER_DEG;
  const reached =
    kind === 'rhumb'
      ? rhumbDestination(lonLat(from), arcDeg, courseDeg, DEGREES)
      : destination(lonLat(from), arcDeg, courseDeg, DEGREES);
  const [lon, lat] = reached.geometry.coordinates as [number, number];
  return { latDeg: lat, lonDeg: wrapLon(lon) };
}
