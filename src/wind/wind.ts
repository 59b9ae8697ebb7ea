import { RAD_PER_DEG, wrap180, wrap360 } from '../units.js';

/** A velocity over the ground or the water, knots towards east and north. */
export interface VelocityKn {
  readonly eastKn: number;
  readonly northKn: number;
}

/** Wind felt aboard. */
export interface ApparentWind {
  readonly awsKn: number;
  /** Off the bow, −180 < x ≤ 180, positive from starboard; 0 where there is no apparent wind. */
  readonly awaDeg: number;
}

/**
 * Apparent wind of a boat that makes `stwKn` through the water ahead, in a wind of `twsKn` at `twaDeg` off the bow.
 *
 * AWS² = TWS² + V² + 2·TWS·V·cos TWA, AWA = atan2(TWS·sin TWA, V + TWS·cos TWA): the wind vector less the boat's.
 * All three are over the water and at one height (10 m); leeway and heel are left out.
 * Source: Smith, Bourassa & Sharp 1999, J. Atmos. Oceanic Technol. 16, 939 (the inverse problem; its test set is met).
 *
 * @example
 * apparentWind(12, 90, 6) // { awsKn: 13.41…, awaDeg: 63.43… } */
export function apparentWind(twsKn: number, twaDeg: number, stwKn: number): ApparentWind {
  const angle = twaDeg * RAD_PER_DEG;
  const ahead = stwKn + twsKn * Math.cos(angle);
  const across = twsKn * Math.sin(angle);
  const awsKn = Math.sqrt(ahead * ahead + across * across);
  // Below a millionth of a knot what is left is rounding, and its angle means nothing.
  if (awsKn < 1e-6) return { awsKn: 0, awaDeg: 0 };
  return { awsKn, awaDeg: wrap180(Math.atan2(across, ahead) / RAD_PER_DEG) };
}

/** The lowest whole knots of Beaufort numbers 1 to 12. */
const BEAUFORT_FROM_KN = [1, 4, 7, 11, 17, 22, 28, 34, 41, 48, 56, 64];

/**
 * Beaufort number, 0 to 12, of a mean wind at 10 m. The table goes by whole knots, so the wind is rounded first, half a
 * knot upwards; the table in metres a second is rounded by itself and differs at its edges. Not for gusts.
 * Source: WMO Beaufort equivalents (WMO-No. 306, code table 1100 family), read at second hand.
 *
 * @example
 * beaufortOf(18.4) // 5 */
export function beaufortOf(windKn: number): number {
  const wholeKn = Math.round(windKn);
  return BEAUFORT_FROM_KN.filter((fromKn) => wholeKn >= fromKn).length;
}

/** Under this, what is left of two flows that cancel is rounding, and its direction means nothing. */
const STILL_KN = 1e-9;

/** The velocity of the air in a wind that comes from `fromDeg`. */
export function windFrom(speedKn: number, fromDeg: number): VelocityKn {
  return flowTowards(-speedKn, fromDeg);
}

/** The velocity of a current that sets towards `setDeg`, or of a boat on a course. */
export function flowTowards(speedKn: number, towardsDeg: number): VelocityKn {
  const angle = towardsDeg * RAD_PER_DEG;
  return { eastKn: speedKn * Math.sin(angle), northKn: speedKn * Math.cos(angle) };
}

/** Speed of a velocity, knots. */
export function speedOf(velocity: VelocityKn): number {
  return Math.sqrt(velocity.eastKn * velocity.eastKn + velocity.northKn * velocity.northKn);
}

/** The direction a wind comes from, 0 ≤ x < 360; 0 in a calm. */
export function fromDirectionOf(wind: VelocityKn): number {
  return isStill(wind) ? 0 : wrap360(Math.atan2(-wind.eastKn, -wind.northKn) / RAD_PER_DEG);
}

/** The direction a current or a boat goes to, 0 ≤ x < 360; 0 where nothing moves. */
export function towardsDirectionOf(flow: VelocityKn): number {
  return isStill(flow) ? 0 : wrap360(Math.atan2(flow.eastKn, flow.northKn) / RAD_PER_DEG);
}

/** The parts of a velocity along a direction and across it to the right. */
export function partsOf(flow: VelocityKn, towardsDeg: number): { readonly alongKn: number; readonly acrossKn: number } {
  const angle = towardsDeg * RAD_PER_DEG;
  const [sin, cos] = [Math.sin(angle), Math.cos(angle)];
  // Adding 0 turns −0, which would print as "-0", into 0.
  return { alongKn: flow.eastKn * sin + flow.northKn * cos + 0, acrossKn: flow.eastKn * cos - flow.northKn * sin + 0 };
}

/** The wind over the water: the wind over the ground less the current. Everything the sails feel refers to it. */
export function sailingWind(groundWind: VelocityKn, current: VelocityKn): VelocityKn {
  return { eastKn: groundWind.eastKn - current.eastKn, northKn: groundWind.northKn - current.northKn };
}

/**
 * The wind over the ground in the limit gust: the larger of the mean and the forecast gust (mean × gust factor where the
 * forecast has none), times the margin, along the direction of the mean. In a calm with a forecast gust the direction is
 * unknown and north is taken.
 */
export function limitGust(
  groundWind: VelocityKn,
  gustKn: number | undefined,
  gustFactor: number,
  margin: number,
): VelocityKn {
  const mean = speedOf(groundWind);
  const gust = Math.max(mean, gustKn ?? mean * gustFactor) * margin;
  if (mean === 0) return windFrom(gust, 0);
  return { eastKn: (groundWind.eastKn * gust) / mean, northKn: (groundWind.northKn * gust) / mean };
}

/** Exponent of the wind's power law over the sea, near neutral: Hsu, Meindl & Gilhousen 1994, J. Appl. Meteorol. 33, 757. */
const GRADIENT = 0.11;

/** The wind at a height over the sea from that at 10 m, by the power law u(z) = u(10 m) · (z / 10)^0.11. */
export function windAtHeight(windAt10mKn: number, heightM: number): number {
  return windAt10mKn * (heightM / 10) ** GRADIENT;
}

function isStill(velocity: VelocityKn): boolean {
  return speedOf(velocity) < STILL_KN;
}
