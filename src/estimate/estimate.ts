export { ASSUMED } from './assumptions.js';
export { COEFFICIENTS, type CoefficientTable, coefficientsAt } from './coefficients.js';
export {
  type Estimate,
  type EstimatedPolars,
  type EstimateOptions,
  estimatePolars,
  type KnownSpeedMet,
  type Misfit,
  type PointsWithout,
} from './estimatePolars.js';
export type { FittedTo } from './fit.js';
export type { Resistance } from './resistance.js';
export { stabilityWindKn } from './stabilityWind.js';
