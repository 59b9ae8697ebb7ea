import { fixed } from '../../output/output.js';
import { element, textAt } from '../drawing/svg.js';
import { widthOf } from '../drawing/wrapped.js';
import { extentOf } from './extent.js';
import { tip } from './plot.js';

/** Numbers in rows and columns, the stronger the shade the greater. */
export interface Grid {
  readonly rows: readonly string[];
  readonly columns: readonly string[];
  readonly values: readonly (readonly number[])[];
  readonly unit: string;
  readonly decimals: number;
}

/** Draws a grid in a width: where columns are too narrow for their numbers, shades alone. */
export function gridIn({ rows, columns, values, unit, decimals }: Grid, width: number) {
  const left = Math.min(width * 0.4, Math.max(40, ...rows.map((name) => widthOf(name, 11))) + 8);
  const step = (width - left) / Math.max(1, columns.length);
  const most = Math.max(1e-9, extentOf(values.flat())[1]);
  const every = Math.ceil(Math.max(...columns.map((name) => widthOf(name, 11) + 6)) / step);
  const heads = columns.flatMap((name, c) =>
    c % every === 0 ? [textAt(left + (c + 0.5) * step, HEAD - 6, name, { 'text-anchor': 'middle' })] : [],
  );
  const cells = rows.flatMap((name, r) => [
    textAt(left - 8, HEAD + r * ROW + ROW / 2 + 4, cutTo(name, left - 8), { 'text-anchor': 'end' }),
    ...columns.map((column, c) => {
      const value = values[r]?.[c] ?? 0;
      const text = fixed(value, decimals);
      const [x, y] = [left + c * step, HEAD + r * ROW];
      return element(
        'g',
        {},
        tip(`${name}, ${column}: ${text} ${unit}`),
        element('rect', {
          class: 'shade',
          x,
          y,
          width: step,
          height: ROW,
          'fill-opacity': Math.round((50 * value) / most) / 100,
        }),
        ...(value > 0 && widthOf(text, 11) + 2 <= step
          ? [textAt(x + step / 2, y + ROW / 2 + 4, text, { 'text-anchor': 'middle', class: 'in-cell' })]
          : []),
      );
    }),
  ]);
  return { markup: element('g', { class: 'axis' }, ...heads, ...cells), height: HEAD + rows.length * ROW + 4 };
}

const HEAD = 22;
const ROW = 24;

function cutTo(text: string, width: number): string {
  if (widthOf(text, 11) <= width) return text;
  let kept = text;
  while (kept !== '' && widthOf(`${kept}…`, 11) > width) kept = kept.slice(0, -1);
  return `${kept}…`;
}
