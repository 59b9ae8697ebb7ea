import {
  Body,
  Equator,
  Horizon,
  Illumination,
  MakeTime,
  NextMoonQuarter,
  Observer,
  SearchAltitude,
  SearchMoonQuarter,
  SearchRiseSet,
} from 'astronomy-engine';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  daylightAt,
  moonAt,
  moonTimesAt,
  sunTimesAt,
  twilightAt,
  zoneClock,
  zoneHoursAt,
  zoneLabel,
} from '../src/index.js';
import { MOON_PHASES } from '../src/sun/sun.js';
import { expectNear } from './truth/fixture.js';

const MINUTE = 60;
const HOUR = 3600;
const DAY = 86_400;
const CIVIL_DEG = -6;
const secondsOf = (iso: string) => Date.parse(iso) / 1000;
const dateOf = (epochSeconds: number) => new Date(epochSeconds * 1000);
const secondsAt = (time: { readonly date: Date } | null) => (time === null ? undefined : time.date.getTime() / 1000);

const PLACES: readonly (readonly [name: string, latDeg: number, lonDeg: number])[] = [
  ['equatorial Atlantic', 0, -30],
  ['trades of the Atlantic', 15, -50],
  ['Canaries', 28, -15.4],
  ['Azores', 38.5, -28.6],
  ['western approaches', 49, -8],
  ['off Iceland', 60, -20],
  ['Norwegian Sea', 70, 5],
  ['Arctic Ocean', 80, 10],
  ['Indian Ocean', -15, 75],
  ['Southern Ocean', -50, 100],
  ['date line', -18, 179.9],
  ['Weddell Sea', -68, -40],
];
const DATES = [
  '2025-03-20',
  '2025-06-21',
  '2025-09-05',
  '2025-11-12',
  '2026-01-03',
  '2026-02-15',
  '2026-05-01',
  '2028-02-29',
];
const DAYS = PLACES.flatMap(([name, latDeg, lonDeg]) => DATES.map((date) => ({ name, latDeg, lonDeg, date })));

/** Midnight and midday by local mean solar time. */
const midnightOf = ({ date, lonDeg }: { readonly date: string; readonly lonDeg: number }) =>
  secondsOf(`${date}T00:00Z`) - lonDeg * 240;
const middayOf = (day: { readonly date: string; readonly lonDeg: number }) => midnightOf(day) + DAY / 2;

const observerAt = (latDeg: number, lonDeg: number) => new Observer(latDeg, lonDeg, 0);

/** Altitude of a body's centre seen from the surface, without refraction or with the almanac's. */
function almanacAltitudeDeg(body: Body, epochSeconds: number, latDeg: number, lonDeg: number, refraction?: 'normal') {
  const [observer, date] = [observerAt(latDeg, lonDeg), dateOf(epochSeconds)];
  const { ra, dec } = Equator(body, date, observer, true, true);
  return Horizon(date, observer, ra, dec, refraction).altitude;
}

const anyLat = fc.double({ min: -89, max: 89, noNaN: true });
// Nearer to a pole the times of a slanting sun come from too few steps to keep their order.
const sailedLat = fc.double({ min: -75, max: 75, noNaN: true });
const anyLon = fc.double({ min: -180, max: 180, noNaN: true, maxExcluded: true });
const anyInstant = fc.integer({ min: secondsOf('2000-01-01T00:00Z'), max: secondsOf('2049-12-31T00:00Z') });

describe('civil twilight', () => {
  test.each(DAYS)('$name, $date, against the almanac', (day) => {
    const { latDeg, lonDeg } = day;
    const midday = middayOf(day);
    const from = MakeTime(dateOf(midday));
    // Backwards and forwards from midday: far north a dusk can fall after midnight.
    const crossing = (way: 1 | -1) =>
      secondsAt(SearchAltitude(Body.Sun, observerAt(latDeg, lonDeg), way, from, -0.55 * way, CIVIL_DEG));
    const [dawn, dusk] = [crossing(1), crossing(-1)];
    const times = twilightAt(midday, latDeg, lonDeg);
    if (dawn === undefined || dusk === undefined) {
      expect([dawn, dusk]).toEqual([undefined, undefined]);
      const isLight = almanacAltitudeDeg(Body.Sun, midday, latDeg, lonDeg) > CIVIL_DEG;
      return expect(times).toEqual({ allDay: isLight ? 'light' : 'dark' });
    }
    // At a slant a hundredth of a degree takes longer.
    const tolerance = Math.abs(latDeg) <= 60 ? 10 : 30;
    expect(times.allDay).toBeUndefined();
    expectNear(times.dawnEpochSeconds ?? Number.NaN, dawn, tolerance, 'dawn');
    expectNear(times.duskEpochSeconds ?? Number.NaN, dusk, tolerance, 'dusk');
  });

  test('the days hold all that can happen', () => {
    const kinds = DAYS.map((day) => twilightAt(middayOf(day), day.latDeg, day.lonDeg).allDay);
    expect(new Set(kinds)).toEqual(new Set([undefined, 'light', 'dark']));
  });

  test('by the pole the sun can be down all day and no day dark', () => {
    const noon = secondsOf('2026-09-28T12:00Z');
    expect(sunTimesAt(noon, 89, 0)).toEqual({ allDay: 'down' });
    expect(twilightAt(noon, 89, 0)).toEqual({ allDay: 'light' });
  });

  test('whatever instant of a solar day is asked about, the twilights are the same and lie around the sun’s', () => {
    fc.assert(
      fc.property(
        anyInstant,
        sailedLat,
        anyLon,
        fc.double({ min: -11.9, max: 11.9, noNaN: true }),
        (at, lat, lon, apart) => {
          const midday = Math.floor((at + lon * 240) / DAY) * DAY + DAY / 2 - lon * 240;
          const [twilight, sun] = [twilightAt(midday, lat, lon), sunTimesAt(midday, lat, lon)];
          expect(twilightAt(midday + apart * HOUR, lat, lon)).toEqual(twilight);
          const [dawn, dusk] = [twilight.dawnEpochSeconds, twilight.duskEpochSeconds];
          expect([dawn === undefined, dusk === undefined]).toEqual(Array(2).fill(twilight.allDay !== undefined));
          if (dawn === undefined || dusk === undefined) return;
          expect(dawn).toBeLessThan(dusk);
          expect(sun.allDay).not.toBe('up');
          expect(dawn).toBeLessThan(sun.sunriseEpochSeconds ?? Number.POSITIVE_INFINITY);
          expect(dusk).toBeGreaterThan(sun.sunsetEpochSeconds ?? Number.NEGATIVE_INFINITY);
          expect([dawn, dusk].map((time) => daylightAt(time, lat, lon))).toEqual([false, false]);
        },
      ),
      { numRuns: 1000 },
    );
  });
});

describe('the moon', () => {
  const FIRST = secondsOf('2026-01-01T00:00Z');
  const TWO_YEARS = Array.from({ length: 2 * 365 * 8 }, (_, k) => FIRST + k * 3 * HOUR);

  test('how much is lit, through two years', () => {
    for (const at of TWO_YEARS) {
      expectNear(moonAt(at, 0, 0).illuminatedShare, Illumination(Body.Moon, dateOf(at)).phase_fraction, 2e-4, `${at}`);
    }
  });

  // The names change at odd multiples of 22.5° of the angle between sun and earth seen from the moon.
  test('the names follow one another, and change at their angles, through two years', () => {
    const nameAt = (at: number) => MOON_PHASES.indexOf(moonAt(at, 0, 0).phase);
    let changes = 0;
    for (const [i, at] of TWO_YEARS.entries()) {
      const [before, after] = [nameAt(at - 3 * HOUR), nameAt(at)];
      if (i === 0 || before === after) continue;
      changes += 1;
      expect(after).toBe((before + 1) % MOON_PHASES.length);
      let [early, late] = [at - 3 * HOUR, at];
      while (late - early > 1) {
        const middle = (early + late) / 2;
        if (nameAt(middle) === before) early = middle;
        else late = middle;
      }
      const angleDeg = Math.abs(180 - 45 * (before + 0.5));
      expectNear(Illumination(Body.Moon, dateOf(late)).phase_angle, angleDeg, 0.02, `${MOON_PHASES[after]}`);
    }
    // 24.7 cycles of 29.53 days.
    expect(changes).toBeGreaterThanOrEqual(196);
    expect(changes).toBeLessThanOrEqual(199);
  });

  test('a principal phase is named a day and a half before and after its instant, and no more three days off', () => {
    const names = ['new', 'first quarter', 'full', 'last quarter'];
    let quarter = SearchMoonQuarter(dateOf(FIRST));
    for (let k = 0; k < 99; k += 1, quarter = NextMoonQuarter(quarter)) {
      const at = secondsAt(quarter.time)!;
      const phasesAt = (days: readonly number[]) => days.map((day) => moonAt(at + day * DAY, 0, 0).phase);
      expect(phasesAt([-1.5, 0, 1.5])).toEqual(Array(3).fill(names[quarter.quarter]));
      for (const phase of phasesAt([-3, 3])) expect(phase).not.toBe(names[quarter.quarter]);
    }
  });

  test('the share that is lit is within what its name says', () => {
    const RANGES = {
      new: [0, 0.04],
      full: [0.96, 1],
      quarter: [0.3, 0.7],
      crescent: [0.03, 0.31],
      gibbous: [0.69, 0.97],
    };
    fc.assert(
      fc.property(anyInstant, anyLat, anyLon, (at, lat, lon) => {
        const { illuminatedShare, phase } = moonAt(at, lat, lon);
        const [low, high] = RANGES[phase.split(' ').at(-1) as keyof typeof RANGES] as [number, number];
        expect(illuminatedShare).toBeGreaterThanOrEqual(low);
        expect(illuminatedShare).toBeLessThanOrEqual(high);
      }),
    );
  });

  test('how high she stands', () => {
    fc.assert(
      fc.property(anyInstant, anyLat, anyLon, (at, lat, lon) => {
        const { altitudeDeg, up } = moonAt(at, lat, lon);
        const almanacDeg = almanacAltitudeDeg(Body.Moon, at, lat, lon, 'normal');
        // Refraction near and below the horizon differs by a tenth of a degree from one formula to another.
        expectNear(altitudeDeg, almanacDeg, almanacDeg > 1 ? 0.03 : 0.5, 'altitude');
        if (Math.abs(altitudeDeg) > 0.5) expect(up).toBe(altitudeDeg > 0);
      }),
      { numRuns: 1000 },
    );
  });

  test.each(DAYS)('moonrise and moonset, $name, $date and the month after, against the almanac', (day) => {
    const { latDeg, lonDeg } = day;
    for (let k = 0; k < 30; k += 1) {
      const midnight = midnightOf(day) + k * DAY;
      const crossing = (way: 1 | -1) =>
        secondsAt(SearchRiseSet(Body.Moon, observerAt(latDeg, lonDeg), way, MakeTime(dateOf(midnight)), 1));
      const [rise, set] = [crossing(1), crossing(-1)];
      const times = moonTimesAt(midnight + DAY / 2, latDeg, lonDeg);
      const tolerance = Math.abs(latDeg) <= 60 ? 10 : 60;
      // What moonTimesAt says it may miss: far north and south, a moon that shows or hides for less than an hour.
      if (times.allDay !== undefined && rise !== undefined && set !== undefined) {
        expect(Math.abs(latDeg)).toBeGreaterThan(60);
        expectNear(rise, set, HOUR, 'a short show');
        continue;
      }
      const given = [times.moonriseEpochSeconds, times.moonsetEpochSeconds].map((time) => time !== undefined);
      expect(given).toEqual([rise !== undefined, set !== undefined]);
      expectNear(times.moonriseEpochSeconds ?? 0, rise ?? 0, tolerance, 'moonrise');
      expectNear(times.moonsetEpochSeconds ?? 0, set ?? 0, tolerance, 'moonset');
      const isUp = almanacAltitudeDeg(Body.Moon, midnight + DAY / 2, latDeg, lonDeg, 'normal') > -0.3;
      expect(times.allDay).toBe((rise ?? set) ? undefined : isUp ? 'up' : 'down');
    }
  });

  test('she is up from her rising to her setting, all of them within the solar day', () => {
    fc.assert(
      fc.property(anyInstant, anyLat, anyLon, (at, lat, lon) => {
        const times = moonTimesAt(at, lat, lon);
        const [rise, set] = [times.moonriseEpochSeconds, times.moonsetEpochSeconds];
        const upAt = (time: number) => moonAt(time, lat, lon).up;
        const dayOf = (time: number) => Math.floor((time + lon * 240) / DAY);
        if (rise !== undefined) expect([upAt(rise - 1), upAt(rise + 1), dayOf(rise)]).toEqual([false, true, dayOf(at)]);
        if (set !== undefined) expect([upAt(set - 1), upAt(set + 1), dayOf(set)]).toEqual([true, false, dayOf(at)]);
        expect(times.allDay !== undefined).toBe(rise === undefined && set === undefined);
        const midnight = dayOf(at) * DAY - lon * 240;
        if (times.allDay !== undefined) expect(upAt(midnight)).toBe(times.allDay === 'up');
      }),
      { numRuns: 500 },
    );
  });
});

describe('zone time', () => {
  test.each([
    [0, 0],
    [-7.4, 0],
    [7.4, 0],
    [-38.2, -3],
    [-61, -4],
    [172.4, 11],
    [179.9, 12],
    [-179.9, -12],
    [-180, -12],
    [180, -12],
    [190, -11],
    // Half-way, the eastern zone.
    [7.5, 1],
    [-7.5, 0],
    [-22.5, -1],
    [172.5, 12],
    [-172.5, -11],
  ])('in longitude %s the clock is %s hours ahead of UTC', (lonDeg, hours) => {
    expect(zoneHoursAt(lonDeg)).toBe(hours);
  });

  test('labels', () => {
    expect([-12, -3, 0, -0, 1, 11].map(zoneLabel)).toEqual(['UTC-12', 'UTC-3', 'UTC', 'UTC', 'UTC+1', 'UTC+11']);
  });

  test.each([
    ['2027-01-12T00:00:00Z', -3, '2027-01-11', '21:00'],
    ['2027-01-11T23:59:29Z', 0, '2027-01-11', '23:59'],
    ['2027-01-11T23:59:30Z', 0, '2027-01-12', '00:00'],
    ['2028-02-28T14:05:00Z', 10, '2028-02-29', '00:05'],
    ['2027-01-01T11:59:00Z', -12, '2026-12-31', '23:59'],
    ['1969-12-31T23:00:00Z', 0, '1969-12-31', '23:00'],
  ])('%s in zone %s', (iso, hours, date, clock) => {
    const minutesOfDay = Number(clock.slice(0, 2)) * 60 + Number(clock.slice(3));
    expect(zoneClock(secondsOf(iso), hours)).toEqual({ date, clock, minutesOfDay });
  });

  test('a clock is never more than 32 minutes off local mean solar time', () => {
    fc.assert(
      fc.property(anyInstant, anyLon, (at, lon) => {
        const zoneHours = zoneHoursAt(lon);
        expect(Math.abs(zoneHours)).toBeLessThanOrEqual(12);
        const { date, clock } = zoneClock(at, zoneHours);
        expectNear(secondsOf(`${date}T${clock}Z`), at + lon * 240, 32 * MINUTE, 'mean solar time');
      }),
    );
  });

  test('date, clock and zone give the instant back, to half a minute', () => {
    fc.assert(
      fc.property(anyInstant, fc.integer({ min: -12, max: 12 }), (at, zoneHours) => {
        const { date, clock, minutesOfDay } = zoneClock(at, zoneHours);
        expectNear(secondsOf(`${date}T${clock}Z`) - zoneHours * HOUR, at, 30, 'instant');
        expect(secondsOf(`${date}T00:00Z`) + minutesOfDay * MINUTE).toBe(secondsOf(`${date}T${clock}Z`));
      }),
    );
  });

  test('either side of the date line the clocks agree and the dates are a day apart', () => {
    fc.assert(
      fc.property(anyInstant, fc.double({ min: 0.001, max: 7.4, noNaN: true }), (at, offDeg) => {
        const [west, east] = [zoneClock(at, zoneHoursAt(180 - offDeg)), zoneClock(at, zoneHoursAt(-180 + offDeg))];
        expect(west.clock).toBe(east.clock);
        expect(secondsOf(`${west.date}T00:00Z`) - secondsOf(`${east.date}T00:00Z`)).toBe(DAY);
      }),
    );
  });
});
