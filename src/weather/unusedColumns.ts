import type { Fault } from '../errors.js';
import { says } from '../wording.js';

/** So many are told by their names: a header may have a hundred thousand. */
const MOST_TOLD = 100;

/** Warnings of columns that are not used. */
export function unusedColumns(columns: readonly string[], file: string): readonly Fault[] {
  const more = columns.length - MOST_TOLD;
  return [
    ...columns.slice(0, MOST_TOLD).map((column) => ({ file, column, ...says.columnUnused() })),
    ...(more > 0 ? [{ file, ...says.columnsUnused(more) }] : []),
  ];
}
