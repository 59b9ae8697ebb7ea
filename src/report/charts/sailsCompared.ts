import { fixed, signed } from '../../output/output.js';
import type { Worth } from '../../worth/worth.js';
import type { Chart } from '../document/figure.js';
import { barsIn } from './bars.js';

/** Hours on each sail with the one wardrobe and with the other. */
export function sailsComparedChart({ sails, a, b }: Worth): Chart {
  const used = sails.filter(({ hours }) => hours.a > 0 || hours.b > 0);
  return {
    title: 'Hours on each sail, A and B',
    says: `Mean hours of a passage: plain for A (${a}), hatched for B (${b}).`,
    ...(used.length === 0 ? { nothing: 'No sail was set.' } : {}),
    draw: (width) =>
      barsIn(
        {
          unit: 'hours of a passage',
          bars: used.flatMap(({ id, hours }) => [
            {
              name: `${id}, A`,
              text: `${fixed(hours.a, 1)} h`,
              parts: [{ from: 0, to: hours.a, look: 'low-part', told: `${id}, A: ${fixed(hours.a, 1)} h` }],
            },
            {
              name: `${id}, B`,
              text: `${fixed(hours.b, 1)} h (${signed(hours.mid, 1)})`,
              parts: [{ from: 0, to: hours.b, look: 'high-part', told: `${id}, B: ${fixed(hours.b, 1)} h` }],
            },
          ]),
        },
        width,
      ),
  };
}
