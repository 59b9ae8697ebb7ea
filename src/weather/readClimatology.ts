import { type Fault, type FaultList, faultList } from '../errors.js';
import type { CropBox } from '../route/route.js';
import { says } from '../wording.js';
import { checkChosen } from './checkChosen.js';
import { sourcesGiven } from './checkReading.js';
import { type ClimateTable, climateTable } from './climateTable.js';
import { type Climatology, MONTHS } from './climatology.js';
import type { ColumnChoices } from './columnChoices.js';
import { type LaidOut, rowsLaidOut } from './makeGrids.js';
import { newLines } from './places.js';
import type { ForecastSource } from './readRows.js';
import { readRows } from './readRows.js';
import { unusedColumns } from './unusedColumns.js';
import { zeroRuns } from './zeros.js';

/** How to read a climatology. */
export interface ReadClimatologyOptions {
  /** Keeps only the waters of a route, as with a forecast. */
  readonly crop?: (marginDeg: number) => CropBox;
  /** Columns by what they hold; of the roles `month` (or `time`), `lat`, `lon`, `u10`, `v10` and `wind_speed`, the mean speed, are used. */
  readonly columns?: ColumnChoices;
  /**
   * Told the names of the columns of all files; that a chosen column is among them is then the caller's to check, who may read
   * other files with the same choices.
   */
  readonly onColumns?: (names: readonly string[]) => void;
  readonly signal?: AbortSignal;
  /** Called after each block with the characters read so far of a file. */
  readonly onProgress?: (charactersRead: number, file: string) => void;
}

/** A climatology as read, and what is worth knowing about its files. */
export interface ReadClimatology {
  readonly climatology: Climatology;
  readonly warnings: readonly Fault[];
}

/** Margin kept round a route, as of forecasts. */
const CROP_MARGIN_DEG = 5;

/**
 * What a mean vector may be longer than the mean speed and still be as long: what printing to two decimals rounds.
 */
const ROUNDED_KN = 0.03;

/** `month 1`. */
const monthSaid = (month: number) => `month ${month}`;

/**
 * Reads the mean wind of every month of the year from one CSV file or several (one a month, say): a row a month and grid point with `month`
 * (1 to 12; or `time`, a date of which the month is taken), `lat`, `lon`, the mean vector as `u10, v10` or `u, v`, and the mean
 * speed as `wind_speed` or `wspd`; m/s unless stated. Order of rows, empty cells, longitudes and units are as in a forecast. Rows of
 * one month and point must agree: nothing is averaged here.
 *
 * Cells with vector or speed alone are taken as absent. A speed lower than the vector's length, as of very few observations, is warned of.
 * @throws InputError with every fault of every file, or where what is given for them or an option is none
 * @example
 * const { climatology } = await readClimatology({ name: 'months.csv', open: () => [sample.climatologyCsv] });
 * climatology.lats // [10, 12.5, …]
 */
export async function readClimatology(
  sources: ForecastSource | readonly ForecastSource[],
  options: ReadClimatologyOptions = {},
): Promise<ReadClimatology> {
  const faults = faultList();
  const list = sourcesGiven(sources, options, 'climatology');
  const file = list.map(({ name }) => name).join(' + ');
  const { crop } = options;
  let read = await readTables(list, crop?.(CROP_MARGIN_DEG), options, faults);
  const widest = Math.max(0, ...read.tables.map(({ places }) => places.widestCellDeg()));
  if (crop !== undefined && faults.count === 0 && widest > CROP_MARGIN_DEG) {
    read = await readTables(list, crop(widest * 1.01), options, faults);
  }
  const { tables, names } = read;
  if (list.length === 0) faults.add({ file: 'climatology', ...says.noRows(false) });
  if (names.length === list.length) {
    if (options.onColumns === undefined) checkChosen(file, names.flat(), options.columns ?? {}, faults);
    else options.onColumns(names.flat());
  }
  const [first] = tables;
  if (first === undefined || tables.length < list.length) {
    faults.throwIfAny();
    throw new Error('a climatology was not read, without a fault');
  }
  // Beside other faults they may be why.
  const missing = faults.count > 0 ? [] : monthsMissing(first.places.axes.epochSeconds);
  if (missing.length > 0) faults.add({ file, ...says.allMonths(missing) });
  const laidOut = rowsLaidOut(first.places.axes, 1, file, faults, monthSaid)(tables.map(({ store }) => store));
  if (faults.count === 0 && tables.every(({ store }) => store.rows === 0)) faults.add({ file, ...says.noWindRows() });
  faults.throwIfAny();
  const warnings: Fault[] = [
    ...tables.flatMap(({ unused, store }) => unusedColumns(unused, store.file!)),
    ...read.warnings,
  ];
  const climatology = climatologyOf(laidOut!, file, warnings);
  if (climatology.windEastKn.every(Number.isNaN)) faults.add({ file, ...says.noWindRows() });
  faults.throwIfAny();
  return { climatology, warnings };
}

/** Reads all files on common lines; those that cannot be read are left out, with their faults. */
async function readTables(
  sources: readonly ForecastSource[],
  box: CropBox | undefined,
  { columns = {}, signal, onProgress }: ReadClimatologyOptions,
  faults: FaultList,
): Promise<{
  readonly tables: readonly ClimateTable[];
  readonly names: readonly (readonly string[])[];
  readonly warnings: readonly Fault[];
}> {
  const lines = newLines();
  const tables: ClimateTable[] = [];
  const names: (readonly string[])[] = [];
  const warnings: Fault[] = [];
  for (const source of sources) {
    const read = await readRows<ClimateTable>(
      source,
      { headed: (head) => climateTable(head, { file: source.name, faults, box, lines, columns }) },
      { signal, onProgress, onNames: (ofFile) => names.push(ofFile) },
      faults,
    );
    if (read === undefined) continue;
    tables.push(read.table);
    warnings.push(...read.warnings);
  }
  return { tables, names, warnings };
}

function monthsMissing(months: readonly number[]): string[] {
  return Array.from({ length: MONTHS }, (_, i) => i + 1)
    .filter((month) => !months.includes(month))
    .map((month) => `${month}`);
}

/** The record of rows that are laid out; a month of which the crop keeps nothing is absent. */
function climatologyOf(
  { times, lats, lons, wraps, filled, placeOf }: LaidOut,
  file: string,
  warnings: Fault[],
): Climatology {
  const slice = lats.length * lons.length;
  const [east, north, speed] = [filled.u10!.array, filled.v10!.array, filled.wind_speed!.array];
  let [inPart, under, present] = [0, 0, 0];
  let firstInPart: number | undefined;
  let firstUnder: { readonly cell: number; readonly vectorKn: number } | undefined;
  for (let cell = 0; cell < east.length; cell += 1) {
    const vectorKn = Math.sqrt(east[cell]! ** 2 + north[cell]! ** 2);
    const [hasVector, hasSpeed] = [!Number.isNaN(vectorKn), !Number.isNaN(speed[cell]!)];
    if (hasVector && hasSpeed) {
      present += 1;
      if (vectorKn > speed[cell]! + ROUNDED_KN) {
        under += 1;
        firstUnder ??= { cell, vectorKn };
      }
    } else {
      if (hasVector || hasSpeed || Number.isNaN(east[cell]!) !== Number.isNaN(north[cell]!)) {
        inPart += 1;
        firstInPart ??= cell;
      }
      east[cell] = Number.NaN;
      north[cell] = Number.NaN;
      speed[cell] = Number.NaN;
    }
  }
  const placed = (cell: number) => {
    const [month, latDeg, lonDeg] = placeOf(cell);
    return `for ${month} at ${latDeg}, ${lonDeg}`;
  };
  if (firstInPart !== undefined) warnings.push({ file, ...says.meanInPart(inPart, placed(firstInPart)) });
  if (firstUnder !== undefined) {
    const { cell, vectorKn } = firstUnder;
    warnings.push({ file, ...says.speedUnderVector(under, present, placed(cell), vectorKn, speed[cell]!) });
  }
  const grid = { epochSeconds: times, lats, lons, wraps, fields: { windEastKn: east, windNorthKn: north } };
  warnings.push(...zeroRuns([grid], file, monthSaid));
  const whole = (values: Float32Array) => {
    if (times.length === MONTHS) return values;
    const all = new Float32Array(MONTHS * slice).fill(Number.NaN);
    times.forEach((month, i) => {
      all.set(values.subarray(i * slice, (i + 1) * slice), (month - 1) * slice);
    });
    return all;
  };
  return { file, lats, lons, wraps, windEastKn: whole(east), windNorthKn: whole(north), meanSpeedKn: whole(speed) };
}
