import { scaleLinear } from 'd3-scale';
import { duration, fixed } from '../../output/output.js';
import type { GroupSummary } from '../../study/study.js';
import { isoUtc, parseInstant } from '../../time.js';
import type { Chart } from '../document/figure.js';
import { element, rounded } from '../drawing/svg.js';
import { extentOf } from './extent.js';
import { DAY_SECONDS, dayText, monthName, whenText } from './instants.js';
import { axisBelow, axisLeft, axisName, tip } from './plot.js';

/** How long passages take by when they start: the mean, and what nine of ten lie between. */
export function startsChart(starts: readonly GroupSummary[], best: string | undefined): Chart {
  const known = starts.flatMap(({ name, hours, passages, complete }) => {
    const at = parseInstant(name);
    return typeof at === 'number' && hours !== null ? [{ name, at, hours, open: complete < passages }] : [];
  });
  const bestOne = known.find(({ name }) => name === best);
  return {
    title: 'Time under way by start',
    says: `Dots are the mean of the passages of a start, lines what nine of ten lie between; open dots are starts of which not all arrive. ${bestOne === undefined ? '' : `Best by the weights, ringed: ${whenText(bestOne.name)} UTC, ${duration(bestOne.hours.mean)}.`}`,
    ...(known.length === 0 ? { nothing: 'No passage arrives.' } : {}),
    draw(width) {
      const box = { left: 38, top: 18, width: width - 50, height: Math.min(240, width * 0.6) };
      const times = known.map(({ at }) => at);
      const days = known.flatMap(({ hours }) => [hours.p5, hours.p95, hours.mean].map((value) => value / 24));
      const x = scaleLinear([...extentOf(times)], [box.left + 12, box.left + box.width - 12]);
      const y = scaleLinear([...extentOf(days)], [box.top + box.height - 8, box.top + 8]).nice(5);
      const marks = known.map(({ name, at, hours, open }) => {
        const [cx, cy] = [times.length === 1 ? box.left + box.width / 2 : x(at), y(hours.mean / 24)];
        return element(
          'g',
          {},
          tip(
            `${whenText(name)} UTC: ${fixed(hours.mean, 1)} h in the mean, ${fixed(hours.p5, 1)} to ${fixed(hours.p95, 1)} in nine of ten${open ? '; not all arrive' : ''}`,
          ),
          element('path', {
            class: 'whisker',
            d: `M${rounded(cx)} ${rounded(y(hours.p5 / 24))}V${rounded(y(hours.p95 / 24))}`,
          }),
          ...(name === best ? [element('circle', { class: 'ring', cx, cy, r: 8 })] : []),
          element('circle', { class: open ? 'open' : 'dot', cx, cy, r: 3.4 }),
        );
      });
      return {
        markup: [
          axisLeft(
            box,
            y.ticks(5).map((value) => ({ at: y(value), text: `${Number(value.toFixed(2))}` })),
          ),
          axisBelow(box, ticksOf(times, x, width)),
          axisName(4, 10, 'days under way'),
          element('g', { class: 'curve' }, ...marks),
        ].join(''),
        height: box.top + box.height + 24,
      };
    },
  };
}

/** Days, or first days of months where there are many. */
function ticksOf(times: readonly number[], x: (at: number) => number, width: number) {
  const [first, last] = extentOf(times);
  const most = Math.max(2, Math.floor(width / 64));
  const days = (last - first) / DAY_SECONDS;
  if (days > MONTHLY_FROM) {
    const ticks: { at: number; text: string }[] = [];
    const year = Number(isoUtc(first).slice(0, 4));
    const month = Number(isoUtc(first).slice(5, 7)) - 1;
    const step = Math.ceil(days / 30 / most);
    for (let m = month; ; m += step) {
      const at = Date.UTC(year, m, 1) / 1000;
      if (at > last) break;
      if (at >= first) ticks.push({ at: x(at), text: monthName(isoUtc(at)) });
    }
    return ticks;
  }
  const step = Math.max(1, Math.ceil(days / most)) * DAY_SECONDS;
  const from = Math.ceil(first / DAY_SECONDS) * DAY_SECONDS;
  return Array.from({ length: Math.max(0, Math.floor((last - from) / step) + 1) }, (_, i) => from + i * step).map(
    (at) => ({ at: x(at), text: dayText(isoUtc(at)) }),
  );
}

const MONTHLY_FROM = 75;
