import type { TrackPoint } from '../route/route.js';
import { type Conditions, conditionsAt, type Sailing, sailAlong } from '../sailing/sailing.js';
import type { SailablePlan } from '../speed/speed.js';
import { daylightAt } from '../sun/sun.js';
import type { Weather, WeatherAt } from '../weather/weather.js';
import { flowTowards, partsOf, type VelocityKn } from '../wind/wind.js';
import type { SettledOptions } from './options.js';

/** Why a plan may not be set in an hour. */
export type BarReason = 'window' | 'gust' | 'night' | 'no-speed';

/** Everything that stays the same over a passage. */
export interface Waters {
  readonly trackAt: (distanceNm: number) => TrackPoint;
  readonly lengthNm: number;
  readonly weatherAt: WeatherAt;
  /** The last instant of the forecast's wind. */
  readonly lastEpochSeconds: number;
  readonly options: Pick<SettledOptions, 'house' | 'stepMinutes'>;
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

/** An hour under a plan: how it starts and runs, or why the plan is barred. */
export interface HourUnderPlan {
  readonly plan: SailablePlan;
  readonly sailing?: Sailing;
  readonly run?: Run;
  readonly bar?: BarReason;
}

interface Met {
  readonly point: TrackPoint;
  readonly weather: Weather;
  readonly conditions: Conditions;
}

/** What a boat meets at a moment; undefined without wind. */
export function meet(waters: Waters, { distanceNm, epochSeconds }: Moment): Met | undefined {
  const point = waters.trackAt(distanceNm);
  const weather = waters.weatherAt(point.latDeg, point.lonDeg, epochSeconds);
  return weather === undefined
    ? undefined
    : { point, weather, conditions: conditionsAt(point, weather, waters.options.house) };
}

/**
 * Sails an hour under one plan in inner steps of 10 minutes or less, cut at waypoints. The plan must be allowed at the
 * start of every step; one that is not set in the dark also at the end, so that it is down by sunset.
 */
export function sailHour(plan: SailablePlan, start: Moment, waters: Waters): HourUnderPlan {
  let first: Sailing | undefined;
  let bar: BarReason | undefined;
  const run = runHour(start, waters, (met, moment) => {
    const sailing = sailAlong(plan, met.conditions, waters.options.house);
    if (typeof sailing === 'string') bar = sailing;
    else if (plan.daylightOnly && !isDay(met.point, moment)) bar = 'night';
    if (bar !== undefined || typeof sailing === 'string') return undefined;
    first ??= sailing;
    return { smgKn: sailing.smgKn, held: met.conditions.twsKn > plan.speed!.twsMaxKn };
  });
  if (bar === undefined && plan.daylightOnly && !isDay(waters.trackAt(run.end.distanceNm), run.end)) bar = 'night';
  return bar === undefined && first !== undefined ? { plan, sailing: first, run } : { plan, bar: bar ?? 'no-speed' };
}

/** Speed to leeward of a boat hove to, knots: a placeholder without a source. */
export const HOVE_TO_KN = 1;

/** An hour hove to: 1 kn to leeward and the current, of which the part along the track moves the boat. */
export function heaveToHour(start: Moment, waters: Waters): Run {
  return runHour(start, waters, (met) => ({ smgKn: hoveToSmgKn(met.conditions), held: false }));
}

/** Speed made good along the course while hove to; negative where wind and current set the boat back. */
export function hoveToSmgKn({ courseDeg, twdDeg, twsKn, current }: Conditions): number {
  const drift = twsKn === 0 ? current : sum(current, flowTowards(-HOVE_TO_KN, twdDeg));
  return partsOf(drift, courseDeg).alongKn;
}

const sum = (a: VelocityKn, b: VelocityKn): VelocityKn => ({
  eastKn: a.eastKn + b.eastKn,
  northKn: a.northKn + b.northKn,
});

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

type Stepper = (met: Met, moment: Moment) => { readonly smgKn: number; readonly held: boolean } | undefined;

function runHour(start: Moment, waters: Waters, stepper: Stepper): Run {
  const hourEnd = start.epochSeconds + 3600;
  const last = Math.min(hourEnd, waters.lastEpochSeconds);
  const stepSeconds = waters.options.stepMinutes * 60;
  const moments: Moment[] = [];
  let heldHours = 0;
  let now = start;
  while (now.epochSeconds < last) {
    const met = meet(waters, now);
    if (met === undefined) return { moments, end: now, endedBy: 'no-wind-data', heldHours };
    moments.push(now);
    const step = stepper(met, now);
    if (step === undefined) return { moments, end: now, endedBy: 'hour', heldHours };
    const stepEnd = nextStep(start.epochSeconds, now.epochSeconds, stepSeconds);
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

function isDay(point: TrackPoint, { epochSeconds }: Moment): boolean {
  return daylightAt(epochSeconds, point.latDeg, point.lonDeg);
}
