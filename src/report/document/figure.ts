import { escaped } from '../drawing/svg.js';
import type { Figures } from './figures.js';
import { tag } from './html.js';

/** Widths that charts are drawn for: a page or A4, and a phone. Each shows the one that fits. */
const WIDTHS = { wide: 720, narrow: 344 } as const;

/** A chart that is drawn for a width. */
export interface Chart {
  readonly title: string;
  /** What it shows, in words, for who cannot see it. */
  readonly says: string;
  /** The same as markup, its figures with their places; absent: as it is. */
  readonly caption?: string;
  /** What is told instead where there is nothing to draw. */
  readonly nothing?: string;
  /** The drawing, without its outermost element. */
  readonly draw: (width: number) => { readonly markup: string; readonly height: number };
  /** Whether marks in it lead somewhere, so that it is no single picture. */
  readonly hasLinks?: boolean;
}

/** A chart whose words have their figures tied to these places of the JSON. */
export const captioned = (chart: Chart, { tied }: Figures, ...paths: readonly string[]): Chart => ({
  ...chart,
  caption: tied(chart.says, ...paths),
});

/** A chart in both widths with what it says in words, notes below, and the table behind it. */
export function figureOf(chart: Chart, notes: readonly string[], ...tables: readonly string[]): string {
  if (chart.nothing !== undefined) return tag('p', {}, escaped(chart.nothing));
  return tag(
    'figure',
    {},
    ...Object.entries(WIDTHS).map(([name, width]) => drawn(chart, width, name)),
    tag('figcaption', {}, tag('p', {}, chart.caption ?? escaped(chart.says)), ...notes),
    ...tables,
  );
}

function drawn({ title, says, draw, hasLinks = false }: Chart, width: number, name: string): string {
  const { markup, height } = draw(width);
  return tag(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      class: `chart ${name}`,
      viewBox: `0 0 ${width} ${Math.ceil(height)}`,
      width,
      height: Math.ceil(height),
      // A picture hides what is in it from who does not see it; a group does not.
      role: hasLinks ? 'group' : 'img',
      'aria-label': `${title}. ${says}`,
    },
    markup,
  );
}

/** What is there for who looks for it. */
export const folded = (summary: string, ...inside: readonly string[]) =>
  tag('details', {}, tag('summary', {}, escaped(summary)), ...inside);
