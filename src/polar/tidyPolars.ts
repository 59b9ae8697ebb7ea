import { readTable, textOfCell } from '../csv/csv.js';
import type { FaultList } from '../errors.js';
import { says } from '../wording.js';
import type { Polar, TwaReference } from './polar.js';
import { readCell } from './ranges.js';

const COLUMNS = {
  required: ['sail_plan', 'tws_kn', 'twa_deg', 'stw_kn'],
  optional: ['wind_height_m', 'twa_reference'],
} as const;
const REFERENCES = ['course', 'heading'] as const;
/** Rows that share no wind or angle leave a table of their square; nobody reads that many faults. */
const MOST_POINTS_TOLD = 1000;

interface Row {
  readonly line: number;
  /** Whether a cell has its fault already. */
  readonly isFaulty: boolean;
  readonly twsKn: number | undefined;
  readonly twaDeg: number | undefined;
  readonly stwKn: number | undefined;
  readonly windHeightM: number | undefined;
  readonly twaReference: TwaReference | undefined;
}

/** Polars of several plans, one row a speed; faults are added. */
export function readTidyPolars(
  text: string,
  known: readonly { readonly id: string }[] | undefined,
  file: string,
  faults: FaultList,
): (readonly [id: string, polar: Polar])[] {
  const rows = readTable(text, file, COLUMNS, faults);
  const ids = known?.map((plan) => plan.id);
  const unknown = new Set<string>();
  const byPlan = new Map<string, Row[]>();
  for (const { line, cells } of rows) {
    const id = cells.sail_plan === undefined ? undefined : textOfCell(cells.sail_plan);
    const number = (column: 'tws_kn' | 'twa_deg' | 'stw_kn' | 'wind_height_m') => {
      const cell = cells[column];
      return cell === undefined || (column === 'wind_height_m' && cell === '')
        ? undefined
        : readCell(cell, column, column, file, line, faults);
    };
    const faultsBefore = faults.count;
    const read = {
      twsKn: number('tws_kn'),
      twaDeg: number('twa_deg'),
      stwKn: number('stw_kn'),
      windHeightM: number('wind_height_m'),
      twaReference: referenceOf(cells.twa_reference ?? '', file, line, faults),
    };
    const row = { line, isFaulty: faults.count > faultsBefore, ...read };
    if (id === undefined) continue;
    if (ids !== undefined && !ids.includes(id)) {
      if (!unknown.has(id)) faults.add({ file, line, column: 'sail_plan', ...says.planOfBoat(ids, id) });
      unknown.add(id);
      continue;
    }
    const plan = byPlan.get(id);
    if (plan === undefined) byPlan.set(id, [row]);
    else plan.push(row);
  }
  return [...byPlan].map(([id, plan]) => [id, polarOf(id, plan, file, faults)] as const);
}

function referenceOf(cell: string, file: string, line: number, faults: FaultList): TwaReference | undefined {
  if (cell === '') return undefined;
  const found = REFERENCES.find((reference) => reference === cell);
  if (found === undefined) faults.add({ file, line, column: 'twa_reference', ...says.choice(REFERENCES, cell) });
  return found;
}

function polarOf(id: string, rows: readonly Row[], file: string, faults: FaultList): Polar {
  const risingOf = (values: readonly (number | undefined)[]) =>
    [...new Set(values.filter((value) => value !== undefined))].sort((a, b) => a - b);
  const twsKn = risingOf(rows.map((row) => row.twsKn));
  const twaDeg = risingOf(rows.map((row) => row.twaDeg));
  const line = rows[0]!.line;
  // Without a column its numbers are absent in every row.
  const isWhole = (row: Row) => row.twsKn !== undefined && row.twaDeg !== undefined && row.stwKn !== undefined;
  if (rows.some((row) => row.isFaulty || !isWhole(row))) return { twsKn, twaDeg, stwKn: [] };
  if (twaDeg.length < 2) faults.add({ file, line, ...says.polarTooSmall() });
  const speeds = new Map<string, number>();
  for (const row of rows) {
    const key = `${row.twaDeg} ${row.twsKn}`;
    if (speeds.has(key)) faults.add({ file, line: row.line, ...says.polarTwice(row.twsKn!, row.twaDeg!) });
    speeds.set(key, row.stwKn!);
  }
  const stwKn: number[] = [];
  let missing = 0;
  for (const [angle, wind] of pointsOf(twaDeg, twsKn)) {
    const speed = speeds.get(`${angle} ${wind}`);
    if (speed === undefined) {
      faults.add({ file, line, ...says.polarPoint(id, wind, angle) });
      missing += 1;
      if (missing === MOST_POINTS_TOLD) break;
    }
    stwKn.push(speed ?? 0);
  }
  const windHeightM = oneOf(id, rows, 'windHeightM', 'wind_height_m', file, faults);
  const twaReference = oneOf(id, rows, 'twaReference', 'twa_reference', file, faults);
  return {
    twsKn,
    twaDeg,
    stwKn,
    ...(windHeightM === undefined ? {} : { windHeightM }),
    ...(twaReference === undefined ? {} : { twaReference }),
  };
}

function* pointsOf(twaDeg: readonly number[], twsKn: readonly number[]): Generator<readonly [number, number]> {
  for (const angle of twaDeg) for (const wind of twsKn) yield [angle, wind];
}

/** What all rows of a plan say; a fault where they do not say the same. */
function oneOf<Key extends 'windHeightM' | 'twaReference'>(
  id: string,
  rows: readonly Row[],
  key: Key,
  column: string,
  file: string,
  faults: FaultList,
): Row[Key] {
  const first = rows[0]![key];
  const other = rows.find((row) => row[key] !== first);
  if (other !== undefined) {
    faults.add({
      file,
      line: other.line,
      column,
      ...says.onePerPlan(id, `${first ?? 'none'}`, `${other[key] ?? 'none'}`),
    });
  }
  return first;
}
