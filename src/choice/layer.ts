import { noFront } from './front.js';
import { columnsOf, copyRow, type Label, type Labels, putLabel, widened } from './labels.js';
import { type ChoiceProblem, SAME_PLACE, type SearchSettings } from './problem.js';

/** The labels of the stage to come, as they are found. */
export interface Layer {
  /** Takes in a label if it is any use beside those of its state. */
  offer(label: Readonly<Label>): void;
  /** Notes how far was got by ways that stay as they are, against which those that change are then held. */
  noteStays(): void;
  /** Whether a way that gets so far at most could be of use. */
  mayUse(option: number, changes: number, since: number, used: number, place: number, price: number): boolean;
  /** Adds those that are left to the labels of the search, and is empty again. */
  moveTo(labels: Labels, isBeaten: (changes: number, price: number) => boolean): void;
}

/** Cells of one stage at most; their number shares a double with their key. */
const MOST_CELLS = 2 ** 17;

/**
 * A state is an option, the stages since its last change, the store used and the number of changes; a change under way makes
 * states of its own. Each state keeps up to so many labels, the furthest first: one behind another must cost less, or lie
 * `spacing` behind it where several are kept.
 */
export function layerOf(problem: ChoiceProblem, { labels: kept, spacing }: SearchSettings): Layer {
  const { leastStages = 0, options } = problem;
  const store = problem.storeAt?.(0) ?? 0;
  const near = kept === 1 ? Number.POSITIVE_INFINITY : spacing;
  const changesMost = problem.stages + 1;
  const states = options * (leastStages + 1) * (store + 1) * changesMost;
  // By state, one more than the cell: 0 is none.
  const cellOfState = new Int32Array(states);
  const cellOfBusy = new Map<number, number>();
  const keys: number[] = [];
  // By state, the place that must be passed to be of use beside the ways that stay and have cost nothing.
  const floors = new Float64Array(states);
  const counts: number[] = [];
  let rows = columnsOf(256 * kept);

  const newCell = (key: number) => {
    const cell = keys.push(key) - 1;
    if (cell >= MOST_CELLS) throw new RangeError('too many states in one stage of the search');
    counts[cell] = 0;
    if ((cell + 1) * kept > rows.place.length) rows = widened(rows, 2 * rows.place.length);
    return cell;
  };
  const cellOf = ({ option, since, used, changes, busyMinutes, busyFrom }: Readonly<Label>) => {
    const state = ((option * (leastStages + 1) + since) * (store + 1) + used) * changesMost + changes;
    if (busyMinutes <= 0) {
      if (cellOfState[state] === 0) cellOfState[state] = newCell(state) + 1;
      return cellOfState[state]! - 1;
    }
    // Whole minutes tell changes under way apart; those of one minute and origin are alike.
    const key = (busyFrom + options * Math.ceil(busyMinutes)) * states + state;
    const known = cellOfBusy.get(key);
    if (known !== undefined) return known;
    const cell = newCell(key);
    cellOfBusy.set(key, cell);
    return cell;
  };

  return {
    offer(label) {
      const cell = cellOf(label);
      const first = cell * kept;
      const { place, price } = rows;
      let count = counts[cell]!;
      let at = 0;
      for (; at < count; at += 1) {
        const ahead = place[first + at]! - label.place;
        if (ahead < -SAME_PLACE) break;
        if (ahead < near && price[first + at]! <= label.price) return;
      }
      // What it makes useless goes.
      let left = at;
      for (let i = at; i < count; i += 1) {
        if (label.place - place[first + i]! < near && label.price <= price[first + i]!) continue;
        if (left !== i) copyRow(rows, first + i, rows, first + left);
        left += 1;
      }
      count = left;
      if (at < kept) {
        if (count === kept) count -= 1;
        for (let i = count; i > at; i -= 1) copyRow(rows, first + i - 1, rows, first + i);
        putLabel(rows, first + at, label);
        count += 1;
      }
      counts[cell] = count;
    },
    noteStays() {
      floors.fill(Number.NEGATIVE_INFINITY);
      const order = Float64Array.from(keys.filter((key) => key < states)).sort();
      const most = keys.reduce((top, key) => Math.max(top, key % changesMost), 0);
      for (let i = 0; i < order.length; ) {
        const besidesChanges = Math.floor(order[i]! / changesMost);
        const furthest: number[] = [];
        for (let changes = 0; changes <= most + 1; changes += 1) {
          const state = besidesChanges * changesMost + changes;
          if (order[i] === state) {
            const first = (cellOfState[state]! - 1) * kept;
            for (let row = first; row < first + counts[cellOfState[state]! - 1]!; row += 1)
              if (rows.price[row] === 0) furthest.push(rows.place[row]!);
            furthest.sort((a, b) => b - a);
            furthest.length = Math.min(furthest.length, kept);
            i += 1;
          }
          if (furthest.length === kept) floors[state] = furthest[kept - 1]!;
        }
      }
    },
    mayUse(option, changes, since, used, place, price) {
      const state = ((option * (leastStages + 1) + since) * (store + 1) + used) * changesMost + changes;
      if (place <= floors[state]! + SAME_PLACE) return false;
      const cell = cellOfState[state]! - 1;
      if (cell < 0 || counts[cell]! < kept) return true;
      for (let row = cell * kept; row < (cell + 1) * kept; row += 1) {
        if (rows.price[row]! > price || rows.place[row]! < place - SAME_PLACE) return true;
      }
      return false;
    },
    moveTo(labels, isBeaten) {
      const order = Float64Array.from(keys, (key, cell) => key * MOST_CELLS + cell).sort();
      // States that differ in nothing but changes follow each other, the fewest first.
      let front = noFront(near, kept);
      let alike = -1;
      for (const ordered of order) {
        const cell = ordered % MOST_CELLS;
        const besidesChanges = Math.floor(keys[cell]! / changesMost);
        if (besidesChanges !== alike) front = noFront(near, kept);
        alike = besidesChanges;
        const first = cell * kept;
        const end = first + counts[cell]!;
        const before = labels.length;
        for (let row = first; row < end; row += 1) {
          const [place, price] = [rows.place[row]!, rows.price[row]!];
          const changes = rows.changes[row]!;
          if (!front.covers(place, price) && !isBeaten(changes, price)) labels.addRow(rows, row);
        }
        const { place, price } = labels.columns;
        for (let row = before; row < labels.length; row += 1) front.add(place[row]!, price[row]!);
      }
      for (const key of keys) if (key < states) cellOfState[key] = 0;
      cellOfBusy.clear();
      keys.length = 0;
    },
  };
}
