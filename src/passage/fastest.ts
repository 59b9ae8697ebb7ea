import { distanceAt, type HourUnderPlan, type Run } from './hour.js';

/** Closer than this, two plans are equally fast: rounding, not sailing. */
const EQUAL_NM = 1e-9;

/** The pick of an hour and the next best, with what that one falls short by at the end of the pick's run. */
export interface Pick {
  readonly chosen?: HourUnderPlan;
  readonly runnerUp?: { readonly id: string; readonly shortfallNm: number };
}

/**
 * The plan with the most distance made good in the hour among those allowed; where several arrive, the one that does
 * first. Of equals the plan already set stays, else the boat file's order decides.
 */
export function fastestOf(tried: readonly HourUnderPlan[], setBefore: string | null): Pick {
  const allowed = tried.filter((hour) => hour.run !== undefined);
  const inOrder = [
    ...allowed.filter((hour) => hour.plan.id === setBefore),
    ...allowed.filter((hour) => hour.plan.id !== setBefore),
  ];
  const best = (hours: readonly HourUnderPlan[]) =>
    hours.reduce<HourUnderPlan | undefined>(
      (top, hour) => (top === undefined || isFaster(hour.run!, top.run!) ? hour : top),
      undefined,
    );
  const chosen = best(inOrder);
  if (chosen === undefined) return {};
  const runnerUp = best(inOrder.filter((hour) => hour !== chosen));
  if (runnerUp === undefined) return { chosen };
  const { end } = chosen.run!;
  const shortfallNm = Math.max(0, end.distanceNm - distanceAt(runnerUp.run!, end.epochSeconds));
  return { chosen, runnerUp: { id: runnerUp.plan.id, shortfallNm } };
}

function isFaster(run: Run, than: Run): boolean {
  if (run.endedBy === 'arrival' && than.endedBy === 'arrival')
    return run.end.epochSeconds < than.end.epochSeconds - EQUAL_NM;
  return run.end.distanceNm > than.end.distanceNm + EQUAL_NM;
}
