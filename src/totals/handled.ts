import type { Boat } from '../boat/boat.js';
import type { Operation } from '../catalogue/catalogue.js';
import { changeOf, type Step } from '../change/change.js';
import type { Hour, Passage } from '../passage/passage.js';

/** How often each operation was done. */
export type OperationCounts = Readonly<Record<Operation, number>>;

/** What was done to the sails at the start of every row of the log. */
export type HandledAt = readonly (readonly Step[])[];

/**
 * The operations of every sail change, by the row at whose start it is made. What is set at departure goes up in harbour and counts only
 * where the plan set before was told.
 */
export function handledIn({ hours, options }: Passage, boat: Boat): HandledAt {
  const known = new Set(boat.sailPlans.map(({ id }) => id));
  // Engine, bare poles and hove to are no sail plans: nothing is set.
  const planOf = (id: string | null) => (id !== null && known.has(id) ? id : null);
  const steps = new Map<string, readonly Step[]>();
  return hours.map((hour, i) => {
    if (!hour.sailChange) return [];
    const from = planOf(i === 0 ? options.planSet : hours[i - 1]!.sailPlan);
    const to = planOf(hour.sailPlan);
    const key = `${from} ${to}`;
    const made = steps.get(key) ?? changeOf(boat, from, to);
    steps.set(key, made);
    return made;
  });
}

/** Counts operations. */
export function countOf(steps: readonly Step[]): OperationCounts {
  const counts = { set: 0, douse: 0, unfurl: 0, furl: 0, reef: 0, shakeOut: 0 };
  for (const { operation } of steps) counts[operation] += 1;
  return counts;
}

/** Tacks and gybes of some rows: those when the wind changes side from the row before, and those of beating and running on alternate boards. */
export interface Turns {
  readonly tacks: number;
  readonly gybes: number;
}

/** Tacks and gybes of a passage, of those rows that are asked for. */
export function turnsOf({ hours, options }: Passage, isOf: (hour: Hour) => boolean = () => true): Turns {
  const { tackEveryHours, gybeEveryHours } = options.house;
  let tacking = 0;
  let gybing = 0;
  let tacks = 0;
  let gybes = 0;
  hours.forEach((hour, i) => {
    if (!isOf(hour)) return;
    if (hour.manner === 'tacking') tacking += hour.minutes / 60;
    if (hour.manner === 'gybing') gybing += hour.minutes / 60;
    const before = hours[i - 1];
    if (before?.manner !== 'direct' || hour.manner !== 'direct' || before.tack === hour.tack) return;
    if (Math.abs(hour.twaDeg ?? 0) < 90) tacks += 1;
    else gybes += 1;
  });
  return {
    tacks: tacks + Math.round(tacking / tackEveryHours),
    gybes: gybes + Math.round(gybing / gybeEveryHours),
  };
}
