import { readTable } from '../csv/csv.js';
import { faultList } from '../errors.js';
import { type LegKind, type Position, sailingBetween } from '../geo/geo.js';
import { RAD_PER_DEG } from '../units.js';
import { says } from '../wording.js';
import { parseLatitude, parseLongitude } from './position.js';
import { legKindOf, type Route, type Waypoint } from './waypoint.js';

/** Nearest to a pole a waypoint may be: rhumb lines and courses lose their meaning there. */
const MAX_LATITUDE_DEG = 89;

const COLUMNS = { required: ['name', 'lat', 'lon'], optional: ['to_next'] } as const;
const SHORTEST_LEG_NM = 0.001;

/**
 * Reads a route from CSV: `name,lat,lon[,to_next]`, one waypoint a row in sailing order. Positions are decimal degrees or
 * degrees and minutes with a hemisphere (`16°52.8'N`); `to_next` is `rhumb`, `great-circle` or empty.
 * @throws InputError with every fault of the file
 */
export function readRoute(text: string, file = 'route.csv'): Route {
  const faults = faultList();
  const rows = readTable(text, file, COLUMNS, faults);
  const waypoints: (Waypoint & { readonly line: number })[] = [];
  for (const { line, cells } of rows) {
    const { name = '', lat, lon, to_next: toNext = '' } = cells;
    const latDeg = lat === undefined ? undefined : parseLatitude(lat);
    const lonDeg = lon === undefined ? undefined : parseLongitude(lon);
    if (lat !== undefined && latDeg === undefined) faults.add({ file, line, column: 'lat', ...says.latitude(lat) });
    if (lon !== undefined && lonDeg === undefined) faults.add({ file, line, column: 'lon', ...says.longitude(lon) });
    if (toNext !== '' && !isLegKind(toNext)) faults.add({ file, line, column: 'to_next', ...says.legKind(toNext) });
    if (latDeg === undefined || lonDeg === undefined) continue;
    waypoints.push({ line, name, latDeg, lonDeg, ...(isLegKind(toNext) ? { toNext } : {}) });
  }
  if (rows.length === 1) faults.add({ file, ...says.tooFewWaypoints(1) });
  waypoints.forEach((to, i) => {
    const { line, name, latDeg } = to;
    if (Math.abs(latDeg) > MAX_LATITUDE_DEG) {
      faults.add({ file, line, column: 'lat', ...says.nearPole(MAX_LATITUDE_DEG, `${latDeg}`) });
    }
    const from = waypoints[i - 1];
    if (from === undefined) return;
    const { distanceNm } = sailingBetween(from, to, 'great-circle');
    if (distanceNm < SHORTEST_LEG_NM) faults.add({ file, line, ...says.zeroLeg(name) });
    if (legKindOf(from, to) === 'rhumb') return;
    const { courseDeg } = sailingBetween(from, to, 'great-circle');
    if (180 * 60 - distanceNm < 1) faults.add({ file, line, ...says.antipodes() });
    else if (passesPole(from, to, courseDeg, distanceNm)) {
      faults.add({ file, line, ...says.nearPole(MAX_LATITUDE_DEG, 'a great circle nearer to the pole') });
    }
  });
  faults.throwIfAny();
  return { waypoints: waypoints.map(({ line: _, ...waypoint }) => waypoint) };
}

function isLegKind(text: string): text is LegKind {
  return text === 'rhumb' || text === 'great-circle';
}

/** Whether a great circle has its vertex on the leg and beyond the latitude limit: cos(vertex) = |sin(course)|·cos(lat). */
function passesPole(from: Position, to: Position, courseDeg: number, distanceNm: number): boolean {
  const vertexDeg =
    Math.acos(Math.min(1, Math.abs(Math.sin(courseDeg * RAD_PER_DEG)) * Math.cos(from.latDeg * RAD_PER_DEG))) /
    RAD_PER_DEG;
  if (vertexDeg <= MAX_LATITUDE_DEG) return false;
  const back = sailingBetween(to, from, 'great-circle').courseDeg;
  // The vertex is on the leg where both ends head towards the same pole.
  const [leaving, returning] = [Math.cos(courseDeg * RAD_PER_DEG), Math.cos(back * RAD_PER_DEG)];
  return Math.sign(leaving) === Math.sign(returning) && distanceNm > 1;
}
