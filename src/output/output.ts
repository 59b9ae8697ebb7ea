export { hoursCsv } from './hoursCsv.js';
export { type InputDigest, planJson } from './planJson.js';
export type { PlanFile } from './planSchema.js';
export { CAUTION, type PlanToPrint, planMarkdown, totalsText } from './planText.js';
export { readPlan } from './readPlan.js';
export { trackGeojson } from './trackGeojson.js';
export { trackGpx } from './trackGpx.js';
