import type { LeewayByAngle } from '../boat/boat.js';
import { falsePosition } from '../falsePosition.js';
import { heldBetween } from '../rising.js';

/** The most leeway of a table. */
export function mostLeewayOf(points: LeewayByAngle): number {
  return Math.max(...points.map(([, leewayDeg]) => leewayDeg));
}

/**
 * Leeway turns the bow to windward of the way through the water and so narrows the apparent wind angle it depends on. This
 * finds the leeway that agrees with itself, and never more than brings the apparent wind right ahead: a bow beyond it would
 * be on the other tack. `awaAt` gives AWA off the way through the water, 0 to 180, for a leeway.
 *
 * Searched between none and the table's most: repeated substitution, nearer at hand, swings for ever where a polar is steep
 * (0 to 5 kn in 2° at its first angle). Where a table that rises with AWA meets such a polar several agree, and one is taken.
 */
export function settledLeeway(points: LeewayByAngle): (awaAt: (leewayDeg: number) => number) => number {
  const mostDeg = mostLeewayOf(points);
  return (awaAt) => {
    const lackingDeg = (leewayDeg: number) => {
      const awaDeg = awaAt(leewayDeg);
      return Math.min(awaDeg, heldBetween(points, Math.max(0, awaDeg - leewayDeg))!) - leewayDeg;
    };
    // Rounding may end a hair under none.
    return Math.max(0, falsePosition(lackingDeg, 0, lackingDeg(0), mostDeg, lackingDeg(mostDeg)));
  };
}
