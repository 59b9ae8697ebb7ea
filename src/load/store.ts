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

/** Where files are: a disk, or what was dropped on a page. */
export interface FileStore {
  /** `name` is what it is called in faults; absent: by its path. */
  readText(path: string, name?: string): Promise<TextFile>;
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
