import { daylightAt } from '../sun/sun.js';
import { isoUtc } from '../time.js';
import { wrap360 } from '../units.js';
import { apparentWind, fromDirectionOf, speedOf, towardsDirectionOf } from '../wind/wind.js';
import { BARE_POLES_SHARE, bareDriftSmgKn, hoveToSmgKn } from './drift.js';
import type { BarReason, HourUnder, Met, Run } from './hour.js';
import type { Robust } from './robust.js';

/** A plan that could not be set in an hour, and why. */
export interface Barred {
  readonly sailPlan: string;
  readonly reason: BarReason;
  /** The name of the rule, where one of the caller's own bars it. */
  readonly rule?: string;
}

/** How she goes. */
export const MANNERS = ['direct', 'tacking', 'gybing', 'motor', 'bare-poles', 'hove-to'] as const;

/** Where the wind of an hour is from: the forecast, or the monthly climatology behind it. */
export const WEATHERS = ['forecast', 'climatology'] as const;

/** One hour of the log: values at its start, and the way made in it. What does not apply is null. */
export interface Hour {
  readonly time: string;
  readonly latDeg: number;
  readonly lonDeg: number;
  readonly leg: number;
  /** From the start along the track. */
  readonly distanceNm: number;
  readonly courseDeg: number;
  /** Where its wind is from. */
  readonly weather: (typeof WEATHERS)[number];
  /** Of a climatology: length of the month's mean vector over the mean speed, 0 to 1; under 0.7 the mean says little of a day. */
  readonly steadiness: number | null;
  /** Wind over the water, at 10 m; so are TWS, TWA, AWS and AWA. */
  readonly twdDeg: number;
  readonly twsKn: number;
  /** Limit gust over the water. */
  readonly gustKn: number;
  readonly gustFrom: 'forecast' | 'factor';
  /** Current; null where the forecast has none, and none is then reckoned with. */
  readonly setDeg: number | null;
  readonly driftKn: number | null;
  readonly manner: (typeof MANNERS)[number];
  readonly headingDeg: number | null;
  readonly twaDeg: number | null;
  /** How far the way through the water falls to leeward of the heading; null where the boat file gives none. */
  readonly leewayDeg: number | null;
  readonly stwKn: number | null;
  readonly awaDeg: number | null;
  readonly awsKn: number;
  readonly gustAwsKn: number;
  /** AWS if the boat came up to a beam reach (TWA 90) at the same speed: what running hides. */
  readonly beamReachAwsKn: number | null;
  readonly tack: 'starboard' | 'port' | null;
  /** Speed made good along the track. */
  readonly smgKn: number;
  /** Id of the sail plan; `motor` under engine, `bare-poles` under none, null hove to. */
  readonly sailPlan: string | null;
  readonly sailChange: boolean;
  readonly runnerUp: string | null;
  /** How far the runner-up falls short in the hour, Nm; negative where it would have gone further in this hour alone. */
  readonly marginKn: number | null;
  readonly barred: readonly Barred[];
  readonly daylight: boolean;
  readonly groundTwdDeg: number;
  readonly groundTwsKn: number;
  readonly waveHeightM: number | null;
  readonly wavePeriodSeconds: number | null;
  readonly waveFromDeg: number | null;
  /** Whether the wind is drawn across a gap in the forecast's times. */
  readonly bridged: boolean;
  /** Way made along the track in this hour. */
  readonly runNm: number;
  /** Length of the row: 60 but for an hour cut by arrival or the forecast's end. */
  readonly minutes: number;
  /** How far the longer board of a pair leads off the track. */
  readonly offTrackNm: number;
  /** What the ship's clock is ahead of UTC: the zone of her longitude at the last noon, at first at departure. */
  readonly zoneHours: number;
  /** What the sail change at the start of the hour takes, and the hands for it; 0 without one, or where changes cost no time. */
  readonly changeMinutes: number;
  readonly hands: number;
  /** Share of other winds, 10° and 20 % either way, in which the plan still stands; null without a sail plan. */
  readonly standsShare: number | null;
  /** What breaks the plan on this heading: the limit gust, and the apparent wind angles it stands between. */
  readonly gustLimitKn: number | null;
  readonly awaFromDeg: number | null;
  readonly awaToDeg: number | null;
  /** What to go to then, null is to lie hove to: over the gust, and when the wind turns out of the angles. */
  readonly overGust: string | null;
  readonly overAngle: string | null;
}

/** What an hour of the log is made of. */
export interface HourParts {
  readonly met: Met;
  readonly run: Run;
  readonly chosen: HourUnder;
  readonly runnerUp?: { readonly id: string; readonly shortfallNm: number };
  readonly barred: readonly Barred[];
  /** The plan set before, null hove to; undefined where none is known. */
  readonly setBefore: string | null | undefined;
  readonly robust?: Robust;
  readonly zoneHours: number;
  readonly change?: { readonly minutes: number; readonly hands: number };
}

/** One hour of the log, from its parts. */
export function hourOf({ met, run, chosen, runnerUp, barred, setBefore, robust, change, zoneHours }: HourParts): Hour {
  const { point, weather, conditions } = met;
  const start = run.moments[0]!;
  const sailPlan = chosen.means.id;
  return {
    time: isoUtc(start.epochSeconds),
    latDeg: point.latDeg,
    lonDeg: point.lonDeg,
    leg: point.leg,
    distanceNm: start.distanceNm,
    courseDeg: point.courseDeg,
    weather: weather.steadiness === undefined ? 'forecast' : 'climatology',
    steadiness: weather.steadiness ?? null,
    twdDeg: conditions.twdDeg,
    twsKn: conditions.twsKn,
    gustKn: conditions.gustTwsKn,
    gustFrom: weather.gustKn === undefined ? 'factor' : 'forecast',
    setDeg: weather.current === undefined ? null : towardsDirectionOf(weather.current),
    driftKn: weather.current === undefined ? null : speedOf(weather.current),
    ...sailed(met, chosen),
    sailPlan,
    sailChange: setBefore !== undefined && setBefore !== sailPlan,
    runnerUp: runnerUp?.id ?? null,
    marginKn: runnerUp?.shortfallNm ?? null,
    barred,
    daylight: daylightAt(start.epochSeconds, point.latDeg, point.lonDeg),
    groundTwdDeg: fromDirectionOf(weather.wind),
    groundTwsKn: speedOf(weather.wind),
    waveHeightM: weather.waveHeightM ?? null,
    wavePeriodSeconds: weather.wavePeriodSeconds ?? null,
    waveFromDeg: weather.waveFromDeg ?? null,
    bridged: weather.bridged !== undefined,
    runNm: run.end.distanceNm - start.distanceNm,
    minutes: (run.end.epochSeconds - start.epochSeconds) / 60,
    offTrackNm: chosen.sailing?.offTrackNm ?? 0,
    zoneHours,
    changeMinutes: change?.minutes ?? 0,
    hands: change?.hands ?? 0,
    standsShare: robust?.standsShare ?? null,
    gustLimitKn: robust?.gustLimitKn ?? null,
    awaFromDeg: robust?.awaFromDeg ?? null,
    awaToDeg: robust?.awaToDeg ?? null,
    overGust: robust?.overGust ?? null,
    overAngle: robust?.overAngle ?? null,
  };
}

type Sailed = Pick<
  Hour,
  | 'manner'
  | 'leewayDeg'
  | 'headingDeg'
  | 'twaDeg'
  | 'stwKn'
  | 'awaDeg'
  | 'awsKn'
  | 'gustAwsKn'
  | 'beamReachAwsKn'
  | 'tack'
  | 'smgKn'
>;

function sailed({ conditions }: Met, { means, sailing }: HourUnder): Sailed {
  if (means.kind === 'bare-poles') {
    const stwKn = BARE_POLES_SHARE * conditions.twsKn;
    return {
      manner: 'bare-poles',
      headingDeg: wrap360(conditions.twdDeg + 180),
      twaDeg: 180,
      leewayDeg: null,
      stwKn,
      awaDeg: 180,
      awsKn: conditions.twsKn - stwKn,
      gustAwsKn: conditions.gustTwsKn - stwKn,
      beamReachAwsKn: null,
      tack: null,
      smgKn: bareDriftSmgKn(conditions),
    };
  }
  if (sailing === undefined) {
    // Hove to she makes no way through the water to speak of: what is felt is the true wind.
    return {
      manner: 'hove-to',
      headingDeg: null,
      twaDeg: null,
      leewayDeg: null,
      stwKn: null,
      awaDeg: null,
      awsKn: conditions.twsKn,
      gustAwsKn: conditions.gustTwsKn,
      beamReachAwsKn: null,
      tack: null,
      smgKn: hoveToSmgKn(conditions),
    };
  }
  const { headingDeg, twaDeg, stwKn, awaDeg, awsKn, gustAwsKn, smgKn } = sailing;
  const isMotor = means.kind === 'motor';
  const manner = isMotor ? 'motor' : sailing.manner;
  const leewayDeg = sailing.leewayDeg ?? null;
  const { awsKn: beamReachAwsKn } = apparentWind(conditions.twsKn, 90, stwKn);
  const tack = isMotor ? null : twaDeg >= 0 ? 'starboard' : 'port';
  return { manner, headingDeg, twaDeg, leewayDeg, stwKn, awaDeg, awsKn, gustAwsKn, beamReachAwsKn, tack, smgKn };
}
