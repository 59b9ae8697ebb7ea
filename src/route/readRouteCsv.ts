import { countLineEnds, readTable, textOfCell } from '../csv/csv.js';
import { faultList } from '../errors.js';
import { says } from '../wording.js';
import { checkWaypoints, MOST_WAYPOINTS } from './checkWaypoints.js';
import { parseLatitude, parseLongitude } from './position.js';
import { isLegKind, type Route, type Waypoint } from './waypoint.js';

const COLUMNS = { required: ['name', 'lat', 'lon'], optional: ['to_next'] } as const;

/**
 * Reads a route from CSV: `name,lat,lon[,to_next]`, one waypoint a row in sailing order. Positions are decimal degrees or
 * degrees and minutes with a hemisphere (`16°52.8'N`); `to_next` is `rhumb`, `great-circle` or empty.
 * @throws InputError with every fault of the file
 */
export function readRouteCsv(text: string, file: string): Route {
  const faults = faultList();
  // Before anything is made of so many; every second line may be blank.
  const lines = countLineEnds(text);
  if (lines > 2 * MOST_WAYPOINTS + 2) {
    faults.add({ file, ...says.tooManyWaypoints(MOST_WAYPOINTS, `${lines} lines`) });
    faults.throwIfAny();
  }
  const rows = readTable(text, file, COLUMNS, faults);
  const waypoints = rows.map(({ line, cells }): Waypoint | undefined => {
    const { name: cell = '', lat, lon, to_next: toNext = '' } = cells;
    const latDeg = lat === undefined ? undefined : parseLatitude(lat);
    const lonDeg = lon === undefined ? undefined : parseLongitude(lon);
    if (lat !== undefined && latDeg === undefined) faults.add({ file, line, column: 'lat', ...says.latitude(lat) });
    if (lon !== undefined && lonDeg === undefined) faults.add({ file, line, column: 'lon', ...says.longitude(lon) });
    if (toNext !== '' && !isLegKind(toNext)) faults.add({ file, line, column: 'to_next', ...says.legKind(toNext) });
    if (latDeg === undefined || lonDeg === undefined) return undefined;
    return { name: textOfCell(cell), latDeg, lonDeg, ...(isLegKind(toNext) ? { toNext } : {}) };
  });
  const at = (i: number, column?: string) => ({
    file,
    line: rows[i]!.line,
    ...(column === undefined ? {} : { column }),
  });
  if (rows.length > 0) checkWaypoints(waypoints, at, faults);
  faults.throwIfAny();
  return { waypoints: waypoints.filter((waypoint) => waypoint !== undefined) };
}
