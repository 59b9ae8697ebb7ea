import { isoUtc } from './time.js';
import { wrapLon } from './units.js';

/** What the clocks of one zone show. */
export interface ZoneClock {
  /** `2027-01-11`, of the zone and not of Greenwich. */
  readonly date: string;
  /** `09:05`, to the nearest minute. */
  readonly clock: string;
  /** Minutes since the zone's midnight, whole, 0 to 1439. */
  readonly minutesOfDay: number;
}

const DEG_PER_HOUR = 15;
const MINUTE_SECONDS = 60;
const DAY_MINUTES = 1440;

/**
 * Hours to add to UTC for the nautical zone time of a longitude, −12 to 12, east positive: each zone reaches 7.5° to both
 * sides of a meridian of a multiple of 15°, and the zone about 180° is cut by the date line into 12 (east longitude) and −12
 * (west, and 180° itself). Half-way between two meridians it is the eastern zone's. No frontiers, no summer time.
 * Common practice at sea. The zone description of navigators has the other sign: it is added to zone time to give UTC.
 *
 * @example
 * zoneHoursAt(-38.2) // -3 */
export function zoneHoursAt(lonDeg: number): number {
  // Rounding goes up, which is east, from half-way; adding 0 turns −0 into 0.
  return Math.round(wrapLon(lonDeg) / DEG_PER_HOUR) + 0;
}

/**
 * `UTC-3`, `UTC`, `UTC+11`: a zone by the hours it is ahead of UTC.
 * @example
 * zoneLabel(-3) // 'UTC-3'
 */
export function zoneLabel(zoneHours: number): string {
  if (zoneHours === 0) return 'UTC';
  return `UTC${zoneHours > 0 ? '+' : ''}${zoneHours}`;
}

/**
 * Date and clock of an instant in a zone some hours ahead of UTC, to the nearest minute, half a minute upwards: 23:59:30 is
 * 00:00 of the next day.
 * @throws RangeError where the instant is no number
 *
 * @example
 * zoneClock(1799712000, -3) // { date: '2027-01-11', clock: '21:00', minutesOfDay: 1260 } */
export function zoneClock(epochSeconds: number, zoneHours: number): ZoneClock {
  const local = isoUtc(zoneMinute(epochSeconds, zoneHours) * MINUTE_SECONDS);
  return {
    date: local.slice(0, 10),
    clock: local.slice(11, 16),
    minutesOfDay: zoneMinutesOfDay(epochSeconds, zoneHours),
  };
}

/** Minutes since midnight by the clock of `zoneClock`, where nothing else of it is wanted. */
export function zoneMinutesOfDay(epochSeconds: number, zoneHours: number): number {
  return ((zoneMinute(epochSeconds, zoneHours) % DAY_MINUTES) + DAY_MINUTES) % DAY_MINUTES;
}

/** Minutes since 1970 by the zone's clock. */
const zoneMinute = (epochSeconds: number, zoneHours: number) =>
  Math.round(epochSeconds / MINUTE_SECONDS) + zoneHours * 60;
