import { nameIn, TOLD } from '../output/output.js';
import type { Worth } from '../worth/worth.js';
import type { MarkdownCell } from './document/markdownHtml.js';

/** Where in `worth.json` the figures of the texts of a worth are: of each part of `worth.md` by its title, and of the answer. */
export function worthPlaces(worth: Worth) {
  const { flown, rivals, sails, turns, verdict } = worth;
  const each = (list: readonly unknown[], of: (i: number) => readonly string[]) => list.flatMap((_, i) => of(i));
  const wind = (path: string) =>
    ['twsFromKn', 'twsFromKn+5', 'twaFromDeg', 'twaFromDeg+20'].map((key) => `${path}.${key}`);
  const ends = (i: number) =>
    ['low', 'high'].flatMap((end) => ['text', 'hours', 'net'].map((key) => `turns[${i}].${end}.${key}`));
  const measured = (i: number) => [
    ...['plan', 'rival', 'hours'].map((key) => `verdict.toMeasure[${i}].${key}`),
    ...wind(`verdict.toMeasure[${i}]`),
  ];
  const answer = [
    ...each(turns, ends),
    ...each(verdict.toMeasure, measured),
    ...MONEY_TOLD.map((key) => `money.${key}`),
    ...['hours.mid', 'hours.low', 'hours.high'].map((key) => `differences.${key}`),
    ...TOLD.map(([metric]) => `differences.${metric}.mid`),
    ...each(flown, (i) => ['hours.mean', 'shareOfHours', 'shareOfPassages'].map((key) => `flown[${i}].${key}`)),
    ...each(sails, (i) => [`sails[${i}].hours.mid`]),
    'passages.both',
  ];
  const rivalNames = each(rivals, (k) => [`rivals[${k}].b`]);
  const parts: Readonly<Record<string, (cell: MarkdownCell | undefined) => readonly string[]>> = {
    'What it changes on a passage'(cell) {
      if (cell === undefined) return ['passages.both', 'passages.milesNm', 'passages.independent'];
      const of = `differences.${TOLD.find((told) => nameIn(told, worth) === cell.label)?.[0]}`;
      const at = CHANGED[cell.column - 1];
      return at === undefined
        ? [`rivals[${cell.column - 1 - CHANGED.length}].${of}.mid`]
        : at.map((key) => `${of}.${key}`);
    },
    'Hours on each sail, and what they wear'({ table, row, column } = NOWHERE) {
      if (table === 1)
        return [`sailPlans[${row}].id`, ...['a', 'b', 'mid'].map((key) => `sailPlans[${row}].hours.${key}`)];
      const rival = column - 2 - WORN.length;
      const own = rivals[rival]?.sails.findIndex(({ id }) => id === sails[row]?.id);
      return (
        WORN[column - 2]?.map((key) => key.replace(/^~?/, `$&sails[${row}].`)) ??
        (own === undefined ? [] : [`rivals[${rival}].sails[${own}].hours.mid`])
      );
    },
    Money(cell) {
      if (cell === undefined) return rivalNames;
      if (cell.table === 0) return (MONEY[cell.label] ?? []).map((key) => key.replace(/^~?/, '$&money.'));
      const of = `rivals[${cell.row}]`;
      return cell.column === 0
        ? [`${of}.b`]
        : [
            ...RIVAL.map((key) => `${of}.${key}`),
            ...each(rivals[cell.row]?.flown ?? [], (i) => [`${of}.flown[${i}].hours.mean`]),
          ];
    },
    'How the answer turns': (cell) =>
      cell === undefined
        ? ['money.prices.years']
        : [...ends(cell.row), ...['usual.hours', 'usual.net', 'passages'].map((key) => `turns[${cell.row}].${key}`)],
    'What would settle it': (cell) => (cell === undefined ? [] : measured(cell.row)),
  };
  return { answer, parts };
}

const NOWHERE: MarkdownCell = { table: -1, row: -1, column: -1, label: '' };

/** What the answer tells of the money. */
const MONEY_TOLD = [
  ...['prices.years', 'prices.milesPerYear.mid', 'net.mid', 'net.low', 'net.high', 'chancePays', 'passagesToBreakEven'],
  ...['milesToBreakEven', 'savedPerPassage.mid', 'costPerHourFlown', 'costPerHoist', 'hourValueToPay'],
];

/** Columns behind the first of the table of changes. */
const CHANGED = [['a'], ['b'], ['mid'], ['low', 'high'], ['spread.p5', 'spread.p95'], ['fewer', 'same', 'more']];

/** Columns behind the second of the table of sails; wear is told to two digits. */
const WORN = [
  ...[['hours.a'], ['hours.b'], ['hours.mid'], ['operations.mid'], ['~wear.a'], ['~wear.b']],
  ['~money.mid', '~moneyByConstants.low', '~moneyByConstants.high'],
];

const banded = (name: string) => ['mid', 'low', 'high'].map((key) => `prices.${name}.${key}`);

/** Rows of the table of the money. */
const MONEY: Readonly<Record<string, readonly string[]>> = {
  price: banded('price'),
  'value of an hour': banded('hourValue'),
  'value of a night change': banded('nightChangeValue'),
  'price of a litre': banded('litrePrice'),
  years: ['prices.years'],
  'miles a year': ['prices.milesPerYear.mid'],
  tears: ['prices.tearsPer100Hours.mid', 'prices.tearCost.mid'],
  resale: ['prices.resale.firstYear', 'prices.resale.perYear', 'prices.resale.least'],
  'saved on a passage': ['mid', 'low', 'high', 'spread.p5', 'spread.p95'].map((key) => `savedPerPassage.${key}`),
  'of this by time': ['parts.time'],
  'by night changes': ['parts.nightChanges'],
  'by fuel': ['parts.fuel'],
  'by wear of A’s sails': ['~parts.wear'],
  'by repairs': ['parts.repairs'],
  'it spends on itself': ['~ownWear.mid', '~ownWear.low', '~ownWear.high'],
  'passages in the years': ['passagesInYears'],
  'bought in the years': ['sailsBought', 'resale', 'cost'],
  'net over the years': ['net.mid', 'net.low', 'net.high'],
  'break-even': ['passagesToBreakEven', 'milesToBreakEven'],
  'chance that it pays in the years': ['chancePays'],
  'cost of an hour flown': ['costPerHourFlown'],
  'cost of a hoist': ['costPerHoist'],
  'it would pay if an hour were worth': ['hourValueToPay'],
};

/** What the table of competitors tells of each. */
const RIVAL = [
  ...['hours', 'changes', 'night-changes'].map((metric) => `differences.${metric}.mid`),
  ...['prices.price.mid', 'savedPerPassage.mid', 'net.mid', 'passagesToBreakEven'].map((key) => `money.${key}`),
];
