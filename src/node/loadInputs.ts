import { basename } from 'node:path';
import { type Fault, type FaultList, faultList } from '../errors.js';
import type { Position } from '../geo/geo.js';
import { landOnTrack } from '../land/land.js';
import type { InputDigest } from '../output/output.js';
import type { PassageInputs } from '../passage/passage.js';
import { cropBoxAround, layTrack, type RouteLeft, readRoute, routeFrom, type Track } from '../route/route.js';
import { type Forecast, type ReadForecastOptions, readForecast } from '../weather/weather.js';
import { says } from '../wording.js';
import { attempt } from './attempt.js';
import { worldLand } from './coast.js';
import { type ForecastFile, forecastFile } from './files.js';
import { loadBoatInto } from './loadBoat.js';
import { readTextInput } from './readTextInput.js';

/** Paths of the files of a passage; the polars stand in the boat file. */
export interface InputPaths {
  readonly route: string;
  /** One file or several, in any order. */
  readonly forecast: string | readonly string[];
  readonly boat: string;
}

/** How far the reading of a forecast has come. */
export interface ReadingProgress {
  readonly file: string;
  readonly bytesRead: number;
  readonly bytesTotal: number;
}

/** How to load the inputs. */
export interface LoadOptions extends Pick<ReadForecastOptions, 'columns' | 'member'> {
  readonly signal?: AbortSignal;
  readonly onProgress?: (progress: ReadingProgress) => void;
  /** Where the boat is: what is left of the route is sailed from there. */
  readonly from?: Position;
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
  const read = await readTextInput('route', paths.route, readRoute, digests, faults);
  const { from } = options;
  const left =
    read === undefined || from === undefined
      ? undefined
      : await attempt(paths.route, faults, async () => routeFrom(read, from));
  const route = from === undefined ? read : left?.route;
  const { boat, polars } = await loadBoatInto(paths.boat, digests, faults);
  const forecast = await loadForecast(paths.forecast, route && [layTrack(route)], options, digests, faults);
  faults.throwIfAny();
  if (route === undefined || boat === undefined || polars === undefined || forecast === undefined)
    throw new Error('an input is missing without a fault');
  const warnings = [
    ...(left === undefined ? [] : offTrackWarning(left, paths.route)),
    ...landOnTrack(route, await worldLand(), { file: paths.route }),
    ...forecast.warnings,
  ];
  return { inputs: { route, boat, polars, forecast: forecast.forecast }, digests, warnings };
}

/** A boat this near to her track is on it. */
const ON_TRACK_NM = 1;

function offTrackWarning({ offTrackNm, passed }: RouteLeft, file: string): Fault[] {
  return offTrackNm <= ON_TRACK_NM ? [] : [{ file, ...says.offTrack(offTrackNm, passed) }];
}

/**
 * Reads the forecast for some tracks; without them the whole of it.
 * @internal
 */
export async function loadForecast(
  paths: string | readonly string[],
  tracks: readonly Track[] | undefined,
  { signal, onProgress, columns, member }: LoadOptions,
  digests: InputDigest[],
  faults: FaultList,
): Promise<{ forecast: Forecast; warnings: readonly Fault[] } | undefined> {
  const names = typeof paths === 'string' ? [paths] : paths;
  const opened: ForecastFile[] = [];
  for (const path of names) {
    const source = await attempt(path, faults, () => forecastFile(path));
    if (source !== undefined) opened.push(source);
  }
  if (opened.length < names.length) return undefined;
  return attempt(names.join(' + '), faults, async () => {
    const byName = new Map(opened.map((source) => [source.name, source]));
    const read = await readForecast(opened, {
      // Without a route the file is still read, so that all faults come in one report.
      ...(tracks === undefined ? {} : { crop: (marginDeg: number) => cropBoxAround(tracks, marginDeg) }),
      ...(signal === undefined ? {} : { signal }),
      ...(columns === undefined ? {} : { columns }),
      ...(member === undefined ? {} : { member }),
      onProgress: (_, file) => {
        const source = byName.get(file)!;
        onProgress?.({ file, bytesRead: source.bytesRead(), bytesTotal: source.sizeBytes });
      },
    });
    for (const source of opened) {
      digests.push({
        role: 'forecast',
        file: basename(source.name),
        sha256: source.sha256(),
        ...(member === undefined ? {} : { member }),
        ...(columns === undefined || Object.keys(columns).length === 0 ? {} : { columns }),
      });
    }
    return read;
  });
}
