import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  describeFaults,
  type Fault,
  hoursCsv,
  InputError,
  planMarkdown,
  planPassage,
  readBoat,
  readForecast,
  readPolars,
  readRoute,
  totalsOf,
  totalsText,
} from '../src/index.js';
import { always, BOAT, changed, FORECAST, forecastCsv, POLARS, ROUTE, TIMES } from './support/small.js';

async function messageOf(action: () => unknown): Promise<string> {
  try {
    await action();
  } catch (error) {
    if (error instanceof InputError) return error.message;
    throw error;
  }
  return '';
}

const read = (text: string) => readForecast({ name: 'forecast.csv', open: () => [text] });

/** What a terminal would obey or not show: controls, marks of writing direction, joiners, spaces that are none of 32. */
const UNSEEN = /(?!\n)[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]|(?! )\p{Zs}/u;

describe('what does not show is shown escaped', () => {
  const MARKS: readonly (readonly [name: string, mark: string, shown: string])[] = [
    ['bell', '\u0007', '\\u0007'],
    ['escape', '\u001b', '\\u001b'],
    ['null', '\u0000', '\\u0000'],
    ['delete', '\u007f', '\\u007f'],
    ['next line', '\u0085', '\\u0085'],
    ['right-to-left override', '\u202e', '\\u202e'],
    ['right-to-left isolate', '\u2067', '\\u2067'],
    ['right-to-left mark', '\u200f', '\\u200f'],
    ['Arabic letter mark', '\u061c', '\\u061c'],
    ['line separator', '\u2028', '\\u2028'],
    ['zero width space', '\u200b', '\\u200b'],
    ['zero width joiner', '\u200d', '\\u200d'],
    ['no-break space', '\u00a0', '\\u00a0'],
    ['narrow no-break space', '\u202f', '\\u202f'],
    ['soft hyphen', '\u00ad', '\\u00ad'],
    ['byte order mark', '\ufeff', '\\ufeff'],
  ];

  test.each(MARKS)('%s in a cell of a route', async (_, mark, shown) => {
    const text = changed(ROUTE, 'End,11,', `End,1${mark}1,`);
    expect(await messageOf(() => readRoute(text))).toBe(
      `route.csv, line 3, column lat: expected a latitude from 90S to 90N, like 16.88 or 16°52.8'N, got "1${shown}1"`,
    );
  });

  test('in a cell of a forecast', async () => {
    const text = changed(FORECAST, `${TIMES[0]},10,-60,-8,`, `${TIMES[0]},10,-60,-8\u202e2,`);
    expect(await messageOf(() => read(text))).toBe(
      'forecast.csv, line 3, column u10: expected a number from -103 to 103, got "-8\\u202e2"',
    );
  });

  test('in a key of a boat', async () => {
    for (const [, mark] of MARKS) {
      const message = await messageOf(() => readBoat(changed(BOAT, '"crew"', JSON.stringify(`cr${mark}ew`))));
      expect(message).not.toMatch(UNSEEN);
      expect(message).toMatch(/^boat\.json, .*: expected one of name, .*, got "cr.*ew" \(did you mean "crew"\?\)$/);
    }
  });

  test('a line end in a key or a cell does not begin a line of the report', async () => {
    const boat = changed(BOAT, '"crew"', '"a\\nforecast.csv: all is well"');
    expect((await messageOf(() => readBoat(boat))).split('\n').length).toBe(1);
    const route = changed(ROUTE, 'End,11,', 'End,"11\nboat.json: all is well",');
    expect((await messageOf(() => readRoute(route))).split('\n').length).toBe(1);
  });

  test('in the name of a column that is not used', async () => {
    const { warnings } = await read(forecastCsv('u10,v10,pres\u202esure\u0007', always(-8, 1, 1013)));
    expect(describeFaults(warnings)).toMatch(
      /^forecast\.csv, column pres.*sure.*: expected a column of a known quantity/,
    );
    expect(describeFaults(warnings)).not.toMatch(UNSEEN);
  });

  test('in names that are printed with a plan', async () => {
    const boat = readBoat(changed(BOAT, 'Test boat', 'Test\\u202e\\u001b[31mboat'));
    const route = readRoute(changed(ROUTE, 'Start', '"Sta\u202e\u001b[31mrt\n# Heading"'));
    const { forecast } = await read(FORECAST);
    const polars = readPolars(POLARS, { boat });
    const passage = planPassage({ route, forecast, boat, polars }, { departure: TIMES[0]! });
    const toPrint = { passage, totals: totalsOf(passage, boat), boat, route, inputs: [] };
    expect(totalsText(toPrint)).not.toMatch(UNSEEN);
    expect(planMarkdown(toPrint)).not.toMatch(UNSEEN);
    expect(planMarkdown(toPrint)).not.toMatch(/^# Heading/m);
  });

  test('a text of any length is cut', async () => {
    const text = changed(ROUTE, 'End,11,', `End,${'9'.repeat(100_000)},`);
    expect(await messageOf(() => readRoute(text))).toBe(
      `route.csv, line 3, column lat: expected a latitude from 90S to 90N, like 16.88 or 16°52.8'N, got "${'9'.repeat(60)}…"`,
    );
  });
});

describe('a boat of absurd size', () => {
  test('nested too deeply', async () => {
    const text = `${'{"a":'.repeat(200_000)}1${'}'.repeat(200_000)}`;
    expect(await messageOf(() => readBoat(text))).toBe('boat.json: expected a JSON text, got one nested too deeply');
  });

  test('of very many bad sails is answered by its first faults and a count', async () => {
    const sails = Array.from({ length: 20_000 }, () => ({ id: 'X', bad: 1 }));
    const lines = (await messageOf(() => readBoat(JSON.stringify({ sails })))).split('\n');
    expect(lines.length).toBe(21);
    expect(lines.at(-1)).toMatch(/^boat\.json: and \d{5} more faults$/);
  });
});

describe('names that every object has', () => {
  test('as unknown columns of a route', async () => {
    const text = 'name,lat,lon,__proto__,constructor\nStart,11.5,-60.5,x,y\nEnd,11,-61.5,x,y\n';
    expect(await messageOf(() => readRoute(text))).toBe(
      `route.csv, line 1: expected one of name, lat, lon, to_next, got "__proto__"
route.csv, line 1: expected one of name, lat, lon, to_next, got "constructor"`,
    );
  });

  test('as columns of a forecast that are not used', async () => {
    const columns = ['__proto__', 'constructor', 'gust_constructor'];
    const { forecast, warnings } = await read(forecastCsv(`u10,v10,${columns}`, always(-8, 1, 5, 5, 5)));
    expect(warnings.map(({ column }) => column)).toEqual(columns);
    expect(forecast).toEqual((await read(forecastCsv('u10,v10', always(-8, 1)))).forecast);
  });

  test('as unknown keys of a boat', async () => {
    const text = changed(BOAT, '"gustFactor": 1.3', '"__proto__": { "gustFactor": 3 }');
    expect(await messageOf(() => readBoat(text))).toBe(
      'boat.json, house.__proto__: expected one of comment, gustFactor, gustMargin, tackMinutes, gybeMinutes, tackEveryHours, gybeEveryHours, skipperFactor, pricePerChangeMinutes, wakeMinutes, leastHoursBetweenChanges, changesInDark, nightReefAboveKn, waveMaxM, gybesByDay, squalls, squallFactor, squallChance, squallThreshold, motorBelowKn, motorPriceMinutes, got "__proto__"',
    );
  });

  test('as kinds, types and sails that are not there', async () => {
    const text = changed(
      changed(BOAT, '"catamaran"', '"constructor"'),
      '"clothOf": "jib"',
      '"clothOf": "constructor", "polarStatus": 1',
    );
    expect(await messageOf(() => readBoat(text))).toContain(
      'boat.json, hull.type: expected one of catamaran, monohull, got "constructor"',
    );
    expect(await messageOf(() => readBoat(changed(BOAT, '["main:1", "jib"]', '["constructor", "__proto__"]')))).toBe(
      `boat.json, sailPlans[1].sails[0]: expected the id of a sail aboard, got "constructor"
boat.json, sailPlans[1].sails[1]: expected the id of a sail aboard, got "__proto__"`,
    );
  });

  test('as a plan in the polars', async () => {
    const boat = readBoat(BOAT);
    const text = `${POLARS}__proto__,6,40,3\n__proto__,6,180,3\n`;
    expect(await messageOf(() => readPolars(text, { boat }))).toBe(
      'polars.csv, line 10, column sail_plan: expected the id of a sail plan of the boat, got "__proto__"',
    );
    expect(Object.keys(readPolars(text).plans)).toEqual(['main', 'reef1+jib', '__proto__']);
  });

  test('as ids of sails and plans, which work like any other', async () => {
    const renamed = (text: string) => text.replaceAll('"main', '"constructor').replaceAll('main,', 'constructor,');
    const plain = await sailed(BOAT, POLARS);
    const strange = await sailed(renamed(BOAT), renamed(POLARS));
    expect(strange).toBe(plain.replaceAll(/\bmain\b/g, 'constructor'));
    expect(plain).toContain('main');
  });

  test('a plan of such a name without a polar has none', async () => {
    const boat = readBoat(changed(BOAT, '"id": "reef1+jib"', '"id": "constructor"'));
    const polars = readPolars(POLARS.slice(0, POLARS.indexOf('reef1+jib')), { boat });
    const { forecast } = await read(FORECAST);
    const passage = planPassage({ route: readRoute(ROUTE), forecast, boat, polars }, { departure: TIMES[0]! });
    expect(describeFaults(passage.warnings)).toBe(
      'polars.csv, constructor: expected a polar for every sail plan, got none: this plan is never set',
    );
  });

  test('as the name of a file', () => {
    const fault: Fault = { file: '__proto__', line: 1, code: 'cell-count', expected: '4 cells', got: '3' };
    const faults = Array.from({ length: 22 }, () => fault);
    expect(describeFaults(faults).split('\n').slice(-2)).toEqual([
      '__proto__, line 1: expected 4 cells, got 3',
      '__proto__: and 2 more faults',
    ]);
    const text = `name,lat,lon\n${'Point,11\n'.repeat(1500)}`;
    expect(() => readRoute(text, '__proto__')).toThrow(/\n__proto__: and 1480 more faults$/);
  });
});

test('a damaged file gives a plan or its faults, never another error', async () => {
  const pieces = [
    '',
    '0',
    '-',
    '"',
    ',',
    ';',
    '\n',
    '\r',
    '\t',
    ' ',
    '.',
    'e',
    'NaN',
    '[',
    '}',
    ':',
    'null',
    '1e9',
    '-999',
    '180',
  ];
  const damage = fc.record({
    file: fc.constantFrom('route', 'forecast', 'boat', 'polars'),
    at: fc.double({ min: 0, max: 1, noNaN: true }),
    cut: fc.nat(4),
    piece: fc.constantFrom(...pieces),
  });
  const plan = async (texts: Readonly<Record<string, string>>) => {
    const boat = readBoat(texts.boat!);
    const { forecast } = await read(texts.forecast!);
    const inputs = { route: readRoute(texts.route!), forecast, boat, polars: readPolars(texts.polars!, { boat }) };
    return planPassage(inputs, { departure: TIMES[0]! });
  };
  await fc.assert(
    fc.asyncProperty(damage, async ({ file, at, cut, piece }) => {
      const texts: Record<string, string> = { route: ROUTE, forecast: FORECAST, boat: BOAT, polars: POLARS };
      const from = Math.floor(at * texts[file]!.length);
      texts[file] = texts[file]!.slice(0, from) + piece + texts[file]!.slice(from + cut);
      try {
        const passage = await plan(texts);
        // JSON has no NaN or infinity: they would come back as null.
        expect(JSON.parse(JSON.stringify(passage))).toEqual(passage);
      } catch (error) {
        if (!(error instanceof InputError)) throw error;
      }
    }),
    { numRuns: 400, seed: 20270110 },
  );
});

/** The hour log of the small passage with another boat. */
async function sailed(boatText: string, polarsText: string): Promise<string> {
  const boat = readBoat(boatText);
  const { forecast } = await read(FORECAST);
  const polars = readPolars(polarsText, { boat });
  const passage = planPassage({ route: readRoute(ROUTE), forecast, boat, polars }, { departure: TIMES[0]! });
  const totals = totalsOf(passage, boat);
  return hoursCsv(passage) + JSON.stringify(totals.sails) + JSON.stringify(totals.sailPlans);
}
