import type { Fill } from './palette.js';
import { element } from './svg.js';

/** The motif of a fill as a pattern, without its tint: a tint in the tile would show the seams between tiles. */
export function patternOf({ id, ink, motif }: Fill): string {
  const { width, height, line, solid, weight = 1.1, turnDeg } = motif;
  return element(
    'pattern',
    {
      id,
      width,
      height,
      patternUnits: 'userSpaceOnUse',
      patternTransform: turnDeg === undefined ? undefined : `rotate(${turnDeg})`,
    },
    ...(line === undefined ? [] : [element('path', { d: line, fill: 'none', stroke: ink, 'stroke-width': weight })]),
    ...(solid === undefined ? [] : [element('path', { d: solid, fill: ink })]),
  );
}
