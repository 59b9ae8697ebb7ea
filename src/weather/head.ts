import { LAT_NAMES, LON_NAMES, TIME_NAMES } from './aliases.js';

/** The head of a forecast: names of columns, units stated in brackets behind them or in a row below. */
export interface Head {
  readonly names: readonly string[];
  readonly units: readonly (string | undefined)[];
  readonly line: number;
  /** The row of units, where there is one. */
  readonly unitsLine?: number;
}

/** The head of a forecast from its first row, and the second where that is a row of units. */
export function headOf(
  first: readonly string[],
  second: readonly string[] | undefined,
  line: number,
  secondLine: number,
): Head {
  const bracketed = first.map((cell) => /^(.*\S)\s*[([]([^()[\]]*)[)\]]$/.exec(cell.trim()));
  const names = first.map((cell, i) => (bracketed[i]?.[1] ?? cell).trim().toLowerCase());
  const hasUnitsRow = second !== undefined && isUnitsRow(names, second);
  const stated = (i: number) => (hasUnitsRow ? second[i]!.trim() : bracketed[i]?.[2]?.trim());
  const units = names.map((_, i) => (/^1?$/.test(stated(i) ?? '') ? undefined : stated(i)));
  return { names, units, line, ...(hasUnitsRow ? { unitsLine: secondLine } : {}) };
}

/** Whether a row holds units: words where place and time would be, as `UTC,degrees_north,degrees_east,m s-1`. */
function isUnitsRow(names: readonly string[], cells: readonly string[]): boolean {
  if (cells.length !== names.length) return false;
  const cellOf = (known: readonly string[]) => cells[names.findIndex((name) => known.includes(name))]?.trim() ?? '';
  const [time, lat, lon] = [cellOf(TIME_NAMES), cellOf(LAT_NAMES), cellOf(LON_NAMES)];
  return [lat, lon].every((cell) => /^deg|^$/i.test(cell)) && (/^utc$|since/i.test(time) || lat !== '');
}
