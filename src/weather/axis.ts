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
