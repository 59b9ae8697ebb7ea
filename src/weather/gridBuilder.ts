import type { FaultList } from '../errors.js';
import { isoUtc } from '../time.js';
import { wrap360, wrapLon } from '../units.js';
import { says } from '../wording.js';
import { longitudesOf } from './axis.js';
import type { Field, Grid } from './forecast.js';

/** Takes rows in any order and makes grids of them. */
export interface GridBuilder {
  /** A row: the numbers of its time, latitude and longitude on their axes, and its values as `fields` names them. */
  add(time: number, lat: number, lon: number, values: Float64Array, line: number): void;
  readonly rows: number;
  /** Makes the grids, and adds a fault for each row that contradicts an earlier one. Empties the builder. */
  build(axes: AxisValues, file: string, faults: FaultList): readonly Grid[];
}

/** The values behind the numbers of the axes. */
interface AxisValues {
  readonly epochSeconds: readonly number[];
  readonly latDeg: readonly number[];
  readonly lonDeg: readonly number[];
}

/** Most lines an axis may have, so that a row's place fits three 16-bit numbers. */
export const MAX_LINES = 65535;

const CHUNK_ROWS = 65536;
// A grid may be this much emptier than its rows before it is taken for scattered points.
const MAX_CELLS_PER_ROW = 50;
const MIN_CELLS_REFUSED = 5_000_000;

/** Rows in the order they came, held in typed arrays: 10 bytes and 4 for each field. */
interface Chunk {
  readonly time: Uint16Array;
  readonly lat: Uint16Array;
  readonly lon: Uint16Array;
  readonly line: Uint32Array;
  readonly values: (Float32Array | undefined)[];
  count: number;
}

/** A new builder for rows that have these fields. */
export function gridBuilder(fields: readonly Field[]): GridBuilder {
  let chunks: Chunk[] = [];
  let rows = 0;
  const newChunk = (): Chunk => ({
    time: new Uint16Array(CHUNK_ROWS),
    lat: new Uint16Array(CHUNK_ROWS),
    lon: new Uint16Array(CHUNK_ROWS),
    line: new Uint32Array(CHUNK_ROWS),
    values: fields.map(() => new Float32Array(CHUNK_ROWS)),
    count: 0,
  });
  let chunk = newChunk();
  return {
    add(time, lat, lon, values, line) {
      if (chunk.count === CHUNK_ROWS) {
        chunks.push(chunk);
        chunk = newChunk();
      }
      const i = chunk.count;
      chunk.time[i] = time;
      chunk.lat[i] = lat;
      chunk.lon[i] = lon;
      chunk.line[i] = line;
      for (let f = 0; f < fields.length; f += 1) chunk.values[f]![i] = values[f]!;
      chunk.count = i + 1;
      rows += 1;
    },
    get rows() {
      return rows;
    },
    build(axes, file, faults) {
      const all = [...chunks, chunk];
      chunks = [];
      return makeGrids(all, rows, fields, axes, file, faults);
    },
  };
}

function makeGrids(
  chunks: readonly Chunk[],
  rows: number,
  fields: readonly Field[],
  axes: AxisValues,
  file: string,
  faults: FaultList,
): readonly Grid[] {
  const times = usedOf(chunks, (chunk) => chunk.time, axes.epochSeconds);
  const lats = usedOf(chunks, (chunk) => chunk.lat, axes.latDeg);
  const metLons = usedOf(chunks, (chunk) => chunk.lon, axes.lonDeg);
  const { west, wraps } = longitudesOf([...metLons.values]);
  const lons = usedOf(
    chunks,
    (chunk) => chunk.lon,
    axes.lonDeg.map((lonDeg) => west + wrap360(lonDeg - west)),
  );
  const cells = times.values.length * lats.values.length * lons.values.length;
  if (cells > MIN_CELLS_REFUSED && cells > MAX_CELLS_PER_ROW * rows) {
    faults.add({ file, ...says.notAGrid(cells, rows) });
    return [];
  }
  const arrays: Partial<Record<Field, Float32Array>> = {};
  /** Lines that contradict an earlier one, and the cell they do it in. */
  const disagreeing = new Map<number, number>();
  fields.forEach((field, f) => {
    const array = new Float32Array(cells).fill(Number.NaN);
    for (const chunk of chunks) {
      const values = chunk.values[f]!;
      for (let i = 0; i < chunk.count; i += 1) {
        const value = values[i]!;
        if (Number.isNaN(value)) continue;
        const time = times.rank[chunk.time[i]!]!;
        const lat = lats.rank[chunk.lat[i]!]!;
        const lon = lons.rank[chunk.lon[i]!]!;
        const cell = (time * lats.values.length + lat) * lons.values.length + lon;
        const earlier = array[cell]!;
        if (Number.isNaN(earlier)) array[cell] = value;
        else if (earlier !== value) disagreeing.set(chunk.line[i]!, cell);
      }
      // Each field's rows are let go as its grid is filled, so that both are not held at once.
      chunk.values[f] = undefined;
    }
    arrays[field] = array;
  });
  for (const [line, cell] of [...disagreeing].sort(([a], [b]) => a - b)) {
    const [lon, row] = [cell % lons.values.length, Math.floor(cell / lons.values.length)];
    const [lat, time] = [row % lats.values.length, Math.floor(row / lats.values.length)];
    const place = [lats.values[lat]!, wrapLon(lons.values[lon]!)] as const;
    faults.add({ file, line, ...says.disagreeing(isoUtc(times.values[time]!), ...place) });
  }
  const whole: Grid = { epochSeconds: times.values, lats: lats.values, lons: lons.values, wraps, fields: arrays };
  return gridsByTimes(whole);
}

/** The values of an axis that rows used, rising, and each number's rank among them. */
function usedOf(
  chunks: readonly Chunk[],
  numbers: (chunk: Chunk) => Uint16Array,
  values: readonly number[],
): { values: Float64Array; rank: Uint16Array } {
  const used = new Uint8Array(values.length);
  for (const chunk of chunks) {
    const column = numbers(chunk);
    for (let i = 0; i < chunk.count; i += 1) used[column[i]!] = 1;
  }
  const rising = [...used.keys()].filter((number) => used[number] === 1).sort((a, b) => values[a]! - values[b]!);
  const rank = new Uint16Array(values.length);
  rising.forEach((number, i) => {
    rank[number] = i;
  });
  return { values: Float64Array.from(rising, (number) => values[number]!), rank };
}

/**
 * One grid for each set of times at which fields have values: hourly wind beside three-hourly waves becomes two grids,
 * and a time at which a field has no value at all is a gap of that field.
 */
function gridsByTimes(whole: Grid): readonly Grid[] {
  const slice = whole.lats.length * whole.lons.length;
  const groups = new Map<string, { times: number[]; fields: Field[] }>();
  for (const [field, array] of Object.entries(whole.fields) as [Field, Float32Array][]) {
    const times = [...whole.epochSeconds.keys()].filter((time) => {
      for (let i = time * slice; i < (time + 1) * slice; i += 1) if (!Number.isNaN(array[i]!)) return true;
      return false;
    });
    if (times.length === 0) continue;
    const key = times.join(' ');
    const group = groups.get(key) ?? { times, fields: [] };
    group.fields.push(field);
    groups.set(key, group);
  }
  return [...groups.values()].map(({ times, fields }) => {
    const isWhole = times.length === whole.epochSeconds.length;
    const cut = (array: Float32Array) => {
      if (isWhole) return array;
      const part = new Float32Array(times.length * slice);
      times.forEach((time, i) => {
        part.set(array.subarray(time * slice, (time + 1) * slice), i * slice);
      });
      return part;
    };
    return {
      ...whole,
      epochSeconds: isWhole ? whole.epochSeconds : Float64Array.from(times, (time) => whole.epochSeconds[time]!),
      fields: Object.fromEntries(fields.map((field) => [field, cut(whole.fields[field]!)])),
    };
  });
}
