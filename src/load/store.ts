import type { Land } from '../land/land.js';
import type { ForecastSource } from '../weather/weather.js';

/** A text file read whole, with the digest of its bytes. */
export interface TextFile {
  readonly text: string;
  readonly sha256: string;
}

/** A forecast file opened as a stream each time; `sha256` is known once it was read to its end. */
export interface ForecastFile extends ForecastSource {
  readonly sizeBytes: number;
  sha256(): string;
  bytesRead(): number;
}

/**
 * How large a file of a kind may be that is read whole, MiB. What is made of it takes up to two hundred times as much memory, and a device
 * has no end. Within it are a recorded track of as many points as a route may have, a plan of a year, and two hundred polars with a speed
 * for each knot and degree.
 *
 * @example
 * LARGEST_FILES_MIB.boat // 2
 */
export const LARGEST_FILES_MIB = { route: 32, plan: 32, polars: 8, boat: 2 } as const;

/** How to read a text file. */
export interface ReadTextFileOptions {
  /** Its name in faults; absent: the path. */
  readonly name?: string;
  /** Absent: that of a plan. */
  readonly largestMiB?: number;
}

/** Where files are: a disk, or what was dropped on a page. */
export interface FileStore {
  readText(path: string, options?: ReadTextFileOptions): Promise<TextFile>;
  /** A forecast file, ready to be streamed. */
  open(path: string): Promise<ForecastFile>;
  /** The path of a file that another names, as seen from there. */
  besides(path: string, name: string): string;
  /** The name of a file without its folders. */
  baseName(path: string): string;
  /** Why a file could not be read, in words; undefined for errors that are none of files. */
  problemOf(error: unknown): string | undefined;
  /** The coast that routes are held against. */
  land(): Promise<Land>;
}
