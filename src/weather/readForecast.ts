import { type Fault, type FaultList, faultList } from '../errors.js';
import type { CropBox } from '../route/route.js';
import { says } from '../wording.js';
import { checkChosen } from './checkChosen.js';
import { sourcesGiven } from './checkReading.js';
import type { ColumnChoices } from './columnChoices.js';
import type { Coverage, Forecast } from './forecast.js';
import { checkOverlaps } from './overlap.js';
import { type ForecastFile, type ReadFileOptions, readForecastFile } from './readFile.js';
import type { ForecastSource } from './readRows.js';

export type { ForecastSource } from './readRows.js';

/** How to read a forecast. */
export interface ReadForecastOptions {
  /**
   * Keeps only the waters of a route; rows outside are checked and dropped. Given as a function of the margin in
   * degrees, which grows to a cell of the file's grid where that is wider.
   */
  readonly crop?: (marginDeg: number) => CropBox;
  /** Columns by what they hold, where a file calls them otherwise than the plain layout and the known publishers do. */
  readonly columns?: ColumnChoices;
  /**
   * Told the names of the columns of all files; that a chosen column is among them is then the caller's to check, who may read
   * other files with the same choices.
   */
  readonly onColumns?: (names: readonly string[]) => void;
  /** Whether one of the files must have wind. Default true; false to look at files of waves or currents alone. */
  readonly needsWind?: boolean;
  /** The member to keep of an ensemble. Absent: all are kept, and one is picked later by `memberOf`. */
  readonly member?: string;
  readonly signal?: AbortSignal;
  /** Called after each block with the characters read so far of a file. */
  readonly onProgress?: (charactersRead: number, file: string) => void;
}

/** A forecast as read, and what is worth knowing about its files. */
export interface ReadForecast {
  readonly forecast: Forecast;
  readonly warnings: readonly Fault[];
}

/** Margin kept round a route: more than 240 Nm, and a cell of a 5° grid. */
const CROP_MARGIN_DEG = 5;

/**
 * Reads a gridded forecast from one CSV file or several, in any order: later or earlier times, other quantities on other
 * grids and times, newer runs. The layout of each is seen from its first lines:
 *
 * - plain: one row a grid point and time with columns `time, lat, lon`, wind as `u10, v10` (m/s) or `wind_speed_kn,
 *   wind_from_direction`, and optionally `gust`, `current_u, current_v` (or speed and direction it sets to), `wave_height`,
 *   `wave_period`, `wave_from_direction`, `run_time`, `member`; CF standard names and publishers' names are known too;
 * - the same with a row of units under the header, as ERDDAP's griddap writes, or with units in brackets;
 * - wgrib2's `-csv`: no header, one row a value, times without a zone that are UTC.
 *
 * Points may be absent, empty, `NaN` or a fill value; longitudes −180..180 or 0..360; times and lines uneven. Where files
 * overlap the newer run is taken if both say which run they are of; else they must agree.
 * @throws InputError with every fault of every file, or where what is given for them or an option is none
 * @example
 * const { forecast } = await readForecast({ name: 'wind.csv', open: () => [sample.forecastCsv] });
 * forecast.grids[0].lats // [10, 12.5, …]
 * await readForecast({ name: 'wind.csv', open: () => ['time,lat,lon\n'] })
 * // throws wind.csv, line 1: expected wind, gust, current or waves under a known name (docs/file-formats.md lists them;
 * // --column names another), got "time, lat, lon"
 */
export async function readForecast(
  sources: ForecastSource | readonly ForecastSource[],
  options: ReadForecastOptions = {},
): Promise<ReadForecast> {
  const faults = faultList();
  const list = sourcesGiven(sources, options, 'forecast');
  const files: ForecastFile[] = [];
  const names: (readonly string[])[] = [];
  for (const [i, source] of list.entries()) {
    const onNames = (ofFile: readonly string[]) => {
      names[i] = ofFile;
    };
    const file = await readCropped(source, options, onNames, faults);
    if (file !== undefined) files.push(file);
  }
  if (list.length === 0) faults.add({ file: 'forecast', ...says.noRows(false) });
  // Of a file whose head cannot be read nobody knows what it has.
  if (list.every((_, i) => names[i] !== undefined)) {
    if (options.onColumns !== undefined) options.onColumns(names.flat());
    else checkChosen(list.map(({ name }) => name).join(' + '), names.flat(), options.columns ?? {}, faults);
  }
  if (files.length === list.length) checkTogether(files, options, faults);
  faults.throwIfAny();
  const members = [...new Set(files.flatMap(({ grids }) => grids.flatMap((grid) => grid.member ?? [])))];
  const covers = hullOf(files.flatMap((file) => (file.hasWind ? (file.covers ?? []) : [])));
  return {
    forecast: {
      file: files.map(({ file }) => file).join(' + '),
      grids: files.flatMap(({ grids }) => grids),
      ...(covers === undefined ? {} : { covers }),
      ...(members.length === 0 ? {} : { members }),
    },
    warnings: files.flatMap(({ warnings }) => warnings),
  };
}

/** Reads a file cropped; one whose cells are wider than the margin is read again with a wider one. */
async function readCropped(
  source: ForecastSource,
  options: ReadForecastOptions,
  onNames: ReadFileOptions['onNames'],
  faults: FaultList,
) {
  const { crop, columns = {}, member, signal, onProgress } = options;
  const settled: ReadFileOptions = { columns, member, signal, onProgress, onNames };
  if (crop === undefined) return readForecastFile(source, undefined, settled, faults);
  const before = faults.count;
  const file = await readForecastFile(source, crop(CROP_MARGIN_DEG), settled, faults);
  if (file === undefined || faults.count > before || file.widestCellDeg <= CROP_MARGIN_DEG) return file;
  return readForecastFile(source, crop(file.widestCellDeg * 1.01), settled, faults);
}

/** Adds what is wrong with the files as a whole. */
function checkTogether(files: readonly ForecastFile[], options: ReadForecastOptions, faults: FaultList): void {
  const { member } = options;
  if (member !== undefined && files.every(({ members }) => members.length === 0)) {
    for (const { file, head } of files) faults.add({ file, column: 'member', ...says.missingColumn(head.names) });
  }
  for (const { file, members } of files) {
    if (member === undefined || members.length === 0 || members.includes(member)) continue;
    faults.add({ file, column: 'member', ...says.choice(members, member) });
  }
  if (options.needsWind === false) {
    checkOverlaps(files, faults);
    return;
  }
  if (files.every(({ hasWind }) => !hasWind)) {
    for (const { file, head } of files) {
      faults.add({ file, ...(head.line === undefined ? {} : { line: head.line }), ...says.windColumns(head.names) });
    }
  } else if (faults.count === 0) {
    const withWind = files.filter(({ hasWind }) => hasWind);
    // A crop far from the forecast keeps nothing: the departure is then told to be outside, with what the file covers.
    const isKept = withWind.some(({ keptRows }) => keptRows > 0);
    const hasWind = withWind.some(({ grids }) => grids.some((grid) => grid.fields.windEastKn !== undefined));
    if (isKept && !hasWind) faults.add({ file: withWind[0]!.file, ...says.noWindRows() });
  }
  checkOverlaps(files, faults);
}

/** The extent of several files together; longitudes from the westernmost on, all round where they leave no gap. */
function hullOf(all: readonly Coverage[]): Coverage | undefined {
  const [first, ...rest] = all;
  if (first === undefined) return undefined;
  return rest.reduce((hull, next) => {
    const turned = Math.round((hull.lonWestDeg - next.lonWestDeg) / 360) * 360;
    const [west, east] = [next.lonWestDeg + turned, next.lonEastDeg + turned];
    const lonWestDeg = Math.min(hull.lonWestDeg, west);
    return {
      fromEpochSeconds: Math.min(hull.fromEpochSeconds, next.fromEpochSeconds),
      toEpochSeconds: Math.max(hull.toEpochSeconds, next.toEpochSeconds),
      latMinDeg: Math.min(hull.latMinDeg, next.latMinDeg),
      latMaxDeg: Math.max(hull.latMaxDeg, next.latMaxDeg),
      lonWestDeg,
      lonEastDeg: Math.min(lonWestDeg + 360, Math.max(hull.lonEastDeg, east)),
    };
  }, first);
}
