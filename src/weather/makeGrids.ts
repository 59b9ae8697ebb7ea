import type { FaultList } from '../errors.js';
import { isoUtc } from '../time.js';
import { wrap360, wrapLon } from '../units.js';
import { says } from '../wording.js';
import { longitudesOf, shownDeg } from './axis.js';
import { fieldsOf } from './fields.js';
import type { Field, Grid } from './forecast.js';
import type { Quantity } from './quantities.js';
import type { Chunk, RowStore } from './rowStore.js';

/** The values behind the numbers of the axes. */
interface AxisValues {
  readonly epochSeconds: readonly number[];
  readonly latDeg: readonly number[];
  readonly lonDeg: readonly number[];
}

/** The names of the columns of quantities, for faults. */
export type QuantityNames = Readonly<Partial<Record<Quantity, string>>>;

// A grid may be this much emptier than its rows before it is taken for scattered points. The least number is shared by the
// runs and members of a file, so that many small ones are not let through where one large one is not.
const MAX_CELLS_PER_ROW = 50;
const MIN_CELLS_REFUSED = 5_000_000;

/** A quantity's values on the grid, and the rows they came from. */
interface Filled {
  readonly array: Float32Array;
  readonly store: RowStore;
}

/** Makes grids of the rows of one run and member, and empties their stores. */
export type MakeGrids = (stores: readonly RowStore[]) => readonly Grid[];

/** Rows laid out on the lines of a grid. */
export interface LaidOut {
  readonly times: Float64Array;
  readonly lats: Float64Array;
  readonly lons: Float64Array;
  readonly wraps: boolean;
  /** By quantity, `[(time * lats.length + lat) * lons.length + lon]`; NaN marks an absent point. */
  readonly filled: Readonly<Partial<Record<Quantity, Filled>>>;
  readonly cellOf: (chunk: Chunk, i: number) => number;
  /** Time, latitude and longitude of a cell, as they are told. */
  readonly placeOf: (cell: number) => readonly [time: string, latDeg: number, lonDeg: number];
}

/**
 * Makes grids for each of the runs and members of a file. Adds a fault for each row that contradicts an earlier one, or
 * whose direction contradicts its components.
 */
export function gridMaker(
  axes: AxisValues,
  names: QuantityNames,
  groups: number,
  file: string,
  faults: FaultList,
): MakeGrids {
  const laidOut = rowsLaidOut(axes, groups, file, faults);
  return (stores) => {
    const all = laidOut(stores);
    if (all === undefined) return [];
    const { times, lats, lons, wraps, filled, cellOf, placeOf } = all;
    const arrays = Object.fromEntries(Object.entries(filled).map(([quantity, { array }]) => [quantity, array]));
    const { fields, contradictions } = fieldsOf(arrays);
    for (const { quantity, cells: wrong } of contradictions) {
      const place = { file, ...(names[quantity] === undefined ? {} : { column: names[quantity] }) };
      for (const [line, cell] of linesOf(wrong, filled[quantity]!.store, cellOf)) {
        faults.add({ ...place, line, ...says.directionContradicts(...placeOf(cell), wrong.get(cell)!) });
      }
    }
    return gridsByTimes({ epochSeconds: times, lats, lons, wraps, fields });
  };
}

/**
 * Lays out rows, emptying their stores; undefined where their points lie on no grid. Adds a fault for each row that contradicts an
 * earlier one. `said` words a time.
 */
export function rowsLaidOut(
  axes: AxisValues,
  groups: number,
  file: string,
  faults: FaultList,
  said: (time: number) => string = isoUtc,
): (stores: readonly RowStore[]) => LaidOut | undefined {
  // Made once, since a file may have as many runs or members as rows.
  const [timeLines, latLines, lonLines] = [lines(axes.epochSeconds), lines(axes.latDeg), lines(axes.lonDeg)];
  let isTold = false;
  return (stores) => {
    const chunks = stores.flatMap((store) => store.chunks);
    const rows = stores.reduce((sum, store) => sum + store.rows, 0);
    const times = timeLines.used(chunks, (chunk) => chunk.time);
    const lats = latLines.used(chunks, (chunk) => chunk.lat);
    let wraps = false;
    const lons = lonLines.used(
      chunks,
      (chunk) => chunk.lon,
      (lonsDeg) => {
        const round = longitudesOf(lonsDeg);
        wraps = round.wraps;
        return lonsDeg.map((lonDeg) => round.west + wrap360(lonDeg - round.west));
      },
    );
    const cells = times.length * lats.length * lons.length;
    if (cells > MIN_CELLS_REFUSED / groups && cells > MAX_CELLS_PER_ROW * rows) {
      if (!isTold) faults.add({ file, ...says.notAGrid(cells, rows) });
      isTold = true;
      return undefined;
    }
    const cellOf = (chunk: Chunk, i: number) => {
      const row = timeLines.rank[chunk.time[i]!]! * lats.length + latLines.rank[chunk.lat[i]!]!;
      return row * lons.length + lonLines.rank[chunk.lon[i]!]!;
    };
    const placeOf = (cell: number) => {
      const [lon, row] = [cell % lons.length, Math.floor(cell / lons.length)];
      const [lat, time] = [row % lats.length, Math.floor(row / lats.length)];
      return [said(times[time]!), shownDeg(lats[lat]!), shownDeg(wrapLon(lons[lon]!))] as const;
    };
    /** Lines of each file that contradict an earlier one, and the cell they do it in. */
    const disagreeing = new Map<string, Map<number, number>>();
    const filled: Partial<Record<Quantity, Filled>> = {};
    for (const store of stores) {
      const ofFile = disagreeing.get(store.file ?? file) ?? new Map<number, number>();
      disagreeing.set(store.file ?? file, ofFile);
      store.quantities.forEach((quantity, q) => {
        const array = filled[quantity]?.array ?? new Float32Array(cells).fill(Number.NaN);
        fill(array, store, q, cellOf, ofFile);
        filled[quantity] = { array, store };
      });
    }
    for (const [name, ofFile] of disagreeing) {
      for (const [line, cell] of [...ofFile].sort(([a], [b]) => a - b)) {
        faults.add({ file: name, line, ...says.disagreeing(...placeOf(cell)) });
      }
    }
    return { times, lats, lons, wraps, filled, cellOf, placeOf };
  };
}

function fill(
  array: Float32Array,
  store: RowStore,
  q: number,
  cellOf: (chunk: Chunk, i: number) => number,
  disagreeing: Map<number, number>,
): void {
  for (const chunk of store.chunks) {
    const values = chunk.values[q]!;
    for (let i = 0; i < chunk.count; i += 1) {
      const value = values[i]!;
      if (Number.isNaN(value)) continue;
      const cell = cellOf(chunk, i);
      const earlier = array[cell]!;
      if (Number.isNaN(earlier)) array[cell] = value;
      else if (earlier !== value) disagreeing.set(chunk.line[i]!, cell);
    }
    chunk.values[q] = undefined;
  }
}

/** The lines of the rows that stand in some cells, in their order. */
function linesOf(
  wanted: ReadonlyMap<number, unknown>,
  store: RowStore,
  cellOf: (chunk: Chunk, i: number) => number,
): [line: number, cell: number][] {
  const lines = new Map<number, number>();
  for (const chunk of store.chunks) {
    for (let i = 0; i < chunk.count; i += 1) {
      const cell = cellOf(chunk, i);
      if (wanted.has(cell)) lines.set(chunk.line[i]!, cell);
    }
  }
  return [...lines].sort(([a], [b]) => a - b);
}

/** The lines of an axis, of which each set of rows uses some. */
function lines(values: readonly number[]) {
  const isMet = new Uint8Array(values.length);
  const rank = new Uint16Array(values.length);
  return {
    /** The place of each number of the axis among the values used last. */
    rank,
    /** The values that rows use, rising; turned first where the axis is a circle. */
    used(
      chunks: readonly Chunk[],
      numbersOf: (chunk: Chunk) => Uint16Array,
      turn: (values: readonly number[]) => readonly number[] = (met) => met,
    ): Float64Array {
      const met: number[] = [];
      for (const chunk of chunks) {
        const numbers = numbersOf(chunk);
        for (let i = 0; i < chunk.count; i += 1) {
          const number = numbers[i]!;
          if (isMet[number] === 1) continue;
          isMet[number] = 1;
          met.push(number);
        }
      }
      for (const number of met) isMet[number] = 0;
      const turned = turn(met.map((number) => values[number]!));
      const rising = [...met.keys()].sort((a, b) => turned[a]! - turned[b]!);
      rising.forEach((i, place) => {
        rank[met[i]!] = place;
      });
      return Float64Array.from(rising, (i) => turned[i]!);
    },
  };
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
