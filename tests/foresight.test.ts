import { describe, expect, test } from 'vitest';
import { type Forecast, planMarkdown } from '../src/index.js';
import { isoUtc } from '../src/time.js';
import {
  blowing,
  type Case,
  changeTimes,
  HOUR,
  hourly,
  hourOf,
  hoursAt,
  minutesOf,
  north,
  OPEN,
  op,
  planned,
  type Sky,
  steady,
  together,
  toPrint,
  withFlying,
} from './support/invented.js';
import { T0 } from './support/synthetic.js';

// What she may know under way, and what it costs not to know the rest: worked out by hand. Boats, winds and runs of models are invented.

const FAIR: Sky = { kn: 12, gustKn: 15 };
/** A gust that passes 22 kn at 24 minutes past an hour. */
const front =
  (from: number) =>
  (hour: number): Sky => ({ kn: 12, gustKn: hour <= from ? 15 : 32.5 });

/** A working plan at 6 kn, and a sail that makes it 8 kn and stands 22 kn; `minutes` to set and as many to douse, at a share of 6 kn. */
const boatWith = (minutes: number, keptShare: number) => {
  const effort = op(minutes, 1, keptShare);
  return withFlying({ window: { ...OPEN, twsMaxKn: 22 }, operations: { set: effort, douse: effort } });
};
const speeds = { white: 6, light: 8 };
// An hour of it makes 0.6 miles: to set and douse it loses 10.8 miles, six hours under it gain 12.
const SLOW = boatWith(60, 0.1);

const knowing = (forecast: Forecast, options: Case['options'], more: Partial<Case> = {}) =>
  planned({ boat: SLOW, speeds, forecast, ...more, options: { planSet: 'white', ...options } });

describe('a front that comes within what she sees', () => {
  const forecast = blowing(hourly(60), front(16));

  test('is known as far as the horizon where nothing tells of runs: the sail that would not pay is not set', () => {
    const passage = knowing(forecast, { horizonHours: 12, replanHours: 1 });
    expect(changeTimes(passage)).toEqual([]);
    expect(passage.foresight).toEqual({
      horizonHours: 12,
      replanHours: 1,
      wholeKnownEnd: isoUtc(T0 + 12 * HOUR + (100 / 6) * HOUR),
      wholeKnownComplete: true,
      costHours: 0,
      costWithPricesHours: 0,
    });
  });

  test('she is planned every twelve hours where nothing else is said, and without a horizon nothing is told', () => {
    expect(knowing(forecast, { horizonHours: 12 }).foresight!.replanHours).toBe(12);
    expect(knowing(forecast, { horizonHours: 6 }).foresight!.replanHours).toBe(6);
    expect(knowing(forecast, {}).foresight).toBeUndefined();
    expect(knowing(forecast, {}).options).toMatchObject({ horizonHours: null, replanHours: null });
  });

  test('with a horizon beyond the passage she sails as with all weather known', () => {
    const all = knowing(forecast, {});
    const passage = knowing(forecast, { horizonHours: 48, replanHours: 3 });
    expect(passage.hours).toEqual(all.hours);
    expect(passage.foresight!.costHours).toBe(0);
  });
});

describe('a front beyond the horizon', () => {
  // Set in 20 minutes and doused in as many, at half of 6 kn. From 16 h she sees an hour: 1 mile and 40 minutes at 8 kn are more than
  // 6 miles. At 17 h the gust is seen, and the sail comes down: 1 mile, and 40 minutes at 6 kn.
  const boat = boatWith(20, 0.5);
  const forecast = blowing(hourly(60), front(17));
  const short = (horizonHours: number) => knowing(forecast, { horizonHours, replanHours: 1 }, { boat, departs: 16 });

  test('is met: the sail is set for an hour and comes down again, and the later arrival is what it cost', () => {
    const passage = short(1);
    expect(changeTimes(passage)).toEqual([
      [16, 'light'],
      [17, 'white'],
    ]);
    const made = 1 + 8 * (2 / 3) + 1 + 6 * (2 / 3);
    const hours = 2 + (100 - made) / 6;
    expect(minutesOf(passage)).toBeCloseTo(hours * 60, 1);
    // With all weather known nothing is touched.
    const { foresight } = passage;
    expect(hoursAt(foresight!.wholeKnownEnd)).toBeCloseTo(16 + 100 / 6, 3);
    expect(foresight!.costHours).toBeCloseTo(hours - 100 / 6, 3);
    expect(foresight!.costHours).toBeGreaterThan(0.1);
  });

  test('an hour further and it costs nothing', () => {
    const passage = short(2);
    expect(changeTimes(passage)).toEqual([]);
    expect(passage.foresight!.costHours).toBe(0);
  });

  test('the curve is that of all weather known, the chosen row that of as many changes as are sailed', () => {
    const passage = short(1);
    const { curve = [] } = passage;
    expect(curve[0]).toMatchObject({ changes: 0, arrival: passage.foresight!.wholeKnownEnd, chosen: false });
    expect(changeTimes(passage).length).toBe(2);
    expect(curve.filter(({ chosen }) => chosen)).toMatchObject([{ changes: 2 }]);
  });

  test('the plan tells what not knowing cost, and what with the prices of the changes', () => {
    const passage = short(1);
    const two = (minutes: number) => `${minutes}`.padStart(2, '0');
    const cost = Math.round(passage.foresight!.costHours! * 60);
    expect(planMarkdown(toPrint(passage, { boat, speeds, forecast }))).toContain(
      `Planned with the weather known 1 h ahead, again every 1 h: she arrives 0 h ${two(cost)} min later than with all weather known, and with the prices of changes not knowing the rest costs 0 h ${two(cost)} min.`,
    );
    const none = short(2);
    expect(planMarkdown(toPrint(none, { boat, speeds, forecast }))).toContain('not knowing the rest costs 0 h 00 min.');
    // Two changes that would not have been made with all known, at three minutes each.
    const priced = knowing(
      forecast,
      { horizonHours: 1, replanHours: 1 },
      { boat, departs: 16, house: { pricePerChangeMinutes: 3 } },
    );
    expect(changeTimes(priced).length).toBe(2);
    const { costHours, costWithPricesHours } = priced.foresight!;
    expect((costWithPricesHours! - costHours!) * 60).toBeCloseTo(6, 6);
  });
});

describe('runs of a model', () => {
  const fair = (runHour: number, last = 96) => blowing(hourly(last, runHour), () => FAIR, runHour);
  const told = (runHour: number, from: number) => blowing(hourly(96, runHour), front(from), runHour);
  const OPTIONS = { horizonHours: 48, replanHours: 1 };
  const setAt12 = [
    [12, 'light'],
    [16, 'white'],
  ];

  test('a front that is first told by a run begun under way is known by nobody before', () => {
    const forecast = together(fair(0), told(15, 16));
    const passage = knowing(forecast, OPTIONS);
    // 0.6 miles in the hour in which it is set, three hours at 8 kn, and 0.6 miles while it comes down.
    expect(changeTimes(passage)).toEqual(setAt12);
    const hours = 5 + (100 - (0.6 + 24 + 0.6)) / 6;
    expect(minutesOf(passage)).toBeCloseTo(hours * 60, 1);
    expect(passage.foresight!.costHours).toBeCloseTo(hours - 100 / 6, 3);
    expect(hoursAt(passage.foresight!.wholeKnownEnd)).toBeCloseTo(12 + 100 / 6, 3);
    // The same weather without the times of its runs would have been seen coming.
    const unsaid = blowing(hourly(96), front(16));
    expect(changeTimes(knowing(unsaid, OPTIONS))).toEqual([]);
  });

  test('the newest run begun by departure is believed, and not an older one', () => {
    // The older run tells of a front at 16 h and the newer of none, or the other way round; the newer is right.
    expect(changeTimes(knowing(together(told(0, 16), fair(6)), OPTIONS))).toEqual([[12, 'light']]);
    expect(changeTimes(knowing(together(fair(0), told(6, 16)), OPTIONS))).toEqual([]);
    // In whatever order the files are given.
    expect(changeTimes(knowing(together(told(6, 16), fair(0)), OPTIONS))).toEqual([]);
  });

  test('one begun at the instant of departure is known, one begun an hour later is not', () => {
    expect(changeTimes(knowing(together(fair(0), told(12, 16)), OPTIONS))).toEqual([]);
    expect(changeTimes(knowing(together(fair(0), told(13, 16)), OPTIONS))[0]).toEqual([12, 'light']);
  });

  test('a run begun under way is asked at the next planning after it', () => {
    // The run of 0 h has gusts in which the light sail does not stand, all the way; that of 14 h has none.
    const better = (runHour: number) =>
      together(
        blowing(hourly(96), () => ({ kn: 12, gustKn: 30 }), 0),
        blowing(hourly(96, runHour), () => FAIR, runHour),
      );
    const sailed = (replanHours: number) => knowing(better(14), { horizonHours: 48, replanHours });
    expect(changeTimes(sailed(1))).toEqual([[14, 'light']]);
    expect(changeTimes(sailed(2))).toEqual([[14, 'light']]);
    expect(changeTimes(sailed(3))).toEqual([[15, 'light']]);
    expect(changeTimes(sailed(5))).toEqual([[17, 'light']]);
    // The longer she waits, the more it costs: an hour at 8 instead of 6 kn each.
    const costs = [1, 3, 5].map((hours) => sailed(hours).foresight!.costHours!);
    expect(costs[0]).toBeCloseTo(0, 3);
    expect(costs[1]).toBeCloseTo(2 / 8, 3);
    expect(costs[2]).toBeCloseTo(6 / 8, 3);
  });

  test('what comes against all that was known is sailed all the same, under what may stand', () => {
    // A run of long after tells how it was: gusts all the way. Until then only the first is known.
    const was = blowing(hourly(96), () => ({ kn: 12, gustKn: 30 }), 40);
    const passage = knowing(
      together(
        blowing(hourly(96), () => FAIR, 0),
        was,
      ),
      OPTIONS,
    );
    expect(passage.complete).toBe(true);
    expect(new Set(passage.hours.map(({ sailPlan }) => sailPlan))).toEqual(new Set(['white']));
    expect(minutesOf(passage)).toBeCloseTo(1000, 1);
  });

  test('one run that reaches not far: beyond it she sees nothing until the next', () => {
    // The first run ends at 20 h; another begins at 18 h and has the front at 22 h.
    const forecast = together(fair(0, 20), told(18, 22));
    const passage = knowing(forecast, { horizonHours: 48, replanHours: 6 });
    expect(passage.complete).toBe(true);
    // Every hour follows the one before.
    passage.hours.slice(1).forEach((hour, i) => {
      expect(hourOf(hour) - hourOf(passage.hours[i]!)).toBe(1);
    });
    for (const hour of passage.hours.filter((one) => hourOf(one) >= 22)) expect(hour.sailPlan).toBe('white');
    expect(passage.foresight!.costHours).toBeGreaterThanOrEqual(-1e-6);
  });

  test('where no run was begun by departure something must be known: all of it', () => {
    // By the hour alone the sail would never be set: it loses an hour's way before it gains.
    expect(
      changeTimes(
        knowing(
          blowing(hourly(96), () => FAIR, 20),
          OPTIONS,
        ),
      ),
    ).toEqual([[12, 'light']]);
    const late = blowing(hourly(96), front(16), 20);
    const passage = knowing(late, OPTIONS);
    expect(changeTimes(passage)).toEqual([]);
    expect(passage.foresight!.costHours).toBe(0);
  });

  test('without a horizon all runs are known, as by whoever looks back', () => {
    expect(changeTimes(knowing(together(fair(0), told(15, 16)), {}))).toEqual([]);
  });

  test('what tells of no run is known at any time, beside what does', () => {
    // Waves of no run bar the sail from 16 h on; the wind's run is fair.
    const waves = blowing(hourly(96), (hour) => ({ kn: 12, waveM: hour <= 16 ? 1 : 4 }));
    const [grid] = waves.grids;
    const heights: Forecast = {
      file: 'synthetic',
      grids: [{ ...grid!, fields: { waveHeightM: grid!.fields.waveHeightM! } }],
    };
    const wind = fair(0);
    const { waveHeightM: _, ...rest } = wind.grids[0]!.fields;
    const dry: Forecast = { file: 'synthetic', grids: [{ ...wind.grids[0]!, fields: rest }] };
    const passage = knowing(together(dry, fair(15), heights), OPTIONS, { house: { waveMaxM: { flying: 2 } } });
    // The run of 15 h has waves of its own, 1 m: newer than those of no run, and no bar to it once it is known.
    expect(changeTimes(passage)[0]).toEqual([15, 'light']);
    const always = knowing(together(dry, heights), OPTIONS, { house: { waveMaxM: { flying: 2 } } });
    expect(changeTimes(always)).toEqual([]);
  });
});

describe('a passage that does not arrive', () => {
  const boat = boatWith(20, 0.5);
  const until = (hour: number) => blowing([...hourly(Math.floor(hour)), hour], front(17));

  test('neither way: nothing is compared', () => {
    const passage = knowing(until(24.5), { horizonHours: 1, replanHours: 1 }, { boat, departs: 16 });
    expect(passage).toMatchObject({ complete: false, reason: 'forecast-ended' });
    expect(passage.foresight).toMatchObject({
      wholeKnownComplete: false,
      wholeKnownEnd: isoUtc(T0 + 24.5 * HOUR),
      costHours: null,
    });
    expect(planMarkdown(toPrint(passage, { boat, speeds, forecast: until(24.5) }))).toContain(
      'she does not arrive, or would not have with all weather known.',
    );
  });

  test('only for want of knowing: the forecast ends five minutes after she would have been there', () => {
    // 32 h 40 min with all known, eleven minutes and more later without.
    const passage = knowing(until(32.75), { horizonHours: 1, replanHours: 1 }, { boat, departs: 16 });
    expect(passage).toMatchObject({ complete: false, reason: 'forecast-ended' });
    expect(passage.distanceToGoNm).toBeGreaterThan(0);
    expect(passage.foresight).toMatchObject({ wholeKnownComplete: true, costHours: null });
    expect(hoursAt(passage.foresight!.wholeKnownEnd)).toBeCloseTo(16 + 100 / 6, 3);
  });
});

describe('the cost over winds of many kinds', () => {
  // Wind that goes up and down, with gusts that bar the light sail now and then.
  const windAt = (seed: number) => (hour: number) => {
    const kn = 13 + 5 * Math.sin(seed + hour / 4);
    return { kn, gustKn: kn * (1.3 + 0.2 * Math.sin(3 * seed + hour)) };
  };

  test.each([0, 1, 2, 3])('is the later of two arrivals, in wind %s', (seed) => {
    const forecast = blowing(hourly(72), windAt(seed));
    const boat = boatWith(30, 0.5);
    const all = knowing(forecast, {}, { boat, route: north(120) });
    for (const horizonHours of [2, 6, 24]) {
      const passage = knowing(forecast, { horizonHours, replanHours: 2 }, { boat, route: north(120) });
      const { foresight } = passage;
      expect(foresight!.wholeKnownEnd).toBe(all.end);
      expect(foresight!.costHours! * 60).toBeCloseTo(minutesOf(passage) - minutesOf(all), 1);
      // Changes have no price here: knowing all is never later.
      expect(foresight!.costHours!).toBeGreaterThan(-0.02);
    }
  });

  test('a steady wind holds nothing that could be missed', () => {
    const passage = knowing(steady(FAIR), { horizonHours: 6, replanHours: 6 });
    expect(changeTimes(passage)).toEqual([[12, 'light']]);
    expect(passage.foresight!.costHours).toBe(0);
  });
});
