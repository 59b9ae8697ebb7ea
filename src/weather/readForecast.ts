import { type CsvBlock, CsvStructureError, csvBlocks, isBlank, structureSaid, type TextSource } from '../csv/csv.js';
import { type Fault, type FaultList, faultList } from '../errors.js';
import type { CropBox } from '../route/route.js';
import { parseInstant } from '../time.js';
import { wrap360, wrapLon } from '../units.js';
import { saidOfInstant, says } from '../wording.js';
import { type Axis, axisOf, longitudesOf, SAME_LINE_DEG } from './axis.js';
import { type ForecastColumns, forecastColumns } from './columns.js';
import type { Coverage, Forecast } from './forecast.js';
import { type GridBuilder, gridBuilder, MAX_LINES } from './gridBuilder.js';
import { type RowReader, readPlace, rowReader } from './rows.js';

/** A forecast file: its name for messages, and its bytes from the start each time it is opened. */
export interface ForecastSource {
  readonly name: string;
  readonly open: () => TextSource;
}

/** How to read a forecast. */
export interface ReadForecastOptions {
  /**
   * Keeps only the waters of a route; rows outside are checked and dropped. Given as a function of the margin in
   * degrees, which grows to a cell of the file's grid where that is wider.
   */
  readonly crop?: (marginDeg: number) => CropBox;
  readonly signal?: AbortSignal;
  /** Called after each block with the characters read so far. */
  readonly onProgress?: (charactersRead: number) => void;
}

/** A forecast as read, and what is worth knowing about its file. */
export interface ReadForecast {
  readonly forecast: Forecast;
  readonly warnings: readonly Fault[];
}

/** Margin kept round a route: more than 240 Nm, and a cell of a 5° grid. */
const CROP_MARGIN_DEG = 5;

/**
 * Reads a gridded forecast from CSV in the plain layout: one row a grid point and time, in any order, with columns
 * `time, lat, lon`, wind as `u10, v10` (m/s) or `wind_speed_kn, wind_from_direction`, and optionally `gust`, `current_u,
 * current_v` (or speed and direction it sets to), `wave_height`, `wave_period`, `wave_from_direction`. Units are in the
 * names. Points may be absent, empty, `NaN` or a fill value; longitudes −180..180 or 0..360; times and lines uneven.
 * @throws InputError with every fault of the file
 */
export async function readForecast(source: ForecastSource, options: ReadForecastOptions = {}): Promise<ReadForecast> {
  const { crop } = options;
  if (crop === undefined) {
    const { forecast, warnings } = await readOnce(source, options, undefined);
    return { forecast, warnings };
  }
  const { forecast, warnings, cellDeg } = await readOnce(source, options, crop(CROP_MARGIN_DEG));
  if (cellDeg <= CROP_MARGIN_DEG) return { forecast, warnings };
  return readOnce(source, options, crop(cellDeg * 1.01));
}

interface Table {
  readonly columns: ForecastColumns;
  readonly reader: RowReader;
  readonly builder: GridBuilder;
}

async function readOnce(
  source: ForecastSource,
  options: ReadForecastOptions,
  box: CropBox | undefined,
): Promise<ReadForecast & { cellDeg: number }> {
  const file = source.name;
  const faults = faultList();
  const axes = { time: axisOf(0.5), lat: axisOf(SAME_LINE_DEG), lon: axisOf(SAME_LINE_DEG) };
  const rowsOf = rowTaker(axes, box, file, faults);
  let table: Table | undefined;
  let rows = 0;
  try {
    for await (const block of csvBlocks(source.open())) {
      options.signal?.throwIfAborted();
      let first = 0;
      if (table === undefined) {
        first = block.rows.findIndex((cells) => !isBlank(cells)) + 1;
        if (first === 0) continue;
        table = tableOf(block, first - 1, file, faults);
        if (table === undefined) break;
      }
      rows += rowsOf(table, block, first);
      options.onProgress?.(block.charactersRead);
    }
  } catch (error) {
    if (!(error instanceof CsvStructureError)) throw error;
    faults.add({ file, line: error.line, ...structureSaid(error) });
  }
  if (faults.count === 0 && rows === 0) faults.add({ file, ...says.noRows(table !== undefined) });
  if (table === undefined || rows === 0) faults.throwIfAny();
  const values = { epochSeconds: axes.time.values, latDeg: axes.lat.values, lonDeg: axes.lon.values };
  const kept = table?.builder.rows ?? 0;
  const grids = table?.builder.build(values, file, faults) ?? [];
  if (kept > 0 && faults.count === 0 && !grids.some((grid) => grid.fields.windEastKn !== undefined)) {
    faults.add({ file, ...says.noWindRows() });
  }
  faults.throwIfAny();
  const covers = coverageOfAxes(axes);
  return {
    forecast: { file, grids, covers },
    warnings: (table?.columns.unused ?? [])
      .filter((column) => column !== '')
      .map((column) => ({ file, column, ...says.columnUnused() })),
    cellDeg: widestCell(axes),
  };
}

function tableOf(block: CsvBlock, header: number, file: string, faults: FaultList): Table | undefined {
  const columns = forecastColumns(block.rows[header]!, file, block.lineOf(header), faults);
  if (columns === undefined) return undefined;
  const reader = rowReader(columns, file, faults);
  return { columns, reader, builder: gridBuilder(reader.fields) };
}

/** Makes the function that takes the rows of a block, from one on, into a table, and says how many there were. */
function rowTaker(
  axes: { readonly time: Axis; readonly lat: Axis; readonly lon: Axis },
  box: CropBox | undefined,
  file: string,
  faults: FaultList,
): (table: Table, block: CsvBlock, first: number) => number {
  const keepLat: boolean[] = [];
  const keepLon: boolean[] = [];
  let firstMember: string | undefined;
  let tooMany = false;

  const timeOf = (cell: string, line: number) => {
    const instant = parseInstant(cell);
    if (typeof instant === 'number') return axes.time.add(cell, instant);
    faults.add({ file, line, column: 'time', ...saidOfInstant(instant, cell) });
    return undefined;
  };
  const latOf = (cell: string, columns: ForecastColumns, line: number) => {
    const latDeg = readPlace(cell, columns.lat, file, line, faults);
    if (Number.isNaN(latDeg)) return undefined;
    const number = axes.lat.add(cell, latDeg);
    keepLat[number] = box === undefined || (latDeg >= box.latMinDeg && latDeg <= box.latMaxDeg);
    return number;
  };
  const lonOf = (cell: string, columns: ForecastColumns, line: number) => {
    const lonDeg = readPlace(cell, columns.lon, file, line, faults);
    if (Number.isNaN(lonDeg)) return undefined;
    const number = axes.lon.add(cell, wrapLon(lonDeg));
    keepLon[number] = box === undefined || wrap360(lonDeg - box.lonWestDeg) <= box.lonWidthDeg;
    return number;
  };

  return ({ columns, reader, builder }, block, first) => {
    let taken = 0;
    for (let i = first; i < block.rows.length; i += 1) {
      const cells = block.rows[i]!;
      if (isBlank(cells)) continue;
      const line = block.lineOf(i);
      taken += 1;
      if (cells.length !== columns.cellCount) {
        faults.add({ file, line, ...says.cellCount(columns.cellCount, cells.length) });
        continue;
      }
      const timeCell = cells[columns.time]!;
      const latCell = cells[columns.lat.index]!;
      const lonCell = cells[columns.lon.index]!;
      const time = axes.time.known(timeCell) ?? timeOf(timeCell, line);
      const lat = axes.lat.known(latCell) ?? latOf(latCell, columns, line);
      const lon = axes.lon.known(lonCell) ?? lonOf(lonCell, columns, line);
      reader.read(cells, line);
      if (columns.member !== undefined) {
        const member = cells[columns.member]!.trim();
        firstMember ??= member;
        if (member !== firstMember) {
          faults.add({ file, line, column: 'member', ...says.oneMember(firstMember, member) });
          continue;
        }
      }
      if (time === undefined || lat === undefined || lon === undefined) continue;
      if (Math.max(time, lat, lon) >= MAX_LINES) {
        if (!tooMany) faults.add({ file, line, ...says.tooManyLines(MAX_LINES) });
        tooMany = true;
        continue;
      }
      if (keepLat[lat] === true && keepLon[lon] === true) builder.add(time, lat, lon, reader.values, line);
    }
    return taken;
  };
}

/** The extent of all the rows of a file. */
function coverageOfAxes(axes: { readonly time: Axis; readonly lat: Axis; readonly lon: Axis }): Coverage {
  const [times, lats] = [rising(axes.time.values), rising(axes.lat.values)];
  const { west, widthDeg } = longitudesOf(axes.lon.values);
  return {
    fromEpochSeconds: times[0]!,
    toEpochSeconds: times.at(-1)!,
    latMinDeg: lats[0]!,
    latMaxDeg: lats.at(-1)!,
    lonWestDeg: west,
    lonEastDeg: west + widthDeg,
  };
}

/** The widest step between neighbouring lines of a file. */
function widestCell(axes: { readonly lat: Axis; readonly lon: Axis }): number {
  const lats = rising(axes.lat.values);
  const latSteps = lats.slice(1).map((latDeg, i) => latDeg - lats[i]!);
  return Math.max(longitudesOf(axes.lon.values).widestStepDeg, ...latSteps);
}

const rising = (values: readonly number[]) => [...values].sort((a, b) => a - b);
