import { element, rounded, textAt } from '../drawing/svg.js';
import { INK_BLACK, SIZE } from '../drawing/type.js';
import type { Frame } from './frame.js';

/** How far the axes and their names reach beyond the frame. */
export const AXES = { left: 62, bottom: 48 } as const;

/** Ticks, numbers and names of both axes. */
export function axesOf({ box, x, y, twsTicks, twaTicks }: Frame): string {
  const { left, top, width, height } = box;
  const bottom = top + height;
  const tick = (x1: number, y1: number, x2: number, y2: number) =>
    element('line', { x1, y1, x2, y2, stroke: INK_BLACK });
  const middle = { 'text-anchor': 'middle' };
  const beside = { x: left - AXES.left + 14, y: top + height / 2 };
  return element(
    'g',
    { class: 'axes', 'font-size': SIZE.small },
    ...twsTicks.flatMap((twsKn) => [
      tick(x(twsKn), bottom, x(twsKn), bottom + 6),
      textAt(x(twsKn), bottom + 20, `${twsKn}`, middle),
    ]),
    ...twaTicks.flatMap((twaDeg) => [
      tick(left - 6, y(twaDeg), left, y(twaDeg)),
      textAt(left - 10, y(twaDeg) + 4.5, `${twaDeg}°`, { 'text-anchor': 'end' }),
    ]),
    textAt(left + width / 2, bottom + 42, 'True wind speed (TWS), kn', { ...middle, 'font-size': SIZE.text }),
    textAt(beside.x, beside.y, 'True wind angle (TWA), 0° into the wind', {
      ...middle,
      'font-size': SIZE.text,
      transform: `rotate(-90 ${rounded(beside.x)} ${rounded(beside.y)})`,
    }),
  );
}
