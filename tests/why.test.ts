import { describe, expect, test } from 'vitest';
import { type Boat, daylightAt, type House, type Passage, type SailChange, sunTimesAt } from '../src/index.js';
import {
  blowing,
  boatOf,
  type Case,
  changeTimes,
  epoch,
  FLYING,
  HOUR,
  hourly,
  hourOf,
  hoursAt,
  LON,
  MAIN,
  minutesOf,
  north,
  OPEN,
  op,
  planned,
  rowAt,
  steady,
  withFlying,
} from './support/invented.js';
import { T0 } from './support/synthetic.js';

// Why sails are changed, against what a sailor works out by hand. Boats and winds are invented; the handling of sails is common
// practice, no source.

const atHour = ({ changes = [] }: Passage, hour: number): SailChange =>
  changes.find(({ time }) => hoursAt(time) === hour)!;

/** A big sail for a lull of six hours, from 18 to 24 h, in a breeze in which it is slower. */
const lull = (house: House = {}, boat?: Boat) =>
  planned({
    boat:
      boat ??
      boatOf([MAIN, { ...FLYING, id: 'big', operations: { set: op(15, 2), douse: op(15, 2) } }], {
        working: ['main'],
        big: ['main', 'big'],
      }),
    speeds: {
      working: [
        [8, 4],
        [15, 7],
      ],
      ...(boat === undefined
        ? {
            big: [
              [8, 4.8],
              [15, 6],
            ] as const,
          }
        : {}),
    },
    forecast: blowing(hourly(60), (hour) => ({ kn: hour >= 18 && hour <= 24 ? 8 : 15 })),
    house,
    options: { planSet: 'working' },
  });

const REEFING = {
  ...MAIN,
  window: { ...OPEN, twsMaxKn: 22 },
  reefs: [{ areaShare: 0.6, twsMaxKn: 45 }],
  operations: { set: op(15, 2), douse: op(10, 2), reef: op(8, 2, 0.7), shakeOut: op(8, 2, 0.7) },
};
const reefing = boatOf([REEFING], { full: ['main'], reef: ['main:1'] });
/** A gust that passes 22 kn at 24 minutes past an hour and stays at 32.5 kn until another. */
const gusty = (from: number, until = 96) =>
  blowing(hourly(96), (hour) => ({ kn: 12, gustKn: hour <= from || hour > until ? 15 : 32.5 }));
const reefed = (from: number, more: Partial<Case> = {}) =>
  planned({ boat: reefing, speeds: { full: 7, reef: 5 }, forecast: gusty(from), route: north(200), ...more });

describe('every change has its reason', () => {
  // Three plans, each the fastest in some wind, and a gust that bars two of them.
  const boat = boatOf(
    [
      REEFING,
      { ...FLYING, id: 'one', operations: { set: op(20, 2), douse: op(12, 2) }, window: { ...OPEN, twsMaxKn: 18 } },
      { ...FLYING, id: 'two', daylightOnly: true, operations: { set: op(10, 2), douse: op(10, 2) } },
    ],
    { full: ['main'], reef: ['main:1'], one: ['main', 'one'], two: ['main', 'two'] },
  );
  const windAt = (seed: number) => (hour: number) => {
    const kn = 14 + 7 * Math.sin(seed + hour / 5) + 2 * Math.sin(3 * seed + hour);
    return { kn, gustKn: 1.3 * kn };
  };
  const sailed = (seed: number, pricePerChangeMinutes: number) =>
    planned({
      boat,
      speeds: {
        full: [
          [5, 3],
          [25, 8],
        ],
        reef: [
          [5, 2],
          [25, 7.5],
        ],
        one: [
          [5, 4.5],
          [25, 7.5],
        ],
        two: [
          [5, 4],
          [25, 8.5],
        ],
      },
      forecast: blowing(hourly(72), windAt(seed)),
      route: north(150),
      house: { pricePerChangeMinutes },
      options: { planSet: 'full' },
    });
  const CASES = [0, 1, 2, 3].flatMap((seed) => [0, 15].map((price) => [seed, price] as const));

  test.each(CASES)('in wind %s at %s minutes a change', (seed, price) => {
    const passage = sailed(seed, price);
    const { changes = [], hours } = passage;
    expect(changes.length).toBeGreaterThan(1);
    expect(changes.map(({ time, to }) => [hoursAt(time), to])).toEqual(changeTimes(passage));
    changes.forEach((change, n) => {
      const at = hours.findIndex(({ time }) => time === change.time);
      expect(change.from).toBe(at === 0 ? 'full' : hours[at - 1]!.sailPlan);
      // What is set stays until the next change, or until she is there, told to the second.
      const until = changes[n + 1]?.time ?? passage.end;
      expect(change.hours).toBeCloseTo((epoch(until) - epoch(change.time)) / HOUR, 3);
      // What was set could not stay, or another makes more good than it. Of the last change the gain is a defect, below.
      const isBetter = change.gainKn !== null && change.gainKn > 0;
      expect(change.barred !== null || isBetter || n === changes.length - 1, change.time).toBe(true);
      // Where it could not stay, the row of that time says the same of it.
      if (change.barred !== null) {
        const row = hours.find(({ time }) => time === change.barred!.time)!;
        expect(row.barred).toContainEqual({ sailPlan: change.from, reason: change.barred.reason });
        expect(epoch(change.barred.time)).toBeGreaterThanOrEqual(epoch(change.time));
        expect(epoch(change.barred.time)).toBeLessThan(epoch(until));
      }
      expect(change.runnerUp?.sailPlan).not.toBe(change.to);
    });
  });

  test('what is set at departure is no change where nothing is known to be set', () => {
    const passage = planned({ boat: reefing, speeds: { full: 7, reef: 5 }, forecast: steady({ kn: 12 }) });
    expect(passage.changes).toEqual([]);
  });
});

describe('what it gains', () => {
  test('in the mean over the hours it stays: a sail for a lull, its setting left out', () => {
    // 4.8 kn against 4 kn; the 15 minutes at half of 4 kn are told as minutes.
    expect(atHour(lull(), 18)).toMatchObject({ minutes: 15 });
    expect(atHour(lull(), 18).gainKn).toBeCloseTo(4.8 - 4, 3);
  });

  test('only over the hours in which what was set could have stayed', () => {
    // She may not reef in the dark, so that she reefs at 20 h; the full main could have stood until 26 h. 5 kn against six hours at
    // 7 kn: less, and she knows it.
    const change = atHour(reefed(26, { house: { changesInDark: 'none' } }), 20);
    expect(change).toMatchObject({ from: 'full', to: 'reef', barred: { reason: 'gust' } });
    expect(hoursAt(change.barred!.time)).toBe(26);
    expect(change.gainKn).toBeCloseTo(5 - 7, 3);
  });

  test('how near its limit the gust is to what was set', () => {
    // The full main stands 22 kn. At departure nothing was set in an hour before.
    const passage = reefed(17);
    const change = passage.changes!.find(({ to }) => to === 'reef')!;
    expect(change.gustShare).toBeCloseTo(rowAt(passage, 17).gustKn / 22, 9);
    const first = planned({
      boat: withFlying({}),
      speeds: { white: 5, light: 6 },
      forecast: steady({ kn: 12 }),
      options: { planSet: 'white' },
    });
    expect(atHour(first, 12).gustShare).toBeNull();
  });

  test('nothing is told where it could not have stayed at all', () => {
    const change = atHour(reefed(26), 26);
    expect(change).toMatchObject({ from: 'full', to: 'reef', barred: { reason: 'gust' }, gainKn: null });
    expect(hoursAt(change.barred!.time)).toBe(26);
  });

  test('where it could have stayed all the time nothing barred it', () => {
    expect(atHour(lull(), 18).barred).toBeNull();
  });

  test('also in the hour of arrival: 8 kn are two knots more than 6', () => {
    const passage = planned({
      boat: withFlying({ operations: { set: op(0), douse: op(0) } }),
      speeds: { white: 6, light: 8 },
      forecast: steady({ kn: 12 }),
      route: north(9),
      options: { planSet: 'white' },
    });
    expect(minutesOf(passage)).toBeCloseTo((60 * 9) / 8, 1);
    expect(atHour(passage, 12).gainKn).toBeCloseTo(2, 3);
  });

  test('nor over an engine for which there is no fuel', () => {
    const passage = planned({
      boat: boatOf([MAIN], { white: ['main'] }, { engine: { cruiseKn: 5, litresPerHour: 2, fuelLitres: 12 } }),
      speeds: {
        white: [
          [2, 0.5],
          [12, 6],
        ],
      },
      forecast: blowing(hourly(96), (hour) => ({ kn: hour >= 16 && hour <= 28 ? 2 : 12 })),
      house: { motorBelowKn: 2, motorPriceMinutes: 5 },
    });
    // Fuel for six hours is burnt from 16 h on.
    const change = passage.changes!.find(({ from }) => from === 'motor')!;
    expect(hoursAt(change.time)).toBe(22);
    expect(change.gainKn).toBeNull();
  });
});

describe('the next best', () => {
  // Before 18 h a is the fastest at 8 kn and then b is, at 8 kn too, so that a mile is always seven and a half minutes.
  const ids = ['a', 'b', 'c'];
  const boat = boatOf(
    ids.map((id) => ({ ...MAIN, id, operations: { set: op(0), douse: op(0) } })),
    Object.fromEntries(ids.map((id) => [id, [id]])),
  );
  const speeds = {
    a: [
      [8, 8],
      [16, 6],
    ],
    b: [
      [8, 7],
      [16, 8],
    ],
    c: [
      [8, 7.5],
      [16, 5],
    ],
  } as const;
  const shifting = (house: House = {}, without: readonly string[] = []) =>
    planned({
      boat,
      speeds,
      forecast: blowing(hourly(60), (hour) => ({ kn: hour <= 18 ? 8 : 16 })),
      house,
      options: { planSet: 'b', without },
    });

  test('is the plan she would take were the chosen one not aboard, and costs as much', () => {
    const passage = shifting();
    expect(changeTimes(passage)).toEqual([
      [12, 'a'],
      [18, 'b'],
    ]);
    const { runnerUp } = atHour(passage, 12);
    expect(runnerUp!.sailPlan).toBe('c');
    // Half a knot for six hours.
    expect(Math.abs(runnerUp!.costMinutes - (60 * 6 * 0.5) / 8)).toBeLessThan(1);
    const other = shifting({}, ['a']);
    expect(changeTimes(other)[0]).toEqual([12, 'c']);
    expect(Math.abs(runnerUp!.costMinutes - (minutesOf(other) - minutesOf(passage)))).toBeLessThan(1);
  });

  test('is to leave things as they are where two changes cost more than what another gains', () => {
    // Leaving b saves two changes: 45 minutes less 30.
    const passage = shifting({ pricePerChangeMinutes: 15 });
    expect(changeTimes(passage)[0]).toEqual([12, 'a']);
    const { runnerUp } = atHour(passage, 12);
    expect(runnerUp!.sailPlan).toBe('b');
    expect(Math.abs(runnerUp!.costMinutes - (45 - 30))).toBeLessThan(1);
  });

  test('is no plan that is barred on the way', () => {
    // c has no reef, and the gust passes its limit.
    const sails = [
      { ...REEFING, id: 'main' },
      { ...FLYING, id: 'c', window: { ...OPEN, twsMaxKn: 30 } },
      { ...FLYING, id: 'd', window: { ...OPEN, twsMaxKn: 40 } },
    ];
    const passage = planned({
      boat: boatOf(sails, { full: ['main'], reef: ['main:1'], c: ['c'], d: ['d'] }),
      speeds: { full: 7, reef: 6, c: 5.9, d: 5 },
      forecast: gusty(16, 20),
      route: north(200),
    });
    expect(changeTimes(passage)[0]).toEqual([16, 'reef']);
    expect(atHour(passage, 16).runnerUp!.sailPlan).toBe('d');
  });

  test('is to lie hove to where nothing else may stand', () => {
    expect(atHour(reefed(26), 26).runnerUp!.sailPlan).toBeNull();
  });

  test('costs what she would be later, were the sail not aboard', () => {
    const passage = lull();
    const alone = lull({}, boatOf([MAIN], { working: ['main'] }));
    const later = minutesOf(alone) - minutesOf(passage);
    const { runnerUp } = atHour(passage, 18);
    expect(runnerUp!.sailPlan).toBe('working');
    expect(Math.abs(runnerUp!.costMinutes - later)).toBeLessThan(4);
  });

  test('costs as much of the last change, after which nothing makes up for it', () => {
    const passage = planned({
      boat: withFlying({ operations: { set: op(0), douse: op(0) } }),
      speeds: { white: 6, light: 8 },
      forecast: steady({ kn: 12 }),
      route: north(96),
      options: { planSet: 'white' },
    });
    // 96 miles are 12 h at 8 kn and 16 h at 6 kn.
    expect(minutesOf(passage)).toBeCloseTo(720, 1);
    expect(Math.abs(atHour(passage, 12).runnerUp!.costMinutes - 240)).toBeLessThan(5);
  });

  test('is no better than what is chosen', () => {
    const passage = planned({
      boat: withFlying({}),
      speeds: {
        white: [
          [4, 3],
          [16, 10],
        ],
        light: [
          [4, 1],
          [16, 10.6],
        ],
      },
      forecast: blowing(hourly(60), (hour) => ({ kn: hour <= 14 ? 16 : 4 })),
      route: north(60),
      house: { pricePerChangeMinutes: 8 },
      options: { planSet: 'white' },
    });
    expect(changeTimes(passage)[0]).toEqual([12, 'light']);
    expect(atHour(passage, 12).runnerUp!.costMinutes).toBeGreaterThanOrEqual(0);
  });

  test('under engine has the price of its hours', () => {
    const passage = planned({
      boat: boatOf(
        [MAIN, FLYING],
        { white: ['main'], light: ['flying'] },
        { engine: { cruiseKn: 5, litresPerHour: 2, fuelLitres: 200 } },
      ),
      speeds: { white: 1.5, light: 1 },
      forecast: steady({ kn: 4 }),
      route: north(20),
      house: { motorBelowKn: 2, motorPriceMinutes: 1000 },
      options: { planSet: 'light' },
    });
    expect(changeTimes(passage)).toEqual([[12, 'white']]);
    expect(atHour(passage, 12).runnerUp!.costMinutes).toBeGreaterThanOrEqual(0);
  });

  test('is no plan for which there are too few hands', () => {
    const passage = planned({
      boat: boatOf(
        [MAIN, { ...FLYING, operations: { set: op(20, 3) } }, { ...FLYING, id: 'a', operations: { set: op(20, 1) } }],
        { white: ['main'], light: ['main', 'flying'], a: ['main', 'a'] },
      ),
      speeds: { white: 0.5, light: 6.9, a: 7 },
      forecast: steady({ kn: 12 }),
      route: north(400),
      options: { planSet: 'white', crew: 2 },
    });
    expect(rowAt(passage, 12).barred).toContainEqual({ sailPlan: 'light', reason: 'crew' });
    expect(atHour(passage, 12).runnerUp!.sailPlan).toBe('white');
  });
});

describe('what would be faster but may not be carried', () => {
  test('in the gust: with its reason and its speed', () => {
    expect(atHour(reefed(26), 26).fasterBarred).toEqual([{ sailPlan: 'full', reason: 'gust', smgKn: 7 }]);
  });

  test('in the dark: the sail that is not set then', () => {
    const passage = planned({
      boat: withFlying({ daylightOnly: true, operations: { set: op(20), douse: op(10) } }),
      speeds: { white: 6, light: 8 },
      forecast: steady({ kn: 12 }),
      options: { planSet: 'light' },
    });
    expect(atHour(passage, 20)).toMatchObject({
      to: 'white',
      barred: { reason: 'night' },
      fasterBarred: [{ sailPlan: 'light', reason: 'night', smgKn: 8 }],
    });
  });

  test('for want of hands, in waves and at angles; not what is slower', () => {
    const sails = ['crew', 'wave', 'angle', 'slow', 'a'].map((id) => ({
      ...FLYING,
      id,
      window: id === 'angle' ? { awaMinDeg: 100, awaMaxDeg: 180 } : OPEN,
      operations: { set: op(10, id === 'crew' || id === 'slow' ? 3 : 1) },
    }));
    const passage = planned({
      boat: boatOf([MAIN, ...sails], { white: ['main'], ...Object.fromEntries(sails.map(({ id }) => [id, [id]])) }),
      speeds: { white: 5, crew: 9, wave: 8.5, angle: 8, slow: 6.5, a: 7 },
      forecast: steady({ kn: 12, waveM: 3 }),
      house: { waveMaxM: { wave: 2 } },
      options: { planSet: 'white', crew: 2 },
    });
    const { to, fasterBarred } = atHour(passage, 12);
    expect(to).toBe('a');
    expect(rowAt(passage, 12).barred).toContainEqual({ sailPlan: 'slow', reason: 'crew' });
    expect(
      fasterBarred.map(({ sailPlan, reason, smgKn }) => [sailPlan, reason, Math.round(100 * smgKn) / 100]),
    ).toEqual([
      ['crew', 'crew', 9],
      ['wave', 'wave', 8.5],
      ['angle', 'window', 8],
    ]);
  });

  test('where nothing faster is barred there is none', () => {
    expect(atHour(lull(), 18).fasterBarred).toEqual([]);
  });
});

describe('the last hour by daylight', () => {
  const lastOf = (passage: Passage, hour: number) => {
    const { lastByDaylight } = atHour(passage, hour);
    return lastByDaylight === null ? null : hoursAt(lastByDaylight);
  };

  test('the sun sets sixteen minutes past 20 h, so that the cases below mean what they say', () => {
    const sunset = (sunTimesAt(T0 + 14 * HOUR, 0, LON).sunsetEpochSeconds! - T0) / HOUR;
    expect(sunset).toBeGreaterThan(20.2);
    expect(sunset).toBeLessThan(20.3);
  });

  test('by day: the last before sunset, where what is set may stay', () => {
    const passage = planned({
      boat: withFlying({ operations: { set: op(10), douse: op(10) } }),
      speeds: { white: 6, light: 8 },
      forecast: steady({ kn: 12 }),
      options: { planSet: 'white' },
    });
    expect(lastOf(passage, 12)).toBe(20);
  });

  test('the hour itself where what is set may stay no longer', () => {
    const passage = reefed(17);
    expect(rowAt(passage, 17).daylight).toBe(true);
    expect(lastOf(passage, 17)).toBe(17);
  });

  test('in the dark: the last light before it, from which what is set then could have stood', () => {
    const passage = reefed(26);
    expect(rowAt(passage, 26).daylight).toBe(false);
    expect(rowAt(passage, 20).daylight).toBe(true);
    expect(rowAt(passage, 21).daylight).toBe(false);
    expect(lastOf(passage, 26)).toBe(20);
  });

  test('a change in the dark that what is set lets wait: until the first light, by the sun', () => {
    // The gust falls after 26 h, in the dark; the reef may stay as long as one likes.
    const passage = reefed(17, { forecast: gusty(17, 26), route: north(200) });
    const shaken = passage.changes!.find(({ to }) => to === 'full')!;
    const sunrise = (sunTimesAt(T0 + 34 * HOUR, 0, LON).sunriseEpochSeconds! - T0) / HOUR;
    expect(hoursAt(shaken.time)).toBeLessThan(sunrise - 2);
    expect(hoursAt(shaken.firstByDaylight!)).toBe(Math.ceil(sunrise));
  });

  test('none that may wait where what is set may not stay until light, and none by day', () => {
    const night = reefed(26).changes!.find(({ to }) => to === 'reef')!;
    expect(night).toMatchObject({ daylight: false, firstByDaylight: null });
    const day = reefed(17).changes!.find(({ to }) => to === 'reef')!;
    expect(day).toMatchObject({ daylight: true, firstByDaylight: null });
  });

  test('none where what is set then could not have stood until then', () => {
    // The gust is over the full main's limit from 17:24 until it falls after 26 h.
    const passage = reefed(17, { forecast: gusty(17, 26) });
    const shaken = passage.changes!.find(({ to }) => to === 'full')!;
    expect(shaken.daylight).toBe(false);
    expect(rowAt(passage, 20).barred).toContainEqual({ sailPlan: 'full', reason: 'gust' });
    expect(shaken.lastByDaylight).toBeNull();
  });

  test('by day: at the hour in which what is set is barred it can still be changed', () => {
    const late = (light: number) =>
      planned({
        boat: withFlying({ window: { ...OPEN, twsMaxKn: 22 } }),
        speeds: { white: 6, light },
        forecast: gusty(16),
        options: { planSet: 'light' },
      });
    // Faster than white she keeps it as long as it may stand: to 16 h.
    expect(changeTimes(late(7))).toEqual([[16, 'white']]);
    expect(changeTimes(late(5))).toEqual([[12, 'white']]);
    expect(lastOf(late(5), 12)).toBe(16);
  });

  test('by day: the change itself is done by sunset', () => {
    const passage = planned({
      boat: withFlying({ operations: { set: op(30), douse: op(30) } }),
      speeds: { white: 6, light: 8 },
      forecast: steady({ kn: 12 }),
      options: { planSet: 'white' },
    });
    const { lastByDaylight, minutes } = atHour(passage, 12);
    const { latDeg, lonDeg } = rowAt(passage, hoursAt(lastByDaylight!));
    expect(daylightAt(epoch(lastByDaylight!) + minutes * 60, latDeg, lonDeg)).toBe(true);
  });
});

describe('in need', () => {
  const caught = (house: House) =>
    planned({
      boat: boatOf([{ ...REEFING, reefs: [] }], { full: ['main'] }),
      speeds: { full: 7 },
      forecast: gusty(26, 30),
      // Two and a half hours before the gust, in the dark.
      departs: 24,
      route: north(60),
      house,
      options: { planSet: 'full' },
    });

  test('a rule against changes in the dark is broken where nothing may stand, and that is told', () => {
    const passage = caught({ changesInDark: 'none' });
    expect(atHour(passage, 26)).toMatchObject({
      from: 'full',
      to: null,
      inNeed: true,
      daylight: false,
      barred: { reason: 'gust' },
    });
    // Setting it again waits for the sun.
    const again = passage.changes!.find(({ to }) => to === 'full')!;
    expect(again).toMatchObject({ inNeed: false, daylight: true });
    expect(hoursAt(again.time)).toBeGreaterThan(31);
  });

  test('without the rule it is none', () => {
    const passage = caught({});
    expect(atHour(passage, 26)).toMatchObject({ from: 'full', to: null, inNeed: false });
  });
});

describe('the watch below', () => {
  // Watches change at 12 h of her clock, 14 h of the forecast's. Two of four are on deck, setting the sail wants three.
  const watched = (wakeMinutes: number, crew = 4) =>
    planned({
      boat: withFlying(
        { operations: { set: op(10, 3), douse: op(10, 2) } },
        { crew, watches: { changes: ['00:00', '04:00', '08:00', '12:00', '16:00', '20:00'] } },
      ),
      speeds: { white: 6, light: 6.5 },
      forecast: steady({ kn: 12 }),
      house: { wakeMinutes },
      options: { planSet: 'white' },
    });

  test('is woken between changes of watch, by a change that wants more than are on deck', () => {
    expect(atHour(watched(0), 12)).toMatchObject({ wakesWatch: true, hands: 3 });
  });

  test('is not woken at the change of watch, nor where enough are on deck', () => {
    expect(atHour(watched(30), 14)).toMatchObject({ wakesWatch: false, hands: 3 });
    expect(atHour(watched(0, 6), 12)).toMatchObject({ wakesWatch: false, hands: 3 });
  });

  // Nobody is woken at the change of watch: leaving things as they are saves no price of it.
  test('costs nothing in the reckoning of the next best where both are about', () => {
    const passage = watched(30);
    // At 14 h 12 miles are made. The other 88 take 880 minutes at 6 kn; 10 minutes at half of 6 kn and the rest at 6.5 kn are 817.7.
    const later = 880 - (10 + ((88 - 0.5) / 6.5) * 60);
    expect(minutesOf(passage)).toBeCloseTo(1000 - later, 1);
    const { runnerUp } = atHour(passage, 14);
    expect(runnerUp!.sailPlan).toBe('white');
    expect(runnerUp!.costMinutes).toBeGreaterThan(0.8 * later);
  });
});

describe('the steps of a change', () => {
  const boat = boatOf(
    [
      MAIN,
      { ...FLYING, id: 'one', window: { ...OPEN, twsMaxKn: 22 }, operations: { set: op(5), douse: op(12, 2) } },
      { ...FLYING, id: 'two', operations: { set: op(20, 2), douse: op(5) } },
    ],
    { one: ['main', 'one'], two: ['main', 'two'] },
  );

  test('what stands comes down before the next goes up, each with its minutes and hands', () => {
    const passage = planned({
      boat,
      speeds: { one: 8, two: 7 },
      forecast: gusty(16),
      options: { crew: 2 },
    });
    // Two hands for each: one after the other.
    expect(atHour(passage, 16)).toMatchObject({
      from: 'one',
      to: 'two',
      minutes: 32,
      hands: 2,
      steps: [
        { operation: 'douse', sail: 'one', minutes: 12, hands: 2 },
        { operation: 'set', sail: 'two', minutes: 20, hands: 2 },
      ],
    });
  });

  const NIGHTLY = { day: { minutes: 30, hands: 1, keptShare: 0.5 }, night: { minutes: 60, hands: 2, keptShare: 0.5 } };
  const setAt = (hour: number) =>
    planned({
      boat: withFlying({ operations: { set: NIGHTLY, douse: op(10) } }),
      speeds: { white: 6, light: 8 },
      forecast: steady({ kn: 12 }),
      departs: hour,
      options: { planSet: 'white' },
    });

  test('by day and by night they take what the boat file says', () => {
    expect(hourOf(setAt(12).hours[0]!)).toBe(12);
    expect(atHour(setAt(12), 12)).toMatchObject({ daylight: true, minutes: 30, steps: [{ minutes: 30, hands: 1 }] });
    expect(atHour(setAt(22), 22)).toMatchObject({ daylight: false, minutes: 60, steps: [{ minutes: 60, hands: 2 }] });
  });

  test('those of a change that ends in the dark too', () => {
    const { minutes, hands, steps } = atHour(setAt(20), 20);
    expect([minutes, hands]).toEqual([60, 2]);
    expect(steps.map((step) => [step.minutes, step.hands])).toEqual([[60, 2]]);
  });
});
