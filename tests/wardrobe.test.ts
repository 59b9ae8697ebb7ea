import fc from 'fast-check';
import { describe, expect, test, vi } from 'vitest';
import { checkCompleteBoat, settingOf } from '../src/boat/boat.js';
import { codeSailOf, genoaOf, kindOf, OPERATIONS, SOURCES } from '../src/catalogue/catalogue.js';
import { faultList } from '../src/errors.js';
import {
  type Boat,
  type BoatFile,
  completeBoat,
  describeFault,
  InputError,
  type PolarSet,
  planJson,
  planMarkdown,
  planPassage,
  readBoat,
  SAIL_KINDS,
  type Sail,
  type SailGiven,
  type SailKind,
  totalsOf,
  totalsText,
  wardrobeWarnings,
} from '../src/index.js';
import { readPlan } from '../src/node/node.js';
import { isoUtc } from '../src/time.js';
import { faultsOf } from './support/faults.js';
import { everyHours, forecastOf, LATS, LONS, steadyWind, T0, WEST } from './support/synthetic.js';

const RIG = { iM: 16, jM: 5, pM: 15, eM: 6 };

/** A boat of sails, each a kind or more. */
const boatOf = (sails: readonly (SailKind | SailGiven)[], more: Partial<BoatFile> = {}): BoatFile => ({
  name: 'Test boat',
  hull: { type: 'catamaran' },
  sails: sails.map((sail) => (typeof sail === 'string' ? { id: kindOf(sail).usualId, kind: sail } : sail)),
  ...more,
});

const completed = (...given: Parameters<typeof boatOf>): Boat => completeBoat(boatOf(...given));

/** One sail, completed. */
const sailOf = (kind: SailKind, given: Partial<SailGiven> = {}, more: Partial<BoatFile> = {}): Sail =>
  completed([{ id: 'it', kind, ...given }], more).sails[0]!;

const planIds = (...given: Parameters<typeof boatOf>) => completed(...given).sailPlans.map(({ id }) => id);

const faultsOfBoat = (...given: Parameters<typeof boatOf>) => faultsOf(() => completeBoat(boatOf(...given)));

const warningsOf = (...given: Parameters<typeof boatOf>) => wardrobeWarnings(completed(...given)).map(describeFault);

/** Every value of a record by its path; a limit by angle is one value. */
function leavesOf(value: unknown, path = ''): [path: string, value: unknown][] {
  if (Array.isArray(value)) {
    return value.length > 0 && value.every((item) => typeof item === 'object' && !Array.isArray(item))
      ? value.flatMap((item, i) => leavesOf(item, `${path}[${i}]`))
      : [[path, value]];
  }
  if (typeof value !== 'object' || value === null) return [[path, value]];
  return Object.entries(value).flatMap(([key, part]) => leavesOf(part, path === '' ? key : `${path}.${key}`));
}

const sailLeaves = ({ derived: _, comment: __, ...sail }: Partial<SailGiven> | Sail) => leavesOf(sail);

/** Every number of a value, however deep. */
function numbersOf(value: unknown): number[] {
  if (typeof value === 'number') return [value];
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(numbersOf) : [];
}

// Ids that read like reefs of others, like plans of several sails or like bare poles, and what every object has.
const AWKWARD_IDS = [
  ...['main', 'main.1', 'main.1-2', 'main.2', 'jib', 'main+jib', 'main.1+jib', 'a', 'b', 'a+b', 'a.1', 'bare-poles'],
  ...['bare-poles-2', 'poled-jib', 'poled-main', 'poled-poled-jib', '0', '1', '1.1', 'constructor', 'a+', 'a-2', '7+7'],
];
const id = fc.oneof(
  { weight: 8, arbitrary: fc.constantFrom(...AWKWARD_IDS) },
  { weight: 4, arbitrary: fc.stringMatching(/^[a-z0-9][a-z0-9+._-]{0,8}$/) },
  { weight: 1, arbitrary: fc.stringMatching(/^[a-z0-9][a-z0-9+._-]{120}$/) },
);

const degrees = (min: number, max: number) => fc.integer({ min: min * 2, max: max * 2 }).map((half) => half / 2);
const knots = fc.integer({ min: 10, max: 2000 }).map((tenths) => tenths / 10);
const someLimit = fc.oneof(
  { weight: 4, arbitrary: knots },
  { weight: 1, arbitrary: fc.constant(null) },
  {
    weight: 1,
    arbitrary: fc
      .tuple(degrees(20, 90), knots, degrees(91, 180), knots)
      .map(([near, low, wide, high]): [number, number][] => [
        [near, low],
        [wide, high],
      ]),
  },
);
const noOrKnots = fc.oneof({ weight: 4, arbitrary: knots }, { weight: 1, arbitrary: fc.constant(null) });

const anyWindow = fc.record(
  {
    awaMinDeg: fc.oneof({ weight: 4, arbitrary: degrees(0, 60) }, { weight: 1, arbitrary: degrees(0, 180) }),
    awaMaxDeg: fc.oneof({ weight: 4, arbitrary: degrees(150, 180) }, { weight: 1, arbitrary: degrees(0, 180) }),
    awsMinKn: fc.oneof(fc.integer({ min: 0, max: 12 }), fc.constant(null)),
    awsMaxKn: someLimit,
    twsMaxKn: noOrKnots,
  },
  { requiredKeys: [] },
);
const anyReef = fc.record(
  { areaShare: fc.constant(0.5), awaMinDeg: degrees(0, 100), awsMaxKn: someLimit, twsMaxKn: noOrKnots },
  { requiredKeys: ['areaShare'] },
);
const anyReefs = fc
  .oneof(fc.array(anyReef, { maxLength: 3 }), fc.array(anyReef, { minLength: 9, maxLength: 9 }))
  .map((reefs) => reefs.map((reef, i) => ({ ...reef, areaShare: Math.round(100 - (i + 1) * 9) / 100 })));
const effort = fc.record(
  {
    minutes: fc.nat(600),
    hands: fc.integer({ min: 1, max: 20 }),
    keptShare: fc.integer({ min: 0, max: 10 }).map((tenths) => tenths / 10),
  },
  { requiredKeys: [] },
);
const anyOperations = fc.dictionary(
  fc.constantFrom(...OPERATIONS),
  fc.record({ day: effort, night: effort }, { requiredKeys: [] }),
  { maxKeys: 3, noNullPrototype: true },
);

const FLYING = SAIL_KINDS.filter((kind) => kindOf(kind).place === 'flying');
const measures = {
  overlapPercent: fc.integer({ min: 100, max: 150 }),
  roachFactor: fc.constantFrom(0.9, 1.1, 1.6),
  luffM: fc.integer({ min: 4, max: 30 }),
  lpM: fc.integer({ min: 1, max: 9 }),
  halfWidthM: fc.integer({ min: 20, max: 35 }).map((tenths) => tenths / 10),
  footM: fc.integer({ min: 40, max: 50 }).map((tenths) => tenths / 10),
  midGirthRatio: fc.integer({ min: 50, max: 75 }).map((percent) => percent / 100),
};
type Measure = keyof typeof measures;

/** The measures a kind takes. */
function measuresOf(kind: SailKind): readonly Measure[] {
  const { place } = kindOf(kind);
  if (place === 'mast') return ['roachFactor'];
  if (place === 'flying') return ['midGirthRatio', 'halfWidthM', 'footM'];
  const onStay: readonly Measure[] = ['luffM', 'lpM', 'halfWidthM'];
  if (kind === 'overlapping-genoa') return [...onStay, 'overlapPercent'];
  return ['forestay', 'inner-stay', 'storm-stay'].includes(place) ? onStay : [];
}

const anySail = fc
  .record({
    id,
    kind: fc.constantFrom(...SAIL_KINDS),
    measures: fc.record(measures, { requiredKeys: [] }),
    // Most sails of an owner's first file say nothing.
    isBare: fc.nat(2).map((n) => n > 0),
    cloth: fc.oneof({ weight: 9, arbitrary: fc.constant(null) }, { weight: 1, arbitrary: fc.nat(11) }),
    more: fc.record(
      {
        areaM2: fc.integer({ min: 1, max: 300 }),
        daylightOnly: fc.boolean(),
        window: anyWindow,
        reefs: anyReefs,
        setBy: fc.constantFrom('furler', 'snuffer', 'halyard', 'track'),
        operations: anyOperations,
        gybe: fc.record({ minutes: fc.nat(60), hands: fc.constant(2), byNight: fc.boolean() }, { requiredKeys: [] }),
        comment: fc.constant('Words'),
      },
      { requiredKeys: [] },
    ),
  })
  .map((sail) => {
    const own = measuresOf(sail.kind);
    const measured = Object.fromEntries(Object.entries(sail.measures).filter(([key]) => own.includes(key as Measure)));
    return { ...sail, given: { id: sail.id, kind: sail.kind, ...(sail.isBare ? {} : { ...measured, ...sail.more }) } };
  });

const length = (min: number, max: number) => fc.integer({ min: min * 10, max: max * 10 }).map((tenths) => tenths / 10);
const anyRig = fc.oneof(
  {
    weight: 4,
    arbitrary: fc.record(
      {
        iM: length(5, 40),
        jM: length(2, 15),
        pM: length(5, 40),
        eM: length(2, 15),
        ispM: length(5, 40),
        spritM: length(0, 3),
        poleM: length(0, 8),
        innerForestay: fc.boolean(),
      },
      { requiredKeys: [] },
    ),
  },
  // Within what a file may say, beyond what a boat is.
  {
    weight: 1,
    arbitrary: fc.record({
      iM: fc.constantFrom(1, 100),
      jM: fc.constantFrom(0.5, 50),
      pM: fc.constantFrom(1, 100),
      eM: fc.constantFrom(0.5, 50),
      poleM: fc.constantFrom(0, 5),
    }),
  },
);

const anyBoat: fc.Arbitrary<BoatFile> = fc
  .record({
    hull: fc.constantFrom('catamaran' as const, 'monohull' as const),
    rig: fc.option(anyRig),
    sails: fc.oneof(
      { weight: 3, arbitrary: fc.uniqueArray(anySail, { minLength: 1, maxLength: 5, selector: ({ id }) => id }) },
      { weight: 1, arbitrary: fc.uniqueArray(anySail, { minLength: 6, maxLength: 12, selector: ({ id }) => id }) },
      { weight: 1, arbitrary: fc.array(anySail, { minLength: 1, maxLength: 12 }) },
    ),
    hasPlan: fc.nat(9).map((n) => n === 0),
  })
  .map(({ hull, rig, sails, hasPlan }) => ({
    name: 'Any boat',
    hull: { type: hull },
    ...(rig === null ? {} : { rig }),
    sails: sails.map(({ given, cloth }) =>
      cloth === null ? given : { ...given, clothOf: sails[cloth % sails.length]!.id },
    ),
    ...(hasPlan ? { sailPlans: [{ id: 'own', sails: [sails[0]!.id] }] } : {}),
  }));

const AT_MAST = ['mast', 'storm-mast'];

/** What cannot stand together, or is no plan of the boat. */
function planFlaws(boat: Boat): string[] {
  const ids = boat.sailPlans.map((plan) => plan.id);
  return boat.sailPlans.flatMap((plan, i) => {
    const settings = plan.sails.map((text) => settingOf(boat, text));
    if (settings.some((setting) => setting === undefined)) return [`${plan.id}: no such sail`];
    const windows = settings.map((setting) => setting!.window);
    const places = settings.map((setting) => kindOf(setting!.sail.kind).place);
    const [atMast, flying] = [
      places.filter((place) => AT_MAST.includes(place)).length,
      places.filter((place) => place === 'flying').length,
    ];
    const before = places.length - atMast;
    const cloths = settings.map((setting) => setting!.cloth);
    const flaws = {
      'id twice': ids.indexOf(plan.id) !== i,
      'illegal id': !/^[a-z0-9][a-z0-9+._-]{0,199}$/.test(plan.id),
      'not marked': plan.derived !== true,
      'two sails at the mast': atMast > 1,
      'two sails before the mast': before > 1,
      'twins beside another': places.includes('twins') && places.length > 1,
      'one cloth twice': new Set(cloths).size < cloths.length,
      'no common angle':
        windows.length > 0 &&
        Math.max(...windows.map(({ awaMinDeg }) => awaMinDeg)) >=
          Math.min(...windows.map(({ awaMaxDeg }) => awaMaxDeg)),
      'a storm main beside a flying sail': places.includes('storm-mast') && flying > 0,
    };
    return Object.entries(flaws).flatMap(([flaw, is]) => (is ? [`${plan.id}: ${flaw}`] : []));
  });
}

/** The boat, or the faults that are told instead: each with its place and in words. */
function readOrFaults(given: BoatFile): Boat | undefined {
  try {
    return readBoat(JSON.stringify(given));
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    expect(error.faults.length).toBeGreaterThan(0);
    for (const fault of error.faults) {
      expect(fault.path).toMatch(/^(?:sails\[\d+\]\.|sailPlans)/);
      expect(describeFault(fault)).toMatch(/^boat\.json, .+: expected .+, got .+$/);
      expect(describeFault(fault)).not.toMatch(/undefined|NaN|Infinity|\[object/);
    }
    return undefined;
  }
}

const STATUSES = ['source', 'derived', 'common-practice', 'placeholder'];

describe('any wardrobe', () => {
  /** Checks what holds of every boat that is read; enough of the boats must be read for that to say something. */
  function always(check: (boat: Boat, given: BoatFile) => void): void {
    const RUNS = 400;
    let read = 0;
    fc.assert(
      fc.property(anyBoat, (given) => {
        const boat = readOrFaults(given);
        if (boat === undefined) return;
        read += 1;
        check(boat, given);
      }),
      { numRuns: RUNS },
    );
    expect(read).toBeGreaterThan(RUNS / 5);
  }

  test('every value given comes back as it was', () => {
    always((boat, given) => {
      const { sails, sailPlans, ...rest } = boat;
      const { sails: givenSails, sailPlans: givenPlans, ...givenRest } = given;
      expect(rest).toEqual(givenRest);
      if (givenPlans !== undefined) expect(sailPlans).toEqual(givenPlans);
      expect(sails.slice(0, givenSails.length).map((sail) => sail.comment)).toEqual(
        givenSails.map(({ comment }) => comment),
      );
      givenSails.forEach((sail, i) => {
        const leaves = new Map(sailLeaves(sails[i]!));
        for (const [path, value] of sailLeaves(sail)) {
          expect([path, leaves.get(path)]).toEqual([path, value]);
        }
        if (sail.reefs !== undefined) expect(sails[i]!.reefs).toHaveLength(sail.reefs.length);
      });
    });
  });

  test('every value filled in is marked, and every mark is of one', () => {
    always((boat, given) => {
      boat.sails.forEach((sail, i) => {
        const own = new Set(sailLeaves(given.sails[i] ?? {}).map(([path]) => path));
        // A limit that is none is no value.
        const filled = sailLeaves(sail).filter(([path, value]) => value !== null && !own.has(path));
        const empty = filled.filter(([, value]) => Array.isArray(value) && value.length === 0);
        // A setting has no reefs where its cloth has none.
        expect(empty.filter(([path]) => path !== 'reefs')).toEqual([]);
        expect(Object.keys(sail.derived ?? {}).sort()).toEqual(filled.map(([path]) => path).sort());
        for (const { status, source, ...more } of Object.values(sail.derived ?? {})) {
          expect(STATUSES).toContain(status);
          if (source !== undefined) expect(Object.keys(SOURCES)).toContain(source);
          if (status === 'source') expect(source).toBeDefined();
          expect(Object.keys(more).filter((key) => key !== 'basis')).toEqual([]);
        }
      });
    });
  });

  test('sails have whole windows, operations and gybes', () => {
    always((boat) => {
      for (const { window, operations = {}, gybe, daylightOnly, setBy, reefs = [] } of boat.sails) {
        expect(window.awaMinDeg).toBeLessThan(window.awaMaxDeg);
        expect(Object.keys(window).sort()).toEqual(['awaMaxDeg', 'awaMinDeg', 'awsMaxKn', 'awsMinKn', 'twsMaxKn']);
        const efforts = Object.values(operations).flatMap(({ day, night }) => [day, night]);
        for (const { keptShare } of efforts) expect(keptShare).toEqual(expect.any(Number));
        for (const effort of [...efforts, gybe]) {
          expect(effort).toMatchObject({ minutes: expect.any(Number), hands: expect.any(Number) });
        }
        expect(gybe).toMatchObject({ byNight: expect.any(Boolean) });
        expect([typeof daylightOnly, typeof setBy]).toEqual(['boolean', 'string']);
        for (const { areaShare } of reefs) expect(areaShare).toBeLessThan(1);
      }
    });
  });

  test('plans that follow stand together, and each sail is in one by itself', () => {
    always((boat, given) => {
      if (given.sailPlans !== undefined) return;
      expect(planFlaws(boat)).toEqual([]);
      const alone = boat.sailPlans.filter(({ sails }) => sails.length === 1).map(({ sails }) => sails[0]);
      expect(alone).toEqual(expect.arrayContaining(boat.sails.map((sail) => sail.id)));
      expect(boat.sailPlans.filter(({ sails }) => sails.length === 0)).toHaveLength(1);
    });
  });

  test('completed once more she is the same, and no check finds fault with her', () => {
    always((boat) => {
      const faults = faultList();
      checkCompleteBoat(boat, 'boat', faults);
      faults.throwIfAny();
      expect(completeBoat(boat)).toStrictEqual(boat);
      expect(readBoat(JSON.stringify(boat))).toStrictEqual(boat);
    });
  });

  test('she is plain data, and every number in her is one', () => {
    always((boat) => {
      expect(structuredClone(boat)).toEqual(boat);
      expect(numbersOf(boat).filter((value) => !Number.isFinite(value))).toEqual([]);
    });
  });

  test('warnings are of sails aboard, and none without a rig', () => {
    always((boat) => {
      const warnings = wardrobeWarnings(boat, 'boat.json');
      for (const warning of warnings) {
        expect(describeFault(warning)).toMatch(/^boat\.json, (?:sails|sailPlans)\[\d+\]: expected .+, got .+$/);
        expect(Number(/\d+/.exec(warning.path!)![0])).toBeLessThan(Math.max(boat.sails.length, boat.sailPlans.length));
      }
      const hangsOnRig = warnings.filter(({ code }) => code === 'need-lacking' || code === 'over-rule');
      if (boat.rig === undefined) expect(hangsOnRig).toEqual([]);
    });
  });

  test('the given record is left as it was', () => {
    fc.assert(
      fc.property(anyBoat, (given) => {
        const before = structuredClone(given);
        faultsOf(() => completeBoat(given));
        expect(given).toEqual(before);
      }),
    );
  });
});

describe('sail plans that follow', () => {
  // On a catamaran headsails are held out without a pole, which would lengthen the lists.
  const MONO = { hull: { type: 'monohull' } } as const;
  const CATAMARAN: readonly SailKind[] = [
    'full-roach-main',
    'self-tacking-jib',
    'code-zero',
    'gennaker',
    'storm-jib',
    'trysail',
  ];
  const MONOHULL: readonly SailKind[] = [
    'pin-head-main',
    'overlapping-genoa',
    'staysail',
    'gennaker',
    'storm-jib',
    'trysail',
  ];

  test('of a catamaran', () => {
    expect(planIds(CATAMARAN)).toEqual([
      ...['main+jib', 'main.1+jib', 'main.1+jib.1', 'main.2+jib', 'main.2+jib.1'],
      ...['main.3+jib', 'main.3+jib.1', 'main.3+storm-jib'],
      ...['main+code', 'code', 'main+gennaker', 'gennaker'],
      ...['main+winged-jib', 'main.1+winged-jib', 'main.1+winged-jib.1', 'main.2+winged-jib', 'main.2+winged-jib.1'],
      ...['main.3+winged-jib', 'main.3+winged-jib.1', 'winged-jib', 'winged-jib.1'],
      ...['main', 'main.1', 'main.2', 'main.3'],
      ...['jib', 'jib.1', 'storm-jib'],
      ...['trysail', 'trysail+storm-jib', 'bare-poles'],
    ]);
  });

  test('of a monohull with a pole', () => {
    expect(planIds(MONOHULL, { hull: { type: 'monohull' }, rig: { poleM: 5 } })).toEqual([
      ...['main+genoa', 'main+genoa.1'],
      ...['main.1+genoa', 'main.1+genoa.1', 'main.1+genoa.2', 'main.1+staysail'],
      ...['main.2+genoa.1', 'main.2+genoa.2', 'main.2+staysail'],
      ...['main.3+genoa.1', 'main.3+genoa.2', 'main.3+staysail', 'main.3+storm-jib'],
      ...['main+gennaker', 'gennaker'],
      ...['main+poled-genoa', 'main.1+poled-genoa', 'main.1+poled-genoa.1'],
      ...['main.2+poled-genoa', 'main.2+poled-genoa.1', 'main.3+poled-genoa', 'main.3+poled-genoa.1'],
      ...['poled-genoa', 'poled-genoa.1'],
      ...['main', 'main.1', 'main.2', 'main.3'],
      ...['genoa', 'genoa.1', 'genoa.2', 'staysail', 'storm-jib'],
      ...['trysail', 'trysail+storm-jib', 'bare-poles'],
    ]);
  });

  test('on a catamaran a headsail is held out on a pole, or without one by a line to the bow', () => {
    const winged = (rig: BoatFile['rig']) =>
      completed(['self-tacking-jib'], rig === undefined ? {} : { rig })
        .sails.slice(1)
        .map(({ id, derived }) => [id, derived!.kind!.basis]);
    expect(winged(undefined)).toEqual([['winged-jib', 'jib held out by a line to the bow']]);
    expect(winged({ poleM: 5 })).toEqual([['poled-jib', 'jib on the pole']]);
  });

  test('a held-out setting is set as its cloth is, and has no reefs where the cloth has none', () => {
    const jib: SailGiven = { id: 'jib', kind: 'self-tacking-jib', setBy: 'halyard' };
    const [, winged] = completed([jib]).sails;
    expect(winged).toMatchObject({ setBy: 'halyard', clothOf: 'jib' });
    expect(winged!.reefs ?? []).toEqual([]);
    const [, poled] = completed([{ ...jib, setBy: 'furler', reefs: [] }], { rig: { poleM: 5 } }).sails;
    expect(poled!.reefs).toEqual([]);
  });

  test('without a pole, or with one of no length, nothing is poled out', () => {
    const poled = planIds(MONOHULL, { hull: { type: 'monohull' }, rig: { poleM: 5 } });
    const plain = poled.filter((id) => !id.includes('poled'));
    expect(planIds(MONOHULL, { hull: { type: 'monohull' } })).toEqual(plain);
    expect(planIds(MONOHULL, { hull: { type: 'monohull' }, rig: { poleM: 0 } })).toEqual(plain);
    expect(completed(MONOHULL, { hull: { type: 'monohull' }, rig: { poleM: 0 } }).sails).toHaveLength(MONOHULL.length);
  });

  test('a poled-out setting is another setting of its sail, and marked as filled in', () => {
    const { sails } = completed(['pin-head-main', 'overlapping-genoa'], { rig: { ...RIG, poleM: 5 } });
    const [, genoa, poled] = sails;
    expect(poled).toMatchObject({ id: 'poled-genoa', kind: 'poled-out-headsail', clothOf: 'genoa' });
    expect(poled!.areaM2).toBe(genoa!.areaM2);
    expect(Object.keys(poled!.derived!)).toEqual(expect.arrayContaining(['id', 'kind', 'clothOf', 'areaM2']));
  });

  test('a poled-out headsail in the file is the only one', () => {
    const poled: SailGiven = { id: 'out', kind: 'poled-out-headsail', clothOf: 'jib', reefs: [] };
    expect(planIds(['self-tacking-jib', poled], { rig: { poleM: 5 } })).toEqual(['out', 'jib', 'jib.1', 'bare-poles']);
  });

  test('two headsails: one at a time', () => {
    expect(planIds(['overlapping-genoa', { id: 'jib', kind: 'self-tacking-jib', reefs: [] }], MONO)).toEqual([
      ...['genoa', 'genoa.1', 'genoa.2', 'jib', 'bare-poles'],
    ]);
    const main: SailGiven = { id: 'main', kind: 'pin-head-main', reefs: [] };
    expect(planIds([main, 'overlapping-genoa', { id: 'jib', kind: 'self-tacking-jib', reefs: [] }], MONO)).toEqual([
      ...['main+genoa', 'main+genoa.1', 'main+jib', 'main', 'genoa', 'genoa.1', 'genoa.2', 'jib', 'bare-poles'],
    ]);
  });

  test('twin headsails stand without the main', () => {
    const main: SailGiven = { id: 'main', kind: 'pin-head-main', reefs: [] };
    expect(planIds([main, 'twin-headsails'])).toEqual(['twins', 'twins.1', 'main', 'bare-poles']);
  });

  test('no main', () => {
    expect(planIds(['self-tacking-jib', 'gennaker', 'storm-jib'], MONO)).toEqual([
      ...['gennaker', 'jib', 'jib.1', 'storm-jib', 'bare-poles'],
    ]);
  });

  test('only sails set flying', () => {
    expect(planIds(['code-zero', 'gennaker', 'vented-downwind'])).toEqual(['code', 'gennaker', 'vented', 'bare-poles']);
  });

  test('a wing replaces the main', () => {
    expect(planIds(['wing-sail', 'self-tacking-jib', 'gennaker'], MONO)).toEqual([
      ...['wing+jib', 'wing+gennaker', 'gennaker', 'wing', 'jib', 'jib.1', 'bare-poles'],
    ]);
    const wing: SailGiven = { id: 'wing', kind: 'wing-sail', reefs: [{ areaShare: 0.5 }] };
    expect(planIds([wing, 'self-tacking-jib', 'trysail'], MONO)).toEqual([
      ...['wing+jib', 'wing.1+jib', 'wing.1+jib.1', 'wing', 'wing.1', 'jib', 'jib.1', 'trysail', 'bare-poles'],
    ]);
  });

  test('the storm jib goes with the deepest reef there is, never with the whole main', () => {
    const main = (reefs: number): SailGiven => ({
      id: 'main',
      kind: 'pin-head-main',
      reefs: Array.from({ length: reefs }, (_, i) => ({ areaShare: 0.8 - i / 10 })),
    });
    const withJib = (reefs: number) => planIds([main(reefs), 'storm-jib']).filter((id) => id.includes('+'));
    expect(withJib(0)).toEqual([]);
    expect(withJib(1)).toEqual(['main.1+storm-jib']);
    expect(withJib(2)).toEqual(['main.2+storm-jib']);
    expect(withJib(4)).toEqual(['main.3+storm-jib', 'main.4+storm-jib']);
  });

  test('sails whose angles do not meet are not set together', () => {
    const main: SailGiven = { id: 'main', kind: 'pin-head-main', reefs: [], window: { awaMinDeg: 100 } };
    const jib: SailGiven = { id: 'jib', kind: 'self-tacking-jib', reefs: [], window: { awaMaxDeg: 100 } };
    expect(planIds([main, jib], MONO)).toEqual(['main', 'jib', 'bare-poles']);
  });

  test('plans in the file are the only ones, and none is marked', () => {
    const boat = completed(CATAMARAN, { sailPlans: [{ id: 'all', sails: ['main:2', 'jib'] }], rig: { poleM: 5 } });
    expect(boat.sailPlans).toEqual([{ id: 'all', sails: ['main:2', 'jib'] }]);
    expect(boat.sails).toHaveLength(CATAMARAN.length);
  });

  test('reefs of the kind may be named by plans in the file, deeper ones not', () => {
    const plansOf = (sails: readonly string[]) =>
      faultsOfBoat(['pin-head-main', 'overlapping-genoa'], { sailPlans: [{ id: 'all', sails }] });
    expect(plansOf(['main:3', 'genoa:2'])).toEqual([]);
    expect(plansOf(['main:4', 'genoa'])).toEqual([
      'boat, sailPlans[0].sails[0]: expected a reef from 1 to 3, got "main:4"',
    ]);
    expect(plansOf(['main', 'genoa:3'])).toEqual([
      'boat, sailPlans[0].sails[1]: expected a reef from 1 to 2, got "genoa:3"',
    ]);
  });

  test('a sail called what a reef of another is has an id of its own', () => {
    const ids = planIds(
      [
        { id: 'main', kind: 'pin-head-main' },
        { id: 'main.1', kind: 'self-tacking-jib', reefs: [] },
        { id: 'bare-poles', kind: 'gennaker' },
      ],
      MONO,
    );
    expect(new Set(ids).size).toBe(ids.length);
    expect(ids).toEqual([
      ...['main+main.1', 'main.1+main.1', 'main.2+main.1', 'main.3+main.1', 'main+bare-poles', 'bare-poles-2'],
      ...['main', 'main.1', 'main.2', 'main.3', 'main.1-2', 'bare-poles'],
    ]);
  });

  test('one cloth is never set twice, whatever it is another setting of', () => {
    // The jib is said to be another setting of the main, the storm jib of the trysail.
    const boat = completed([
      { id: 'main', kind: 'pin-head-main', reefs: [] },
      { id: 'jib', kind: 'self-tacking-jib', clothOf: 'main', reefs: [] },
      { id: 'try', kind: 'trysail' },
      { id: 'storm', kind: 'storm-jib', clothOf: 'try' },
    ]);
    expect(planFlaws(boat)).toEqual([]);
    expect(completeBoat(boat)).toStrictEqual(boat);
  });

  test('ids of poled-out settings that are taken, however long', () => {
    const long = 'a'.repeat(194);
    const sails: SailGiven[] = [
      { id: long, kind: 'self-tacking-jib', reefs: [] },
      { id: `poled-${long}`, kind: 'gennaker' },
      { id: `poled-${long.slice(0, 192)}-2`, kind: 'storm-jib' },
    ];
    // A loop without end would stop the whole run: it is cut off.
    let asked = 0;
    const has = Set.prototype.has;
    const spy = vi.spyOn(Set.prototype, 'has').mockImplementation(function (this: Set<unknown>, value: unknown) {
      asked += 1;
      if (asked > 1_000_000) throw new Error('it asks for ever');
      return has.call(this, value);
    });
    try {
      for (const fault of faultsOfBoat(sails, { rig: { poleM: 5 } })) expect(fault).toContain('shorter ids of sails');
    } finally {
      spy.mockRestore();
    }
  });

  test('too many, or ids too long, are faults that say what to do', () => {
    const mains = Array.from({ length: 9 }, (_, i): SailGiven => ({ id: `main-${i}`, kind: 'pin-head-main' }));
    const jibs = Array.from({ length: 9 }, (_, i): SailGiven => ({ id: `jib-${i}`, kind: 'self-tacking-jib' }));
    expect(faultsOfBoat([...mains, ...jibs], MONO)).toEqual([
      // 81 pairs of a main and a jib with 7 plans each; 9 mains with 4 each and 9 jibs with 2 each; bare poles.
      'boat, sailPlans: expected a list of sail plans, where more than 200 follow from the sails, got none, and 622 follow',
    ]);
    expect(faultsOfBoat([...mains, ...jibs], { sailPlans: [{ id: 'one', sails: ['main-0'] }] })).toEqual([]);
    const [a, b] = ['a'.repeat(100), 'b'.repeat(100)];
    expect(
      faultsOfBoat([
        { id: a, kind: 'pin-head-main', reefs: [] },
        { id: b, kind: 'gennaker' },
      ]),
    ).toEqual([
      'boat, sailPlans: expected shorter ids of sails, or a list of sail plans: their ids would have more than 200 characters, got 201',
    ]);
    expect(
      planIds([
        { id: a, kind: 'pin-head-main', reefs: [] },
        { id: b.slice(1), kind: 'gennaker' },
      ])[0],
    ).toHaveLength(200);
  });

  test('far too many are told too', () => {
    const reefs = Array.from({ length: 9 }, (_, i) => ({ areaShare: (90 - i * 10) / 100 }));
    const sails = Array.from(
      { length: 100 },
      (_, i): SailGiven => ({ id: `s${i}`, kind: i < 50 ? 'pin-head-main' : 'self-tacking-jib', reefs }),
    );
    expect(faultsOfBoat(sails)).toHaveLength(1);
    expect(faultsOfBoat(sails)[0]).toMatch(/^boat, sailPlans: expected a list of sail plans, .* follow$/);
  });

  test('the most sails a file may hold, and a pole: she is still a boat', () => {
    const other: SailGiven = { id: 'other', kind: 'self-tacking-jib', clothOf: 'jib', reefs: [] };
    const sails: SailGiven[] = [
      { id: 'jib', kind: 'self-tacking-jib', reefs: [] },
      ...Array.from({ length: 99 }, (_, i) => ({ ...other, id: `other-${i}` })),
    ];
    const given = boatOf(sails, { rig: { poleM: 5 } });
    // Either she is told to have too many sails or she can be sailed.
    const faults = faultsOf(() => completeBoat(given));
    if (faults.length === 0) expect(completeBoat(completeBoat(given))).toStrictEqual(completeBoat(given));
  });
});

describe('gust limits in proportion', () => {
  test('of a main: true wind follows AWS, and reefs both', () => {
    // The default of 23.4 kn and reefs of 31.2, 39 and 46.8, all times 30 / 23.4.
    const { window, reefs, derived } = sailOf('full-roach-main', { window: { awsMaxKn: 30 } });
    expect([window.awsMaxKn, window.twsMaxKn]).toEqual([30, 30]);
    expect(reefs!.map(({ awsMaxKn, twsMaxKn }) => [awsMaxKn, twsMaxKn])).toEqual([
      [40, 40],
      [50, 50],
      [60, 60],
    ]);
    expect(derived!['window.awsMaxKn']).toBeUndefined();
    expect(derived!['window.twsMaxKn']).toMatchObject({ status: 'derived' });
    expect(derived!['reefs[2].awsMaxKn']).toMatchObject({ status: 'derived' });
  });

  test('of a sail set flying: a limit by angle follows true wind, and stays a placeholder', () => {
    // The default is 18.2 kn at 70° to 26 kn at 130°, 26 kn true.
    const { window, derived } = sailOf('gennaker', { window: { twsMaxKn: 20 } });
    expect(window).toMatchObject({
      twsMaxKn: 20,
      awsMaxKn: [
        [70, 14],
        [130, 20],
      ],
    });
    expect(derived!['window.awsMaxKn']).toMatchObject({ status: 'placeholder' });
    expect(sailOf('gennaker', { window: { awsMaxKn: 13 } }).window.twsMaxKn).toBe(13);
  });

  test('the highest of a limit by angle counts', () => {
    const awsMaxKn = [
      [70, 39],
      [130, 10],
    ] as const;
    expect(sailOf('gennaker', { window: { awsMaxKn } }).window).toMatchObject({ awsMaxKn, twsMaxKn: 39 });
  });

  test('both given stay, and each leads its own of the reefs', () => {
    const { window, reefs } = sailOf('full-roach-main', { window: { awsMaxKn: 30, twsMaxKn: 23.4 } });
    expect([window.awsMaxKn, window.twsMaxKn]).toEqual([30, 23.4]);
    expect(reefs![0]).toMatchObject({ awsMaxKn: 40, twsMaxKn: 31.2 });
  });

  test('a limit that is none stays none, and moves no other', () => {
    const none = sailOf('gennaker', { window: { awsMaxKn: null } });
    expect(none.window).toMatchObject({ awsMaxKn: null, twsMaxKn: 26 });
    expect(none.derived).not.toHaveProperty(['window.awsMaxKn']);
    expect(sailOf('gennaker', { window: { twsMaxKn: null } }).window).toMatchObject({
      twsMaxKn: null,
      awsMaxKn: [
        [70, 18.2],
        [130, 26],
      ],
    });
    expect(sailOf('gennaker', { window: { awsMinKn: null } }).window.awsMinKn).toBeNull();
    const reefs = [{ areaShare: 0.6, awsMaxKn: null, twsMaxKn: null }];
    expect(sailOf('full-roach-main', { reefs }).reefs).toMatchObject(reefs);
  });

  test('where the whole sail has no limit, its reefs have none that is filled in', () => {
    // Else the whole main alone would be left to be set in a gale.
    const { reefs } = sailOf('full-roach-main', { window: { awsMaxKn: null, twsMaxKn: null } });
    for (const { awsMaxKn, twsMaxKn } of reefs!) expect([awsMaxKn ?? null, twsMaxKn ?? null]).toEqual([null, null]);
  });

  test('a reef of a kind that usually has none is not without limits', () => {
    // Else a reefed gennaker could be set in a gale.
    for (const kind of ['gennaker', 'storm-jib', 'code-zero', 'staysail'] as const) {
      const { reefs } = sailOf(kind, { reefs: [{ areaShare: 0.6 }] });
      expect([kind, reefs![0]!.awsMaxKn ?? 'no limit']).not.toEqual([kind, 'no limit']);
    }
  });

  test('a reef with one limit has the other in proportion', () => {
    // The first reef: 31.2 kn AWS and true.
    expect(sailOf('full-roach-main', { reefs: [{ areaShare: 0.7, awsMaxKn: 36 }] }).reefs![0]).toMatchObject({
      awsMaxKn: 36,
      twsMaxKn: 36,
    });
    expect(sailOf('full-roach-main', { reefs: [{ areaShare: 0.7, twsMaxKn: 26 }] }).reefs![0]).toMatchObject({
      awsMaxKn: 26,
      twsMaxKn: 26,
    });
  });

  test('a part-furled jib follows the whole one', () => {
    // 46.8 kn part-furled, 39 kn whole.
    const { window, reefs } = sailOf('self-tacking-jib', { window: { awsMaxKn: 30 } });
    expect(window.twsMaxKn).toBeNull();
    expect(reefs![0]).toMatchObject({ areaShare: 0.65, awsMaxKn: 36 });
  });

  test('no limit is filled in beyond what a file may say', () => {
    const { reefs } = sailOf('full-roach-main', { window: { awsMaxKn: 200 } });
    expect(reefs!.map(({ awsMaxKn }) => awsMaxKn)).toEqual([200, 200, 200]);
    expect(sailOf('asymmetric-reaching-light', { window: { twsMaxKn: 1 } }).window.awsMaxKn).toBeDefined();
  });

  test('a default collapse speed does not close a window', () => {
    const { window, derived } = sailOf('gennaker', { window: { awsMaxKn: 4 } });
    expect(window).toMatchObject({ awsMinKn: null, awsMaxKn: 4 });
    expect(derived).not.toHaveProperty(['window.awsMinKn']);
    expect(sailOf('gennaker', { window: { awsMaxKn: 4.1 } }).window.awsMinKn).toBe(4);
  });
});

describe('values that follow from measures', () => {
  test('the reef ladder goes on beyond three reefs', () => {
    const reefs = Array.from({ length: 9 }, (_, i) => ({ areaShare: (90 - i * 10) / 100 }));
    const sail = sailOf('square-top-main', { reefs });
    // 18 kn and 6 more a reef, in the gust 1.3 times that.
    const ladder = [31.2, 39, 46.8, 54.6, 62.4, 70.2, 78, 85.8, 93.6];
    expect(sail.reefs!.map(({ awsMaxKn }) => awsMaxKn)).toEqual(ladder);
    expect(sail.reefs!.map(({ twsMaxKn }) => twsMaxKn)).toEqual(ladder);
    expect(sail.derived!['reefs[8].awsMaxKn']).toMatchObject({ status: 'derived' });
    expect(planIds([{ id: 'main', kind: 'square-top-main', reefs }])).toContain('main.9');
  });

  test('a main without reefs has none', () => {
    expect(sailOf('pin-head-main', { reefs: [] }).reefs).toEqual([]);
    expect(planIds([{ id: 'main', kind: 'pin-head-main', reefs: [] }])).toEqual(['main', 'bare-poles']);
  });

  test('a main that points low has no reef that points higher', () => {
    const { reefs } = sailOf('full-roach-main', { window: { awaMinDeg: 36 } });
    expect(reefs!.map(({ awaMinDeg }) => awaMinDeg)).toEqual([undefined, undefined, 40]);
  });

  // Furled to 110 % first, where that is less.
  test.each([
    [110, [0.55]],
    [120, [0.92, 0.55]],
    [150, [0.73, 0.55]],
  ])('a genoa of %d %%', (overlapPercent, shares) => {
    const sail = sailOf('overlapping-genoa', { overlapPercent }, { rig: RIG });
    expect(sail.window).toMatchObject({ ...genoaOf(overlapPercent), twsMaxKn: null });
    expect(sail.reefs!.map(({ areaShare }) => areaShare)).toEqual(shares);
    expect(sail.derived!['window.awaMinDeg']).toMatchObject({ status: 'derived', source: 'S32' });
    // Half of the stay, √(16² + 5²), times the luff perpendicular.
    expect(sail.areaM2).toBeCloseTo((0.5 * Math.sqrt(281) * 5 * overlapPercent) / 100, 1);
    expect(sail.derived).not.toHaveProperty('overlapPercent');
  });

  test('a genoa of no stated overlap has 135 %, marked', () => {
    const { overlapPercent, derived } = sailOf('overlapping-genoa');
    expect(overlapPercent).toBe(135);
    expect(derived!.overlapPercent).toMatchObject({ status: 'derived' });
  });

  test.each([
    ['its ratio', { midGirthRatio: 0.5 }, 0.5],
    ['its widths', { halfWidthM: 3, footM: 6 }, 0.5],
    ['its ratio', { midGirthRatio: 0.75 }, 0.75],
    ['its widths', { halfWidthM: 5.25, footM: 7 }, 0.75],
    ['the kind', {}, 0.65],
  ])('a code zero by %s: %o', (by, given, ratio) => {
    const sail = sailOf('code-zero', given, { rig: RIG });
    const { awaMinDeg, awaMaxDeg, awsMaxKn, twsMaxKn, areaShare } = codeSailOf(ratio);
    expect(sail.midGirthRatio).toBeCloseTo(ratio, 12);
    expect(sail.window).toMatchObject({ awaMinDeg, awaMaxDeg, awsMaxKn, twsMaxKn });
    // A symmetric on this rig has 1.15 · √(16² + 5²) · 5 m².
    expect(sail.areaM2).toBeCloseTo(areaShare * 1.15 * Math.sqrt(281) * 5, 1);
    expect('midGirthRatio' in sail.derived!).toBe(by !== 'its ratio');
  });

  test('the ratio stands before the widths', () => {
    const sail = sailOf('code-zero', { midGirthRatio: 0.5, halfWidthM: 5.25, footM: 7 });
    expect(sail).toMatchObject({ midGirthRatio: 0.5, window: { awaMinDeg: codeSailOf(0.5).awaMinDeg } });
  });

  test('another setting has the area of its cloth, however that follows', () => {
    const cloths: Partial<SailGiven>[] = [
      { kind: 'code-zero', halfWidthM: 3, footM: 6 },
      { kind: 'code-zero', midGirthRatio: 0.5 },
      { kind: 'self-tacking-jib', luffM: 12, lpM: 4, halfWidthM: 2 },
      { kind: 'overlapping-genoa', overlapPercent: 150 },
      { kind: 'pin-head-main', roachFactor: 1.3 },
      { kind: 'gennaker', areaM2: 99.5 },
    ];
    for (const cloth of cloths) {
      const { sails } = completed(
        [{ id: 'cloth', ...cloth } as SailGiven, { id: 'other', kind: 'poled-out-headsail', clothOf: 'cloth' }],
        { rig: RIG },
      );
      expect([cloth, sails[1]!.areaM2]).toEqual([cloth, sails[0]!.areaM2]);
    }
  });

  test('an area that no boat file may hold is not filled in, of a cloth neither', () => {
    for (const rig of [
      { iM: 100, jM: 50, poleM: 5 },
      { iM: 1, jM: 0.5, poleM: 5 },
    ]) {
      const boat = completed(['overlapping-genoa', { id: 'jib', kind: 'self-tacking-jib' }], { rig });
      for (const { areaM2 = 1 } of boat.sails) {
        expect(areaM2).toBeGreaterThanOrEqual(0.5);
        expect(areaM2).toBeLessThanOrEqual(2000);
      }
      expect(completeBoat(boat)).toStrictEqual(boat);
    }
  });

  test('the area of a measured headsail says that it is measured', () => {
    // 0.255 · 12 · (4 + 2 · 2) = 24.48
    for (const kind of ['self-tacking-jib', 'staysail', 'storm-jib'] as const) {
      const { areaM2, derived } = sailOf(kind, { luffM: 12, lpM: 4, halfWidthM: 2 }, { rig: RIG });
      expect(areaM2).toBe(24.5);
      expect(derived!.areaM2!.status).toBe('derived');
      expect(derived!.areaM2!.basis).not.toBe(kindOf(kind).area.rule);
    }
  });

  test('of a wing nothing is better than a placeholder, limits of its reefs neither', () => {
    const { derived } = sailOf('wing-sail', { reefs: [{ areaShare: 0.7 }, { areaShare: 0.5 }] });
    const limits = Object.entries(derived!).filter(([path]) => /^(?:window|reefs)/.test(path));
    expect(limits.length).toBeGreaterThan(6);
    expect(limits.filter(([, { status }]) => status !== 'placeholder').map(([path]) => path)).toEqual([]);
  });

  test('limits of a monohull’s main are placeholders, its angles not', () => {
    for (const kind of ['full-roach-main', 'square-top-main', 'pin-head-main'] as const) {
      const { derived, window } = sailOf(kind, {}, { hull: { type: 'monohull' } });
      expect(window).toEqual({ ...sailOf(kind).window });
      for (const path of ['window.awsMaxKn', 'window.twsMaxKn', 'reefs[0].awsMaxKn', 'reefs[2].twsMaxKn']) {
        expect([path, derived![path]!.status]).toEqual([path, 'placeholder']);
      }
      expect(derived!['window.awaMinDeg']).toEqual(sailOf(kind).derived!['window.awaMinDeg']);
      expect(sailOf(kind).derived!['window.awsMaxKn']!.status).toBe('derived');
    }
    const deep = Array.from({ length: 4 }, (_, i) => ({ areaShare: 0.8 - i / 10 }));
    const { derived } = sailOf('pin-head-main', { reefs: deep }, { hull: { type: 'monohull' } });
    expect(derived!['reefs[3].awsMaxKn']!.status).toBe('placeholder');
  });
});

describe('operations', () => {
  const namesOf = ({ operations = {} }: Sail) => Object.keys(operations).sort();

  test('how a sail is set changes them', () => {
    expect(namesOf(sailOf('gennaker'))).toEqual(['douse', 'set']);
    expect(namesOf(sailOf('gennaker', { setBy: 'furler' }))).toEqual(['douse', 'furl', 'set', 'unfurl']);
    expect(namesOf(sailOf('code-zero', { setBy: 'snuffer' }))).toEqual(['douse', 'set']);
    expect(namesOf(sailOf('self-tacking-jib'))).toEqual(['furl', 'reef', 'shakeOut', 'unfurl']);
    expect(namesOf(sailOf('self-tacking-jib', { setBy: 'halyard' }))).toEqual(['douse', 'set']);
    const reefs = [{ areaShare: 0.7 }];
    expect(namesOf(sailOf('self-tacking-jib', { setBy: 'halyard', reefs }))).toEqual([
      'douse',
      'reef',
      'set',
      'shakeOut',
    ]);
    expect(namesOf(sailOf('full-roach-main', { setBy: 'furler' }))).toEqual(['furl', 'reef', 'shakeOut', 'unfurl']);
    expect(sailOf('gennaker', { setBy: 'furler' }).derived).not.toHaveProperty('setBy');
    expect(sailOf('gennaker').derived).toHaveProperty('setBy');
  });

  test('the usual way, said in the file, changes nothing', () => {
    for (const kind of SAIL_KINDS) {
      expect(sailOf(kind, { setBy: kindOf(kind).setBy }).operations).toEqual(sailOf(kind).operations);
    }
  });

  test('what is given of one stands, the rest is filled in', () => {
    const usual = sailOf('full-roach-main').operations!;
    const { operations, derived } = sailOf('full-roach-main', { operations: { reef: { night: { minutes: 3 } } } });
    expect(operations).toEqual({
      ...usual,
      reef: { ...usual.reef, night: { ...usual.reef!.night, minutes: 3 } },
    });
    expect(derived).not.toHaveProperty(['operations.reef.night.minutes']);
    expect(derived).toHaveProperty(['operations.reef.night.hands']);
    expect(derived).toHaveProperty(['operations.reef.night.keptShare']);
    expect(derived).toHaveProperty(['operations.reef.day.minutes']);
  });

  test('of an operation the kind does not know, what is missing is filled in or told', () => {
    // A jib on a furler is not hoisted at sea; an owner may say that hers is.
    const sails: SailGiven[] = [{ id: 'jib', kind: 'self-tacking-jib', operations: { set: { day: { minutes: 5 } } } }];
    if (faultsOfBoat(sails).length > 0) return;
    const { day, night } = completed(sails).sails[0]!.operations!.set!;
    const [hands, keptShare] = [expect.any(Number), expect.any(Number)];
    expect(day).toEqual({ minutes: 5, hands, keptShare });
    expect(night).toEqual({ minutes: 7.5, hands, keptShare });
  });

  test('a gybe given in part', () => {
    const { gybe, derived } = sailOf('gennaker', { gybe: { byNight: true } });
    expect(gybe).toEqual({ minutes: 15, hands: 2, byNight: true });
    expect(derived).not.toHaveProperty(['gybe.byNight']);
    expect(derived).toHaveProperty(['gybe.minutes']);
  });
});

describe('what contradicts itself', () => {
  test.each([
    [
      'a close angle over the default wide one',
      { kind: 'self-tacking-jib', window: { awaMinDeg: 110 } },
      'boat, sails[0].window.awaMinDeg: expected less than awaMaxDeg (110, the default of self-tacking-jib), or both to be given, got 110',
    ],
    [
      'a wide angle under the default close one',
      { kind: 'gennaker', window: { awaMaxDeg: 69.5 } },
      'boat, sails[0].window.awaMaxDeg: expected more than awaMinDeg (70, the default of gennaker), or both to be given, got 69.5',
    ],
    [
      'a close angle over that of a measured genoa',
      { kind: 'overlapping-genoa', overlapPercent: 110, window: { awaMinDeg: 136 } },
      'boat, sails[0].window.awaMinDeg: expected less than awaMaxDeg (135, the default of overlapping-genoa), or both to be given, got 136',
    ],
    [
      'a collapse speed over the default limit',
      { kind: 'self-tacking-jib', window: { awsMinKn: 39 } },
      'boat, sails[0].window.awsMinKn: expected less than awsMaxKn (39, the default of self-tacking-jib), or both to be given, got 39',
    ],
    [
      'a collapse speed over the limit by angle',
      { kind: 'gennaker', window: { awsMinKn: 26 } },
      'boat, sails[0].window.awsMinKn: expected less than awsMaxKn (26, the default of gennaker), or both to be given, got 26',
    ],
  ] as const)('%s', (_, sail, fault) => {
    expect(faultsOfBoat([{ id: 'it', ...sail } as SailGiven])).toEqual([fault]);
  });

  test('just beside the default is a window', () => {
    expect(
      faultsOfBoat([{ id: 'it', kind: 'self-tacking-jib', window: { awaMinDeg: 109.5, awsMinKn: 38.9 } }]),
    ).toEqual([]);
  });

  test('every sail is told at once', () => {
    const sails: SailGiven[] = [
      { id: 'a', kind: 'self-tacking-jib', window: { awaMinDeg: 120 } },
      { id: 'b', kind: 'gennaker', window: { awaMaxDeg: 40, awsMinKn: 30 } },
    ];
    expect(faultsOfBoat(sails).map((fault) => fault.split(': ')[0])).toEqual([
      'boat, sails[0].window.awaMinDeg',
      'boat, sails[1].window.awaMaxDeg',
      'boat, sails[1].window.awsMinKn',
    ]);
  });

  test('a reef that points lower than the sail goes at all', () => {
    const sails = (window: SailGiven['window']): SailGiven[] => [
      {
        id: 'jib',
        kind: 'self-tacking-jib',
        reefs: [{ areaShare: 0.6, awaMinDeg: 110 }],
        ...(window === undefined ? {} : { window }),
      },
    ];
    expect(faultsOfBoat(sails({ awaMaxDeg: 110 }))).toEqual([
      'boat, sails[0].reefs[0].awaMinDeg: expected an angle under awaMaxDeg of the sail (110), got 110',
    ]);
    // The same by the default of the kind.
    expect(faultsOfBoat(sails(undefined))).toEqual([
      expect.stringMatching(/^boat, sails\[0\]\.reefs\[0\]\.awaMinDeg: expected .*110.*, got 110$/),
    ]);
  });

  test.each([
    ['roachFactor', 1.2, 'self-tacking-jib', 'a main'],
    ['roachFactor', 1.2, 'trysail', 'a main'],
    ['midGirthRatio', 0.6, 'pin-head-main', 'a sail set flying'],
    ['footM', 5, 'overlapping-genoa', 'a sail set flying'],
    ['lpM', 5, 'gennaker', 'a headsail'],
    ['luffM', 12, 'full-roach-main', 'a headsail'],
    ['halfWidthM', 3, 'wing-sail', 'a headsail or a sail set flying'],
    ['luffM', 12, 'poled-out-headsail', 'a headsail'],
    ['overlapPercent', 120, 'self-tacking-jib', 'an overlapping-genoa'],
    ['overlapPercent', 120, 'gennaker', 'an overlapping-genoa'],
  ] as const)('%s (%d) of a %s', (key, value, kind, what) => {
    expect(faultsOfBoat([{ id: 'it', kind, [key]: value }])).toEqual([
      `boat, sails[0].${key}: expected this only for ${what}, got "${kind}"`,
    ]);
  });

  test('a code zero wider than one', () => {
    expect(faultsOfBoat([{ id: 'it', kind: 'code-zero', midGirthRatio: 0.8 }])[0]).toContain('sails[0].midGirthRatio');
    expect(faultsOfBoat([{ id: 'it', kind: 'code-zero', halfWidthM: 8, footM: 10 }])[0]).toContain(
      'sails[0].halfWidthM',
    );
    expect(faultsOfBoat([{ id: 'it', kind: 'gennaker', midGirthRatio: 0.8 }])).toEqual([]);
    expect(faultsOfBoat([{ id: 'it', kind: 'gennaker', halfWidthM: 8, footM: 10 }])).toEqual([]);
  });

  test('polars by plans that follow, and of a plan that does not', () => {
    const sails = ['pin-head-main', 'self-tacking-jib'] as const;
    expect(faultsOfBoat(sails, { polars: { 'main.1+jib': 'a.csv', 'bare-poles': 'b.csv' } })).toEqual([]);
    expect(faultsOfBoat(sails, { polars: { 'main1+jib': 'a.csv' } })).toEqual([
      'boat, polars.main1+jib: expected the id of a sail plan of the boat, got "main1+jib" (did you mean "main+jib"?)',
    ]);
    expect(faultsOfBoat(sails, { polars: { constructor: 'a.csv' } as unknown as Record<string, string> })).toHaveLength(
      1,
    );
  });
});

describe('warnings', () => {
  const lacking = (kind: SailKind, rig: BoatFile['rig'], hull: BoatFile['hull']['type'] = 'monohull') =>
    completed([{ id: 'it', kind }], { hull: { type: hull }, ...(rig === undefined ? {} : { rig }) });
  const told = (...given: Parameters<typeof lacking>) => wardrobeWarnings(lacking(...given)).map(describeFault);

  test.each([
    ['code-zero', { spritM: 1 }, 'a sprit'],
    ['gennaker', undefined, undefined],
    ['asymmetric-reaching', { spritM: 1 }, 'a sprit or a pole'],
    ['asymmetric-running', { poleM: 5 }, 'a sprit or a pole'],
    ['symmetric-cruising', { poleM: 5 }, 'two bows or a pole'],
    ['vented-downwind', { spritM: 1 }, 'two bows or a pole or a sprit'],
    ['poled-out-headsail', { poleM: 5 }, 'a pole or two bows'],
    ['twin-headsails', { poleM: 5 }, 'a pole'],
    ['staysail', { innerForestay: true }, 'an inner forestay'],
    ['storm-jib', { innerForestay: true }, 'an inner forestay'],
  ] as const)('what a %s needs', (kind, has, need) => {
    expect(told(kind, undefined)).toEqual([]);
    const lack = `boat, sails[0]: expected the boat to have ${need} for it (${kind}), got none in the boat file`;
    for (const rig of [{}, { spritM: 0, poleM: 0, innerForestay: false }]) {
      expect(told(kind, rig)).toEqual(need === undefined ? [] : [lack]);
    }
    if (has !== undefined) expect(told(kind, has)).toEqual([]);
  });

  test('two bows are enough where they are', () => {
    expect(told('symmetric-cruising', {}, 'catamaran')).toEqual([]);
    expect(told('vented-downwind', {}, 'catamaran')).toEqual([]);
    expect(told('code-zero', {}, 'catamaran')).toHaveLength(1);
  });

  test('kinds that need nothing', () => {
    for (const kind of SAIL_KINDS.filter((known) => kindOf(known).needsOneOf.length === 0)) {
      expect(told(kind, { ...RIG })).toEqual([]);
    }
  });

  test('storm sails over the rules', () => {
    const rig = { iM: 16, innerForestay: true };
    // 0.05 · 256 = 12.8 m², 0.65 · 16 = 10.4 m, 0.135 · 256 = 34.6 m².
    const storm = (given: Partial<SailGiven>) => warningsOf([{ id: 'it', kind: 'storm-jib', ...given }], { rig });
    expect(storm({ areaM2: 12.8, luffM: 10.4 })).toEqual([]);
    expect(storm({ areaM2: 13, luffM: 11 })).toEqual([
      'boat, sails[0]: expected the area of a storm jib (0.05 · I²) to be at most 12.8 m², got 13 m²',
      'boat, sails[0]: expected the luff of a storm jib (0.65 · I) to be at most 10.4 m, got 11 m',
    ]);
    const heavy = (areaM2: number) => warningsOf([{ id: 'it', kind: 'heavy-weather-jib', areaM2 }], { rig });
    expect(heavy(34.6)).toEqual([]);
    expect(heavy(35)).toEqual([
      'boat, sails[0]: expected the area of a heavy-weather jib (0.135 · I²) to be at most 34.6 m², got 35 m²',
    ]);
    expect(warningsOf([{ id: 'it', kind: 'storm-jib', areaM2: 100, luffM: 90 }])).toEqual([]);
  });

  test('a self-tacking jib over the fore-triangle', () => {
    const jib = (given: Partial<SailGiven>) =>
      warningsOf([{ id: 'it', kind: 'self-tacking-jib', ...given }], { rig: RIG });
    const over =
      /^boat, sails\[0\]: expected the area of a self-tacking jib .* to be at most 40 m², got 4[12](?:\.\d)? m²$/;
    expect(jib({ areaM2: 40 })).toEqual([]);
    expect(jib({ areaM2: 41 })).toEqual([expect.stringMatching(over)]);
    // The same where her own measures make the area: 0.255 · 16.5 · (5 + 2 · 2.5) = 42.1.
    expect(jib({ luffM: 16.5, lpM: 5, halfWidthM: 2.5 })).toEqual([expect.stringMatching(over)]);
  });

  test('no default area is over a rule', () => {
    fc.assert(
      fc.property(length(4, 60), length(1, 20), (iM, jM) => {
        const sails = ['self-tacking-jib', 'storm-jib', 'heavy-weather-jib'] as const;
        expect(warningsOf(sails, { rig: { iM, jM, innerForestay: true } })).toEqual([]);
      }),
    );
  });

  test('an asymmetric that measures as a code sail', () => {
    const rig = { spritM: 1, poleM: 5 };
    for (const kind of FLYING) {
      const isCode = kind === 'code-zero';
      const flat = warningsOf([{ id: 'it', kind, midGirthRatio: 0.7 }], { rig });
      expect([kind, flat.length]).toEqual([kind, isCode ? 0 : 1]);
      expect(warningsOf([{ id: 'it', kind, midGirthRatio: 0.75 }], { rig })).toEqual([]);
      if (!isCode) expect(flat[0]).toContain('70 %');
    }
    expect(warningsOf([{ id: 'it', kind: 'gennaker', halfWidthM: 3, footM: 5 }], { rig })).toHaveLength(1);
  });
});

describe('a passage of a boat of kinds', () => {
  const FORECAST = forecastOf(everyHours(6, 8), LATS, LONS, steadyWind(14, 70));
  const boat = completed(
    ['full-roach-main', 'self-tacking-jib', { id: 'constructor', kind: 'gennaker' }, 'storm-jib', 'trysail'],
    { rig: { ...RIG, poleM: 5 } },
  );
  const polars: PolarSet = {
    status: 'measured',
    plans: Object.fromEntries(
      boat.sailPlans.map(({ id, sails }) => [
        id,
        { twsKn: [4, 60], twaDeg: [0, 180], stwKn: Array.from({ length: 4 }, () => 5 + sails.length) },
      ]),
    ),
  };
  const options = { departure: isoUtc(T0) };
  const passage = planPassage({ route: WEST, forecast: FORECAST, boat, polars }, options);
  const toPrint = { passage, totals: totalsOf(passage, boat), boat, route: WEST, inputs: [] };

  test('she arrives under plans that follow', () => {
    expect(passage.complete).toBe(true);
    const known = boat.sailPlans.map(({ id }) => id);
    for (const { sailPlan } of passage.hours) expect(known).toContain(sailPlan);
  });

  test('an id that every object has is no polar', () => {
    const { constructor: _, ...plans } = polars.plans;
    const without = planPassage({ route: WEST, forecast: FORECAST, boat, polars: { ...polars, plans } }, options);
    expect(without.hours.filter(({ sailPlan }) => sailPlan === 'constructor')).toEqual([]);
    const told = without.warnings.filter(({ code }) => code === 'no-polar').map(describeFault);
    expect(told).toEqual([expect.stringMatching(/none for 1 of them.*constructor/)]);
  });

  test('plan.json holds the wardrobe as it was sailed', () => {
    const plan = readPlan(planJson(toPrint));
    expect(plan.wardrobe).toEqual({ sails: boat.sails, sailPlans: boat.sailPlans });
    expect(plan.wardrobe!.sailPlans.every(({ derived }) => derived === true)).toBe(true);
    expect(plan.wardrobe!.sails.every(({ derived }) => derived !== undefined)).toBe(true);
  });

  test('the wardrobe of a plan makes the boat again', () => {
    const { wardrobe } = readPlan(planJson(toPrint));
    expect(readBoat(JSON.stringify({ ...boat, ...wardrobe }))).toEqual(boat);
  });

  test('an older plan without a wardrobe is read, one with a faulty wardrobe not', () => {
    const { wardrobe, ...older } = JSON.parse(planJson(toPrint)) as { wardrobe: { sails: Record<string, unknown>[] } };
    expect(readPlan(JSON.stringify(older)).wardrobe).toBeUndefined();
    const sails = [{ ...wardrobe.sails[0], kind: 'kite' }];
    const faults = faultsOf(() => readPlan(JSON.stringify({ ...older, wardrobe: { ...wardrobe, sails } })));
    expect(faults).toEqual([expect.stringContaining('wardrobe.sails[0].kind')]);
  });

  test('people are told what was filled in, and that some of it is a placeholder', () => {
    const fully = completeBoat(boat);
    for (const text of [totalsText(toPrint), planMarkdown(toPrint), planMarkdown({ ...toPrint, boat: fully })]) {
      const plain = text.replaceAll('\\', '');
      expect(plain).toMatch(/filled in/);
      expect(plain).toMatch(/placeholder/);
      expect(plain).toMatch(/windows of [^;]*main/);
      expect(plain).toMatch(/all sail plans/);
      expect(plain).toContain('windwardrobe boat show');
    }
  });

  test('of a boat that says it all nothing is told', () => {
    const sails = boat.sails.map(({ derived: _, ...sail }) => sail);
    const own = { ...boat, sails, sailPlans: boat.sailPlans.map(({ derived: _, ...plan }) => plan) };
    for (const text of [totalsText({ ...toPrint, boat: own }), planMarkdown({ ...toPrint, boat: own })]) {
      expect(text).not.toMatch(/filled in by kind/);
    }
  });

  test('a boat made in memory without windows or plans is refused', () => {
    const bare = boatOf(['pin-head-main']) as unknown as Boat;
    const faults = faultsOf(() => planPassage({ route: WEST, forecast: FORECAST, boat: bare, polars }, options));
    expect(faults).toEqual([
      expect.stringContaining('boat, sails[0].window.awaMinDeg: expected a complete boat'),
      expect.stringContaining('boat, sails[0].window.awaMaxDeg: expected a complete boat'),
      expect.stringContaining('boat, sailPlans: expected a complete boat'),
    ]);
  });

  test('every boat that is read may be planned with', () => {
    fc.assert(
      fc.property(anyBoat, (given) => {
        const any = readOrFaults(given);
        if (any === undefined) return;
        const near = { waypoints: [WEST.waypoints[0]!, { name: 'Near', latDeg: 16, lonDeg: -45.2 }] };
        const plan = { twsKn: [4, 60], twaDeg: [0, 180], stwKn: [6, 6, 6, 6] };
        const plans = Object.fromEntries(any.sailPlans.map(({ id }) => [id, plan]));
        const made = planPassage(
          { route: near, forecast: FORECAST, boat: any, polars: { status: 'measured', plans } },
          options,
        );
        const text = planJson({ passage: made, totals: totalsOf(made, any), boat: any, route: near, inputs: [] });
        expect(readPlan(text).wardrobe!.sails).toHaveLength(any.sails.length);
      }),
      { numRuns: 60 },
    );
  });
});
