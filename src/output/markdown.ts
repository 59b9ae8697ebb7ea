import { withoutUnseen } from '../errors.js';

/** A table in Markdown. */
export function table(header: readonly string[], rows: readonly (readonly string[])[]): string {
  const line = (cells: readonly string[]) => `| ${cells.join(' | ')} |`;
  const texts = (cells: readonly string[]) => line(cells.map(inLine));
  return [texts(header), line(header.map(() => '---')), ...rows.map(texts)].join('\n');
}

/** A text of an input in which nothing is unseen. */
export function visible(text: string): string {
  return withoutUnseen(text, ' ');
}

/** A text of an input as plain text in Markdown, wherever it stands: no markup, no link, no table cell, no line end of its own. */
export function escaped(text: string): string {
  // At the beginning of a line stand the marks of lists, rules and headings, and blanks that make code of it.
  return inLine(text)
    .trimStart()
    .replace(/^[-+=]/, '\\$&')
    .replace(/^(\d{1,9})(?=[.)](?:\s|$))/, '$1\\');
}

/** The same within a line. What many renderers take for a link without any mark is broken as well. */
function inLine(text: string): string {
  return visible(text)
    .replace(/[\\`*_[\]<>|#&~$@]/g, '\\$&')
    .replace(/:(?=\/\/)|(?<=\b(?:mailto|xmpp)):|(?<=\bwww)\./gi, '\\$&');
}
