import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type Boat,
  DEFAULT_HOUSE,
  type Hour,
  hoursCsv,
  type LeewayByAngle,
  type Passage,
  type Polar,
  type PolarSet,
  planPassage,
  type Window,
} from '../src/index.js';
import { type Sailing, sailAlong } from '../src/sailing/along.js';
import type { Conditions } from '../src/sailing/conditions.js';
import { sailDirect } from '../src/sailing/direct.js';
import { sailPair } from '../src/sailing/pair.js';
import { settledLeeway } from '../src/speed/leeway.js';
import { planSpeed } from '../src/speed/planSpeed.js';
import { BOAT, everyHours, forecastOf, LATS, LONS, POLARS, steadyWind, T0, WEST } from './support/synthetic.js';

// Everything here is arithmetic: triangles drawn again in plain vectors, and found by trying. The leeway tables are made up.

const HOUSE = { ...DEFAULT_HOUSE, skipperFactor: 1 };
const ANY: Window = { awaMinDeg: 0, awaMaxDeg: 180 };
const RAD = Math.PI / 180;

/** −180 < x ≤ 180. */
const signed = (deg: number) => deg - 360 * Math.ceil((deg - 180) / 360);
const apart = (a: number, b: number) => Math.abs(signed(a - b));

type Vector = readonly [east: number, north: number];
const vector = (size: number, towardsDeg: number): Vector => [
  size * Math.sin(towardsDeg * RAD),
  size * Math.cos(towardsDeg * RAD),
];
const sum = (...all: readonly Vector[]): Vector => [
  all.reduce((total, [east]) => total + east, 0),
  all.reduce((total, [, north]) => total + north, 0),
];
const along = ([east, north]: Vector, deg: number) => east * Math.sin(deg * RAD) + north * Math.cos(deg * RAD);
const rightOf = ([east, north]: Vector, deg: number) => east * Math.cos(deg * RAD) - north * Math.sin(deg * RAD);

/** Linear between points, held beyond the ends. */
function between(xs: readonly number[], ys: readonly number[], x: number): number {
  const upper = xs.findIndex((end) => end >= x);
  if (upper < 0) return ys.at(-1)!;
  if (upper === 0) return ys[0]!;
  const share = (x - xs[upper - 1]!) / (xs[upper]! - xs[upper - 1]!);
  return ys[upper - 1]! + share * (ys[upper]! - ys[upper - 1]!);
}
const tableAt = (leeway: LeewayByAngle, awaDeg: number) =>
  between(
    leeway.map(([angle]) => angle),
    leeway.map(([, deg]) => deg),
    awaDeg,
  );

/** Speed by a polar: along each wind first, then between winds; undefined outside its angles. */
function polarAt({ twsKn, twaDeg, stwKn, windHeightM = 10 }: Polar, wind: number, angleDeg: number) {
  const angle = Math.abs(angleDeg);
  if (angle < twaDeg[0]! || angle > twaDeg.at(-1)!) return undefined;
  const moved = wind * Math.exp(0.11 * Math.log(windHeightM / 10));
  const byWind = twsKn.map((_, j) =>
    between(
      twaDeg,
      twaDeg.map((_, i) => stwKn[i * twsKn.length + j]!),
      angle,
    ),
  );
  return moved < twsKn[0]! ? (byWind[0]! * moved) / twsKn[0]! : between(twsKn, byWind, moved);
}

interface Sea {
  readonly courseDeg: number;
  readonly twdDeg: number;
  readonly twsKn: number;
  readonly setDeg?: number;
  readonly driftKn?: number;
}

const currentOf = ({ setDeg = 0, driftKn = 0 }: Sea) => vector(driftKn, setDeg);

function conditionsOf(sea: Sea): Conditions {
  const [eastKn, northKn] = currentOf(sea);
  const [gustEast, gustNorth] = vector(-sea.twsKn * 1.3, sea.twdDeg);
  return {
    courseDeg: sea.courseDeg,
    twdDeg: sea.twdDeg,
    twsKn: sea.twsKn,
    gustWind: { eastKn: gustEast, northKn: gustNorth },
    gustTwsKn: sea.twsKn * 1.3,
    current: { eastKn, northKn },
  };
}

function sail(polar: Polar, leeway: LeewayByAngle | undefined, sea: Sea, windows: readonly Window[] = [ANY]) {
  const speed = planSpeed(polar, 1, leeway);
  return sailAlong({ id: 'main', speed, windows, daylightOnly: false }, conditionsOf(sea), HOUSE);
}

function sailing(...args: Parameters<typeof sail>): Sailing {
  const found = sail(...args);
  if (typeof found === 'string') throw new Error(`barred: ${found}`);
  return found;
}

/** On one heading, whether or not a pair would be faster. */
function direct(polar: Polar, leeway: LeewayByAngle | undefined, sea: Sea, windows: readonly Window[] = [ANY]) {
  return sailDirect(windows, planSpeed(polar, 1, leeway), conditionsOf(sea));
}

function directly(...args: Parameters<typeof direct>): Sailing {
  const found = direct(...args);
  if (typeof found === 'string') throw new Error(`barred: ${found}`);
  return found;
}

/** Speeds that rise with TWA to a reach and fall to a run, of a boat that does not point. */
const COURSE: Polar = {
  twsKn: [6, 12, 20],
  twaDeg: [40, 60, 90, 120, 150, 180],
  stwKn: [3, 5, 6, 4.5, 6.8, 7.8, 5, 7.8, 9, 4.8, 7.6, 9.4, 3.6, 6.2, 8.2, 3.2, 5.6, 7.6],
};
const HEADING: Polar = { ...COURSE, twaReference: 'heading' };
/** Six degrees close-hauled, none abaft: the shape of a cruising catamaran without boards, made up. */
const LEEWAY: LeewayByAngle = [
  [25, 6],
  [60, 4],
  [120, 0],
];
/** On a run too, and rising first. */
const DEEP: LeewayByAngle = [
  [0, 0],
  [20, 8],
  [90, 5],
  [180, 2],
];

/** AWA off the heading and the way over the ground of a boat that goes a leeway off her heading. */
function triangle({ twsKn, twdDeg, ...sea }: Sea, headingDeg: number, stwKn: number, leewayDeg: number) {
  const leeward = signed(twdDeg - headingDeg) >= 0 ? -1 : 1;
  const way = vector(stwKn, headingDeg + leeward * leewayDeg);
  const [east, north] = sum(vector(-twsKn, twdDeg), [-way[0], -way[1]]);
  return {
    awaDeg: signed(Math.atan2(-east, -north) / RAD - headingDeg),
    awsKn: Math.hypot(east, north),
    ground: sum(way, currentOf({ twsKn, twdDeg, ...sea })),
    way,
  };
}

/** The leeway that agrees with the table at its own AWA, by trying all of them, then all near the best, and again. */
function leewayByTrying(leeway: LeewayByAngle, sea: Sea, headingDeg: number, stwKn: number): number {
  let best = 10;
  for (const [half, step] of [
    [10, 0.5],
    [0.5, 0.01],
    [0.01, 0.0002],
  ] as const) {
    let least = Number.POSITIVE_INFINITY;
    const middle = best;
    for (let tried = middle - half; tried <= middle + half; tried += step) {
      const off = Math.abs(tableAt(leeway, Math.abs(triangle(sea, headingDeg, stwKn, tried).awaDeg)) - tried);
      if (off < least) [least, best] = [off, tried];
    }
  }
  return best;
}

/** What a boat whose polar refers to the heading makes over the ground on a heading, found by trying. */
function tried(polar: Polar, leeway: LeewayByAngle, sea: Sea, headingDeg: number) {
  const stwKn = polarAt(polar, sea.twsKn, signed(sea.twdDeg - headingDeg));
  if (stwKn === undefined) return undefined;
  const leewayDeg = leewayByTrying(leeway, sea, headingDeg, stwKn);
  return { headingDeg, stwKn, leewayDeg, ...triangle(sea, headingDeg, stwKn, leewayDeg) };
}

/** The heading whose way over the ground lies along the course, the fastest of several, by trying every half degree. */
function directByTrying(polar: Polar, leeway: LeewayByAngle, sea: Sea) {
  const on = (headingDeg: number) => tried(polar, leeway, sea, headingDeg);
  const offTrack = (headingDeg: number) => {
    const found = on(headingDeg);
    return found === undefined ? Number.NaN : rightOf(found.ground, sea.courseDeg);
  };
  let best: ReturnType<typeof on>;
  const STEP = 0.5;
  for (let headingDeg = sea.courseDeg - 100; headingDeg < sea.courseDeg + 100; headingDeg += STEP) {
    let [low, high] = [headingDeg, headingDeg + STEP];
    const side = (deg: number) => Math.sign(signed(sea.twdDeg - deg));
    const [lowOff, highOff] = [offTrack(low), offTrack(high)];
    // Across the wind and across its back the leeway changes sides: no way lies between.
    if (!(lowOff * highOff <= 0) || side(low) !== side(high)) continue;
    for (let step = 0; step < 16; step += 1) {
      const middle = (low + high) / 2;
      if (offTrack(middle) * lowOff > 0) low = middle;
      else high = middle;
    }
    const found = on((low + high) / 2)!;
    if (best === undefined || along(found.ground, sea.courseDeg) > along(best.ground, sea.courseDeg)) best = found;
  }
  return best;
}

/** The mirrored pair of headings with the most made good along the course, by trying every tenth of a degree. */
function pairByTrying(polar: Polar, leeway: LeewayByAngle, sea: Sea, isUp: boolean) {
  const kept = isUp ? 1 - 3 / 120 : 1 - 6 / 720;
  let best: { smgKn: number; twaDeg: number; leewayDeg: number } | undefined;
  for (let twaDeg = isUp ? 20 : 95; twaDeg <= (isUp ? 88 : 178); twaDeg += 0.1) {
    const starboard = tried(polar, leeway, sea, sea.twdDeg - twaDeg);
    const port = tried(polar, leeway, sea, sea.twdDeg + twaDeg);
    if (starboard === undefined || port === undefined) continue;
    const current = currentOf(sea);
    const offTrack = (share: number) => {
      const scaled = ({ way }: { way: Vector }, by: number): Vector => [way[0] * by * kept, way[1] * by * kept];
      return sum(scaled(port, share), scaled(starboard, 1 - share), current);
    };
    const [none, all] = [rightOf(offTrack(0), sea.courseDeg), rightOf(offTrack(1), sea.courseDeg)];
    const share = none / (none - all);
    if (!(share >= 0 && share <= 1)) continue;
    const smgKn = along(offTrack(share), sea.courseDeg);
    if (best === undefined || smgKn > best.smgKn) best = { smgKn, twaDeg, leewayDeg: starboard.leewayDeg };
  }
  return best;
}

/** The way through the water of a sailing: off her heading to leeward. */
function wayOf({ headingDeg, twaDeg, leewayDeg, stwKn }: Sailing): Vector {
  return vector(stwKn, headingDeg - (twaDeg < 0 ? -1 : 1) * (leewayDeg ?? 0));
}

const SEAS: readonly (readonly [what: string, sea: Sea])[] = [
  ['a close reach on starboard', { courseDeg: 0, twdDeg: 55, twsKn: 14 }],
  ['a close reach on port', { courseDeg: 200, twdDeg: 140, twsKn: 9 }],
  ['a beam reach', { courseDeg: 270, twdDeg: 0, twsKn: 16 }],
  ['a broad reach on port', { courseDeg: 30, twdDeg: 260, twsKn: 18 }],
  ['a close reach in a cross current from leeward', { courseDeg: 90, twdDeg: 30, twsKn: 15, setDeg: 10, driftKn: 2 }],
  ['a close reach in a cross current from windward', { courseDeg: 90, twdDeg: 20, twsKn: 15, setDeg: 185, driftKn: 2 }],
  ['a beam reach in a foul current', { courseDeg: 300, twdDeg: 40, twsKn: 12, setDeg: 110, driftKn: 2.5 }],
  ['a broad reach in a fair current across', { courseDeg: 300, twdDeg: 170, twsKn: 20, setDeg: 340, driftKn: 3 }],
];

describe('without leeway nothing changes', () => {
  const wandering = (lat: number, lon: number, time: number) => {
    const day = (time - T0) / 86400;
    const [east, north] = vector(
      -15 * (1 + 0.4 * Math.sin(lat + day * 2)),
      170 + 110 * Math.sin(lon * 0.3 + day * 1.3),
    );
    return { windEastKn: east, windNorthKn: north, currentEastKn: 0.8 * Math.sin(lat), currentNorthKn: 0.5 };
  };
  const passage = (boat: Boat, polars: PolarSet): Passage =>
    planPassage(
      { route: WEST, boat, polars, forecast: forecastOf(everyHours(6, 5), LATS, LONS, wandering) },
      { departure: '2027-03-01T06:00Z', choice: 'fastest' },
    );
  const withReference = (twaReference: 'course' | 'heading'): PolarSet => ({
    ...POLARS,
    plans: Object.fromEntries(Object.entries(POLARS.plans).map(([id, polar]) => [id, { ...polar, twaReference }])),
  });
  const open: Boat = { ...BOAT, sails: BOAT.sails.map((sail) => ({ ...sail, daylightOnly: false, window: ANY })) };
  const plain = passage(BOAT, POLARS);

  test('the log has none, and a polar by heading is one by course', () => {
    expect(new Set(plain.hours.map(({ manner }) => manner))).toContain('tacking');
    expect(new Set(plain.hours.map(({ manner }) => manner))).toContain('direct');
    expect(plain.hours.every(({ leewayDeg }) => leewayDeg === null)).toBe(true);
    for (const reference of ['course', 'heading'] as const)
      expect(passage(BOAT, withReference(reference)).hours).toEqual(plain.hours);
  });

  test('a table of nothing is none, but that the log says 0', () => {
    for (const reference of ['course', 'heading'] as const) {
      const { hours } = passage({ ...BOAT, leeway: [[40, 0]] }, withReference(reference));
      expect(hours.length).toBe(plain.hours.length);
      hours.forEach((hour, i) => {
        expect(hour.leewayDeg).toBe(hour.sailPlan === null ? null : 0);
        expectSame(hour, plain.hours[i]!, ['leewayDeg'], 1e-6);
      });
    }
  });

  test('with a polar by course a whole passage makes the same way, bow to windward', () => {
    const without = passage(open, POLARS);
    const { hours } = passage({ ...open, leeway: DEEP }, POLARS);
    const turned: (keyof Hour)[] = ['leewayDeg', 'headingDeg', 'twaDeg', 'awaDeg'];
    hours.forEach((hour, i) => {
      const before = without.hours[i]!;
      expectSame(hour, before, turned, 1e-9);
      if (hour.leewayDeg === null) return;
      expect(hour.leewayDeg).toBeGreaterThan(1);
      expect(Math.abs(hour.twaDeg!)).toBeCloseTo(Math.abs(before.twaDeg!) - hour.leewayDeg, 8);
      expect(Math.abs(hour.awaDeg!)).toBeCloseTo(Math.abs(before.awaDeg!) - hour.leewayDeg, 8);
      expect(apart(hour.headingDeg!, hour.twdDeg)).toBeCloseTo(Math.abs(hour.twaDeg!), 8);
    });
    const lines = hoursCsv({ ...without, hours })
      .trimEnd()
      .split('\n');
    const column = lines[0]!.split(',').indexOf('leeway_deg');
    expect(column).toBeGreaterThan(0);
    lines.slice(1).forEach((line, i) => {
      const cell = line.split(',')[column]!;
      if (hours[i]!.leewayDeg === null) expect(cell).toBe('');
      else expect(Math.abs(Number(cell) - hours[i]!.leewayDeg!)).toBeLessThan(0.0051);
    });
    expect(lines.join()).not.toMatch(/NaN|undefined|Infinity/);
  });

  function expectSame(hour: Hour, same: Hour, but: readonly (keyof Hour)[], tolerance: number) {
    for (const key of Object.keys(same) as (keyof Hour)[]) {
      if (but.includes(key)) continue;
      const [value, truth] = [hour[key], same[key]];
      if (typeof truth === 'number') expect(Math.abs((value as number) - truth), key).toBeLessThanOrEqual(tolerance);
      else expect(value, key).toEqual(truth);
    }
  }
});

describe('a polar by the course through the water', () => {
  test.each([
    ...SEAS,
    ['a beat', { courseDeg: 310, twdDeg: 300, twsKn: 13 }] as const,
    ['a beat in a current', { courseDeg: 310, twdDeg: 330, twsKn: 13, setDeg: 90, driftKn: 1 }] as const,
    ['a run', { courseDeg: 10, twdDeg: 185, twsKn: 13 }] as const,
    ['a run in a current', { courseDeg: 10, twdDeg: 195, twsKn: 13, setDeg: 200, driftKn: 1 }] as const,
  ])('%s is as fast as without leeway, the bow turned to windward by it', (_, sea) => {
    for (const leeway of [LEEWAY, DEEP]) {
      const [before, found] = [sailing(COURSE, undefined, sea), sailing(COURSE, leeway, sea)];
      const { headingDeg, twaDeg, awaDeg, leewayDeg, ...same } = found;
      expect(same).toEqual(expect.objectContaining({ smgKn: before.smgKn, stwKn: before.stwKn, awsKn: before.awsKn }));
      expect(same).toMatchObject({ manner: before.manner, gustAwsKn: before.gustAwsKn, offTrackNm: before.offTrackNm });
      expect(before.leewayDeg).toBeUndefined();
      const towards = before.twaDeg < 0 ? -1 : 1;
      expect(apart(headingDeg, before.headingDeg + towards * leewayDeg!)).toBeLessThan(1e-9);
      expect(twaDeg).toBeCloseTo(before.twaDeg - towards * leewayDeg!, 9);
      expect(awaDeg).toBeCloseTo(before.awaDeg - towards * leewayDeg!, 9);
      expect(leewayDeg).toBeCloseTo(tableAt(leeway, Math.abs(awaDeg)), 6);
    }
  });

  test('the windows are asked with AWA off the heading', () => {
    // Course at 60 to 12 kn, 6.8 kn through the water: 12.8 ahead and 10.392 across, AWA 39.07 off the way. Leeway 5: 34.07.
    const sea = { courseDeg: 0, twdDeg: 60, twsKn: 12 };
    const leeway: LeewayByAngle = [[0, 5]];
    const from = (awaMinDeg: number, more: Partial<Window> = {}) => [{ ...ANY, awaMinDeg, ...more }];
    expect(directly(COURSE, undefined, sea, from(39)).awaDeg).toBeCloseTo(39.07, 2);
    expect(direct(COURSE, undefined, sea, from(39.1))).toBe('window');
    expect(direct(COURSE, leeway, sea, from(35))).toBe('window');
    expect(directly(COURSE, leeway, sea, from(34)).awaDeg).toBeCloseTo(34.07, 2);
    // So is a limit by angle: 19.9 kn in the gust are borne from 35.4 on.
    const limit: LeewayByAngle = [
      [30, 15],
      [37, 21.4],
    ];
    expect(directly(COURSE, undefined, sea, from(0, { awsMaxKn: limit })).gustAwsKn).toBeCloseTo(19.92, 1);
    expect(direct(COURSE, leeway, sea, from(0, { awsMaxKn: limit }))).toBe('gust');
  });

  test('both boards of a pair ask with AWA off their headings', () => {
    const sea = { courseDeg: 0, twdDeg: 0, twsKn: 12 };
    const leeway: LeewayByAngle = [[0, 5]];
    const free = sailing(COURSE, leeway, sea);
    expect(free.manner).toBe('tacking');
    const held = sailing(COURSE, leeway, sea, [{ ...ANY, awaMinDeg: free.awaDeg + 1 }]);
    // She bears away until the sail stands, and no further.
    expect(held.manner).toBe('tacking');
    expect(held.awaDeg - free.awaDeg - 1).toBeGreaterThanOrEqual(0);
    expect(held.awaDeg - free.awaDeg - 1).toBeLessThan(0.02);
    expect(held.smgKn).toBeLessThan(free.smgKn);
  });

  test('leeway never takes the bow through the wind', () => {
    // A polar that goes up to the wind's eye: a course at 3 to the wind with 8 of leeway has the wind right ahead.
    const eye: Polar = { twsKn: [10], twaDeg: [0, 90, 180], stwKn: [0.5, 6, 5] };
    const leeway: LeewayByAngle = [[0, 8]];
    for (const [twdDeg, tack] of [
      [3, 1],
      [-3, -1],
    ] as const) {
      const speed = planSpeed(eye, 1, leeway);
      const found = directly(eye, leeway, { courseDeg: 0, twdDeg, twsKn: 10 });
      expect(found.awaDeg).toBeCloseTo(0, 9);
      expect(found.twaDeg * tack).toBeGreaterThan(0);
      expect(found.leewayDeg).toBeLessThan(3);
      expect(found.smgKn).toBe(speed.at(10, 3));
    }
    // In a calm there is none, nor right ahead.
    const { leewayAt } = planSpeed(eye, 1, leeway);
    expect(leewayAt!(0, 70, 0)).toBe(0);
    expect(leewayAt!(10, 0, 0.5)).toBe(0);
    expect(leewayAt!(10, 90, 6)).toBeCloseTo(8, 9);
    expect(leewayAt!(10, -90, 6)).toBeCloseTo(8, 9);
  });
});

describe('a polar by the heading', () => {
  test('by hand: leeway of 5° whatever the wind', () => {
    // Course at 60 to the wind, so heading at 55: between 5 kn at 40 and 10 kn at 90 that is 6.5 kn.
    const polar: Polar = { twsKn: [12], twaDeg: [40, 90], stwKn: [5, 10], twaReference: 'heading' };
    const found = sailing(polar, [[0, 5]], { courseDeg: 100, twdDeg: 160, twsKn: 12 });
    expect(found).toMatchObject({ manner: 'direct', leewayDeg: expect.closeTo(5, 8) });
    expect(found.twaDeg).toBeCloseTo(55, 8);
    expect(found.headingDeg).toBeCloseTo(105, 8);
    expect(found.stwKn).toBeCloseTo(6.5, 8);
    expect(found.smgKn).toBeCloseTo(6.5, 8);
    // Off the way: 6.5 + 6 = 12.5 ahead, 10.392 across; AWS 16.256, AWA 39.74, less 5.
    expect(found.awsKn).toBeCloseTo(16.256, 3);
    expect(found.awaDeg).toBeCloseTo(34.74, 2);
  });

  test('by hand: a triangle worked out backwards', () => {
    // Leeway 4 at AWA 40, so 44 off the way. 10 kn of wind, 6 kn through the water: the sine rule 10 sin(β − 44) = 6 sin 44
    // gives β = 68.632 to the way and 64.632 to the heading, where the polar has 6 kn.
    const polar: Polar = { twsKn: [10], twaDeg: [54.632, 74.632], stwKn: [5, 7], twaReference: 'heading' };
    const leeway: LeewayByAngle = [
      [30, 6],
      [50, 2],
    ];
    for (const [tack, twdDeg] of [
      [1, 68.632],
      [-1, -68.632],
    ] as const) {
      const found = sailing(polar, leeway, { courseDeg: 0, twdDeg, twsKn: 10 });
      expect(found.leewayDeg).toBeCloseTo(4, 3);
      expect(found.stwKn).toBeCloseTo(6, 4);
      expect(found.twaDeg).toBeCloseTo(tack * 64.632, 3);
      expect(found.awaDeg).toBeCloseTo(tack * 40, 3);
      expect(signed(found.headingDeg)).toBeCloseTo(tack * 4, 3);
    }
  });

  test.each(SEAS)('%s: the heading found by trying', (_, sea) => {
    for (const leeway of [LEEWAY, DEEP]) {
      const found = directly(HEADING, leeway, sea);
      const truth = directByTrying(HEADING, leeway, sea)!;
      expect(found.manner).toBe('direct');
      // Leeway is tried in steps of 0.0002°, which at 2 % of a knot a degree is nothing beside 0.001 kn.
      expect(apart(found.headingDeg, truth.headingDeg)).toBeLessThan(0.005);
      expect(Math.abs(found.leewayDeg! - truth.leewayDeg)).toBeLessThan(0.001);
      expect(Math.abs(found.stwKn - truth.stwKn)).toBeLessThan(0.001);
      expect(Math.abs(found.smgKn - along(truth.ground, sea.courseDeg))).toBeLessThan(0.001);
      expect(apart(found.awaDeg, truth.awaDeg)).toBeLessThan(0.01);
      expect(Math.abs(found.awsKn - truth.awsKn)).toBeLessThan(0.001);
    }
  });

  test.each<readonly [what: string, sea: Sea, manner: Sailing['manner']]>([
    ['a beat straight upwind', { courseDeg: 45, twdDeg: 45, twsKn: 14 }, 'tacking'],
    ['a beat on unequal boards', { courseDeg: 45, twdDeg: 65, twsKn: 10 }, 'tacking'],
    ['a beat in a current', { courseDeg: 45, twdDeg: 30, twsKn: 14, setDeg: 100, driftKn: 1.5 }, 'tacking'],
    ['a run straight downwind', { courseDeg: 45, twdDeg: 225, twsKn: 9 }, 'gybing'],
    ['a run on unequal boards', { courseDeg: 45, twdDeg: 220, twsKn: 8 }, 'gybing'],
    ['a run in a current', { courseDeg: 45, twdDeg: 230, twsKn: 9, setDeg: 170, driftKn: 0.5 }, 'gybing'],
  ])('%s: the pair found by trying', (_, sea, manner) => {
    for (const leeway of [LEEWAY, DEEP]) {
      const speed = planSpeed(HEADING, 1, leeway);
      const found = sailPair([ANY], speed, conditionsOf(sea), HOUSE, Number.NEGATIVE_INFINITY)!;
      const truth = pairByTrying(HEADING, leeway, sea, manner === 'tacking')!;
      expect(found.manner).toBe(manner);
      // The best angle is flat: what is made good there is near long before the angle is.
      expect(Math.abs(found.smgKn - truth.smgKn)).toBeLessThan(0.002);
      expect(Math.abs(Math.abs(found.twaDeg) - truth.twaDeg)).toBeLessThan(0.2);
      expect(Math.abs(found.leewayDeg! - truth.leewayDeg)).toBeLessThan(0.05);
    }
  });

  test('to windward leeway costs way, by the angle it opens', () => {
    const sea = { courseDeg: 45, twdDeg: 45, twsKn: 14 };
    const [with5, without] = [sailing(HEADING, [[0, 5]], sea), sailing(HEADING, undefined, sea)];
    expect(with5.smgKn).toBeLessThan(without.smgKn * 0.95);
    expect(with5.smgKn).toBeCloseTo(with5.stwKn * (1 - 3 / 120) * Math.cos((with5.twaDeg + with5.leewayDeg!) * RAD), 9);
  });

  test('where the heading reaches the first and the last angle of the polar', () => {
    const polar: Polar = { ...HEADING, twaDeg: [40, 60, 90, 120, 140, 150] };
    const leeway: LeewayByAngle = [[0, 5]];
    const { at, edgesAt } = planSpeed(polar, 1, leeway);
    for (const twsKn of [4, 9, 12, 25]) {
      expect(edgesAt(twsKn)[0]).toBeCloseTo(45, 8);
      expect(edgesAt(twsKn)[1]).toBeCloseTo(155, 8);
      for (const [outside, inside, headingTwa] of [
        [44.999, 45.001, 40.001],
        [155.001, 154.999, 149.999],
      ] as const) {
        expect(at(twsKn, outside)).toBeUndefined();
        expect(at(twsKn, -outside)).toBeUndefined();
        expect(at(twsKn, inside)).toBeCloseTo(polarAt(polar, twsKn, headingTwa)!, 6);
        expect(at(twsKn, -inside)).toBeCloseTo(polarAt(polar, twsKn, headingTwa)!, 6);
      }
      // The edge itself has its speed.
      for (const edge of edgesAt(twsKn)) expect(at(twsKn, edge)).toBeDefined();
    }
    const onCourse = (twaDeg: number) => sail(polar, leeway, { courseDeg: 0, twdDeg: twaDeg, twsKn: 12 });
    expect(onCourse(45.01)).toMatchObject({ manner: 'direct', twaDeg: expect.closeTo(40.01, 6) });
    expect(onCourse(-45.01)).toMatchObject({ manner: 'direct', twaDeg: expect.closeTo(-40.01, 6) });
    expect(onCourse(44.99)).toMatchObject({ manner: 'tacking' });
    expect(onCourse(154.99)).toMatchObject({ manner: 'direct', twaDeg: expect.closeTo(149.99, 6) });
    expect(onCourse(155.01)).toMatchObject({ manner: 'gybing' });
    const forbidden: Window = { ...ANY, awaMinDeg: 90 };
    expect(sail(polar, leeway, { courseDeg: 0, twdDeg: 44.99, twsKn: 12 }, [forbidden])).toBe('no-speed');
    expect(sail(polar, leeway, { courseDeg: 0, twdDeg: 45.01, twsKn: 12 }, [forbidden])).toBe('window');
  });

  test('at an edge a cross current is still headed for', () => {
    // The heading that holds lies a tenth of a degree inside the first angle: between two steps of any scan.
    const leeway: LeewayByAngle = [[0, 5]];
    const stwKn = polarAt(HEADING, 12, 40.1)!;
    const driftKn = 1;
    const off = Math.asin(driftKn / stwKn) / RAD;
    for (const side of [1, -1] as const) {
      // The current sets across to leeward; the way lies `off` to windward of the course, at 45.1 to the wind.
      const sea = { courseDeg: 0, twdDeg: side * (45.1 + off), twsKn: 12, setDeg: side * 270, driftKn };
      const found = sailing(HEADING, leeway, sea);
      expect(found).toMatchObject({ manner: 'direct', twaDeg: expect.closeTo(side * 40.1, 6) });
      expect(found.smgKn).toBeCloseTo(stwKn * Math.cos(off * RAD), 6);
    }
  });

  test('dead before the wind the bow still points a leeway up, and mirrored courses meet there', () => {
    const leeway: LeewayByAngle = [[0, 3]];
    const { at, edgesAt } = planSpeed(HEADING, 1, leeway);
    expect(edgesAt(12)[1]).toBe(180);
    expect(at(12, 180)).toBeCloseTo(polarAt(HEADING, 12, 177)!, 8);
    expect(at(12, 179.9999)).toBeCloseTo(at(12, 180)!, 4);
    const noPair = { ...HEADING, twaDeg: [40, 60, 90, 120, 150, 180], stwKn: HEADING.stwKn.map(() => 6) };
    const found = sailing(noPair, leeway, { courseDeg: 0, twdDeg: 180, twsKn: 12 });
    expect(found).toMatchObject({ manner: 'direct', twaDeg: expect.closeTo(177, 8), leewayDeg: expect.closeTo(3, 8) });
    expect(found.headingDeg).toBeCloseTo(3, 8);
  });

  test('where the polar is steep the leeway settles all the same', () => {
    // From nothing to 5 kn in two degrees, as polars begin: repeated substitution swings between a luffing and a sailing boat.
    const steep: Polar = {
      twsKn: [10, 20],
      twaDeg: [30, 32, 40, 60, 90, 120, 180],
      stwKn: [0, 0, 5, 7, 6, 8, 7, 9, 8, 10, 7, 9, 5, 7],
      twaReference: 'heading',
    };
    const leeway: LeewayByAngle = [
      [20, 8],
      [30, 5],
      [120, 0],
    ];
    const { at, edgesAt, leewayAt } = planSpeed(steep, 1, leeway);
    for (const twsKn of [6, 10, 15, 20]) {
      const [minDeg, maxDeg] = edgesAt(twsKn);
      let before = 0;
      for (let angle = minDeg + 0.01; angle < maxDeg; angle += 0.05) {
        const stwKn = at(twsKn, angle)!;
        const headingTwa = angle - leewayAt!(twsKn, angle, stwKn);
        expect(Math.abs(stwKn - polarAt(steep, twsKn, headingTwa)!)).toBeLessThan(1e-6);
        // And no jump: leeway falls and the speed rises, so only one pair of them agrees.
        expect(Math.abs(stwKn - before)).toBeLessThan(0.5);
        before = stwKn;
      }
    }
  });
});

describe('whatever the wind, current, polar and leeway', () => {
  /** Numbers as a file may have them. */
  const number = (min: number, max: number) =>
    fc.integer({ min: min * 1000, max: max * 1000 }).map((thousandths) => thousandths / 1000);
  const rising = (max: number, minLength: number, maxLength: number) =>
    fc
      .uniqueArray(fc.integer({ min: 0, max }), { minLength, maxLength })
      .map((values) => [...values].sort((a, b) => a - b));
  const polars: fc.Arbitrary<Polar> = fc.tuple(rising(40, 1, 3), rising(180, 2, 7)).chain(([twsKn, twaDeg]) =>
    fc.record(
      {
        twsKn: fc.constant(twsKn),
        twaDeg: fc.constant(twaDeg),
        stwKn: fc.array(number(0, 15), {
          minLength: twsKn.length * twaDeg.length,
          maxLength: twsKn.length * twaDeg.length,
        }),
        windHeightM: number(1, 60),
        twaReference: fc.constantFrom('course' as const, 'heading' as const),
      },
      { requiredKeys: ['twsKn', 'twaDeg', 'stwKn'] },
    ),
  );
  /** Up and down by up to half a degree for each degree of AWA, the most a boat file may have. */
  const tables = (steepest: number): fc.Arbitrary<LeewayByAngle> =>
    fc
      .tuple(rising(180, 1, 6), number(0, 20), fc.array(number(-0.5, steepest), { minLength: 6, maxLength: 6 }))
      .map(([angles, first, slopes]) => {
        let leewayDeg = first;
        return angles.map((angle, i) => {
          const before = angles[i - 1];
          if (before !== undefined) leewayDeg = Math.min(20, Math.max(0, leewayDeg + slopes[i]! * (angle - before)));
          return [angle, leewayDeg] as const;
        });
      });
  const seas: fc.Arbitrary<Sea> = fc
    .record({
      courseDeg: number(0, 359.9),
      twdDeg: number(0, 359.9),
      twsKn: number(0, 45),
      setDeg: number(0, 359.9),
      driftKn: fc.oneof(fc.constant(0), number(0, 5)),
    })
    .chain((sea) =>
      // Often right into the wind, right before it, or with the current along the course.
      fc.constantFrom<Sea>(
        sea,
        sea,
        { ...sea, twdDeg: sea.courseDeg },
        { ...sea, twdDeg: (sea.courseDeg + 180) % 360 },
        { ...sea, setDeg: sea.courseDeg },
      ),
    );

  /** Leeway, felt wind and speed agree with each other and with the tables, to what a table's slope leaves. */
  function expectConsistent(polar: Polar, leeway: LeewayByAngle, sea: Sea, found: Sailing) {
    for (const value of Object.values(found)) if (typeof value === 'number') expect(value).not.toBeNaN();
    const { headingDeg, twaDeg, awaDeg, awsKn, stwKn } = found;
    const leewayDeg = found.leewayDeg!;
    expect(headingDeg).toBeGreaterThanOrEqual(0);
    expect(headingDeg).toBeLessThan(360);
    expect(apart(sea.twdDeg - headingDeg, twaDeg)).toBeLessThan(1e-8);
    expect(leewayDeg).toBeGreaterThanOrEqual(0);
    // With the wind right ahead the bow turns no further; else the table has it.
    if (Math.abs(awaDeg) > 1e-6 || leewayDeg > tableAt(leeway, 0) + 1e-6)
      expect(Math.abs(leewayDeg - tableAt(leeway, Math.abs(awaDeg)))).toBeLessThan(1e-6);
    const felt = triangle(sea, headingDeg, stwKn, leewayDeg);
    expect(Math.abs(felt.awsKn - awsKn)).toBeLessThan(1e-6);
    // A small wind has no sharp direction.
    if (awsKn > 1e-3 && Math.abs(twaDeg) > 1e-6) expect(apart(felt.awaDeg, awaDeg)).toBeLessThan(1e-6 + 1e-8 / awsKn);
    const angle = polar.twaReference === 'heading' ? Math.abs(twaDeg) : Math.abs(twaDeg) + leewayDeg;
    const held = Math.min(polar.twaDeg.at(-1)!, Math.max(polar.twaDeg[0]!, angle));
    expect(Math.abs(held - angle)).toBeLessThan(2e-6);
    // A degree of a table may hold 15 kn, and leeway is found to a millionth of a degree.
    expect(Math.abs(stwKn - polarAt(polar, sea.twsKn, held)!)).toBeLessThan(2e-5);
  }

  test('the way made lies along the course, and everything agrees', () => {
    const met = { direct: 0, tacking: 0, gybing: 0 };
    fc.assert(
      fc.property(polars, tables(0.5), seas, (polar, leeway, sea) => {
        const found = sail(polar, leeway, sea);
        if (typeof found === 'string') return;
        met[found.manner] += 1;
        expectConsistent(polar, leeway, sea, found);
        const current = currentOf(sea);
        const way = wayOf(found);
        if (found.manner === 'direct') {
          const ground = sum(way, current);
          expect(Math.abs(rightOf(ground, sea.courseDeg))).toBeLessThan(2e-5);
          expect(Math.abs(along(ground, sea.courseDeg) - found.smgKn)).toBeLessThan(2e-5);
          return;
        }
        // The other board is the mirror image in the wind; between the two lies the course.
        const kept = found.manner === 'tacking' ? 1 - 3 / 120 : 1 - 6 / 720;
        const up = along(way, sea.twdDeg) * kept;
        const right = rightOf(way, sea.twdDeg) * kept;
        const board = (side: number) => sum(vector(up, sea.twdDeg), vector(side * right, sea.twdDeg + 90), current);
        const [shown, other] = [rightOf(board(1), sea.courseDeg), rightOf(board(-1), sea.courseDeg)];
        const share = other / (other - shown);
        expect(share).toBeGreaterThanOrEqual(0.5 - 1e-6);
        expect(share).toBeLessThanOrEqual(1 + 1e-6);
        const mean = along(board(1), sea.courseDeg) * share + along(board(-1), sea.courseDeg) * (1 - share);
        expect(Math.abs(mean - found.smgKn)).toBeLessThan(1e-4);
      }),
      { numRuns: 2000 },
    );
    for (const count of Object.values(met)) expect(count).toBeGreaterThan(50);
  });

  test('no speed made good is over its bound', () => {
    fc.assert(
      fc.property(polars, tables(0.5), number(0, 45), number(0.5, 1.2), (polar, leeway, twsKn, factor) => {
        const { at, edgesAt, vmgBound } = planSpeed(polar, factor, leeway);
        const [up, down] = [vmgBound(twsKn, 'up'), vmgBound(twsKn, 'down')];
        const angles = [...Array.from({ length: 361 }, (_, i) => i / 2), ...edgesAt(twsKn)];
        for (const angle of angles) {
          const stwKn = at(twsKn, angle);
          if (stwKn === undefined) continue;
          const vmgKn = stwKn * Math.cos(angle * RAD);
          // Speeds reach a millionth of a degree over the last angle.
          expect(vmgKn).toBeLessThanOrEqual(up + 1e-6);
          expect(-vmgKn).toBeLessThanOrEqual(down + 1e-6);
        }
      }),
      { numRuns: 200 },
    );
  });

  test('mirrored in the course, everything is mirrored', () => {
    fc.assert(
      fc.property(polars, tables(0.5), seas, (polar, leeway, sea) => {
        const [one, other] = [
          sail(polar, leeway, { ...sea, courseDeg: 0 }),
          sail(polar, leeway, {
            ...sea,
            courseDeg: 0,
            twdDeg: (360 - sea.twdDeg) % 360,
            setDeg: (360 - sea.setDeg!) % 360,
          }),
        ];
        if (typeof one === 'string' || typeof other === 'string') {
          expect(other).toBe(one);
          return;
        }
        expect(other.manner).toBe(one.manner);
        expect(Math.abs(other.smgKn - one.smgKn)).toBeLessThan(1e-6);
        // Equal boards are both shown on starboard, and a run has the wind on either side.
        if (one.twaDeg * other.twaDeg > 0) return;
        expect(Math.abs(other.twaDeg + one.twaDeg)).toBeLessThan(1e-5);
        expect(Math.abs(other.leewayDeg! - one.leewayDeg!)).toBeLessThan(1e-5);
      }),
      { numRuns: 500 },
    );
  });

  test('leeway that falls with AWA, on speeds that rise with TWA: one answer, whichever way it is worked out', () => {
    const rise = polars.map((polar): Polar => {
      const columns = polar.twsKn.length;
      const byWind = polar.twsKn.map((_, j) => polar.stwKn.filter((_, i) => i % columns === j).sort((a, b) => a - b));
      return {
        ...polar,
        twaReference: 'heading',
        stwKn: polar.twaDeg.flatMap((_, i) => byWind.map((speeds) => speeds[i]!)),
      };
    });
    fc.assert(
      fc.property(rise, tables(0), number(1, 45), number(0, 1), (polar, leeway, twsKn, share) => {
        const { at } = planSpeed(polar, 1, leeway);
        const [first, last] = [polar.twaDeg[0]!, polar.twaDeg.at(-1)!];
        const twaDeg = first + share * (last - first);
        const stwKn = polarAt(polar, twsKn, twaDeg)!;
        // Forwards, from the heading to the way: the leeway that its own triangle asks for, by halving.
        let [low, high] = [0, 20];
        const sea = { courseDeg: 0, twdDeg: twaDeg, twsKn };
        for (let step = 0; step < 60; step += 1) {
          const middle = (low + high) / 2;
          const { awaDeg } = triangle(sea, 0, stwKn, middle);
          if (awaDeg < 1e-3 || twaDeg + middle > 180) return;
          if (tableAt(leeway, awaDeg) > middle) low = middle;
          else high = middle;
        }
        // A boat faster than the wind feels it from ahead, and may as well lie with the wind right ahead of the bow.
        const courseDeg = twaDeg + low;
        for (let tried = Math.max(0, courseDeg - last); tried < low; tried += 0.05) {
          const faster = polarAt(polar, twsKn, Math.max(first, courseDeg - tried))!;
          if (triangle({ courseDeg: 0, twdDeg: courseDeg, twsKn }, 0, faster, 0).awaDeg <= tried) return;
        }
        // On a run near the wind's own speed a degree of leeway swings the felt wind by many: several may agree.
        if (Math.cos((triangle(sea, 0, stwKn, low).awaDeg + low) * RAD) < 0) return;
        expect(Math.abs(at(twsKn, twaDeg + low)! - stwKn)).toBeLessThan(2e-5);
      }),
      { numRuns: 2000 },
    );
  });

  test('the leeway settles however the wind answers it', () => {
    // Any felt wind at all, even one that jumps: within 60 steps there is a crossing or a jump across one.
    fc.assert(
      fc.property(tables(0.5), number(0, 180), number(-400, 400), number(0, 20), (leeway, awaDeg, slope, at) => {
        const awaAt = (leewayDeg: number) => Math.min(180, Math.max(0, awaDeg + slope * (leewayDeg - at)));
        const found = settledLeeway(leeway)(awaAt);
        const felt = awaAt(found) - found;
        expect(found).toBeGreaterThanOrEqual(0);
        expect(found).toBeLessThanOrEqual(20);
        expect(Math.abs(Math.min(awaAt(found), tableAt(leeway, Math.max(0, felt))) - found)).toBeLessThan(1e-6);
      }),
      { numRuns: 2000 },
    );
  });

  test('a whole passage has no number that is none', () => {
    fc.assert(
      fc.property(polars, tables(0.5), number(0, 40), fc.integer({ min: 0, max: 359 }), (polar, leeway, wind, from) => {
        const passage = planPassage(
          {
            route: WEST,
            boat: { ...BOAT, leeway },
            polars: { status: 'measured', plans: { 'main+jib': polar, vented: { ...polar, twaReference: 'heading' } } },
            forecast: forecastOf(everyHours(6, 1), LATS, LONS, steadyWind(wind, from)),
          },
          { departure: '2027-03-01T06:00Z', choice: 'fastest' },
        );
        expect(hoursCsv(passage)).not.toMatch(/NaN|undefined|Infinity/);
        for (const hour of passage.hours) {
          expect(hour.leewayDeg === null).toBe(hour.sailPlan === null);
          if (hour.twaDeg !== null) expect(Math.abs(hour.twaDeg)).toBeLessThanOrEqual(180);
        }
      }),
      { numRuns: 60 },
    );
  });
});
