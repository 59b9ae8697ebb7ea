import { getPosition, getTimes } from 'suncalc';

/** Civil dawn and dusk of one solar day; absent where the sun does not cross 6° below the horizon that day. */
export interface Twilight {
  readonly dawnEpochSeconds?: number;
  readonly duskEpochSeconds?: number;
  /** Set on a day without dawn: never darker than civil twilight, or never as light. */
  readonly allDay?: 'light' | 'dark';
}

const CIVIL_DEG = -6;

/** By so much `suncalc` lifts every sun below the horizon in `getPosition`; the times of `getTimes` know no refraction. */
const LIFTED_DEG = 0.484;

/**
 * Beginning of civil twilight in the morning and its end in the evening, of the day by local mean solar time that holds
 * an instant: the sun's centre 6° below a sea horizon, refraction left out, as almanacs have it. Dawn is the one before
 * that day's noon and dusk the one after, so that far north and south a dusk can fall after midnight. From `suncalc`;
 * within 10 s of `astronomy-engine` to 60° of latitude, within a minute to 72°; beyond 60° the last dawn before a summer
 * or winter without any, or the first after it, may be missing or too many.
 * @example
 * const { duskEpochSeconds = 0 } = twilightAt(Date.UTC(2027, 0, 11, 12) / 1000, 28, -15);
 * new Date(duskEpochSeconds * 1000).toISOString() // '2027-01-11T18:48…'
 */
export function twilightAt(epochSeconds: number, latDeg: number, lonDeg: number): Twilight {
  const { dawn, dusk, solarNoon } = getTimes(new Date(epochSeconds * 1000), latDeg, lonDeg);
  if (dawn === null || dusk === null) {
    const noonDeg = getPosition(solarNoon, latDeg, lonDeg).altitude - LIFTED_DEG;
    return { allDay: noonDeg > CIVIL_DEG ? 'light' : 'dark' };
  }
  return { dawnEpochSeconds: dawn.getTime() / 1000, duskEpochSeconds: dusk.getTime() / 1000 };
}
