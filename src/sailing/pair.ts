import { isLimit, isOver, type Window } from '../sail/sail.js';
import { aboardOn, breachOf, type PlanSpeed } from '../speed/speed.js';
import { RAD_PER_DEG, wrap180, wrap360 } from '../units.js';
import { partsOf } from '../wind/wind.js';
import type { Sailing } from './along.js';
import type { Conditions, ManoeuvreRules } from './conditions.js';

/** A pair at one angle to the wind that holds the course, before the windows are asked. */
interface Pair {
  /** Off the course through the water. */
  readonly twaDeg: number;
  readonly stwKn: number;
  readonly smgKn: number;
  /** Towards the wind, and to the right on the port board, in the mean over lost minutes. */
  readonly upKn: number;
  readonly rightKn: number;
  /** Share of time on port less that on starboard. */
  readonly portLessStarboard: number;
}

/** Closest the angle is looked for. */
const FINEST_DEG = 0.005;

/**
 * The mirrored pair of headings either side of the wind, tacking or gybing, that makes the most good along the course
 * among those that may be carried; undefined where none makes more than `neededKn`. Boat speed is lowered by the minutes
 * lost in the manoeuvres, and the two boards share the time so that their mean, with the current, lies along the course.
 */
export function sailPair(
  windows: readonly Window[],
  speed: PlanSpeed,
  conditions: Conditions,
  rules: ManoeuvreRules,
  neededKn: number,
): Sailing | undefined {
  const { courseDeg, twdDeg, twsKn, gustTwsKn, current } = conditions;
  // The true gust is the same on every heading.
  if (windows.some(({ twsMaxKn }) => isLimit(twsMaxKn) && isOver(gustTwsKn, twsMaxKn))) return undefined;
  // Axes of the wind: "up" into it, "right" a quarter turn clockwise. The course lies at `gamma` from up.
  const gamma = wrap180(courseDeg - twdDeg) * RAD_PER_DEG;
  const [cosGamma, sinGamma] = [Math.cos(gamma), Math.sin(gamma)];
  // A course across the wind is never made good by a pair.
  if (Math.abs(cosGamma) < 0.02) return undefined;
  const isUp = cosGamma > 0;
  const everyHours = isUp ? rules.tackEveryHours : rules.gybeEveryHours;
  const keptShare = 1 - Math.min(1, (isUp ? rules.tackMinutes : rules.gybeMinutes) / 60 / everyHours);
  const { alongKn: currentUp, acrossKn: currentRight } = partsOf(current, twdDeg);
  const bestUp = isUp ? speed.vmgBound(twsKn, 'up') : -speed.vmgBound(twsKn, 'down');
  if ((bestUp * keptShare + currentUp) / cosGamma <= neededKn) return undefined;

  const pairAt = (twaDeg: number): Pair | undefined => {
    const stwKn = speed.at(twsKn, twaDeg);
    if (stwKn === undefined || stwKn <= 0) return undefined;
    const angle = twaDeg * RAD_PER_DEG;
    const upKn = stwKn * keptShare * Math.cos(angle) + currentUp;
    const smgKn = upKn / cosGamma;
    if (smgKn <= neededKn) return undefined;
    const rightKn = stwKn * keptShare * Math.sin(angle);
    const portLessStarboard = (smgKn * sinGamma - currentRight) / rightKn;
    return Math.abs(portLessStarboard) <= 1 ? { twaDeg, stwKn, smgKn, upKn, rightKn, portLessStarboard } : undefined;
  };
  const mayCarry = ({ twaDeg, stwKn }: Pair) =>
    // A current can make the gusts of the two headings differ: both must be within the windows.
    breachOf(windows, aboardOn(speed, conditions, twdDeg - twaDeg, twaDeg, stwKn)) === undefined &&
    breachOf(windows, aboardOn(speed, conditions, twdDeg + twaDeg, -twaDeg, stwKn)) === undefined;

  const [minDeg, maxDeg] = speed.edgesAt(twsKn);
  const low = Math.max(minDeg, isUp ? 1 : 91);
  const high = Math.min(maxDeg, isUp ? 89 : 179);
  const best = bestOver(pairAt, mayCarry, low, high);
  if (best === undefined) return undefined;
  const { twaDeg, stwKn, smgKn, upKn, rightKn, portLessStarboard } = best;
  // The longer board is shown, starboard tack when they are equal.
  const side = portLessStarboard <= 1e-9 ? 1 : -1;
  const aboard = aboardOn(speed, conditions, wrap360(twdDeg - side * twaDeg), side * twaDeg, stwKn);
  const acrossKn = (currentRight - side * rightKn) * cosGamma - upKn * sinGamma;
  return {
    manner: isUp ? 'tacking' : 'gybing',
    headingDeg: aboard.headingDeg,
    twaDeg: aboard.twaDeg,
    leewayDeg: aboard.leewayDeg,
    stwKn,
    awaDeg: aboard.awaDeg,
    awsKn: aboard.awsKn,
    gustAwsKn: aboard.gustAwsKn,
    smgKn,
    offTrackNm: Math.abs(acrossKn) * everyHours * (1 + Math.abs(portLessStarboard)),
  };
}

/**
 * The best pair over a range of angles: every degree and both ends, the most made good first, until one may be carried;
 * then halving steps from there.
 */
function bestOver(
  pairAt: (twaDeg: number) => Pair | undefined,
  mayCarry: (pair: Pair) => boolean,
  low: number,
  high: number,
): Pair | undefined {
  const pairs: Pair[] = [];
  const consider = (twaDeg: number) => {
    const pair = pairAt(twaDeg);
    if (pair !== undefined) pairs.push(pair);
  };
  for (let twaDeg = low; twaDeg < high; twaDeg += 1) consider(twaDeg);
  consider(high);
  let best = pairs.sort((a, b) => b.smgKn - a.smgKn).find(mayCarry);
  for (let step = 0.5; best !== undefined && step > FINEST_DEG; step /= 2) {
    for (const twaDeg of [best.twaDeg - step, best.twaDeg + step]) {
      const pair = twaDeg >= low && twaDeg <= high ? pairAt(twaDeg) : undefined;
      if (pair !== undefined && pair.smgKn > best.smgKn && mayCarry(pair)) {
        best = pair;
        break;
      }
    }
  }
  return best;
}
