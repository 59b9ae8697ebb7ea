import { type WindOnSail, type Window, type WindowBreach, windowBreach } from '../sail/sail.js';
import { wrap180, wrap360 } from '../units.js';
import { apparentWind, flowTowards, speedOf, type VelocityKn } from '../wind/wind.js';
import type { PlanSpeed } from './planSpeed.js';

/** The winds over the water that a boat meets. */
export interface Winds {
  readonly twsKn: number;
  /** The wind in the limit gust. */
  readonly gustWind: VelocityKn;
  readonly gustTwsKn: number;
}

/** How a boat goes on a course through the water: where her bow points, and what she feels. */
export interface Aboard extends WindOnSail {
  readonly headingDeg: number;
  /** Off the bow; so is AWA. */
  readonly twaDeg: number;
  /** Undefined where the boat has none. */
  readonly leewayDeg: number | undefined;
}

/** The wind felt on a course through the water at an angle to the true wind; leeway turns the bow to windward of it. */
export function aboardOn(
  speed: PlanSpeed,
  winds: Winds,
  courseThroughWaterDeg: number,
  courseAngleDeg: number,
  stwKn: number,
): Aboard {
  const felt = windAboard(winds, courseThroughWaterDeg, courseAngleDeg, stwKn);
  const leewayDeg = speed.leewayAt?.(winds.twsKn, courseAngleDeg, stwKn);
  const turnDeg = courseAngleDeg < 0 ? -(leewayDeg ?? 0) : (leewayDeg ?? 0);
  // Not by spreading: asked for every angle of every plan, copying so took four fifths of a passage's time.
  return {
    awsKn: felt.awsKn,
    gustAwsKn: felt.gustAwsKn,
    gustTwsKn: felt.gustTwsKn,
    headingDeg: wrap360(courseThroughWaterDeg + turnDeg),
    twaDeg: wrap180(courseAngleDeg - turnDeg),
    awaDeg: wrap180(felt.awaDeg - turnDeg),
    leewayDeg,
  };
}

/** The first breach among the windows of a plan's sails; angles and collapse speed of any sail come before gusts. */
export function breachOf(windows: readonly Window[], felt: WindOnSail): WindowBreach | undefined {
  let first: WindowBreach | undefined;
  for (const window of windows) {
    const breach = windowBreach(window, felt);
    if (breach === 'window') return breach;
    first ??= breach;
  }
  return first;
}

/** The first breach at a true wind, its angle and a speed, in a limit gust of so many times the mean; without leeway and current. */
export function breachIn(
  windows: readonly Window[],
  twsKn: number,
  twaDeg: number,
  stwKn: number,
  gustFactor: number,
): WindowBreach | undefined {
  const gustTwsKn = twsKn * gustFactor;
  const { awsKn: gustAwsKn } = apparentWind(gustTwsKn, twaDeg, stwKn);
  return breachOf(windows, { ...apparentWind(twsKn, twaDeg, stwKn), gustTwsKn, gustAwsKn });
}

/** The wind felt without leeway. The gust meets the same course and the same steady boat speed. */
function windAboard(
  { twsKn, gustWind, gustTwsKn }: Winds,
  courseThroughWaterDeg: number,
  courseAngleDeg: number,
  stwKn: number,
): WindOnSail {
  const { awsKn, awaDeg } = apparentWind(twsKn, courseAngleDeg, stwKn);
  const way = flowTowards(stwKn, courseThroughWaterDeg);
  const gustAwsKn = speedOf({ eastKn: gustWind.eastKn - way.eastKn, northKn: gustWind.northKn - way.northKn });
  return { awsKn, awaDeg, gustAwsKn, gustTwsKn };
}
