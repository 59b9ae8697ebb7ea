import { withoutUnseen } from '../errors.js';

/** A table in Markdown. */
export function table(header: readonly string[], rows: readonly (readonly string[])[]): string {
  const line = (cells: readonly string[]) => `| ${cells.map(escaped).join(' | ')} |`;
  return [line(header), line(header.map(() => '---')), ...rows.map(line)].join('\n');
}

/** A text of an input in which nothing is unseen. */
export function visible(text: string): string {
  return withoutUnseen(text, ' ');
}

/** A text of an input as plain text in Markdown: no markup, no table cell, no line end of its own. */
export function escaped(text: string): string {
  if (/^-{3}$/.test(text)) return text;
  return visible(text).replace(/[\\`*_[\]<>|#&~]/g, '\\$&');
}
