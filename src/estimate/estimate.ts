export { LEAST_BAND } from './assumptions.js';
export { estimatePolars } from './estimatePolars.js';
export type { FittedTo } from './fit.js';
export type {
  Estimate,
  EstimatedPolars,
  EstimateOptions,
  KnownSpeedMet,
  Misfit,
  PointsWithout,
} from './record.js';
export type { Resistance } from './resistance.js';
export { stabilityWindKn } from './stabilityWind.js';
export { ESTIMATED_TWA_DEG, ESTIMATED_TWS_KN } from './underAssumptions.js';
