import { escaped } from '../drawing/svg.js';
import { tag } from './html.js';

/** A column of a table over the rows of a list. */
export interface Column<Row> {
  readonly head: string;
  /** What of a row of the JSON it shows, a path in it; absent: words that are no figure of the JSON. */
  readonly field?: string;
  /** The cell, as plain text. */
  readonly text: (row: Row, index: number) => string;
  /** The cell as markup, where its figures stand each at a place of its own. */
  readonly markup?: (row: Row, index: number) => string;
  /** Columns of numbers stand to the right. */
  readonly isNumber?: boolean;
  /** Columns of sentences are wide. */
  readonly isLong?: boolean;
  /** What stands behind its cells where its head does not show. */
  readonly unit?: string;
}

/** What a table shows. */
export interface DataTable<Row> {
  readonly caption: string;
  /** The list of the JSON its rows are of. */
  readonly of: string;
  readonly rows: readonly Row[];
  readonly columns: readonly Column<Row>[];
  /** Where in the list a row stands, when it is not its number in the table: an index, or a path. */
  readonly keyOf?: (row: Row, index: number) => number | string;
  /** An id for a row, so that a mark in a chart can lead to it. */
  readonly idOf?: (row: Row, index: number) => string;
}

/** A table over a list of the JSON: each cell says by its column and its row which figure of it is shown. */
export function dataTable<Row>({ caption, of, rows, columns, keyOf, idOf }: DataTable<Row>): string {
  const heads = columns.map(({ head, field, isNumber }) =>
    tag('th', { scope: 'col', 'data-field': field, class: isNumber ? 'number' : undefined }, escaped(head)),
  );
  const lines = rows.map((row, i) => {
    const cells = columns.map(({ text, markup, isNumber, isLong, unit }, c) => {
      const inside = markup?.(row, i) ?? escaped(text(row, i));
      return c === 0
        ? tag('th', { scope: 'row' }, inside)
        : tag('td', { class: isNumber ? 'number' : isLong ? 'long' : 'tight', 'data-unit': unit }, inside);
    });
    return tag('tr', { 'data-row': keyOf?.(row, i) ?? i, id: idOf?.(row, i) }, ...cells);
  });
  return scrolled(
    caption,
    tag(
      'table',
      { 'data-of': of, class: columns.some(({ isLong }) => isLong) ? 'stacks' : undefined },
      tag('caption', {}, escaped(caption)),
      tag('thead', {}, tag('tr', {}, ...heads)),
      tag('tbody', {}, ...lines),
    ),
  );
}

/** A wide thing that scrolls in itself, by keyboard too, so that the page does not. */
export const scrolled = (name: string, inside: string) =>
  tag('div', { class: 'scrolls', role: 'group', 'aria-label': name, tabindex: 0 }, inside);
