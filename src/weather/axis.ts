import { median } from './median.js';

/** The distinct values of one axis, numbered in the order they are met. */
export interface Axis {
  /** The number of a value's text, or undefined where the text has not been met. */
  known(text: string): number | undefined;
  /** The number of a value met as this text; near values (float noise) share one. */
  add(text: string, value: number): number;
  readonly values: readonly number[];
}

/** How near two latitudes or longitudes are one and the same: 1e-4° is 11 m, far below any forecast's grid. */
export const SAME_LINE_DEG = 1e-4;

/** A latitude or longitude as it is told: without the last bits that a turn round the globe leaves. */
export const shownDeg = (deg: number) => Number(deg.toFixed(6));

/** A new axis whose values are one where they are nearer than `tolerance`. */
export function axisOf(tolerance: number): Axis {
  const byText = new Map<string, number>();
  const byCell = new Map<number, number>();
  const values: number[] = [];
  return {
    values,
    known: (text) => byText.get(text),
    add(text, value) {
      const cell = Math.round(value / tolerance);
      let index: number | undefined;
      for (const near of [cell, cell - 1, cell + 1]) {
        const candidate = byCell.get(near);
        if (candidate !== undefined && Math.abs(values[candidate]! - value) < tolerance) index ??= candidate;
      }
      if (index === undefined) {
        index = values.push(value) - 1;
        byCell.set(cell, index);
      }
      byText.set(text, index);
      return index;
    },
  };
}

/** How a set of longitudes lies round the globe. */
export interface Longitudes {
  /** Where it begins: east of its widest gap. */
  readonly west: number;
  /** Degrees from there to its last longitude; 360 where it wraps. */
  readonly widthDeg: number;
  /** Whether its widest gap is no wider than a cell, so that the last longitude is the neighbour of the first. */
  readonly wraps: boolean;
  /** The widest step between neighbours, the gap round the back left out. */
  readonly widestStepDeg: number;
}

/** How longitudes of −180 to 180, in any order, lie round the globe. */
export function longitudesOf(lonsDeg: readonly number[]): Longitudes {
  const rising = [...lonsDeg].sort((a, b) => a - b);
  const gapBefore = rising.map((lonDeg, i) => (i === 0 ? lonDeg + 360 - rising.at(-1)! : lonDeg - rising[i - 1]!));
  const bySize = [...gapBefore].sort((a, b) => b - a);
  const [widest = 360, second = 0] = bySize;
  const wraps = rising.length > 2 && widest <= 1.5 * median(gapBefore);
  const west = wraps ? rising[0]! : (rising[gapBefore.indexOf(widest)] ?? 0);
  return { west, widthDeg: wraps ? 360 : 360 - widest, wraps, widestStepDeg: second };
}
