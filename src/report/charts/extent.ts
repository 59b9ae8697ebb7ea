/** The least and the most of some numbers, which may be more than a call has arguments; none: 0 and 0. */
export function extentOf(values: Iterable<number>): readonly [least: number, most: number] {
  let [least, most] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const value of values) {
    if (value < least) least = value;
    if (value > most) most = value;
  }
  return least > most ? [0, 0] : [least, most];
}
