import { type Keys, touching } from '../../touching.js';
import { type Box, boxRound, overlapOf } from '../drawing/box.js';
import { element, textAt } from '../drawing/svg.js';
import { INK_BLACK } from '../drawing/type.js';
import { widthOf } from '../drawing/wrapped.js';
import type { Frame } from './frame.js';
import type { PlanShown } from './plansShown.js';
import { roomsOf } from './rooms.js';

/** The code of its plan in each region that has room for it, clear of other marks where that can be. */
export function codesIn(keys: Keys, plans: readonly PlanShown[], frame: Frame, others: readonly Box[]): string {
  const codes = [...roomsOf(touching(keys, frame.columnEdges.length - 1), frame)].flatMap(([cell, rooms]) => {
    const plan = plans[keys[cell]!]!;
    const place = placeIn(rooms, codeWidth(plan.code), others);
    return place === undefined ? [] : codeAt(...place, plan.code);
  });
  return element('g', { class: 'codes' }, ...codes);
}

/** The code of a plan on a plate of white, which is read on any motif. */
export function codeAt(x: number, y: number, code: string): string {
  const { left, top, width, height } = boxRound(x, y, codeWidth(code), HEIGHT);
  return (
    element('rect', { x: left, y: top, width, height, rx: 4, fill: '#fff', stroke: INK_BLACK, 'stroke-width': 0.6 }) +
    textAt(x, y + 4.6, code, { 'font-size': SIZE, 'font-weight': 'bold', 'text-anchor': 'middle', fill: INK_BLACK })
  );
}

const SIZE = 13;
const HEIGHT = 16;
const codeWidth = (code: string) => widthOf(code, SIZE) + 6;

/** Looking further than the roomiest finds no better place. */
const MOST_ROOMS = 20;
/** In a room: its middle, and more than half way to the sides. */
const STEPS = [0, -0.6, 0.6];
const SHIFTS = STEPS.flatMap((down) => STEPS.map((right) => [right, down] as const));

function placeIn(rooms: readonly Box[], wide: number, others: readonly Box[]): [x: number, y: number] | undefined {
  const roominess = (room: Box) => Math.min(room.width / wide, room.height / HEIGHT);
  const places = rooms
    .filter((room) => roominess(room) >= 1)
    .sort((a, b) => roominess(b) - roominess(a) || b.width * b.height - a.width * a.height)
    .slice(0, MOST_ROOMS)
    .flatMap(({ left, top, width, height }) =>
      SHIFTS.map(([right, down]): [number, number] => [
        left + width / 2 + (right * (width - wide)) / 2,
        top + height / 2 + (down * (height - HEIGHT)) / 2,
      ]),
    );
  let best: [number, number] | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (const place of places) {
    const plate = boxRound(...place, wide + 4, HEIGHT + 4);
    const covered = others.reduce((sum, other) => sum + overlapOf(other, plate), 0);
    if (covered < least) [best, least] = [place, covered];
  }
  return best;
}
