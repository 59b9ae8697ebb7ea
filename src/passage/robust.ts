import { HOVE_TO } from '../boat/boat.js';
import { commonAngles } from '../sail/sail.js';
import { gustLimit, type Met } from '../tabled/tabled.js';
import { wrap180 } from '../units.js';
import type { HourUnder } from './hour.js';
import type { Ranking } from './ranked.js';

/** How firmly an hour's sail plan stands, and what breaks it. */
export interface Robust {
  /** Share of other winds, 10° and 20 % either way, in which the plan is still allowed and nothing new is faster. */
  readonly standsShare: number;
  /** The limit gust, true, over which the plan must come down on this heading; null where there is none. */
  readonly gustLimitKn: number | null;
  /** What to go to over that gust: the fastest plan in a quarter more, `hove-to` where none may stand; null without a limit. */
  readonly overGust: string | null;
  /** The apparent wind angles between which all its sails stand. */
  readonly awaFromDeg: number;
  readonly awaToDeg: number;
  /**
   * What to go to when the wind turns further than they allow: the fastest plan with the wind 20° forward, or aft where only that bars
   * it, `hove-to` where none may stand; null where neither bars it.
   */
  readonly overAngle: string | null;
}

const TURNS_DEG = [-10, 0, 10];
const STRENGTHS = [0.8, 1, 1.2];
// A quarter more, so that what is gone to does not have to come down next.
const BEYOND_GUST = 1.25;
const BEYOND_DEG = 20;

/** Asks the tables about the plan of an hour in winds near the one it meets. */
export function robustOf(under: HourUnder, met: Met, ranking: Ranking): Robust | undefined {
  const { means, sailing } = under;
  const own = ranking.sails.indexOf(means);
  if (sailing === undefined || means.plan === undefined || own < 0) return undefined;
  const windows = ranking.windows(own, met);
  const [awaFromDeg, awaToDeg] = commonAngles(windows);
  const through = Math.abs(sailing.twaDeg) + (sailing.leewayDeg ?? 0);
  const limit = Math.min(...windows.map((window) => gustLimit(window, sailing.awaDeg, through, sailing.stwKn)));
  const aft = met.angleDeg < 0 ? -BEYOND_DEG : BEYOND_DEG;
  // What is sailed on the course is broken where it can only be tacked or gybed any more.
  const isBroken = (turned: Met) =>
    Number.isNaN(sailing.manner === 'direct' ? ranking.directSmgKn(own, turned) : ranking.smgKn(turned)[own]!);
  const broken = [turn(met, -aft), turn(met, aft)].find(isBroken);
  return {
    standsShare: standsShare(own, met, ranking),
    gustLimitKn: Number.isFinite(limit) ? limit : null,
    overGust: Number.isFinite(limit)
      ? fastest(ranking, strengthen(met, (BEYOND_GUST * limit) / met.gustTwsKn), own)
      : null,
    awaFromDeg,
    awaToDeg,
    overAngle: broken === undefined ? null : fastest(ranking, broken, own),
  };
}

function standsShare(own: number, met: Met, ranking: Ranking): number {
  const usual = ranking.smgKn(met);
  const winds = TURNS_DEG.flatMap((deg) => STRENGTHS.map((factor) => ({ deg, factor }))).filter(
    ({ deg, factor }) => deg !== 0 || factor !== 1,
  );
  const stands = winds.filter(({ deg, factor }) => {
    const speeds = ranking.smgKn(strengthen(turn(met, deg), factor));
    if (Number.isNaN(speeds[own]!)) return false;
    // What was faster before was passed over for reasons beyond the hour.
    return speeds.every((smgKn, i) => !(smgKn > speeds[own]!) || usual[i]! > usual[own]!);
  });
  return stands.length / winds.length;
}

const turn = (met: Met, deg: number): Met => ({ ...met, angleDeg: wrap180(met.angleDeg + deg) });
const strengthen = (met: Met, factor: number): Met => ({
  ...met,
  twsKn: met.twsKn * factor,
  gustTwsKn: met.gustTwsKn * factor,
});

function fastest(ranking: Ranking, met: Met, except: number): string {
  const speeds = ranking.smgKn(met);
  let best = -1;
  speeds.forEach((smgKn, i) => {
    if (i !== except && !Number.isNaN(smgKn) && (best < 0 || smgKn > speeds[best]!)) best = i;
  });
  return best < 0 ? HOVE_TO : ranking.sails[best]!.id!;
}
