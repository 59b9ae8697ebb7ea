import { parseRows } from '#parse-rows';

/** Where the bytes of a text file come from: a file stream, a fetched body, or one string in a list. */
export type TextSource = AsyncIterable<Uint8Array | string> | Iterable<Uint8Array | string>;

/** A block of whole rows. `lineOf(i)` is the line of the file on which row `i` ends, counted from 1. */
export interface CsvBlock {
  readonly rows: readonly (readonly string[])[];
  readonly lineOf: (row: number) => number;
  /** Characters read from the source so far. */
  readonly charactersRead: number;
  /** Whether the last row has no line end: the last of a text may have been cut. */
  readonly isOpen: boolean;
}

/** The table cannot be cut into rows at all: `line` says where it broke. */
export class CsvStructureError extends Error {
  readonly line: number;
  readonly problem: 'quote-open' | 'quote-junk' | 'line-too-long';
  constructor(line: number, problem: 'quote-open' | 'quote-junk' | 'line-too-long') {
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
 * (comma, semicolon or tab). Rows may have any number of cells; an empty line is a row of one empty cell. However the
 * source is cut, the rows are the same, and so are those given before an error.
 * @throws CsvStructureError where a quote is never closed, text follows a closing quote, or a line is longer than
 * {@link LONGEST_LINE}
 */
export async function* csvBlocks(source: TextSource): AsyncGenerator<CsvBlock> {
  const cutter = blockCutter();
  const decoder = new TextDecoder('utf-8');
  for await (const chunk of source) {
    // A whole file may come as one chunk: its rows are still made a block at a time.
    for (let start = 0; start < chunk.length; start += PIECE) {
      const piece =
        typeof chunk === 'string' ? chunk.slice(start, start + PIECE) : chunk.subarray(start, start + PIECE);
      yield* cutter.push(typeof piece === 'string' ? piece : decoder.decode(piece, { stream: true }));
    }
  }
  yield* cutter.end(decoder.decode());
}

/** A whole CSV text as one block of rows; same rules as {@link csvBlocks}. */
export function csvRows(text: string): CsvBlock {
  const [block] = [...blockCutter().end(text)];
  return block ?? { rows: [], lineOf: () => 1, charactersRead: 0, isOpen: false };
}

/** Gives a block where there are whole rows; throws after those before the place where the table breaks. */
interface BlockCutter {
  push(text: string): Iterable<CsvBlock>;
  end(text: string): Iterable<CsvBlock>;
}

function blockCutter(): BlockCutter {
  let pending = '';
  let nextLine = 1;
  let delimiter: string | undefined;
  let charactersRead = 0;
  let heldBack = '';
  let lookFrom = 0;

  // Every line end becomes one line feed; a return at the end of a piece waits for what follows it.
  const take = (text: string, isLast: boolean) => {
    const isFirst = charactersRead === 0;
    charactersRead += text.length;
    const all = heldBack + (isFirst && text.startsWith('\uFEFF') ? text.slice(1) : text);
    heldBack = !isLast && all.endsWith('\r') ? '\r' : '';
    const taken = heldBack === '' ? all : all.slice(0, -1);
    return taken.includes('\r') ? taken.replace(/\r\n?/g, '\n') : taken;
  };

  const see = () => {
    // Seen from the first line that is not blank: before its end there is nothing to cut.
    if (delimiter === undefined && firstLineOf(pending).isWhole) delimiter = delimiterOf(pending);
    return delimiter !== undefined;
  };
  function* blocksOf(text: string, mark: string): Generator<CsvBlock> {
    const broken = text.includes('"') ? scanQuotes(text, mark).broken : undefined;
    const whole = broken === undefined ? text : text.slice(0, broken.rowStart);
    if (whole !== '') yield { ...parseBlock(whole, nextLine, mark), charactersRead, isOpen: !whole.endsWith('\n') };
    if (broken !== undefined) throw structureError(text, broken, nextLine);
    nextLine += countLineEnds(text);
  }

  return {
    *push(text) {
      pending += take(text, false);
      if (pending.length < lookFrom) return;
      const cut = see() ? lastRowEnd(pending, delimiter!) : 0;
      // A row that goes on is looked at anew when it is twice as long: not for every small piece of it.
      lookFrom = cut === 0 ? Math.min(2 * pending.length, LONGEST_LINE + 1) : 0;
      if (cut > 0) {
        const text = pending.slice(0, cut);
        pending = pending.slice(cut);
        yield* blocksOf(text, delimiter!);
      } else if (pending.length > LONGEST_LINE) {
        const { broken } = scanQuotes(pending, delimiter ?? delimiterOf(pending));
        throw broken === undefined
          ? new CsvStructureError(nextLine, 'line-too-long')
          : structureError(pending, broken, nextLine);
      }
    },
    *end(text) {
      pending += take(text, true);
      yield* blocksOf(pending, delimiter ?? delimiterOf(pending));
    },
  };
}

/** The index after the last line end that stands outside quotes, 0 if there is none. */
function lastRowEnd(text: string, delimiter: string): number {
  return text.includes('"') ? scanQuotes(text, delimiter).rowEnd : text.lastIndexOf('\n') + 1;
}

/** Where the quotes of a text break it first, and where the row begins in which they do. */
interface Broken {
  readonly at: number;
  readonly rowStart: number;
  readonly problem: 'quote-open' | 'quote-junk';
}

/**
 * Goes through a text as a CSV parser does: a quote opens only at the start of a cell (elsewhere it is a mark of seconds,
 * say), and a doubled one inside is a character. Gives the index after the last line end outside quotes, and where
 * something else than the end of the cell follows a closing quote, or else where a quote opens that is not closed.
 */
function scanQuotes(text: string, delimiter: string): { readonly rowEnd: number; readonly broken: Broken | undefined } {
  let rowEnd = 0;
  let broken: Broken | undefined;
  // From quote to quote: character by character takes twice as long.
  let from = 0;
  for (;;) {
    const quote = text.indexOf('"', from);
    const lineEnd = text.slice(from, quote < 0 ? text.length : quote).lastIndexOf('\n');
    if (lineEnd >= 0) rowEnd = from + lineEnd + 1;
    if (quote < 0) return { rowEnd, broken };
    const before = quote === 0 ? '\n' : text[quote - 1];
    if (before !== '\n' && before !== delimiter) {
      from = quote + 1;
      continue;
    }
    const close = closingQuote(text, quote);
    if (close < 0) return { rowEnd, broken: broken ?? { at: quote, rowStart: rowEnd, problem: 'quote-open' } };
    const next = text[close + 1];
    const isEnd = next === undefined || next === '\n' || next === delimiter;
    if (!isEnd) broken ??= { at: close + 1, rowStart: rowEnd, problem: 'quote-junk' };
    from = close + 1;
  }
}

/** The quote that closes the one at an index, passing over doubled ones; −1 where none does. */
function closingQuote(text: string, open: number): number {
  let close = text.indexOf('"', open + 1);
  while (close >= 0 && text[close + 1] === '"') close = text.indexOf('"', close + 2);
  return close;
}

function structureError(text: string, { at, problem }: Broken, firstLine: number): CsvStructureError {
  return new CsvStructureError(firstLine + countLineEnds(text.slice(0, at)), problem);
}

function parseBlock(text: string, firstLine: number, delimiter: string): Pick<CsvBlock, 'rows' | 'lineOf'> {
  const rows = parseRows(text, delimiter);
  // Without line ends inside quotes each row is a line.
  const isLineEach = rows.length === countLineEnds(text) + (text.endsWith('\n') ? 0 : 1);
  if (isLineEach) return { rows, lineOf: (row) => firstLine + row };
  let line = firstLine - 1;
  const lines = rows.map((cells) => {
    line += 1 + cells.reduce((sum, cell) => sum + countLineEnds(cell), 0);
    return line;
  });
  return { rows, lineOf: (row) => lines[row] ?? firstLine };
}

/** The first line that is not blank, and whether its end has come. Not by one pattern: that takes for ever on a long line. */
function firstLineOf(text: string): { readonly line: string; readonly isWhole: boolean } {
  const filled = text.search(/\S/);
  if (filled < 0) return { line: '', isWhole: false };
  const end = text.indexOf('\n', filled);
  const isWhole = end >= 0;
  return { line: text.slice(text.lastIndexOf('\n', filled) + 1, isWhole ? end : text.length), isWhole };
}

/** The delimiter that stands most often in the first line that is not blank. */
function delimiterOf(text: string): string {
  const { line } = firstLineOf(text);
  const counts = [',', ';', '\t'].map((mark) => [mark, line.split(mark).length] as const);
  return counts.reduce((best, next) => (next[1] > best[1] ? next : best))[0];
}

/** How many line feeds a text has. */
export function countLineEnds(text: string): number {
  let count = 0;
  for (let i = text.indexOf('\n'); i >= 0; i = text.indexOf('\n', i + 1)) count += 1;
  return count;
}
