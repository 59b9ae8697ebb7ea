import { commonAngles, isLimit, isOver, type Window } from '../sail/sail.js';
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
}

/** Cosines closer than this are not told apart. */
const HAIR = 1e-6;
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

  /** What a speed at an angle makes good along the course; NaN where that is too little or does not hold the course. */
  const smgOf = (stwKn: number, cos: number, sin: number): number => {
    const smgKn = (stwKn * keptShare * cos + currentUp) / cosGamma;
    if (!(stwKn > 0 && smgKn > neededKn)) return Number.NaN;
    const rightKn = stwKn * keptShare * sin;
    return rightKn > 0 && Math.abs(smgKn * sinGamma - currentRight) <= rightKn ? smgKn : Number.NaN;
  };
  const pairAt = (twaDeg: number): Pair | undefined => {
    const stwKn = speed.at(twsKn, twaDeg) ?? Number.NaN;
    const angle = twaDeg * RAD_PER_DEG;
    const smgKn = smgOf(stwKn, Math.cos(angle), Math.sin(angle));
    return Number.isNaN(smgKn) ? undefined : { twaDeg, stwKn, smgKn };
  };
  const mayCarry = ({ twaDeg, stwKn }: Pair) =>
    // A current can make the gusts of the two headings differ: both must be within the windows.
    breachOf(windows, aboardOn(speed, conditions, twdDeg - twaDeg, twaDeg, stwKn)) === undefined &&
    breachOf(windows, aboardOn(speed, conditions, twdDeg + twaDeg, -twaDeg, stwKn)) === undefined;

  const [minDeg, maxDeg] = speed.edgesAt(twsKn);
  const low = Math.max(minDeg, isUp ? 1 : 91);
  const high = Math.min(maxDeg, isUp ? 89 : 179);
  speed.byDegree(twsKn, stwByDegree);
  const first = Math.ceil(low);
  const last = Math.floor(high);
  // Angles far out of the windows are left out before each is asked: leeway apart, by the cosine of the AWA.
  const [awaFromDeg, awaToDeg] = speed.leewayAt === undefined ? commonAngles(windows) : [0, 180];
  const most = awaFromDeg <= 0 ? 2 : Math.cos(awaFromDeg * RAD_PER_DEG) + HAIR;
  const least = awaToDeg >= 180 ? -2 : Math.cos(awaToDeg * RAD_PER_DEG) - HAIR;
  for (let degree = first; degree <= last; degree += 1) {
    const stwKn = stwByDegree[degree]!;
    const cos = COSINES[degree]!;
    const sin = SINES[degree]!;
    const ahead = twsKn * cos + stwKn;
    const awaCos = ahead / Math.sqrt(ahead * ahead + twsKn * sin * twsKn * sin);
    smgByDegree[degree] = awaCos > most || awaCos < least ? Number.NaN : smgOf(stwKn, cos, sin);
  }
  let bestEnd: Pair | undefined;
  for (const end of [low, high]) {
    const pair = Number.isInteger(end) ? undefined : pairAt(end);
    if (pair !== undefined && (bestEnd === undefined || pair.smgKn > bestEnd.smgKn) && mayCarry(pair)) bestEnd = pair;
  }
  const best = bestOver(pairAt, mayCarry, low, high, bestDegree(first, last, bestEnd, mayCarry));
  if (best === undefined) return undefined;
  const { twaDeg, stwKn, smgKn } = best;
  const upKn = stwKn * keptShare * Math.cos(twaDeg * RAD_PER_DEG) + currentUp;
  const rightKn = stwKn * keptShare * Math.sin(twaDeg * RAD_PER_DEG);
  const portLessStarboard = (smgKn * sinGamma - currentRight) / rightKn;
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

// Written over at every call: asked for every plan at every inner step of a passage.
const stwByDegree = new Float64Array(181);
const smgByDegree = new Float64Array(181);
const COSINES = Float64Array.from({ length: 181 }, (_, degree) => Math.cos(degree * RAD_PER_DEG));
const SINES = Float64Array.from({ length: 181 }, (_, degree) => Math.sin(degree * RAD_PER_DEG));

/** Of the whole degrees between two and the better end: the one that makes most good and may be carried. */
function bestDegree(
  first: number,
  last: number,
  bestEnd: Pair | undefined,
  mayCarry: (pair: Pair) => boolean,
): Pair | undefined {
  for (;;) {
    let top = -1;
    for (let degree = first; degree <= last; degree += 1) {
      if (smgByDegree[degree]! > (top < 0 ? (bestEnd?.smgKn ?? Number.NEGATIVE_INFINITY) : smgByDegree[top]!))
        top = degree;
    }
    if (top < 0) return bestEnd;
    const pair = { twaDeg: top, stwKn: stwByDegree[top]!, smgKn: smgByDegree[top]! };
    if (mayCarry(pair)) return pair;
    smgByDegree[top] = Number.NaN;
  }
}

/** From the best of the whole degrees on in halving steps, within a range of angles. */
function bestOver(
  pairAt: (twaDeg: number) => Pair | undefined,
  mayCarry: (pair: Pair) => boolean,
  low: number,
  high: number,
  start: Pair | undefined,
): Pair | undefined {
  let best = start;
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
