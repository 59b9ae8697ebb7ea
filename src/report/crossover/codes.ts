import { type Keys, touching } from '../../touching.js';
import { type Box, boxRound, overlapOf } from '../drawing/box.js';
import { CODE_HEIGHT, codeAt, codeWidth } from '../drawing/codePlate.js';
import { element } from '../drawing/svg.js';
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

/** Looking further than the roomiest finds no better place. */
const MOST_ROOMS = 20;
/** In a room: its middle, and more than half way to the sides. */
const STEPS = [0, -0.6, 0.6];
const SHIFTS = STEPS.flatMap((down) => STEPS.map((right) => [right, down] as const));

function placeIn(rooms: readonly Box[], wide: number, others: readonly Box[]): [x: number, y: number] | undefined {
  const roominess = (room: Box) => Math.min(room.width / wide, room.height / CODE_HEIGHT);
  const places = rooms
    .filter((room) => roominess(room) >= 1)
    .sort((a, b) => roominess(b) - roominess(a) || b.width * b.height - a.width * a.height)
    .slice(0, MOST_ROOMS)
    .flatMap(({ left, top, width, height }) =>
      SHIFTS.map(([right, down]): [number, number] => [
        left + width / 2 + (right * (width - wide)) / 2,
        top + height / 2 + (down * (height - CODE_HEIGHT)) / 2,
      ]),
    );
  let best: [number, number] | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (const place of places) {
    const plate = boxRound(...place, wide + 4, CODE_HEIGHT + 4);
    const covered = others.reduce((sum, other) => sum + overlapOf(other, plate), 0);
    if (covered < least) [best, least] = [place, covered];
  }
  return best;
}
