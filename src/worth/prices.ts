import type { Band } from '../catalogue/catalogue.js';
import { type FaultList, faultList, shown } from '../errors.js';
import { addTypeFaults } from '../given.js';
import { scaled } from '../wear/wear.js';
import { says } from '../wording.js';

/** A number, or one with a low and a high end that is tried too. */
export type Given = number | Band;

/** What the owner reckons with, in the boat's currency. What is absent is worth nothing, or a placeholder that is told as such. */
export interface OwnerPrices {
  /** What B's new sails cost together; absent: as the boat file says, else by their areas (a placeholder). */
  readonly price?: Given;
  /** What an hour on the way is worth to the owner. Default nothing. */
  readonly hourValue?: Given;
  /** What a sail change by night is worth. Default nothing. */
  readonly nightChangeValue?: Given;
  /** What a litre of fuel costs. Default nothing. */
  readonly litrePrice?: Given;
  /** How often the new sails are torn in a hundred hours flown, and what mending one costs. Default never; a tenth of the price, a placeholder. */
  readonly tearsPer100Hours?: Given;
  readonly tearCost?: Given;
  /** What is got for it after a year, as a share of the price; what is left of that each year after; and the least. Placeholders by default. */
  readonly resale?: { readonly firstYear: number; readonly perYear: number; readonly least: number };
  /** Years the owner keeps her, and miles sailed a year. Defaults 5 and 3,000: placeholders. */
  readonly years?: number;
  readonly milesPerYear?: Given;
}

/**
 * Placeholders, none with a source: five years, three thousand miles a year; resale as in the list of prices this project began with.
 * @example
 * OWNER_DEFAULTS // { years: 5, milesPerYear: 3000, … }
 */
export const OWNER_DEFAULTS = {
  years: 5,
  milesPerYear: 3000,
  resale: { firstYear: 0.6, perYear: 0.85, least: 0.1 },
  tearShare: 0.1,
} as const;

/**
 * What can be given as a number or a range.
 * @example
 * PRICED // ['price', 'hourValue', …]
 */
export const PRICED = [
  'price',
  'hourValue',
  'nightChangeValue',
  'litrePrice',
  'tearsPer100Hours',
  'tearCost',
  'milesPerYear',
] as const;
/** Their names. */
export type Priced = (typeof PRICED)[number];

/** All prices filled in, and where each is from. */
export interface SettledPrices extends Readonly<Record<Exclude<Priced, 'price' | 'tearCost'>, Band>> {
  readonly price: Band | null;
  readonly tearCost: Band | null;
  readonly resale: NonNullable<OwnerPrices['resale']>;
  readonly years: number;
  /** `none`: nothing was given and nothing is reckoned with. */
  readonly from: Readonly<Record<Priced | 'resale' | 'years', 'given' | 'boat-file' | 'placeholder' | 'none'>>;
}

const band = (given: Given): Band => (typeof given === 'number' ? { low: given, mid: given, high: given } : given);

/** What new sails cost where the owner does not say. */
export interface UsualPrice {
  readonly price: Band;
  readonly from: 'boat-file' | 'placeholder';
}

/**
 * Fills in every price.
 * @throws InputError with every price that is none
 */
export function settledPrices(given: OwnerPrices, usual: UsualPrice | null): SettledPrices {
  const faults = faultList();
  checkPrices(given, faults);
  faults.throwIfAny();
  const price = given.price === undefined ? (usual?.price ?? null) : band(given.price);
  const mended = price === null ? null : scaled(price, OWNER_DEFAULTS.tearShare);
  const or = (name: Priced) => band(given[name] ?? 0);
  const from = (name: Priced) => (given[name] === undefined ? 'none' : 'given');
  return {
    price,
    hourValue: or('hourValue'),
    nightChangeValue: or('nightChangeValue'),
    litrePrice: or('litrePrice'),
    tearsPer100Hours: or('tearsPer100Hours'),
    tearCost: given.tearCost === undefined ? mended : band(given.tearCost),
    milesPerYear: band(given.milesPerYear ?? OWNER_DEFAULTS.milesPerYear),
    resale: given.resale ?? OWNER_DEFAULTS.resale,
    years: given.years ?? OWNER_DEFAULTS.years,
    from: {
      price: given.price === undefined ? (usual?.from ?? 'none') : 'given',
      hourValue: from('hourValue'),
      nightChangeValue: from('nightChangeValue'),
      litrePrice: from('litrePrice'),
      tearsPer100Hours: from('tearsPer100Hours'),
      tearCost: given.tearCost !== undefined ? 'given' : mended === null ? 'none' : 'placeholder',
      milesPerYear: given.milesPerYear === undefined ? 'placeholder' : 'given',
      resale: given.resale === undefined ? 'placeholder' : 'given',
      years: given.years === undefined ? 'placeholder' : 'given',
    },
  };
}

const MOST_MONEY = 10_000_000;
const RANGES: Readonly<Record<Priced, readonly [number, number]>> = {
  price: [0, MOST_MONEY],
  hourValue: [0, 100_000],
  nightChangeValue: [0, 100_000],
  litrePrice: [0, 1000],
  tearsPer100Hours: [0, 100],
  tearCost: [0, MOST_MONEY],
  milesPerYear: [1, 200_000],
};

const SHARES = ['firstYear', 'perYear', 'least'] as const;

function checkPrices(given: OwnerPrices, faults: FaultList): void {
  addTypeFaults(given, { resale: 'object?', years: 'number?' }, 'prices', faults);
  faults.throwIfAny();
  const known = [...PRICED, 'resale', 'years'];
  for (const name of Object.keys(given))
    if (!known.includes(name)) faults.add({ file: 'prices', path: name, ...says.choice(known, name) });
  const number = (path: string, value: unknown, [least, most]: readonly [number, number]) => {
    const isIn = typeof value === 'number' && value >= least && value <= most;
    if (!isIn) faults.add({ file: 'prices', path, ...says.number(least, most, String(value)) });
    return isIn;
  };
  for (const name of PRICED) {
    const value = given[name];
    if (value === undefined) continue;
    if (typeof value !== 'number' && (typeof value !== 'object' || value === null)) {
      faults.add({
        file: 'prices',
        path: name,
        ...says.wrongValue('a number, or one with low, mid and high', shown(value)),
      });
      continue;
    }
    const { low, mid, high } = band(value);
    const all = [...new Set([low, mid, high])].map((one) => number(name, one, RANGES[name]));
    if (all.every((isIn) => isIn) && !(low <= mid && mid <= high))
      faults.add({
        file: 'prices',
        path: name,
        ...says.wrongValue('low, usual and high in this order', `${low}, ${mid}, ${high}`),
      });
  }
  if (given.years !== undefined) number('years', given.years, [0.1, 50]);
  // A share that is left out would make no money of any sum it is in.
  if (given.resale !== undefined) for (const name of SHARES) number(`resale.${name}`, given.resale[name], [0, 1]);
}

/** What is got for a sail after some years, as a share of its price: drawn straight within the first. */
export function resaleShare({ firstYear, perYear, least }: SettledPrices['resale'], years: number): number {
  const share = years < 1 ? 1 - (1 - firstYear) * years : firstYear * perYear ** (years - 1);
  return Math.max(least, share);
}
