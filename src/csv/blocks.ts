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

/**
 * Reads CSV in blocks of whole rows, from bytes or text, in any environment. The delimiter is seen from the first line
 * (comma, semicolon or tab). Rows may have any number of cells; an empty line is a row of one empty cell.
 * @throws CsvStructureError where a quote is never closed or a line is longer than {@link LONGEST_LINE}
 */
export async function* csvBlocks(source: TextSource): AsyncGenerator<CsvBlock> {
  const cutter = blockCutter();
  const decoder = new TextDecoder('utf-8');
  for await (const chunk of source) {
    const block = cutter.push(typeof chunk === 'string' ? chunk : decoder.decode(chunk, { stream: true }));
    if (block !== undefined) yield block;
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
  let started = false;

  const take = (text: string) => {
    charactersRead += text.length;
    const first = !started && text !== '';
    if (first) started = true;
    return first && text.startsWith('\uFEFF') ? text.slice(1) : text;
  };

  const blockOf = (text: string): CsvBlock => {
    delimiter ??= delimiterOf(text);
    const block = parseBlock(text, nextLine, delimiter);
    nextLine += countLineEnds(text);
    return { ...block, charactersRead };
  };

  return {
    push(text) {
      pending += take(text);
      const cut = lastRowEnd(pending);
      if (cut === 0) {
        if (pending.length > LONGEST_LINE) {
          throw new CsvStructureError(nextLine, pending.includes('"') ? 'quote-open' : 'line-too-long');
        }
        return undefined;
      }
      const block = blockOf(pending.slice(0, cut));
      pending = pending.slice(cut);
      return block;
    },
    end(text) {
      pending += take(text);
      return pending === '' ? undefined : blockOf(pending);
    },
  };
}

/** The index after the last line end that stands outside quotes, 0 if there is none. */
function lastRowEnd(text: string): number {
  if (!text.includes('"')) return text.lastIndexOf('\n') + 1;
  let inside = false;
  let cut = 0;
  for (let i = 0; i < text.length; i += 1) {
    const code = text.charCodeAt(i);
    if (code === 34) inside = !inside;
    else if (code === 10 && !inside) cut = i + 1;
  }
  return cut;
}

function parseBlock(text: string, firstLine: number, delimiter: string): Pick<CsvBlock, 'rows' | 'lineOf'> {
  const options = {
    delimiter,
    record_delimiter: ['\r\n', '\n'],
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
    throw new CsvStructureError(firstLine, 'quote-open');
  }
}

function delimiterOf(text: string): string {
  const end = text.indexOf('\n');
  const firstLine = end < 0 ? text : text.slice(0, end);
  const counts = [',', ';', '\t'].map((mark) => [mark, firstLine.split(mark).length] as const);
  return counts.reduce((best, next) => (next[1] > best[1] ? next : best))[0];
}

function countLineEnds(text: string): number {
  let count = 0;
  for (let i = text.indexOf('\n'); i >= 0; i = text.indexOf('\n', i + 1)) count += 1;
  return count;
}
