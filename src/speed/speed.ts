export { aboardOn, breachIn, breachOf, type Winds } from './aboard.js';
export { type PlanSpeed, planSpeed } from './planSpeed.js';
export { type SailablePlan, SKIPPER_FACTOR, sailablePlans } from './sailablePlans.js';
