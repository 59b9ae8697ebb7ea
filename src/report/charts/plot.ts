import type { Box } from '../drawing/box.js';
import { element, escaped, textAt } from '../drawing/svg.js';

/** A value on an axis and what stands beside it. */
export interface Tick {
  readonly at: number;
  readonly text: string;
}

/** Lines across a plot at the ticks of its left axis, with their texts. */
export function axisLeft({ left, width }: Box, ticks: readonly Tick[]): string {
  return element(
    'g',
    { class: 'axis' },
    ...ticks.flatMap(({ at, text }) => [
      element('line', { x1: left, y1: at, x2: left + width, y2: at }),
      textAt(left - 6, at + 3.8, text, { 'text-anchor': 'end' }),
    ]),
  );
}

/** Ticks under a plot with their texts. */
export function axisBelow({ top, height }: Box, ticks: readonly Tick[]): string {
  const bottom = top + height;
  return element(
    'g',
    { class: 'axis' },
    ...ticks.flatMap(({ at, text }) => [
      element('line', { x1: at, y1: bottom, x2: at, y2: bottom + 4 }),
      textAt(at, bottom + 16, text, { 'text-anchor': 'middle' }),
    ]),
  );
}

/** Lines down a plot at the ticks of the axis below it. */
export const linesDown = ({ top, height }: Box, ticks: readonly Tick[]): string =>
  element(
    'g',
    { class: 'axis' },
    ...ticks.map(({ at }) => element('line', { x1: at, y1: top, x2: at, y2: top + height })),
  );

/** What an axis measures, at its end. */
export const axisName = (x: number, y: number, text: string, anchor: 'start' | 'middle' | 'end' = 'start') =>
  textAt(x, y, text, { class: 'axis-name', 'text-anchor': anchor });

/** What a mark tells on being pointed at or reached by keyboard. */
export const tip = (text: string) => element('title', {}, escaped(text));
