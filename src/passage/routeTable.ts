import type { TrackPoint } from '../route/route.js';
import { isOver } from '../sail/sail.js';
import { conditionsAt } from '../sailing/sailing.js';
import { daylightAt } from '../sun/sun.js';
import type { Met } from '../tabled/tabled.js';
import { wrap180 } from '../units.js';
import type { WeatherAt } from '../weather/weather.js';
import { bareDriftSmgKn, hoveToSmgKn } from './drift.js';
import { knotsOf } from './knots.js';
import type { Means } from './means.js';
import type { SettledOptions } from './options.js';
import { type MeansTables, metOf } from './ranked.js';
import { squallFactor } from './squalls.js';

/** What a table of a passage is made of. */
export interface RouteTableParts {
  readonly trackAt: (distanceNm: number) => TrackPoint;
  readonly lengthNm: number;
  readonly weatherAt: WeatherAt;
  /** When stages begin, and at last the end of the last. */
  readonly stageEpochSeconds: Float64Array;
  /** Longest inner step of a stage as it is sailed. */
  readonly stepMinutes: number;
  readonly means: readonly Means[];
  readonly tables: readonly MeansTables[];
  /** The limit gust above which no sail plan may be carried. */
  readonly lastStormKn: number;
  readonly house: SettledOptions['house'];
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
/** The sun is asked at this distance: it sets within 40 s of what it does in between. */
const SUN_NM = 20;

/** What a knot holds of the weather, so that it can be drawn between knots and hours. */
const TWS = 0;
const ANGLE = 1;
const GUST = 2;
const ALONG = 3;
const ACROSS = 4;
const WAVE = 5;
const DRIFT = 6;
const BARE = 7;
const FIELDS = 8;

const EMPTY = 0;
const FILLED = 1;
const WINDLESS = 2;

/** A speed that was not asked for yet. */
const UNKNOWN = -1e9;

/**
 * The way of every means along the track in every stage, filled where the search comes. Speeds are tabled at the start of every stage
 * and every twenty miles, and drawn straight between; a stage is sailed at the mean that its inner steps would have. Where a bar begins
 * or ends between, the weather is drawn and the means asked again. What this leaves out is small beside a forecast's errors, and
 * what is chosen is sailed again without tables.
 */
export function routeTable(parts: RouteTableParts): RouteTable {
  const { trackAt, lengthNm, weatherAt, stageEpochSeconds, stepMinutes, means, tables, house, lastStormKn } = parts;
  const knots = knotsOf(trackAt, lengthNm);
  const knotCount = knots.distanceNm.length;
  const count = means.length;
  const stages = stageEpochSeconds.length - 1;
  const smgKn = new Float32Array((stages + 1) * knotCount * count).fill(UNKNOWN);
  const fields = new Float64Array((stages + 1) * knotCount * FIELDS);
  const known = new Uint8Array((stages + 1) * knotCount);
  const sunBins = Math.ceil(lengthNm / SUN_NM) + 1;
  // 0 not known, 1 light, 2 dark; by the minutes after a stage's start that are asked for.
  const darkness = new Map<number, Uint8Array>();

  const isDark = (stage: number, minutes: number, distanceNm: number): boolean => {
    let dark = darkness.get(minutes);
    if (dark === undefined) {
      dark = new Uint8Array((stages + 1) * sunBins);
      darkness.set(minutes, dark);
    }
    const bin = Math.round(Math.min(lengthNm, Math.max(0, distanceNm)) / SUN_NM);
    const at = stage * sunBins + bin;
    if (dark[at] === 0) {
      const { latDeg, lonDeg } = trackAt(bin * SUN_NM);
      dark[at] = daylightAt(stageEpochSeconds[stage]! + minutes * 60, latDeg, lonDeg) ? 1 : 2;
    }
    return dark[at] === 2;
  };

  /** Speed of a means in weather; what bars the engine and the dark are asked elsewhere. */
  const speedIn = (index: number, met: Met, dark: boolean, waveM: number, driftKn: number, bareKn: number): number => {
    const { kind, waveMaxM } = means[index]!;
    if (kind === 'hove-to') return driftKn;
    if (kind === 'bare-poles') return isOver(met.gustTwsKn, lastStormKn) ? bareKn : Number.NaN;
    if (waveMaxM !== undefined && isOver(waveM, waveMaxM)) return Number.NaN;
    const { nightReefAboveKn } = house;
    const reefedFurther = dark && nightReefAboveKn !== null && met.twsKn > nightReefAboveKn;
    const table = (reefedFurther ? tables[index]!.byNight : undefined) ?? tables[index]!.usual;
    return table === undefined ? Number.NaN : table.smgAt(met);
  };

  const fill = (stage: number, knot: number): void => {
    const at = stage * knotCount + knot;
    const point = knots.points[knot]!;
    const weather = weatherAt(point.latDeg, point.lonDeg, stageEpochSeconds[stage]!);
    if (weather === undefined) {
      known[at] = WINDLESS;
      smgKn.fill(Number.NaN, at * count, (at + 1) * count);
      return;
    }
    known[at] = FILLED;
    const dark = isDark(stage, 0, point.distanceNm);
    const conditions = conditionsAt(point, weather, house, squallFactor(house, point.latDeg, dark));
    const { twsKn, angleDeg, gustTwsKn, alongKn, acrossKn } = metOf(conditions);
    const first = at * FIELDS;
    fields[first + TWS] = twsKn;
    fields[first + ANGLE] = angleDeg;
    fields[first + GUST] = gustTwsKn;
    fields[first + ALONG] = alongKn;
    fields[first + ACROSS] = acrossKn;
    fields[first + WAVE] = weather.waveHeightM ?? 0;
    fields[first + DRIFT] = hoveToSmgKn(conditions);
    fields[first + BARE] = bareDriftSmgKn(conditions);
  };
  /** The speed of a means at a knot. */
  const knotSmgKn = (stage: number, at: number, index: number): number => {
    const row = stage * knotCount + at;
    const cell = row * count + index;
    if (smgKn[cell] === UNKNOWN) {
      const first = row * FIELDS;
      met.twsKn = fields[first + TWS]!;
      met.angleDeg = fields[first + ANGLE]!;
      met.gustTwsKn = fields[first + GUST]!;
      met.alongKn = fields[first + ALONG]!;
      met.acrossKn = fields[first + ACROSS]!;
      const dark = isDark(stage, 0, knots.distanceNm[at]!);
      smgKn[cell] = speedIn(index, met, dark, fields[first + WAVE]!, fields[first + DRIFT]!, fields[first + BARE]!);
    }
    return smgKn[cell]!;
  };
  const met: Met = { twsKn: 0, angleDeg: 0, gustTwsKn: 0, alongKn: 0, acrossKn: 0 };

  // The two knots about a distance, and the share of the second. Not a variable: a number that closures share is made anew at every
  // writing.
  let knot = 0;
  const shares = new Float64Array(1);
  const seek = (stage: number, distanceNm: number): void => {
    knot = knots.before(distanceNm);
    seekFrom(stage, distanceNm);
  };
  const seekFrom = (stage: number, distanceNm: number): void => {
    const from = knots.distanceNm[knot]!;
    const to = knots.distanceNm[knot + 1]!;
    shares[0] = Math.min(1, Math.max(0, (distanceNm - from) / (to - from)));
    const row = stage * knotCount + knot;
    if (known[row] === EMPTY) fill(stage, knot);
    if (known[row + 1] === EMPTY) fill(stage, knot + 1);
    // Near a coast a knot may lie where there is no wind: the other stands for the way between.
    if (known[row] === WINDLESS) shares[0] = 1;
    else if (known[row + 1] === WINDLESS) shares[0] = 0;
  };
  const fieldAt = (stage: number, field: number): number => {
    const at = (stage * knotCount + knot) * FIELDS + field;
    const one = fields[at]!;
    const other = fields[at + FIELDS]!;
    const share = shares[0]!;
    if (share === 0) return one;
    if (share === 1) return other;
    return field === ANGLE ? wrap180(one + share * wrap180(other - one)) : one * (1 - share) + other * share;
  };
  /** The speed of a means where it was sought; where it is barred at one of two knots, in the weather between them. */
  const smgAt = (stage: number, index: number): number => {
    const share = shares[0]!;
    if (share === 0) return knotSmgKn(stage, knot, index);
    if (share === 1) return knotSmgKn(stage, knot + 1, index);
    const one = knotSmgKn(stage, knot, index);
    const other = knotSmgKn(stage, knot + 1, index);
    const between = one * (1 - share) + other * share;
    if (!Number.isNaN(between) || (Number.isNaN(one) && Number.isNaN(other))) return between;
    const dark = isDark(stage, 0, knots.distanceNm[knot]!);
    return speedIn(index, metAt(stage), dark, fieldAt(stage, WAVE), fieldAt(stage, DRIFT), fieldAt(stage, BARE));
  };
  const metAt = (stage: number): Met => ({
    twsKn: fieldAt(stage, TWS),
    angleDeg: fieldAt(stage, ANGLE),
    gustTwsKn: fieldAt(stage, GUST),
    alongKn: fieldAt(stage, ALONG),
    acrossKn: fieldAt(stage, ACROSS),
  });

  /** Speed at the last inner step of a stage, in weather drawn between its two ends: where a bar comes at the end of the stage. */
  const lateSmgKn = (stage: number, index: number, fromNm: number, toNm: number, part: number): number => {
    seek(stage, fromNm);
    const [start, startWave] = [metAt(stage), fieldAt(stage, WAVE)];
    const [startDrift, startBare] = [fieldAt(stage, DRIFT), fieldAt(stage, BARE)];
    seek(stage + 1, toNm);
    if (known[(stage + 1) * knotCount + knot + (shares[0] === 1 ? 1 : 0)] === WINDLESS) return Number.NaN;
    const end = metAt(stage + 1);
    const drawn = (a: number, b: number) => a + (b - a) * part;
    const met: Met = {
      twsKn: drawn(start.twsKn, end.twsKn),
      angleDeg: wrap180(start.angleDeg + part * wrap180(end.angleDeg - start.angleDeg)),
      gustTwsKn: drawn(start.gustTwsKn, end.gustTwsKn),
      alongKn: drawn(start.alongKn, end.alongKn),
      acrossKn: drawn(start.acrossKn, end.acrossKn),
    };
    const waveM = drawn(startWave, fieldAt(stage + 1, WAVE));
    const driftKn = drawn(startDrift, fieldAt(stage + 1, DRIFT));
    const bareKn = drawn(startBare, fieldAt(stage + 1, BARE));
    return speedIn(index, met, isDark(stage + 1, 0, toNm), waveM, driftKn, bareKn);
  };

  const barsAt = new Map<number, number[]>();
  /** Whether no sail plan that may stand where it was sought makes the house speed. */
  const motors = (stage: number): boolean =>
    means.every(({ kind, downMinutes }, index) => {
      if (kind !== 'sails' || (downMinutes !== undefined && isDark(stage, 0, knots.distanceNm[knot]!))) return true;
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
    const startAngle = fieldAt(stage, ANGLE);
    const legEndNm = knots.legEndNm[knot]!;
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
      if (startAngle * fieldAt(stage + 1, ANGLE) < 0 && Math.abs(startAngle) > 90) return Number.NaN;
    }
    // Inner steps are sailed each at the speed of its start: the first counts in whole, the end of the last not at all.
    const lastStep = 1 - Math.min(hours, stepMinutes / 60) / hours;
    const lateKn = Number.isNaN(endKn)
      ? lateSmgKn(stage, index, restNm, atNm, lastStep)
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
      knot = at === knotCount - 1 || knots.distanceNm[at + 1] === fromNm ? at - 1 : at;
      seekFrom(stage, fromNm);
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
