import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { CAUTION, type Difference, type NextSail, type PassageRecord, type Worth } from '../src/index.js';
import { rowsOf } from './support/command.js';
import { BOAT as boat, ROUTE, WIND, WITH } from './support/downwind.js';
import { FORECAST } from './support/small.js';

// The command as installed, for its threads; an invented short downwind passage and the sample's boat without a downwind sail and without reefs.

const BIN = resolve('dist/cli/bin.js');
const folder = mkdtempSync(join(tmpdir(), 'windwardrobe-'));
afterAll(() => rmSync(folder, { recursive: true }));

beforeAll(() => {
  const files = {
    'route.csv': ROUTE,
    'wind.csv': WIND,
    'short.csv': FORECAST,
    'boat.json': JSON.stringify(boat),
    'with.json': JSON.stringify(WITH),
    'rigless.json': JSON.stringify({ ...boat, rig: undefined }),
    'couple.json': JSON.stringify({ ...boat, crew: 2 }),
  };
  for (const [name, text] of Object.entries(files)) writeFileSync(join(folder, name), text);
});

const ran = (...args: readonly string[]) => {
  const { status, stdout, stderr } = spawnSync('node', [BIN, ...args], { cwd: folder, encoding: 'utf8' });
  return { code: status, out: stdout, error: stderr };
};
const SAILED = [
  ...['--route', 'route.csv', '--forecast', 'wind.csv', '--depart-from', '2027-01-10T06:00Z'],
  ...['--depart-to', '2027-01-18T06:00Z', '--depart-every', '48', '--sample', '2'],
];
const ADD = ['worth', '--boat', 'boat.json', '--add', 'vented-downwind', '--area', '140', ...SAILED];
const read = (out: string, name: string) => readFileSync(join(folder, out, name), 'utf8');
const worthIn = (out: string) => JSON.parse(read(out, 'worth.json')) as Worth & { study: Record<string, unknown> };
const differencesIn = ({
  differences,
  operations,
  sails,
  sailPlans,
}: Pick<Worth, 'differences' | 'operations' | 'sails' | 'sailPlans'>) =>
  [
    ...Object.values(differences),
    ...Object.values(operations),
    ...sails.flatMap(({ hours, operations: ops, wear, money }) => [hours, ops, wear, money]),
    ...sailPlans.map(({ hours }) => hours),
  ].filter((one): one is Difference => one !== null);

describe('worth', () => {
  test('sails the boat without and with the sail, and its competitors beside it', () => {
    const { code, out } = ran(...ADD, '--price', '9000', '--hour-value', '5,10,20', '--out', 'added');
    expect(code).toBe(0);
    expect(out.split('\n')[0]).toBe(CAUTION);
    expect(readdirSync(join(folder, 'added')).sort()).toEqual([
      'passages.csv',
      'passages.jsonl',
      'report.html',
      'study.json',
      'study.md',
      'worth.csv',
      'worth.json',
      'worth.md',
    ]);
    const worth = worthIn('added');
    expect(worth).toMatchObject({
      formatVersion: 1,
      newSails: ['vented'],
      passages: { paired: 5, both: 5 },
      currency: 'EUR',
    });
    for (const { low, mid, high, a, b } of differencesIn(worth)) {
      expect(low! <= mid && mid <= high!).toBe(true);
      expect(mid).toBeCloseTo(b - a, 5);
    }
    expect(worth.rivals.map(({ b }) => b)).toEqual([
      'boat.json + symmetric-cruising 140 m²',
      'boat.json + twin-headsails',
    ]);
    // The symmetric is as large as it; prices of competitors are placeholders, by area.
    expect(worth.rivals[0]!.money.prices).toMatchObject({ price: { mid: 140 * 45 }, from: { price: 'placeholder' } });
    expect(worth.turns.map(({ input }) => input)).toEqual(
      expect.arrayContaining(['speed-band', 'wave-exponent', 'gust-margin', 'night', 'price', 'hour-value', 'tears']),
    );
    const rows = rowsOf(read('added', 'worth.csv'));
    const hours = rows.find(({ what }) => what === 'hours')!;
    expect(Number(hours.mid)).toBeCloseTo(worth.differences.hours!.mid, 3);
    expect(Number(hours['boat.json + symmetric-cruising 140 m² mid'])).toBeCloseTo(
      worth.rivals[0]!.differences.hours!.mid,
      3,
    );
    const md = read('added', 'worth.md');
    expect(md.split('\n')[0]).toBe(`**${CAUTION}**`);
    expect(md).toContain('## How the answer turns');
    // Recounted from the passages alone.
    const lines = read('added', 'passages.jsonl')
      .trimEnd()
      .split('\n')
      .map((line) => JSON.parse(line) as PassageRecord);
    const meanOf = (name: string) => {
      const own = lines.filter((record) => record.boat === name);
      return own.reduce((sum, record) => sum + record.hours, 0) / own.length;
    };
    expect(worth.differences.hours!.mid).toBeCloseTo(
      meanOf('boat.json + vented-downwind 140 m²') - meanOf('boat.json'),
      5,
    );
    expect(worth.flown[0]!.hours.mean).toBeGreaterThan(1);
  });

  test('with other prices nothing is sailed anew', () => {
    const before = read('added', 'passages.jsonl');
    const { code, error } = ran(...ADD, '--price', '4000', '--hour-value', '100', '--years', '10', '--out', 'added');
    expect([code, error]).toEqual([0, expect.stringMatching(/^All \d+ passages are there already\.\n$/)]);
    expect(read('added', 'passages.jsonl')).toBe(before);
    const { money, sails } = worthIn('added');
    expect(money.prices).toMatchObject({ price: { mid: 4000 }, hourValue: { mid: 100 }, years: 10 });
    // Its wear is money by the price that was asked with.
    const vented = sails.find(({ id }) => id === 'vented')!;
    expect(vented.money!.mid).toBeCloseTo(4000 * vented.wear!.mid, 4);
  });

  test('a sail that is added is as the same sail in a file of its own', () => {
    const { code } = ran(
      'worth',
      '--boat',
      'boat.json',
      '--against',
      'with.json',
      ...SAILED,
      '--no-rivals',
      '--out',
      'against',
    );
    expect(code).toBe(0);
    const [added, against] = [worthIn('added'), worthIn('against')];
    expect(against.rivals).toEqual([]);
    expect(against.money.prices).toMatchObject({ price: { mid: 9000 }, from: { price: 'boat-file' } });
    for (const metric of ['hours', 'changes', 'night-changes', 'gybes', 'hand-hours'] as const)
      expect(against.differences[metric]!.mid).toBeCloseTo(added.differences[metric]!.mid, 5);
  });

  test('against itself it is exactly zero, and turned about it is the negative', () => {
    const { out } = ran(
      ...['worth', '--boat', 'with.json', '--against', 'with.json', '--price', '9000', '--hour-value', '10'],
      ...[...SAILED, '--out', 'same'],
    );
    expect(out).toContain('A and B are the same: with.json and with.json (B) have the same sails, rules and speeds.');
    expect(out).not.toMatch(/does not pay|lost/);
    const same = worthIn('same');
    expect(same.verdict.answer).toBe('no-difference');
    for (const { low, mid, high } of differencesIn(same)) expect([low, mid, high]).toEqual([0, 0, 0]);
    ran('worth', '--boat', 'with.json', '--against', 'boat.json', ...SAILED, '--out', 'back');
    const [there, back] = [worthIn('against'), worthIn('back')];
    expect([there.newSails, back.goneSails, back.newSails]).toEqual([['vented'], ['vented'], []]);
    for (const [metric, one] of Object.entries(there.differences)) {
      const other = back.differences[metric as 'hours'];
      expect(other === null ? null : [other.low, other.mid, other.high]).toEqual(
        one === null ? null : [one.high, one.mid, one.low].map((value) => 0 - value!),
      );
    }
  });

  test('a sail that her crew cannot take down is told', () => {
    const { code, out } = ran(
      ...ADD.map((arg) => (arg === 'boat.json' ? 'couple.json' : arg)),
      '--no-rivals',
      '--out',
      'couple',
    );
    expect(code).toBe(0);
    expect(out).toContain(
      'couple.json + vented-downwind 140 m²: expected 3 hands for vented, which it takes to set it or to take it down, got a crew of 2: it is never set',
    );
    expect(out.replaceAll('\n', ' ')).toContain(
      'It was never set on 5 passages: it takes more hands than her crew has.',
    );
    expect(worthIn('couple').verdict.answer).toBe('does-not-pay');
  });

  test('where one passage is not finished the others are compared, and the sail of a competitor is not taken for hers', () => {
    const { code, out } = ran(
      ...['worth', '--boat', 'boat.json', '--add', 'symmetric-cruising', '--area', '60', '--route', 'route.csv'],
      ...['--forecast', 'wind.csv', '--depart-from', '2027-01-10T06:00Z', '--depart-to', '2027-01-21T18:00Z'],
      ...['--depart-every', '276', '--sample', '2', '--rival', 'symmetric-cruising=3000', '--out', 'unfinished'],
    );
    expect(code).toBe(3);
    expect(out.split('\n')[0]).toMatch(/^1 OF 2 PASSAGES NOT COMPARED: 0 only A finished, 0 only B, 1 neither\./);
    const worth = worthIn('unfinished');
    expect(worth.passages).toMatchObject({ paired: 2, both: 1, neither: 1 });
    expect(worth.turns.find(({ input }) => input === 'speed-band')!.passages).toBe(1);
    expect([worth.b, worth.rivals[0]!.b]).toEqual([
      'boat.json + symmetric-cruising 60 m²',
      'boat.json + symmetric-cruising',
    ]);
    // Of one passage there is no interval.
    expect(worth.differences.hours).toMatchObject({ low: null, high: null });
  });

  test('where no passage is finished the study is written and says so', () => {
    const { code, out } = ran(
      ...['worth', '--boat', 'boat.json', '--add', 'gennaker', '--route', 'route.csv', '--forecast', 'short.csv'],
      ...['--depart-from', '2027-01-10T06:00Z', '--sample', '1', '--no-rivals', '--out', 'none'],
    );
    expect(code).toBe(3);
    expect(out).toContain('expected a passage that both boats finish, got none of 1');
    expect(existsSync(join(folder, 'none', 'worth.json'))).toBe(false);
    expect(existsSync(join(folder, 'none', 'passages.csv'))).toBe(true);
  });

  test('what is wrong is told at once, and nothing is written', () => {
    const WRONG: readonly (readonly [readonly string[], RegExp])[] = [
      [
        ['--boat', 'boat.json'],
        /--against: expected a boat to compare with \(--against\), or a sail to add \(--add\), one of the two, got neither/,
      ],
      [['--boat', 'boat.json', '--add', 'gennaker', '--against', 'with.json'], /one of the two, got both/],
      [
        ['--boat', 'boat.json', '--add', 'genaker'],
        /--add: expected one of full-roach-main.* got "genaker" \(did you mean "gennaker"\?\)/,
      ],
      [
        ['--boat', 'boat.json', '--against', 'with.json', '--area', '100'],
        /--area: expected a sail to add \(--add\), got none/,
      ],
      [
        ['--boat', 'boat.json', '--add', 'gennaker', '--price', '9,8,7'],
        /--price: expected a number from 0 to 10000000, or low,usual,high in this order, got 9,8,7/,
      ],
      [['--boat', 'boat.json', '--add', 'gennaker', '--resale', '0.6'], /--resale: expected three shares from 0 to 1/],
      [
        ['--boat', 'boat.json', '--add', 'gennaker', '--rival', 'staysail=a'],
        /--rival: expected a number from 0 to 10000000, got "a"/,
      ],
      [
        ['--boat', 'boat.json', '--add', 'gennaker', '--rival', 'staysail=1=2'],
        /--rival: expected kind or kind=price, got staysail=1=2/,
      ],
      [['--boat', 'boat.json', '--add', 'gennaker', '--rival', 'kite'], /--rival: expected one of/],
      [
        ['--boat', 'boat.json', '--add', 'gennaker', '--no-rivals', '--rival', 'staysail'],
        /--no-rivals: expected no --rival beside it, got staysail/,
      ],
      [
        ['--boat', 'boat.json', '--add', 'square-top-main'],
        /--add: expected a sail to set beside her main \(for another main: --against\), got square-top-main/,
      ],
      [
        ['--boat', 'boat.json', '--add', 'gennaker', '--sample', '1.5'],
        /--sample: expected a whole number from 1 to 10000, got 1\.5/,
      ],
      [
        ['--boat', 'boat.json', '--add', 'gennaker', '--speed-band', '90'],
        /--speed-band: expected a number from 0 to 50/,
      ],
      [
        ['--boat', 'boat.json', '--add', 'gennaker', '--years', 'x'],
        /--years: expected a number from 0\.1 to 50, got "x"/,
      ],
      [
        ['--boat', 'rigless.json', '--add', 'gennaker'],
        /^rigless\.json, rig\.pM: expected a value: where there are no polars, speeds are estimated from it, got nothing$/m,
      ],
    ];
    for (const [args, error] of WRONG) {
      const result = ran('worth', ...SAILED, ...args, '--out', 'wrong');
      expect([args, result.code, result.error]).toEqual([args, 2, expect.stringMatching(error)]);
    }
    const many = ran('worth', '--boat', 'nowhere.json', '--price', 'x', '--years', '99', ...SAILED, '--out', 'wrong');
    expect(many.error.trim().split('\n').length).toBeGreaterThanOrEqual(4);
    expect(existsSync(join(folder, 'wrong'))).toBe(false);
  });
});

describe('next-sail', () => {
  test('tries every kind that fits and ranks them', () => {
    const { code, out } = ran('next-sail', '--boat', 'boat.json', ...SAILED, '--sample', '1', '--out', 'next');
    expect(code).toBe(0);
    expect(out).toMatch(/would save most\. Ranked by the hours saved/);
    const next = JSON.parse(read('next', 'next-sail.json')) as NextSail;
    const saves = next.rows.map((row) => row.saves);
    expect(saves).toEqual([...saves].sort((a, b) => b! - a!));
    expect(next.rows.length + next.leftOut.length).toBe(21);
    expect(next.leftOut).toContainEqual({ kind: 'square-top-main', why: 'main' });
    expect(next.rows.some(({ fills }) => fills.length > 0)).toBe(true);
    const rows = rowsOf(read('next', 'next-sail.csv'));
    expect(rows.map(({ kind }) => kind)).toEqual(next.rows.map(({ kind }) => kind));
    expect(read('next', 'next-sail.md').split('\n')[0]).toBe(`**${CAUTION}**`);
    expect(next.rows.every(({ comparison }) => comparison.currency === 'EUR')).toBe(true);
    // The same folder, another value: ranked by money, nothing sailed anew.
    const valued = ran(
      'next-sail',
      '--boat',
      'boat.json',
      ...SAILED,
      '--sample',
      '1',
      '--hour-value',
      '20',
      '--out',
      'next',
    );
    expect(valued.error).toContain('passages are there already');
    expect((JSON.parse(read('next', 'next-sail.json')) as NextSail).rankedBy).toBe('net');
  });
});
