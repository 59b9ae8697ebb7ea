import { fixed } from '../../output/output.js';
import type { GroupSummary } from '../../study/study.js';
import type { Chart } from '../document/figure.js';
import { type Bar, barsIn } from './bars.js';

type Sails = GroupSummary['sails'];

/** Hours on each sail: the mean, and what nine of ten passages lie between. */
export function sailsSpreadChart(sails: Sails): Chart {
  const used = sails.filter(({ hours }) => hours.p95 > 0 || hours.mean > 0);
  return {
    title: 'Hours on each sail, per passage',
    says: 'The mark is the mean, the bar what nine of ten passages lie between.',
    ...(used.length === 0 ? { nothing: 'No sail was set.' } : {}),
    draw: (width) =>
      barsIn(
        {
          unit: 'hours of a passage',
          bars: used.map(({ id, hours }) =>
            spreadBar(id, hours, `${fixed(hours.mean, 0)} h (${fixed(hours.p5, 0)} to ${fixed(hours.p95, 0)})`),
          ),
        },
        width,
      ),
  };
}

/** What a passage takes of each sail's life, in the same way. */
export function wornSpreadChart(sails: Sails): Chart {
  const percent = (share: number) => `${Number((100 * share).toPrecision(2))} %`;
  return {
    title: 'Wear, per passage',
    says: "Share of each sail's life that a passage takes, by the middle of constants that are mostly placeholders without a source: the mark is the mean, the bar what nine of ten passages lie between.",
    draw: (width) =>
      barsIn(
        {
          unit: '% of its life',
          bars: sails.flatMap(({ id, wear }) =>
            wear === null
              ? []
              : spreadBar(
                  id,
                  { mean: 100 * wear.mean, p5: 100 * wear.p5, p95: 100 * wear.p95 },
                  `${percent(wear.mean)} (${percent(wear.p5)} to ${percent(wear.p95)})`,
                ),
          ),
        },
        width,
      ),
  };
}

const spreadBar = (id: string, { mean, p5, p95 }: { mean: number; p5: number; p95: number }, text: string): Bar => ({
  name: id,
  text,
  parts: [{ from: p5, to: p95, look: 'band-part', told: `${id}: ${text}` }],
  mark: mean,
});
