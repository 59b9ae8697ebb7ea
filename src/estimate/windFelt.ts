import { KN_PER_MPS } from '../units.js';

/** Density of air, kg/m³ (S1). */
const AIR_DENSITY = 1.225;

/** Roughness of the sea, metres (S1, since 2022). */
const ROUGHNESS_M = 0.005;
const REFERENCE_M = 10;

/**
 * The wind at a height over that at 10 m: ln(h / 0.005) / ln(10 / 0.005) (S1). It holds inside the estimator alone: what is logged or
 * limited is at 10 m.
 */
export function gradientAt(heightM: number): number {
  return Math.log(Math.max(heightM, 10 * ROUGHNESS_M) / ROUGHNESS_M) / Math.log(REFERENCE_M / ROUGHNESS_M);
}

/** Dynamic pressure of an apparent wind, N/m². */
export const pressureN = (awsKn: number): number => 0.5 * AIR_DENSITY * (awsKn / KN_PER_MPS) ** 2;
