import { RAD_PER_DEG, wrap180 } from '../units.js';
import type { Field } from './forecast.js';
import type { Quantity } from './quantities.js';

type Arrays = Partial<Record<Quantity, Float32Array>>;

/** Cells in which a direction does not fit the components beside it, and by how many degrees. */
export interface Contradiction {
  readonly quantity: Quantity;
  readonly cells: ReadonlyMap<number, number>;
}

/**
 * Fields from the quantities of a file, in the same arrays: a speed and its direction become components, a direction of
 * waves the unit vector to where they come from, and a direction beside components is held against them.
 */
export function fieldsOf(arrays: Arrays): {
  fields: Partial<Record<Field, Float32Array>>;
  contradictions: readonly Contradiction[];
} {
  const fields: Partial<Record<Field, Float32Array>> = {};
  const contradictions: Contradiction[] = [];
  const vector = (
    [east, north]: readonly [Field, Field],
    [x, y, speed, direction]: readonly [Quantity, Quantity, Quantity, Quantity],
    sign: 1 | -1,
    slowKn: number,
  ) => {
    const [u, v, size, angle] = [arrays[x], arrays[y], arrays[speed], arrays[direction]];
    if (u !== undefined && v !== undefined) {
      if (angle !== undefined)
        contradictions.push({ quantity: direction, cells: contradicting(u, v, angle, sign, slowKn) });
      oneAloneIsNone(u, v);
      [fields[east], fields[north]] = [u, v];
    } else if (size !== undefined && angle !== undefined) {
      toComponents(size, angle, sign);
      [fields[east], fields[north]] = [size, angle];
    }
  };
  vector(['windEastKn', 'windNorthKn'], ['u10', 'v10', 'wind_speed', 'wind_from_direction'], -1, SLOW_WIND_KN);
  vector(
    ['currentEastKn', 'currentNorthKn'],
    ['current_u', 'current_v', 'current_speed', 'current_to_direction'],
    1,
    SLOW_CURRENT_KN,
  );
  if (arrays.gust !== undefined) fields.gustKn = arrays.gust;
  if (arrays.wave_height !== undefined) fields.waveHeightM = arrays.wave_height;
  if (arrays.wave_period !== undefined) fields.wavePeriodSeconds = arrays.wave_period;
  if (arrays.wave_from_direction !== undefined) {
    const east = new Float32Array(arrays.wave_from_direction.length).fill(1);
    toComponents(east, arrays.wave_from_direction, 1);
    [fields.waveFromEast, fields.waveFromNorth] = [east, arrays.wave_from_direction];
  }
  return { fields, contradictions: contradictions.filter(({ cells }) => cells.size > 0) };
}

function oneAloneIsNone(u: Float32Array, v: Float32Array): void {
  for (let i = 0; i < u.length; i += 1) {
    if (Number.isNaN(u[i]!) !== Number.isNaN(v[i]!)) {
      u[i] = Number.NaN;
      v[i] = Number.NaN;
    }
  }
}

/** Turns speeds and directions into components towards east and north; −1 for a direction that something comes from. */
function toComponents(size: Float32Array, angleDeg: Float32Array, sign: 1 | -1): void {
  for (let i = 0; i < size.length; i += 1) {
    const [length, angle] = [size[i]!, angleDeg[i]! * RAD_PER_DEG];
    // A calm has no direction and needs none.
    size[i] = length === 0 ? 0 : sign * length * Math.sin(angle);
    angleDeg[i] = length === 0 ? 0 : sign * length * Math.cos(angle);
    if (Number.isNaN(size[i]!)) angleDeg[i] = Number.NaN;
  }
}

// Slower than this a direction is mostly rounding; most currents of the sea never reach the 3 kn of a wind.
const SLOW_WIND_KN = 3;
const SLOW_CURRENT_KN = 0.5;
// Faster, it may be off by what a compass of 16 points rounds, and by components printed to whole metres a second: at half a
// knot only the opposite is then a contradiction.
const ROUNDED_DEG = 12;
const ROUNDED_KN = 1;

function contradicting(
  u: Float32Array,
  v: Float32Array,
  angleDeg: Float32Array,
  sign: 1 | -1,
  slowKn: number,
): Map<number, number> {
  const found = new Map<number, number>();
  for (let i = 0; i < u.length; i += 1) {
    const speed = Math.sqrt(u[i]! * u[i]! + v[i]! * v[i]!);
    if (!(speed >= slowKn) || Number.isNaN(angleDeg[i]!)) continue;
    const own = Math.atan2(sign * u[i]!, sign * v[i]!) / RAD_PER_DEG;
    const off = Math.abs(wrap180(angleDeg[i]! - own));
    if (off > ROUNDED_DEG + ROUNDED_KN / speed / RAD_PER_DEG) found.set(i, Math.round(off));
  }
  return found;
}
