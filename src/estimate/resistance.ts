import { GRAVITY } from '../units.js';
import { type Particulars, SEA_WATER } from './particulars.js';

/** Resistance of the hull by speed through the water, newtons. */
export interface Resistance {
  /** Factor on friction and waves together. */
  readonly scale: number;
  /** Wave resistance at a Froude number of 0.4 as a share of the weight, before the scale. */
  readonly waveShare: number;
  readonly waveExponent: number;
}

/** Froude number at which the wave resistance is stated. */
const FROUDE = 0.4;

/** Friction, newtons, at a speed in m/s: the ITTC-57 line, C = 0.075 / (log10 Re − 2)², on the wetted area (the line from memory). */
export function frictionN(speedMps: number, { waterlineM, wettedAreaM2 }: Particulars): number {
  const reynolds = (speedMps * waterlineM) / SEA_WATER.viscosityM2S;
  // The line has a pole at Re = 100; a boat that slow is not sailing.
  if (reynolds < 1e4) return 0;
  const coefficient = 0.075 / (Math.log10(reynolds) - 2) ** 2;
  return 0.5 * SEA_WATER.densityKgM3 * speedMps ** 2 * wettedAreaM2 * coefficient;
}

/** Speed over that of a Froude number of 0.4. */
function ofWaveSpeed(speedMps: number, { waterlineM }: Particulars): number {
  return speedMps / (FROUDE * Math.sqrt(GRAVITY * waterlineM));
}

/** Resistance, newtons, at a speed in m/s: scale · (friction + waveShare · weight · (V / V at Fn 0.4)^exponent). */
export function resistanceN(speedMps: number, of: Particulars, hull: Resistance): number {
  const waves = hull.waveShare * of.displacementKg * GRAVITY * ofWaveSpeed(speedMps, of) ** hull.waveExponent;
  return hull.scale * (frictionN(speedMps, of) + waves);
}
