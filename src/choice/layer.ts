import { type Front, noFront } from './front.js';
import { columnsOf, copyRow, type Label, type Labels, putLabel, widened } from './labels.js';
import { type ChoiceProblem, SAME_PLACE, type SearchSettings } from './problem.js';

/** The labels of the stage to come, as they are found. */
export interface Layer {
  /** Takes in a label if it is any use beside those alike. */
  offer(label: Readonly<Label>): void;
  /** Notes how far was got by ways that stay as they are, against which those that change are then held. */
  noteStays(): void;
  /** Whether a way that changes and gets so far at most could be of use. */
  mayUse({ option, changes, since, used, place, price }: Readonly<Label>): boolean;
  /** Adds those that are left to the labels of the search, and is empty again. */
  moveTo(labels: Labels, isBeaten: (changes: number, price: number) => boolean): void;
}

/**
 * Labels alike in option, in stages since the last change, in store used, in changes and in price share a cell; so do changes under way that
 * are alike. A cell keeps up to so many labels, the furthest first, `spacing` apart.
 */
export function layerOf(problem: ChoiceProblem, { labels: usual, spacing, widely }: SearchSettings): Layer {
  const { leastStages = 0, options } = problem;
  const stores = (problem.storeAt?.(0) ?? 0) + 1;
  const room = Math.max(usual, widely?.labels ?? 0);
  const wideFrom = widely?.from ?? Number.POSITIVE_INFINITY;
  const keptAt = (place: number) => (place >= wideFrom ? room : usual);
  const changesMost = problem.stages + 1;
  // A kind is an option, stages since and store used; a change under way makes kinds of its own, numbered as they come.
  const kinds = options * (leastStages + 1) * stores;
  const kindOf = (option: number, since: number, used: number) => (option * (leastStages + 1) + since) * stores + used;
  const isMet = new Uint8Array(kinds);
  const kindOfBusy = new Map<number, number>();
  // One more than the cell of a kind and a number of changes, at no price: 0 is none.
  const freeCells = new Int32Array(kinds * changesMost);
  // The others, by kind and changes: few.
  const otherCells = new Map<number, number[]>();
  const priceOfCell: number[] = [];
  /** Kinds with labels in this stage, and of each the changes under way that lead to it. */
  const kindsMet: number[] = [];
  const busyOf: number[][] = [];
  let mostChanges = 0;
  let cells = 0;
  const counts: number[] = [];
  let rows = columnsOf(256 * room);
  // By kind and changes, the place that must be passed to be of use beside the ways that stay and have cost nothing.
  const floors = new Float64Array(kinds * changesMost).fill(Number.NEGATIVE_INFINITY);
  const floored: number[] = [];
  const furthest: number[] = [];

  const newCell = (changes: number, price: number) => {
    const cell = cells;
    cells += 1;
    priceOfCell[cell] = price;
    counts[cell] = 0;
    mostChanges = Math.max(mostChanges, changes);
    if (cells * room > rows.place.length) rows = widened(rows, 2 * rows.place.length);
    return cell;
  };
  const cellOf = ({ option, since, used, changes, busyMinutes, busyFrom, price }: Readonly<Label>) => {
    let kind = kindOf(option, since, used);
    if (isMet[kind] === 0) {
      isMet[kind] = 1;
      kindsMet.push(kind);
      busyOf[kind] = [];
    }
    if (busyMinutes > 0) {
      // Whole minutes tell changes under way apart; those of one minute and origin are alike.
      const code = (Math.ceil(busyMinutes) * options + busyFrom) * kinds + kind;
      const known = kindOfBusy.get(code) ?? kinds + kindOfBusy.size;
      if (known === kinds + kindOfBusy.size) busyOf[kind]!.push(known);
      kindOfBusy.set(code, known);
      kind = known;
    }
    const key = kind * changesMost + changes;
    if (price === 0 && busyMinutes <= 0) {
      if (freeCells[key] === 0) freeCells[key] = newCell(changes, 0) + 1;
      return freeCells[key]! - 1;
    }
    const others = otherCells.get(key) ?? [];
    if (others.length === 0) otherCells.set(key, others);
    const known = others.find((cell) => priceOfCell[cell] === price);
    if (known !== undefined) return known;
    const cell = newCell(changes, price);
    others.push(cell);
    return cell;
  };
  /** The cells of a kind with so many changes, in the order of price. */
  const cellsOf = (kind: number, changes: number, visit: (cell: number) => void): void => {
    const key = kind * changesMost + changes;
    if (kind < kinds && freeCells[key]! > 0) visit(freeCells[key]! - 1);
    const others = otherCells.get(key);
    if (others === undefined) return;
    if (others.length > 1) others.sort((a, b) => priceOfCell[a]! - priceOfCell[b]!);
    others.forEach(visit);
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
      for (const kind of kindsMet) {
        furthest.length = 0;
        for (let changes = 0; changes <= mostChanges + 1; changes += 1) {
          const state = kind * changesMost + changes;
          const free = freeCells[state]! - 1;
          if (free >= 0) {
            for (let row = free * room; row < free * room + counts[free]!; row += 1) furthest.push(-rows.place[row]!);
            inOrder(furthest);
            furthest.length = Math.min(furthest.length, usual);
          }
          if (furthest.length < usual) continue;
          floors[state] = -furthest[usual - 1]!;
          floored.push(state);
        }
      }
    },
    mayUse({ option, changes, since, used, place, price }) {
      const state = kindOf(option, since, used) * changesMost + changes;
      if (place >= wideFrom) return true;
      if (place <= floors[state]! + SAME_PLACE) return false;
      if (price > 0) return true;
      const cell = freeCells[state]! - 1;
      return cell < 0 || counts[cell]! < usual || rows.place[cell * room + usual - 1]! < place - SAME_PLACE;
    },
    moveTo(labels, isBeaten) {
      inOrder(kindsMet);
      for (const kind of kindsMet) {
        const free = noFront(spacing, keptAt);
        const busy = busyOf[kind]!.map(() => noFront(spacing, keptAt));
        const add = (cell: number, front: Front) => {
          const before = labels.length;
          for (let row = cell * room; row < cell * room + counts[cell]!; row += 1) {
            const place = rows.place[row]!;
            const price = rows.price[row]!;
            // What is not busy with a change can do all that what is busy with it can.
            if (front.covers(place, price) || (front !== free && free.covers(place, price))) continue;
            if (!isBeaten(rows.changes[row]!, price)) labels.addRow(rows, row);
          }
          const { place, price } = labels.columns;
          for (let row = before; row < labels.length; row += 1) front.add(place[row]!, price[row]!);
        };
        // What has more changes is held against what has fewer.
        for (let changes = 0; changes <= mostChanges; changes += 1) {
          cellsOf(kind, changes, (cell) => add(cell, free));
          busyOf[kind]!.forEach((busyKind, i) => {
            cellsOf(busyKind, changes, (cell) => add(cell, busy[i]!));
          });
          freeCells[kind * changesMost + changes] = 0;
        }
      }
      otherCells.clear();
      kindOfBusy.clear();
      for (const kind of kindsMet) isMet[kind] = 0;
      kindsMet.length = 0;
      cells = 0;
      mostChanges = 0;
    },
  };
}

/** Sorts a few numbers where they are, rising: nearly in order as they come. */
function inOrder(numbers: number[]): void {
  for (let i = 1; i < numbers.length; i += 1) {
    const number = numbers[i]!;
    let at = i;
    for (; at > 0 && numbers[at - 1]! > number; at -= 1) numbers[at] = numbers[at - 1]!;
    numbers[at] = number;
  }
}
