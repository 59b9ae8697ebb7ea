import type { Boat } from '../boat/boat.js';
import type { Operation } from '../catalogue/catalogue.js';
import { changeOf, effortOf, handsOnDeck, type Step } from '../change/change.js';
import type { Means } from './means.js';
import { type SettledOptions, USUAL_CREW } from './options.js';

/** When a change is made, as far as the rules ask. */
export interface Watchkeeping {
  readonly dark: boolean;
  /** Whether both watches are about. */
  readonly bothWatches: boolean;
}

/** A change from one means to another: what it takes, or why it may not be made now. */
export interface Change {
  /** Whether it takes the efforts of the night. */
  readonly dark: boolean;
  /** What is left, by its place in the list of means. */
  readonly before: number;
  readonly minutes: number;
  readonly hands: number;
  /** Share kept of the slower plan's speed meanwhile. */
  readonly keptShare: number;
  /** Price beyond its time and the constant price, minutes. */
  readonly price: number;
  readonly wakesWatch: boolean;
  readonly steps: readonly Step[];
  /** Why a house rule forbids it; it may then be made in need only, to lie hove to. */
  readonly forbidden?: 'night' | 'crew';
}

/** Every change between means, by their places in the list. */
export type Changes = (before: number, after: number, when: Watchkeeping) => Change;

/** Operations after which she carries more. */
const ADDS: ReadonlySet<Operation> = new Set(['set', 'unfurl', 'shakeOut']);
const SETS: ReadonlySet<Operation> = new Set(['set', 'unfurl']);

/** What breaking a house rule is worth, minutes: a day of arrival time, so that it is done in need only. */
const NEED_PRICE = 1440;

/**
 * The changes between means under the house rules: in the dark what they forbid is not done; a change that wants more hands than
 * the watch on deck has wakes the rest, near a change of watch with two teams about; one that sets or shakes out with more than the
 * crew is not made, nor is a sail set that wants more to be taken down.
 */
export function changesBetween(
  boat: Boat,
  means: readonly Means[],
  { house, crew }: Pick<SettledOptions, 'house' | 'crew'>,
): Changes {
  const all = crew ?? USUAL_CREW;
  const known: (Change | undefined)[] = [];
  const byDay = new Set(boat.sails.filter((sail) => sail.daylightOnly === true).map(({ id }) => id));
  const planOf = ({ kind, id }: Means) => (kind === 'sails' ? id : null);
  /** The most hands that it takes to be rid of what is set by some steps, by night too where it may stand then. */
  const handsToTakeDown = (steps: readonly Step[], plan: string | null): number => {
    const set = new Set(steps.flatMap(({ operation, cloth }) => (SETS.has(operation) ? [cloth] : [])));
    return changeOf(boat, plan, null)
      .filter(({ cloth }) => set.has(cloth))
      .reduce((most, { sail, day, night }) => Math.max(most, (byDay.has(sail) ? day : night).hands), 0);
  };
  const made = (before: number, after: number, { dark, bothWatches }: Watchkeeping): Change => {
    const steps = changeOf(boat, planOf(means[before]!), planOf(means[after]!));
    const available = handsOnDeck(boat, all, bothWatches);
    const asOnDeck = effortOf(steps, dark, available);
    const wakesWatch = asOnDeck.hands > available && available < all;
    const { minutes, hands, keptShare } = wakesWatch ? effortOf(steps, dark, all) : asOnDeck;
    const byNight =
      dark &&
      (house.changesInDark === 'none' || (house.changesInDark === 'not-flying' && steps.some(({ flying }) => flying)));
    // Who does not say how many they are is not told that they are too few. Sail can be shortened by fewer, slowly.
    const byCrew =
      crew !== null &&
      (steps.some(({ operation, day, night }) => ADDS.has(operation) && (dark ? night : day).hands > all) ||
        handsToTakeDown(steps, planOf(means[after]!)) > all);
    const forbidden = steps.length === 0 ? undefined : byNight ? 'night' : byCrew ? 'crew' : undefined;
    return {
      dark,
      before,
      minutes,
      hands,
      keptShare,
      wakesWatch,
      price: (wakesWatch ? house.wakeMinutes : 0) + (forbidden === undefined ? 0 : NEED_PRICE),
      steps,
      ...(forbidden === undefined ? {} : { forbidden }),
    };
  };
  return (before, after, when) => {
    const at = (before * means.length + after) * 4 + (when.dark ? 2 : 0) + (when.bothWatches ? 1 : 0);
    known[at] ??= made(before, after, when);
    return known[at];
  };
}

/** Whether a change may be made: what is forbidden, only to lie hove to or under bare poles. */
export const isAllowed = ({ forbidden }: Change, to: Means): boolean =>
  forbidden === undefined || to.kind === 'hove-to' || to.kind === 'bare-poles';
