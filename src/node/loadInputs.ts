import { basename, dirname, resolve } from 'node:path';
import { type Boat, readBoat } from '../boat/boat.js';
import { type Fault, type FaultList, faultList, InputError } from '../errors.js';
import type { InputDigest } from '../output/output.js';
import type { PassageInputs } from '../passage/passage.js';
import { readPolars } from '../polar/polar.js';
import { cropBoxOf, layTrack, type Route, readRoute } from '../route/route.js';
import { type Forecast, readForecast } from '../weather/weather.js';
import { says } from '../wording.js';
import { fileProblem, forecastFile, readTextFile } from './files.js';

/** Paths of the files of a passage; the polars stand in the boat file. */
export interface InputPaths {
  readonly route: string;
  readonly forecast: string;
  readonly boat: string;
}

/** How far the reading of a forecast has come. */
export interface ReadingProgress {
  readonly file: string;
  readonly bytesRead: number;
  readonly bytesTotal: number;
}

/** How to load the inputs. */
export interface LoadOptions {
  readonly signal?: AbortSignal;
  readonly onProgress?: (progress: ReadingProgress) => void;
  /** Faults found before, to be reported with those of the files. */
  readonly faults?: readonly Fault[];
}

/** The inputs of a passage as read from files, with their digests. */
export interface LoadedInputs {
  readonly inputs: PassageInputs;
  readonly digests: readonly InputDigest[];
  readonly warnings: readonly Fault[];
}

/**
 * Reads route, forecast, boat and polars. A bad file does not hide the faults of the others.
 * @throws InputError with every fault of every file
 */
export async function loadInputs(paths: InputPaths, options: LoadOptions = {}): Promise<LoadedInputs> {
  const faults = faultList();
  for (const fault of options.faults ?? []) faults.add(fault);
  const digests: InputDigest[] = [];
  const route = await readTextInput('route', paths.route, readRoute, digests, faults);
  const boat = await readTextInput('boat', paths.boat, (text, file) => readBoat(text, { file }), digests, faults);
  const polars = await loadPolars(paths.boat, boat, digests, faults);
  const forecast = await loadForecast(paths.forecast, route, options, digests, faults);
  faults.throwIfAny();
  if (route === undefined || boat === undefined || polars === undefined || forecast === undefined)
    throw new Error('an input is missing without a fault');
  return { inputs: { route, boat, polars, forecast: forecast.forecast }, digests, warnings: forecast.warnings };
}

async function loadPolars(boatPath: string, boat: Boat | undefined, digests: InputDigest[], faults: FaultList) {
  const named = boat?.polars ?? (await polarsNamedBy(boatPath));
  if (named === undefined) return undefined;
  const read = (text: string, file: string) => readPolars(text, { file, ...(boat === undefined ? {} : { boat }) });
  return readTextInput('polars', resolve(dirname(boatPath), named), read, digests, faults, named);
}

/** The polar file a boat file names even where it is faulty otherwise, so that its polars are checked too. */
async function polarsNamedBy(boatPath: string): Promise<string | undefined> {
  try {
    const { polars } = JSON.parse((await readTextFile(boatPath)).text) as { polars?: unknown };
    return typeof polars === 'string' && polars !== '' ? polars : undefined;
  } catch {
    return undefined;
  }
}

async function loadForecast(
  path: string,
  route: Route | undefined,
  { signal, onProgress }: LoadOptions,
  digests: InputDigest[],
  faults: FaultList,
): Promise<{ forecast: Forecast; warnings: readonly Fault[] } | undefined> {
  return attempt(path, faults, async () => {
    const source = await forecastFile(path);
    const track = route === undefined ? undefined : layTrack(route);
    const read = await readForecast(source, {
      // Without a route the file is still read, so that all faults come in one report.
      ...(track === undefined ? {} : { crop: (marginDeg: number) => cropBoxOf(track, marginDeg) }),
      ...(signal === undefined ? {} : { signal }),
      onProgress: () =>
        onProgress?.({ file: source.name, bytesRead: source.bytesRead(), bytesTotal: source.sizeBytes }),
    });
    digests.push({ role: 'forecast', file: basename(path), sha256: source.sha256() });
    return read;
  });
}

async function readTextInput<Record>(
  role: InputDigest['role'],
  path: string,
  read: (text: string, file: string) => Record,
  digests: InputDigest[],
  faults: FaultList,
  name = path,
): Promise<Record | undefined> {
  return attempt(name, faults, async () => {
    const { text, sha256 } = await readTextFile(path);
    const record = read(text, name);
    digests.push({ role, file: basename(path), sha256 });
    return record;
  });
}

async function attempt<Result>(
  name: string,
  faults: FaultList,
  action: () => Promise<Result>,
): Promise<Result | undefined> {
  try {
    return await action();
  } catch (error) {
    const problem = fileProblem(error);
    if (error instanceof InputError) faults.take(error);
    else if (problem !== undefined) faults.add({ file: name, ...says.unreadable(problem) });
    else throw error;
    return undefined;
  }
}
