import { type CsvBlock, CsvStructureError, csvBlocks, isBlank, structureSaid, type TextSource } from '../csv/csv.js';
import type { Fault, FaultList } from '../errors.js';
import type { CropBox } from '../route/route.js';
import { says } from '../wording.js';
import type { ColumnChoices } from './columnChoices.js';
import { forecastColumns } from './columns.js';
import type { Coverage, Grid } from './forecast.js';
import { gribTable, isGribRow } from './gribTable.js';
import { headOf } from './head.js';
import { gridMaker } from './makeGrids.js';
import { plainTable } from './plainTable.js';
import type { ForecastTable } from './table.js';
import { zeroRuns } from './zeros.js';

/** A forecast file: its name for messages, and its bytes from the start each time it is opened. */
export interface ForecastSource {
  readonly name: string;
  readonly open: () => TextSource;
}

/** One file as read. */
export interface ForecastFile {
  readonly file: string;
  readonly grids: readonly Grid[];
  readonly covers: Coverage | undefined;
  readonly hasWind: boolean;
  /** Rows inside the crop. */
  readonly keptRows: number;
  /** Names in the head, and its line; in a layout without a head the names of what it holds. */
  readonly head: { readonly names: readonly string[]; readonly line?: number };
  readonly members: readonly string[];
  readonly warnings: readonly Fault[];
  readonly widestCellDeg: number;
}

export interface ReadFileOptions {
  readonly columns: ColumnChoices;
  readonly member: string | undefined;
  readonly signal: AbortSignal | undefined;
  readonly onProgress: ((charactersRead: number, file: string) => void) | undefined;
  /** Told the names of a file's columns, also of one that cannot be read on. */
  readonly onNames: (names: readonly string[]) => void;
}

/** Reads one forecast file; faults are added, and undefined comes back where it cannot be read at all. */
export async function readForecastFile(
  source: ForecastSource,
  box: CropBox | undefined,
  options: ReadFileOptions,
  faults: FaultList,
): Promise<ForecastFile | undefined> {
  const file = source.name;
  const before = faults.count;
  const opening = openingOf(file, box, options, faults);
  let rows = 0;
  try {
    for await (const block of csvBlocks(source.open())) {
      options.signal?.throwIfAborted();
      rows += takeRows(opening, block);
      if (opening.isBad()) break;
      options.onProgress?.(block.charactersRead, file);
    }
  } catch (error) {
    if (!(error instanceof CsvStructureError)) throw error;
    faults.add({ file, line: error.line, ...structureSaid(error) });
    // What its rows lack may stand behind the break.
    return undefined;
  }
  if (faults.count === before) opening.finish(rows);
  const { table, head } = opening;
  if (table === undefined || rows === 0) return undefined;
  const groups = table.groups();
  const { names } = table;
  const isHeadless = head.line === undefined;
  if (isHeadless) options.onNames([...Object.values(names), ...table.unused()]);
  // That it holds nothing known has been told.
  if (Object.keys(names).length === 0) return undefined;
  const keptRows = groups.reduce((sum, { stores }) => sum + stores.reduce((rows, store) => rows + store.rows, 0), 0);
  const gridsOf = gridMaker(table.places.axes, names, groups.length, file, faults);
  const grids = groups.flatMap(({ stores, runEpochSeconds, member }) =>
    gridsOf(stores).map(
      (grid): Grid => ({
        ...grid,
        file,
        ...(runEpochSeconds === undefined ? {} : { runEpochSeconds }),
        ...(member === undefined ? {} : { member }),
      }),
    ),
  );
  return {
    file,
    grids,
    covers: table.places.covers(),
    hasWind: table.hasWind(),
    keptRows,
    head: isHeadless ? { names: [...Object.values(names), ...table.unused()] } : head,
    members: [...table.members],
    warnings: [
      ...table.unused().map((column) => ({ file, column, ...says.columnUnused() })),
      ...windHeightWarning(table, file),
      ...zeroRuns(grids, file),
    ],
    widestCellDeg: table.places.widestCellDeg(),
  };
}

/** A warning of wind that a column of heights places elsewhere than at 10 m. */
function windHeightWarning({ level, hasWind }: ForecastTable, file: string): Fault[] {
  if (level === undefined || !hasWind() || !/height|altitude/.test(level.name)) return [];
  const heightM = level.value === '' ? Number.NaN : Number(level.value);
  return Number.isNaN(heightM) || heightM === 10
    ? []
    : [{ file, column: level.name, ...says.windHeight(`${heightM} m`) }];
}

/** The head of a file, row by row, until its layout is known. */
interface Opening {
  /** Takes a row of the head; false where the layout is known and the row is its first. */
  takesHead(cells: readonly string[], line: number): boolean;
  readonly table: ForecastTable | undefined;
  isBad(): boolean;
  readonly head: ForecastFile['head'];
  /** The end of the file after so many rows: a head without any is a fault, and is looked at all the same. */
  finish(rows: number): void;
}

function openingOf(file: string, box: CropBox | undefined, options: ReadFileOptions, faults: FaultList): Opening {
  const tableOptions = { file, faults, box, member: options.member };
  let first: { readonly cells: readonly string[]; readonly line: number } | undefined;
  let table: ForecastTable | undefined;
  let head: ForecastFile['head'] = { names: [] };
  let isBad = false;
  const begin = (second: readonly string[] | undefined, line: number): boolean => {
    const read = headOf(first!.cells, second, first!.line, line);
    head = { names: read.names, line: read.line };
    options.onNames(read.names);
    const columns = forecastColumns(read, options.columns, file, faults);
    if (columns === undefined) isBad = true;
    else table = plainTable(columns, tableOptions);
    return read.unitsLine !== undefined;
  };
  return {
    get table() {
      return table;
    },
    get head() {
      return head;
    },
    isBad: () => isBad,
    takesHead(cells, line) {
      if (table !== undefined) return false;
      if (first === undefined && isGribRow(cells)) {
        table = gribTable(options.columns, tableOptions);
        return false;
      }
      if (first === undefined) {
        first = { cells, line };
        return true;
      }
      return begin(cells, line) || isBad;
    },
    finish(rows) {
      if (rows > 0) return;
      // A row of units has made the table already.
      if (table === undefined && first !== undefined) begin(undefined, first.line);
      if (!isBad) faults.add({ file, ...says.noRows(first !== undefined) });
    },
  };
}

/** Gives the rows of a block to the table, and says how many there were. */
function takeRows(opening: Opening, block: CsvBlock): number {
  let taken = 0;
  for (let i = 0; i < block.rows.length; i += 1) {
    const cells = block.rows[i]!;
    if (isBlank(cells)) continue;
    const line = block.lineOf(i);
    if (opening.table === undefined && opening.takesHead(cells, line)) {
      if (opening.isBad()) return taken;
      continue;
    }
    taken += 1;
    opening.table!.take(cells, line);
  }
  return taken;
}
