import type { Passage } from '../passage/passage.js';
import { parseInstant } from '../time.js';
import { amount, flag } from './format.js';

/**
 * The trade-off curve as CSV: for every number of sail changes the earliest arrival with at most so many. Of a passage that was not
 * planned the one row is what it came to.
 * @example
 * tradeoffCsv(sample.passage).split('\n')[0] // 'changes,arrival,hours,chosen'
 */
export function tradeoffCsv({ curve, hours, departure, end, complete }: Passage): string {
  const own = {
    changes: hours.filter(({ sailChange }) => sailChange).length,
    arrival: end,
    hours: ((parseInstant(end) as number) - (parseInstant(departure) as number)) / 3600,
    chosen: true,
  };
  const points = curve ?? (complete ? [own] : []);
  const rows = points.map(({ changes, arrival, hours, chosen }) =>
    [`${changes}`, arrival, amount(hours), flag(chosen)].join(','),
  );
  return `${['changes,arrival,hours,chosen', ...rows].join('\n')}\n`;
}
