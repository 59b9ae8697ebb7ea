import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { ran } from './support/command.js';
import { always, BOAT, changed, FORECAST, forecastCsv, POLARS, ROUTE, TIMES } from './support/small.js';

let folder = '';
const path = (name: string) => join(folder, name);
const GOOD = { 'route.csv': ROUTE, 'forecast.csv': FORECAST, 'boat.json': BOAT, 'polars.csv': POLARS };
const write = (texts: Readonly<Record<string, string>>) => {
  for (const [name, text] of Object.entries(texts)) writeFileSync(path(name), text);
};

// Run from the folder of the files, as a person would: faults name them as they were given.
const home = process.cwd();
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'windwardrobe-'));
  write(GOOD);
  process.chdir(folder);
});
afterAll(() => {
  process.chdir(home);
  rmSync(folder, { recursive: true });
});

const DEFAULTS = { route: 'route.csv', forecast: 'forecast.csv', boat: 'boat.json', depart: TIMES[0]!, out: 'out' };
type Given = Partial<Record<keyof typeof DEFAULTS, string>>;

/** The arguments of `plan` with files of the test's folder. */
function planArgs(given: Given = {}): string[] {
  const { depart, ...paths } = { ...DEFAULTS, ...given };
  const named = Object.entries(paths).flatMap(([option, name]) => [
    `--${option}`,
    option === 'out' ? path(name) : name,
  ]);
  return ['plan', ...named, '--depart', depart];
}

const plan = (given: Given = {}) => ran(...planArgs(given));

describe('bad input', () => {
  beforeAll(() =>
    write({
      'bad-route.csv': 'name,lat,lon,too_next\nStart,11.5,-60.5,\nEnd,11,west,\n',
      'bad-boat.json': changed(BOAT, '["main:1", "jib"]', '["main:4", "jibb"]'),
      'bad-polars.csv': changed(POLARS, 'main,30,40,8\n', 'main,30,40,-8\n'),
      'boat-of-bad-polars.json': changed(BOAT, '"polars.csv"', '"bad-polars.csv"'),
      'bad-forecast.csv': changed(FORECAST, `${TIMES[0]},12,-60,-8,1,10.5`, `${TIMES[0]},12,-60,"12,5",1,fresh`),
    }),
  );

  test('all the faults of all the files in one report, and nothing written', async () => {
    const result = await plan({
      route: 'bad-route.csv',
      forecast: 'bad-forecast.csv',
      boat: 'bad-boat.json',
      depart: '2027-01-10T00:00',
      out: 'none/of/these',
    });
    expect(result).toEqual({
      code: 2,
      out: '',
      error: `--depart: expected a time that states UTC by Z or gives its offset, like 2018-10-06T20:00Z, got "2027-01-10T00:00"
bad-route.csv, line 1: expected one of name, lat, lon, to_next, got "too_next" (did you mean "to_next"?)
bad-route.csv, line 3, column lon: expected a longitude from 180W to 180E or 0 to 360, like -59.6 or 59°36.0'W, got "west"
bad-boat.json, sailPlans[1].sails[0]: expected a reef from 1 to 2, got "main:4"
bad-boat.json, sailPlans[1].sails[1]: expected the id of a sail aboard, got "jibb" (did you mean "jib"?)
bad-forecast.csv, line 5, column u10: expected a number from -103 to 103, got "12,5" (a decimal comma?)
bad-forecast.csv, line 5, column gust: expected a number from 0 to 103, got "fresh"
`,
    });
    expect(existsSync(path('none'))).toBe(false);
  });

  test('the faults of polars come between those of boat and forecast', async () => {
    const result = await plan({ forecast: 'none.csv', boat: 'boat-of-bad-polars.json', depart: 'noon' });
    expect(result).toEqual({
      code: 2,
      out: '',
      error: `--depart: expected a time in ISO 8601, like 2018-10-06T20:00Z, got "noon"
bad-polars.csv, line 4, column stw_kn: expected a number from 0 to 60, got "-8"
none.csv: expected a file that can be read, got no such file
`,
    });
    expect(existsSync(path('out'))).toBe(false);
  });

  test('a departure at the last instant of the forecast', async () => {
    const result = await plan({ depart: TIMES.at(-1)! });
    expect(result).toEqual({
      code: 2,
      out: '',
      error:
        'forecast.csv: expected a departure from 2027-01-10T00:00:00Z and before 2027-01-11T00:00:00Z, the times of the forecast, got 2027-01-11T00:00:00Z\n',
    });
    expect(existsSync(path('out'))).toBe(false);
  });

  test('what stands in the output folder stays as it is', async () => {
    mkdirSync(path('kept'));
    write({ 'kept/plan.md': 'an earlier plan\n' });
    expect(await plan({ route: 'bad-route.csv', out: 'kept' })).toMatchObject({ code: 2, out: '' });
    expect(readdirSync(path('kept'))).toEqual(['plan.md']);
    expect(readFileSync(path('kept/plan.md'), 'utf8')).toBe('an earlier plan\n');
  });

  test('of each file 20 faults are printed, then how many more there are', async () => {
    write({
      'worse-forecast.csv': forecastCsv('u10,v10', (_, lat) => (lat === 10 ? ['x', 1] : ['x', 'y'])),
      'worse-route.csv': `name,lat,lon\n${'Point,north,-60\n'.repeat(21)}`,
    });
    const { code, out, error } = await plan({ route: 'worse-route.csv', forecast: 'worse-forecast.csv' });
    const lines = error.trimEnd().split('\n');
    expect({ code, out, lines: lines.length }).toEqual({ code: 2, out: '', lines: 42 });
    expect(lines.slice(19, 22)).toEqual([
      `worse-route.csv, line 21, column lat: expected a latitude from 90S to 90N, like 16.88 or 16°52.8'N, got "north"`,
      'worse-route.csv: and 1 more fault',
      'worse-forecast.csv, line 2, column u10: expected a number from -103 to 103, got "x"',
    ]);
    // 20 rows with one bad cell in ten of them and two in the others.
    expect(lines.at(-1)).toBe('worse-forecast.csv: and 10 more faults');
  });

  test('a file with more faults than are kept is counted to its end', async () => {
    write({ 'long-route.csv': `name,lat,lon\n${'Point,north,-60\n'.repeat(2500)}` });
    const lines = (await plan({ route: 'long-route.csv' })).error.trimEnd().split('\n');
    expect(lines.length).toBe(21);
    expect(lines.at(-1)).toBe('long-route.csv: and 2480 more faults');
  });
});

describe('bad usage', () => {
  test.each([
    ['no command', [], /^Usage: windwardrobe/],
    ['an unknown command', ['sail'], /^error: unknown command 'sail'\n/],
    ['no options', ['plan'], /^error: required option '--route <file>' not specified\n/],
    ['an option without its value', ['plan', '--route'], /^error: option '--route <file>' argument missing\n/],
  ])('%s', async (_, args, message) => {
    const { code, out, error } = await ran(...args);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(error).toMatch(message);
  });

  test('with neither forecast nor climatology', async () => {
    const args = planArgs();
    args.splice(args.indexOf('--forecast'), 2);
    const { code, out, error } = await ran(...args);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(error).toBe('--forecast: expected a forecast, a climatology, or both, got neither\n');
  });

  test.each(['route', 'boat', 'depart', 'out'])('without --%s', async (option) => {
    const args = planArgs();
    args.splice(args.indexOf(`--${option}`), 2);
    const { code, out, error } = await ran(...args);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(error).toMatch(new RegExp(`^error: required option '--${option} <\\w+>' not specified\\n$`));
  });

  test.each([
    [['--speed', '7'], /^error: unknown option '--speed'\n/],
    [['--rout', 'x'], /^error: unknown option '--rout'\n\(Did you mean one of --out, --route\?\)\n/],
    [
      ['--choice', 'slowest'],
      /^error: option '--choice <how>' argument 'slowest' is invalid\. Allowed choices are planned, fastest\.\n/,
    ],
    [['--out', ''], /^error: option '--out <folder>' argument '' is invalid\. It is empty\.\n/],
    [['extra'], /^error: too many arguments for 'plan'\. Expected 0 arguments but got 1/],
  ])('plan with %j', async (more, message) => {
    const { code, out, error } = await ran(...planArgs(), ...more);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(error).toMatch(message);
    expect(existsSync(path('out'))).toBe(false);
  });

  test.each([['--help'], ['help'], ['plan', '--help'], ['help', 'plan'], ['--version']])(
    '%s %s is no fault',
    async (...args) => {
      const { code, out, error } = await ran(...args.filter((arg) => arg !== undefined));
      expect({ code, error }).toEqual({ code: 0, error: '' });
      expect(out).toMatch(args.includes('--version') ? /^\d+\.\d+\.\d+\n$/ : /^Usage: windwardrobe/);
    },
  );
});

describe('a folder that cannot be written to', () => {
  test('a file of its name', async () => {
    write({ taken: 'a file\n' });
    expect(await plan({ out: 'taken' })).toEqual({
      code: 1,
      out: '',
      error: `${path('taken')}: cannot be written to: a file of that name in the way\n`,
    });
    expect(readFileSync(path('taken'), 'utf8')).toBe('a file\n');
  });

  // Where there is such a place: Node's recursive making of folders never ends in it.
  test.skipIf(!existsSync('/proc/self'))('a place that takes no folders', async () => {
    const { code, error } = await ran(...planArgs({}), '--out', '/proc/windwardrobe');
    expect({ code, error }).toEqual({
      code: 1,
      error: '/proc/windwardrobe: cannot be written to: no such file\n',
    });
  });

  test('a file on the way to it', async () => {
    write({ taken: 'a file\n' });
    expect(await plan({ out: 'taken/out' })).toEqual({
      code: 1,
      out: '',
      error: `${path('taken/out')}: cannot be written to: a file where a folder is needed\n`,
    });
  });

  test('a folder in place of one of the files: it is named, and no other file is left there', async () => {
    mkdirSync(path('half/plan.md'), { recursive: true });
    const { code, out, error } = await plan({ out: 'half' });
    expect({ code, out }).toEqual({ code: 1, out: '' });
    expect(readdirSync(path('half'))).toEqual(['plan.md']);
    expect(error).toBe(`${path('half/plan.md')}: cannot be written to: a folder\n`);
  });
});

describe('an incomplete plan', () => {
  const firstLines = async (given: Given) => {
    const { code, out, error } = await plan(given);
    const files = path(given.out!);
    expect({ code, error }).toEqual({ code: 3, error: '' });
    expect(readdirSync(files).sort()).toEqual([
      'hours.csv',
      'plan.json',
      'plan.md',
      'report.html',
      'track.geojson',
      'track.gpx',
      'tradeoff.csv',
    ]);
    const json = JSON.parse(readFileSync(join(files, 'plan.json'), 'utf8')) as Record<string, unknown>;
    return {
      printed: out.split('\n')[0],
      markdown: readFileSync(join(files, 'plan.md'), 'utf8').split('\n')[0],
      json: { complete: json.complete, reason: json.reason },
    };
  };
  const caution =
    'Planning aid only: the skipper decides. Check official charts, notices, forecasts and warnings, and keep the rules of the road; forecasts and polars are wrong in ways no plan shows.';

  test('the forecast too short', async () => {
    write({ 'short.csv': forecastCsv('u10,v10', always(-8, 1), TIMES.slice(0, 2)) });
    // What is left to go follows from the polars and is not asserted here.
    const expected = (mark: string) =>
      new RegExp(
        `^${mark}PLAN INCOMPLETE: the forecast ends before the passage does, at 2027-01-10T06:00:00Z with \\d\\d Nm to go\\. ${caution}${mark}$`,
      );
    const { printed, markdown, json } = await firstLines({ forecast: 'short.csv', out: 'short' });
    expect(printed).toMatch(expected(''));
    expect(markdown).toMatch(expected('\\*\\*'));
    expect(json).toEqual({ complete: false, reason: 'forecast-ended' });
  });

  test('no wind further on', async () => {
    write({ 'land.csv': forecastCsv('u10,v10', (_, _lat, lon) => (lon === -62 ? ['', ''] : [-8, 1])) });
    const { printed, json } = await firstLines({ forecast: 'land.csv', out: 'land' });
    expect(printed).toMatch(/^PLAN INCOMPLETE: no wind is known where the boat is then, at \S+ with \d+ Nm to go\. /);
    expect(json).toEqual({ complete: false, reason: 'no-wind-data' });
  });

  test('no sail plan ever allowed', async () => {
    write({
      'weak.json': changed(
        BOAT,
        '"awsMinKn": 2, "awsMaxKn": [[60, 50], [180, 45]]',
        '"awsMinKn": 40, "awsMaxKn": null',
      ),
    });
    const { printed, json } = await firstLines({ boat: 'weak.json', out: 'weak' });
    expect(printed).toMatch(
      /^PLAN INCOMPLETE: no sail plan was ever allowed and the boat could go nowhere, at \S+ with \d+ Nm to go\. /,
    );
    expect(json).toEqual({ complete: false, reason: 'no-plan-allowed' });
  });

  test('a complete one for comparison', async () => {
    const { code, out, error } = await plan({ out: 'whole' });
    expect({ code, error }).toEqual({ code: 0, error: '' });
    expect(out.split('\n')[0]).toBe(caution);
    expect(readFileSync(path('whole/plan.md'), 'utf8').split('\n')[0]).toBe(`**${caution}**`);
  });
});
