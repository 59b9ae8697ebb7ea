import { RAD_PER_DEG } from '../units.js';
import type { Ranking } from './ranking.js';
import type { BestAngle, BestAngles } from './record.js';

/** The best angles at a wind, looked for degree by degree. */
export function bestAnglesOf(ranking: Ranking, twsKn: number): BestAngles {
  return { twsKn, up: bestAngle(ranking, twsKn, 0, 90), down: bestAngle(ranking, twsKn, 90, 180) };
}

function bestAngle(ranking: Ranking, twsKn: number, fromDeg: number, toDeg: number): BestAngle | null {
  let best: BestAngle | null = null;
  for (let twaDeg = fromDeg; twaDeg <= toDeg; twaDeg += 1) {
    const [fastest] = ranking(twsKn, twaDeg);
    if (fastest === undefined) continue;
    const vmgKn = Math.abs(fastest.stwKn * Math.cos(twaDeg * RAD_PER_DEG));
    const { id: sailPlan, stwKn, awaDeg, awsKn } = fastest;
    if (vmgKn > (best?.vmgKn ?? LEAST_KN)) best = { twaDeg, sailPlan, stwKn, vmgKn, awaDeg, awsKn };
  }
  return best;
}

/** What is left of a beam reach is rounding. */
const LEAST_KN = 1e-6;

/**
 * The speed along a course at an angle to the wind: straight, or by tacking or gybing at the best angles where that is more. Minutes of
 * the manoeuvres are left out.
 */
export function alongKn(straightKn: number, twaDeg: number, { up, down }: BestAngles): number {
  const cos = Math.cos(twaDeg * RAD_PER_DEG);
  const tacking = up !== null && twaDeg < up.twaDeg ? up.vmgKn / cos : 0;
  const gybing = down !== null && twaDeg > down.twaDeg ? down.vmgKn / -cos : 0;
  return Math.max(straightKn, tacking, gybing);
}
