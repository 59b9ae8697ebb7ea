import { CAUTION } from '../../output/output.js';
import type { Fill } from '../drawing/palette.js';
import { patternOf } from '../drawing/patternOf.js';
import { element, escaped } from '../drawing/svg.js';
import { tag } from './html.js';
import { REPORT_SCRIPT } from './script.js';
import { STYLE } from './style.js';

/** A part of a report under a heading. */
export interface Section {
  readonly id: string;
  readonly title: string;
  readonly markup: string;
}

/** What a report is put together from. */
export interface ReportParts {
  readonly title: string;
  /** The first line: what is wrong with the whole of it, and the caution. */
  readonly firstLine?: string;
  /** What else must be known before anything is read. */
  readonly status: readonly string[];
  /** The answer in three lines, each as markup. */
  readonly answer: readonly string[];
  /** What was warned of, to be seen before anything else is read. */
  readonly warnings?: readonly string[];
  readonly sections: readonly Section[];
  /** Fills of sail plans that charts take. */
  readonly fills: readonly Fill[];
}

/** A report as one file of HTML that takes nothing from elsewhere. */
export function documentOf({
  title,
  firstLine = CAUTION,
  status,
  answer,
  warnings = [],
  sections,
  fills,
}: ReportParts): string {
  return `<!doctype html>\n${tag(
    'html',
    { lang: 'en' },
    tag(
      'head',
      {},
      tag('meta', { charset: 'utf-8' }),
      // The report asks nobody for anything, and a browser is told to see to it.
      tag('meta', {
        'http-equiv': 'Content-Security-Policy',
        content: "default-src 'none'; style-src 'unsafe-inline'; script-src 'unsafe-inline'",
      }),
      tag('meta', { name: 'viewport', content: 'width=device-width, initial-scale=1' }),
      tag('title', {}, escaped(title)),
      tag('style', {}, STYLE),
    ),
    tag(
      'body',
      {},
      tag('header', {}, tag('p', { class: 'caution' }, escaped(firstLine))),
      patterns(fills),
      tag(
        'main',
        {},
        ...status.map((line) => tag('p', { class: 'status' }, escaped(line))),
        tag('h1', {}, escaped(title)),
        tag('ul', { class: 'answer' }, ...answer.map((line) => tag('li', {}, line))),
        ...(warnings.length === 0
          ? []
          : [tag('ul', { class: 'warned', 'aria-label': 'Warnings' }, ...warnedOf(warnings))]),
        tag(
          'nav',
          { 'aria-label': 'Parts of this report' },
          tag(
            'ul',
            {},
            ...sections.map(({ id, title: name }) => tag('li', {}, tag('a', { href: `#${id}` }, escaped(name)))),
          ),
        ),
        ...sections.map(({ id, title: name, markup }) =>
          tag(
            'section',
            { id, 'aria-labelledby': `${id}-title` },
            tag('h2', { id: `${id}-title` }, escaped(name)),
            markup,
          ),
        ),
      ),
      tag('script', {}, REPORT_SCRIPT),
    ),
  )}\n`;
}

/** Warnings, and how many more stand further down. */
const warnedOf = (warnings: readonly string[]) =>
  [
    ...warnings.slice(0, MOST_WARNED),
    ...(warnings.length > MOST_WARNED ? [`${warnings.length - MOST_WARNED} more warnings below`] : []),
  ].map((line) => tag('li', {}, escaped(line)));

const MOST_WARNED = 8;

/** The patterns of all charts, once. */
function patterns(fills: readonly Fill[]): string {
  const hatch = element(
    'pattern',
    { id: 'hatch', width: 6, height: 6, patternUnits: 'userSpaceOnUse', patternTransform: 'rotate(45)' },
    element('path', { class: 'hatch-line', d: 'M3 0V6' }),
  );
  return tag(
    'svg',
    { xmlns: 'http://www.w3.org/2000/svg', width: 0, height: 0, 'aria-hidden': 'true', style: 'position:absolute' },
    element('defs', {}, hatch, ...new Set(fills.map(patternOf))),
  );
}
