import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type BoatFile, estimatePolars, polarsCsv, readBoat, readPolars } from '../src/index.js';
import { loadBoat, readPlan } from '../src/node/node.js';
import { ran, rowsOf, workFolder } from './support/command.js';

const sample = (name: string) => readFileSync(resolve('data-samples', name), 'utf8');
const KINDS = sample('kinds.json');
const BOAT = sample('boat.json');
const inputs = { 'kinds.json': KINDS, 'route.csv': sample('route.csv'), 'forecast.csv': sample('forecast.csv') };
const others = { 'boat.json': BOAT, 'polars.csv': sample('polars.csv') };
let work: ReturnType<typeof workFolder>;

beforeAll(() => {
  work = workFolder();
  work.write({ ...inputs, ...others });
});
afterAll(() => work.leave());

const changed = (change: Partial<BoatFile>) => JSON.stringify({ ...(JSON.parse(KINDS) as BoatFile), ...change });

describe('a plan of a wardrobe of kinds and one known speed', () => {
  const args = (boat: string, out: string) => [
    ...['plan', '--route', 'route.csv', '--forecast', 'forecast.csv', '--boat', boat],
    ...['--depart', '2027-01-11T12:00Z', '--out', out],
  ];

  test('runs end to end and says in its first lines that speeds are estimated', async () => {
    const { code, out } = await ran(...args('kinds.json', 'kinds'));
    expect(code).toBe(0);
    const printed = out.split('\n');
    expect(printed[0]).toMatch(/^Planning aid only/);
    const top =
      /^SPEEDS ARE ESTIMATED: (\d+) comparisons of plans cannot be decided, listed at the end\. .*fix the scale only; nobody measured them\.$/;
    expect(printed[1]).toMatch(top);
    // One line, and then the answer.
    expect(printed.slice(2, 4)).toEqual(['', expect.stringMatching(/^Invented 44-foot catamaran: /)]);
    const markdown = work.read('kinds/plan.md');
    const [first, , second, , third] = markdown.split('\n');
    expect(first).toMatch(/^\*\*Planning aid only/);
    expect(second).toMatch(/^\*\*SPEEDS ARE ESTIMATED: \d+ comparisons/);
    expect(third).toMatch(/^# /);
    // Every one of them is named, in the three that people read.
    const { undecided } = readPlan(work.read('kinds/plan.json')).estimate!;
    expect(undecided.length).toBe(Number(top.exec(printed[1]!)![1]));
    expect(undecided.length).toBeGreaterThan(5);
    const report = work.read('kinds/report.html');
    for (const { sailPlan, rival, hours } of undecided) {
      const named = `${sailPlan} or ${rival} (${hours.toFixed(0)} h; hangs on `;
      expect(printed.some((line) => line.startsWith(`  ${named}`))).toBe(true);
      expect(markdown).toContain(`\n- ${named}`);
      expect(report).toContain(named);
    }
    expect(markdown.indexOf('## What the estimate cannot decide')).toBeGreaterThan(markdown.indexOf('## Day by day'));
    const plan = readPlan(work.read('kinds/plan.json'));
    expect(plan.complete).toBe(true);
    expect(plan.options.house.skipperFactor).toBe(0.9);
    expect(plan.options.placeholders).toContain('skipperFactor');
    expect(plan.estimate!.basis.length).toBeGreaterThan(2);
    for (const { sailPlan, rival, hours, assumptions, turnsIf } of plan.estimate!.undecided) {
      expect(plan.hours.some((hour) => hour.sailPlan === sailPlan)).toBe(true);
      expect(rival).not.toBe(sailPlan);
      expect(hours).toBeGreaterThan(0);
      expect(assumptions.length).toBeGreaterThan(0);
      expect(turnsIf.length).toBeGreaterThanOrEqual(assumptions.length);
    }
    // The windows of a day in the trades: a cruising catamaran makes 100 to 200 Nm (S17, S19).
    const days = plan.totals.days.slice(1, -1).map(({ distanceNm }) => distanceNm);
    expect(Math.min(...days)).toBeGreaterThan(60);
    expect(Math.max(...days)).toBeLessThan(210);
  });

  test('with polars says nothing of estimates', async () => {
    const { out } = await ran(...args('boat.json', 'boat'));
    expect(out).not.toContain('ESTIMATED');
    expect(JSON.parse(work.read('boat/plan.json'))).not.toHaveProperty('estimate');
  });

  test('from one polar of the whole boat, which is split', async () => {
    const boat = readBoat(KINDS);
    const { plans } = estimatePolars(boat);
    const { twsKn, twaDeg } = plans['main+jib']!;
    const rows = twaDeg.flatMap((angle, i) =>
      twsKn.map((wind, j) => {
        const best = Math.max(...Object.values(plans).map(({ stwKn }) => stwKn[i * twsKn.length + j]!));
        return `boat,${wind},${angle},${(0.9 * best).toFixed(2)}`;
      }),
    );
    work.write({
      'whole.csv': `sail_plan,tws_kn,twa_deg,stw_kn\n${rows.join('\n')}\n`,
      'split.json': changed({ boatPolar: 'whole.csv', knownSpeeds: [] as never[] }).replace('"knownSpeeds":[],', ''),
    });
    const { code, out } = await ran(...args('split.json', 'split'));
    expect(code).toBe(0);
    expect(out).toContain('fitted to the one polar of the boat and split between the plans');
    expect(out).toMatch(
      /Before the split the best plans miss the polar of the boat by \d+ % on the mean over \d+ points/,
    );
    const plan = readPlan(work.read('split/plan.json'));
    expect(plan.inputs.map(({ role, file }) => `${role} ${file}`)).toContain('polars whole.csv');
  });

  test('without what speeds are estimated from is refused, and nothing is written', async () => {
    work.write({ 'bare.json': changed({ hull: { type: 'catamaran' } }) });
    const { code, out, error } = await ran(...args('bare.json', 'none'));
    expect([code, out]).toEqual([2, '']);
    for (const path of ['hull.waterlineM', 'hull.displacementKg', 'hull.hullCentresM']) {
      expect(error).toContain(`bare.json, ${path}: expected a value`);
    }
    expect(work.exists('none')).toBe(false);
  });
});

describe('boat speeds', () => {
  test('prints the band of each plan and what it rests on', async () => {
    const { code, out } = await ran('boat', 'speeds', 'kinds.json', '--plan', 'main+jib', '--plan', 'vented');
    expect(code).toBe(0);
    expect(out).toMatch(/estimated; TWA down, TWS across; in brackets low to high; \* outside the windows/);
    expect(out).toContain('nobody measured them');
    expect(out.match(/^(main\+jib|vented)$/gm)).toEqual(['main+jib', 'vented']);
    const beam = out.split('\n').find((line) => line.startsWith('90 '))!;
    expect(beam.match(/\d+\.\d\*? \(\d+\.\d-\d+\.\d\)/g)!.length).toBeGreaterThan(6);
  });

  test('writes a polar file that is read back and planned with, never over another', async () => {
    const first = await ran('boat', 'speeds', 'kinds.json', '--out', 'mine.csv');
    expect([first.code, first.error]).toEqual([0, '']);
    const { plans } = readPolars(work.read('mine.csv'), { boat: readBoat(KINDS) });
    const estimated = estimatePolars(readBoat(KINDS)).plans;
    expect(Object.keys(plans)).toEqual(Object.keys(estimated));
    for (const [id, { stwKn }] of Object.entries(plans)) {
      stwKn.forEach((speed, i) => {
        expect(Math.abs(speed - estimated[id]!.stwKn[i]!)).toBeLessThanOrEqual(0.005_001);
      });
    }
    work.write({ 'mine.json': changed({ polars: 'mine.csv', polarStatus: 'designed' }) });
    expect((await loadBoat('mine.json')).polars.status).toBe('designed');
    const again = await ran('boat', 'speeds', 'kinds.json', '--out', 'mine.csv');
    expect([again.code, again.error]).toEqual([1, 'mine.csv: cannot be written to: a file of that name in the way\n']);
  });

  test('gives all of it as JSON', async () => {
    const { out } = await ran('boat', 'speeds', 'kinds.json', '--json');
    const read = JSON.parse(out);
    expect(Object.keys(read.low)).toEqual(Object.keys(read.plans));
    expect(read.status).toBe('estimated');
    expect(read.estimate.fittedTo).toBe('scale');
  });

  test('of measured polars has no band', async () => {
    const { out } = await ran('boat', 'speeds', 'boat.json', '--plan', 'main+jib');
    expect(out).toMatch(/designed; TWA down, TWS across; \* outside/);
  });

  test('of a plan that is none is refused', async () => {
    const { code, error } = await ran('boat', 'speeds', 'kinds.json', '--plan', 'main+jip');
    expect([code, error]).toEqual([
      2,
      '--plan: expected the id of a sail plan of the boat, one of main+jib, main.1+jib, main.1+jib.1, main.2+jib, main.2+jib.1, main.3+jib, main.3+jib.1, main.3+storm-jib and 25 more, got "main+jip" (did you mean "main+jib"?)\n',
    ]);
  });
});

describe('polarsCsv', () => {
  test('keeps another wind height and reference', () => {
    const { plans } = readPolars(work.read('polars.csv'));
    const told = Object.fromEntries(
      Object.entries(plans).map(([id, polar]) => [id, { ...polar, windHeightM: 20, twaReference: 'heading' as const }]),
    );
    expect(readPolars(polarsCsv(told)).plans).toEqual(told);
    expect(readPolars(polarsCsv(plans)).plans).toEqual(plans);
  });
});

describe('crossover', () => {
  test('answers both questions in words and writes CSV, JSON and a chart', async () => {
    const { code, out } = await ran('crossover', '--boat', 'kinds.json', '--out', 'cross');
    expect(code).toBe(0);
    const [caution, estimated] = out.split('\n');
    expect(caution).toMatch(/^Planning aid only/);
    expect(estimated).toMatch(/^SPEEDS ARE ESTIMATED/);
    expect(out).toMatch(/Which of my sails stays in the bag\?\n {2}\S/);
    expect(out).toMatch(/Where have I no sail\?\n {2}\S/);
    const json = JSON.parse(work.read('cross/crossover.json'));
    const rows = rowsOf(work.read('cross/crossover.csv'));
    expect(rows).toHaveLength(json.cells.length);
    rows.forEach((row, i) => {
      const cell = json.cells[i];
      expect([Number(row.tws_kn), Number(row.twa_deg), row.sail_plan]).toEqual([
        cell.twsKn,
        cell.twaDeg,
        cell.sailPlan ?? '',
      ]);
      expect(row.undecided).toBe(cell.undecided ? '1' : '0');
      expect(row.hole_kind).toBe(cell.hole?.kind ?? '');
      if (cell.stwKn !== null) expect(Number(row.stw_kn)).toBeCloseTo(cell.stwKn, 2);
    });
    expect(json.inputs).toMatchObject([{ role: 'boat', file: 'kinds.json' }]);
    for (const line of [...json.answers.staysInTheBag, ...json.answers.noSail]) expect(out).toContain(line);
    expect(work.read('cross/crossover.svg')).toMatch(/^<svg /);
  });

  test('without a folder only prints', async () => {
    const { code, out } = await ran('crossover', '--boat', 'boat.json', '--night', '--without', 'code');
    expect(code).toBe(0);
    expect(out).toContain('by night');
    expect(out).toContain('without code');
    expect(out).not.toContain('Written to');
    expect(out).not.toMatch(/ %\s+\S*(vented|reacher|code)/);
    // Her file has no rig: beside which catalogue sails she lacks one is not known, and said.
    expect(out).toContain('Not known: a catalogue sail beside those aboard is estimated');
  });

  test('tells bad options by their names', async () => {
    const { code, error } = await ran('crossover', '--boat', 'kinds.json', '--gust-factor', '9');
    expect([code, error]).toEqual([2, '--gust-factor: expected a number from 1 to 3, got "9"\n']);
    const other = await ran('crossover', '--boat', 'kinds.json', '--without', 'gib');
    expect([other.code, other.error]).toEqual([
      2,
      '--without: expected the id of a sail aboard, got "gib" (did you mean "jib"?)\n',
    ]);
    expect((await ran('crossover')).code).toBe(2);
  });
});

test('check tells what an estimate rests on', async () => {
  const { code, out } = await ran('check', 'kinds.json');
  expect(code).toBe(0);
  expect(out).toContain('speeds: no polars are named, so they are estimated, fitted to 1 known speed');
  expect(out).toContain('Known: 8 kn under main+jib at TWS 14, TWA 90; estimated 8.0 kn.');
});

test('check of a boat that speeds cannot be estimated for warns, and no more', async () => {
  work.write({
    'thin.json': changed({ hull: { type: 'catamaran' }, knownSpeeds: [{ twsKn: 12, twaDeg: 90, stwKn: 7 }] }),
  });
  const { code, out } = await ran('check', 'thin.json');
  expect(code).toBe(0);
  expect(out).toContain('warning: thin.json, hull.waterlineM: expected a value');
});

test('boat new takes what speeds are estimated from', async () => {
  const args = [
    '--rig',
    '17,5,16,6',
    '--waterline',
    '12.5',
    '--displacement',
    '11000',
    '--hull-centres',
    '5.8',
    '--sprit',
    '1',
  ];
  const { code } = await ran('boat', 'new', ...args, '--out', 'new.json');
  expect(code).toBe(0);
  expect(readBoat(work.read('new.json')).hull).toMatchObject({
    waterlineM: 12.5,
    displacementKg: 11000,
    hullCentresM: 5.8,
  });
  const { out } = await ran('boat', 'speeds', 'new.json', '--plan', 'main+jib');
  expect(out).toContain('fitted to nothing');
  const bad = await ran('boat', 'new', '--hull', 'monohull', '--hull-centres', '5');
  expect([bad.code, bad.error]).toEqual([2, '--hull-centres: expected this only for a catamaran, got "monohull"\n']);
});
