import { placeholder } from './figure.js';

/** A range with the value to reckon with: low ≤ mid ≤ high. */
export interface Band {
  readonly low: number;
  readonly mid: number;
  readonly high: number;
}

/**
 * What sails are made of, as far as it matters for their lives.
 * @example
 * CLOTHS // ['woven-polyester', 'storm-polyester', …]
 */
export const CLOTHS = [
  'woven-polyester',
  'storm-polyester',
  'laminate',
  'nylon-light',
  'nylon',
  'nylon-heavy',
] as const;
/** The name of a cloth. */
export type ClothName = (typeof CLOTHS)[number];

export const band = (low: number, mid: number, high: number): Band => ({ low, mid, high });
/** A range with its middle half-way. */
export const between = (low: number, high: number): Band => band(low, (low + high) / 2, high);
/** Prices, none of which has a source. */
export const eur = (from: number, to: number) => placeholder(between(from, to));

/** What a sail of a kind costs more or less than its cloth says. */
export const EUR_PER_M2 = { code: eur(90, 160), symmetric: eur(30, 60), vented: eur(70, 130) } as const;
