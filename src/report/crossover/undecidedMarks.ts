import type { Crossover } from '../../crossover/crossover.js';
import { type Box, boxRound } from '../drawing/box.js';
import { element, textAt } from '../drawing/svg.js';
import { INK_BLACK } from '../drawing/type.js';
import type { Frame } from './frame.js';
import type { Marks } from './marks.js';

/** A question mark in each undecided cell; where cells are small, in one of those that would share its place. */
export function undecidedMarks({ cells }: Crossover, { columnEdges, rowEdges }: Frame): Marks {
  const columns = columnEdges.length - 1;
  const taken = new Set<string>();
  const boxes: Box[] = [];
  const markup = cells.flatMap(({ undecided }, i) => {
    if (!undecided) return [];
    const [row, column] = [Math.floor(i / columns), i % columns];
    const [left, right] = [columnEdges[column]!, columnEdges[column + 1]!];
    const y = (rowEdges[row]! + rowEdges[row + 1]!) / 2;
    // At the right of a cell, for the code of a region stands in the middle of one.
    const x = Math.max((left + right) / 2, right - RADIUS - 1);
    const place = `${Math.floor(x / (2 * RADIUS))} ${Math.floor(y / (2 * RADIUS))}`;
    if (taken.has(place)) return [];
    taken.add(place);
    boxes.push(boxRound(x, y, 2 * RADIUS, 2 * RADIUS));
    return questionMark(x, y);
  });
  return { markup: element('g', { class: 'undecided' }, ...markup), boxes };
}

const RADIUS = 5.5;

/** The mark by which an undecided cell is known. */
export function questionMark(x: number, y: number): string {
  return (
    element('circle', { cx: x, cy: y, r: RADIUS, fill: '#fff', 'fill-opacity': 0.85 }) +
    textAt(x, y + 4, '?', { 'font-size': 11, 'font-weight': 'bold', 'text-anchor': 'middle', fill: INK_BLACK })
  );
}
