import { readFileSync } from 'node:fs';
import { parseXml, XmlElement, type XmlNode, XmlText } from '@rgrove/parse-xml';
import { describe, expect, test } from 'vitest';
import {
  answersOf,
  type BestAngle,
  type Cell,
  type CellHole,
  type Crossover,
  crossoverOf,
  estimatePolars,
  readBoat,
  readPolars,
} from '../src/index.js';
import { plansShown } from '../src/report/crossover/plansShown.js';
import { widthOf, wrapped } from '../src/report/drawing/wrapped.js';
import { crossoverSvg } from '../src/report/report.js';

const kinds = (() => {
  const boat = readBoat(readFileSync('data-samples/kinds.json', 'utf8'));
  return crossoverOf(boat, estimatePolars(boat));
})();
const designed = (() => {
  const boat = readBoat(readFileSync('data-samples/boat.json', 'utf8'));
  return crossoverOf(boat, readPolars(readFileSync('data-samples/polars.csv', 'utf8'), { boat }));
})();

const HOLE: CellHole = { kind: 'code-zero', stwKn: 8, aboardKn: 5, slowerPercent: 37.5, certain: true };
const BEST: BestAngle = { twaDeg: 45, sailPlan: 'main', stwKn: 6, vmgKn: 4, awaDeg: 30, awsKn: 15 };

/** A crossover with the plan that is given for each wind at each angle, null for none. */
function made(
  twsKn: readonly number[],
  twaDeg: readonly number[],
  planAt: (column: number, row: number) => string | null,
  cellAt: (column: number, row: number) => Partial<Cell> = () => ({}),
): Crossover {
  const cells = twaDeg.flatMap((angle, row) =>
    twsKn.map((wind, column): Cell => {
      const nothing = { stwKn: null, awaDeg: null, awsKn: null, gustAwsKn: null };
      const unbeaten = { runnerUp: null, marginKn: null, marginPercent: null };
      const sailPlan = planAt(column, row);
      const cell = { twsKn: wind, twaDeg: angle, sailPlan, ...nothing, ...unbeaten, undecided: false, hole: null };
      return { ...cell, ...cellAt(column, row) };
    }),
  );
  return {
    formatVersion: 1,
    boat: 'Made up',
    status: 'measured',
    basis: [],
    options: { twsKn, twaDeg, gustFactor: 1.25, skipperFactor: 0.95, night: false, without: [], holePercent: 15 },
    cells,
    bestAngles: twsKn.map((wind) => ({ twsKn: wind, up: BEST, down: null })),
    sails: [],
    holes: [],
    withoutSail: [],
    holesUnknown: null,
  };
}

const steps = (count: number) => Array.from({ length: count }, (_, i) => 5 + i);

/** All elements of a text that must be well-formed, in order. */
function elementsOf(svg: string): readonly XmlElement[] {
  const root = parseXml(svg).root!;
  const below = (element: XmlElement): XmlElement[] => [
    element,
    ...element.children.flatMap((child: XmlNode) => (child instanceof XmlElement ? below(child) : [])),
  ];
  return below(root);
}

const named = (svg: string, name: string) => elementsOf(svg).filter((element) => element.name === name);
const within = (svg: string, group: string): readonly XmlElement[] =>
  elementsOf(svg)
    .filter(({ attributes }) => attributes.class === group)
    .flatMap((element) => element.children.filter((child): child is XmlElement => child instanceof XmlElement));

/** What stands on the page, its lines joined. */
const textOf = (svg: string) =>
  named(svg, 'text')
    .map(({ text }) => text)
    .join(' ');

/** Rectangles of the path of the area that is filled so: left, top, width, height. */
const rectanglesOf = (path: string) =>
  [...path.matchAll(/M([\d.]+),([\d.]+)h([\d.]+)v([\d.]+)h-[\d.]+Z/g)].map(
    ([, left, top, width, height]) => [Number(left), Number(top), Number(width), Number(height)] as const,
  );

/** The areas of the chart: the id of the pattern, and the rectangles. */
const areasOf = (svg: string) =>
  named(svg, 'path')
    .filter(({ attributes }) => attributes.fill?.startsWith('url(#'))
    .map(({ attributes }) => [attributes.fill!.slice(5, -1), rectanglesOf(attributes.d!)] as const);

const CASES: readonly (readonly [string, Crossover])[] = [
  ['speeds estimated', kinds],
  ['speeds designed', designed],
  ['one plan only', made(steps(4), [30, 60, 90], () => 'main')],
  ['no plan at all', made(steps(4), [30, 60, 90], () => null)],
  ['one wind at one angle', made([10], [90], () => 'main')],
  ['no cell', made([], [], () => null)],
  ['an uneven grid', made([4, 6, 16, 16.5, 40], [0, 1, 50, 180], (column, row) => `plan-${(column + row) % 3}`)],
  ['300 plans', made(steps(20), steps(15), (column, row) => `plan-${row * 20 + column}`)],
  [
    'no best angle',
    { ...designed, bestAngles: designed.bestAngles.map(({ twsKn }) => ({ twsKn, up: null, down: null })) },
  ],
];

describe.each(CASES)('%s', (_, crossover) => {
  const svg = crossoverSvg(crossover);

  test('is well-formed, stands alone, and says that it is an image of what', () => {
    const root = parseXml(svg).root!;
    expect(root.attributes).toMatchObject({ xmlns: 'http://www.w3.org/2000/svg', role: 'img' });
    expect(named(svg, 'title').map(({ text }) => text)).toEqual([`Crossover chart: ${crossover.boat}`]);
    expect(named(svg, 'desc')[0]!.text).toContain('Planning aid only: the skipper decides.');
    expect(named(svg, 'script').length + named(svg, 'foreignObject').length + named(svg, 'a').length).toBe(0);
    expect(svg).not.toMatch(/href|@import|url\((?!#)/);
  });

  test('is the same each time', () => {
    expect(crossoverSvg(structuredClone(crossover))).toBe(svg);
  });

  test('holds no number that is none, and no more than 2 decimals', () => {
    expect(svg.match(/NaN|undefined|Infinity|null|\[object/)).toBeNull();
    const numbers = elementsOf(svg).flatMap(({ attributes }) => Object.values(attributes).join(' '));
    expect(numbers.join(' ').match(/\d\.\d{3}\d*/)).toBeNull();
  });

  test('says both answers, on the page and to who cannot see it', () => {
    const { staysInTheBag, noSail } = answersOf(crossover);
    for (const text of [textOf(svg), named(svg, 'desc')[0]!.text]) {
      for (const answer of [...staysInTheBag, ...noSail]) expect(text).toContain(answer);
      expect(text).toContain('Which of my sails stays in the bag?');
      expect(text).toContain('Where have I no sail?');
    }
  });

  test('every cell with a plan is filled, once', () => {
    const areas = areasOf(svg).flatMap(([, rectangles]) => rectangles);
    const filled = areas.reduce((sum, [, , width, height]) => sum + width * height, 0);
    const frame = named(svg, 'rect').find(({ attributes }) => attributes.fill === 'none')!.attributes;
    const { cells, options } = crossover;
    const reach = (values: readonly number[], i: number) => {
      const [from, to] = [values[i - 1] ?? values[i]!, values[i + 1] ?? values[i]!];
      return values.length === 1 ? 1 : (to - from) / 2 / (values.at(-1)! - values[0]!);
    };
    const expected = cells.reduce((sum, { sailPlan }, i) => {
      const columns = options.twsKn.length;
      const share = reach(options.twsKn, i % columns) * reach(options.twaDeg, Math.floor(i / columns));
      return sailPlan === null ? sum : sum + share;
    }, 0);
    // A hundredth of a unit in each edge, from the rounding.
    expect(filled / (Number(frame.width) * Number(frame.height))).toBeCloseTo(expected, 3);
  });

  test('every reference is to one pattern that is there', () => {
    const ids = named(svg, 'pattern').map(({ attributes }) => attributes.id!);
    expect(new Set(ids).size).toBe(ids.length);
    for (const [, id] of svg.matchAll(/url\(#([^)]+)\)/g)) expect(ids).toContain(id);
  });
});

describe('plans', () => {
  test('40 have each a pattern of their own, 280 each another pattern or colour', () => {
    const fillsOf = (count: number) => {
      const crossover = made(steps(20), steps(count / 20), (column, row) => `plan-${row * 20 + column}`);
      return plansShown(crossover).map(({ fill }) => fill);
    };
    expect(new Set(fillsOf(40).map(({ motif }) => motif)).size).toBe(40);
    expect(new Set(fillsOf(280).map(({ motif, tint }) => `${motif.name} ${tint}`)).size).toBe(280);
    const drawings = fillsOf(40).map(({ motif: { name: _, ...drawn } }) => JSON.stringify(drawn));
    expect(new Set(drawings).size).toBe(40);
  });

  test.each([
    ['estimated', kinds],
    ['designed', designed],
  ] as const)('neighbours differ in pattern and in colour: %s', (__, crossover) => {
    const fills = new Map(plansShown(crossover).map(({ id, fill }) => [id, fill]));
    const columns = crossover.options.twsKn.length;
    let borders = 0;
    crossover.cells.forEach(({ sailPlan }, i) => {
      const right = (i + 1) % columns === 0 ? undefined : crossover.cells[i + 1];
      for (const near of [right, crossover.cells[i + columns]]) {
        const other = near?.sailPlan ?? null;
        if (sailPlan === null || other === null || other === sailPlan) continue;
        borders += 1;
        expect(fills.get(sailPlan)!.motif).not.toBe(fills.get(other)!.motif);
        expect(fills.get(sailPlan)!.tint).not.toBe(fills.get(other)!.tint);
      }
    });
    expect(borders).toBeGreaterThan(20);
  });

  test('the legend has them all, most used first, with their shares', () => {
    const crossover = made(steps(4), steps(3), (column, row) => (row === 0 ? null : column < 3 ? 'often' : 'seldom'));
    const legend = within(crossoverSvg(crossover), 'legend')
      .filter(({ name }) => name === 'text')
      .map(({ text }) => text);
    expect(legend).toEqual([
      'Fastest plan, share of the chart',
      ...['A', 'often', '50.0 %'],
      ...['B', 'seldom', '16.7 %'],
      ...['no plan makes way', '33.3 %'],
    ]);
    const all = within(crossoverSvg(kinds), 'legend').map(({ text }) => text);
    for (const { sailPlan } of kinds.cells) if (sailPlan !== null) expect(all).toContain(sailPlan);
  });

  test('are coded from A to Z and on with AA, each in its region', () => {
    const crossover = made(steps(7), steps(4), (column, row) => `plan-${row * 7 + column}`);
    const codes = within(crossoverSvg(crossover), 'codes').filter(({ name }) => name === 'text');
    expect(codes.map(({ text }) => text)).toEqual([...'ABCDEFGHIJKLMNOPQRSTUVWXYZ', 'AA', 'AB']);
  });

  test('codes lie in cells of their plan', () => {
    const svg = crossoverSvg(kinds);
    const areas = new Map(areasOf(svg));
    const fills = new Map(plansShown(kinds).map(({ code, fill }) => [code, fill.id]));
    const plates = within(svg, 'codes').filter(({ name }) => name === 'rect');
    const texts = within(svg, 'codes').filter(({ name }) => name === 'text');
    expect(texts.length).toBeGreaterThan(fills.size);
    texts.forEach(({ text }, i) => {
      const { x, y, width, height } = plates[i]!.attributes;
      const corners = [0, 1].flatMap((right) =>
        [0, 1].map((down) => [Number(x) + right * Number(width), Number(y) + down * Number(height)] as const),
      );
      for (const [cornerX, cornerY] of corners) {
        const isIn = areas
          .get(fills.get(text)!)!
          .some(
            ([left, top, wide, high]) =>
              cornerX >= left - 0.02 &&
              cornerX <= left + wide + 0.02 &&
              cornerY >= top - 0.02 &&
              cornerY <= top + high + 0.02,
          );
        expect(isIn, text).toBe(true);
      }
    });
  });
});

describe('marks', () => {
  const holed = made(
    steps(6),
    [40, 60, 80, 100],
    () => 'main',
    (column, row) => ({ hole: row === 1 && column > 1 ? HOLE : null, undecided: row === 3 }),
  );
  const hole = {
    cells: 4,
    twsKn: [7, 10],
    twaDeg: [60, 60],
    throughout: { twsKn: [7, 10], twaDeg: [60, 60] },
    awaDeg: [30, 40],
    kinds: ['code-zero'],
    deepest: { ...HOLE, twsKn: 8, twaDeg: 60, sailPlan: 'main' },
    certain: true,
  } as const;

  test('holes are outlined, numbered and told', () => {
    const svg = crossoverSvg({ ...holed, holes: [hole] });
    const marks = within(svg, 'holes');
    // Two columns in and at the end of the grid: half a column less at each side.
    const outline = marks.filter(({ name }) => name === 'path')[0]!.attributes.d!;
    const xs = [...outline.matchAll(/[ML]([\d.]+),/g)].map(([, x]) => Number(x));
    const frame = named(svg, 'rect').find(({ attributes }) => attributes.fill === 'none')!.attributes;
    expect(Math.max(...xs)).toBeCloseTo(Number(frame.x) + Number(frame.width), 1);
    expect(Math.min(...xs)).toBeCloseTo(Number(frame.x) + (1.5 / 5) * Number(frame.width), 1);
    expect(marks.filter(({ name }) => name === 'text').map(({ text }) => text)).toEqual(['1']);
    expect(textOf(svg)).toContain(
      '1 no good sail: a code-zero would make 8.0 kn, and what is aboard 5.0 (deepest at TWS 8, TWA 60)',
    );
    expect(textOf(svg)).toContain('No good sail: by the estimate every plan aboard is at least 15 % slower');
  });

  test('where nothing aboard makes way no percentage is told', () => {
    const nothing = { ...hole, deepest: { ...hole.deepest, aboardKn: 0 } };
    const svg = crossoverSvg({ ...holed, holes: [nothing] });
    expect(textOf(svg)).toContain('a code-zero would make 8.0 kn where no plan aboard makes way');
  });

  test('holes too small for a region are not shown, for nothing tells of them', () => {
    expect(within(crossoverSvg(holed), 'holes')).toEqual([]);
    expect(crossoverSvg(holed)).not.toContain('No good sail');
  });

  test('of many holes the largest are numbered and the rest counted', () => {
    const svg = crossoverSvg({ ...holed, holes: Array.from({ length: 12 }, () => hole) });
    expect(within(svg, 'holes').filter(({ name }) => name === 'text')).toHaveLength(9);
    expect(textOf(svg)).toContain('And 3 smaller, outlined and not numbered.');
  });

  test('undecided cells have a question mark each, where there is room', () => {
    const marks = (svg: string) => within(svg, 'undecided').filter(({ name }) => name === 'text');
    const svg = crossoverSvg(holed);
    expect(marks(svg).map(({ text }) => text)).toEqual(['?', '?', '?', '?', '?', '?']);
    expect(textOf(svg)).toContain('Undecided: another plan is the fastest');
    const dense = made(
      Array.from({ length: 200 }, (_, i) => 1 + i / 5),
      [40, 60],
      () => 'main',
      () => ({ undecided: true }),
    );
    expect(marks(crossoverSvg(dense)).length).toBeLessThan(150);
  });

  test('what is not there is not explained', () => {
    const text = textOf(crossoverSvg(made(steps(3), [40, 60], () => 'main')));
    expect(text).not.toMatch(/Undecided|No good sail|Best angle down/);
    expect(text).toContain('Best angle up');
  });

  test('best angles lie at their wind and angle, and the line breaks where there is none', () => {
    const crossover = made([10, 20, 30], [0, 180], () => 'main');
    const [first, , last] = crossover.bestAngles;
    const broken = { ...crossover, bestAngles: [first!, { twsKn: 20, up: null, down: null }, last!] };
    const svg = crossoverSvg(broken);
    const frame = named(svg, 'rect').find(({ attributes }) => attributes.fill === 'none')!.attributes;
    const [left, top, width, height] = ['x', 'y', 'width', 'height'].map((name) => Number(frame[name]));
    const marks = within(svg, 'best-angles');
    const circles = marks.filter(({ name }) => name === 'circle').map(({ attributes }) => attributes);
    expect(circles.map(({ cx }) => Number(cx))).toEqual([left, left! + width!]);
    for (const { cy } of circles) expect(Number(cy)).toBeCloseTo(top! + height! / 4, 1);
    expect(marks[0]!.attributes.d).not.toContain('L');
  });
});

describe('texts', () => {
  const hostile = '<script>"&\'\u202e\u0000\ud800\uffff</script>';

  test('hostile names and ids are escaped, and what cannot be seen is replaced', () => {
    const crossover: Crossover = {
      ...kinds,
      boat: hostile,
      basis: [hostile],
      holesUnknown: hostile,
      options: { ...kinds.options, without: [hostile] },
      cells: kinds.cells.map((cell) => ({ ...cell, sailPlan: cell.sailPlan === null ? null : hostile })),
      sails: kinds.sails.map((sail) => ({ ...sail, id: hostile, bestCells: 0 })),
    };
    const svg = crossoverSvg(crossover);
    expect(named(svg, 'title')[0]!.text).toBe('Crossover chart: <script>"&\' </script>');
    expect(named(svg, 'script')).toEqual([]);
    expect(svg).not.toMatch(/<script|[\p{Cc}\p{Cf}\p{Cs}\uffff]/u);
    const texts = elementsOf(svg).flatMap(({ children }) => children.filter((child) => child instanceof XmlText));
    expect(texts.filter(({ text }) => text.includes('<script>')).length).toBeGreaterThan(4);
  });

  test('speeds that are estimated are told to be', () => {
    expect(textOf(crossoverSvg(kinds))).toContain(`SPEEDS ARE ESTIMATED. ${kinds.basis[0]}`);
    const two = crossoverSvg({ ...kinds, basis: ['One. Two.', 'Three.'] });
    expect(textOf(two)).toContain('SPEEDS ARE ESTIMATED. One. Which');
    expect(textOf(crossoverSvg({ ...kinds, basis: [] }))).toContain('SPEEDS ARE ESTIMATED.');
    expect(crossoverSvg(designed)).not.toContain('SPEEDS ARE ESTIMATED');
  });

  test('what was assumed is told', () => {
    const crossover = made(steps(3), [40, 60], () => 'main');
    const day = textOf(crossoverSvg(crossover));
    expect(day).toContain('Gust factor 1.25:');
    expect(day).toContain('Skipper factor 0.95:');
    expect(day).toContain('By day:');
    expect(day).toContain('Sails left out: none.');
    const options = { ...crossover.options, night: true, without: ['code', 'vented'] };
    const night = textOf(crossoverSvg({ ...crossover, options }));
    expect(night).toContain('By night:');
    expect(night).toContain('Sails left out: code, vented.');
  });

  test('no line is wider than it may be, and no letter is lost', () => {
    const texts = ['', 'word', 'many short words in a row, and then more', `main+${'x'.repeat(200)}`, 'W'.repeat(200)];
    for (const text of texts) {
      const lines = wrapped(text, 100, 13);
      for (const line of lines) expect(widthOf(line, 13)).toBeLessThanOrEqual(100);
      expect(lines.join('').replace(/ /g, '')).toBe(text.replace(/ /g, ''));
    }
    expect(wrapped('main.2+poled-genoa-with-a-long-name', 150, 13)[0]).toMatch(/[+-]$/);
  });

  test('nothing stands below the page or beside it', () => {
    const long = `main+${'long-name-'.repeat(19)}`;
    const crossover = made(steps(20), steps(2), (column, row) => `${long}${row * 20 + column}`);
    const svg = crossoverSvg(crossover);
    const [, , width, height] = parseXml(svg).root!.attributes.viewBox!.split(' ').map(Number);
    for (const { attributes } of named(svg, 'text')) {
      expect(Number(attributes.x)).toBeLessThan(width!);
      expect(Number(attributes.y)).toBeLessThan(height!);
    }
  });
});

test('cells of an uneven grid reach half way to their neighbours', () => {
  const svg = crossoverSvg(made([4, 6, 16], [0, 20, 30], (column) => ['a', 'b', 'c'][column]!));
  const widths = areasOf(svg).map(([, rectangles]) => rectangles[0]![2]);
  expect(widths[1]! / widths[0]!).toBeCloseTo(6, 2);
  expect(widths[2]! / widths[0]!).toBeCloseTo(5, 2);
  const heights = areasOf(svg)[0]![1].map(([, , , height]) => height);
  expect(heights[1]! / heights[0]!).toBeCloseTo(1.5, 2);
  expect(heights[2]! / heights[0]!).toBeCloseTo(0.5, 2);
});
