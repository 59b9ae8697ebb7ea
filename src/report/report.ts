/**
 * What people look at: reports as HTML and the crossover as SVG. They format records and compute nothing.
 * @packageDocumentation
 */
export { crossoverSvg } from './crossover/crossoverSvg.js';
export { planReport, type ReportOptions } from './planReport.js';
