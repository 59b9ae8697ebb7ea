import { describe, expect, test } from 'vitest';
import type { Boat, Hour, Passage } from '../src/index.js';
import {
  blowing,
  boatOf,
  byAngle,
  type Case,
  FLYING,
  hourly,
  MAIN,
  north,
  OPEN,
  op,
  planned,
  rowAt,
  type Sky,
  steady,
} from './support/invented.js';

// How firmly a plan stands, against the same worked out here for each of eight winds. Boats and winds are invented.

const RAD = Math.PI / 180;
/** Apparent wind angle at a true wind, an angle off the bow and a speed, by the law of cosines' own triangle. */
const awaOf = (twsKn: number, twaDeg: number, stwKn: number) =>
  Math.atan2(twsKn * Math.sin(twaDeg * RAD), stwKn + twsKn * Math.cos(twaDeg * RAD)) / RAD;
/** AWS² = G² + V² + 2·G·V·cos TWA. */
const awsOf = (gustKn: number, twaDeg: number, stwKn: number) =>
  Math.sqrt(gustKn ** 2 + stwKn ** 2 + 2 * gustKn * stwKn * Math.cos(twaDeg * RAD));
/** The gust in which an AWS is reached, found by halving. */
const gustFor = (awsKn: number, twaDeg: number, stwKn: number) => {
  let [low, high] = [Math.max(0, -stwKn * Math.cos(twaDeg * RAD)), 200];
  for (let i = 0; i < 60; i += 1) {
    const middle = (low + high) / 2;
    if (awsOf(middle, twaDeg, stwKn) < awsKn) low = middle;
    else high = middle;
  }
  return low;
};

/** The eight winds 10° and 20 % off, as turns in degrees and factors. */
const OTHERS = [-10, 0, 10]
  .flatMap((deg) => [0.8, 1, 1.2].map((factor) => ({ deg, factor })))
  .filter(({ deg, factor }) => deg !== 0 || factor !== 1);

/** The first hour of a passage north, in a wind that stays. */
const first = (
  boat: Boat,
  speeds: Case['speeds'],
  sky: Sky,
  more: Partial<Omit<Case, 'boat' | 'speeds' | 'forecast'>> = {},
): Hour => planned({ boat, speeds, forecast: steady(sky), route: north(20), ...more }).hours[0]!;

const RIVAL = { ...FLYING, id: 'rival' };
const alone = (window: Partial<Boat['sails'][number]['window']>) =>
  boatOf([{ ...MAIN, window: { ...OPEN, ...window } }], { own: ['main'] });
const withRival = (window: Partial<Boat['sails'][number]['window']> = {}, more: Partial<Boat['sails'][number]> = {}) =>
  boatOf(
    [
      { ...MAIN, window: { ...OPEN, ...window } },
      { ...RIVAL, ...more },
    ],
    { own: ['main'], rival: ['rival'] },
  );

describe('in how many of eight other winds the plan stands', () => {
  test('in all where nothing bars it and nothing else is there', () => {
    expect(first(alone({}), { own: 6 }, { kn: 12 }).standsShare).toBe(1);
  });

  test.each([
    [18, 1],
    [18.4, 5 / 8],
    [20, 5 / 8],
    [21.9, 5 / 8],
  ])('under a gust limit of 22 kn, in gusts of %s kn: %s', (gustKn, share) => {
    // A fifth more of 18.3 kn is 22 kn: then three of the eight are too strong.
    expect(first(alone({ twsMaxKn: 22 }), { own: 6 }, { kn: 12, gustKn }).standsShare).toBe(share);
  });

  // Courses on which no pair of headings takes the place of one that is barred: boards lie closer to abeam, where the window is shut too.
  test.each([
    [120, 60, 180],
    [120, 80, 180],
    [120, 85, 180],
    [120, 89, 180],
    [60, 0, 50],
    [60, 0, 47],
    [60, 0, 45],
    [60, 0, 41.5],
  ])(
    'at %s° to the wind, between AWA %s and %s°: as often as the apparent wind is between them',
    (twaDeg, from, to) => {
      const row = first(alone({ awaMinDeg: from, awaMaxDeg: to }), { own: 6 }, { kn: 12, fromDeg: twaDeg });
      const stands = OTHERS.filter(({ deg, factor }) => {
        const awa = awaOf(12 * factor, twaDeg + deg, 6);
        return awa >= from && awa <= to;
      });
      expect(row.sailPlan).toBe('own');
      expect(row.standsShare).toBe(stands.length / 8);
    },
  );

  test.each([4.9, 5.3, 5.7, 6.5])('beside a plan that gains with the wind, at %s kn of its own', (ownKn) => {
    // The other makes 4.8 kn in 12 kn of wind, 3.84 in a fifth less and 5.76 in a fifth more.
    const rivalKn = (twsKn: number) => 0.4 * twsKn;
    const row = first(
      withRival(),
      {
        own: ownKn,
        rival: [
          [5, 2],
          [30, 12],
        ],
      },
      { kn: 12 },
    );
    expect(row.sailPlan).toBe('own');
    const stands = OTHERS.filter(({ factor }) => rivalKn(12 * factor) <= ownKn);
    expect(row.standsShare).toBe(stands.length / 8);
  });

  test('beside a plan that is better further aft, by hand', () => {
    // At 90° 6 against 5.8 kn; at 100° 6 against 6.4; at 80° 6 against 5.2.
    const rival = byAngle([
      [80, 5.2],
      [90, 5.8],
      [100, 6.4],
      [180, 6.4],
    ]);
    const row = first(withRival(), { own: 6, rival }, { kn: 12 });
    expect(row.sailPlan).toBe('own');
    expect(row.standsShare).toBe(5 / 8);
    // From the other side it is the same.
    expect(first(withRival(), { own: 6, rival }, { kn: 12, fromDeg: 270 }).standsShare).toBe(5 / 8);
  });

  test('what was the faster already and is passed over does not count', () => {
    // Two knots faster, but the change costs more than it gains.
    const row = first(
      withRival(),
      { own: 6, rival: 8 },
      { kn: 12 },
      {
        house: { pricePerChangeMinutes: 10_000 },
        options: { planSet: 'own' },
      },
    );
    expect(row.sailPlan).toBe('own');
    expect(row.marginKn).toBeCloseTo(-2, 6);
    expect(row.standsShare).toBe(1);
  });

  test('what may not be set in the dark, or in the waves, is no rival then', () => {
    const speeds = {
      own: 5,
      rival: [
        [5, 2],
        [30, 12],
      ],
    } as const;
    const daylight = withRival({}, { daylightOnly: true });
    expect(first(daylight, speeds, { kn: 12 }, { departs: 12 }).standsShare).toBe(5 / 8);
    expect(first(daylight, speeds, { kn: 12 }, { departs: 24 }).standsShare).toBe(1);
    const house = { waveMaxM: { rival: 2 } };
    // Nor is one that her crew cannot take down.
    const heavy = withRival({}, { operations: { set: op(10, 2), douse: op(10, 3) } });
    expect(first({ ...heavy, crew: 3 }, speeds, { kn: 12 }).standsShare).toBe(5 / 8);
    expect(first({ ...heavy, crew: 2 }, speeds, { kn: 12 }).standsShare).toBe(1);
    expect(first(withRival(), speeds, { kn: 12, waveM: 1.9 }, { house }).standsShare).toBe(5 / 8);
    expect(first(withRival(), speeds, { kn: 12, waveM: 2.1 }, { house }).standsShare).toBe(1);
  });

  test('nothing is told where no sail plan is set', () => {
    const bare = first(alone({ twsMaxKn: 22 }), { own: 6 }, { kn: 12, gustKn: 30 });
    expect(['bare-poles', 'hove-to']).toContain(bare.manner);
    expect(bare).toMatchObject({
      standsShare: null,
      gustLimitKn: null,
      overGust: null,
      awaFromDeg: null,
      awaToDeg: null,
      overAngle: null,
    });
  });
});

describe('the gust in which a plan must come down', () => {
  const LIMIT = 22;
  test.each([40, 60, 90, 120, 150, 175])('by apparent wind, at %s° to the wind', (twaDeg) => {
    // No pair of headings is faster than 6 kn straight on, for the polar is the same at every angle.
    const row = first(alone({ awsMaxKn: LIMIT }), { own: 6 }, { kn: 10, fromDeg: twaDeg });
    expect(row.manner).toBe('direct');
    expect(Math.abs(row.twaDeg!)).toBeCloseTo(twaDeg, 3);
    expect(row.gustLimitKn).toBeCloseTo(gustFor(LIMIT, twaDeg, 6), 3);
  });

  test.each([
    [100, -0.05, undefined],
    [100, 0.05, 'gust'],
    [130, -0.05, undefined],
    [130, 0.05, 'gust'],
  ])('is where it is barred: at %s° in a gust %s kn off it', (twaDeg, offKn, bar) => {
    const gustKn = gustFor(LIMIT, twaDeg, 6) + offKn;
    const row = first(alone({ awsMaxKn: LIMIT }), { own: 6 }, { kn: 10, fromDeg: twaDeg, gustKn });
    expect(row.barred.find(({ sailPlan }) => sailPlan === 'own')?.reason).toBe(bar);
  });

  test('is read at the mean apparent wind angle where the limit is by angle', () => {
    const limits = [
      [40, 20],
      [120, 28],
    ] as const;
    const row = first(alone({ awsMaxKn: limits }), { own: 6 }, { kn: 12, fromDeg: 100 });
    const awa = awaOf(12, 100, 6);
    expect(row.awaDeg).toBeCloseTo(awa, 3);
    expect(row.gustLimitKn).toBeCloseTo(gustFor(20 + (awa - 40) / 10, 100, 6), 2);
  });

  test('is the least of all that bind it: true and apparent, of every sail set', () => {
    const both = (sails: Boat['sails']) => boatOf(sails, { own: sails.map(({ id }) => id) });
    const main = (window: object) => ({ ...MAIN, window: { ...OPEN, ...window } });
    const flying = (window: object) => ({ ...FLYING, window: { ...OPEN, ...window } });
    const at90 = (boat: Boat) => first(boat, { own: 6 }, { kn: 12 }).gustLimitKn;
    // Abeam AWS² = G² + V².
    const abeam = Math.sqrt(25 ** 2 - 6 ** 2);
    expect(at90(both([main({ awsMaxKn: 25 })]))).toBeCloseTo(abeam, 3);
    expect(at90(both([main({ awsMaxKn: 25, twsMaxKn: 30 })]))).toBeCloseTo(abeam, 3);
    expect(at90(both([main({ awsMaxKn: 25, twsMaxKn: 23 })]))).toBe(23);
    expect(at90(both([main({ awsMaxKn: 25 }), flying({ twsMaxKn: 21 })]))).toBe(21);
    expect(at90(both([main({ awsMaxKn: 25 }), flying({ awsMaxKn: 40 })]))).toBeCloseTo(abeam, 3);
    expect(at90(both([main({}), flying({})]))).toBeNull();
  });

  test('on a boat that makes leeway by the angle of her way and not of her bow', () => {
    // The course is square to the wind, the bow five degrees closer.
    const boat: Boat = {
      ...alone({ awsMaxKn: 25 }),
      leeway: [
        [0, 5],
        [180, 5],
      ],
    };
    const row = first(boat, { own: 6 }, { kn: 12 });
    expect(row.twaDeg).toBeCloseTo(85, 1);
    expect(row.gustLimitKn).toBeCloseTo(Math.sqrt(25 ** 2 - 6 ** 2), 2);
  });

  describe('by night, where the main is then reefed further', () => {
    const boat = boatOf(
      [
        {
          ...MAIN,
          window: { ...OPEN, twsMaxKn: 22 },
          reefs: [
            { areaShare: 0.8, twsMaxKn: 30 },
            { areaShare: 0.6, twsMaxKn: 45 },
          ],
        },
      ],
      { full: ['main'], first: ['main:1'], second: ['main:2'] },
    );
    const night = (gustKn: number) =>
      first(
        boat,
        { full: 7, first: 6, second: 5 },
        { kn: 18, gustKn },
        {
          departs: 24,
          house: { nightReefAboveKn: 15 },
        },
      );

    test('the first reef is not carried in gusts over the limit of the full main', () => {
      expect(night(21.9).sailPlan).toBe('first');
      expect(night(22.1).sailPlan).toBe('second');
      expect(night(22.1).barred).toContainEqual({ sailPlan: 'first', reason: 'night' });
      expect(night(30.1).barred).toContainEqual({ sailPlan: 'first', reason: 'gust' });
    });

    test('and its limit is told so', () => {
      expect(night(20)).toMatchObject({ sailPlan: 'first', gustLimitKn: 22 });
    });
  });

  test('a gust that is at the limit but for rounding lets it stand, in the plan as in the log', () => {
    const passage = planned({
      boat: alone({ twsMaxKn: 30 }),
      speeds: { own: 6 },
      forecast: steady({ kn: 12, gustKn: 30, fromDeg: 45 }),
    });
    expect(passage.hours[0]!.barred).toEqual([]);
    expect(passage.hours[0]!.sailPlan).toBe('own');
    expect(passage.complete).toBe(true);
  });
});

describe('what to go to over that gust', () => {
  const REEFS = {
    ...MAIN,
    window: { ...OPEN, twsMaxKn: 22 },
    reefs: [
      { areaShare: 0.8, twsMaxKn: 26 },
      { areaShare: 0.6, twsMaxKn: 45 },
    ],
  };
  const speeds = { full: 7, first: 6, second: 5 };
  const reefing = boatOf([REEFS], { full: ['main'], first: ['main:1'], second: ['main:2'] });

  test('the reef that stands a quarter more, and not the faster one that would have to come down next', () => {
    // A quarter more than 22 kn is 27.5 kn.
    expect(first(reefing, speeds, { kn: 12, gustKn: 16 })).toMatchObject({ sailPlan: 'full', overGust: 'second' });
  });

  test('the faster of two that stand it', () => {
    const higher = { ...REEFS, reefs: [{ areaShare: 0.8, twsMaxKn: 27.6 }, REEFS.reefs[1]!] };
    const boat = boatOf([higher], { full: ['main'], first: ['main:1'], second: ['main:2'] });
    expect(first(boat, speeds, { kn: 12, gustKn: 16 }).overGust).toBe('first');
  });

  test('the faster in the wind that goes with such a gust', () => {
    // 27.5 kn of gust over 16 are 12 · 27.5 / 16 = 20.6 kn of mean wind: there the second is the faster.
    const boat = boatOf([{ ...MAIN, window: { ...OPEN, twsMaxKn: 22 } }, FLYING, { ...FLYING, id: 'heavy' }], {
      own: ['main'],
      light: ['flying'],
      heavy: ['heavy'],
    });
    const by = {
      own: 7,
      light: 6,
      heavy: [
        [10, 4],
        [25, 9],
      ],
    } as const;
    const row = first(boat, by, { kn: 12, gustKn: 16 });
    expect(row).toMatchObject({ sailPlan: 'own', runnerUp: 'light', overGust: 'heavy' });
    // Where the gust is nearer to the limit the mean wind is higher to begin with: no more than a quarter is added.
    expect(first(boat, by, { kn: 12, gustKn: 22 })).toMatchObject({ sailPlan: 'own', overGust: 'light' });
  });

  describe('where nothing stands a quarter more', () => {
    const withReefTo = (twsMaxKn: number) =>
      boatOf([{ ...REEFS, reefs: [{ areaShare: 0.8, twsMaxKn }] }], { full: ['main'], first: ['main:1'], none: [] });
    const over = (twsMaxKn: number) => first(withReefTo(twsMaxKn), { ...speeds, none: 1 }, { kn: 12, gustKn: 16 });

    test.each([24.3, 22.5])('the reef that stands %s kn, and not bare poles', (twsMaxKn) => {
      // A tenth more than 22 kn is 24.2 kn, a fiftieth more 22.44 kn.
      expect(over(twsMaxKn)).toMatchObject({ sailPlan: 'full', gustLimitKn: 22, overGust: 'first' });
    });

    test('bare poles where the reef stands no more either', () => {
      expect(over(22.4)).toMatchObject({ sailPlan: 'full', overGust: 'none' });
    });
  });

  test('sail is taken away before another is set, though that would be faster', () => {
    const heavy = [
      [10, 4],
      [25, 9],
    ] as const;
    const boat = boatOf([REEFS, { ...FLYING, id: 'heavy' }], {
      full: ['main'],
      second: ['main:2'],
      both: ['main:2', 'heavy'],
    });
    expect(first(boat, { ...speeds, both: heavy }, { kn: 12, gustKn: 16 })).toMatchObject({
      sailPlan: 'full',
      runnerUp: 'second',
      overGust: 'second',
    });
  });

  test('a headsail comes off its pole, but goes on to it only where nothing else stands', () => {
    const jib = { ...MAIN, id: 'jib', kind: 'overlapping-genoa' as const };
    const poled = { ...jib, id: 'poled', kind: 'poled-out-headsail' as const, clothOf: 'jib' };
    const limits = (own: number, other: number) => [
      { ...jib, window: { ...OPEN, twsMaxKn: own } },
      { ...poled, window: { ...OPEN, twsMaxKn: other } },
      { ...FLYING, window: { ...OPEN } },
    ];
    const plans = { jib: ['jib'], poled: ['poled'], flying: ['flying'] };
    const sky = { kn: 12, gustKn: 16 };
    // Flying is faster in more wind: gone to from the jib, for to pole out is no less than to set another.
    const flying = [
      [12, 3],
      [25, 9],
    ] as const;
    expect(first(boatOf(limits(40, 22), plans), { jib: 5, poled: 6, flying }, sky)).toMatchObject({
      sailPlan: 'poled',
      overGust: 'jib',
    });
    expect(first(boatOf(limits(22, 40), plans), { jib: 6, poled: 5, flying }, sky)).toMatchObject({
      sailPlan: 'jib',
      overGust: 'flying',
    });
  });

  test('to lie hove to where nothing stands it, or where there is no limit', () => {
    const row = first(reefing, speeds, { kn: 30, gustKn: 40 });
    expect(row).toMatchObject({ sailPlan: 'second', gustLimitKn: 45, overGust: 'hove-to' });
    expect(first(alone({}), { own: 6 }, { kn: 12 })).toMatchObject({ gustLimitKn: null, overGust: null });
  });

  test('what comes next, were the gust so much: sailed in it she carries that', () => {
    const now = first(reefing, speeds, { kn: 12, gustKn: 16 });
    const passage: Passage = planned({
      boat: reefing,
      speeds,
      forecast: blowing(hourly(48), (hour) => {
        const more = hour <= 14 ? 1 : (1.25 * now.gustLimitKn!) / 16;
        return { kn: 12 * more, gustKn: 16 * more };
      }),
    });
    expect(rowAt(passage, 16).gustKn).toBeCloseTo(27.5, 3);
    expect(rowAt(passage, 16).sailPlan).toBe(now.overGust);
  });
});

describe('the angles between which a plan stands', () => {
  test('are common to all its sails', () => {
    const boat = boatOf(
      [
        { ...MAIN, window: { awaMinDeg: 28, awaMaxDeg: 150 } },
        { ...FLYING, window: { awaMinDeg: 50, awaMaxDeg: 170 } },
      ],
      { own: ['main', 'flying'] },
    );
    expect(first(boat, { own: 6 }, { kn: 12 })).toMatchObject({ awaFromDeg: 50, awaToDeg: 150 });
  });

  // Speeds on one side of 90° only, so that no pair of headings takes the place of the course.
  const CLOSE = byAngle([
    [30, 6],
    [90, 6],
  ]);
  const AFT = byAngle([
    [90, 6],
    [180, 6],
  ]);
  const abeam = (own: 'close' | 'run', fromDeg: number) =>
    first(
      boatOf(
        [
          { ...MAIN, window: { awaMinDeg: 0, awaMaxDeg: own === 'close' ? 70 : 62 } },
          { ...FLYING, window: { awaMinDeg: own === 'run' ? 60 : 65, awaMaxDeg: 180 } },
          { ...FLYING, id: 'slow' },
        ],
        { close: ['main'], run: ['flying'], slow: ['slow'] },
      ),
      { close: CLOSE, run: AFT, slow: 4 },
      // AWA 63.4 abeam.
      { kn: 12, fromDeg },
    );

  test.each([90, 270])(
    'with the wind from %s°: when it draws aft or forward beyond them, the fastest then',
    (fromDeg) => {
      // 20° aft AWA 80, 20° forward AWA 48.
      expect(abeam('close', fromDeg)).toMatchObject({ sailPlan: 'close', overAngle: 'run' });
      expect(abeam('run', fromDeg)).toMatchObject({ sailPlan: 'run', overAngle: 'close' });
    },
  );

  test('nothing is told where 20° either way leave it within them', () => {
    const boat = boatOf([{ ...MAIN, window: { awaMinDeg: 40, awaMaxDeg: 90 } }, FLYING], {
      own: ['main'],
      other: ['flying'],
    });
    expect(first(boat, { own: 6, other: 5 }, { kn: 12 })).toMatchObject({ sailPlan: 'own', overAngle: null });
    // With the wind at 60° AWA 41; at 80° AWA 56. Further aft it would be shut.
    const close = boatOf([{ ...MAIN, window: { awaMinDeg: 0, awaMaxDeg: 60 } }, FLYING], {
      own: ['main'],
      other: ['flying'],
    });
    expect(awaOf(12, 80, 6)).toBeLessThan(60);
    expect(awaOf(12, 90, 6)).toBeGreaterThan(60);
    const row = first(close, { own: 6, other: 5 }, { kn: 12, fromDeg: 60 });
    expect(row).toMatchObject({ sailPlan: 'own', overAngle: null });
  });

  test('on either tack the same is told', () => {
    const narrow = byAngle([
      [89.5, 6],
      [90.5, 6],
    ]);
    const told = [90, 270].map(
      (fromDeg) =>
        first(
          boatOf(
            [
              { ...MAIN, window: { awaMinDeg: 63, awaMaxDeg: 64 } },
              { ...FLYING, id: 'near', window: { awaMinDeg: 0, awaMaxDeg: 60 } },
              { ...FLYING, id: 'far', window: { awaMinDeg: 70, awaMaxDeg: 180 } },
            ],
            { own: ['main'], near: ['near'], far: ['far'] },
          ),
          { own: narrow, near: CLOSE, far: AFT },
          { kn: 12, fromDeg },
        ).overAngle,
    );
    expect(told[0]).toBe(told[1]);
  });

  test('also where it might still be tacked', () => {
    const boat = boatOf(
      [
        { ...MAIN, window: { awaMinDeg: 60, awaMaxDeg: 180 } },
        { ...FLYING, window: { awaMinDeg: 0, awaMaxDeg: 62 } },
      ],
      { own: ['main'], close: ['flying'] },
    );
    expect(first(boat, { own: 6, close: 6 }, { kn: 12 })).toMatchObject({ sailPlan: 'own', overAngle: 'close' });
  });
});

describe('towards dusk', () => {
  // What is not set in the dark is to be down by sunset: an hour from which it would be too late names it no more.
  const boat = boatOf(
    [
      { ...MAIN, window: { ...OPEN, twsMaxKn: 20 } },
      { ...FLYING, daylightOnly: true },
    ],
    { own: ['main'], light: ['flying'] },
  );
  const { hours } = planned({ boat, speeds: { own: 6, light: 3 }, forecast: steady({ kn: 12, gustKn: 16 }) });
  const byNight = (hour: Hour) =>
    hour.barred.some(({ sailPlan, reason }) => sailPlan === 'light' && reason === 'night');

  test('what is gone to is nothing that the same hour bars for the night', () => {
    const dusk = hours.filter((hour) => hour.daylight && byNight(hour));
    expect(dusk.length).toBeGreaterThan(0);
    for (const { overGust } of hours.filter(byNight)) expect(overGust).toBe('hove-to');
    const day = hours.filter((hour) => !byNight(hour));
    expect(day.length).toBeGreaterThan(3);
    for (const { overGust } of day) expect(overGust).toBe('light');
  });
});
