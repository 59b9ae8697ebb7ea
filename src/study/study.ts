/**
 * Many passages: routes, boats, weathers and starts, each with each, and what they have in common.
 * @packageDocumentation
 */
export { METRICS, type Metric, metricOf } from './metrics.js';
export {
  type PassageRecord,
  type PlanRecord,
  recordOf,
  type SailRecord,
  sailNamesOf,
  type WindHours,
} from './record.js';
export { type Case, caseOf, casesIn, type Study, type StudyBoat, type StudyWeather, studySailer } from './sailStudy.js';
export { startsOf } from './starts.js';
export {
  type Chance,
  type GroupSummary,
  type Spread,
  type StudySummary,
  type SummaryOptions,
  type Summing,
  summaryOf,
  summingUp,
} from './summary.js';
