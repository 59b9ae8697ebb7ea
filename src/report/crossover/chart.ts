import type { Crossover } from '../../crossover/crossover.js';
import type { Keys } from '../../touching.js';
import type { Block } from '../drawing/block.js';
import { element } from '../drawing/svg.js';
import { INK_BLACK } from '../drawing/type.js';
import { AXES, axesOf } from './axes.js';
import { bestAngleLines } from './bestAngleLines.js';
import { codesIn } from './codes.js';
import { frameOf } from './frame.js';
import { holeMarks } from './holeMarks.js';
import type { PlanShown } from './plansShown.js';
import { areasOf, bordersOf } from './regions.js';
import { undecidedMarks } from './undecidedMarks.js';

/** The chart itself: true wind speed to the right, true wind angle downwards, each cell filled as the fastest plan is. */
export function chartOf(
  crossover: Crossover,
  plans: readonly PlanShown[],
  left: number,
  top: number,
  width: number,
  height = HEIGHT,
): Block {
  const { twsKn, twaDeg } = crossover.options;
  const box = { left: left + AXES.left, top, width: width - AXES.left, height };
  const frame = frameOf(twsKn, twaDeg, box);
  const ranks = new Map(plans.map(({ id }, rank) => [id, rank]));
  const keys: Keys = crossover.cells.map(({ sailPlan }) => (sailPlan === null ? undefined : ranks.get(sailPlan)));
  const marks = [undecidedMarks(crossover, frame), bestAngleLines(crossover, frame), holeMarks(crossover, frame)];
  return {
    markup: [
      ...[...areasOf(keys, frame)].map(([rank, path]) => areaOf(plans[rank]!, path)),
      element('path', { d: bordersOf(keys, frame), fill: 'none', stroke: INK_BLACK, 'stroke-width': 1.4 }),
      element('rect', {
        class: 'frame',
        x: box.left,
        y: box.top,
        width: box.width,
        height: box.height,
        fill: 'none',
        stroke: INK_BLACK,
        'stroke-width': 1.4,
      }),
      axesOf(frame),
      ...marks.map(({ markup }) => markup),
      codesIn(
        keys,
        plans,
        frame,
        marks.flatMap(({ boxes }) => boxes),
      ),
    ].join(''),
    bottom: top + height + AXES.bottom,
  };
}

const HEIGHT = 680;

/** The cells of a plan: its tint, and its motif over that. */
function areaOf({ fill }: PlanShown, path: string): string {
  return element('path', { d: path, fill: fill.tint }) + element('path', { d: path, fill: `url(#${fill.id})` });
}
