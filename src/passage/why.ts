import { isoUtc } from '../time.js';
import type { ChangeAt } from './changeAt.js';
import { type BarReason, isDay, type Waters } from './hour.js';
import type { Hour } from './log.js';
import type { Means } from './means.js';
import type { RouteTable } from './routeTable.js';
import type { SailedHour } from './sailed.js';

/** One operation of a sail change. */
export interface ChangeStep {
  readonly operation: string;
  readonly sail: string;
  readonly minutes: number;
  readonly hands: number;
}

/** A sail change, and why it is made. */
export interface SailChange {
  readonly time: string;
  /** Null is hove to. */
  readonly from: string | null;
  readonly to: string | null;
  readonly minutes: number;
  readonly hands: number;
  /** Whether it wakes the watch below. */
  readonly wakesWatch: boolean;
  /** Whether a house rule forbids it and it is made in need. */
  readonly inNeed: boolean;
  readonly daylight: boolean;
  readonly steps: readonly ChangeStep[];
  /** How long what is set then stays. */
  readonly hours: number;
  /** By how much it makes more good than what was set before, in the mean over the hours in which that could have stayed; null: in none. */
  readonly gainKn: number | null;
  /** When and why what was set before could not have stayed; null where it could. */
  readonly barred: { readonly time: string; readonly reason: BarReason } | null;
  /** The next best for the same hours, which may be to leave things as they are, and how much later it would have her; null: nothing else. */
  readonly runnerUp: { readonly sailPlan: string | null; readonly costMinutes: number } | null;
  /** Plans that would be faster at the time of the change but may not be carried. */
  readonly fasterBarred: readonly { readonly sailPlan: string; readonly reason: BarReason; readonly smgKn: number }[];
  /** The last hour by daylight in which it can be made; null where there is none near. */
  readonly lastByDaylight: string | null;
}

/** What the reasons are found with. */
export interface WhyParts {
  readonly waters: Waters;
  readonly means: readonly Means[];
  readonly changeAt: ChangeAt;
  readonly table: RouteTable;
  readonly stageEpochSeconds: Float64Array;
  readonly pricePerChangeMinutes: number;
}

/** Every sail change of a planned passage with its reasons. */
export function whyOf(parts: WhyParts, hours: readonly SailedHour[], rows: readonly Hour[]): SailChange[] {
  const starts = hours.flatMap(({ change }, i) => (change === undefined ? [] : [i]));
  return starts.map((at, n) => changeWhy(parts, hours, rows, at, starts[n + 1] ?? hours.length));
}

function changeWhy(
  parts: WhyParts,
  hours: readonly SailedHour[],
  rows: readonly Hour[],
  at: number,
  until: number,
): SailChange {
  const { means } = parts;
  const [hour, row] = [hours[at]!, rows[at]!];
  const change = hour.change!;
  const before = means[change.before]!;
  const stretch = hours.slice(at, until);
  const lasts =
    stretch.reduce((sum, { start, under }) => sum + (under.run!.end.epochSeconds - start.epochSeconds), 0) / 3600;
  const stayed = sailedAlone(parts, before, hour.start.distanceNm, at, until, 0);
  // Where what was set could have stayed for a while, both are compared over that while.
  const alike = hours[at + stayed.stages - 1];
  const own = alike === undefined ? 0 : alike.under.run!.end.distanceNm - hour.start.distanceNm;
  const alikeHours = alike === undefined ? 0 : (alike.under.run!.end.epochSeconds - hour.start.epochSeconds) / 3600;
  const barredAt = at + stayed.stages;
  const reason =
    barredAt < until ? rows[barredAt]!.barred.find(({ sailPlan }) => sailPlan === before.id)?.reason : undefined;
  return {
    time: row.time,
    from: before.id,
    to: hour.under.means.id,
    minutes: change.minutes,
    hands: change.hands,
    wakesWatch: change.wakesWatch,
    inNeed: change.forbidden !== undefined,
    daylight: row.daylight,
    steps: change.steps.map(({ operation, sail, day, night }) => {
      const { minutes, hands } = row.daylight ? day : night;
      return { operation, sail, minutes, hands };
    }),
    hours: lasts,
    gainKn: alikeHours > 0 ? (own - stayed.runNm) / alikeHours : null,
    barred: reason === undefined ? null : { time: rows[barredAt]!.time, reason },
    runnerUp: runnerUpOf(parts, hours, at, until, before),
    fasterBarred: fasterBarred(parts, hour, row, at),
    lastByDaylight: lastByDaylight(parts, hours, at, before, hour.under.means),
  };
}

/** How far a means would have gone from a place through some stages, a change first, until it is barred. */
function sailedAlone(
  { means, table, stageEpochSeconds }: WhyParts,
  alone: Means,
  fromNm: number,
  at: number,
  until: number,
  lostMinutes: number,
): { readonly stages: number; readonly runNm: number } {
  const index = means.indexOf(alone);
  let now = fromNm;
  for (let stage = at; stage < until; stage += 1) {
    const way = table.way(stage, index, now);
    if (Number.isNaN(way)) return { stages: stage - at, runNm: now - fromNm };
    const minutes = (stageEpochSeconds[stage + 1]! - stageEpochSeconds[stage]!) / 60;
    const share = stage === at ? 1 - Math.min(1, lostMinutes / minutes) : 1;
    now += way * share;
  }
  return { stages: until - at, runNm: now - fromNm };
}

/**
 * The means that would come nearest over the same hours, changes to it and on from it reckoned as the plan reckons its own. Both are
 * followed by tables to the end of the hour in which the next change is made.
 */
function runnerUpOf(
  parts: WhyParts,
  hours: readonly SailedHour[],
  at: number,
  until: number,
  before: Means,
): SailChange['runnerUp'] {
  const { means, stageEpochSeconds } = parts;
  const first = hours[at]!;
  const chosen = first.under.means;
  const next = hours[until]?.under.means;
  const own = followed(parts, first.start.distanceNm, at, until, [before, chosen, next]);
  const spanMinutes = (stageEpochSeconds[own.stages]! - stageEpochSeconds[at]!) / 60;
  if (!(own.runNm > 0)) return null;
  let best: SailChange['runnerUp'] = null;
  for (const other of means) {
    if (other === chosen || other.onlyLeft === true) continue;
    const way = followed(parts, first.start.distanceNm, at, until, [before, other, next]);
    if (Number.isNaN(way.runNm)) continue;
    const costMinutes = ((own.runNm - way.runNm) / own.runNm) * spanMinutes + way.price - own.price;
    if (best === null || costMinutes < best.costMinutes) best = { sailPlan: other.id, costMinutes };
  }
  return best;
}

/** How far it is through some stages under a means and the first hour of the next, changes included; NaN where one is barred. */
function followed(
  { means, changeAt, table, stageEpochSeconds, pricePerChangeMinutes }: WhyParts,
  fromNm: number,
  at: number,
  until: number,
  [before, chosen, next]: readonly [Means, Means, Means | undefined],
): { readonly stages: number; readonly runNm: number; readonly price: number } {
  const stages = next === undefined ? until : until + 1;
  let now = fromNm;
  let set = before;
  let price = 0;
  let slow = { minutes: 0, kept: 1, from: before };
  for (let stage = at; stage < stages; stage += 1) {
    const to = stage < until ? chosen : next!;
    const minutes = (stageEpochSeconds[stage + 1]! - stageEpochSeconds[stage]!) / 60;
    if (to !== set) {
      const change = changeAt(stage, means.indexOf(set), means.indexOf(to), now);
      slow = { minutes: slow.minutes + change.minutes, kept: change.keptShare, from: set };
      price += change.price + pricePerChangeMinutes;
      set = to;
    }
    const run = table.way(stage, means.indexOf(to), now);
    const left = table.way(stage, means.indexOf(slow.from), now);
    const part = Math.min(1, slow.minutes / minutes);
    const slowRun = slow.kept * (Number.isNaN(left) ? run : Math.min(left, run));
    now += part > 0 ? part * slowRun + (1 - part) * run : run;
    if (Number.isNaN(now)) break;
    slow = { ...slow, minutes: Math.max(0, slow.minutes - minutes) };
  }
  return { stages, runNm: now - fromNm, price };
}

function fasterBarred({ means, table }: WhyParts, hour: SailedHour, row: Hour, at: number): SailChange['fasterBarred'] {
  return row.barred.flatMap(({ sailPlan, reason }) => {
    const smgKn = table.openSmgKn(
      at,
      means.findIndex(({ id }) => id === sailPlan),
      hour.start.distanceNm,
    );
    return smgKn > row.smgKn ? [{ sailPlan, reason, smgKn }] : [];
  });
}

/**
 * By day: how long it may be put off, while what is set may stay and the sun is up. In the dark: the last hour before sunset from which
 * what is to be set could have stood until then.
 */
function lastByDaylight(
  { means, table, waters, stageEpochSeconds }: WhyParts,
  hours: readonly SailedHour[],
  at: number,
  before: Means,
  after: Means,
): string | null {
  const timeOf = (stage: number) => isoUtc(stageEpochSeconds[stage]!);
  const isLight = ({ start }: SailedHour) => isDay(waters.trackAt(start.distanceNm), start);
  if (isLight(hours[at]!)) {
    let last = at;
    let distanceNm = hours[at]!.start.distanceNm;
    for (let stage = at; stage < hours.length; stage += 1) {
      const way = table.way(stage, means.indexOf(before), distanceNm);
      if (Number.isNaN(way) || !isLight(hours[stage]!)) break;
      last = stage;
      distanceNm += way;
    }
    return timeOf(last);
  }
  for (let stage = at - 1; stage >= 0; stage -= 1) {
    if (Number.isNaN(table.way(stage, means.indexOf(after), hours[stage]!.start.distanceNm))) return null;
    if (isLight(hours[stage]!)) return timeOf(stage);
  }
  return null;
}
