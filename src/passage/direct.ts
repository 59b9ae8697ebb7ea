import type { Window } from '../sail/sail.js';
import { RAD_PER_DEG, wrap180, wrap360 } from '../units.js';
import { partsOf } from '../wind/wind.js';
import { breachOf, windAboard } from './aboard.js';
import type { Conditions } from './conditions.js';
import type { PlanSpeed } from './planSpeed.js';
import type { Sailing, SailingBar } from './sailing.js';

const SCAN_DEG = 5;

/**
 * The plan on the heading whose way through the water, with the current, lies along the course. Of several such headings
 * the fastest that may be carried; else the reason why the fastest may not.
 */
export function sailDirect(windows: readonly Window[], speed: PlanSpeed, conditions: Conditions): Sailing | SailingBar {
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
    const breach = breachOf(windows, felt);
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
