import { isoUtc } from '../time.js';
import { upToTen } from './changeAt.js';
import { isAllowed } from './changes.js';
import { type BarReason, isDay } from './hour.js';
import type { Hour } from './log.js';
import type { Means } from './means.js';
import { leastStages, motorStages, type PlannedParts } from './plannedProblem.js';
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
  /** How many of them there are not: sail can be shortened by fewer. 0 where nobody says how many they are. */
  readonly handsShort: number;
  /** Whether it wakes the watch below. */
  readonly wakesWatch: boolean;
  /** Whether a house rule forbids it and it is made in need. */
  readonly inNeed: boolean;
  /** Whether it is made sooner after the last than the house rule has it: what was set may not stand any longer. */
  readonly tooSoon: boolean;
  readonly daylight: boolean;
  readonly steps: readonly ChangeStep[];
  /** How long what is set then stays. */
  readonly hours: number;
  /**
   * By how much it makes more good than what was set before, each as if it stood all the while, in the mean over the hours in which that
   * could have stayed; what the change itself takes is not in it. Null: in none.
   */
  readonly gainKn: number | null;
  /** When and why what was set before could not have stayed; null where it could. */
  readonly barred: { readonly time: string; readonly reason: BarReason } | null;
  /** The next best for the same hours, which may be to leave things as they are, and how much later it would have her; null: nothing else. */
  readonly runnerUp: { readonly sailPlan: string | null; readonly costMinutes: number } | null;
  /** Plans that would be faster at the time of the change but may not be carried, the fastest first. */
  readonly fasterBarred: readonly { readonly sailPlan: string; readonly reason: BarReason; readonly smgKn: number }[];
  /** The last hour by daylight in which it can be made; null where there is none near. */
  readonly lastByDaylight: string | null;
  /** Of a change in the dark: the first hour by daylight until which what is set may stay; null where it may not, and by day. */
  readonly firstByDaylight: string | null;
  /** The limit gust as a share of the one over which what was set before had to come down in the hour before; null where it had none. */
  readonly gustShare: number | null;
}

/** Every sail change of a planned passage with its reasons. */
export function whyOf(parts: PlannedParts, hours: readonly SailedHour[], rows: readonly Hour[]): SailChange[] {
  const starts = hours.flatMap(({ change }, i) => (change === undefined ? [] : [i]));
  return starts.map((at, n) => changeWhy(parts, hours, rows, at, starts[n + 1] ?? hours.length, starts[n - 1]));
}

function changeWhy(
  parts: PlannedParts,
  hours: readonly SailedHour[],
  rows: readonly Hour[],
  at: number,
  until: number,
  last: number | undefined,
): SailChange {
  const { means } = parts;
  const [hour, row] = [hours[at]!, rows[at]!];
  const change = hour.change!;
  const before = means[change.before]!;
  const stretch = hours.slice(at, until);
  const lasts =
    stretch.reduce((sum, { start, under }) => sum + (under.run!.end.epochSeconds - start.epochSeconds), 0) / 3600;
  const stayed = sailedAlone(parts, hours, before, at, until);
  // Where what was set could have stayed for a while, both are compared over that while.
  const gustLimitKn = rows[at - 1]?.gustLimitKn ?? null;
  return {
    time: row.time,
    from: before.id,
    to: hour.under.means.id,
    minutes: change.minutes,
    hands: change.hands,
    handsShort: Math.max(0, change.hands - (parts.options.crew ?? change.hands)),
    wakesWatch: change.wakesWatch,
    inNeed: change.forbidden !== undefined,
    tooSoon: last !== undefined && at - last < leastStages(parts.options),
    daylight: row.daylight,
    steps: change.steps.map(({ operation, sail, day, night }) => {
      const { minutes, hands } = change.dark ? night : day;
      return { operation, sail, minutes, hands };
    }),
    hours: lasts,
    gainKn: gainOf(parts, hours, [before, hour.under.means], at, at + stayed.stages),
    barred: barredIn(rows.slice(at + stayed.stages, until), before),
    runnerUp: runnerUpOf(parts, hours, at, until, before),
    fasterBarred: fasterBarred(parts, hour, row, at),
    lastByDaylight: lastByDaylight(parts, hours, at, before, hour.under.means),
    firstByDaylight: firstByDaylight(parts, hours, at, before),
    gustShare: gustLimitKn === null ? null : row.gustKn / gustLimitKn,
  };
}

/** By how much one means makes more good than another in the mean of some stages, or of those of them in which it may stand; null: in none. */
function gainOf(
  parts: PlannedParts,
  hours: readonly SailedHour[],
  [before, after]: readonly [Means, Means],
  at: number,
  until: number,
): number | null {
  const own = sailedAlone(parts, hours, after, at, until);
  const last = hours[at + own.stages - 1];
  if (own.stages === 0 || last === undefined) return null;
  const { runNm } = sailedAlone(parts, hours, before, at, at + own.stages);
  return (own.runNm - runNm) / ((last.under.run!.end.epochSeconds - hours[at]!.start.epochSeconds) / 3600);
}

/** The rows in which a bar that the tables hold from the first is looked for: what is drawn may bar it an hour or two later. */
const LATER_ROWS = 3;

/** When and why a means is barred, by the rows of the log. */
function barredIn(rows: readonly Hour[], { id }: Means): SailChange['barred'] {
  for (const { time, barred } of rows.slice(0, LATER_ROWS)) {
    const reason = barred.find(({ sailPlan }) => sailPlan === id)?.reason;
    if (reason !== undefined) return { time, reason };
  }
  return null;
}

/** Whether there is fuel to motor on from a stage through another, with what was burnt before and what the batteries take; true of sails. */
function hasFuel(
  { boat, options }: PlannedParts,
  hours: readonly SailedHour[],
  means: Means,
  from: number,
  to: number,
) {
  if (means.kind !== 'motor') return true;
  const burnt = hours.slice(0, from).filter(({ under }) => under.means.kind === 'motor').length;
  return burnt + to - from + 1 <= motorStages(boat, options.decisionMinutes, Math.max(to, hours.length - 1));
}

/** How far a means would have gone in the same time as was sailed, from the place of a stage until it is barred. */
function sailedAlone(
  parts: PlannedParts,
  hours: readonly SailedHour[],
  alone: Means,
  at: number,
  until: number,
): { readonly stages: number; readonly runNm: number } {
  const { means, table, stageEpochSeconds } = parts;
  const index = means.indexOf(alone);
  const fromNm = hours[at]!.start.distanceNm;
  let now = fromNm;
  for (let stage = at; stage < until; stage += 1) {
    const way = table.way(stage, index, now);
    if (Number.isNaN(way) || !hasFuel(parts, hours, alone, at, stage))
      return { stages: stage - at, runNm: now - fromNm };
    const { start, under } = hours[stage]!;
    const sailedSeconds = under.run!.end.epochSeconds - start.epochSeconds;
    now += (way * sailedSeconds) / (stageEpochSeconds[stage + 1]! - stageEpochSeconds[stage]!);
  }
  return { stages: until - at, runNm: now - fromNm };
}

/**
 * The means that would come nearest over the same hours, changes to it and on from it reckoned as the plan reckons its own. What it
 * falls behind by the end of the hour in which the next change is made is made good at the speed of the end of the passage, its last
 * three hours; after the last change it is followed to the end itself.
 */
function runnerUpOf(
  parts: PlannedParts,
  hours: readonly SailedHour[],
  at: number,
  until: number,
  before: Means,
): SailChange['runnerUp'] {
  const { means } = parts;
  const chosen = hours[at]!.under.means;
  const next = hours[until]?.under.means;
  const own = followed(parts, hours, at, until, [before, chosen, next]);
  if (Number.isNaN(own.placeNm)) return null;
  const last = hours.slice(-3);
  const end = last.at(-1)!.under.run!.end;
  const endKn =
    (3600 * (end.distanceNm - last[0]!.start.distanceNm)) / (end.epochSeconds - last[0]!.start.epochSeconds);
  let best: SailChange['runnerUp'] = null;
  for (const other of means) {
    if (other === chosen || other.onlyLeft === true) continue;
    const way = followed(parts, hours, at, until, [before, other, next]);
    if (Number.isNaN(way.placeNm)) continue;
    const laterMinutes = way.minutes - own.minutes + (60 * (own.placeNm - way.placeNm)) / Math.max(LEAST_KN, endKn);
    const costMinutes = laterMinutes + way.price - own.price;
    if (best === null || costMinutes < best.costMinutes) best = { sailPlan: other.id, costMinutes };
  }
  return best;
}

/** What is left is not reckoned at less than this: a bound, so that a drift at the end does not make a day of a mile. */
const LEAST_KN = 1;

/**
 * Where one is, when and at what price, after some stages under a means and the first hour of the next, or at the end of the route
 * where there is no next; NaN where one is barred. Changes are included.
 */
function followed(
  parts: PlannedParts,
  hours: readonly SailedHour[],
  at: number,
  until: number,
  [before, chosen, next]: readonly [Means, Means, Means | undefined],
): { readonly placeNm: number; readonly minutes: number; readonly price: number } {
  const { means, changeAt, table, stageEpochSeconds, waters, options } = parts;
  const { pricePerChangeMinutes, motorPriceMinutes } = options.house;
  const barred = { placeNm: Number.NaN, minutes: Number.NaN, price: Number.NaN };
  // After the last change to the end of the forecast: where it is barred once she has arrived, what is left is made good as she made it.
  const stages = next === undefined ? stageEpochSeconds.length - 1 : until + 1;
  let now = hours[at]!.start.distanceNm;
  let [sailedMinutes, price] = [0, 0];
  let set = before;
  let slow = { minutes: 0, kept: 1, from: before };
  for (let stage = at; stage < stages; stage += 1) {
    const isNext = stage >= until && next !== undefined;
    // Where what comes next may not be set from here (the engine, say, where a sail still draws), it is put off, its price with it.
    const isPutOff = isNext && Number.isNaN(table.way(stage, means.indexOf(next), now));
    if (isPutOff) price += pricePerChangeMinutes;
    const to = isNext && !isPutOff ? next : chosen;
    const minutes = (stageEpochSeconds[stage + 1]! - stageEpochSeconds[stage]!) / 60;
    if (to !== set) {
      const change = changeAt(stage, means.indexOf(set), means.indexOf(to), now);
      if (!isAllowed(change, to)) return barred;
      slow = { minutes: slow.minutes + change.minutes, kept: change.keptShare, from: set };
      price += change.price + pricePerChangeMinutes;
      set = to;
    }
    const run = table.way(stage, means.indexOf(to), now);
    if (Number.isNaN(run) || !hasFuel(parts, hours, to, at, stage)) {
      if (stage < until) return barred;
      break;
    }
    const left = table.way(stage, means.indexOf(slow.from), now);
    const part = Math.min(1, slow.minutes / minutes);
    const slowRun = slow.kept * (Number.isNaN(left) ? run : Math.min(left, run));
    const way = part > 0 ? part * slowRun + (1 - part) * run : run;
    const shareLeft = next === undefined ? (waters.lengthNm - now) / way : 1;
    const isEnd = shareLeft >= 0 && shareLeft < 1;
    sailedMinutes += isEnd ? minutes * shareLeft : minutes;
    if (to.kind === 'motor') price += (motorPriceMinutes * minutes) / 60;
    if (isEnd) return { placeNm: waters.lengthNm, minutes: sailedMinutes, price };
    now += way;
    slow = { ...slow, minutes: Math.max(0, slow.minutes - minutes) };
  }
  return { placeNm: now, minutes: sailedMinutes, price };
}

function fasterBarred(
  { means, table }: PlannedParts,
  hour: SailedHour,
  row: Hour,
  at: number,
): SailChange['fasterBarred'] {
  const faster = row.barred.flatMap(({ sailPlan, reason }) => {
    const smgKn = table.openSmgKn(
      at,
      means.findIndex(({ id }) => id === sailPlan),
      hour.start.distanceNm,
    );
    return smgKn > row.smgKn ? [{ sailPlan, reason, smgKn }] : [];
  });
  return faster.sort((a, b) => b.smgKn - a.smgKn);
}

/**
 * By day: how long it may be put off, while what is set may stay and the sun is up. In the dark: the last hour before sunset from which
 * what is to be set could have stood until then.
 */
function lastByDaylight(
  { means, changeAt, table, waters, stageEpochSeconds }: PlannedParts,
  hours: readonly SailedHour[],
  at: number,
  before: Means,
  after: Means,
): string | null {
  const timeOf = (stage: number) => isoUtc(stageEpochSeconds[stage]!);
  const isLight = ({ start }: SailedHour) => isDay(waters.trackAt(start.distanceNm), start);
  /** Whether the change is made before dark. */
  const isDone = (stage: number, atNm: number) => {
    const { minutes } = changeAt(stage, means.indexOf(before), means.indexOf(after), atNm);
    return minutes <= 0 || !table.isDark(stage, upToTen(minutes), atNm);
  };
  if (isLight(hours[at]!)) {
    let last = at;
    let distanceNm = hours[at]!.start.distanceNm;
    for (let stage = at; stage < hours.length && isLight(hours[stage]!); stage += 1) {
      if (isDone(stage, distanceNm)) last = stage;
      const way = table.way(stage, means.indexOf(before), distanceNm);
      if (Number.isNaN(way)) break;
      distanceNm += way;
    }
    return timeOf(last);
  }
  for (let stage = at - 1; stage >= 0; stage -= 1) {
    const { distanceNm } = hours[stage]!.start;
    if (Number.isNaN(table.way(stage, means.indexOf(after), distanceNm))) return null;
    if (isLight(hours[stage]!) && isDone(stage, distanceNm)) return timeOf(stage);
  }
  return null;
}

/** In the dark: the first hour by daylight until which what is set may stay. */
function firstByDaylight(
  { means, table, waters, stageEpochSeconds }: PlannedParts,
  hours: readonly SailedHour[],
  at: number,
  before: Means,
): string | null {
  const index = means.indexOf(before);
  let { distanceNm } = hours[at]!.start;
  for (let stage = at; stage < stageEpochSeconds.length - 1; stage += 1) {
    if (distanceNm > waters.lengthNm) return null;
    const epochSeconds = stageEpochSeconds[stage]!;
    if (isDay(waters.trackAt(distanceNm), { distanceNm, epochSeconds }))
      return stage === at ? null : isoUtc(epochSeconds);
    const way = table.way(stage, index, distanceNm);
    if (Number.isNaN(way)) return null;
    distanceNm += way;
  }
  return null;
}
