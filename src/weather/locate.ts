import { lastAtMost } from '../rising.js';
import type { Grid } from './forecast.js';

/** Reads one time of a grid at a place: `locate` finds the cell and its weights, `read` then reads values. */
export interface Locator {
  readonly grid: Grid;
  /** False outside the grid. */
  locate(latDeg: number, lonDeg: number): boolean;
  /** The value at the located place and a time's index; NaN where it is absent. */
  read(values: Float32Array, time: number): number;
}

// A place this little beyond the edge is on it: rounding in longitudes that were turned round the globe.
const EDGE_DEG = 1e-6;

/**
 * Bilinear in place. Where corners of a cell are absent, the weights of the present ones are scaled up if the nearest
 * corner is present, else there is no value; corners equally near count as nearest each.
 */
export function locatorOf(grid: Grid): Locator {
  const { lats, lons } = grid;
  const slice = lats.length * lons.length;
  const corners = new Int32Array(4);
  const weights = new Float64Array(4);
  const [latCell, lonCell] = [newCell(), newCell()];
  let [lastLat, lastLon, isInside] = [Number.NaN, Number.NaN, false];

  const place = (latDeg: number, lonDeg: number): boolean => {
    if (!find(lats, latDeg, EDGE_DEG, latCell) || !findLon(grid, lonDeg, lonCell)) return false;
    const [y, x] = [latCell.i, lonCell.i];
    const east = x + 1 < lons.length ? x + 1 : 0;
    const north = Math.min(y + 1, lats.length - 1);
    const [fy, fx] = [latCell.share, lonCell.share];
    corners[0] = y * lons.length + x;
    corners[1] = y * lons.length + east;
    corners[2] = north * lons.length + x;
    corners[3] = north * lons.length + east;
    weights[0] = (1 - fy) * (1 - fx);
    weights[1] = (1 - fy) * fx;
    weights[2] = fy * (1 - fx);
    weights[3] = fy * fx;
    return true;
  };

  return {
    grid,
    locate(latDeg, lonDeg) {
      // Several fields and times are asked for at one place.
      if (latDeg !== lastLat || lonDeg !== lastLon) {
        isInside = place(latDeg, lonDeg);
        [lastLat, lastLon] = [latDeg, lonDeg];
      }
      return isInside;
    },
    read(values, time) {
      const start = time * slice;
      let [sum, weight, heaviest, heaviestPresent] = [0, 0, 0, 0];
      for (let c = 0; c < 4; c += 1) {
        const w = weights[c]!;
        if (w <= 0) continue;
        if (w > heaviest) heaviest = w;
        const value = values[start + corners[c]!]!;
        if (Number.isNaN(value)) continue;
        sum += w * value;
        weight += w;
        if (w > heaviestPresent) heaviestPresent = w;
      }
      return weight > 0 && heaviestPresent >= heaviest - 1e-9 ? sum / weight : Number.NaN;
    },
  };
}

/** A cell of an axis: its lower end, and how far into it a value lies. */
export interface AxisCell {
  i: number;
  share: number;
}

const newCell = (): AxisCell => ({ i: 0, share: 0 });

/** The cell of a rising axis that holds a value; false outside the axis. */
function find(axis: Float64Array, value: number, tolerance: number, cell: AxisCell): boolean {
  const last = axis.length - 1;
  if (last < 0 || !(value >= axis[0]! - tolerance && value <= axis[last]! + tolerance)) return false;
  const low = Math.max(0, lastAtMost(axis, value));
  cell.i = low;
  cell.share = low === last || value <= axis[low]! ? 0 : (value - axis[low]!) / (axis[low + 1]! - axis[low]!);
  return true;
}

function findLon({ lons, wraps }: Grid, lonDeg: number, cell: AxisCell): boolean {
  const west = lons[0];
  if (west === undefined) return false;
  const turned = west + ((((lonDeg - west) % 360) + 360) % 360);
  if (find(lons, turned, EDGE_DEG, cell)) return true;
  if (turned > west + 360 - EDGE_DEG) return find(lons, west, 0, cell);
  if (!wraps) return false;
  const last = lons.length - 1;
  cell.i = last;
  cell.share = (turned - lons[last]!) / (west + 360 - lons[last]!);
  return true;
}
