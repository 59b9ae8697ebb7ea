import type { TrackPoint } from '../route/route.js';
import { conditionsAt } from '../sailing/sailing.js';
import { darknessOf } from './darkness.js';
import { knotsOf } from './knots.js';
import { metOf } from './ranked.js';
import { type SpeedParts, speedField } from './speedField.js';

/** What a table of a passage is made of. */
export interface RouteTableParts extends SpeedParts {
  readonly trackAt: (distanceNm: number) => TrackPoint;
  readonly lengthNm: number;
  /** Longest inner step of a stage as it is sailed. */
  readonly stepMinutes: number;
}

/** The passage as the search sees it. */
export interface RouteTable {
  /** The way of a stage under a means, in whole and beyond the route's end if so far; NaN where it is barred. */
  way(stage: number, means: number, fromNm: number): number;
  /** Speed made good at the start of a stage if no window, wave or rule barred it; NaN without a speed. */
  openSmgKn(stage: number, means: number, distanceNm: number): number;
  /** Whether the engine may run: no sail plan that may stand makes the house speed. */
  mayMotor(stage: number, distanceNm: number): boolean;
  /** Bars a means around a place in a stage, where sailing it without tables met a bar that the table does not hold. */
  bar(stage: number, means: number, atNm: number): void;
  /** Whether it is dark so many minutes after the start of a stage. */
  isDark(stage: number, minutes: number, distanceNm: number): boolean;
}

/** A bar that the tables do not hold is taken to reach so far. */
const BAR_NM = 5;

/**
 * The way of every means along the track in every stage, filled where the search comes. Speeds are tabled at the start of every stage
 * and every twenty miles, and drawn straight between; a stage is sailed at the mean that its inner steps would have. Where a bar begins
 * or ends between, the weather is drawn and the means asked again. What this leaves out is small beside a forecast's errors, and
 * what is chosen is sailed again without tables.
 */
export function routeTable(parts: RouteTableParts): RouteTable {
  const { trackAt, lengthNm, weatherAt, stageEpochSeconds, stepMinutes, means, tables, house } = parts;
  const knots = knotsOf(trackAt, lengthNm);
  const knotCount = knots.distanceNm.length;
  const count = means.length;
  const isDark = darknessOf(parts);
  const field = speedField(parts, knots, isDark);
  const { seek, smgAt } = field;
  const barsAt = new Map<number, number[]>();
  /** Whether no sail plan that may stand where it was sought makes the house speed. */
  const motors = (stage: number): boolean =>
    means.every(({ kind, downMinutes }, index) => {
      if (kind !== 'sails' || (downMinutes !== undefined && isDark(stage, 0, knots.distanceNm[field.knot()]!)))
        return true;
      return !(smgAt(stage, index) >= house.motorBelowKn!);
    });

  /** The way of a stage from a place that was sought. */
  const sailed = (stage: number, index: number, fromNm: number): number => {
    const { kind, downMinutes, gybesByDay } = means[index]!;
    const hours = (stageEpochSeconds[stage + 1]! - stageEpochSeconds[stage]!) / 3600;
    if (downMinutes !== undefined && isDark(stage, 0, fromNm)) return Number.NaN;
    const bars = barsAt.get(stage * count + index);
    if (bars?.some((atNm) => Math.abs(atNm - fromNm) < BAR_NM)) return Number.NaN;
    const startKn = smgAt(stage, index);
    if (Number.isNaN(startKn) || (kind === 'motor' && !motors(stage))) return Number.NaN;
    const startAngle = field.angleAt(stage);
    const legEndNm = knots.legEndNm[field.knot()]!;
    let toNm = fromNm + startKn * hours;
    let restNm = fromNm;
    let restKn = startKn;
    let restHours = hours;
    if (toNm > legEndNm && legEndNm < lengthNm) {
      // Round the waypoint, on at the speed beyond it.
      seek(stage, legEndNm);
      restNm = legEndNm;
      restHours = hours - (legEndNm - fromNm) / startKn;
      restKn = smgAt(stage, index);
      // What may not stand beyond it is sailed to it.
      if (Number.isNaN(restKn)) return legEndNm - fromNm;
      toNm = restNm + restKn * restHours;
    }
    if (downMinutes !== undefined && isDark(stage + 1, downMinutes, toNm)) return Number.NaN;
    const atNm = Math.min(lengthNm, Math.max(0, toNm));
    seek(stage + 1, atNm);
    const endKn = smgAt(stage + 1, index);
    if (gybesByDay && (isDark(stage, 0, fromNm) || isDark(stage + 1, 0, toNm))) {
      if (startAngle * field.angleAt(stage + 1) < 0 && Math.abs(startAngle) > 90) return Number.NaN;
    }
    // Inner steps are sailed each at the speed of its start: the first counts in whole, the end of the last not at all.
    const lastStep = 1 - Math.min(hours, stepMinutes / 60) / hours;
    const lateKn = Number.isNaN(endKn)
      ? field.lateSmgKn(stage, index, restNm, atNm, lastStep)
      : restKn + (endKn - restKn) * lastStep;
    return Math.max(0, restNm + 0.5 * (restKn + lateKn) * restHours) - fromNm;
  };

  // By knot and means, of one stage: the search asks for the same again and again.
  const ways = new Float64Array(knotCount * count);
  const stageOfWays = new Int32Array(knotCount * count).fill(-1);
  const knotWay = (stage: number, index: number, at: number): number => {
    const cell = at * count + index;
    if (stageOfWays[cell] !== stage) {
      stageOfWays[cell] = stage;
      const fromNm = knots.distanceNm[at]!;
      // The last knot of a leg is the end of it, not the start of the next.
      field.seekFrom(stage, at === knotCount - 1 || knots.distanceNm[at + 1] === fromNm ? at - 1 : at, fromNm);
      ways[cell] = sailed(stage, index, fromNm);
    }
    return ways[cell]!;
  };
  // Between two knots the way is drawn straight: by the first knot and means, of one stage, its value at the knot and its slope.
  const bases = new Float64Array(knotCount * count);
  const slopes = new Float64Array(knotCount * count);
  const stageOfLines = new Int32Array(knotCount * count).fill(-1);
  const drawLine = (stage: number, index: number, at: number): void => {
    const cell = at * count + index;
    const lower = knotWay(stage, index, at);
    const upper = knotWay(stage, index, at + 1);
    const from = knots.distanceNm[at]!;
    const to = knots.distanceNm[at + 1]!;
    const legEndNm = knots.legEndNm[at]!;
    const isStraight =
      (legEndNm >= lengthNm || from + lower > legEndNm === to + upper > legEndNm) && !barsAt.has(stage * count + index);
    stageOfLines[cell] = stage;
    slopes[cell] = isStraight ? (upper - lower) / (to - from) : Number.NaN;
    // Barred at both knots it is barred between; at one of them, it is asked for every place.
    bases[cell] = Number.isNaN(lower) && !Number.isNaN(upper) ? upper : lower;
  };
  let soughtKnot = 0;
  const sought = new Float64Array(1).fill(Number.NaN);
  return {
    isDark,
    mayMotor(stage, distanceNm) {
      seek(stage, distanceNm);
      return motors(stage);
    },
    openSmgKn(stage, index, distanceNm) {
      const point = trackAt(distanceNm);
      const weather = weatherAt(point.latDeg, point.lonDeg, stageEpochSeconds[stage]!);
      const table = tables[index]?.usual;
      return weather === undefined || table === undefined
        ? Number.NaN
        : table.openSmgAt(metOf(conditionsAt(point, weather, house)));
    },
    bar(stage, index, atNm) {
      const key = stage * count + index;
      barsAt.set(key, [...(barsAt.get(key) ?? []), atNm]);
      stageOfWays.fill(-1);
      stageOfLines.fill(-1);
    },
    // Asked for itself where it is barred at one of two knots, a waypoint is rounded or a lesson is near.
    way(stage, index, fromNm) {
      if (fromNm !== sought[0]) {
        sought[0] = fromNm;
        soughtKnot = knots.before(fromNm);
      }
      const cell = soughtKnot * count + index;
      if (stageOfLines[cell] !== stage) drawLine(stage, index, soughtKnot);
      const way = bases[cell]! + slopes[cell]! * (fromNm - knots.distanceNm[soughtKnot]!);
      if (!Number.isNaN(way) || Number.isNaN(bases[cell]!)) return way;
      seek(stage, fromNm);
      return sailed(stage, index, fromNm);
    },
  };
}
