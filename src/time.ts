import { DateTime } from 'luxon';

const DATE = /^\d{4}-?\d{2}-?\d{2}(?:T|$)/;
// Offsets run from −12:00 to +14:00; a library that reads +25:00 would shift the time by a day without a word.
const UTC_STATED = /(?:Z|[+-](?:0\d|1[0-4])(?::?[0-5]\d)?)$/i;
const ANY_OFFSET = /T.*[+-]\d{2}(?::?\d{2})?$/;
const FIRST_YEAR = 1800;
const LAST_YEAR = 2200;

/** What is wrong with the text of an instant. `unzoned`: neither Z nor an offset, so the instant is not known. */
export type InstantFlaw = 'unzoned' | 'malformed';

/**
 * Reads an instant in ISO 8601 with `Z` or an offset (`2018-10-06T20:00Z`, `2018-10-06 17:00-03:00`), in seconds since
 * 1970-01-01T00:00:00Z. A text without zone is refused: nothing here guesses that a time is UTC.
 * Dates that do not exist (30 February) and years outside 1800 to 2200 are malformed.
 */
export function parseInstant(text: string): number | InstantFlaw {
  const trimmed = text.trim();
  const iso = trimmed.replace(/^(\d{4}-\d{2}-\d{2}) +(\d)/, '$1T$2');
  if (!DATE.test(iso) || (ANY_OFFSET.test(iso) && !UTC_STATED.test(iso))) return 'malformed';
  if (!iso.includes('T') || !UTC_STATED.test(iso)) {
    return DateTime.fromISO(iso, { zone: 'utc' }).isValid ? 'unzoned' : 'malformed';
  }
  const instant = DateTime.fromISO(iso, { zone: 'utc' });
  if (!instant.isValid || instant.year < FIRST_YEAR || instant.year > LAST_YEAR) return 'malformed';
  return instant.toSeconds();
}

/** Seconds since 1970 as ISO 8601 in UTC to the second: `2018-10-06T20:00:00Z`. */
export function isoUtc(epochSeconds: number): string {
  const text = DateTime.fromSeconds(Math.round(epochSeconds), { zone: 'utc' }).toISO({ suppressMilliseconds: true });
  if (text === null) throw new RangeError(`not an instant: ${epochSeconds}`);
  return text;
}
