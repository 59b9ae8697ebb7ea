import { parseInstant } from '../time.js';
import { runnerUpOf } from './fastest.js';
import { type HourUnder, isDay, type Met, meet, sailHour, type Waters } from './hour.js';
import { type Hour, hourOf } from './log.js';
import type { Means } from './means.js';
import { type MeansTables, metOf, rankingIn } from './ranked.js';
import { type Robust, robustOf } from './robust.js';
import type { SailedHour } from './sailed.js';
import { clockAfter } from './shipsClock.js';

/** An hour's row of the log, with the weather it met and every sail plan tried in it. */
export function logged(
  sailed: SailedHour,
  sails: readonly Means[],
  tables: readonly MeansTables[],
  waters: Waters,
  before: Hour | undefined,
  planSet: string | null | undefined,
): { hour: Hour; met: Met; tried: readonly HourUnder[] } {
  const met = meet(waters, sailed.start)!;
  const tried = triedIn(sailed, met, sails, waters);
  const robust = robustIn(sailed, met, sails, tables, waters);
  return { hour: rowOf(sailed, met, tried, before, planSet, robust), met, tried };
}

/**
 * An hour's row of the log without comparisons, but for how firmly its plan stands where the tables are given; where she goes under no
 * sail plan, all are tried all the same.
 */
export function loggedBriefly(
  sailed: SailedHour,
  sails: readonly Means[],
  tables: readonly MeansTables[] | undefined,
  waters: Waters,
  before: Hour | undefined,
  planSet: string | null | undefined,
): Hour {
  const met = meet(waters, sailed.start)!;
  const tried = sailed.under.means.kind === 'sails' ? [] : triedIn(sailed, met, sails, waters);
  const robust = tables && robustIn(sailed, met, sails, tables, waters);
  return rowOf(sailed, met, tried, before, planSet, robust);
}

/** How firmly the plan of an hour stands. */
function robustIn(
  { start, under }: SailedHour,
  met: Met,
  sails: readonly Means[],
  tables: readonly MeansTables[],
  waters: Waters,
): Robust | undefined {
  const { epochSeconds } = start;
  const { end } = under.run!;
  const isDarkAfter = (minutes: number) =>
    !isDay(waters.trackAt(end.distanceNm), { ...end, epochSeconds: end.epochSeconds + 60 * minutes });
  const light = { dark: !isDay(met.point, start), waveHeightM: met.weather.waveHeightM ?? 0 };
  return robustOf(
    under,
    metOf(met.conditions),
    rankingIn(under.means, sails, tables, light, waters.options.house, { point: met.point, epochSeconds, isDarkAfter }),
  );
}

/** Every sail plan in an hour. */
function triedIn(
  { start, under, notNow, tried }: SailedHour,
  met: Met,
  sails: readonly Means[],
  waters: Waters,
): readonly HourUnder[] {
  return (
    tried ??
    sails.map((means): HourUnder => {
      if (means === under.means) return under;
      const alone = sailHour(means, start, waters, { met });
      const bar = notNow?.get(means);
      return alone.bar !== undefined || bar === undefined ? alone : { means, bar };
    })
  );
}

function rowOf(
  { start, under, change }: SailedHour,
  met: Met,
  tried: readonly HourUnder[],
  before: Hour | undefined,
  planSet: string | null | undefined,
  robust?: Robust,
): Hour {
  const clock = before && { zoneHours: before.zoneHours, epochSeconds: parseInstant(before.time) as number };
  return hourOf({
    met,
    run: under.run!,
    chosen: under,
    barred: tried.flatMap(({ means, bar, rule }) =>
      bar === undefined ? [] : [{ sailPlan: means.id!, reason: bar, ...(rule === undefined ? {} : { rule }) }],
    ),
    setBefore: before === undefined ? planSet : before.sailPlan,
    zoneHours: clockAfter(clock, start.epochSeconds, met.point).zoneHours,
    ...runnerUpOf(under, tried),
    ...(robust === undefined ? {} : { robust }),
    ...(change === undefined ? {} : { change }),
  });
}
