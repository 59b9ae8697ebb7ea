import type { KnownSpeed } from '../boat/boat.js';
import type { Figure } from '../catalogue/catalogue.js';
import type { Polar, PolarSet, PolarVariant } from '../polar/polar.js';
import type { FittedTo } from './fit.js';
import type { Resistance } from './resistance.js';

/** How to estimate speeds. */
export interface EstimateOptions {
  /** Name of the boat's file in faults. Default `boat`. */
  readonly file?: string;
  /** The one polar of the whole boat, which the estimate is fitted to and splits between the plans. */
  readonly boatPolar?: Polar;
  /** Another estimate of the same hull, whose resistance is taken instead of fitting one. */
  readonly hullOf?: Pick<Estimate, 'resistance' | 'variantResistances'>;
  /** Whether bands are worked out too (default); without them `low` and `high` are the estimate and there are no variants. */
  readonly bands?: boolean;
  /** Winds and angles to estimate; not with a polar of the boat, whose own they then are. */
  readonly twsKn?: readonly number[];
  readonly twaDeg?: readonly number[];
}

/** A speed the owner knows beside what the estimate makes of it. */
export interface KnownSpeedMet extends KnownSpeed {
  readonly sailPlan: string;
  readonly estimatedKn: number;
  readonly misfitPercent: number;
}

/** How the estimate misses a polar of the whole boat before it is split: the best plan's speed over the polar's. */
export interface Misfit {
  readonly points: number;
  readonly meanPercent: number;
  readonly worstPercent: number;
  readonly worstTwsKn: number;
  readonly worstTwaDeg: number;
}

/** Points of a plan at which she makes no speed, or where none was found. */
export interface PointsWithout {
  readonly sailPlan: string;
  /** The sails do not drive her from rest. */
  readonly noDrive: number;
  /** They still drive her at 60 kn: something in the boat file is not right. */
  readonly noEnd: number;
}

/** What an estimate rests on. */
export interface Estimate {
  readonly fittedTo: FittedTo;
  readonly resistance: Resistance;
  /** The same for each of the variants, in their order. */
  readonly variantResistances: readonly Resistance[];
  readonly knownSpeeds: readonly KnownSpeedMet[];
  readonly misfit?: Misfit;
  /** Gust over mean wind within which a catamaran is kept from heeling too much. */
  readonly gustFactor: number;
  /** What the boat file leaves out and what is assumed, by path or name, each with its ground. */
  readonly filledIn: Readonly<Record<string, Figure<unknown>>>;
  readonly pointsWithout: readonly PointsWithout[];
}

/** Estimated polars with their bands and what they rest on. */
export interface EstimatedPolars extends PolarSet {
  readonly status: 'estimated';
  readonly low: Readonly<Record<string, Polar>>;
  readonly high: Readonly<Record<string, Polar>>;
  readonly variants: readonly PolarVariant[];
  readonly basis: readonly string[];
  readonly estimate: Estimate;
}
