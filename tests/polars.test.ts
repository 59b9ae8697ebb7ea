import { createHash } from 'node:crypto';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, describe, expect, test } from 'vitest';
import {
  apparentWind,
  type Boat,
  InputError,
  type Passage,
  type Polar,
  type PolarSet,
  planPassage,
  polarSpeed,
  type ReadPolarsOptions,
  readPolars,
} from '../src/index.js';
import { loadInputs } from '../src/node/node.js';
import { planSpeed } from '../src/speed/planSpeed.js';
import { windAtHeight } from '../src/wind/wind.js';
import { BOAT, changed, FORECAST, POLARS, ROUTE } from './support/small.js';
import { everyHours, forecastOf, LATS, LONS, BOAT as OPEN_BOAT, steadyWind } from './support/synthetic.js';
import { expectNear, fixture } from './truth/fixture.js';
import windHeight from './truth/windHeight.json' with { type: 'json' };

/** What is said of a bad polar file, a line each; none where it is taken for good. */
function messagesOf(text: string, options: ReadPolarsOptions = { sailPlan: 'main' }): string[] {
  try {
    readPolars(text, options);
    return [];
  } catch (error) {
    if (error instanceof InputError) return error.message.split('\n');
    throw error;
  }
}

interface Table {
  readonly twsKn: readonly number[];
  readonly twaDeg: readonly number[];
  readonly stwKn: readonly (readonly number[])[];
}

/** How a wide table is written. */
interface Layout {
  readonly delimiter: string;
  readonly corner: string;
  readonly lineEnd: string;
  readonly start: string;
  /** Empty cells at the end of every line. */
  readonly trailing: number;
  readonly blankLines: readonly string[];
}

const PLAIN: Layout = { delimiter: ',', corner: 'twa/tws', lineEnd: '\n', start: '', trailing: 0, blankLines: [] };

function wideOf({ twsKn, twaDeg, stwKn }: Table, changes: Partial<Layout> = {}): string {
  const { delimiter, corner, lineEnd, start, trailing, blankLines } = { ...PLAIN, ...changes };
  const lines = [[corner, ...twsKn], ...twaDeg.map((twa, i) => [twa, ...stwKn[i]!])].map(
    (cells) => `${cells.join(delimiter)}${delimiter.repeat(trailing)}`,
  );
  return start + lines.flatMap((line) => [...blankLines, line]).join(lineEnd) + lineEnd;
}

function tidyOf({ twsKn, twaDeg, stwKn }: Table, plan = 'main', heightM = ''): string {
  const rows = twaDeg.flatMap((twa, i) => twsKn.map((tws, j) => [plan, tws, twa, stwKn[i]![j], heightM].join(',')));
  return `${['sail_plan,tws_kn,twa_deg,stw_kn,wind_height_m', ...rows].join('\n')}\n`;
}

/** A table with its rows and columns in another order. */
function shuffled({ twsKn, twaDeg, stwKn }: Table, rows: readonly number[], columns: readonly number[]): Table {
  return {
    twsKn: columns.map((j) => twsKn[j]!),
    twaDeg: rows.map((i) => twaDeg[i]!),
    stwKn: rows.map((i) => columns.map((j) => stwKn[i]![j]!)),
  };
}

const TABLE: Table = {
  twsKn: [6, 12, 20],
  twaDeg: [40, 90, 150, 180],
  stwKn: [
    [3, 5.5, 6.5],
    [4, 7.25, 9],
    [3.5, 6, 8.125],
    [0, 5, 7],
  ],
};
const WIDE = wideOf(TABLE);

describe('a wide table is its tidy form', () => {
  const tidy = readPolars(tidyOf(TABLE));
  const same = (text: string) => expect(readPolars(text, { sailPlan: 'main' })).toEqual(tidy);

  test('as the table stands', () => {
    expect(tidy).toEqual({
      status: 'measured',
      plans: { main: { twsKn: TABLE.twsKn, twaDeg: TABLE.twaDeg, stwKn: TABLE.stwKn.flat() } },
    });
    same(WIDE);
  });

  test.each([
    ['commas', ','],
    ['semicolons', ';'],
    ['tabs', '\t'],
  ])('with %s', (_, delimiter) => {
    same(wideOf(TABLE, { delimiter }));
    same(wideOf(TABLE, { delimiter, corner: '' }));
  });

  test.each([
    '',
    ' ',
    'TWA/TWS',
    'twa\\tws',
    'TWA°\\TWS kn',
    '0',
    '-',
    'sail_plan',
    '"TWA, TWS"',
    '"a ""quoted"" cell"',
    '"two\nlines"',
  ])('under the first cell %j', (corner) => {
    same(wideOf(TABLE, { corner }));
  });

  test('in columns and rows in any order', () => {
    same(wideOf(shuffled(TABLE, [3, 1, 0, 2], [1, 2, 0])));
  });

  test('with what spreadsheets leave: empty cells and lines of them, blank lines, line ends, a byte order mark', () => {
    same(wideOf(TABLE, { trailing: 3 }));
    same(wideOf(TABLE, { trailing: 3, blankLines: ['', '  ', ',,,,,,', ', , ,'] }));
    same(wideOf(TABLE, { lineEnd: '\r\n', blankLines: [''] }));
    same(wideOf(TABLE, { lineEnd: '\r' }));
    same(wideOf(TABLE, { start: '\uFEFF', corner: '' }));
    same(WIDE.trimEnd());
    same(WIDE.replaceAll(',', ' , '));
  });

  test('with empty cells at the end of some lines only', () => {
    same(WIDE.replace('twa/tws,6,12,20', 'twa/tws,6,12,20,,').replace('180,0,5,7', '180,0,5,7,,,,'));
  });

  test('of one wind speed, of no wind at all, and of angles that are no whole numbers', () => {
    for (const table of [
      { twsKn: [10], twaDeg: [45, 135], stwKn: [[5], [6]] },
      { twsKn: [0, 10], twaDeg: [0, 42.5, 180], stwKn: [[0, 0], [0, 5.5], [0, 4]] }, // biome-ignore format: a table
    ])
      expect(readPolars(wideOf(table), { sailPlan: 'main' })).toEqual(readPolars(tidyOf(table)));
  });

  test('whatever its numbers, order and layout', () => {
    const number = (max: number) => fc.integer({ min: 0, max: max * 100 }).map((hundredths) => hundredths / 100);
    const axis = (max: number, minLength: number) => fc.uniqueArray(number(max), { minLength, maxLength: 7 });
    const table = fc.tuple(axis(120, 1), axis(180, 2)).chain(([twsKn, twaDeg]) =>
      fc.record({
        twsKn: fc.constant(twsKn),
        twaDeg: fc.constant(twaDeg),
        stwKn: fc.array(fc.array(number(60), { minLength: twsKn.length, maxLength: twsKn.length }), {
          minLength: twaDeg.length,
          maxLength: twaDeg.length,
        }),
      }),
    );
    const layout = fc.record({
      delimiter: fc.constantFrom(',', ';', '\t'),
      corner: fc.constantFrom('', 'TWA', 'TWA/TWS', 'twa\\tws', '7'),
      lineEnd: fc.constantFrom('\n', '\r\n', '\r'),
      start: fc.constantFrom('', '\uFEFF'),
      trailing: fc.integer({ min: 0, max: 2 }),
      blankLines: fc.constantFrom([], ['']),
    });
    fc.assert(
      fc.property(table, layout, (each, how) => {
        const options = { boat: { sailPlans: [{ id: 'main' }], polarStatus: 'designed' as const } };
        expect(readPolars(wideOf(each, how), options)).toEqual(readPolars(tidyOf(each), options));
      }),
    );
  });
});

describe('faults of a wide table', () => {
  const NUMBER = (max: number, got: string) => `expected a number from 0 to ${max}, got "${got}"`;
  test.each<readonly [what: string, text: string, messages: readonly string[]]>([
    [
      'a speed that is none',
      changed(WIDE, '90,4,7.25,9', '90,4,fast,9'),
      [`polars.csv, line 3, column tws 12: ${NUMBER(60, 'fast')}`],
    ],
    [
      'a speed with a decimal comma',
      wideOf(TABLE, { delimiter: ';' }).replace('7.25', '7,25'),
      [`polars.csv, line 3, column tws 12: ${NUMBER(60, '7,25')} (a decimal comma?)`],
    ],
    ['a negative speed', changed(WIDE, '180,0,', '180,-1,'), [`polars.csv, line 5, column tws 6: ${NUMBER(60, '-1')}`]],
    [
      'an empty cell inside',
      changed(WIDE, '90,4,7.25,9', '90,4,,9'),
      [`polars.csv, line 3, column tws 12: ${NUMBER(60, '')}`],
    ],
    [
      'a wind that is no number',
      changed(WIDE, ',6,12,20', ',6,1O,20'),
      [`polars.csv, line 1, column 3: ${NUMBER(120, '1O')}`],
    ],
    [
      'a wind that is no number, and a speed under it',
      changed(changed(WIDE, ',6,12,20', ',6,twelve,20'), '90,4,7.25,9', '90,4,x,9'),
      [`polars.csv, line 1, column 3: ${NUMBER(120, 'twelve')}`, `polars.csv, line 3, column 3: ${NUMBER(60, 'x')}`],
    ],
    [
      'two winds left out, each told once',
      changed(WIDE, ',6,12,20', ',,,20'),
      [`polars.csv, line 1, column 2: ${NUMBER(120, '')}`, `polars.csv, line 1, column 3: ${NUMBER(120, '')}`],
    ],
    [
      'a wind out of range',
      changed(WIDE, ',6,12,20', ',6,12,121'),
      [`polars.csv, line 1, column 4: ${NUMBER(120, '121')}`],
    ],
    [
      'an angle beyond 180',
      changed(WIDE, '180,0', '181,0'),
      [`polars.csv, line 5, column twa_deg: ${NUMBER(180, '181')}`],
    ],
    [
      'angles that are none, each told once',
      changed(changed(WIDE, '90,4', 'beam,4'), '40,3', ',3'),
      [
        `polars.csv, line 2, column twa_deg: ${NUMBER(180, '')}`,
        `polars.csv, line 3, column twa_deg: ${NUMBER(180, 'beam')}`,
      ],
    ],
    [
      'rows with cells too few and too many, told once each',
      changed(changed(WIDE, '90,4,7.25,9', '90,4,7.25'), '150,3.5,6,8.125', '150,3.5,6,8.125,9'),
      ['polars.csv, line 3: expected 4 cells, got 3', 'polars.csv, line 4: expected 4 cells, got 5'],
    ],
    [
      'a wind twice',
      changed(WIDE, ',6,12,20', ',6,20,20'),
      ['polars.csv, line 1, column 4: expected each TWS once, got 20 again'],
    ],
    [
      'a wind twice, not side by side',
      changed(WIDE, ',6,12,20', ',6,12,6.0'),
      ['polars.csv, line 1, column 4: expected each TWS once, got 6 again'],
    ],
    [
      'an angle twice, by line and not by angle',
      changed(changed(WIDE, '40,3,', '150,3,'), '180,0,', '90.0,0,'),
      [
        'polars.csv, line 4, column twa_deg: expected each TWA once, got 150 again',
        'polars.csv, line 5, column twa_deg: expected each TWA once, got 90 again',
      ],
    ],
    [
      'one angle only',
      'twa,6,12\n90,4,7\n',
      ['polars.csv, line 1: expected at least 2 angles and 1 wind speed, got fewer'],
    ],
    ['no angle', 'twa,6,12\n', ['polars.csv, line 1: expected at least 2 angles and 1 wind speed, got fewer']],
    [
      'the lines of a file with blank ones',
      `\n${changed(WIDE, '90,4,7.25,9', '\n\n90,4,7.25,x')}`,
      [`polars.csv, line 6, column tws 20: ${NUMBER(60, 'x')}`],
    ],
    [
      'a quote never closed',
      changed(WIDE, '90,4,7.25,9', '90,4,"7.25,9'),
      ['polars.csv, line 3: expected every quote to be closed, got an open quote'],
    ],
  ])('%s', (_, text, messages) => {
    expect(messagesOf(text)).toEqual(messages);
  });

  test('a table of words alone is told as a tidy one', () => {
    expect(messagesOf('twa,light,strong\n90,4,7\n180,3,6\n')[0]).toBe(
      'polars.csv, line 1, column sail_plan: expected this column in the header, got only "twa, light, strong"',
    );
  });

  test('faults of a long table are counted', () => {
    const rows = Array.from({ length: 900 }, (_, i) => `${i / 5},x,y`);
    const messages = messagesOf(['twa,6,12', ...rows].join('\n'));
    expect(messages.length).toBe(21);
    expect(messages.at(-1)).toBe('polars.csv: and 1780 more faults');
  });
});

describe('the plan of a wide table', () => {
  const boatOf = (...ids: readonly string[]) => ({ sailPlans: ids.map((id) => ({ id })) });
  const WHICH =
    'polars.csv: expected to know the sail plan of this table: a boat of one plan, or "polars" in the boat file as { "plan": "file" }, got several plans or none';

  test('is the only one of the boat', () => {
    expect(Object.keys(readPolars(WIDE, { boat: boatOf('main+jib') }).plans)).toEqual(['main+jib']);
  });

  test('is the one that is said, of a boat of several or of none', () => {
    expect(Object.keys(readPolars(WIDE, { boat: boatOf('main', 'jib'), sailPlan: 'jib' }).plans)).toEqual(['jib']);
    expect(Object.keys(readPolars(WIDE, { sailPlan: 'jib' }).plans)).toEqual(['jib']);
  });

  test('is asked for where it cannot be known, beside the faults of the table', () => {
    expect(messagesOf(WIDE, {})).toEqual([WHICH]);
    expect(messagesOf(WIDE, { boat: boatOf('main', 'jib') })).toEqual([WHICH]);
    expect(messagesOf(WIDE, { boat: boatOf() })).toEqual([WHICH]);
    expect(messagesOf(changed(WIDE, '180,0', '181,0'), {})).toEqual([
      WHICH,
      'polars.csv, line 5, column twa_deg: expected a number from 0 to 180, got "181"',
    ]);
  });

  test('must be of the boat', () => {
    expect(messagesOf(WIDE, { boat: boatOf('main', 'jib'), sailPlan: 'mein' })).toEqual([
      'polars.csv: expected the id of a sail plan of the boat, got "mein" (did you mean "main"?)',
    ]);
  });

  test('takes the wind height, the reference and the status of the boat', () => {
    const boat = {
      ...boatOf('main'),
      polarStatus: 'designed',
      polarWindHeightM: 18,
      polarTwaReference: 'heading',
    } as const;
    const { status, plans } = readPolars(WIDE, { boat });
    expect(status).toBe('designed');
    expect(plans.main).toMatchObject({ windHeightM: 18, twaReference: 'heading' });
  });
});

describe('wind height and reference of a tidy file', () => {
  const HEAD = 'sail_plan,tws_kn,twa_deg,stw_kn,wind_height_m,twa_reference';
  const tidy = (...ends: readonly (readonly [plan: string, height: string, reference: string])[]) =>
    `${[HEAD, ...ends.flatMap(([plan, height, reference]) => [40, 180].map((twa) => `${plan},10,${twa},5,${height},${reference}`))].join('\n')}\n`;
  const boat = {
    sailPlans: [{ id: 'main' }, { id: 'jib' }],
    polarWindHeightM: 20,
    polarTwaReference: 'heading',
  } as const;

  test('are read for each plan', () => {
    const { plans } = readPolars(tidy(['main', '15.5', 'heading'], ['jib', '', '']));
    expect(plans.main).toEqual({
      twsKn: [10],
      twaDeg: [40, 180],
      stwKn: [5, 5],
      windHeightM: 15.5,
      twaReference: 'heading',
    });
    expect(plans.jib).toEqual({ twsKn: [10], twaDeg: [40, 180], stwKn: [5, 5] });
  });

  test('of the file stand before those of the boat, which hold where the file states none', () => {
    const { plans } = readPolars(tidy(['main', '10', 'course'], ['jib', '', '']), { boat });
    expect(plans.main).toMatchObject({ windHeightM: 10, twaReference: 'course' });
    expect(plans.jib).toMatchObject({ windHeightM: 20, twaReference: 'heading' });
    const one = readPolars(`${HEAD.replace(',twa_reference', '')}\nmain,10,40,5,3\nmain,10,180,5,3\n`, { boat });
    expect(one.plans.main).toMatchObject({ windHeightM: 3, twaReference: 'heading' });
  });

  test.each<readonly [what: string, text: string, messages: readonly string[]]>([
    [
      'a height out of range, told once for each row',
      tidy(['main', '0.5', '']),
      [2, 3].map((line) => `polars.csv, line ${line}, column wind_height_m: expected a number from 1 to 60, got "0.5"`),
    ],
    [
      'a height of one row that is no number is not called another height',
      tidy(['main', '10', '']).replace('180,5,10', '180,5,mast'),
      ['polars.csv, line 3, column wind_height_m: expected a number from 1 to 60, got "mast"'],
    ],
    [
      'a reference of one row that is none is not called another reference',
      tidy(['main', '', 'heading']).replace('180,5,,heading', '180,5,,headng'),
      [
        'polars.csv, line 3, column twa_reference: expected one of course, heading, got "headng" (did you mean "heading"?)',
      ],
    ],
    [
      'two heights of one plan',
      tidy(['main', '10', '']).replace('180,5,10', '180,5,12'),
      ['polars.csv, line 3, column wind_height_m: expected one value for all rows of "main" (10), got 12'],
    ],
    [
      'a height and none, and a reference and another',
      tidy(['main', '10', 'course']).replace('180,5,10,course', '180,5,,heading'),
      [
        'polars.csv, line 3, column wind_height_m: expected one value for all rows of "main" (10), got none',
        'polars.csv, line 3, column twa_reference: expected one value for all rows of "main" (course), got heading',
      ],
    ],
  ])('%s', (_, text, messages) => {
    expect(messagesOf(text, { boat })).toEqual(messages);
  });

  test('a plan of rows that share no wind and no angle is told, not tabled', () => {
    const rows = Array.from({ length: 5000 }, (_, i) => `main,${i / 100},${i / 100},3`);
    const messages = messagesOf(['sail_plan,tws_kn,twa_deg,stw_kn', ...rows].join('\n'), {});
    expect(messages.length).toBe(21);
    expect(messages[0]).toBe('polars.csv, line 2: expected a row of "main" for tws_kn 0.01 and twa_deg 0, got none');
    expect(messages.at(-1)).toBe('polars.csv: and 980 more faults');
  });

  test('polars made in memory are checked', () => {
    const bad = (polar: Partial<Polar>): string => {
      const plans = { 'main+jib': { twsKn: [10], twaDeg: [40, 180], stwKn: [5, 5], ...polar } };
      try {
        sailed({ status: 'measured', plans }, 10);
        return '';
      } catch (error) {
        if (error instanceof InputError) return error.message;
        throw error;
      }
    };
    const HEIGHT = 'polars, main+jib.windHeightM: expected a number from 1 to 60, got';
    expect(bad({})).toBe('');
    expect(bad({ windHeightM: 0 })).toBe(`${HEIGHT} 0`);
    expect(bad({ windHeightM: Number.NaN })).toBe(`${HEIGHT} NaN`);
    expect(bad({ twaReference: 'bow' as 'course' })).toBe(
      'polars, main+jib.twaReference: expected course or heading, got bow',
    );
  });
});

const ANY_WINDOW = { awaMinDeg: 0, awaMaxDeg: 180 };
const anyWind = (boat: Boat): Boat => ({
  ...boat,
  sails: boat.sails.map(({ id, kind }) => ({ id, kind, window: ANY_WINDOW })),
  sailPlans: [{ id: 'main+jib', sails: ['main', 'jib'] }],
});

/** 120 Nm due west along a parallel, in a wind from the north: TWA 90. */
function sailed(polars: PolarSet, twsKn: number, boat = anyWind(OPEN_BOAT)): Passage {
  return planPassage(
    {
      route: {
        waypoints: [
          { name: 'A', latDeg: 15, lonDeg: -45, toNext: 'rhumb' },
          { name: 'B', latDeg: 15, lonDeg: -47 },
        ],
      },
      boat,
      polars,
      forecast: forecastOf(everyHours(6, 4), LATS, LONS, steadyWind(twsKn, 0)),
    },
    { departure: '2027-03-01T12:00Z' },
  );
}

const heights = fixture('windHeight.json', windHeight);

describe('wind at the height of a polar', () => {
  /** A boat that makes half the wind, so that her speed tells the wind she was looked up in. */
  const half = (windHeightM?: number): Polar => ({
    twsKn: [0, 120],
    twaDeg: [0, 180],
    stwKn: [0, 60, 0, 60],
    ...(windHeightM === undefined ? {} : { windHeightM }),
  });

  heights.each('powerLaw', 'power law', (row, { tolerance }) => {
    expectNear(windAtHeight(row.windAt10m, row.heightM), row.windAtHeight, tolerance.wind, 'wind');
    expectNear(2 * polarSpeed(half(row.heightM))(row.windAt10m, 90)!, row.windAtHeight, tolerance.wind, 'looked up');
    const factor = windAtHeight(1, row.heightM);
    if (row.factor !== undefined) expectNear(factor, row.factor, tolerance.factor, 'factor');
    if (row.factorTo10m !== undefined) expectNear(1 / factor, row.factorTo10m, tolerance.factor, 'factor to 10 m');
  });

  heights.each('beyondMasts', 'power law far up', (row, { tolerance }) => {
    expectNear(windAtHeight(row.windAt10m, row.heightM), row.windAtHeight, tolerance.wind, 'wind');
    expectNear(windAtHeight(1, row.heightM), row.factor, tolerance.factor, 'factor');
  });

  test('at 10 m, said or not, nothing moves', () => {
    for (const twsKn of [0, 3, 10, 17.3, 119, 120, 130])
      expect(polarSpeed(half(10))(twsKn, 70)).toBe(polarSpeed(half())(twsKn, 70));
  });

  test('the whole table is looked up at the moved wind: below its lowest, between, and above its highest', () => {
    const table = readPolars(tidyOf(TABLE)).plans.main!;
    for (const [heightM, moved] of [
      // 2^0.11 and 0.3^0.11 by logarithms.
      [20, Math.exp(0.11 * Math.LN2)],
      [3, Math.exp(0.11 * Math.log(0.3))],
    ] as const)
      for (let twsKn = 0; twsKn < 26; twsKn += 0.37)
        for (const twa of [40, 77, -133, 180])
          expect(polarSpeed({ ...table, windHeightM: heightM })(twsKn, twa)).toBeCloseTo(
            polarSpeed(table)(twsKn * moved, twa)!,
            12,
          );
  });

  const set = (windHeightM?: number): PolarSet => ({
    status: 'measured',
    plans: { 'main+jib': { ...half(windHeightM), twsKn: [0, 20], stwKn: [0, 10, 0, 10] } },
  });

  test('moves the speed and nothing else: every wind of the log is that at 10 m', () => {
    const [plain] = sailed(set(), 16).hours;
    const [high] = sailed(set(20), 16).hours;
    expect(plain!.stwKn).toBeCloseTo(8, 4);
    // 16 kn at 10 m are 16 × 1.07923 = 17.268 at 20 m, and she makes half of it.
    expect(high!.stwKn).toBeCloseTo(8.634, 3);
    for (const key of ['twsKn', 'twdDeg', 'gustKn', 'groundTwsKn', 'twaDeg', 'headingDeg'] as const)
      expect(high![key]).toBe(plain![key]);
    expect(high!.twsKn).toBeCloseTo(16, 4);
    // The triangle of the wind at 10 m and the way she really makes.
    const felt = apparentWind(high!.twsKn, 90, high!.stwKn!);
    expect(high!.awsKn).toBeCloseTo(felt.awsKn, 4);
    expect(high!.awaDeg).toBeCloseTo(felt.awaDeg, 3);
    expect(high!.gustAwsKn).toBeCloseTo(Math.hypot(16 * 1.3, high!.stwKn!), 3);
  });

  test.each([
    // 20 kn at the height are 20 / (h / 10)^0.11 at 10 m: 20 / 1.07923, 20 / 0.92659, 20.
    [20, 18.5317],
    [5, 21.5845],
    [undefined, 20],
  ])('a polar of a wind at %s m is held, and said so, above %s kn at 10 m', (heightM, limitKn) => {
    const { twsMaxKn, at } = planSpeed(set(heightM).plans['main+jib']!, 1);
    expect(twsMaxKn).toBeCloseTo(limitKn, 3);
    expect(at(limitKn + 5, 90)).toBeCloseTo(10, 9);
    const codes = (twsKn: number) => sailed(set(heightM), twsKn).warnings.map(({ code }) => code);
    expect(codes(limitKn - 0.01)).not.toContain('polar-held');
    expect(codes(limitKn + 0.01)).toContain('polar-held');
  });
});

describe('polar files of a boat', () => {
  const folder = mkdtempSync(join(tmpdir(), 'polars-'));
  afterAll(() => rmSync(folder, { recursive: true }));

  /** Loads the small inputs with other files; a fault's path is told from the folder. */
  const load = async (files: Readonly<Record<string, string>>) => {
    const all = { 'route.csv': ROUTE, 'forecast.csv': FORECAST, 'boat.json': BOAT, 'polars.csv': POLARS, ...files };
    for (const [name, text] of Object.entries(all)) writeFileSync(join(folder, name), text);
    const path = (name: string) => join(folder, name);
    return loadInputs({ route: path('route.csv'), forecast: path('forecast.csv'), boat: path('boat.json') });
  };
  const faultsOf = async (files: Readonly<Record<string, string>>): Promise<string[]> => {
    try {
      await load(files);
      return [];
    } catch (error) {
      if (error instanceof InputError) return error.message.replaceAll(join(folder, '/'), '').split('\n');
      throw error;
    }
  };
  const sha256 = (text: string) => createHash('sha256').update(text).digest('hex');
  const boatWith = (polars: string, more = '') =>
    changed(BOAT, '"polars": "polars.csv",', `"polars": ${polars},${more}`);
  const onePlan = changed(
    BOAT,
    `{ "id": "main", "sails": ["main"] },
    { "id": "reef1+jib", "sails": ["main:1", "jib"] }`,
    '{ "id": "main", "sails": ["main", "jib"] }',
  );
  const EACH = '{ "main": "main.txt", "reef1+jib": "reefed.csv" }';
  const reefed: Table = { twsKn: [8, 25], twaDeg: [50, 170], stwKn: [[4, 6], [3, 7]] }; // biome-ignore format: a table

  test('one path: a tidy file of every plan', async () => {
    const { inputs } = await load({});
    expect(inputs.polars).toEqual(readPolars(POLARS));
  });

  test('one path of a boat of one plan: a wide table', async () => {
    const { inputs } = await load({ 'boat.json': onePlan, 'polars.csv': WIDE });
    expect(inputs.polars).toEqual(readPolars(tidyOf(TABLE)));
  });

  test('one path of a boat of several plans is no place for a wide table', async () => {
    expect(await faultsOf({ 'polars.csv': WIDE })).toEqual([
      'polars.csv: expected to know the sail plan of this table: a boat of one plan, or "polars" in the boat file as { "plan": "file" }, got several plans or none',
    ]);
  });

  test('a file for each plan, wide and tidy, with the keys of the boat and the digests of all', async () => {
    const boat = boatWith(EACH, '"polarWindHeightM": 18, "polarTwaReference": "heading", "polarStatus": "designed",');
    const tidy = tidyOf(reefed, 'reef1+jib', '12');
    const files = { 'boat.json': boat, 'main.txt': wideOf(TABLE, { delimiter: '\t' }), 'reefed.csv': tidy };
    const { inputs, digests } = await load(files);
    expect(inputs.polars).toEqual({
      status: 'designed',
      plans: {
        main: {
          twsKn: TABLE.twsKn,
          twaDeg: TABLE.twaDeg,
          stwKn: TABLE.stwKn.flat(),
          windHeightM: 18,
          twaReference: 'heading',
        },
        'reef1+jib': {
          twsKn: [8, 25],
          twaDeg: [50, 170],
          stwKn: [4, 6, 3, 7],
          windHeightM: 12,
          twaReference: 'heading',
        },
      },
    });
    expect(digests.map(({ role, file, sha256 }) => [role, file, sha256])).toEqual([
      ['route', 'route.csv', sha256(ROUTE)],
      ['boat', 'boat.json', sha256(boat)],
      ['polars', 'main.txt', sha256(files['main.txt'])],
      ['polars', 'reefed.csv', sha256(files['reefed.csv'])],
      ['forecast', 'forecast.csv', sha256(FORECAST)],
    ]);
    const passage = planPassage(inputs, { departure: '2027-01-10T00:00Z' });
    expect(passage.warnings.map(({ code }) => code)).not.toContain('no-polar');
    expect(passage.options.house.skipperFactor).toBe(0.9);
  });

  test('a plan without a file is warned of as one without a polar', async () => {
    const { inputs } = await load({ 'boat.json': boatWith('{ "main": "main.txt" }'), 'main.txt': WIDE });
    const { warnings } = planPassage(inputs, { departure: '2027-01-10T00:00Z' });
    expect(warnings).toContainEqual(expect.objectContaining({ file: 'polars', path: 'reef1+jib', code: 'no-polar' }));
  });

  test('what a held polar says names its own file', async () => {
    const files = { 'boat.json': boatWith(EACH), 'main.txt': 'twa,6\n40,6\n180,6\n', 'reefed.csv': wideOf(reefed) };
    const { inputs } = await load(files);
    const { warnings } = planPassage(inputs, { departure: '2027-01-10T00:00Z' });
    expect(warnings).toContainEqual(expect.objectContaining({ file: 'main.txt', path: 'main', code: 'polar-held' }));
  });

  test('faults of every file are told, by the names the boat file gives', async () => {
    const files = {
      'boat.json': boatWith('{ "main": "main.txt", "reef1+jib": "./none.csv" }'),
      'main.txt': changed(WIDE, '90,4', '90,x'),
    };
    expect(await faultsOf(files)).toEqual([
      'main.txt, line 3, column tws 6: expected a number from 0 to 60, got "x"',
      './none.csv: expected a file that can be read, got no such file',
    ]);
  });

  test('the file of a plan holds no other plan', async () => {
    expect(await faultsOf({ 'boat.json': boatWith(EACH), 'main.txt': POLARS, 'reefed.csv': wideOf(reefed) })).toEqual([
      'main.txt, line 6, column sail_plan: expected the id of a sail plan of the boat, got "reef1+jib"',
    ]);
  });

  test.each([
    [
      'a file for a plan the boat does not have',
      '{ "mein": "main.txt" }',
      ['boat.json, polars.mein: expected the id of a sail plan of the boat, got "mein" (did you mean "main"?)'],
    ],
    ['a path of nothing', '""', ['boat.json, polars: expected the path of a polar file, got ""']],
    [
      'a number for a path',
      '{ "main": 7 }',
      ['boat.json, polars: expected the path of a polar file, or one for each sail plan, got an object'],
    ],
    [
      'no file at all',
      '{}',
      ['boat.json, polars: expected the path of a polar file, or one for each sail plan, got an object'],
    ],
    [
      'a list',
      '["main.txt"]',
      ['boat.json, polars: expected the path of a polar file, or one for each sail plan, got a list of 1'],
    ],
    [
      'a list of nothing',
      '[]',
      ['boat.json, polars: expected the path of a polar file, or one for each sail plan, got a list of 0'],
    ],
    [
      'a number for the path of a plan of an unlucky name',
      '{ "constructor": 7 }',
      [
        'boat.json, polars.constructor: expected the path of a polar file, got 7',
        'boat.json, polars.constructor: expected the id of a sail plan of the boat, got "constructor"',
      ],
    ],
  ])('%s', async (_, polars, messages) => {
    const faults = await faultsOf({ 'boat.json': boatWith(polars), 'main.txt': WIDE });
    expect(faults.filter((fault) => fault.startsWith('boat.json'))).toEqual(messages);
  });
});
