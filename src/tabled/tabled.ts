export { gustLimit } from './gustLimit.js';
export { type Met, type PlanTable, planTable } from './planTable.js';
