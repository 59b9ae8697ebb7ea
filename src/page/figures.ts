import type { Boat } from '../boat/boat.js';
import { nameIn, rangeText, TOLD } from '../output/output.js';
import type { Passage } from '../passage/passage.js';
import { metricOf, recordOf } from '../study/study.js';
import { currencyOf, type Wear } from '../wear/wear.js';
import type { Figure, Worn } from './messages.js';

/** These are no counts. */
const IN_HOURS = /^hours$|-hours$/;

/** What a passage adds up to, under the names by which `worth` compares. */
export function figuresOf(passage: Passage, boat: Boat, wear: Wear): readonly Figure[] {
  const record = recordOf(passage, boat, wear, { n: 0, route: '', boat: '', weather: '', member: null, draw: null });
  const currency = currencyOf(boat);
  return TOLD.map((told) => {
    const [metric] = told;
    const inHours = IN_HOURS.test(metric);
    return {
      name: nameIn(told, { currency }),
      unit: inHours ? 'h' : metric === 'fuel-litres' ? 'l' : metric === 'wear-money' ? (currency ?? '') : '',
      decimals: inHours ? 1 : 0,
      value: (metric === 'hours' ? record.hours : metricOf(record, metric)) ?? null,
    };
  });
}

/** What the passage takes of each sail's life, and what is left. */
export const wornIn = ({ sails }: Wear): readonly Worn[] =>
  sails.map(({ sail, total, left }) => ({ sail, takes: inPercent(total), left: inPercent(left) }));

const inPercent = (range: Parameters<typeof rangeText>[0] | null) =>
  range === null ? null : `${rangeText(range, 100)}\u00a0%`;
