import { spawn, spawnSync } from 'node:child_process';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  openSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeEach, describe, expect, test, vi } from 'vitest';
import { run } from '../src/cli/cli.js';
import { fileProblem, writeFiles, writeNewFile } from '../src/node/node.js';
import { ranIn } from './support/child.js';
import { ran } from './support/command.js';
import { HOSTILE_TEXTS } from './support/hostileTexts.js';
import { always, BOAT, FORECAST, forecastCsv, POLARS, ROUTE, TIMES } from './support/small.js';

// Places that cannot be written to, in whole or in part, and what is left there then.

/** What the file system refuses; undefined: nothing. */
let refusal: ((call: 'rename' | 'link' | 'open', path: string) => string | undefined) | undefined;
vi.mock('node:fs/promises', async (original) => {
  const real = await original<typeof import('node:fs/promises')>();
  const asked = (call: 'rename' | 'link' | 'open', path: string) => {
    const code = refusal?.(call, path);
    if (code !== undefined) throw Object.assign(new Error(code), { code, path });
  };
  return {
    ...real,
    rename: async (from: string, to: string) => {
      asked('rename', to);
      await real.rename(from, to);
    },
    link: async (from: string, to: string) => {
      asked('link', to);
      await real.link(from, to);
    },
    open: async (path: string, flags: string) => {
      asked('open', path);
      return real.open(path, flags);
    },
  };
});

const PLAN = ['hours.csv', 'plan.json', 'plan.md', 'report.html', 'track.geojson', 'track.gpx', 'tradeoff.csv'];
let folder = '';
const path = (...names: readonly string[]) => join(folder, ...names);
const write = (name: string, text: string) => writeFileSync(path(name), text);
beforeEach(() => {
  refusal = undefined;
  if (folder !== '') rmSync(folder, { recursive: true, force: true });
  folder = mkdtempSync(join(tmpdir(), 'windwardrobe-'));
  for (const [name, text] of Object.entries({
    'route.csv': ROUTE,
    'wind.csv': FORECAST,
    'boat.json': BOAT,
    'polars.csv': POLARS,
  }))
    write(name, text);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const INPUTS = () => ['--route', path('route.csv'), '--forecast', path('wind.csv'), '--boat', path('boat.json')];
const planArgs = (out: string) => ['plan', ...INPUTS(), '--depart', TIMES[0]!, '--out', out];
const studyArgs = (out: string) => ['study', ...INPUTS(), '--depart-from', TIMES[0]!, '--out', out, '--threads', '1'];
const contentsOf = (name: string) =>
  Object.fromEntries(readdirSync(path(name)).map((file) => [file, readFileSync(path(name, file), 'utf8')]));

describe('files are put together or not at all', () => {
  const NEW = { 'a.txt': 'new a', 'b.txt': 'new b', 'c.txt': 'new c' };
  const OLD = { 'a.txt': 'old a', 'c.txt': 'old c', 'other.txt': 'other' };
  beforeEach(() => {
    mkdirSync(path('out'));
    for (const [name, text] of Object.entries(OLD)) write(`out/${name}`, text);
  });

  test.each([
    ['the disk is full at the second', 'open', 'b.txt', 'ENOSPC'],
    ['the quota is used up at the last', 'open', 'c.txt', 'EDQUOT'],
    ['the first may not be replaced', 'rename', 'a.txt', 'EPERM'],
    ['the second may not be put', 'rename', 'b.txt', 'EACCES'],
    ['the last is in use', 'rename', 'c.txt', 'EBUSY'],
  ] as const)('where %s all stands as before', async (_, call, name, code) => {
    refusal = (asked, at) => (asked === call && at.includes(name) && !at.includes('earlier') ? code : undefined);
    await expect(writeFiles(path('out'), NEW)).rejects.toThrow(code);
    expect(contentsOf('out')).toEqual(OLD);
  });

  test('in a file system without second names what is written is put all the same', async () => {
    refusal = (call) => (call === 'link' ? 'ENOTSUP' : undefined);
    await writeFiles(path('out'), NEW);
    expect(contentsOf('out')).toEqual({ ...OLD, ...NEW });
    await writeNewFile(path('out/new.txt'), 'new');
    expect(readFileSync(path('out/new.txt'), 'utf8')).toBe('new');
    await expect(writeNewFile(path('out/new.txt'), 'newer')).rejects.toThrow('EEXIST');
    expect(readFileSync(path('out/new.txt'), 'utf8')).toBe('new');
  });

  test('a folder that was made for them goes again, one that was there stays', async () => {
    refusal = (call, at) => (call === 'open' && at.includes('b.txt') ? 'ENOSPC' : undefined);
    await expect(writeFiles(path('out/deep/er'), NEW)).rejects.toThrow('ENOSPC');
    expect(contentsOf('out')).toEqual(OLD);
  });

  test('drafts of a process that is gone are removed, of one at work they are not', async () => {
    const { pid: gone } = spawnSync('true');
    write(`out/.windwardrobe-a.txt.${gone}.draft`, 'half');
    write(`out/.windwardrobe-c.txt.${gone}.earlier`, 'old');
    write(`out/.windwardrobe-a.txt.${process.ppid}.draft`, 'half');
    write('out/.draft', 'mine');
    await writeFiles(path('out'), NEW);
    expect(readdirSync(path('out')).sort()).toEqual([
      '.draft',
      `.windwardrobe-a.txt.${process.ppid}.draft`,
      'a.txt',
      'b.txt',
      'c.txt',
      'other.txt',
    ]);
  });

  test('a link is replaced, not what it leads to', async () => {
    write('elsewhere.txt', 'not ours');
    rmSync(path('out/a.txt'));
    symlinkSync(path('elsewhere.txt'), path('out/a.txt'));
    await writeFiles(path('out'), NEW);
    expect(readFileSync(path('elsewhere.txt'), 'utf8')).toBe('not ours');
    expect(readFileSync(path('out/a.txt'), 'utf8')).toBe('new a');
  });

  test('stopped in between all stands as before', async () => {
    const stop = new AbortController();
    refusal = (call, at) => {
      if (call === 'open' && at.includes('b.txt')) stop.abort();
      return undefined;
    };
    await expect(writeFiles(path('out'), NEW, { signal: stop.signal })).rejects.toThrow('abort');
    expect(contentsOf('out')).toEqual(OLD);
  });

  test('every refusal is told in words', () => {
    for (const code of ['ENOSPC', 'EDQUOT', 'EFBIG', 'EROFS', 'EACCES', 'EIO', 'ENAMETOOLONG', 'ELOOP'])
      expect(fileProblem(Object.assign(new Error(), { code }))).not.toMatch(/^E[A-Z]/);
  });
});

describe('a command', () => {
  const plain = (text: string) => text.replaceAll(folder, '').trimEnd();

  test('that is refused in the middle leaves the earlier plan', async () => {
    expect((await ran(...planArgs(path('out')))).code).toBe(0);
    const before = contentsOf('out');
    refusal = (call, at) => (call === 'rename' && at.endsWith('plan.md') ? 'ENOSPC' : undefined);
    const { code, out, error } = await ran(...planArgs(path('out')), '--choice', 'fastest');
    expect({ code, out, error: plain(error) }).toEqual({
      code: 1,
      out: '',
      error: '/out: cannot be written to: no space left',
    });
    expect(contentsOf('out')).toEqual(before);
  });

  test('that writes a chart leaves nothing either', async () => {
    refusal = (call, at) => (call === 'open' && at.includes('crossover.svg') ? 'EDQUOT' : undefined);
    const { code, error } = await ran('crossover', '--boat', path('boat.json'), '--out', path('chart'));
    expect({ code, error: plain(error) }).toEqual({
      code: 1,
      error: '/chart: cannot be written to: no space left for this user',
    });
    expect(existsSync(path('chart'))).toBe(false);
  });

  test.each([
    ['speeds', 'polars-new.csv', () => ['boat', 'speeds', path('boat.json')]],
    ['a boat', 'new.json', () => ['boat', 'new', '--sail', 'pin-head-main']],
  ])('that writes %s leaves none that is half', async (_, name, args) => {
    refusal = (call, at) => (call === 'link' && at.endsWith(name) ? 'ENOSPC' : undefined);
    const { code, error } = await ran(...args(), '--out', path(name));
    expect({ code, error: plain(error) }).toEqual({ code: 1, error: `/${name}: cannot be written to: no space left` });
    refusal = undefined;
    expect(readdirSync(folder).filter((file) => file.includes(name))).toEqual([]);
    expect((await ran(...args(), '--out', path(name))).code).toBe(0);
    expect(await ran(...args(), '--out', path(name))).toMatchObject({ code: 1, out: '' });
    expect(readdirSync(folder).filter((file) => file.includes(name))).toEqual([name]);
  });

  test('whose folder is a link writes where it leads', async () => {
    mkdirSync(path('real'));
    symlinkSync(path('real'), path('linked'));
    expect((await ran(...planArgs(path('linked')))).code).toBe(0);
    expect(readdirSync(path('real')).sort()).toEqual(PLAN);
    expect(ranIn({ cwd: folder }, ...studyArgs(path('linked'))).code).toBe(0);
    expect(readdirSync(path('real')).length).toBe(PLAN.length + 4);
    symlinkSync(path('nowhere'), path('dangling'));
    expect((await ran(...planArgs(path('dangling')))).error).toContain('cannot be written to: ');
    expect(existsSync(path('nowhere'))).toBe(false);
  });

  test.skipIf(process.getuid?.() === 0)('whose folder may not be written to', async () => {
    mkdirSync(path('closed'), { mode: 0o555 });
    expect(await ran(...planArgs(path('closed')))).toMatchObject({ code: 1, out: '' });
    expect(readdirSync(path('closed'))).toEqual([]);
  });

  test('interrupted while it writes leaves everything as it was', async () => {
    let error = '';
    const code = await run(planArgs(path('out/deep')), {
      out: () => {},
      error: (text) => {
        error += text;
      },
      isTerminal: false,
      onInterrupt(action) {
        action();
        return () => {};
      },
    });
    expect({ code, error }).toEqual({ code: 130, error: 'Stopped: nothing was written.\n' });
    expect(existsSync(path('out'))).toBe(false);
  });
});

// Without a shell's limits and signals there is nothing to try.
describe.skipIf(process.platform === 'win32')('as installed', () => {
  test('no file may be as large: nothing is left, and what was there stays', () => {
    const limits = { cwd: folder, fileBlocks: 8 };
    const args = (out: string) => planArgs(out).map((arg) => arg.replace(`${folder}/`, ''));
    expect(ranIn(limits, ...args('out'))).toEqual({
      code: 1,
      out: '',
      error: 'out: cannot be written to: a file larger than may be written\n',
    });
    expect(existsSync(path('out'))).toBe(false);
    expect(ranIn({ cwd: folder }, ...args('out')).code).toBe(0);
    const before = contentsOf('out');
    expect(ranIn(limits, ...args('out'), '--choice', 'fastest').code).toBe(1);
    expect(contentsOf('out')).toEqual(before);
    expect(ranIn({ cwd: folder, fileBlocks: 1 }, 'boat', 'speeds', 'boat.json', '--out', 'new.csv').code).toBe(0);
    expect(ranIn({ cwd: folder, fileBlocks: 0 }, 'boat', 'speeds', 'boat.json', '--out', 'newer.csv')).toMatchObject({
      code: 1,
      error: 'newer.csv: cannot be written to: a file larger than may be written\n',
    });
    expect(readdirSync(folder).filter((name) => name.includes('newer'))).toEqual([]);
  });

  test('a study that may not write its summary keeps what is sailed, and the earlier study', () => {
    const [cwd, args] = [folder, studyArgs(path('out'))];
    expect(ranIn({ cwd }, ...args).code).toBe(0);
    const before = contentsOf('out');
    // A passage takes less than its summary does.
    const fileBlocks = Math.ceil(before['passages.jsonl']!.length / 512) + 1;
    expect(before['study.json']!.length).toBeGreaterThan(fileBlocks * 512);
    const other = [...args, '--wind-factor', '1.1'];
    expect(ranIn({ cwd, fileBlocks }, ...other)).toMatchObject({
      code: 1,
      out: '',
      error: expect.stringContaining('cannot be written to: a file larger than may be written\n'),
    });
    expect(contentsOf('out')).toMatchObject(before);
    expect(readdirSync(path('out')).sort()).toEqual(
      [...Object.keys(before), 'passages.partial.jsonl', 'study.partial.json'].sort(),
    );
    expect(ranIn({ cwd }, ...other)).toMatchObject({ code: 0, error: 'All 1 passages are there already.\n' });
    expect(readdirSync(path('out')).sort()).toEqual(Object.keys(before).sort());
  });

  test('interrupted at any moment it leaves a whole plan or none, and no drafts', { timeout: 120_000 }, async () => {
    for (const afterMs of [50, 200, 400, 600, 800, 1000, 1200]) {
      const child = spawn('node', [resolve('dist/cli/bin.js'), ...planArgs(path('out'))], { stdio: 'ignore' });
      const ended = new Promise<void>((done) => child.on('close', () => done()));
      setTimeout(() => child.kill('SIGINT'), afterMs);
      await ended;
      if (existsSync(path('out'))) expect(readdirSync(path('out')).sort()).toEqual(PLAN);
    }
  });

  test.skipIf(!existsSync('/dev/full'))('what cannot be printed is told without a stack', () => {
    const { status, stderr } = spawnSync('node', [resolve('dist/cli/bin.js'), 'sails'], {
      stdio: ['ignore', openSync('/dev/full', 'w'), 'pipe'],
      encoding: 'utf8',
    });
    expect({ status, stderr }).toEqual({ status: 1, stderr: 'what is printed cannot be written: ENOSPC\n' });
  });

  test('a reader that goes away is no reason to complain', () => {
    const { stderr } = spawnSync('sh', ['-c', `node ${resolve('dist/cli/bin.js')} sails --json | head -c 10`], {
      encoding: 'utf8',
    });
    expect(stderr).toBe('');
  });
});

describe('files of hostile names', () => {
  // No file has a slash or a zero byte in its name, nor is one called by a text that is no text.
  const NAMES = Object.entries(HOSTILE_TEXTS).flatMap(([what, text]) => {
    const name = text.replaceAll(/[/\0\ud800]/g, '_').slice(0, 120);
    return [[what, `${name}.in`] as const];
  });
  test.each(NAMES)('%s', async (_, name) => {
    const boat = { ...JSON.parse(BOAT), polars: name };
    mkdirSync(path('in'));
    mkdirSync(path('in/forecast'));
    write(`in/${name}`, POLARS);
    write('in/boat.json', JSON.stringify(boat));
    write(`in/forecast/${name}`, forecastCsv('u10,v10', always(-8, 1)));
    write(`route-${name}`, ROUTE);
    const given = [
      ...['--route', path(`route-${name}`), '--forecast', path('in/forecast', name), '--boat', path('in/boat.json')],
    ];
    const { code, out, error } = await ran('plan', ...given, '--depart', TIMES[0]!, '--out', path('out'));
    expect({ code, error }).toEqual({ code: 0, error: '' });
    expect(readdirSync(path('out')).sort()).toEqual(PLAN);
    const checked = await ran('check', path(`route-${name}`), path('in/forecast', name), path('in', name));
    expect(checked.code).toBe(0);
    const bad = await ran('plan', ...given, '--depart', TIMES[4]!, '--out', path('bad', name));
    expect(bad.code).toBe(2);
    for (const text of [out, checked.out, bad.error])
      expect(text).not.toMatch(/(?!\n)[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]|(?! )\p{Zs}/u);
    expect(readdirSync(folder).sort()).toEqual(
      ['boat.json', 'in', 'out', 'polars.csv', `route-${name}`, 'route.csv', 'wind.csv'].sort(),
    );
  });
});
