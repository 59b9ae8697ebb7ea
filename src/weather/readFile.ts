import type { Fault, FaultList } from '../errors.js';
import type { CropBox } from '../route/route.js';
import { says } from '../wording.js';
import type { ColumnChoices } from './columnChoices.js';
import { forecastColumns } from './columns.js';
import type { Coverage, Grid } from './forecast.js';
import { gribTable, isGribRow } from './gribTable.js';
import { gridMaker } from './makeGrids.js';
import { plainTable } from './plainTable.js';
import { type ForecastSource, type HeadRead, type Layouts, type ReadRowsOptions, readRows } from './readRows.js';
import type { ForecastTable } from './table.js';
import { unusedColumns } from './unusedColumns.js';
import { zeroRuns } from './zeros.js';

/** One file as read. */
export interface ForecastFile {
  readonly file: string;
  readonly grids: readonly Grid[];
  readonly covers: Coverage | undefined;
  readonly hasWind: boolean;
  /** Rows inside the crop. */
  readonly keptRows: number;
  /** Names in the head, and its line; in a layout without a head the names of what it holds. */
  readonly head: HeadRead;
  readonly members: readonly string[];
  readonly warnings: readonly Fault[];
  readonly widestCellDeg: number;
}

export interface ReadFileOptions extends ReadRowsOptions {
  readonly columns: ColumnChoices;
  readonly member: string | undefined;
}

/** Reads one forecast file; faults are added, and undefined comes back where it cannot be read at all. */
export async function readForecastFile(
  source: ForecastSource,
  box: CropBox | undefined,
  options: ReadFileOptions,
  faults: FaultList,
): Promise<ForecastFile | undefined> {
  const file = source.name;
  const tableOptions = { file, faults, box, member: options.member };
  const layouts: Layouts<ForecastTable> = {
    headless: (first) => (isGribRow(first) ? gribTable(options.columns, tableOptions) : undefined),
    headed(head) {
      const columns = forecastColumns(head, options.columns, file, faults);
      return columns === undefined ? undefined : plainTable(columns, tableOptions);
    },
  };
  const read = await readRows(source, layouts, options, faults);
  if (read === undefined) return undefined;
  const { table, head, warnings } = read;
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
      ...unusedColumns(table.unused(), file),
      ...windHeightWarning(table, file),
      ...zeroRuns(grids, file),
      ...warnings,
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
