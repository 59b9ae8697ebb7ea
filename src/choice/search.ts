import { noArrivals } from './arrivals.js';
import { type Label, noLabels } from './labels.js';
import { layerOf } from './layer.js';
import { pricedLayerOf } from './pricedLayer.js';
import type { ChoiceProblem, SearchSettings } from './problem.js';

/** How a way of choosing ends: at the goal, or at the last place it came to where stages or options end before. */
export interface Ending {
  readonly arrived: boolean;
  /** Whether it came to a place and stage where no option is allowed, before the stages were over. */
  readonly stuck: boolean;
  readonly changes: number;
  /** From the start. */
  readonly minutes: number;
  readonly place: number;
  /** Beyond time and the constant price of changes, minutes. */
  readonly price: number;
  /** The option of every stage. */
  steps(): readonly number[];
}

/** What a search found. */
export interface Search {
  /** For each number of changes the earliest arrival, and that of least time and price together. */
  readonly arrivals: readonly Ending[];
  /** Ways that did not arrive: where they came to. */
  readonly unfinished: readonly Ending[];
}

/**
 * Searches all ways of choosing at once, stage by stage. A label is an option in force, the changes made so far and what the
 * rules need to know; of labels alike in these the furthest matter.
 *
 * Exact where being allowed depends on the stage alone and no option overtakes itself: then the furthest label can do all that
 * one behind it can. Where bars depend on place it is not (the one ahead may meet a bar that the one behind does not):
 * several labels, `spacing` apart, come near.
 *
 * Of ways equally good the one of fewer changes is taken, then that of less price, then the one whose last change lies
 * longest back, then the lower option.
 */
export function searched(problem: ChoiceProblem, settings: SearchSettings): Search {
  const { options, goal, leastStages = 0, setBefore = NO_OPTION } = problem;
  const labels = noLabels();
  const next =
    settings.atPrice === undefined ? layerOf(problem, settings) : pricedLayerOf(problem, settings, settings.atPrice);
  const arrivals = noArrivals();
  const unfinished: Ending[] = [];
  // Of the labels of the stage, under the option in force.
  let ownWays = new Float64Array(0);
  const mostWays = new Float64Array(options);
  const scratch: Label = { ...FIRST };
  let stage = 0;
  let first = 0;
  let store = 0;
  let startMinutes = 0;
  let stageMinutes = 0;

  /**
   * One way through the stage: so many minutes of slow going at first, then the rest at the option's own rate. Offers what comes of it.
   */
  const go = (parent: number, from: number, slowMinutes: number, slowWay: number, way: number): void => {
    // There may be less of the store than has been used, where something else goes on using it.
    if (scratch.used > store) return;
    const slowPart = Math.min(slowMinutes, stageMinutes) / stageMinutes;
    const atFirst = slowPart * slowWay;
    const inAll = atFirst + (1 - slowPart) * way;
    scratch.parent = parent;
    if (from + inAll < goal) {
      scratch.place = from + inAll;
      scratch.busyMinutes = Math.max(0, slowMinutes - stageMinutes);
      next.offer(scratch);
      return;
    }
    const left = goal - from;
    const part =
      atFirst >= left
        ? (slowPart * left) / atFirst
        : slowPart + ((1 - slowPart) * (left - atFirst)) / (inAll - atFirst);
    const minutesIn = part * stageMinutes;
    if (problem.mayArrive?.(stage, minutesIn) === false) return;
    const { changes, price, option } = scratch;
    arrivals.offer({ changes, price, parent, minutes: startMinutes + minutesIn, last: option });
  };

  /** Steps of the store used with a stage under an option; undefined where there are not so many. */
  const usedWith = (usedBefore: number, option: number): number | undefined => {
    const takes = problem.storeUsed?.(option) ?? 0;
    return takes > 0 && usedBefore + takes > store ? undefined : usedBefore + takes;
  };

  /** Without what it uses up an option is barred. */
  const wayWithStore = (option: number, from: number, usedBefore: number): number =>
    usedWith(usedBefore, option) === undefined ? Number.NaN : problem.way(stage, option, from);

  /** Goes on under the option in force, also through what is left of a change; whether it may. */
  const stay = (parent: number): boolean => {
    const { columns } = labels;
    const option = columns.option[parent]!;
    if (option === NO_OPTION) return false;
    const from = columns.place[parent]!;
    const used = usedWith(columns.used[parent]!, option);
    const way = wayWithStore(option, from, columns.used[parent]!);
    ownWays[parent - first] = way;
    if (Number.isNaN(way) || used === undefined) return false;
    const busyMinutes = columns.busyMinutes[parent]!;
    scratch.option = option;
    scratch.changes = columns.changes[parent]!;
    scratch.since = Math.min(leastStages, columns.since[parent]! + 1);
    scratch.used = used;
    scratch.price = columns.price[parent]! + (problem.stagePrice?.(option) ?? 0);
    scratch.busyFrom = columns.busyFrom[parent]!;
    scratch.busyKept = columns.busyKept[parent]!;
    const before = busyMinutes > 0 ? wayWithStore(scratch.busyFrom, from, columns.used[parent]!) : way;
    go(parent, from, busyMinutes, scratch.busyKept * slower(before, way), way);
    return true;
  };

  /** Goes over to each other option that may be gone over to; whether there is one. */
  const change = (parent: number): boolean => {
    const { columns } = labels;
    const before = columns.option[parent]!;
    const isFirst = before === NO_OPTION;
    const changes = columns.changes[parent]! + (isFirst ? 0 : 1);
    const since = columns.since[parent]!;
    const wayBefore = isFirst ? Number.NaN : ownWays[parent - first]!;
    // What is barred may be left at any time; what is left of a change to it is then done all the same.
    const busyMinutes = columns.busyMinutes[parent]!;
    if ((busyMinutes > 0 || since < leastStages) && !Number.isNaN(wayBefore)) return false;
    const from = columns.place[parent]!;
    const price = columns.price[parent]!;
    const usedBefore = columns.used[parent]!;
    const nextSince = isFirst ? leastStages : Math.min(leastStages, 1);
    let went = false;
    for (let option = 0; option < options; option += 1) {
      if (option === before) continue;
      const used = usedWith(usedBefore, option);
      if (used === undefined) continue;
      scratch.option = option;
      scratch.changes = changes;
      scratch.since = nextSince;
      scratch.used = used;
      scratch.price = price;
      // Asked as if the change took no time; what it takes is known further down.
      scratch.busyMinutes = 0;
      scratch.place = from + mostWays[option]!;
      if (scratch.place < goal && !next.mayUse(scratch)) {
        went = true;
        continue;
      }
      const way = problem.way(stage, option, from);
      if (Number.isNaN(way)) continue;
      // No change brings further than the option alone would, unless that goes backwards.
      scratch.place = from + way;
      if (way >= 0 && scratch.place < goal && !next.mayUse(scratch)) {
        went = true;
        continue;
      }
      const cost = isFirst || problem.change === undefined ? FREE : problem.change(stage, before, option, from);
      if (cost === undefined) continue;
      went = true;
      scratch.price = price + (problem.stagePrice?.(option) ?? 0) + cost.price;
      scratch.busyFrom = Math.max(0, before);
      scratch.busyKept = cost.keptShare;
      go(parent, from, busyMinutes + cost.minutes, cost.keptShare * slower(wayBefore, way), way);
    }
    return went;
  };

  const endAt = (label: number) => {
    const { place, changes, price } = labels.columns;
    unfinished.push({
      arrived: false,
      stuck: stage < problem.stages,
      changes: changes[label]!,
      minutes: startMinutes,
      place: place[label]!,
      price: price[label]!,
      steps: () => labels.stepsTo(label),
    });
  };

  const { since = leastStages, used = 0, busy } = problem.inHand ?? {};
  labels.add({
    ...FIRST,
    place: problem.from,
    option: setBefore,
    since: Math.min(leastStages, since),
    used,
    ...(busy === undefined ? {} : { busyMinutes: busy.minutes, busyKept: busy.kept, busyFrom: busy.from }),
  });
  for (; stage < problem.stages && first < labels.length; stage += 1) {
    stageMinutes = problem.minutes(stage);
    // What was used up before is used up.
    store = Math.max(used, problem.storeAt?.(stage) ?? 0);
    for (let option = 0; option < options; option += 1)
      mostWays[option] = problem.mostWay?.(stage, option) ?? Number.POSITIVE_INFINITY;
    const last = labels.length;
    const stuck = new Uint8Array(last - first);
    if (ownWays.length < last - first) ownWays = new Float64Array(2 * (last - first));
    // Ways that stay as they are go first: of equals the one with the older change is kept.
    for (let label = first; label < last; label += 1) if (!stay(label)) stuck[label - first] = 1;
    next.noteStays();
    for (let label = first; label < last; label += 1) if (change(label)) stuck[label - first] = 0;
    for (let label = first; label < last; label += 1) if (stuck[label - first] === 1) endAt(label);
    first = last;
    startMinutes += stageMinutes;
    next.moveTo(labels, arrivals.beat);
  }
  for (let label = first; label < labels.length; label += 1) endAt(label);
  return {
    arrivals: arrivals.all().map(
      ({ changes, minutes, price, parent, last }): Ending => ({
        arrived: true,
        stuck: false,
        changes,
        minutes,
        place: goal,
        price,
        steps: () => [...labels.stepsTo(parent), last],
      }),
    ),
    unfinished,
  };
}

/** No option is in force before the first stage. */
const NO_OPTION = -1;

const FREE = { minutes: 0, keptShare: 1, price: 0 };

const FIRST: Readonly<Label> = {
  place: 0,
  price: 0,
  busyMinutes: 0,
  busyKept: 1,
  busyFrom: 0,
  option: NO_OPTION,
  changes: 0,
  since: 0,
  used: 0,
  parent: -1,
};

/** The slower of two ways in a stage; where the option left is barred, that of the one gone over to. */
const slower = (before: number, after: number) => (Number.isNaN(before) ? after : Math.min(before, after));
