import { chancePassed, chanceText } from '../../output/output.js';
import type { Chance } from '../../study/study.js';
import type { Chart } from '../document/figure.js';
import { barsIn } from './bars.js';

/** Chances to be over a limit, each with what it lies between. */
export function chancesChart(chances: readonly Chance[]): Chart {
  return {
    title: 'Chances',
    says: 'The chance of this on a passage, of the passages that were sailed; the line is between what it lies by their number (95 %).',
    draw: (width) =>
      barsIn(
        {
          unit: '% of passages',
          reach: [0, 100],
          bars: chances.map((chance) => {
            const { share, shareLow, shareHigh } = chance;
            const name = chancePassed(chance);
            const told = `${name}: ${chanceText(chance)}`;
            return {
              name,
              text: chanceText(chance),
              parts: share === null ? [] : [{ from: 0, to: 100 * share, look: 'day-part', told }],
              ...(shareLow === null || shareHigh === null
                ? {}
                : { range: { low: 100 * shareLow, high: 100 * shareHigh } }),
            };
          }),
        },
        width,
      ),
  };
}
