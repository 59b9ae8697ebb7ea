import { describe, expect, test } from 'vitest';
import {
  type Climatology,
  DEFAULT_SPREAD_SHARES,
  type DrawOptions,
  describeFault,
  drawnFrom,
  keptMeanSpeedKn,
  type Passage,
  planJson,
  planPassage,
  riceMeanKn,
  type SpreadShares,
  spreadKn,
  totalsOf,
  totalsText,
  weatherAt,
} from '../src/index.js';
import { readPlan } from '../src/node/node.js';
import { isoUtc } from '../src/time.js';
import { spreadShare } from '../src/weather/rice.js';
import { faultsOf } from './support/faults.js';
import { meanFrom, middle, monthly } from './support/monthly.js';
import { BOAT, LATS, LONS, POLARS, T0, WEST } from './support/synthetic.js';
import climate from './truth/climate.json' with { type: 'json' };
import { expectNear, fixture } from './truth/fixture.js';

// Seeds are fixed, so that what is random here comes out the same each time; bounds are four standard errors, worked out from the number of drawings.

const HOUR = 3600;
const FOUR = 4;

/** Mean speed by its definition: the length of vector + sigma · (x, y), x and y standard normal, summed over a fine grid of the plane. */
function meanByDefinition(vectorKn: number, sigmaKn: number): number {
  const step = 0.02;
  const density = Array.from({ length: 801 }, (_, i) => Math.exp(-((i * step - 8) ** 2) / 2));
  let [sum, weight] = [0, 0];
  density.forEach((px, i) => {
    const east = vectorKn + sigmaKn * (i * step - 8);
    for (let j = 0; j < density.length; j += 1) {
      const p = px * density[j]!;
      sum += p * Math.hypot(east, sigmaKn * (j * step - 8));
      weight += p;
    }
  });
  return sum / weight;
}

describe('the mean of the Rice distribution', () => {
  const { riceOfBessel, rice } = climate;
  const truth = fixture('climate.json: rice', { riceOfBessel, rice });

  truth.each('riceOfBessel', 'by the closed form in Bessel functions', ({ x, i0e, i1e }) => {
    const expected = Math.sqrt(Math.PI / 2) * ((1 + x) * i0e + x * i1e);
    // Ten figures of the functions.
    expectNear(riceMeanKn(Math.sqrt(2 * x) * 7, 7) / 7, expected, 1e-9 * expected, `x ${x}`);
  });

  truth.each('rice', 'by a reference library', ({ vector, mean }) => {
    expectNear(riceMeanKn(vector * 3, 3), 3 * mean, 1e-9 * mean, `vector ${vector}`);
  });

  test('in a mean calm it is the Rayleigh mean, sigma · √(π/2)', () => {
    expect(riceMeanKn(0, 10)).toBeCloseTo(10 * Math.sqrt(Math.PI / 2), 12);
    expect(riceMeanKn(12, 0)).toBe(12);
  });

  test.each([
    [0, 5],
    [3, 6],
    [6, 6],
    [12, 5],
    [14, 2],
    [40, 3],
  ])('by its definition, numerically: a vector of %f kn and a sigma of %f', (vectorKn, sigmaKn) => {
    // The sum's own error at the kink of a speed of nought is under 1e-4 of sigma.
    expectNear(riceMeanKn(vectorKn, sigmaKn), meanByDefinition(vectorKn, sigmaKn), 1e-4 * sigmaKn, 'kn');
  });

  test('both series meet', () => {
    const at = (x: number) => riceMeanKn(Math.sqrt(2 * x), 1);
    expectNear(at(25 + 1e-9), at(25 - 1e-9), 1e-8, 'x 25');
  });
});

describe('the spread that means imply', () => {
  test('is the one whose mean speed is the month’s', () => {
    for (let vectorKn = 0; vectorKn < 20; vectorKn += 0.37) {
      const sigma = spreadKn(vectorKn, 20);
      expectNear(riceMeanKn(vectorKn, sigma), 20, 1e-8, `vector ${vectorKn}`);
      expectNear(spreadShare(vectorKn / 20) * 20, sigma, 1e-3, `table at ${vectorKn}`);
    }
  });

  test('in a mean calm it is speed · √(2/π), of a steady wind none', () => {
    expect(spreadKn(0, 10)).toBeCloseTo(10 * Math.sqrt(2 / Math.PI), 8);
    expect([spreadKn(10, 10), spreadKn(10.5, 10), spreadKn(0, 0)]).toEqual([0, 0, 0]);
    expect([spreadShare(0), spreadShare(1)]).toEqual([expect.closeTo(Math.sqrt(2 / Math.PI), 8), 0]);
  });

  test('the kept mean speed is that at the kept variance, and all of it with nothing dropped', () => {
    const sigma = spreadKn(14, 16);
    expect(keptMeanSpeedKn(14, 16)).toBeCloseTo(meanByDefinition(14, sigma * Math.sqrt(0.7)), 3);
    expect(keptMeanSpeedKn(14, 16, { passage: 0.3, weather: 0.7, observation: 0 })).toBeCloseTo(16, 8);
    expect(keptMeanSpeedKn(14, 16, { passage: 0, weather: 0, observation: 1 })).toBe(14);
    expect(DEFAULT_SPREAD_SHARES).toEqual({ passage: 0.2, weather: 0.5, observation: 0.3 });
  });
});

/** Changing means: four cells and months of which none is like another, and not steady. */
const CELLS = monthly([10, 12], [-42, -40], (month, lat, lon) => ({
  eastKn: -8 - month / 3 + (lon + 41) * 2,
  northKn: -3 + (lat - 11) * 3,
  speedKn: 15 + month / 4 + (lat - 11) + (lon + 41),
}));
const KEPT: SpreadShares = { passage: 0.3, weather: 0.7, observation: 0 };
const WEATHER_ONLY: SpreadShares = { passage: 0, weather: 1, observation: 0 };

const windOf = (climatology: Climatology) => {
  const at = weatherAt({ file: 'none', grids: [] }, 12, climatology);
  return (latDeg: number, lonDeg: number, epochSeconds: number) => at(latDeg, lonDeg, epochSeconds)!.wind;
};
const drawOf = (seed: number, shares: SpreadShares, more: Partial<DrawOptions> = {}) =>
  windOf(drawnFrom(CELLS, { seed, fromEpochSeconds: T0, shares, ...more }));

/** Mean vector and mean speed of the month as they are there and then, straight between the middles of months and bilinear, worked out apart. */
function meansAt(latDeg: number, lonDeg: number, epochSeconds: number) {
  const [from, to] = [middle(2027, 2), middle(2027, 3)];
  const share = (epochSeconds - from) / (to - from);
  const month = 2 + share;
  // The means are straight in month, latitude and longitude.
  return {
    eastKn: -8 - month / 3 + (lonDeg + 41) * 2,
    northKn: -3 + (latDeg - 11) * 3,
    speedKn: 15 + month / 4 + (latDeg - 11) + (lonDeg + 41),
  };
}

const PLACES: readonly (readonly [what: string, latDeg: number, lonDeg: number, hours: number])[] = [
  ['at a grid point and a node of time', 10, -42, 48],
  ['at a grid point, between nodes of time', 12, -40, 51],
  ['between grid points, at a node of time', 11, -41, 12],
  ['between grid points and nodes of time', 10.5, -40.3, 100.7],
  ['before the drawing begins', 11.7, -41.9, -27.5],
];

describe('many drawings', () => {
  const N = 20_000;

  const moments = (latDeg: number, lonDeg: number, hours: number, shares: SpreadShares) => {
    let [east, north, speed, squares] = [0, 0, 0, 0];
    for (let seed = 0; seed < N; seed += 1) {
      const wind = drawOf(seed, shares)(latDeg, lonDeg, T0 + hours * HOUR);
      const kn = Math.hypot(wind.eastKn, wind.northKn);
      east += wind.eastKn / N;
      north += wind.northKn / N;
      speed += kn / N;
      squares += (kn * kn) / N;
    }
    return { east, north, speed, speedError: Math.sqrt((squares - speed * speed) / N) };
  };

  test.each(PLACES)('with nothing dropped keep mean vector and mean speed: %s', (_, latDeg, lonDeg, hours) => {
    const means = meansAt(latDeg, lonDeg, T0 + hours * HOUR);
    const sigma = spreadKn(Math.hypot(means.eastKn, means.northKn), means.speedKn);
    const { east, north, speed, speedError } = moments(latDeg, lonDeg, hours, KEPT);
    expectNear(east, means.eastKn, (FOUR * sigma) / Math.sqrt(N), 'east');
    expectNear(north, means.northKn, (FOUR * sigma) / Math.sqrt(N), 'north');
    expectNear(speed, means.speedKn, FOUR * speedError, 'speed');
    // The bound tells it from the mean speed of the share that is kept by default.
    const kept = keptMeanSpeedKn(Math.hypot(means.eastKn, means.northKn), means.speedKn);
    expect(means.speedKn - kept).toBeGreaterThan(FOUR * speedError);
  });

  test.each(PLACES)(
    'by the usual split keep mean vector and the mean speed of the kept variance: %s',
    (_, latDeg, lonDeg, hours) => {
      const means = meansAt(latDeg, lonDeg, T0 + hours * HOUR);
      const vectorKn = Math.hypot(means.eastKn, means.northKn);
      const sigma = spreadKn(vectorKn, means.speedKn) * Math.sqrt(0.7);
      const { east, north, speed, speedError } = moments(latDeg, lonDeg, hours, DEFAULT_SPREAD_SHARES);
      expectNear(east, means.eastKn, (FOUR * sigma) / Math.sqrt(N), 'east');
      expectNear(north, means.northKn, (FOUR * sigma) / Math.sqrt(N), 'north');
      expectNear(speed, keptMeanSpeedKn(vectorKn, means.speedKn), FOUR * speedError, 'speed');
    },
  );
});

/** The disturbance in standard deviations: what a drawing adds to the mean, at a place where the spread is known. */
const STILL = monthly([10, 12], [-42, -40], () => ({ eastKn: 0, northKn: 0, speedKn: Math.sqrt(Math.PI / 2) }));
/** Weather of many seeds at some hours, in standard deviations: east and north by turns. */
function disturbances(shares: SpreadShares, hours: readonly number[], count: number, more: Partial<DrawOptions> = {}) {
  return Array.from({ length: count }, (_, seed) => {
    const wind = windOf(drawnFrom(STILL, { seed, fromEpochSeconds: T0, shares, ...more }));
    return hours.map((hour) => wind(11, -41, T0 + hour * HOUR));
  });
}
const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
/** Of values whose mean is nought. */
const correlation = (one: readonly number[], other: readonly number[]) =>
  mean(one.map((value, i) => value * other[i]!)) /
  Math.sqrt(mean(one.map((v) => v * v)) * mean(other.map((v) => v * v)));

describe('the disturbance', () => {
  const N = 20_000;
  /** Four standard errors of a correlation, and of a variance of 1. */
  const [OF_R, OF_VARIANCE] = [FOUR / Math.sqrt(N), FOUR * Math.sqrt(2 / N)];
  const HOURS = [-39, -36, 0, 1.5, 3, 4.5, 6, 9, 36, 72];
  const weather = disturbances(WEATHER_ONLY, HOURS, N);
  const column = (hour: number, which: 'eastKn' | 'northKn') => weather.map((row) => row[HOURS.indexOf(hour)]![which]);

  test('varies as much between nodes as at them', () => {
    for (const hour of HOURS) {
      for (const which of ['eastKn', 'northKn'] as const) {
        expectNear(mean(column(hour, which).map((v) => v * v)), 1, OF_VARIANCE, `${which} at ${hour} h`);
        expectNear(mean(column(hour, which)), 0, OF_R, `mean ${which} at ${hour} h`);
      }
    }
    // Straight between nodes 6 h apart it would be (1 + e^(-1/6)) / 2, which this would see.
    expect(1 - (1 + Math.exp(-1 / 6)) / 2).toBeGreaterThan(OF_VARIANCE);
  });

  test('is normal', () => {
    for (const hour of [0, 3, 36]) {
      const values = column(hour, 'eastKn');
      expectNear(mean(values.map((v) => v ** 3)), 0, FOUR * Math.sqrt(15 / N), 'third moment');
      expectNear(mean(values.map((v) => v ** 4)), 3, FOUR * Math.sqrt(96 / N), 'fourth moment');
    }
  });

  test('keeps 1/e of itself in 36 hours, forwards and across the beginning', () => {
    for (const which of ['eastKn', 'northKn'] as const) {
      for (const [from, to] of [
        [0, 36],
        [36, 72],
        [-36, 0],
        [-39, -36],
        [0, 6],
        [-36, 36],
      ] as const) {
        const exact = Math.exp(-(to - from) / 36);
        // From 39 h before to 36 h before one end lies between nodes: half of each, stretched.
        const half = (Math.exp(-6 / 36) / 2 + 0.5) / Math.sqrt(0.5 + 0.5 * Math.exp(-6 / 36));
        const expected = from === -39 ? half : exact;
        expectNear(correlation(column(from, which), column(to, which)), expected, OF_R, `${which} ${from} to ${to}`);
      }
    }
  });

  test('has independent components', () => {
    for (const hour of HOURS)
      expectNear(correlation(column(hour, 'eastKn'), column(hour, 'northKn')), 0, OF_R, `${hour} h`);
  });

  test('of neighbouring seeds is independent', () => {
    const stays = disturbances({ passage: 1, weather: 0, observation: 0 }, [0, 500], N);
    for (const [name, rows] of [
      ['stays', stays.map((row) => row[0]!)],
      ['weather', weather.map((row) => row[2]!)],
    ] as const) {
      for (const step of [1, 2, 3, 64, 256, 1024]) {
        for (const [one, other] of [
          ['eastKn', 'eastKn'],
          ['eastKn', 'northKn'],
          ['northKn', 'northKn'],
        ] as const) {
          const a = rows.slice(step).map((row) => row[one]);
          const b = rows.slice(0, -step).map((row) => row[other]);
          expectNear(correlation(a, b), 0, FOUR / Math.sqrt(N - step), `${name} ${one} ${other} ${step}`);
        }
      }
    }
    // What stays does.
    for (const [at, later] of stays) expect(later).toEqual(at);
  });

  test('is split as stated: a part that stays, and weather', () => {
    const rows = disturbances(DEFAULT_SPREAD_SHARES, [0, 36, 720], N);
    const values = (i: number) => rows.map((row) => row[i]!.eastKn);
    expectNear(mean(values(0).map((v) => v * v)), 0.7, 0.7 * OF_VARIANCE, 'variance');
    expectNear(correlation(values(0), values(2)), 0.2 / 0.7, OF_R, 'after thirty days');
    expectNear(correlation(values(0), values(1)), (0.2 + 0.5 / Math.E) / 0.7, OF_R, 'after 36 h');
  });

  test('has another memory where that is asked for', () => {
    const rows = disturbances(WEATHER_ONLY, [0, 12], N, { eFoldHours: 12 });
    const values = (i: number) => rows.map((row) => row[i]!.northKn);
    expectNear(correlation(values(0), values(1)), 1 / Math.E, OF_R, 'after 12 h');
  });

  test('along one long passage has the same mean and variance', () => {
    const wind = windOf(drawnFrom(STILL, { seed: 42, fromEpochSeconds: T0, shares: WEATHER_ONLY }));
    const hours = 40_000;
    const values = Array.from({ length: hours }, (_, hour) => wind(11, -41, T0 + hour * HOUR).eastKn);
    // Independent hours of a first-order series: all of them over (1 + r) / (1 − r), of their squares with r².
    const r = Math.exp(-1 / 36);
    const [ofMean, ofSquares] = [hours * ((1 - r) / (1 + r)), hours * ((1 - r * r) / (1 + r * r))];
    expectNear(mean(values), 0, FOUR / Math.sqrt(ofMean), 'mean');
    expectNear(mean(values.map((v) => v * v)), 1, FOUR * Math.sqrt(2 / ofSquares), 'variance');
  });
});

describe('one drawing', () => {
  const asked = Array.from(
    { length: 200 },
    (_, i) => [10 + (i % 20) / 10, -42 + (i % 7) / 4, T0 + (((i * 37) % 400) - 100) * HOUR] as const,
  );

  test('is the same whatever is asked and in which order, by another sampler, and of a copy', () => {
    const climatology = drawnFrom(CELLS, { seed: 4_294_967_295, fromEpochSeconds: T0 });
    const at = windOf(climatology);
    const inOrder = asked.map((place) => at(...place));
    const backwards = windOf(structuredClone(climatology));
    expect(
      [...asked]
        .reverse()
        .map((place) => backwards(...place))
        .reverse(),
    ).toEqual(inOrder);
    expect(asked.map((place) => windOf(climatology)(...place))).toEqual(inOrder);
    const shared = new Float32Array(new SharedArrayBuffer(CELLS.meanSpeedKn.byteLength));
    shared.set(CELLS.meanSpeedKn);
    const onShared = windOf({ ...climatology, meanSpeedKn: shared });
    expect(asked.map((place) => onShared(...place))).toEqual(inOrder);
    expect(drawOf(1, KEPT)(11, -41, T0)).not.toEqual(drawOf(2, KEPT)(11, -41, T0));
  });

  test('has one shape everywhere, its size by the spread of the place', () => {
    const at = drawOf(7, DEFAULT_SPREAD_SHARES);
    for (const hours of [0, 5, 77.3]) {
      const inSigmas = [
        [10, -42],
        [11.3, -40.2],
        [12, -41],
      ].map(([lat, lon]) => {
        const means = meansAt(lat!, lon!, T0 + hours * HOUR);
        const sigma = spreadKn(Math.hypot(means.eastKn, means.northKn), means.speedKn);
        const wind = at(lat!, lon!, T0 + hours * HOUR);
        return [(wind.eastKn - means.eastKn) / sigma, (wind.northKn - means.northKn) / sigma] as const;
      });
      for (const [east, north] of inSigmas) {
        // The table of spreads is good to 1e-4, the grid holds 32-bit numbers.
        expectNear(east, inSigmas[0]![0], 1e-3, `east at ${hours} h`);
        expectNear(north, inSigmas[0]![1], 1e-3, `north at ${hours} h`);
      }
    }
  });

  test('goes straight from hour to hour: no jumps at nodes, months or grid lines', () => {
    const at = drawOf(11, KEPT);
    const seam = middle(2027, 3);
    for (const instant of [T0, T0 + 6 * HOUR, T0 - 6 * HOUR, seam]) {
      const [before, after] = [at(11, -41, instant - 0.5), at(11, -41, instant + 0.5)];
      expect(Math.hypot(after.eastKn - before.eastKn, after.northKn - before.northKn)).toBeLessThan(0.01);
    }
  });

  test('of cells whose vector is as long as the speed there is no spread', () => {
    const steady = monthly([10, 12], [-42, -40], () => ({ eastKn: -10, northKn: 0, speedKn: 9.9 }));
    const at = windOf(drawnFrom(steady, { seed: 3, fromEpochSeconds: T0 }));
    expect(at(11, -41, T0 + 100 * HOUR)).toEqual({ eastKn: -10, northKn: 0 });
  });

  test('what cannot be drawn is told', () => {
    const draw = (options: Partial<DrawOptions>) =>
      faultsOf(() => drawnFrom(CELLS, { seed: 1, fromEpochSeconds: T0, ...options }));
    for (const seed of [-1, 0.5, 4_294_967_296, Number.NaN]) {
      expect(draw({ seed })).toEqual([`draw, seed: expected a whole number from 0 to 4294967295, got ${seed}`]);
    }
    expect(draw({ fromEpochSeconds: Number.NaN })).toEqual(['draw, fromEpochSeconds: expected a number, got NaN']);
    for (const [passage, weather, observation] of [
      [0.5, 0.6, -0.1],
      [0.2, 0.5, 0.2],
      [Number.NaN, 1, 0],
    ] as const) {
      expect(draw({ shares: { passage, weather, observation } })).toEqual([
        `draw, shares: expected passage, weather and observation from 0, together 1, got ${passage}, ${weather}, ${observation}`,
      ]);
    }
    expect(draw({ eFoldHours: 0 })).toEqual(['draw, eFoldHours: expected more than 0 and at most 1000, got 0']);
    expect(draw({})).toEqual([]);
    // One that comes from elsewhere is checked where it is sailed.
    const made: Climatology = { ...CELLS, draw: { seed: 1.5, fromEpochSeconds: T0, shares: KEPT, eFoldHours: 36 } };
    const inputs = { route: WEST, boat: BOAT, polars: POLARS, climatology: made };
    expect(faultsOf(() => planPassage(inputs, { departure: isoUtc(T0) }))).toEqual([
      'draw, seed: expected a whole number from 0 to 4294967295, got 1.5',
    ]);
  });
});

describe('a synthetic passage', () => {
  const climatology = monthly(LATS, LONS, () => meanFrom(16, 80, 0.85));
  const drawn = (seed: number) => drawnFrom(climatology, { seed, fromEpochSeconds: T0 });
  const plan = (of: Climatology, options = {}): Passage =>
    planPassage(
      { route: WEST, boat: BOAT, polars: POLARS, climatology: of },
      { departure: isoUtc(T0), choice: 'fastest', ...options },
    );

  test.each(['planned', 'fastest'] as const)('says that it is one, and of what it was drawn: %s', (choice) => {
    const passage = plan(drawn(5), { choice });
    expect(passage.complete).toBe(true);
    expect(passage.hours.every(({ weather }) => weather === 'climatology')).toBe(true);
    for (const { steadiness } of passage.hours) expect(steadiness).toBeCloseTo(0.85, 5);
    expect(passage.synthetic).toEqual({ seed: 5, from: isoUtc(T0), shares: DEFAULT_SPREAD_SHARES, eFoldHours: 36 });
    const hours = Number((passage.hours.reduce((sum, { minutes }) => sum + minutes, 0) / 60).toFixed(1));
    expect(passage.warnings.filter(({ code }) => code === 'synthetic-weather').map(describeFault)).toEqual([
      `months.csv: expected a forecast for every hour, got none in ${hours} h: synthetic weather instead (seed 5), one drawing of what monthly means imply, by shares that are placeholders. Squalls and lulls are not in it`,
    ]);
    const toPrint = { passage, totals: totalsOf(passage, BOAT), boat: BOAT, route: WEST, inputs: [] };
    expect(totalsText(toPrint).split('\n')[1]).toMatch(
      /^SYNTHETIC WEATHER in .* \(seed 5\): one drawing of what monthly means imply, no forecast\.$/,
    );
    expect(readPlan(planJson(toPrint)).synthetic).toEqual(passage.synthetic);
  });

  test('is the same by the same seed, and another by another', () => {
    expect(plan(drawn(5))).toEqual(plan(drawn(5)));
    expect(plan(drawn(6)).hours).not.toEqual(plan(drawn(5)).hours);
  });

  test('blows as the drawing does, and by another wind factor and shift as that would', () => {
    const at = windOf(drawn(5));
    for (const { time, latDeg, lonDeg, groundTwsKn } of plan(drawn(5)).hours) {
      const { eastKn, northKn } = at(latDeg, lonDeg, Date.parse(time) / 1000);
      expect(groundTwsKn, time).toBeCloseTo(Math.hypot(eastKn, northKn), 9);
    }
    const [hour] = plan(drawn(5), { windFactor: 1.5 }).hours;
    const wind = at(hour!.latDeg, hour!.lonDeg, T0);
    expect(hour!.groundTwsKn).toBeCloseTo(1.5 * Math.hypot(wind.eastKn, wind.northKn), 4);
    const [late] = plan(drawn(5), { windShiftHours: 10 }).hours;
    const earlier = at(late!.latDeg, late!.lonDeg, T0 - 10 * HOUR);
    expect(late!.groundTwsKn).toBeCloseTo(Math.hypot(earlier.eastKn, earlier.northKn), 9);
  });
});
