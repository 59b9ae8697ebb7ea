import { runnerUpOf } from './fastest.js';
import { type HourUnder, type Met, meet, sailHour, type Waters } from './hour.js';
import { type Hour, hourOf } from './log.js';
import type { Means } from './means.js';
import type { SailedHour } from './sailed.js';

/** An hour's row of the log, with the weather it met and every sail plan tried in it. */
export function logged(
  { start, under, heldShare, change, ...known }: SailedHour,
  sails: readonly Means[],
  waters: Waters,
  setBefore: string | null | undefined,
): { hour: Hour; met: Met; tried: readonly HourUnder[] } {
  const met = meet(waters, start)!;
  const tried = known.tried ?? sails.map((means) => (means === under.means ? under : sailHour(means, start, waters)));
  const barred = tried.flatMap(({ means, bar }) => (bar === undefined ? [] : [{ sailPlan: means.id!, reason: bar }]));
  const hour = hourOf({
    met,
    run: under.run!,
    chosen: under,
    barred,
    setBefore,
    heldShare,
    ...runnerUpOf(under, tried),
    ...(change === undefined ? {} : { change }),
  });
  return { hour, met, tried };
}
