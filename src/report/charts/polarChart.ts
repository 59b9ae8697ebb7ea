import { scaleLinear } from 'd3-scale';
import { line } from 'd3-shape';
import type { Crossover } from '../../crossover/crossover.js';
import { fixed } from '../../output/output.js';
import type { Chart } from '../document/figure.js';
import { element, rounded, textAt } from '../drawing/svg.js';
import { tip } from './plot.js';

/** How fast the fastest plan is over the angle, a line for each of some winds. */
export function polarChart({ cells, options }: Crossover): Chart {
  const winds = chosenOf(options.twsKn);
  const lines = winds.map((twsKn) => ({
    twsKn,
    cells: cells.filter((cell) => cell.twsKn === twsKn && cell.stwKn !== null),
  }));
  const most = Math.max(1, ...lines.flatMap((one) => one.cells.map(({ stwKn }) => stwKn ?? 0)));
  return {
    title: 'Speed over the true wind angle',
    says: `Polar of the fastest sail plan: the wind blows from the top, the angle off the bow goes round from 0° there to 180° at the foot, and the distance from the middle is the speed through the water in knots, for true winds of ${winds.join(', ')} kn. The lines are told apart by their dashes.`,
    ...(lines.every((one) => one.cells.length === 0) ? { nothing: 'No plan makes way anywhere on the chart.' } : {}),
    draw(width) {
      const radius = Math.min(300, width - 70);
      const [cx, cy] = [Math.max(34, (width - radius) / 2 - 20), radius + 18];
      const r = scaleLinear([0, most], [0, radius]).nice(5);
      const place = (kn: number, deg: number): readonly [number, number] => {
        const angle = (deg * Math.PI) / 180;
        return [cx + r(kn) * Math.sin(angle), cy - r(kn) * Math.cos(angle)];
      };
      const rings = r.ticks(5).filter((kn) => kn > 0);
      return {
        markup: [
          element(
            'g',
            { class: 'axis' },
            ...rings.flatMap((kn) => [
              element('path', {
                d: `M${rounded(cx)} ${rounded(cy - r(kn))}A${rounded(r(kn))} ${rounded(r(kn))} 0 0 1 ${rounded(cx)} ${rounded(cy + r(kn))}`,
                class: 'ring-line',
              }),
              textAt(cx - 6, cy - r(kn) + 4, `${kn}`, { 'text-anchor': 'end' }),
            ]),
            ...[0, 30, 60, 90, 120, 150, 180].flatMap((deg) => {
              const [x, y] = place(r.domain()[1]!, deg);
              const [tx, ty] = [
                cx + (radius + 14) * Math.sin((deg * Math.PI) / 180),
                cy - (radius + 10) * Math.cos((deg * Math.PI) / 180),
              ];
              return [
                element('line', { x1: cx, y1: cy, x2: x, y2: y }),
                textAt(tx, ty + 4, `${deg}°`, { 'text-anchor': deg === 0 || deg === 180 ? 'middle' : 'start' }),
              ];
            }),
          ),
          ...lines.map(({ twsKn, cells: own }, i) =>
            element(
              'g',
              { class: `polar polar-${i % 2}` },
              element('path', {
                d:
                  line<readonly [number, number]>().digits(1)(
                    own.map(({ stwKn, twaDeg }) => place(stwKn ?? 0, twaDeg)),
                  ) ?? '',
                'stroke-dasharray': DASHES[i % DASHES.length],
              }),
              ...own.map(({ stwKn, twaDeg, sailPlan }) => {
                const [x, y] = place(stwKn ?? 0, twaDeg);
                return element(
                  'circle',
                  { cx: x, cy: y, r: 5, class: 'unseen' },
                  tip(`TWS ${twsKn} kn, TWA ${twaDeg}°: ${fixed(stwKn ?? 0, 1)} kn under ${sailPlan}`),
                );
              }),
            ),
          ),
          ...lines.map(({ twsKn }, i) => keyOf(twsKn, i, width)),
        ].join(''),
        height: 2 * radius + 48,
      };
    },
  };
}

const DASHES = [undefined, '8 3', '2 3', '10 3 2 3', '5 5', '14 4'];
const MOST_LINES = 6;

/** Winds that are evenly spread over those there are, for no more lines than can be told apart. */
function chosenOf(winds: readonly number[]): readonly number[] {
  const strong = winds.filter((kn) => kn <= MOST_WIND_KN);
  const from = strong.length === 0 ? winds : strong;
  if (from.length <= MOST_LINES) return from;
  const last = from.length - 1;
  return [...new Set(Array.from({ length: MOST_LINES }, (_, i) => from[Math.round((i * last) / (MOST_LINES - 1))]!))];
}

/** Beyond it lines lie on each other. */
const MOST_WIND_KN = 26;

function keyOf(twsKn: number, i: number, width: number): string {
  const y = 24 + i * 18;
  return element(
    'g',
    { class: `polar polar-${i % 2}` },
    element('path', { d: `M${width - 96} ${y}h34`, 'stroke-dasharray': DASHES[i % DASHES.length] }),
    textAt(width - 56, y + 4, `${twsKn} kn`, { class: 'bar-text' }),
  );
}
