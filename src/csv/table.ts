import type { FaultList } from '../errors.js';
import { says } from '../wording.js';
import { CsvStructureError, csvRows, LONGEST_LINE } from './blocks.js';

/** One row of a small table: its line, and the trimmed cell of each column of the header. */
export interface TableRow<Column extends string> {
  readonly line: number;
  readonly cells: Readonly<Partial<Record<Column, string>>>;
}

/** What a table must and may have as columns. */
export interface TableColumns<Column extends string> {
  readonly required: readonly Column[];
  readonly optional: readonly Column[];
}

/**
 * Reads a small CSV with a header line of known columns in any order. Faults (missing, unknown and repeated columns,
 * ragged rows, no rows) are added to the list; rows with the wrong number of cells are left out. Blank lines are passed over.
 */
export function readTable<Column extends string>(
  text: string,
  file: string,
  columns: TableColumns<Column>,
  faults: FaultList,
): readonly TableRow<Column>[] {
  const known: readonly Column[] = [...columns.required, ...columns.optional];
  try {
    const { rows, lineOf } = csvRows(text);
    const filled = rows.flatMap((cells, i) => (isBlank(cells) ? [] : [{ line: lineOf(i), cells }]));
    const [header, ...body] = filled;
    if (header === undefined || body.length === 0) {
      faults.add({ file, ...says.noRows(header !== undefined) });
      return [];
    }
    const names = header.cells.map((name) => name.trim().toLowerCase());
    checkHeader(names, header.line, file, columns, known, faults);
    return body.flatMap(({ line, cells }) => {
      if (cells.length !== names.length) {
        faults.add({ file, line, ...says.cellCount(names.length, cells.length) });
        return [];
      }
      const byName = names.map((name, i) => [name, (cells[i] ?? '').trim()] as const);
      return [{ line, cells: Object.fromEntries(byName) as Partial<Record<Column, string>> }];
    });
  } catch (error) {
    if (!(error instanceof CsvStructureError)) throw error;
    faults.add({ file, line: error.line, ...structureSaid(error) });
    return [];
  }
}

/** What is said of a table that cannot be cut into rows. */
export function structureSaid(error: CsvStructureError) {
  if (error.problem === 'line-too-long') return says.lineTooLong(LONGEST_LINE);
  return error.problem === 'quote-open' ? says.quoteOpen() : says.quoteJunk();
}

/** Whether a row is a blank line. */
export function isBlank(cells: readonly string[]): boolean {
  return cells.length === 1 && (cells[0] ?? '').trim() === '';
}

function checkHeader<Column extends string>(
  names: readonly string[],
  line: number,
  file: string,
  columns: TableColumns<Column>,
  known: readonly Column[],
  faults: FaultList,
): void {
  for (const column of columns.required) {
    if (!names.includes(column)) faults.add({ file, line, column, ...says.missingColumn(names) });
  }
  names.forEach((name, i) => {
    if (!(known as readonly string[]).includes(name)) faults.add({ file, line, ...says.unknownColumn(name, known) });
    else if (names.indexOf(name) !== i) faults.add({ file, line, column: name, ...says.repeatedColumn() });
  });
}
