import { InputError } from '../errors.js';
import { foreignFormat } from '../foreignFormat.js';
import { mustBeText } from '../given.js';
import { says } from '../wording.js';
import { readGeojson } from './readGeojson.js';
import { readGpx } from './readGpx.js';
import { readRouteCsv } from './readRouteCsv.js';
import type { Route } from './waypoint.js';

/**
 * Reads a route from GPX, GeoJSON or CSV, told apart by the first character that is no blank: `<` begins GPX, `{` or `[`
 * GeoJSON, anything else CSV. `file` is its name in faults: `route.csv`, `route.gpx` or `route.geojson` if none is given.
 *
 * - CSV: `name,lat,lon[,to_next]`, one waypoint a row in sailing order.
 * - GPX 1.1 (and 1.0): the one `rte`, or where there is none the one `trk` with all its `trkseg`.
 * - GeoJSON (RFC 7946): one line, or points in sailing order with `properties.name` and `properties.to_next`.
 *
 * A leg is a great circle over 500 Nm, else a rhumb line, unless `to_next` says otherwise.
 * @throws InputError with every fault of the file, or where the text is none
 * @example
 * readRoute('name,lat,lon\nCape Verde,16.9,-25\nBarbados,13.1,-59.6\n').waypoints.length // 2
 * readRoute('name,lat,lon\nCape Verde,96.9,-25\nBarbados,13.1,-59.6\n')
 * // throws route.csv, line 2, column lat: expected a latitude from 90S to 90N, like 16.88 or 16°52.8'N, got "96.9"
 */
export function readRoute(text: string, file?: string): Route {
  mustBeText(text, file ?? 'route');
  const foreign = foreignFormat(text);
  if (foreign !== undefined) throw new InputError([{ file: file ?? 'route.csv', ...says.notText(foreign) }]);
  // Trimming takes a byte order mark away as well.
  const first = text.trimStart()[0];
  if (first === '<') return readGpx(text, file ?? 'route.gpx');
  if (first === '{' || first === '[') return readGeojson(text, file ?? 'route.geojson');
  return readRouteCsv(text, file ?? 'route.csv');
}
