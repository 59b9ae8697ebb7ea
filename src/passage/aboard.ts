import { type WindOnSail, type Window, type WindowBreach, windowBreach } from '../sail/sail.js';
import { apparentWind, flowTowards, speedOf } from '../wind/wind.js';
import type { Conditions } from './conditions.js';

/** The wind felt on a heading. The gust meets the same heading and the same steady boat speed. */
export function windAboard(
  { twsKn, gustWind, gustTwsKn }: Conditions,
  headingDeg: number,
  twaDeg: number,
  stwKn: number,
): WindOnSail {
  const { awsKn, awaDeg } = apparentWind(twsKn, twaDeg, stwKn);
  const way = flowTowards(stwKn, headingDeg);
  const gustAwsKn = speedOf({ eastKn: gustWind.eastKn - way.eastKn, northKn: gustWind.northKn - way.northKn });
  return { awsKn, awaDeg, gustAwsKn, gustTwsKn };
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
