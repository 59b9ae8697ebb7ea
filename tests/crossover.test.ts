import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { alongKn } from '../src/crossover/bestAngles.js';
import { regionsOf } from '../src/crossover/holeRegions.js';
import {
  answersOf,
  type Boat,
  type BoatFile,
  type Cell,
  type Crossover,
  type CrossoverOptions,
  completeBoat,
  crossoverOf,
  estimatePolars,
  type LeewayByAngle,
  type LimitByAngle,
  type Polar,
  type PolarSet,
  type Region,
  readBoat,
  readPolars,
  type SailGiven,
  type SailKind,
  type SettledCrossoverOptions,
  type Window,
} from '../src/index.js';
import { faultsOf } from './support/faults.js';

// The brute force: nothing below here up to the tests is of the library, but for the records' types.

const RAD = Math.PI / 180;
/** Where the two sides differ by rounding alone. */
const HAIR = 1e-9;

/** A line through points: straight between, held beyond the ends. */
function onLine(xs: readonly number[], ys: readonly number[], x: number): number {
  if (x <= xs[0]!) return ys[0]!;
  for (let i = 1; i < xs.length; i += 1) {
    const [x0, x1] = [xs[i - 1]!, xs[i]!];
    if (x <= x1) return ys[i - 1]! + ((ys[i]! - ys[i - 1]!) * (x - x0)) / (x1 - x0);
  }
  return ys.at(-1)!;
}

/** Speed of a polar: over wind first, from a calm at no speed, and then over angle; undefined outside its angles. */
function speedIn(polar: Polar, twsKn: number, twaDeg: number): number | undefined {
  if (twaDeg < polar.twaDeg[0]! || twaDeg > polar.twaDeg.at(-1)!) return undefined;
  const windKn = twsKn * ((polar.windHeightM ?? 10) / 10) ** 0.11;
  const hasCalm = polar.twsKn[0] === 0;
  const winds = hasCalm ? polar.twsKn : [0, ...polar.twsKn];
  const columns = polar.twsKn.length;
  const byAngle = polar.twaDeg.map((_, i) => {
    const row = polar.stwKn.slice(i * columns, (i + 1) * columns);
    return onLine(winds, hasCalm ? row : [0, ...row], windKn);
  });
  return onLine(polar.twaDeg, byAngle, twaDeg);
}

/** The wind felt by a boat that goes north at some knots in a wind from so many degrees east of north. */
function feltOnCourse(twsKn: number, twaDeg: number, stwKn: number) {
  const fromNorth = twsKn * Math.cos(twaDeg * RAD) + stwKn;
  const fromEast = twsKn * Math.sin(twaDeg * RAD);
  return { awsKn: Math.hypot(fromNorth, fromEast), awaDeg: Math.atan2(fromEast, fromNorth) / RAD };
}

/** The leeway that a table gives at the apparent wind angle which that leeway leaves, by halving. */
function leewayAt(table: LeewayByAngle | undefined, awaDeg: number): number {
  if (table === undefined) return 0;
  const [angles, drifts] = [table.map(([angle]) => angle), table.map(([, drift]) => drift)];
  let [low, high] = [0, Math.max(...drifts)];
  for (let i = 0; i < 100; i += 1) {
    const tried = (low + high) / 2;
    if (Math.min(awaDeg, onLine(angles, drifts, Math.max(0, awaDeg - tried))) > tried) low = tried;
    else high = tried;
  }
  return (low + high) / 2;
}

/** The window of a sail or of one of its reefs. */
function windowIn({ sails }: Boat, text: string): Window {
  const [id, reef] = text.split(':');
  const sail = sails.find((one) => one.id === id)!;
  if (reef === undefined) return sail.window;
  const { awaMinDeg = sail.window.awaMinDeg, awsMaxKn = null, twsMaxKn = null } = sail.reefs![Number(reef) - 1]!;
  return { awaMinDeg, awaMaxDeg: sail.window.awaMaxDeg, awsMinKn: sail.window.awsMinKn ?? null, awsMaxKn, twsMaxKn };
}

interface Found {
  readonly id: string;
  readonly stwKn: number;
  readonly awaDeg: number;
  readonly awsKn: number;
  readonly gustAwsKn: number;
}

type Settings = Pick<SettledCrossoverOptions, 'gustFactor' | 'skipperFactor' | 'night' | 'without'>;

/** Every plan that may be carried and makes way, fastest first. */
function foundAt(
  boat: Boat,
  plans: Readonly<Record<string, Polar>>,
  { gustFactor, skipperFactor, night, without }: Settings,
  twsKn: number,
  twaDeg: number,
): Found[] {
  const sailOf = (text: string) => boat.sails.find(({ id }) => id === text.split(':')[0])!;
  const found = boat.sailPlans.flatMap(({ id, sails }): Found[] => {
    const set = sails.map(sailOf);
    if (set.some((sail) => without.includes(sail.id) || without.includes(sail.clothOf ?? sail.id))) return [];
    if (night && set.some((sail) => sail.daylightOnly === true)) return [];
    const polar = plans[id];
    const stwKn = polar === undefined ? 0 : (speedIn(polar, twsKn, twaDeg) ?? 0) * skipperFactor;
    if (stwKn <= HAIR) return [];
    const onCourse = feltOnCourse(twsKn, twaDeg, stwKn);
    const awaDeg = Math.abs(onCourse.awaDeg - leewayAt(boat.leeway, onCourse.awaDeg));
    const gustTwsKn = twsKn * gustFactor;
    const gustAwsKn = feltOnCourse(gustTwsKn, twaDeg, stwKn).awsKn;
    const isCarried = sails.every((text) => {
      const { awaMinDeg, awaMaxDeg, awsMinKn, awsMaxKn, twsMaxKn } = windowIn(boat, text);
      const gustLimit =
        typeof awsMaxKn === 'number' || awsMaxKn === null || awsMaxKn === undefined
          ? (awsMaxKn ?? Number.POSITIVE_INFINITY)
          : onLine(
              awsMaxKn.map(([angle]) => angle),
              awsMaxKn.map(([, kn]) => kn),
              awaDeg,
            );
      return (
        awaDeg >= awaMinDeg - HAIR &&
        awaDeg <= awaMaxDeg + HAIR &&
        onCourse.awsKn >= (awsMinKn ?? 0) - HAIR &&
        gustAwsKn <= gustLimit + HAIR &&
        gustTwsKn <= (twsMaxKn ?? Number.POSITIVE_INFINITY)
      );
    });
    return isCarried ? [{ id, stwKn, awaDeg, awsKn: onCourse.awsKn, gustAwsKn }] : [];
  });
  return found.sort((a, b) => b.stwKn - a.stwKn);
}

/** Best speeds made good, up or down, of whole degrees. */
function bestMadeGood(at: (twaDeg: number) => readonly Found[], fromDeg: number, toDeg: number) {
  const made = Array.from({ length: toDeg - fromDeg + 1 }, (_, i) => fromDeg + i).map((twaDeg) => {
    const [fastest] = at(twaDeg);
    return { twaDeg, fastest, vmgKn: fastest === undefined ? 0 : fastest.stwKn * Math.abs(Math.cos(twaDeg * RAD)) };
  });
  return made.reduce((best, one) => (one.vmgKn > best.vmgKn + HAIR ? one : best));
}

/** Speeds along courses at one wind: straight, or by tacking or gybing where that makes more. */
function alongCourses(at: (twaDeg: number) => readonly Found[]) {
  const boards = { up: bestMadeGood(at, 0, 90), down: bestMadeGood(at, 90, 180) };
  return (twaDeg: number) => {
    const straight = at(twaDeg)[0];
    const board = twaDeg < 90 ? boards.up : boards.down;
    const isBeyond = twaDeg < 90 ? twaDeg < board.twaDeg : twaDeg > board.twaDeg;
    const zigzagKn = isBeyond ? board.vmgKn / Math.abs(Math.cos(twaDeg * RAD)) : 0;
    const stwKn = Math.max(straight?.stwKn ?? 0, zigzagKn);
    return { stwKn, sailPlan: zigzagKn > (straight?.stwKn ?? 0) ? board.fastest?.id : straight?.id };
  };
}

/** Compares a crossover with what is found at every wind and angle. */
function expectFound(boat: Boat, polars: PolarSet, crossover: Crossover): void {
  const { options, cells, bestAngles } = crossover;
  const at = (twsKn: number, twaDeg: number) => foundAt(boat, polars.plans, options, twsKn, twaDeg);
  expect(cells.map(({ twsKn, twaDeg }) => [twsKn, twaDeg])).toEqual(
    options.twaDeg.flatMap((twaDeg) => options.twsKn.map((twsKn) => [twsKn, twaDeg])),
  );
  for (const cell of cells) {
    const where = `TWS ${cell.twsKn}, TWA ${cell.twaDeg}`;
    const found = at(cell.twsKn, cell.twaDeg);
    const [first, second] = found;
    if (first === undefined) {
      const { twsKn: _, twaDeg: __, hole: ___, undecided, ...rest } = cell;
      expect(Object.values(rest), where).toEqual(Object.values(rest).map(() => null));
      expect(undecided, where).toBe(false);
      continue;
    }
    const told = found.find(({ id }) => id === cell.sailPlan);
    expect(told, `${where}: ${cell.sailPlan} of ${found.map(({ id }) => id)}`).toBeDefined();
    // Of plans that are as fast as each other either may be told.
    near(told!.stwKn, first.stwKn, where);
    for (const key of ['stwKn', 'awaDeg', 'awsKn', 'gustAwsKn'] as const)
      near(cell[key], told![key], `${where} ${key}`);
    const next = found.find(({ id }) => id === cell.runnerUp);
    if (second === undefined) {
      expect([cell.runnerUp, cell.marginKn, cell.marginPercent], where).toEqual([null, null, null]);
      continue;
    }
    expect(cell.runnerUp, where).not.toBe(cell.sailPlan);
    near(next?.stwKn, second.stwKn, `${where} runner-up`);
    near(cell.marginKn, first.stwKn - second.stwKn, `${where} margin`);
    near(cell.marginPercent, 100 * (1 - second.stwKn / first.stwKn), `${where} margin in percent`);
  }
  expect(bestAngles.map(({ twsKn }) => twsKn)).toEqual(options.twsKn);
  for (const { twsKn, up, down } of bestAngles) {
    for (const [told, from, to] of [
      [up, 0, 90],
      [down, 90, 180],
    ] as const) {
      const where = `TWS ${twsKn}, best angle from ${from} to ${to}`;
      const best = bestMadeGood((twaDeg) => at(twsKn, twaDeg), from, to);
      // What is left of a beam reach is rounding.
      if (best.vmgKn < 1e-6) {
        expect(told, where).toBeNull();
        continue;
      }
      near(told?.vmgKn, best.vmgKn, where);
      const there = at(twsKn, told!.twaDeg).find(({ id }) => id === told!.sailPlan);
      near(told!.stwKn, there?.stwKn, where);
      near(told!.awaDeg, there?.awaDeg, where);
      near(told!.awsKn, there?.awsKn, where);
      near(told!.vmgKn, told!.stwKn * Math.abs(Math.cos(told!.twaDeg * RAD)), where);
      if (told!.twaDeg !== best.twaDeg) {
        near(bestMadeGood((twaDeg) => at(twsKn, twaDeg), told!.twaDeg, told!.twaDeg).vmgKn, best.vmgKn, where);
      }
    }
  }
}

function near(told: number | null | undefined, truth: number | undefined, what: string): void {
  expect(typeof told === 'number' && typeof truth === 'number', `${what}: ${told} and ${truth}`).toBe(true);
  expect(Math.abs(told! - truth!), `${what}: ${told} against ${truth}`).toBeLessThan(1e-6);
}

// Boats.

const sample = readBoat(readFileSync('data-samples/boat.json', 'utf8'));
const samplePolars = readPolars(readFileSync('data-samples/polars.csv', 'utf8'), { boat: sample });
const kinds: BoatFile = JSON.parse(readFileSync('data-samples/kinds.json', 'utf8'));

/** The sample of kinds under other sails; her known speed is of no plan by name. */
const kindsWith = (sails: readonly (SailKind | SailGiven)[], more: Partial<BoatFile> = {}): Boat =>
  completeBoat({
    ...kinds,
    knownSpeeds: [{ twsKn: 14, twaDeg: 90, stwKn: 8 }],
    sails: sails.map((sail) => (typeof sail === 'string' ? { id: USUAL[sail] ?? sail, kind: sail } : sail)),
    ...more,
  });
const USUAL: Readonly<Partial<Record<SailKind, string>>> = {
  'full-roach-main': 'main',
  'self-tacking-jib': 'jib',
  'overlapping-genoa': 'genoa',
};

/** Winds and angles at which an estimate is quickly made. */
const WINDS = [6, 10, 15, 20];
const ANGLES = [0, 30, 45, 60, 75, 90, 105, 120, 130, 135, 140, 145, 150, 155, 160, 170, 180];
const estimated = (boat: Boat, twsKn: readonly number[] = WINDS) => estimatePolars(boat, { twsKn, twaDeg: ANGLES });
const crossed = (boat: Boat, options: CrossoverOptions = {}) =>
  crossoverOf(boat, estimated(boat, options.twsKn), { twsKn: WINDS, twaDeg: ANGLES, ...options });

const window = (awaMinDeg: number, awaMaxDeg: number, awsMaxKn: Window['awsMaxKn'] = null): Window => ({
  awaMinDeg,
  awaMaxDeg,
  awsMinKn: null,
  awsMaxKn,
  twsMaxKn: null,
});

/** A polar of one speed at a wind of 10 kn by angles, straight from a calm and held beyond. */
const flat = (stwKn: number, twaDeg: readonly number[] = [30, 180]): Polar => ({
  twsKn: [10],
  twaDeg,
  stwKn: twaDeg.map(() => stwKn),
});

const measured = (plans: Readonly<Record<string, Polar>>): PolarSet => ({ plans, status: 'measured' });

/** A boat of a hull of which nothing is known. */
const plainBoat = (sails: Boat['sails'], sailPlans: Readonly<Record<string, readonly string[]>>): Boat => ({
  name: 'Test boat',
  hull: { type: 'catamaran' },
  sails,
  sailPlans: Object.entries(sailPlans).map(([id, set]) => ({ id, sails: set })),
});

/** Two jibs of one kind, one of half the area; a spinnaker for the light; sails for a storm. */
const TWO_JIBS = plainBoat(
  [
    { id: 'main', kind: 'full-roach-main', areaM2: 70, window: window(20, 180, 30) },
    { id: 'big', kind: 'self-tacking-jib', areaM2: 40, window: window(20, 180, 40) },
    { id: 'half', kind: 'self-tacking-jib', areaM2: 20, window: window(20, 180, 40) },
    { id: 'never', kind: 'gennaker', areaM2: 90, window: { ...window(100, 160), awsMinKn: 99 } },
    { id: 'storm', kind: 'storm-jib', areaM2: 10, window: window(20, 180) },
    { id: 'strong', kind: 'heavy-weather-jib', areaM2: 20, window: window(20, 180) },
  ],
  {
    'main+big': ['main', 'big'],
    'main+half': ['main', 'half'],
    half: ['half'],
    never: ['never'],
    storm: ['storm'],
    strong: ['strong'],
    main: ['main'],
  },
);
const TWO_JIBS_POLARS = measured({
  'main+big': flat(6),
  // Nearest at 90°.
  'main+half': { twsKn: [10], twaDeg: [30, 90, 180], stwKn: [4, 5.7, 4] },
  half: flat(3),
  never: flat(7),
  storm: flat(1),
  strong: flat(1.5),
  main: flat(5.8),
});
const FEW: CrossoverOptions = { twsKn: [6, 10], twaDeg: [45, 60, 90, 120, 150, 180] };

// Random small boats.

const whole = (min: number, max: number) => fc.integer({ min, max });
const anyLimit: fc.Arbitrary<number | LimitByAngle | null> = fc.oneof(
  whole(8, 50),
  fc.constant(null),
  fc.tuple(whole(20, 80), whole(8, 30), whole(90, 180), whole(8, 50)).map(
    ([near, low, wide, high]): LimitByAngle => [
      [near, low],
      [wide, high],
    ],
  ),
);
const anyWindow: fc.Arbitrary<Window> = fc.record({
  awaMinDeg: whole(0, 70),
  awaMaxDeg: fc.oneof(whole(80, 180), fc.constant(180)),
  awsMinKn: fc.constantFrom(null, 3, 5),
  awsMaxKn: anyLimit,
  twsMaxKn: fc.constantFrom(null, 18, 26, 39),
});
const rising = (min: number, max: number, least: number, most: number) =>
  fc
    .uniqueArray(whole(min, max), { minLength: least, maxLength: most })
    .map((values) => [...values].sort((a, b) => a - b));
const anyPolar: fc.Arbitrary<Polar> = fc
  .record({
    twsKn: rising(0, 35, 1, 4),
    twaDeg: rising(0, 180, 2, 5),
    speeds: fc.array(
      whole(0, 120).map((tenths) => tenths / 10),
      { minLength: 20, maxLength: 20 },
    ),
    windHeightM: fc.constantFrom(undefined, 10, 18),
  })
  .map(({ twsKn, twaDeg, speeds, windHeightM }) => ({
    twsKn,
    twaDeg,
    stwKn: speeds.slice(0, twsKn.length * twaDeg.length),
    ...(windHeightM === undefined ? {} : { windHeightM }),
  }));
const anyLeeway: fc.Arbitrary<LeewayByAngle | undefined> = fc.constantFrom<(LeewayByAngle | undefined)[]>(
  undefined,
  [[90, 4]],
  [
    [30, 8],
    [120, 0],
  ],
  [
    [20, 1],
    [60, 9],
  ],
);
const PLANS: Readonly<Record<string, readonly string[]>> = {
  'main+jib': ['main', 'jib'],
  'main.1+jib': ['main:1', 'jib'],
  main: ['main'],
  vented: ['vented'],
  'main+poled': ['main', 'poled-jib'],
  poled: ['poled-jib'],
  'storm-jib': ['storm-jib'],
  'bare-poles': [],
};
const anySmall = fc
  .record({
    windows: fc.array(anyWindow, { minLength: 5, maxLength: 5 }),
    reefAwsMaxKn: anyLimit,
    reefAwaMinDeg: whole(0, 75),
    daylightOnly: fc.boolean(),
    leeway: anyLeeway,
    plans: fc.subarray(Object.keys(PLANS), { minLength: 1 }),
    polars: fc.array(fc.option(anyPolar, { freq: 8 }), { minLength: 8, maxLength: 8 }),
    status: fc.constantFrom('measured' as const, 'designed' as const),
    options: fc.record(
      {
        twsKn: rising(1, 45, 2, 4),
        twaDeg: rising(0, 180, 2, 6),
        gustFactor: fc.constantFrom(1, 1.3, 1.7),
        skipperFactor: fc.constantFrom(0.8, 1, 1.2),
        night: fc.boolean(),
        without: fc.subarray(['jib', 'poled-jib', 'vented'], { maxLength: 1 }),
      },
      { requiredKeys: ['twsKn', 'twaDeg'] },
    ),
  })
  .map(({ windows, reefAwsMaxKn, reefAwaMinDeg, daylightOnly, leeway, plans, polars, status, options }) => {
    const [main, jib, poled, vented, storm] = windows as [Window, Window, Window, Window, Window];
    const plain = plainBoat(
      [
        {
          id: 'main',
          kind: 'square-top-main',
          window: main,
          reefs: [{ areaShare: 0.6, awaMinDeg: reefAwaMinDeg, awsMaxKn: reefAwsMaxKn }],
        },
        { id: 'jib', kind: 'self-tacking-jib', window: jib },
        { id: 'poled-jib', kind: 'poled-out-headsail', clothOf: 'jib', window: poled },
        { id: 'vented', kind: 'vented-downwind', daylightOnly, window: vented },
        { id: 'storm-jib', kind: 'storm-jib', window: storm },
      ],
      Object.fromEntries(plans.map((id) => [id, PLANS[id]!])),
    );
    const boat: Boat = { ...plain, ...(leeway === undefined ? {} : { leeway }) };
    const known = plans.flatMap((id, i) => (polars[i] ? [[id, polars[i]] as const] : []));
    return { boat, polars: { plans: Object.fromEntries(known), status } satisfies PolarSet, options };
  });

/** Fewer winds and angles than by default. */
const COARSE: CrossoverOptions = { twsKn: [5, 11, 16, 22, 31], twaDeg: [35, 50, 75, 100, 125, 150, 165, 180] };

describe('against a brute force', () => {
  test.each<[string, CrossoverOptions]>([
    ['as it comes', {}],
    ['by night', { night: true, ...COARSE }],
    ['in a steady wind, without a code zero', { gustFactor: 1, without: ['code'], ...COARSE }],
    ['in strong gusts, by a good skipper', { gustFactor: 1.7, skipperFactor: 1.05, ...COARSE }],
    ['between the points of the polars', { twsKn: [3.3, 9.1, 17.7, 23.4, 51], twaDeg: [1, 47.3, 88.8, 121.4, 179] }],
  ])('the sample boat, %s: plan, speed, apparent wind, runner-up, margins, best angles', (_, options) => {
    expectFound(sample, samplePolars, crossoverOf(sample, samplePolars, options));
  });

  test('the sample boat with leeway', () => {
    const leeway: LeewayByAngle = [
      [30, 7],
      [120, 0],
    ];
    const boat = { ...sample, leeway };
    expectFound(boat, samplePolars, crossoverOf(boat, samplePolars, COARSE));
  });

  test('best angles lie up to the beam reach and from it, and straight upon it none is made', () => {
    const near90 = plainBoat([{ id: 'main', kind: 'full-roach-main', window: window(0, 180) }], { main: ['main'] });
    const at = (fromDeg: number, toDeg: number) => {
      const polars = measured({ main: flat(6, [fromDeg, toDeg]) });
      const crossover = crossoverOf(near90, polars, { twsKn: [8, 10], twaDeg: [90, 92] });
      expectFound(near90, polars, crossover);
      return [crossover.bestAngles[0]!.up?.twaDeg, crossover.bestAngles[0]!.down?.twaDeg];
    };
    expect(at(88, 92)).toEqual([88, 92]);
    expect(at(89.5, 93)).toEqual([undefined, 93]);
    expect(at(30, 180)).toEqual([30, 180]);
  });

  test('along a course closer or deeper than the best angles tacking or gybing counts, else sailing straight', () => {
    const angle = (twaDeg: number, vmgKn: number) => ({
      ...{ twaDeg, sailPlan: 'main', stwKn: vmgKn / Math.abs(Math.cos(twaDeg * RAD)) },
      ...{ vmgKn, awaDeg: 30, awsKn: 10 },
    });
    const best = { twsKn: 10, up: angle(45, 4), down: angle(150, 5) };
    expect(alongKn(0, 0, best)).toBeCloseTo(4, 9);
    expect(alongKn(1, 30, best)).toBeCloseTo(4 / Math.cos(30 * RAD), 9);
    expect(alongKn(4.7, 30, best)).toBe(4.7);
    expect(alongKn(1, 45, best)).toBe(1);
    expect(alongKn(1, 60, best)).toBe(1);
    expect(alongKn(1, 150, best)).toBe(1);
    expect(alongKn(1, 165, best)).toBeCloseTo(5 / Math.cos(15 * RAD), 9);
    expect(alongKn(4, 180, best)).toBeCloseTo(5, 9);
    expect(alongKn(4, 180, { ...best, up: null, down: null })).toBe(4);
  });

  test('random small boats', () => {
    let withPlan = 0;
    fc.assert(
      fc.property(anySmall, ({ boat, polars, options }) => {
        const crossover = crossoverOf(boat, polars, options);
        expectFound(boat, polars, crossover);
        withPlan += crossover.cells.some(({ sailPlan, runnerUp }) => sailPlan !== null && runnerUp !== null) ? 1 : 0;
      }),
      { numRuns: 100 },
    );
    expect(withPlan).toBeGreaterThan(10);
  });

  test('random small boats: every sail is told, in how many cells, or where it comes nearest', () => {
    fc.assert(
      fc.property(anySmall, ({ boat, polars, options }) => {
        const { sails, cells, options: settled } = crossoverOf(boat, polars, options);
        const cloths = boat.sails.filter(({ clothOf }) => clothOf === undefined);
        expect(sails.map(({ id, kind }) => [id, kind])).toEqual(cloths.map(({ id, kind }) => [id, kind]));
        const setsOf = (plan: string, cloth: string) =>
          boat.sailPlans
            .find(({ id }) => id === plan)!
            .sails.some((text) => {
              const sail = boat.sails.find(({ id }) => id === text.split(':')[0])!;
              return (sail.clothOf ?? sail.id) === cloth;
            });
        for (const { id, bestCells, nearest } of sails) {
          expect(bestCells).toBe(cells.filter(({ sailPlan }) => sailPlan !== null && setsOf(sailPlan, id)).length);
          const behind = cells.flatMap(({ twsKn, twaDeg }) => {
            const found = foundAt(boat, polars.plans, settled, twsKn, twaDeg);
            const mine = found.find((one) => setsOf(one.id, id));
            return mine === undefined ? [] : [100 * (1 - mine.stwKn / found[0]!.stwKn)];
          });
          expect(nearest === null).toBe(bestCells > 0 || behind.length === 0);
          if (nearest === null) continue;
          near(nearest.slowerPercent, Math.min(...behind), `${id} nearest`);
          expect(nearest.bestIf).toEqual([]);
          expect(setsOf(nearest.sailPlan, id)).toBe(true);
          expect(setsOf(nearest.fastest, id)).toBe(false);
        }
      }),
      { numRuns: 60 },
    );
  });
});

describe('sails that are never best', () => {
  const { sails, cells } = crossoverOf(TWO_JIBS, TWO_JIBS_POLARS, FEW);
  const use = (id: string) => sails.find((sail) => sail.id === id)!;

  test('of two jibs of a kind the smaller is never best, and comes nearest where its polar does', () => {
    expect(use('big').bestCells).toBeGreaterThan(0);
    expect(use('big').nearest).toBeNull();
    expect(use('half')).toMatchObject({ isStormSail: false, bestCells: 0 });
    expect(use('half').nearest).toMatchObject({
      twaDeg: 90,
      sailPlan: 'main+half',
      fastest: 'main+big',
      bestIf: [],
    });
    expect(use('half').nearest!.slowerPercent).toBeCloseTo(5, 9);
    expect(cells.every(({ sailPlan }) => !sailPlan?.includes('half'))).toBe(true);
  });

  test('the answer names it, and where; storm sails are aboard for safety', () => {
    const { staysInTheBag } = answersOf(crossoverOf(TWO_JIBS, TWO_JIBS_POLARS, FEW));
    expect(staysInTheBag).toEqual([
      'half: never part of the fastest plan; nearest at TWS 6, TWA 90, where main+half is 5.0 % slower than main+big.',
      'never: no plan with it may be carried and makes way anywhere here.',
      'storm, strong: never the fastest here, and aboard for safety, not for speed.',
    ]);
  });

  test('a sail without a polar, or whose window never opens, is nowhere carried', () => {
    expect(use('never')).toEqual({
      id: 'never',
      kind: 'gennaker',
      isStormSail: false,
      bestCells: 0,
      nearest: null,
      setNowhere: 'not-carried',
    });
    const { half: _, 'main+half': __, ...plans } = TWO_JIBS_POLARS.plans;
    const without = crossoverOf(TWO_JIBS, measured(plans), FEW);
    expect(without.sails.find(({ id }) => id === 'half')).toMatchObject({ nearest: null, setNowhere: 'no-speeds' });
    const leftOut = crossoverOf(TWO_JIBS, TWO_JIBS_POLARS, { ...FEW, without: ['half'] });
    expect(leftOut.sails.find(({ id }) => id === 'half')!.setNowhere).toBe('left-out');
    expect(answersOf(leftOut).staysInTheBag).toContain('half: left out, as asked.');
  });

  test('every sail is good for something: it is said so, and of which night', () => {
    const boat = { ...TWO_JIBS, sails: TWO_JIBS.sails.slice(0, 2), sailPlans: TWO_JIBS.sailPlans.slice(0, 1) };
    const polars = measured({ 'main+big': flat(6) });
    expect(answersOf(crossoverOf(boat, polars, FEW)).staysInTheBag).toEqual([
      'None: every sail aboard is part of the fastest plan somewhere.',
    ]);
    expect(answersOf(crossoverOf(boat, polars, { ...FEW, night: true })).staysInTheBag).toEqual([
      'None: every sail aboard is part of the fastest plan somewhere by night.',
    ]);
  });

  test('another setting of a cloth counts for the cloth', () => {
    const boat = plainBoat(
      [
        { id: 'jib', kind: 'self-tacking-jib', window: window(30, 60) },
        { id: 'poled-jib', kind: 'poled-out-headsail', clothOf: 'jib', window: window(150, 180) },
      ],
      { jib: ['jib'], poled: ['poled-jib'] },
    );
    const { sails: uses } = crossoverOf(boat, measured({ poled: flat(5) }), FEW);
    expect(uses).toEqual([
      { id: 'jib', kind: 'self-tacking-jib', isStormSail: false, bestCells: 2, nearest: null, setNowhere: null },
    ]);
  });

  test('what would make it the fastest is told', () => {
    const variant = {
      assumption: 'shadow',
      instead: 'light falls otherwise',
      plans: { 'main+half': flat(6.5) },
    } as const;
    const other = { assumption: 'shadow', instead: 'it does not', plans: { 'main+half': flat(5.9) } } as const;
    const crossover = crossoverOf(TWO_JIBS, { ...TWO_JIBS_POLARS, variants: [variant, other] }, FEW);
    expect(crossover.sails.find(({ id }) => id === 'half')!.nearest!.bestIf).toEqual(['light falls otherwise']);
    expect(answersOf(crossover).staysInTheBag[0]).toMatch(
      / The estimate cannot rule out that it is: if light falls otherwise\.$/,
    );
  });
});

/** That where a region is said to be whole it is, and that no rectangle of more cells is. */
function expectLargestWhole(
  { throughout }: Pick<Region, 'throughout'>,
  group: readonly Pick<Cell, 'twsKn' | 'twaDeg'>[],
  { twsKn, twaDeg }: Pick<SettledCrossoverOptions, 'twsKn' | 'twaDeg'>,
): void {
  const isIn = (value: number, [from, to]: readonly [number, number]) => value >= from && value <= to;
  const pairs = (all: readonly number[]) => all.flatMap((from, i) => all.slice(i).map((to) => [from, to] as const));
  /** How many cells of the grid are between, and of the region. */
  const sizes = (winds: readonly [number, number], angles: readonly [number, number]) => ({
    all: twsKn.filter((kn) => isIn(kn, winds)).length * twaDeg.filter((deg) => isIn(deg, angles)).length,
    own: group.filter((cell) => isIn(cell.twsKn, winds) && isIn(cell.twaDeg, angles)).length,
  });
  const told = sizes(throughout.twsKn, throughout.twaDeg);
  expect(told.own).toBe(told.all);
  const whole = pairs(twsKn).flatMap((winds) =>
    pairs(twaDeg).flatMap((angles) => {
      const { all, own } = sizes(winds, angles);
      return own === all ? [all] : [];
    }),
  );
  expect(told.all).toBe(Math.max(...whole));
}

describe('where no plan under sail may be carried', () => {
  // A main that stands no gust beyond a reach, and a jib that does, but not far off the wind: an L of the chart is left bare.
  const windows = (main: Partial<Window>, jib: Partial<Window>): readonly SailGiven[] => [
    { id: 'main', kind: 'pin-head-main', window: { awaMinDeg: 0, awaMaxDeg: 180, twsMaxKn: 40, ...main } },
    { id: 'jib', kind: 'self-tacking-jib', window: { awaMinDeg: 0, awaMaxDeg: 180, twsMaxKn: 40, ...jib } },
  ];
  const bare = (main: Partial<Window>, jib: Partial<Window>) => {
    const flat = { twsKn: [4, 40], twaDeg: [0, 180], stwKn: [1, 1, 1, 1] };
    const boat: Boat = completeBoat({
      name: 'Made up',
      hull: { type: 'monohull' },
      polars: 'none.csv',
      sails: windows(main, jib),
      sailPlans: [
        { id: 'main', sails: ['main'] },
        { id: 'jib', sails: ['jib'] },
      ],
    });
    const axes = { twsKn: [10, 20, 30, 40], twaDeg: [60, 90, 120, 150, 180], gustFactor: 1 };
    return crossoverOf(boat, { status: 'measured', plans: { main: flat, jib: flat } }, axes);
  };

  test('is told as it is: where throughout, and in parts of which spans', () => {
    const crossover = bare({ twsMaxKn: 25 }, { awaMaxDeg: 100, twsMaxKn: 35 });
    const [region, ...others] = crossover.withoutSail;
    expect(others).toEqual([]);
    // By hand: at 30 kn from TWA 120 on (a boat of 1 kn feels it at 118° and beyond), at 40 kn everywhere.
    expect(region).toEqual({
      cells: 3 + 5,
      twsKn: [30, 40],
      twaDeg: [60, 180],
      throughout: { twsKn: [30, 40], twaDeg: [120, 180] },
    });
    expect(answersOf(crossover).noSail[0]).toBe(
      'Throughout TWS 30 to 40, TWA 120 to 180, and in parts of TWS 30 to 40, TWA 60 to 180: no plan under sail may be carried and makes way.',
    );
  });

  test('needs its spans alone where it fills them', () => {
    const crossover = bare({ twsMaxKn: 25 }, { twsMaxKn: 35 });
    const whole = { twsKn: [40, 40], twaDeg: [60, 180] };
    expect(crossover.withoutSail).toEqual([{ cells: 5, ...whole, throughout: whole }]);
    expect(answersOf(crossover).noSail[0]).toBe(
      'TWS 40, TWA 60 to 180: no plan under sail may be carried and makes way.',
    );
  });
});

describe('holes', () => {
  const DOWNWIND: readonly SailKind[] = [
    'gennaker',
    'asymmetric-reaching',
    'asymmetric-reaching-heavy',
    'asymmetric-running',
    'asymmetric-running-heavy',
    'symmetric-cruising',
    'vented-downwind',
  ];

  // The one known hole of the trade: a couple on a 50-foot catamaran had none for AWA 120 to 160 at 15 to 25 kn true under genoa and main.
  const GAP_KN = [15, 17, 20, 25];

  describe.each<[SailKind, number]>([
    ['overlapping-genoa', 3],
    ['self-tacking-jib', 8],
  ])('a catamaran of a main and one %s', (headsail, least) => {
    const boat = kindsWith(['full-roach-main', headsail]);
    const crossover = crossed(boat, { twsKn: GAP_KN });
    const inGap = crossover.cells.filter(
      ({ hole, awaDeg }) => hole !== null && awaDeg !== null && awaDeg >= 120 && awaDeg <= 160,
    );

    test('has a hole off the wind, which a downwind sail fills', () => {
      expect(inGap.length).toBeGreaterThanOrEqual(least);
      for (const { hole } of inGap) {
        expect(DOWNWIND).toContain(hole!.kind);
        expect(hole!.slowerPercent).toBeGreaterThanOrEqual(15);
        expect(hole!.certain).toBe(true);
      }
      const [largest] = crossover.holes;
      expect(largest!.awaDeg![0]).toBeLessThanOrEqual(160);
      expect(largest!.awaDeg![1]).toBeGreaterThanOrEqual(120);
      expect(largest!.kinds.some((kind) => DOWNWIND.includes(kind))).toBe(true);
    });

    test('is told in words', () => {
      const [told] = answersOf(crossover).noSail;
      const { twsKn, twaDeg, deepest, kinds: filling } = crossover.holes[0]!;
      expect(told).toMatch(`TWS ${twsKn[0]} to ${twsKn[1]}, TWA ${twaDeg[0]} to ${twaDeg[1]}, AWA `);
      expect(told).toMatch(`${filling[0]} would be much faster`);
      expect(told).toMatch(`Deepest at TWS ${deepest.twsKn}, TWA ${deepest.twaDeg}, where`);
      expect(told!.includes('So narrow a gap is also got over')).toBe(twaDeg[1] - twaDeg[0] <= 10);
      expect(told).not.toMatch(/undefined|NaN|null/);
    });

    test('has none of that gap left with a symmetric, a gennaker and a heavy reacher aboard', () => {
      const filled = crossed(
        kindsWith(['full-roach-main', headsail, 'symmetric-cruising', 'gennaker', 'asymmetric-reaching-heavy']),
        { twsKn: GAP_KN },
      );
      expect(filled.cells.filter(({ hole }) => hole !== null)).toEqual([]);
      expect(answersOf(filled).noSail).toEqual([expect.stringMatching(/^Nowhere: .* 15 % /)]);
    });

    test('of 90 % is none', () => {
      const { cells, holes } = crossed(boat, { holePercent: 90, twsKn: [10, 20] });
      expect(cells.some(({ hole }) => hole !== null)).toBe(false);
      expect(holes).toEqual([]);
    });
  });

  test('a boat with every kind aboard that she can set has none', () => {
    const boat = kindsWith([
      { id: 'main', kind: 'full-roach-main', reefs: [] },
      'self-tacking-jib',
      'overlapping-genoa',
      'heavy-weather-jib',
      'code-zero',
      'gennaker',
      'asymmetric-reaching-light',
      'asymmetric-reaching',
      'asymmetric-reaching-heavy',
      'asymmetric-running',
      'asymmetric-running-heavy',
      'symmetric-cruising',
      'vented-downwind',
    ]);
    const { holes, holesUnknown, cells } = crossed(boat);
    expect(holesUnknown).toBeNull();
    expect(holes).toEqual([]);
    expect(cells.every(({ hole }) => hole === null)).toBe(true);
  });

  test('the sample of kinds has few', () => {
    const { cells } = crossed(completeBoat(kinds));
    expect(cells.filter(({ hole }) => hole !== null).length).toBeLessThan(0.05 * cells.length);
  });

  test('without a hull and a rig it is said what is missing, and all else is told', () => {
    const crossover = crossoverOf(sample, samplePolars);
    expect(crossover.holes).toEqual([]);
    expect(crossover.cells.every(({ hole }) => hole === null)).toBe(true);
    expect(crossover.cells.filter(({ sailPlan }) => sailPlan !== null).length).toBeGreaterThan(400);
    for (const path of ['rig.pM', 'rig.iM']) expect(crossover.holesUnknown).toMatch(path);
    expect(crossover.holesUnknown).not.toMatch('hull.');
    const told = answersOf(crossover).noSail.at(-1)!;
    expect(told).toMatch(/^Not known: /);
    expect(told).toContain(crossover.holesUnknown);
    const { holesUnknown } = crossoverOf(TWO_JIBS, TWO_JIBS_POLARS, FEW);
    for (const path of ['hull.waterlineM', 'hull.displacementKg', 'hull.hullCentresM', 'rig.pM', 'rig.iM']) {
      expect(holesUnknown).toMatch(path);
    }
  });

  test('come from the estimate alone: measured speeds of the boat do not move them', () => {
    const boat = kindsWith(['full-roach-main', 'self-tacking-jib']);
    const polars = estimated(boat);
    const slow = Object.entries(polars.plans).map(([id, polar]) => [
      id,
      { ...polar, stwKn: polar.stwKn.map((kn) => kn / 2) },
    ]);
    const holesOf = (set: PolarSet) =>
      crossoverOf(boat, set, { twsKn: [10, 20], twaDeg: [90, 120, 135, 150, 180] }).cells.map(({ hole }) => hole?.kind);
    expect(holesOf(measured(Object.fromEntries(slow)))).toEqual(holesOf(polars));
  });

  test.each<[string, readonly SailKind[], readonly number[], number, boolean]>([
    ['a main and a genoa', ['overlapping-genoa'], [10, 20], 3, true],
    ['a main alone', [], [8, 14], 15, false],
  ])(
    'are the catalogue against what is aboard, found again from two estimates: %s',
    (_, headsails, twsKn, percent, hasUncertain) => {
      const boat = kindsWith(['full-roach-main', ...headsails]);
      const fine = Array.from({ length: 37 }, (___, i) => 5 * i);
      const aboard = estimatePolars(boat, { twsKn, twaDeg: fine });
      // Every kind but mains and storm sails that a catamaran with a sprit and an inner forestay, without a pole, may set and has not.
      const offered: readonly SailKind[] = [
        ...(headsails.length === 0 ? (['overlapping-genoa', 'poled-out-headsail'] as const) : []),
        ...(['self-tacking-jib', 'staysail', 'code-zero', 'gennaker', 'asymmetric-reaching-light'] as const),
        ...(['asymmetric-reaching', 'asymmetric-reaching-heavy', 'asymmetric-running'] as const),
        ...(['asymmetric-running-heavy', 'symmetric-cruising', 'vented-downwind'] as const),
      ];
      const { knownSpeeds: __, ...rest } = kinds;
      const others = completeBoat({
        ...rest,
        sails: [{ id: 'main', kind: 'full-roach-main' }, ...offered.map((kind) => ({ id: kind, kind }))],
      });
      const catalogue = estimatePolars(others, { twsKn, twaDeg: fine, hullOf: aboard.estimate });
      const settings: Settings = { gustFactor: 1.3, skipperFactor: 0.9, night: false, without: [] };
      const crossover = crossoverOf(boat, aboard, { twsKn, twaDeg: ANGLES, holePercent: percent });
      const along = (whose: Boat, plans: Readonly<Record<string, Polar>>, wind: number) =>
        alongCourses((twaDeg) => foundAt(whose, plans, settings, wind, twaDeg));
      const setsOther = (plan: string | undefined) =>
        others.sailPlans
          .find(({ id }) => id === plan)
          ?.sails.map((text) => others.sails.find(({ id }) => id === text.split(':')[0])!)
          .map(({ clothOf, kind }) =>
            clothOf === undefined ? kind : others.sails.find(({ id }) => id === clothOf)!.kind,
          )
          .find((kind) => kind !== 'full-roach-main');
      let [holes, uncertain] = [0, 0];
      for (const wind of twsKn) {
        const [mid, ...cases] = [undefined, ...aboard.variants.keys()].map((i) => ({
          own: along(boat, { ...aboard.plans, ...(i === undefined ? {} : aboard.variants[i]!.plans) }, wind),
          others: along(others, { ...catalogue.plans, ...(i === undefined ? {} : catalogue.variants[i]!.plans) }, wind),
        }));
        for (const { twaDeg: angle, hole } of crossover.cells.filter((cell) => cell.twsKn === wind)) {
          const where = `TWS ${wind}, TWA ${angle}`;
          const [own, best] = [mid!.own(angle), mid!.others(angle)];
          const kind = setsOther(best.sailPlan);
          const slowerPercent = best.stwKn > 0 ? 100 * (1 - own.stwKn / best.stwKn) : 0;
          // Closer than TWA 40 nobody steers.
          expect(hole !== null, `${where}: ${kind}, ${slowerPercent}`).toBe(
            kind !== undefined && slowerPercent >= percent && angle >= 40,
          );
          if (hole === null) continue;
          expect(hole.kind, where).toBe(kind);
          near(hole.stwKn, best.stwKn, where);
          near(hole.aboardKn, own.stwKn, where);
          near(hole.slowerPercent, slowerPercent, where);
          const isCertain = cases.every((one) => one.others(angle).stwKn > one.own(angle).stwKn);
          expect(hole.certain, where).toBe(isCertain);
          holes += 1;
          uncertain += isCertain ? 0 : 1;
        }
      }
      expect(holes).toBeGreaterThan(5);
      expect(uncertain > 0).toBe(hasUncertain);
    },
  );

  test('do not come from a split by one polar of the boat', () => {
    const boat = kindsWith(['full-roach-main', 'self-tacking-jib']);
    const axes = { twsKn: [10, 20], twaDeg: [40, 90, 120, 135, 150, 180] };
    const whole = estimatePolars(boat, axes);
    const best = axes.twaDeg.flatMap((_, i) =>
      axes.twsKn.map((__, j) => Math.max(...Object.values(whole.plans).map(({ stwKn }) => stwKn[i * 2 + j]!))),
    );
    const boatPolar = { ...axes, stwKn: best.map((kn) => 0.6 * kn) };
    const holesOf = (polars: PolarSet) => crossoverOf(boat, polars, axes).cells.map(({ hole }) => hole?.kind);
    const split = estimatePolars(boat, { boatPolar });
    expect(split.estimate.misfit).toBeDefined();
    expect(holesOf(split)).toEqual(holesOf(estimatePolars(boat, { hullOf: split.estimate })));
  });

  test('a main that is left out is left out of the catalogue boat too', () => {
    const boat = kindsWith(['full-roach-main', 'self-tacking-jib']);
    const { cells } = crossed(boat, { without: ['main'], twsKn: [14, 20] });
    expect(cells.filter(({ hole }) => hole !== null).length).toBeLessThan(cells.length);
    for (const { hole } of cells) expect(hole?.kind).not.toBe('full-roach-main');
  });

  test('a kind that is aboard is not offered, however small the sail is', () => {
    const small = kindsWith(['full-roach-main', { id: 'jib', kind: 'self-tacking-jib', areaM2: 8 }]);
    const offered = new Set(crossed(small, { twsKn: [28, 32] }).cells.map(({ hole }) => hole?.kind));
    expect(offered.size).toBeGreaterThan(1);
    expect(offered.has('self-tacking-jib')).toBe(false);
  });

  test('that touch are one region; sizes add up; fewer than three cells are none', () => {
    const axes = fc.tuple(rising(1, 60, 2, 7), rising(0, 180, 2, 7));
    const anyCells = axes.chain(([twsKn, twaDeg]) =>
      fc.record({
        twsKn: fc.constant(twsKn),
        twaDeg: fc.constant(twaDeg),
        holes: fc.array(
          fc.option(
            fc.record({
              kind: fc.constantFrom<SailKind[]>('gennaker', 'code-zero'),
              slowerPercent: whole(15, 100),
              certain: fc.boolean(),
            }),
          ),
          { minLength: twsKn.length * twaDeg.length, maxLength: twsKn.length * twaDeg.length },
        ),
      }),
    );
    fc.assert(
      fc.property(anyCells, ({ twsKn, twaDeg, holes }) => {
        const cells = twaDeg.flatMap((angle, i) =>
          twsKn.map((wind, j): Cell => {
            const hole = holes[i * twsKn.length + j] ?? null;
            return {
              ...{ twsKn: wind, twaDeg: angle, sailPlan: null, stwKn: null, awaDeg: i === 0 ? null : angle / 2 },
              ...{ awsKn: null, gustAwsKn: null, runnerUp: null, marginKn: null, marginPercent: null },
              undecided: false,
              hole: hole === null ? null : { ...hole, stwKn: 5, aboardKn: 1 },
            };
          }),
        );
        // Labels spread to neighbours until none moves.
        const labels = cells.map(({ hole }, i) => (hole === null ? -1 : i));
        for (let moved = true; moved; ) {
          moved = false;
          labels.forEach((label, a) => {
            labels.forEach((other, b) => {
              const [rowA, columnA] = [Math.floor(a / twsKn.length), a % twsKn.length];
              const [rowB, columnB] = [Math.floor(b / twsKn.length), b % twsKn.length];
              if (label < 0 || other < 0 || Math.abs(rowA - rowB) + Math.abs(columnA - columnB) !== 1) return;
              const least = Math.min(labels[a]!, labels[b]!);
              if (labels[a] === least && labels[b] === least) return;
              [labels[a], labels[b]] = [least, least];
              moved = true;
            });
          });
        }
        const groups = [...new Set(labels)]
          .filter((label) => label >= 0)
          .map((label) => cells.filter((_, i) => labels[i] === label))
          .filter((group) => group.length >= 3);
        const told = regionsOf(cells, { twsKn, twaDeg } as unknown as SettledCrossoverOptions);
        expect(told.map(({ cells: size }) => size)).toEqual(groups.map(({ length }) => length).sort((a, b) => b - a));
        const span = (values: readonly number[]) => [Math.min(...values), Math.max(...values)];
        const summed = groups.map((group) => ({
          twsKn: span(group.map((cell) => cell.twsKn)),
          twaDeg: span(group.map((cell) => cell.twaDeg)),
          awaDeg: group.some(({ awaDeg }) => awaDeg !== null)
            ? span(group.flatMap(({ awaDeg }) => awaDeg ?? []))
            : null,
          certain: group.every(({ hole }) => hole!.certain),
          deepest: Math.max(...group.map(({ hole }) => hole!.slowerPercent)),
          mostCells: Math.max(
            ...['gennaker', 'code-zero'].map((kind) => group.filter(({ hole }) => hole!.kind === kind).length),
          ),
        }));
        for (const region of told) {
          const { twsKn: winds, twaDeg: angles, awaDeg, certain, deepest, kinds: filling, cells: size } = region;
          const group = groups.find((one) =>
            one.some((cell) => cell.twsKn === deepest.twsKn && cell.twaDeg === deepest.twaDeg),
          )!;
          expect(group).toHaveLength(size);
          expectLargestWhole(region, group, { twsKn, twaDeg });
          expect({
            twsKn: winds,
            twaDeg: angles,
            awaDeg,
            certain,
            deepest: deepest.slowerPercent,
            mostCells: group.filter(({ hole }) => hole!.kind === filling[0]).length,
          }).toEqual(summed[groups.indexOf(group)]);
          expect([...filling].sort()).toEqual([...new Set(group.map(({ hole }) => hole!.kind))].sort());
        }
      }),
      { numRuns: 200 },
    );
  });
});

describe('options', () => {
  test('defaults: winds of 4 to 40 kn, every 5°, the house rules, the factor of the polars', () => {
    const { options } = crossoverOf(sample, samplePolars);
    expect(options).toEqual({
      twsKn: Array.from({ length: 19 }, (_, i) => 4 + 2 * i),
      twaDeg: Array.from({ length: 37 }, (_, i) => 5 * i),
      gustFactor: 1.3,
      skipperFactor: 0.9,
      night: false,
      without: [],
      holePercent: 15,
    });
    const house = { gustFactor: 1.45, skipperFactor: 0.8 };
    expect(crossoverOf({ ...TWO_JIBS, house }, TWO_JIBS_POLARS, FEW).options).toMatchObject(house);
    expect(crossoverOf(TWO_JIBS, TWO_JIBS_POLARS, FEW).options).toMatchObject({ gustFactor: 1.3, skipperFactor: 1 });
    const own = { ...FEW, gustFactor: 1.2, skipperFactor: 0.7, holePercent: 30, night: true, without: ['big'] };
    expect(crossoverOf({ ...TWO_JIBS, house }, TWO_JIBS_POLARS, own).options).toEqual(own);
  });

  test('by night no sail of daylight is set, without a sail none of its settings', () => {
    const set = (options: CrossoverOptions) => {
      const { cells, bestAngles } = crossoverOf(sample, samplePolars, options);
      const plans = cells.flatMap(({ sailPlan, runnerUp }) => [sailPlan, runnerUp]);
      return new Set([...plans, ...bestAngles.flatMap(({ up, down }) => [up?.sailPlan, down?.sailPlan])]);
    };
    const sets = (plans: ReadonlySet<string | null | undefined>, sail: string) =>
      sample.sailPlans.some(({ id, sails }) => plans.has(id) && sails.some((text) => text.split(':')[0] === sail));
    expect(sets(set({}), 'vented') && sets(set({}), 'reacher')).toBe(true);
    expect(sets(set({ night: true }), 'vented') || sets(set({ night: true }), 'reacher')).toBe(false);
    expect(sets(set({}), 'jib') && sets(set({}), 'poled-jib')).toBe(true);
    const withoutCloth = set({ without: ['jib'] });
    expect(sets(withoutCloth, 'jib') || sets(withoutCloth, 'poled-jib')).toBe(false);
    const withoutSetting = set({ without: ['poled-jib'] });
    expect(sets(withoutSetting, 'jib')).toBe(true);
    expect(sets(withoutSetting, 'poled-jib')).toBe(false);
  });

  test('a stronger gust takes sails away, and never gives one', () => {
    const speeds = (gustFactor: number) =>
      crossoverOf(sample, samplePolars, { gustFactor }).cells.map(({ stwKn }) => stwKn ?? 0);
    const [calm, gusty] = [speeds(1), speeds(1.6)];
    calm.forEach((kn, i) => {
      expect(gusty[i]).toBeLessThanOrEqual(kn);
    });
    expect(gusty).not.toEqual(calm);
  });

  test("the skipper's factor scales the speed of a plan that may be carried anyhow", () => {
    const speeds = (skipperFactor: number) =>
      crossoverOf(TWO_JIBS, TWO_JIBS_POLARS, { ...FEW, skipperFactor }).cells.map(({ stwKn }) => stwKn);
    speeds(0.5).forEach((kn, i) => {
      expect(kn).toBeCloseTo(0.5 * speeds(1)[i]!, 9);
    });
  });

  test('every option that is none is told, all at once', () => {
    const bad: CrossoverOptions = {
      twsKn: [5, 5],
      twaDeg: [0, 90, 200],
      gustFactor: 0.9,
      skipperFactor: Number.NaN,
      holePercent: 91,
      without: ['main', 'bigg'],
    };
    const faults = faultsOf(() => crossoverOf(TWO_JIBS, TWO_JIBS_POLARS, bad));
    expect([...faults].sort()).toEqual(
      [
        'options, gustFactor: expected a number from 1 to 3, got "0.9"',
        'options, skipperFactor: expected a number from 0.3 to 1.5, got "NaN"',
        'options, holePercent: expected a number from 1 to 90, got "91"',
        'options, twsKn: expected 2 to 400 rising numbers from 1 to 60, got [5, 5]',
        'options, twaDeg: expected 2 to 400 rising numbers from 0 to 180, got [0, 90, 200]',
        'options, without[1]: expected the id of a sail aboard, got "bigg" (did you mean "big"?)',
      ].sort(),
    );
  });

  test.each<[string, CrossoverOptions]>([
    ['twsKn', { twsKn: [] }],
    ['twsKn', { twsKn: [10] }],
    ['twsKn', { twsKn: [0.5, 10] }],
    ['twsKn', { twsKn: [10, 61] }],
    ['twsKn', { twsKn: [10, 9] }],
    ['twsKn[1]', { twsKn: [10, Number.NaN, 12] }],
    ['twsKn[0]', { twsKn: [Number.NaN, 12] }],
    ['twaDeg', { twaDeg: [-1, 12] }],
    ['twaDeg', { twaDeg: Array.from({ length: 401 }, (_, i) => i / 4) }],
    ['gustFactor', { gustFactor: 3.1 }],
    ['gustFactor', { gustFactor: Number.POSITIVE_INFINITY }],
    ['skipperFactor', { skipperFactor: 0 }],
    ['skipperFactor', { skipperFactor: 1.51 }],
    ['holePercent', { holePercent: 0 }],
    ['without[0]', { without: [''] }],
    ['without[0]', { without: ['constructor'] }],
  ])('%s is a fault (%#)', (path, bad) => {
    const faults = faultsOf(() => crossoverOf(TWO_JIBS, TWO_JIBS_POLARS, bad));
    expect(faults).toHaveLength(1);
    expect(faults[0]).toMatch(`options, ${path}: expected `);
  });

  test('a boat or polars that are none are told before', () => {
    const boat = { ...TWO_JIBS, sailPlans: [{ id: 'main', sails: ['mainn'] }] };
    const polars = measured({ main: { twsKn: [10], twaDeg: [90], stwKn: [5] } });
    const faults = faultsOf(() => crossoverOf(boat, polars));
    expect(faults).toHaveLength(2);
    expect(faults[0]).toMatch(/^boat, sailPlans\[0\]\.sails\[0\]: /);
    expect(faults[1]).toMatch(/^polars, main\.twaDeg: /);
  });
});

describe('the record', () => {
  const boat = completeBoat(kinds);
  const polars = estimated(boat);
  const crossover = crossoverOf(boat, polars, { twsKn: WINDS, twaDeg: ANGLES });

  test('is plain data: a structured clone and JSON are the same', () => {
    expect(structuredClone(crossover)).toEqual(crossover);
    expect(JSON.parse(JSON.stringify(crossover))).toEqual(crossover);
  });

  test('is the same bytes twice', () => {
    const again = crossoverOf(completeBoat(kinds), estimated(completeBoat(kinds)), { twsKn: WINDS, twaDeg: ANGLES });
    expect(JSON.stringify(again)).toBe(JSON.stringify(crossover));
  });

  test('holds no number that is none, and nothing undefined', () => {
    const check = (value: unknown, path: string): void => {
      if (typeof value === 'number') expect(Number.isFinite(value), path).toBe(true);
      else if (typeof value === 'object' && value !== null) {
        for (const [key, part] of Object.entries(value)) check(part, `${path}.${key}`);
      } else expect(value, path).not.toBeUndefined();
    };
    check(crossover, 'crossover');
    fc.assert(
      fc.property(anySmall, (any) => {
        const made = crossoverOf(any.boat, any.polars, any.options);
        check(made, 'crossover');
        expect(structuredClone(made)).toEqual(made);
      }),
      { numRuns: 30 },
    );
  });

  test('says whose it is and what it rests on', () => {
    expect(crossover).toMatchObject({ formatVersion: 1, boat: kinds.name, status: 'estimated', holesUnknown: null });
    expect(crossover.basis).toEqual(polars.basis);
    expect(crossoverOf(sample, samplePolars)).toMatchObject({ boat: sample.name, status: 'designed', basis: [] });
  });

  test('no input is changed', () => {
    const frozen = <Value>(value: Value): Value => {
      if (typeof value === 'object' && value !== null) Object.values(Object.freeze(value)).forEach(frozen);
      return value;
    };
    const options: CrossoverOptions = { twsKn: [...WINDS], twaDeg: [...ANGLES], without: ['vented'], night: true };
    const before = JSON.stringify([boat, polars, options]);
    const made = crossoverOf(frozen(structuredClone(boat)), frozen(structuredClone(polars)), frozen(options));
    answersOf(frozen(made));
    expect(JSON.stringify([boat, polars, options])).toBe(before);
  });

  test('a cell is undecided where a variant of the estimate has another plan first', () => {
    let undecided = 0;
    for (const cell of crossover.cells) {
      const first = (plans: Readonly<Record<string, Polar>>) =>
        foundAt(boat, plans, crossover.options, cell.twsKn, cell.twaDeg)[0]?.id ?? null;
      const isTurned =
        cell.sailPlan !== null &&
        polars.variants.some((variant) => first({ ...polars.plans, ...variant.plans }) !== cell.sailPlan);
      expect(cell.undecided, `TWS ${cell.twsKn}, TWA ${cell.twaDeg}`).toBe(isTurned);
      undecided += isTurned ? 1 : 0;
    }
    expect(undecided).toBeGreaterThan(0);
    expect(undecided).toBeLessThan(crossover.cells.length);
    expectFound(boat, polars, crossover);
  });

  test('measured speeds leave nothing undecided', () => {
    expect(crossoverOf(sample, samplePolars).cells.some((cell) => cell.undecided)).toBe(false);
  });
});
