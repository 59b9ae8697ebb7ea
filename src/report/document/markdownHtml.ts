import MarkdownIt from 'markdown-it';
import { escaped } from '../drawing/svg.js';
import { scrolled } from './dataTable.js';
import type { Figures } from './figures.js';

/** A cell of a table in a text in Markdown: which table, row and column, from 0, and what stands first in its row. */
export interface MarkdownCell {
  readonly table: number;
  readonly row: number;
  readonly column: number;
  readonly label: string;
}

/** Where the figures of a text are in the JSON beside it. */
export interface Tied {
  readonly figures: Figures;
  /** Those of a cell, or of what stands in no table. */
  readonly pathsOf: (cell: MarkdownCell | undefined) => readonly string[];
}

/** Markdown of our own reports as HTML: no markup of its own goes through, headings go down so many levels, tables scroll in themselves. */
export function markdownHtml(sections: readonly string[], down = 0, tied?: Tied): string {
  const markdown = new MarkdownIt({ html: false, linkify: false });
  const tokens = markdown.parse(sections.filter((section) => section !== '').join('\n\n'), {});
  let cell = { table: -1, row: -1, column: -1, label: '' };
  let isInTable = false;
  for (const token of tokens) {
    const { type, children } = token;
    if (type === 'heading_open' || type === 'heading_close')
      token.tag = `h${Math.min(6, Number(token.tag.slice(1)) + down)}`;
    if (type === 'table_open') cell = { ...cell, table: cell.table + 1, row: -2 };
    if (type === 'table_open' || type === 'table_close') isInTable = type === 'table_open';
    if (type === 'tr_open') cell = { ...cell, row: cell.row + 1, column: -1, label: '' };
    if (type === 'th_open' || type === 'td_open') cell = { ...cell, column: cell.column + 1 };
    const said = (children ?? []).map(({ content }) => content).join('');
    if (type !== 'inline' || tied === undefined || children?.some(({ type: part }) => part !== 'text')) continue;
    if (cell.column === 0) cell = { ...cell, label: said };
    if (isInTable && cell.row < 0) continue;
    const [first] = children ?? [];
    if (first === undefined) continue;
    first.type = 'html_inline';
    first.content = tied.figures.tied(said, ...tied.pathsOf(isInTable ? cell : undefined));
    token.children = [first];
  }
  const { rules } = markdown.renderer;
  rules.table_open = () => `${OPEN}<table>`;
  rules.table_close = () => `</table>${CLOSE}`;
  // Headers without a text are none.
  return markdown.renderer.render(tokens, markdown.options, {}).replace(/<th><\/th>/g, '<td></td>');
}

const [OPEN, CLOSE] = scrolled(escaped('Table'), '\u0000').split('\u0000') as [string, string];
