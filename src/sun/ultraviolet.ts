import { getPosition } from 'suncalc';
import { RAD_PER_DEG } from '../units.js';

/** Dobson units of ozone overhead to which the approximation refers, and which are taken where nobody says more. */
const DEFAULT_OZONE_DU = 300;

/**
 * How high the sun's centre stands over the horizon at an instant and a place, degrees, lifted by refraction; negative when it is
 * down. From `suncalc`.
 * @example
 * sunHeightDeg(Date.UTC(2027, 2, 20, 12, 7) / 1000, 0, 0) // 89.80…
 */
export function sunHeightDeg(epochSeconds: number, latDeg: number, lonDeg: number): number {
  return getPosition(new Date(epochSeconds * 1000), latDeg, lonDeg).altitude;
}

/**
 * The UV index on level ground under a clear sky by the height of the sun's centre: 12.5 µ^2.42 (O₃/300)^−1.23, where µ is the sine
 * of that height; 0 when it is down. Madronich 2007, Photochem. Photobiol. 83, 1537: over a dark surface, in clean air. Cloud, the
 * light that comes back from the water, and the slope of what is lit are left out.
 * @example
 * uvIndexAt(60) // 8.82…
 */
export function uvIndexAt(sunHeightDeg: number, ozoneDu = DEFAULT_OZONE_DU): number {
  if (!(sunHeightDeg > 0)) return 0;
  return 12.5 * Math.sin(sunHeightDeg * RAD_PER_DEG) ** 2.42 * (ozoneDu / 300) ** -1.23;
}

/** The longest step over which the sun's height is drawn together: in it the index is a parabola to a hundredth. */
const STEP_SECONDS = 900;

/**
 * UV index times hours at a place from an instant on, by Simpson's rule over steps of at most a quarter of an hour. 1 UV-index hour
 * is 90 J/m² of erythemal ultraviolet. A boat's way meanwhile moves the sun by under half a degree an hour and is left out.
 */
export function uvIndexHours(
  epochSeconds: number,
  hours: number,
  latDeg: number,
  lonDeg: number,
  ozoneDu = DEFAULT_OZONE_DU,
): number {
  const steps = 2 * Math.max(1, Math.ceil((hours * 3600) / STEP_SECONDS / 2));
  const at = (step: number) =>
    uvIndexAt(sunHeightDeg(epochSeconds + (step / steps) * hours * 3600, latDeg, lonDeg), ozoneDu);
  let sum = 0;
  for (let step = 0; step <= steps; step += 1) {
    sum += at(step) * (step === 0 || step === steps ? 1 : step % 2 === 1 ? 4 : 2);
  }
  return (sum * hours) / (3 * steps);
}
