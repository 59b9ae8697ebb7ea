import type { TrackPoint } from '../route/route.js';
import { zoneHoursAt, zoneMinutesOfDay } from '../zoneTime.js';
import type { Moment } from './hour.js';

/** What the ship's clock was ahead of UTC at an instant. */
export interface ClockSet {
  readonly zoneHours: number;
  readonly epochSeconds: number;
}

const NOON = 720;
const DAY_MINUTES = 1440;

/** The ship's clock is set at noon, by the zone of her longitude; at first at departure. */
export function clockAfter(before: ClockSet | undefined, epochSeconds: number, { lonDeg }: TrackPoint): ClockSet {
  const isPastNoon = (instant: number) => zoneMinutesOfDay(instant, before!.zoneHours) >= NOON;
  const isSet = before === undefined || (isPastNoon(epochSeconds) && !isPastNoon(before.epochSeconds));
  return { zoneHours: isSet ? zoneHoursAt(lonDeg) : before.zoneHours, epochSeconds };
}

/** So fast she is taken to have come from where she was at noon: a guess, miles of the 900 and more that a zone is wide. */
const USUAL_KN = 6;

/** Minutes of the day by the ship's clock at a place on the track, where it is not known when she was where: as if she came at 6 kn. */
export function likelyMinutesOfDay(trackAt: (distanceNm: number) => TrackPoint, { epochSeconds, distanceNm }: Moment) {
  const minutesOfDay = zoneMinutesOfDay(epochSeconds, zoneHoursAt(trackAt(distanceNm).lonDeg));
  const sinceNoonHours = ((minutesOfDay + DAY_MINUTES - NOON) % DAY_MINUTES) / 60;
  const atNoon = trackAt(Math.max(0, distanceNm - USUAL_KN * sinceNoonHours));
  return zoneMinutesOfDay(epochSeconds, zoneHoursAt(atNoon.lonDeg));
}
