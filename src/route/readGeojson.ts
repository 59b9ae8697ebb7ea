import { type FaultList, faultList } from '../errors.js';
import { type Geometry, geometriesOf, keyPath, lonLatOf, parseJson, shown } from '../json/json.js';
import { wrapLon } from '../units.js';
import { says } from '../wording.js';
import { checkWaypoints, MOST_WAYPOINTS } from './checkWaypoints.js';
import { joinedParts } from './joinedParts.js';
import { defaultName, isLegKind, type Route, type Waypoint } from './waypoint.js';

/** A waypoint and where it stands; undefined where it could not be read. */
interface Point {
  readonly path: string;
  readonly waypoint: Waypoint | undefined;
}

/**
 * Reads a route from GeoJSON (RFC 7946): a FeatureCollection, a Feature or a bare geometry with one LineString, or one
 * MultiLineString that is a line cut at the date line; without either, its Points in order, named by `properties.name`,
 * with `properties.to_next` for the leg that leaves. Positions of a line are waypoints `WP1`, `WP2`, …, and Points beside
 * it are not read. Several lines are a fault, because which one is meant must not be guessed.
 * @throws InputError with every fault of the file
 */
export function readGeojson(text: string, file: string): Route {
  const faults = faultList();
  const json = parseJson(text, file, faults);
  faults.throwIfAny();
  const geometries = geometriesOf(json, ['LineString', 'MultiLineString', 'Point'], file, faults);
  const lines = geometries.filter(({ type }) => type !== 'Point');
  const [line, second] = lines;
  if (second !== undefined) {
    const names = lines.map(({ properties }) => nameOf(properties));
    faults.add({ file, path: second.featurePath, ...says.oneLine('line', names) });
    faults.throwIfAny();
  }
  // Before anything is made of so many.
  const parts: readonly unknown[] = Array.isArray(line?.coordinates) ? line.coordinates : [];
  const length = Math.max(
    geometries.length,
    line?.type === 'LineString'
      ? parts.length
      : parts.reduce((sum: number, part) => sum + (Array.isArray(part) ? part.length : 0), 0),
  );
  if (length > MOST_WAYPOINTS) {
    faults.add({ file, ...says.tooManyWaypoints(MOST_WAYPOINTS, `${length}`) });
    faults.throwIfAny();
  }
  const points = line === undefined ? pointsOf(geometries, file, faults) : positionsOf(line, file, faults);
  const whole = line === undefined ? {} : { path: keyPath(line.path, 'coordinates') };
  const at = (i: number) => (points.length < 2 ? { file, ...whole } : { file, path: points[i]!.path });
  checkWaypoints(
    points.map(({ waypoint }) => waypoint),
    at,
    faults,
  );
  faults.throwIfAny();
  return { waypoints: points.flatMap(({ waypoint }) => waypoint ?? []) };
}

function pointsOf(geometries: readonly Geometry[], file: string, faults: FaultList): readonly Point[] {
  return geometries.map(({ coordinates, properties, path, featurePath }, i) => {
    const { to_next: toNext } = properties;
    if (!isLegKind(toNext) && toNext !== undefined && toNext !== null && toNext !== '') {
      const got = typeof toNext === 'string' ? toNext : shown(toNext);
      faults.add({ file, path: keyPath(featurePath, 'properties.to_next'), ...says.legKind(got) });
    }
    const name = nameOf(properties) ?? defaultName(i);
    const point = pointAt(coordinates, keyPath(path, 'coordinates'), name, file, faults);
    return point.waypoint !== undefined && isLegKind(toNext)
      ? { ...point, waypoint: { ...point.waypoint, toNext } }
      : point;
  });
}

function positionsOf(line: Geometry, file: string, faults: FaultList): readonly Point[] {
  const path = keyPath(line.path, 'coordinates');
  const listed = (value: unknown, what: string, at: string): readonly unknown[] => {
    if (Array.isArray(value)) return value;
    faults.add({ file, path: at, ...says.listOf(what, shown(value)) });
    return [];
  };
  if (line.type === 'LineString') {
    const positions = listed(line.coordinates, 'positions', path).map((value, i) => ({ value, path: `${path}[${i}]` }));
    return positions.map((position, i) => pointAt(position.value, position.path, defaultName(i), file, faults));
  }
  const parts = listed(line.coordinates, 'lines', path).map((part, k) => {
    const positions = listed(part, 'positions', `${path}[${k}]`);
    // What is no list has its fault already.
    if (Array.isArray(part) && positions.length < 2)
      faults.add({ file, path: `${path}[${k}]`, ...says.tooFewWaypoints(positions.length) });
    return positions.map((value, i) => pointAt(value, `${path}[${k}][${i}]`, '', file, faults));
  });
  return joinedParts(parts, file, faults).map(({ path, waypoint }, i) => ({
    path,
    waypoint: waypoint && { ...waypoint, name: defaultName(i) },
  }));
}

function pointAt(value: unknown, path: string, name: string, file: string, faults: FaultList): Point {
  const lonLat = lonLatOf(value);
  if (lonLat === undefined) {
    faults.add({ file, path, ...says.lonLat(shown(value)) });
    return { path, waypoint: undefined };
  }
  return { path, waypoint: { name, latDeg: lonLat[1], lonDeg: wrapLon(lonLat[0]) } };
}

function nameOf({ name }: Geometry['properties']): string | undefined {
  const text = typeof name === 'string' || typeof name === 'number' ? String(name).trim() : '';
  return text === '' ? undefined : text;
}
