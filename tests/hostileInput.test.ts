import { gzipSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import {
  describeFault,
  InputError,
  planPassage,
  readBoat,
  readClimatology,
  readForecast,
  readPolars,
  readRoute,
} from '../src/index.js';
import { readPlan } from '../src/node/node.js';
import { MONTHLY } from './support/monthly.js';
import { BOAT, changed, FORECAST, POLARS, ROUTE, TIMES, WIND } from './support/small.js';

// Inputs that are made to harm: traps of XML and JSON, dates that are none, files cut short, and files that are no text.

/** The faults of a reading, or none. */
async function faultsOf(action: () => unknown): Promise<string[]> {
  try {
    await action();
    return [];
  } catch (error) {
    if (error instanceof InputError) return error.faults.map(describeFault);
    throw error;
  }
}
const forecastOf = (whole: string | Uint8Array) => readForecast({ name: 'forecast.csv', open: () => [whole] });

describe('traps of XML', () => {
  const gpx = (head: string, name: string) =>
    `<?xml version="1.0"?>\n${head}<gpx><rte><rtept lat="1" lon="2"><name>${name}</name></rtept><rtept lat="1" lon="3"/></rte></gpx>`;
  const NINES = Array.from({ length: 9 }, (_, i) => `<!ENTITY e${i + 1} "${`&e${i};`.repeat(10)}">`).join('\n');

  test.each([
    ['entities that multiply', `<!DOCTYPE gpx [<!ENTITY e0 "lol">\n${NINES}]>\n`, '&e9;'],
    ['entities that name each other', '<!DOCTYPE gpx [<!ENTITY a "&b;"><!ENTITY b "&a;">]>\n', '&a;'],
    ['a file of the machine', '<!DOCTYPE gpx [<!ENTITY x SYSTEM "file:///etc/hostname">]>\n', '&x;'],
    ['a page of the network', '<!DOCTYPE gpx [<!ENTITY % x SYSTEM "http://x.invalid/x.dtd"> %x;]>\n', ''],
    ['a definition elsewhere', '<!DOCTYPE gpx SYSTEM "x.dtd">\n', ''],
    ['a definition behind a comment', '<!-- <gpx> -->\n<!DOCTYPE gpx>\n', ''],
  ])('%s: a document type is refused, whatever it holds', async (_, head, name) => {
    const line = head.startsWith('<!--') ? 3 : 2;
    expect(await faultsOf(() => readRoute(gpx(head, name)))).toEqual([
      `route.gpx, line ${line}: expected XML without a <!DOCTYPE, got one with it`,
    ]);
  });

  test.each([
    ['an entity that nobody defined', '&x;'],
    ['a number that is no character', '&#0;'],
    ['a number beyond all characters', '&#x110000;'],
    ['a number of half a pair', '&#xd800;'],
  ])('%s is a fault', async (_, name) => {
    expect(await faultsOf(() => readRoute(gpx('', name)))).toEqual([
      expect.stringMatching(/^route\.gpx, line 2: expected a well-formed XML text, got a fault at ".*"$/),
    ]);
  });

  test('a document type within a text is text', () => {
    const { waypoints } = readRoute(gpx('', '<![CDATA[<!DOCTYPE a [<!ENTITY b "c">]>&b;]]>'));
    expect(waypoints[0]!.name).toBe('<!DOCTYPE a [<!ENTITY b "c">]>&b;');
  });
});

describe('keys that every object has', () => {
  const KEYS = ['__proto__', 'constructor', 'prototype', 'toString', 'hasOwnProperty'];
  /** Every object of a JSON text with a further key. */
  function withKey(text: string, key: string, value: string): string[] {
    return [...text.matchAll(/\{/g)].map(
      ({ index }) => `${text.slice(0, index + 1)}"${key}":${value},${text.slice(index + 1)}`,
    );
  }

  test.each(KEYS)('%s anywhere in a boat is a key like any other: a fault, and nothing has it then', async (key) => {
    const boat = changed(
      BOAT,
      '"house": { "gustFactor": 1.3 }',
      '"house": { "gustFactor": 1.3, "waveMaxM": { "main": 3 } }',
    )
      .replace('"polars.csv"', '{ "main": "a.csv" }')
      .replace('"areaM2": 42', '"areaM2": 42, "derived": { "areaM2": { "status": "derived" } }');
    for (const text of withKey(boat, key, '{"polluted":true}')) {
      const [fault, ...more] = await faultsOf(() => readBoat(text));
      expect([fault, ...more].join('\n'), text).toContain(key);
    }
    expect(({} as Record<string, unknown>).polluted).toBe(undefined);
  });

  test.each(KEYS)('%s in a route is passed over, as unknown members are', (key) => {
    const route = JSON.stringify({
      type: 'FeatureCollection',
      features: [
        { type: 'Feature', geometry: { type: 'Point', coordinates: [1, 2] }, properties: { name: 'A' } },
        { type: 'Feature', geometry: { type: 'Point', coordinates: [1, 3] }, properties: { name: 'B' } },
      ],
    });
    for (const text of withKey(route, key, '{"name":"x","type":"LineString","polluted":true}'))
      expect(readRoute(text)).toEqual(readRoute(route));
    expect(({} as Record<string, unknown>).polluted).toBe(undefined);
  });

  test.each(KEYS)('%s as a column, a plan, a member and an option', async (key) => {
    expect(await faultsOf(() => readRoute(changed(ROUTE, 'to_next', key)))).not.toEqual([]);
    expect(Object.keys(readPolars(`${POLARS}${key},6,40,3\n${key},6,180,3\n`).plans)).toContain(key);
    const members = WIND.replace('v10\n', 'v10,member\n').replaceAll(/,1\n/g, `,1,${key}\n`);
    expect((await forecastOf(members)).forecast.members).toEqual([key]);
    const boat = readBoat(BOAT);
    const inputs = { route: readRoute(ROUTE), boat, polars: readPolars(POLARS, { boat }), ...(await forecastOf(WIND)) };
    const options = JSON.parse(`{"departure":"${TIMES[0]}","house":{"${key}":1,"waveMaxM":{"${key}":2}}}`);
    expect(await faultsOf(() => planPassage(inputs, options))).not.toEqual([]);
    const columns = JSON.parse(`{"gust":{"name":"${key}","unit":"kn"}}`);
    expect(await faultsOf(() => readForecast({ name: 'forecast.csv', open: () => [WIND] }, { columns }))).toEqual([
      expect.stringContaining(`column ${key}: expected this column for gust`),
    ]);
  });

  test('in a plan they are unknown keys', async () => {
    expect(await faultsOf(() => readPlan('{"formatVersion":1,"__proto__":{"hours":[]}}'))).toContainEqual(
      expect.stringContaining('plan.json, __proto__: expected one of'),
    );
  });
});

describe('dates that are none', () => {
  const YEARS = 'expected a time in the years 1800 to 2200';
  const ISO = 'expected a time in ISO 8601, like 2018-10-06T20:00Z';
  test.each([
    ['0000-01-01T00:00Z', YEARS],
    ['0001-01-01T00:00Z', YEARS],
    ['9999-12-31T23:59Z', YEARS],
    ['-0001-01-01T00:00Z', YEARS],
    ['+275760-09-13T00:00:00Z', YEARS],
    ['275760-09-13T00:00:00Z', YEARS],
    ['2027-13-01T00:00Z', ISO],
    ['2027-00-10T00:00Z', ISO],
    ['2027-02-30T00:00Z', ISO],
    ['2027-02-29T00:00Z', ISO],
    ['2027-01-10T24:01Z', ISO],
    ['2027-01-10T00:60Z', ISO],
    ['2027-01-10T00:00+99:00', ISO],
    ['8640000000001', ISO],
    ['1e400', ISO],
    ['NaN', ISO],
  ])('%s', async (time, said) => {
    const boat = readBoat(BOAT);
    const inputs = { route: readRoute(ROUTE), boat, polars: readPolars(POLARS, { boat }), ...(await forecastOf(WIND)) };
    expect(await faultsOf(() => planPassage(inputs, { departure: time }))).toEqual([
      `departure: ${said}, got "${time}"`,
    ]);
    const text = changed(WIND, `${TIMES[1]},10,-60,`, `${time},10,-60,`);
    expect(await faultsOf(() => forecastOf(text))).toEqual([
      `forecast.csv, line 7, column time: ${said}, got "${time}"`,
    ]);
  });

  test('a departure long after the forecast', async () => {
    const boat = readBoat(BOAT);
    const inputs = { route: readRoute(ROUTE), boat, polars: readPolars(POLARS, { boat }), ...(await forecastOf(WIND)) };
    expect(await faultsOf(() => planPassage(inputs, { departure: '2200-12-31T00:00Z' }))).toEqual([
      'forecast.csv: expected a departure from 2027-01-10T00:00:00Z and before 2027-01-11T00:00:00Z, the times of the forecast, got 2200-12-31T00:00:00Z',
    ]);
  });
});

describe('a forecast cut short', () => {
  const whole = WIND.trimEnd();
  const lastLine = whole.length - whole.lastIndexOf('\n') - 1;

  test.each(Array.from({ length: lastLine }, (_, i) => i + 1))(
    'by %i characters: an error that names the line, or a warning that does; never another number in silence',
    async (missing) => {
      const text = whole.slice(0, whole.length - missing);
      const isRow = !text.endsWith('\n');
      try {
        const { forecast, warnings } = await forecastOf(text);
        expect(warnings.map(({ line, code }) => [line, code])).toEqual(isRow ? [[21, 'last-line-open']] : []);
        expect(forecast.grids.length).toBe(1);
      } catch (error) {
        if (!(error instanceof InputError)) throw error;
        for (const { line } of error.faults) expect(line).toBe(21);
      }
    },
  );

  test('a climatology likewise', async () => {
    const text = MONTHLY.trimEnd();
    const { warnings } = await readClimatology({ name: 'months.csv', open: () => [text.slice(0, -1)] });
    expect(warnings).toContainEqual(expect.objectContaining({ line: 49, code: 'last-line-open' }));
  });
});

describe('what is no text in UTF-8', () => {
  const utf16 = (text: string, isLittle: boolean, mark: boolean) => {
    const bytes = Buffer.from(`${mark ? '\ufeff' : ''}${text}`, 'utf16le');
    return new Uint8Array(isLittle ? bytes : bytes.swap16());
  };
  const start = (...bytes: readonly (number | string)[]) =>
    new Uint8Array(
      bytes
        .flatMap((one) => (typeof one === 'number' ? [one] : [...Buffer.from(one, 'latin1')]))
        .concat(Array(600).fill(0x41)),
    );
  const CASES: readonly (readonly [what: string, bytes: Uint8Array, said: string])[] = [
    ['gzip', new Uint8Array(gzipSync(FORECAST)), 'a gzip archive: unpack it first'],
    ['ZIP', start('PK', 3, 4, 20, 0), 'a ZIP archive or a spreadsheet: unpack it, or save it as CSV'],
    ['bzip2', start('BZh91AY&SY'), 'a packed file: unpack it first'],
    ['xz', start(0xfd, '7zXZ', 0, 0, 4), 'a packed file: unpack it first'],
    ['7z', start('7z', 0xbc, 0xaf, 0x27, 0x1c), 'a packed file: unpack it first'],
    ['zstd', start(0x28, 0xb5, 0x2f, 0xfd, 4), 'a packed file: unpack it first'],
    ['GRIB 2', start('GRIB', 0xff, 0xff, 0, 2, 0), 'GRIB or BUFR, which is no text: make CSV of it first'],
    ['GRIB 1', start('GRIB', 0, 1, 0x9c, 1), 'GRIB or BUFR, which is no text: make CSV of it first'],
    ['NetCDF', start('CDF', 1, 0, 0), 'NetCDF, which is no text: make CSV of it first'],
    ['NetCDF 4', start(0x89, 'HDF\r\n', 0x1a, '\n'), 'NetCDF, which is no text: make CSV of it first'],
    ['PDF', start('%PDF-1.7\n'), 'a PDF'],
    ['zeros', new Uint8Array(4096), 'zero bytes, which no text has'],
    ['UTF-16, little end first', utf16(FORECAST, true, true), 'UTF-16: save it as UTF-8'],
    ['UTF-16, big end first', utf16(FORECAST, false, true), 'UTF-16: save it as UTF-8'],
    ['UTF-16 without a mark', utf16(FORECAST, true, false), 'UTF-16: save it as UTF-8'],
    ['UTF-16 without a mark, big end first', utf16(FORECAST, false, false), 'UTF-16: save it as UTF-8'],
  ];

  test.each(CASES)('%s', async (_, bytes, said) => {
    const message = (file: string) => [`${file}: expected a text in UTF-8, got ${said}`];
    expect(await faultsOf(() => forecastOf(bytes))).toEqual(message('forecast.csv'));
    const pieces = Array.from({ length: 40 }, (_, i) => bytes.slice(i, i + 1));
    expect(
      await faultsOf(() => readForecast({ name: 'forecast.csv', open: () => [...pieces, bytes.slice(40)] })),
    ).toEqual(message('forecast.csv'));
    expect(await faultsOf(() => readClimatology({ name: 'months.csv', open: () => [bytes] }))).toEqual(
      message('months.csv'),
    );
    const text = Buffer.from(bytes).toString('utf8');
    expect(await faultsOf(() => readRoute(text))).toEqual(message('route.csv'));
    expect(await faultsOf(() => readBoat(text))).toEqual(message('boat.json'));
    expect(await faultsOf(() => readPolars(text))).toEqual(message('polars.csv'));
    expect(await faultsOf(() => readPlan(text))).toEqual(message('plan.json'));
  });

  test('a source is let go where its beginning is enough', async () => {
    let isOpen = true;
    async function* source() {
      try {
        for (;;) yield new Uint8Array(gzipSync('x'));
      } finally {
        isOpen = false;
      }
    }
    expect(await faultsOf(() => readForecast({ name: 'forecast.csv', open: source }))).toHaveLength(1);
    expect(isOpen).toBe(false);
  });

  test('a text by itself is a source too', async () => {
    const read = await readForecast({ name: 'forecast.csv', open: () => WIND });
    expect(read).toEqual(await forecastOf(WIND));
  });

  test('a text that begins alike is a text', async () => {
    expect((await forecastOf(`\ufeff${WIND}`)).warnings).toEqual([]);
    expect((await forecastOf(`\r\n\n${WIND}`)).warnings).toEqual([]);
    expect(readRoute(`\t\n${ROUTE}`)).toEqual(readRoute(ROUTE));
    for (const column of ['GRIBstep', 'CDFx', 'PKx', '7zx', 'BZhx'])
      expect(
        (await forecastOf(WIND.replace(/^time/, `${column},time`).replaceAll(/^2027/gm, '1,2027'))).warnings,
      ).toHaveLength(1);
  });
});
