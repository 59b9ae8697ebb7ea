import type { Balance } from './balance.js';
import { LEAST_KN, type PolarPoint } from './known.js';
import { carried, type Model } from './model.js';
import type { Misfit } from './record.js';

/** A point of the boat's polar beside the best plan's estimate there. */
export interface Share extends PolarPoint {
  readonly estimatedKn: number;
  /** What every plan's estimate is multiplied by, so that the best plan makes what the polar says. */
  readonly share: number;
}

/** What brings the best plan to the boat's polar at each of its points. */
export function sharesOf(
  points: readonly PolarPoint[],
  model: Model,
  made: ReadonlyMap<string, readonly Balance[]>,
): readonly Share[] {
  return points.map((point, i) => {
    const allowed = carried(model, point.twsKn, point.twaDeg, ({ id }) => made.get(id)![i]!.stwKn);
    const bestOf = (plans: readonly { readonly id: string }[]) =>
      Math.max(...plans.map(({ id }) => made.get(id)![i]!.stwKn));
    const [ofAllowed, ofAll] = [bestOf(allowed), bestOf(model.plans)];
    const estimatedKn = ofAllowed < LEAST_SPEED * ofAll ? ofAll : ofAllowed;
    return { ...point, estimatedKn, share: estimatedKn === 0 ? 1 : point.stwKn / estimatedKn };
  });
}

/** Slower than this share of the best there is, and the polar is of more sail than the windows allow, as with drive. */
const LEAST_SPEED = 0.7;

/** How the best plans miss the polar before they are brought to it; undefined where it says nothing. */
export function misfitOf(shares: readonly Share[]): Misfit | undefined {
  const off = shares
    .filter(({ stwKn }) => stwKn >= LEAST_KN)
    .map(({ twsKn, twaDeg, stwKn, estimatedKn }) => ({ twsKn, twaDeg, percent: 100 * (estimatedKn / stwKn - 1) }));
  if (off.length === 0) return undefined;
  const worst = off.reduce((most, one) => (Math.abs(one.percent) > Math.abs(most.percent) ? one : most));
  return {
    points: off.length,
    meanPercent: off.reduce((sum, { percent }) => sum + Math.abs(percent), 0) / off.length,
    worstPercent: worst.percent,
    worstTwsKn: worst.twsKn,
    worstTwaDeg: worst.twaDeg,
  };
}
