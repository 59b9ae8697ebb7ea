import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Level, levelsKept } from '../src/choice/levels.js';

const level = (price: number, place: number, used = 0, since = 0): Level => ({ price, place, used, since });

describe('of many levels of price', () => {
  test('those are kept that are best at some worth of a minute, the cheapest and the furthest among them', () => {
    // By hand: 10 Nm at 0, 18 at 10, 24 at 20 and 28 at 30 min are the corners; 13 at 5, 20 at 15 and 25 at 25 lie under the line over them.
    const all = [level(0, 10), level(5, 13), level(10, 18), level(15, 20), level(20, 24), level(25, 25), level(30, 28)];
    expect(levelsKept(all, 4).map(({ price }) => price)).toEqual([0, 10, 20, 30]);
    expect(levelsKept(all, 2).map(({ price }) => price)).toEqual([0, 30]);
  });

  test('where nothing is paid, by what was used', () => {
    const all = [level(0, 0, 0), level(0, 3, 1), level(0, 7, 2), level(0, 9, 3)];
    expect(levelsKept(all, 3).map(({ used }) => used)).toEqual([0, 2, 3]);
  });

  test('those that may change at different times are told apart', () => {
    const all = [level(0, 10, 0, 2), level(0, 20, 0, 1), level(5, 11, 0, 2), level(5, 21, 0, 1), level(9, 12, 0, 2)];
    const kept = levelsKept(all, 4);
    expect(new Set(kept.map(({ since }) => since))).toEqual(new Set([1, 2]));
  });

  test('at no worth of a minute is one left out that is better than all that are kept', () => {
    const levels = fc.array(fc.tuple(fc.integer({ min: 0, max: 300 }), fc.integer({ min: 0, max: 500 })), {
      minLength: 2,
      maxLength: 40,
    });
    fc.assert(
      fc.property(levels, fc.double({ min: 0, max: 20, noNaN: true }), (drawn, worth) => {
        const all = [...drawn].sort((a, b) => a[0] - b[0] || b[1] - a[1]).map(([price, place]) => level(price, place));
        const most = (some: readonly Level[]) => Math.max(...some.map(({ place, price }) => place - worth * price));
        // Every level twice, and room for each once: none is left out for want of room.
        const twice = all.flatMap((one) => [one, one]);
        expect(most(levelsKept(twice, all.length))).toBeCloseTo(most(all), 6);
      }),
    );
  });
});
