import { awsLimitAt, isLimit, type Window } from '../sail/sail.js';
import { RAD_PER_DEG } from '../units.js';

/**
 * The highest limit gust, true and along the mean wind, in which a sail may be carried on a course at an angle to the wind
 * and a steady speed. From AWS² = G² + V² + 2·G·V·cos angle, solved for the gust G; what windows say of mean wind is not asked.
 * Infinite where there is no limit, minus infinity where no gust is low enough.
 */
export function gustLimit({ awsMaxKn, twsMaxKn }: Window, awaDeg: number, angleDeg: number, stwKn: number): number {
  const ofTrue = isLimit(twsMaxKn) ? twsMaxKn : Number.POSITIVE_INFINITY;
  if (!isLimit(awsMaxKn)) return ofTrue;
  const limit = awsLimitAt(awsMaxKn, Math.abs(awaDeg));
  const ahead = stwKn * Math.cos(angleDeg * RAD_PER_DEG);
  const across = stwKn * Math.sin(angleDeg * RAD_PER_DEG);
  const square = limit * limit - across * across;
  return square < 0 ? Number.NEGATIVE_INFINITY : Math.min(ofTrue, Math.sqrt(square) - ahead);
}
