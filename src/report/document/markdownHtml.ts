import MarkdownIt from 'markdown-it';
import { escaped } from '../drawing/svg.js';
import { scrolled } from './dataTable.js';

/** Markdown of our own reports as HTML: no markup of its own goes through, headings go down so many levels, tables scroll in themselves. */
export function markdownHtml(sections: readonly string[], down = 0): string {
  const markdown = new MarkdownIt({ html: false, linkify: false });
  const { rules } = markdown.renderer;
  const levelled: NonNullable<(typeof rules)[string]> = (tokens, index, options, _env, renderer) => {
    const token = tokens[index]!;
    token.tag = `h${Math.min(6, Number(token.tag.slice(1)) + down)}`;
    return renderer.renderToken(tokens, index, options);
  };
  rules.heading_open = levelled;
  rules.heading_close = levelled;
  rules.table_open = () => `${OPEN}<table>`;
  rules.table_close = () => `</table>${CLOSE}`;
  // Headers without a text are none.
  return markdown.render(sections.filter((section) => section !== '').join('\n\n')).replace(/<th><\/th>/g, '<td></td>');
}

const [OPEN, CLOSE] = scrolled(escaped('Table'), '\u0000').split('\u0000') as [string, string];
