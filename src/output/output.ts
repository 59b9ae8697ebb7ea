export { hoursCsv } from './hoursCsv.js';
export { type InputDigest, planJson } from './planJson.js';
export { CAUTION, type PlanToPrint, planMarkdown, totalsText } from './planText.js';
