import { mean } from 'simple-statistics';
import { type Boat, settingOf } from '../boat/boat.js';
import type { Band, Operation } from '../catalogue/catalogue.js';
import { InputError } from '../errors.js';
import { checkTypes } from '../given.js';
import type { PolarSet } from '../polar/polar.js';
import { METRICS, type Metric, metricOf, type PassageRecord, type SailRecord } from '../study/study.js';
import { currencyOf, priceOf } from '../wear/wear.js';
import { says } from '../wording.js';
import { addedIn, addedTo } from './added.js';
import { areAlike } from './alike.js';
import { type Difference, differenceOf, independentOf, LEAST_INDEPENDENT } from './difference.js';
import { type Flown, flownIn } from './flown.js';
import { type MoneyOf, moneyOf, type WorthMoney } from './money.js';
import { type PairedPassages, type PassageCounts, pairedPassages } from './pairs.js';
import { type OwnerPrices, type SettledPrices, settledPrices, type UsualPrice } from './prices.js';
import { STUDY_BOAT } from './studyBoat.js';

/** A boat and what she sailed of a study: its passages with her, and no others. */
export interface WorthStudy {
  readonly name: string;
  readonly boat: Boat;
  readonly polars: PolarSet;
  readonly records: readonly PassageRecord[];
}

const WORTH_STUDY = { ...STUDY_BOAT, records: 'object[]' } as const;

/** @throws InputError where a boat with her passages is none; `file` is what she is called by */
export function checkWorthStudy(study: WorthStudy, file: string): void {
  checkTypes(study, WORTH_STUDY, file);
}

/** A sail in both: hours, and what a passage takes of it. */
export interface SailDifference {
  readonly id: string;
  /** Of B only, of A only, of both, or of both and not the same. */
  readonly of: 'new' | 'gone' | 'both' | 'changed';
  readonly hours: Difference;
  readonly operations: Difference;
  /** Share of its life by the middle of the constants; null where nobody knows. */
  readonly wear: Difference | null;
  /** Money by the middle of the constants, null without a price; and its means by their ends, B minus A. */
  readonly money: Difference | null;
  readonly moneyByConstants: Band | null;
}

/** Hours under a plan in both. */
export interface PlanDifference {
  readonly id: string;
  readonly hours: Difference;
}

/** What B changes against A, over the passages that both finished; B minus A. */
export interface Comparison {
  readonly a: string;
  readonly b: string;
  /** Whether they are the same boat but for their names. */
  readonly alike: boolean;
  readonly passages: PassageCounts & {
    /** As how many independent ones they count for the time under way: those of neighbouring starts share their weather. */
    readonly independent: number;
    /** Mean length. */
    readonly milesNm: number;
  };
  readonly newSails: readonly string[];
  readonly goneSails: readonly string[];
  /** By the names of the metrics of a study; null where one is not known. `wear-money` is of all sails that have a price. */
  readonly differences: Readonly<Record<Metric, Difference | null>>;
  readonly operations: Readonly<Record<Operation, Difference>>;
  readonly sails: readonly SailDifference[];
  readonly sailPlans: readonly PlanDifference[];
  /** What is new in B. */
  readonly flown: readonly Flown[];
  readonly currency: string | null;
  readonly money: WorthMoney;
}

/** A comparison with the pairs it was made of. */
export interface Compared {
  readonly comparison: Comparison;
  readonly pairs: PairedPassages;
  readonly parts: Omit<MoneyOf, 'pairs' | 'prices'>;
}

/**
 * Compares what two boats made of the same passages.
 * @throws InputError where they did not sail the same passages, finished none alike, have prices in two currencies, or a price is none
 */
export function compared(a: WorthStudy, b: WorthStudy, given: OwnerPrices): Compared {
  checkCurrencies(a.boat, b.boat, b.name);
  const pairs = pairedPassages(a.records, b.records);
  if (pairs.counts.both === 0) throw new InputError([{ file: b.name, ...says.noneFinished(pairs.counts.paired) }]);
  const clothsA = clothsOf(a.boat);
  const added = addedTo(a.boat, b.boat);
  const newSails = added.filter(({ clothOf }) => clothOf === undefined).map(({ id }) => id);
  const goneSails = addedIn(b.boat, a.boat).filter((id) => clothsA.includes(id));
  // A further setting of a sail, like a pole for the jib, is bought too, and worn with the sail.
  const settings = added
    .filter(({ clothOf }) => clothOf !== undefined && !newSails.includes(clothOf))
    .map(({ id }) => id);
  const newPlans = plansSetting(b.boat, [...newSails, ...settings]);
  const prices = settledPrices(given, usualPriceOf(b.boat, newSails));
  const of = (value: (record: PassageRecord) => number) => differenceOf(valuesOf(pairs, value))!;
  const known = (value: (record: PassageRecord) => number | undefined) =>
    [...pairs.a, ...pairs.b].some((record) => value(record) === undefined) ? null : of((record) => value(record)!);
  const wearMoney = pricedIn(pairs, [...new Set([...clothsA, ...newSails])]);
  const hours = pairs.b.map((record, i) => record.hours - pairs.a[i]!.hours);
  const milesNm = mean(pairs.a.map(({ distanceNm }) => distanceNm));
  const alike = areAlike(a, b);
  // A price for the very same boat buys nothing.
  const isBought = !alike && (newSails.length + settings.length > 0 || given.price !== undefined);
  const kept = clothsA.filter((id) => !goneSails.includes(id));
  const wornInB = pricedIn(pairs, kept);
  const parts: Compared['parts'] = {
    newSails,
    wornInA: [...wornInB, ...pricedIn({ ...pairs, b: [] }, goneSails)],
    wornInB,
    newPlans,
    isBought,
    milesNm,
  };
  return {
    pairs,
    parts,
    comparison: {
      a: a.name,
      b: b.name,
      alike,
      passages: {
        ...pairs.counts,
        independent: Math.min(hours.length, Math.max(LEAST_INDEPENDENT, independentOf(hours, pairs.series))),
        milesNm,
      },
      newSails,
      goneSails,
      differences: {
        ...(Object.fromEntries(
          METRICS.map((metric) => [metric, known((record) => metricOf(record, metric))]),
        ) as Record<Metric, Difference | null>),
        'wear-money': wearMoney.length === 0 ? null : of((record) => moneyIn(record, wearMoney)),
      },
      operations: Object.fromEntries(
        Object.keys(pairs.a[0]!.operations).map((name) => [
          name,
          of(({ operations }) => operations[name as Operation]),
        ]),
      ) as Record<Operation, Difference>,
      sails: [...new Set([...clothsA, ...newSails])].map((id) => sailDifference(id, pairs, { newSails, goneSails })),
      sailPlans: plansOf(pairs).map((id) => ({ id, hours: of((record) => hoursUnder(record, id)) })),
      flown: [...newSails, ...settings].map((id) => flownIn(pairs, id, plansSetting(b.boat, [id]))),
      currency: currencyIn(a.boat, b.boat, newSails, prices),
      money: moneyOf({ ...parts, pairs, prices })!,
    },
  };
}

/** Whether two boats finish a passage alike. */
export const anyFinished = (a: WorthStudy, b: WorthStudy): boolean =>
  pairedPassages(a.records, b.records).counts.both > 0;

/** @throws InputError where prices of two currencies would be added */
export function checkCurrencies(a: Boat, b: Boat, file: string): void {
  if (a.currency !== undefined && b.currency !== undefined && a.currency !== b.currency)
    throw new InputError([{ file, path: 'currency', ...says.otherCurrency(a.currency, b.currency) }]);
}

/**
 * In what all money of a comparison is. Where neither file names a currency or a price, what sails wear is in euros, and what the owner gives
 * is added to it. The price of a new sail that was asked for stands in B, but is none of her file.
 */
function currencyIn(a: Boat, b: Boat, newSails: readonly string[], { from }: Pick<SettledPrices, 'from'>) {
  const inFiles = [...a.sails, ...b.sails.filter(({ id }) => !newSails.includes(id))];
  return b.currency ?? a.currency ?? (from.price === 'boat-file' ? null : currencyOf({ sails: inFiles }));
}

/** The cloths of a boat. */
const clothsOf = ({ sails }: Boat) => sails.filter(({ clothOf }) => clothOf === undefined).map(({ id }) => id);

/** The same of both, of all passages. */
const valuesOf = ({ a, b, series }: PairedPassages, value: (record: PassageRecord) => number) => ({
  a: a.map(value),
  b: b.map(value),
  series,
});

/** What new sails cost by the boat file, or by their areas; null where one has no price. */
function usualPriceOf(boat: Boat, newSails: readonly string[]): UsualPrice | null {
  const prices = newSails.map((id) => priceOf(boat.sails.find((sail) => sail.id === id)!, boat));
  if (prices.length === 0 || prices.some((price) => price === undefined)) return null;
  const sum = (end: keyof Band) => prices.reduce((total, one) => total + one!.price[end], 0);
  return {
    price: { low: sum('low'), mid: sum('mid'), high: sum('high') },
    from: prices.every((one) => one!.from === 'boat-file') ? 'boat-file' : 'placeholder',
  };
}

/** Those of some sails whose wear is known in money in all passages that have them. */
const pricedIn = ({ a, b }: Pick<PairedPassages, 'a' | 'b'>, ids: readonly string[]): readonly string[] =>
  ids.filter((id) => [...a, ...b].every(({ sails }) => sails.find((sail) => sail.id === id)?.money !== null));

/** Money that a passage takes of some sails. */
const moneyIn = ({ sails }: PassageRecord, ids: readonly string[]): number =>
  sails.reduce((sum, { id, money }) => (ids.includes(id) ? sum + (money?.mid ?? 0) : sum), 0);

function sailDifference(
  id: string,
  pairs: PairedPassages,
  { newSails, goneSails }: Pick<Comparison, 'newSails' | 'goneSails'>,
): SailDifference {
  const inRecord = ({ sails }: PassageRecord) => sails.find((sail) => sail.id === id);
  const of = (value: (sail: SailRecord) => number) =>
    differenceOf(
      valuesOf(pairs, (record) => {
        const sail = inRecord(record);
        return sail === undefined ? 0 : value(sail);
      }),
    )!;
  const have = [...pairs.a, ...pairs.b].flatMap((record) => inRecord(record) ?? []);
  const at = (end: keyof Band) => of(({ money }) => money![end]).mid;
  const hasMoney = have.every(({ money }) => money !== null);
  return {
    id,
    of: newSails.includes(id) ? (goneSails.includes(id) ? 'changed' : 'new') : goneSails.includes(id) ? 'gone' : 'both',
    hours: of(({ hours }) => hours),
    operations: of(({ operations }) => Object.values(operations).reduce((sum, count) => sum + count, 0)),
    wear: have.every(({ wear }) => wear !== null) ? of(({ wear }) => wear!.mid) : null,
    money: hasMoney ? of(({ money }) => money!.mid) : null,
    moneyByConstants: hasMoney ? ordered([at('low'), at('mid'), at('high')]) : null,
  };
}

const ordered = (values: readonly number[]): Band => {
  const [, mid] = values;
  return { low: Math.min(...values), mid: mid!, high: Math.max(...values) };
};

/** Every plan that was set by either, in the order they are met. */
const plansOf = ({ a, b }: PairedPassages): readonly string[] => [
  ...new Set([...a, ...b].flatMap(({ sailPlans }) => sailPlans.map(({ id }) => id))),
];

const hoursUnder = ({ sailPlans }: PassageRecord, id: string) => sailPlans.find((plan) => plan.id === id)?.hours ?? 0;

/** The plans of a boat that set one of some cloths or settings. */
export const plansSetting = (boat: Boat, ids: readonly string[]): readonly string[] =>
  boat.sailPlans.flatMap(({ id, sails }) =>
    sails.some((text) => {
      const { sail, cloth } = settingOf(boat, text)!;
      return ids.includes(sail.id) || ids.includes(cloth);
    })
      ? [id]
      : [],
  );
