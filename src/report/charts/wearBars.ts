import { rangeText } from '../../output/output.js';
import type { SailWear, Wear } from '../../wear/wear.js';
import type { Chart } from '../document/figure.js';
import { type Bar, barsIn } from './bars.js';

/** Of each sail's life what was used before, what this passage takes, and what is left. */
export function wearChart({ sails }: Wear): Chart {
  const known = sails.filter(({ total, hours }) => total !== null && (hours > 0 || total.mid > 0));
  const unknown = sails.filter(({ usedBefore, total }) => usedBefore === null && total !== null && total.mid > 0);
  return {
    title: 'Wear, and life left',
    says: `Share of each sail's life: hatched what was used before, dark what this passage takes, empty what is left; the line is what the passage may take by the ends of constants that are mostly placeholders without a source.${unknown.length === 0 ? '' : ` How far ${unknown.map(({ sail }) => sail).join(', ')} ${unknown.length === 1 ? 'is' : 'are'} worn the boat file does not say: drawn as new.`}`,
    ...(known.length === 0 ? { nothing: 'Nothing wears, or it is not known how.' } : {}),
    draw: (width) => barsIn({ unit: '% of its life', reach: [0, 100], bars: known.map(barOf) }, width),
  };
}

function barOf({ sail, total, usedBefore, left }: SailWear): Bar {
  const used = 100 * Math.min(1, usedBefore?.mid ?? 0);
  const taken = 100 * total!.mid;
  const end = Math.min(100, used + taken);
  const takes = `${sail}: this passage takes ${rangeText(total!, 100)} %`;
  return {
    name: sail,
    text: left === null ? 'left: not known' : `left ${rangeText(left, 100)} %`,
    parts: [
      ...(used > 0
        ? [{ from: 0, to: used, look: 'used-part', told: `${sail}: ${rangeText(usedBefore!, 100)} % used before` }]
        : []),
      { from: used, to: end, look: 'taken-part', told: takes },
      {
        from: end,
        to: 100,
        look: 'left-part',
        told: left === null ? 'what is left is not known' : `${sail}: ${rangeText(left, 100)} % left`,
      },
    ],
    range: { low: Math.min(100, used + 100 * total!.low), high: Math.min(100, used + 100 * total!.high) },
  };
}
