// Extended and basic ISO 8601 calendar dates; the time to any part; Z or an offset.
const INSTANT =
  /^(\d{4})-?(\d{2})-?(\d{2})(?:[T ] *(\d{2})(?::?(\d{2})(?::?(\d{2})(?:[.,](\d{1,9}))?)?)?)?(Z|[+-]\d{2}(?::?\d{2})?)?$/i;
// Offsets run from −12:00 to +14:00.
const MAX_OFFSET_HOURS = 14;
/** No weather and no passage of ours is of other years; what is, is a slip or an absent value, and instants stay far from where dates end. */
export const [FIRST_YEAR, LAST_YEAR] = [1800, 2200];

/** What is wrong with the text of an instant. `unzoned`: neither Z nor an offset, so the instant is not known. */
export type InstantFlaw = 'unzoned' | 'malformed';

/**
 * Reads an instant in ISO 8601 with `Z` or an offset (`2018-10-06T20:00Z`, `2018-10-06 17:00-03:00`), in seconds since
 * 1970-01-01T00:00:00Z. A text without zone is refused: nothing here guesses that a time is UTC.
 * Dates that do not exist (30 February) and years outside 1800 to 2200 are malformed.
 */
export function parseInstant(text: string): number | InstantFlaw {
  const match = INSTANT.exec(text.trim());
  if (match === null) return 'malformed';
  const [, year, month, day, hour, minute = '0', second = '0', fraction = '0', zone] = match;
  const local = epochSecondsOf(
    Number(year),
    Number(month),
    Number(day),
    Number(hour ?? 0),
    Number(minute),
    Number(second),
  );
  const offsetSeconds = zone === undefined ? 0 : offsetSecondsOf(zone);
  if (local === undefined || offsetSeconds === undefined) return 'malformed';
  if (zone === undefined) return 'unzoned';
  return hour === undefined ? 'malformed' : local + Number(`0.${fraction}`) - offsetSeconds;
}

/** Reads an instant whose layout says that its times are UTC: a zone may be left out (`2018-10-06 18:00:00`). */
export function parseUtcInstant(text: string): number | InstantFlaw {
  const instant = parseInstant(text);
  return instant === 'unzoned'
    ? parseInstant(`${/\d[T ] *\d/.test(text) ? text.trim() : `${text.trim()}T00`}Z`)
    : instant;
}

/** Seconds since 1970 as ISO 8601 in UTC to the second: `2018-10-06T20:00:00Z`. */
export function isoUtc(epochSeconds: number): string {
  return `${new Date(Math.round(epochSeconds) * 1000).toISOString().slice(0, -'.000Z'.length)}Z`;
}

/** Undefined for a date or time that does not exist; 24:00 is the end of a day. */
function epochSecondsOf(
  year: number,
  month: number,
  day: number,
  hour: number,
  minute: number,
  second: number,
): number | undefined {
  if (year < FIRST_YEAR || year > LAST_YEAR || minute > 59 || second > 59) return undefined;
  if (hour > 24 || (hour === 24 && minute + second > 0)) return undefined;
  const midnight = new Date(Date.UTC(year, month - 1, day));
  // 30 February would come back as 1 or 2 March.
  if (midnight.getUTCMonth() !== month - 1 || midnight.getUTCDate() !== day) return undefined;
  return midnight.getTime() / 1000 + hour * 3600 + minute * 60 + second;
}

function offsetSecondsOf(zone: string): number | undefined {
  if (/^z$/i.test(zone)) return 0;
  const [hours, minutes] = [Number(zone.slice(1, 3)), Number(zone.slice(3).replace(':', '') || 0)];
  if (minutes > 59 || hours * 60 + minutes > MAX_OFFSET_HOURS * 60) return undefined;
  return (zone.startsWith('-') ? -1 : 1) * (hours * 3600 + minutes * 60);
}
