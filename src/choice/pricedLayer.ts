import { columnsOf, copyRow, type Label, putLabel } from './labels.js';
import type { Layer } from './layer.js';
import { type AtPrice, type ChoiceProblem, SAME_PLACE, type SearchSettings } from './problem.js';

/** The way so far counts beside the likely rate as if that had been kept so long before. */
const LIKELY_MINUTES = 24 * 60;

/** Ways that have used more or less of the store are kept apart in so many steps, by trial: what is left of it is worth something. */
const STORE_LEVELS = 12;
/**
 * The labels of the stage to come where only what is best at one price is wanted: of each option the few that have come furthest less what
 * they have cost, at the rate of the way so far; those that have used as much of the store, and may change as soon, for themselves. Much
 * smaller than a layer that keeps every number of changes apart, and not exact: how much way time is worth further on is not known.
 */
export function pricedLayerOf(
  problem: ChoiceProblem,
  { labels: kept, spacing }: Pick<SearchSettings, 'labels' | 'spacing'>,
  { pricePerChange, likelyWayPerMinute }: AtPrice,
): Layer {
  const { options, leastStages = 0 } = problem;
  const store = problem.storeUsed === undefined ? 0 : Math.max(0, problem.storeAt?.(0) ?? 0);
  const storeLevels = store > 0 ? STORE_LEVELS : 1;
  // Bound by the last change or free.
  const sinceLevels = leastStages > 0 ? 2 : 1;
  const cells = options * storeLevels * sinceLevels;
  /** Labels alike: of an option, with about as much used, and bound or free. */
  const cellOf = ({ option, used, since }: Readonly<Label>) => {
    const level = store > 0 ? Math.min(storeLevels - 1, Math.floor((used * storeLevels) / (store + 1))) : 0;
    return (option * storeLevels + level) * sinceLevels + (since < leastStages ? 1 : 0);
  };
  // Labels of a cell, the worthiest first.
  const rows = columnsOf(cells * kept);
  const worths = new Float64Array(cells * kept);
  const counts = new Int32Array(cells);
  const rate = Float64Array.of(likelyWayPerMinute);
  let minutes = 0;
  let stage = 0;
  const worthOf = ({ place, price, changes, busyMinutes, busyKept }: Readonly<Label>) =>
    place - rate[0]! * (price + pricePerChange * changes + busyMinutes * (1 - busyKept));
  const moveRow = (from: number, to: number): void => {
    copyRow(rows, from, rows, to);
    worths[to] = worths[from]!;
  };

  return {
    offer(label) {
      const cell = cellOf(label);
      const first = cell * kept;
      const worth = worthOf(label);
      let count = counts[cell]!;
      let at = 0;
      for (; at < count && worths[first + at]! >= worth - SAME_PLACE; at += 1)
        if (Math.abs(rows.place[first + at]! - label.place) < spacing) return;
      if (at >= kept) return;
      // A worthier one takes the place of those near it.
      let left = at;
      for (let i = at; i < count; i += 1) {
        if (Math.abs(rows.place[first + i]! - label.place) < spacing) continue;
        if (left !== i) moveRow(first + i, first + left);
        left += 1;
      }
      count = Math.min(left, kept - 1);
      for (let i = count; i > at; i -= 1) moveRow(first + i - 1, first + i);
      putLabel(rows, first + at, label);
      worths[first + at] = worth;
      counts[cell] = count + 1;
    },
    noteStays() {},
    mayUse(label) {
      const cell = cellOf(label);
      return counts[cell]! < kept || worthOf(label) > worths[cell * kept + kept - 1]! + SAME_PLACE;
    },
    moveTo(labels, isBeaten) {
      let furthest = problem.from;
      for (let cell = 0; cell < cells; cell += 1) {
        for (let row = cell * kept; row < cell * kept + counts[cell]!; row += 1) {
          if (isBeaten(rows.changes[row]!, rows.price[row]!)) continue;
          labels.addRow(rows, row);
          furthest = Math.max(furthest, rows.place[row]!);
        }
      }
      counts.fill(0);
      minutes += problem.minutes(stage);
      stage += 1;
      rate[0] = (furthest - problem.from + LIKELY_MINUTES * likelyWayPerMinute) / (minutes + LIKELY_MINUTES);
    },
  };
}
