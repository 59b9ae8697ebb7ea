import type { XmlElement } from '@rgrove/parse-xml';
import { type FaultList, faultList } from '../errors.js';
import { wrapLon } from '../units.js';
import { says } from '../wording.js';
import { checkWaypoints } from './checkWaypoints.js';
import { defaultName, isSamePlace, type Route, type Waypoint } from './waypoint.js';
import { childrenOf, localName, readXml, textOf, type XmlRead } from './xml.js';

type Place = Pick<Waypoint, 'latDeg' | 'lonDeg'>;

/** A point of the file; its place is undefined where it could not be read. */
interface Point {
  readonly line: number;
  readonly name: string;
  readonly place: Place | undefined;
}

/**
 * Reads a route from GPX 1.1 (or 1.0): the one `rte` that has points, or where there is none the one `trk`, all its
 * segments in order. Several are a fault, because which one is meant must not be guessed. A name is that of the point, else
 * `WP1`, `WP2`, …; of a place that a track repeats, as recorders do, the first point is kept.
 * @throws InputError with every fault of the file
 */
export function readGpx(text: string, file: string): Route {
  const faults = faultList();
  const xml = readXml(text, file, faults);
  const points = xml === undefined ? [] : pointsOf(xml, file, faults);
  faults.throwIfAny();
  const waypoints = points.map(
    ({ name, place }, i): Waypoint | undefined => place && { name: name === '' ? defaultName(i) : name, ...place },
  );
  const at = (i: number, path?: string) => ({
    file,
    line: points[i]!.line,
    ...(path === undefined ? {} : { path }),
  });
  checkWaypoints(waypoints, at, faults);
  faults.throwIfAny();
  return { waypoints: waypoints.filter((waypoint) => waypoint !== undefined) };
}

function pointsOf({ root, lineOf }: XmlRead, file: string, faults: FaultList): readonly Point[] {
  if (localName(root) !== 'gpx') {
    faults.add({ file, line: lineOf(root), ...says.gpxRoot(root.name) });
    return [];
  }
  const under = (parent: XmlElement, name: string) => childrenOf(parent, name, root);
  const routes = under(root, 'rte').map((line) => ({ line, points: under(line, 'rtept') }));
  const tracks = under(root, 'trk').map((line) => ({
    line,
    points: under(line, 'trkseg').flatMap((part) => under(part, 'trkpt')),
  }));
  const [of, found] = [routes, tracks].map((lines) => lines.filter(({ points }) => points.length > 0));
  const [what, lines] = of!.length > 0 ? (['rte', of!] as const) : (['trk', found!] as const);
  const [first, second] = lines;
  if (first === undefined) {
    faults.add({ file, line: lineOf(root), ...says.noRoute(under(root, 'wpt').length) });
    return [];
  }
  if (second !== undefined) {
    const names = lines.map(({ line }) => textOf(under(line, 'name')[0]) || undefined);
    faults.add({ file, line: lineOf(second.line), ...says.oneLine(what, names) });
    return [];
  }
  const points = first.points.map((point) => {
    const line = lineOf(point);
    return { line, name: textOf(under(point, 'name')[0]), place: placeOf(point, { file, line }, faults) };
  });
  return what === 'rte' ? points : withoutRepeats(points);
}

function placeOf({ attributes }: XmlElement, at: { file: string; line: number }, faults: FaultList): Place | undefined {
  const latDeg = degreesOf(attributes.lat, -90, 90, { ...at, path: 'lat' }, faults);
  const lonDeg = degreesOf(attributes.lon, -180, 360, { ...at, path: 'lon' }, faults);
  return latDeg === undefined || lonDeg === undefined ? undefined : { latDeg, lonDeg: wrapLon(lonDeg) };
}

// Numbers of XML Schema's type decimal, which GPX uses: no exponent, a point but never a comma.
const DECIMAL = /^[+-]?(?:\d+(?:\.\d*)?|\.\d+)$/;

function degreesOf(
  text: string | undefined,
  min: number,
  max: number,
  at: { file: string; line: number; path: string },
  faults: FaultList,
): number | undefined {
  const value = text !== undefined && DECIMAL.test(text.trim()) ? Number(text) : Number.NaN;
  // Adding 0 turns −0 into 0.
  if (value >= min && value <= max) return value + 0;
  faults.add({ ...at, ...(text === undefined ? says.missingKey() : says.degrees(min, max, text)) });
  return undefined;
}

function withoutRepeats(points: readonly Point[]): readonly Point[] {
  const kept: Point[] = [];
  for (const point of points) {
    const last = kept.at(-1)?.place;
    if (last === undefined || point.place === undefined || !isSamePlace(last, point.place)) kept.push(point);
  }
  return kept;
}
