import { scaleLinear } from 'd3-scale';
import type { Chart } from '../document/figure.js';
import { element, rounded, textAt } from '../drawing/svg.js';
import { tip } from './plot.js';

/** A difference with what its mean and nine of ten passages lie between. */
export interface DifferenceShown {
  readonly name: string;
  readonly text: string;
  readonly mid: number;
  readonly low: number | null;
  readonly high: number | null;
  readonly p5: number;
  readonly p95: number;
}

/** Differences of unlike things, each on a scale of its own about a common nothing. */
export function differencesChart(shown: readonly DifferenceShown[], against: string): Chart {
  return {
    title: 'What it changes on a passage',
    says: `Each line has a scale of its own about no difference to ${against}, which is the line down the middle: left is less, right is more. The mark is the mean, the thick line what the mean lies between by the number of passages (95 %), the thin line what nine of ten passages lie between.`,
    ...(shown.length === 0 ? { nothing: 'Nothing differs.' } : {}),
    draw(width) {
      const [middle, half] = [width / 2, width / 2 - 14];
      const rows = shown.map((row, i) => rowOf(row, i * ROW, middle, half, width));
      const height = shown.length * ROW;
      return {
        markup: [element('line', { class: 'zero', x1: middle, x2: middle, y1: 0, y2: height }), ...rows].join(''),
        height: height + 6,
      };
    },
  };
}

const ROW = 40;

function rowOf(
  { name, text, mid, low, high, p5, p95 }: DifferenceShown,
  top: number,
  middle: number,
  half: number,
  width: number,
): string {
  const most = Math.max(1e-9, ...[mid, low ?? 0, high ?? 0, p5, p95].map(Math.abs));
  const x = scaleLinear([-most, most], [middle - half, middle + half]);
  const y = top + 27;
  return element(
    'g',
    {},
    tip(`${name}: ${text}`),
    textAt(14, top + 14, name, { class: 'bar-name' }),
    textAt(width - 14, top + 14, text, { class: 'bar-text', 'text-anchor': 'end' }),
    element('path', {
      class: 'whisker',
      d: `M${rounded(x(p5))} ${y}H${rounded(x(p95))}M${rounded(x(p5))} ${y - 4}v8M${rounded(x(p95))} ${y - 4}v8`,
    }),
    ...(low === null || high === null
      ? []
      : [
          element('rect', {
            class: 'day-part',
            x: x(low),
            y: y - 3.5,
            width: Math.max(1, x(high) - x(low)),
            height: 7,
          }),
        ]),
    element('circle', { class: 'taken-part', cx: x(mid), cy: y, r: 4.6 }),
  );
}
