import { type Polar, type PolarSpeed, polarSpeed } from '../polar/polar.js';
import { type Window, windowBreach } from '../sail/sail.js';
import { RAD_PER_DEG, wrap180, wrap360 } from '../units.js';
import { apparentWind, flowTowards, partsOf, speedOf } from '../wind/wind.js';
import type { Conditions } from './conditions.js';
import type { SettledOptions } from './options.js';

/** A sail plan ready to be sailed: its speeds, and the windows of all its sails. */
export interface SailablePlan {
  readonly id: string;
  readonly speed: PlanSpeed | undefined;
  readonly windows: readonly Window[];
  readonly daylightOnly: boolean;
}

/** Speeds of a plan through the water at sea, skipper's factor included. */
export interface PlanSpeed {
  readonly at: PolarSpeed;
  readonly twaMinDeg: number;
  readonly twaMaxDeg: number;
  readonly twsMaxKn: number;
  /** Never less than the plan's best speed made good to windward (`up`) or to leeward (`down`). */
  vmgBound(twsKn: number, way: 'up' | 'down'): number;
}

/** Why a plan makes no way along the course: its angles or collapse speed, the gust, or no speed there. */
export type SailingBar = 'window' | 'gust' | 'no-speed';

/** One plan sailed along the course at one instant. A pair of headings shows the one held longer. */
export interface Sailing {
  readonly manner: 'direct' | 'tacking' | 'gybing';
  readonly headingDeg: number;
  readonly twaDeg: number;
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
const SCAN_DEG = 5;

/** The speed look-up of a plan from its polar. */
export function planSpeed(polar: Polar, skipperFactor: number): PlanSpeed {
  const raw = polarSpeed(polar);
  const at: PolarSpeed = (twsKn, twaDeg) => {
    const speed = raw(twsKn, twaDeg);
    return speed === undefined ? undefined : speed * skipperFactor;
  };
  const bounds = { up: vmgBounds(polar, 1), down: vmgBounds(polar, -1) };
  // As a polar of one angle, so that the bound is interpolated over wind speed exactly as the speeds are.
  const asPolar = (stwKn: readonly number[]) =>
    polarSpeed({ twsKn: polar.twsKn, twaDeg: [0, 180], stwKn: [...stwKn, ...stwKn] });
  const boundAt = { up: asPolar(bounds.up), down: asPolar(bounds.down) };
  return {
    at,
    twaMinDeg: polar.twaDeg[0]!,
    twaMaxDeg: polar.twaDeg.at(-1)!,
    twsMaxKn: polar.twsKn.at(-1)!,
    vmgBound: (twsKn, way) => boundAt[way](twsKn, 90)! * skipperFactor,
  };
}

/**
 * The best speed made good along the course under one plan: on the heading whose way through the water, with the
 * current, lies along the course; or on a mirrored pair of headings either side of the wind, tacking or gybing, where
 * that gains more than 0.5 %. A plan with neither is barred for the reason of its direct heading.
 */
export function sailAlong(
  plan: SailablePlan,
  conditions: Conditions,
  { house }: Pick<SettledOptions, 'house'>,
): Sailing | SailingBar {
  const { speed } = plan;
  if (speed === undefined) return 'no-speed';
  const direct = sailDirect(plan, speed, conditions);
  const needed =
    typeof direct === 'string' ? Number.NEGATIVE_INFINITY : direct.smgKn + PAIR_GAIN * Math.abs(direct.smgKn);
  return sailPair(plan, speed, conditions, house, needed) ?? direct;
}

function sailDirect(plan: SailablePlan, speed: PlanSpeed, conditions: Conditions): Sailing | SailingBar {
  const { courseDeg, twdDeg, twsKn, current } = conditions;
  const { alongKn, acrossKn } = partsOf(current, courseDeg);
  let best: Sailing | undefined;
  let bestBarredSmg = Number.NEGATIVE_INFINITY;
  let bar: SailingBar = 'no-speed';
  for (const offDeg of holdingHeadings(speed, conditions, acrossKn)) {
    const headingDeg = wrap360(courseDeg + offDeg);
    const twaDeg = wrap180(twdDeg - headingDeg);
    const stwKn = speed.at(twsKn, twaDeg);
    if (stwKn === undefined) continue;
    const smgKn = stwKn * Math.cos(offDeg * RAD_PER_DEG) + alongKn;
    const felt = windAboard(conditions, headingDeg, twaDeg, stwKn);
    const breach = breachOf(plan, felt);
    if (breach !== undefined) {
      if (smgKn > bestBarredSmg) bar = breach;
      bestBarredSmg = Math.max(bestBarredSmg, smgKn);
    } else if (best === undefined || smgKn > best.smgKn) {
      const { awaDeg, awsKn, gustAwsKn } = felt;
      best = { manner: 'direct', headingDeg, twaDeg, stwKn, awaDeg, awsKn, gustAwsKn, smgKn, offTrackNm: 0 };
    }
  }
  return best ?? bar;
}

/**
 * Headings, as angles off the course, on which the boat's way takes out the current across the course. Without cross
 * current that is the course itself; else each sign change of what is left over, on the side from which the current
 * comes, found by a false-position search.
 */
function holdingHeadings(speed: PlanSpeed, { courseDeg, twdDeg, twsKn }: Conditions, acrossKn: number): number[] {
  if (acrossKn === 0) return [0];
  const side = acrossKn > 0 ? -1 : 1;
  const leftOver = (offDeg: number) => {
    const stwKn = speed.at(twsKn, wrap180(twdDeg - courseDeg - offDeg));
    return stwKn === undefined ? undefined : stwKn * Math.sin(offDeg * RAD_PER_DEG) + acrossKn;
  };
  const nodes: number[] = [];
  for (let offDeg = 0; offDeg <= 90; offDeg += SCAN_DEG) nodes.push(side * offDeg);
  // The polar's own edges, a hair inside, so that a heading near its last angle is not lost between two nodes.
  for (const edge of [
    speed.twaMinDeg + 1e-9,
    speed.twaMaxDeg - 1e-9,
    -speed.twaMinDeg - 1e-9,
    -speed.twaMaxDeg + 1e-9,
  ]) {
    const offDeg = wrap180(twdDeg - edge - courseDeg);
    if (offDeg * side > 0 && offDeg * side < 90) nodes.push(offDeg);
  }
  nodes.sort((a, b) => side * (a - b));
  const roots: number[] = [];
  let left: number | undefined;
  nodes.forEach((node, i) => {
    const right = leftOver(node);
    if (left !== undefined && right !== undefined && left * right <= 0) {
      roots.push(falsePosition(leftOver, nodes[i - 1]!, left, node, right));
    }
    left = right;
  });
  return roots;
}

/** A zero between two points of opposite sign (regula falsi, the Illinois way). */
function falsePosition(f: (x: number) => number | undefined, x0: number, f0: number, x1: number, f1: number): number {
  let [a, fa, b, fb] = [x0, f0, x1, f1];
  for (let step = 0; step < 60; step += 1) {
    if (fa === 0) return a;
    if (fb === 0 || Math.abs(b - a) < 1e-9) return b;
    const x = b - (fb * (b - a)) / (fb - fa);
    const fx = f(x);
    if (fx === undefined) return b;
    if (Math.abs(fx) < 1e-10) return x;
    if (fx * fb < 0) [a, fa] = [b, fb];
    else fa /= 2;
    [b, fb] = [x, fx];
  }
  return b;
}

/** The best mirrored pair that makes more than `neededKn` good, if there is one. */
function sailPair(
  plan: SailablePlan,
  speed: PlanSpeed,
  conditions: Conditions,
  house: SettledOptions['house'],
  neededKn: number,
): Sailing | undefined {
  const { courseDeg, twdDeg, twsKn, current } = conditions;
  // Axes of the wind: "up" into it, "right" a quarter turn clockwise. The course lies at `gamma` from up.
  const gamma = wrap180(courseDeg - twdDeg) * RAD_PER_DEG;
  const [cosGamma, sinGamma] = [Math.cos(gamma), Math.sin(gamma)];
  // A course across the wind is never made good by a pair.
  if (Math.abs(cosGamma) < 0.02) return undefined;
  const way = cosGamma > 0 ? 'up' : 'down';
  const manner = way === 'up' ? 'tacking' : 'gybing';
  const everyHours = way === 'up' ? house.tackEveryHours : house.gybeEveryHours;
  const lostShare = Math.min(1, (way === 'up' ? house.tackMinutes : house.gybeMinutes) / 60 / everyHours);
  const { alongKn: currentUp, acrossKn: currentRight } = partsOf(current, twdDeg);
  const sign = way === 'up' ? 1 : -1;
  const bound = (sign * speed.vmgBound(twsKn, way) * (1 - lostShare) + currentUp) / cosGamma;
  if (bound <= neededKn) return undefined;

  const evaluate = (twaDeg: number, overKn: number): Sailing | undefined => {
    const stwKn = speed.at(twsKn, twaDeg);
    if (stwKn === undefined || stwKn <= 0) return undefined;
    const meanKn = stwKn * (1 - lostShare);
    const upKn = meanKn * Math.cos(twaDeg * RAD_PER_DEG) + currentUp;
    const smgKn = upKn / cosGamma;
    if (smgKn <= overKn) return undefined;
    // What the boards must average to the right, as a share of one board: port less starboard.
    const rightBoardKn = meanKn * Math.sin(twaDeg * RAD_PER_DEG);
    const portLessStarboard = (smgKn * sinGamma - currentRight) / rightBoardKn;
    if (!(Math.abs(portLessStarboard) <= 1)) return undefined;
    const starboard = windAboard(conditions, wrap360(twdDeg - twaDeg), twaDeg, stwKn);
    if (breachOf(plan, starboard) !== undefined) return undefined;
    const port = windAboard(conditions, wrap360(twdDeg + twaDeg), -twaDeg, stwKn);
    if (breachOf(plan, port) !== undefined) return undefined;
    const onStarboard = portLessStarboard <= 1e-9;
    const rightKn = (onStarboard ? -rightBoardKn : rightBoardKn) + currentRight;
    const boardHours = everyHours * (1 + Math.abs(portLessStarboard));
    return {
      manner,
      headingDeg: wrap360(onStarboard ? twdDeg - twaDeg : twdDeg + twaDeg),
      twaDeg: onStarboard ? twaDeg : -twaDeg,
      stwKn,
      awaDeg: onStarboard ? starboard.awaDeg : port.awaDeg,
      awsKn: starboard.awsKn,
      // A current can make the two gusts differ; the stronger one counts.
      gustAwsKn: Math.max(starboard.gustAwsKn, port.gustAwsKn),
      smgKn,
      offTrackNm: Math.abs(rightKn * cosGamma - upKn * sinGamma) * boardHours,
    };
  };

  const low = Math.max(speed.twaMinDeg, way === 'up' ? 1 : 91);
  const high = Math.min(speed.twaMaxDeg, way === 'up' ? 89 : 179);
  return bestOver(evaluate, low, high, neededKn);
}

/** The best of a function over a range, above a floor: every degree and both ends, then halving steps from the best one. */
function bestOver(
  evaluate: (x: number, overKn: number) => Sailing | undefined,
  low: number,
  high: number,
  floorKn: number,
): Sailing | undefined {
  let best: Sailing | undefined;
  let at = low;
  const consider = (x: number) => {
    if (x < low || x > high) return false;
    const sailing = evaluate(x, best?.smgKn ?? floorKn);
    if (sailing === undefined) return false;
    best = sailing;
    at = x;
    return true;
  };
  for (let x = low; x < high; x += 1) consider(x);
  consider(high);
  if (best === undefined) return undefined;
  for (let step = 0.5; step > 0.005; step /= 2) {
    if (!consider(at - step)) consider(at + step);
  }
  return best;
}

type WindAboard = Pick<Sailing, 'awaDeg' | 'awsKn' | 'gustAwsKn'> & { readonly gustTwsKn: number };

/** The wind felt on a heading. The gust meets the same heading and the same steady boat speed. */
function windAboard(
  { twsKn, gustWind, gustTwsKn }: Conditions,
  headingDeg: number,
  twaDeg: number,
  stwKn: number,
): WindAboard {
  const { awsKn, awaDeg } = apparentWind(twsKn, twaDeg, stwKn);
  const way = flowTowards(stwKn, headingDeg);
  const gustAwsKn = speedOf({ eastKn: gustWind.eastKn - way.eastKn, northKn: gustWind.northKn - way.northKn });
  return { awsKn, awaDeg, gustAwsKn, gustTwsKn };
}

function breachOf(plan: SailablePlan, felt: WindAboard): 'window' | 'gust' | undefined {
  let first: 'window' | 'gust' | undefined;
  for (const window of plan.windows) {
    const breach = windowBreach(window, felt);
    if (breach === 'window') return breach;
    first ??= breach;
  }
  return first;
}

/** For each wind speed of a polar, a bound on speed made good up (sign 1) or down wind (−1): per cell, fastest end × best cosine. */
function vmgBounds(polar: Polar, sign: 1 | -1): number[] {
  const { twsKn, twaDeg, stwKn } = polar;
  return twsKn.map((_, j) => {
    let bound = 0;
    for (let i = 1; i < twaDeg.length; i += 1) {
      const fastest = Math.max(stwKn[(i - 1) * twsKn.length + j]!, stwKn[i * twsKn.length + j]!);
      const cosines = [twaDeg[i - 1]!, twaDeg[i]!].map((angle) => sign * Math.cos(angle * RAD_PER_DEG));
      bound = Math.max(bound, fastest * Math.max(...cosines));
    }
    return bound;
  });
}
