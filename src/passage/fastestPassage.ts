import type { SailablePlan } from '../speed/speed.js';
import { fastestOf } from './fastest.js';
import { type HourUnder, type Moment, meet, sailHour, type Waters } from './hour.js';
import type { Means } from './means.js';
import type { BarredBy } from './ownRules.js';
import type { SailedHour, SailedPassage } from './sailed.js';

/** The sail plans of the baseline: of the rules their windows hold, that a sail is not set in the dark, and the caller's own. */
export const baselineMeans = (
  plans: readonly SailablePlan[],
  barredByOf?: (planId: string) => BarredBy,
): readonly Means[] =>
  plans.map((plan) => ({
    id: plan.id,
    kind: 'sails',
    plan,
    ...(plan.daylightOnly ? { downMinutes: 0 } : {}),
    ...(barredByOf === undefined ? {} : { barredBy: barredByOf(plan.id) }),
    gybesByDay: false,
  }));

const HOVE_TO: Means = { id: null, kind: 'hove-to', gybesByDay: false };

/** The baseline: every hour by itself under the sail plan that goes furthest in it; hove to where none may be carried. */
export function fastestPassage(
  sails: readonly Means[],
  start: Moment,
  waters: Waters,
  planSet: string | null,
): SailedPassage {
  const hours: SailedHour[] = [];
  let now = start;
  let setBefore = planSet;
  for (;;) {
    const met = meet(waters, now);
    const tried = sails.map((means) => sailHour(means, now, waters, met && { met }));
    const under: HourUnder = fastestOf(tried, setBefore).chosen ?? sailHour(HOVE_TO, now, waters);
    const run = under.run!;
    if (run.moments.length > 0) hours.push({ start: now, under, tried });
    now = run.end;
    setBefore = under.means.id;
    if (run.endedBy !== 'hour') return { hours, sails, end: now, endedBy: run.endedBy };
  }
}
