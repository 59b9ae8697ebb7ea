import {
  hoursCsv,
  type PlanToPrint,
  planJson,
  planMarkdown,
  trackGeojson,
  trackGpx,
  tradeoffCsv,
} from '../output/output.js';
import { planReport, type ReportOptions } from './planReport.js';

/**
 * All that `plan` writes of a plan, each text by the name of its file.
 *
 * @example
 * Object.keys(planFiles(sample.plan)) // ['hours.csv', 'plan.json', 'plan.md', 'tradeoff.csv', 'track.gpx', 'track.geojson', 'report.html']
 */
export const planFiles = (plan: PlanToPrint, options: ReportOptions = {}): Readonly<Record<string, string>> => ({
  'hours.csv': hoursCsv(plan.passage),
  'plan.json': planJson(plan),
  'plan.md': planMarkdown(plan),
  'tradeoff.csv': tradeoffCsv(plan.passage),
  'track.gpx': trackGpx(plan),
  'track.geojson': trackGeojson(plan),
  'report.html': planReport(plan, options),
});
