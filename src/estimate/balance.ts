import { falsePosition } from '../falsePosition.js';
import { KN_PER_MPS } from '../units.js';
import type { Particulars } from './particulars.js';
import type { PlanForces } from './planForces.js';
import { type Resistance, resistanceN } from './resistance.js';

/**
 * The speed at which drive and resistance are one; or why there is none: the sails do not drive her from rest, or they still do at a
 * speed no sailing boat makes.
 */
export interface Balance {
  readonly stwKn: number;
  readonly why?: 'no-drive' | 'no-end';
}

/** No sailing boat is faster. */
const MOST_KN = 60;
const STEP_KN = 1;

/**
 * The speed a boat comes to from rest: the lowest at which her drive has fallen to her resistance, between two whole knots and then by
 * false position. Where the sails do not drive her from rest she makes none.
 */
export function balanceOf(
  forces: PlanForces,
  of: Particulars,
  hull: Resistance,
  twsKn: number,
  twaDeg: number,
): Balance {
  const over = (stwKn: number) => forces(twsKn, twaDeg, stwKn).driveN - resistanceN(stwKn / KN_PER_MPS, of, hull);
  let [slower, before] = [0, over(0)];
  if (!(before > 0)) return { stwKn: 0, why: 'no-drive' };
  while (slower < MOST_KN) {
    const faster = slower + STEP_KN;
    const after = over(faster);
    if (after <= 0) return { stwKn: Math.max(0, falsePosition(over, slower, before, faster, after)) };
    [slower, before] = [faster, after];
  }
  return { stwKn: MOST_KN, why: 'no-end' };
}
