import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { readClaim } from './tools/claims.mjs';
import { exampleOf, examplesOf, run, typeFaultsOf } from './tools/examples.mjs';
import { publicNames } from './tools/publicNames.mjs';

const names = publicNames();
const examples = examplesOf(names);
const named = (list: readonly { readonly name: string; readonly place: string }[]) =>
  list.map(({ name, place }) => `${name} (${place})`);

describe('the reference', () => {
  test('it is found: what docs/api.txt lists, and no other name', () => {
    const listed = readFileSync('docs/api.txt', 'utf8').matchAll(/^(\w+)\nexport /gm);
    expect([...new Set(names.map(({ name }) => name))].sort()).toEqual(
      [...new Set([...listed].map(([, n]) => n!))].sort(),
    );
    expect(names.length).toBeGreaterThan(350);
  });

  test('every public name has a doc comment', () => {
    expect(named(names.filter(({ doc }) => doc.trim().length < 10))).toEqual([]);
  });

  test('every public function, class and constant has an example, in which it is used', () => {
    expect(named(names.filter(({ kind, examples }) => kind !== 'type' && examples.length === 0))).toEqual([]);
    expect(named(examples.filter(({ usesIt }) => !usesIt))).toEqual([]);
  });

  test('every word of the sample is explained with the package', () => {
    const comment = readFileSync('src/index.ts', 'utf8').split('*/')[0]!;
    const declared = readFileSync('tests/tools/exampleSample.d.mts', 'utf8').split('export interface Sample {')[1]!;
    const words = [...declared.matchAll(/^ {2}readonly (\w+):/gm)].map((match) => match[1]!);
    expect(words.length).toBeGreaterThan(20);
    expect(words.filter((word) => !new RegExp(`\`${word}(?:\\(name\\))?\``).test(comment))).toEqual([]);
  });

  test('examples compile as a consumer of the package compiles them', () => {
    expect(typeFaultsOf(examples)).toEqual([]);
  });

  test('every example runs, and what it claims is so', () => {
    const wrong = run(examples);
    expect(wrong.length).toBe(examples.length);
    expect(examples.flatMap(({ name, place }, i) => wrong[i]!.map((what) => `${name} (${place}): ${what}`))).toEqual(
      [],
    );
  }, 300_000);
});

describe('an example that is not so is found out', () => {
  const at = { name: 'beaufortOf', entry: 'windwardrobe', place: 'here' };
  const wrongIn = (...texts: readonly string[]) => run(texts.map((text) => exampleOf(names, at, text)));

  test.each([
    ['a wrong value', 'beaufortOf(18.4) // 6', /expected 6, got 5/],
    [
      'a wrong digit',
      'apparentWind(12, 90, 6) // { awsKn: 13.42…, awaDeg: … }',
      /\.awsKn: expected 13\.42…, got 13\.41/,
    ],
    ['no claim', 'beaufortOf(18.4)', /claims nothing/],
    ['a claim that is none', 'beaufortOf(18.4) // about five', /expected a value/],
    ['a claim with words behind it', 'beaufortOf(18.4) // 5, a fresh breeze', /expected the end/],
    ['an error', 'beaufort(18.4) // 5', /beaufort is not defined/],
    ['nothing thrown', 'beaufortOf(18.4) // throws boat.json…', /threw nothing/],
    ['another error', "readRoute('') // throws boat.json…", /thrown expected "boat\.json…"/],
    ['a claim where nothing has a value', 'if (true) {} // 5', /no value/],
  ])('%s', (_, text, expected) => {
    expect(wrongIn(text)[0]!.join()).toMatch(expected);
  });

  test('and the same without its fault is not', () => {
    const right = [
      'beaufortOf(18.4) // 5',
      'const { awsKn } = apparentWind(12, 90, 6);\nawsKn // 13.4…\nawsKn > 13 // true',
      "readRoute('') // throws route.csv…",
    ];
    expect(wrongIn(...right)).toEqual([[], [], []]);
  });

  test('a call that does not compile', () => {
    expect(typeFaultsOf([exampleOf(names, at, "beaufortOf('18') // 5")]).join()).toMatch(/here.*not assignable/);
  });
});

describe('claims', () => {
  test.each<[claim: string, holds: readonly unknown[], fails: readonly unknown[]]>([
    ['5', [5], [5.000001, '5', undefined]],
    ['-0.5…', [-0.5, -0.59999], [0.5, -0.6, -0.49]],
    ['12…', [12, 12.99], [13, 11.99, Number.NaN]],
    ['0.99…', [0.99, 0.9999999], [1, 0.98]],
    ["'a\\nb'", ['a\nb'], ['a', 'anb']],
    ["'ab…'", ['ab', 'abc'], ['cab', 5]],
    ["'…b…'", ['abc'], ['ac']],
    ["'…c'", ['abc'], ['abcd']],
    ['[1, 2]', [[1, 2], Float64Array.of(1, 2)], [[1], [1, 2, 3], [2, 1], '12']],
    ['[1, …]', [[1], [1, 2]], [[], [2, 1]]],
    [
      '[…, 1]',
      [[5, 1]],
      [
        [undefined, 1],
        [5, 2],
      ],
    ],
    ['[]', [[]], [[1], {}]],
    [
      "{ a: 1, 'b-c': null }",
      [
        { a: 1, 'b-c': null },
        { a: 1, 'b-c': null, d: undefined },
      ],
      [{ a: 1 }, { a: 1, 'b-c': null, d: 2 }],
    ],
    ['{ a: { b: 1, … }, … }', [{ a: { b: 1, c: 2 }, d: 3 }], [{ a: { c: 2 } }, { d: 3 }, null, []]],
    ['{ a: … }', [{ a: 0 }, { a: null }], [{}, { a: undefined }]],
    ['undefined', [undefined], [null, 0]],
    ['NaN', [Number.NaN], [0, undefined]],
    ['true', [true], [1, 'true']],
  ])('%s', (claim, holds, fails) => {
    for (const value of holds) expect(readClaim(claim)(value)).toBeUndefined();
    for (const value of fails) expect(readClaim(claim)(value)).toMatch(/^.*expected/);
  });

  test.each(['', '5 or so', '[1', '{ a }', "'a"])('%s is none', (text) => {
    expect(() => readClaim(text)).toThrow(/^claim .*: expected/);
  });
});
