export { type Met, type PlanTable, planTable } from './planTable.js';
