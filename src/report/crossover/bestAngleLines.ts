import { pathRound } from 'd3-path';
import type { BestAngles, Crossover } from '../../crossover/crossover.js';
import { type Box, boxRound } from '../drawing/box.js';
import { element } from '../drawing/svg.js';
import { INK_BLACK } from '../drawing/type.js';
import type { Frame } from './frame.js';
import type { Marks } from './marks.js';

/** The best angles over the winds, up with open and down with full markers; a line breaks where none is made. */
export function bestAngleLines({ bestAngles }: Crossover, frame: Frame): Marks {
  const both = (['up', 'down'] as const).map((board) => {
    const runs = runsOf(bestAngles, board, frame);
    return { markup: bestLine(runs, board), boxes: runs.flatMap(boxesOf) };
  });
  return {
    markup: element('g', { class: 'best-angles' }, ...both.map(({ markup }) => markup)),
    boxes: both.flatMap(({ boxes }) => boxes),
  };
}

type Point = readonly [x: number, y: number];

/** A line of best angles through runs of points, as the chart and its key draw it. */
export function bestLine(runs: readonly (readonly Point[])[], board: 'up' | 'down'): string {
  const path = pathRound(2);
  for (const run of runs) {
    run.forEach(([x, y], i) => {
      if (i === 0) path.moveTo(x, y);
      else path.lineTo(x, y);
    });
  }
  const d = path.toString();
  if (d === '') return '';
  const line = { d, fill: 'none', 'stroke-linejoin': 'round' };
  const fill = board === 'up' ? '#fff' : INK_BLACK;
  return (
    element('path', { ...line, stroke: '#fff', 'stroke-width': 4.5 }) +
    element('path', { ...line, stroke: INK_BLACK, 'stroke-width': 2, 'stroke-dasharray': '6 4' }) +
    runs
      .flat()
      .map(([cx, cy]) =>
        element('circle', {
          cx,
          cy,
          r: RADIUS,
          fill,
          stroke: board === 'up' ? INK_BLACK : '#fff',
          'stroke-width': 1.5,
        }),
      )
      .join('')
  );
}

const RADIUS = 4;

function runsOf(bestAngles: readonly BestAngles[], board: 'up' | 'down', { x, y }: Frame): readonly Point[][] {
  const runs: Point[][] = [[]];
  for (const angles of bestAngles) {
    const best = angles[board];
    if (best === null) runs.push([]);
    else runs.at(-1)!.push([x(angles.twsKn), y(best.twaDeg)]);
  }
  return runs.filter((run) => run.length > 0);
}

/** Along the line as well as at the markers, at most a marker apart. */
function boxesOf(run: readonly Point[]): readonly Box[] {
  return run.flatMap(([x, y], i) => {
    const [fromX, fromY] = run[i - 1] ?? [x, y];
    const steps = Math.max(1, Math.ceil(Math.hypot(x - fromX, y - fromY) / (2 * RADIUS)));
    return Array.from({ length: steps }, (_, step) => {
      const share = (step + 1) / steps;
      return boxRound(fromX + (x - fromX) * share, fromY + (y - fromY) * share, 2 * RADIUS, 2 * RADIUS);
    });
  });
}
