import type { Boat, Sail } from '../boat/boat.js';
import { type Band, CLOTH_LIVES, type Figure, kindOf, WEAR } from '../catalogue/catalogue.js';
import { liesInTheOpen } from './clothHours.js';
import { clothOfSail, constantsOf } from './constants.js';
import { CASES, type Measure, type measures } from './measure.js';
import { type SailWear, WEAR_CAUSES, type WearCause } from './record.js';
import { type ClothHour, hoursSet, loadOf } from './sums.js';
import { seenUsed, usedBefore } from './usedBefore.js';

/** The wear of one sail, and in each case how many such passages are left in it. */
export interface Worn {
  readonly row: SailWear;
  /** In the order of the cases; of a sail of which nobody knows how far it is worn as if it were new; empty where nothing wears. */
  readonly passagesLeft: readonly number[];
}

/** What a log takes of one cloth. */
export function sailWear(
  sail: Sail,
  log: readonly ClothHour[],
  distanceNm: number,
  boat: Pick<Boat, 'currency' | 'sails'>,
  measureFor: ReturnType<typeof measures>,
): Worn {
  const { id, kind, life } = sail;
  const constants = constantsOf(sail);
  const hours = hoursSet(log);
  const price = priceOf(sail, boat);
  const known = {
    sail: id,
    cloth: clothOfSail(sail),
    hours,
    price: price?.price ?? null,
    priceFrom: price?.from ?? null,
  };
  if (constants === undefined) return { row: { ...known, ...unknownWear(life) }, passagesLeft: [] };
  // A code sail lives below; that it stands furled in a passage that sets it is told by the log.
  const inTheOpen = liesInTheOpen(sail, false);
  const daylightOnly = sail.daylightOnly ?? kindOf(kind).daylightOnly.value;
  const measure: Measure = measureFor(constants, { inTheOpen, daylightOnly });
  const sumsAt = measure.of(log);
  const cases = CASES.map((at) => {
    const { share: used, rateFactor } = usedBefore(life, constants, measure, at);
    const plain = sumsAt(at);
    const load = plain.load * rateFactor;
    const ultraviolet = plain.ultraviolet * rateFactor;
    const handling = plain.handling * rateFactor;
    const total = load + ultraviolet + handling;
    return { load, ultraviolet, handling, total, used, rateFactor, left: Math.max(0, 1 - (used ?? 0) - total) };
  });
  const total = bandOf(cases.map((one) => one.total));
  const used = cases[0]!.used === undefined ? null : bandOf(cases.map((one) => one.used!));
  const wears = total.mid > 0;
  const causes = cases.map(largestOf);
  const overDesignHours = hoursSet(
    log.filter(({ areaShare, gustAwsKn }) => loadOf(gustAwsKn, areaShare ?? 0, constants.designAwsKn.mid) > 1),
  );
  const isRecalibrated = life?.inspectedLeft !== undefined && cases.some(({ rateFactor }) => rateFactor !== 1);
  const money = price === undefined ? null : times(total, price.price);
  const row: SailWear = {
    ...known,
    load: bandOf(cases.map((one) => one.load)),
    ultraviolet: bandOf(cases.map((one) => one.ultraviolet)),
    handling: bandOf(cases.map((one) => one.handling)),
    total,
    usedBefore: used,
    left: used === null ? null : bandOf(cases.map(({ left }) => left)),
    hoursLeft:
      used === null || hours === 0 || !wears ? null : bandOf(cases.map((one) => (one.left * hours) / one.total)),
    cause: wears ? causes[0]! : null,
    causeIsSure: wears && causes.every((cause) => cause === causes[0]),
    lookAt: lookAtOf(used, total, hours, overDesignHours),
    overDesignHours,
    recalibratedBy: isRecalibrated ? bandOf(cases.map(({ rateFactor }) => rateFactor)) : null,
    money,
    moneyPerNm: money === null || distanceNm <= 0 ? null : scaled(money, 1 / distanceNm),
  };
  return { row, passagesLeft: wears ? cases.map((one) => one.left / one.total) : [] };
}

/** Of a cloth nobody knows the constants of: no more than what an inspection saw. */
function unknownWear(life: Sail['life']): Omit<SailWear, 'sail' | 'cloth' | 'hours' | 'price' | 'priceFrom'> {
  const used = life?.inspectedLeft === undefined ? null : bandOf(CASES.map((at) => seenUsed(life.inspectedLeft!, at)));
  return {
    load: null,
    ultraviolet: null,
    handling: null,
    total: null,
    usedBefore: used,
    left: null,
    hoursLeft: null,
    cause: null,
    causeIsSure: false,
    lookAt: { when: used !== null && used.mid >= WEAR.lookAt.value ? 'before' : 'unknown', hours: null },
    overDesignHours: 0,
    recalibratedBy: null,
    money: null,
    moneyPerNm: null,
  };
}

/** The first of some values is the middle; its ends are the least and the most of all. */
function bandOf(values: readonly number[]): Band {
  return { low: Math.min(...values), mid: values[0]!, high: Math.max(...values) };
}

const times = (one: Band, other: Band): Band => ({
  low: one.low * other.low,
  mid: one.mid * other.mid,
  high: one.high * other.high,
});

/** A range so many times as large. */
export const scaled = ({ low, mid, high }: Band, by: number): Band => ({
  low: low * by,
  mid: mid * by,
  high: high * by,
});

function largestOf(sums: Readonly<Record<WearCause, number>>): WearCause {
  return WEAR_CAUSES.reduce((most, cause) => (sums[cause] > sums[most] ? cause : most));
}

/**
 * Before the passage where three quarters of the sail are used or it may need more than is left; after it where that is so then, or a gust
 * was over what the cloth is made for; else when it comes to that at the rate of this passage.
 */
function lookAtOf(used: Band | null, total: Band, hours: number, overDesignHours: number): SailWear['lookAt'] {
  const from = WEAR.lookAt.value;
  if (used !== null && (used.mid >= from || used.high + total.high > 1)) return { when: 'before', hours: null };
  if (overDesignHours > 0) return { when: 'after', hours: null };
  if (used === null) return { when: 'unknown', hours: null };
  const left = from - used.mid - total.mid;
  if (left <= 0) return { when: 'after', hours: null };
  return { when: 'later', hours: hours > 0 && total.mid > 0 ? (left * hours) / total.mid : null };
}

/**
 * Whether prices may be the catalogue's, which are euros: where the boat file's are, or where it has neither currency nor prices. Prices
 * of which nobody knows the currency are not to be added to them.
 */
export const hasDefaultPrices = ({ currency, sails }: Pick<Boat, 'currency' | 'sails'>): boolean =>
  currency === undefined ? sails.every(({ price }) => price === undefined) : currency === 'EUR';

/**
 * In what money of a boat is: as her file says, euros where all prices are the catalogue's, else null: that of prices of which nobody
 * knows the currency.
 */
export const currencyOf = (boat: Pick<Boat, 'currency' | 'sails'>): string | null =>
  boat.currency ?? (hasDefaultPrices(boat) ? 'EUR' : null);

/** What a new one costs: as the boat file says, else by its area and cloth. */
export function priceOf(
  { kind, life, price, areaM2 }: Sail,
  boat: Pick<Boat, 'currency' | 'sails'>,
): { readonly price: Band; readonly from: 'boat-file' | 'default' } | undefined {
  if (price !== undefined) return { price: { low: price, mid: price, high: price }, from: 'boat-file' };
  const perM2 = defaultPrice({ kind, ...(life === undefined ? {} : { life }) });
  if (perM2 === undefined || areaM2 === undefined || !hasDefaultPrices(boat)) return undefined;
  return { price: scaled(perM2.value, areaM2), from: 'default' };
}

/** Price for each m², in euros; undefined of a cloth nobody knows. */
export function defaultPrice(sail: Pick<Sail, 'kind' | 'life'>): Figure<Band> | undefined {
  const cloth = clothOfSail(sail);
  const ofKind = kindOf(sail.kind).cloth;
  if (cloth === 'other') return undefined;
  return (cloth === ofKind.life ? ofKind.eurPerM2 : undefined) ?? CLOTH_LIVES[cloth].eurPerM2;
}
