import { kindOf } from '../catalogue/catalogue.js';
import type { Fault } from '../errors.js';
import { SAIL_KINDS, type SailKind } from '../sail/sail.js';
import { says } from '../wording.js';
import type { Given, OwnerPrices, SailWanted } from '../worth/worth.js';
import { numberOf } from './options.js';
import { type StudyOptions, wholeNumber } from './studyOptions.js';

/** What `worth` and `next-sail` ask of the owner, as it was given. */
export interface OwnerOptions {
  readonly hourValue?: string;
  readonly nightChangeValue?: string;
  readonly litrePrice?: string;
  readonly tears?: string;
  readonly tearCost?: string;
  readonly resale?: string;
  readonly years?: string;
  readonly milesPerYear?: string;
  readonly speedBand?: string;
  readonly sample?: string;
}

/** The options of `worth` as they were given. */
export interface WorthOptions extends Omit<StudyOptions, 'boat' | 'weight' | 'limit'>, OwnerOptions {
  readonly boat: string;
  readonly against?: string;
  readonly add?: string;
  readonly area?: string;
  readonly lifeHours?: string;
  readonly price?: string;
  /** False: none. */
  readonly rivals: boolean;
  readonly rival?: readonly string[];
}

/** The options of `next-sail` as they were given. */
export interface NextSailOptions extends Omit<StudyOptions, 'boat' | 'weight' | 'limit'>, OwnerOptions {
  readonly boat: string;
}

const MONEY = [0, 10_000_000] as const;

/** What the owner reckons with. */
export function ownerPrices(given: OwnerOptions & { readonly price?: string }, faults: Fault[]): OwnerPrices {
  const ranged = <Key extends keyof OwnerPrices>(
    key: Key,
    text: string | undefined,
    file: string,
    range: readonly [number, number],
  ) => {
    const value = rangeOf(text, file, range, faults);
    return value === undefined ? {} : { [key]: value };
  };
  const years = numberOf(given.years, '--years', [0.1, 50], faults);
  const resale = resaleOf(given.resale, faults);
  return {
    ...ranged('price', given.price, '--price', MONEY),
    ...ranged('hourValue', given.hourValue, '--hour-value', [0, 100_000]),
    ...ranged('nightChangeValue', given.nightChangeValue, '--night-change-value', [0, 100_000]),
    ...ranged('litrePrice', given.litrePrice, '--litre-price', [0, 1000]),
    ...ranged('tearsPer100Hours', given.tears, '--tears', [0, 100]),
    ...ranged('tearCost', given.tearCost, '--tear-cost', MONEY),
    ...ranged('milesPerYear', given.milesPerYear, '--miles-per-year', [1, 200_000]),
    ...(resale === undefined ? {} : { resale }),
    ...(years === undefined ? {} : { years }),
  };
}

/** `9000`, or `8000,9000,11000`: low, usual and high. */
function rangeOf(
  text: string | undefined,
  file: string,
  range: readonly [number, number],
  faults: Fault[],
): Given | undefined {
  if (text === undefined) return undefined;
  const parts = text.split(',');
  if (parts.length === 1) return numberOf(text, file, range, faults);
  const numbers = parts.map((part) => (part.trim() === '' ? Number.NaN : Number(part)));
  const [low = Number.NaN, mid = Number.NaN, high = Number.NaN] = numbers;
  if (parts.length === 3 && range[0] <= low && low <= mid && mid <= high && high <= range[1]) return { low, mid, high };
  faults.push({
    file,
    ...says.wrongValue(`a number from ${range[0]} to ${range[1]}, or low,usual,high in this order`, text),
  });
  return undefined;
}

/** `0.6,0.85,0.1`. */
function resaleOf(text: string | undefined, faults: Fault[]): OwnerPrices['resale'] {
  if (text === undefined) return undefined;
  const numbers = text.split(',').map((part) => (part.trim() === '' ? Number.NaN : Number(part)));
  const [firstYear = Number.NaN, perYear = Number.NaN, least = Number.NaN] = numbers;
  if (numbers.length === 3 && numbers.every((share) => share >= 0 && share <= 1)) return { firstYear, perYear, least };
  faults.push({
    file: '--resale',
    ...says.wrongValue(
      'three shares from 0 to 1: after a year, of that each year after, at least; like 0.6,0.85,0.1',
      text,
    ),
  });
  return undefined;
}

/** How many passages are sailed again for every uncertain input. */
export const sampleOf = (text: string | undefined, faults: Fault[]): number =>
  wholeNumber(text, '--sample', [1, 10_000], faults) ?? 24;

export const speedBandOf = (text: string | undefined, faults: Fault[]): { readonly speedBandPercent?: number } => {
  const speedBandPercent = numberOf(text, '--speed-band', [0, 50], faults);
  return speedBandPercent === undefined ? {} : { speedBandPercent };
};

/** The sail to add; undefined where none is, or after a fault. */
export function sailGiven(
  { add, against, area, lifeHours, price }: WorthOptions,
  faults: Fault[],
): SailWanted | undefined {
  if ((add === undefined) === (against === undefined))
    faults.push({
      file: '--against',
      ...says.wrongValue(
        'a boat to compare with (--against), or a sail to add (--add), one of the two',
        add === undefined ? 'neither' : 'both',
      ),
    });
  const areaM2 = numberOf(area, '--area', [0.5, 2000], faults);
  const hours = numberOf(lifeHours, '--life-hours', [10, 100_000], faults);
  if (add === undefined) {
    for (const [file, value] of [
      ['--area', area],
      ['--life-hours', lifeHours],
    ] as const)
      if (value !== undefined) faults.push({ file, ...says.wrongValue('a sail to add (--add)', 'none') });
    return undefined;
  }
  const kind = kindGiven(add, '--add', faults);
  if (kind !== undefined && kindOf(kind).place === 'mast')
    faults.push({
      file: '--add',
      ...says.wrongValue('a sail to set beside her main (for another main: --against)', kind),
    });
  const cost = rangeOf(price, '--price', MONEY, []);
  return kind === undefined
    ? undefined
    : {
        kind,
        ...(areaM2 === undefined ? {} : { areaM2 }),
        ...(cost === undefined ? {} : { price: typeof cost === 'number' ? cost : cost.mid }),
        ...(hours === undefined ? {} : { lifeHours: hours }),
      };
}

/** Competitors that were asked for by kind, each with its price if it has one; undefined: the usual ones. */
export function rivalsGiven({ rivals, rival }: WorthOptions, faults: Fault[]): readonly SailWanted[] | undefined {
  if (!rivals) {
    if (rival !== undefined)
      faults.push({ file: '--no-rivals', ...says.wrongValue('no --rival beside it', rival.join(', ')) });
    return [];
  }
  return rival?.flatMap((text) => {
    const [name = '', cost, ...rest] = text.split('=').map((part) => part.trim());
    const kind = kindGiven(name, '--rival', faults);
    const price = numberOf(cost, '--rival', MONEY, faults);
    if (rest.length > 0) faults.push({ file: '--rival', ...says.wrongValue('kind or kind=price', text) });
    return kind === undefined ? [] : [{ kind, ...(price === undefined ? {} : { price }) }];
  });
}

function kindGiven(text: string, file: string, faults: Fault[]): SailKind | undefined {
  const kind = SAIL_KINDS.find((known) => known === text.trim());
  if (kind === undefined) faults.push({ file, ...says.choice(SAIL_KINDS, text) });
  return kind;
}
