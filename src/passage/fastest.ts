import { distanceAt, type HourUnder, type Run } from './hour.js';

/** Closer than this, two plans are equally fast: rounding, not sailing. */
const EQUAL_NM = 1e-9;

/** The pick of an hour and the next best, with what that one falls short by at the end of the pick's run. */
export interface Picked {
  readonly chosen?: HourUnder;
  readonly runnerUp?: { readonly id: string; readonly shortfallNm: number };
}

/**
 * The plan with the most distance made good in the hour among those allowed; where several arrive, the one that does
 * first. Of equals the plan already set stays, else the boat file's order decides.
 */
export function fastestOf(tried: readonly HourUnder[], setBefore: string | null): Picked {
  const allowed = tried.filter((hour) => hour.run !== undefined);
  const inOrder = [
    ...allowed.filter((hour) => hour.means.id === setBefore),
    ...allowed.filter((hour) => hour.means.id !== setBefore),
  ];
  const chosen = bestOf(inOrder);
  return chosen === undefined ? {} : { chosen, ...runnerUpOf(chosen, inOrder) };
}

/** The best sail plan of an hour beside the one that was chosen; it falls short by less than nothing where it would have gone further. */
export function runnerUpOf(chosen: HourUnder, tried: readonly HourUnder[]): Pick<Picked, 'runnerUp'> {
  const runnerUp = bestOf(tried.filter((hour) => hour.means !== chosen.means && hour.run !== undefined));
  if (runnerUp === undefined) return {};
  const { end } = chosen.run!;
  const shortNm = end.distanceNm - distanceAt(runnerUp.run!, end.epochSeconds);
  const shortfallNm = Math.abs(shortNm) < EQUAL_NM ? 0 : shortNm;
  return { runnerUp: { id: runnerUp.means.id!, shortfallNm } };
}

function bestOf(hours: readonly HourUnder[]): HourUnder | undefined {
  return hours.reduce<HourUnder | undefined>(
    (top, hour) => (top === undefined || isFaster(hour.run!, top.run!) ? hour : top),
    undefined,
  );
}

function isFaster(run: Run, than: Run): boolean {
  if (run.endedBy === 'arrival' && than.endedBy === 'arrival')
    return run.end.epochSeconds < than.end.epochSeconds - EQUAL_NM;
  return run.end.distanceNm > than.end.distanceNm + EQUAL_NM;
}
