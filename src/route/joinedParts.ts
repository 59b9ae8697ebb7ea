import type { FaultList } from '../errors.js';
import { wrap180 } from '../units.js';
import { says } from '../wording.js';
import type { Waypoint } from './waypoint.js';

interface Point {
  readonly path: string;
  readonly waypoint: Waypoint | undefined;
}

/** A tenth of a metre: ends of parts as near as that are one place. */
const SAME_DEG = 1e-6;
/** Ten metres: a cut is as near as that to the straight line through it, with the decimals that files have. */
const STRAIGHT_DEG = 1e-4;

/**
 * The points of a line that was cut at the date line (RFC 7946 section 3.1.9), joined again: each part must begin where the
 * one before ends, 180 and −180 being one. Where a cut lies on the straight line from the point before it to the one
 * behind, it goes; any other is a turn of the line and stays, once.
 */
export function joinedParts(parts: readonly (readonly Point[])[], file: string, faults: FaultList): readonly Point[] {
  const joined: Point[] = [];
  for (const [first, ...rest] of parts) {
    if (first === undefined) continue;
    const last = joined.at(-1);
    if (last === undefined) joined.push(first);
    else if (last.waypoint !== undefined && first.waypoint !== undefined) {
      if (!isNear(last.waypoint, first.waypoint)) faults.add({ file, path: first.path, ...says.partsApart() });
      else if (isCut(joined.at(-2)?.waypoint, last.waypoint, rest[0]?.waypoint)) joined.pop();
    }
    for (const point of rest) joined.push(point);
  }
  return joined;
}

function isNear(one: Waypoint, other: Waypoint): boolean {
  return Math.abs(one.latDeg - other.latDeg) <= SAME_DEG && Math.abs(wrap180(one.lonDeg - other.lonDeg)) <= SAME_DEG;
}

function isCut(before: Waypoint | undefined, at: Waypoint, behind: Waypoint | undefined): boolean {
  if (before === undefined || behind === undefined || Math.abs(at.lonDeg) !== 180) return false;
  const [toDeg, onDeg] = [wrap180(180 - before.lonDeg), wrap180(behind.lonDeg - 180)];
  if (toDeg * onDeg <= 0) return false;
  const straightDeg = (before.latDeg * onDeg + behind.latDeg * toDeg) / (toDeg + onDeg);
  return Math.abs(at.latDeg - straightDeg) <= STRAIGHT_DEG;
}
