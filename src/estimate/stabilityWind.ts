import { KG_PER_LB, M_PER_FOOT } from '../units.js';

/**
 * The mean wind that about lifts a hull of a catamaran abeam, knots: 9.8 · √(0.5 · BCL · D / (SA · HCOE)) in feet and pounds, a
 * gust of 40 % over it included (Practical Sailor 2021, S9). BCL are the hull centres, D the displacement, SA the sail area, HCOE the
 * height of its centre of effort.
 *
 * @example
 * stabilityWindKn({ hullCentresM: 6, displacementKg: 14000, sailAreaM2: 120, centreOfEffortM: 9.5 }) // 26.92… */
export function stabilityWindKn({
  hullCentresM,
  displacementKg,
  sailAreaM2,
  centreOfEffortM,
}: {
  readonly hullCentresM: number;
  readonly displacementKg: number;
  readonly sailAreaM2: number;
  readonly centreOfEffortM: number;
}): number {
  const momentFtLb = 0.5 * (hullCentresM / M_PER_FOOT) * (displacementKg / KG_PER_LB);
  return 9.8 * Math.sqrt(momentFtLb / ((sailAreaM2 / M_PER_FOOT ** 2) * (centreOfEffortM / M_PER_FOOT)));
}
