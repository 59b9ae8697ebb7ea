import { type CsvBlock, CsvStructureError, csvBlocks, isBlank, structureSaid, type TextSource } from '../csv/csv.js';
import type { Fault, FaultList } from '../errors.js';
import { BEGINNING_LENGTH, foreignFormat } from '../foreignFormat.js';
import { says } from '../wording.js';
import { type Head, headOf } from './head.js';

/** A file of gridded weather: its name for messages, and its bytes from the start each time it is opened. */
export interface ForecastSource {
  readonly name: string;
  readonly open: () => TextSource;
}

/** What takes the rows of a file. */
export interface RowTable {
  take(cells: readonly string[], line: number): void;
}

/** The layouts a file may have. */
export interface Layouts<Table> {
  /** The table of a layout without a head, seen from the first row; undefined where that is a head. */
  readonly headless?: (first: readonly string[]) => Table | undefined;
  /** The table of a head; undefined after faults. */
  readonly headed: (head: Head) => Table | undefined;
}

/** Names in a head, and its line; none in a layout without a head. */
export interface HeadRead {
  readonly names: readonly string[];
  readonly line?: number;
}

export interface ReadRowsOptions {
  readonly signal: AbortSignal | undefined;
  readonly onProgress: ((charactersRead: number, file: string) => void) | undefined;
  /** Told the names of a file's columns, also of one that cannot be read on. */
  readonly onNames: (names: readonly string[]) => void;
}

/**
 * Reads the rows of a file into the table of its layout; faults are added, and undefined comes back where it has no rows or
 * cannot be read on.
 */
export async function readRows<Table extends RowTable>(
  source: ForecastSource,
  layouts: Layouts<Table>,
  { signal, onProgress, onNames }: ReadRowsOptions,
  faults: FaultList,
): Promise<{ readonly table: Table; readonly head: HeadRead; readonly warnings: readonly Fault[] } | undefined> {
  const file = source.name;
  const before = faults.count;
  const opening = openingOf(file, layouts, onNames, faults);
  let rows = 0;
  const warnings: Fault[] = [];
  try {
    const { foreign, pieces } = await begun(source.open());
    if (foreign !== undefined) {
      faults.add({ file, ...says.notText(foreign) });
      return undefined;
    }
    for await (const block of csvBlocks(pieces)) {
      signal?.throwIfAborted();
      rows += takeRows(opening, block);
      if (opening.isBad()) break;
      const last = block.rows.length - 1;
      if (block.isOpen && !isBlank(block.rows[last]!))
        warnings.push({ file, line: block.lineOf(last), ...says.lastLineOpen() });
      onProgress?.(block.charactersRead, file);
    }
  } catch (error) {
    if (!(error instanceof CsvStructureError)) throw error;
    faults.add({ file, line: error.line, ...structureSaid(error) });
    // What its rows lack may stand behind the break.
    return undefined;
  }
  if (faults.count === before) opening.finish(rows);
  const { table, head } = opening;
  return table === undefined || rows === 0 ? undefined : { table, head, warnings };
}

/** What a file is that is no text, by its beginning, and all of it: its first pieces are taken back. */
async function begun(
  source: TextSource,
): Promise<{ readonly foreign: string | undefined; readonly pieces: TextSource }> {
  // A text by itself is a list of its characters.
  const iterator =
    typeof source !== 'string' && Symbol.asyncIterator in source
      ? source[Symbol.asyncIterator]()
      : source[Symbol.iterator]();
  const decoder = new TextDecoder('utf-8');
  const first: (Uint8Array | string)[] = [];
  let beginning = '';
  while (beginning.length < BEGINNING_LENGTH) {
    const { done, value } = await iterator.next();
    if (done === true) break;
    first.push(value);
    beginning +=
      typeof value === 'string'
        ? value.slice(0, BEGINNING_LENGTH)
        : decoder.decode(value.subarray(0, 4 * BEGINNING_LENGTH), { stream: true });
  }
  async function* pieces(): AsyncGenerator<Uint8Array | string, void, undefined> {
    try {
      yield* first;
      for (;;) {
        const { done, value } = await iterator.next();
        if (done === true) return;
        yield value;
      }
    } finally {
      // What is left half read is let go: a stream keeps its file open.
      await iterator.return?.();
    }
  }
  const foreign = foreignFormat(beginning);
  if (foreign !== undefined) await iterator.return?.();
  return { foreign, pieces: pieces() };
}

/** The head of a file, row by row, until its layout is known. */
interface Opening<Table> {
  /** Takes a row of the head; false where the layout is known and the row is its first. */
  takesHead(cells: readonly string[], line: number): boolean;
  readonly table: Table | undefined;
  isBad(): boolean;
  readonly head: HeadRead;
  /** The end of the file after so many rows: a head without any is a fault, and is looked at all the same. */
  finish(rows: number): void;
}

function openingOf<Table extends RowTable>(
  file: string,
  layouts: Layouts<Table>,
  onNames: ReadRowsOptions['onNames'],
  faults: FaultList,
): Opening<Table> {
  let first: { readonly cells: readonly string[]; readonly line: number } | undefined;
  let table: Table | undefined;
  let head: HeadRead = { names: [] };
  let isBad = false;
  const begin = (second: readonly string[] | undefined, line: number): boolean => {
    const read = headOf(first!.cells, second, first!.line, line);
    head = { names: read.names, line: read.line };
    onNames(read.names);
    table = layouts.headed(read);
    isBad = table === undefined;
    return read.unitsLine !== undefined;
  };
  return {
    get table() {
      return table;
    },
    get head() {
      return head;
    },
    isBad: () => isBad,
    takesHead(cells, line) {
      if (table !== undefined) return false;
      if (first === undefined) {
        table = layouts.headless?.(cells);
        if (table !== undefined) return false;
        first = { cells, line };
        return true;
      }
      return begin(cells, line) || isBad;
    },
    finish(rows) {
      if (rows > 0) return;
      // A row of units has made the table already.
      if (table === undefined && first !== undefined) begin(undefined, first.line);
      if (!isBad) faults.add({ file, ...says.noRows(first !== undefined) });
    },
  };
}

/** Gives the rows of a block to the table, and says how many there were. */
function takeRows(opening: Opening<RowTable>, block: CsvBlock): number {
  let taken = 0;
  for (let i = 0; i < block.rows.length; i += 1) {
    const cells = block.rows[i]!;
    if (isBlank(cells)) continue;
    const line = block.lineOf(i);
    if (opening.table === undefined && opening.takesHead(cells, line)) {
      if (opening.isBad()) return taken;
      continue;
    }
    taken += 1;
    opening.table!.take(cells, line);
  }
  return taken;
}
