import type { Crossover, Hole } from '../crossover/crossover.js';
import { checkTypes } from '../given.js';
import type { SailKind } from '../sail/sail.js';
import type { BoatWith, Unfit } from './candidates.js';
import { anyFinished, type Comparison, checkWorthStudy, compared, type WorthStudy } from './compare.js';
import { isValued } from './money.js';
import type { OwnerPrices } from './prices.js';
import { type Turn, type TurnedRecords, turnsOf } from './turns.js';
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
  /** What it is ranked by: the net over the owner's years, or hours saved on a passage; null, and last, where its price is not known. */
  readonly saves: number | null;
  /** Holes in the boat's crossover that such a sail would fill. */
  readonly fills: readonly Hole[];
}

const TRIED = { kind: 'string', sail: 'object', turned: 'object[]' } as const;

const LAST = Number.NEGATIVE_INFINITY;

/** Every kind that fits, the one that saves most first. */
export interface NextSail {
  readonly formatVersion: 1;
  readonly boat: string;
  readonly rankedBy: 'net' | 'hours';
  readonly rows: readonly NextSailRow[];
  /** Kinds that are not ranked, and why: they do not fit, their speeds cannot be estimated, or the boat finished no passage with them. */
  readonly leftOut: readonly {
    readonly kind: SailKind;
    readonly why: Unfit | 'no-speeds' | 'unfinished';
    readonly said?: string;
  }[];
  /** Why holes could not be looked for; null where they were. */
  readonly holesUnknown: string | null;
}

/**
 * Ranks sails that were tried one by one on the same passages.
 * @throws InputError as `worthOf` does
 * @example
 * const holes = { holes: [], holesUnknown: 'not asked' };
 * nextSailOf(sample.without, [sample.tried], { hourValue: 10 }, holes).rows[0]
 * // { kind: 'vented-downwind', areaM2: 140, saves: -5631.7…, … }
 */
export function nextSailOf(
  a: WorthStudy,
  tried: readonly SailTried[],
  prices: Omit<OwnerPrices, 'price'>,
  crossover: Pick<Crossover, 'holes' | 'holesUnknown'>,
  leftOut: NextSail['leftOut'] = [],
): NextSail {
  checkWorthStudy(a, 'a');
  checkTypes({ tried, leftOut }, { tried: 'object[]', leftOut: 'object[]' });
  tried.forEach((one, i) => {
    checkWorthStudy(one, `tried[${i}]`);
    checkTypes(one, TRIED, `tried[${i}]`);
  });
  checkTypes(crossover, { holes: 'object[]' }, 'crossover');
  const { holes, holesUnknown } = crossover;
  const [finished, unfinished] = [true, false].map((does) => tried.filter((one) => anyFinished(a, one) === does));
  const all = finished!.map((one) => {
    // A price that was not given is found anew, by the area.
    const { price, priceFrom } = one.sail;
    const of = compared(a, one, { ...prices, ...(price === null || priceFrom !== 'given' ? {} : { price }) });
    const turns = turnsOf(of, one.turned).filter(({ input }) => input === 'speed-band');
    return { one, comparison: of.comparison, turns, verdict: verdictOf(of, a, one, turns) };
  });
  // Where hours have a value those whose price is known are ranked by it, the others after them.
  const byNet = all.some(({ comparison: { money } }) => money.net !== null && isValued(money.prices));
  const rows = all.map(({ one: { kind, sail, boat }, comparison, turns, verdict }): NextSailRow => {
    const { money, differences } = comparison;
    return {
      kind,
      sail: sail.sail,
      areaM2: boat.sails.find(({ id }) => id === sail.sail)?.areaM2 ?? null,
      comparison,
      verdict,
      turns,
      saves: byNet ? (money.net?.mid ?? null) : 0 - differences.hours!.mid,
      fills: holes.filter(({ kinds }) => kinds.includes(kind)),
    };
  });
  return {
    formatVersion: 1,
    boat: a.name,
    rankedBy: byNet ? 'net' : 'hours',
    rows: rows.sort((x, y) => (y.saves ?? LAST) - (x.saves ?? LAST)),
    leftOut: [...leftOut, ...unfinished!.map(({ kind }) => ({ kind, why: 'unfinished' as const }))],
    holesUnknown,
  };
}
