import type { TrackPoint } from '../route/route.js';
import { isOver } from '../sail/sail.js';
import { type Conditions, conditionsAt, type Sailing, sailAlong } from '../sailing/sailing.js';
import { daylightAt } from '../sun/sun.js';
import type { Weather, WeatherAt } from '../weather/weather.js';
import { bareDriftSmgKn, hoveToSmgKn } from './drift.js';
import type { Means } from './means.js';
import type { SettledOptions } from './options.js';
import { ruleMoment } from './ownRules.js';
import { metOf } from './ranked.js';
import { squallFactor } from './squalls.js';

/**
 * Why a plan may not be set in an hour: its angles or collapse speed, the gust, the waves, the dark (a sail not set in it, or the reef
 * further of the night), no speed there, too few hands for the change to it, the last change is too near (`setting`), or a rule of the
 * caller's own.
 * @example
 * BAR_REASONS.includes('gust') // true
 */
export const BAR_REASONS = ['window', 'gust', 'wave', 'night', 'no-speed', 'crew', 'setting', 'rule'] as const;
/** One reason why a plan may not be set in an hour. */
export type BarReason = (typeof BAR_REASONS)[number];

/** Everything that stays the same over a passage. */
export interface Waters {
  readonly trackAt: (distanceNm: number) => TrackPoint;
  readonly lengthNm: number;
  readonly weatherAt: WeatherAt;
  /** The last instant of the forecast's wind. */
  readonly lastEpochSeconds: number;
  readonly options: Pick<SettledOptions, 'house' | 'stepMinutes' | 'decisionMinutes'>;
  /** The limit gust above which no sail plan may be carried. */
  readonly lastStormKn: number;
}

/** A place on the track at an instant. */
export interface Moment {
  readonly distanceNm: number;
  readonly epochSeconds: number;
}

/** The way made in an hour, from its start to its end, to arrival, or to where wind ends. */
export interface Run {
  /** Instants and distances of the inner steps, the start first. */
  readonly moments: readonly Moment[];
  readonly end: Moment;
  readonly endedBy: 'hour' | 'arrival' | 'forecast-ended' | 'no-wind-data';
  /** Hours in which the polar was held above its highest wind. */
  readonly heldHours: number;
}

/** An hour under a means: how it starts and runs, or why it is barred. */
export interface HourUnder {
  readonly means: Means;
  /** Speed made good along the course at the hour's start, under the means itself. */
  readonly smgKn?: number;
  /** Of sails and engine. */
  readonly sailing?: Sailing;
  readonly run?: Run;
  readonly bar?: BarReason;
  /** The name of the rule, where one of the caller's own bars it. */
  readonly rule?: string;
}

/** How an hour is sailed that is not simply sailed. */
export interface Manner {
  /** What is met at the start, where that is known. */
  readonly met?: Met;
  /** A change at the hour's start: what she comes from, how long it takes, and the share kept of the slower's speed meanwhile. */
  readonly change?: { readonly from: Means; readonly minutes: number; readonly keptShare: number };
}

export interface Met {
  readonly point: TrackPoint;
  readonly weather: Weather;
  readonly conditions: Conditions;
}

/** What a boat meets at a moment; undefined without wind. */
export function meet({ trackAt, weatherAt, options: { house } }: Waters, moment: Moment): Met | undefined {
  const point = trackAt(moment.distanceNm);
  const weather = weatherAt(point.latDeg, point.lonDeg, moment.epochSeconds);
  if (weather === undefined) return undefined;
  const squalls = house.squalls ? squallFactor(house, point.latDeg, !isDay(point, moment)) : 0;
  return { point, weather, conditions: conditionsAt(point, weather, house, squalls) };
}

/** Whether the sun is up at a place and moment. */
export function isDay({ latDeg, lonDeg }: TrackPoint, { epochSeconds }: Moment): boolean {
  return daylightAt(epochSeconds, latDeg, lonDeg);
}

/**
 * Sails an hour in inner steps of 10 minutes or less, cut at waypoints and where a change is done. A plan must be allowed at the
 * start of every step; one that is not set in the dark also at the end, and then long enough to have it down by sunset. What may
 * not stand on the course beyond a waypoint is sailed to it, and the rest of the hour goes to the turn.
 */
export function sailHour(
  means: Means,
  start: Moment,
  waters: Waters,
  { met: metAtStart, change }: Manner = {},
): HourUnder {
  let first: { smgKn: number; sailing?: Sailing } | undefined;
  let bar: BarReason | undefined;
  let rule: string | undefined;
  let side: number | undefined;
  let legEndNm: number | undefined;
  // Where a waypoint was rounded in this hour.
  let turnNm: number | undefined;
  const changedBy = start.epochSeconds + (change?.minutes ?? 0) * 60;
  const run = runHour(start, metAtStart, changedBy, waters, (met, moment) => {
    if (moment.distanceNm === legEndNm) turnNm = legEndNm;
    legEndNm = met.point.legEndNm;
    const going = goingUnder(means, met, moment, waters);
    if (typeof going === 'string') {
      const byCourse = BY_COURSE.has(going) || (going === 'night' && means.downMinutes === undefined);
      if (moment.distanceNm === turnNm && byCourse) return { smgKn: 0, held: false };
      bar = going;
      if (going === 'rule') rule = ownRuleIn(means, met, moment);
      return undefined;
    }
    const { smgKn, sailing } = going;
    first ??= going;
    if (means.gybesByDay && sailing !== undefined) {
      if (side !== undefined && gybed(side, sailing) && !isDay(met.point, moment)) {
        bar = 'night';
        return undefined;
      }
      side = sailing.twaDeg;
    }
    const held = means.plan?.speed !== undefined && met.conditions.twsKn > means.plan.speed.twsMaxKn;
    if (change === undefined || moment.epochSeconds >= changedBy) return { smgKn, held };
    const before = goingUnder(change.from, met, moment, waters);
    return { smgKn: change.keptShare * (typeof before === 'string' ? smgKn : Math.min(smgKn, before.smgKn)), held };
  });
  // Without wind no plan is barred: there is no sailing.
  if (run.moments.length === 0) return { means, run };
  const { downMinutes } = means;
  if (bar === undefined && downMinutes !== undefined) {
    const down = { ...run.end, epochSeconds: run.end.epochSeconds + downMinutes * 60 };
    if (!isDay(waters.trackAt(run.end.distanceNm), down)) bar = 'night';
  }
  if (bar !== undefined || first === undefined)
    return { means, bar: bar ?? 'no-speed', ...(rule === undefined ? {} : { rule }) };
  return { means, run, ...first };
}

/** The distance of a run at an instant, straight between its moments and held beyond its end. */
export function distanceAt(run: Run, epochSeconds: number): number {
  const all = [...run.moments, run.end];
  const after = all.findIndex((moment) => moment.epochSeconds >= epochSeconds);
  if (after < 0) return run.end.distanceNm;
  const [a, b] = [all[Math.max(0, after - 1)]!, all[after]!];
  const span = b.epochSeconds - a.epochSeconds;
  return span <= 0
    ? b.distanceNm
    : a.distanceNm + ((b.distanceNm - a.distanceNm) * (epochSeconds - a.epochSeconds)) / span;
}

/** How she goes under a means at a moment, or why she may not. */
function goingUnder(
  means: Means,
  met: Met,
  moment: Moment,
  waters: Waters,
): { readonly smgKn: number; readonly sailing?: Sailing } | BarReason {
  const { conditions } = met;
  if (means.kind === 'hove-to') return { smgKn: hoveToSmgKn(conditions) };
  if (means.kind === 'bare-poles') {
    return isOver(conditions.gustTwsKn, waters.lastStormKn) ? { smgKn: bareDriftSmgKn(conditions) } : 'window';
  }
  const { house } = waters.options;
  const reefedFurther =
    means.nightPlan !== undefined && conditions.twsKn > house.nightReefAboveKn! && !isDay(met.point, moment);
  const sailing = sailAlong((reefedFurther ? means.nightPlan : means.plan)!, conditions, house);
  if (typeof sailing === 'string') {
    const byNight = reefedFurther && typeof sailAlong(means.plan!, conditions, house) !== 'string';
    return byNight ? 'night' : sailing;
  }
  if (means.waveMaxM !== undefined && isOver(met.weather.waveHeightM ?? 0, means.waveMaxM)) return 'wave';
  if (means.downMinutes !== undefined && !isDay(met.point, moment)) return 'night';
  if (ownRuleIn(means, met, moment) !== undefined) return 'rule';
  return { smgKn: sailing.smgKn, sailing };
}

/** The name of the caller's own rule that bars a means there and then. */
function ownRuleIn({ barredBy }: Means, { point, weather, conditions }: Met, moment: Moment): string | undefined {
  if (barredBy === undefined) return undefined;
  const sea = { dark: !isDay(point, moment), waveHeightM: weather.waveHeightM ?? 0 };
  return barredBy(ruleMoment(point, moment.epochSeconds, metOf(conditions), sea));
}

/** Bars that a turn of the course can bring; a reef for the night is asked for beside them. */
const BY_COURSE: ReadonlySet<BarReason> = new Set(['window', 'gust', 'no-speed', 'rule']);

/** Whether the wind has gone through the stern since; tacks and gybes of a pair are not told so. */
const gybed = (twaBeforeDeg: number, { manner, twaDeg }: Sailing) =>
  manner === 'direct' && Math.sign(twaDeg) !== Math.sign(twaBeforeDeg) && Math.abs(twaDeg) > 90;

type Stepper = (met: Met, moment: Moment) => { readonly smgKn: number; readonly held: boolean } | undefined;

function runHour(
  start: Moment,
  metAtStart: Met | undefined,
  cutEpochSeconds: number,
  waters: Waters,
  stepper: Stepper,
): Run {
  const hourEnd = start.epochSeconds + waters.options.decisionMinutes * 60;
  const last = Math.min(hourEnd, waters.lastEpochSeconds);
  const stepSeconds = waters.options.stepMinutes * 60;
  const moments: Moment[] = [];
  let heldHours = 0;
  let now = start;
  while (now.epochSeconds < last) {
    const met = now === start && metAtStart !== undefined ? metAtStart : meet(waters, now);
    if (met === undefined) return { moments, end: now, endedBy: 'no-wind-data', heldHours };
    moments.push(now);
    const step = stepper(met, now);
    if (step === undefined) return { moments, end: now, endedBy: 'hour', heldHours };
    const gridEnd = nextStep(start.epochSeconds, now.epochSeconds, stepSeconds);
    const stepEnd = now.epochSeconds < cutEpochSeconds ? Math.min(gridEnd, cutEpochSeconds) : gridEnd;
    const wholeHours = (Math.min(stepEnd, last) - now.epochSeconds) / 3600;
    const toLegEndNm = met.point.legEndNm - now.distanceNm;
    const reachesLegEnd = step.smgKn * wholeHours >= toLegEndNm;
    const hours = reachesLegEnd ? toLegEndNm / step.smgKn : wholeHours;
    if (step.held) heldHours += hours;
    now = {
      distanceNm: reachesLegEnd ? met.point.legEndNm : Math.max(0, now.distanceNm + step.smgKn * hours),
      epochSeconds: hours === wholeHours ? Math.min(stepEnd, last) : now.epochSeconds + hours * 3600,
    };
    if (now.distanceNm >= waters.lengthNm) return { moments, end: now, endedBy: 'arrival', heldHours };
  }
  return { moments, end: now, endedBy: last < hourEnd ? 'forecast-ended' : 'hour', heldHours };
}

/** The next instant of the hour's grid of steps after now. */
function nextStep(hourStart: number, now: number, stepSeconds: number): number {
  return hourStart + (Math.floor((now - hourStart) / stepSeconds + 1e-9) + 1) * stepSeconds;
}
