import { type Figure, placeholder, sourced } from '../catalogue/catalogue.js';
import type { Assumption } from '../polar/polar.js';

/** What the estimator assumes of sails and hull. */
export interface Assumptions {
  /** Edition of the coefficients of asymmetric spinnakers. */
  readonly edition: 2023 | 2026;
  /** Force of a sail set flying without a main over what the tables have, which is with one. */
  readonly setWithoutMain: number;
  /** AWA from which a headsail behind a main begins to lose its force; it has none left at `SHADOW_END_DEG`. */
  readonly shadowFromDeg: number;
  /** Exponent of speed in the wave resistance. */
  readonly waveExponent: number;
}

/** AWA at which nothing is left of a headsail behind a main. */
export const SHADOW_END_DEG = 170;

const EDITION: Figure<Assumptions['edition']> = sourced(2023, 'S1');
const SET_WITHOUT_MAIN = placeholder(1.25, 'of a band from 1.0 to 1.6');
const SHADOW_FROM_DEG = placeholder(135, 'of a band from 100 to 160°; nothing is left at 170°');
const WAVE_EXPONENT = placeholder(5, 'of a band from 3 to 8');

/** The assumptions with where they come from. */
export const ASSUMED = {
  edition: EDITION,
  setWithoutMain: SET_WITHOUT_MAIN,
  shadowFromDeg: SHADOW_FROM_DEG,
  waveExponent: WAVE_EXPONENT,
} as const satisfies Record<keyof Assumptions, Figure<unknown>>;

/** The middle of every band. */
export const MID: Assumptions = {
  edition: EDITION.value,
  setWithoutMain: SET_WITHOUT_MAIN.value,
  shadowFromDeg: SHADOW_FROM_DEG.value,
  waveExponent: WAVE_EXPONENT.value,
};

/** One assumption at an end of its band, the others in the middle. */
export interface Scenario {
  readonly assumption: Assumption;
  readonly instead: string;
  readonly assumed: Assumptions;
}

/** Every end of every band. */
export const SCENARIOS: readonly Scenario[] = [
  {
    assumption: 'coefficient-edition',
    instead: 'the 2026 edition of the coefficients of asymmetric sails',
    assumed: { ...MID, edition: 2026 },
  },
  {
    assumption: 'set-without-main',
    instead: 'a sail set flying without a main gains nothing by it',
    assumed: { ...MID, setWithoutMain: 1 },
  },
  {
    assumption: 'set-without-main',
    instead: 'a sail set flying without a main has 1.6 times the force of one set with a main',
    assumed: { ...MID, setWithoutMain: 1.6 },
  },
  {
    assumption: 'shadow',
    instead: 'a headsail loses its force behind a main from AWA 100 on',
    assumed: { ...MID, shadowFromDeg: 100 },
  },
  {
    assumption: 'shadow',
    instead: 'a headsail keeps its force behind a main up to AWA 160',
    assumed: { ...MID, shadowFromDeg: 160 },
  },
  {
    assumption: 'wave-exponent',
    instead: 'wave resistance grows with the third power of speed',
    assumed: { ...MID, waveExponent: 3 },
  },
  {
    assumption: 'wave-exponent',
    instead: 'wave resistance grows with the eighth power of speed',
    assumed: { ...MID, waveExponent: 8 },
  },
];

/**
 * No band is told narrower: estimates fitted to one reported speed missed the others of the same boats by 7 % on the mean
 * (docs/accuracy.md).
 */
export const LEAST_BAND = 0.07;
