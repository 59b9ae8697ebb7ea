/**
 * What people look at: reports as self-contained HTML, and the crossover as SVG. They format records and compute nothing.
 * @packageDocumentation
 */
export type { NamedRoute } from './charts/routesMap.js';
export type { CurveShown } from './charts/tradeoff.js';
export { crossoverSvg } from './crossover/crossoverSvg.js';
export { crossoverReport } from './crossoverReport.js';
export { REPORT_SCRIPT } from './document/script.js';
export { nextSailReport } from './nextSailReport.js';
export { planFiles } from './planFiles.js';
export { planReport, type ReportOptions } from './planReport.js';
export { type StudyReportOptions, studyReport } from './studyReport.js';
export { REPORT_STYLE, tradeoffFigure } from './tradeoffFigure.js';
export { worthReport } from './worthReport.js';
