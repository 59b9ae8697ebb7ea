import { wearTold } from '../output/output.js';
import type { Wear } from '../wear/wear.js';
import type { Figures } from './document/figures.js';
import { markdownHtml } from './document/markdownHtml.js';

/** What is told of the wear of a passage, each figure with its place in `plan.json`. */
export function wearMarkup(wear: Wear, figures: Figures): string {
  const banded = (path: string) => ['mid', 'low', 'high'].map((key) => `${path}.${key}`);
  return markdownHtml(wearTold(wear), 0, {
    figures,
    pathsOf(cell) {
      if (cell !== undefined) {
        const [how, key = ''] = COLUMNS[cell.column] ?? [];
        const of = `${how}wear.sails[${cell.row}].${key}`;
        return key.endsWith('ours') ? [of] : banded(of);
      }
      return [
        '~wear.first.passagesLeft',
        ...banded('~wear.money.passage'),
        ...banded('~wear.money.perNm'),
        'wear.slattingUnknownHours',
        ...wear.sails.flatMap((_, i) => [
          `~wear.sails[${i}].overDesignHours`,
          ...banded(`~wear.sails[${i}].recalibratedBy`),
        ]),
      ];
    },
  });
}

/** How the columns of its table are told, from the third, and of what. */
const COLUMNS: Readonly<Record<number, readonly [how: '~' | '%~', key: string]>> = {
  2: ['~', 'hours'],
  3: ['%~', 'load'],
  4: ['%~', 'ultraviolet'],
  5: ['%~', 'handling'],
  6: ['%~', 'total'],
  8: ['%~', 'usedBefore'],
  9: ['%~', 'left'],
  10: ['~', 'hoursLeft'],
  11: ['~', 'lookAt.hours'],
  12: ['~', 'money'],
};
