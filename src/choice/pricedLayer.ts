import { columnsOf, copyRow, type Label, putLabel } from './labels.js';
import type { Layer } from './layer.js';
import { type AtPrice, type ChoiceProblem, SAME_PLACE, type SearchSettings } from './problem.js';

/** The way so far counts beside the likely rate as if that had been kept so long before. */
const LIKELY_MINUTES = 24 * 60;

/**
 * The labels of the stage to come where only what is best at one price is wanted: of each option the few that have come furthest less what
 * they have cost, at the rate of the way so far. Much smaller than a layer that keeps every number of changes apart, and not exact: ways
 * are compared as if time were worth the same way everywhere.
 */
export function pricedLayerOf(
  problem: ChoiceProblem,
  { labels: kept, spacing }: Pick<SearchSettings, 'labels' | 'spacing'>,
  { pricePerChange, likelyWayPerMinute }: AtPrice,
): Layer {
  const { options } = problem;
  // Labels of an option, the worthiest first.
  const rows = columnsOf(options * kept);
  const worths = new Float64Array(options * kept);
  const counts = new Int32Array(options);
  const rate = Float64Array.of(likelyWayPerMinute);
  let minutes = 0;
  let stage = 0;
  const worthOf = ({ place, price, changes, busyMinutes, busyKept }: Readonly<Label>) =>
    place - rate[0]! * (price + pricePerChange * changes + busyMinutes * (1 - busyKept));

  return {
    offer(label) {
      const first = label.option * kept;
      const worth = worthOf(label);
      let count = counts[label.option]!;
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
      counts[label.option] = count + 1;
    },
    noteStays() {},
    mayUse(label) {
      const last = label.option * kept + kept - 1;
      return counts[label.option]! < kept || worthOf(label) > worths[last]! + SAME_PLACE;
    },
    moveTo(labels, isBeaten) {
      let furthest = problem.from;
      for (let option = 0; option < options; option += 1) {
        for (let row = option * kept; row < option * kept + counts[option]!; row += 1) {
          if (isBeaten(rows.changes[row]!, rows.price[row]!)) continue;
          labels.addRow(rows, row);
          furthest = Math.max(furthest, rows.place[row]!);
        }
        counts[option] = 0;
      }
      minutes += problem.minutes(stage);
      stage += 1;
      rate[0] = (furthest - problem.from + LIKELY_MINUTES * likelyWayPerMinute) / (minutes + LIKELY_MINUTES);
    },
  };

  function moveRow(from: number, to: number): void {
    copyRow(rows, from, rows, to);
    worths[to] = worths[from]!;
  }
}
