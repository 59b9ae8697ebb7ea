import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { changeOf, effortOf } from '../src/change/change.js';
import {
  type Boat,
  daylightAt,
  type Hour,
  type House,
  type Passage,
  type PassageOptions,
  type Polar,
  planPassage,
  type Route,
  type Sail,
  sunTimesAt,
} from '../src/index.js';
import { isoUtc } from '../src/time.js';
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
  LON,
  MAIN,
  minutesOf,
  north,
  OPEN,
  op,
  planned,
  plansOf,
  rowAt,
  skyFields,
  steady,
  withFlying,
} from './support/invented.js';
import { type FieldAt, forecastOf, T0 } from './support/synthetic.js';

// What a sailor would argue by hand, about invented boats whose speeds are round numbers. What is said of the handling of sails is
// common practice, no source.

/** A main that takes a reef. */
const REEFING: Sail = {
  id: 'main',
  kind: 'pin-head-main',
  window: { ...OPEN, twsMaxKn: 22 },
  reefs: [{ areaShare: 0.6, twsMaxKn: 45 }],
  operations: { set: op(15, 2), douse: op(10, 2), reef: op(8, 2, 0.7), shakeOut: op(8, 2, 0.7) },
};
const reefing = (more: Partial<Boat> = {}): Boat => boatOf([REEFING], { full: ['main'], reef: ['main:1'] }, more);

const under = (plan: string | null, { hours }: Passage) => hours.filter(({ sailPlan }) => sailPlan === plan);
const changesOf = ({ hours }: Passage) => hours.filter(({ sailChange }) => sailChange);
const barredIn = ({ barred }: Hour, plan: string) => barred.find(({ sailPlan }) => sailPlan === plan)?.reason;
const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);
const sunset = () => (sunTimesAt(T0 + 14 * HOUR, 0, LON).sunsetEpochSeconds! - T0) / HOUR;
const sunrise = () => (sunTimesAt(T0 + 14 * HOUR, 0, LON).sunriseEpochSeconds! - T0) / HOUR;

describe('dusk with a sail for daylight only', () => {
  const boat = (douseMinutes: number) =>
    withFlying({ daylightOnly: true, operations: { set: op(20, 2), douse: op(douseMinutes, 2) } });
  const dusk = (douseMinutes: number, departs: number, house: House = {}, distanceNm = 60) =>
    planned({
      boat: boat(douseMinutes),
      speeds: { white: 6, light: 8 },
      forecast: steady({ kn: 12 }),
      route: north(distanceNm),
      departs,
      house: { pricePerChangeMinutes: 20, ...house },
      options: { planSet: 'white' },
    });

  test('the sun sets sixteen minutes past a whole hour, so that the cases below mean what they say', () => {
    expect(sunset()).toBeGreaterThan(20.2);
    expect(sunset()).toBeLessThan(20.3);
  });

  test.each([
    // At 20 h there are 16 minutes of sun left: ten are enough to douse it, thirty are not.
    [10, 20],
    [30, 19],
    [75, 19],
    [80, 18],
  ])('a sail that takes %s minutes to douse is left at %s h', (minutes, leftAt) => {
    const passage = dusk(minutes, 12, {}, 110);
    const flown = under('light', passage);
    expect(hourOf(flown[0]!)).toBe(12);
    expect(changeTimes(passage)).toEqual([
      [12, 'light'],
      [leftAt, 'white'],
    ]);
    const down = passage.hours.find((hour) => hourOf(hour) === leftAt)!;
    expect(down.changeMinutes).toBe(minutes);
    // Down by sunset, and an hour later would have been too late.
    const setsAt = sunTimesAt(T0 + 14 * HOUR, down.latDeg, down.lonDeg).sunsetEpochSeconds!;
    expect(epoch(down.time) + minutes * 60).toBeLessThanOrEqual(setsAt);
    expect(epoch(down.time) + HOUR + minutes * 60).toBeGreaterThan(setsAt);
    for (const hour of passage.hours.filter((one) => hourOf(one) >= leftAt))
      expect(barredIn(hour, 'light'), hour.time).toBe('night');
  });

  test.each([
    // Ten minutes by day, but the change to bare poles beyond it goes on into the dark, and then takes what the night takes of it: the
    // sail is down before all else, and by sunset at twenty minutes too.
    [12, 20],
    [20, 19],
  ])(
    'it is down by sunset in a change that ends in the dark: %s minutes by night, left at %s h',
    (nightMinutes, leftAt) => {
      const effort = (minutes: number) => ({ minutes, hands: 1, keptShare: 0.5 });
      const flyingOps = { set: op(5), douse: { day: effort(10), night: effort(nightMinutes) } };
      const passage = planned({
        boat: boatOf(
          [
            { ...MAIN, operations: { set: op(5), douse: op(30) } },
            { ...FLYING, daylightOnly: true, operations: flyingOps },
            { ...FLYING, id: 'jib', kind: 'self-tacking-jib', operations: { set: op(5), douse: op(5) } },
          ],
          { light: ['main', 'flying'], jib: ['jib'] },
        ),
        speeds: { light: 8, jib: 6 },
        forecast: steady({ kn: 12 }),
        route: north(110),
        options: { crew: 1, planSet: 'light' },
      });
      expect(changeTimes(passage)).toEqual([[leftAt, 'jib']]);
      expect(passage.changes![0]!.steps[0]).toMatchObject({ operation: 'douse', sail: 'flying' });
      const row = rowAt(passage, leftAt);
      const { steps } = passage.changes![0]!;
      const setsAt = sunTimesAt(T0 + 14 * HOUR, row.latDeg, row.lonDeg).sunsetEpochSeconds!;
      expect(epoch(row.time) + steps[0]!.minutes * 60).toBeLessThanOrEqual(setsAt);
    },
  );

  test('it is not set for too short a time to pay its price, worked out by hand', () => {
    // n hours under it, 20 minutes of them setting it at half of 6 kn, then 30 minutes dousing it at half of 6 kn: gained are
    // 2·n − 2/3 − 1 − 1.5 miles, at 6 kn 20·n − 31.7 minutes. Two changes cost 40: it takes 4 hours, 15 to 19 h.
    const [three, four] = [dusk(30, 16), dusk(30, 15)];
    expect(changesOf(three)).toEqual([]);
    expect(minutesOf(three)).toBeCloseTo(600, 1);
    expect(changeTimes(four)).toEqual([
      [15, 'light'],
      [19, 'white'],
    ]);
    expect(minutesOf(four)).toBeCloseTo(600 - (20 * 4 - 95 / 3), 1);
    // For nothing, two hours already gain.
    expect(under('light', dusk(30, 17, { pricePerChangeMinutes: 0 })).length).toBe(2);
    expect(under('light', dusk(30, 18, { pricePerChangeMinutes: 0 })).length).toBe(0);
  });

  test('in the morning it goes up with the sun and not before', () => {
    const passage = dusk(10, 26, {}, 100);
    const first = under('light', passage)[0]!;
    expect(hourOf(first)).toBe(Math.ceil(sunrise() + 24));
    expect(first.sailChange).toBe(true);
  });
});

describe('a lull of six hours in a steady breeze', () => {
  // 15 kn, from 18 to 24 h 8 kn. In the breeze the big plan is slower.
  const boat = boatOf([MAIN, { ...FLYING, id: 'big', operations: { set: op(15, 2), douse: op(15, 2) } }], {
    working: ['main'],
    big: ['main', 'big'],
  });
  const lull = (house: House, only?: string) =>
    planned({
      boat: only === undefined ? boat : boatOf(boat.sails, { [only]: ['main'] }),
      speeds: {
        working: [
          [8, 4],
          [15, 7],
        ],
        big: [
          [8, 4.8],
          [15, 6],
        ],
      },
      forecast: blowing(hourly(60), (hour) => ({ kn: hour >= 18 && hour <= 24 ? 8 : 15 })),
      house,
      options: { planSet: 'working' },
    });

  // 17 to 18 h and 24 to 25 h the wind goes from one to the other. She sails 12 to 17 h at 7 kn.
  const alone = lull({}, 'working');
  // Set at 18 h: 15 minutes at half of 4 kn, then 4.8 kn to 24 h; 6 × 4 would be 24 miles.
  const gainedNm = 0.25 * 2 + 5.75 * 4.8 - 24;
  // Doused at 24 h, while working would make 4 kn, from ten past 4.5 kn: 10 and 5 minutes at half of it. From a quarter past the
  // wind is looked at anew, and is as good for 4.75 kn as at ten past for 4.5.
  const lostNm = 0.5 * (4 / 6 + 4.5 / 12) - 0.25 / 12;
  // Made good at 7 kn, for the breeze is back when she arrives.
  const gain = (60 * (gainedNm - lostNm)) / 7;

  test('the gain by hand: half an hour for two changes', () => {
    expect(gain).toBeGreaterThan(25);
    expect(gain).toBeLessThan(40);
  });

  test('at twenty minutes a change nothing is touched', () => {
    const passage = lull({ pricePerChangeMinutes: 20 });
    expect(changesOf(passage)).toEqual([]);
    expect(minutesOf(passage)).toBeCloseTo(minutesOf(alone), 2);
  });

  // The search takes an hour at the mean of its ends, which makes the change back a minute and a half dearer.
  test.each([0, 10, (gain - 3) / 2])('at %s minutes a change the big sail is set for it', (pricePerChangeMinutes) => {
    const passage = lull({ pricePerChangeMinutes });
    expect(changeTimes(passage)).toEqual([
      [18, 'big'],
      [24, 'working'],
    ]);
    // Instants are told to the second.
    expect(Math.abs(minutesOf(alone) - minutesOf(passage) - gain)).toBeLessThan(0.05);
  });

  test('just above the gain it is not', () => {
    expect(changesOf(lull({ pricePerChangeMinutes: (gain + 1) / 2 }))).toEqual([]);
  });

  test('the curve tells both: what no change and what two changes make', () => {
    const { curve = [] } = lull({ pricePerChangeMinutes: 0 });
    const byChanges = new Map(curve.map((point) => [point.changes, point.hours * 60]));
    expect(Math.abs(byChanges.get(0)! - byChanges.get(2)! - gain)).toBeLessThan(2);
  });
});

describe('a front', () => {
  const LIMIT = 22;
  // Gusts of 15 kn until 18 h, 30 kn at 21 h; then the wind has gone from south-west to north-west; from 30 h on 15 kn again.
  const gustAt = (hour: number) => {
    if (hour <= 18) return 15;
    if (hour <= 21) return 15 + 5 * (hour - 18);
    return hour <= 29 ? 30 : 15;
  };
  const front = (house: House = {}, options: Partial<PassageOptions> = {}) =>
    planned({
      boat: reefing(),
      speeds: { full: 7, reef: 5 },
      forecast: blowing(hourly(72), (hour) => ({
        kn: 12,
        fromDeg: hour <= 20 ? 225 : 315,
        gustKn: gustAt(hour),
      })),
      route: north(150),
      house,
      options,
    });
  /** The highest gust between the start and the end of a row. */
  const worst = (hour: Hour) => Math.max(gustAt(hourOf(hour)), gustAt(hourOf(hour) + hour.minutes / 60));

  test.each([0, 20, 60])('the reef is in before the gust passes its limit, at %s minutes a change', (price) => {
    const passage = front({ pricePerChangeMinutes: price });
    expect(passage.complete).toBe(true);
    for (const hour of under('full', passage)) expect(worst(hour), hour.time).toBeLessThanOrEqual(LIMIT);
    // 22 kn are passed at 19:24: at 19 h at the latest it is taken, and not long before, for it is slow.
    expect(changeTimes(passage)[0]).toEqual([19, 'reef']);
  });

  test('every row in which the gust is over the limit says so of the full main', () => {
    const { hours } = front();
    for (const hour of hours.filter((one) => gustAt(hourOf(one)) > LIMIT)) {
      expect(barredIn(hour, 'full'), hour.time).toBe('gust');
      expect(hour.sailPlan).toBe('reef');
    }
    // In the hour in which the limit is passed too, though its start is below.
    const passing = hours.find((hour) => hourOf(hour) === 19)!;
    expect(passing.gustKn).toBeCloseTo(20, 3);
    expect(barredIn(passing, 'full')).toBe('gust');
    // Not where nothing is over it.
    expect(barredIn(hours.find((hour) => hourOf(hour) === 18)!, 'full')).toBeUndefined();
  });

  test('after it the reef is shaken out where that pays, and left in where it does not', () => {
    expect(changeTimes(front()).map(([, plan]) => plan)).toEqual(['reef', 'full']);
    expect(changeTimes(front({ pricePerChangeMinutes: 1000 })).map(([, plan]) => plan)).toEqual([]);
  });

  test('why it is reefed is told: what was set before was barred by the gust', () => {
    const [reefed] = front().changes!;
    expect(reefed).toMatchObject({ from: 'full', to: 'reef', barred: { reason: 'gust' } });
  });

  test('a gust that comes and goes between two whole hours is not overlooked', () => {
    const squall = planned({
      boat: reefing(),
      speeds: { full: 7, reef: 5 },
      forecast: blowing(
        hourly(96).map((half) => half / 2),
        (hour) => ({ kn: 12, gustKn: hour === 18.5 ? 30 : 15 }),
      ),
    });
    const row = squall.hours.find((hour) => hourOf(hour) === 18)!;
    expect(row.gustKn).toBeCloseTo(15, 3);
    expect(row.sailPlan).toBe('reef');
    expect(barredIn(row, 'full')).toBe('gust');
    // Only for that hour.
    expect(under('reef', squall).length).toBe(1);
  });
});

describe('house rules, each by itself', () => {
  describe('changes in the dark', () => {
    // The limit is passed at 26:24, four hours after the sun has set.
    const blows = blowing(hourly(72), (hour) => ({ kn: 12, gustKn: hour <= 26 ? 15 : hour <= 40 ? 32.5 : 15 }));
    const reefed = (changesInDark: 'any' | 'not-flying' | 'none') =>
      planned({
        boat: reefing(),
        speeds: { full: 7, reef: 5 },
        forecast: blows,
        house: { changesInDark },
        route: north(200),
      });

    test('any: the reef is taken when the gust comes', () => {
      expect(changeTimes(reefed('any'))[0]).toEqual([26, 'reef']);
      expect(reefed('any').hours.find((hour) => hourOf(hour) === 26)!.daylight).toBe(false);
    });

    test('none: before dark, its minutes included', () => {
      const passage = reefed('none');
      // 8 minutes from 20 h are over by sunset at 20:16.
      expect(changeTimes(passage)[0]).toEqual([20, 'reef']);
      for (const hour of changesOf(passage)) {
        expect(hour.daylight).toBe(true);
        expect(daylightAt(epoch(hour.time) + hour.changeMinutes * 60, hour.latDeg, hour.lonDeg)).toBe(true);
      }
      expect(passage.changes!.every(({ inNeed }) => !inNeed)).toBe(true);
      expect(minutesOf(passage)).toBeGreaterThan(minutesOf(reefed('any')));
    });

    test('not-flying: a reef is taken in the dark all the same', () => {
      expect(changeTimes(reefed('not-flying'))[0]).toEqual([26, 'reef']);
    });

    test('not-flying: what is set flying comes down before dark, though it could stand until the gust', () => {
      const flying = (changesInDark: 'any' | 'not-flying' | 'none') =>
        planned({
          boat: withFlying({ window: { ...OPEN, twsMaxKn: 22 }, operations: { set: op(10, 2), douse: op(10, 2) } }),
          speeds: { white: 6, light: 8 },
          forecast: blows,
          house: { changesInDark },
          route: north(200),
        });
      expect(changeTimes(flying('any'))[0]).toEqual([26, 'white']);
      expect(changeTimes(flying('not-flying'))[0]).toEqual([20, 'white']);
      expect(changeTimes(flying('none'))[0]).toEqual([20, 'white']);
      // Where nothing comes that bars it, it stands all night.
      const calm = planned({
        boat: withFlying({ operations: { set: op(10, 2), douse: op(10, 2) } }),
        speeds: { white: 6, light: 8 },
        forecast: steady({ kn: 12 }),
        house: { changesInDark: 'none' },
      });
      expect(new Set(plansOf(calm))).toEqual(new Set(['light']));
    });

    describe('what no plan aboard may stand in comes in the dark', () => {
      // One plan, which stands 22 kn. Before dark she can lie hove to in good time; in the dark only in need.
      const caught = (labels: number) =>
        planned({
          boat: boatOf([{ ...REEFING, reefs: [] }], { full: ['main'] }),
          speeds: { full: 7 },
          forecast: blowing(hourly(72), (hour) => ({ kn: 12, gustKn: hour <= 26 ? 15 : hour <= 30 ? 32.5 : 15 })),
          house: { changesInDark: 'none' },
          options: { labels },
          route: north(200),
        });
      /** All is down before dark, and goes up again with the sun. */
      const inGoodTime = (passage: Passage) => {
        expect(passage.complete).toBe(true);
        expect(changeTimes(passage)).toEqual([
          [20, null],
          [Math.ceil(24 + sunrise()), 'full'],
        ]);
        expect(passage.changes!.map(({ inNeed }) => inNeed)).toEqual([false, false]);
        for (const hour of under(null, passage).filter(({ daylight }) => !daylight))
          expect(barredIn(hour, 'full'), hour.time).toBe(gustOver(hour) ? 'gust' : 'night');
      };
      const gustOver = (hour: Hour) => hourOf(hour) >= 26 && hourOf(hour) < 31;

      test('she lies hove to before dark, were all ways kept that the search meets', () => {
        inGoodTime(caught(64));
      });

      test('and so as she is planned without asking for more', () => {
        inGoodTime(caught(4));
      });
    });
  });

  describe('hours between changes', () => {
    // Every two hours another plan is the faster.
    const boat = withFlying({ operations: { set: op(5, 2, 0.9), douse: op(5, 2, 0.9) } });
    const shifting = blowing(hourly(72), (hour) => ({ kn: Math.floor(hour / 2) % 2 === 0 ? 8 : 16 }));
    const by = {
      white: [
        [8, 4],
        [16, 9],
      ],
      light: [
        [8, 7],
        [16, 5],
      ],
    } as const;
    const shifted = (leastHoursBetweenChanges: number) =>
      planned({ boat, speeds: by, forecast: shifting, house: { leastHoursBetweenChanges }, route: north(150) });

    test.each([0, 3, 5, 12])('at least %s', (least) => {
      const times = changeTimes(shifted(least)).map(([time]) => time as number);
      times.slice(1).forEach((time, i) => {
        expect(time - times[i]!).toBeGreaterThanOrEqual(least);
      });
    });

    test('without the rule every shift is followed; the longer apart, the later she arrives', () => {
      expect(changesOf(shifted(0)).length).toBeGreaterThan(5);
      const arrivals = [0, 3, 5, 12].map((least) => minutesOf(shifted(least)));
      arrivals.slice(1).forEach((minutes, i) => {
        expect(minutes).toBeGreaterThanOrEqual(arrivals[i]! - 1);
      });
      expect(arrivals.at(-1)!).toBeGreaterThan(arrivals[0]! + 10);
    });

    describe('a plan that is barred', () => {
      // Full is set at once, for it gains; two hours later the gust takes it down again. The third plan stands the gust too.
      const stormy = boatOf([REEFING, { ...FLYING, id: 'third', window: { ...OPEN, twsMaxKn: 45 } }], {
        full: ['main'],
        reef: ['main:1'],
        third: ['third'],
      });
      const passage = planned({
        boat: stormy,
        speeds: { full: 9, reef: 4, third: 3.9 },
        forecast: blowing(hourly(72), (hour) => ({ kn: 12, gustKn: hour >= 15 && hour <= 30 ? 30 : 15 })),
        house: { leastHoursBetweenChanges: 8 },
        options: { planSet: 'reef' },
        route: north(90),
      });

      test('may be left at any time', () => {
        expect(changeTimes(passage).slice(0, 2)).toEqual([
          [12, 'full'],
          [14, 'reef'],
        ]);
        expect(barredIn(passage.hours[2]!, 'full')).toBe('gust');
      });

      test('rows tell what the rule keeps from being set', () => {
        expect(barredIn(passage.hours[0]!, 'third')).toBeUndefined();
        expect(barredIn(passage.hours[1]!, 'third')).toBe('setting');
        // Eight hours after the change at 14 h it may be set again.
        expect(barredIn(passage.hours.find((hour) => hourOf(hour) === 21)!, 'third')).toBe('setting');
        expect(barredIn(passage.hours.find((hour) => hourOf(hour) === 22)!, 'third')).toBeUndefined();
      });

      test('and nothing in the hour in which it is left', () => {
        expect(barredIn(passage.hours[2]!, 'third')).toBeUndefined();
      });
    });
  });

  describe('a reef for the night', () => {
    const night = (kn: number, nightReefAboveKn: number | null) =>
      planned({
        boat: reefing(),
        speeds: { full: 7, reef: 6 },
        forecast: steady({ kn }),
        house: { nightReefAboveKn },
        route: north(150),
      });

    test('above the wind of the rule the main is reefed before dark and shaken out by day', () => {
      const passage = night(18, 15);
      for (const hour of passage.hours) {
        const after = epoch(hour.time) + (hour.minutes - 10) * 60;
        const isDark = !hour.daylight || !daylightAt(after, hour.latDeg, hour.lonDeg);
        if (isDark) {
          expect(hour.sailPlan, hour.time).toBe('reef');
          expect(barredIn(hour, 'full'), hour.time).toBe('night');
        }
      }
      expect(changeTimes(passage)).toEqual([
        [20, 'reef'],
        [Math.ceil(24 + sunrise()), 'full'],
      ]);
    });

    test('in less wind, or without the rule, the full main stands all night', () => {
      expect(new Set(plansOf(night(14.9, 15)))).toEqual(new Set(['full']));
      expect(new Set(plansOf(night(18, null)))).toEqual(new Set(['full']));
    });
  });

  describe('waves', () => {
    const waveAt = (hour: number) => (hour <= 16 ? 1 : hour <= 20 ? 1 + (hour - 16) / 2 : 3);
    const sea = (house: House) =>
      planned({
        boat: withFlying({ operations: { set: op(10, 2), douse: op(10, 2) } }),
        speeds: { white: 6, light: 8 },
        forecast: blowing(hourly(72), (hour) => ({ kn: 12, waveM: waveAt(hour) })),
        house,
      });

    test('a sail is down before the waves pass its limit, and the row says so', () => {
      const passage = sea({ waveMaxM: { flying: 2.2 } });
      // 2.2 m come at 18:24.
      expect(changeTimes(passage)).toEqual([[18, 'white']]);
      for (const hour of passage.hours) {
        expect(barredIn(hour, 'light'), hour.time).toBe(hourOf(hour) >= 18 ? 'wave' : undefined);
        expect(barredIn(hour, 'white')).toBeUndefined();
      }
    });

    test('under the limit it stands', () => {
      expect(changeTimes(sea({ waveMaxM: { flying: 3.01 } }))).toEqual([]);
      expect(changeTimes(sea({}))).toEqual([]);
    });

    test('at the limit it still stands', () => {
      expect(changeTimes(sea({ waveMaxM: { flying: 3 } }))).toEqual([]);
    });
  });

  describe('gybes by day', () => {
    // The wind goes through the stern: 10° on one quarter at the hour before, 10° on the other after.
    const through = (crossing: number, gybesByDay: boolean, byNight = false) =>
      planned({
        boat: withFlying({
          gybe: { minutes: 15, hands: 2, byNight },
          operations: { set: op(10, 2), douse: op(10, 2) },
        }),
        speeds: { white: 6, light: 8 },
        forecast: blowing(hourly(72), (hour) => ({
          kn: 12,
          fromDeg: 180 + 10 * Math.max(-1, Math.min(1, hour - crossing)),
        })),
        house: { gybesByDay },
        route: north(180),
      });
    const flownAt = (passage: Passage, hour: number) =>
      passage.hours.find((one) => hourOf(one) === hour)?.sailPlan === 'light';

    test('a sail that is not gybed by night is down when the wind goes through the stern in the dark', () => {
      const passage = through(26.4, true);
      expect(flownAt(passage, 26)).toBe(false);
      expect(barredIn(passage.hours.find((one) => hourOf(one) === 26)!, 'light')).toBe('night');
      // Before and after it is worth while.
      expect(flownAt(passage, 24)).toBe(true);
      expect(flownAt(passage, 30)).toBe(true);
    });

    test('also in the last minutes of an hour', () => {
      expect(flownAt(through(26.95, true), 26)).toBe(false);
    });

    test('by day, without the rule, or where it is gybed by night, it stands', () => {
      expect(flownAt(through(16.4, true), 16)).toBe(true);
      expect(flownAt(through(26.4, false), 26)).toBe(true);
      expect(flownAt(through(26.4, true, true), 26)).toBe(true);
    });
  });

  describe('squalls', () => {
    const squally = (house: House, latDeg = 0) =>
      planned({
        boat: reefing(),
        speeds: { full: 7, reef: 6 },
        forecast: blowing([0, 12, 24, 36, 48, 60, 72], () => ({ kn: 12, gustKn: 14 })),
        route: {
          waypoints: [
            { name: 'A', latDeg, lonDeg: LON },
            { name: 'B', latDeg: latDeg - 1.5, lonDeg: LON },
          ],
        },
        house,
      });

    test('where they are likely enough the limit gust is the factor on the mean, and she is reefed for it', () => {
      const passage = squally({ squalls: true, squallChance: 0.05, squallThreshold: 0.02 });
      for (const hour of passage.hours) {
        expect(hour.gustKn).toBeGreaterThanOrEqual(2 * hour.twsKn - 1e-6);
        expect(hour.sailPlan).toBe('reef');
        expect(barredIn(hour, 'full')).toBe('gust');
      }
      const mild = squally({ squalls: true, squallChance: 0.05, squallThreshold: 0.02, squallFactor: 1.5 });
      for (const hour of mild.hours) expect(hour.gustKn).toBeCloseTo(18, 4);
      expect(new Set(plansOf(mild))).toEqual(new Set(['full']));
    });

    test('at the threshold they count, below it the gust is as forecast; and so without the rule', () => {
      const gusts = (house: House) => squally(house).hours.map(({ gustKn }) => Math.round(gustKn));
      expect(new Set(gusts({ squalls: true, squallChance: 0.02, squallThreshold: 0.02 }))).toEqual(new Set([24]));
      expect(new Set(gusts({ squalls: true, squallChance: 0.019, squallThreshold: 0.02 }))).toEqual(new Set([14]));
      expect(new Set(gusts({ squallChance: 1, squallThreshold: 0 }))).toEqual(new Set([14]));
    });

    test('by latitude: near the equator at any hour, at 8° by night only', () => {
      const hours = (latDeg: number) => squally({ squalls: true }, latDeg).hours;
      for (const hour of hours(3)) expect(hour.gustKn, hour.time).toBeCloseTo(24, 4);
      const further = hours(9);
      expect(further.some(({ daylight }) => daylight) && further.some(({ daylight }) => !daylight)).toBe(true);
      for (const hour of further) {
        expect(hour.gustKn, hour.time).toBeCloseTo(hour.daylight ? 14 : 24, 4);
        if (!hour.daylight) expect(hour.sailPlan, hour.time).toBe('reef');
      }
    });
  });

  describe('hands', () => {
    const boat = withFlying({ operations: { set: op(20, 3), douse: op(20, 2) } });
    const handled = (crew?: number, planSet?: string) =>
      planned({
        boat,
        speeds: { white: 6, light: 8 },
        forecast: steady({ kn: 12 }),
        options: { ...(crew === undefined ? {} : { crew }), ...(planSet === undefined ? {} : { planSet }) },
      });

    test('a change that wants three is not made by two', () => {
      const two = handled(2, 'white');
      expect(new Set(plansOf(two))).toEqual(new Set(['white']));
      for (const hour of two.hours) expect(barredIn(hour, 'light')).toBe('crew');
      expect(changeTimes(handled(3, 'white'))).toEqual([[12, 'light']]);
    });

    test('who does not say how many they are is not told that they are too few', () => {
      expect(changeTimes(handled(undefined, 'white'))).toEqual([[12, 'light']]);
    });

    test('one alone can always shorten sail, though it is told that two were wanted', () => {
      const alone = planned({
        boat: reefing(),
        speeds: { full: 7, reef: 5 },
        forecast: blowing(hourly(72), (hour) => ({ kn: 12, gustKn: hour <= 16 ? 15 : 32.5 })),
        options: { crew: 1 },
      });
      expect(changeTimes(alone)).toEqual([[16, 'reef']]);
      expect(alone.changes![0]).toMatchObject({ hands: 2, inNeed: false });
      for (const hour of alone.hours.filter((one) => hourOf(one) > 16))
        expect(barredIn(hour, 'full'), hour.time).toBe('gust');
    });

    test('nor is a sail set by two that three must take down: in the dark, where it may stand then', () => {
      const effort = (hands: number) => ({ minutes: 20, hands, keptShare: 0.5 });
      const handledBy = (crew: number, daylightOnly: boolean) =>
        planned({
          boat: withFlying({
            daylightOnly,
            operations: { set: op(20, 2), douse: { day: effort(2), night: effort(3) } },
          }),
          speeds: { white: 6, light: 8 },
          forecast: steady({ kn: 12 }),
          options: { crew, planSet: 'white' },
          route: north(30),
        });
      expect(changeTimes(handledBy(2, false))).toEqual([]);
      expect(changeTimes(handledBy(3, false))).toEqual([[12, 'light']]);
      expect(changeTimes(handledBy(2, true))).toEqual([[12, 'light']]);
    });

    test('what was set in harbour by more is taken down a hand short', () => {
      const passage = planned({
        boat: withFlying({ window: { ...OPEN, twsMaxKn: 20 }, operations: { set: op(20, 3), douse: op(20, 3) } }),
        speeds: { white: 6, light: 8 },
        forecast: blowing(hourly(72), (hour) => ({ kn: hour <= 16 ? 12 : 25 })),
        options: { crew: 2, planSet: 'light' },
      });
      expect(passage.changes).toMatchObject([{ to: 'white', hands: 3, handsShort: 1 }]);
    });

    test('what is set in harbour stays set', () => {
      expect(new Set(plansOf(handled(2)))).toEqual(new Set(['light']));
    });
  });

  describe('the watch below', () => {
    // Watches change at 12 h of her clock, 14 h of the forecast's; she sails at 12 h of that. Two of four are on deck, setting the
    // sail wants three.
    const boat = withFlying(
      { operations: { set: op(10, 3), douse: op(10, 2) } },
      { crew: 4, watches: { changes: ['00:00', '04:00', '08:00', '12:00', '16:00', '20:00'] } },
    );
    const watches = (gainKn: number, wakeMinutes: number, options: Partial<PassageOptions> = {}) =>
      planned({
        boat,
        speeds: { white: 6, light: 6 + gainKn },
        forecast: steady({ kn: 12 }),
        house: { wakeMinutes },
        options: { planSet: 'white', ...options },
      });

    test('is not woken for what gains less than it costs until the next change of watch', () => {
      // Half a knot for two hours is ten minutes at 6 kn.
      const passage = watches(0.5, 30);
      expect(changeTimes(passage)).toEqual([[14, 'light']]);
      expect(passage.changes![0]).toMatchObject({ wakesWatch: false, hands: 3 });
    });

    test('is woken where that costs nothing, or where it gains more', () => {
      expect(changeTimes(watches(0.5, 0))).toEqual([[12, 'light']]);
      // Two knots for two hours are four miles, which at 8 kn are half an hour.
      const passage = watches(2, 29);
      expect(changeTimes(passage)).toEqual([[12, 'light']]);
      expect(passage.changes![0]!.wakesWatch).toBe(true);
    });

    test('a price a minute dearer than what it gains moves the change, were all ways kept that the search meets', () => {
      expect(changeTimes(watches(2, 31, { labels: 64 }))).toEqual([[14, 'light']]);
      expect(changeTimes(watches(2, 300, { labels: 64 }))).toEqual([[14, 'light']]);
    });

    test.each([31, 60, 300])('and so as she is planned without asking for more, at %s minutes', (wakeMinutes) => {
      expect(changeTimes(watches(2, wakeMinutes))).toEqual([[14, 'light']]);
    });

    test('nor is the price forgotten where one way is kept of each state', () => {
      expect(changeTimes(watches(0.5, 60, { labels: 1 }))).toEqual([[14, 'light']]);
    });

    test('goes by the clock that is set at noon, not by the longitude', () => {
      // From 36° W to the west, her clock two hours behind; 37.5° W is passed at 6 h UTC of the next day and the clock set at 14 h. From
      // 8 h on the sail may stand: she waits for the watch that changes at 10 h UTC, 8 h by her clock, and 7 by that of the next zone.
      const west = {
        waypoints: [
          { name: 'A', latDeg: 0, lonDeg: -36 },
          { name: 'B', latDeg: 0, lonDeg: -40 },
        ],
      };
      const passage = planned({
        boat: {
          ...boat,
          sails: boat.sails.map((sail) => ({ ...sail, window: { ...OPEN, twsMaxKn: sail.id === 'flying' ? 20 : 60 } })),
        },
        speeds: { white: 6, light: 7 },
        forecast: blowing(hourly(96), (hour) => ({ kn: 12, gustKn: hour < 32 ? 25 : 15 })),
        house: { wakeMinutes: 300 },
        options: { planSet: 'white' },
        route: west,
        departs: 15,
      });
      expect(changeTimes(passage)).toEqual([[34, 'light']]);
      expect(passage.changes![0]!.wakesWatch).toBe(false);
      expect(rowAt(passage, 34).zoneHours).toBe(-2);
      expect(rowAt(passage, 34).lonDeg).toBeLessThan(-37.5);
    });

    test('of three teams one is below at a change of watch', () => {
      // Of six two are on deck, four at the change of watch: for five all are woken, whenever it is.
      const five = {
        ...boat,
        crew: 6,
        watches: { ...boat.watches!, teams: 3 },
        sails: boat.sails.map((sail) => (sail.id === 'flying' ? { ...sail, operations: { set: op(10, 5) } } : sail)),
      };
      const passage = planned({
        boat: five,
        speeds: { white: 6, light: 7 },
        forecast: steady({ kn: 12 }),
        house: { wakeMinutes: 30 },
        options: { planSet: 'white' },
        departs: 14,
      });
      expect(changeTimes(passage)).toEqual([[14, 'light']]);
      expect(passage.changes![0]!.wakesWatch).toBe(true);
    });

    test('a change that the watch on deck can make is made at once', () => {
      const two = {
        ...boat,
        sails: boat.sails.map((sail) => (sail.id === 'flying' ? { ...sail, operations: { set: op(10, 2) } } : sail)),
      };
      const passage = planned({
        boat: two,
        speeds: { white: 6, light: 6.5 },
        forecast: steady({ kn: 12 }),
        house: { wakeMinutes: 1000 },
        options: { planSet: 'white' },
      });
      expect(changeTimes(passage)).toEqual([[12, 'light']]);
      expect(passage.changes![0]!.wakesWatch).toBe(false);
    });
  });
});

describe('the engine', () => {
  const ENGINE = { cruiseKn: 5, litresPerHour: 2, fuelLitres: 14, reserveLitres: 2 };
  const MOTOR_BELOW = 2;
  // 12 kn; a calm of twelve hours with 2 kn of wind.
  const calmed = (from: number) => (hour: number) => ({ kn: hour >= from && hour <= from + 12 ? 2 : 12 });
  const by = {
    white: [
      [2, 0.5],
      [12, 6],
    ],
  } as const;
  const motoring = (
    engine: Partial<NonNullable<Boat['engine']>> = {},
    house: House = {},
    calmFrom = 16,
    more: Partial<Case> = {},
  ) =>
    planned({
      boat: boatOf([MAIN], { white: ['main'] }, { engine: { ...ENGINE, ...engine } }),
      speeds: by,
      forecast: blowing(hourly(96), calmed(calmFrom)),
      house: { motorBelowKn: MOTOR_BELOW, motorPriceMinutes: 5, ...house },
      ...more,
    });
  /** Hours under engine by the end of a row. */
  const motored = (passage: Passage) => {
    let hours = 0;
    return passage.hours.map((hour) => {
      if (hour.sailPlan === 'motor') hours += hour.minutes / 60;
      return { hour, hours };
    });
  };
  /** Speed under sail in a wind, by hand. */
  const sailKn = (twsKn: number) => 0.5 + (5.5 * (twsKn - 2)) / 10;

  test('a calm of twelve hours with fuel for six: six under engine, the reserve stays', () => {
    const passage = motoring();
    expect(passage.complete).toBe(true);
    const engineHours = motored(passage).at(-1)!.hours;
    expect(engineHours).toBeGreaterThan(5);
    expect(engineHours).toBeLessThanOrEqual(6);
    expect(ENGINE.fuelLitres - engineHours * ENGINE.litresPerHour).toBeGreaterThanOrEqual(ENGINE.reserveLitres - 1e-9);
    for (const hour of under('motor', passage)) {
      expect(hour.manner).toBe('motor');
      expect(hour.smgKn).toBeCloseTo(5, 6);
      expect(sailKn(hour.twsKn), hour.time).toBeLessThan(MOTOR_BELOW);
    }
  });

  test('with fuel for twelve and more the calm is motored through, and not a minute of the breeze', () => {
    const passage = motoring({ fuelLitres: 200 });
    expect(under('motor', passage).length).toBeGreaterThanOrEqual(11);
    for (const hour of under('motor', passage)) {
      expect(sailKn(hour.twsKn)).toBeLessThan(MOTOR_BELOW);
    }
  });

  test('not where a sail plan makes as much as the house speed, were the engine twice as fast', () => {
    expect(under('motor', motoring({ cruiseKn: 12, fuelLitres: 200 }, { motorBelowKn: 0.5 }))).toEqual([]);
    // With a hair more it is asked for, until she is there.
    expect(under('motor', motoring({ cruiseKn: 12, fuelLitres: 200 }, { motorBelowKn: 0.51 })).length).toBeGreaterThan(
      5,
    );
  });

  test('never without the rule, or without an engine', () => {
    expect(under('motor', motoring({}, { motorBelowKn: null }))).toEqual([]);
  });

  /** Engine hours for the batteries by the end of a row. */
  const charged = (hour: Hour, passage: Passage, hoursPerDay: number) =>
    (hoursPerDay * (epoch(hour.time) + hour.minutes * 60 - epoch(passage.departure))) / 86400;

  test.each([
    [16, 120],
    [30, 170],
  ])('what the batteries take is not there to motor with: a calm from %s h', (calmFrom, distanceNm) => {
    const sailed = (chargingHoursPerDay: number) =>
      motoring({ chargingHoursPerDay }, {}, calmFrom, { route: north(distanceNm) });
    const passage = sailed(3);
    expect(passage.complete).toBe(true);
    // Until she is there: what was motored and what was charged come out of the same six hours.
    for (const { hour, hours } of motored(passage))
      expect(hours + charged(hour, passage, 3), hour.time).toBeLessThanOrEqual(6 + 1e-9);
    expect(under('motor', passage).length).toBeGreaterThan(0);
    expect(under('motor', passage).length).toBeLessThan(under('motor', sailed(0)).length);
  });

  test('at a price of hours for an hour she waits for wind', () => {
    const passage = motoring({}, { motorPriceMinutes: 10_000 });
    expect(passage.complete).toBe(true);
    expect(under('motor', passage)).toEqual([]);
    expect(minutesOf(passage)).toBeGreaterThan(minutesOf(motoring()));
  });

  test('by night too, where the only sail that would draw is not set in the dark', () => {
    // The light sail makes 3 kn, the main 0.5 kn; in the dark only the main may stand, and that is below the house speed.
    const passage = planned({
      boat: withFlying(
        { daylightOnly: true, operations: { set: op(5), douse: op(5) } },
        { engine: { ...ENGINE, fuelLitres: 200 } },
      ),
      speeds: { white: 0.5, light: 3 },
      forecast: steady({ kn: 4 }),
      house: { motorBelowKn: 2, motorPriceMinutes: 0 },
      departs: 22,
      route: north(30),
    });
    expect(passage.hours[0]!.daylight).toBe(false);
    expect(passage.hours[0]!.sailPlan).toBe('motor');
  });

  describe('a calm from which the fuel does not lead', () => {
    const becalmed = (chargingHoursPerDay: number) =>
      motoring({ chargingHoursPerDay }, { motorPriceMinutes: 0 }, 0, {
        forecast: steady({ kn: 2 }),
        route: north(400),
        departs: 0,
      });

    test('six hours are motored, and then she lies there', () => {
      const passage = becalmed(0);
      expect(passage.complete).toBe(false);
      expect(motored(passage).at(-1)!.hours).toBeCloseTo(6, 6);
    });

    test.each([0.5, 1, 24])('so where the batteries want some of it, %s hours a day', (hoursPerDay) => {
      const passage = becalmed(hoursPerDay);
      // To the end of the forecast, long after the last hour under engine: four days.
      const own = motored(passage).at(-1)!.hours;
      expect(own).toBe(Math.max(0, 6 - 4 * hoursPerDay));
      expect(passage.complete).toBe(false);
    });
  });
});

describe('storms', () => {
  const storm = (fromDeg: number, gustKn: (hour: number) => number, limits: { readonly reef?: number | null } = {}) => {
    const boat = reefing();
    const reefs = [{ areaShare: 0.6, twsMaxKn: limits.reef === undefined ? 45 : limits.reef }];
    return planned({
      boat: { ...boat, sails: boat.sails.map((sail) => ({ ...sail, reefs })) },
      speeds: { full: 7, reef: 6 },
      forecast: blowing(hourly(72), (hour) => ({ kn: 20 + (gustKn(hour) - 20) / 2, fromDeg, gustKn: gustKn(hour) })),
    });
  };
  const peaking = (most: number) => (hour: number) => (hour >= 16 && hour <= 20 ? most : 20);

  test('before the wind she runs under bare poles, where no plan may stand and only there', () => {
    const passage = storm(180, peaking(60));
    expect(passage.complete).toBe(true);
    const bare = under('bare-poles', passage);
    expect(bare.length).toBeGreaterThan(3);
    for (const hour of passage.hours) {
      expect(hour.manner === 'bare-poles', hour.time).toBe(hour.sailPlan === 'bare-poles');
      if (hour.sailPlan === 'bare-poles') expect(hour.gustKn).toBeGreaterThan(45);
      if (hour.gustKn > 45) expect(['bare-poles', null]).toContain(hour.sailPlan);
    }
    // A tenth of 40 kn.
    const steadily = bare.find((hour) => hourOf(hour) === 17)!;
    expect(steadily.smgKn).toBeCloseTo(4, 4);
    expect(steadily.runNm).toBeCloseTo(4, 4);
  });

  test('not in a gust that a reef stands', () => {
    expect(under('bare-poles', storm(180, peaking(45)))).toEqual([]);
    expect(under(null, storm(180, peaking(45)))).toEqual([]);
  });

  test('nor with a plan that has no limit', () => {
    const passage = storm(180, peaking(60), { reef: null });
    expect(under('bare-poles', passage)).toEqual([]);
    expect(under('reef', passage).length).toBeGreaterThan(3);
  });

  test('against the wind she lies hove to: bare poles would take her back four miles an hour', () => {
    const passage = storm(0, peaking(60));
    expect(passage.complete).toBe(true);
    const hove = passage.hours.find((hour) => hourOf(hour) === 17)!;
    expect(hove).toMatchObject({ sailPlan: null, manner: 'hove-to', headingDeg: null, stwKn: null });
    expect(hove.smgKn).toBeCloseTo(-1, 6);
    expect(under('bare-poles', passage)).toEqual([]);
    for (const hour of under(null, passage)) expect(barredIn(hour, 'reef'), hour.time).toBe('gust');
  });
});

describe('arrival by daylight', () => {
  const arriving = (
    departs: number,
    distanceNm: number,
    fromDeg: number,
    options: Partial<PassageOptions> = {},
    kn = 12,
  ) =>
    planned({
      boat: boatOf([MAIN], { white: ['main'] }),
      speeds: { white: 6 },
      forecast: steady({ kn, fromDeg }, 120),
      route: north(distanceNm),
      departs,
      options: { arriveDaylight: true, ...options },
    });
  const lands = (passage: Passage) => daylightAt(epoch(passage.end), passage.hours.at(-1)!.latDeg, LON);

  test('a passage that ends by day is sailed as ever', () => {
    const passage = arriving(12, 30, 90);
    expect(minutesOf(passage)).toBeCloseTo(300, 1);
    expect(under(null, passage)).toEqual([]);
  });

  test.each(
    ['reaching', 'running', 'beating'].flatMap((point) =>
      [0, 3, 6, 9, 12, 15, 18, 21].map((departs) => [point, departs] as const),
    ),
  )('%s, from %s h: between sunrise and sunset, and no later than the first light she can meet', (point, departs) => {
    const passage = arriving(departs, 60, { reaching: 90, running: 180, beating: 0 }[point]!);
    expect(passage.complete).toBe(true);
    expect(lands(passage), passage.end).toBe(true);
    const straight = arriving(departs, 60, 90, { arriveDaylight: false });
    if (lands(straight)) expect(minutesOf(passage)).toBeCloseTo(minutesOf(straight), 1);
    else {
      // She heaves to for it.
      expect(under(null, passage).length).toBeGreaterThan(0);
    }
  });

  /** Minutes after sunrise. */
  const intoTheDay = (passage: Passage) =>
    (epoch(passage.end) - sunTimesAt(epoch(passage.end), 0, LON).sunriseEpochSeconds!) / 60;

  test.each([
    [95, 90],
    [130, 90],
    [95, 0],
    [130, 0],
  ])(
    'of %s miles with the wind from %s° no more than an hour and a quarter of daylight is waited away',
    (distanceNm, fromDeg) => {
      for (const departs of [0, 2.5, 5, 7.5]) {
        const passage = arriving(departs, distanceNm, fromDeg);
        const straight = arriving(departs, distanceNm, fromDeg, { arriveDaylight: false });
        if (lands(straight)) continue;
        expect(intoTheDay(passage), `${departs}`).toBeGreaterThan(0);
        // An hour hove to against the wind, a mile of drift and the changes to it and back.
        expect(intoTheDay(passage), `${departs}`).toBeLessThan(75);
      }
    },
  );

  test.each([
    [95, 7.5],
    [130, 0],
    [130, 2.5],
  ])('nor before the wind, of %s miles from %s h', (distanceNm, departs) => {
    const passage = arriving(departs, distanceNm, 180);
    expect(lands(passage)).toBe(true);
    expect(intoTheDay(passage)).toBeLessThan(60);
  });

  test('is held to what is sailed, not to the tables, which differ by minutes', () => {
    // Departures every ten minutes about the one that arrives at sunrise, beating where the tables are coarsest.
    for (let minutes = 0; minutes < 120; minutes += 10) {
      const passage = arriving(19 + minutes / 60, 60, 20);
      expect(lands(passage), passage.end).toBe(true);
    }
  });
});

describe('a price beyond all gain', () => {
  const boat = boatOf(
    [
      MAIN,
      { ...FLYING, id: 'one', operations: { set: op(5), douse: op(5) } },
      { ...FLYING, id: 'two', operations: { set: op(5), douse: op(5) } },
    ],
    { plain: ['main'], one: ['main', 'one'], two: ['main', 'two'] },
  );
  const by = {
    plain: [
      [5, 3],
      [25, 7],
    ],
    one: [
      [5, 5],
      [25, 5.5],
    ],
    two: [
      [5, 2],
      [25, 8],
    ],
  } as const;
  const windOf = (seed: number) => (hour: number) => ({
    kn: 14 + 8 * Math.sin(seed + hour / 4) + 2 * Math.sin(3 * seed + hour),
  });

  test.each([0, 1, 2, 3, 4, 5])('gives the single best plan all the way, in wind %s', (seed) => {
    const sail = (one: Boat, pricePerChangeMinutes: number) =>
      planned({ boat: one, speeds: by, forecast: blowing(hourly(60), windOf(seed)), house: { pricePerChangeMinutes } });
    const dear = sail(boat, 1_000_000);
    expect(changesOf(dear)).toEqual([]);
    const alone = boat.sailPlans.map((plan) => sail({ ...boat, sailPlans: [plan] }, 0));
    const best = alone.reduce((a, b) => (minutesOf(b) < minutesOf(a) ? b : a));
    expect(new Set(plansOf(dear))).toEqual(new Set(plansOf(best)));
    expect(dear.end).toBe(best.end);
    // And for nothing she changes, and is no later.
    expect(minutesOf(sail(boat, 0))).toBeLessThanOrEqual(minutesOf(best) + 0.05);
  });
});

describe('changes without price or minutes', () => {
  const TWS = [4, 8, 12, 16, 20, 28];
  const TWA = [30, 45, 60, 75, 90, 105, 120, 135, 150, 165, 180];
  const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
  /** A plan by its speed in a breeze at its best angle, that angle, how fast it falls off, and what it does in light airs. */
  const plan = fc.record({
    kn: number(5, 9),
    bestDeg: number(60, 150),
    widthDeg: number(60, 140),
    lightness: number(0.4, 1),
  });
  const polarOf = ({
    kn,
    bestDeg,
    widthDeg,
    lightness,
  }: {
    kn: number;
    bestDeg: number;
    widthDeg: number;
    lightness: number;
  }): Polar => ({
    twsKn: TWS,
    twaDeg: TWA,
    stwKn: TWA.flatMap((twa) =>
      TWS.map(
        (tws) => kn * Math.min(1, tws / 20) ** lightness * (0.3 + 0.7 * Math.exp(-(((twa - bestDeg) / widthDeg) ** 2))),
      ),
    ),
  });
  const cases = fc.record({
    plans: fc.tuple(plan, plan, plan),
    // Every six hours, with its turn off a mean direction. Where light airs turn by a right angle in an hour the mean of its ends says
    // little of it, and three minutes were seen.
    winds: fc.array(fc.tuple(number(8, 26), number(-30, 30)), { minLength: 13, maxLength: 13 }),
    fromDeg: fc.integer({ min: 0, max: 359 }),
  });

  test('no later than the fastest plan of every hour, in a wind that is the same everywhere', () => {
    const ids = ['a', 'b', 'c'];
    const boat = boatOf(
      ids.map((id) => ({ ...MAIN, id, operations: { set: op(0), douse: op(0) } })),
      Object.fromEntries(ids.map((id) => [id, [id]])),
    );
    fc.assert(
      fc.property(cases, ({ plans, winds, fromDeg }) => {
        const sailed = (choice: 'planned' | 'fastest') =>
          planPassage(
            {
              boat,
              polars: { status: 'measured', plans: Object.fromEntries(ids.map((id, i) => [id, polarOf(plans[i]!)])) },
              forecast: blowing(
                winds.map((_, i) => i * 6),
                (hour) => ({ kn: winds[hour / 6]![0], fromDeg: fromDeg + winds[hour / 6]![1] }),
              ),
              route: north(90),
            },
            { departure: isoUtc(T0), choice, house: { pricePerChangeMinutes: 0 } },
          );
        const [planned, fastest] = [sailed('planned'), sailed('fastest')];
        fc.pre(fastest.complete);
        // Where all may be carried at all times the search is exact; tables, and an hour taken at the mean of its ends, cost no more.
        expect(minutesOf(planned) - minutesOf(fastest)).toBeLessThanOrEqual(2 * Math.max(1, minutesOf(fastest) / 1440));
        expect(planned.complete).toBe(true);
      }),
      { numRuns: 60, endOnFailure: true },
    );
  });
});

describe('a change longer than an hour', () => {
  // 100 minutes at half of the slower plan's 6 kn.
  const passage = planned({
    boat: withFlying({ operations: { set: op(100, 1, 0.5), douse: op(100, 1, 0.5) } }),
    speeds: { white: 6, light: 8 },
    forecast: steady({ kn: 12 }),
    options: { planSet: 'white' },
  });

  test('slows the next hour too', () => {
    expect(changeTimes(passage)).toEqual([[12, 'light']]);
    expect(passage.hours[0]).toMatchObject({ sailPlan: 'light', changeMinutes: 100, sailChange: true });
    expect(passage.hours[0]!.runNm).toBeCloseTo(3, 6);
    expect(passage.hours[1]).toMatchObject({ sailPlan: 'light', changeMinutes: 0, sailChange: false });
    expect(passage.hours[1]!.runNm).toBeCloseTo(3 * (40 / 60) + 8 * (20 / 60), 6);
    expect(passage.hours[2]!.runNm).toBeCloseTo(8, 6);
  });

  test('and the passage by as much: 100 minutes lose five sixths of ten miles at 8 kn', () => {
    // 100 minutes at 3 kn are 5 miles; 95 miles are left at 8 kn.
    expect(minutesOf(passage)).toBeCloseTo(100 + (95 / 8) * 60, 1);
  });

  test('meanwhile nothing else is changed', () => {
    // Every six hours another plan is the faster. A change of two and a half hours is done before the next begins.
    const shifting = planned({
      boat: withFlying({ operations: { set: op(150, 1, 0.9), douse: op(150, 1, 0.9) } }),
      speeds: {
        white: [
          [8, 4],
          [16, 9],
        ],
        light: [
          [8, 9],
          [16, 4],
        ],
      },
      forecast: blowing(hourly(72), (hour) => ({ kn: Math.floor(hour / 6) % 2 === 0 ? 8 : 16 })),
      route: north(150),
    });
    const times = changeTimes(shifting).map(([time]) => time as number);
    expect(times.length).toBeGreaterThan(1);
    times.slice(1).forEach((time, i) => {
      expect(time - times[i]!).toBeGreaterThanOrEqual(3);
    });
  });
});

describe('the log', () => {
  const boat = withFlying({ operations: { set: op(24, 2, 0.6), douse: op(12, 3, 0.4) } });
  // The wind picks up from 8 to 16 kn between 12 and 20 h: what is set at first is the slower from then on.
  const passage = planned({
    boat,
    speeds: {
      white: [
        [8, 4],
        [16, 8],
      ],
      light: [
        [8, 6],
        [16, 7],
      ],
    },
    forecast: blowing(hourly(72), (hour) => ({ kn: hour <= 12 ? 8 : hour <= 20 ? 8 + (hour - 12) : 16 })),
    options: { planSet: 'white' },
  });
  const whiteKn = (twsKn: number) => 4 + (twsKn - 8) / 2;
  const lightKn = (twsKn: number) => 6 + (twsKn - 8) / 8;

  test('smgKn is the speed of the plan at the start of the hour, change or none', () => {
    expect(passage.complete).toBe(true);
    expect(changesOf(passage).length).toBeGreaterThan(0);
    for (const { smgKn, twsKn, sailPlan } of passage.hours)
      expect(smgKn).toBeCloseTo(sailPlan === 'light' ? lightKn(twsKn) : whiteKn(twsKn), 4);
  });

  test('runNm is what the hour made, by hand for the first', () => {
    // At 12 h the light sail goes up for 24 minutes at 0.6 of the slower, the main alone: 8 kn of wind, 8 1/6 after ten
    // minutes, 8 1/3 after twenty; from the 24th minute on, and from each ten, under the light sail.
    const [hour] = passage.hours;
    expect(hour).toMatchObject({ sailPlan: 'light', sailChange: true, changeMinutes: 24, hands: 2 });
    const wind = (minutes: number) => 8 + minutes / 60;
    const slow = 0.6 * (whiteKn(wind(0)) * 10 + whiteKn(wind(10)) * 10 + whiteKn(wind(20)) * 4);
    const quick = lightKn(wind(24)) * 6 + lightKn(wind(30)) * 10 + lightKn(wind(40)) * 10 + lightKn(wind(50)) * 10;
    expect(hour!.runNm).toBeCloseTo((slow + quick) / 60, 4);
  });

  test('runs add up to the distance, hour by hour', () => {
    expect(sum(passage.hours.map(({ runNm }) => runNm))).toBeCloseTo(100, 2);
    passage.hours.slice(1).forEach((hour, i) => {
      expect(hour.distanceNm).toBeCloseTo(sum(passage.hours.slice(0, i + 1).map(({ runNm }) => runNm)), 6);
    });
  });

  test('changes, their minutes and hands are those of the operations', () => {
    let before: string | null = 'white';
    for (const hour of passage.hours) {
      expect(hour.sailChange).toBe(hour.sailPlan !== before);
      const { minutes, hands } = effortOf(changeOf(boat, before, hour.sailPlan), !hour.daylight, 2);
      expect(hour.changeMinutes).toBe(minutes);
      expect(hour.hands).toBe(hands);
      before = hour.sailPlan;
    }
    const made = changesOf(passage);
    expect(passage.changes!.map(({ time, minutes, hands, to }) => [time, minutes, hands, to])).toEqual(
      made.map(({ time, changeMinutes, hands, sailPlan }) => [time, changeMinutes, hands, sailPlan]),
    );
  });

  test('a change in the dark takes its minutes of the night', () => {
    const slow = withFlying({
      window: { ...OPEN, twsMaxKn: 22 },
      operations: {
        set: op(10),
        douse: { day: { minutes: 10, hands: 2, keptShare: 0.5 }, night: { minutes: 25, hands: 3, keptShare: 0.2 } },
      },
    });
    const atNight = planned({
      boat: slow,
      speeds: { white: 6, light: 8 },
      forecast: blowing(hourly(72), (hour) => ({ kn: 12, gustKn: hour <= 26 ? 15 : 32 })),
      route: north(150),
    });
    const [change] = changesOf(atNight);
    expect(change).toMatchObject({ sailPlan: 'white', changeMinutes: 25, hands: 3, daylight: false });
    // 25 minutes at a fifth of 6 kn.
    expect(change!.runNm).toBeCloseTo((25 * 1.2 + 35 * 6) / 60, 6);
  });
});

describe('where weather or water are not as wished', () => {
  const white = boatOf([MAIN], { white: ['main'] });

  test('a place without wind ends the passage there', () => {
    // Land north of 1°: no wind from the grid's row at 1° on.
    const at: FieldAt = (lat) => (lat > 1 ? {} : skyFields({ kn: 12 }));
    const forecast = forecastOf(
      hourly(24).map((hour) => T0 + hour * HOUR),
      [-1, 0, 0.5, 1, 1.5, 2],
      [-31, -30, -29],
      at,
    );
    const passage = planned({ boat: white, speeds: { white: 6 }, forecast, departs: 0 });
    expect(passage).toMatchObject({ complete: false, reason: 'no-wind-data' });
    expect(100 - passage.distanceToGoNm).toBeGreaterThan(29);
    expect(100 - passage.distanceToGoNm).toBeLessThan(91);
    expect(passage.hours.every(({ sailPlan }) => sailPlan === 'white')).toBe(true);
    expect(sum(passage.hours.map(({ runNm }) => runNm))).toBeCloseTo(100 - passage.distanceToGoNm, 6);
  });

  test('a forecast that ends: sailed to its end, with what was made', () => {
    const passage = planned({ boat: white, speeds: { white: 6 }, forecast: steady({ kn: 12 }, 24), departs: 12.5 });
    expect(passage).toMatchObject({ complete: false, reason: 'forecast-ended', end: isoUtc(T0 + 24 * HOUR) });
    expect(passage.distanceToGoNm).toBeCloseTo(100 - 6 * 11.5, 4);
    expect(passage.hours.at(-1)!.minutes).toBeCloseTo(30, 6);
    // Arrival is reckoned at the mean speed so far, and said to be so.
    expect(passage.curve![0]).toMatchObject({ changes: 0, estimated: true });
    expect(passage.curve![0]!.hours).toBeCloseTo(100 / 6, 2);
  });

  test('towards the end of the forecast the plan that leads further is taken, not the one that is cheap', () => {
    const passage = planned({
      boat: withFlying({ operations: { set: op(10), douse: op(10) } }),
      speeds: { white: 6, light: 8 },
      forecast: steady({ kn: 12 }, 24),
      route: north(500),
      options: { planSet: 'white' },
    });
    expect(changeTimes(passage)).toEqual([[12, 'light']]);
  });

  test('a foul current that is stronger than she sets her back, but not behind the start', () => {
    const foul = (from: number) =>
      planned({
        boat: white,
        speeds: { white: 6 },
        forecast: blowing(hourly(72), (hour) => ({
          kn: 12,
          currentNorthKn: hour >= from && hour <= from + 4 ? -8 : 0,
        })),
        route: north(60),
      });
    const back = foul(15);
    expect(back.complete).toBe(true);
    const stem = back.hours.filter((hour) => hourOf(hour) >= 15 && hourOf(hour) < 19);
    for (const hour of stem) {
      // 6 kn through the water against 8 kn.
      expect(hour).toMatchObject({ sailPlan: 'white' });
      expect(hour.smgKn).toBeCloseTo(-2, 5);
      expect(hour.runNm).toBeCloseTo(-2, 5);
    }
    const atStart = foul(12);
    expect(atStart.complete).toBe(true);
    for (const hour of atStart.hours) expect(hour.distanceNm).toBeGreaterThanOrEqual(0);
    expect(sum(atStart.hours.map(({ runNm }) => runNm))).toBeCloseTo(60, 6);
    expect(new Set(plansOf(atStart))).toEqual(new Set(['white']));
  });

  describe('a sharp turn', () => {
    // North for 33 miles with the wind on the quarter, then back south with it ahead of the beam; at 6 to 9 kn the turn comes within an hour.
    const turn: Route = {
      waypoints: [
        { name: 'A', latDeg: 0, lonDeg: LON },
        { name: 'B', latDeg: 33 / 60, lonDeg: LON },
        { name: 'C', latDeg: 0, lonDeg: LON + 0.05 },
      ],
    };
    const sails: Sail[] = [
      { ...MAIN, operations: { set: op(6), douse: op(6) } },
      { ...FLYING, id: 'run', window: { awaMinDeg: 80, awaMaxDeg: 180 }, operations: { set: op(6), douse: op(6) } },
      { ...FLYING, id: 'close', window: { awaMinDeg: 0, awaMaxDeg: 70 }, operations: { set: op(6), douse: op(6) } },
    ];
    const turning = (plans: Record<string, readonly string[]>, price: number) =>
      planned({
        boat: boatOf(sails, plans),
        speeds: { white: 5, run: 8, close: 7 },
        forecast: steady({ kn: 16, fromDeg: 145 }),
        route: turn,
        house: { pricePerChangeMinutes: price },
      });

    test('no sail is carried round it into angles it does not stand, and no hour jumps across', () => {
      const passage = turning({ white: ['main'], run: ['main', 'run'], close: ['main', 'close'] }, 0);
      expect(passage.complete).toBe(true);
      for (const hour of passage.hours) {
        const end = hour.distanceNm + hour.runNm;
        if (hour.sailPlan === 'run') expect(end, hour.time).toBeLessThanOrEqual(33 + 1e-6);
        if (hour.sailPlan === 'close') expect(hour.distanceNm, hour.time).toBeGreaterThanOrEqual(33 - 1e-6);
      }
      expect(new Set(plansOf(passage))).toEqual(new Set(['run', 'white', 'close']));
    });

    test('in the hour of the turn the way is made on both legs', () => {
      const passage = turning({ white: ['main'] }, 0);
      expect(minutesOf(passage)).toBeCloseTo((60 * passage.hours.reduce((s, h) => s + h.runNm, 0)) / 5, 1);
      const at = passage.hours.findIndex(({ distanceNm, runNm }) => distanceNm < 33 && distanceNm + runNm > 33);
      expect(passage.hours[at]!.runNm).toBeCloseTo(5, 6);
      expect([passage.hours[at]!.leg, passage.hours[at + 1]!.leg]).toEqual([1, 2]);
    });

    test.each(['planned', 'fastest'] as const)(
      'with a plan for either leg and none for both she gets round all the same, %s',
      (choice) => {
        // Dead before the wind to the turn, then dead against it.
        const set = sails.map((sail) =>
          sail.id === 'close' ? { ...sail, window: { awaMinDeg: 0, awaMaxDeg: 40 } } : sail,
        );
        const passage = planned({
          boat: boatOf(
            set.filter(({ id }) => id !== 'main'),
            { run: ['run'], close: ['close'] },
          ),
          speeds: { run: 8, close: 7 },
          forecast: steady({ kn: 16, fromDeg: 180 }),
          route: turn,
          options: { choice },
        });
        expect(passage.complete).toBe(true);
      },
    );
  });
});

describe('a sail that may not be set', () => {
  const boat = withFlying({ operations: { set: op(20, 2), douse: op(30, 2) } });
  const without = (planSet: string) =>
    planned({
      boat,
      speeds: { white: 6, light: 8 },
      forecast: steady({ kn: 12 }),
      options: { without: ['flying'], planSet },
    });

  test('is taken down at departure where it is set, which is a change and takes its minutes', () => {
    const passage = without('light');
    expect(new Set(plansOf(passage))).toEqual(new Set(['white']));
    const [first] = passage.hours;
    expect(first).toMatchObject({ sailChange: true, changeMinutes: 30, hands: 2 });
    expect(passage.changes![0]).toMatchObject({ from: 'light', to: 'white' });
    // Half an hour at half of 6 kn.
    expect(first!.runNm).toBeCloseTo(1.5 + 3, 6);
    expect(minutesOf(passage)).toBeCloseTo(1000 + 15, 1);
    // It is not among what is barred: it is not aboard for this passage.
    for (const hour of passage.hours) expect(hour.barred).toEqual([]);
    expect(first!.runnerUp).toBeNull();
  });

  test('otherwise all is as on a boat without it', () => {
    const passage = without('white');
    const other = planned({
      boat: boatOf([MAIN], { white: ['main'] }),
      speeds: { white: 6 },
      forecast: steady({ kn: 12 }),
      options: { planSet: 'white' },
    });
    expect(passage.end).toBe(other.end);
    expect(passage.hours).toEqual(other.hours);
  });
});

describe('in a calm', () => {
  test('she keeps her sails up, for lying hove to would bring her no further', () => {
    // From the south at 1.5 kn: a tenth of it is less than the 0.3 kn of her sails, 1 kn to leeward would be more.
    const passage = planned({
      boat: boatOf([MAIN], { white: ['main'] }),
      speeds: { white: 0.3 },
      forecast: steady({ kn: 1.5, fromDeg: 180 }),
      route: north(20),
      options: { planSet: 'white' },
    });
    expect(new Set(passage.hours.map(({ manner }) => manner))).toEqual(new Set(['direct']));
  });

  test('hove to she drifts a tenth of a light wind, and a knot from ten knots on', () => {
    // Nothing she has stands on any course.
    const drifting = (kn: number) =>
      planned({
        boat: boatOf([{ ...MAIN, window: { ...OPEN, twsMaxKn: 1 } }], { white: ['main'] }, {}),
        speeds: { white: 5 },
        forecast: steady({ kn, fromDeg: 180 }),
        route: north(200),
        options: { choice: 'fastest' },
      }).hours[0]!.smgKn;
    expect(drifting(4)).toBeCloseTo(0.4, 4);
    expect(drifting(10)).toBeCloseTo(1, 4);
    expect(drifting(40)).toBeCloseTo(1, 4);
  });
});
