// The search against brute force: every way of choosing is tried, by code that shares nothing with it.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type ChoiceProblem, chosenOf, curveOf, searched } from '../src/choice/choice.js';

/** A small case: ways by stage and option, how they change with place, what changes take. */
interface Case {
  readonly stages: number;
  readonly options: number;
  readonly goal: number;
  readonly setBefore: number | undefined;
  /** By stage and option: way in a stage at place 0, and how it grows with each mile. */
  readonly ways: readonly (readonly { readonly base: number; readonly slope: number }[])[];
  /** By stage and option: barred in the whole stage, or between two places. */
  readonly bars: readonly (readonly (boolean | readonly [number, number])[])[];
  readonly minutes: readonly (readonly number[])[];
  readonly kept: number;
  /** Beyond the time of a change, by the options it is between. */
  readonly changePrices: readonly (readonly number[])[];
  readonly leastStages: number;
  /** Of the last option, which uses the store up: steps there are, price of a stage. */
  readonly store: number | undefined;
  readonly price: number;
  readonly stageMinutes: readonly number[];
}

function problemOf(small: Case, bounded = false): ChoiceProblem {
  const { store, options } = small;
  return {
    stages: small.stages,
    options,
    from: 0,
    goal: small.goal,
    ...(small.setBefore === undefined ? {} : { setBefore: small.setBefore }),
    minutes: (stage) => small.stageMinutes[stage]!,
    way: (stage, option, from) => wayOf(small, stage, option, from),
    ...(bounded ? { mostWay: (stage: number, option: number) => mostWayOf(small, stage, option) } : {}),
    change(_, before, after) {
      const minutes = small.minutes[before]![after]!;
      const price = small.changePrices[before]![after]!;
      return Number.isNaN(minutes) ? undefined : { minutes, keptShare: small.kept, price };
    },
    leastStages: small.leastStages,
    ...(store === undefined
      ? {}
      : {
          storeAt: () => store,
          storeUsed: (option: number) => (option === options - 1 ? 1 : 0),
          stagePrice: (option: number) => (option === options - 1 ? small.price : 0),
        }),
  };
}

function wayOf(small: Case, stage: number, option: number, from: number): number {
  const bar = small.bars[stage]![option]!;
  if (bar === true || (typeof bar !== 'boolean' && from >= bar[0] && from < bar[1])) return Number.NaN;
  const { base, slope } = small.ways[stage]![option]!;
  return ((base + slope * from) * small.stageMinutes[stage]!) / 60;
}

/** The longest way of a stage under an option, up to the goal. */
function mostWayOf(small: Case, stage: number, option: number): number {
  const { base, slope } = small.ways[stage]![option]!;
  return (Math.max(base, base + slope * small.goal, base - slope * small.stages) * small.stageMinutes[stage]!) / 60;
}

interface Found {
  readonly minutes: number;
  readonly changes: number;
  readonly price: number;
}

/** Every way of choosing that arrives. */
function everyArrival(small: Case): Found[] {
  const found: Found[] = [];
  const { store = 0, options } = small;
  const walk = (
    stage: number,
    place: number,
    minutes: number,
    option: number | undefined,
    changes: number,
    since: number,
    used: number,
    price: number,
    busy: { minutes: number; from: number } | undefined,
  ) => {
    if (stage === small.stages) return;
    const length = small.stageMinutes[stage]!;
    const stageUse = (next: number) => (small.store !== undefined && next === options - 1 ? 1 : 0);
    const sail = (next: number, slow: { minutes: number; from: number } | undefined, changed: boolean) => {
      const way = wayOf(small, stage, next, place);
      const nowUsed = used + stageUse(next);
      if (Number.isNaN(way) || nowUsed > store) return;
      const slowMinutes = Math.min(length, slow?.minutes ?? 0);
      // What there is no fuel for goes no slower than what is gone over to.
      const before =
        slow === undefined || used + stageUse(slow.from) > store ? way : wayOf(small, stage, slow.from, place);
      const slowRate = (small.kept * Math.min(way, Number.isNaN(before) ? way : before)) / length;
      const rate = way / length;
      const nowChanges = changes + (changed ? 1 : 0);
      const own = changed ? small.changePrices[option!]![next]! : 0;
      const nowPrice = price + stageUse(next) * small.price + own;
      // Minute by minute would be the same: two straight pieces.
      const pieces: [number, number][] = [
        [slowMinutes, slowRate],
        [length - slowMinutes, rate],
      ];
      let at = place;
      let clock = minutes;
      for (const [lasting, speed] of pieces) {
        if (lasting > 0 && at + lasting * speed >= small.goal) {
          found.push({ minutes: clock + (small.goal - at) / speed, changes: nowChanges, price: nowPrice });
          return;
        }
        at += lasting * speed;
        clock += lasting;
      }
      const left = (slow?.minutes ?? 0) - length;
      walk(
        stage + 1,
        at,
        clock,
        next,
        nowChanges,
        changed ? 1 : since + 1,
        nowUsed,
        nowPrice,
        slow !== undefined && left > 0 ? { minutes: left, from: slow.from } : undefined,
      );
    };
    if (option !== undefined) {
      sail(option, busy, false);
    }
    // What may not stand is left at any time, what is left of a change to it done all the same.
    const mayStand =
      option !== undefined && !Number.isNaN(wayOf(small, stage, option, place)) && used + stageUse(option) <= store;
    if (mayStand && (busy !== undefined || since < small.leastStages)) return;
    for (let next = 0; next < options; next += 1) {
      if (next === option) continue;
      const takes = option === undefined ? 0 : small.minutes[option]![next]!;
      if (Number.isNaN(takes)) continue;
      const inAll = takes + (busy?.minutes ?? 0);
      sail(next, inAll > 0 ? { minutes: inAll, from: option! } : undefined, option !== undefined);
    }
  };
  walk(0, 0, 0, small.setBefore, 0, small.leastStages, 0, 0, undefined);
  return found;
}

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });

const caseOf = (bars: 'by stage' | 'by place', withStore: boolean): fc.Arbitrary<Case> =>
  fc.integer({ min: 2, max: 3 }).chain((options) =>
    fc.integer({ min: 2, max: 5 }).chain((stages) => {
      const byStage = <T>(item: fc.Arbitrary<T>) =>
        fc.array(fc.array(item, { minLength: options, maxLength: options }), { minLength: stages, maxLength: stages });
      return fc.record({
        stages: fc.constant(stages),
        options: fc.constant(options),
        goal: number(8, 30),
        setBefore: fc.option(fc.integer({ min: 0, max: options - 1 }), { nil: undefined }),
        ways: byStage(
          fc.record({
            base: fc.oneof({ weight: 5, arbitrary: number(3, 12) }, { weight: 1, arbitrary: number(-1, 1) }),
            slope: number(-0.3, 0.3),
          }),
        ),
        bars: byStage<boolean | readonly [number, number]>(
          bars === 'by stage'
            ? fc.oneof({ weight: 5, arbitrary: fc.constant(false) }, { weight: 1, arbitrary: fc.constant(true) })
            : fc.oneof(
                { weight: 2, arbitrary: fc.constant(false) },
                { weight: 1, arbitrary: fc.tuple(number(2, 15), number(5, 30)) },
              ),
        ),
        minutes: fc.array(
          fc.array(
            fc.oneof(
              { weight: 3, arbitrary: number(0, 45) },
              { weight: 1, arbitrary: number(60, 150) },
              { weight: 1, arbitrary: fc.constantFrom(0, Number.NaN) },
            ),
            { minLength: options, maxLength: options },
          ),
          { minLength: options, maxLength: options },
        ),
        kept: number(0, 1),
        changePrices: fc.array(
          fc.array(fc.constantFrom(0, 0, 0, 30, 1440), { minLength: options, maxLength: options }),
          { minLength: options, maxLength: options },
        ),
        leastStages: fc.constantFrom(0, 0, 2, 3),
        store: withStore ? fc.integer({ min: 0, max: 3 }) : fc.constant(undefined),
        price: withStore ? number(0, 60) : fc.constant(0),
        stageMinutes: fc
          .tuple(fc.constantFrom(60, 60, 25))
          .map(([last]) => Array.from({ length: stages }, (_, stage) => (stage === stages - 1 ? last : 60))),
      });
    }),
  );

const priceOf = (one: Found, pricePerChange: number) =>
  one.minutes + one.price + (one.changes === 0 ? 0 : pricePerChange * one.changes);

describe('search against brute force', () => {
  it('agrees exactly where bars depend on the stage alone: the whole curve, and the choice at any price', () => {
    let compared = 0;
    fc.assert(
      fc.property(
        caseOf('by stage', false),
        fc.constantFrom(0, 5, 20, 100, Number.POSITIVE_INFINITY),
        fc.boolean(),
        (small, pricePerChange, bounded) => {
          const problem = problemOf(small, bounded);
          const search = searched(problem, { labels: 1, spacing: 0.5 });
          const all = everyArrival(small);
          const curve = curveOf(search, problem).filter(({ ending }) => ending.arrived);
          expect(curve.length === 0).toBe(all.length === 0);
          if (all.length === 0) return;
          compared += 1;
          for (let changes = 0; changes <= small.stages; changes += 1) {
            const best = Math.min(...all.filter((one) => one.changes <= changes).map(({ minutes }) => minutes));
            const point = curve.filter((known) => known.changes <= changes).at(-1);
            expect(point?.minutes ?? Number.POSITIVE_INFINITY).toBeCloseTo(best, 4);
          }
          const chosen = chosenOf(search, problem, pricePerChange)!;
          if (pricePerChange === Number.POSITIVE_INFINITY)
            expect(chosen.changes).toBe(Math.min(...all.map((one) => one.changes)));
          else
            expect(priceOf(chosen, pricePerChange)).toBeCloseTo(
              Math.min(...all.map((one) => priceOf(one, pricePerChange))),
              6,
            );
        },
      ),
      { numRuns: 600 },
    );
    expect(compared).toBeGreaterThan(200);
  });

  it('agrees where an option uses up a store and costs by the stage', () => {
    fc.assert(
      fc.property(caseOf('by stage', true), fc.constantFrom(0, 10, 60), (small, pricePerChange) => {
        const problem = problemOf(small);
        const search = searched(problem, { labels: 8, spacing: 0.001 });
        const all = everyArrival(small);
        const chosen = chosenOf(search, problem, pricePerChange)!;
        expect(chosen.arrived).toBe(all.length > 0);
        if (all.length > 0)
          expect(priceOf(chosen, pricePerChange)).toBeCloseTo(
            Math.min(...all.map((one) => priceOf(one, pricePerChange))),
            6,
          );
      }),
      { numRuns: 400 },
    );
  });

  it('pays a price where it brings more than it costs, and drops what cannot bring that much at the least worth of a price', () => {
    // Option 1 makes 8 Nm in an hour, option 0 makes 4. To go over at once has a price, an hour later none: at once is 4 Nm further,
    // which at 8 kn is half an hour of 32 Nm in all.
    const paying = (price: number, wayPerPrice: number) => {
      const problem: ChoiceProblem = {
        stages: 8,
        options: 2,
        from: 0,
        goal: 32,
        setBefore: 0,
        minutes: () => 60,
        way: (_, option) => (option === 0 ? 4 : 8),
        change: (stage) => ({ minutes: 0, keptShare: 1, price: stage === 0 ? price : 0 }),
      };
      const search = searched(problem, { labels: 1, spacing: 0.5, wayPerPrice });
      return {
        chosen: chosenOf(search, problem, 0)!.steps()[0]!,
        paid: search.arrivals.some((arrival) => arrival.price > 0),
      };
    };
    expect(paying(29, 4 / 60)).toEqual({ chosen: 1, paid: true });
    expect(paying(31, 4 / 60)).toEqual({ chosen: 0, paid: true });
    // 4 Nm at 4 kn are an hour: at no speed above that is more than an hour's price won back.
    expect(paying(59, 4 / 60)).toEqual({ chosen: 0, paid: true });
    expect(paying(61, 4 / 60)).toEqual({ chosen: 0, paid: false });
    expect(paying(61, 0)).toEqual({ chosen: 0, paid: true });
  });

  it('waits for the time at which one may arrive, where many ways are kept near the goal', () => {
    // The first option is to wait, the other makes 10 Nm an hour: of 38 Nm she arrives in the fourth hour after she goes. In the ninth
    // hour alone she may: after five of waiting, and 3.8 under way.
    const problem: ChoiceProblem = {
      stages: 12,
      options: 2,
      from: 0,
      goal: 38,
      setBefore: 0,
      minutes: () => 60,
      way: (_, option) => (option === 0 ? 0 : 10),
      // Under way she does not wait any more.
      change: (_, before) => (before === 0 ? { minutes: 0, keptShare: 1, price: 0 } : undefined),
      mayArrive: (stage) => stage === 8,
    };
    const arrivals = (widely?: { from: number; labels: number }) =>
      new Set(
        searched(problem, { labels: 1, spacing: 0.5, ...(widely && { widely }) }).arrivals.map(
          ({ minutes }) => minutes,
        ),
      );
    expect(arrivals({ from: 0, labels: 12 })).toEqual(new Set([528]));
    // Of one way each only the furthest is kept, which comes too early; where ways are kept too near the goal the others are gone.
    expect(arrivals().size).toBe(0);
    expect(arrivals({ from: 35, labels: 12 }).size).toBe(0);
    expect(arrivals({ from: 35, labels: 12 }).size).toBe(0);
  });

  it('at one price comes near the best, and never reckons better than it is', () => {
    const told: string[] = [];
    for (const withStore of [false, true]) {
      const cases = fc.sample(caseOf('by stage', withStore), { numRuns: 1200, seed: 20270111 });
      for (const labels of [1, 4]) {
        const over: number[] = [];
        let missed = 0;
        for (const small of cases) {
          const all = everyArrival(small);
          const problem = problemOf(small, true);
          const atPrice = { pricePerChange: 15, likelyWayPerMinute: 6 / 60 };
          const chosen = chosenOf(searched(problem, { labels, spacing: 0.5, atPrice }), problem, 15);
          if (all.length === 0) {
            expect(chosen?.arrived ?? false).toBe(false);
            continue;
          }
          // A way that costs less but lies behind is kept, and then there are no stages left for it.
          if (chosen?.arrived !== true) {
            missed += 1;
            continue;
          }
          const best = Math.min(...all.map((one) => priceOf(one, 15)));
          over.push(priceOf(chosen!, 15) - best);
        }
        for (const cost of over) expect(cost).toBeGreaterThan(-1e-6);
        const mean = over.reduce((sum, cost) => sum + cost, 0) / over.length;
        const worse = over.filter((cost) => cost > 1e-6).length / over.length;
        told.push(
          `${withStore ? 'with' : 'without'} a store, ${labels} label${labels > 1 ? 's' : ''}: dearer in ${(100 * worse).toFixed(1)} % of ${over.length}, ${mean.toFixed(2)} min on the mean, at most ${Math.max(...over).toFixed(0)}; ${missed} do not arrive in time`,
        );
        expect(missed).toBeLessThan(0.02 * over.length);
        expect(mean).toBeLessThan(labels === 1 ? 2 : 1);
        expect(worse).toBeLessThan(labels === 1 ? 0.05 : 0.02);
      }
    }
    console.log(`the search at one price against brute force: ${told.join('; ')}`);
  });

  it('comes near where bars depend on place, the nearer the more labels are kept', () => {
    const cases = fc.sample(caseOf('by place', false), { numRuns: 1500, seed: 20270110 });
    const free = cases.map((small) => ({
      ...small,
      changePrices: small.changePrices.map((row) => row.map(() => 0)),
    }));
    const late = { 1: 0, 4: 0, 16: 0 };
    const mostMinutes = { 1: 0, 4: 0, 16: 0 };
    let compared = 0;
    for (const small of free) {
      const all = everyArrival(small);
      if (all.length === 0) continue;
      compared += 1;
      const best = Math.min(...all.map(({ minutes }) => minutes));
      for (const labels of [1, 4, 16] as const) {
        const problem = problemOf(small);
        const chosen = chosenOf(searched(problem, { labels, spacing: 0.5 }), problem, 0)!;
        const gap = chosen.arrived ? chosen.minutes - best : small.stages * 60 - best;
        expect(gap).toBeGreaterThan(-1e-6);
        if (gap > 1e-6) late[labels] += 1;
        mostMinutes[labels] = Math.max(mostMinutes[labels], gap);
      }
    }
    for (const labels of [1, 4, 16] as const) {
      console.log(
        `search with place-dependent bars, ${labels} label${labels > 1 ? 's' : ''} a state: late in ${((100 * late[labels]) / compared).toFixed(1)} % of ${compared} cases, at most ${mostMinutes[labels].toFixed(0)} min`,
      );
    }
    expect(late[4]).toBeLessThanOrEqual(late[1]);
    expect(late[16]).toBeLessThanOrEqual(late[4]);
    expect(late[16] / compared).toBeLessThan(0.01);
  });
});
