export { checkPolars } from './checkPolars.js';
export { type PolarDegrees, type PolarSpeed, polarColumn, polarDegrees, polarSpeed } from './polarSpeed.js';
export { type ReadPolarsOptions, readPolars } from './readPolars.js';

/**
 * Boat speed of one sail plan, knots through the water, by the true wind and its angle. `stwKn[i * twsKn.length + j]` is
 * the speed at `twaDeg[i]` (0 to 180, either tack) and `twsKn[j]`; both lists rise.
 */
export interface Polar {
  readonly twsKn: readonly number[];
  readonly twaDeg: readonly number[];
  readonly stwKn: readonly number[];
  /** Height above the sea to which `twsKn` refers; absent: 10 m. */
  readonly windHeightM?: number;
  /** Whether TWA is to the course through the water (absent) or to the heading, which leeway turns off it. */
  readonly twaReference?: TwaReference;
}

/** What the TWA of a polar is counted from. */
export type TwaReference = 'course' | 'heading';

/**
 * Polars by the id of their sail plan. `designed` and `estimated` polars are sailed at a skipper's factor of 0.9 unless the boat says
 * otherwise. Estimated ones come with how far they may be off.
 */
export interface PolarSet {
  readonly plans: Readonly<Record<string, Polar>>;
  readonly status: 'measured' | 'designed' | 'estimated';
  /** The slowest and fastest speeds within the bands of what an estimate assumes, on the same winds and angles. */
  readonly low?: Readonly<Record<string, Polar>>;
  readonly high?: Readonly<Record<string, Polar>>;
  /** The estimate with one assumption moved to an end of its band; plans it does not move are left out. */
  readonly variants?: readonly PolarVariant[];
  /** What an estimate rests on, in words for people. */
  readonly basis?: readonly string[];
}

/** An estimate in which one assumption stands at an end of its band. */
export interface PolarVariant {
  readonly assumption: Assumption;
  /** What is assumed instead, in words. */
  readonly instead: string;
  readonly plans: Readonly<Record<string, Polar>>;
}

/** What an estimate of speeds assumes without knowing it well. */
export type Assumption = 'coefficient-edition' | 'set-without-main' | 'shadow' | 'wave-exponent';

/** Their names. */
export const ASSUMPTIONS = [
  'coefficient-edition',
  'set-without-main',
  'shadow',
  'wave-exponent',
] as const satisfies readonly Assumption[];
