import { mean } from 'simple-statistics';
import type { Band } from '../catalogue/catalogue.js';
import type { PassageRecord, SailRecord } from '../study/study.js';
import { type Percentiles, percentilesOf } from '../totals/totals.js';
import { errorOfMean, studentShare } from './difference.js';
import type { PairedPassages } from './pairs.js';
import { resaleShare, type SettledPrices } from './prices.js';

/** A mean with its interval of 95 % by the number of passages; null where that cannot be told. */
export interface MeanRange {
  readonly low: number | null;
  readonly mid: number;
  readonly high: number | null;
}

/** What B saves and costs against A, in the boat's currency. Saved is positive, spent is negative. */
export interface WorthMoney {
  readonly prices: SettledPrices;
  /** What B saves on a passage, without what it spends on its new sails, and how that is spread over passages. */
  readonly savedPerPassage: MeanRange & { readonly spread: Percentiles };
  /** What that is made of, means: `wear` is of A's sails, those that B has not any more with all that they wore. */
  readonly parts: Readonly<Record<'time' | 'nightChanges' | 'fuel' | 'wear' | 'repairs', number>>;
  /** Share of its life that a passage takes of the new sail, of several of the one that wears most; null where nobody knows, and none is then reckoned with. */
  readonly ownWear: Band | null;
  /** Passages in the owner's years at her miles a year. */
  readonly passagesInYears: number;
  /** New sails that are bought in them, what is got for the last, and what they cost in all; null without a price. */
  readonly sailsBought: number;
  readonly resale: number | null;
  readonly cost: number | null;
  /** Saved in those years less the cost; null without a price. */
  readonly net: MeanRange | null;
  /** When what is saved comes up with what is spent, from when on it stays so. Null where it never does, or without a price. */
  readonly passagesToBreakEven: number | null;
  readonly milesToBreakEven: number | null;
  /** Why it never does. */
  readonly never: 'saves-nothing' | 'wears-out' | null;
  /** Chance that the net is not below zero, by Student's t, from the spread over passages and how well the study knows their mean; null of one passage. */
  readonly chancePays: number | null;
  /** What the new sails cost with their mending, for each hour flown and each time set; null where they never are. */
  readonly costPerHourFlown: number | null;
  readonly costPerHoist: number | null;
  /** What an hour would have to be worth for the net to be zero, all else as given; null where B is no faster. */
  readonly hourValueToPay: number | null;
}

/** What a comparison of money is made of. */
export interface MoneyOf {
  readonly pairs: Pick<PairedPassages, 'a' | 'b' | 'series'>;
  /** Cloths that B has and A has not; and B's plans that set them, or new settings of old ones. */
  readonly newSails: readonly string[];
  /** Cloths whose wear counts, as far as it is known in money in all passages: all of A's, and of B's those that are A's too. */
  readonly wornInA: readonly string[];
  readonly wornInB: readonly string[];
  readonly newPlans: readonly string[];
  /** Whether something is bought: a sail, or a pole for one. */
  readonly isBought: boolean;
  readonly milesNm: number;
  readonly prices: SettledPrices;
  /** End of the constants of wear of the sails that both have, and of the new ones. */
  readonly wearAt?: keyof Band;
  readonly ownWearAt?: keyof Band;
}

/** The money of a comparison; null where no passage was finished by both. */
export function moneyOf({
  pairs: { a, b, series },
  newSails,
  wornInA,
  wornInB,
  newPlans,
  isBought,
  milesNm,
  prices,
  wearAt = 'mid',
  ownWearAt = 'mid',
}: MoneyOf): WorthMoney | null {
  const sailsOf = (record: PassageRecord, ids: readonly string[]) => record.sails.filter(({ id }) => ids.includes(id));
  const hoursOf = ({ sailPlans }: PassageRecord, ids: readonly string[]) =>
    sum(sailPlans.map(({ id, hours }) => (ids.includes(id) ? hours : 0)));
  const wearOf = ({ sails }: PassageRecord, ids: readonly string[]) =>
    sum(sails.map(({ id, money }) => (ids.includes(id) ? money![wearAt] : 0)));
  const perHour = (prices.tearsPer100Hours.mid / 100) * (prices.tearCost?.mid ?? 0);
  const less = (value: (record: PassageRecord) => number) => a.map((record, i) => value(record) - value(b[i]!));
  const parts = {
    time: less(({ hours }) => prices.hourValue.mid * hours),
    nightChanges: less(({ nightChanges }) => prices.nightChangeValue.mid * nightChanges),
    fuel: less(({ fuelLitres }) => prices.litrePrice.mid * fuelLitres),
    wear: a.map((record, i) => wearOf(record, wornInA) - wearOf(b[i]!, wornInB)),
    repairs: b.map((record) => 0 - perHour * hoursOf(record, newPlans)),
  };
  const saved = a.map((_, i) => sum(Object.values(parts).map((part) => part[i]!)));
  const spread = percentilesOf(saved);
  if (spread === null) return null;
  const mid = mean(saved);
  const error = errorOfMean(saved, series);
  const range = (of: number, by = 1): MeanRange => ({
    low: error === null ? null : of - by * error.times * error.standard,
    mid: of,
    high: error === null ? null : of + by * error.times * error.standard,
  });
  const ownWear = ownWearOf(
    b.map((record) => sailsOf(record, newSails)),
    newSails,
  );
  const wear = ownWear?.[ownWearAt] ?? 0;
  const passages = (prices.years * prices.milesPerYear.mid) / milesNm;
  // Where nothing is bought hours and nights may still be worth something.
  const price = isBought ? (prices.price?.mid ?? null) : isValued(prices) ? 0 : null;
  const resold = resaleShare(prices.resale, prices.years);
  const owned = costOf(price ?? 0, passages, wear, resold);
  const cost = price === null ? null : owned.cost;
  const flownHours = mean(b.map((record) => hoursOf(record, newPlans)));
  const hoists = mean(b.map((record) => sum(sailsOf(record, newSails).map(hoistsOf))));
  const spent = cost === null ? null : cost + passages * perHour * flownHours;
  const means = mapped(parts, (values) => mean(values));
  const hoursSaved = mean(less(({ hours }) => hours));
  const even = price === null ? null : breakEven(price, mid, wear, resold);
  return {
    prices,
    savedPerPassage: { ...range(mid), spread },
    parts: means,
    ownWear,
    passagesInYears: passages,
    sailsBought: price === null ? 0 : owned.bought,
    resale: price === null ? null : owned.resale,
    cost,
    net: cost === null ? null : shifted(range(passages * mid, passages), -cost),
    passagesToBreakEven: typeof even === 'number' ? even : null,
    milesToBreakEven: typeof even === 'number' ? even * milesNm : null,
    never: typeof even === 'string' ? even : null,
    chancePays: cost === null || error === null ? null : chanceOf(passages, mid, error, cost),
    costPerHourFlown: spent === null || flownHours <= 0 ? null : spent / passages / flownHours,
    costPerHoist: spent === null || hoists <= 0 ? null : spent / passages / hoists,
    hourValueToPay:
      cost === null || hoursSaved <= 1e-9 ? null : Math.max(0, (cost / passages - (mid - means.time)) / hoursSaved),
  };
}

const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);
const mapped = <Key extends string>(
  of: Readonly<Record<Key, readonly number[]>>,
  to: (of: readonly number[]) => number,
) =>
  Object.fromEntries(Object.entries(of).map(([key, value]) => [key, to(value as readonly number[])])) as Record<
    Key,
    number
  >;
const shifted = ({ low, mid, high }: MeanRange, by: number): MeanRange => ({
  low: low === null ? null : low + by,
  mid: mid + by,
  high: high === null ? null : high + by,
});

/** How often a sail is set, hoisted or unrolled. */
export const hoistsOf = ({ operations }: SailRecord): number => operations.set + operations.unfurl;

/** Means over the passages of the new sail that wears most; null where of none is known how it does. */
function ownWearOf(sails: readonly (readonly SailRecord[])[], ids: readonly string[]): Band | null {
  const bands = ids.flatMap((id) => {
    const own = sails.map((of) => of.find((sail) => sail.id === id)?.wear ?? null);
    if (own.length === 0 || own.some((wear) => wear === null)) return [];
    const at = (end: keyof Band) => mean(own.map((wear) => wear![end]));
    return [{ low: at('low'), mid: at('mid'), high: at('high') }];
  });
  const [first, ...more] = bands;
  return first === undefined ? null : more.reduce((most, band) => (band.mid > most.mid ? band : most), first);
}

/**
 * What it costs to have a sail for so many passages: as many as wear out are bought. For one that lasts is got what its age leaves of the
 * price, no more than what is left of its life; the last of several is younger, and worth what is left of its life.
 */
export function costOf(price: number, passages: number, wear: number, share: number) {
  const lives = passages * wear;
  const bought = Math.max(1, Math.ceil(lives - 1e-9));
  const left = Math.max(0, bought - lives);
  const resale = price * (bought === 1 ? Math.min(share, left) : left);
  return { bought, resale, cost: bought * price - resale };
}

/**
 * Passages after which what is saved has paid for the sail, price less resale; never where nothing is saved, or a passage takes more of the
 * sail's life than it saves: each new one is then worn out before it has paid.
 */
export function breakEven(
  price: number,
  saved: number,
  wear: number,
  share: number,
): number | 'saves-nothing' | 'wears-out' {
  if (price === 0 && saved >= 0) return 0;
  if (saved <= 0) return 'saves-nothing';
  if (saved < price * wear) return 'wears-out';
  return (price * (1 - share)) / saved;
}

/** Chance that so many passages save the cost: their sum by Student's t, its mean known as well as the study knows it. */
function chanceOf(
  passages: number,
  saved: number,
  { standard, freedom, deviation }: NonNullable<ReturnType<typeof errorOfMean>>,
  cost: number,
): number {
  const spread = Math.sqrt(passages * deviation ** 2 + (passages * standard) ** 2);
  const over = passages * saved - cost;
  if (standard === 0) return over >= 0 ? 1 : 0;
  return studentShare(over / spread, freedom);
}

/** Whether the owner puts a value on anything but sails. */
export const isValued = ({ hourValue, nightChangeValue, litrePrice }: SettledPrices): boolean =>
  hourValue.high > 0 || nightChangeValue.high > 0 || litrePrice.high > 0;
