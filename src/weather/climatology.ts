import type { FaultList } from '../errors.js';
import { isGiven } from '../given.js';
import { says } from '../wording.js';
import { checkDraw, type Draw } from './drawn.js';

/** Months of a year; January is 0 in arrays. */
export const MONTHS = 12;

/**
 * Mean wind of every month of the year on a grid, over the ground at 10 m: the mean vector towards east and north, and the mean of
 * the speed, which is more than the vector's length wherever wind changes. Latitudes and longitudes rise; longitudes run eastwards and may
 * pass 180. `windEastKn[(month * lats.length + lat) * lons.length + lon]`, January first; NaN, in all three at once, marks an absent cell.
 * Plain arrays, which may lie in shared memory.
 */
export interface Climatology {
  /** Name of the file it came from, for messages. */
  readonly file: string;
  readonly lats: Float64Array;
  readonly lons: Float64Array;
  /** Whether the last longitude is the western neighbour of the first. */
  readonly wraps: boolean;
  readonly windEastKn: Float32Array;
  readonly windNorthKn: Float32Array;
  readonly meanSpeedKn: Float32Array;
  /** Seconds by which its weather comes later than its calendar says; absent: 0. */
  readonly laterSeconds?: number;
  /** One drawing of synthetic weather from it (`drawnFrom`); absent: the mean itself. */
  readonly draw?: Draw;
}

/** Adds a fault for every array of a climatology made in memory that does not fit its axes, for axes that do not rise, and a drawing that is none. */
export function checkClimatology(climatology: Climatology, faults: FaultList): void {
  if (!isGiven(climatology, 'meanSpeedKn', 'climatology', 'readClimatology', faults)) return;
  const { file, lats, lons } = climatology;
  for (const axis of ['lats', 'lons'] as const) {
    const values = climatology[axis];
    const isRising = values.every((value, i) => Number.isFinite(value) && !(value <= values[i - 1]!));
    if (values.length === 0 || !isRising) {
      faults.add({ file, path: axis, ...says.wrongValue('rising numbers', values.length === 0 ? 'none' : 'others') });
    }
  }
  const cells = MONTHS * lats.length * lons.length;
  for (const field of ['windEastKn', 'windNorthKn', 'meanSpeedKn'] as const) {
    const { length } = climatology[field];
    if (length !== cells) faults.add({ file, path: field, ...says.wrongValue(`${cells} numbers`, `${length}`) });
  }
  if (climatology.draw !== undefined) checkDraw(climatology.draw, faults);
}
