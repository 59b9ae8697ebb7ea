import type { Hour } from '../../passage/passage.js';
import { parseInstant } from '../../time.js';
import { zoneClock, zoneLabel } from '../../zoneTime.js';

export const DAY_SECONDS = 86_400;

/** `2027-01-11 17:00` of an instant in ISO, UTC. */
export const whenText = (iso: string) => iso.slice(0, 16).replace('T', ' ');

/** `12 Jan` of an ISO date. */
export const dayText = (iso: string) => `${Number(iso.slice(8, 10))} ${monthName(iso)}`;

/** `Jan` of an ISO date. */
export const monthName = (iso: string) => MONTHS[Number(iso.slice(5, 7)) - 1] ?? '';

const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

/** Each row of a log with its span in epoch seconds. */
export const spansOf = (hours: readonly Hour[]) =>
  hours.map((hour, row) => {
    const from = parseInstant(hour.time) as number;
    return { hour, row, from, to: from + hour.minutes * 60 };
  });

/** `Jan` of the month `01`; another name stays as it is. */
export const nameOfMonth = (month: string) => (/^\d{2}$/.test(month) ? (MONTHS[Number(month) - 1] ?? month) : month);

/** Hours, to a tenth where they are few. */
export const hoursText = (hours: number) => `${hours.toFixed(hours < 9.95 ? 1 : 0)} h`;

/** What stands where a chart of a log without rows would. */
export const NOTHING_SAILED = 'Nothing was sailed.';

/** `2027-01-17 07:00 UTC-2`: when a row of the log begins by the ship's clock. */
export function shipsTime({ time, zoneHours }: Hour): string {
  const { date, clock } = zoneClock(parseInstant(time) as number, zoneHours);
  return `${date} ${clock} ${zoneLabel(zoneHours)}`;
}
