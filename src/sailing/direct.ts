import { falsePosition } from '../falsePosition.js';
import type { Window } from '../sail/sail.js';
import { aboardOn, breachOf, type PlanSpeed } from '../speed/speed.js';
import { RAD_PER_DEG, wrap180, wrap360 } from '../units.js';
import { partsOf } from '../wind/wind.js';
import type { Sailing, SailingBar } from './along.js';
import type { Conditions } from './conditions.js';

const SCAN_DEG = 5;
/** More left over across the course than this is no root but a jump of the speed, where two leeways agree with themselves. */
const HELD_KN = 1e-5;

/**
 * The plan on the course through the water that, with the current, makes good the course. Of several such the fastest that
 * may be carried; else the reason why the fastest may not.
 */
export function sailDirect(windows: readonly Window[], speed: PlanSpeed, conditions: Conditions): Sailing | SailingBar {
  const { courseDeg, twdDeg, twsKn, current } = conditions;
  const { alongKn, acrossKn } = partsOf(current, courseDeg);
  let best: Sailing | undefined;
  let bestBarredSmg = Number.NEGATIVE_INFINITY;
  let bar: SailingBar = 'no-speed';
  for (const offDeg of holdingCourses(speed, conditions, acrossKn)) {
    const throughWaterDeg = wrap360(courseDeg + offDeg);
    const angleDeg = wrap180(twdDeg - throughWaterDeg);
    const stwKn = speed.at(twsKn, angleDeg);
    if (stwKn === undefined) continue;
    const smgKn = stwKn * Math.cos(offDeg * RAD_PER_DEG) + alongKn;
    const aboard = aboardOn(speed, conditions, throughWaterDeg, angleDeg, stwKn);
    const breach = breachOf(windows, aboard);
    if (breach !== undefined) {
      if (smgKn > bestBarredSmg) bar = breach;
      bestBarredSmg = Math.max(bestBarredSmg, smgKn);
    } else if (best === undefined || smgKn > best.smgKn) {
      const { headingDeg, twaDeg, leewayDeg, awaDeg, awsKn, gustAwsKn } = aboard;
      best = { manner: 'direct', headingDeg, twaDeg, leewayDeg, stwKn, awaDeg, awsKn, gustAwsKn, smgKn, offTrackNm: 0 };
    }
  }
  return best ?? bar;
}

/**
 * Courses through the water, as angles off the course, on which the boat's way takes out the current across the course.
 * Without cross current that is the course itself; else each sign change of what is left over, on the side from which the
 * current comes, found by a false-position search.
 */
function holdingCourses(speed: PlanSpeed, { courseDeg, twdDeg, twsKn }: Conditions, acrossKn: number): number[] {
  if (acrossKn === 0) return [0];
  const side = acrossKn > 0 ? -1 : 1;
  const leftOver = (offDeg: number) => {
    const stwKn = speed.at(twsKn, wrap180(twdDeg - courseDeg - offDeg));
    return stwKn === undefined ? undefined : stwKn * Math.sin(offDeg * RAD_PER_DEG) + acrossKn;
  };
  let count = 0;
  for (let offDeg = 0; offDeg <= 90; offDeg += SCAN_DEG) {
    nodes[count] = side * offDeg;
    count += 1;
  }
  const [minDeg, maxDeg] = speed.edgesAt(twsKn);
  // The polar's own edges, a hair inside, so that a course near its last angle is not lost between two nodes.
  for (let edge = 0; edge < 4; edge += 1) {
    const edgeDeg = (edge < 2 ? 1 : -1) * (edge % 2 === 0 ? minDeg + 1e-9 : maxDeg - 1e-9);
    const offDeg = wrap180(twdDeg - edgeDeg - courseDeg);
    if (!(offDeg * side > 0 && offDeg * side < 90)) continue;
    // In its place among the others.
    let at = count;
    for (; side * nodes[at - 1]! > side * offDeg; at -= 1) nodes[at] = nodes[at - 1]!;
    nodes[at] = offDeg;
    count += 1;
  }
  const roots: number[] = [];
  let left: number | undefined;
  for (let i = 0; i < count; i += 1) {
    const node = nodes[i]!;
    const right = leftOver(node);
    if (left !== undefined && right !== undefined && left * right <= 0) {
      const root = falsePosition(leftOver, nodes[i - 1]!, left, node, right);
      if (Math.abs(leftOver(root) ?? Number.NaN) < HELD_KN) roots.push(root);
    }
    left = right;
  }
  return roots;
}

// Written over at every call: asked for at every inner step of a passage.
const nodes = new Float64Array(90 / SCAN_DEG + 1 + 4);
