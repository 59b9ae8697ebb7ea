import { InputError } from '../errors.js';
import { checkTypes } from '../given.js';
import { isoUtc } from '../time.js';
import { says } from '../wording.js';

/**
 * Starts every so many hours from the first to the last instant, both among them where they fall on it; ISO 8601 in UTC.
 * @throws InputError where an instant or the hours are none
 * @example
 * startsOf(Date.UTC(2027, 0, 11) / 1000, Date.UTC(2027, 0, 12) / 1000, 12)
 * // ['2027-01-11T00:00:00Z', '2027-01-11T12:00:00Z', '2027-01-12T00:00:00Z']
 */
export function startsOf(fromEpochSeconds: number, toEpochSeconds: number, everyHours: number): readonly string[] {
  const given = { fromEpochSeconds, toEpochSeconds, everyHours };
  checkTypes(given, { fromEpochSeconds: 'number', toEpochSeconds: 'number', everyHours: 'number' }, 'starts');
  if (!(everyHours > 0))
    throw new InputError([
      { file: 'starts', path: 'everyHours', ...says.wrongValue('more than 0', String(everyHours)) },
    ]);
  const count = Math.floor((toEpochSeconds - fromEpochSeconds) / (everyHours * 3600) + 1e-9) + 1;
  return Array.from({ length: Math.max(0, count) }, (_, n) => isoUtc(fromEpochSeconds + n * everyHours * 3600));
}
