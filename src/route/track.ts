import { faultList } from '../errors.js';
import { type Position, placeFrom, sailingBetween } from '../geo/geo.js';
import { mustBeGiven } from '../given.js';
import { lastAtMost } from '../rising.js';
import { wrap180, wrap360, wrapLon } from '../units.js';
import { checkWaypoints } from './checkWaypoints.js';
import { legKindOf, type Route } from './waypoint.js';

/**
 * A route laid out: points at most 5 Nm apart by distance from the start. Each waypoint between two legs stands twice,
 * as the end of one and the start of the next. Longitudes −180 ≤ x < 180; `leg` counts from 1.
 */
export interface Track {
  readonly distanceNm: Float64Array;
  readonly latDeg: Float64Array;
  readonly lonDeg: Float64Array;
  readonly courseDeg: Float64Array;
  readonly leg: Uint32Array;
}

/** A place on the track. At a waypoint the course and leg are those of the leg that leaves it. */
export interface TrackPoint extends Position {
  readonly distanceNm: number;
  readonly courseDeg: number;
  readonly leg: number;
  /** Distance from the start at which this leg ends. */
  readonly legEndNm: number;
}

const SPACING_NM = 5;

/**
 * Lays a route out once, so that sailing it never calls geodesy again.
 * @throws InputError where a route is none, or one made in memory cannot be sailed: fewer than two waypoints, a leg without length, a pole
 * @example
 * layTrack(sample.route).distanceNm.at(-1) // 2784.4…
 */
export function layTrack(route: Route): Track {
  mustBeGiven(route, 'waypoints', 'route', 'readRoute');
  const faults = faultList();
  checkWaypoints(
    route.waypoints,
    (i, what) => ({ file: 'route', path: `waypoints[${i}]${what === undefined ? '' : `.${what}Deg`}` }),
    faults,
  );
  faults.throwIfAny();
  const points: Omit<TrackPoint, 'legEndNm'>[] = [];
  let startNm = 0;
  for (let i = 1; i < route.waypoints.length; i += 1) {
    const [from, to] = [route.waypoints[i - 1]!, route.waypoints[i]!];
    const kind = legKindOf(from, to);
    const { courseDeg, distanceNm } = sailingBetween(from, to, kind);
    const steps = Math.max(1, Math.ceil(distanceNm / SPACING_NM));
    for (let step = 0; step < steps; step += 1) {
      const alongNm = (distanceNm * step) / steps;
      const place = step === 0 ? from : placeFrom(from, courseDeg, alongNm, kind);
      const course = kind === 'rhumb' ? courseDeg : sailingBetween(place, to, kind).courseDeg;
      points.push({
        latDeg: place.latDeg,
        lonDeg: wrapLon(place.lonDeg),
        distanceNm: startNm + alongNm,
        courseDeg: course,
        leg: i,
      });
    }
    startNm += distanceNm;
    // The course at the end of a great circle is the one back, turned round.
    const arriving = kind === 'rhumb' ? courseDeg : wrap360(sailingBetween(to, from, kind).courseDeg + 180);
    points.push({ latDeg: to.latDeg, lonDeg: wrapLon(to.lonDeg), distanceNm: startNm, courseDeg: arriving, leg: i });
  }
  return {
    distanceNm: Float64Array.from(points, (point) => point.distanceNm),
    latDeg: Float64Array.from(points, (point) => point.latDeg),
    lonDeg: Float64Array.from(points, (point) => point.lonDeg),
    courseDeg: Float64Array.from(points, (point) => point.courseDeg),
    leg: Uint32Array.from(points, (point) => point.leg),
  };
}

/**
 * A look-up of place and course by distance from the start, held at both ends. Between points of the track latitude,
 * longitude and course run straight: at 5 Nm that is within 2 m × tan(latitude) of the line sailed.
 * @throws InputError where the track is none
 * @example
 * trackAt(layTrack(sample.route))(100)
 * // { distanceNm: 100, latDeg: 27.03…, lonDeg: -16.38…, courseDeg: 236.5…, leg: 2, legEndNm: 865.0… }
 */
export function trackAt(track: Track): (distanceNm: number) => TrackPoint {
  mustBeGiven(track, 'courseDeg', 'track', 'layTrack');
  const { distanceNm: distances, latDeg, lonDeg, courseDeg, leg } = track;
  const lengthNm = distances[distances.length - 1]!;
  const legEnds = new Map<number, number>();
  leg.forEach((number, i) => {
    legEnds.set(number, distances[i]!);
  });
  return (wantedNm) => {
    const distanceNm = Math.min(lengthNm, Math.max(0, wantedNm));
    const i = lastAtMost(distances, distanceNm);
    const number = leg[i]!;
    const legEndNm = legEnds.get(number)!;
    const spanNm = i + 1 < distances.length ? distances[i + 1]! - distances[i]! : 0;
    const share = spanNm > 0 ? (distanceNm - distances[i]!) / spanNm : 0;
    if (share === 0)
      return { distanceNm, latDeg: latDeg[i]!, lonDeg: lonDeg[i]!, courseDeg: courseDeg[i]!, leg: number, legEndNm };
    return {
      distanceNm,
      latDeg: latDeg[i]! + (latDeg[i + 1]! - latDeg[i]!) * share,
      lonDeg: wrapLon(lonDeg[i]! + wrap180(lonDeg[i + 1]! - lonDeg[i]!) * share),
      courseDeg: wrap360(courseDeg[i]! + wrap180(courseDeg[i + 1]! - courseDeg[i]!) * share),
      leg: number,
      legEndNm,
    };
  };
}
