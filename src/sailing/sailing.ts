export { type Sailing, sailAlong } from './along.js';
export { type Conditions, conditionsAt } from './conditions.js';
