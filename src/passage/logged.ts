import { parseInstant } from '../time.js';
import { runnerUpOf } from './fastest.js';
import { type HourUnder, isDay, type Met, meet, sailHour, type Waters } from './hour.js';
import { type Hour, hourOf } from './log.js';
import type { Means } from './means.js';
import { type MeansTables, metOf, rankingIn } from './ranked.js';
import { robustOf } from './robust.js';
import type { SailedHour } from './sailed.js';
import { clockAfter } from './shipsClock.js';

/** An hour's row of the log without comparisons; where she goes under no sail plan, those are told that could not be set. */
export function loggedBriefly(
  { start, under, change }: SailedHour,
  sails: readonly Means[],
  waters: Waters,
  before: Hour | undefined,
  planSet: string | null | undefined,
): Hour {
  const met = meet(waters, start)!;
  const clock = before && { zoneHours: before.zoneHours, epochSeconds: parseInstant(before.time) as number };
  return hourOf({
    met,
    run: under.run!,
    chosen: under,
    barred: under.means.kind === 'sails' ? [] : barredOf(sails.map((means) => sailHour(means, start, waters, { met }))),
    setBefore: before === undefined ? planSet : before.sailPlan,
    zoneHours: clockAfter(clock, start.epochSeconds, met.point).zoneHours,
    ...(change === undefined ? {} : { change }),
  });
}

const barredOf = (tried: readonly HourUnder[]) =>
  tried.flatMap(({ means, bar }) => (bar === undefined ? [] : [{ sailPlan: means.id!, reason: bar }]));

/** An hour's row of the log, with the weather it met and every sail plan tried in it. */
export function logged(
  { start, under, change, notNow, ...known }: SailedHour,
  sails: readonly Means[],
  tables: readonly MeansTables[],
  waters: Waters,
  before: Hour | undefined,
  planSet: string | null | undefined,
): { hour: Hour; met: Met; tried: readonly HourUnder[] } {
  const met = meet(waters, start)!;
  const clock = before && { zoneHours: before.zoneHours, epochSeconds: parseInstant(before.time) as number };
  const tried =
    known.tried ??
    sails.map((means): HourUnder => {
      if (means === under.means) return under;
      const sailed = sailHour(means, start, waters, { met });
      const bar = sailed.bar ?? notNow?.get(means);
      return bar === undefined ? sailed : { means, bar };
    });
  const light = { dark: !isDay(met.point, start), waveHeightM: met.weather.waveHeightM ?? 0 };
  const robust = robustOf(under, metOf(met.conditions), rankingIn(sails, tables, light, waters.options.house));
  const hour = hourOf({
    met,
    run: under.run!,
    chosen: under,
    barred: barredOf(tried),
    setBefore: before === undefined ? planSet : before.sailPlan,
    zoneHours: clockAfter(clock, start.epochSeconds, met.point).zoneHours,
    ...runnerUpOf(under, tried),
    ...(robust === undefined ? {} : { robust }),
    ...(change === undefined ? {} : { change }),
  });
  return { hour, met, tried };
}
