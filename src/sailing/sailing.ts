export { type Sailing, type SailingBar, sailAlong } from './along.js';
export { type Conditions, conditionsAt, type GustRules, type ManoeuvreRules } from './conditions.js';
