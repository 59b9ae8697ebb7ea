import { moneyText, passagesText, UNNAMED_CURRENCY } from '../../output/output.js';
import type { Worth } from '../../worth/worth.js';
import type { Chart } from '../document/figure.js';
import { barsIn } from './bars.js';

const PARTS = [
  ['time', 'time'],
  ['nightChanges', 'night changes'],
  ['fuel', 'fuel'],
  ['wear', 'wear of A’s sails'],
  ['repairs', 'repairs'],
] as const;

/** What is saved on a passage, part by part and all together. */
export function moneyChart({ money, currency, passages }: Worth): Chart {
  const { parts, savedPerPassage: saved, net, prices } = money;
  const of = (value: number) => moneyText(value, currency);
  const bar = (name: string, value: number) => ({
    name,
    text: of(value),
    parts: [
      {
        from: Math.min(0, value),
        to: Math.max(0, value),
        look: value < 0 ? 'taken-part' : 'day-part',
        told: `${name}: ${of(value)}`,
      },
    ],
  });
  const whole =
    net === null
      ? 'Without its price there is no net.'
      : `Over ${prices.years} years ${of(Math.abs(net.mid))} are ${net.mid < 0 ? 'lost' : 'left'}, all reckoned.`;
  return {
    title: 'Saved on a passage',
    says: `What B saves against A on one of ${passagesText(passages.both)}, without what it spends on itself: ${of(saved.mid)}; the line is between what the mean lies by their number. ${whole}`,
    draw: (width) =>
      barsIn(
        {
          unit: currency ?? UNNAMED_CURRENCY,
          bars: [
            ...PARTS.filter(([name]) => Math.abs(parts[name]) > 0).map(([name, words]) =>
              bar(`by ${words}`, parts[name]),
            ),
            {
              ...bar('all together', saved.mid),
              ...(saved.low === null || saved.high === null ? {} : { range: { low: saved.low, high: saved.high } }),
            },
          ],
        },
        width,
      ),
  };
}
