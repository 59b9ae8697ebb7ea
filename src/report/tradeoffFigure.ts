import { type CurveShown, tradeoffsChart } from './charts/tradeoff.js';
import { figureOf } from './document/figure.js';
import { STYLE } from './document/style.js';

/**
 * The trade-off curves of one plan or of several over the same axes, as a figure to be put into a page of HTML that is styled by
 * `REPORT_STYLE`: the earliest arrival for every number of sail changes, what was chosen ringed. Names are escaped.
 *
 * @example
 * tradeoffFigure([{ name: '', curve: sample.passage.curve ?? [] }]) // '<figure><svg…'
 */
export const tradeoffFigure = (shown: readonly CurveShown[]): string => figureOf(tradeoffsChart(shown), []);

/**
 * How reports and their figures look, as CSS: light and dark, on a phone and on paper.
 *
 * @example
 * REPORT_STYLE.includes('@media print') // true
 */
export const REPORT_STYLE: string = STYLE;
