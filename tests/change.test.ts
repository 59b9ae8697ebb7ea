import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { settingOf } from '../src/boat/boat.js';
import { changeOf, effortOf, handsOnDeck, isNearWatchChange, type Step } from '../src/change/change.js';
import { type Boat, completeBoat, type SailGiven } from '../src/index.js';
import { BOAT } from './support/synthetic.js';

/** A catamaran with all ways to set a sail: track, furler, pole, snuffer, furler of a code sail, halyard. */
const SAILS: readonly SailGiven[] = [
  { id: 'main', kind: 'full-roach-main' },
  { id: 'jib', kind: 'self-tacking-jib' },
  { id: 'poled-jib', kind: 'poled-out-headsail', clothOf: 'jib' },
  { id: 'inside-jib', kind: 'self-tacking-jib', clothOf: 'jib' },
  { id: 'code', kind: 'code-zero' },
  { id: 'vented', kind: 'vented-downwind' },
  { id: 'storm-jib', kind: 'storm-jib' },
];
const PLANS = {
  main: ['main'],
  'main.1': ['main:1'],
  'main.3': ['main:3'],
  jib: ['jib'],
  'jib.1': ['jib:1'],
  'poled-jib': ['poled-jib'],
  'poled-jib.1': ['poled-jib:1'],
  'inside-jib': ['inside-jib'],
  'main+jib': ['main', 'jib'],
  'main.1+jib': ['main:1', 'jib'],
  'main.1+jib.1': ['main:1', 'jib:1'],
  'main.3+jib': ['main:3', 'jib'],
  'main+poled-jib': ['main', 'poled-jib'],
  'main+code': ['main', 'code'],
  vented: ['vented'],
  'main.3+storm-jib': ['main:3', 'storm-jib'],
  'bare-poles': [],
};
type Plan = keyof typeof PLANS;
const boat: Boat = completeBoat({
  name: 'Test boat',
  hull: { type: 'catamaran' },
  sails: SAILS,
  sailPlans: Object.entries(PLANS).map(([id, sails]) => ({ id, sails })),
});

const change = (from: Plan | null, to: Plan | null) => changeOf(boat, from, to);
const told = (from: Plan | null, to: Plan | null) =>
  change(from, to).map(({ operation, sail }) => `${operation} ${sail}`);

describe('the operations of a change', () => {
  test('a jib is furled and unfurled, a main doused and set', () => {
    expect(told('main+jib', 'main')).toEqual(['furl jib']);
    expect(told('main', 'main+jib')).toEqual(['unfurl jib']);
    expect(told('main+jib', 'jib')).toEqual(['douse main']);
    expect(told('jib', 'main+jib')).toEqual(['set main']);
  });

  test('one reef at a time; a sail that goes up reefed is set only', () => {
    expect(told('main.1', 'main.3')).toEqual(['reef main', 'reef main']);
    expect(told('main.3', 'main')).toEqual(['shakeOut main', 'shakeOut main', 'shakeOut main']);
    expect(told('main.1+jib', 'main.1+jib.1')).toEqual(['reef jib']);
    expect(told(null, 'main.3')).toEqual(['set main']);
    expect(told('main.3', null)).toEqual(['douse main']);
    expect(told('main', 'main.1+jib.1')).toEqual(['reef main', 'unfurl jib']);
  });

  test('the vented sail for main and jib: it comes down before they go up', () => {
    expect(told('vented', 'main+jib')).toEqual(['douse vented', 'set main', 'unfurl jib']);
    expect(told('main+jib', 'vented')).toEqual(['douse main', 'furl jib', 'set vented']);
  });

  test('first what goes, then reefs, then what comes, whatever the order in the plans', () => {
    expect(told('main+jib', 'main.3+storm-jib')).toEqual([
      'furl jib',
      'reef main',
      'reef main',
      'reef main',
      'set storm-jib',
    ]);
    expect(told('main.3+storm-jib', 'main.1+jib')).toEqual([
      'douse storm-jib',
      'shakeOut main',
      'shakeOut main',
      'unfurl jib',
    ]);
  });

  test('what may not stand in the dark goes before all else', () => {
    const byDay = {
      ...boat,
      sails: boat.sails.map((sail) => (sail.id === 'code' ? { ...sail, daylightOnly: true } : sail)),
    };
    const steps = changeOf(byDay, 'main+code', 'jib').map(({ operation, sail }) => `${operation} ${sail}`);
    expect(steps).toEqual(['furl code', 'douse main', 'unfurl jib']);
    expect(told('main+code', 'jib')).toEqual(['douse main', 'furl code', 'unfurl jib']);
  });

  test('a code sail stays hoisted: it is unfurled and furled', () => {
    expect(told('main+jib', 'main+code')).toEqual(['furl jib', 'unfurl code']);
    expect(told('main+code', 'main+jib')).toEqual(['furl code', 'unfurl jib']);
  });

  test('the jib goes out on the pole and comes back as it stands', () => {
    expect(told('main+jib', 'main+poled-jib')).toEqual(['set poled-jib']);
    expect(told('main+poled-jib', 'main+jib')).toEqual(['douse poled-jib']);
  });

  test('from nothing to the pole, and from the pole to nothing, goes by the plain jib', () => {
    expect(told('main', 'main+poled-jib')).toEqual(['unfurl jib', 'set poled-jib']);
    expect(told('main+poled-jib', 'main')).toEqual(['douse poled-jib', 'furl jib']);
    expect(told('poled-jib', null)).toEqual(['douse poled-jib', 'furl jib']);
  });

  test('on the pole it is reefed as such', () => {
    expect(told('poled-jib', 'poled-jib.1')).toEqual(['reef poled-jib']);
  });

  test('from one setting of a cloth to another; one without a set of its own is unfurled', () => {
    expect(told('poled-jib', 'inside-jib')).toEqual(['douse poled-jib', 'unfurl inside-jib']);
    expect(told('inside-jib', 'poled-jib')).toEqual(['furl inside-jib', 'set poled-jib']);
  });

  test('no sails: hove to, under engine or bare poles', () => {
    expect(told(null, null)).toEqual([]);
    expect(told(null, 'bare-poles')).toEqual([]);
    expect(told('main+jib', null)).toEqual(told('main+jib', 'bare-poles'));
    expect(told(null, 'main+jib')).toEqual(['set main', 'unfurl jib']);
  });

  test('each step has what its sail takes, by day and by night', () => {
    expect(change('vented', 'main')).toEqual([
      {
        operation: 'douse',
        sail: 'vented',
        cloth: 'vented',
        day: { minutes: 18, hands: 3, keptShare: 0.7 },
        night: { minutes: 27, hands: 3, keptShare: 0.7 },
        flying: true,
      },
      {
        operation: 'set',
        sail: 'main',
        cloth: 'main',
        day: { minutes: 15, hands: 2, keptShare: 0.8 },
        night: { minutes: 22.5, hands: 2, keptShare: 0.8 },
        flying: false,
      },
    ]);
    expect(change('jib', 'poled-jib')).toMatchObject([{ sail: 'poled-jib', cloth: 'jib', flying: false }]);
    expect(change(null, 'main+code').map(({ flying }) => flying)).toEqual([false, true]);
  });

  test('sails made in memory without operations take no minutes', () => {
    const steps = changeOf(BOAT, 'main+jib', 'vented');
    expect(steps.map(({ operation, sail }) => `${operation} ${sail}`)).toEqual([
      'douse main',
      'douse jib',
      'set vented',
    ]);
    expect(effortOf(steps, true, 2)).toEqual({ minutes: 0, hands: 0, keptShare: 1 });
    expect(changeOf(BOAT, 'main+jib', 'reef1+jib')).toMatchObject([{ operation: 'reef', day: { minutes: 0 } }]);
  });
});

describe('what a change takes', () => {
  const effort = (from: Plan | null, to: Plan | null, hands: number, dark = false) =>
    effortOf(change(from, to), dark, hands);

  test('nothing to do', () => {
    expect(effortOf([], false, 2)).toEqual({ minutes: 0, hands: 0, keptShare: 1 });
  });

  test('one hand furls the jib in two minutes, in three by night', () => {
    expect(effort('main+jib', 'main', 1)).toEqual({ minutes: 2, hands: 1, keptShare: 0.9 });
    expect(effort('main+jib', 'main', 1, true)).toEqual({ minutes: 3, hands: 1, keptShare: 0.9 });
  });

  test('two hands do one thing after the other, four do two at once', () => {
    // Douse the main in 10 minutes with two, furl the jib in 2 with one.
    const two = effort('main+jib', null, 2);
    expect(two).toMatchObject({ minutes: 12, hands: 2 });
    expect(two.keptShare).toBeCloseTo((10 * 0.7 + 2 * 0.9) / 12, 12);
    expect(effort('main+jib', null, 4)).toEqual({ minutes: 10, hands: 3, keptShare: 0.7 });
  });

  test('the vented sail for main and jib', () => {
    // 18 minutes with three, 15 with two, 2 with one.
    expect(effort('vented', 'main+jib', 2)).toMatchObject({ minutes: 35, hands: 3 });
    expect(effort('vented', 'main+jib', 3)).toMatchObject({ minutes: 33, hands: 3 });
    expect(effort('vented', 'main+jib', 5)).toMatchObject({ minutes: 20, hands: 5 });
    expect(effort('vented', 'main+jib', 6)).toEqual({ minutes: 18, hands: 6, keptShare: 0.7 });
  });

  test('a second reef waits for the first, and the pole for the jib, however many hands there are', () => {
    expect(effort('main.1', 'main.3', 2)).toEqual({ minutes: 16, hands: 2, keptShare: 0.7 });
    expect(effort('main.1', 'main.3', 20)).toEqual(effort('main.1', 'main.3', 2));
    expect(effort('main', 'main+poled-jib', 20)).toMatchObject({ minutes: 17, hands: 2 });
  });

  test('too few hands do it all the same, in the same minutes', () => {
    expect(effort('vented', null, 1)).toMatchObject({ minutes: 18, hands: 3 });
  });

  test('to begin all that can be begun would be slower here', () => {
    // With four hands: the pole in, then the jib furled by itself, then main and storm jib by two each.
    expect(effort('poled-jib', 'main.3+storm-jib', 4)).toMatchObject({ minutes: 15 + 2 + 15, hands: 4 });
    const step = (cloth: string, minutes: number, hands: number): Step => {
      const effort = { minutes, hands, keptShare: 0.5 };
      return { operation: 'set', sail: cloth, cloth, day: effort, night: effort, flying: false };
    };
    const steps = [step('a', 1, 2), step('b', 10, 1), step('c', 10, 1)];
    expect(effortOf(steps, false, 2)).toMatchObject({ minutes: 11, hands: 2 });
    expect(effortOf(steps, false, 3)).toMatchObject({ minutes: 11 });
  });
});

describe('always', () => {
  const anyPlan = fc.constantFrom(null, ...(Object.keys(PLANS) as Plan[]));
  const hands = fc.integer({ min: 1, max: 12 });
  const anyEffort = fc.record({
    minutes: fc.nat(40),
    hands: fc.integer({ min: 1, max: 4 }),
    keptShare: fc.integer({ min: 0, max: 10 }).map((tenths) => tenths / 10),
  });
  const anySteps = fc.array(
    fc
      .record({ cloth: fc.constantFrom('a', 'b', 'c', 'd', 'e'), day: anyEffort, night: anyEffort })
      .map((step): Step => ({ ...step, sail: step.cloth, operation: 'set', flying: false })),
    { maxLength: 7 },
  );
  const stepsOfBoat = fc.tuple(anyPlan, anyPlan).map(([from, to]) => change(from, to));
  const steps = fc.oneof(anySteps, stepsOfBoat);

  test('to the same plan is nothing', () => {
    fc.assert(
      fc.property(anyPlan, (plan) => {
        expect(change(plan, plan)).toEqual([]);
      }),
    );
  });

  test('every sail that differs is mentioned, and no cloth that does not', () => {
    const carried = (plan: Plan | null) => (plan === null ? [] : PLANS[plan]);
    fc.assert(
      fc.property(anyPlan, anyPlan, (from, to) => {
        const differ = (a: Plan | null, b: Plan | null) => carried(a).filter((text) => !carried(b).includes(text));
        const cloths = [...differ(from, to), ...differ(to, from)].map((text) => settingOf(boat, text)!.cloth);
        expect([...new Set(change(from, to).map(({ cloth }) => cloth))].sort()).toEqual([...new Set(cloths)].sort());
      }),
    );
  });

  test('there and back is as many steps, each undone', () => {
    const UNDONE = {
      set: 'douse',
      douse: 'set',
      unfurl: 'furl',
      furl: 'unfurl',
      reef: 'shakeOut',
      shakeOut: 'reef',
    } as const;
    fc.assert(
      fc.property(anyPlan, anyPlan, (from, to) => {
        const back = change(to, from).map(({ operation, sail }) => `${UNDONE[operation]} ${sail}`);
        expect(back.sort()).toEqual(told(from, to).sort());
      }),
    );
  });

  test('more hands are never slower', () => {
    fc.assert(
      fc.property(steps, fc.boolean(), hands, hands, (all, dark, some, more) => {
        const minutes = (available: number) => effortOf(all, dark, available).minutes;
        expect(minutes(some + more)).toBeLessThanOrEqual(minutes(some));
      }),
    );
  });

  test('night is never quicker than day by the catalogue', () => {
    fc.assert(
      fc.property(stepsOfBoat, hands, (all, available) => {
        const [day, night] = [effortOf(all, false, available), effortOf(all, true, available)];
        expect(night.minutes).toBeGreaterThanOrEqual(day.minutes);
      }),
    );
  });

  test('between the longest step and one after the other; hands and shares within those of the steps', () => {
    fc.assert(
      fc.property(steps, hands, (all, available) => {
        const { minutes, hands: needed, keptShare } = effortOf(all, false, available);
        const days = all.map(({ day }) => day);
        expect(minutes).toBeLessThanOrEqual(days.reduce((sum, day) => sum + day.minutes, 0));
        expect(minutes).toBeGreaterThanOrEqual(Math.max(0, ...days.map((day) => day.minutes)));
        expect(needed).toBeGreaterThanOrEqual(Math.max(0, ...days.map((day) => day.hands)));
        expect(needed).toBeLessThanOrEqual(Math.max(available, ...days.map((day) => day.hands)));
        if (minutes === 0) expect(keptShare).toBe(1);
        expect(keptShare).toBeGreaterThanOrEqual(Math.min(1, ...days.map((day) => day.keptShare)) - 1e-12);
        expect(keptShare).toBeLessThanOrEqual(1 + 1e-12);
      }),
    );
  });

  test('never slower than to begin whatever can be begun', () => {
    /** The plain way, which the quickest may beat. */
    function eager(all: readonly Step[], available: number): number {
      let [total, longest, busy] = [0, 0, 0];
      let cloths = new Set<string>();
      for (const { day, cloth } of all) {
        if (busy > 0 && (busy + day.hands > available || cloths.has(cloth))) {
          total += longest;
          [longest, busy] = [0, 0];
          cloths = new Set();
        }
        cloths.add(cloth);
        longest = Math.max(longest, day.minutes);
        busy += day.hands;
      }
      return total + longest;
    }
    fc.assert(
      fc.property(steps, hands, (all, available) => {
        expect(effortOf(all, false, available).minutes).toBeLessThanOrEqual(eager(all, available));
      }),
    );
  });
});

describe('who is on deck', () => {
  const changes = ['00:00', '06:30', '12:00', '18:00'];

  test('the watch, at least one; all hands without watches', () => {
    expect(handsOnDeck({}, 5)).toBe(5);
    expect([1, 2, 3, 4, 5].map((crew) => handsOnDeck({ watches: { changes } }, crew))).toEqual([1, 1, 1, 2, 2]);
    expect([1, 3, 6, 8].map((crew) => handsOnDeck({ watches: { changes, teams: 3 } }, crew))).toEqual([1, 1, 2, 2]);
    expect(handsOnDeck({ watches: { changes, teams: 1 } }, 4)).toBe(4);
  });

  test('two teams about a change of watch', () => {
    expect(handsOnDeck({}, 5, true)).toBe(5);
    expect([1, 2, 3, 4, 5].map((crew) => handsOnDeck({ watches: { changes } }, crew, true))).toEqual([1, 2, 3, 4, 5]);
    expect([1, 3, 6, 8].map((crew) => handsOnDeck({ watches: { changes, teams: 3 } }, crew, true))).toEqual([
      1, 2, 4, 5,
    ]);
    expect(handsOnDeck({ watches: { changes, teams: 1 } }, 4, true)).toBe(4);
  });

  test('half an hour on either side of a change, over midnight too', () => {
    const near = (hours: number, minutes: number) => isNearWatchChange({ changes }, hours * 60 + minutes);
    expect([near(6, 0), near(6, 30), near(7, 0)]).toEqual([true, true, true]);
    expect([near(5, 59), near(7, 1), near(9, 0)]).toEqual([false, false, false]);
    expect([near(23, 29), near(23, 30), near(23, 59), near(0, 30), near(0, 31)]).toEqual([
      false,
      true,
      true,
      true,
      false,
    ]);
    expect(isNearWatchChange({ changes: ['23:50'] }, 20)).toBe(true);
    expect(isNearWatchChange({ changes: ['23:50'] }, 21)).toBe(false);
    expect(isNearWatchChange(undefined, 0)).toBe(false);
  });

  test('the same a day on', () => {
    const minutes = fc.integer({ min: 0, max: 1439 });
    fc.assert(
      fc.property(minutes, fc.integer({ min: -3, max: 3 }), (minute, days) => {
        expect(isNearWatchChange({ changes }, minute + days * 1440)).toBe(isNearWatchChange({ changes }, minute));
      }),
    );
  });
});
