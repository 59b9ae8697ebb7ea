import { scaleLinear } from 'd3-scale';
import { line } from 'd3-shape';
import { duration, type PlanToPrint } from '../../output/output.js';
import type { Chart } from '../document/figure.js';
import { element, textAt } from '../drawing/svg.js';
import { whenText } from './instants.js';
import { axisBelow, axisLeft, axisName, tip } from './plot.js';

type Curve = NonNullable<PlanToPrint['passage']['curve']>;

/** A curve of another choice beside it. */
export interface CurveShown {
  readonly name: string;
  readonly curve: Curve;
}

/** The earliest arrival for every number of sail changes, with the one that was chosen. */
export function tradeoffChart(curve: Curve): Chart {
  const chosen = curve.find((point) => point.chosen);
  const [first, best] = [curve[0], curve.at(-1)];
  const said =
    first === undefined || best === undefined
      ? 'There is no curve.'
      : `From ${first.changes} changes in ${duration(first.hours)} to ${best.changes} in ${duration(best.hours)}.`;
  return {
    title: 'What sail changes buy',
    says: `${said}${chosen === undefined ? '' : ` Chosen is the ringed one: ${chosen.changes} changes, ${duration(chosen.hours)}.`} Open dots are estimates of passages that the forecast does not reach.`,
    draw: (width) => curvesIn([{ name: '', curve }], width),
  };
}

/** One curve or several over the same axes. */
function curvesIn(shown: readonly CurveShown[], width: number) {
  const box = { left: 44, top: 18, width: width - 58, height: Math.min(260, width * 0.62) };
  const points = shown.flatMap(({ curve }) => curve);
  const days = points.map(({ hours }) => hours / 24);
  const x = scaleLinear(
    [0, Math.max(1, ...points.map(({ changes }) => changes))],
    [box.left + 8, box.left + box.width - 8],
  );
  const y = scaleLinear([Math.min(...days), Math.max(...days)], [box.top + box.height - 8, box.top + 8]).nice(5);
  const whole = x.ticks(Math.min(12, width / 60)).filter(Number.isInteger);
  return {
    markup: [
      axisLeft(
        box,
        y.ticks(5).map((value) => ({ at: y(value), text: `${Number(value.toFixed(2))}` })),
      ),
      axisBelow(
        box,
        whole.map((value) => ({ at: x(value), text: `${value}` })),
      ),
      axisName(6, 10, 'days under way'),
      axisName(width - 14, box.top + box.height + 34, 'sail changes', 'end'),
      ...shown.map(({ name, curve }, i) => curveOf(curve, name, i, x, y)),
    ].join(''),
    height: box.top + box.height + 40,
  };
}

function curveOf(
  curve: Curve,
  name: string,
  index: number,
  x: (value: number) => number,
  y: (value: number) => number,
): string {
  const places = curve.map((point) => [x(point.changes), y(point.hours / 24)] as const);
  const last = places.at(-1);
  return element(
    'g',
    { class: `curve curve-${index}` },
    element('path', { d: line<readonly [number, number]>().digits(1)(places) ?? '' }),
    ...curve.map(({ changes, hours, arrival, chosen, estimated }, i) => {
      const [cx, cy] = places[i]!;
      const told = `${name === '' ? '' : `${name}: `}${changes} changes, ${duration(hours)}, arrival ${whenText(arrival)}${estimated ? ' (estimated)' : ''}${chosen ? ', chosen' : ''}`;
      return element(
        'g',
        {},
        tip(told),
        ...(chosen ? [element('circle', { class: 'ring', cx, cy, r: 8 })] : []),
        element('circle', { class: estimated ? 'open' : 'dot', cx, cy, r: 3.2 }),
      );
    }),
    ...(name === '' || last === undefined
      ? []
      : [textAt(last[0], last[1] - 8, name, { class: 'curve-name', 'text-anchor': 'end' })]),
  );
}

/** Trade-offs of one plan or several over the same axes. */
export function tradeoffsChart(shown: readonly CurveShown[]): Chart {
  const [only] = shown;
  if (only !== undefined && shown.length === 1) return tradeoffChart(only.curve);
  const said = shown.map(({ name, curve }) => {
    const chosen = curve.find((point) => point.chosen);
    return chosen === undefined ? name : `${name}: ${chosen.changes} changes, ${duration(chosen.hours)}`;
  });
  return {
    title: 'What sail changes buy, side by side',
    says: `Chosen are the ringed ones. ${said.join('; ')}. The first line is full, the second broken.`,
    draw: (width) => curvesIn(shown, width),
  };
}
