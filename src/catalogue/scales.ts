import { heldBetween, type Points } from '../rising.js';
import type { LimitByAngle } from '../sail/sail.js';
import { tenth } from '../units.js';
import { checkNumber } from './checkNumber.js';
import { gustOf } from './figure.js';

/**
 * Half width over foot from which a sail measures as a spinnaker, under it as a headsail (S29; the rating rule by S6).
 * @example
 * SPINNAKER_MID_GIRTH // 0.75
 */
export const SPINNAKER_MID_GIRTH = 0.75;

/**
 * Whether a sail set flying is a headsail (a code zero) or a spinnaker: half width of 75 % of the foot and more.
 * @example
 * classByMidGirth(0.6) // 'headsail'
 * classByMidGirth(0.8) // 'spinnaker'
 */
export const classByMidGirth = (midGirthRatio: number): 'headsail' | 'spinnaker' =>
  midGirthRatio >= SPINNAKER_MID_GIRTH ? 'spinnaker' : 'headsail';

/** What a code sail is good for, by its mid-girth. */
export interface CodeSail {
  readonly awaMinDeg: number;
  readonly awaMaxDeg: number;
  /** AWS in the gust. */
  readonly awsMaxKn: LimitByAngle;
  /** True wind in the gust. */
  readonly twsMaxKn: number;
  /** Apparent angle at which it draws best. */
  readonly bestAwaDeg: number;
  /** Area over that of a symmetric spinnaker on the same luff. */
  readonly areaShare: number;
}

// Rows: 0.60 the flat code sail of 55 to 65 % (40 to 100°, to 18 kn AWS, common practice); 0.65 the cruising code zero of 60 to 70 %
// (S21, S26: 45 to 130°, 15 kn AWS, about 25 kn true); 0.75 the least half width of a racing one (S23, S29: to 12 kn AWS, common
// practice; its 40 to 110° are a racer's, who draws the wind forward, and were not taken). All else is a placeholder: the
// ends, the limit at the close end, true wind off 0.65, best angles. The flatter points higher and stands more.
const SCALE = {
  awaMinDeg: [
    [0.5, 38],
    [0.6, 40],
    [0.65, 45],
    [0.75, 50],
  ],
  awaMaxDeg: [
    [0.5, 90],
    [0.6, 100],
    [0.65, 130],
  ],
  closeMeanKn: [
    [0.6, 16],
    [0.65, 13],
    [0.75, 10],
  ],
  wideMeanKn: [
    [0.6, 18],
    [0.65, 15],
    [0.75, 12],
  ],
  trueMeanKn: [
    [0.6, 27],
    [0.65, 25],
    [0.75, 22],
  ],
  bestAwaDeg: [
    [0.5, 60],
    [0.65, 75],
    [0.75, 90],
  ],
  // 30 to 40 % less than a symmetric on the same luff (S22), taken for the 60 to 70 % of cruising code zeros (S21).
  areaShare: [
    [0.5, 0.5],
    [0.75, 0.75],
  ],
} as const satisfies Record<string, Points>;

/**
 * The code sail of a mid-girth ratio from 0.50 to 0.75, straight between the rows of the scale.
 * @throws InputError where the ratio is none of those
 * @example
 * codeSailOf(0.55) // { awaMinDeg: 39, awaMaxDeg: 95, bestAwaDeg: 65, twsMaxKn: 35.1, … }
 */
export function codeSailOf(midGirthRatio: number): CodeSail {
  checkNumber('midGirthRatio', midGirthRatio, 0.5, SPINNAKER_MID_GIRTH);
  const at = (points: Points) => heldBetween(points, midGirthRatio)!;
  const [awaMinDeg, awaMaxDeg] = [tenth(at(SCALE.awaMinDeg)), tenth(at(SCALE.awaMaxDeg))];
  return {
    awaMinDeg,
    awaMaxDeg,
    awsMaxKn: [
      [awaMinDeg, gustOf(at(SCALE.closeMeanKn))],
      [awaMaxDeg, gustOf(at(SCALE.wideMeanKn))],
    ],
    twsMaxKn: gustOf(at(SCALE.trueMeanKn)),
    bestAwaDeg: tenth(at(SCALE.bestAwaDeg)),
    areaShare: at(SCALE.areaShare),
  };
}

/** What an overlapping genoa is good for, by its overlap. */
export interface GenoaByOverlap {
  readonly awaMinDeg: number;
  readonly awaMaxDeg: number;
  /** AWS in the gust. */
  readonly awsMaxKn: number;
}

// 110 %: 25 to 135°, to 20 kn (S32); 135 to 145 %: 28 to 140° (S32; its best wind of 12 to 13 kn is no limit); 150 %: 30 to 140°, to
// 15 to 18 kn AWS (common practice), of which the lower end.
const GENOA = {
  awaMinDeg: [
    [110, 25],
    [135, 28],
    [145, 28],
    [150, 30],
  ],
  awaMaxDeg: [
    [110, 135],
    [135, 140],
  ],
  meanMaxKn: [
    [110, 20],
    [150, 15],
  ],
} as const satisfies Record<string, Points>;

/**
 * The genoa of an overlap (LP over J) of 100 to 150 %, straight between the published sizes and held below them.
 * @throws InputError where the overlap is none of those
 * @example
 * genoaOf(135) // { awaMinDeg: 28, awaMaxDeg: 140, awsMaxKn: 21.9 }
 */
export function genoaOf(overlapPercent: number): GenoaByOverlap {
  checkNumber('overlapPercent', overlapPercent, 100, 150);
  const at = (points: Points) => heldBetween(points, overlapPercent)!;
  return {
    awaMinDeg: tenth(at(GENOA.awaMinDeg)),
    awaMaxDeg: tenth(at(GENOA.awaMaxDeg)),
    awsMaxKn: gustOf(at(GENOA.meanMaxKn)),
  };
}
