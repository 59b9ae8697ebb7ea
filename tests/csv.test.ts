import fc from 'fast-check';
import { describe, expect, test, vi } from 'vitest';
import { CsvStructureError, csvBlocks, csvRows, type TextSource } from '../src/csv/csv.js';

// Every text that comes to be parsed here is parsed by both parsers: csv-parse in Node, d3-dsv in browsers.
vi.mock('#parse-rows', async () => {
  const node = await import('../src/csv/parseRows.js');
  const browser = await import('../src/csv/parseRowsInBrowser.js');
  return {
    parseRows: (text: string, delimiter: string) => {
      const rows = node.parseRows(text, delimiter);
      expect(browser.parseRows(text, delimiter), `rows of ${JSON.stringify(text)}`).toEqual(rows);
      return rows;
    },
  };
});

const RUNS = 2000;
const DELIMITERS = [',', ';', '\t'];

/** Rows with the lines they end on, and how the text broke, as they come from a source. */
async function read(source: TextSource): Promise<unknown[]> {
  const found: unknown[] = [];
  try {
    for await (const { rows, lineOf } of csvBlocks(source)) {
      rows.forEach((cells, i) => {
        found.push([lineOf(i), ...cells]);
      });
    }
  } catch (error) {
    found.push(brokenBy(error));
  }
  return found;
}

function brokenBy(error: unknown): string {
  if (error instanceof CsvStructureError) return `line ${error.line}: ${error.problem}`;
  throw error;
}

function readAtOnce(text: string): unknown[] {
  try {
    const { rows, lineOf } = csvRows(text);
    return rows.map((cells, i) => [lineOf(i), ...cells]);
  } catch (error) {
    return [brokenBy(error)];
  }
}

/** What CSV is made of, and what stands in the way of it. */
const PIECES = [
  ...['"', '"', '"', '""', '","', '"\n', '\n"', ',', ';', '\t', ',', '\n', '\n', '\n\n', '\r\n', '\r', '\r\n"'],
  ...['a', 'b c', ' ', '  ', '1.5', '-', "'", '°', 'é', '😀', '\u2028', '\u0000', '\ufeff', '\\', '#'],
];
const anyText = fc.array(fc.constantFrom(...PIECES), { maxLength: 40 }).map((pieces) => pieces.join(''));

/** A table as cells, its delimiter, and whether each cell is quoted though it need not be. */
const cell = fc
  .array(fc.constantFrom('a', '1', ' ', '"', ',', ';', '\t', '\n', '°', '😀'), { maxLength: 5 })
  .map((marks) => marks.join(''));
const table = fc.record({
  // The first cells hold no delimiter, so that the one meant stands most often in the first line.
  header: fc.array(fc.constantFrom('a', 'b c', '"', 'x"y', '1'), { minLength: 2, maxLength: 5 }),
  rows: fc.array(fc.array(cell, { minLength: 1, maxLength: 5 }), { maxLength: 8 }),
  delimiter: fc.constantFrom(...DELIMITERS),
  lineEnd: fc.constantFrom('\n', '\r\n', '\r'),
  quotesAll: fc.boolean(),
  endsLine: fc.boolean(),
});

describe(`rows of ${RUNS} tables`, () => {
  test('come back as they were written, with the lines they end on', () => {
    fc.assert(
      fc.property(table, ({ header, rows, delimiter, lineEnd, quotesAll, endsLine }) => {
        const all = [header, ...rows];
        const written = (text: string) =>
          quotesAll || text.startsWith('"') || /[,;\t\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
        const lines = all.map((cells) => cells.map(written).join(delimiter));
        // An empty last line without an end is no line.
        const text = lines.join('\n') + (endsLine || lines.at(-1) === '' ? '\n' : '');
        let line = 0;
        const expected = all.map((cells) => {
          line += cells.join('').split('\n').length;
          return [line, ...cells];
        });
        expect(readAtOnce(text.replaceAll('\n', lineEnd))).toEqual(expected);
      }),
      { numRuns: RUNS, seed: 20270111 },
    );
  });
});

describe(`${RUNS} texts of pieces of CSV`, () => {
  test('give the same rows, lines and error however they are cut, as text or as bytes', async () => {
    const cuts = fc.array(fc.nat(80), { maxLength: 6 });
    await fc.assert(
      fc.asyncProperty(anyText, cuts, async (text, at) => {
        const bytes = new TextEncoder().encode(text);
        const ends = [...at, 80 * 6].sort((a, b) => a - b);
        const pieces = ends.map((end, i) => text.slice(ends[i - 1] ?? 0, end));
        const byteParts = ends.map((end, i) => bytes.subarray(ends[i - 1] ?? 0, end));
        const whole = await read([text]);
        expect(await read(pieces)).toEqual(whole);
        expect(await read([...text])).toEqual(whole);
        expect(await read(byteParts)).toEqual(await read([bytes]));
        // A byte order mark is taken off once by who reads bytes, and once by who reads text.
        if (!text.startsWith('\ufeff')) expect(await read([bytes])).toEqual(whole);
      }),
      { numRuns: RUNS, seed: 20270112 },
    );
  });

  test('read at once give all rows or the error of the blocks', async () => {
    await fc.assert(
      fc.asyncProperty(anyText, async (text) => {
        const blocks = await read([text]);
        const last = blocks.at(-1);
        expect(readAtOnce(text)).toEqual(typeof last === 'string' ? [last] : blocks);
      }),
      { numRuns: RUNS, seed: 20270113 },
    );
  });
});

describe('lines', () => {
  test('a row stands on the line it ends on, line feeds in quotes counted', () => {
    expect(readAtOnce('a,b\n"one\ntwo",x\n\n"three\r\n\r\nfour","five\rsix"\nend')).toEqual([
      [1, 'a', 'b'],
      [3, 'one\ntwo', 'x'],
      [4, ''],
      [8, 'three\n\nfour', 'five\nsix'],
      [9, 'end'],
    ]);
  });

  test('over many blocks', async () => {
    const rows = Array.from({ length: 60_000 }, (_, i) => (i % 7 === 0 ? `"${i}\n",x` : `${i},xyz`));
    const text = `a,b\n${rows.join('\n')}\n`;
    const found = (await read([text])) as [number, string, string][];
    expect(text.length).toBeGreaterThan(2 * (1 << 18));
    expect(found.length).toBe(60_001);
    expect(found.at(-1)).toEqual([1 + 60_000 + Math.ceil(60_000 / 7), '59999', 'xyz']);
    expect(await read([new TextEncoder().encode(text)])).toEqual(found);
  });

  test.each([
    ['a quote never closed', 'a,b\n1,2\n3,"4\n5,6\n', [[1, 'a', 'b'], [2, '1', '2'], 'line 3: quote-open']],
    [
      'opened after line feeds in quotes',
      'a,b\n"\n\n",2\n3,"4',
      [[1, 'a', 'b'], [4, '\n\n', '2'], 'line 5: quote-open'],
    ],
    ['text after a closing quote', 'a,b\n"1"2,3\n4,5\n', [[1, 'a', 'b'], 'line 2: quote-junk']],
    ['the same on a later line of its row', 'a,b\n"1\n" ,3\n', [[1, 'a', 'b'], 'line 3: quote-junk']],
    ['another delimiter after a closing quote', 'a,b\n"1";2\n', [[1, 'a', 'b'], 'line 2: quote-junk']],
    ['both: the first is told', 'a,b\n"1"2,"3\n', [[1, 'a', 'b'], 'line 2: quote-junk']],
    ['in the first row', '"a"b,c\n1,2\n', ['line 1: quote-junk']],
  ])('%s is told with its line, after the rows before it', async (_, text, expected) => {
    expect(await read([text])).toEqual(expected);
    expect(await read([...text])).toEqual(expected);
    expect(readAtOnce(text)).toEqual([expected.at(-1)]);
  });

  test('a quote within a cell opens nothing', () => {
    expect(readAtOnce(`a,b\n16°52'48"N,x "y" z\n1,"""quoted"""\n`)).toEqual([
      [1, 'a', 'b'],
      [2, `16°52'48"N`, 'x "y" z'],
      [3, '1', '"quoted"'],
    ]);
  });
});

describe('what is very long', () => {
  const long = 'x'.repeat(900_000);
  const inPieces = (text: string, size: number) =>
    Array.from({ length: Math.ceil(text.length / size) }, (_, i) => text.slice(i * size, (i + 1) * size));

  test('a first line, a line and a cell in quotes, in small pieces', async () => {
    expect(await read(inPieces(long, 100))).toEqual([[1, long]]);
    expect(await read(inPieces(`a,b\n${long},1\n2,3`, 100))).toEqual([
      [1, 'a', 'b'],
      [2, long, '1'],
      [3, '2', '3'],
    ]);
    expect(await read(inPieces(`a,b\n"${long}\n",1\n`, 100))).toEqual([
      [1, 'a', 'b'],
      [3, `${long}\n`, '1'],
    ]);
  });

  test('is refused beyond a million characters', async () => {
    const tooLong = 'x'.repeat(1_300_000);
    expect(await read([tooLong])).toEqual(['line 1: line-too-long']);
    expect(await read(inPieces(`a,b\n1,2\n${tooLong}`, 5000))).toEqual([
      [1, 'a', 'b'],
      [2, '1', '2'],
      'line 3: line-too-long',
    ]);
    expect(await read([`a,b\n1,"${tooLong}`])).toEqual([[1, 'a', 'b'], 'line 2: quote-open']);
    expect(await read([`a,b\n1,""2${tooLong}`])).toEqual([[1, 'a', 'b'], 'line 2: quote-junk']);
  });
});

describe('the delimiter', () => {
  test.each([
    ['commas', 'a,b\n1;2,3\n', ['a', 'b'], ['1;2', '3']],
    ['semicolons', 'a;b\n1,5;2\n', ['a', 'b'], ['1,5', '2']],
    ['tabs', 'a\tb\n1,5\t2;3\n', ['a', 'b'], ['1,5', '2;3']],
    ['that which stands most often', 'a;b;c,d\n1;2,3\n', ['a', 'b', 'c,d'], ['1', '2,3']],
    ['commas of as many', 'a,b;c\n1,2\n', ['a', 'b;c'], ['1', '2']],
    ['a comma where there is none', 'a\n1,2\n', ['a'], ['1', '2']],
  ])('%s in the first line', async (_, text, ...rows) => {
    expect(readAtOnce(text)).toEqual(rows.map((cells, i) => [i + 1, ...cells]));
    expect(await read([...text])).toEqual(readAtOnce(text));
  });

  test('is seen in the first line that is not blank', async () => {
    const text = '\n  \n\t\na;b\n1;2';
    const expected = [
      [1, ''],
      [2, '  '],
      [3, '\t'],
      [4, 'a', 'b'],
      [5, '1', '2'],
    ];
    expect(readAtOnce(text)).toEqual(expected);
    expect(await read([...text])).toEqual(expected);
  });
});

test('what is empty or blank', async () => {
  for (const source of [[], [''], [new Uint8Array()], ['\ufeff'], [new Uint8Array([0xef, 0xbb, 0xbf])]]) {
    expect(await read(source)).toEqual([]);
  }
  expect(await read(['\n'])).toEqual([[1, '']]);
  expect(await read(['\r\n\r\n'])).toEqual([
    [1, ''],
    [2, ''],
  ]);
  expect(await read([' '])).toEqual([[1, ' ']]);
  expect(await read(['\n', '\n', 'a'])).toEqual([
    [1, ''],
    [2, ''],
    [3, 'a'],
  ]);
});

test('bytes that are no UTF-8 become marks of replacement', async () => {
  expect(await read([new Uint8Array([0x61, 0xff, 0x2c, 0xe2, 0x82])])).toEqual([[1, 'a\ufffd', '\ufffd']]);
});
