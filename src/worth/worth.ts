/**
 * Whether a further sail earns its price: what a wardrobe changes against another over the same passages, in hours, nights, wear and money.
 * @packageDocumentation
 */

import { checkTypes } from '../given.js';
import { anyFinished, type Comparison, checkWorthStudy, compared, type WorthStudy } from './compare.js';
import type { OwnerPrices } from './prices.js';
import { type Turn, type TurnedRecords, turnsOf } from './turns.js';
import { type Verdict, verdictOf } from './verdict.js';

export { addedTo } from './added.js';
export {
  type BoatWith,
  beyondCrew,
  boatWith,
  kindsFor,
  priced,
  type SailWanted,
  type Unfit,
  usualRivals,
} from './candidates.js';
export {
  type Comparison,
  checkCurrencies,
  type PlanDifference,
  type SailDifference,
  type WorthStudy,
} from './compare.js';
export type { Difference } from './difference.js';
export type { Flown } from './flown.js';
export type { MeanRange, WorthMoney } from './money.js';
export { type NextSail, type NextSailRow, nextSailOf, type SailTried } from './nextSail.js';
export type { PassageCounts } from './pairs.js';
export { type Given, OWNER_DEFAULTS, type OwnerPrices, PRICED, type Priced, type SettledPrices } from './prices.js';
export { repriced } from './repriced.js';
export { speedsWith } from './speedsWith.js';
export { type SailedInput, type Turned, type TurnOptions, turnedBoats } from './turned.js';
export type { Turn, TurnEnd, TurnedRecords, TurnInput } from './turns.js';
export type { ToMeasure, Verdict } from './verdict.js';
export { type WorthCases, worthCases } from './worthCases.js';

/** A competitor of B's new sail, on the same passages. */
export interface Rival extends WorthStudy {
  /** What it costs; absent: as B's, by the boat file or by its area. */
  readonly price?: OwnerPrices['price'];
}

/** What is looked at beside A and B. */
export interface WorthOptions {
  readonly rivals?: readonly Rival[];
  /** What the boats of `turnedBoats` made of the same passages, or of some of them. */
  readonly turned?: readonly TurnedRecords[];
}

/** Whether B is worth its price against A. Every difference is B minus A. */
export interface Worth extends Comparison {
  readonly formatVersion: 1;
  readonly verdict: Verdict;
  /** How the answer turns with each uncertain input by itself, the one that moves it most first. */
  readonly turns: readonly Turn[];
  /** Each competitor against A; and the names of those that finish no passage that A does. */
  readonly rivals: readonly Comparison[];
  readonly rivalsUnfinished: readonly string[];
}

/**
 * What wardrobe B changes against A over the same passages, and whether what it saves pays for what it costs. Nothing is worth anything
 * but what the owner says: without a value of hours and nights only the wear of sails is money, and the rest is told in hours.
 * @throws InputError where one of them or an option is none, the two did not sail the same passages, finished none alike, or a price is none
 * @example
 * const { verdict, differences } = worthOf(sample.without, sample.withVented, { price: 9000, hourValue: 10 });
 * verdict // { answer: 'does-not-pay', by: 'net', … }
 * differences.hours // { mid: -8.44…, … }
 */
export function worthOf(
  studyA: WorthStudy,
  studyB: WorthStudy,
  prices: OwnerPrices = {},
  options: WorthOptions = {},
): Worth {
  checkWorthStudy(studyA, 'studyA');
  checkWorthStudy(studyB, 'studyB');
  checkTypes(options, { rivals: 'object[]?', turned: 'object[]?' });
  const { rivals = [], turned = [] } = options;
  rivals.forEach((rival, i) => {
    checkWorthStudy(rival, `rivals[${i}]`);
  });
  const of = compared(studyA, studyB, prices);
  const turns = turnsOf(of, turned);
  const { price: _, ...owner } = prices;
  const finished = rivals.filter((rival) => anyFinished(studyA, rival));
  return {
    formatVersion: 1,
    ...of.comparison,
    verdict: verdictOf(of, studyA, studyB, turns),
    turns,
    rivals: finished.map(
      ({ price, ...rival }) =>
        compared(studyA, rival, { ...owner, ...(price === undefined ? {} : { price }) }).comparison,
    ),
    rivalsUnfinished: rivals.filter((rival) => !finished.includes(rival)).map(({ name }) => name),
  };
}
