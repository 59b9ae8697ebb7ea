import { describe, expect, test } from 'vitest';
import { daylightAt, type SunTimes, sunTimesAt } from '../src/index.js';
import { expectNear, fixture } from './truth/fixture.js';
import sun from './truth/sun.json' with { type: 'json' };

const truth = fixture('sun.json', sun);

const HOUR = 3600;
const MINUTE = 60;
const secondsOf = (iso: string) => Date.parse(iso) / 1000;

interface SunUp {
  readonly latDeg: number;
  readonly lonDeg: number;
  readonly sunrise: string;
  readonly sunset: string;
}

function expectTimes(times: SunTimes, row: SunUp, toleranceSeconds: number) {
  expect(times.allDay).toBeUndefined();
  expectNear(times.sunriseEpochSeconds ?? Number.NaN, secondsOf(row.sunrise), toleranceSeconds, 'sunrise');
  expectNear(times.sunsetEpochSeconds ?? Number.NaN, secondsOf(row.sunset), toleranceSeconds, 'sunset');
}

function expectDaylightBetween({ latDeg, lonDeg, sunrise, sunset }: SunUp) {
  const [rise, set] = [secondsOf(sunrise), secondsOf(sunset)];
  const lightAt = (epochSeconds: number) => daylightAt(epochSeconds, latDeg, lonDeg);
  expect([rise - MINUTE, rise + MINUTE, set - MINUTE, set + MINUTE].map(lightAt)).toEqual([false, true, true, false]);
  expect([rise - HOUR, (rise + set) / 2, set + HOUR].map(lightAt)).toEqual([false, true, false]);
}

const middleOf = (row: SunUp) => (secondsOf(row.sunrise) + secondsOf(row.sunset)) / 2;

describe('sunrise and sunset', () => {
  test('58 latitudes of the table of sunrises, 12 places at sea', () => {
    expect([sun.quae.rows.length, sun.ocean.rows.length]).toEqual([58, 12]);
  });

  truth.each('ocean', 'at sea', (row, { tolerance }) => {
    const noon = secondsOf(row.noon);
    // Whatever instant of the solar day is asked about: the equation of time moves its ends by 16 minutes at most.
    for (const instant of [noon, noon - 11 * HOUR, noon + 11 * HOUR]) {
      const times = sunTimesAt(instant, row.latDeg, row.lonDeg);
      if (row.allDay !== undefined) expect(times).toEqual({ allDay: row.allDay });
      else expectTimes(times, row, tolerance.seconds);
    }
  });

  truth.each('ocean', 'daylight at sea', (row) => {
    if (row.allDay === undefined) return expectDaylightBetween(row);
    const noon = secondsOf(row.noon);
    const light = [noon - 12 * HOUR, noon - 6 * HOUR, noon, noon + 6 * HOUR].map((instant) =>
      daylightAt(instant, row.latDeg, row.lonDeg),
    );
    expect(light).toEqual(light.map(() => row.allDay === 'up'));
  });

  truth.each('spaTable', 'printed to a tenth of a second', (row, { tolerance }) => {
    expectTimes(sunTimesAt(middleOf(row), row.latDeg, row.lonDeg), row, tolerance.seconds);
    expectDaylightBetween(row);
  });

  truth.each('spaExample', 'worked example', (row, { tolerance }) => {
    expectTimes(sunTimesAt(middleOf(row), row.latDeg, row.lonDeg), row, tolerance.seconds);
    expectDaylightBetween(row);
  });

  truth.each('quae', 'table of sunrises', (row, { date, tolerance }) => {
    const sunrise = secondsOf(`${date}T${row.sunrise}Z`);
    const times = sunTimesAt(secondsOf(`${date}T12:00Z`), row.latDeg, 0);
    expectNear(times.sunriseEpochSeconds ?? Number.NaN, sunrise, tolerance.seconds, `sunrise at ${row.latDeg}`);
  });

  truth.each('observed', 'seen at sea', (row, { tolerance }) => {
    const sunset = secondsOf(row.sunset);
    const times = sunTimesAt(sunset - HOUR, row.latDeg, row.lonDeg);
    expectNear(times.sunsetEpochSeconds ?? Number.NaN, sunset, tolerance.seconds, 'sunset');
  });
});
