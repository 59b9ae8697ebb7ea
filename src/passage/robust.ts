import { HOVE_TO } from '../boat/boat.js';
import { commonAngles } from '../sail/sail.js';
import { gustLimit, type Met } from '../tabled/tabled.js';
import { wrap180 } from '../units.js';
import type { HourUnder } from './hour.js';
import { isReduction } from './means.js';
import type { Ranking } from './ranked.js';

/** How firmly an hour's sail plan stands, and what breaks it. */
export interface Robust {
  /** Share of other winds, 10° and 20 % either way, in which the plan is still allowed and nothing new is faster. */
  readonly standsShare: number;
  /** The limit gust, true, over which the plan must come down on this heading; null where there is none. */
  readonly gustLimitKn: number | null;
  /**
   * What to go to over that gust: the fastest plan that stands a quarter more, or a tenth where none does, and is come to by reefing,
   * furling and dousing alone; where there is none the fastest at all, in the end with a little more than the limit; `hove-to` where none
   * may stand; null without a limit.
   */
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
// More than the limit, so that what is gone to does not have to come down next; less where the next reef would be passed over. Placeholders.
const BEYOND_GUST = [1.25, 1.1];
const JUST_BEYOND = 1.02;
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
    overGust: Number.isFinite(limit) ? overGust(ranking, met, limit, own) : null,
    awaFromDeg,
    awaToDeg,
    overAngle:
      broken === undefined
        ? null
        : idOf(
            ranking,
            fastest(ranking, broken, (index) => index !== own),
          ),
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

/** Over-pressed one takes away before anything is set. */
function overGust(ranking: Ranking, met: Met, limitKn: number, own: number): string {
  const { sails } = ranking;
  const isLess = (index: number) => index !== own && isReduction(sails[own]!, sails[index]!);
  const isSail = (index: number) => index !== own && (sails[index]!.set ?? []).length > 0;
  const asked = [
    ...BEYOND_GUST.map((factor) => [factor, isLess] as const),
    ...BEYOND_GUST.map((factor) => [factor, isSail] as const),
    [JUST_BEYOND, isSail] as const,
    [JUST_BEYOND, (index: number) => index !== own] as const,
  ];
  for (const [factor, isOpen] of asked) {
    const found = fastest(ranking, strengthen(met, (factor * limitKn) / met.gustTwsKn), isOpen);
    if (found >= 0) return idOf(ranking, found);
  }
  return HOVE_TO;
}

const idOf = ({ sails }: Ranking, index: number): string => (index < 0 ? HOVE_TO : sails[index]!.id!);

/** The index of the fastest of some plans; −1 where none may stand. */
function fastest(ranking: Ranking, met: Met, isOpen: (index: number) => boolean): number {
  const speeds = ranking.smgKn(met);
  let best = -1;
  speeds.forEach((smgKn, i) => {
    if (isOpen(i) && !Number.isNaN(smgKn) && (best < 0 || smgKn > speeds[best]!)) best = i;
  });
  return best;
}
