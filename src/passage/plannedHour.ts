import { isNearWatchChange } from '../change/change.js';
import type { InHand } from '../choice/choice.js';
import { zoneMinutesOfDay } from '../zoneTime.js';
import { upToTen } from './changeAt.js';
import { type Change, isAllowed } from './changes.js';
import { fastestOf } from './fastest.js';
import { type BarReason, type HourUnder, isDay, sailHour } from './hour.js';
import type { Means } from './means.js';
import { leastStages, motorStages, type PlannedParts, type Standing } from './plannedProblem.js';

/** An hour as it was sailed under orders, or why it could not be. */
export interface SailedByOrder {
  readonly under: HourUnder;
  readonly change?: Change;
  /** Of a change, begun now or before: minutes it will still take after this hour. */
  readonly busy?: NonNullable<InHand['busy']>;
}

/** Sails an hour as ordered; barred where it cannot be. */
export function inOrder(parts: PlannedParts, standing: Standing, ordered: number): SailedByOrder {
  const { means, waters, changes } = parts;
  const { now, set, inHand } = standing;
  const to = means[ordered]!;
  const isChange = set !== undefined && set !== ordered;
  const change = isChange ? changes(set, ordered, whenAt(parts, standing, set, ordered)) : undefined;
  if (change !== undefined && !isAllowed(change, to)) {
    return { under: { means: to, bar: change.forbidden! }, change };
  }
  const { busy } = inHand;
  const under =
    change === undefined
      ? busy
      : { minutes: (busy?.minutes ?? 0) + change.minutes, kept: change.keptShare, from: set! };
  const manner =
    under === undefined || under.minutes <= 0
      ? {}
      : { change: { from: means[under.from]!, minutes: under.minutes, keptShare: under.kept } };
  const left = (under?.minutes ?? 0) - parts.options.decisionMinutes;
  return {
    under: sailHour(to, now, waters, manner),
    ...(change === undefined ? {} : { change }),
    ...(left > 0 ? { busy: { ...under!, minutes: left } } : {}),
  };
}

/** An hour for which there is no plan: what goes furthest of what may be sailed and gone over to, else hove to. */
export function byItself(parts: PlannedParts, standing: Standing): SailedByOrder {
  const { boat, means, table, stageEpochSeconds, options } = parts;
  const { set, stage, now, inHand } = standing;
  const { engine } = boat;
  // Nothing is known of what is to come: the batteries' fuel is kept to the end.
  const last = stageEpochSeconds.length - 2;
  const mayMotor =
    engine !== undefined &&
    (inHand.used ?? 0) < motorStages(boat, options.decisionMinutes, last) &&
    table.mayMotor(stage, now.distanceNm);
  const all = means.map((_, ordered) => inOrder(parts, standing, ordered));
  const { chosen = all.at(-1)!.under } = fastestOf(
    all.slice(0, -1).flatMap(({ under }) => (under.means.kind === 'motor' && !mayMotor ? [] : [under])),
    set === undefined ? null : means[set]!.id,
  );
  return all.find(({ under }) => under === chosen)!;
}

/** Who is about and whether it is dark for a change at the start of a stage. */
function whenAt(
  { waters, changes, table, boat }: PlannedParts,
  { stage, now, clock }: Standing,
  from: number,
  to: number,
) {
  const point = waters.trackAt(now.distanceNm);
  const bothWatches = isNearWatchChange(boat.watches, zoneMinutesOfDay(now.epochSeconds, clock.zoneHours));
  const { minutes } = changes(from, to, { dark: false, bothWatches });
  const dark = !isDay(point, now) || (minutes > 0 && table.isDark(stage, upToTen(minutes), now.distanceNm));
  return { dark, bothWatches };
}

/** What may not be gone over to at the start of a stage, and why: too few hands, the dark, or a change that is too near. */
export function notNow(parts: PlannedParts, standing: Standing): ReadonlyMap<Means, BarReason> {
  const { means, waters, changes, options } = parts;
  const { set, inHand, now } = standing;
  const barred = new Map<Means, BarReason>();
  if (set === undefined) return barred;
  const isRecent = (inHand.since ?? Number.POSITIVE_INFINITY) < leastStages(options);
  // What may not stand any longer may be left at any time.
  const tooNear = (inHand.busy !== undefined || isRecent) && sailHour(means[set]!, now, waters).bar === undefined;
  means.forEach((to, index) => {
    if (index === set) return;
    const { forbidden } = changes(set, index, whenAt(parts, standing, set, index));
    if (tooNear) barred.set(to, 'setting');
    else if (forbidden !== undefined) barred.set(to, forbidden);
  });
  return barred;
}
