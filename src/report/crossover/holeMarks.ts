import type { Crossover, Hole } from '../../crossover/crossover.js';
import { type Keys, touching } from '../../touching.js';
import { type Box, boxRound } from '../drawing/box.js';
import { element, textAt } from '../drawing/svg.js';
import { INK_BLACK } from '../drawing/type.js';
import type { Frame } from './frame.js';
import type { Marks } from './marks.js';
import { bordersOf } from './regions.js';

/** Holes outlined in bold, and the largest numbered as the key beneath tells them. */
export function holeMarks(crossover: Crossover, frame: Frame): Marks {
  const columns = frame.columnEdges.length - 1;
  const regions = touching(
    crossover.cells.map(({ hole }) => (hole === null ? undefined : 1)),
    columns,
  );
  // Single cells are told nowhere, and so are not shown.
  const { twsKn: winds, twaDeg: angles } = crossover.options;
  const told = new Set(
    crossover.holes.map(
      ({ deepest }) => regions[angles.indexOf(deepest.twaDeg) * columns + winds.indexOf(deepest.twsKn)],
    ),
  );
  const keys: Keys = regions.map((region) => (region !== undefined && told.has(region) ? 1 : undefined));
  if (keys.every((key) => key === undefined)) return { markup: '', boxes: [] };
  const boxes: Box[] = sidesOf(keys, frame);
  const numbers = holesTold(crossover).flatMap(({ deepest }, i) => {
    const { twsKn, twaDeg } = crossover.options;
    const first = regions[twaDeg.indexOf(deepest.twaDeg) * columns + twsKn.indexOf(deepest.twsKn)];
    if (first === undefined) return [];
    const { left, top } = frame.box;
    // On the corner of the outline, so that the cells within stay free for the code of their plan.
    const x = Math.max(frame.columnEdges[first % columns]!, left + RADIUS);
    const y = Math.max(frame.rowEdges[Math.floor(first / columns)]!, top + RADIUS);
    boxes.push(boxRound(x, y, 2 * RADIUS, 2 * RADIUS));
    return holeNumber(x, y, i + 1);
  });
  return {
    markup: element('g', { class: 'holes' }, holeOutline(bordersOf(keys, frame)), ...numbers),
    boxes,
  };
}

/** Where the outline runs, side by side. */
function sidesOf(keys: Keys, { columnEdges, rowEdges }: Frame): Box[] {
  const columns = columnEdges.length - 1;
  return keys.flatMap((key, i) => {
    if (key === undefined) return [];
    const [row, column] = [Math.floor(i / columns), i % columns];
    const [left, right, top, bottom] = [
      columnEdges[column]!,
      columnEdges[column + 1]!,
      rowEdges[row]!,
      rowEdges[row + 1]!,
    ];
    const [x, y, width, height] = [(left + right) / 2, (top + bottom) / 2, right - left, bottom - top];
    return [
      ...(keys[i - columns] === undefined ? [boxRound(x, top, width, OUTLINE)] : []),
      ...(keys[i + columns] === undefined ? [boxRound(x, bottom, width, OUTLINE)] : []),
      ...(column === 0 || keys[i - 1] === undefined ? [boxRound(left, y, OUTLINE, height)] : []),
      ...(column === columns - 1 || keys[i + 1] === undefined ? [boxRound(right, y, OUTLINE, height)] : []),
    ];
  });
}

/** The holes that have a number. */
export const holesTold = ({ holes }: Crossover): readonly Hole[] => holes.slice(0, MOST_TOLD);

const MOST_TOLD = 9;
const RADIUS = 9;
const OUTLINE = 5.5;

/** A path as holes are outlined: a white line within a black one, which is seen on any fill and is like no other line. */
export function holeOutline(path: string): string {
  const line = { d: path, fill: 'none', 'stroke-linecap': 'square' };
  return (
    element('path', { ...line, stroke: INK_BLACK, 'stroke-width': OUTLINE }) +
    element('path', { ...line, stroke: '#fff', 'stroke-width': 2 })
  );
}

/** The number of a hole. */
export function holeNumber(x: number, y: number, number: number): string {
  return (
    element('circle', { cx: x, cy: y, r: RADIUS, fill: INK_BLACK, stroke: '#fff' }) +
    textAt(x, y + 4.5, `${number}`, {
      'font-size': 13,
      'font-weight': 'bold',
      'text-anchor': 'middle',
      fill: '#fff',
    })
  );
}
