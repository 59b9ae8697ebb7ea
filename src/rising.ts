/** The place of the last value of a rising list that is at most `value`; −1 where all are greater. */
export function lastAtMost(rising: Float64Array, value: number): number {
  if (!(rising[0]! <= value)) return -1;
  let [low, high] = [0, rising.length - 1];
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (rising[middle]! <= value) low = middle;
    else high = middle - 1;
  }
  return low;
}

/** Points [x, y] in rising x. */
export type Points = readonly (readonly [x: number, y: number])[];

/** The value of a line through points, straight between them and held beyond the ends; undefined where there is none. */
export function heldBetween(points: Points, x: number): number | undefined {
  const upper = points.findIndex(([at]) => at > x);
  if (upper === 0) return points[0]![1];
  if (upper < 0) return points.at(-1)?.[1];
  const [a, b] = [points[upper - 1]!, points[upper]!];
  return a[1] + ((b[1] - a[1]) * (x - a[0])) / (b[0] - a[0]);
}
