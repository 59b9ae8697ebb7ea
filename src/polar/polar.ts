export { checkPolars } from './checkPolars.js';
export { type PolarSpeed, polarSpeed } from './polarSpeed.js';
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

/** Polars by the id of their sail plan. `designed` polars are sailed at a skipper's factor of 0.9 unless the boat says otherwise. */
export interface PolarSet {
  readonly plans: Readonly<Record<string, Polar>>;
  readonly status: 'measured' | 'designed';
}
