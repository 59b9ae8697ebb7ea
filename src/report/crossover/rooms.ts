import type { Keys } from '../../touching.js';
import type { Box } from '../drawing/box.js';
import type { Frame } from './frame.js';

/**
 * The rectangles of cells that lie in each region and can grow neither to the sides nor upwards, which has all the largest among them.
 * The well-known way: row by row over how far the region goes up in each column, with a stack of the rectangles still open.
 */
export function roomsOf(regions: Keys, { columnEdges, rowEdges }: Frame): ReadonlyMap<number, readonly Box[]> {
  const columns = columnEdges.length - 1;
  const rooms = new Map<number, Box[]>();
  const ups = Array.from({ length: Math.max(columns, 0) }, () => 0);
  for (let row = 0; row < rowEdges.length - 1; row += 1) {
    const open: { from: number; up: number }[] = [];
    for (let column = 0; column <= columns; column += 1) {
      const cell = row * columns + column;
      const goesOn = column > 0 && column < columns && regions[cell] === regions[cell - 1];
      if (column < columns) ups[column] = row > 0 && regions[cell] === regions[cell - columns] ? ups[column]! + 1 : 1;
      const up = goesOn ? ups[column]! : 0;
      let from = column;
      while (open.length > 0 && open.at(-1)!.up >= up) {
        const closed = open.pop()!;
        const region = regions[cell - 1];
        if (goesOn) from = closed.from;
        if (region === undefined) continue;
        const [left, top] = [columnEdges[closed.from]!, rowEdges[row + 1 - closed.up]!];
        const box = { left, top, width: columnEdges[column]! - left, height: rowEdges[row + 1]! - top };
        const known = rooms.get(region);
        if (known === undefined) rooms.set(region, [box]);
        else known.push(box);
      }
      if (column < columns) open.push({ from, up: ups[column]! });
    }
  }
  return rooms;
}
