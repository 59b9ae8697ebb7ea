import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';

const BIN = 'dist/cli/bin.js';
const folder = mkdtempSync(join(tmpdir(), 'windwardrobe-'));
afterAll(() => rmSync(folder, { recursive: true }));

const SAMPLE = [
  ...['plan', '--route', 'data-samples/route.csv', '--forecast', 'data-samples/forecast.csv'],
  ...['--boat', 'data-samples/boat.json', '--depart', '2027-01-11T12:00Z'],
];
const bytesOf = (out: string) =>
  readdirSync(out)
    .sort()
    .map((file) => `${file}\n${readFileSync(join(out, file), 'utf8')}`)
    .join('\n');

const CONTRACT =
  'time,lat,lon,leg,distance_nm,course_deg,weather,twd_deg,tws_kn,gust_kn,set_deg,drift_kn,manner,heading_deg,twa_deg,stw_kn,awa_deg,aws_kn,smg_kn,sail_plan,sail_change,runner_up,margin_kn,barred,daylight';

describe('the command, as installed', () => {
  test('the same bytes under three time zones', () => {
    const outs = ['UTC', 'America/St_Johns', 'Pacific/Kiritimati'].map((TZ) => {
      const out = join(folder, TZ.replace('/', '-'));
      const printed = execFileSync('node', [BIN, ...SAMPLE, '--out', out], {
        env: { ...process.env, TZ },
        encoding: 'utf8',
      });
      return printed.replaceAll(out, 'OUT') + bytesOf(out);
    });
    expect(outs[0]!.length).toBeGreaterThan(100_000);
    expect(outs[1]).toBe(outs[0]);
    expect(outs[2]).toBe(outs[0]);
  });

  test('hours.csv keeps its contract: columns, decimals, numbers in every row, hours on the hour of departure', () => {
    const out = join(folder, 'UTC');
    const [header, ...rows] = readFileSync(join(out, 'hours.csv'), 'utf8').trimEnd().split('\n');
    expect(header!.startsWith(`${CONTRACT},`)).toBe(true);
    const names = header!.split(',');
    const plan = JSON.parse(readFileSync(join(out, 'plan.json'), 'utf8'));
    expect(rows.length).toBe(plan.hours.length);
    rows.forEach((row, i) => {
      const cells = Object.fromEntries(row.split(',').map((cell, c) => [names[c], cell])) as Record<string, string>;
      expect(Date.parse(cells.time!)).toBe(Date.UTC(2027, 0, 11, 12) + i * 3600_000);
      expect(cells.lat).toMatch(/^-?\d+\.\d{5}$/);
      expect(cells.lon).toMatch(/^-?\d+\.\d{5}$/);
      for (const name of ['distance_nm', 'tws_kn', 'gust_kn', 'aws_kn', 'smg_kn'])
        expect(cells[name]).toMatch(/^-?\d+\.\d{3}$/);
      for (const name of ['course_deg', 'twd_deg']) expect(cells[name]).toMatch(/^\d+\.\d{2}$/);
      expect(cells.barred).toMatch(
        /^$|^[a-z0-9+._-]+:(window|gust|night|no-speed)(;[a-z0-9+._-]+:(window|gust|night|no-speed))*$/,
      );
      expect(cells.sail_change).toBe(i > 0 && plan.hours[i - 1].sailPlan !== plan.hours[i].sailPlan ? '1' : '0');
      // What is printed is what is in the JSON.
      expect(Number(cells.tws_kn)).toBeCloseTo(plan.hours[i].twsKn, 3);
      expect(cells.sail_plan).toBe(plan.hours[i].sailPlan ?? '');
    });
  });

  test('plan.json keeps its contract', () => {
    const plan = JSON.parse(readFileSync(join(folder, 'UTC', 'plan.json'), 'utf8'));
    for (const key of [
      'formatVersion',
      'complete',
      'reason',
      'distanceToGoNm',
      'options',
      'inputs',
      'warnings',
      'hours',
      'totals',
    ])
      expect(plan).toHaveProperty(key);
    expect(plan).toMatchObject({ formatVersion: 1, complete: true, reason: null, distanceToGoNm: 0 });
    expect(plan.inputs.map((input: { role: string }) => input.role).sort()).toEqual([
      'boat',
      'forecast',
      'polars',
      'route',
    ]);
    for (const input of plan.inputs) expect(input.sha256).toMatch(/^[0-9a-f]{64}$/);
    const { totals } = plan;
    for (const key of [
      'hours',
      'distanceNm',
      'arrival',
      'arrivalEstimate',
      'sailChanges',
      'reefChanges',
      'sails',
      'sailPlans',
    ])
      expect(totals).toHaveProperty(key);
    const tally = ['id', 'hours', 'dayHours', 'nightHours', 'distanceNm', 'nearLimitHours', 'byAws', 'byAwa', 'awsKn'];
    for (const item of totals.sails) expect(Object.keys(item)).toEqual([...tally, 'tacks', 'gybes', 'operations']);
    for (const item of totals.sailPlans)
      expect(Object.keys(item)).toEqual([...tally, 'tacks', 'gybes', 'timesSet', 'operations']);
    expect(totals.sailChanges).toBe(plan.hours.filter((hour: { sailChange: boolean }) => hour.sailChange).length);
    // Hove to, under bare poles or motoring counts in no plan's hours.
    const sum = (items: readonly { hours: number }[]) => items.reduce((total, item) => total + item.hours, 0);
    expect(sum(totals.sailPlans)).toBeCloseTo(totals.hours - totals.hoveToHours, 4);
  });

  test('plan.md opens with the caution', () => {
    expect(readFileSync(join(folder, 'UTC', 'plan.md'), 'utf8').split('\n')[0]).toMatch(
      /^\*\*Planning aid only: the skipper decides\./,
    );
  });

  test('help and version answer without loading the planner', () => {
    const help = spawnSync('node', [BIN, '--help'], { encoding: 'utf8' });
    expect(help.status).toBe(0);
    expect(help.stdout).toContain('plan');
    expect(help.stdout).toContain('3 plan incomplete');
    expect(spawnSync('node', [BIN, '--version'], { encoding: 'utf8' }).stdout.trim()).toBe(
      JSON.parse(readFileSync('package.json', 'utf8')).version,
    );
  });
});
