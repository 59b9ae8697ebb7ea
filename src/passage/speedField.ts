import type { TrackPoint } from '../route/route.js';
import { isOver } from '../sail/sail.js';
import { conditionsAt } from '../sailing/sailing.js';
import type { Met } from '../tabled/tabled.js';
import { wrap180 } from '../units.js';
import type { WeatherAt } from '../weather/weather.js';
import type { IsDark } from './darkness.js';
import { bareDriftSmgKn, hoveToSmgKn } from './drift.js';
import type { Knots } from './knots.js';
import type { Means } from './means.js';
import type { SettledOptions } from './options.js';
import { ruleMoment } from './ownRules.js';
import { type MeansTables, metOf, type Sea, tableIn } from './ranked.js';
import { squallFactor } from './squalls.js';

/** What speeds along a track are made of. */
export interface SpeedParts {
  readonly trackAt: (distanceNm: number) => TrackPoint;
  readonly weatherAt: WeatherAt;
  /** When stages begin, and at last the end of the last. */
  readonly stageEpochSeconds: Float64Array;
  readonly means: readonly Means[];
  readonly tables: readonly MeansTables[];
  /** The limit gust above which no sail plan may be carried. */
  readonly lastStormKn: number;
  readonly house: SettledOptions['house'];
}

/** Speeds of all means along the track at the start of every stage, filled where they are asked. */
export interface SpeedField {
  /** Goes to a distance at the start of a stage; what follows is asked there. */
  seek(stage: number, distanceNm: number): void;
  /** The same from a knot, before a waypoint where two stand at one distance. */
  seekFrom(stage: number, knot: number, distanceNm: number): void;
  /** The knot at or before that distance. */
  knot(): number;
  /** Speed made good of a means; NaN where window, wave or wind bars it. */
  smgAt(stage: number, means: number): number;
  /** True wind off the course, positive to starboard. */
  angleAt(stage: number): number;
  /** Speed at a part of a stage, in weather drawn between its two ends; it goes to the second. */
  lateSmgKn(stage: number, means: number, fromNm: number, toNm: number, part: number): number;
}

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

/** Knots and stages that are held before there is need of more. */
const FIRST_ROWS = 2048;

/** A speed that was not asked for yet. */
const UNKNOWN = -1e9;

/** Speeds at the knots, drawn straight between; where a bar begins between two, the weather is drawn and the means asked again. */
export function speedField(
  { trackAt, weatherAt, stageEpochSeconds, means, tables, house, lastStormKn }: SpeedParts,
  knots: Knots,
  isDark: IsDark,
): SpeedField {
  const knotCount = knots.distanceNm.length;
  const count = means.length;
  // A boat comes to few of the knots in a stage: rows are made as she comes. 0 is none, the first row stays empty.
  const rowOf = new Int32Array(stageEpochSeconds.length * knotCount);
  let rows = 1;
  let smgKn = new Float32Array(FIRST_ROWS * count);
  let fields = new Float64Array(FIRST_ROWS * FIELDS);
  let windless = new Uint8Array(FIRST_ROWS);
  const newRow = (): number => {
    if (rows === windless.length) {
      smgKn = wider(smgKn, new Float32Array(2 * smgKn.length));
      fields = wider(fields, new Float64Array(2 * fields.length));
      windless = wider(windless, new Uint8Array(2 * rows));
    }
    rows += 1;
    return rows - 1;
  };
  /** Speed of a means in weather; what bars the engine and the dark are asked elsewhere. */
  const speedIn = (index: number, met: Met, sea: Sea, driftKn: number, bareKn: number): number => {
    const { kind } = means[index]!;
    if (kind === 'hove-to') return driftKn;
    if (kind === 'bare-poles') return isOver(met.gustTwsKn, lastStormKn) ? bareKn : Number.NaN;
    return tableIn(means[index]!, tables[index]!, sea, met, house)?.smgAt(met) ?? Number.NaN;
  };

  /** That speed, or NaN where a rule of the caller's own bars the means there and then. */
  const ruled = (
    speedKn: number,
    index: number,
    met: Met,
    sea: Sea,
    point: TrackPoint,
    epochSeconds: number,
  ): number =>
    Number.isNaN(speedKn) || means[index]!.barredBy!(ruleMoment(point, epochSeconds, met, sea)) === undefined
      ? speedKn
      : Number.NaN;
  const isRuled = (index: number): boolean => means[index]!.barredBy !== undefined;

  const fill = (stage: number, knot: number): void => {
    const row = newRow();
    rowOf[stage * knotCount + knot] = row;
    const point = knots.points[knot]!;
    const weather = weatherAt(point.latDeg, point.lonDeg, stageEpochSeconds[stage]!);
    if (weather === undefined) {
      windless[row] = 1;
      smgKn.fill(Number.NaN, row * count, (row + 1) * count);
      return;
    }
    smgKn.fill(UNKNOWN, row * count, (row + 1) * count);
    const dark = isDark(stage, 0, point.distanceNm);
    const conditions = conditionsAt(point, weather, house, squallFactor(house, point.latDeg, dark));
    const { twsKn, angleDeg, gustTwsKn, alongKn, acrossKn } = metOf(conditions);
    const first = row * FIELDS;
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
    const row = rowOf[stage * knotCount + at]!;
    const cell = row * count + index;
    if (smgKn[cell] === UNKNOWN) {
      const first = row * FIELDS;
      met.twsKn = fields[first + TWS]!;
      met.angleDeg = fields[first + ANGLE]!;
      met.gustTwsKn = fields[first + GUST]!;
      met.alongKn = fields[first + ALONG]!;
      met.acrossKn = fields[first + ACROSS]!;
      const sea = { dark: isDark(stage, 0, knots.distanceNm[at]!), waveHeightM: fields[first + WAVE]! };
      const speed = speedIn(index, met, sea, fields[first + DRIFT]!, fields[first + BARE]!);
      smgKn[cell] = isRuled(index)
        ? ruled(speed, index, met, sea, knots.points[at]!, stageEpochSeconds[stage]!)
        : speed;
    }
    return smgKn[cell]!;
  };
  const met: Met = { twsKn: 0, angleDeg: 0, gustTwsKn: 0, alongKn: 0, acrossKn: 0 };

  // The two knots about a distance, and the share of the second. Not a variable: a number that closures share is made anew at every
  // writing.
  let knot = 0;
  const shares = new Float64Array(1);
  const seek = (stage: number, distanceNm: number): void => {
    seekFrom(stage, knots.before(distanceNm), distanceNm);
  };
  const seekFrom = (stage: number, at: number, distanceNm: number): void => {
    knot = at;
    const from = knots.distanceNm[knot]!;
    const to = knots.distanceNm[knot + 1]!;
    shares[0] = Math.min(1, Math.max(0, (distanceNm - from) / (to - from)));
    const cell = stage * knotCount + knot;
    if (rowOf[cell] === 0) fill(stage, knot);
    if (rowOf[cell + 1] === 0) fill(stage, knot + 1);
    // Near a coast a knot may lie where there is no wind: the other stands for the way between.
    if (windless[rowOf[cell]!] === 1) shares[0] = 1;
    else if (windless[rowOf[cell + 1]!] === 1) shares[0] = 0;
  };
  const fieldAt = (stage: number, field: number): number => {
    const cell = stage * knotCount + knot;
    const one = fields[rowOf[cell]! * FIELDS + field]!;
    const other = fields[rowOf[cell + 1]! * FIELDS + field]!;
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
    const sea = { dark: isDark(stage, 0, knots.distanceNm[knot]!), waveHeightM: fieldAt(stage, WAVE) };
    const speed = speedIn(index, metAt(stage), sea, fieldAt(stage, DRIFT), fieldAt(stage, BARE));
    if (!isRuled(index)) return speed;
    const soughtNm = knots.distanceNm[knot]! * (1 - share) + knots.distanceNm[knot + 1]! * share;
    return ruled(speed, index, metAt(stage), sea, trackAt(soughtNm), stageEpochSeconds[stage]!);
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
    if (windless[rowOf[(stage + 1) * knotCount + knot + (shares[0] === 1 ? 1 : 0)]!] === 1) return Number.NaN;
    const end = metAt(stage + 1);
    const drawn = (a: number, b: number) => a + (b - a) * part;
    const met: Met = {
      twsKn: drawn(start.twsKn, end.twsKn),
      angleDeg: wrap180(start.angleDeg + part * wrap180(end.angleDeg - start.angleDeg)),
      gustTwsKn: drawn(start.gustTwsKn, end.gustTwsKn),
      alongKn: drawn(start.alongKn, end.alongKn),
      acrossKn: drawn(start.acrossKn, end.acrossKn),
    };
    const sea = { dark: isDark(stage + 1, 0, toNm), waveHeightM: drawn(startWave, fieldAt(stage + 1, WAVE)) };
    const driftKn = drawn(startDrift, fieldAt(stage + 1, DRIFT));
    const bareKn = drawn(startBare, fieldAt(stage + 1, BARE));
    const speed = speedIn(index, met, sea, driftKn, bareKn);
    if (!isRuled(index)) return speed;
    const epochSeconds = drawn(stageEpochSeconds[stage]!, stageEpochSeconds[stage + 1]!);
    return ruled(speed, index, met, sea, trackAt(drawn(fromNm, toNm)), epochSeconds);
  };

  return { seek, seekFrom, knot: () => knot, smgAt, angleAt: (stage) => fieldAt(stage, ANGLE), lateSmgKn };
}

/** A list copied into a longer one. */
function wider<T extends Float32Array | Float64Array | Uint8Array>(list: T, into: T): T {
  into.set(list);
  return into;
}
