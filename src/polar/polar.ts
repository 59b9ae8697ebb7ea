import { readTable } from '../csv/csv.js';
import { type FaultList, faultList } from '../errors.js';
import { says } from '../wording.js';

export { checkPolars } from './checkPolars.js';

/**
 * Boat speed of one sail plan, knots through the water, over true wind at 10 m. `stwKn[i * twsKn.length + j]` is the
 * speed at `twaDeg[i]` (0 to 180, either tack) and `twsKn[j]`; both lists rise. TWA refers to the course through the water.
 */
export interface Polar {
  readonly twsKn: readonly number[];
  readonly twaDeg: readonly number[];
  readonly stwKn: readonly number[];
}

/** Polars by the id of their sail plan. `designed` polars are sailed at a skipper's factor of 0.9 unless the boat says otherwise. */
export interface PolarSet {
  readonly plans: Readonly<Record<string, Polar>>;
  readonly status: 'measured' | 'designed';
}

/** Speed of a polar at a true wind, in knots; undefined outside its angles. */
export type PolarSpeed = (twsKn: number, twaDeg: number) => number | undefined;

const COLUMNS = { required: ['sail_plan', 'tws_kn', 'twa_deg', 'stw_kn'], optional: [] } as const;
const RANGES = { tws_kn: [0, 120], twa_deg: [0, 180], stw_kn: [0, 60] } as const;

/** How to read polars. */
export interface ReadPolarsOptions {
  /** Name of the file in faults. Default `polars.csv`. */
  readonly file?: string;
  /**
   * The boat they are for: a polar of a plan she does not have is a fault, and her `polarStatus` says whether the speeds
   * were measured at sea or designed. Absent: any plan, measured.
   */
  readonly boat?: { readonly sailPlans: readonly { readonly id: string }[]; readonly polarStatus?: PolarSet['status'] };
}

/**
 * Reads polars of several sail plans from tidy CSV: `sail_plan,tws_kn,twa_deg,stw_kn`, one row a speed, in any order.
 * Each plan needs a full table: a speed for each of its wind speeds at each of its angles.
 * @throws InputError with every fault of the file
 */
export function readPolars(text: string, options: ReadPolarsOptions = {}): PolarSet {
  const file = options.file ?? 'polars.csv';
  const faults = faultList();
  const rows = readTable(text, file, COLUMNS, faults);
  const known = options.boat?.sailPlans.map((plan) => plan.id);
  const unknown = new Set<string>();
  const byPlan = new Map<string, PolarRow[]>();
  for (const { line, cells } of rows) {
    const id = cells.sail_plan;
    const number = (column: keyof typeof RANGES) => readNumber(cells[column], file, line, column, faults);
    const row = { line, twsKn: number('tws_kn'), twaDeg: number('twa_deg'), stwKn: number('stw_kn') };
    if (id === undefined) continue;
    if (known !== undefined && !known.includes(id)) {
      if (!unknown.has(id)) faults.add({ file, line, column: 'sail_plan', ...says.planOfBoat(known, id) });
      unknown.add(id);
      continue;
    }
    const plan = byPlan.get(id);
    if (plan === undefined) byPlan.set(id, [row]);
    else plan.push(row);
  }
  const plans = [...byPlan].map(([id, plan]) => [id, polarOf(id, plan, file, faults)] as const);
  faults.throwIfAny();
  return { plans: Object.fromEntries(plans), status: options.boat?.polarStatus ?? 'measured' };
}

/**
 * A look-up in a polar: bilinear in TWS and |TWA|, straight to zero below the lowest TWS, held above the highest.
 * Never above the fastest of the four speeds around.
 */
export function polarSpeed(polar: Polar): PolarSpeed {
  const tws = Float64Array.from(polar.twsKn);
  const twa = Float64Array.from(polar.twaDeg);
  const stw = Float64Array.from(polar.stwKn);
  const columns = tws.length;
  const lowest = tws[0]!;
  return (twsKn, twaDeg) => {
    const angle = Math.abs(twaDeg);
    if (!(angle >= twa[0]! && angle <= twa[twa.length - 1]!)) return undefined;
    const i = cellOf(twa, angle);
    const share = (angle - twa[i]!) / (twa[i + 1]! - twa[i]!);
    const [lower, upper] = [i * columns, (i + 1) * columns];
    const at = (j: number) => stw[lower + j]! * (1 - share) + stw[upper + j]! * share;
    if (twsKn <= lowest) return lowest === 0 ? at(0) : (at(0) * twsKn) / lowest;
    if (twsKn >= tws[columns - 1]!) return at(columns - 1);
    const j = cellOf(tws, twsKn);
    const windShare = (twsKn - tws[j]!) / (tws[j + 1]! - tws[j]!);
    return at(j) * (1 - windShare) + at(j + 1) * windShare;
  };
}

/** The cell of a rising axis that holds a value: index of its lower end, at most the last but one. */
function cellOf(axis: Float64Array, value: number): number {
  let i = 0;
  while (i < axis.length - 2 && axis[i + 1]! <= value) i += 1;
  return i;
}

interface PolarRow {
  readonly line: number;
  readonly twsKn: number | undefined;
  readonly twaDeg: number | undefined;
  readonly stwKn: number | undefined;
}

function readNumber(
  cell: string | undefined,
  file: string,
  line: number,
  column: keyof typeof RANGES,
  faults: FaultList,
) {
  if (cell === undefined) return undefined;
  const [min, max] = RANGES[column];
  const value = cell === '' ? Number.NaN : Number(cell);
  if (value >= min && value <= max) return value;
  faults.add({ file, line, column, ...says.number(min, max, cell) });
  return undefined;
}

function polarOf(id: string, rows: readonly PolarRow[], file: string, faults: FaultList): Polar {
  const risingOf = (values: readonly (number | undefined)[]) =>
    [...new Set(values.filter((value) => value !== undefined))].sort((a, b) => a - b);
  const twsKn = risingOf(rows.map((row) => row.twsKn));
  const twaDeg = risingOf(rows.map((row) => row.twaDeg));
  const line = rows[0]!.line;
  if (rows.some((row) => row.twsKn === undefined || row.twaDeg === undefined || row.stwKn === undefined)) {
    return { twsKn, twaDeg, stwKn: [] };
  }
  if (twaDeg.length < 2) faults.add({ file, line, ...says.polarTooSmall() });
  const speeds = new Map<string, number>();
  for (const row of rows) {
    const key = `${row.twaDeg} ${row.twsKn}`;
    if (speeds.has(key)) faults.add({ file, line: row.line, ...says.polarTwice(row.twsKn!, row.twaDeg!) });
    speeds.set(key, row.stwKn!);
  }
  const stwKn = twaDeg.flatMap((angle) =>
    twsKn.map((wind) => {
      const speed = speeds.get(`${angle} ${wind}`);
      if (speed === undefined) faults.add({ file, line, ...says.polarPoint(id, wind, angle) });
      return speed ?? 0;
    }),
  );
  return { twsKn, twaDeg, stwKn };
}
