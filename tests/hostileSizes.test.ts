import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { ranIn } from './support/child.js';
import { always, BOAT, FORECAST, forecastCsv, POLARS, ROUTE, TIMES } from './support/small.js';

// Inputs of absurd size, each in a process of its own with little memory, which must end: with its work done, or with a fault.

const MINUTES = 60_000;
const folder = mkdtempSync(join(tmpdir(), 'windwardrobe-'));
afterAll(() => rmSync(folder, { recursive: true }));
const write = (name: string, text: string) => writeFileSync(join(folder, name), text);
const ran = (...args: readonly string[]) => ranIn({ cwd: folder }, ...args);
const plan = (given: Readonly<Record<string, string>> = {}) => {
  const all = { route: 'route.csv', forecast: 'wind.csv', boat: 'boat.json', depart: TIMES[0]!, out: 'out', ...given };
  rmSync(join(folder, all.out), { recursive: true, force: true });
  return ran('plan', ...Object.entries(all).flatMap(([option, value]) => [`--${option}`, value]));
};
const planFault = (given: Readonly<Record<string, string>>) => {
  const { code, out, error } = plan(given);
  expect({ code, out }).toEqual({ code: 2, out: '' });
  expect(existsSync(join(folder, 'out'))).toBe(false);
  return error.trimEnd();
};

const POINTS = 100_000;
/** Zigzag from Start to End, never two alike: what a recorder that trembles writes. */
const PLACES = Array.from({ length: POINTS }, (_, i) => [
  (11.5 - (0.5 * i) / POINTS + 0.0002 * (i % 2)).toFixed(6),
  (-60.5 - (1 * i) / POINTS).toFixed(6),
]);
const gpxOf = (points: string) =>
  `<gpx version="1.1" creator="x" xmlns="http://www.topografix.com/GPX/1/1"><trk><trkseg>${points}</trkseg></trk></gpx>`;

beforeAll(() => {
  write('route.csv', ROUTE);
  write('wind.csv', FORECAST);
  write('boat.json', BOAT);
  write('polars.csv', POLARS);
});

describe(`a route of ${POINTS} points`, () => {
  test.each([
    ['CSV', 'many.csv', `name,lat,lon\n${PLACES.map(([lat, lon], i) => `P${i},${lat},${lon}`).join('\n')}\n`],
    ['GPX', 'many.gpx', gpxOf(PLACES.map(([lat, lon]) => `<trkpt lat="${lat}" lon="${lon}"/>`).join('\n'))],
    [
      'GeoJSON',
      'many.geojson',
      JSON.stringify({ type: 'LineString', coordinates: PLACES.map(([lat, lon]) => [Number(lon), Number(lat)]) }),
    ],
  ])('as %s is planned from the first file to the last', { timeout: 5 * MINUTES }, (_, name, text) => {
    write(name, text);
    const { code, error } = plan({ route: name });
    // The trembling makes the way so long that the forecast may end first.
    expect({ code: [0, 3].includes(code), error }).toEqual({ code: true, error: '' });
    expect(readdirSync(join(folder, 'out')).length).toBe(7);
    const { features } = JSON.parse(readFileSync(join(folder, 'out', 'track.geojson'), 'utf8')) as {
      features: { properties: { what: string } }[];
    };
    expect(features.filter(({ properties }) => properties.what === 'waypoint').length).toBe(POINTS);
    expect(ran('check', name).code).toBe(0);
  });

  test('that are all one place is told so', () => {
    write('one.csv', `name,lat,lon\n${'A,11.5,-60.5\n'.repeat(POINTS)}`);
    const lines = planFault({ route: 'one.csv' }).split('\n');
    expect(lines[0]).toBe(
      'one.csv, line 3: expected a waypoint away from the one before, got the same place again at "A"',
    );
    expect(lines.at(-1)).toBe(`one.csv: and ${POINTS - 21} more faults`);
    write('one.gpx', gpxOf('<trkpt lat="11.5" lon="-60.5"/>'.repeat(POINTS)));
    expect(planFault({ route: 'one.gpx' })).toBe('one.gpx, line 1: expected at least 2 waypoints, got 1');
  });

  test('that goes round the world for ever is told where it becomes too long', () => {
    const rows = Array.from({ length: POINTS }, (_, i) => `P,${i % 2 === 0 ? 10 : -10},${(i * 100) % 360}`);
    write('round.csv', `name,lat,lon,to_next\n${rows.map((row) => `${row},rhumb`).join('\n')}\n`);
    expect(planFault({ route: 'round.csv' })).toBe(
      // Each leg is 101.4° of arc or 6087 Nm, by the cosine rule: the seventeenth ends beyond.
      'round.csv, line 19: expected a route of at most 100000 Nm, got a longer one',
    );
  });
});

describe('a file without end', () => {
  const LINE = 100_000_000;
  beforeAll(() => write('line.csv', 'x'.repeat(LINE)));

  test('a line of 100 MB as a forecast, and looked at', () => {
    const said = 'line.csv, line 1: expected lines of at most 1000000 characters, got a longer one';
    expect(planFault({ forecast: 'line.csv' })).toBe(said);
    expect(ran('check', 'line.csv')).toEqual({ code: 2, out: '', error: `${said}\n` });
  });

  test('as anything that is read whole', () => {
    const said = (mib: number) => `expected a file of at most ${mib} MiB, got a larger one`;
    expect(planFault({ route: 'line.csv' })).toBe(`line.csv: ${said(32)}`);
    expect(planFault({ boat: 'line.csv' })).toBe(`line.csv: ${said(2)}`);
    write('named.json', BOAT.replace('"polars.csv"', '"line.csv"'));
    expect(planFault({ boat: 'named.json' })).toBe(`line.csv: ${said(8)}`);
  });

  test.skipIf(!existsSync('/dev/zero'))('a device that never ends', () => {
    const said = (mib: number) => `expected a file of at most ${mib} MiB, got a larger one`;
    expect(planFault({ route: '/dev/zero' })).toBe(`/dev/zero: ${said(32)}`);
    expect(planFault({ forecast: '/dev/zero' })).toBe(
      '/dev/zero: expected a text in UTF-8, got zero bytes, which no text has',
    );
  });
});

describe('nested a hundred thousand deep', () => {
  const DEEP = 100_000;
  test.each([
    ['lists', `${'['.repeat(DEEP)}${']'.repeat(DEEP)}`],
    ['objects', `${'{"a":'.repeat(DEEP)}1${'}'.repeat(DEEP)}`],
    ['a geometry', `{"type":"LineString","coordinates":${'['.repeat(DEEP)}${']'.repeat(DEEP)}}`],
    ['features', `${'{"geometry":'.repeat(DEEP)}null${'}'.repeat(DEEP)}`],
  ])('%s', (_, text) => {
    write('deep.json', text);
    const said = 'deep.json: expected a JSON text, got one nested too deeply';
    expect(planFault({ route: 'deep.json' })).toBe(said);
    // Before it may stand what its beginning looks like.
    expect(planFault({ boat: 'deep.json' }).split('\n').at(-1)).toBe(said);
    expect(ran('boat', 'show', 'deep.json').error.trimEnd()).toBe(said);
  });

  test('elements', () => {
    write('deep.gpx', `<gpx>${'<rte>'.repeat(DEEP)}${'</rte>'.repeat(DEEP)}</gpx>`);
    expect(planFault({ route: 'deep.gpx' })).toBe(
      'deep.gpx: expected a well-formed XML text, got one nested too deeply',
    );
  });
});

describe('few rows that would make a large grid', () => {
  const diagonal = (rows: number, head: string, at: (i: number) => string) =>
    `${head}\n${Array.from({ length: rows }, (_, i) => at(i)).join('\n')}\n`;
  const minute = (i: number) => new Date(Date.parse(TIMES[0]!) + i * 60_000).toISOString();
  const place = (i: number) => `${(11 + i * 0.0007).toFixed(4)},${(-61 - i * 0.0009).toFixed(4)}`;

  test('of a forecast: a thousand rows for a thousand million points', () => {
    write(
      'spread.csv',
      diagonal(1000, 'time,lat,lon,u10,v10', (i) => `${minute(i)},${place(i)},-8,1`),
    );
    expect(planFault({ forecast: 'spread.csv' })).toBe(
      'spread.csv: expected points on the lines of a grid, got 1000 rows spread over 1000000000 grid points and times',
    );
  });

  test('four rows at the corners of the world and of time are a grid of four lines each', () => {
    const rows = ['1800-01-01T00:00Z,-89.99,-179.99', '2200-12-31T23:59Z,89.98,179.97', `${TIMES[0]},11.5,-60.5`];
    write(
      'corners.csv',
      `time,lat,lon,u10,v10\n${[...rows, `${TIMES[4]},11.0007,-61.5`].map((row) => `${row},-8,1\n`).join('')}`,
    );
    expect(ran('check', 'corners.csv').out).toContain('4 × 4 points');
    expect(plan({ forecast: 'corners.csv' }).code).toBe(3);
  });

  test('of a climatology', () => {
    const row = (i: number) =>
      `${1 + (i % 12)},${(i * 0.0085 - 85).toFixed(4)},${(i * 0.0179 - 179).toFixed(4)},-6,0,7`;
    write('months.csv', diagonal(20_000, 'month,lat,lon,u,v,wspd', row));
    const { code, error } = ran('check', 'months.csv');
    expect(code).toBe(2);
    expect(error).toBe(
      'months.csv: expected points on the lines of a grid, got 20000 rows spread over 4800000000 grid points and times\n',
    );
  });

  test('of polars', () => {
    const row = (i: number) => `main,${(1 + i / 500).toFixed(3)},${(i / 120).toFixed(4)},5`;
    write('polars.wide.csv', diagonal(20_000, 'sail_plan,tws_kn,twa_deg,stw_kn', row));
    const { code, error } = ran('check', 'polars.wide.csv');
    expect(code).toBe(2);
    expect(error.split('\n').length).toBe(22);
  });
});

describe('very many', () => {
  test('columns that are not used', () => {
    const names = Array.from({ length: 140_000 }, (_, i) => `c${i}`);
    const rest = ','.repeat(names.length - 1);
    write('columns.csv', forecastCsv(`u10,v10,${names}`, always(-8, 1, rest)));
    expect(plan({ forecast: 'columns.csv' }).code).toBe(0);
    const { code, out } = ran('check', 'columns.csv');
    expect(code).toBe(0);
    expect(out.split('\n').length).toBeLessThan(200);
  });

  test('members', () => {
    const rows = Array.from({ length: 50_000 }, (_, i) => `${TIMES[i % 5]},11,-61,m${i},-8,1`);
    write('members.csv', `time,lat,lon,member,u10,v10\n${rows.join('\n')}\n`);
    expect(planFault({ forecast: 'members.csv' })).toMatch(
      /^members\.csv, column member: expected one member of the ensemble to be chosen, got 50000: .{0,70}$/,
    );
  });

  test('hours of forecast that are not needed', () => {
    const rows = Array.from({ length: 60_000 }, (_, i) => {
      const time = new Date(Date.parse(TIMES[0]!) + i * 3600_000).toISOString();
      return [10, 12].map((lat) => [-62, -60].map((lon) => `${time},${lat},${lon},-8,1\n`).join('')).join('');
    });
    write('years.csv', `time,lat,lon,u10,v10\n${rows.join('')}`);
    expect(plan({ forecast: 'years.csv' }).code).toBe(0);
  });
});

describe('a study of absurd size', () => {
  const study = (...args: readonly string[]) => {
    const { code, out, error } = ran(
      ...['study', '--route', 'route.csv', '--boat', 'boat.json', '--depart-from', TIMES[0]!, '--out', 'out', ...args],
    );
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(existsSync(join(folder, 'out'))).toBe(false);
    return error.trimEnd();
  };
  beforeAll(() => rmSync(join(folder, 'out'), { recursive: true, force: true }));
  const WIND = ['--forecast', 'wind.csv'];
  const TOO_OFTEN = '--depart-every: expected a number from 0.1 to 10000, got';

  test.each([
    [
      'more starts than anyone has time for',
      [...WIND, '--depart-to', '2200-01-01T00:00Z', '--depart-every', '0.1'],
      `--depart-every: expected at most 1000000 passages, got ${Math.floor((Date.parse('2200-01-01T00:00Z') - Date.parse(TIMES[0]!)) / 360_000)}`,
    ],
    ['a start every instant', [...WIND, '--depart-every', '1e-9'], `${TOO_OFTEN} "1e-9"`],
    ['a step that is none', [...WIND, '--depart-every', '0'], `${TOO_OFTEN} "0"`],
    ['a step backwards', [...WIND, '--depart-every=-24'], `${TOO_OFTEN} "-24"`],
    ['a step of infinity', [...WIND, '--depart-every', 'Infinity'], `${TOO_OFTEN} "Infinity"`],
    ['threads', [...WIND, '--threads', '1e9'], '--threads: expected a number from 1 to 256, got "1e9"'],
    ['labels', [...WIND, '--labels', '1e9'], '--labels: expected a number from 1 to 64, got "1e9"'],
    ['a horizon of nothing', [...WIND, '--horizon', '1e-9'], '--horizon: expected a number from 1 to 1000, got "1e-9"'],
    [
      'drawings',
      ['--climatology', 'wind.csv', '--draws', '1e9'],
      '--draws: expected a number from 0 to 10000, got "1e9"',
    ],
  ])('%s', (_, args, said) => {
    expect(study(...args).split('\n')[0]).toBe(said);
  });

  test('a million starts behind the end of the forecast', () => {
    const lines = study(...WIND, '--depart-to', '2140-01-01T00:00Z', '--depart-every', '1').split('\n');
    expect(lines.length).toBe(21);
    expect(lines[0]).toContain('expected a departure from 2027-01-10T00:00:00Z and before 2027-01-11T00:00:00Z');
  });
});
