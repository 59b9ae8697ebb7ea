import { type FaultList, quoted } from '../errors.js';
import { says } from '../wording.js';

/** An object of a JSON text. */
export type JsonObject = Readonly<Record<string, unknown>>;

/** One geometry of a GeoJSON text, where it stands in it, and the properties of the feature it belongs to. */
export interface Geometry {
  readonly type: string;
  readonly coordinates: unknown;
  readonly properties: JsonObject;
  /** Path of the geometry, and of the feature or of the geometry that is none's. */
  readonly path: string;
  readonly featurePath: string;
}

/**
 * All geometries of a GeoJSON text (RFC 7946) in order: of a FeatureCollection, of a Feature, or bare. Features without a
 * geometry are passed over. What is none of these, and geometries of other types than are taken, are faults.
 */
export function geometriesOf(
  json: unknown,
  taken: readonly string[],
  file: string,
  faults: FaultList,
): readonly Geometry[] {
  const found: Geometry[] = [];
  const reading: Reading = {
    taken,
    found,
    addFault: (path, said) => faults.add({ file, ...(path === '' ? {} : { path }), ...said }),
  };
  // What may stand in what ends after four levels, so that nesting cannot go on for ever.
  if (!hasType(json, '', ['FeatureCollection', 'Feature', ...taken], reading)) return [];
  if (json.type === 'FeatureCollection') {
    eachIn(json, 'features', '', reading, (item, path) => {
      if (hasType(item, path, ['Feature'], reading)) takeFeature(item, path, reading);
    });
  } else if (json.type === 'Feature') takeFeature(json, '', reading);
  else takeGeometry(json, '', '', {}, reading);
  return found;
}

interface Reading {
  readonly taken: readonly string[];
  readonly found: Geometry[];
  readonly addFault: (path: string, said: ReturnType<typeof says.geojson>) => void;
}

type Typed = JsonObject & { readonly type: string };

function takeFeature(feature: Typed, path: string, reading: Reading): void {
  const [geometry, geometryPath] = [feature.geometry, keyPath(path, 'geometry')];
  const properties = isObject(feature.properties) ? feature.properties : {};
  if (geometry !== null && hasType(geometry, geometryPath, reading.taken, reading))
    takeGeometry(geometry, geometryPath, path, properties, reading);
}

function takeGeometry(
  geometry: Typed,
  path: string,
  featurePath: string,
  properties: JsonObject,
  reading: Reading,
): void {
  const { type, coordinates } = geometry;
  if (type !== 'GeometryCollection') {
    reading.found.push({ type, coordinates, properties, path, featurePath });
    return;
  }
  const inner = reading.taken.filter((taken) => taken !== type);
  eachIn(geometry, 'geometries', path, reading, (item, itemPath) => {
    if (hasType(item, itemPath, inner, reading)) takeGeometry(item, itemPath, featurePath, properties, reading);
  });
}

function eachIn(
  parent: JsonObject,
  key: string,
  path: string,
  { addFault }: Reading,
  take: (item: unknown, path: string) => void,
): void {
  const [items, listPath] = [parent[key], keyPath(path, key)];
  if (!Array.isArray(items)) addFault(listPath, says.listOf(key, shown(items)));
  else for (const [i, item] of items.entries()) take(item, `${listPath}[${i}]`);
}

function hasType(json: unknown, path: string, types: readonly string[], { addFault }: Reading): json is Typed {
  if (!isObject(json)) addFault(path, says.geojson(shown(json)));
  else if (json.type === undefined) addFault(keyPath(path, 'type'), says.missingKey());
  else if (typeof json.type !== 'string') addFault(keyPath(path, 'type'), says.choice(types, shown(json.type)));
  else if (!types.includes(json.type)) addFault(keyPath(path, 'type'), says.choice(types, json.type));
  else return true;
  return false;
}

/** The path of a key of the object that stands at a path. */
export const keyPath = (path: string, key: string) => (path === '' ? key : `${path}.${key}`);

/** Longitude and latitude of a GeoJSON position, undefined where it is none. Heights are not used. */
export function lonLatOf(value: unknown): readonly [lonDeg: number, latDeg: number] | undefined {
  if (!Array.isArray(value)) return undefined;
  const [lonDeg, latDeg] = value as readonly unknown[];
  if (typeof lonDeg !== 'number' || typeof latDeg !== 'number') return undefined;
  // Adding 0 turns −0 into 0.
  return lonDeg >= -180 && lonDeg <= 360 && Math.abs(latDeg) <= 90 ? [lonDeg + 0, latDeg + 0] : undefined;
}

const ITEMS_SHOWN = 3;

/** A JSON value as a fault shows it, short whatever its size. */
export function shown(value: unknown): string {
  if (value === undefined) return 'nothing';
  if (typeof value === 'string') return quoted(value);
  if (isObject(value)) return 'an object';
  if (!Array.isArray(value)) return String(value);
  const items = value.slice(0, ITEMS_SHOWN).map((item) => (Array.isArray(item) ? '[…]' : shown(item)));
  return `[${[...items, ...(value.length > ITEMS_SHOWN ? ['…'] : [])].join(', ')}]`;
}

function isObject(value: unknown): value is JsonObject {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
