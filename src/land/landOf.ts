import { type FaultList, faultList } from '../errors.js';
import { geometriesOf, keyPath, lonLatOf, shown } from '../json/json.js';
import { says } from '../wording.js';

/** A closed line of positions, degrees. */
export type Ring = readonly (readonly [lonDeg: number, latDeg: number])[];

/**
 * Land as polygons, each a list of rings of [longitude, latitude] in degrees: the outer one, then its holes. Longitudes
 * −180 to 180 or 0 to 360; land that crosses the date line may be cut there or not, and
 * no edge spans 180° or more.
 */
export interface Land {
  readonly polygons: readonly (readonly Ring[])[];
}

const LEAST_IN_RING = 4;

/**
 * Land from GeoJSON in memory: Polygon, MultiPolygon, GeometryCollection, Feature or FeatureCollection. Of a TopoJSON coast
 * it takes `feature(topology, topology.objects.land)` of `topojson-client`. `file` is its name in faults.
 * @throws InputError where it is none of these, has no polygon, or a ring has fewer than 4 positions or one that is none
 * @example
 * const square = [[[-30, 20], [-29, 20], [-29, 21], [-30, 21], [-30, 20]]];
 * landOf({ type: 'Polygon', coordinates: square }).polygons.length // 1
 * landOf({ type: 'Point', coordinates: [-30, 20] })
 * // throws land, type: expected one of FeatureCollection, Feature, Polygon, MultiPolygon, GeometryCollection, got
 * // "Point"
 */
export function landOf(geojson: unknown, file = 'land'): Land {
  const faults = faultList();
  const polygons = geometriesOf(geojson, ['Polygon', 'MultiPolygon', 'GeometryCollection'], file, faults).flatMap(
    ({ type, coordinates, path }) => {
      const at = keyPath(path, 'coordinates');
      if (type === 'Polygon') return [ringsOf(coordinates, at, file, faults)];
      return itemsOf(coordinates, 'polygons', at, file, faults).map((polygon, i) =>
        ringsOf(polygon, `${at}[${i}]`, file, faults),
      );
    },
  );
  if (polygons.length === 0 && faults.count === 0) faults.add({ file, ...says.noLand() });
  faults.throwIfAny();
  return { polygons };
}

function ringsOf(value: unknown, path: string, file: string, faults: FaultList): readonly Ring[] {
  return itemsOf(value, 'rings', path, file, faults).map((ring, i) => ringOf(ring, `${path}[${i}]`, file, faults));
}

function ringOf(value: unknown, path: string, file: string, faults: FaultList): Ring {
  const positions = itemsOf(value, 'positions', path, file, faults);
  if (Array.isArray(value) && positions.length < LEAST_IN_RING)
    faults.add({ file, path, ...says.shortRing(LEAST_IN_RING, positions.length) });
  return positions.flatMap((position, i) => {
    const lonLat = lonLatOf(position);
    if (lonLat === undefined) faults.add({ file, path: `${path}[${i}]`, ...says.lonLat(shown(position)) });
    return lonLat === undefined ? [] : [lonLat];
  });
}

function itemsOf(value: unknown, what: string, path: string, file: string, faults: FaultList): readonly unknown[] {
  if (Array.isArray(value)) return value;
  faults.add({ file, path, ...says.listOf(what, shown(value)) });
  return [];
}
