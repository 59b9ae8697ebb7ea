/**
 * Units and angles of the whole library.
 *
 * Speeds are knots, distances nautical miles (1 Nm = 1852 m exactly), durations hours unless the name says minutes,
 * angles degrees. Headings, courses, bearings and wind directions are clockwise from true north, 0 ≤ x < 360.
 * Angles off the bow are −180 < x ≤ 180, positive to starboard. Latitude is north-positive, longitude east-positive,
 * −180 ≤ x < 180. Wind direction is where the wind comes from; set is where the current goes to. Instants are UTC.
 */

/** Knots in one metre a second: 3600 / 1852, exact by the definition of the international nautical mile. */
export const KN_PER_MPS = 3600 / 1852;

/** Metres in one foot, exact. */
export const M_PER_FOOT = 0.3048;

/** Kilograms in one pound, exact. */
export const KG_PER_LB = 0.453_592_37;

/** Gravity, m/s². */
export const GRAVITY = 9.81;

/** Radians in one degree. */
export const RAD_PER_DEG = Math.PI / 180;

/** A direction in degrees brought into 0 ≤ x < 360. */
export function wrap360(deg: number): number {
  // What is in range stays to the last bit; adding 0 turns −0 into 0.
  if (deg >= 0 && deg < 360) return deg + 0;
  if (deg >= 360 && deg < 720) return deg - 360;
  // The second remainder brings back 360, which a tiny negative angle becomes.
  return ((deg % 360) + 360) % 360;
}

/** An angle off the bow in degrees brought into −180 < x ≤ 180. */
export function wrap180(deg: number): number {
  if (deg > -180 && deg <= 180) return deg + 0;
  const wrapped = wrap360(deg);
  return wrapped > 180 ? wrapped - 360 : wrapped;
}

/** A longitude in degrees brought into −180 ≤ x < 180. */
export function wrapLon(deg: number): number {
  if (deg >= -180 && deg < 180) return deg + 0;
  const wrapped = wrap360(deg);
  return wrapped >= 180 ? wrapped - 360 : wrapped;
}

/** A value rounded to a tenth. */
export const tenth = (value: number): number => Math.round(value * 10) / 10;
