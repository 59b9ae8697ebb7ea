import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  caseOf,
  casesIn,
  METRICS,
  metricOf,
  type PassageRecord,
  passagesCsvHeader,
  passagesCsvRow,
  passagesFrom,
  planPassage,
  type Study,
  sailNamesOf,
  startsOf,
  studyMarkdown,
  studySailer,
  studyTotalsText,
  summaryOf,
  totalsOf,
  wearOf,
} from '../src/index.js';
import { rowsOf } from './support/command.js';
import { blowing, boatOf, FLYING, hourly, MAIN, north, OPEN, op } from './support/invented.js';
import { T0 } from './support/synthetic.js';

// Invented boats and skies.

const BOAT = boatOf(
  [
    {
      ...MAIN,
      window: { ...OPEN, twsMaxKn: 30 },
      reefs: [{ areaShare: 0.7, twsMaxKn: 60 }],
      operations: { reef: op(10), shakeOut: op(10) },
    },
    { ...FLYING, window: { ...OPEN, twsMaxKn: 18 }, daylightOnly: true, operations: { set: op(20), douse: op(20) } },
  ],
  { white: ['main'], light: ['main', 'flying'], reefed: ['main:1'] },
  { crew: 4 },
);
const polar = (stwKn: number) => ({ twsKn: [0.1, 200], twaDeg: [0, 180], stwKn: [stwKn, stwKn, stwKn, stwKn] });
const POLARS = { status: 'measured', plans: { white: polar(6), light: polar(8), reefed: polar(5) } } as const;
const sky = (seed: number) =>
  blowing(
    hourly(40).map((n) => 6 * n),
    (hour) => ({
      kn: 16 + 10 * Math.sin(seed + hour / 13) + 4 * Math.cos(seed + hour / 5),
      fromDeg: 90 + 20 * Math.sin(hour / 9),
    }),
  );
const iso = (hours: number) => new Date((T0 + hours * 3600) * 1000).toISOString();

const STUDY: Study = {
  routes: [
    { name: 'short', route: north(100) },
    { name: 'long', route: north(300) },
  ],
  boats: [
    { name: 'all', boat: BOAT, polars: POLARS },
    {
      name: 'plain',
      boat: { ...BOAT, sails: [BOAT.sails[0]!], sailPlans: [BOAT.sailPlans[0]!, BOAT.sailPlans[2]!] },
      polars: POLARS,
    },
  ],
  weathers: [
    { name: 'one', weather: { forecast: sky(0) } },
    { name: 'two', member: '7', weather: { forecast: sky(2) } },
  ],
  starts: [iso(6), iso(18), iso(30)],
  options: { house: { gustFactor: 1.2 } },
};
const all = (order: readonly number[]) => {
  const sail = studySailer(STUDY);
  return order.map((n) => sail(n));
};
const NUMBERS = Array.from({ length: casesIn(STUDY) }, (_, n) => n);
const RECORDS = all(NUMBERS);

describe('what is sailed', () => {
  test('starts run from the first to the last, both among them', () => {
    expect(startsOf(T0, T0 + 36 * 3600, 12)).toHaveLength(4);
    expect(startsOf(T0, T0 + 35 * 3600, 12)).toHaveLength(3);
    expect(startsOf(T0, T0, 12)).toEqual([new Date(T0 * 1000).toISOString().replace('.000', '')]);
    expect(startsOf(T0, T0 - 1, 12)).toEqual([]);
    expect(() => startsOf(T0, T0, 0)).toThrow(/everyHours: expected more than 0, got 0/);
    expect(() => studySailer(STUDY)(24)).toThrow(/expected a passage from 0 to 23, got 24/);
    // Thirds of an hour add up all the same.
    expect(startsOf(T0, T0 + 86400, 1 / 3)).toHaveLength(73);
  });

  test('every route, boat, weather and start comes with each other once', () => {
    const seen = NUMBERS.map((n) => JSON.stringify(caseOf(STUDY, n)));
    expect(new Set(seen).size).toBe(2 * 2 * 2 * 3);
    expect(caseOf(STUDY, 0)).toEqual({ route: 0, boat: 0, weather: 0, start: 0 });
    expect(caseOf(STUDY, 1)).toMatchObject({ start: 1 });
    expect(caseOf(STUDY, casesIn(STUDY) - 1)).toEqual({ route: 1, boat: 1, weather: 1, start: 2 });
  });

  test('a passage is the same whatever was sailed before it', () => {
    fc.assert(
      fc.property(fc.shuffledSubarray(NUMBERS, { minLength: 6 }), (order) => {
        expect(all(order)).toEqual(order.map((n) => RECORDS[n]));
      }),
      { numRuns: 10 },
    );
  });

  test('a record is that of the passage planned by itself, at the price of a change', () => {
    for (const n of NUMBERS) {
      const { route, boat, weather, start } = caseOf(STUDY, n);
      const one = STUDY.boats[boat]!;
      const passage = planPassage(
        {
          route: STUDY.routes[route]!.route,
          boat: one.boat,
          polars: one.polars,
          forecast: STUDY.weathers[weather]!.weather.forecast!,
        },
        { ...STUDY.options, departure: STUDY.starts[start]! },
      );
      const totals = totalsOf(passage, one.boat);
      const record = RECORDS[n]!;
      expect(record).toMatchObject({
        n,
        route: STUDY.routes[route]!.name,
        boat: one.name,
        weather: STUDY.weathers[weather]!.name,
        member: STUDY.weathers[weather]!.member ?? null,
        draw: null,
        departure: passage.departure,
        complete: passage.complete,
      });
      // The two searches look differently; what is sailed here is simple enough for both to find the best.
      expect(record.arrival).toBe(totals.arrival);
      expect(record.hours).toBeCloseTo(totals.hours, 9);
      expect(record.sailChanges).toBe(totals.sailChanges);
      expect(record.sails.map(({ id, hours }) => [id, hours])).toEqual(
        totals.sails.map(({ id, hours }) => [id, hours]),
      );
      expect(record.gustMaxKn).toBe(Math.max(...passage.hours.map(({ gustKn }) => gustKn)));
      const wear = wearOf(passage, one.boat);
      expect(record.sails.map(({ wear }) => wear)).toEqual(wear.sails.map(({ total }) => total));
      expect(record.wearMoney).toEqual(wear.money.passage);
      expect(record.nearLimitHours).toBeCloseTo(
        totals.sailPlans.reduce((sum, { nearLimitHours }) => sum + nearLimitHours, 0),
        9,
      );
    }
  });
});

describe('the plan at one price', () => {
  test('costs hardly more than the choice from the whole curve', () => {
    const costs = [0, 10, 60].flatMap((price) =>
      [0, 1, 2, 3].map((seed) => {
        const voyage = { route: north(300), boat: BOAT, polars: POLARS };
        const options = { house: { gustFactor: 1.2, pricePerChangeMinutes: price } };
        const weather = { forecast: sky(seed) };
        const costOf = (passage: ReturnType<typeof planPassage>) =>
          (Date.parse(passage.end) - Date.parse(passage.departure)) / 60_000 +
          price * totalsOf(passage, BOAT).sailChanges;
        const brief = passagesFrom(voyage, { ...options, labels: 4 })(weather, iso(6));
        return costOf(brief) - costOf(planPassage({ ...voyage, ...weather }, { ...options, departure: iso(6) }));
      }),
    );
    for (const cost of costs) expect(Math.abs(cost)).toBeLessThan(10);
  });

  test('leaves out comparisons and keeps the rest of the log', () => {
    const voyage = { route: north(100), boat: BOAT, polars: POLARS };
    const weather = { forecast: sky(0) };
    const brief = passagesFrom(voyage, STUDY.options)(weather, iso(6));
    const whole = planPassage({ ...voyage, ...weather }, { ...STUDY.options, departure: iso(6) });
    const silent = {
      runnerUp: null,
      marginKn: null,
      barred: [],
      standsShare: null,
      gustLimitKn: null,
      awaFromDeg: null,
      awaToDeg: null,
      overGust: null,
      overAngle: null,
    };
    expect(brief.hours).toEqual(whole.hours.map((hour) => ({ ...hour, ...silent })));
    expect(brief).not.toHaveProperty('curve');
    expect(brief.warnings).toEqual([]);
  });

  test('hours hove to and without a plan are those of a passage planned by itself', () => {
    // A gale in which not even the reefed main stands, and changes that may not be made in the dark.
    const gale = blowing(
      hourly(20).map((n) => 6 * n),
      (hour) => ({ kn: hour > 20 && hour < 44 ? 70 : 15 }),
    );
    const voyage = { route: north(300), boat: BOAT, polars: POLARS };
    const hoursOf = (passage: ReturnType<typeof planPassage>) => {
      const { noPlanHours, hoveToHours } = totalsOf(passage, BOAT);
      return [noPlanHours, hoveToHours];
    };
    for (const house of [{}, { changesInDark: 'none' }, { leastHoursBetweenChanges: 6 }] as const) {
      const options = { house: { gustFactor: 1, pricePerChangeMinutes: 0, ...house } };
      const brief = passagesFrom(voyage, { ...options, labels: 4 })({ forecast: gale }, iso(6));
      const whole = planPassage({ ...voyage, forecast: gale }, { ...options, departure: iso(6) });
      expect(hoursOf(brief)).toEqual(hoursOf(whole));
      expect(hoursOf(whole)[0]).toBeGreaterThan(10);
    }
  });

  test('weathers may be changed between, and are held to their checks', () => {
    const sail = passagesFrom({ route: north(100), boat: BOAT, polars: POLARS }, STUDY.options);
    const [one, other] = [{ forecast: sky(0) }, { forecast: sky(2) }];
    const first = sail(one, iso(6));
    expect(sail(other, iso(6)).end).not.toBe(first.end);
    expect(sail(one, iso(6))).toEqual(first);
    const { grids } = sky(0);
    const falling = grids.map((grid) => ({ ...grid, lats: Float64Array.from(grid.lats).reverse() }));
    expect(() => sail({ forecast: { file: 'x', grids: falling } }, iso(6))).toThrow(/lats/);
    expect(() => sail(one, iso(-6))).toThrow(/departure/);
  });
});

/** A record made by hand. */
const made = (n: number, more: Partial<PassageRecord>): PassageRecord => ({
  ...RECORDS[0]!,
  n,
  complete: true,
  reason: null,
  departure: '2027-01-01T00:00:00Z',
  ...more,
});

describe('summed up', () => {
  const tens = Array.from({ length: 21 }, (_, i) =>
    made(i, { hours: 100 + i, sailChanges: i % 3, sails: [{ ...RECORDS[0]!.sails[0]!, hours: i }] }),
  );

  test('percentiles of arrival, changes and hours on each sail', () => {
    const { all: one } = summaryOf(tens);
    expect(one.hours).toEqual({ mean: 110, p5: 101, p25: 105, p50: 110, p75: 115, p95: 119 });
    expect(one.arrivals).toEqual({
      p5: '2027-01-05T05:00:00Z',
      p50: '2027-01-05T14:00:00Z',
      p95: '2027-01-05T23:00:00Z',
    });
    expect(one.metrics.changes!.mean).toBeCloseTo(1, 9);
    expect(one.sails).toEqual([
      { id: 'main', hours: { mean: 10, p5: 1, p25: 5, p50: 10, p75: 15, p95: 19 }, wear: expect.any(Object) },
    ]);
  });

  test('chances are counted, with Wilson’s interval', () => {
    // Two of twenty: E. B. Wilson 1927; worked by hand, z = 1.96: middle (0.1 + 0.09604) / 1.19208 = 0.16445, half 1.96 ×
    // sqrt(0.0045 + 0.0024010) / 1.19208 = 0.13658.
    const some = Array.from({ length: 20 }, (_, i) => made(i, { gustMaxKn: i < 2 ? 41 : 30 }));
    const [chance] = summaryOf(some, { limits: [['gust-max', 40]] }).all.chances;
    expect(chance).toMatchObject({ over: 2, of: 20, share: 0.1 });
    expect(chance!.shareLow).toBeCloseTo(0.0279, 3);
    expect(chance!.shareHigh).toBeCloseTo(0.301, 3);
    // A limit that is met is not passed.
    expect(summaryOf(some, { limits: [['gust-max', 41]] }).all.chances[0]).toMatchObject({ over: 0, shareLow: 0 });
    expect(summaryOf(some, { limits: [['gust-max', 41]] }).all.chances[0]!.shareHigh).toBeCloseTo(0.161, 3);
  });

  test('what no forecast tells is in no spread and no chance', () => {
    const unknown = summaryOf([made(0, { waveMaxM: null })], { limits: [['wave-max', 2]] }).all;
    expect(unknown.metrics['wave-max']).toBeNull();
    expect(unknown.chances[0]).toMatchObject({ of: 0, share: null });
  });

  test('starts are ranked by the navigator’s weights', () => {
    const at = (day: number, more: Partial<PassageRecord>) =>
      made(day, { departure: `2027-01-0${day}T00:00:00Z`, ...more });
    const starts = [
      at(1, { hours: 100, sailChanges: 10, nightChanges: 6 }),
      at(2, { hours: 104, sailChanges: 4, nightChanges: 4 }),
      at(3, { hours: 110, sailChanges: 0, nightChanges: 0 }),
    ];
    const days = (weights?: Parameters<typeof summaryOf>[1]) =>
      summaryOf(starts, weights).bestStarts.map((name) => name.slice(8, 10));
    // 105, 106, 110.
    expect(days()).toEqual(['01', '02', '03']);
    // 112, 112 − 4, 110.
    expect(days({ weights: { hours: 1, 'night-changes': 2 } })).toEqual(['03', '01', '02']);
    expect(days({ weights: { changes: 1 } })).toEqual(['03', '02', '01']);
    expect(summaryOf(starts).starts.map(({ score }) => score)).toEqual([105, 106, 110]);
  });

  test('what broke off is no part of the spreads, is not known to keep to a limit, and is ranked last', () => {
    const open = {
      complete: false,
      reason: 'forecast-ended',
      arrival: null,
      arrivalEstimate: '2027-01-09T00:00:00Z',
    } as const;
    const stub = made(0, { ...open, hours: 10, sailChanges: 0, gustMaxKn: 20, departure: '2027-01-03T00:00:00Z' });
    const over = made(1, { ...open, hours: 10, sailChanges: 1, gustMaxKn: 50, departure: '2027-01-04T00:00:00Z' });
    const whole = made(2, { hours: 200, sailChanges: 30, gustMaxKn: 30 });
    const {
      all: one,
      bestStarts,
      starts,
    } = summaryOf([stub, over, whole], {
      weights: { changes: 1 },
      limits: [
        ['gust-max', 40],
        ['hours', 150],
      ],
    });
    expect(one.metrics.changes).toMatchObject({ mean: 30, p5: 30 });
    expect(one.sails[0]!.hours.mean).toBe(whole.sails[0]!.hours);
    // Of the stub nobody knows what gusts it would have met; its arrival is estimated.
    expect(one.chances).toMatchObject([
      { over: 1, of: 2 },
      { over: 1, of: 3 },
    ]);
    expect(bestStarts.map((name) => name.slice(8, 10))).toEqual(['01', '03', '04']);
    // Where nothing arrives, as far as it came.
    expect(starts[1]!.metrics.changes!.mean).toBe(0);
    expect(studyTotalsText(toPrint([stub, over, whole]))).toMatch(/2027-01-03T00:00:00Z .*; 1 of 1 incomplete\n/);
  });

  test('weights and limits of no metric are faults', () => {
    expect(() => summaryOf(tens, { weights: { speed: 1 } as never })).toThrow(/options, weights: .* got "speed"/);
    expect(() => summaryOf(tens, { limits: [['speed' as never, 1]] })).toThrow(/options, limits/);
  });

  test('an incomplete passage counts with its estimate, and one without is not weighed', () => {
    const open = { complete: false, reason: 'forecast-ended', arrival: null, hours: 10 } as const;
    const hoped = made(0, { ...open, arrivalEstimate: '2027-01-02T00:00:00Z' });
    expect(metricOf(hoped, 'hours')).toBe(24);
    const hopeless = made(1, { ...open, departure: '2027-01-03T00:00:00Z', arrivalEstimate: null });
    const { starts, bestStarts, all: one } = summaryOf([hopeless, hoped]);
    expect(starts.map(({ name, score }) => [name.slice(8, 10), score === null])).toEqual([
      ['01', false],
      ['03', true],
    ]);
    expect(bestStarts).toEqual(['2027-01-01T00:00:00Z']);
    expect(one).toMatchObject({ passages: 2, complete: 0, hours: null });
    expect(studyTotalsText(toPrint([hoped, hopeless]))).toMatch(/^2 OF 2 PASSAGES INCOMPLETE\. Planning aid/);
  });

  test('groups of one kind only are not told apart', () => {
    const { routes, boats, weathers, months, starts } = summaryOf(tens);
    expect([routes, boats, weathers, months].map(({ length }) => length)).toEqual([0, 0, 0, 0]);
    expect(starts).toHaveLength(1);
    const whole = summaryOf(RECORDS);
    expect([whole.routes, whole.boats, whole.weathers].map((groups) => groups.map(({ name }) => name))).toEqual([
      ['short', 'long'],
      ['all', 'plain'],
      ['one', 'two 7'],
    ]);
    expect(whole.boats[1]!.sails.map(({ id }) => id)).toEqual(['main']);
    expect(whole.starts.map(({ passages }) => passages)).toEqual([8, 8, 8]);
  });

  test('every metric is a number of every passage here, but for steadiness and money, which nothing tells, and firmness, which was not asked for', () => {
    const untold: readonly string[] = ['steadiness', 'wear-money', 'knife-edge-hours'];
    for (const metric of METRICS.filter((one) => !untold.includes(one)))
      for (const record of RECORDS) expect(metricOf(record, metric)).toBeTypeOf('number');
  });
});

const toPrint = (records: readonly PassageRecord[]) => ({
  digest: 'x',
  routes: ['short', 'long'],
  boats: ['all', 'plain'],
  weathers: ['one', 'two 7'],
  starts: STUDY.starts,
  options: STUDY.options,
  inputs: [],
  warnings: [],
  summary: summaryOf(records),
});

describe('told', () => {
  test('passages.csv has every passage’s figures and the hours on every sail, empty where the boat has it not', () => {
    const sails = sailNamesOf(STUDY.boats);
    const csv = [passagesCsvHeader(sails), ...RECORDS.map((record) => passagesCsvRow(record, sails))].join('\n');
    const rows = rowsOf(`${csv}\n`);
    expect(rows).toHaveLength(24);
    rows.forEach((row, n) => {
      const record = RECORDS[n]!;
      expect(Number(row.passage)).toBe(n);
      expect(Number(row.hours)).toBeCloseTo(record.hours, 2);
      expect(row.sail_changes).toBe(`${record.sailChanges}`);
      expect(row.hours_main).toBe(record.sails[0]!.hours.toFixed(3));
      expect(row.hours_flying === '').toBe(record.boat === 'plain');
      expect(Number(row.wear_main)).toBeCloseTo(record.sails[0]!.wear!.mid, 2);
      expect(row.wear_flying === '').toBe(record.boat === 'plain');
    });
  });

  test('names with commas, quotes and line ends stay one cell', () => {
    expect(passagesCsvRow(made(0, { route: 'a,"b"\n' }), [])).toContain(',');
    expect(passagesCsvRow(made(0, { route: 'a,"b"\n' }), [])).toMatch(/^0,"a,""b""\n",/);
  });

  test('study.md has the groups, the starts side by side and the hours on each sail', () => {
    const markdown = studyMarkdown(toPrint(RECORDS));
    expect(markdown).toMatch(/^\*\*Planning aid only/);
    for (const heading of [
      '# 24 passages',
      '## By route',
      '## By boat',
      '## By weather',
      '## Chances',
      '## Start by start',
    ])
      expect(markdown).toContain(`${heading}\n`);
    expect(markdown).toContain('2 routes × 2 boats × 2 weathers × 3 starts.');
    expect(markdown).not.toContain('undefined');
    expect(markdown).not.toContain('NaN');
  });

  test('study.md says why `plan` may plan a start otherwise, where it may', () => {
    const saidWith = (options: Partial<Study['options']>) =>
      studyMarkdown({ ...toPrint(RECORDS), options: { ...STUDY.options, ...options } });
    const why =
      /^Each passage is planned by the price of a change alone, which is quick \(labels (\d)\); .*plan.* \(labels 4\)\. So the plan/m;
    expect(why.exec(saidWith({}))![1]).toBe('4');
    expect(why.exec(saidWith({ choice: 'planned', labels: 1 }))![1]).toBe('1');
    // The baseline is searched alike, and an arrival by daylight but for how widely.
    for (const alike of [{ choice: 'fastest' }, { arriveDaylight: true }, { arriveDaylight: true, labels: 4 }] as const)
      expect(saidWith(alike)).not.toContain('So the plan');
    expect(saidWith({ arriveDaylight: true, labels: 1 })).toMatch(
      /^Each passage is searched with labels 1, .*plan.* with 4\. So the plan of one start/m,
    );
  });

  test('a chance says what is over its limit, in how many passages, and what that proves', () => {
    // None of five: Wilson's interval goes to z² / (n + z²) = 3.8416 / 8.8416.
    const five = Array.from({ length: 5 }, (_, n) => made(n, { strongWind: [], gustMaxKn: n < 2 ? 41 : 30 }));
    const limits = {
      limits: [['hours-over-34', 0] as const, ['gust-max', 40] as const, ['no-plan-hours', 0] as const],
    };
    const study = { ...toPrint(five), summary: summaryOf(five, limits) };
    const printed = studyTotalsText(study);
    expect(printed).toMatch(/^some time over 34 kn: +in 0 of 5 passages, 0 % \(0 % to 43 %\)$/m);
    expect(printed).toMatch(/^more than 40 kn in the gust: +in 2 of 5 passages, 40 % \(12 % to 77 %\)$/m);
    expect(printed).toMatch(/^some time in which no plan fitted: +in 0 of 5 passages, /m);
    const markdown = studyMarkdown(study);
    expect(markdown).toContain('| what | in passages | chance |');
    expect(markdown).toContain('| some time over 34 kn | 0 of 5 | 0 % (0 % to 43 %) |');
    expect(markdown).toContain('| more than 40 kn in the gust | 2 of 5 | 40 % (12 % to 77 %) |');
  });

  test('what new sails are worn by is in a currency, and over several there is no mean', () => {
    const sail = { ...RECORDS[0]!.sails[0]!, wear: { low: 0.1, mid: 0.1, high: 0.1 } };
    const records = [140, 160].map((mid, n) => made(n, { sails: [sail], wearMoney: { low: 100, mid, high: 300 } }));
    const saidOf = (currencies?: readonly (string | null)[]) =>
      studyMarkdown({ ...toPrint(records), ...(currencies === undefined ? {} : { currencies }) })
        .split('\n')
        .find((line) => /^Of new sails|^The money/.test(line));
    expect(saidOf(['EUR', 'EUR'])).toBe('Of new sails 150 EUR a passage in the mean, 140 to 160 in nine of ten.');
    for (const unnamed of [saidOf([null]), saidOf()])
      expect(unnamed).toBe(
        'Of new sails 150 a passage in the mean, 140 to 160 in nine of ten, in the currency of your prices.',
      );
    expect(saidOf(['EUR', 'SEK', null])).toMatch(
      /several currencies \(EUR, SEK, one that is not named\), which have no mean\.$/,
    );
  });
});
