import { CsvStructureError, csvRows } from '../csv/csv.js';
import type { FaultList } from '../errors.js';
import { says } from '../wording.js';
import type { Polar } from './polar.js';
import { readCell } from './ranges.js';

/** A line of a wide table. */
export interface WideRow {
  readonly line: number;
  readonly cells: readonly string[];
}

/** The rows of a wide table: under a free first cell its first line has numbers. Undefined where the text is none. */
export function wideRowsOf(text: string): WideRow[] | undefined {
  try {
    const { rows, lineOf } = csvRows(text);
    // Spreadsheets leave lines of empty cells.
    const filled = rows
      .map((cells, i) => ({ line: lineOf(i), cells: cells.map((cell) => cell.trim()) }))
      .filter(({ cells }) => cells.some((cell) => cell !== ''));
    const isNumber = (cell: string) => cell !== '' && Number.isFinite(Number(cell));
    return filled[0]?.cells.slice(1).some(isNumber) ? filled : undefined;
  } catch (error) {
    if (error instanceof CsvStructureError) return undefined;
    throw error;
  }
}

/** The polar of one plan from a wide table: TWA down, TWS across, any order; faults are added. */
export function readWidePolar(
  rows: readonly WideRow[],
  sailPlan: string | undefined,
  known: readonly { readonly id: string }[] | undefined,
  file: string,
  faults: FaultList,
): (readonly [id: string, polar: Polar])[] {
  const ids = known?.map((plan) => plan.id);
  const id = sailPlan ?? (ids?.length === 1 ? ids[0] : undefined);
  if (id === undefined) faults.add({ file, ...says.planOfWideTable() });
  else if (ids !== undefined && !ids.includes(id)) faults.add({ file, ...says.planOfBoat(ids, id) });
  return [[id ?? '', polarOf(rows, file, faults)]];
}

function polarOf(table: readonly WideRow[], file: string, faults: FaultList): Polar {
  const [header, ...body] = table as [WideRow, ...WideRow[]];
  const width = widthOf(header.cells);
  const nameOf = (j: number) => `${j + 2}`;
  const winds = header.cells
    .slice(1, width)
    .map((cell, j) => readCell(cell, 'tws_kn', nameOf(j), file, header.line, faults));
  const rows = body.flatMap(({ line, cells }) => {
    const got = Math.max(widthOf(cells), Math.min(width, cells.length));
    if (got !== width) {
      faults.add({ file, line, ...says.cellCount(width, got) });
      return [];
    }
    const twaDeg = readCell(cells[0]!, 'twa_deg', 'twa_deg', file, line, faults);
    const stwKn = winds.map((wind, j) => {
      const column = wind === undefined ? nameOf(j) : `tws ${wind}`;
      return readCell(cells[j + 1]!, 'stw_kn', column, file, line, faults);
    });
    return [{ line, twaDeg, stwKn }];
  });
  if (body.length < 2) faults.add({ file, line: header.line, ...says.polarTooSmall() });
  for (const j of repeatsIn(winds)) {
    faults.add({ file, line: header.line, column: nameOf(j), ...says.axisTwice('TWS', winds[j]!) });
  }
  for (const i of repeatsIn(rows.map(({ twaDeg }) => twaDeg))) {
    const { line, twaDeg } = rows[i]!;
    faults.add({ file, line, column: 'twa_deg', ...says.axisTwice('TWA', twaDeg!) });
  }
  // What is absent here has its fault, and the polar is then not used.
  const order = [...winds.keys()].sort((a, b) => (winds[a] ?? 0) - (winds[b] ?? 0));
  const sorted = [...rows].sort((a, b) => (a.twaDeg ?? 0) - (b.twaDeg ?? 0));
  return {
    twsKn: order.map((j) => winds[j] ?? 0),
    twaDeg: sorted.map(({ twaDeg }) => twaDeg ?? 0),
    stwKn: sorted.flatMap(({ stwKn }) => order.map((j) => stwKn[j] ?? 0)),
  };
}

/** The number of cells up to the last that is not empty: spreadsheets leave empty ones at the end of lines. */
function widthOf(cells: readonly string[]): number {
  let width = cells.length;
  while (width > 0 && cells[width - 1] === '') width -= 1;
  return width;
}

/** The places in a list whose value stood there before. */
function repeatsIn(values: readonly (number | undefined)[]): number[] {
  const met = new Set<number>();
  return values.flatMap((value, i) => {
    if (value === undefined) return [];
    const isRepeat = met.has(value);
    met.add(value);
    return isRepeat ? [i] : [];
  });
}
