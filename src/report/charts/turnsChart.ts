import { endText, INPUTS, UNNAMED_CURRENCY } from '../../output/output.js';
import type { Turn, Worth } from '../../worth/worth.js';
import type { Chart } from '../document/figure.js';
import { barsIn } from './bars.js';

/** How far each uncertain input by itself moves the answer. */
export function turnsChart(worth: Worth): Chart {
  const { turns, verdict } = worth;
  const inNet = verdict.by === 'net';
  const answerAt = (end: Turn['usual']) => (inNet ? (end.net ?? 0) : end.hours);
  return {
    title: 'How the answer turns',
    says: `One input at a time, all others as they are: the mark is the answer as it is, the bar what it goes to at the ends of the input; ${inNet ? 'the net over the years, which pays right of zero' : 'hours of a passage, B minus A, which are saved left of zero'}.`,
    draw: (width) =>
      barsIn(
        {
          unit: inNet ? `net, ${worth.currency ?? UNNAMED_CURRENCY}` : 'hours, B minus A',
          bars: turns.map((turn) => {
            const ends = [turn.low, turn.high].flatMap((end) => (end === null ? [] : [end]));
            const values = [turn.usual, ...ends].map(answerAt);
            const told = ends.map((end) => `${end.text}: ${endText(end, worth)}`).join('; ');
            return {
              name: INPUTS[turn.input],
              text: told,
              parts: [
                {
                  from: Math.min(...values),
                  to: Math.max(...values),
                  look: 'band-part',
                  told: `${INPUTS[turn.input]}: ${told}`,
                },
              ],
              mark: answerAt(turn.usual),
            };
          }),
        },
        width,
      ),
  };
}
