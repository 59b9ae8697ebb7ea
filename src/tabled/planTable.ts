import type { Window } from '../sail/sail.js';
import { isOver, windowBreach } from '../sail/sail.js';
import { aboardOn, type PlanSpeed } from '../speed/speed.js';
import { RAD_PER_DEG } from '../units.js';
import { gustLimit } from './gustLimit.js';

/** What is met at a place and time, as numbers: asked for every plan at every knot of the search's tables. */
export interface Met {
  twsKn: number;
  /** True wind off the course, positive to starboard. */
  angleDeg: number;
  gustTwsKn: number;
  /** Current along the course and across it to the right. */
  alongKn: number;
  acrossKn: number;
}

/** Speeds of a plan by true wind and its angle, from tables that fill as they are asked. */
export interface PlanTable {
  /** Speed made good along the course; NaN where the plan may not be carried. */
  smgAt(met: Met): number;
  /** The same on one heading, without a pair. */
  directSmgAt(met: Met): number;
  /** The same, were there no windows; NaN where the plan has no speed. */
  openSmgAt(met: Met): number;
}

// One knot and one degree: on the sample a table read between them differs from the polar by less than 0.02 kn.
const TWS_MOST_KN = 90;
const COLUMNS = TWS_MOST_KN + 1;
const ROWS = 181;
/** Gusts in steps of half a knot decide how near the wind a pair may sail. */
const GUSTS_A_KN = 2;
const GUST_COLUMNS = 130 * GUSTS_A_KN + 1;

const EMPTY = -2;
const NO_SPEED = -1;

// Finite, so that a corner of no weight takes no part.
const ALWAYS = 1e9;
const NEVER = -1e9;

const FINEST_DEG = 0.02;
/** How far from the best angle at a corner of the table one at its edge is looked for. */
const WIDEST_DEG = 4;
/** Between which angles off the wind a pair is looked for. */
const PAIR_DEG = { up: { from: 1, to: 89 }, down: { from: 91, to: 179 } } as const;

/** Places of what was looked up: speed, and the highest limit gust. */
const STW = 0;
const MOST = 1;

/** A pair must gain this share over the direct heading, as in `sailAlong`. */
const PAIR_GAIN = 0.005;

/**
 * A plan's speeds by table: linear between whole knots of true wind and whole degrees. The tables are made of the same
 * speeds, windows and leeway that a passage is sailed with; what is left out is that a current turns the gust a little.
 */
export function planTable(
  speed: PlanSpeed,
  windows: readonly Window[],
  keptShare: { readonly up: number; readonly down: number },
): PlanTable {
  const stw = new Float32Array(ROWS * COLUMNS).fill(EMPTY);
  // The highest limit gust at which the windows let it be carried; lower than any where they do not.
  const most = new Float32Array(ROWS * COLUMNS);
  // By wind and gust: speed into the wind or down it of the best pair, and its angle; NaN not known yet.
  const pairs = {
    up: {
      kn: new Float32Array(COLUMNS * GUST_COLUMNS).fill(Number.NaN),
      deg: new Float32Array(COLUMNS * GUST_COLUMNS),
    },
    down: {
      kn: new Float32Array(COLUMNS * GUST_COLUMNS).fill(Number.NaN),
      deg: new Float32Array(COLUMNS * GUST_COLUMNS),
    },
  };

  /** Speed at a true wind and an angle, and the highest limit gust at which the windows let it be carried. */
  const sailed = (twsKn: number, angleDeg: number): readonly [stwKn: number, mostKn: number] => {
    const stwKn = speed.at(twsKn, angleDeg);
    if (stwKn === undefined) return [NO_SPEED, NEVER];
    const winds = { twsKn, gustWind: { eastKn: 0, northKn: -twsKn }, gustTwsKn: twsKn };
    const felt = aboardOn(speed, winds, -angleDeg, angleDeg, stwKn);
    let limit = ALWAYS;
    for (const window of windows) {
      if (windowBreach(window, { ...felt, gustAwsKn: 0, gustTwsKn: 0 }) !== undefined) return [stwKn, NEVER];
      limit = Math.min(limit, gustLimit(window, felt.awaDeg, angleDeg, stwKn));
    }
    return [stwKn, Math.max(NEVER, limit)];
  };
  const fill = (cell: number) => {
    const [stwKn, mostKn] = sailed(cell % COLUMNS, Math.floor(cell / COLUMNS));
    stw[cell] = stwKn;
    most[cell] = mostKn;
  };

  const makes = (stwKn: number, angleDeg: number) => stwKn * Math.abs(Math.cos(angleDeg * RAD_PER_DEG));
  // The best pair looked for last: speed into the wind or down it, 0 where there is none, and its angle.
  const paired = new Float64Array(2);
  /** Looks on both sides of an angle for a better one, ever closer: the best is often the last that the windows allow. */
  const closer = (twsKn: number, gustKn: number, from: number, to: number, widestDeg: number): void => {
    for (let step = widestDeg; step > FINEST_DEG; step /= 2) {
      const middle = paired[1]!;
      for (let side = -1; side <= 1; side += 2) {
        const angleDeg = middle + side * step;
        if (angleDeg < from || angleDeg > to) continue;
        const [stwKn, mostKn] = sailed(twsKn, angleDeg);
        const madeKn = makes(stwKn, angleDeg);
        if (madeKn <= paired[0]! || isOver(gustKn, mostKn)) continue;
        paired[0] = madeKn;
        paired[1] = angleDeg;
      }
    }
  };

  /** The place of the best pair in a column of wind and one of gust, looked for where it is not known yet. */
  const pairCell = (way: 'up' | 'down', column: number, gustColumn: number): number => {
    const at = column * GUST_COLUMNS + gustColumn;
    const { kn, deg } = pairs[way];
    if (!Number.isNaN(kn[at]!)) return at;
    const gustKn = gustColumn / GUSTS_A_KN;
    const { from, to } = PAIR_DEG[way];
    paired[0] = 0;
    for (let angleDeg = from; angleDeg <= to; angleDeg += 1) {
      const cell = angleDeg * COLUMNS + column;
      if (stw[cell] === EMPTY) fill(cell);
      const madeKn = makes(stw[cell]!, angleDeg);
      if (madeKn <= paired[0]! || isOver(gustKn, most[cell]!)) continue;
      paired[0] = madeKn;
      paired[1] = angleDeg;
    }
    if (paired[0]! > 0) closer(column, gustKn, from, to, 0.5);
    kn[at] = paired[0]!;
    deg[at] = paired[1]!;
    return at;
  };

  /** Looks for the best pair in a wind and gust; one that makes no more than is asked need not be found. */
  const seekPair = (way: 'up' | 'down', twsKn: number, gustTwsKn: number, atLeastKn: number): void => {
    const { kn, deg } = pairs[way];
    const tws = Math.min(TWS_MOST_KN - 1e-6, twsKn);
    const column = Math.floor(tws);
    const share = tws - column;
    const gusts = Math.min(GUST_COLUMNS - 1, gustTwsKn * GUSTS_A_KN);
    const above = Math.ceil(gusts - 1e-4);
    const low = pairCell(way, column, above);
    const high = pairCell(way, column + 1, above);
    if (kn[low]! > 0 && kn[high]! > 0) {
      // How near the wind gusts let her sail does not go evenly between them: they are rounded up.
      paired[0] = kn[low]! * (1 - share) + kn[high]! * share;
      paired[1] = deg[low]! * (1 - share) + deg[high]! * share;
      return;
    }
    const below = Math.floor(gusts + 1e-4);
    const corners = [low, high, pairCell(way, column, below), pairCell(way, column + 1, below)];
    const near = corners.reduce((best, cell) => (kn[cell]! > kn[best]! ? cell : best));
    paired[0] = 0;
    if (kn[near]! <= Math.max(0, atLeastKn)) return;
    // At the edge of what may be sailed a line between corners would be drawn across it: it is looked for near the best of them.
    const [stwKn, mostKn] = sailed(tws, deg[near]!);
    if (!isOver(gustTwsKn, mostKn)) paired[0] = Math.max(0, makes(stwKn, deg[near]!));
    paired[1] = deg[near]!;
    closer(tws, gustTwsKn, PAIR_DEG[way].from, PAIR_DEG[way].to, WIDEST_DEG);
  };

  // What was looked up last. Not variables: numbers that closures share are made anew at every writing.
  const found = new Float64Array(2);
  const lookUp = (twsKn: number, angleDeg: number): void => {
    const tws = Math.min(TWS_MOST_KN - 1e-6, twsKn);
    const angle = Math.min(180 - 1e-6, Math.abs(angleDeg));
    const column = Math.floor(tws);
    const row = Math.floor(angle);
    const cell = row * COLUMNS + column;
    if (stw[cell] === EMPTY) fill(cell);
    if (stw[cell + 1] === EMPTY) fill(cell + 1);
    if (stw[cell + COLUMNS] === EMPTY) fill(cell + COLUMNS);
    if (stw[cell + COLUMNS + 1] === EMPTY) fill(cell + COLUMNS + 1);
    const open =
      (most[cell]! > NEVER ? 1 : 0) +
      (most[cell + 1]! > NEVER ? 1 : 0) +
      (most[cell + COLUMNS]! > NEVER ? 1 : 0) +
      (most[cell + COLUMNS + 1]! > NEVER ? 1 : 0);
    const lowest = Math.min(stw[cell]!, stw[cell + 1]!, stw[cell + COLUMNS]!, stw[cell + COLUMNS + 1]!);
    // At the edge of a window or a polar a line between corners would be drawn across it.
    if ((open > 0 && open < 4) || (open > 0 && lowest < 0)) found.set(sailed(twsKn, Math.abs(angleDeg)));
    else if (lowest < 0) {
      found[STW] = NO_SPEED;
      found[MOST] = NEVER;
    } else {
      const right = tws - column;
      const below = angle - row;
      // Written out: asked for every plan at every knot.
      const b = cell + 1;
      const c = cell + COLUMNS;
      const d = c + 1;
      found[STW] =
        (stw[cell]! * (1 - right) + stw[b]! * right) * (1 - below) + (stw[c]! * (1 - right) + stw[d]! * right) * below;
      found[MOST] =
        open === 0
          ? NEVER
          : (most[cell]! * (1 - right) + most[b]! * right) * (1 - below) +
            (most[c]! * (1 - right) + most[d]! * right) * below;
    }
  };

  /** Speed made good on the heading that with the current keeps the course; that heading is the last looked up. */
  const directSmg = ({ twsKn, angleDeg, alongKn, acrossKn }: Met): number => {
    lookUp(twsKn, angleDeg);
    let stwKn = found[STW]!;
    if (acrossKn === 0) return stwKn < 0 ? Number.NaN : stwKn + alongKn;
    let offCos = 1;
    // Twice is near enough: a current turns the heading by a few degrees only.
    for (let turn = 0; turn < 2; turn += 1) {
      const sin = -acrossKn / stwKn;
      if (stwKn < 0 || !(Math.abs(sin) < 1)) return Number.NaN;
      const offDeg = Math.asin(sin) / RAD_PER_DEG;
      offCos = Math.sqrt(1 - sin * sin);
      const turned = Math.abs(angleDeg - offDeg);
      lookUp(twsKn, turned > 180 ? 360 - turned : turned);
      stwKn = found[STW]!;
    }
    return stwKn < 0 ? Number.NaN : stwKn * offCos + alongKn;
  };

  const pairSmg = ({ twsKn, angleDeg, gustTwsKn, alongKn, acrossKn }: Met, neededKn: number): number => {
    const cos = Math.cos(angleDeg * RAD_PER_DEG);
    if (Math.abs(cos) < 0.02) return Number.NaN;
    const way = cos > 0 ? 'up' : 'down';
    // Current along the way from the wind, and across it to the right: the course lies at −angle from there.
    const sin = Math.sin(angleDeg * RAD_PER_DEG);
    const currentUp = alongKn * cos + acrossKn * sin;
    const currentRight = acrossKn * cos - alongKn * sin;
    const needed = neededKn * cos - currentUp;
    seekPair(way, twsKn, gustTwsKn, (cos > 0 ? needed : -needed) / keptShare[way]);
    const [bestKn, pairDeg] = [paired[0]!, paired[1]!];
    if (bestKn === 0) return Number.NaN;
    const madeKn = bestKn * keptShare[way];
    const upKn = (cos > 0 ? madeKn : -madeKn) + currentUp;
    const smgKn = upKn / cos;
    if (smgKn <= neededKn) return Number.NaN;
    const rightKn = madeKn * Math.abs(Math.tan(pairDeg * RAD_PER_DEG));
    return Math.abs(-smgKn * sin - currentRight) <= rightKn ? smgKn : Number.NaN;
  };

  const allowedSmg = (met: Met): number => {
    const directKn = directSmg(met);
    return Number.isNaN(directKn) || isOver(met.gustTwsKn, found[MOST]!) ? Number.NaN : directKn;
  };

  return {
    smgAt(met) {
      const open = allowedSmg(met);
      const needed = Number.isNaN(open) ? Number.NEGATIVE_INFINITY : open + PAIR_GAIN * Math.abs(open);
      const pairKn = pairSmg(met, needed);
      return Number.isNaN(pairKn) ? open : pairKn;
    },
    directSmgAt: allowedSmg,
    openSmgAt: directSmg,
  };
}
