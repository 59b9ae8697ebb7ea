import { mkdirSync, readdirSync } from 'node:fs';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { KINDS, kindOf, type Origin, SOURCES, sheetLoadKg } from '../src/catalogue/catalogue.js';
import { type Boat, type BoatFile, type Fault, readBoat, SAIL_KINDS, type SailKind } from '../src/index.js';
import { ran, workFolder } from './support/command.js';
import { FORECAST, ROUTE } from './support/small.js';

let work: ReturnType<typeof workFolder>;
beforeAll(() => {
  work = workFolder();
});
afterAll(() => work.leave());

/** What `boat show --json` prints. */
interface Shown {
  readonly formatVersion: number;
  readonly boat: Boat;
  readonly warnings: readonly Fault[];
  readonly sources: Readonly<Record<string, string>>;
}

const STATUSES = ['source', 'derived', 'common-practice', 'placeholder'];
/** What a terminal would obey or not show, line feeds aside. */
const UNSEEN = /[^\P{C}\n]|[\p{Zl}\p{Zp}]/u;

const write = (name: string, boat: unknown) => work.write({ [name]: `${JSON.stringify(boat)}\n` });

const boatOf = (sails: BoatFile['sails'], more: Partial<BoatFile> = {}): BoatFile => ({
  name: 'Test boat',
  hull: { type: 'catamaran' },
  sails,
  ...more,
});

/** Runs a command that is to succeed, and gives what it printed. */
async function printed(...args: readonly string[]): Promise<string> {
  const { code, out, error } = await ran(...args);
  expect([args, code, error]).toEqual([args, 0, '']);
  return out;
}

const shown = async (file: string) => JSON.parse(await printed('boat', 'show', file, '--json')) as Shown;

const showFile = async (name: string, boat: unknown) => {
  write(name, boat);
  return { text: await printed('boat', 'show', name), json: await shown(name) };
};

/** The line of a text that begins with these cells. */
const lineOf = (text: string, ...cells: readonly string[]) =>
  text.split('\n').filter((line) => cells.every((cell, i) => line.trim().split(/\s{2,}/)[i] === cell));

describe('boat show', () => {
  const KINDS_ONLY = boatOf(
    SAIL_KINDS.filter((kind) => !['square-top-main', 'pin-head-main', 'wing-sail'].includes(kind)).map((kind) => ({
      id: `my-${kindOf(kind).usualId}`,
      kind,
    })),
    { rig: { iM: 16, jM: 5, pM: 15, eM: 6 } },
  );

  test('as JSON: the whole boat with the status of each value, the warnings and the sources', async () => {
    const { json } = await showFile('kinds.json', KINDS_ONLY);
    expect(json.formatVersion).toBe(1);
    expect(json.boat).toEqual(readBoat(JSON.stringify(KINDS_ONLY)));
    expect(json.sources).toEqual(SOURCES);
    const origins: Origin[] = json.boat.sails.flatMap(({ derived = {} }) => Object.values(derived));
    expect(origins.length).toBeGreaterThan(300);
    for (const { status, source } of origins) {
      expect(STATUSES).toContain(status);
      if (source !== undefined) expect(json.sources).toHaveProperty(source);
    }
    expect(json.boat.sailPlans.every(({ derived }) => derived === true)).toBe(true);
  });

  test('its boat is a boat file', async () => {
    const { json } = await showFile('kinds.json', KINDS_ONLY);
    const again = await showFile('again.json', json.boat);
    expect(again.json).toEqual({ ...json, warnings: json.warnings.map((said) => ({ ...said, file: 'again.json' })) });
  });

  test('as text: every sail, every plan, every warning, a legend', async () => {
    const { text, json } = await showFile('kinds.json', KINDS_ONLY);
    for (const { id, kind } of json.boat.sails) expect([id, lineOf(text, id, kind).length]).toEqual([id, 1]);
    for (const { id, sails } of json.boat.sailPlans) {
      expect([id, lineOf(text, id, sails.join(', ') || 'none').length]).toEqual([id, 1]);
      expect(lineOf(text, id, sails.join(', ') || 'none')[0]).toMatch(/derived$/);
    }
    expect(json.warnings.length).toBeGreaterThan(5);
    for (const { path } of json.warnings) expect(text).toContain(`kinds.json, ${path}: `);
    for (const word of ['placeholder', 'common practice', 'derived', 'source']) expect(text).toContain(word);
    expect(text).not.toMatch(/undefined|NaN|\[object|null/);
  });

  test('letters stand behind what was filled in and not behind what was given', async () => {
    const { text } = await showFile(
      'own.json',
      boatOf([
        {
          id: 'main',
          kind: 'full-roach-main',
          areaM2: 61,
          window: { awaMinDeg: 33, awsMaxKn: 30 },
          reefs: [{ areaShare: 0.5 }],
        },
      ]),
    );
    const [main, reef] = [lineOf(text, 'main', 'full-roach-main')[0]!, lineOf(text, 'main:1')[0]!];
    expect(main).toMatch(/\b61(?![\dcdps])/);
    expect(main).toMatch(/\b33(?![\dcdps])/);
    expect(main).toMatch(/\b180c/);
    expect(main).toMatch(/\b30(?![\dcdps])/);
    expect(main).toMatch(/\b30d/);
    expect(reef).toMatch(/\b30\.5(?![\dcdps])/);
    expect(reef).toMatch(/\b40d/);
  });

  test('what is left by a reef has a letter where the share or the area was filled in', async () => {
    const main = { id: 'main', kind: 'full-roach-main' } as const;
    const reefOf = async (boat: BoatFile) => lineOf((await showFile('reef.json', boat)).text, 'main:1')[0]!;
    expect(await reefOf(boatOf([main]))).toMatch(/0\.78 ?p/);
    // The whole main has 0.5 · 15 · 6 · 1.2 = 54 m².
    const rig = { pM: 15, eM: 6 };
    expect(await reefOf(boatOf([{ ...main, reefs: [{ areaShare: 0.5 }] }], { rig }))).toMatch(/\b27(?:\.0)? ?[dp]\b/);
  });

  test('a plan is not shown to stand at every angle what a sail of it stands at one only', async () => {
    const sails: BoatFile['sails'] = [
      {
        id: 'code',
        kind: 'code-zero',
        window: {
          awsMaxKn: [
            [45, 11],
            [130, 29],
          ],
        },
      },
    ];
    const { text } = await showFile('angles.json', boatOf(sails));
    for (const cells of [
      ['code', 'code-zero'],
      ['code', 'code'],
    ]) {
      expect(lineOf(text, ...cells)[0]).toMatch(/\b11\b.*\b29\b/);
    }
  });

  test('plans in the file are not called derived', async () => {
    const own = boatOf([{ id: 'main', kind: 'pin-head-main' }], { sailPlans: [{ id: 'all', sails: ['main:2'] }] });
    const { text } = await showFile('plans.json', own);
    expect(lineOf(text, 'all', 'main:2')[0]).not.toMatch(/derived/);
  });

  test('without rig, areas, limits or handling', async () => {
    const none = { awsMinKn: null, awsMaxKn: null, twsMaxKn: null };
    const { text } = await showFile(
      'bare.json',
      boatOf([
        {
          id: 'main',
          kind: 'pin-head-main',
          window: none,
          reefs: [{ areaShare: 0.5, awsMaxKn: null, twsMaxKn: null }],
        },
        { id: 'gennaker', kind: 'gennaker', window: none },
      ]),
    );
    expect(text).not.toMatch(/undefined|NaN|null|Infinity/);
    expect(text).toContain('main:1');
  });

  test('an operation given in part, of a kind that has none such, is shown or told', async () => {
    const sails = [
      { id: 'jib', kind: 'self-tacking-jib', operations: { set: { day: { minutes: 5 } } } },
      { id: 'storm', kind: 'storm-jib', operations: { reef: {} } },
      { id: 'code', kind: 'code-zero', operations: { shakeOut: { night: {} } } },
    ];
    for (const sail of sails) {
      write('part.json', boatOf([sail as BoatFile['sails'][number]]));
      const { code, out, error } = await ran('boat', 'show', 'part.json');
      expect([sail.id, error.includes('a bug')]).toEqual([sail.id, false]);
      expect([0, 2]).toContain(code);
      expect(out).not.toMatch(/undefined/);
      if (code === 2) expect(error).toContain('operations');
    }
  });

  test('sheet loads are those of the rule', async () => {
    const { text } = await showFile(
      'loads.json',
      boatOf([
        { id: 'jib', kind: 'self-tacking-jib', areaM2: 40, window: { awsMaxKn: 30 } },
        { id: 'gennaker', kind: 'gennaker', areaM2: 100, window: { awsMaxKn: 20 } },
      ]),
    );
    expect(lineOf(text, 'jib')[0]).toContain(sheetLoadKg(40, 30).toFixed(0));
    expect(lineOf(text, 'gennaker')[0]).toContain((sheetLoadKg(100, 20) / 2).toFixed(0));
  });

  test('names with markup or unseen characters do no harm', async () => {
    const names = [
      ...['<script>alert(1)</script>', '**bold** | `code` [a](b)', '%s %d $& \\n', '{{name}}', '"quoted"', "'; --"],
      ...['\u001b[31mred\u001b[0m', 'a\nsails\nb', 'a\r\u0007\u0000b', '\u202eright to left', '\u009b31m', 'a\u2028b'],
      ...['zero\u200bwidth\u200djoined\ufeff', 'toString', '__proto__', '\u{1f9ed} 航海 Ñandú', ' '],
    ];
    for (const name of names) {
      const { text, json } = await showFile('name.json', boatOf([{ id: 'main', kind: 'pin-head-main' }], { name }));
      expect(json.boat.name).toBe(name);
      expect([name, UNSEEN.test(text)]).toEqual([name, false]);
      // The name stays on its line.
      expect(text.split('\n')[0]).toContain('catamaran');
      // JSON that a terminal shows holds them as escapes.
      expect([name, UNSEEN.test(await printed('boat', 'show', 'name.json', '--json'))]).toEqual([name, false]);
      expect([name, UNSEEN.test(await printed('boat', 'new', '--name', name))]).toEqual([name, false]);
    }
  });

  test('any name that is read', async () => {
    await fc.assert(
      fc.asyncProperty(fc.string({ unit: 'grapheme', minLength: 1, maxLength: 40 }), async (name) => {
        const { text, json } = await showFile('any.json', boatOf([{ id: 'main', kind: 'pin-head-main' }], { name }));
        expect(json.boat.name).toBe(name);
        expect(text.split('\n')[0]).toContain('catamaran');
      }),
      { numRuns: 40 },
    );
  });

  test('bad files', async () => {
    work.write({ 'no.json': '{"name": ', 'list.json': '[]', 'route.csv': ROUTE });
    write('kite.json', boatOf([{ id: 'it', kind: 'gennakker' as SailKind }]));
    write('part.json', boatOf([{ id: 'it', kind: 'gennaker', window: { awaMaxDeg: 60 } }]));
    for (const [file, said] of [
      ['absent.json', /^absent\.json: expected a file that can be read, got no such file\n$/],
      ['no.json', /^no\.json, line 1: expected a JSON text/],
      ['list.json', /^list\.json/],
      ['route.csv', /^route\.csv/],
      ['.', /^\.: expected a file that can be read, got a folder\n$/],
      ['kite.json', /^kite\.json, sails\[0\]\.kind: .*did you mean "gennaker"/],
      ['part.json', /^part\.json, sails\[0\]\.window\.awaMaxDeg: .*70.*gennaker/],
    ] as const) {
      for (const args of [[], ['--json']]) {
        const { code, out, error } = await ran('boat', 'show', file, ...args);
        expect([file, code, out]).toEqual([file, 2, '']);
        expect(error).toMatch(said);
      }
    }
  });

  test('usage', async () => {
    for (const args of [['show'], ['show', 'a', 'b'], ['show', 'a', '--yaml'], ['sail'], []]) {
      const { code, out } = await ran('boat', ...args);
      expect([args, code, out]).toEqual([args, 2, '']);
    }
    expect((await ran('boat', 'show', '--help')).code).toBe(0);
    expect((await ran('boat', 'new', '--help')).out).toContain('--inner-forestay');
  });
});

describe('boat new', () => {
  /** A starting file is read, says in comments what to do, and can be shown. */
  async function checkStarting(text: string): Promise<Shown> {
    const file = JSON.parse(text) as BoatFile;
    expect(text.endsWith('}\n')).toBe(true);
    const boat = readBoat(text);
    for (const part of [file, file.hull, file.rig!, ...file.sails]) {
      expect([part.comment].flat().join('').length).toBeGreaterThan(20);
    }
    expect(file.sailPlans).toBeUndefined();
    expect(file.sails.every(({ window, areaM2 }) => window === undefined && areaM2 === undefined)).toBe(true);
    expect(boat.sailPlans.length).toBeGreaterThan(1);
    work.write({ 'shown.json': text });
    const out = await printed('boat', 'show', 'shown.json');
    for (const { id } of boat.sails) expect(out).toContain(id);
    return shown('shown.json');
  }

  test('every combination of options', async () => {
    const choices: readonly (readonly string[])[][] = [
      [[], ['--hull', 'catamaran'], ['--hull', 'monohull']],
      [[], ['--name', 'Sea "Cat" \\ <b>']],
      [[], ['--crew', '3']],
      [[], ['--rig', '17.2,5.1,16.5,6']],
      [[], ['--sprit', '1.5', '--pole', '4.7']],
      [[], ['--inner-forestay']],
      [[], ['--sail', 'gennaker'], ['--sail', 'pin-head-main', '--sail', 'overlapping-genoa', '--sail', 'storm-jib']],
    ];
    const combinations = choices.reduce<readonly (readonly string[])[]>(
      (all, options) => all.flatMap((before) => options.map((option) => [...before, ...option])),
      [[]],
    );
    expect(combinations).toHaveLength(288);
    for (const [i, args] of combinations.entries()) {
      const text = await printed('boat', 'new', ...args);
      const file = JSON.parse(text) as BoatFile;
      const has = (option: string) => args.includes(option);
      expect(file.hull.type).toBe(has('monohull') ? 'monohull' : 'catamaran');
      if (has('--name')) expect(file.name).toBe('Sea "Cat" \\ <b>');
      expect(file.crew).toBe(has('--crew') ? 3 : undefined);
      const { comment: _, ...rig } = file.rig!;
      expect(rig).toEqual({
        ...(has('--rig') ? { iM: 17.2, jM: 5.1, pM: 16.5, eM: 6 } : {}),
        ...(has('--sprit') ? { spritM: 1.5, poleM: 4.7 } : {}),
        ...(has('--inner-forestay') ? { innerForestay: true } : {}),
      });
      const kinds = args.filter((_, k) => args[k - 1] === '--sail');
      if (kinds.length > 0) expect(file.sails.map(({ kind }) => kind)).toEqual(kinds);
      const { boat } = await checkStarting(text);
      if (has('--rig')) expect(boat.sails.filter(({ areaM2 }) => areaM2 === undefined)).toEqual([]);
      // Written to a file it is the same text.
      const written = await printed('boat', 'new', ...args, '--out', `boat-${i}.json`);
      expect(written).toContain(`boat-${i}.json`);
      expect(work.read(`boat-${i}.json`)).toBe(text);
    }
  });

  test('every kind, alone and twice', async () => {
    for (const kind of SAIL_KINDS) {
      await checkStarting(await printed('boat', 'new', '--sail', kind));
      const { boat } = await checkStarting(await printed('boat', 'new', '--sail', kind, '--sail', kind));
      const { usualId } = kindOf(kind);
      expect(boat.sails.map(({ id }) => id).slice(0, 2)).toEqual([usualId, `${usualId}-2`]);
    }
  });

  test('two mains have ids of their own', async () => {
    const text = await printed('boat', 'new', '--sail', 'pin-head-main', '--sail', 'square-top-main');
    expect((JSON.parse(text) as BoatFile).sails.map(({ id }) => id)).toEqual(['main', 'main-2']);
  });

  test('keys that comments offer are those of a sail of the kind', async () => {
    const values: Readonly<Record<string, unknown>> = {
      areaM2: 30,
      roachFactor: 1.2,
      overlapPercent: 120,
      midGirthRatio: 0.6,
      window: { awsMinKn: 1 },
      reefs: [{ areaShare: 0.5 }],
      setBy: 'halyard',
      daylightOnly: true,
      luffM: 12,
      lpM: 4,
      halfWidthM: 3,
      footM: 5,
    };
    for (const kind of SAIL_KINDS) {
      const [sail] = (JSON.parse(await printed('boat', 'new', '--sail', kind)) as BoatFile).sails;
      const offered = Object.keys(values).filter((key) => new RegExp(`\\b${key}\\b`).test(`${sail!.comment}`));
      expect(offered).toEqual(expect.arrayContaining(['areaM2', 'window']));
      const own = Object.fromEntries(offered.map((key) => [key, values[key]]));
      expect(() => readBoat(JSON.stringify(boatOf([{ ...sail!, ...own }])))).not.toThrow();
    }
  });

  test.each([
    ['--hull', ['--hull', 'trimaran'], /--hull/],
    ['--crew, none', ['--crew', '0'], /--crew.*1 to 100/],
    ['--crew, a word', ['--crew', 'three'], /--crew/],
    ['--crew, half a hand', ['--crew', '2.5'], /crew.*whole number/],
    ['--crew, nothing', ['--crew', ''], /--crew/],
    ['--rig, three lengths', ['--rig', '17,5,16'], /--rig.*I,J,P,E/],
    ['--rig, decimal commas', ['--rig', '17,2,5,1,16,5,6,0'], /--rig/],
    ['--rig, a word', ['--rig', '17,5,high,6'], /--rig.*high/],
    ['--rig, nothing', ['--rig', ''], /--rig/],
    ['--rig, beyond', ['--rig', '17,5,16,101'], /--rig/],
    ['--rig, within the option but no rig', ['--rig', '0.7,5,16,6'], /rig/],
    ['--rig, a base beyond', ['--rig', '17,60,16,6'], /rig/],
    ['--sprit', ['--sprit', '21'], /--sprit.*0 to 20/],
    ['--sprit, negative', ['--sprit=-1'], /--sprit/],
    ['--pole', ['--pole', 'NaN'], /--pole.*0 to 50/],
    ['--pole, endless', ['--pole', 'Infinity'], /--pole/],
    ['--sail', ['--sail', 'gennakker'], /--sail.*did you mean "gennaker"/],
    ['--sail, nothing', ['--sail', ''], /--sail/],
    ['--out, nothing', ['--out', ' '], /--out/],
    ['--name, too long', ['--name', 'x'.repeat(201)], /name.*200/],
    ['--name, nothing', ['--name', ''], /name/],
    ['an unknown option', ['--keel', '2'], /--keel/],
    ['a word too many', ['mine.json'], /argument/],
    ['more sails than a boat has', Array.from({ length: 101 }, () => ['--sail', 'gennaker']).flat(), /--sail.*100/],
    ['more plans than follow', Array.from({ length: 60 }, () => ['--sail', 'pin-head-main']).flat(), /--sail.*200/],
  ])('%s', async (_, args, said) => {
    const before = readdirSync('.');
    const withFile = args.includes('--out') ? args : [...args, '--out', 'new.json'];
    for (const given of [args, withFile]) {
      const { code, out, error } = await ran('boat', 'new', ...given);
      expect([code, out]).toEqual([2, '']);
      expect(error).toMatch(said);
      expect(error).not.toMatch(/a bug/);
    }
    expect(readdirSync('.')).toEqual(before);
  });

  test('all that is wrong at once', async () => {
    const { code, error } = await ran('boat', 'new', '--crew', '0', '--rig', '1', '--sprit', 'x', '--sail', 'kite');
    expect(code).toBe(2);
    for (const option of ['--crew', '--rig', '--sprit', '--sail']) expect(error).toContain(`${option}: expected`);
  });

  test('a file that is there is not touched', async () => {
    work.write({ 'there.json': 'mine' });
    const before = readdirSync('.');
    const { code, out, error } = await ran('boat', 'new', '--out', 'there.json');
    expect([code, out]).toEqual([1, '']);
    expect(error).toBe('there.json: cannot be written to: a file of that name in the way\n');
    expect(work.read('there.json')).toBe('mine');
    expect(readdirSync('.')).toEqual(before);
    // Bad options are told before anything is looked at.
    expect((await ran('boat', 'new', '--crew', 'x', '--out', 'there.json')).code).toBe(2);
  });

  test('places that take no file', async () => {
    mkdirSync('folder');
    work.write({ plain: 'mine' });
    for (const [out, why] of [
      ['missing/boat.json', 'no such f'],
      ['folder', 'a f'],
      ['plain/boat.json', 'a file where a folder is needed'],
    ] as const) {
      const said = await ran('boat', 'new', '--out', out);
      expect([out, said.code, said.out]).toEqual([out, 1, '']);
      expect(said.error).toMatch(new RegExp(`^${out}: cannot be written to: ${why}`));
    }
    expect(work.exists('missing')).toBe(false);
    expect(readdirSync('folder')).toEqual([]);
    expect(work.read('plain')).toBe('mine');
  });

  test('a missing folder is called one', async () => {
    const { error } = await ran('boat', 'new', '--out', 'missing/boat.json');
    expect(error).toContain('folder');
  });
});

describe('sails', () => {
  /** Every figure of a part: what has a value has a status. */
  function figuresOf(part: unknown): { value: unknown; status: unknown; source?: unknown }[] {
    if (typeof part !== 'object' || part === null) return [];
    if ('value' in part) return [part as { value: unknown; status: unknown }];
    return Object.values(part).flatMap(figuresOf);
  }

  /** Numbers that stand outside of a figure, by their path. */
  function looseNumbers(part: unknown, path: string): string[] {
    if (typeof part === 'number') return [path];
    if (typeof part !== 'object' || part === null || 'value' in part) return [];
    return Object.entries(part).flatMap(([key, inner]) => looseNumbers(inner, `${path}.${key}`));
  }

  test('as JSON: every kind, every number with its status', async () => {
    const { formatVersion, kinds, sources } = JSON.parse(await printed('sails', '--json'));
    expect(formatVersion).toBe(1);
    expect(kinds.map(({ kind }: { kind: string }) => kind).sort()).toEqual([...SAIL_KINDS].sort());
    expect(sources).toEqual(SOURCES);
    for (const entry of kinds) {
      const figures = figuresOf(entry);
      expect(figures.length).toBeGreaterThan(10);
      for (const { status, source } of figures) {
        expect(STATUSES).toContain(status);
        if (status === 'source') expect(source).toBeDefined();
        if (source !== undefined) expect(sources).toHaveProperty(`${source}`);
      }
      // Which reef a headsail goes with is a count, no measure.
      expect(looseNumbers(entry, entry.kind).filter((path) => !path.includes('withMainReefs'))).toEqual([]);
    }
  });

  test.each(SAIL_KINDS)('%s alone', async (kind) => {
    const { kinds } = JSON.parse(await printed('sails', kind, '--json'));
    expect(kinds).toEqual([JSON.parse(JSON.stringify(KINDS.find((entry) => entry.kind === kind)))]);
    const text = await printed('sails', kind);
    expect(text).toContain(kind);
    const { window } = kindOf(kind);
    for (const { value } of [window.awaMinDeg, window.awaMaxDeg]) expect(text).toContain(`${value}°`);
    expect(text).not.toMatch(/undefined|NaN|\[object/);
    // Each source that is named is listed.
    const named = new Set(text.match(/\bS\d+\b/g) ?? []);
    for (const id of named) expect(text).toContain(SOURCES[id as keyof typeof SOURCES]);
  });

  test('as a table: a row a kind', async () => {
    const text = await printed('sails');
    for (const kind of SAIL_KINDS) expect([kind, lineOf(text, kind).length]).toEqual([kind, 1]);
    expect(text).not.toMatch(/undefined|NaN|\[object/);
  });

  test('an unknown kind', async () => {
    for (const args of [[], ['--json']]) {
      const { code, out, error } = await ran('sails', 'genaker', ...args);
      expect([code, out]).toEqual([2, '']);
      expect(error).toContain('did you mean "gennaker"');
    }
    for (const kind of ['', 'constructor', '__proto__', 'GENNAKER', ' gennaker', '\u001b[31m']) {
      const { code, error } = await ran('sails', kind);
      expect([kind, code]).toEqual([kind, 2]);
      expect(UNSEEN.test(error)).toBe(false);
    }
    expect((await ran('sails', 'gennaker', 'code-zero')).code).toBe(2);
  });
});

describe('a plan', () => {
  const args = (boat: string) => [
    ...['plan', '--route', 'route.csv', '--forecast', 'forecast.csv', '--boat', boat],
    ...['--depart', '2027-01-10T00:00Z', '--out', 'out'],
  ];

  test('of a starting file, which has no polars yet', async () => {
    work.write({ 'route.csv': ROUTE, 'forecast.csv': FORECAST });
    await printed('boat', 'new', '--out', 'start.json');
    const { code, out, error } = await ran(...args('start.json'));
    expect([code, out]).toEqual([2, '']);
    expect(error).toMatch(
      /^start\.json, hull\.waterlineM: expected a value: where there are no polars, speeds are estimated from it, got nothing$/m,
    );
    expect(work.exists('out')).toBe(false);
  });

  test('with polars for the plans that boat show lists', async () => {
    work.write({ 'route.csv': ROUTE, 'forecast.csv': FORECAST });
    const start = JSON.parse(await printed('boat', 'new', '--hull', 'monohull')) as BoatFile;
    write('mine.json', { ...start, polars: 'polars.csv' });
    const { boat } = await shown('mine.json');
    const rows = boat.sailPlans.flatMap(({ id, sails }) =>
      [5, 60].flatMap((tws) => [0, 180].map((twa) => `${id},${tws},${twa},${5 + sails.length}`)),
    );
    work.write({ 'polars.csv': `sail_plan,tws_kn,twa_deg,stw_kn\n${rows.join('\n')}\n` });
    const out = await printed(...args('mine.json'));
    expect(out).toMatch(/filled in/);
    expect(out).toMatch(/placeholder/);
    const plan = JSON.parse(work.read('out/plan.json'));
    expect(plan.complete).toBe(true);
    expect(plan.wardrobe).toEqual({ sails: boat.sails, sailPlans: boat.sailPlans });
    const said = await printed('check', 'mine.json', 'out/plan.json');
    expect(said).toContain('mine.json');
    expect(said).toContain('out/plan.json');
  });

  test('with polars for some plans only, the others are told', async () => {
    work.write({ 'route.csv': ROUTE, 'forecast.csv': FORECAST });
    const start = JSON.parse(await printed('boat', 'new')) as BoatFile;
    write('some.json', { ...start, polars: { 'main.1+jib': 'wide.csv' } });
    work.write({ 'wide.csv': 'twa,5,60\n0,5,5\n180,6,6\n' });
    const { code, out, error } = await ran(...args('some.json'));
    expect([code, error]).toEqual([0, '']);
    expect(out).toMatch(/a polar for every sail plan that follows/);
    write('some.json', { ...start, polars: { 'main:1+jib': 'wide.csv' } });
    const wrong = await ran(...args('some.json'));
    expect(wrong.code).toBe(2);
    expect(wrong.error).toMatch(/polars\.main:1\+jib: .*did you mean "main\.1\+jib"/);
  });
});
