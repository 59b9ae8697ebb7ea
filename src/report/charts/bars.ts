import { scaleLinear } from 'd3-scale';
import { element, rounded, textAt } from '../drawing/svg.js';
import { widthOf } from '../drawing/wrapped.js';
import { axisBelow, axisName, linesDown, tip } from './plot.js';

/** A part of a bar. */
export interface BarPart {
  readonly from: number;
  readonly to: number;
  /** How it is filled: a class of the style sheet. */
  readonly look: string;
  readonly told: string;
}

/** A bar with its name, parts, what stands at its end, and a range about a value. */
export interface Bar {
  readonly name: string;
  readonly parts: readonly BarPart[];
  readonly text: string;
  readonly range?: { readonly low: number; readonly high: number };
  /** A value that is marked on the bar. */
  readonly mark?: number;
}

/** Bars from left to right, a line each, over one axis. */
export interface Bars {
  readonly bars: readonly Bar[];
  readonly unit: string;
  /** What the axis reaches at least. */
  readonly reach?: readonly [from: number, to: number];
  readonly tickText?: (value: number) => string;
}

/** Draws bars in a width; names stand above their bars, so that long ones have room. */
export function barsIn({ bars, unit, reach = [0, 0], tickText = String }: Bars, width: number) {
  const values = bars.flatMap(({ parts, range, mark }) => [
    ...parts.flatMap(({ from, to }) => [from, to]),
    ...(range === undefined ? [] : [range.low, range.high]),
    ...(mark === undefined ? [] : [mark]),
  ]);
  const [least, most] = [Math.min(reach[0], ...values), Math.max(reach[1], ...values)];
  const box = { left: SIDE, top: 0, width: width - 2 * SIDE, height: bars.length * ROW };
  const x = scaleLinear([least, most > least ? most : least + 1], [box.left, box.left + box.width]);
  const ticks = x.ticks(Math.max(3, width / 90)).map((value) => ({ at: x(value), text: tickText(value) }));
  const rows = bars.map((bar, i) => barAt(bar, i * ROW, x, width));
  const bottom = box.height;
  return {
    markup: [
      linesDown(box, ticks),
      element('line', { class: 'zero', x1: x(Math.max(least, 0)), x2: x(Math.max(least, 0)), y1: 0, y2: bottom }),
      ...rows,
      axisBelow(box, ticks),
      axisName(width - SIDE, bottom + 34, unit, 'end'),
    ].join(''),
    height: bottom + 40,
  };
}

const SIDE = 14;
const ROW = 42;
const THICK = 14;

function barAt(
  { name, parts, text, range, mark }: Bar,
  top: number,
  x: (value: number) => number,
  width: number,
): string {
  const y = top + 22;
  const middle = y + THICK / 2;
  return element(
    'g',
    {},
    textAt(SIDE + 4, top + 14, name, { class: 'bar-name' }),
    textAt(width - SIDE - 5, top + 14, cut(text, width - 2 * SIDE - widthOf(name, 12) - 12), {
      class: 'bar-text',
      'text-anchor': 'end',
    }),
    ...parts.map(({ from, to, look, told }) =>
      element(
        'rect',
        { class: look, x: Math.min(x(from), x(to)), y, width: Math.abs(x(to) - x(from)), height: THICK },
        tip(told),
      ),
    ),
    ...(range === undefined
      ? []
      : [
          element('path', {
            class: 'whisker',
            d: `M${rounded(x(range.low))} ${rounded(middle)}H${rounded(x(range.high))}M${rounded(x(range.low))} ${rounded(middle - 4)}v8M${rounded(x(range.high))} ${rounded(middle - 4)}v8`,
          }),
        ]),
    ...(mark === undefined
      ? []
      : [element('rect', { class: 'mid-part', x: x(mark) - 2, y: y - 2, width: 4, height: THICK + 4 })]),
  );
}

/** A text that would run into the name is left to the table. */
const cut = (text: string, room: number) => (widthOf(text, 12) <= room ? text : '');
