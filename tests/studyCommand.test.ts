import { spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { PassageRecord } from '../src/index.js';
import { rowsOf } from './support/command.js';
import { BOAT, FORECAST, forecastCsv, POLARS, ROUTE } from './support/small.js';

const BIN = resolve('dist/cli/bin.js');
const folder = mkdtempSync(join(tmpdir(), 'windwardrobe-'));
afterAll(() => rmSync(folder, { recursive: true }));

/** A long weather, so that there are many starts: the small grid every six hours for forty days, the wind turning and freshening. */
const DAYS = 40;
const TIMES = Array.from({ length: DAYS * 4 + 1 }, (_, n) =>
  new Date(Date.UTC(2027, 0, 10) + n * 6 * 3600_000).toISOString(),
);
const LONG = forecastCsv(
  'u10,v10',
  (time) => {
    const n = TIMES.indexOf(time);
    return [(-8 - 3 * Math.sin(n / 7)).toFixed(2), (1 + 4 * Math.sin(n / 5)).toFixed(2)];
  },
  TIMES,
);
const MEMBERS = `time,lat,lon,member,u10,v10\n${['a', 'b']
  .flatMap((member) =>
    ['2027-01-10T00:00Z', '2027-01-10T12:00Z', '2027-01-11T00:00Z'].flatMap((time) =>
      [10, 12].flatMap((lat) =>
        [-62, -60].map((lon) => `${time},${lat},${lon},${member},${member === 'a' ? -8 : -6},1`),
      ),
    ),
  )
  .join('\n')}\n`;

/** The same mean wind in every month and place; its mean vector is 7 of 8 m/s. */
const STEADINESS = 7 / 8;
const MONTHS = `month,lat,lon,u,v,wind_speed\n${Array.from({ length: 12 }, (_, month) =>
  [10, 12].flatMap((lat) => [-62, -60].map((lon) => `${month + 1},${lat},${lon},-7,0,8`)).join('\n'),
).join('\n')}\n`;

beforeAll(() => {
  const files = {
    'route.csv': ROUTE,
    'boat.json': BOAT,
    'polars.csv': POLARS,
    'long.csv': LONG,
    'months.csv': MONTHS,
    'wind.csv': FORECAST,
    'members.csv': MEMBERS,
  };
  for (const [name, text] of Object.entries(files)) writeFileSync(join(folder, name), text);
  writeFileSync(join(folder, 'back.csv'), 'name,lat,lon,to_next\nEnd,11,-61.5,rhumb\nStart,11.5,-60.5,\n');
});

const FILES = ['--route', 'route.csv', '--boat', 'boat.json'];
const study = (...args: readonly string[]) => {
  const { status, stdout, stderr } = spawnSync('node', [BIN, 'study', ...args], { cwd: folder, encoding: 'utf8' });
  return { code: status, out: stdout, error: stderr };
};
const read = (out: string, name: string) => readFileSync(join(folder, out, name), 'utf8');
const NAMES = ['passages.csv', 'passages.jsonl', 'report.html', 'study.json', 'study.md'];
const bytesOf = (out: string) => NAMES.map((name) => read(out, name)).join('\n');
const MANY = [
  ...FILES,
  '--forecast',
  'long.csv',
  '--depart-from',
  '2027-01-10T00:00Z',
  '--depart-to',
  '2027-02-15T00:00Z',
  '--depart-every',
  '2',
];

describe('a study, as installed', () => {
  test('the same bytes whatever the number of threads', () => {
    for (const threads of ['1', '2', '5']) {
      const { code, out } = study(...MANY, '--out', `threads-${threads}`, '--threads', threads);
      expect(code).toBe(0);
      expect(out).toContain('433 passages: 1 route × 1 boat × 1 weather × 433 starts');
    }
    expect(bytesOf('threads-2')).toBe(bytesOf('threads-1'));
    expect(bytesOf('threads-5')).toBe(bytesOf('threads-1'));
    const rows = rowsOf(read('threads-1', 'passages.csv'));
    expect(rows.map(({ passage }) => Number(passage))).toEqual(Array.from({ length: 433 }, (_, n) => n));
    expect(readdirSync(join(folder, 'threads-1')).sort()).toEqual(NAMES);
  });

  test('killed at any moment, again and again, it goes on without losing or doubling a passage', async () => {
    const out = join(folder, 'killed');
    const linesIn = () => {
      const path = join(out, 'passages.partial.jsonl');
      return existsSync(path) ? readFileSync(path, 'utf8').split('\n').length - 1 : 0;
    };
    // A seeded dice: each kill comes so many lines after the last.
    let dice = 20270110;
    let kills = 0;
    while (kills < 3) {
      dice = (dice * 1103515245 + 12345) % 2147483648;
      const after = linesIn() + 1 + (dice % 90);
      const child = spawn('node', [BIN, 'study', ...MANY, '--out', 'killed', '--threads', '2'], {
        cwd: folder,
        stdio: 'ignore',
      });
      const ended = new Promise<void>((done) => {
        child.on('exit', () => done());
      });
      const watch = setInterval(() => {
        if (linesIn() >= after) child.kill('SIGKILL');
      }, 2);
      await ended;
      clearInterval(watch);
      kills += 1;
    }
    const left = linesIn();
    expect(left).toBeGreaterThan(0);
    expect(left).toBeLessThan(433);
    // A line that was cut off, as a kill in the middle of writing leaves it.
    const path = join(out, 'passages.partial.jsonl');
    const text = readFileSync(path, 'utf8');
    writeFileSync(path, text.slice(0, -40));
    const { code, error } = study(...MANY, '--out', 'killed', '--threads', '3');
    expect(code).toBe(0);
    expect(error).toBe(`Goes on after passage ${left - 1} of 433.\n`);
    expect(bytesOf('killed')).toBe(bytesOf('threads-1'));
    expect(readdirSync(out).sort()).toEqual(NAMES);
  });

  test('interrupted it says how far it is, and goes on', async () => {
    const child = spawn('node', [BIN, 'study', ...MANY, '--out', 'stopped', '--threads', '2'], { cwd: folder });
    let error = '';
    child.stderr.on('data', (text) => {
      error += text;
    });
    const path = join(folder, 'stopped', 'passages.partial.jsonl');
    const watch = setInterval(() => {
      if (!existsSync(path) || readFileSync(path, 'utf8').split('\n').length <= 5) return;
      // Once: a second one ends it at once.
      clearInterval(watch);
      child.kill('SIGINT');
    }, 5);
    const code = await new Promise((done) => {
      child.on('exit', done);
    });
    clearInterval(watch);
    expect(code).toBe(130);
    expect(error).toMatch(/^Stopped after passage \d+ of 433; ask the same again and it goes on\.\n$/);
    expect(existsSync(join(folder, 'stopped', 'study.lock'))).toBe(false);
    expect(study(...MANY, '--out', 'stopped').code).toBe(0);
    expect(bytesOf('stopped')).toBe(bytesOf('threads-1'));
  });

  test('a finished study is only summed up again, with other weights and limits', () => {
    const { code, error } = study(...MANY, '--out', 'threads-2', '--weight', 'changes=1', '--limit', 'gust-max=20');
    expect([code, error]).toEqual([0, 'All 433 passages are there already.\n']);
    expect(read('threads-2', 'passages.jsonl')).toBe(read('threads-1', 'passages.jsonl'));
    const { summary } = JSON.parse(read('threads-2', 'study.json'));
    expect(summary.weights).toEqual({ changes: 1 });
    expect(summary.all.chances).toMatchObject([{ metric: 'gust-max', limit: 20, of: 433 }]);
  });

  test('another study that is not finished is not written over', () => {
    const partial = join(folder, 'other');
    study(...FILES, '--forecast', 'wind.csv', '--depart-from', '2027-01-10T00:00Z', '--out', 'other');
    writeFileSync(join(partial, 'study.partial.json'), '{"digest":"of another"}\n');
    writeFileSync(join(partial, 'passages.partial.jsonl'), '{"n":0}\n');
    const { code, error } = study(...MANY, '--out', 'other');
    expect(code).toBe(2);
    expect(error).toMatch(/^other: expected the files and options with which the study in this folder was begun/);
    expect(readFileSync(join(partial, 'passages.partial.jsonl'), 'utf8')).toBe('{"n":0}\n');
    expect(existsSync(join(partial, 'study.lock'))).toBe(false);
  });

  test('a folder in which a study is at work is left alone; a lock whose process is gone is none', () => {
    const one = [...FILES, '--forecast', 'wind.csv', '--depart-from', '2027-01-10T00:00Z', '--out', 'locked'];
    expect(study(...one).code).toBe(0);
    const lock = join(folder, 'locked', 'study.lock');
    writeFileSync(lock, `${process.pid}\n`);
    expect(study(...one)).toMatchObject({ code: 2, error: expect.stringContaining(`process ${process.pid} at work`) });
    const { pid } = spawnSync('node', ['-e', '']);
    writeFileSync(lock, `${pid}\n`);
    expect(study(...one).code).toBe(0);
  });

  test('every route, forecast and member is sailed', () => {
    const { code, out } = study(
      ...['--route', 'route.csv', '--route', 'back.csv', '--boat', 'boat.json'],
      ...[
        '--forecast',
        'members.csv',
        '--forecast',
        'wind.csv',
        '--depart-from',
        '2027-01-10T00:00Z',
        '--depart-to',
        '2027-01-10T06:00Z',
        '--depart-every',
        '6',
        '--out',
        'every',
      ],
    );
    expect(code).toBe(0);
    expect(out).toContain('12 passages: 2 routes × 1 boat × 3 weathers × 2 starts');
    const rows = rowsOf(read('every', 'passages.csv'));
    expect(
      rows.map(({ route, weather, member, departure }) => [route, weather, member, departure!.slice(11, 13)].join(' ')),
    ).toEqual(
      ['route.csv', 'back.csv'].flatMap((route) =>
        ['members.csv a', 'members.csv b', 'wind.csv '].flatMap((weather) =>
          ['00', '06'].map((start) => `${route} ${weather} ${start}`),
        ),
      ),
    );
    const one = study(
      ...FILES,
      '--forecast',
      'members.csv',
      '--member',
      'b',
      '--depart-from',
      '2027-01-10T00:00Z',
      '--out',
      'one',
    );
    expect([one.code, one.error]).toEqual([0, '']);
    expect(rowsOf(read('one', 'passages.csv'))[0]).toMatchObject({ member: 'b', hours: rows[2]!.hours });
    // Another in its folder takes its place, and says so.
    const next = study(...FILES, '--forecast', 'wind.csv', '--depart-from', '2027-01-10T00:00Z', '--out', 'one');
    expect([next.code, next.error]).toEqual([
      0,
      'one: the finished study there is replaced when this one is finished.\n',
    ]);
  });

  describe('in a monthly climatology', () => {
    const year = (...args: readonly string[]) =>
      study(...FILES, '--climatology', 'months.csv', '--depart-from', '2027-01-15T00:00Z', ...args);
    const records = (out: string) =>
      read(out, 'passages.jsonl')
        .trimEnd()
        .split('\n')
        .map((line) => JSON.parse(line) as PassageRecord);

    test('alone, the weather is drawn: twenty drawings unless asked otherwise, each the same for the same seed', () => {
      const { code, out } = year('--out', 'drawn');
      expect(code).toBe(0);
      expect(out).toContain('20 passages: 1 route × 1 boat × 20 weathers × 1 start');
      expect(out).toMatch(/That wind is synthetic: 20 drawings \(seed 1 and on\) .*Squalls and lulls are not in it\./);
      const drawn = records('drawn');
      expect(drawn.map(({ draw }) => draw)).toEqual(Array.from({ length: 20 }, (_, n) => n + 1));
      expect(new Set(drawn.map(({ hours }) => hours)).size).toBe(20);
      // A drawing has the seed of the first and its number on.
      year('--out', 'later', '--draws', '2', '--seed', '19');
      expect(records('later').map(({ hours }) => hours)).toEqual(drawn.slice(18).map(({ hours }) => hours));
      const { draws } = JSON.parse(read('later', 'study.json'));
      expect(draws).toMatchObject({ count: 2, seed: 19 });
    });

    test('by its mean where no drawing is asked for, with its steadiness by the month of departure', () => {
      const { code, out } = year(
        '--out',
        'mean',
        '--draws',
        '0',
        '--depart-to',
        '2027-12-15T00:00Z',
        '--depart-every',
        '730',
      );
      expect(code).toBe(0);
      expect(out).toContain('It is the mean wind of the month');
      const { summary } = JSON.parse(read('mean', 'study.json'));
      expect(summary.months.map(({ name }: { name: string }) => name)).toEqual(
        Array.from({ length: 11 }, (_, month) => `${month + 1}`.padStart(2, '0')),
      );
      for (const { hours, steadiness, climatologyHours } of records('mean')) {
        expect(climatologyHours).toBeCloseTo(hours, 6);
        expect(steadiness).toBeCloseTo(STEADINESS, 2);
      }
      expect(read('mean', 'study.md')).toContain('### Hours on each sail by month, mean');
    });

    test('behind a forecast it takes over where that ends', () => {
      const { code } = year('--forecast', 'wind.csv', '--depart-from', '2027-01-10T21:00Z', '--out', 'behind');
      expect(code).toBe(0);
      const [one] = records('behind');
      expect(one).toMatchObject({ weather: 'wind.csv', draw: null, complete: true });
      expect(one!.climatologyHours).toBeGreaterThan(1);
      expect(one!.climatologyHours).toBeLessThan(one!.hours);
    });

    test('drawings without a climatology are a fault, and so is no weather at all', () => {
      const none = study(
        ...FILES,
        '--forecast',
        'wind.csv',
        '--depart-from',
        '2027-01-10T00:00Z',
        '--draws',
        '3',
        '--out',
        'x',
      );
      expect([none.code, none.error]).toEqual([2, '--draws: expected a climatology (--climatology), got none\n']);
      const neither = study(...FILES, '--depart-from', '2027-01-10T00:00Z', '--out', 'x');
      expect(neither.code).toBe(2);
      expect(neither.error).toContain('a forecast, a climatology, or both');
    });
  });

  test('what is wrong in a thread comes out of it as what it is', async () => {
    const { loadStudy, runStudy } = (await import(
      resolve('dist/node/node.js')
    )) as typeof import('../src/node/node.js');
    const path = (name: string) => join(folder, name);
    const { study: files } = await loadStudy({
      routes: [path('route.csv')],
      boats: [path('boat.json')],
      forecasts: [path('wind.csv')],
    });
    const run = async (starts: readonly string[], options: object, how: object = {}) => {
      const lines: string[] = [];
      for await (const line of runStudy({ ...files, starts, options }, { threads: 1, ...how })) lines.push(line);
      return lines;
    };
    expect(await run(['2027-01-10T00:00Z'], {})).toHaveLength(1);
    expect(await run(['2027-01-10T00:00Z'], {}, { threads: 0 })).toHaveLength(1);
    await expect(run(['2037-01-10T00:00Z'], {})).rejects.toMatchObject({
      name: 'InputError',
      faults: [expect.objectContaining({ code: 'departure-outside' })],
    });
    await expect(run(['2027-01-10T00:00Z'], { crew: -1 })).rejects.toMatchObject({
      faults: [expect.objectContaining({ path: 'crew' })],
    });
    const stop = new AbortController();
    stop.abort(new Error('enough'));
    await expect(run(['2027-01-10T00:00Z'], {}, { signal: stop.signal })).rejects.toThrow('enough');
  });

  test('a start for which there is no weather is told before anything is sailed, with all other faults', () => {
    const { code, error } = study(
      ...FILES,
      '--forecast',
      'wind.csv',
      '--depart-from',
      '2027-01-10T00:00Z',
      '--depart-to',
      '2027-01-12T00:00Z',
      '--depart-every',
      '12',
      '--out',
      'none',
    );
    expect(code).toBe(2);
    expect(error).toContain('2027-01-11T00:00:00Z');
    expect(error).toContain('2027-01-12T00:00:00Z');
    expect(existsSync(join(folder, 'none'))).toBe(false);
  });

  test('an incomplete passage is told in the first line and by the exit code', () => {
    const { code, out } = study(
      ...FILES,
      '--forecast',
      'wind.csv',
      '--depart-from',
      '2027-01-10T00:00Z',
      '--depart-to',
      '2027-01-10T18:00Z',
      '--depart-every',
      '18',
      '--out',
      'half',
    );
    expect(code).toBe(3);
    expect(out).toMatch(/^1 OF 2 PASSAGES INCOMPLETE/);
    expect(read('half', 'study.md')).toMatch(/^\*\*1 OF 2 PASSAGES INCOMPLETE/);
    expect(rowsOf(read('half', 'passages.csv')).map(({ complete, reason }) => [complete, reason])).toEqual([
      ['1', ''],
      ['0', 'forecast-ended'],
    ]);
  });
});
