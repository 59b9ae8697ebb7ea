import { describe, expect, test } from 'vitest';
import { type ReadForecast, readForecast, readPolars, readRoute } from '../src/index.js';
import { forecastCsv, POLARS, ROUTE, TIMES } from './support/small.js';

/** A forecast whose values differ from point to point, with one point of gust, current and waves absent. */
const cellsAt = (time: string, latDeg: number, lonDeg: number) => {
  const k = TIMES.indexOf(time) + latDeg / 2 + lonDeg / 4;
  const land = latDeg === 12 && lonDeg === -62;
  return [-8 + k, 1.5 - k / 2, ...(land ? ['', '', '', '', ''] : [12 + k / 4, 0.25, -k / 8, 1 + k / 16, 80 + k])];
};
const FULL = forecastCsv('u10,v10,gust,current_u,current_v,wave_height,wave_from_direction', cellsAt);
const [HEADER, ...ROWS] = FULL.trimEnd().split('\n') as [string, ...string[]];

const mapped = (change: (cells: readonly string[], row: number) => readonly string[]) =>
  [HEADER, ...ROWS.map((row, i) => change(row.split(','), i).join(','))].join('\n');
const withLon = (lonOf: (lon: number, row: number) => number) =>
  mapped(([time = '', lat = '', lon = '', ...rest], i) => [time, lat, `${lonOf(Number(lon), i)}`, ...rest]);
const absentAs = (word: string) => mapped((cells) => cells.map((cell) => (cell === '' ? word : cell)));
const rowsSorted = (compare: (a: readonly string[], b: readonly string[]) => number) =>
  [HEADER, ...[...ROWS].sort((a, b) => compare(a.split(','), b.split(',')))].join('\n');
/** Every row a fixed step of 7 from the one before, round and round: 7 and 20 have no common divisor. */
const shuffled = [HEADER, ...ROWS.map((_, i) => ROWS[(i * 7) % ROWS.length]!)].join('\n');
const columnsMoved = (text: string, separator = ',') =>
  text
    .trimEnd()
    .split('\n')
    .map((row) => row.split(separator).reverse().join(separator))
    .join('\n');
const quotedCells = (text: string) =>
  text
    .trimEnd()
    .split('\n')
    .map((row) =>
      row
        .split(',')
        .map((cell) => `"${cell}"`)
        .join(','),
    )
    .join('\n');
const crlf = (text: string) => text.replaceAll('\n', '\r\n');
const spread = (text: string) => `\n\n${text.replaceAll('\n', '\n \n\n')}\n\n`;

const read = (text: string): Promise<ReadForecast> =>
  readForecast({ name: 'forecast.csv', open: () => [new TextEncoder().encode(text)] });

/** Warned of where the last row has no line end: it may have been cut. */
const openEnd = (text: string) => (/[\r\n]\s*$/.test(text) ? [] : ['last-line-open']);

describe('the same forecast', () => {
  test('is one with absent points and five times', async () => {
    const { forecast } = await read(FULL);
    expect(forecast.grids.map(({ lats, lons, epochSeconds }) => [[...lats], [...lons], epochSeconds.length])).toEqual([
      [[10, 12], [-62, -60], 5],
    ]);
    expect(forecast.grids[0]!.fields.gustKn!.filter((value) => Number.isNaN(value)).length).toBe(5);
  });

  test.each([
    ['without a last line end', FULL.trimEnd()],
    ['with a byte order mark', `\ufeff${FULL}`],
    ['with a byte order mark and quotes', `\ufeff${quotedCells(FULL)}`],
    ['with line ends CR LF', crlf(FULL)],
    ['with line ends CR LF and quotes', crlf(quotedCells(FULL))],
    ['with line ends CR', FULL.replaceAll('\n', '\r')],
    ['with line ends of both kinds', `${crlf(FULL.slice(0, 400))}${FULL.slice(400)}`],
    ['with semicolons', FULL.replaceAll(',', ';')],
    ['with tabs', FULL.replaceAll(',', '\t')],
    ['with blank lines', spread(FULL)],
    ['with blank lines and quotes', spread(quotedCells(FULL))],
    ['with blank lines and semicolons', spread(FULL.replaceAll(',', ';'))],
    ['with blank lines and tabs', spread(FULL.replaceAll(',', '\t'))],
    ['with quoted cells', quotedCells(FULL)],
    ['with spaces round the cells', FULL.replaceAll(',', ' , ')],
    ['with a header in capitals', FULL.replace(HEADER, HEADER.toUpperCase())],
    ['with latitude and longitude spelt out', FULL.replace('lat,lon', 'latitude,longitude')],
    ['with units in the names', FULL.replace('u10,v10,gust', 'u10_mps,v10_m_s,gust_mps').replace('height', 'height_m')],
    ['with its columns in another order', columnsMoved(FULL)],
    ['with times at an offset', FULL.replaceAll('T06:00Z', 'T03:00-03:00').replaceAll('T18:00Z', 'T23:30+05:30')],
    ['with times to the second and a blank for the T', FULL.replace(/T(\d\d:\d\d)Z/g, ' $1:00.000+00:00')],
    ['with longitudes 0 to 360', withLon((lon) => lon + 360)],
    ['with longitudes of both kinds', withLon((lon, i) => (i % 3 === 0 ? lon + 360 : lon))],
    ['from north to south', rowsSorted((a, b) => Number(b[1]) - Number(a[1]))],
    ['from south to north', rowsSorted((a, b) => Number(a[1]) - Number(b[1]))],
    ['from east to west', rowsSorted((a, b) => Number(b[2]) - Number(a[2]))],
    ['from the last time to the first', rowsSorted((a, b) => (a[0]! < b[0]! ? 1 : -1))],
    ['with its rows shuffled', shuffled],
    ['with rows given twice', `${FULL}${ROWS.join('\n')}\n`],
  ])('%s', async (_, text) => {
    const { forecast, warnings } = await read(text);
    expect(forecast).toEqual((await read(FULL)).forecast);
    expect(warnings.map(({ code }) => code)).toEqual(openEnd(text));
  });

  test('with one member', async () => {
    const text = mapped((cells, i) => [...cells, i < 0 ? '' : 'c00']).replace(HEADER, `${HEADER},member`);
    const { forecast, warnings } = await read(text);
    const { members, ...rest } = forecast;
    const grids = rest.grids.map(({ member, ...grid }) => {
      expect(member).toBe('c00');
      return grid;
    });
    expect(members).toEqual(['c00']);
    expect({ ...rest, grids }).toEqual((await read(FULL)).forecast);
    expect(warnings.map(({ code }) => code)).toEqual(openEnd(text));
  });

  test('with the rows of absent points left out', async () => {
    const isAbsent = (row: string) => row.endsWith(',,,,');
    const emptied = mapped((cells) => (isAbsent(cells.join()) ? cells.map((cell, i) => (i < 3 ? cell : '')) : cells));
    const leftOut = [HEADER, ...ROWS.filter((row) => !isAbsent(row))].join('\n');
    expect((await read(leftOut)).forecast).toEqual((await read(emptied)).forecast);
  });

  test.each([
    ...['NaN', 'nan', 'NA', 'N/A', 'null', 'None', '-', '--', '_', ' '],
    ...['-999', '-999.0', '-999.9', '-9999', '-99999', '-32767', '-32768', '9999', '99999'],
    ...['9.999e20', '9.999E+20', '9.96921e36', '1e20', '-1e34'],
  ])('with %j for what is absent', async (word) => {
    expect((await read(absentAs(word))).forecast).toEqual((await read(FULL)).forecast);
  });

  test('in pieces cut anywhere, within a character too', async () => {
    // A column that is not used, of characters of two and three bytes.
    const rows = [`${HEADER},Å′`, ...ROWS.map((row) => `${row},°″`)].join('\n');
    const text = `\ufeff${crlf(quotedCells(rows))}`;
    const bytes = new TextEncoder().encode(text);
    const pieces = (size: number) =>
      Array.from({ length: Math.ceil(bytes.length / size) }, (_, i) => bytes.subarray(i * size, (i + 1) * size));
    const whole = await read(text);
    for (const size of [1, 2, 3, 7, 64]) {
      const open = () => pieces(size);
      expect(await readForecast({ name: 'forecast.csv', open })).toEqual(whole);
    }
  });

  test('across the date line, whichever way longitudes are told', async () => {
    const told = (lonOf: (lon: number) => number) => read(withLon((lon) => lonOf(lon === -62 ? 179 : 181)));
    const plain = await told((lon) => lon);
    expect([...plain.forecast.grids[0]!.lons]).toEqual([179, 181]);
    expect((await told((lon) => (lon > 180 ? lon - 360 : lon))).forecast).toEqual(plain.forecast);
  });
});

describe('the same small tables', () => {
  const variants = (text: string): [string, string][] => [
    ['a byte order mark', `\ufeff${text}`],
    ['line ends CR LF', crlf(text)],
    ['line ends CR', text.replaceAll('\n', '\r')],
    ['semicolons', text.replaceAll(',', ';')],
    ['tabs', text.replaceAll(',', '\t')],
    ['blank lines', spread(text)],
    ['blank lines and semicolons', spread(text.replaceAll(',', ';'))],
    ['quoted cells', quotedCells(text)],
    ['quoted cells and CR LF', crlf(quotedCells(text))],
    ['spaces round the cells', text.replaceAll(',', ' , ')],
    ['columns in another order', columnsMoved(text)],
  ];

  test.each(variants(ROUTE))('a route with %s', (_, text) => {
    expect(readRoute(text)).toEqual(readRoute(ROUTE));
  });

  test.each(variants(POLARS))('polars with %s', (_, text) => {
    expect(readPolars(text)).toEqual(readPolars(POLARS));
  });

  test.each([
    ['11.5', '-60.5'],
    ['+11.5', '299.5'],
    ["11°30.0'N", "60°30.0'W"],
    ["11°30'N", "060°30'W"],
    ["N11°30.0'", "W060°30.0'"],
    ['11 30.0 N', '60 30.0 W'],
    ['11-30-00N', '60-30-00W'],
    [`"11°30'00""N"`, `"60°30'00""W"`],
    [`11°30'00"N`, `60°30'00"W`],
    ['11.5n', '60.5w'],
    ['11º30′N', '60º30′W'],
    ['"  11.5 "', '-60.5'],
  ])('a place told as %s %s', (lat, lon) => {
    const text = ROUTE.replace('11.5,-60.5', `${lat},${lon}`);
    expect(readRoute(text)).toEqual(readRoute(ROUTE));
  });
});
