import { scaleLinear } from 'd3-scale';
import { line } from 'd3-shape';
import { duration, type PlanToPrint } from '../../output/output.js';
import type { Chart } from '../document/figure.js';
import { element, textAt } from '../drawing/svg.js';
import { extentOf } from './extent.js';
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
      ? ''
      : `From ${first.changes} changes in ${duration(first.hours)} to ${best.changes} in ${duration(best.hours)}.`;
  return {
    title: 'What sail changes buy',
    says: `${said}${chosen === undefined ? '' : ` Chosen is the ringed one: ${chosen.changes} changes, ${duration(chosen.hours)}.`} Open dots are estimates of passages that the forecast does not reach.${nearText([{ name: '', curve }])}`,
    ...(first === undefined ? { nothing: 'There is no curve.' } : {}),
    draw: (width) => curvesIn([{ name: '', curve }], width),
  };
}

/** One curve or several over the same axes, and the points near the chosen one once more on axes of their own, where one far point flattens all. */
function curvesIn(shown: readonly CurveShown[], width: number) {
  const whole = shown.flatMap(({ curve }) => curve);
  const near = nearChosen(shown);
  const isNear = near.length > 0;
  const isWide = width > 500;
  const half = isNear && isWide ? (width - GAP) / 2 : width;
  const all = plotOf(shown, whole, { left: 0, top: 0, width: half, unit: 'days' });
  if (!isNear) return all;
  const close = plotOf(shown, near, {
    left: isWide ? half + GAP : 0,
    top: isWide ? 0 : all.height + GAP,
    width: half,
    unit: 'hours',
  });
  return { markup: all.markup + close.markup, height: close.height };
}

const GAP = 18;
/** How many points to either side of the chosen one are near it. */
const NEAR = 6;

/** The points near the chosen one, where there are many; whichever is chosen, so that the drawing stays as it is when another is. */
const nearChosen = (shown: readonly CurveShown[]) => {
  const chosen = shown.flatMap(({ curve }) => curve.filter((point) => point.chosen).map(({ changes }) => changes));
  const [least, most] = [Math.min(...chosen) - NEAR, Math.max(...chosen) + NEAR];
  if (chosen.length === 0 || shown.every(({ curve }) => curve.length <= 2 * NEAR + 1)) return [];
  return shown.flatMap(({ curve }) => curve.filter(({ changes }) => changes >= least && changes <= most));
};

const nearText = (shown: readonly CurveShown[]) =>
  nearChosen(shown).length === 0 ? '' : ' The second drawing has what lies near the chosen one once more, larger.';

/** The points of some curves that lie in a part of their axes. */
function plotOf(
  shown: readonly CurveShown[],
  points: Curve,
  at: { readonly left: number; readonly top: number; readonly width: number; readonly unit: 'days' | 'hours' },
) {
  const height = Math.min(260, Math.max(190, at.width * 0.62));
  const box = { left: at.left + 44, top: at.top + 18, width: at.width - 58, height };
  const per = at.unit === 'days' ? 24 : 1;
  const [fewest, most] = extentOf(points.map(({ changes }) => changes));
  const x = scaleLinear(
    [at.unit === 'days' ? 0 : fewest, Math.max(fewest + 1, most)],
    [box.left + 8, box.left + box.width - 8],
  );
  const y = scaleLinear(
    [...extentOf(points.map(({ hours }) => hours / per))],
    [box.top + height - 8, box.top + 8],
  ).nice(5);
  const counts = x.ticks(Math.min(12, at.width / 60)).filter(Number.isInteger);
  const inside = new Set(points);
  return {
    markup: [
      axisLeft(
        box,
        y.ticks(5).map((value) => ({ at: y(value), text: `${Number(value.toFixed(2))}` })),
      ),
      axisBelow(
        box,
        counts.map((value) => ({ at: x(value), text: `${value}` })),
      ),
      axisName(at.left + 6, at.top + 10, at.unit === 'days' ? 'days under way' : 'hours under way, near the chosen'),
      axisName(at.left + at.width - 14, box.top + height + 34, 'sail changes', 'end'),
      ...shown.map(({ name, curve }, i) =>
        curveOf(
          curve.filter((point) => inside.has(point)),
          name,
          i,
          x,
          (hours) => y(hours / per),
          at.unit === 'hours',
        ),
      ),
    ].join(''),
    height: box.top + height + 40,
  };
}

function curveOf(
  curve: Curve,
  name: string,
  index: number,
  x: (changes: number) => number,
  y: (hours: number) => number,
  isNear: boolean,
): string {
  const places = curve.map((point) => [x(point.changes), y(point.hours)] as const);
  const last = places.at(-1);
  return element(
    'g',
    { class: `curve curve-${index}${isNear ? ' near' : ''}` },
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
    says: `Chosen are the ringed ones. ${said.join('; ')}. The first line is full, the second broken.${nearText(shown)}`,
    draw: (width) => curvesIn(shown, width),
  };
}
