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

/** Ends of the bands of those that have numbers. */
export const BANDS = { setWithoutMain: [1, 1.6], shadowFromDeg: [100, 160], waveExponent: [3, 8] } as const;
const band = ([from, to]: readonly [number, number]) => `of a band from ${from} to ${to}`;

const EDITION: Figure<Assumptions['edition']> = sourced(2023, 'S1');
const SET_WITHOUT_MAIN = placeholder(1.25, band(BANDS.setWithoutMain));
const SHADOW_FROM_DEG = placeholder(135, `${band(BANDS.shadowFromDeg)}°; nothing is left at ${SHADOW_END_DEG}°`);
const WAVE_EXPONENT = placeholder(5, band(BANDS.waveExponent));

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
    assumed: { ...MID, setWithoutMain: BANDS.setWithoutMain[0] },
  },
  {
    assumption: 'set-without-main',
    instead: `a sail set flying without a main has ${BANDS.setWithoutMain[1]} times the force of one set with a main`,
    assumed: { ...MID, setWithoutMain: BANDS.setWithoutMain[1] },
  },
  {
    assumption: 'shadow',
    instead: `a headsail loses its force behind a main from AWA ${BANDS.shadowFromDeg[0]} on`,
    assumed: { ...MID, shadowFromDeg: BANDS.shadowFromDeg[0] },
  },
  {
    assumption: 'shadow',
    instead: `a headsail keeps its force behind a main up to AWA ${BANDS.shadowFromDeg[1]}`,
    assumed: { ...MID, shadowFromDeg: BANDS.shadowFromDeg[1] },
  },
  {
    assumption: 'wave-exponent',
    instead: 'wave resistance grows with the third power of speed',
    assumed: { ...MID, waveExponent: BANDS.waveExponent[0] },
  },
  {
    assumption: 'wave-exponent',
    instead: 'wave resistance grows with the eighth power of speed',
    assumed: { ...MID, waveExponent: BANDS.waveExponent[1] },
  },
];

/**
 * No band is told narrower: estimates fitted to one reported speed missed the others of the same boats by 7 % on the mean
 * (docs/accuracy.md).
 */
export const LEAST_BAND = 0.07;
