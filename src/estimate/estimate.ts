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
