import { getPosition, getTimes } from 'suncalc';

/** Sunrise and sunset of one solar day; absent where the sun does not cross the horizon that day. */
export interface SunTimes {
  readonly sunriseEpochSeconds?: number;
  readonly sunsetEpochSeconds?: number;
  /** Set on a day without sunrise: up all day, or down all day. */
  readonly allDay?: 'up' | 'down';
}

const DAY_SECONDS = 86400;

/**
 * Sunrise and sunset of the day by local mean solar time that holds an instant: the upper limb on
 * a sea horizon, centre at −0.833°, height of eye 0. From `suncalc`; within 9 s of `astronomy-engine` to 60° of latitude.
 * @example
 * const { sunriseEpochSeconds = 0 } = sunTimesAt(Date.UTC(2027, 0, 11, 12) / 1000, 28, -15);
 * new Date(sunriseEpochSeconds * 1000).toISOString() // '2027-01-11T07:52…'
 */
export function sunTimesAt(epochSeconds: number, latDeg: number, lonDeg: number): SunTimes {
  const times = getTimes(new Date(epochSeconds * 1000), latDeg, lonDeg);
  if (times.sunrise === null || times.sunset === null) return { allDay: times.alwaysUp === true ? 'up' : 'down' };
  return {
    sunriseEpochSeconds: times.sunrise.getTime() / 1000,
    sunsetEpochSeconds: times.sunset.getTime() / 1000,
  };
}

/**
 * Whether the sun's upper limb is above the horizon at an instant and a place.
 * @example
 * daylightAt(Date.UTC(2027, 0, 11, 12) / 1000, 28, -15) // true
 */
export function daylightAt(epochSeconds: number, latDeg: number, lonDeg: number): boolean {
  // Refraction lifts the sun by less than 0.6°, so only an apparent altitude near the horizon needs the exact times.
  const { altitude } = getPosition(new Date(epochSeconds * 1000), latDeg, lonDeg);
  if (altitude > 0.3) return true;
  if (altitude < -0.9) return false;
  // Far north and south a sunset can fall after local midnight, in the next solar day: the neighbours are asked too.
  return [-DAY_SECONDS, 0, DAY_SECONDS].some((shift) =>
    isUp(sunTimesAt(epochSeconds + shift, latDeg, lonDeg), epochSeconds, shift),
  );
}

/** The sunset before and the sunrise after an instant in the dark; absent where there is none within two days. */
export function nightAround(
  epochSeconds: number,
  latDeg: number,
  lonDeg: number,
): { readonly sunsetEpochSeconds?: number; readonly sunriseEpochSeconds?: number } {
  const days = [-2, -1, 0, 1, 2].map((day) => sunTimesAt(epochSeconds + day * DAY_SECONDS, latDeg, lonDeg));
  const sunset = Math.max(
    ...days.map((day) => day.sunsetEpochSeconds ?? Number.NEGATIVE_INFINITY).filter((time) => time <= epochSeconds),
  );
  const sunrise = Math.min(
    ...days.map((day) => day.sunriseEpochSeconds ?? Number.POSITIVE_INFINITY).filter((time) => time > epochSeconds),
  );
  return {
    ...(Number.isFinite(sunset) ? { sunsetEpochSeconds: sunset } : {}),
    ...(Number.isFinite(sunrise) ? { sunriseEpochSeconds: sunrise } : {}),
  };
}

function isUp(times: SunTimes, epochSeconds: number, shift: number): boolean {
  if (times.sunriseEpochSeconds === undefined || times.sunsetEpochSeconds === undefined) {
    return shift === 0 && times.allDay === 'up';
  }
  return times.sunriseEpochSeconds <= epochSeconds && epochSeconds < times.sunsetEpochSeconds;
}
