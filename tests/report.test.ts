import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import {
  CAUTION,
  type Crossover,
  type PassageOptions,
  type PlanFile,
  planJson,
  planPassage,
  readBoat,
  readForecast,
  readPolars,
  readRoute,
  totalsOf,
  wearOf,
  zoneClock,
  zoneLabel,
} from '../src/index.js';
import { worldLand } from '../src/node/node.js';
import { planReport } from '../src/report/report.js';
import { BOAT, ROUTE, WIND } from './support/downwind.js';
import { at, documentIn, figuresAgainst, tells, untiedIn } from './support/htmlReport.js';

const BIN = resolve('dist/cli/bin.js');
const folder = mkdtempSync(join(tmpdir(), 'windwardrobe-'));
afterAll(() => rmSync(folder, { recursive: true }));
const ran = (...args: readonly string[]) => {
  const { status, stderr } = spawnSync('node', [BIN, ...args], { cwd: folder, encoding: 'utf8' });
  return { code: status, error: stderr };
};
const read = (...path: readonly string[]) => readFileSync(join(folder, ...path), 'utf8');
const json = (...path: readonly string[]): unknown => JSON.parse(read(...path));
const sample = (name: string) => resolve('data-samples', name);

const STARTS = ['--depart-from', '2027-01-10T06:00Z', '--depart-to', '2027-01-12T06:00Z', '--depart-every', '24'];
const SHORT = ['--route', 'route.csv', '--forecast', 'wind.csv'];

beforeAll(() => {
  writeFileSync(join(folder, 'route.csv'), ROUTE);
  writeFileSync(join(folder, 'wind.csv'), WIND);
  writeFileSync(join(folder, 'boat.json'), JSON.stringify(BOAT));
  const plan = [
    'plan',
    '--route',
    sample('route.csv'),
    '--forecast',
    sample('forecast.csv'),
    '--boat',
    sample('boat.json'),
  ];
  expect(ran(...plan, '--depart', '2027-01-11T12:00Z', '--out', 'plan').code).toBe(0);
  expect(ran(...plan, '--depart', '2027-01-25T12:00Z', '--out', 'broken-off').code).toBe(3);
  expect(ran('study', ...SHORT, ...STARTS, '--boat', 'boat.json', '--out', 'study').code).toBe(0);
  const worth = [...SHORT, ...STARTS, '--boat', 'boat.json', '--sample', '1', '--hour-value', '10'];
  expect(
    ran('worth', ...worth, '--add', 'vented-downwind', '--area', '140', '--price', '9000', '--out', 'worth').code,
  ).toBe(0);
  expect(ran('next-sail', ...worth, '--out', 'next').code).toBe(0);
  expect(ran('crossover', '--boat', sample('kinds.json'), '--out', 'crossover').code).toBe(0);
}, 300_000);

const REPORTS = [
  ['plan', 'plan.json', 6300],
  ['broken-off', 'plan.json', 3300],
  ['study', 'study.json', 135],
  ['worth', 'worth.json', 300],
  ['next', 'next-sail.json', 95],
  ['crossover', 'crossover.json', 850],
] as const;

describe.each(REPORTS)('the report of %s', (name, beside, least) => {
  const html = () => read(name, 'report.html');

  test('has every figure as its JSON has it', () => {
    const { wrong, figures } = figuresAgainst(html(), json(name, beside));
    expect(wrong.slice(0, 10)).toEqual([]);
    expect(figures).toBeGreaterThan(least);
  });

  test('tells no number in its answer and tables without its place in the JSON', () => {
    expect(untiedIn(html(), json(name, beside)).slice(0, 10)).toEqual([]);
  });

  test('opens with the caution and answers in three lines at most', () => {
    const document = documentIn(html());
    const first = document.body.firstElementChild!;
    expect(first.textContent).toContain(CAUTION);
    const lines = [...document.querySelectorAll('.answer li')].map((line) => line.textContent ?? '');
    expect(lines.length).toBeGreaterThan(1);
    expect(lines.length).toBeLessThanOrEqual(3);
    for (const line of lines) expect(line).not.toMatch(/undefined|NaN|null|Infinity/);
    // In what is drawn as well as in what is told.
    expect(html().replace(/<(script|style)>[\s\S]*?<\/\1>/g, '')).not.toMatch(/\bundefined\b|NaN|Infinity/);
  });

  test('takes nothing from elsewhere, and no mark leads nowhere', () => {
    const text = html();
    const document = documentIn(text);
    expect(document.querySelectorAll('link, img, iframe, object, embed, script[src], base, form').length).toBe(0);
    // Names of vocabularies are no addresses; nothing else in it is one.
    expect(text.replaceAll('http://www.w3.org/2000/svg', '')).not.toMatch(/https?:|url\((?!#)|@import/);
    const ids = [...document.querySelectorAll('[id]')].map(({ id }) => id);
    expect(new Set(ids).size).toBe(ids.length);
    for (const link of document.querySelectorAll('a'))
      expect(ids).toContain((link.getAttribute('href') ?? '').slice(1));
    for (const used of text.matchAll(/url\(#([^)]+)\)/g)) expect(ids).toContain(used[1]);
  });

  test('says of every chart in words what it shows, draws it for two widths, and has a table beside it', () => {
    const document = documentIn(html());
    const figures = [...document.querySelectorAll('figure')];
    expect(figures.length).toBeGreaterThan(0);
    for (const figure of figures) {
      const charts = [...figure.querySelectorAll(':scope > svg')];
      expect(charts.map((chart) => chart.getAttribute('class'))).toEqual(['chart wide', 'chart narrow']);
      for (const chart of charts) expect((chart.getAttribute('aria-label') ?? '').length).toBeGreaterThan(40);
      expect(figure.querySelector('figcaption')?.textContent?.length).toBeGreaterThan(30);
      const section = figure.closest('section')!;
      if (section.id !== 'map' || name === 'plan')
        expect(section.querySelectorAll('table').length, section.id).toBeGreaterThan(0);
    }
  });

  test('names inputs with their digests, options and the version', () => {
    const behind = documentIn(html()).querySelector('#behind')!.textContent ?? '';
    expect(behind).toMatch(/[0-9a-f]{64}/);
    expect(behind).toContain(
      `windwardrobe ${(JSON.parse(readFileSync('package.json', 'utf8')) as { version: string }).version}`,
    );
  });
});

describe('the report of a plan', () => {
  const document = () => documentIn(read('plan', 'report.html'));
  const plan = () => json('plan', 'plan.json') as PlanFile;

  test('has its parts in the order of the questions', () => {
    expect([...document().querySelectorAll('main > section')].map(({ id }) => id)).toEqual([
      'map',
      'timeline',
      'windows',
      'hours',
      'tradeoff',
      'runs',
      'wear',
      'watches',
      'behind',
    ]);
  });

  test("tells its arrival by the ship's clock as well", () => {
    const { end, hours } = plan();
    const { date, clock } = zoneClock(Date.parse(end) / 1000, hours.at(-1)!.zoneHours);
    expect(document().querySelector('.answer li')!.textContent).toContain(`${date} ${clock} by the ship's clock`);
    const edges = [...document().querySelectorAll('#timeline table[data-of=hours] tbody tr')];
    expect(edges.length).toBeGreaterThan(0);
    for (const row of edges) {
      const hour = hours[Number(row.getAttribute('data-row'))]!;
      const own = zoneClock(Date.parse(hour.time) / 1000, hour.zoneHours);
      expect(row.firstElementChild!.textContent).toBe(`${own.date} ${own.clock} ${zoneLabel(hour.zoneHours)}`);
    }
  });

  test('draws every change, hour and point of the curve, each leading or telling where it should', () => {
    const { changes = [], curve = [], totals, hours } = plan();
    const wide = (id: string) => document().querySelector(`#${id} svg.wide`)!;
    for (const id of ['map', 'timeline']) {
      const marks = [...wide(id).querySelectorAll('a.change')];
      expect(marks.map((mark) => mark.getAttribute('href'))).toEqual(changes.map((_, i) => `#change-${i + 1}`));
      for (const [i, mark] of marks.entries()) expect(mark.textContent).toContain(changes[i]!.to ?? 'hove to');
    }
    expect(document().querySelectorAll('#timeline tbody tr[id^=change-]').length).toBe(changes.length);
    expect(wide('windows').querySelectorAll('.met > g').length).toBe(
      hours.reduce((sum, { sailPlan, awaDeg }) => {
        const cloths = new Set(plan().wardrobe!.sailPlans.find(({ id }) => id === sailPlan)?.sails ?? []);
        return sum + (awaDeg === null ? 0 : cloths.size);
      }, 0),
    );
    expect(wide('runs').querySelectorAll('rect').length).toBe(totals.runs.length);
    // Dots lie where the numbers of the curve say, on one straight scale; those near the chosen one on a second.
    for (const part of ['.curve:not(.near)', '.curve.near']) {
      const drawn = wide('tradeoff').querySelector(part)!;
      const dots = [...drawn.querySelectorAll('.dot, .open')];
      const chosen = curve.findIndex((point) => point.chosen);
      const points = part.endsWith('.near') ? curve.slice(Math.max(0, chosen - 6), chosen + 7) : curve;
      expect(dots.length).toBe(points.length);
      const y = dots.map((dot) => Number(dot.getAttribute('cy')));
      const [first, last] = [points[0]!, points.at(-1)!];
      const perHour = (y.at(-1)! - y[0]!) / (last.hours - first.hours);
      for (const [i, { hours: value }] of points.entries())
        expect(y[i]).toBeCloseTo(y[0]! + perHour * (value - first.hours), 1);
      expect(drawn.querySelectorAll('.ring').length).toBe(1);
    }
  });

  test('has the watch plan of the log: plan, wind, gust and apparent angle of each of its rows', () => {
    const { hours } = plan();
    const rows = [...document().querySelectorAll('#watches table tbody tr')];
    expect(rows.length).toBeGreaterThan(80);
    const starts = rows.map((row) => row.children[1]!.textContent);
    let from = 0;
    rows.forEach((row, r) => {
      expect(hours[from]!.time.slice(11, 16)).toBe(starts[r]);
      // A row goes on until the hour at which the next one begins.
      let to = from + 1;
      while (to < hours.length && hours[to]!.time.slice(11, 16) !== starts[r + 1]) to += 1;
      const part = hours.slice(from, to);
      const cells = [...row.children].map((cell) => cell.textContent ?? '');
      expect(cells[2]).toBe(part[0]!.sailPlan ?? 'hove to');
      const [least, most] = [Math.min(...part.map(({ twsKn }) => twsKn)), Math.max(...part.map(({ twsKn }) => twsKn))];
      const [low, high] = [least.toFixed(0), most.toFixed(0)];
      const gust = Math.max(...part.map(({ gustKn }) => gustKn)).toFixed(0);
      expect(cells[4]).toBe(`${low === high ? low : `${low} to ${high}`} kn, gust ${gust}`);
      from = to;
    });
    expect(from).toBe(hours.length);
  });

  test('lists every value that was filled in with its mark, and every constant of wear', () => {
    const { wardrobe, wear } = plan();
    const filled = wardrobe!.sails.reduce((sum, { derived = {} }) => sum + Object.keys(derived).length, 0);
    expect(document().querySelectorAll('table[data-of="wardrobe.sails"] tbody tr[data-row*="."]').length).toBe(filled);
    expect(document().querySelectorAll('table[data-of="wear.constants"] tbody tr').length).toBe(wear!.constants.length);
    const behind = document().querySelector('#behind')!;
    expect(behind.textContent).toContain('PLACEHOLDER without a source');
    // Every option says where it comes from, those without a source by the names the plan has.
    const marks = new Map(
      [...behind.querySelectorAll('table[data-of=options] tbody tr')].map((row) => [
        row.getAttribute('data-row'),
        row.lastElementChild!.textContent ?? '',
      ]),
    );
    const { house, placeholders } = plan().options;
    for (const rule of Object.keys(house))
      if (rule !== 'waveMaxM') expect(marks.get(`house.${rule}`), rule).not.toBe('');
    for (const rule of placeholders) expect(marks.get(`house.${rule}`)).toContain('PLACEHOLDER');
    expect(marks.get('house.gustFactor')).toContain('WMO/TD-1555');
    expect(marks.get('windFactor')).toBe('not asked for');
  });

  test('says in its first line that a plan is incomplete', () => {
    const first = documentIn(read('broken-off', 'report.html')).body.firstElementChild!.textContent ?? '';
    expect(first).toMatch(/^PLAN INCOMPLETE: the forecast ends before the passage does/);
    expect(documentIn(read('broken-off', 'report.html')).querySelector('.answer li')!.textContent).toMatch(
      /^Does not arrive: /,
    );
  });

  test.each([
    [
      'along a meridian',
      [
        [12, -62],
        [10, -62],
      ],
    ],
    [
      'along a parallel',
      [
        [11, -60.2],
        [11, -62.4],
      ],
    ],
    [
      'of a mile',
      [
        [11, -61],
        [11.0166, -61],
      ],
    ],
  ])('has a map of a passage %s', async (_, ends) => {
    const boat = readBoat(readFileSync(sample('boat.json'), 'utf8'));
    const route = readRoute(`name,lat,lon\n${ends.map(([lat, lon], i) => `P${i},${lat},${lon}`).join('\n')}\n`);
    const { forecast } = await readForecast({ name: 'wind.csv', open: () => [WIND] });
    const polars = readPolars(readFileSync(sample('polars.csv'), 'utf8'), { boat });
    const passage = planPassage({ route, forecast, boat, polars }, { departure: '2027-01-10T06:00Z' });
    const html = planReport(
      { passage, totals: totalsOf(passage, boat), boat, route, inputs: [] },
      { land: await worldLand() },
    );
    expect(html).not.toMatch(/="[^"]*NaN/);
    for (const svg of documentIn(html).querySelectorAll('#map svg.chart')) {
      const [, , width, height] = (svg.getAttribute('viewBox') ?? '').split(' ').map(Number);
      const marks = [...svg.querySelectorAll('.waypoint')];
      expect(marks.length).toBe(2);
      for (const mark of marks) {
        expect(Number(mark.getAttribute('x'))).toBeGreaterThan(30);
        expect(Number(mark.getAttribute('x'))).toBeLessThan(width!);
        expect(Number(mark.getAttribute('y'))).toBeGreaterThan(0);
        expect(Number(mark.getAttribute('y'))).toBeLessThan(height!);
      }
    }
  });

  test('is the same bytes twice, and says where no coast is drawn', async () => {
    const boat = readBoat(readFileSync(sample('boat.json'), 'utf8'));
    const route = readRoute(ROUTE);
    const { forecast } = await readForecast({ name: 'wind.csv', open: () => [WIND] });
    const polars = readPolars(readFileSync(sample('polars.csv'), 'utf8'), { boat });
    const passage = planPassage({ route, forecast, boat, polars }, { departure: '2027-01-10T06:00Z' });
    const toPrint = { passage, totals: totalsOf(passage, boat), wear: wearOf(passage, boat), boat, route, inputs: [] };
    const bare = planReport(toPrint);
    expect(planReport(toPrint)).toBe(bare);
    expect(bare).toContain('No coast is drawn.');
    expect(bare).not.toContain('class="land"');
    const land = await worldLand();
    expect(documentIn(planReport(toPrint, { land })).querySelectorAll('path.land').length).toBe(2);
    // A coast whose rings go the other way round, as GeoJSON has them, is the same coast and not the sea.
    const turned = { polygons: land.polygons.map((rings) => rings.map((ring) => [...ring].reverse())) };
    const coast = (html: string) => documentIn(html).querySelector('path.land')!.getAttribute('d') ?? '';
    expect(coast(planReport(toPrint, { land: turned })).length).toBeCloseTo(
      coast(planReport(toPrint, { land })).length,
      -2,
    );
  });
});

describe('the report of a passage', () => {
  /** Of the boat and the winds of the samples, as `planReport` takes it. */
  async function planned(departure: string, options: Partial<PassageOptions> = {}) {
    const boat = readBoat(readFileSync(sample('boat.json'), 'utf8'));
    const route = readRoute(ROUTE);
    const { forecast } = await readForecast({ name: 'wind.csv', open: () => [WIND] });
    const polars = readPolars(readFileSync(sample('polars.csv'), 'utf8'), { boat });
    const passage = planPassage({ route, forecast, boat, polars }, { departure, ...options });
    return { passage, totals: totalsOf(passage, boat), wear: wearOf(passage, boat), boat, route, inputs: [] };
  }

  test('that never leaves draws no chart of hours, and says so', async () => {
    const sailed = await planned('2027-01-10T06:00Z');
    const { departure } = sailed.passage;
    const none = {
      hours: [],
      changes: [],
      curve: [],
      complete: false,
      reason: 'no-wind-data',
      end: departure,
    } as const;
    const passage = { ...sailed.passage, ...none };
    const { boat } = sailed;
    const plan = { ...sailed, passage, totals: totalsOf(passage, boat), wear: wearOf(passage, boat) };
    const html = planReport(plan);
    expect(html).not.toMatch(/1970|undefined|NaN|Infinity/);
    const document = documentIn(html);
    for (const id of ['timeline', 'runs', 'hours', 'tradeoff'])
      expect(document.querySelector(`#${id} svg.chart`), id).toBeNull();
    expect(document.querySelector('#timeline')!.textContent).toContain('Nothing was sailed.');
    expect(figuresAgainst(html, JSON.parse(planJson(plan))).wrong).toEqual([]);
  });

  test('with the fastest plan of each hour draws every change of the log', async () => {
    const plan = await planned('2027-01-10T06:00Z', { choice: 'fastest' });
    const rows = plan.passage.hours.flatMap(({ sailChange }, row) => (sailChange ? [row] : []));
    expect(rows.length).toBeGreaterThan(0);
    const html = planReport(plan);
    const document = documentIn(html);
    for (const id of ['map', 'timeline'])
      expect(document.querySelectorAll(`#${id} svg.wide a.change`).length).toBe(rows.length);
    const lines = [...document.querySelectorAll('#timeline tbody tr[id^=change-]')];
    expect(lines.map((line) => Number(line.getAttribute('data-row')))).toEqual(rows);
    expect(document.querySelector('#timeline')!.textContent).toContain('Each hour by itself the fastest plan');
    const json: unknown = JSON.parse(planJson(plan));
    expect(figuresAgainst(html, json).wrong).toEqual([]);
    expect(untiedIn(html, json)).toEqual([]);
  });
});

describe('the report of a crossover', () => {
  test('has a dot on the polar for every speed under the winds it shows', () => {
    const { cells } = json('crossover', 'crossover.json') as Crossover;
    const wide = documentIn(read('crossover', 'report.html')).querySelector('#polar svg.wide')!;
    const winds = new Set(
      [...wide.querySelectorAll('text.bar-text')].map((text) => Number.parseFloat(text.textContent ?? '')),
    );
    expect(winds.size).toBeGreaterThan(3);
    const dots = wide.querySelectorAll('.unseen').length;
    expect(dots).toBe(cells.filter(({ twsKn, stwKn }) => winds.has(twsKn) && stwKn !== null).length);
  });
});

describe('the check of figures', () => {
  test('finds a figure that is not the one of the JSON', () => {
    const found = json('plan', 'plan.json') as { totals: { hours: number } };
    const other = { ...found, totals: { ...found.totals, hours: found.totals.hours + 1 } };
    expect(figuresAgainst(read('plan', 'report.html'), other).wrong.length).toBeGreaterThan(0);
    expect(at({ a: [{ b: 2 }] }, 'a[0].b')).toBe(2);
    expect([tells('12.3', 12.34), tells('12.3', 12.36), tells('1 d 2 h 03 min', 26.05), tells('45 %', 0.451)]).toEqual([
      true,
      false,
      true,
      true,
    ]);
  });

  test('takes no place that is not there for one that is empty', () => {
    expect([at({ a: null }, 'a.b'), at({ a: {} }, 'a.b')]).toEqual([null, undefined]);
    for (const text of ['', 'none', 'null', 'hove to', '0']) expect(tells(text, undefined)).toBe(false);
    expect(tells('', null)).toBe(true);
  });

  test.each(REPORTS)('finds a wrong number wherever one stands in the answer or the tables: %s', (name, beside) => {
    const [html, beside_] = [read(name, 'report.html'), json(name, beside)];
    const faults = (text: string) => figuresAgainst(text, beside_).wrong.length + untiedIn(text, beside_).length;
    expect(faults(html)).toBe(0);
    // A digit more in a figure that has its place, and a number that has none.
    const tied = [...html.matchAll(/<data [^>]*>/g)];
    expect(tied.length).toBeGreaterThan(2);
    for (const { 0: mark, index } of [tied[0]!, tied[Math.floor(tied.length / 2)]!, tied.at(-1)!]) {
      const end = index + mark.length;
      expect(faults(`${html.slice(0, end)}7${html.slice(end)}`), mark).toBeGreaterThan(0);
    }
    const rows = html.indexOf('<tbody>');
    for (const place of ['<ul class="answer"><li>', '<td>', '<td class="tight">', '<td class="number">']) {
      const end = html.indexOf(place, place.startsWith('<td') ? rows : 0) + place.length;
      if (end >= place.length) expect(faults(`${html.slice(0, end)}77 ${html.slice(end)}`), place).toBeGreaterThan(0);
    }
  });
});
