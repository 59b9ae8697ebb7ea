import { falsePosition } from '../falsePosition.js';
import { upperLimbDeg } from './moon.js';

/** Moonrise and moonset of one solar day; on most days both, about once a month one is absent. */
export interface MoonTimes {
  readonly moonriseEpochSeconds?: number;
  readonly moonsetEpochSeconds?: number;
  /** Set on a day without either: up all day, or down all day. */
  readonly allDay?: 'up' | 'down';
}

const HOUR_SECONDS = 3600;
const DAY_HOURS = 24;
const DAY_SECONDS = DAY_HOURS * HOUR_SECONDS;
const SECONDS_PER_DEG = DAY_SECONDS / 360;

/**
 * Moonrise and moonset in the day by local mean solar time that holds an instant, midnight to midnight: the upper limb on
 * a sea horizon, refraction 34′, height of eye 0. A night holds parts of two such days. Altitudes are of `suncalc`, whose
 * own times are of the UTC day and miss some beyond 60° of latitude. Within 10 s of `astronomy-engine` to 60°, within two
 * minutes to 80°; beyond 60° a moon that shows or hides for less than an hour may be missed, and of two risings or settings
 * in a day the first is given.
 * @example
 * const { moonriseEpochSeconds = 0 } = moonTimesAt(Date.UTC(2027, 0, 15, 12) / 1000, 15, -40);
 * new Date(moonriseEpochSeconds * 1000).toISOString() // '2027-01-15T14:01…'
 */
export function moonTimesAt(epochSeconds: number, latDeg: number, lonDeg: number): MoonTimes {
  const east = lonDeg * SECONDS_PER_DEG;
  const midnight = Math.floor((epochSeconds + east) / DAY_SECONDS) * DAY_SECONDS - east;
  const limbAt = (hour: number) => upperLimbDeg(midnight + hour * HOUR_SECONDS, latDeg, lonDeg);
  const limbs = Array.from({ length: DAY_HOURS + 1 }, (_, hour) => limbAt(hour));
  const ups = limbs.map((limbDeg) => limbDeg > 0);
  const first = (up: boolean) => {
    const hour = ups.findIndex((isUp, at) => at > 0 && isUp === up && ups[at - 1] !== up);
    if (hour < 0) return undefined;
    return midnight + HOUR_SECONDS * falsePosition(limbAt, hour - 1, limbs[hour - 1]!, hour, limbs[hour]!);
  };
  const [rise, set] = [first(true), first(false)];
  if (rise === undefined && set === undefined) return { allDay: ups[0] ? 'up' : 'down' };
  return {
    ...(rise === undefined ? {} : { moonriseEpochSeconds: rise }),
    ...(set === undefined ? {} : { moonsetEpochSeconds: set }),
  };
}
