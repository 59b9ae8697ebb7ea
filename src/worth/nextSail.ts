import type { Crossover, Hole } from '../crossover/crossover.js';
import type { SailKind } from '../sail/sail.js';
import type { BoatWith, Unfit } from './candidates.js';
import { type Comparison, compared, type WorthStudy } from './compare.js';
import type { OwnerPrices } from './prices.js';
import { isValued, type Turn, type TurnedRecords, turnsOf } from './turns.js';
import { type Verdict, verdictOf } from './verdict.js';

/** A sail that was tried: the boat with it, what she made of the passages, and of some of them with her speeds off. */
export interface SailTried extends WorthStudy {
  readonly kind: SailKind;
  readonly sail: BoatWith;
  readonly turned: readonly TurnedRecords[];
}

/** What a further sail of a kind would do. */
export interface NextSailRow {
  readonly kind: SailKind;
  readonly sail: string;
  readonly areaM2: number | null;
  /** B with it against A without; every difference is B minus A. */
  readonly comparison: Comparison;
  readonly verdict: Verdict;
  /** With the speeds under it off either way, where they are estimates. */
  readonly turns: readonly Turn[];
  /** What it is ranked by: the net over the owner's years, or hours saved on a passage. */
  readonly saves: number;
  /** Holes in the boat's crossover that such a sail would fill. */
  readonly fills: readonly Hole[];
}

/** Every kind that fits, the one that saves most first. */
export interface NextSail {
  readonly formatVersion: 1;
  readonly boat: string;
  readonly rankedBy: 'net' | 'hours';
  readonly rows: readonly NextSailRow[];
  /** Kinds that were not tried, and why. */
  readonly leftOut: readonly { readonly kind: SailKind; readonly why: Unfit; readonly said?: string }[];
  /** Why holes could not be looked for; null where they were. */
  readonly holesUnknown: string | null;
}

/**
 * Ranks sails that were tried one by one on the same passages.
 * @throws InputError as `worthOf` does
 */
export function nextSailOf(
  a: WorthStudy,
  tried: readonly SailTried[],
  prices: Omit<OwnerPrices, 'price'>,
  { holes, holesUnknown }: Pick<Crossover, 'holes' | 'holesUnknown'>,
  leftOut: NextSail['leftOut'] = [],
): NextSail {
  const all = tried.map((one) => {
    const of = compared(a, one, { ...prices, ...(one.sail.price === null ? {} : { price: one.sail.price }) });
    const turns = turnsOf(of, one.turned).filter(({ input }) => input === 'speed-band');
    return { one, comparison: of.comparison, turns, verdict: verdictOf(of, a, one, turns) };
  });
  const byNet =
    all.length > 0 && all.every(({ comparison: { money } }) => money.net !== null && isValued(money.prices));
  const rows = all.map(({ one: { kind, sail, boat }, comparison, turns, verdict }): NextSailRow => {
    const { money, differences } = comparison;
    return {
      kind,
      sail: sail.sail,
      areaM2: boat.sails.find(({ id }) => id === sail.sail)?.areaM2 ?? null,
      comparison: { ...comparison, money: withOrigin(money, sail.priceFrom) },
      verdict,
      turns,
      saves: byNet ? money.net!.mid : 0 - differences.hours!.mid,
      fills: holes.filter(({ kinds }) => kinds.includes(kind)),
    };
  });
  return {
    formatVersion: 1,
    boat: a.name,
    rankedBy: byNet ? 'net' : 'hours',
    rows: rows.sort((x, y) => y.saves - x.saves),
    leftOut,
    holesUnknown,
  };
}

/** A price by area is a placeholder, though it was handed over like a given one. */
function withOrigin(money: Comparison['money'], priceFrom: BoatWith['priceFrom']): Comparison['money'] {
  if (priceFrom !== 'placeholder') return money;
  const { prices } = money;
  return { ...money, prices: { ...prices, from: { ...prices.from, price: 'placeholder' } } };
}
