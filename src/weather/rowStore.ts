import type { Quantity } from './quantities.js';

/** Rows of the same quantities in the order they came, held in typed arrays: 10 bytes a row and 4 for each quantity. */
export interface RowStore {
  readonly quantities: readonly Quantity[];
  /** The file they are from, where rows of several are laid out together. */
  readonly file?: string;
  readonly chunks: readonly Chunk[];
  readonly rows: number;
  /** A row: the numbers of its time, latitude and longitude on their axes, and its values as `quantities` names them. */
  add(time: number, lat: number, lon: number, values: Float64Array, line: number): void;
}

/** A run of rows. */
export interface Chunk {
  readonly time: Uint16Array;
  readonly lat: Uint16Array;
  readonly lon: Uint16Array;
  readonly line: Uint32Array;
  /** One array a quantity; let go once it stands on the grid, so that both are not held at once. */
  readonly values: (Float32Array | undefined)[];
  readonly count: number;
}

/** Most lines an axis may have, so that a row's place fits three 16-bit numbers. */
export const MAX_LINES = 65535;

// Small, because a file may have as many runs or members as rows.
const FIRST_CHUNK_ROWS = 16;
const LARGEST_CHUNK_ROWS = 65536;

/** A new store for rows that have these quantities. */
export function rowStore(quantities: readonly Quantity[], file?: string): RowStore {
  const newChunk = (size: number) => ({
    time: new Uint16Array(size),
    lat: new Uint16Array(size),
    lon: new Uint16Array(size),
    line: new Uint32Array(size),
    values: quantities.map(() => new Float32Array(size)),
    count: 0,
  });
  let chunk = newChunk(FIRST_CHUNK_ROWS);
  const chunks = [chunk];
  let rows = 0;
  return {
    quantities,
    ...(file === undefined ? {} : { file }),
    chunks,
    get rows() {
      return rows;
    },
    add(time, lat, lon, values, line) {
      if (chunk.count === chunk.time.length) {
        chunk = newChunk(Math.min(LARGEST_CHUNK_ROWS, 2 * chunk.time.length));
        chunks.push(chunk);
      }
      const i = chunk.count;
      chunk.time[i] = time;
      chunk.lat[i] = lat;
      chunk.lon[i] = lon;
      chunk.line[i] = line;
      for (let q = 0; q < quantities.length; q += 1) chunk.values[q]![i] = values[q]!;
      chunk.count = i + 1;
      rows += 1;
    },
  };
}
