import type { Conditions } from '../sailing/sailing.js';
import { flowTowards, partsOf, type VelocityKn } from '../wind/wind.js';

/** Speed to leeward of a boat hove to, knots: a placeholder without a source. */
export const HOVE_TO_KN = 1;

/** Speed before the wind under bare poles, over true wind speed: a placeholder without a source. */
export const BARE_POLES_SHARE = 0.1;

/**
 * Speed made good along the course while hove to; negative where wind and current set the boat back. She drifts no faster than she would
 * under bare poles: in light air else lying hove to would bring her further than her sails.
 */
export const hoveToSmgKn = (conditions: Conditions): number =>
  driftSmgKn(conditions, Math.min(HOVE_TO_KN, BARE_POLES_SHARE * conditions.twsKn));

/** Speed made good along the course while she runs off before the wind under bare poles. */
export const bareDriftSmgKn = (conditions: Conditions): number =>
  driftSmgKn(conditions, BARE_POLES_SHARE * conditions.twsKn);

/** The part along the course of a drift before the wind and with the current. */
function driftSmgKn({ courseDeg, twdDeg, twsKn, current }: Conditions, leewardKn: number): number {
  const drift = twsKn === 0 ? current : sum(current, flowTowards(-leewardKn, twdDeg));
  return partsOf(drift, courseDeg).alongKn;
}

const sum = (a: VelocityKn, b: VelocityKn): VelocityKn => ({
  eastKn: a.eastKn + b.eastKn,
  northKn: a.northKn + b.northKn,
});
