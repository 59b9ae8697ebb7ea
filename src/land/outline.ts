import { turnsAlong } from '../geo/geo.js';
import type { Land } from './landOf.js';

export type LonLat = [lonDeg: number, latDeg: number];
export type Box = [westDeg: number, southDeg: number, eastDeg: number, northDeg: number];

/** A polygon whose rings have no jumps in longitude, and the box it fills; longitudes may pass ±180. */
export interface Outline {
  readonly rings: LonLat[][];
  readonly box: Box;
}

/**
 * The outline of a polygon of land, undefined where it has no points. Coasts in files cross the date line in rings that
 * jump from 180 to −180: taken as they stand such a ring is a band round the world, which swaps land and sea. So each
 * longitude is brought within 180° of the one before it. A ring round a pole, which does not come back to where it began,
 * is left as it is, and holes are brought to the side on which the outer ring lies.
 */
export function outlineOf(rings: Land['polygons'][number]): Outline | undefined {
  const [outer, ...holes] = rings.filter((ring) => ring.length > 0).map(unrolled);
  if (outer === undefined) return undefined;
  const box = boxOf(outer);
  return { rings: [outer, ...holes.map((hole) => besides(hole, box))], box };
}

function unrolled(ring: readonly (readonly [lonDeg: number, latDeg: number])[]): LonLat[] {
  const turns = turnsAlong(ring);
  const points = ring.map(([lonDeg, latDeg], i): LonLat => [lonDeg + 360 * turns[i]!, latDeg]);
  const comesBack = Math.abs(points.at(-1)![0] - points[0]![0]) < 180;
  return comesBack ? points : ring.map(([lonDeg, latDeg]) => [lonDeg, latDeg]);
}

function besides(hole: LonLat[], outer: Box): LonLat[] {
  const box = boxOf(hole);
  const turns = Math.round((outer[0] + outer[2] - box[0] - box[2]) / 2 / 360);
  return turns === 0 ? hole : hole.map(([lonDeg, latDeg]) => [lonDeg + 360 * turns, latDeg]);
}

/** The box of a ring of points. */
export function boxOf(ring: readonly LonLat[]): Box {
  let [west, south, east, north] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const [lonDeg, latDeg] of ring) {
    west = Math.min(west, lonDeg);
    south = Math.min(south, latDeg);
    east = Math.max(east, lonDeg);
    north = Math.max(north, latDeg);
  }
  return [west, south, east, north];
}
