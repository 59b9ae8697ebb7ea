import { describe, expect, test } from 'vitest';
import { type Boat, type Hour, type Passage, planJson, planMarkdown, totalsOf, totalsText } from '../src/index.js';
import { percentilesOf } from '../src/totals/totals.js';
import { boatOf, MAIN, OPEN, op, planned, steady } from './support/invented.js';

// Logs made by hand, so that every sum can be checked by eye. Invented data.

const BOAT: Boat = boatOf(
  [
    {
      ...MAIN,
      window: { ...OPEN, twsMaxKn: 30 },
      reefs: [{ areaShare: 0.7, twsMaxKn: 40 }],
      operations: { reef: op(10), shakeOut: op(10) },
    },
    {
      id: 'jib',
      kind: 'overlapping-genoa',
      window: { ...OPEN, awsMaxKn: 20 },
      operations: { unfurl: op(5), furl: op(5) },
    },
    {
      id: 'pole',
      kind: 'poled-out-headsail',
      clothOf: 'jib',
      window: {
        ...OPEN,
        awsMaxKn: [
          [100, 20],
          [180, 30],
        ],
      },
      operations: { set: op(15), douse: op(15) },
    },
  ],
  { white: ['main', 'jib'], poled: ['main', 'pole'], reefed: ['main:1', 'jib'], deep: ['main:1', 'pole'] },
  { crew: 4, watches: { changes: ['00:00', '06:00', '12:00', '18:00'] } },
);

const SAILED = planned({
  boat: BOAT,
  speeds: { white: 6, poled: 5, reefed: 5, deep: 4 },
  forecast: steady({ kn: 12 }),
});
const START = Date.parse('2027-03-01T00:00:00Z') / 1000;

/** Rows one after another from 1 March 2027 00:00 UTC, each an hour of 6 Nm under the white sails by day unless it says otherwise. */
function passageOf(
  rows: readonly Partial<Hour>[],
  options: Partial<Passage['options']> = {},
  startSeconds = START,
): Passage {
  let at = startSeconds;
  let distanceNm = 0;
  let before: string | null | undefined = options.planSet;
  const hours = rows.map((row): Hour => {
    const hour: Hour = {
      ...SAILED.hours[0]!,
      sailPlan: 'white',
      manner: 'direct',
      tack: 'port',
      twaDeg: -120,
      awaDeg: -90,
      awsKn: 8,
      gustAwsKn: 10,
      gustKn: 12,
      zoneHours: -2,
      daylight: true,
      runNm: 6,
      minutes: 60,
      runnerUp: null,
      barred: [],
      hands: 0,
      ...row,
      time: new Date(at * 1000).toISOString().replace('.000Z', 'Z'),
      distanceNm,
    };
    const sailChange = before !== undefined && before !== null && before !== hour.sailPlan;
    before = hour.sailPlan;
    at += hour.minutes * 60;
    distanceNm += hour.runNm;
    return { ...hour, sailChange };
  });
  return {
    ...SAILED,
    complete: true,
    reason: null,
    distanceToGoNm: 0,
    departure: hours[0]!.time,
    end: new Date(at * 1000).toISOString().replace('.000Z', 'Z'),
    options: { ...SAILED.options, ...options },
    hours,
  };
}

const tallyOf = (passage: Passage, id: string) => totalsOf(passage, BOAT).sails.find((sail) => sail.id === id)!;
const planOf = (passage: Passage, id: string) => totalsOf(passage, BOAT).sailPlans.find((plan) => plan.id === id)!;

describe('wind in the sails', () => {
  test('hours fall into bands by their lower ends, and short rows by their minutes', () => {
    const passage = passageOf([
      { awsKn: 4.999, awaDeg: 0 },
      { awsKn: 5, awaDeg: -19.99 },
      { awsKn: 44, awaDeg: 20 },
      { awsKn: 7, awaDeg: 180, minutes: 30 },
    ]);
    const { byAws, byAwa } = tallyOf(passage, 'main');
    expect(byAws.map(({ hours }) => hours)).toEqual([1, 1.5, 0, 0, 0, 0, 0, 0, 1]);
    expect(byAws.at(-1)).toMatchObject({ from: 40, to: null });
    expect(byAwa.map(({ hours }) => hours)).toEqual([2, 1, 0, 0, 0, 0, 0, 0, 0.5]);
    expect(byAwa.at(-1)).toMatchObject({ from: 160, to: 180 });
  });

  test('what has no heading is in no band of angles', () => {
    const { byAwa, byAws, hours } = totalsOf(passageOf([{ awaDeg: null }]), BOAT).sailPlans[0]!;
    expect([hours, byAwa.reduce((sum, band) => sum + band.hours, 0)]).toEqual([1, 0]);
    expect(byAws[1]!.hours).toBe(1);
  });

  test('a sail that was not set has no percentiles', () => {
    expect(tallyOf(passageOf([{ sailPlan: null, manner: 'hove-to' }]), 'jib')).toMatchObject({ hours: 0, awsKn: null });
  });

  test('percentiles are those that others give of published data', () => {
    // M. Ezekiel, Methods of Correlation Analysis, Wiley 1930: speeds of 50 cars, whose quartiles statistics packages print as 12, 15, 19.
    // Data and quartiles from memory.
    const speeds = [
      4, 4, 7, 7, 8, 9, 10, 10, 10, 11, 11, 12, 12, 12, 12, 13, 13, 13, 13, 14, 14, 14, 14, 15, 15, 15, 16, 16, 17, 17,
      17, 18, 18, 18, 18, 19, 19, 19, 20, 20, 20, 20, 20, 22, 23, 24, 24, 24, 24, 25,
    ];
    expect(speeds).toHaveLength(50);
    expect(percentilesOf([...speeds].reverse())).toMatchObject({ p25: 12, p50: 15, p75: 19 });
    // NIST/SEMATECH e-Handbook of Statistical Methods, 7.2.6.2: twelve gauge measurements whose 90th percentile is 95.1981, drawn between
    // the 11th and the 12th; the 95th lies there too. From memory.
    const gauges = [
      95.1772, 95.1567, 95.1937, 95.1959, 95.1442, 95.061, 95.1591, 95.1195, 95.1065, 95.0925, 95.199, 95.1682,
    ];
    const { p95, p50 } = percentilesOf(gauges)!;
    expect(p95).toBeGreaterThanOrEqual(95.1959);
    expect(p95).toBeLessThanOrEqual(95.199);
    expect(p50).toBeCloseTo((95.1567 + 95.1591) / 2, 9);
  });

  test('AWS percentiles of a sail are those of its rows', () => {
    const passage = passageOf(Array.from({ length: 20 }, (_, i) => ({ awsKn: i + 1 })));
    expect(tallyOf(passage, 'jib').awsKn).toEqual({
      // Drawn between the sorted values, the first at 0 and the last at 1: 1 + 19 × share.
      p5: expect.closeTo(1.95, 9),
      p25: 5.75,
      p50: 10.5,
      p75: 15.25,
      p95: 19.05,
    });
  });
});

describe('near the limit', () => {
  test('counts from just over four fifths of the limit in the gust, apparent or true', () => {
    const hoursAt = (row: Partial<Hour>, sail = 'jib') => tallyOf(passageOf([row]), sail).nearLimitHours;
    expect(hoursAt({ gustAwsKn: 16 })).toBe(0);
    expect(hoursAt({ gustAwsKn: 16.01 })).toBe(1);
    // The main's limit is in true wind: 0.8 × 30.
    expect(hoursAt({ gustKn: 24 }, 'main')).toBe(0);
    expect(hoursAt({ gustKn: 24.01 }, 'main')).toBe(1);
    // Reefed it may stand in 40.
    expect(hoursAt({ gustKn: 24.01, sailPlan: 'reefed' }, 'main')).toBe(0);
    expect(hoursAt({ gustKn: 32.01, sailPlan: 'reefed' }, 'main')).toBe(1);
  });

  test('reads a limit by angle at the mean AWA, and is the cloth’s in any setting', () => {
    // At 140° the pole's limit is half-way from 20 to 30: 0.8 × 25 = 20.
    const poled = (gustAwsKn: number) => passageOf([{ sailPlan: 'poled', awaDeg: -140, gustAwsKn }]);
    expect(tallyOf(poled(20), 'jib').nearLimitHours).toBe(0);
    expect(tallyOf(poled(20.01), 'jib').nearLimitHours).toBe(1);
    expect(planOf(poled(20.01), 'poled').nearLimitHours).toBe(1);
  });

  test('a plan counts an hour once, however many of its sails are near', () => {
    const both = passageOf([{ gustAwsKn: 19, gustKn: 29 }]);
    expect(planOf(both, 'white').nearLimitHours).toBe(1);
  });
});

describe('handling', () => {
  const rows: Partial<Hour>[] = [
    { sailPlan: 'white' },
    { sailPlan: 'reefed' },
    { sailPlan: 'deep' },
    { sailPlan: 'poled' },
    { sailPlan: null, manner: 'hove-to' },
    { sailPlan: 'white' },
  ];

  test('operations count at the cloth that is handled', () => {
    const totals = totalsOf(passageOf(rows), BOAT);
    const [main, jib] = totals.sails;
    // white → reefed: reef. deep → poled: shaken out. Hove to: main down; then up again.
    expect(main!.operations).toMatchObject({ reef: 1, shakeOut: 1 });
    // reefed → deep: poled out. poled → hove to: off the pole and furled; then unfurled.
    expect(jib!.operations).toMatchObject({ set: 1, douse: 1 });
    const sum = (pick: (sail: (typeof totals.sails)[number]) => number) =>
      totals.sails.reduce((all, one) => all + pick(one), 0);
    for (const operation of ['set', 'douse', 'unfurl', 'furl', 'reef', 'shakeOut'] as const)
      expect(totals.operations[operation]).toBe(sum(({ operations }) => operations[operation]));
  });

  test('what is set at departure is counted only against a plan that was set before', () => {
    const reefs = (planSet?: string) =>
      totalsOf(passageOf([{ sailPlan: 'reefed' }], planSet === undefined ? {} : { planSet }), BOAT).operations.reef;
    expect(reefs()).toBe(0);
    expect(reefs('white')).toBe(1);
    expect(reefs('reefed')).toBe(0);
  });

  test('a plan knows how often it was gone over to, and turns count under it', () => {
    const turning = passageOf([
      { sailPlan: 'white' },
      { sailPlan: 'white', tack: 'starboard', twaDeg: 120 },
      { sailPlan: 'reefed', tack: 'starboard', twaDeg: 50 },
      { sailPlan: 'reefed', tack: 'port', twaDeg: -50 },
      { sailPlan: 'white', tack: 'port', twaDeg: -120 },
    ]);
    expect(planOf(turning, 'white')).toMatchObject({ timesSet: 1, gybes: 1, tacks: 0 });
    expect(planOf(turning, 'reefed')).toMatchObject({
      timesSet: 1,
      gybes: 0,
      tacks: 1,
      operations: { reef: 1, shakeOut: 0 },
    });
    expect(planOf(turning, 'white').operations).toMatchObject({ reef: 0, shakeOut: 1 });
    expect(tallyOf(turning, 'main')).toMatchObject({ gybes: 1, tacks: 1 });
    expect(totalsOf(turning, BOAT)).toMatchObject({ gybes: 1, tacks: 1 });
  });

  test('changes by light, by watch of the ship’s clock, and those that wake the watch below', () => {
    // Her clock is two hours behind: the rows begin at 22, 23, 0, 1 o'clock. Two of four are on deck.
    const made = passageOf([
      { sailPlan: 'white', daylight: false },
      { sailPlan: 'reefed', daylight: false, hands: 2 },
      { sailPlan: 'white', daylight: false, hands: 4 },
      { sailPlan: 'reefed', daylight: true, hands: 4 },
    ]);
    expect(totalsOf(made, BOAT).changesAt).toEqual({
      day: 1,
      night: 2,
      watches: [
        { from: '00:00', to: '06:00', changes: 2 },
        { from: '06:00', to: '12:00', changes: 0 },
        { from: '12:00', to: '18:00', changes: 0 },
        { from: '18:00', to: '00:00', changes: 1 },
      ],
      // At midnight both watches are about: four hands wake nobody. At one they do.
      wakingWatch: 1,
    });
  });

  test('hours in which no plan fitted are those without sails and without a plan that might be set', () => {
    const without: Partial<Hour> = {
      sailPlan: null,
      manner: 'hove-to',
      barred: [{ sailPlan: 'white', reason: 'gust' }],
    };
    const bound: Partial<Hour> = { ...without, barred: [{ sailPlan: 'white', reason: 'setting' }] };
    const totals = totalsOf(
      // Hove to, hove to because of a change just made, hove to by choice, and under engine.
      passageOf([{}, without, bound, { ...without, runnerUp: 'reefed' }, { sailPlan: 'motor', manner: 'motor' }]),
      BOAT,
    );
    expect(totals.noPlanHours).toBe(2);
    expect(totals.hoveToHours).toBe(3);
  });
});

describe("day's runs", () => {
  test('run from noon to noon by the ship’s clock, the first from departure and the last to the end', () => {
    // Departure 00:00 UTC is 22:00 aboard; noon is 14:00 UTC.
    const { runs, bestRun, worstRun } = totalsOf(
      passageOf(Array.from({ length: 50 }, (_, i) => ({ runNm: i < 30 ? 6 : 7 }))),
      BOAT,
    );
    expect(runs.map(({ date, hours, distanceNm, whole }) => [date, hours, distanceNm, whole])).toEqual([
      ['2027-03-01', 14, 84, false],
      // 14:00 to 14:00: sixteen rows of 6 miles and eight of 7.
      ['2027-03-02', 24, 152, true],
      // Midnight aboard is of the next day.
      ['2027-03-03', 12, 84, false],
    ]);
    expect(runs[1]).toMatchObject({ from: '2027-03-01T14:00:00Z', to: '2027-03-02T14:00:00Z' });
    expect([bestRun, worstRun]).toEqual([runs[1], runs[1]]);
  });

  test('a departure at noon begins a whole day', () => {
    const { runs } = totalsOf(
      passageOf(
        Array.from({ length: 30 }, () => ({})),
        {},
        START + 14 * 3600,
      ),
      BOAT,
    );
    expect(runs.map(({ hours, whole }) => [hours, whole])).toEqual([
      [24, true],
      [6, false],
    ]);
  });

  test('a noon within a row cuts it', () => {
    const { runs } = totalsOf(
      passageOf(
        Array.from({ length: 30 }, () => ({})),
        {},
        START + 30 * 60,
      ),
      BOAT,
    );
    expect(runs[0]).toMatchObject({ hours: 13.5, distanceNm: 81, to: '2027-03-01T14:00:00Z' });
  });

  test('a day on which the clock goes back at noon has 25 hours, and no noon twice', () => {
    // From the row at 12:00 aboard (14:00 UTC) on the clock is three hours behind UTC, and it is 11:00 again.
    const rows = Array.from({ length: 64 }, (_, i) => ({ zoneHours: i < 14 ? -2 : -3 }));
    const { runs } = totalsOf(passageOf(rows), BOAT);
    expect(runs.map(({ to, hours, whole }) => [to, hours, whole])).toEqual([
      ['2027-03-01T14:00:00Z', 14, false],
      ['2027-03-02T15:00:00Z', 25, true],
      ['2027-03-03T15:00:00Z', 24, true],
      ['2027-03-03T16:00:00Z', 1, false],
    ]);
  });

  test('a day on which it goes forward has 23', () => {
    const rows = Array.from({ length: 64 }, (_, i) => ({ zoneHours: i < 14 ? -2 : -1 }));
    expect(totalsOf(passageOf(rows), BOAT).runs.map(({ to, hours }) => [to, hours])).toEqual([
      ['2027-03-01T14:00:00Z', 14],
      ['2027-03-02T13:00:00Z', 23],
      ['2027-03-03T13:00:00Z', 24],
      ['2027-03-03T16:00:00Z', 3],
    ]);
  });

  test('add up to the passage', () => {
    for (const length of [1, 13, 14, 15, 38, 39, 100]) {
      const passage = passageOf(Array.from({ length }, (_, i) => ({ runNm: (i * 7) % 11 })));
      const { runs, distanceNm, hours } = totalsOf(passage, BOAT);
      expect(runs.reduce((sum, run) => sum + run.distanceNm, 0)).toBeCloseTo(distanceNm, 9);
      expect(runs.reduce((sum, run) => sum + run.hours, 0)).toBeCloseTo(hours, 9);
    }
  });
});

test('what a sailmaker asks is in plan.json and plan.md, and the summary is printed', () => {
  const passage = passageOf(
    Array.from({ length: 70 }, (_, i) => ({ sailPlan: i % 30 < 20 ? 'white' : 'deep', awsKn: 12, hands: 2 })),
  );
  const totals = totalsOf(passage, BOAT);
  const toPrint = {
    passage,
    totals,
    boat: BOAT,
    route: {
      waypoints: [
        { name: 'A', latDeg: 0, lonDeg: -30 },
        { name: 'B', latDeg: 1, lonDeg: -30 },
      ],
    },
    inputs: [],
  };
  const read = JSON.parse(planJson(toPrint)) as { totals: typeof totals };
  expect(read.totals.sails[0]!.byAws).toEqual(totals.sails[0]!.byAws);
  expect(read.totals.runs).toHaveLength(totals.runs.length);
  const markdown = planMarkdown(toPrint);
  for (const heading of [
    '### Hours by apparent wind speed, kn',
    '### How they were handled',
    "## Day's runs",
    '### Changes by watch',
  ])
    expect(markdown).toContain(heading);
  expect(markdown).toContain('| sail | 10 to 15 |');
  expect(totalsText(toPrint)).toMatch(/Changes made {6}4 by day, 0 by night, 0 waking the watch below/);
  expect(totalsText(toPrint)).toMatch(
    /Day's runs {8}best 144 Nm \(2027-03-02\), worst 144 Nm \(2027-03-02\), mean 144 Nm of 2, noon to noon/,
  );
});
