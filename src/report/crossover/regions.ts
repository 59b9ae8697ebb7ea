import { pathRound } from 'd3-path';
import type { Keys } from '../../touching.js';
import type { Frame } from './frame.js';

/** The cells of each key as one path, run by run. */
export function areasOf(keys: Keys, { columnEdges, rowEdges }: Frame): ReadonlyMap<number, string> {
  const columns = columnEdges.length - 1;
  const paths = new Map<number, ReturnType<typeof pathRound>>();
  for (let start = 0; start < keys.length; ) {
    const key = keys[start];
    const [row, column] = [Math.floor(start / columns), start % columns];
    let end = start + 1;
    while (end % columns !== 0 && keys[end] === key) end += 1;
    if (key !== undefined) {
      const path = paths.get(key) ?? pathRound(2);
      paths.set(key, path);
      const [left, top] = [columnEdges[column]!, rowEdges[row]!];
      path.rect(left, top, columnEdges[column + end - start]! - left, rowEdges[row + 1]! - top);
    }
    start = end;
  }
  return new Map([...paths].map(([key, path]) => [key, path.toString()]));
}

/** The lines between cells of different keys, and between those of a key and what is beyond the grid. */
export function bordersOf(keys: Keys, { columnEdges, rowEdges }: Frame): string {
  const [columns, rows] = [columnEdges.length - 1, rowEdges.length - 1];
  const at = (row: number, column: number) =>
    row < 0 || column < 0 || row >= rows || column >= columns ? undefined : keys[row * columns + column];
  const path = pathRound(2);
  for (let row = 0; row <= rows; row += 1) {
    for (const [from, to] of runs(columns, (column) => at(row - 1, column) !== at(row, column))) {
      path.moveTo(columnEdges[from]!, rowEdges[row]!);
      path.lineTo(columnEdges[to]!, rowEdges[row]!);
    }
  }
  for (let column = 0; column <= columns; column += 1) {
    for (const [from, to] of runs(rows, (row) => at(row, column - 1) !== at(row, column))) {
      path.moveTo(columnEdges[column]!, rowEdges[from]!);
      path.lineTo(columnEdges[column]!, rowEdges[to]!);
    }
  }
  return path.toString();
}

function runs(length: number, holds: (i: number) => boolean): readonly (readonly [from: number, to: number])[] {
  const found: [number, number][] = [];
  let from = -1;
  for (let i = 0; i <= length; i += 1) {
    const isIn = i < length && holds(i);
    if (isIn && from < 0) from = i;
    if (!isIn && from >= 0) {
      found.push([from, i]);
      from = -1;
    }
  }
  return found;
}
