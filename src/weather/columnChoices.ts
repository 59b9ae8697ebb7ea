import { QUANTITIES, type Quantity } from './quantities.js';

/** A quantity, or the time, place, run, member or month, and the column that holds it in a file: `water_u` in `m/s`. */
export interface ColumnChoice {
  readonly name: string;
  readonly unit?: string;
}

/** What may be found under another name. */
export type ColumnRole = Quantity | 'time' | 'run_time' | 'month' | 'lat' | 'lon' | 'member';

export const COLUMN_ROLES: readonly ColumnRole[] = [...QUANTITIES, 'time', 'run_time', 'month', 'lat', 'lon', 'member'];

/** Columns by what they hold, where a file calls them otherwise than the plain layout and the known publishers do. */
export type ColumnChoices = Readonly<Partial<Record<ColumnRole, ColumnChoice>>>;

/** Whether two texts name the same column: case and blanks around do not count. */
export const isSameName = (one: string, other: string) => one.trim().toLowerCase() === other.trim().toLowerCase();
