import type { TrackPoint } from '../route/route.js';
import { conditionsAt } from '../sailing/sailing.js';
import { daylightAt } from '../sun/sun.js';
import type { WeatherAt } from '../weather/weather.js';
import { bareDriftSmgKn, hoveToSmgKn } from './drift.js';
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
  readonly means: readonly Means[];
  readonly tables: readonly MeansTables[];
  /** The limit gust above which no sail plan may be carried. */
  readonly lastStormKn: number;
  readonly house: SettledOptions['house'];
}

/** The passage as the search sees it. */
export interface RouteTable {
  /** Distance at the end of a stage under a means, in whole and beyond the route's end if so far; NaN where it is barred. */
  advance(stage: number, means: number, fromNm: number): number;
  /** Speed made good at the start of a stage if no window, wave or rule barred it; NaN without a speed. */
  openSmgKn(stage: number, means: number, distanceNm: number): number;
  /** Bars a means around a place in a stage, where sailing it without tables met a bar that the table does not hold. */
  bar(stage: number, means: number, atNm: number): void;
  /** Whether it is dark so many minutes after the start of a stage. */
  isDark(stage: number, minutes: number, distanceNm: number): boolean;
}

/** Weather, and speeds with it, are tabled at this distance along the track; between its knots they run straight. */
const KNOT_NM = 10;
/** A bar that the tables do not hold is taken to reach so far. */
const BAR_NM = 5;
const FILLED = 1;
const WINDLESS = 2;
/** The sun is asked at this distance: it sets within 40 s of what it does in between. */
const SUN_NM = 20;

/**
 * The speeds of all means along the track, at the start of every stage and every ten miles, filled where the search comes. A stage
 * is sailed at the mean of the speeds at its two ends. What this leaves out is small beside a forecast's errors, and what is chosen is
 * sailed again without tables.
 */
export function routeTable(parts: RouteTableParts): RouteTable {
  const { trackAt, lengthNm, weatherAt, stageEpochSeconds, means, tables, house, lastStormKn } = parts;
  const knots = knotsOf(trackAt, lengthNm);
  const count = means.length;
  const stages = stageEpochSeconds.length - 1;
  const rowLength = knots.distanceNm.length * count;
  const smgKn = new Float32Array((stages + 1) * rowLength);
  const angleDeg = new Float32Array((stages + 1) * knots.distanceNm.length);
  const known = new Uint8Array((stages + 1) * knots.distanceNm.length);
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

  const barsAt = new Map<number, number[]>();
  const fill = (stage: number, knot: number): void => {
    const at = stage * knots.distanceNm.length + knot;
    known[at] = FILLED;
    const first = at * count;
    const point = knots.points[knot]!;
    const weather = weatherAt(point.latDeg, point.lonDeg, stageEpochSeconds[stage]!);
    if (weather === undefined) {
      known[at] = WINDLESS;
      smgKn.fill(Number.NaN, first, first + count);
      return;
    }
    const dark = isDark(stage, 0, point.distanceNm);
    const conditions = conditionsAt(point, weather, house, squallFactor(house, point.latDeg, dark));
    const met = metOf(conditions);
    angleDeg[at] = met.angleDeg;
    const { nightReefAboveKn } = house;
    const reefedFurther = dark && nightReefAboveKn !== null && met.twsKn > nightReefAboveKn;
    let best = Number.NEGATIVE_INFINITY;
    for (let i = 0; i < count; i += 1) {
      const { kind, waveMaxM } = means[i]!;
      const table = (reefedFurther ? tables[i]!.byNight : undefined) ?? tables[i]!.usual;
      let speed = Number.NaN;
      if (kind === 'hove-to') speed = hoveToSmgKn(conditions);
      else if (kind === 'bare-poles') {
        if (met.gustTwsKn > lastStormKn) speed = bareDriftSmgKn(conditions);
      } else if (kind === 'motor') {
        if (best < house.motorBelowKn!) speed = table!.smgAt(met);
      } else if (table !== undefined && !(waveMaxM !== undefined && (weather.waveHeightM ?? 0) > waveMaxM)) {
        speed = table.smgAt(met);
        // Sail plans come before the engine.
        if (speed > best) best = speed;
      }
      smgKn[first + i] = speed;
    }
  };

  /** Speed at a distance, between its knots; NaN where one of them has none. */
  let knot = 0;
  let share = 0;
  const seek = (stage: number, distanceNm: number): void => {
    const at = knots.before(distanceNm);
    const [from, to] = [knots.distanceNm[at]!, knots.distanceNm[at + 1]!];
    knot = at;
    share = Math.min(1, Math.max(0, (distanceNm - from) / (to - from)));
    const row = stage * knots.distanceNm.length + at;
    if (known[row] === 0) fill(stage, at);
    if (known[row + 1] === 0) fill(stage, at + 1);
    // Near a coast a knot may lie where there is no wind: the other stands for the way between.
    if (known[row] === WINDLESS) share = 1;
    else if (known[row + 1] === WINDLESS) share = 0;
  };
  const smgAt = (stage: number, index: number): number => {
    const at = (stage * knots.distanceNm.length + knot) * count + index;
    if (share === 0) return smgKn[at]!;
    if (share === 1) return smgKn[at + count]!;
    return smgKn[at]! * (1 - share) + smgKn[at + count]! * share;
  };
  const angleAt = (stage: number): number =>
    angleDeg[stage * knots.distanceNm.length + (share < 0.5 ? knot : knot + 1)]!;

  const sailed = (stage: number, index: number, fromNm: number): number => {
    const { downMinutes, gybesByDay } = means[index]!;
    const hours = (stageEpochSeconds[stage + 1]! - stageEpochSeconds[stage]!) / 3600;
    if (downMinutes !== undefined && isDark(stage, 0, fromNm)) return Number.NaN;
    const bars = barsAt.get(stage * count + index);
    if (bars?.some((atNm) => Math.abs(atNm - fromNm) < BAR_NM)) return Number.NaN;
    seek(stage, fromNm);
    const startKn = smgAt(stage, index);
    const startAngle = angleAt(stage);
    if (Number.isNaN(startKn)) return Number.NaN;
    const legEndNm = knots.legEndNm[knot]!;
    let toNm = fromNm + startKn * hours;
    let sailedHours = 0;
    if (toNm > legEndNm && legEndNm < lengthNm) {
      // Round the waypoint, on at the speed beyond it.
      sailedHours = (legEndNm - fromNm) / startKn;
      seek(stage, legEndNm);
      const beyondKn = smgAt(stage, index);
      if (Number.isNaN(beyondKn)) return Number.NaN;
      toNm = legEndNm + beyondKn * (hours - sailedHours);
    }
    if (downMinutes !== undefined && isDark(stage + 1, downMinutes, toNm)) return Number.NaN;
    seek(stage + 1, Math.min(lengthNm, Math.max(0, toNm)));
    const endKn = smgAt(stage + 1, index);
    if (Number.isNaN(endKn)) return Number.NaN;
    if (gybesByDay && (isDark(stage, 0, fromNm) || isDark(stage + 1, 0, toNm))) {
      const endAngle = angleAt(stage + 1);
      if (startAngle * endAngle < 0 && Math.abs(startAngle) > 90) return Number.NaN;
    }
    if (sailedHours > 0)
      return Math.max(0, legEndNm + ((toNm - legEndNm) / (hours - sailedHours) + endKn) * 0.5 * (hours - sailedHours));
    return Math.max(0, fromNm + (startKn + endKn) * 0.5 * hours);
  };

  // Remembered by stage, whole mile and means: the search asks for the same again and again.
  const miles = Math.ceil(lengthNm) + 2;
  const runs = new Float64Array(miles * count);
  const stageOfRun = new Int32Array(miles * count).fill(-1);
  const runFrom = (stage: number, index: number, mile: number): number => {
    const at = mile * count + index;
    if (stageOfRun[at] !== stage) {
      stageOfRun[at] = stage;
      const fromNm = Math.min(mile, lengthNm);
      runs[at] = sailed(stage, index, fromNm) - fromNm;
    }
    return runs[at]!;
  };
  return {
    isDark,
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
      stageOfRun.fill(-1);
    },
    advance(stage, index, fromNm) {
      const mile = Math.floor(fromNm);
      const [lower, upper] = [runFrom(stage, index, mile), runFrom(stage, index, mile + 1)];
      const part = fromNm - mile;
      const run = lower * (1 - part) + upper * part;
      return Number.isNaN(run) ? sailed(stage, index, fromNm) : fromNm + run;
    },
  };
}

interface Knots {
  readonly distanceNm: Float64Array;
  readonly points: readonly TrackPoint[];
  readonly legEndNm: Float64Array;
  /** The last knot at or before a distance that has another after it on the same leg. */
  before(distanceNm: number): number;
}

/** Knots every ten miles or less; a waypoint between legs is two, so that nothing is drawn across a turn. */
function knotsOf(trackAt: (distanceNm: number) => TrackPoint, lengthNm: number): Knots {
  const points: TrackPoint[] = [];
  const legStarts: number[] = [];
  const legStartNm: number[] = [];
  for (let startNm = 0; startNm < lengthNm; ) {
    const { legEndNm } = trackAt(startNm);
    const cells = Math.max(1, Math.ceil((legEndNm - startNm) / KNOT_NM));
    legStarts.push(points.length);
    legStartNm.push(startNm);
    for (let cell = 0; cell < cells; cell += 1) points.push(trackAt(startNm + ((legEndNm - startNm) * cell) / cells));
    // At the very waypoint the course is that of the next leg.
    points.push({ ...trackAt(legEndNm - 1e-6), distanceNm: legEndNm });
    startNm = legEndNm;
  }
  const distanceNm = Float64Array.from(points, (point) => point.distanceNm);
  return {
    distanceNm,
    points,
    legEndNm: Float64Array.from(points, (point) => point.legEndNm),
    before(wantedNm) {
      let leg = legStarts.length - 1;
      while (leg > 0 && legStartNm[leg]! > wantedNm) leg -= 1;
      const first = legStarts[leg]!;
      const last = (legStarts[leg + 1] ?? points.length) - 2;
      const spacing = distanceNm[first + 1]! - distanceNm[first]!;
      return Math.min(last, Math.max(first, first + Math.floor((wantedNm - distanceNm[first]!) / spacing)));
    },
  };
}
