import { type Fault, type FaultList, faultList } from '../errors.js';
import type { Position } from '../geo/geo.js';
import { checkTypes } from '../given.js';
import { landOnTrack } from '../land/land.js';
import type { InputDigest } from '../output/output.js';
import type { PassageInputs } from '../passage/passage.js';
import { cropBoxAround, layTrack, type RouteLeft, readRoute, routeFrom, type Track } from '../route/route.js';
import {
  type Climatology,
  checkChosen,
  type Forecast,
  type ForecastSource,
  type ReadForecastOptions,
  readClimatology,
  readForecast,
} from '../weather/weather.js';
import { says } from '../wording.js';
import { attempt } from './attempt.js';
import { loadBoatInto } from './loadBoat.js';
import { readTextInput } from './readTextInput.js';
import type { FileStore, ForecastFile } from './store.js';

/** Paths of the files of a passage; the polars stand in the boat file. */
export interface InputPaths {
  readonly route: string;
  /** One file or several, in any order; may be absent where there is a climatology. */
  readonly forecast?: string | readonly string[];
  /** Mean wind of every month, behind the forecast or alone; one file or several. */
  readonly climatology?: string | readonly string[];
  readonly boat: string;
}

/** How far the reading of a forecast or climatology has come. */
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
 * Reads route, forecast, climatology, boat and polars. A bad file does not hide the faults of the others.
 * @throws InputError with every fault of every file, or where a path or an option is none
 */
export async function loadInputs(
  store: FileStore,
  paths: InputPaths,
  options: LoadOptions = {},
  readWeather: WeatherReader = loadWeather,
): Promise<LoadedInputs> {
  checkTypes(paths, { route: 'string', boat: 'string' }, 'paths');
  checkLoading(options);
  const faults = faultList();
  for (const fault of options.faults ?? []) faults.add(fault);
  const digests: InputDigest[] = [];
  const read = await readTextInput(store, 'route', paths.route, readRoute, digests, faults);
  const { from } = options;
  const left =
    read === undefined || from === undefined
      ? undefined
      : await attempt(store, paths.route, faults, async () => routeFrom(read, from));
  const route = from === undefined ? read : left?.route;
  const { boat, polars } = await loadBoatInto(store, paths.boat, digests, faults);
  const {
    forecast,
    climatology,
    warnings: ofWeather,
  } = await readWeather(store, paths, route && [layTrack(route)], options, digests, faults);
  faults.throwIfAny();
  if (route === undefined || boat === undefined || polars === undefined)
    throw new Error('an input is missing without a fault');
  const warnings = [
    ...(left === undefined ? [] : offTrackWarning(left, paths.route)),
    ...landOnTrack(route, await store.land(), { file: paths.route }),
    ...ofWeather,
  ];
  const known = { route, boat, polars };
  if (forecast !== undefined) {
    const inputs = { ...known, forecast, ...(climatology === undefined ? {} : { climatology }) };
    return { inputs, digests, warnings };
  }
  if (climatology === undefined) throw new Error('an input is missing without a fault');
  return { inputs: { ...known, climatology }, digests, warnings };
}

const LISTS = { forecast: 'string[]', climatology: 'string[]' } as const;
const OPTIONS = {
  signal: 'object?',
  onProgress: 'function?',
  from: 'object?',
  faults: 'object[]?',
  columns: 'object?',
  member: 'string?',
} as const;

/**
 * @throws InputError where an option is of another type than it should be
 * @internal
 */
export function checkLoading(options: LoadOptions): void {
  checkTypes(options, OPTIONS);
}

/** A boat this near to her track is on it. */
const ON_TRACK_NM = 1;

function offTrackWarning({ offTrackNm, passed }: RouteLeft, file: string): Fault[] {
  return offTrackNm <= ON_TRACK_NM ? [] : [{ file, ...says.offTrack(offTrackNm, passed) }];
}

/**
 * What was read of forecast and climatology.
 * @internal
 */
export interface LoadedWeather {
  readonly forecast?: Forecast;
  readonly climatology?: Climatology;
  readonly warnings: readonly Fault[];
}

/**
 * How the weather is read: a caller that plans again and again may keep what was read.
 * @internal
 */
export type WeatherReader = typeof loadWeather;

/**
 * Reads forecast and climatology for some tracks; without them the whole of both. Columns that are chosen stand in one of them at least.
 * @internal
 */
export async function loadWeather(
  store: FileStore,
  paths: Pick<InputPaths, 'forecast' | 'climatology'>,
  tracks: readonly Track[] | undefined,
  options: LoadOptions,
  digests: InputDigest[],
  faults: FaultList,
): Promise<LoadedWeather> {
  const { columns = {}, member } = options;
  const namesOf = (given: string | readonly string[] | undefined) =>
    given === undefined ? [] : typeof given === 'string' ? [given] : given;
  const [ofForecast, ofClimate] = [namesOf(paths.forecast), namesOf(paths.climatology)];
  checkTypes({ forecast: ofForecast, climatology: ofClimate }, LISTS, 'paths');
  if (ofForecast.length + ofClimate.length === 0) faults.add({ file: 'forecast', ...says.noWeather() });
  const found: string[] = [];
  let heads = 0;
  const onColumns = (names: readonly string[]) => {
    for (const name of names) found.push(name);
    heads += 1;
  };
  const load = async <Read>(
    role: 'forecast' | 'climatology',
    files: readonly string[],
    read: (sources: readonly ForecastSource[], how: Pick<ReadForecastOptions, LoadedHow>) => Promise<Read>,
  ): Promise<Read | undefined> => {
    const opened: ForecastFile[] = [];
    for (const path of files) {
      const source = await attempt(store, path, faults, () => store.open(path));
      if (source !== undefined) opened.push(source);
    }
    if (files.length === 0 || opened.length < files.length) return undefined;
    return attempt(store, files.join(' + '), faults, async () => {
      const byName = new Map(opened.map((source) => [source.name, source]));
      const result = await read(opened, {
        // Without a route the file is still read, so that all faults come in one report.
        ...(tracks === undefined ? {} : { crop: (marginDeg: number) => cropBoxAround(tracks, marginDeg) }),
        ...(options.signal === undefined ? {} : { signal: options.signal }),
        columns,
        onColumns,
        onProgress: (_, file) => {
          const source = byName.get(file)!;
          options.onProgress?.({ file, bytesRead: source.bytesRead(), bytesTotal: source.sizeBytes });
        },
      });
      for (const source of opened) {
        digests.push({
          role,
          file: store.baseName(source.name),
          sha256: source.sha256(),
          ...(member === undefined || role === 'climatology' ? {} : { member }),
          ...(Object.keys(columns).length === 0 ? {} : { columns }),
        });
      }
      return result;
    });
  };
  const forecast = await load('forecast', ofForecast, (sources, how) =>
    readForecast(sources, { ...how, ...(member === undefined ? {} : { member }) }),
  );
  const climatology = await load('climatology', ofClimate, readClimatology);
  // Of a file whose head cannot be read nobody knows what it has.
  if (heads === (ofForecast.length > 0 ? 1 : 0) + (ofClimate.length > 0 ? 1 : 0)) {
    checkChosen([...ofForecast, ...ofClimate].join(' + '), found, columns, faults);
  }
  return {
    ...(forecast === undefined ? {} : { forecast: forecast.forecast }),
    ...(climatology === undefined ? {} : { climatology: climatology.climatology }),
    warnings: [...(forecast?.warnings ?? []), ...(climatology?.warnings ?? [])],
  };
}

type LoadedHow = 'crop' | 'signal' | 'columns' | 'onColumns' | 'onProgress';
