import type { FaultList } from '../errors.js';
import { says } from '../wording.js';
import type { NumberColumn } from './quantityColumns.js';

/**
 * Values that publishers write where there is no value, beside empty cells and `NaN`: the usual −999 family, the
 * 16-bit limits, and the 9.96921e36, 9.999e20 and 1e20 of NetCDF, GRIB and climate files.
 */
const FILL_VALUES: ReadonlySet<number> = new Set([-999, -999.9, -9999, -99999, -32767, -32768, 9999, 99999]);
const FILL_FROM = 9.99e19;
/** The least of the fill values. In centimetres a second they lie within the range of a wind or a current. */
const LEAST_FILL = 999;
const ABSENT_WORDS: ReadonlySet<string> = new Set(['', 'nan', 'na', 'n/a', 'null', 'none', '-', '--', '_']);

/** A latitude or longitude; NaN after a fault. */
export function readPlace(cell: string, column: NumberColumn, file: string, line: number, faults: FaultList): number {
  const value = Number(cell);
  // Adding 0 turns −0 into 0.
  if (value >= column.min && value <= column.max && cell.trim() !== '') return value + 0;
  faults.add({ file, line, column: column.name, ...says.number(column.min, column.max, cell) });
  return Number.NaN;
}

/** A quantity in the library's unit; NaN where the cell says that there is none, or after a fault. */
export function readQuantity(
  cell: string,
  column: NumberColumn,
  file: string,
  line: number,
  faults: FaultList,
): number {
  const value = +cell;
  // A cell of blanks is 0 to a number parser and nothing to a person.
  const inRange = value >= column.min && value <= column.max && (value !== 0 || cell.includes('0'));
  if (inRange && (Math.abs(value) < LEAST_FILL || !FILL_VALUES.has(value))) {
    return value * column.factor + column.offset;
  }
  if (ABSENT_WORDS.has(cell.trim().toLowerCase())) return Number.NaN;
  if (FILL_VALUES.has(value) || (Math.abs(value) >= FILL_FROM && Number.isFinite(value))) return Number.NaN;
  faults.add({ file, line, column: column.name, ...says.number(column.min, column.max, cell) });
  return Number.NaN;
}
