import { type GeoPermissibleObjects, type GeoStream, geoArea } from 'd3-geo';
import type { Land } from '../../land/land.js';

/**
 * A coast as the geometry that maps are drawn from, on the sphere: there a ring that goes the other way round is all the rest of the
 * world, and files differ in which way they go.
 */
export function coastOf({ polygons }: Land): GeoPermissibleObjects {
  return {
    type: 'MultiPolygon',
    coordinates: polygons.map((rings) => {
      const written = rings.map((ring) => ring.map(([lon, lat]) => [lon, lat]));
      const isInsideOut = geoArea({ type: 'Polygon', coordinates: written }) > HALF_SPHERE;
      return isInsideOut ? written.map((ring) => [...ring].reverse()) : written;
    }),
  };
}

const HALF_SPHERE = 2 * Math.PI;

/** Leaves out points of a line that lie nearer to the last one than can be seen. */
export function thinned(stream: GeoStream, least: number): GeoStream {
  let last: readonly [number, number] | undefined;
  return {
    ...stream,
    point(x, y) {
      if (last !== undefined && Math.abs(x - last[0]) + Math.abs(y - last[1]) < least) return;
      last = [x, y];
      stream.point(x, y);
    },
    lineStart() {
      last = undefined;
      stream.lineStart();
    },
    lineEnd: () => stream.lineEnd(),
    polygonStart: () => stream.polygonStart(),
    polygonEnd: () => stream.polygonEnd(),
  };
}
