import type { Crossover } from '../../crossover/crossover.js';
import { patternOf } from '../drawing/patternOf.js';
import { element, escaped } from '../drawing/svg.js';
import { INK_BLACK } from '../drawing/type.js';
import { chartOf } from './chart.js';
import { describedIn, headingOf, titleOf } from './heading.js';
import { keyOf } from './key.js';
import { legendOf } from './legend.js';
import { plansShown } from './plansShown.js';

/**
 * A crossover as a chart on one page, SVG text that stands alone: the two questions with their answers, which plan is the fastest over true
 * wind speed and angle, the best angles, the holes, and a legend. Each plan has a colour and a pattern, so that it reads in grey print and
 * whatever colours a reader sees. The same crossover gives the same bytes.
 * @example
 * crossoverSvg(sample.crossover) // '<svg xmlns="http://www.w3.org/2000/svg" …'
 */
export function crossoverSvg(crossover: Crossover): string {
  const plans = plansShown(crossover);
  const heading = headingOf(crossover, MARGIN, MARGIN, WIDTH - 2 * MARGIN);
  const top = heading.bottom + 16;
  const chart = chartOf(crossover, plans, MARGIN, top, CHART_WIDTH);
  const legendLeft = MARGIN + CHART_WIDTH + 24;
  const legend = legendOf(plans, crossover.cells.length, legendLeft, top, WIDTH - MARGIN - legendLeft);
  const keyTop = chart.bottom + 14;
  const key = keyOf(crossover, MARGIN, keyTop, legend.bottom <= keyTop ? WIDTH - 2 * MARGIN : CHART_WIDTH);
  const height = Math.ceil(Math.max(key.bottom, legend.bottom) + MARGIN);
  return element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      viewBox: `0 0 ${WIDTH} ${height}`,
      width: WIDTH,
      height,
      // Where a page is narrower than the chart, the chart follows.
      style: 'max-width:100%;height:auto',
      role: 'img',
      'font-family': 'sans-serif',
      fill: INK_BLACK,
    },
    element('title', {}, escaped(titleOf(crossover))),
    element('desc', {}, escaped(describedIn(crossover))),
    element('defs', {}, ...new Set(plans.map(({ fill }) => patternOf(fill)))),
    element('rect', { width: WIDTH, height, fill: '#fff' }),
    heading.markup,
    chart.markup,
    key.markup,
    legend.markup,
  );
}

const WIDTH = 1100;
const MARGIN = 30;
const CHART_WIDTH = 700;
