import { mkdirSync, readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { ran, workFolder } from './support/command.js';
import { always, BOAT, changed, FORECAST, forecastCsv, POLARS, ROUTE, TIMES } from './support/small.js';

const KN_PER_MPS = 3600 / 1852;
const SAMPLES = resolve('data-samples');

const GPX = `<?xml version="1.0"?>
<gpx version="1.1" creator="test" xmlns="http://www.topografix.com/GPX/1/1">
  <rte><rtept lat="0" lon="-30"><name>West</name></rtept><rtept lat="0" lon="-29"><name>East</name></rtept></rte>
</gpx>
`;
const GEOJSON = JSON.stringify({
  type: 'LineString',
  coordinates: [
    [179.5, 0],
    [-179.5, 0],
    [-179.5, 1],
  ],
});
const WIDE = 'twa/tws;6;10;20\n40;4;5;6\n90;5.5;7;8.25\n180;4;6;7\n';

let folder: ReturnType<typeof workFolder>;
beforeAll(async () => {
  folder = workFolder();
  mkdirSync('folder.csv');
  folder.write({
    'route.csv': ROUTE,
    'route.gpx': GPX,
    'route.geojson': GEOJSON,
    'boat.json': BOAT,
    'polars.csv': POLARS,
    'wide.csv': WIDE,
    'forecast.csv': FORECAST,
    'short.csv': forecastCsv('u10,v10', always(-8, 1), TIMES.slice(0, 2)),
  });
  const given = ['--route', 'route.csv', '--boat', 'boat.json', '--depart', TIMES[0]!];
  expect((await ran('plan', ...given, '--forecast', 'forecast.csv', '--out', 'out')).code).toBe(0);
  expect((await ran('plan', ...given, '--forecast', 'short.csv', '--out', 'short')).code).toBe(3);
});
afterAll(() => folder.leave());

const check = (...args: readonly string[]) => ran('check', ...args);

/** What is said of good files. */
async function saidOf(...args: readonly string[]): Promise<string> {
  const { code, out, error } = await check(...args);
  expect({ code, error }).toEqual({ code: 0, error: '' });
  return out;
}

/** The same of one forecast made for the test. */
async function saidOfForecast(text: string, ...options: readonly string[]): Promise<string[]> {
  folder.write({ 'made.csv': text });
  const lines = (await saidOf(...options, 'made.csv')).trimEnd().split('\n');
  // The mean direction has a test of its own.
  return lines.filter((line) => !line.includes('on the mean'));
}

/** What is said of one bad file on the error stream, beside nothing on the other. */
async function faultsOf(name: string, text: string | Uint8Array): Promise<string[]> {
  folder.write({ [name]: text });
  const { code, out, error } = await check(name);
  expect({ code, out }).toEqual({ code: 2, out: '' });
  return error.trimEnd().split('\n');
}

describe('what is in a file', () => {
  test('a route as CSV', async () => {
    expect(await saidOf('route.csv')).toBe(`route.csv: a route of 2 waypoints, 66.1 Nm
  leg 1: Start to End, rhumb, 243.0°, 66.1 Nm; from 11°30.0'N 060°30.0'W to 11°00.0'N 061°30.0'W
`);
  });

  // One degree on the equator or on a meridian is 60 Nm, on the handbook sphere by definition.
  test('a route as GPX', async () => {
    expect(await saidOf('route.gpx')).toBe(`route.gpx: a route of 2 waypoints, 60.0 Nm
  leg 1: West to East, rhumb, 90.0°, 60.0 Nm; from 00°00.0'N 030°00.0'W to 00°00.0'N 029°00.0'W
`);
  });

  test('a route as GeoJSON, across the date line', async () => {
    expect(await saidOf('route.geojson')).toBe(`route.geojson: a route of 3 waypoints, 120.0 Nm
  leg 1: WP1 to WP2, rhumb, 90.0°, 60.0 Nm; from 00°00.0'N 179°30.0'E to 00°00.0'N 179°30.0'W
  leg 2: WP2 to WP3, rhumb, 0.0°, 60.0 Nm; from 00°00.0'N 179°30.0'W to 01°00.0'N 179°30.0'W
`);
  });

  test('a route with a long leg, and one that says how it is sailed', async () => {
    folder.write({ 'long.csv': 'name,lat,lon,to_next\nA,0,-40,\nB,0,-31,rhumb\nC,0,-20,\n' });
    expect((await saidOf('long.csv')).split('\n').slice(0, 3)).toEqual([
      'long.csv: a route of 3 waypoints, 1200.0 Nm',
      "  leg 1: A to B, great-circle, 90.0°, 540.0 Nm; from 00°00.0'N 040°00.0'W to 00°00.0'N 031°00.0'W",
      "  leg 2: B to C, rhumb, 90.0°, 660.0 Nm; from 00°00.0'N 031°00.0'W to 00°00.0'N 020°00.0'W",
    ]);
  });

  test('a route over land is warned of, and is good all the same', async () => {
    folder.write({ 'over.csv': 'name,lat,lon\nAtlantic,20,-20\nSahara,20,0\n' });
    const said = (await saidOf('over.csv')).split('\n');
    expect(said[2]).toMatch(/^ {2}warning: over\.csv(, line \d+)?: expected water along the route, got land on leg 1 /);
  });

  test('a boat, with her polars', async () => {
    expect(await saidOf('boat.json')).toBe(`boat.json: Test boat, a catamaran
  sail main: square-top-main, 78 m², AWA 28 to 180°, 2 reefs
  sail jib: self-tacking-jib, 42 m², AWA 28 to 120°, 1 reef by its kind
  sail poled-jib: poled-out-headsail, 42 m², AWA 135 to 180°, 1 reef by its kind
  sail plans: main, reef1+jib

polars.csv: polars of 2 sail plans
  main: TWS 6 to 30 kn at 10 m, TWA 40 to 180° to the course, up to 9 kn
  reef1+jib: TWS 6 to 30 kn at 10 m, TWA 40 to 180° to the course, up to 8.5 kn
`);
  });

  test('a boat with a plan that has no polar', async () => {
    folder.write({ 'lame.json': BOAT.replace('"polars.csv"', '"half.csv"') });
    folder.write({ 'half.csv': POLARS.slice(0, POLARS.indexOf('reef1+jib')) });
    expect(await saidOf('lame.json')).toContain(
      '  warning: half.csv, reef1+jib: expected a polar for every sail plan, got none: this plan is never set\n',
    );
  });

  test('a boat in a folder of her own, with a polar for each plan', async () => {
    mkdirSync('boats/polars', { recursive: true });
    folder.write({
      'boats/boat.json': changed(BOAT, '"polars.csv"', '{ "main": "polars/wide.csv", "reef1+jib": "polars/wide.csv" }'),
      'boats/polars/wide.csv': WIDE,
    });
    const said = await saidOf('boats/boat.json');
    for (const plan of ['main', 'reef1+jib']) {
      expect(said).toContain(`
polars/wide.csv: polars of 1 sail plan
  ${plan}: TWS 6 to 20 kn at 10 m, TWA 40 to 180° to the course, up to 8.25 kn
`);
    }
  });

  test('polars for each plan in a tidy table, with their wind height and what TWA refers to', async () => {
    const [head, ...rows] = POLARS.trimEnd().split('\n');
    folder.write({
      'tidy.csv': `${head},wind_height_m,twa_reference\n${rows.map((row) => `${row},${row.startsWith('main') ? '20,heading' : ','}\n`).join('')}`,
    });
    expect(await saidOf('tidy.csv')).toBe(`tidy.csv: polars of 2 sail plans
  main: TWS 6 to 30 kn at 20 m, TWA 40 to 180° to the heading, up to 9 kn
  reef1+jib: TWS 6 to 30 kn at 10 m, TWA 40 to 180° to the course, up to 8.5 kn
`);
  });

  test.each([
    ['semicolons', WIDE],
    ['commas', WIDE.replaceAll(';', ',')],
    ['tabs', WIDE.replaceAll(';', '\t')],
    ['a free first cell', WIDE.replace('twa/tws', '')],
    ['a byte order mark and other line ends', `\ufeff${WIDE.replaceAll('\n', '\r\n')}`],
    ['empty cells at the end of lines', WIDE.replaceAll('\n', ';;\n')],
  ])('a wide polar: %s', async (_, text) => {
    folder.write({ 'made.csv': text });
    expect(await saidOf('made.csv')).toBe(`made.csv: polars of 1 sail plan
  wide table: TWS 6 to 20 kn at 10 m, TWA 40 to 180° to the course, up to 8.25 kn
`);
  });

  test('a wide polar of a single wind', async () => {
    folder.write({ 'made.csv': 'twa,12\n40,5\n180,6\n' });
    expect(await saidOf('made.csv')).toContain(
      'wide table: TWS 12 to 12 kn at 10 m, TWA 40 to 180° to the course, up to 6 kn',
    );
  });

  test('a plan, complete', async () => {
    const { end, totals } = JSON.parse(folder.read('out/plan.json')) as { end: string; totals: { distanceNm: number } };
    const rows = folder.read('out/hours.csv').trimEnd().split('\n').length - 1;
    expect(await saidOf('out/plan.json')).toBe(`out/plan.json: a plan of ${rows} rows, complete
  Test boat, 2027-01-10T00:00:00Z to ${end}, ${totals.distanceNm.toFixed(1)} Nm, 0 sail changes
  made from route route.csv, boat boat.json, polars polars.csv, forecast forecast.csv
`);
  });

  test('a plan, incomplete and with warnings', async () => {
    const said = (await saidOf('short/plan.json')).trimEnd().split('\n');
    expect(said[0]).toBe('short/plan.json: a plan of 6 rows, incomplete (forecast-ended)');
    expect(said[1]).toMatch(
      /^ {2}Test boat, 2027-01-10T00:00:00Z to 2027-01-10T06:00:00Z, \d\d\.\d Nm, 0 sail changes$/,
    );
    expect(said.slice(3)).toEqual([
      '  warning: short.csv: expected current for every hour, got none in 6 h: taken as zero',
      '  warning: short.csv: expected waves for every hour, got none in 6 h: unknown',
      '  warning: short.csv: expected gusts for every hour, got none in 6 h: mean wind × 1.3 instead',
    ]);
  });

  test('the route of a track that was written before', async () => {
    expect(await saidOf('out/track.gpx')).toBe((await saidOf('route.csv')).replace('route.csv', 'out/track.gpx'));
  });

  test('names of files and texts in them cannot move the cursor', async () => {
    folder.write({ 'bad\u001b[31m.csv': 'name,lat,lon\n"A\u001b[2J\u202e",0,-30\nB,0,-29\n' });
    const said = await saidOf('bad\u001b[31m.csv');
    for (const mark of ['\u001b', '\u202e']) expect(said).not.toContain(mark);
    expect(said).toContain('leg 1: A [2J  to B');
  });
});

describe('what is in a forecast', () => {
  test('which way it blows and sets on the mean', async () => {
    const cells = (time: string) => [...(time === TIMES[0] ? [-8, 0] : [0, -8]), 0.5, 0.5];
    const text = forecastCsv('u10,v10,current_u,current_v', cells, TIMES.slice(0, 2));
    folder.write({ 'made.csv': text });
    const means = (await saidOf('made.csv')).split('\n').filter((line) => line.includes('on the mean'));
    // An easterly and a northerly as often: from 045°, and the mean vector is 1/√2 of the speed.
    expect(means).toEqual(['    on the mean from 045°, steadiness 0.71', '    on the mean to 045°, steadiness 1.00']);
  });

  test('one member of an ensemble', async () => {
    const [head, ...rows] = forecastCsv('u10,v10', always(-8, 1)).trimEnd().split('\n');
    const both = rows.flatMap((row) => [`${row},a`, `${row.replace(',-8,', ',-4,')},b`]);
    const text = `${[`${head},member`, ...both].join('\n')}\n`;
    expect((await saidOfForecast(text)).join('\n')).toContain('8.01 to 15.67 kn');
    expect((await saidOfForecast(text, '--member', 'b')).join('\n')).toContain('8.01 to 8.01 kn');
  });

  const HOURS = [0, 3, 6, 9, 12];
  const LATS = [10, 12.5, 15];
  const LONS = [-62, -60];
  const at = (hour: number) => `2027-01-10T${`${hour}`.padStart(2, '0')}:00:00Z`;
  const u = (hour: number, lat: number, lon: number) => -6 - hour / 8 - (lat - 10) / 4 + (lon + 62) / 8;
  const v = (hour: number, lat: number) => hour / 4 - (lat - 10) / 8;
  const points = HOURS.flatMap((hour) => LATS.flatMap((lat) => LONS.map((lon) => ({ hour, lat, lon }))));
  const speeds = points.map(({ hour, lat, lon }) => Math.hypot(u(hour, lat, lon), v(hour, lat)) * KN_PER_MPS);
  const rangeOf = (values: readonly number[]) =>
    `${Math.min(...values).toFixed(2)} to ${Math.max(...values).toFixed(2)}`;
  const GRID = "3 × 2 points of 2.5° × 2°, 10°00.0'N 062°00.0'W to 15°00.0'N 060°00.0'W";
  const TIMES_SAID = `5 times, ${at(0)} to ${at(12)}, every 3 h`;
  const WIND = [`  wind: ${GRID}, ${rangeOf(speeds)} kn`, `    ${TIMES_SAID}`];
  const table = (
    head: string,
    cells: (hour: number, lat: number, lon: number) => readonly (string | number)[],
    separator = ',',
  ) => `${[head, ...points.map(({ hour, lat, lon }) => cells(hour, lat, lon).join(separator))].join('\n')}\n`;
  const uv = (hour: number, lat: number, lon: number) => [at(hour), lat, lon, u(hour, lat, lon), v(hour, lat)];
  const plain = table('time,lat,lon,u10,v10', uv);

  test.each<[string, string]>([
    ['the plain layout', plain],
    ['with semicolons and a byte order mark', `\ufeff${table('time;lat;lon;u10;v10', uv, ';')}`],
    ['rows in another order', `time,lat,lon,u10,v10\n${plain.trimEnd().split('\n').slice(1).reverse().join('\n')}\n`],
    [
      'longitudes to 360',
      table('time,lat,lon,u10,v10', (hour, lat, lon) => [at(hour), lat, lon + 360, u(hour, lat, lon), v(hour, lat)]),
    ],
    [
      'in knots',
      table('time,lat,lon,u10_kn,v10_kn', (hour, lat, lon) => [
        at(hour),
        lat,
        lon,
        u(hour, lat, lon) * KN_PER_MPS,
        v(hour, lat) * KN_PER_MPS,
      ]),
    ],
    [
      'as speed and direction',
      table('time,lat,lon,wind_speed_mps,wind_from_direction', (hour, lat, lon) => [
        at(hour),
        lat,
        lon,
        Math.hypot(u(hour, lat, lon), v(hour, lat)),
        ((Math.atan2(-u(hour, lat, lon), -v(hour, lat)) * 180) / Math.PI + 360) % 360,
      ]),
    ],
    ['by the names of the CF convention', table('time,latitude,longitude,eastward_wind,northward_wind', uv)],
    [
      'with a row of units',
      plain.replace(
        'time,lat,lon,u10,v10',
        'time,latitude,longitude,ugrd10m,vgrd10m\nUTC,degrees_north,degrees_east,m s-1,m s-1',
      ),
    ],
    [
      'with units in brackets',
      plain.replace(
        'time,lat,lon,u10,v10',
        'time (UTC),latitude (degrees_north),longitude (degrees_east),u10 (m s-1),v10 (m s-1)',
      ),
    ],
  ])('%s', async (_, text) => {
    expect(await saidOfForecast(text)).toEqual(['made.csv: a forecast', ...WIND]);
  });

  test("wgrib2's own layout", async () => {
    const zoneless = (hour: number) => `2027-01-10 ${`${hour}`.padStart(2, '0')}:00:00`;
    const rows = points.flatMap(({ hour, lat, lon }) => [
      `"${zoneless(0)}","${zoneless(hour)}","UGRD","10 m above ground",${lon},${lat},${u(hour, lat, lon)}\n`,
      `"${zoneless(0)}","${zoneless(hour)}","VGRD","10 m above ground",${lon},${lat},${v(hour, lat)}\n`,
      `"${zoneless(0)}","${zoneless(hour)}","TMP","2 m above ground",${lon},${lat},300\n`,
    ]);
    expect(await saidOfForecast(rows.join(''))).toEqual([
      'made.csv: a forecast',
      WIND[0],
      `${WIND[1]}, 1 run`,
      '  warning: made.csv, column TMP at 2 m above ground: expected a column of a known quantity, got another one: it is not used',
    ]);
  });

  test('every quantity with its own range', async () => {
    const text = table(
      'time,lat,lon,u10,v10,gust,current_u,current_v,wave_height,wave_period,wave_from_direction',
      (hour, lat, lon) => [
        ...uv(hour, lat, lon),
        ...[12 + hour, 0.25, -lat / 32, 1 + hour / 8, 6 + lat / 8, (hour * 30) % 360],
      ],
    );
    const currents = LATS.map((lat) => Math.hypot(0.25, lat / 32) * KN_PER_MPS);
    expect(await saidOfForecast(text)).toEqual([
      'made.csv: a forecast',
      ...WIND,
      `  gust: ${GRID}, ${rangeOf(HOURS.map((hour) => (12 + hour) * KN_PER_MPS))} kn`,
      `    ${TIMES_SAID}`,
      `  current: ${GRID}, ${rangeOf(currents)} kn`,
      `    ${TIMES_SAID}`,
      `  wave height: ${GRID}, 1.00 to 2.50 m`,
      `    ${TIMES_SAID}`,
      `  wave period: ${GRID}, 7.25 to 7.88 s`,
      `    ${TIMES_SAID}`,
      `  wave direction: ${GRID}`,
      `    ${TIMES_SAID}`,
    ]);
  });

  test('waves alone, and a current alone', async () => {
    expect(
      await saidOfForecast(table('time,lat,lon,wave_height', (hour, lat, lon) => [at(hour), lat, lon, 1 + hour / 8])),
    ).toEqual(['made.csv: a forecast', `  wave height: ${GRID}, 1.00 to 2.50 m`, `    ${TIMES_SAID}`]);
    const current = table('time,lat,lon,current_speed_kn,current_to_direction', (hour, lat, lon) => [
      at(hour),
      lat,
      lon,
      0.5 + hour / 16,
      280,
    ]);
    expect(await saidOfForecast(current)).toEqual([
      'made.csv: a forecast',
      `  current: ${GRID}, 0.50 to 1.25 kn`,
      `    ${TIMES_SAID}`,
    ]);
  });

  test('gaps in its times, and points that are absent', async () => {
    const hours = [0, 1, 2, 3, 7, 8, 9, 10, 16, 17, 18, 19, 21, 22, 23];
    const rows = hours.flatMap((hour) =>
      LATS.flatMap((lat) =>
        LONS.map((lon) => `${at(hour)},${lat},${lon},${lat === 15 && lon === -62 ? ',' : '-8,1'}\n`),
      ),
    );
    // One of six points at all times.
    expect(await saidOfForecast(`time,lat,lon,u10,v10\n${rows.join('')}`)).toEqual([
      'made.csv: a forecast',
      `  wind: ${GRID}, ${rangeOf([Math.hypot(8, 1) * KN_PER_MPS])} kn, 16.7 % absent`,
      `    15 times, ${at(0)} to ${at(23)}, every 1 h`,
      `    gap of 4 h from ${at(3)} to ${at(7)}`,
      `    gap of 6 h from ${at(10)} to ${at(16)}`,
      `    gap of 2 h from ${at(19)} to ${at(21)}`,
    ]);
  });

  test('points that are left out count as absent', async () => {
    const text = plain
      .split('\n')
      .filter((line) => !line.includes(',12.5,-60,'))
      .join('\n');
    const [, wind] = await saidOfForecast(text);
    expect(wind).toMatch(/ kn, 16\.7 % absent$/);
  });

  test('waves at times of their own', async () => {
    const text = table('time,lat,lon,u10,v10,wave_height', (hour, lat, lon) => [
      ...uv(hour, lat, lon),
      hour % 6 === 0 ? 2 : '',
    ]);
    expect(await saidOfForecast(text)).toEqual([
      'made.csv: a forecast',
      ...WIND,
      `  wave height: ${GRID}, 2.00 to 2.00 m`,
      `    3 times, ${at(0)} to ${at(12)}, every 6 h`,
    ]);
  });

  test('one point, one time', async () => {
    expect(await saidOfForecast(`time,lat,lon,u10,v10\n${at(0)},10,-60,-8,1\n`)).toEqual([
      'made.csv: a forecast',
      `  wind: 1 × 1 points, 10°00.0'N 060°00.0'W to 10°00.0'N 060°00.0'W, ${rangeOf([Math.hypot(8, 1) * KN_PER_MPS])} kn`,
      `    1 time, ${at(0)} to ${at(0)}`,
    ]);
  });

  test('across the date line, and all round the globe', async () => {
    const on = (lons: readonly number[]) =>
      `time,lat,lon,u10,v10\n${lons.flatMap((lon) => [-10, 10].map((lat) => `${at(0)},${lat},${lon},-8,1\n`)).join('')}`;
    expect((await saidOfForecast(on([175, 180, -175])))[1]).toContain(
      "2 × 3 points of 20° × 5°, 10°00.0'S 175°00.0'E to 10°00.0'N 175°00.0'W,",
    );
    const round = Array.from({ length: 24 }, (_, i) => i * 15);
    expect((await saidOfForecast(on(round)))[1]).toMatch(/2 × 24 points of 20° × 15°, .*, all round, /);
  });

  test('members and runs', async () => {
    const members = table('time,lat,lon,member,u10,v10', (hour, lat, lon) => [at(hour), lat, lon, 'm1', -8, 1]);
    expect((await saidOfForecast(members))[2]).toBe(`    ${TIMES_SAID}, 1 member`);
    const both = `${members}${members.split('\n').slice(1).join('\n').replaceAll(',m1,', ',m2,')}`;
    expect((await saidOfForecast(both))[2]).toBe(`    ${TIMES_SAID}, 2 members`);
    const runs = table('time,run_time,lat,lon,u10,v10', (hour, lat, lon) => [
      at(hour),
      at(hour < 6 ? 0 : 6),
      lat,
      lon,
      -8,
      1,
    ]);
    expect((await saidOfForecast(runs))[2]).toBe(`    ${TIMES_SAID}, 2 runs`);
  });

  test('columns that are not used, and wind that is none', async () => {
    const text = table('time,lat,lon,u10,v10,pressure', (hour, lat, lon) => [at(hour), lat, lon, 0, 0, 1013]);
    const warnings = (await saidOfForecast(text)).slice(3);
    expect(warnings.map((line) => line.replace(/: expected.*/, ''))).toEqual([
      '  warning: made.csv, column pressure',
      '  warning: made.csv',
    ]);
  });

  test('--column names a column', async () => {
    const text = table('t,y,x,e,n', uv);
    const options = ['time=t', 'lat=y', 'lon=x', 'u10=e', 'v10=n:m/s'].flatMap((one) => ['--column', one]);
    expect(await saidOfForecast(text, ...options)).toEqual(['made.csv: a forecast', ...WIND]);
    const { code, error, out } = await check('--column', 'wind=e', 'route.csv');
    expect(code).toBe(2);
    expect(error).toMatch(/^--column: expected one of u10, v10, .*, got "wind=e"\n$/);
    expect(out).toMatch(/^route\.csv: a route/);
  });

  test('the sample', async () => {
    const folderOfTest = process.cwd();
    process.chdir(SAMPLES);
    try {
      const said = await saidOf('route.csv', 'boat.json', 'forecast.csv');
      const rows = readFileSync('forecast.csv', 'utf8')
        .trimEnd()
        .split('\n')
        .slice(1)
        .map((row) => row.split(','));
      const count = (i: number) => new Set(rows.map((cells) => cells[i])).size;
      const winds = rows.map((cells) => Math.hypot(Number(cells[3]), Number(cells[4])) * KN_PER_MPS);
      const lines = said.split('\n');
      const wind = lines.findIndex((line) => line.startsWith('  wind: '));
      expect(lines[wind]).toMatch(
        new RegExp(`^ {2}wind: ${count(1)} × ${count(2)} points of 2\\.5° × 2\\.5°, .*, ${rangeOf(winds)} kn$`),
      );
      expect(lines[wind + 1]).toMatch(
        new RegExp(`^ {4}${count(0)} times, 2027-01-10T00:00:00Z to 2027-02-03T00:00:00Z, every 6 h$`),
      );
    } finally {
      process.chdir(folderOfTest);
    }
  });
});

describe('several files', () => {
  const FILES = ['route.csv', 'route.gpx', 'boat.json', 'wide.csv', 'forecast.csv', 'short.csv', 'out/plan.json'];
  const sections = (out: string) => out.trimEnd().split('\n\n').sort();

  test('in any order: the same is said of each', async () => {
    const forth = await saidOf(...FILES);
    expect(sections(forth).map((section) => section.split(':')[0])).toEqual([...FILES, 'polars.csv'].sort());
    expect(sections(await saidOf(...[...FILES].reverse()))).toEqual(sections(forth));
    const alone = await Promise.all(FILES.map(async (file) => sections((await check(file)).out)));
    expect(alone.flat().sort()).toEqual(sections(forth));
  });

  test('a file twice', async () => {
    expect(sections(await saidOf('forecast.csv', 'forecast.csv'))).toEqual([
      ...sections(await saidOf('forecast.csv')),
      ...sections(await saidOf('forecast.csv')),
    ]);
  });

  test('the good ones are told, the bad ones are faults with file, line and column', async () => {
    folder.write({
      'bad-route.csv': 'name,lat,lon\nA,0,-30\nB,north,-29\n',
      'bad-boat.json': changed(BOAT, '"kind": "self-tacking-jib"', '"kind": "jib"'),
      'bad-polars.csv': changed(POLARS, 'main,30,40,8\n', 'main,30,40,-8\n'),
      'bad-forecast.csv': changed(FORECAST, `${TIMES[0]},12,-60,-8,1,10.5`, `${TIMES[0]},12,-60,"12,5",1,fresh`),
      'bad-plan.json': folder.read('out/plan.json').replace('"complete": true', '"complete": "yes"'),
    });
    const bad = ['bad-route.csv', 'bad-boat.json', 'bad-polars.csv', 'bad-forecast.csv', 'bad-plan.json'];
    const mixed = FILES.flatMap((file, i) => (bad[i] === undefined ? [file] : [bad[i], file]));
    const { code, out, error } = await check(...mixed);
    expect(code).toBe(2);
    expect(sections(out)).toEqual(sections(await saidOf(...FILES)));
    const said = error.trimEnd().split('\n');
    expect(said.map((line) => line.replace(/: expected.*/, ''))).toEqual([
      'bad-route.csv, line 3, column lat',
      'bad-boat.json, sails[1].kind',
      'bad-polars.csv, line 4, column stw_kn',
      'bad-plan.json, complete',
      'bad-forecast.csv, line 5, column u10',
      'bad-forecast.csv, line 5, column gust',
    ]);
  });

  test('two forecasts that contradict each other', async () => {
    folder.write({ 'other.csv': FORECAST.replaceAll(',10.5,', ',11.5,') });
    const { code, out, error } = await check('forecast.csv', 'short.csv', 'other.csv');
    expect(code).toBe(2);
    // 20 rows, m/s in knots.
    expect(error).toBe(
      'other.csv, gustKn: expected the values of "forecast.csv" where both files have them, or a run time in both, got others at 20 points and times, first 22.35 against 20.41 for 2027-01-10T00:00:00Z at 10, -62\n',
    );
    expect(sections(out).map((section) => section.split(':')[0])).toEqual(['forecast.csv', 'other.csv', 'short.csv']);
  });

  test('forecasts of different quantities are good together', async () => {
    folder.write({
      'waves.csv': forecastCsv('wave_height', always(2)),
      'wind.csv': forecastCsv('u10,v10', always(-8, 1)),
    });
    expect(sections(await saidOf('waves.csv', 'wind.csv')).length).toBe(2);
  });

  test('a good boat is told though her polars are bad, and each of them is looked at', async () => {
    folder.write({
      'bad.json': changed(BOAT, '"polars.csv"', '{ "main": "none.csv", "reef1+jib": "bad-wide.csv" }'),
      'bad-wide.csv': WIDE.replace('5.5', '-5.5'),
    });
    const { code, out, error } = await check('bad.json');
    expect(code).toBe(2);
    expect(out).toMatch(/^bad\.json: Test boat, a catamaran\n/);
    expect(error).toBe(`none.csv: expected a file that can be read, got no such file
bad-wide.csv, line 3, column tws 6: expected a number from 0 to 60, got "-5.5"
`);
  });

  test('a polar file for one plan may hold that plan only, as when a passage is planned', async () => {
    folder.write({ 'one.json': changed(BOAT, '"polars.csv"', '{ "main": "polars.csv" }') });
    const { code, error } = await check('one.json');
    expect(code).toBe(2);
    expect(error).toMatch(
      /^polars\.csv, line \d+, column sail_plan: expected the id of a sail plan of the boat, got "reef1\+jib"/,
    );
  });

  test('of each file 20 faults are printed, then how many more there are', async () => {
    folder.write({ 'worse.csv': `name,lat,lon\n${'Point,north,-60\n'.repeat(25)}` });
    const { error } = await check('worse.csv', 'route.csv');
    const lines = error.trimEnd().split('\n');
    expect([lines.length, lines.at(-1)]).toEqual([21, 'worse.csv: and 5 more faults']);
  });
});

describe('files that are none', () => {
  const UNKNOWN = 'expected a route, forecast, climatology, boat, polars or plan, got something else';

  test('no such file, and a folder', async () => {
    const { code, out, error } = await check('none.csv', 'folder.csv', 'route.csv');
    expect(code).toBe(2);
    expect(error).toBe(`none.csv: expected a file that can be read, got no such file
folder.csv: expected a file that can be read, got a folder
`);
    expect(out).toMatch(/^route\.csv: a route/);
  });

  test.each<[string, string, string | Uint8Array]>([
    ['JSON of something else', 'other.json', '{ "a": 1 }'],
    ['a JSON list', 'list.json', '[1, 2]'],
    ['an hour log', 'hours.csv', ''],
    ['bytes that are no text', 'bytes.bin', Uint8Array.from({ length: 4096 }, (_, i) => (i * 7919) % 256)],
  ])('%s', async (_, name, content) => {
    const made = name === 'hours.csv' ? folder.read('out/hours.csv') : content;
    expect(await faultsOf(name, made)).toEqual([`${name}: ${UNKNOWN}`]);
  });

  test.each<[string, string, string, Uint8Array]>([
    [
      'a GRIB',
      'grib.bin',
      'GRIB or BUFR, which is no text: make CSV of it first',
      Uint8Array.from([...Buffer.from('GRIB'), 0, 0, 0, 2, 0, 0, 0, 0, 0, 0, 1, 0]),
    ],
    ['text in two bytes a letter', 'utf16.csv', 'UTF-16: save it as UTF-8', Buffer.from(`\ufeff${ROUTE}`, 'utf16le')],
  ])('%s', async (_, name, what, content) => {
    expect(await faultsOf(name, content)).toEqual([`${name}: expected a text in UTF-8, got ${what}`]);
  });

  test('nothing in it', async () => {
    expect(await faultsOf('empty.csv', '')).toEqual([
      'empty.csv: expected a header line and at least one row, got none',
    ]);
    expect(await faultsOf('blank.csv', '\n\n  \n')).toEqual([
      'blank.csv: expected a header line and at least one row, got none',
    ]);
    expect(await faultsOf('empty.json', '{}')).toEqual([`empty.json: ${UNKNOWN}`]);
  });

  test('a kind that can be guessed is told what it lacks', async () => {
    expect(await faultsOf('xml.gpx', '<html></html>')).toEqual([
      'xml.gpx, line 1: expected gpx as the outermost element, got "html"',
    ]);
    expect((await faultsOf('cut.json', BOAT.slice(0, 400)))[0]).toMatch(
      /^cut\.json, line \d+: expected a JSON text, got /,
    );
    expect(await faultsOf('nam.csv', 'nam,lat,lon\nA,0,-30\nB,0,-29\n')).toEqual([
      'nam.csv, line 1, column name: expected this column in the header, got only "nam, lat, lon"',
      'nam.csv, line 1: expected one of name, lat, lon, to_next, got "nam" (did you mean "name"?)',
    ]);
    expect((await faultsOf('polar.csv', POLARS.replace('sail_plan', 'sailplan')))[0]).toMatch(
      /^polar\.csv, line 1, column sail_plan: expected this column in the header, got only "sailplan, tws_kn, twa_deg, stw_kn"$/,
    );
    expect((await faultsOf('timeless.csv', 'when,lat,lon,u10,v10\n2027-01-10T00:00Z,10,-60,-8,1\n'))[0]).toMatch(
      /^timeless\.csv, line 1, column time: expected this column in the header, /,
    );
  });

  test('a plan of a newer format', async () => {
    const plan = folder.read('out/plan.json').replace('"formatVersion": 1', '"formatVersion": 2');
    expect(await faultsOf('newer.json', plan)).toEqual([
      'newer.json, formatVersion: expected a format version up to 1, got 2: written by a newer windwardrobe',
    ]);
  });

  test('no files at all', async () => {
    const { code, out, error } = await check();
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(error).toMatch(/^error: missing required argument 'files'\n/);
  });
});
