import { type Front, noFront } from './front.js';
import { columnsOf, copyRow, type Label, type Labels, putLabel, widened } from './labels.js';
import { levelsKept } from './levels.js';
import { type ChoiceProblem, SAME_PLACE, type SearchSettings } from './problem.js';

/** The labels of the stage to come, as they are found. */
export interface Layer {
  /** Takes in a label if it is any use beside those alike. */
  offer(label: Readonly<Label>): void;
  /** Notes how far was got by ways that stay as they are, against which those that change are then held. */
  noteStays(): void;
  /** Whether a way that changes and gets so far at most could be of use. */
  mayUse(label: Readonly<Label>): boolean;
  /** Adds those that are left to the labels of the search, and is empty again. */
  moveTo(labels: Labels, isBeaten: (changes: number, price: number) => boolean): void;
}

/**
 * Labels alike in option, changes, price, store used and stages since the last change share a cell; so do changes under way that are
 * alike. A cell keeps up to so many labels, the furthest first, `spacing` apart.
 */
export function layerOf(problem: ChoiceProblem, settings: SearchSettings): Layer {
  const { labels: usual, spacing, widely } = settings;
  const { leastStages = 0, options } = problem;
  const room = Math.max(usual, widely?.labels ?? 0);
  const wideFrom = widely?.from ?? Number.POSITIVE_INFINITY;
  const keptAt = (place: number) => (place >= wideFrom ? room : usual);
  const newFront = () => noFront({ near: spacing, keptAt, wayPerPrice: settings.wayPerPrice ?? 0 });
  const changesMost = problem.stages + 1;
  const mostLevels = LEVELS + usual;
  // Kinds are options; a change under way makes a kind of its own, numbered as it comes.
  const kindOfBusy = new Map<number, number>();
  /** Options with labels in this stage, and of each the changes under way that lead to it. */
  const optionsMet: number[] = [];
  const isMet = new Uint8Array(options);
  const busyOf: number[][] = [];
  // One more than the cell of an option and a number of changes, where nothing else is in hand: 0 is none.
  const freeCells = new Int32Array(options * changesMost);
  // The others, by kind and changes: few.
  const otherCells = new Map<number, number[]>();
  const priceOf: number[] = [];
  const usedOf: number[] = [];
  const sinceOf: number[] = [];
  const counts: number[] = [];
  let mostChanges = 0;
  let cells = 0;
  let rows = columnsOf(256 * room);
  // By option and changes, the place that must be passed to be of use beside the ways that stay and have cost nothing.
  const floors = new Float64Array(options * changesMost).fill(Number.NEGATIVE_INFINITY);
  const floored: number[] = [];
  const furthest: number[] = [];

  const newCell = ({ changes, price, used, since }: Readonly<Label>) => {
    const cell = cells;
    cells += 1;
    priceOf[cell] = price;
    usedOf[cell] = used;
    sinceOf[cell] = since;
    counts[cell] = 0;
    mostChanges = Math.max(mostChanges, changes);
    if (cells * room > rows.place.length) rows = widened(rows, 2 * rows.place.length);
    return cell;
  };
  const kindOf = ({ option, busyMinutes, busyFrom }: Readonly<Label>) => {
    if (isMet[option] === 0) {
      isMet[option] = 1;
      optionsMet.push(option);
      busyOf[option] = [];
    }
    if (busyMinutes <= 0) return option;
    // Whole minutes tell changes under way apart; those of one minute and origin are alike.
    const code = (Math.ceil(busyMinutes) * options + busyFrom) * options + option;
    const known = kindOfBusy.get(code);
    if (known !== undefined) return known;
    const kind = options + kindOfBusy.size;
    kindOfBusy.set(code, kind);
    busyOf[option]!.push(kind);
    return kind;
  };
  const cellOf = (label: Readonly<Label>) => {
    const { price, used, since } = label;
    const kind = kindOf(label);
    const key = kind * changesMost + label.changes;
    if (kind < options && price === 0 && used === 0 && since === leastStages) {
      if (freeCells[key] === 0) freeCells[key] = newCell(label) + 1;
      return freeCells[key]! - 1;
    }
    let others = otherCells.get(key);
    if (others === undefined) {
      others = [];
      otherCells.set(key, others);
    }
    for (const cell of others)
      if (priceOf[cell] === price && usedOf[cell] === used && sinceOf[cell] === since) return cell;
    const cell = newCell(label);
    others.push(cell);
    return cell;
  };
  /** The cells of a kind with so many changes, the cheapest first, then that which has used and is bound least. */
  const cellsOf = (kind: number, changes: number): readonly number[] => {
    const key = kind * changesMost + changes;
    const free = kind < options ? freeCells[key]! - 1 : -1;
    const others = otherCells.get(key);
    if (others === undefined) return free < 0 ? NONE : [free];
    if (others.length > 1)
      others.sort((a, b) => priceOf[a]! - priceOf[b]! || usedOf[a]! - usedOf[b]! || sinceOf[b]! - sinceOf[a]!);
    return free < 0 ? others : [free, ...others];
  };
  const covered = (front: Front, row: number) =>
    front.covers(rows.place[row]!, rows.price[row]!, rows.used[row]!, rows.since[row]!);
  /** Of many cells that differ in what they cost or have in hand those of use, and of these not more than are kept. */
  const thinned = (all: readonly number[], front: Front): readonly number[] => {
    if (all.length <= mostLevels) return all;
    const own = newFront();
    const left = all.filter((cell) => {
      const row = cell * room;
      if (covered(front, row) || covered(own, row)) return false;
      own.add(rows.place[row]!, rows.price[row]!, rows.used[row]!, rows.since[row]!);
      return true;
    });
    const levels = left.map((cell) => ({
      cell,
      price: priceOf[cell]!,
      used: usedOf[cell]!,
      since: sinceOf[cell]!,
      place: rows.place[cell * room]!,
    }));
    return levelsKept(levels, mostLevels).map(({ cell }) => cell);
  };

  return {
    offer(label) {
      const cell = cellOf(label);
      const first = cell * room;
      const { place } = rows;
      let count = counts[cell]!;
      let at = 0;
      while (at < count && place[first + at]! >= label.place - SAME_PLACE) at += 1;
      if (at > 0 && place[first + at - 1]! - label.place < spacing) return;
      const kept = keptAt(label.place);
      if (at >= kept) return;
      // Those little behind it go.
      let behind = at;
      while (behind < count && label.place - place[first + behind]! < spacing) behind += 1;
      if (behind === at) {
        if (count >= kept) count -= 1;
        for (let i = count; i > at; i -= 1) copyRow(rows, first + i - 1, rows, first + i);
        count += 1;
      } else if (behind > at + 1) {
        for (let i = behind; i < count; i += 1) copyRow(rows, first + i, rows, first + at + 1 + i - behind);
        count -= behind - at - 1;
      }
      putLabel(rows, first + at, label);
      counts[cell] = count;
    },
    noteStays() {
      for (const key of floored) floors[key] = Number.NEGATIVE_INFINITY;
      floored.length = 0;
      for (const option of optionsMet) {
        furthest.length = 0;
        for (let changes = 0; changes <= mostChanges + 1; changes += 1) {
          for (const cell of cellsOf(option, changes)) {
            if (priceOf[cell]! > 0 || usedOf[cell]! > 0) continue;
            for (let row = cell * room; row < cell * room + counts[cell]!; row += 1) furthest.push(-rows.place[row]!);
          }
          inOrder(furthest);
          furthest.length = Math.min(furthest.length, usual);
          if (furthest.length < usual) continue;
          const state = option * changesMost + changes;
          floors[state] = -furthest[usual - 1]!;
          floored.push(state);
        }
      }
    },
    mayUse({ option, changes, since, used, place, price }) {
      if (place >= wideFrom) return true;
      const state = option * changesMost + changes;
      if (place <= floors[state]! + SAME_PLACE) return false;
      if (price > 0 || used > 0 || since < leastStages) return true;
      const cell = freeCells[state]! - 1;
      return cell < 0 || counts[cell]! < usual || rows.place[cell * room + usual - 1]! < place - SAME_PLACE;
    },
    moveTo(labels, isBeaten) {
      inOrder(optionsMet);
      for (const option of optionsMet) {
        const free = newFront();
        const busy = busyOf[option]!.map(newFront);
        const add = (cell: number, front: Front, most: number) => {
          const before = labels.length;
          const first = cell * room;
          const count = rows.place[first]! >= wideFrom ? counts[cell]! : Math.min(counts[cell]!, most);
          for (let row = first; row < first + count; row += 1) {
            // What is not busy with a change can do all that what is busy with it can.
            if (covered(front, row) || (front !== free && covered(free, row))) continue;
            if (!isBeaten(rows.changes[row]!, rows.price[row]!)) labels.addRow(rows, row);
          }
          const { place, price, used, since } = labels.columns;
          for (let row = before; row < labels.length; row += 1)
            front.add(place[row]!, price[row]!, used[row]!, since[row]!);
        };
        // What has more changes is held against what has fewer.
        for (let changes = 0; changes <= mostChanges; changes += 1) {
          const addAll = (kind: number, front: Front) => {
            const levels = thinned(cellsOf(kind, changes), front);
            // The more levels, the fewer labels of each: levels stand apart as well.
            const each = Math.max(1, Math.floor(mostLevels / levels.length));
            for (const cell of levels) add(cell, front, each);
          };
          addAll(option, free);
          busyOf[option]!.forEach((kind, i) => {
            addAll(kind, busy[i]!);
          });
          freeCells[option * changesMost + changes] = 0;
        }
        isMet[option] = 0;
      }
      otherCells.clear();
      kindOfBusy.clear();
      optionsMet.length = 0;
      cells = 0;
      mostChanges = 0;
    },
  };
}

/** A bound of our own choice, by trial: so many levels of price, store used and stages since the last change are kept, and one more for each label. */
const LEVELS = 4;
const NONE: readonly number[] = [];

/** Sorts a few numbers where they are, rising: nearly in order as they come. */
function inOrder(numbers: number[]): void {
  for (let i = 1; i < numbers.length; i += 1) {
    const number = numbers[i]!;
    let at = i;
    for (; at > 0 && numbers[at - 1]! > number; at -= 1) numbers[at] = numbers[at - 1]!;
    numbers[at] = number;
  }
}
