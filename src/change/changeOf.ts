import { type Boat, type Sail, settingOf } from '../boat/boat.js';
import { type Effort, kindOf, type Operation } from '../catalogue/catalogue.js';

/** One operation on one sail. */
export interface Step {
  readonly operation: Operation;
  /** Id of the sail as it is set: of a poled-out jib that setting's, not the jib's. */
  readonly sail: string;
  /** Id of the cloth in hand. */
  readonly cloth: string;
  readonly day: Effort;
  readonly night: Effort;
  /** Whether the sail is set flying. */
  readonly flying: boolean;
}

/**
 * The operations from one sail plan to another, by their ids; null is no sails, as hove to or under engine. First what is taken
 * away, before all else what is not set in the dark, then reefs, then what is set (common practice: the deck is clear before the
 * next sail goes up).
 *
 * A sail with a furler is unfurled and furled, another is set and doused. A code sail stays hoisted and furled meanwhile: its
 * hoist is no part of a change. A sail newly set goes up reefed; of a sail that stays, each reef is an operation of its own. Another
 * setting of a cloth (`clothOf`) is set on the cloth that stands and taken back to it. What a sail has no operation for takes no time.
 *
 *     changeOf(boat, 'main+jib', 'main+gennaker')  // furl jib, set gennaker
 */
export function changeOf(
  boat: Pick<Boat, 'sails' | 'sailPlans'>,
  fromPlan: string | null,
  toPlan: string | null,
): Step[] {
  const [from, to] = [carriedBy(boat, fromPlan), carriedBy(boat, toPlan)];
  const isByDay = (cloth: string) => Number(from.get(cloth)?.sail.daylightOnly === true);
  const cloths = [...new Set([...from.keys(), ...to.keys()])].sort((a, b) => isByDay(b) - isByDay(a));
  const changes = cloths.map((cloth) =>
    clothChange(boat.sails.find(({ id }) => id === cloth)!, from.get(cloth), to.get(cloth)),
  );
  return (['away', 'reefs', 'set'] as const).flatMap((part) => changes.flatMap((change) => change[part]));
}

/** A sail as a plan carries it, and with how many reefs. */
interface Carried {
  readonly sail: Sail;
  readonly reef: number;
}

/** What a plan carries, by cloth. */
function carriedBy(boat: Pick<Boat, 'sails' | 'sailPlans'>, plan: string | null): ReadonlyMap<string, Carried> {
  const sails = plan === null ? [] : boat.sailPlans.find(({ id }) => id === plan)!.sails;
  const settings = sails.map((text) => settingOf(boat, text)!);
  return new Map(settings.map(({ cloth, sail, reef }) => [cloth, { sail, reef }]));
}

/** The operations on one cloth; `plain` is the sail itself, which stands before and after its other settings. */
function clothChange(plain: Sail, from: Carried | undefined, to: Carried | undefined) {
  if (from !== undefined && from.sail === to?.sail) return { away: [], reefs: reefSteps(from, to), set: [] };
  const away: Step[] = [];
  const set: Step[] = [];
  if (from !== undefined && from.sail !== plain) away.push(stepOf(from.sail, 'douse', 'furl'));
  if (from !== undefined && to === undefined) away.push(stepOf(plain, 'furl', 'douse'));
  if (from === undefined && to !== undefined) set.push(stepOf(plain, 'unfurl', 'set'));
  if (to !== undefined && to.sail !== plain) set.push(stepOf(to.sail, 'set', 'unfurl'));
  return { away, reefs: [], set };
}

function reefSteps({ sail, reef }: Carried, to: Carried): Step[] {
  const operation = to.reef > reef ? 'reef' : 'shakeOut';
  return Array.from({ length: Math.abs(to.reef - reef) }, () => stepOf(sail, operation));
}

const NO_EFFORT: Effort = { minutes: 0, hands: 0, keptShare: 1 };

/** The first of some operations that a sail has; without effort where it has none. */
function stepOf(sail: Sail, ...operations: readonly [Operation, ...Operation[]]): Step {
  const { id, clothOf, kind, operations: known = {} } = sail;
  const operation = operations.find((name) => known[name] !== undefined) ?? operations.at(-1)!;
  const { day, night } = known[operation] ?? { day: NO_EFFORT, night: NO_EFFORT };
  return { operation, sail: id, cloth: clothOf ?? id, day, night, flying: kindOf(kind).place === 'flying' };
}
