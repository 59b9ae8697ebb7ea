import { scaleLinear } from 'd3-scale';
import { line } from 'd3-shape';
import { fixed, type PlanToPrint } from '../../output/output.js';
import { isoUtc, parseInstant } from '../../time.js';
import type { Chart } from '../document/figure.js';
import type { Box } from '../drawing/box.js';
import { codeAt, codeWidth } from '../drawing/codePlate.js';
import { element, textAt } from '../drawing/svg.js';
import type { ChangeShown } from './changesShown.js';
import { DAY_SECONDS, dayText, NOTHING_SAILED, spansOf, whenText } from './instants.js';
import { type PlanInLog, stretches } from './plansInLog.js';
import { axisBelow, axisLeft, tip } from './plot.js';

/**
 * The sail plans hour by hour in strips of some days: the plan set, wind and limit gust below it, the dark hours shaded, and each sail change
 * with its number, which leads to its row in the table.
 */
export function timelineChart(plan: PlanToPrint, plans: readonly PlanInLog[], changes: readonly ChangeShown[]): Chart {
  const { hours } = plan.passage;
  const strongest = hours.reduce((most, hour) => Math.max(most, hour.gustKn), 0);
  return {
    title: 'Sail plans against the wind',
    says: `Each strip is some days, in UTC: above the sail plan by its letter and pattern, below the true wind over the water (full line) and the limit gust (broken line), which goes up to ${fixed(strongest, 0)} kn. Dark hours are shaded.${changes.length === 0 ? '' : ' Numbers are sail changes.'}${hours.some(({ sailPlan }) => sailPlan === null) ? ' An empty dashed band is hove to.' : ''}`,
    hasLinks: true,
    ...(hours.length === 0 ? { nothing: NOTHING_SAILED } : {}),
    draw(width) {
      const spans = spansOf(hours);
      const [from, to] = [spans[0]!.from, spans.at(-1)!.to];
      const days = Math.max(1, (to - from) / DAY_SECONDS);
      const strips = Math.ceil(days / ((width - LEFT - RIGHT) / LEAST_DAY_WIDTH));
      const seconds = Math.ceil((days / strips) * 24) * 3600;
      const parts: string[] = [];
      let top = 4;
      for (let s = 0; s < strips; s += 1) {
        const span = { from: from + s * seconds, to: from + (s + 1) * seconds };
        const strip = stripOf(plan, plans, changes, span, strongest, top, width);
        parts.push(strip.markup);
        top = strip.bottom;
      }
      return { markup: parts.join(''), height: top };
    },
  };
}

const LEFT = 40;
const RIGHT = 10;
/** A day is to be no narrower: an hour is then still two or three dots on a screen. */
const LEAST_DAY_WIDTH = 62;
const BAND = 24;
const WIND = 96;
const HANDLE = 9;

interface Span {
  readonly from: number;
  readonly to: number;
}

function stripOf(
  { passage }: PlanToPrint,
  plans: readonly PlanInLog[],
  changes: readonly ChangeShown[],
  span: Span,
  strongest: number,
  top: number,
  width: number,
): { readonly markup: string; readonly bottom: number } {
  const rows = spansOf(passage.hours).filter(({ from, to }) => from < span.to && to > span.from);
  const x = scaleLinear([span.from, span.to], [LEFT, width - RIGHT]);
  const marks = changes.flatMap((change, i) => {
    const at = parseInstant(change.time) as number;
    return at >= span.from && at < span.to ? [{ change, i, x: x(at) }] : [];
  });
  const levels = levelled(marks.map((mark) => mark.x));
  const bandTop = top + (Math.max(0, ...levels) + 1) * 2 * HANDLE + 4;
  const box: Box = { left: LEFT, top: bandTop + BAND + 5, width: width - LEFT - RIGHT, height: WIND };
  const bottom = box.top + box.height;
  const y = scaleLinear([0, Math.max(10, strongest)], [bottom, box.top]).nice(4);
  const clamped = (seconds: number) => x(Math.min(span.to, Math.max(span.from, seconds)));
  const nights = stretches(rows, ({ hour }) => hour.daylight).filter(({ key }) => !key);
  const known = new Map(plans.map((shown) => [shown.id, shown]));
  const ends = ({ from, to }: { from: number; to: number }) =>
    [clamped(rows[from]!.from), clamped(rows[to - 1]!.to)] as const;
  const curve = (read: (row: (typeof rows)[number]) => number) =>
    line<readonly [number, number]>().digits(1)(
      rows.flatMap((row, i) => [
        [clamped(row.from), y(read(row))] as const,
        ...(i === rows.length - 1 ? [[clamped(row.to), y(read(row))] as const] : []),
      ]),
    ) ?? '';
  const markup = element(
    'g',
    {},
    ...nights.map((night) => {
      const [x1, x2] = ends(night);
      return element('rect', { class: 'night', x: x1, y: bandTop, width: x2 - x1, height: bottom - bandTop });
    }),
    axisLeft(
      box,
      y.ticks(4).map((kn, i, all) => ({ at: y(kn), text: i === all.length - 1 ? `${kn} kn` : `${kn}` })),
    ),
    axisBelow(box, dayTicks(span, x)),
    ...stretches(rows, ({ hour }) => hour.sailPlan).map((stretch) => {
      const [x1, x2] = ends(stretch);
      const some = rows.slice(stretch.from, stretch.to).map(({ hour }) => hour);
      return bandOf(stretch.key, known.get(stretch.key ?? ''), some, {
        left: x1,
        top: bandTop,
        width: x2 - x1,
        height: BAND,
      });
    }),
    element('path', { class: 'wind', d: curve(({ hour }) => hour.twsKn) }),
    element('path', { class: 'gust', d: curve(({ hour }) => hour.gustKn) }),
    ...marks.map((mark, k) => {
      const level = levels[k]!;
      const handleY = bandTop - 4 - HANDLE - level * 2 * HANDLE;
      const at = mark.x;
      return element(
        'a',
        { href: `#change-${mark.i + 1}`, class: 'change' },
        tip(`${mark.i + 1}. ${mark.change.told}`),
        element('line', { x1: at, y1: handleY, x2: at, y2: bandTop + BAND }),
        element('circle', { cx: at, cy: handleY, r: HANDLE - 1 }),
        textAt(at, handleY + 3.6, `${mark.i + 1}`, { 'text-anchor': 'middle' }),
      );
    }),
  );
  return { markup, bottom: bottom + 30 };
}

/** The band of one plan, with what was met under it. */
function bandOf(
  plan: string | null,
  shown: PlanInLog | undefined,
  hours: readonly PlanToPrint['passage']['hours'][number][],
  { left, top, width, height }: Box,
): string {
  const winds = hours.map(({ twsKn }) => twsKn);
  const gust = Math.max(...hours.map(({ gustKn }) => gustKn));
  const told = `${plan ?? 'hove to'}, from ${whenText(hours[0]!.time)}: wind ${fixed(Math.min(...winds), 0)} to ${fixed(Math.max(...winds), 0)} kn, gust to ${fixed(gust, 0)} kn`;
  const place = { x: left, y: top, width: Math.max(width, 0.5), height };
  return element(
    'g',
    { class: 'plan' },
    tip(told),
    ...(shown === undefined
      ? [element('rect', { ...place, class: 'bare' })]
      : [
          element('rect', { ...place, fill: shown.fill.tint }),
          element('rect', { ...place, fill: `url(#${shown.fill.id})`, class: 'edge' }),
          ...(codeWidth(shown.code) + 4 <= width ? [codeAt(left + width / 2, top + height / 2, shown.code)] : []),
        ]),
  );
}

/** On which level each handle stands, so that none covers another. */
function levelled(places: readonly number[]): number[] {
  const ends: number[] = [];
  return places.map((x) => {
    const free = ends.findIndex((end) => end <= x - HANDLE);
    const level = free < 0 ? ends.length : free;
    ends[level] = x + HANDLE;
    return level;
  });
}

/** Midnights of UTC within a span. */
function dayTicks({ from, to }: Span, x: (seconds: number) => number) {
  const first = Math.ceil(from / DAY_SECONDS) * DAY_SECONDS;
  const count = Math.max(0, Math.ceil((to - first) / DAY_SECONDS));
  return Array.from({ length: count }, (_, i) => first + i * DAY_SECONDS).map((at) => ({
    at: x(at),
    text: dayText(isoUtc(at)),
  }));
}
