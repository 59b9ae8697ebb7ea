import type { Comparison, Difference, Flown, MeanRange, NextSail, Worth } from '../worth/worth.js';
import { amount, fixed, text } from './format.js';

/** A row of what is compared: differences are B minus A, of money what B saves. */
interface Row {
  readonly what: string;
  readonly unit: string;
  readonly of: (comparison: Comparison) => Difference | MeanRange | null;
}

const COLUMNS = ['what', 'unit', 'a', 'b', 'low', 'mid', 'high', 'p5', 'p50', 'p95', 'fewer', 'same', 'more'] as const;

/**
 * `worth.csv`: a row for everything that B changes, with a mean and its ends, and the competitors in columns beside it.
 * @example
 * worthCsv(sample.worth).split('\n')[1] // 'hours,h,446.9…'
 */
export function worthCsv(worth: Worth): string {
  const { rivals } = worth;
  const header = [
    ...COLUMNS,
    ...rivals.flatMap(({ b }) => ['b', 'low', 'mid', 'high'].map((end) => text(`${b} ${end}`))),
  ];
  const rows = rowsOf([worth, ...rivals]).map(({ what, unit, of }) => [
    text(what),
    unit,
    ...cells(of(worth), numberIn(unit)),
    ...rivals.flatMap((rival) => {
      const one = of(rival);
      return [one !== null && 'b' in one ? numberIn(unit)(one.b) : '', ...ends(one, numberIn(unit))];
    }),
  ]);
  return `${[header, ...rows].map((row) => row.join(',')).join('\n')}\n`;
}

/** Shares are small. */
const numberIn = (unit: string) =>
  unit === 'share' ? (value: number | null) => (value === null ? '' : fixed(value, 6)) : amount;
type InText = ReturnType<typeof numberIn>;

const ends = (one: Difference | MeanRange | null, text: InText) =>
  one === null ? ['', '', ''] : [text(one.low), text(one.mid), text(one.high)];

function cells(one: Difference | MeanRange | null, text: InText): string[] {
  if (one === null || !('spread' in one)) return ['', '', ...ends(one, text), ...Array<string>(6).fill('')];
  const { a, b, spread, fewer, same, more } = one;
  return [
    text(a),
    text(b),
    ...ends(one, text),
    text(spread.p5),
    text(spread.p50),
    text(spread.p95),
    `${fewer}`,
    `${same}`,
    `${more}`,
  ];
}

const UNITS: Readonly<Record<string, string>> = {
  'fuel-litres': 'l',
  'wind-max': 'kn',
  'gust-max': 'kn',
  'wave-max': 'm',
  steadiness: '',
  'wear-money': 'money',
};
const unitOf = (metric: string) => UNITS[metric] ?? (/hours/.test(metric) ? 'h' : '');

const PARTS = { time: 'time', nightChanges: 'night changes', fuel: 'fuel', wear: 'wear', repairs: 'repairs' } as const;

const exact = (mid: number | null): MeanRange | null => (mid === null ? null : { low: null, mid, high: null });

function rowsOf(all: readonly Comparison[]): readonly Row[] {
  const [worth] = all;
  const ids = (of: (one: Comparison) => readonly { readonly id: string }[]) => [
    ...new Set(all.flatMap((one) => of(one).map(({ id }) => id))),
  ];
  const bySail = (
    what: string,
    unit: string,
    of: (sail: Comparison['sails'][number]) => Difference | null,
  ): readonly Row[] =>
    ids(({ sails }) => sails).map((id) => ({
      what: `${what} ${id}`,
      unit,
      of: ({ sails }) => {
        const sail = sails.find((one) => one.id === id);
        return sail === undefined ? null : of(sail);
      },
    }));
  const money = (what: string, unit: string, of: (money: Comparison['money']) => MeanRange | number | null): Row => ({
    what,
    unit,
    of: (one) => {
      const value = of(one.money);
      return typeof value === 'number' ? exact(value) : value && { low: value.low, mid: value.mid, high: value.high };
    },
  });
  const flew = (id: string, what: string, unit: string, of: (flown: Flown) => number | null): Row => ({
    what: `${what} ${id}`,
    unit,
    of: ({ flown }) => {
      const own = flown.find((one) => one.id === id);
      return own === undefined ? null : exact(of(own));
    },
  });
  return [
    ...Object.keys(worth!.differences).map(
      (metric): Row => ({
        what: metric,
        unit: unitOf(metric),
        of: ({ differences }) => differences[metric as keyof typeof differences],
      }),
    ),
    ...Object.keys(worth!.operations).map(
      (name): Row => ({
        what: `operation ${name}`,
        unit: '',
        of: ({ operations }) => operations[name as keyof typeof operations],
      }),
    ),
    ...bySail('hours on', 'h', ({ hours }) => hours),
    ...bySail('operations of', '', ({ operations }) => operations),
    ...bySail('life taken of', 'share', ({ wear }) => wear),
    ...bySail('wear of', 'money', (sail) => sail.money),
    ...ids(({ sailPlans }) => sailPlans).map(
      (id): Row => ({
        what: `hours under ${id}`,
        unit: 'h',
        of: ({ sailPlans }) => sailPlans.find((plan) => plan.id === id)?.hours ?? null,
      }),
    ),
    money('saved on a passage', 'money', ({ savedPerPassage }) => savedPerPassage),
    ...(['time', 'nightChanges', 'fuel', 'wear', 'repairs'] as const).map((part) =>
      money(`saved by ${PARTS[part]}`, 'money', ({ parts }) => parts[part]),
    ),
    ...ids(({ flown }) => flown).flatMap((id) => [
      flew(id, 'hours flown by', 'h', ({ hours }) => hours.mean),
      flew(id, 'days flown by', '', ({ days }) => days),
      flew(id, 'share of passages flown by', 'share', ({ shareOfPassages }) => shareOfPassages),
    ]),
    money('price', 'money', ({ prices }) => prices.price),
    money('passages in the years', 'passages', ({ passagesInYears }) => passagesInYears),
    money('cost in the years', 'money', ({ cost }) => cost),
    money('net in the years', 'money', ({ net }) => net),
    money('break-even after', 'passages', ({ passagesToBreakEven }) => passagesToBreakEven),
    money('break-even after', 'Nm', ({ milesToBreakEven }) => milesToBreakEven),
    money('chance that it pays', 'share', ({ chancePays }) => chancePays),
    money('cost of an hour flown', 'money', ({ costPerHourFlown }) => costPerHourFlown),
    money('cost of a hoist', 'money', ({ costPerHoist }) => costPerHoist),
    money('an hour must be worth', 'money', ({ hourValueToPay }) => hourValueToPay),
  ];
}

/**
 * `next-sail.csv`: a row for every sail that was tried, the one that saves most first.
 * @example
 * nextSailCsv(sample.next).split('\n')[1] // '1,vented-downwind,vented,140.000,…'
 */
export function nextSailCsv({ rows }: NextSail): string {
  const header = [
    'rank',
    'kind',
    'sail',
    'area_m2',
    'hours_saved_low',
    'hours_saved',
    'hours_saved_high',
    'changes',
    'night_changes',
    'hours_flown',
    'share_of_passages',
    'price',
    'price_from',
    'net',
    'break_even_passages',
    'answer',
    'fills_hole',
  ];
  const lines = rows.map(({ kind, sail, areaM2, comparison, verdict, fills }, i) => {
    const { differences, flown, money } = comparison;
    const { low, mid, high } = differences.hours!;
    return [
      `${i + 1}`,
      kind,
      text(sail),
      amount(areaM2),
      amount(high === null ? null : -high),
      amount(-mid),
      amount(low === null ? null : -low),
      amount(differences.changes!.mid),
      amount(differences['night-changes']!.mid),
      amount(flown[0]?.hours.mean ?? null),
      amount(flown[0]?.shareOfPassages ?? null),
      amount(money.prices.price?.mid ?? null),
      money.prices.from.price,
      amount(money.net?.mid ?? null),
      amount(money.passagesToBreakEven),
      verdict.answer,
      text(fills[0] === undefined ? null : holeText(fills[0])),
    ];
  });
  return `${[header, ...lines].map((row) => row.join(',')).join('\n')}\n`;
}

/** A region of the crossover in words. */
export const holeText = ({ twsKn, twaDeg }: NextSail['rows'][number]['fills'][number]): string =>
  `TWS ${span(twsKn)} kn at TWA ${span(twaDeg)}`;

const span = ([from, to]: readonly [number, number]) => (from === to ? `${from}` : `${from} to ${to}`);
