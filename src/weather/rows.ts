import type { FaultList } from '../errors.js';
import { RAD_PER_DEG } from '../units.js';
import { says } from '../wording.js';
import type { ForecastColumns, NumberColumn, Quantity } from './columns.js';
import type { Field } from './forecast.js';

/**
 * Values that publishers write where there is no value, beside empty cells and `NaN`: the usual −999 family, the
 * 16-bit limits, and the 9.96921e36, 9.999e20 and 1e20 of NetCDF, GRIB and climate files.
 */
const FILL_VALUES: ReadonlySet<number> = new Set([-999, -999.9, -9999, -99999, -32767, -32768, 9999, 99999]);
const FILL_FROM = 9.99e19;
const ABSENT_WORDS: ReadonlySet<string> = new Set(['', 'nan', 'na', 'n/a', 'null', 'none', '-', '--', '_']);

/** Reads a row's numbers into fields; `values[i]` belongs to `fields[i]`, NaN where the row has none. */
export interface RowReader {
  readonly fields: readonly Field[];
  readonly values: Float64Array;
  read(cells: readonly string[], line: number): void;
}

/** A reader of rows under a header. Faults in cells are added to the list; their values count as absent. */
export function rowReader(columns: ForecastColumns, file: string, faults: FaultList): RowReader {
  const fields: Field[] = [];
  const parts: ((cells: readonly string[], line: number) => void)[] = [];
  const get = (quantity: Quantity) => columns.quantities[quantity];
  const cell = (column: NumberColumn) => (cells: readonly string[], line: number) =>
    readQuantity(cells[column.index]!, column, file, line, faults);

  // Room for every field there is; views of it would cost more than the few unused numbers.
  const values = new Float64Array(9);
  const slot = (field: Field) => fields.push(field) - 1;

  const addVector = (east: Field, north: Field, x: NumberColumn | undefined, y: NumberColumn | undefined) => {
    if (x === undefined || y === undefined) return;
    const [i, j, readX, readY] = [slot(east), slot(north), cell(x), cell(y)];
    parts.push((cells, line) => {
      const u = readX(cells, line);
      const v = readY(cells, line);
      // One component alone is no vector.
      values[i] = Number.isNaN(v) ? Number.NaN : u;
      values[j] = Number.isNaN(u) ? Number.NaN : v;
    });
  };

  const addPolar = (
    east: Field,
    north: Field,
    speed: NumberColumn | undefined,
    direction: NumberColumn | undefined,
    sign: 1 | -1,
  ) => {
    if (speed === undefined || direction === undefined) return;
    const [i, j, readSpeed, readDirection] = [slot(east), slot(north), cell(speed), cell(direction)];
    parts.push((cells, line) => {
      const size = readSpeed(cells, line);
      const angle = readDirection(cells, line) * RAD_PER_DEG;
      // A calm has no direction and needs none.
      values[i] = size === 0 ? 0 : sign * size * Math.sin(angle);
      values[j] = size === 0 ? 0 : sign * size * Math.cos(angle);
    });
  };

  const addPlain = (field: Field, column: NumberColumn | undefined) => {
    if (column === undefined) return;
    const [i, read] = [slot(field), cell(column)];
    parts.push((cells, line) => {
      values[i] = read(cells, line);
    });
  };

  addVector('windEastKn', 'windNorthKn', get('u10'), get('v10'));
  addPolar('windEastKn', 'windNorthKn', get('wind_speed'), get('wind_from_direction'), -1);
  addPlain('gustKn', get('gust'));
  addVector('currentEastKn', 'currentNorthKn', get('current_u'), get('current_v'));
  addPolar('currentEastKn', 'currentNorthKn', get('current_speed'), get('current_to_direction'), 1);
  addPlain('waveHeightM', get('wave_height'));
  addPlain('wavePeriodSeconds', get('wave_period'));
  const waveDirection = get('wave_from_direction');
  if (waveDirection !== undefined) {
    const [i, j, read] = [slot('waveFromEast'), slot('waveFromNorth'), cell(waveDirection)];
    parts.push((cells, line) => {
      const angle = read(cells, line) * RAD_PER_DEG;
      values[i] = Math.sin(angle);
      values[j] = Math.cos(angle);
    });
  }
  return {
    fields,
    values,
    read(cells, line) {
      for (const part of parts) part(cells, line);
    },
  };
}

/** A latitude or longitude; NaN after a fault. */
export function readPlace(cell: string, column: NumberColumn, file: string, line: number, faults: FaultList): number {
  const value = Number(cell);
  if (value >= column.min && value <= column.max && cell.trim() !== '') return value;
  faults.add({ file, line, column: column.name, ...says.number(column.min, column.max, cell) });
  return Number.NaN;
}

function readQuantity(cell: string, column: NumberColumn, file: string, line: number, faults: FaultList): number {
  const value = +cell;
  // A cell of blanks is 0 to a number parser and nothing to a person.
  if (value >= column.min && value <= column.max && (value !== 0 || cell.includes('0'))) return value * column.factor;
  if (ABSENT_WORDS.has(cell.trim().toLowerCase())) return Number.NaN;
  if (FILL_VALUES.has(value) || (Math.abs(value) >= FILL_FROM && Number.isFinite(value))) return Number.NaN;
  faults.add({ file, line, column: column.name, ...says.number(column.min, column.max, cell) });
  return Number.NaN;
}
