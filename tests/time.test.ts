import fc from 'fast-check';
import { DateTime } from 'luxon';
import { describe, expect, test } from 'vitest';
import { isoUtc, parseInstant, parseUtcInstant } from '../src/time.js';
import { wrap180, wrap360, wrapLon } from '../src/units.js';

describe('instants', () => {
  test('the suite really runs in the zone it is told', () => {
    const isChatham = process.env.TZ === 'Pacific/Chatham';
    expect(new Date(0).getTimezoneOffset()).toBe(isChatham ? -765 : 0);
  });

  // Traps of ISO 8601 as Node reads it: local time without an offset, dates that roll over silently.
  test.each([
    ['2018-10-06T20:00Z', Date.UTC(2018, 9, 6, 20)],
    ['2018-10-06 20:00:00Z', Date.UTC(2018, 9, 6, 20)],
    ['2018-10-06T17:00-03:00', Date.UTC(2018, 9, 6, 20)],
    ['2018-10-07T09:45+1345', Date.UTC(2018, 9, 6, 20)],
    ['2024-12-21T24:00:00Z', Date.UTC(2024, 11, 22)],
    ['20241221T000000Z', Date.UTC(2024, 11, 21)],
  ])('%s is read', (text, milliseconds) => {
    expect(parseInstant(text)).toBe(milliseconds / 1000);
  });

  test.each(['2024-12-21', '2024-12-21T00:00', '2024-12-21 00:00:00', '20241221T0000'])('%s states no zone', (text) => {
    expect(parseInstant(text)).toBe('unzoned');
  });

  test.each([
    '',
    'noon',
    '2023-02-29T00:00Z',
    '2024-13-01T00:00Z',
    '2024-12-21T25:00Z',
    '0001-01-01T00:00Z',
    '9999-01-01T00:00Z',
    '1544140800',
  ])('%s is no instant', (text) => {
    expect(parseInstant(text)).toBe('malformed');
  });

  // luxon reads ISO 8601 by itself and knows nothing of this code.
  test('whatever the digits, an instant is what luxon makes of it', () => {
    const two = (max: number) => fc.integer({ min: 0, max }).map((value) => `${value}`.padStart(2, '0'));
    const zone = fc.oneof(
      fc.constantFrom('Z', 'z', '+00', '-0330', '+05:45', '-12:00', '+14:00'),
      fc.tuple(fc.constantFrom('+', '-'), two(14), fc.constantFrom('', ':'), two(59)).map((parts) => parts.join('')),
    );
    const text = fc
      .tuple(fc.integer({ min: 1750, max: 2250 }), two(13), two(32), two(25), two(61), two(61), fc.nat(999), zone)
      .chain(([y, mo, d, h, mi, s, ms, z]) =>
        fc.constantFrom(
          `${y}-${mo}-${d}T${h}:${mi}${z}`,
          `${y}-${mo}-${d} ${h}:${mi}:${s}${z}`,
          `${y}-${mo}-${d}T${h}:${mi}:${s}.${`${ms}`.padStart(3, '0')}${z}`,
          `${y}${mo}${d}T${h}${mi}${s}${z}`,
        ),
      );
    fc.assert(
      fc.property(text, (given) => {
        const truth = DateTime.fromISO(given.replace(' ', 'T'), { zone: 'utc' });
        const offset = /([+-]\d\d):?(\d\d)?$/.exec(given.slice(10));
        const isOffset = offset === null || Math.abs(Number(offset[1])) * 60 + Number(offset[2] ?? 0) <= 840;
        const isKnown =
          truth.isValid && isOffset && Number(given.slice(0, 4)) >= 1800 && Number(given.slice(0, 4)) <= 2200;
        expect(parseInstant(given)).toBe(isKnown ? truth.toSeconds() : 'malformed');
      }),
      { numRuns: 5000, seed: 20261125 },
    );
  });

  test('where a layout says UTC a zone may be left out', () => {
    const truth = Date.UTC(2018, 9, 6, 18) / 1000;
    expect(parseUtcInstant('2018-10-06 18:00:00')).toBe(truth);
    expect(parseUtcInstant('2018-10-06T20:00+02:00')).toBe(truth);
    expect(parseUtcInstant('2018-10-06')).toBe(truth - 18 * 3600);
    expect(parseUtcInstant('6 October')).toBe('malformed');
  });

  test('an instant is written in UTC to the second', () => {
    expect(isoUtc(Date.UTC(2027, 0, 11, 12) / 1000 + 0.4)).toBe('2027-01-11T12:00:00Z');
  });
});

describe('angles', () => {
  test('wrap360, wrap180 and wrapLon keep their ends', () => {
    expect([-10, 360, 725, -1e-15, 0].map(wrap360)).toEqual([350, 0, 5, 0, 0]);
    expect([180, -180, 190, 540, -190].map(wrap180)).toEqual([180, 180, -170, 180, 170]);
    expect([180, -180, 190, 359.5, -181].map(wrapLon)).toEqual([-180, -180, -170, -0.5, 179]);
  });
});
