import type { SailablePlan } from '../speed/speed.js';
import type { Conditions, ManoeuvreRules } from './conditions.js';
import { sailDirect } from './direct.js';
import { sailPair } from './pair.js';

/** Why a plan makes no way along the course: its angles or collapse speed, the gust, or no speed there. */
export type SailingBar = 'window' | 'gust' | 'no-speed';

/** One plan sailed along the course at one instant. A pair of headings shows the one held longer. */
export interface Sailing {
  readonly manner: 'direct' | 'tacking' | 'gybing';
  readonly headingDeg: number;
  readonly twaDeg: number;
  /** Between the heading and the way through the water, to leeward; undefined where the boat has none. */
  readonly leewayDeg: number | undefined;
  readonly stwKn: number;
  readonly awaDeg: number;
  readonly awsKn: number;
  readonly gustAwsKn: number;
  /** Speed made good along the course, over the ground. */
  readonly smgKn: number;
  /** How far a pair's longer board leads off the track; 0 when direct. */
  readonly offTrackNm: number;
}

/** A pair must gain this share over the direct heading to be worth its manoeuvres. */
const PAIR_GAIN = 0.005;

/**
 * The best speed made good along the course under one plan: on the heading whose way through the water, with the
 * current, lies along the course; or on a mirrored pair of headings either side of the wind, tacking or gybing, where
 * that gains more than 0.5 %. A plan with neither is barred for the reason of its direct heading.
 */
export function sailAlong(plan: SailablePlan, conditions: Conditions, rules: ManoeuvreRules): Sailing | SailingBar {
  const { speed, windows } = plan;
  if (speed === undefined) return 'no-speed';
  const direct = sailDirect(windows, speed, conditions);
  const needed =
    typeof direct === 'string' ? Number.NEGATIVE_INFINITY : direct.smgKn + PAIR_GAIN * Math.abs(direct.smgKn);
  return sailPair(windows, speed, conditions, rules, needed) ?? direct;
}
