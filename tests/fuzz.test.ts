import { isDeepStrictEqual } from 'node:util';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  describeFaults,
  InputError,
  parsePosition,
  planPassage,
  readBoat,
  readClimatology,
  readForecast,
  readPolars,
  readRoute,
  totalsOf,
} from '../src/index.js';
import { landOf } from '../src/land/land.js';
import { planJson, readPlan } from '../src/output/output.js';
import {
  type Delivery,
  damagedOf,
  delivered,
  delivery,
  inPieces,
  longOf,
  noiseOf,
  wordsOf,
} from './support/anyText.js';
import { MONTHLY, monthlyCsv } from './support/monthly.js';
import { always, BOAT, FORECAST, forecastCsv, POLARS, ROUTE, TIMES } from './support/small.js';

/** Inputs of each sort into each reader; of very long ones fewer. */
const CASES = 1000;
const LONG_CASES = 20;
/** Nothing here takes more than a second or two by itself, so that what takes for ever is seen. */
const MOST_MILLISECONDS = 60_000;

/** A reader, texts it reads, and the words its format is made of. */
interface Reader {
  readonly name: string;
  /** Reads a text; of a forecast as it is delivered. The second reading may cut it otherwise. */
  readonly read: (text: string, delivery: Delivery, isSecond: boolean) => unknown;
  readonly valid: readonly string[];
  readonly words: readonly string[];
}

/** A text as a caller has it who decodes the bytes of a file. */
const decoded = (text: string, how: Delivery): string => {
  const whole = delivered(text, how);
  return typeof whole === 'string' ? whole : new TextDecoder('utf-8').decode(whole);
};
const ofText =
  (read: (text: string) => unknown): Reader['read'] =>
  (text, how) =>
    read(decoded(text, how));

const BOX = { latMinDeg: 9, latMaxDeg: 11.5, lonWestDeg: -62.5, lonWidthDeg: 3 };
const readDelivered: Reader['read'] = (text, how, isSecond) => {
  const whole = delivered(text, how);
  return readForecast(
    { name: 'forecast.csv', open: () => (isSecond ? [whole] : inPieces(whole, how)) },
    // With and without a crop, a member and columns of other names, by what is at hand.
    {
      ...(how.cuts.length % 2 === 0 ? {} : { crop: () => BOX }),
      ...(how.cuts.length === 3 ? { member: '1' } : {}),
      ...(how.cuts.length === 5 ? { columns: { u10: { name: 'gust', unit: 'm/s' } } } : {}),
      needsWind: how.cuts.length < 2,
    },
  );
};
const readMonths: Reader['read'] = (text, how, isSecond) => {
  const whole = delivered(text, how);
  return readClimatology(
    { name: 'months.csv', open: () => (isSecond ? [whole] : inPieces(whole, how)) },
    {
      ...(how.cuts.length % 2 === 0 ? {} : { crop: () => BOX }),
      ...(how.cuts.length === 5 ? { columns: { wind_speed: { name: 'u', unit: 'kn' } } } : {}),
    },
  );
};
const readTwo: Reader['read'] = (text, how, isSecond) => {
  const whole = delivered(text, how);
  return readForecast([
    { name: 'one.csv', open: () => (isSecond ? [whole] : inPieces(whole, how)) },
    { name: 'other.csv', open: () => [how.cuts.length % 2 === 0 ? WIND_LATER : CURRENT_AND_WAVES] },
  ]);
};

const ERDDAP = FORECAST.replace('time,lat,lon,u10,v10', 'time,latitude,longitude,ugrd10m,vgrd10m').replace(
  '\n',
  '\nUTC,degrees_north,degrees_east,m s-1,m s-1,m s-1,m s-1,m s-1,m,s,degree\n',
);
const GRIB = TIMES.slice(0, 3)
  .flatMap((time) =>
    ['UGRD', 'VGRD'].flatMap((name) =>
      [10, 12].flatMap((lat) =>
        [298, 300].map(
          (lon) =>
            `"2027-01-10 00:00:00","${time.slice(0, 10)} ${time.slice(11, 16)}:00","${name}","10 m above ground",${lon},${lat},-7.5`,
        ),
      ),
    ),
  )
  .join('\n');
const RUNS_AND_MEMBERS = forecastCsv('run_time,member,wind_speed_kn,wind_from_direction,gust_kn', (time, lat) => [
  lat === 10 ? TIMES[0]! : time,
  lat === 10 ? '1' : '2',
  16,
  90,
  '',
]);
const CURRENT_AND_WAVES = forecastCsv('current_speed_kn,current_to_direction,VHM0,VMDR', always(0.5, 270, 'NaN', 80));
const WIND_LATER = FORECAST.replaceAll('2027-01-1', '2027-01-2');
const GPX = `<?xml version="1.0" encoding="UTF-8"?>
<gpx version="1.1" creator="x" xmlns="http://www.topografix.com/GPX/1/1">
  <metadata><name>a &amp; b</name></metadata>
  <wpt lat="1" lon="2"/>
  <rte><name>Way</name>
    <rtept lat="11.5" lon="-60.5"><name>Start</name></rtept>
    <rtept lat="11" lon="-61.5"><name><![CDATA[E < d]]></name></rtept>
  </rte>
</gpx>
`;
const TRACK = `<g:gpx xmlns:g="http://www.topografix.com/GPX/1/0"><!-- a track -->
  <g:trk><g:trkseg><g:trkpt lat="0" lon="179.5"/><g:trkpt lat="0" lon="179.5"/></g:trkseg>
  <g:trkseg><g:trkpt lat="0.5" lon="-179.5"/></g:trkseg></g:trk></g:gpx>`;
const feature = (geometry: unknown, properties: unknown = {}) => ({ type: 'Feature', properties, geometry });
const POINTS = JSON.stringify(
  {
    type: 'FeatureCollection',
    features: [
      feature({ type: 'Point', coordinates: [-60.5, 11.5] }, { name: 'Start', to_next: 'rhumb' }),
      feature({ type: 'Point', coordinates: [-61.5, 11, 0] }, { name: 7 }),
    ],
  },
  null,
  1,
);
const CUT_LINE = JSON.stringify(
  feature({ type: 'MultiLineString', coordinates: [[[179, 0], [180, 0.5]], [[-180, 0.5], [-179, 1]]] }), // biome-ignore format: as it is drawn
);
const SQUARE = [[[0, 0], [10, 0], [10, 10], [0, 10], [0, 0]]]; // biome-ignore format: as it is drawn
const LAND = [
  JSON.stringify({ type: 'Polygon', coordinates: SQUARE }),
  JSON.stringify({ type: 'FeatureCollection', features: [feature({ type: 'MultiPolygon', coordinates: [SQUARE] })] }),
  JSON.stringify({ type: 'GeometryCollection', geometries: [{ type: 'Polygon', coordinates: SQUARE }] }),
];
const WIDE = 'twa/tws;6;10;20\n40;3;4;5.5\n90;4;6;8\n180;3;5;7\n';
const POLARS_TO_HEADING = `${POLARS.replaceAll('\n', ',10,heading\n').replace('stw_kn,10,heading', 'stw_kn,wind_height_m,twa_reference')}`;
const FULL_BOAT = BOAT.replace(
  '"house": {',
  '"leeway": [[40, 5], [120, 0]], "polarStatus": "designed", "house": { "tackMinutes": 2,',
);

async function planText(): Promise<string> {
  const boat = readBoat(BOAT);
  const route = readRoute(ROUTE);
  const { forecast } = await readForecast({ name: 'forecast.csv', open: () => [FORECAST] });
  const passage = planPassage(
    { route, forecast, boat, polars: readPolars(POLARS, { boat }) },
    { departure: TIMES[0]! },
  );
  return planJson({ passage, totals: totalsOf(passage, boat), boat, route, inputs: [] });
}

const COMMON = [',', ',', ',', '\n', '\n', '0', '1', '-1', '12', '.', '-', '"', ' ', 'a', '90', '180', '1.5', '16'];
const FORECAST_WORDS = [
  ...COMMON,
  ...['time', 'lat', 'lon', 'u10', 'v10', 'time,lat,lon,u10,v10\n', 'gust', 'wind_speed_kn', 'wind_from_direction'],
  ...['member', 'run_time', 'depth', 'valid_time', 'gust_kn', 'current_u', 'swh', 'current_speed_cmps', 'NaN', '-999'],
  ...['2027-01-10T00:00Z', '2027-01-10 06:00', '2027-01-10T00:00Z,10,-60,-8,1\n', '2027-01-10T06:00Z,12,-62,8,1\n'],
  ...['\nUTC,degrees_north,degrees_east,m s-1,m s-1\n', '"2027-01-10 00:00:00",', '"UGRD"', '"VGRD"', '"surface"'],
  ...['"2027-01-10 00:00:00","2027-01-10 06:00:00","UGRD","10 m above ground",-60,10,1\n'],
];
const JSON_WORDS = [
  ...[
    '{',
    '}',
    '[',
    ']',
    '[',
    ']',
    ',',
    ':',
    '"',
    '""',
    '"a"',
    '0',
    '-0',
    '1e400',
    '-1',
    '1.5',
    'null',
    'true',
    ' ',
    '\n',
  ],
  ...['\\u0061', '\\', '/*', '//'],
];
const ROUTE_JSON_WORDS = [
  ...JSON_WORDS,
  ...[
    '{"type":"FeatureCollection","features":[',
    '{"type":"Feature","geometry":',
    '{"type":"LineString","coordinates":[',
  ],
  ...['{"type":"Point","coordinates":[1,2]}', '"properties":{"name":"a"}', '[1,2],', '[181,-0],', '[-180,1]', ']}'],
  ...['{"type":"MultiLineString","coordinates":[[', '"to_next":"rhumb"', '"type"', '"coordinates"'],
];

const READERS: readonly Reader[] = [
  {
    name: 'readRoute, CSV',
    read: ofText((text) => readRoute(text)),
    valid: [ROUTE, ROUTE.replaceAll(',', ';'), `name,lat,lon\nA,16°52.8'N,024°59'W\n"B ""x""",13-06 N,59 36 00 W\n`],
    words: [
      ...COMMON,
      'name,lat,lon\n',
      'to_next',
      'rhumb',
      'great-circle',
      'A,1,2\n',
      'B,-1,3\n',
      "16°52.8'N",
      'S',
      'W',
    ],
  },
  {
    name: 'readRoute, GPX',
    read: ofText((text) => readRoute(text)),
    valid: [GPX, TRACK],
    words: [
      ...[
        '<',
        '>',
        '/>',
        '</',
        '<gpx>',
        '</gpx>',
        '<rte>',
        '</rte>',
        '<trk>',
        '<trkseg>',
        '</trkseg>',
        '</trk>',
        '<name>',
      ],
      ...['</name>', '<rtept lat="1" lon="2"/>', '<rtept lat="3" lon="-2">', '</rtept>', '<trkpt lat="5" lon="6"/>'],
      ...[
        '<!--',
        '-->',
        '<![CDATA[',
        ']]>',
        '&amp;',
        '&#65;',
        '&x;',
        '<?a?>',
        ' lat="',
        '"',
        'xmlns="a"',
        'g:',
        '=',
        ' ',
      ],
    ],
  },
  {
    name: 'readRoute, GeoJSON',
    read: ofText((text) => readRoute(text)),
    valid: [POINTS, CUT_LINE, '{"type":"LineString","coordinates":[[0,0],[1,1],[360,2]]}'],
    words: ROUTE_JSON_WORDS,
  },
  {
    name: 'readForecast, plain',
    read: readDelivered,
    valid: [FORECAST, RUNS_AND_MEMBERS, CURRENT_AND_WAVES],
    words: FORECAST_WORDS,
  },
  { name: 'readForecast, with a row of units', read: readDelivered, valid: [ERDDAP], words: FORECAST_WORDS },
  { name: 'readForecast, without a header', read: readDelivered, valid: [GRIB], words: FORECAST_WORDS },
  {
    name: 'readForecast, two files',
    read: readTwo,
    valid: [CURRENT_AND_WAVES, FORECAST, ERDDAP, RUNS_AND_MEMBERS],
    words: FORECAST_WORDS,
  },
  {
    name: 'readClimatology',
    read: readMonths,
    valid: [
      MONTHLY,
      MONTHLY.replace('\n', '\n1,degrees_north,degrees_east,m s-1,m s-1,m s-1\n'),
      monthlyCsv('u10_kn,v10_kn,wind_speed_kn', (month) => [month === 3 ? '' : -12, 1, 11])
        .replace('month', 'time')
        .replace(/^(\d),/gm, '2001-0$1-16,')
        .replace(/^(\d\d),/gm, '2001-$1,'),
    ],
    words: [
      ...COMMON,
      'month,lat,lon,u,v,wspd\n',
      'month',
      'time',
      'lat',
      'lon',
      'u',
      'v',
      'wspd',
      '1,10,-60,-6,0,7\n',
      '2001-01-16',
      'NaN',
      '-999',
    ],
  },
  {
    name: 'readBoat',
    read: ofText((text) => readBoat(text)),
    valid: [BOAT, FULL_BOAT],
    words: [...JSON_WORDS, ...BOAT.split(/(?<=[{}[\],:])\s*/)],
  },
  {
    name: 'readPolars, tidy',
    read: ofText((text) => readPolars(text, { boat: readBoat(BOAT) })),
    valid: [POLARS, POLARS_TO_HEADING],
    words: [...COMMON, 'sail_plan,tws_kn,twa_deg,stw_kn\n', 'main', 'main,6,40,3\n', 'main,6,180,4\n', 'twa_reference'],
  },
  {
    name: 'readPolars, wide',
    read: ofText((text) => readPolars(text, { sailPlan: 'main' })),
    valid: [WIDE, WIDE.replaceAll(';', ','), WIDE.replaceAll(';', '\t')],
    words: [...COMMON, ';', '\t', ',6,10\n', '40,3,4\n', '180,4,5\n', '\n,'],
  },
  {
    name: 'readPlan',
    read: ofText((text) => readPlan(text)),
    valid: [await planText()],
    words: [...JSON_WORDS, '"formatVersion":1', '"hours":[', '"options":{', '"complete":true'],
  },
  {
    name: 'parsePosition',
    read: ofText((text) => parsePosition(text) ?? 'none'),
    valid: ['16.88,-24.98', "16°52.8'N 024°59.0'W", 'N16 52 48 W24 59', '16-52.8N;24-59W'],
    words: ['1', '12', '.5', '-', '+', ',', ';', ' ', '°', "'", '"', 'N', 's', 'E', 'W', 'd', 'm', '′', '60', '180'],
  },
  {
    name: 'landOf',
    read: ofText((text) => landOf(parsedOf(text))),
    valid: LAND,
    words: [...ROUTE_JSON_WORDS, '{"type":"Polygon","coordinates":[[', '"geometries":['],
  },
];

/** What a JSON text says, or else the text. */
function parsedOf(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return text;
  }
}

/** A record or the faults; another error is thrown on. */
async function outcomeOf(read: () => unknown): Promise<{ record?: unknown; error?: InputError }> {
  try {
    return { record: await read() };
  } catch (error) {
    if (error instanceof InputError) return { error };
    throw error;
  }
}

/** What a terminal would obey or not show, line feeds apart. */
const UNSEEN = /(?!\n)[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]|(?! )\p{Zs}/u;

function checkFaults({ faults, omitted, message }: InputError): void {
  expect(faults.length).toBeGreaterThan(0);
  for (const { file, code, expected, got } of faults) {
    for (const text of [file, code, expected, got]) expect(text).not.toBe('');
  }
  expect(message).toBe(describeFaults(faults, omitted));
  expect(message).not.toMatch(UNSEEN);
}

/** Numbers that a record must not hold: NaN, infinite ones and −0; in the fields of a grid NaN marks an absent point. */
function badNumbers(value: unknown, path = ''): string[] {
  if (typeof value === 'number') return Number.isFinite(value) && !Object.is(value, -0) ? [] : [`${path} ${value}`];
  if (value instanceof Float32Array)
    return value.some((item) => Math.abs(item) === Infinity) ? [`${path} infinite`] : [];
  if (value instanceof Float64Array) return [...value].flatMap((item, i) => badNumbers(item, `${path}[${i}]`));
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, item]) => badNumbers(item, `${path}.${key}`));
}

async function check({ read }: Reader, text: string, how: Delivery): Promise<void> {
  const { record, error } = await outcomeOf(() => read(text, how, false));
  const again = await outcomeOf(() => read(text, how, true));
  expect(again.error?.message).toBe(error?.message);
  if (error !== undefined) checkFaults(error);
  else {
    expect(badNumbers(record)).toEqual([]);
    expect(isDeepStrictEqual(again.record, record), 'a second reading gives the same record').toBe(true);
    expect(isDeepStrictEqual(structuredClone(record), record), 'the record is plain data').toBe(true);
  }
  expect(Object.keys(Object.prototype)).toEqual([]);
}

describe.each(READERS)(
  `$name: a record or faults, of ${CASES} texts of each sort and ${LONG_CASES} long ones`,
  (reader) => {
    const { valid, words } = reader;
    const sorts = {
      noise: noiseOf(valid.map((text) => text.slice(0, 25))),
      'words of the format': wordsOf(valid, words),
      'damaged texts': damagedOf(valid),
      'long texts': longOf(valid, words),
    };

    test('what is valid is read', async () => {
      for (const text of valid) {
        const { error } = await outcomeOf(() => reader.read(text, { as: 'text', flips: [], cuts: [0.5, 0.6] }, false));
        expect(error?.message).toBeUndefined();
      }
    });

    test.each(Object.entries(sorts))('%s', { timeout: MOST_MILLISECONDS }, async (sort, texts) => {
      await fc.assert(
        fc.asyncProperty(texts, delivery, (text, how) => check(reader, text, how)),
        { numRuns: sort === 'long texts' ? LONG_CASES : CASES, seed: 20270115, endOnFailure: false },
      );
    });
  },
);

/** As many of a thing as a file has lines, where a loop over all for each would take for ever. */
const MANY = 20_000;
const many = (lineOf: (i: number) => string, separator = '\n') =>
  Array.from({ length: MANY }, (_, i) => lineOf(i)).join(separator);
const minuteOf = (i: number) => new Date(Date.UTC(2027, 0, 1) + i * 60_000).toISOString();
const WIND_HEAD = 'time,lat,lon,u10,v10';
const forecast = (text: string) => readForecast({ name: 'forecast.csv', open: () => [text] });

test.each<[what: string, read: (text: string) => unknown, text: string]>([
  ['columns of a forecast', forecast, `${many((i) => `u10_${i}`, ',')}\n1`],
  ['repeated columns of a forecast', forecast, `${WIND_HEAD},${many(() => 'u10', ',')}\n1`],
  ['faulty rows of a forecast', forecast, `${WIND_HEAD}\n${many(() => 'x,x,x,x,x')}`],
  ['times', forecast, `${WIND_HEAD}\n${many((i) => `${minuteOf(i)},10,-60,0,0`)}`],
  ['places on no grid', forecast, `${WIND_HEAD}\n${many((i) => `2027-01-10T00:00Z,${i / 250},${i / 125},1,1`)}`],
  ['runs', forecast, `run_time,${WIND_HEAD}\n${many((i) => `${minuteOf(i)},2027-01-10T00:00Z,10,-60,1,1`)}`],
  ['members', forecast, `member,${WIND_HEAD}\n${many((i) => `${i},2027-01-10T00:00Z,10,-60,1,1`)}`],
  ['rows that disagree', forecast, `${WIND_HEAD}\n${many((i) => `2027-01-10T00:00Z,10,-60,${i % 50},1`)}`],
  ['names without a header', forecast, many((i) => GRIB.split('\n')[0]!.replace('UGRD', `N${i}`))],
  ['levels without a header', forecast, many((i) => GRIB.split('\n')[0]!.replace('10 m', `${i} m`))],
  ['waypoints', readRoute, `name,lat,lon\n${many((i) => `A,${(i % 900) / 10},${i % 7}`)}`],
  ['columns of a route', readRoute, `${many((i) => `name${i}`, ',')}\n1`],
  ['routes', readRoute, `<gpx>${many(() => '<rte><rtept lat="1" lon="1"/></rte>')}</gpx>`],
  ['elements in each other', readRoute, `<gpx>${many(() => '<trk>')}`],
  ['attributes', readRoute, `<gpx ${many((i) => `a${i}="1"`)}/>`],
  ['parts of a line', readRoute, `{"type":"MultiLineString","coordinates":[${many(() => '[[1,1]]', ',')}]}`],
  ['lists in each other', readRoute, `${many(() => '[', '')}${many(() => ']', '')}`],
  ['features', readRoute, `{"type":"FeatureCollection","features":[${many(() => '{"type":"Feature"}', ',')}]}`],
  ['repeated keys of a boat', readBoat, `{${many(() => '"name":"x"', ',')}}`],
  ['keys of a boat', readBoat, `{${many((i) => `"k${i}":1`, ',')}}`],
  ['sails', readBoat, `{"sails":[${many((i) => `{"id":"a${i}"}`, ',')}]}`],
  ['sails of a plan', readBoat, `{"sailPlans":[{"id":"a","sails":[${many((i) => `"s${i}"`, ',')}]}]}`],
  ['polars', readPolars, `sail_plan,tws_kn,twa_deg,stw_kn\n${many((i) => `p${i},1,${i % 180},1`)}`],
  [
    'winds and angles without a table',
    readPolars,
    `sail_plan,tws_kn,twa_deg,stw_kn\n${many((i) => `p,${i / 200},${i / 200},1`)}`,
  ],
  ['winds', (text) => readPolars(text, { sailPlan: 'a' }), `,${many((i) => `${i / 200}`, ',')}\n1\n2`],
  ['hours of a plan', readPlan, `{"formatVersion":1,"hours":[${many(() => '1', ',')}]}`],
])(`${MANY} %s`, { timeout: MOST_MILLISECONDS }, async (_, read, text) => {
  const { record, error } = await outcomeOf(() => read(text));
  if (error !== undefined) checkFaults(error);
  else expect(badNumbers(record)).toEqual([]);
});

test(`landOf: land or faults of ${CASES} values of any kind`, () => {
  const strange = fc.anything({
    withBigInt: true,
    withDate: true,
    withMap: true,
    withNullPrototype: true,
    withTypedArray: true,
  });
  const land = fc.record({
    type: fc.oneof(
      fc.constantFrom('Polygon', 'MultiPolygon', 'GeometryCollection', 'Feature', 'FeatureCollection'),
      strange,
    ),
    coordinates: fc.oneof(fc.array(fc.array(strange)), fc.constant(SQUARE), strange),
    geometries: fc.oneof(fc.array(strange), strange),
    geometry: strange,
    features: fc.oneof(fc.array(strange), strange),
  });
  fc.assert(
    fc.property(fc.oneof(strange, land, fc.record({ type: fc.constant('Feature'), geometry: land })), (value) => {
      try {
        expect(badNumbers(landOf(value))).toEqual([]);
      } catch (error) {
        if (!(error instanceof InputError)) throw error;
        checkFaults(error);
      }
    }),
    { numRuns: CASES, seed: 20270116 },
  );
});
