import { textCell } from '../csv/csv.js';
import { wrap180, wrap360, wrapLon } from '../units.js';

export { positionText as position } from '../geo/geo.js';

/** A number with so many decimals; never "-0.000". */
export function fixed(value: number, decimals: number): string {
  const text = value.toFixed(decimals);
  return Number(text) === 0 ? (0).toFixed(decimals) : text;
}

/** Speeds and distances: 3 decimals. Null is empty. */
export const amount = (value: number | null) => (value === null ? '' : fixed(value, 3));

/** A direction, 2 decimals; 359.999 is 0.00 and not 360.00. */
export const direction = (value: number | null) => (value === null ? '' : fixed(wrap360(Number(value.toFixed(2))), 2));

/** An angle off the bow, 2 decimals, −180 < x ≤ 180 also after rounding. */
export const offBow = (value: number | null) => (value === null ? '' : fixed(wrap180(Number(value.toFixed(2))), 2));

/** A latitude, 5 decimals. */
export const latitude = (value: number) => fixed(value, 5);

/** A longitude, 5 decimals, −180 ≤ x < 180 also after rounding. */
export const longitude = (value: number) => fixed(wrapLon(Number(value.toFixed(5))), 5);

/** True and false as 1 and 0. */
export const flag = (value: boolean) => (value ? '1' : '0');

/** A text as a cell of a CSV; null is empty. */
export const text = (value: string | null) => (value === null ? '' : textCell(value));

const DECIMALS = 6;

/** For `JSON.stringify`: numbers to 6 decimals, so that the same record is the same bytes everywhere. */
export const rounded = (_: string, value: unknown): unknown =>
  typeof value === 'number' ? Number(value.toFixed(DECIMALS)) + 0 : value;

/** `9 d 4 h 12 min`. */
export function duration(hours: number): string {
  const minutes = Math.round(hours * 60);
  const [days, rest] = [Math.floor(minutes / 1440), minutes % 1440];
  return `${days > 0 ? `${days} d ` : ''}${Math.floor(rest / 60)} h ${`${rest % 60}`.padStart(2, '0')} min`;
}

/** What money is in where the boat file has prices and does not say in what. */
export const UNNAMED_CURRENCY = 'in the currency of your prices';

/** A number to two digits: more than the constants of wear deserve. */
export const twoDigits = (value: number): number => Number(value.toPrecision(2));

/** A range, or any numbers by name, to two digits. */
export const inTwoDigits = <Range extends object | null>(range: Range): Range =>
  (range && Object.fromEntries(Object.entries(range).map(([name, value]) => [name, twoDigits(value)]))) as Range;
