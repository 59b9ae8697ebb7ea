import { parse } from '#csv-parse';

/** Where the bytes of a text file come from: a file stream, a fetched body, or one string in a list. */
export type TextSource = AsyncIterable<Uint8Array | string> | Iterable<Uint8Array | string>;

/** A block of whole rows. `lineOf(i)` is the line of the file on which row `i` ends, counted from 1. */
export interface CsvBlock {
  readonly rows: readonly (readonly string[])[];
  readonly lineOf: (row: number) => number;
  /** Characters read from the source so far. */
  readonly charactersRead: number;
}

/** The table cannot be cut into rows at all: `line` says where it broke. */
export class CsvStructureError extends Error {
  readonly line: number;
  readonly problem: 'quote-open' | 'line-too-long';
  constructor(line: number, problem: 'quote-open' | 'line-too-long') {
    super(`${problem} at line ${line}`);
    this.line = line;
    this.problem = problem;
  }
}

/** Longest line, in characters; a "CSV" without line ends would otherwise be held in memory whole. */
export const LONGEST_LINE = 1_000_000;

/** Bytes or characters taken at a time. */
const PIECE = 1 << 18;

/**
 * Reads CSV in blocks of whole rows, from bytes or text, in any environment. The delimiter is seen from the first line
 * (comma, semicolon or tab). Rows may have any number of cells; an empty line is a row of one empty cell.
 * @throws CsvStructureError where a quote is never closed or a line is longer than {@link LONGEST_LINE}
 */
export async function* csvBlocks(source: TextSource): AsyncGenerator<CsvBlock> {
  const cutter = blockCutter();
  const decoder = new TextDecoder('utf-8');
  for await (const chunk of source) {
    // A whole file may come as one chunk: its rows are still made a block at a time.
    for (let start = 0; start < chunk.length; start += PIECE) {
      const piece =
        typeof chunk === 'string' ? chunk.slice(start, start + PIECE) : chunk.subarray(start, start + PIECE);
      const block = cutter.push(typeof piece === 'string' ? piece : decoder.decode(piece, { stream: true }));
      if (block !== undefined) yield block;
    }
  }
  const last = cutter.end(decoder.decode());
  if (last !== undefined) yield last;
}

/** A whole CSV text as one block of rows; same rules as {@link csvBlocks}. */
export function csvRows(text: string): CsvBlock {
  return blockCutter().end(text) ?? { rows: [], lineOf: () => 1, charactersRead: 0 };
}

interface BlockCutter {
  push(text: string): CsvBlock | undefined;
  end(text: string): CsvBlock | undefined;
}

function blockCutter(): BlockCutter {
  let pending = '';
  let nextLine = 1;
  let delimiter: string | undefined;
  let charactersRead = 0;
  let heldBack = '';

  // Every line end becomes one line feed; a return at the end of a piece waits for what follows it.
  const take = (text: string, isLast: boolean) => {
    const isFirst = charactersRead === 0;
    charactersRead += text.length;
    const all = heldBack + (isFirst && text.startsWith('\uFEFF') ? text.slice(1) : text);
    heldBack = !isLast && all.endsWith('\r') ? '\r' : '';
    const taken = heldBack === '' ? all : all.slice(0, -1);
    return taken.includes('\r') ? taken.replace(/\r\n?/g, '\n') : taken;
  };

  const blockOf = (text: string): CsvBlock => {
    delimiter ??= delimiterOf(text);
    const block = parseBlock(text, nextLine, delimiter);
    nextLine += countLineEnds(text);
    return { ...block, charactersRead };
  };

  return {
    push(text) {
      pending += take(text, false);
      const cut = lastRowEnd(pending);
      if (cut === 0) {
        if (pending.length > LONGEST_LINE) {
          const openLine = openQuoteLine(pending, nextLine);
          throw new CsvStructureError(openLine ?? nextLine, openLine === undefined ? 'line-too-long' : 'quote-open');
        }
        return undefined;
      }
      const block = blockOf(pending.slice(0, cut));
      pending = pending.slice(cut);
      return block;
    },
    end(text) {
      pending += take(text, true);
      return pending === '' ? undefined : blockOf(pending);
    },
  };
}

/** The index after the last line end that stands outside quotes, 0 if there is none. */
function lastRowEnd(text: string): number {
  return text.includes('"') ? scanQuotes(text).rowEnd : text.lastIndexOf('\n') + 1;
}

/**
 * Goes through a text as a CSV parser does: a quote opens only at the start of a cell (elsewhere it is a mark of seconds,
 * say), and a doubled one inside is a character. Gives the index after the last line end outside quotes, and where a quote
 * opens that is not closed.
 */
function scanQuotes(text: string): { readonly rowEnd: number; readonly open: number | undefined } {
  let rowEnd = 0;
  let open: number | undefined;
  let cellStart = true;
  for (let i = 0; i < text.length; i += 1) {
    const mark = text[i];
    if (open !== undefined) {
      if (mark !== '"') continue;
      if (text[i + 1] === '"') i += 1;
      else open = undefined;
    } else if (mark === '"' && cellStart) {
      open = i;
      cellStart = false;
    } else {
      if (mark === '\n') rowEnd = i + 1;
      cellStart = mark === '\n' || mark === ',' || mark === ';' || mark === '\t';
    }
  }
  return { rowEnd, open };
}

function parseBlock(text: string, firstLine: number, delimiter: string): Pick<CsvBlock, 'rows' | 'lineOf'> {
  const options = {
    delimiter,
    record_delimiter: '\n',
    relax_column_count: true,
    relax_quotes: true,
    skip_empty_lines: false,
  };
  if (!text.includes('"')) return { rows: parse(text, options) as string[][], lineOf: (row) => firstLine + row };
  try {
    const records = parse(text, { ...options, info: true }) as unknown as {
      record: string[];
      info: { lines: number };
    }[];
    return {
      rows: records.map((entry) => entry.record),
      lineOf: (row) => firstLine - 1 + (records[row]?.info.lines ?? 1),
    };
  } catch {
    throw new CsvStructureError(openQuoteLine(text, firstLine) ?? firstLine, 'quote-open');
  }
}

/** The line on which a quote opens that is not closed; undefined if all are. */
function openQuoteLine(text: string, firstLine: number): number | undefined {
  const { open } = scanQuotes(text);
  return open === undefined ? undefined : firstLine + countLineEnds(text.slice(0, open));
}

/** The delimiter that stands most often in the first line that is not blank. */
function delimiterOf(text: string): string {
  const firstLine = /^.*\S.*$/m.exec(text)?.[0] ?? '';
  const counts = [',', ';', '\t'].map((mark) => [mark, firstLine.split(mark).length] as const);
  return counts.reduce((best, next) => (next[1] > best[1] ? next : best))[0];
}

function countLineEnds(text: string): number {
  let count = 0;
  for (let i = text.indexOf('\n'); i >= 0; i = text.indexOf('\n', i + 1)) count += 1;
  return count;
}
