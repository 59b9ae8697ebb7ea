import { describe, expect, test } from 'vitest';
import { comparisonOf, isCompared } from '../src/page/comparison.js';
import type { Figure, Side } from '../src/page/messages.js';

const figure = (name: string, value: number | null, unit = '', decimals = 0): Figure => ({
  name,
  unit,
  decimals,
  value,
});

function side(hours: number, changes: number, more: Partial<Side> = {}): Side {
  const figures = [
    figure('hours under way', hours, 'h', 1),
    figure('sail changes', changes),
    figure('of these by night', 0),
  ];
  return {
    name: 'A',
    firstLine: '',
    complete: true,
    end: '2027-01-28T17:48:51Z',
    changes,
    figures: [...figures, figure('tacks', 0), figure('fuel, l', 12.4, 'l'), figure('wear', null)],
    sails: [{ id: 'jib', hours: 10 }],
    worn: [],
    warnings: [],
    prefix: '',
    files: {},
    boatFiles: {},
    ...more,
  };
}
const rowOf = (sides: readonly Side[], name: string) => comparisonOf(sides).find((row) => row.name === name);

describe('wardrobes side by side', () => {
  test('one by itself has nothing to differ from', () => {
    expect(isCompared([side(1, 1)])).toBe(false);
    expect(comparisonOf([side(1, 1)]).every(({ difference }) => difference === undefined)).toBe(true);
  });

  test('B less A, with sign and unit, of what is shown', () => {
    const two = [side(413.84, 14), side(405.86, 23)];
    expect(rowOf(two, 'Hours under way')).toEqual({
      name: 'Hours under way',
      cells: ['413.8', '405.9'],
      difference: '−7.9 h',
    });
    expect(rowOf(two, 'Sail changes')!.difference).toBe('+9');
    expect(rowOf(two, 'Fuel, l')!.difference).toBe('0 l');
  });

  test('a sail that is not set was flown for no hours, and why stands in its place', () => {
    const two = [
      side(1, 1),
      side(1, 1, {
        sails: [
          { id: 'jib', hours: null },
          { id: 'code', hours: 2.25 },
        ],
      }),
    ];
    expect(rowOf(two, 'jib, h')).toEqual({ name: 'jib, h', cells: ['10.0', 'ashore'], difference: '−10.0 h' });
    expect(rowOf(two, 'code, h')).toEqual({ name: 'code, h', cells: ['not aboard', '2.3'], difference: '+2.3 h' });
  });

  test('what there is none of, or nobody knows, takes no row; changes by night have one all the same', () => {
    const names = comparisonOf([side(1, 0)]).map(({ name }) => name);
    expect(names).toEqual([
      'Ends, UTC',
      'Arrives',
      'Hours under way',
      'Sail changes',
      'of these by night',
      'Fuel, l',
      'jib, h',
    ]);
  });

  test('of a passage that breaks off nothing is compared', () => {
    expect(
      comparisonOf([side(1, 1), side(2, 2, { complete: false })]).some(({ difference }) => difference !== undefined),
    ).toBe(false);
  });
});
