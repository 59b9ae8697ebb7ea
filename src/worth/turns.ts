import { mean } from 'simple-statistics';
import type { Band } from '../catalogue/catalogue.js';
import type { PassageRecord } from '../study/study.js';
import type { Compared } from './compare.js';
import { isValued, moneyOf } from './money.js';
import { keyOf, type PairedPassages, pairedPassages } from './pairs.js';
import type { SettledPrices } from './prices.js';
import type { SailedInput, Turned } from './turned.js';

/** What the answer is turned by. */
export type TurnInput =
  | SailedInput
  | 'price'
  | 'hour-value'
  | 'night-change-value'
  | 'litre-price'
  | 'tears'
  | 'resale'
  | 'miles-per-year'
  | 'own-wear'
  | 'wear-of-others';

/** The answer with one input at an end: what is assumed, the mean of B minus A in hours, and the net; null without a price. */
export interface TurnEnd {
  readonly text: string;
  readonly hours: number;
  readonly net: number | null;
}

/** How the answer turns with one input, all others as they are. */
export interface Turn {
  readonly input: TurnInput;
  /** The same passages as they are, of which there are so many. */
  readonly usual: Omit<TurnEnd, 'text'>;
  readonly passages: number;
  /** Null where that end is as it is. */
  readonly low: TurnEnd | null;
  readonly high: TurnEnd | null;
  /** From the least to the most, in money where hours, night changes or fuel have a value, else in hours. */
  readonly effect: number;
}

/** What a turned boat made of the passages; A is as she was where she is not turned. */
export interface TurnedRecords extends Pick<Turned, 'input' | 'end' | 'text'> {
  readonly a: readonly PassageRecord[] | null;
  readonly b: readonly PassageRecord[];
}

/** How the answer turns, the input that moves it most first. */
export function turnsOf(of: Compared, turned: readonly TurnedRecords[]): readonly Turn[] {
  const { prices } = of.comparison.money;
  const turns = [...sailedTurns(of, turned), ...pricedTurns(of)];
  const value = ({ hours, net }: Omit<TurnEnd, 'text'>) => (isValued(prices) && net !== null ? net : hours);
  return turns
    .map((turn) => {
      const ends = [turn.usual, ...[turn.low, turn.high].flatMap((end) => end ?? [])].map(value);
      return { ...turn, effect: Math.max(...ends) - Math.min(...ends) };
    })
    .sort((a, b) => b.effect - a.effect || netEffect(b) - netEffect(a));
}

type Uneffected = Omit<Turn, 'effect'>;

const netEffect = ({ usual, low, high }: Uneffected): number => {
  const nets = [usual, low, high].flatMap((end) => end?.net ?? []);
  return nets.length === 0 ? 0 : Math.max(...nets) - Math.min(...nets);
};

function sailedTurns({ comparison, pairs, parts }: Compared, turned: readonly TurnedRecords[]): readonly Uneffected[] {
  const { prices } = comparison.money;
  const answerOf = (some: PairedPassages) => ({
    hours: mean(some.b.map(({ hours }, i) => hours - some.a[i]!.hours)),
    net: moneyOf({ ...parts, pairs: some, prices })?.net?.mid ?? null,
  });
  const [keyed, keyedA] = [byKey(pairs.b), byKey(pairs.a)];
  return [...new Set(turned.map(({ input }) => input))].flatMap((input): Uneffected[] => {
    const own = turned.filter((one) => one.input === input);
    // Passages that one of them did not finish as she was are not compared.
    const finished = own.map(({ a, b }) =>
      a === null
        ? pairedPassages(
            of(b, keyedA),
            b.filter((record) => keyedA.has(keyOf(record))),
          )
        : pairedPassages(a, b),
    );
    // Of all ends of an input the passages are the same: those that all of them finish.
    const keys = finished.map(({ b }) => new Set(b.map(keyOf)));
    const common = new Set([...keyed.keys()].filter((key) => keys.every((set) => set.has(key))));
    if (common.size === 0) return [];
    const usual = answerOf(only(pairs, common));
    const end = (which: Turned['end']): TurnEnd | null => {
      const i = own.findIndex((one) => one.end === which);
      return i < 0 ? null : { text: own[i]!.text, ...answerOf(only(finished[i]!, common)) };
    };
    return [{ input, usual, passages: common.size, low: end('low'), high: end('high') }];
  });
}

const byKey = (records: readonly PassageRecord[]) => new Map(records.map((record) => [keyOf(record), record]));
const of = (like: readonly PassageRecord[], known: ReadonlyMap<string, PassageRecord>) =>
  like.flatMap((record) => known.get(keyOf(record)) ?? []);

/** Those of some pairs that are of some passages. */
function only({ a, b, series, counts }: PairedPassages, keys: ReadonlySet<string>): PairedPassages {
  const rows = b.flatMap((record, i) => (keys.has(keyOf(record)) ? [i] : []));
  return { a: rows.map((i) => a[i]!), b: rows.map((i) => b[i]!), series: rows.map((i) => series[i]!), counts };
}

/** Ends of what the owner gave without a range: placeholders. */
const PRICE_EITHER_WAY = 0.2;
const TEARS_TRIED = 1;

/** Inputs that need not be sailed anew. */
function pricedTurns({ comparison, pairs, parts }: Compared): readonly Uneffected[] {
  const { money, differences } = comparison;
  const { prices } = money;
  const hours = differences.hours!.mid;
  const answerOf = (changed: Partial<SettledPrices>, more: { wearAt?: keyof Band; ownWearAt?: keyof Band } = {}) =>
    moneyOf({ ...parts, ...more, pairs, prices: { ...prices, ...changed } })?.net?.mid ?? null;
  const usual = { hours, net: money.net?.mid ?? null };
  if (usual.net === null) return [];
  const row = (
    input: TurnInput,
    ends: Readonly<Record<'low' | 'high', readonly [text: string, net: number | null] | null>>,
  ): Uneffected => {
    const end = (which: 'low' | 'high') => {
      const told = ends[which];
      return told === null ? null : { text: told[0], hours, net: told[1] };
    };
    return { input, usual, passages: pairs.b.length, low: end('low'), high: end('high') };
  };
  const banded = (
    input: TurnInput,
    key: 'price' | 'hourValue' | 'nightChangeValue' | 'litrePrice' | 'milesPerYear',
    by: number,
  ): Uneffected[] => {
    const given = prices[key];
    // Where nothing is bought there is no price.
    if (given === null) return [];
    const { low, high } = rangeOf(given, by);
    const at = (value: number) =>
      [`${Number(value.toPrecision(4))}`, answerOf({ [key]: { low, mid: value, high } })] as const;
    return low === high ? [] : [row(input, { low: at(low), high: at(high) })];
  };
  const { tearsPer100Hours: tears, tearCost } = prices;
  const torn = tears.high > 0 ? rangeOf(tears, 1) : { low: 0, mid: 0, high: TEARS_TRIED };
  const tornAt = (value: number) =>
    [
      `${Number(value.toPrecision(3))} in 100 h flown`,
      answerOf({ tearsPer100Hours: { ...torn, mid: value } }),
    ] as const;
  const { ownWear } = money;
  return [
    ...banded('price', 'price', PRICE_EITHER_WAY),
    ...banded('hour-value', 'hourValue', 1),
    ...banded('night-change-value', 'nightChangeValue', 1),
    ...banded('litre-price', 'litrePrice', 0.5),
    ...banded('miles-per-year', 'milesPerYear', 0.5),
    ...(tearCost === null
      ? []
      : [row('tears', { low: torn.low === tears.mid ? null : tornAt(torn.low), high: tornAt(torn.high) })]),
    ...(prices.price === null
      ? []
      : [
          row('resale', {
            low: ['nothing is got for it', answerOf({ resale: { firstYear: 0, perYear: 0, least: 0 } })],
            high: ['as after one year', answerOf({ resale: { ...prices.resale, perYear: 1 } })],
          }),
        ]),
    ...(ownWear === null || ownWear.low === ownWear.high
      ? []
      : [
          row('own-wear', {
            low: ['the new sail wears least by the constants', answerOf({}, { ownWearAt: 'low' })],
            high: ['the new sail wears most by the constants', answerOf({}, { ownWearAt: 'high' })],
          }),
        ]),
    ...(money.parts.wear === 0
      ? []
      : [
          row('wear-of-others', {
            low: ['the other sails wear least by the constants', answerOf({}, { wearAt: 'low' })],
            high: ['the other sails wear most by the constants', answerOf({}, { wearAt: 'high' })],
          }),
        ]),
  ];
}

/** As it was given where that was a range, else so much either way. */
const rangeOf = ({ low, mid, high }: Band, by: number): Band =>
  low < high ? { low, mid, high } : { low: mid * (1 - by), mid, high: mid * (1 + by) };
