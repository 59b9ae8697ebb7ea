import type { Fault, FaultList } from '../errors.js';
import { type Position, sailingBetween } from '../geo/geo.js';
import { RAD_PER_DEG } from '../units.js';
import { says } from '../wording.js';
import { legKindOf, SHORTEST_LEG_NM, type Waypoint } from './waypoint.js';

/** Nearest to a pole a route may go: rhumb lines and courses lose their meaning there. */
const MAX_LATITUDE_DEG = 89;
/** Four times round the world: what is longer is no route, and its track would fill the memory. */
const LONGEST_ROUTE_NM = 100_000;

/** As many as a recorded track may have: one of a week, a point every six seconds. Planning along them takes a third of a minute. */
export const MOST_WAYPOINTS = 100_000;
/** As long as a boat's name may be. */
const LONGEST_NAME = 200;

/**
 * Adds a fault for everything that keeps a route from being sailed as drawn; `at` tells the place of a waypoint. One that
 * could not be read is undefined, and its legs are passed over.
 */
export function checkWaypoints(
  waypoints: readonly (Waypoint | undefined)[],
  at: (index: number, what?: 'lat' | 'lon') => Pick<Fault, 'file' | 'line' | 'column' | 'path'>,
  faults: FaultList,
): void {
  // Beside other faults the missing waypoint may be the one that could not be read.
  if (waypoints.length < 2 && faults.count === 0) faults.add({ ...at(0), ...says.tooFewWaypoints(waypoints.length) });
  if (waypoints.length > MOST_WAYPOINTS) {
    faults.add({ ...at(MOST_WAYPOINTS), ...says.tooManyWaypoints(MOST_WAYPOINTS, `${waypoints.length}`) });
    return;
  }
  let lengthNm = 0;
  waypoints.forEach((to, i) => {
    if (to === undefined) return;
    if (to.name.length > LONGEST_NAME) faults.add({ ...at(i), ...says.nameTooLong(LONGEST_NAME, to.name) });
    if (!Number.isFinite(to.lonDeg)) {
      faults.add({ ...at(i, 'lon'), ...says.longitude(String(to.lonDeg)) });
      return;
    }
    if (!(Math.abs(to.latDeg) <= MAX_LATITUDE_DEG)) {
      faults.add({ ...at(i, 'lat'), ...says.nearPole(MAX_LATITUDE_DEG, `${to.latDeg}`) });
      if (Number.isNaN(to.latDeg)) return;
    }
    const from = waypoints[i - 1];
    if (from === undefined || !Number.isFinite(from.latDeg + from.lonDeg)) return;
    const { distanceNm, courseDeg } = sailingBetween(from, to, 'great-circle');
    if (lengthNm <= LONGEST_ROUTE_NM && lengthNm + distanceNm > LONGEST_ROUTE_NM) {
      faults.add({ ...at(i), ...says.routeTooLong(LONGEST_ROUTE_NM) });
    }
    lengthNm += distanceNm;
    if (distanceNm < SHORTEST_LEG_NM) faults.add({ ...at(i), ...says.zeroLeg(to.name) });
    if (legKindOf(from, to) === 'rhumb') return;
    if (180 * 60 - distanceNm < 1) faults.add({ ...at(i), ...says.antipodes() });
    else if (passesPole(from, to, courseDeg)) {
      faults.add({ ...at(i), ...says.nearPole(MAX_LATITUDE_DEG, 'a great circle nearer to the pole') });
    }
  });
}

/** Whether a great circle has its vertex on the leg and beyond the latitude limit: cos(vertex) = |sin(course)|·cos(lat). */
function passesPole(from: Position, to: Position, courseDeg: number): boolean {
  const cosVertex = Math.abs(Math.sin(courseDeg * RAD_PER_DEG)) * Math.cos(from.latDeg * RAD_PER_DEG);
  const vertexDeg = Math.acos(Math.min(1, cosVertex)) / RAD_PER_DEG;
  if (vertexDeg <= MAX_LATITUDE_DEG) return false;
  // The vertex is on the leg where both ends head towards the same pole.
  const back = sailingBetween(to, from, 'great-circle').courseDeg;
  return Math.sign(Math.cos(courseDeg * RAD_PER_DEG)) === Math.sign(Math.cos(back * RAD_PER_DEG));
}
