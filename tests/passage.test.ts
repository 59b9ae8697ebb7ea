import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  apparentWind,
  type Boat,
  hoursCsv,
  type Passage,
  type PolarSet,
  planMarkdown,
  planPassage,
  totalsOf,
  totalsText,
} from '../src/index.js';
import { BOAT, everyHours, forecastOf, LATS, LONS, POLARS, steadyWind, T0, WEST } from './support/synthetic.js';

const DEPARTURE = '2027-03-01T06:00Z';

/** A wind that wanders in place and time; `seed` turns it. */
const wandering = (mean: number, fromDeg: number, seed: number) => (lat: number, lon: number, time: number) => {
  const day = (time - T0) / 86400;
  const speed = Math.max(
    0,
    mean * (1 + 0.4 * Math.sin(seed + lat * 0.4 + day * 2.1) + 0.3 * Math.cos(seed * 3 + lon * 0.3 - day)),
  );
  const from = ((fromDeg + 50 * Math.sin(seed * 2 + lon * 0.2 + day * 1.3)) * Math.PI) / 180;
  return { windEastKn: -speed * Math.sin(from), windNorthKn: -speed * Math.cos(from) };
};

const wind = fc.record({
  mean: fc.double({ min: 3, max: 32, noNaN: true }),
  from: fc.integer({ min: 0, max: 359 }),
  seed: fc.double({ min: 0, max: 6, noNaN: true }),
});

const sail = (
  boat: Boat,
  polars: PolarSet,
  { mean, from, seed }: { mean: number; from: number; seed: number },
  days = 3,
): Passage =>
  planPassage(
    { route: WEST, boat, polars, forecast: forecastOf(everyHours(6, days), LATS, LONS, wandering(mean, from, seed)) },
    { departure: DEPARTURE, choice: 'fastest' },
  );

const withPlans = (boat: Boat, ids: readonly string[]): Boat => ({
  ...boat,
  sailPlans: boat.sailPlans.filter((plan) => ids.includes(plan.id)),
});

describe('properties', () => {
  test('apparent wind mirrors', () => {
    const speed = fc.double({ min: 0, max: 80, noNaN: true });
    fc.assert(
      fc.property(speed, fc.double({ min: -179.99, max: 179.99, noNaN: true }), speed, (tws, twa, stw) => {
        const [one, other] = [apparentWind(tws, twa, stw), apparentWind(tws, -twa, stw)];
        expect(other.awsKn).toBeCloseTo(one.awsKn, 9);
        if (Math.abs(one.awaDeg) < 180) expect(other.awaDeg).toBeCloseTo(-one.awaDeg, 6);
      }),
    );
  });

  test('no plan is faster through the water than the fastest point of its polar, and hours add up', () => {
    fc.assert(
      fc.property(wind, (seed) => {
        const passage = sail(BOAT, POLARS, seed);
        for (const hour of passage.hours) {
          if (hour.sailPlan !== null)
            expect(hour.stwKn).toBeLessThanOrEqual(Math.max(...POLARS.plans[hour.sailPlan]!.stwKn) + 1e-9);
        }
        const totals = totalsOf(passage, BOAT);
        const total = (tallies: readonly { hours: number }[]) => tallies.reduce((sum, tally) => sum + tally.hours, 0);
        expect(total(totals.sailPlans) + totals.hoveToHours).toBeCloseTo(totals.hours, 9);
        for (const tally of [...totals.sails, ...totals.sailPlans])
          expect(tally.dayHours + tally.nightHours).toBeCloseTo(tally.hours, 9);
        const elapsed = (Date.parse(passage.end) - Date.parse(passage.departure)) / 3600_000;
        // The end is told to the second.
        expect(Math.abs(totals.hours - elapsed)).toBeLessThan(1 / 3600);
        const last = passage.hours.at(-1)!;
        expect(totals.distanceNm).toBeCloseTo(last.distanceNm + last.runNm, 9);
        passage.hours.forEach((hour, i) => {
          const before = passage.hours[i - 1];
          if (before !== undefined) expect(hour.distanceNm).toBeCloseTo(before.distanceNm + before.runNm, 9);
        });
      }),
      { numRuns: 60 },
    );
  });

  test('at the same hour and place a wider wardrobe is never slower', () => {
    const all = BOAT.sailPlans.map((plan) => plan.id);
    fc.assert(
      fc.property(wind, fc.subarray(all, { minLength: 1 }), (seed, some) => {
        const [wide, narrow] = [sail(BOAT, POLARS, seed, 1), sail(withPlans(BOAT, some), POLARS, seed, 1)];
        // Hove to is no sail plan: drift with the wind may be faster than the worst plan made good against it.
        if (narrow.hours[0]!.sailPlan === null) return;
        expect(wide.hours[0]!.runNm).toBeGreaterThanOrEqual(narrow.hours[0]!.runNm - 1e-9);
      }),
      { numRuns: 150 },
    );
  });

  test('with no daylight rule, shifting time and longitude together changes nothing', () => {
    const boat: Boat = { ...BOAT, sails: BOAT.sails.map((sail) => ({ ...sail, daylightOnly: false })) };
    fc.assert(
      fc.property(
        wind,
        fc.integer({ min: -300, max: 300 }),
        fc.integer({ min: -500, max: 500 }),
        ({ mean, from, seed }, east, hours) => {
          const field = wandering(mean, from, seed);
          const turned = (lon: number) => ((((lon + east + 180) % 360) + 360) % 360) - 180;
          const there = planPassage(
            {
              route: { waypoints: WEST.waypoints.map((point) => ({ ...point, lonDeg: turned(point.lonDeg) })) },
              boat,
              polars: POLARS,
              forecast: forecastOf(
                everyHours(6, 3).map((time) => time + hours * 3600),
                LATS,
                LONS.map((lon) => lon + east),
                (lat, lon, time) => field(lat, lon - east, time - hours * 3600),
              ),
            },
            { departure: new Date(Date.parse(DEPARTURE) + hours * 3600_000).toISOString(), choice: 'fastest' },
          );
          const here = planPassage(
            { route: WEST, boat, polars: POLARS, forecast: forecastOf(everyHours(6, 3), LATS, LONS, field) },
            { departure: DEPARTURE, choice: 'fastest' },
          );
          expect(there.hours.length).toBe(here.hours.length);
          there.hours.forEach((hour, i) => {
            const same = here.hours[i]!;
            for (const key of ['distanceNm', 'twsKn', 'awsKn', 'gustKn', 'smgKn', 'runNm', 'latDeg'] as const)
              expect(hour[key]).toBeCloseTo(same[key], 5);
            if ((same.marginKn ?? 1) > 1e-5) expect(hour.sailPlan).toBe(same.sailPlan);
          });
        },
      ),
      { numRuns: 40 },
    );
  });
});

describe('a sailor would say', () => {
  const steady = (twsKn: number, fromDeg: number, extra = {}, boat = BOAT, polars = POLARS) =>
    planPassage(
      {
        route: {
          waypoints: [
            { name: 'A', latDeg: 15, lonDeg: -45, toNext: 'rhumb' },
            { name: 'B', latDeg: 15, lonDeg: -47 },
          ],
        },
        boat,
        polars,
        forecast: forecastOf(everyHours(6, 4), LATS, LONS, (lat, lon, time) => ({
          ...steadyWind(twsKn, fromDeg)(lat, lon, time),
          ...extra,
        })),
      },
      { departure: '2027-03-01T12:00Z', choice: 'fastest' },
    );

  test('a reach is sailed direct: steered, felt and made good as the triangle says', () => {
    const [hour] = steady(15, 0).hours;
    // Course 270, wind from 0: TWA 90 on the starboard side, 8 kn; AWS and AWA of the triangle 15 and 8.
    expect(hour).toMatchObject({ manner: 'direct', sailPlan: 'main+jib', tack: 'starboard' });
    expect(hour!.twaDeg).toBeCloseTo(90, 4);
    expect(hour!.stwKn).toBeCloseTo(8, 4);
    expect(hour!.awsKn).toBeCloseTo(17, 4);
    expect(hour!.awaDeg).toBeCloseTo(61.93, 2);
    expect(hour!.smgKn).toBeCloseTo(8, 4);
    expect(hour!.gustKn).toBeCloseTo(19.5, 4);
    // Gust 19.5 over the same boat: sqrt(19.5² + 8²).
    expect(hour!.gustAwsKn).toBeCloseTo(21.077, 3);
    expect(hour!.beamReachAwsKn).toBeCloseTo(17, 4);
  });

  test('to windward the boat beats: the best angle of the polar, less the minutes of the tacks', () => {
    const [hour] = steady(10, 270).hours;
    expect(hour).toMatchObject({ manner: 'tacking', sailPlan: 'main+jib', tack: 'starboard' });
    const polar = POLARS.plans['main+jib']!;
    // The best of stw·cos TWA along the straight pieces of the polar, looked for by brute force.
    let best = 0;
    for (let twa = 40; twa < 90; twa += 0.001) {
      const i = polar.twaDeg.findIndex((angle) => angle > twa) - 1;
      const share = (twa - polar.twaDeg[i]!) / (polar.twaDeg[i + 1]! - polar.twaDeg[i]!);
      const stw = polar.stwKn[i * 5 + 1]! * (1 - share) + polar.stwKn[(i + 1) * 5 + 1]! * share;
      best = Math.max(best, stw * Math.cos((twa * Math.PI) / 180));
    }
    // 3 minutes lost every 2 hours.
    expect(hour!.smgKn).toBeCloseTo(best * (1 - 3 / 120), 3);
    expect(hour!.offTrackNm).toBeCloseTo(
      2 * hour!.stwKn! * (1 - 3 / 120) * Math.sin((hour!.twaDeg! * Math.PI) / 180),
      3,
    );
    expect(totalsOf(steady(10, 270), BOAT).tacks).toBeGreaterThan(5);
  });

  test('a wind a little off the course is beaten on unequal boards, the longer one shown', () => {
    // Wind from 285, course 270: the starboard tack (about 238) lies nearer to the course than the port tack (about 332).
    const [hour] = steady(10, 285).hours;
    expect(hour).toMatchObject({ manner: 'tacking', tack: 'starboard' });
    expect(hour!.headingDeg).toBeCloseTo(285 - hour!.twaDeg!, 4);
    const [mirrored] = steady(10, 255).hours;
    expect(mirrored).toMatchObject({ manner: 'tacking', tack: 'port' });
    expect(mirrored!.smgKn).toBeCloseTo(hour!.smgKn, 4);
    expect(mirrored!.awaDeg).toBeCloseTo(-hour!.awaDeg!, 4);
  });

  test("a reef in time: over the full main's gust limit the reef is set, and the main is barred by the gust", () => {
    const [hour] = steady(21, 0).hours;
    expect(hour).toMatchObject({ sailPlan: 'reef1+jib' });
    expect(hour!.barred).toContainEqual({ sailPlan: 'main+jib', reason: 'gust' });
    // Its angles bar the flying sail before its gusts do.
    expect(hour!.barred).toContainEqual({ sailPlan: 'vented', reason: 'window' });
  });

  test('a gust the forecast knows counts before the factor', () => {
    const [hour] = steady(15, 0, { gustKn: 27 }).hours;
    expect(hour).toMatchObject({ sailPlan: 'reef1+jib', gustFrom: 'forecast', gustKn: expect.closeTo(27, 4) });
  });

  test('a daylight sail is down by sunset and not set before sunrise', () => {
    const passage = steady(12, 90);
    const flown = passage.hours.filter((hour) => hour.sailPlan === 'vented');
    expect(flown.length).toBeGreaterThan(5);
    passage.hours.forEach((hour, i) => {
      if (hour.sailPlan !== 'vented') return;
      expect(hour.daylight).toBe(true);
      const next = passage.hours[i + 1];
      if (next !== undefined) expect(next.daylight).toBe(true);
    });
    const night = passage.hours.find((hour) => !hour.daylight)!;
    expect(night.barred).toContainEqual({ sailPlan: 'vented', reason: 'night' });
  });

  test('a current is taken off the wind, and headed for', () => {
    // 2 kn of current setting north across a westerly course, wind from the north.
    const [hour] = steady(15, 0, { currentEastKn: 0, currentNorthKn: 2 }).hours;
    expect(hour).toMatchObject({ setDeg: 0, driftKn: 2, twdDeg: 0, groundTwsKn: expect.closeTo(15, 4) });
    // The water runs against the wind: 15 + 2 over the water.
    expect(hour!.twsKn).toBeCloseTo(17, 4);
    expect(hour!.headingDeg).toBeLessThan(270);
    const off = ((hour!.headingDeg! - 270) * Math.PI) / 180;
    expect(hour!.stwKn! * Math.sin(off) + 2).toBeCloseTo(0, 6);
    expect(hour!.smgKn).toBeCloseTo(hour!.stwKn! * Math.cos(off), 6);
    // Limit gust: 15 × 1.3 over the ground, then the current off.
    expect(hour!.gustKn).toBeCloseTo(21.5, 4);
  });

  test('where nothing may be set she heaves to, drifts to leeward, and never past the start', () => {
    const [hour, next] = steady(45, 0).hours;
    expect(hour).toMatchObject({
      manner: 'hove-to',
      sailPlan: null,
      headingDeg: null,
      awaDeg: null,
      tack: null,
      runnerUp: null,
    });
    expect(hour!.awsKn).toBe(hour!.twsKn);
    expect(hour!.smgKn).toBeCloseTo(0, 9);
    // From the west she is set back, and stays at the start.
    const back = steady(45, 270);
    expect(back.hours[0]!.smgKn).toBeCloseTo(-1, 9);
    expect(back.hours[0]!.runNm).toBe(0);
    expect(back).toMatchObject({ complete: false, reason: 'no-plan-allowed' });
    // From the east she drifts down the track.
    expect(steady(45, 90).hours[0]!.runNm).toBeCloseTo(1, 6);
    expect(next!.sailChange).toBe(false);
    expect(totalsOf(back, BOAT)).toMatchObject({ sailChanges: 0, arrival: null, arrivalEstimate: null });
  });

  test('no wind at all is no breakage: she lies still', () => {
    const passage = steady(0, 0);
    expect(passage.hours[0]).toMatchObject({ twsKn: 0, twdDeg: 0, smgKn: 0 });
    expect(hoursCsv(passage)).not.toMatch(/NaN|undefined|Infinity/);
  });

  test('an hour cut by arrival counts with its minutes', () => {
    const passage = steady(15, 0);
    expect(passage.complete).toBe(true);
    const last = passage.hours.at(-1)!;
    expect(last.minutes).toBeGreaterThan(0);
    expect(last.minutes).toBeLessThan(60);
    const lengthNm = 2 * 60 * Math.cos((15 * Math.PI) / 180);
    expect(last.distanceNm + last.runNm).toBeCloseTo(lengthNm, 6);
    // 8 kn all the way.
    expect(totalsOf(passage, BOAT).hours).toBeCloseTo(lengthNm / 8, 3);
  });

  test('no row at the last instant of the forecast, and an hour cut by it counts with its minutes', () => {
    const times = [T0, T0 + 6 * 3600, T0 + 9 * 3600 + 1800];
    const inputs = {
      route: WEST,
      boat: BOAT,
      polars: POLARS,
      forecast: forecastOf(times, LATS, LONS, steadyWind(15, 0)),
    };
    const passage = planPassage(inputs, { departure: '2027-03-01T06:00Z', choice: 'fastest' });
    expect(passage).toMatchObject({ complete: false, reason: 'forecast-ended', end: '2027-03-01T09:30:00Z' });
    expect(passage.hours.map((hour) => hour.minutes)).toEqual([60, 60, 60, 30]);
    const whole = planPassage(inputs, { departure: '2027-03-01T06:30Z', choice: 'fastest' });
    expect(whole.hours.map((hour) => hour.time.slice(11, 16))).toEqual(['06:30', '07:30', '08:30']);
    const totals = totalsOf(passage, BOAT);
    const expected = Date.parse(passage.end) + ((passage.distanceToGoNm * totals.hours) / totals.distanceNm) * 3600_000;
    expect(Math.abs(Date.parse(totals.arrivalEstimate!) - expected)).toBeLessThan(1000);
  });

  test('where wind is absent the passage ends, and says so', () => {
    const holes = (lat: number, lon: number, time: number) => (lon < -50 ? {} : steadyWind(15, 0)(lat, lon, time));
    const passage = planPassage(
      { route: WEST, boat: BOAT, polars: POLARS, forecast: forecastOf(everyHours(6, 6), LATS, LONS, holes) },
      { departure: DEPARTURE, choice: 'fastest' },
    );
    expect(passage).toMatchObject({ complete: false, reason: 'no-wind-data' });
    // Half-way between the last point with wind (50 W) and the first without (53 W) the nearest point is absent.
    expect(passage.hours.at(-1)!.lonDeg).toBeGreaterThan(-51.5);
    expect(passage.hours.at(-1)!.lonDeg).toBeLessThan(-51.3);
  });

  test('a plan without a polar is barred and warned', () => {
    const { 'main+jib': _, ...rest } = POLARS.plans;
    const passage = steady(15, 0, {}, BOAT, { ...POLARS, plans: rest });
    expect(passage.hours[0]!.barred).toContainEqual({ sailPlan: 'main+jib', reason: 'no-speed' });
    expect(passage.warnings).toContainEqual({
      file: 'polars.csv',
      path: 'main+jib',
      code: 'no-polar',
      expected: 'a polar for every sail plan',
      got: 'none: this plan is never set',
    });
  });

  test('hours on another setting count at its cloth, reefs count by themselves too', () => {
    const running = steady(20, 90);
    const totals = totalsOf(running, BOAT);
    const tally = (id: string) => totals.sails.find((sail) => sail.id === id)?.hours;
    expect(tally('poled-jib')).toBeUndefined();
    expect(tally('jib')).toBeCloseTo(
      running.hours
        .filter((hour) => hour.sailPlan !== 'vented' && hour.sailPlan !== null)
        .reduce((sum, hour) => sum + hour.minutes / 60, 0),
      9,
    );
    const rising = planPassage(
      {
        route: WEST,
        boat: withPlans(BOAT, ['main+jib', 'reef1+jib']),
        polars: POLARS,
        forecast: forecastOf(everyHours(6, 4), LATS, LONS, (_lat, _lon, time) =>
          steadyWind(12 + (time - T0) / 25000, 0)(0, 0, 0),
        ),
      },
      { departure: '2027-03-01T00:00Z', choice: 'fastest' },
    );
    expect(totalsOf(rising, BOAT)).toMatchObject({ sailChanges: 1, reefChanges: 1 });
  });

  test("a skipper's factor scales the speeds: 0.9 on designed polars unless the boat says otherwise", () => {
    const stw = (boat: Boat) => steady(15, 0, {}, boat, { ...POLARS, status: 'designed' }).hours[0]!.stwKn;
    expect(stw(BOAT)).toBeCloseTo(7.2, 4);
    expect(stw({ ...BOAT, house: { skipperFactor: 0.8 } })).toBeCloseTo(6.4, 4);
  });

  test('above the highest wind of a polar the speed is held and said', () => {
    const passage = steady(
      29,
      0,
      { gustKn: 31 },
      { ...BOAT, sails: BOAT.sails.map((sail) => ({ ...sail, window: { awaMinDeg: 0, awaMaxDeg: 180 } })) },
      {
        ...POLARS,
        plans: { 'main+jib': { twsKn: [10, 20], twaDeg: [40, 180], stwKn: [5, 8, 5, 8] } },
      },
    );
    expect(passage.hours[0]!.stwKn).toBeCloseTo(8, 9);
    expect(passage.warnings.map((warning) => warning.code)).toContain('polar-held');
  });

  test('defaults without a source are told as placeholders, unless the skipper set them', () => {
    const placeholders = (boat: Boat, polars = POLARS) => steady(15, 0, {}, boat, polars).options.placeholders;
    const manoeuvres = ['tackMinutes', 'gybeMinutes', 'tackEveryHours', 'gybeEveryHours'];
    expect(placeholders(BOAT)).toEqual(manoeuvres);
    expect(placeholders(BOAT, { ...POLARS, status: 'designed' })).toEqual([...manoeuvres, 'skipperFactor']);
    expect(
      placeholders({ ...BOAT, house: { tackMinutes: 3, gybeMinutes: 6, tackEveryHours: 2, gybeEveryHours: 12 } }),
    ).toEqual([]);
    const passage = steady(45, 90);
    const toPrint = { passage, totals: totalsOf(passage, BOAT), boat: BOAT, route: WEST, inputs: [] };
    const note = 'tackMinutes 3, gybeMinutes 6, tackEveryHours 2, gybeEveryHours 12, 1 kn to leeward hove to.';
    expect(totalsText(toPrint)).toContain(`Placeholders without a source`);
    expect(totalsText(toPrint)).toContain(note);
    expect(planMarkdown(toPrint)).toContain(note);
  });

  test('records are plain data', () => {
    const passage = steady(15, 0);
    expect(structuredClone(passage)).toEqual(passage);
    expect(structuredClone(totalsOf(passage, BOAT))).toEqual(totalsOf(passage, BOAT));
  });
});
