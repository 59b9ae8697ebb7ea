import { scaleLinear } from 'd3-scale';
import { fixed, type PlanToPrint } from '../../output/output.js';
import type { Chart } from '../document/figure.js';
import { element, textAt } from '../drawing/svg.js';
import { dayText, NOTHING_SAILED } from './instants.js';
import { axisLeft, axisName, tip } from './plot.js';

/** Day's runs from noon to noon. */
export function daysRunsChart({ totals }: PlanToPrint): Chart {
  const { runs, bestRun, worstRun } = totals;
  const ends =
    bestRun === null || worstRun === null
      ? ''
      : ` Best ${fixed(bestRun.distanceNm, 0)} Nm to ${dayText(bestRun.date)}, worst ${fixed(worstRun.distanceNm, 0)} Nm to ${dayText(worstRun.date)}.`;
  return {
    title: "Day's runs",
    says: `Miles made good along the track from noon to noon by the ship's clock; the paler bars are parts of a day.${ends}`,
    ...(runs.length === 0 ? { nothing: NOTHING_SAILED } : {}),
    draw(width) {
      const box = { left: 38, top: 16, width: width - 48, height: 150 };
      const y = scaleLinear(
        [0, Math.max(1, ...runs.map(({ distanceNm }) => distanceNm))],
        [box.top + box.height, box.top],
      ).nice(4);
      const step = box.width / Math.max(1, runs.length);
      const every = Math.ceil(NAME_ROOM / step);
      const last = runs.length - 1;
      const isEnd = (i: number) => i === last && !runs[i]!.whole;
      const isNamed = (i: number) => isEnd(i) || (i % every === 0 && (last - i >= every || !isEnd(last)));
      const bars = runs.map(({ date, distanceNm, hours, whole }, i) => {
        const left = box.left + i * step;
        const top = y(distanceNm);
        const told = `To ${isEnd(i) ? 'the end on ' : 'noon of '}${date}: ${fixed(distanceNm, 1)} Nm in ${fixed(hours, 1)} h${whole ? '' : ', a part of a day'}`;
        return element(
          'g',
          {},
          element(
            'rect',
            {
              class: whole ? 'day-part' : 'part-day',
              x: left + step * 0.12,
              y: top,
              width: step * 0.76,
              height: box.top + box.height - top,
            },
            tip(told),
          ),
          ...(step >= NUMBER_ROOM
            ? [textAt(left + step / 2, top - 4, fixed(distanceNm, 0), { class: 'bar-text', 'text-anchor': 'middle' })]
            : []),
          ...(isNamed(i)
            ? [
                textAt(left + step / 2, box.top + box.height + 16, isEnd(i) ? 'end' : dayText(date), {
                  class: 'axis',
                  'text-anchor': 'middle',
                }),
              ]
            : []),
        );
      });
      return {
        markup: [
          axisLeft(
            box,
            y.ticks(4).map((value) => ({ at: y(value), text: `${value}` })),
          ),
          axisName(4, 10, 'Nm'),
          ...bars,
        ].join(''),
        height: box.top + box.height + 24,
      };
    },
  };
}

const NAME_ROOM = 46;
const NUMBER_ROOM = 24;
