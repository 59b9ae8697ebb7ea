import { bboxClip, booleanPointInPolygon, polygon } from '@turf/turf';
import type { Position } from '../geo/geo.js';
import type { Land } from './landOf.js';
import { type Box, boxOf, type LonLat, type Outline, outlineOf } from './outline.js';

/** What of the land lies in a cell, and by how much the longitudes of a place there differ from its own. */
interface Piece {
  readonly shape: ReturnType<typeof polygon>;
  readonly turnDeg: number;
}

const CELL_DEG = 5;
// Clipping draws edges along the box, and a point on an edge counts as inside: so the box is a little more than the cell.
const MARGIN_DEG = 0.01;
/** An outline may begin on either side of the date line and go on beyond the other. */
const TURNS_DEG = [0, -360, 360];

/**
 * A look-up of whether a place lies over land. Continents have tens of thousands of points, so the land is clipped once to
 * each cell of 5° that is asked about, and places are looked for in the few points that are left of it.
 */
export function overLand(land: Land): (place: Position) => boolean {
  const outlines = land.polygons.flatMap((rings) => outlineOf(rings) ?? []);
  const cells = new Map<number, readonly Piece[]>();
  return ({ latDeg, lonDeg }) => {
    const [column, row] = [Math.floor((lonDeg + 180) / CELL_DEG), Math.floor((latDeg + 90) / CELL_DEG)];
    const key = row * 1000 + column;
    let cell = cells.get(key);
    if (cell === undefined) {
      cell = TURNS_DEG.flatMap((turnDeg) => piecesIn(column * CELL_DEG - 180, row * CELL_DEG - 90, turnDeg, outlines));
      cells.set(key, cell);
    }
    return cell.some(({ shape, turnDeg }) => booleanPointInPolygon([lonDeg + turnDeg, latDeg], shape));
  };
}

function piecesIn(westDeg: number, southDeg: number, turnDeg: number, outlines: readonly Outline[]): readonly Piece[] {
  const box: Box = [
    westDeg + turnDeg - MARGIN_DEG,
    southDeg - MARGIN_DEG,
    westDeg + turnDeg + CELL_DEG + MARGIN_DEG,
    southDeg + CELL_DEG + MARGIN_DEG,
  ];
  return outlines.flatMap((outline) => {
    if (!overlap(outline.box, box)) return [];
    const coordinates = bboxClip({ type: 'Polygon', coordinates: outline.rings }, box).geometry
      .coordinates as LonLat[][];
    const [outer] = coordinates;
    return outer === undefined ? [] : [{ shape: polygon(coordinates, {}, { bbox: boxOf(outer) }), turnDeg }];
  });
}

function overlap(one: Box, other: Box): boolean {
  return one[0] <= other[2] && one[2] >= other[0] && one[1] <= other[3] && one[3] >= other[1];
}
