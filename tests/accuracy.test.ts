import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { beaufortOf, sailingBetween, stabilityWindKn } from '../src/index.js';
import { ELLIPSOID, geodesicBetween, rhumbBetween } from './tools/accuracy/oracles.mjs';
import { accuracyMarkdown, accuracyRows } from './tools/accuracy.mjs';
import beaufort from './truth/beaufort.json' with { type: 'json' };
import crossings from './truth/crossings.json' with { type: 'json' };
import { expectNear, expectNearDeg, fixture } from './truth/fixture.js';
import geodesics from './truth/geodesics.json' with { type: 'json' };

const winds = fixture('beaufort.json', beaufort);
const oceans = fixture('crossings.json', crossings);

import seen from './truth/speedsSeen.json' with { type: 'json' };

const speeds = fixture('speedsSeen.json', seen);

const M_PER_NM = 1852;
const STRENGTHS = ['printed', 'reference library', 'computed', 'reported'];
/** What the table must hold. Taking a row out takes its line out here as well. */
const REQUIRED = [
  'great-circle-distance-printed',
  'great-circle-course-printed',
  'vertex-latitude-printed',
  'vertex-longitude-printed',
  'rhumb-distance-printed',
  'rhumb-course-printed',
  'rhumb-latitude-printed',
  'rhumb-longitude-printed',
  'great-circle-distance-ellipsoid-all-legs',
  'great-circle-course-ellipsoid-all-legs',
  'great-circle-distance-ellipsoid-trade-wind-crossings',
  'great-circle-course-ellipsoid-trade-wind-crossings',
  'rhumb-distance-rhumbsolve',
  'rhumb-course-rhumbsolve',
  'rhumb-distance-ellipsoid-all-legs',
  'rhumb-course-ellipsoid-all-legs',
  'rhumb-distance-ellipsoid-trade-wind-crossings',
  'rhumb-course-ellipsoid-trade-wind-crossings',
  'great-circle-distance-sphere',
  'great-circle-course-sphere',
  'great-circle-place-sphere',
  'rhumb-distance-sphere',
  'rhumb-course-sphere',
  'rhumb-place-sphere',
  'track-between-points',
  'track-half-way',
  'sun-to-30',
  'sun-40-to-60',
  'sun-printed-seconds',
  'sun-worked-example',
  'sun-printed-minutes',
  'sun-observed',
  'twilight-to-30',
  'twilight-40-to-60',
  'moon-lit',
  'moon-to-30',
  'moon-40-to-60',
  'apparent-speed-test-set',
  'apparent-angle-test-set',
  'apparent-speed-printed',
  'apparent-angle-printed',
  'apparent-speed-triangles',
  'apparent-angle-triangles',
  'beaufort-printed',
  'beaufort-formula',
  'gust-factor',
  'course-to-steer-printed',
  'speed-made-good-printed',
  'course-to-steer-exact',
  'speed-made-good-exact',
  'speed-estimated-percent',
  'speed-estimated-knots',
  'speed-estimated-at-sea-percent',
  'speed-estimated-fitted-to-one',
  'speed-estimated-daily-run',
  'wind-lifts-a-hull-upwind',
  'wind-lifts-a-hull-abeam',
];

const rows = accuracyRows();

describe('accuracy', () => {
  test.each(rows.map((row) => [row.id, row] as const))('%s', (_, row) => {
    expect(row.cases).toBeGreaterThan(0);
    expect(STRENGTHS).toContain(row.strength);
    for (const said of [row.quantity, row.comparedWith, row.why]) expect(said).toMatch(/\w/);
    expect(row.meanError).toBeLessThanOrEqual(row.worstError);
    expect(row.worstError, `${row.quantity}, ${row.unit}: ${row.why}`).toBeLessThanOrEqual(row.ceiling);
  });

  test('the table holds every quantity once', () => {
    expect(rows.map(({ id }) => id)).toEqual(REQUIRED);
  });

  // A ceiling far above what is measured would let a fault through. Rounding, and tables met exactly, have no scale.
  test('no ceiling is more than five times the worst error', () => {
    const loose = rows.filter(
      ({ worstError, ceiling, shownFrom = 0 }) => worstError > 0 && ceiling > Math.max(shownFrom, 5 * worstError),
    );
    expect(loose.map(({ id }) => id)).toEqual([]);
  });

  // What the page says of the sphere in words.
  test('distances of trade-wind crossings read short every time', () => {
    const trades = rows.filter(({ id }) => id.includes('distance') && id.endsWith('trade-wind-crossings'));
    expect(trades).toHaveLength(2);
    for (const { bias, meanError } of trades) expectNear(bias, -meanError, 1e-12, 'mean with signs');
  });

  test('docs/accuracy.md is what the rows make (npm run docs accepts a change)', () => {
    expect(readFileSync('docs/accuracy.md', 'utf8')).toBe(accuracyMarkdown(rows));
  });
});

describe('oracles', () => {
  test.each(geodesics.legs.rows)('rhumb line on the ellipsoid against RhumbSolve: $name', ({ from, to, rhumb }) => {
    const line = rhumbBetween(ELLIPSOID, from, to);
    expectNear(line.distanceNm * M_PER_NM, rhumb.distanceM, 0.001, 'metres');
    expectNearDeg(line.courseDeg, rhumb.courseDeg, 1e-6, 'course');
  });

  oceans.each('crossings', 'ocean crossing on the ellipsoid', ({ from, to, greatCircle }, { tolerance }) => {
    const line = geodesicBetween(ELLIPSOID, from, to);
    expectNear(line.distanceNm * M_PER_NM, greatCircle.distanceM, tolerance.distanceM, 'metres');
    expectNearDeg(line.courseDeg, greatCircle.courseDeg, tolerance.courseDeg, 'course');
    const sailing = sailingBetween(from, to, 'great-circle');
    const { distanceShare, courseDeg } = geodesics.legs.tolerance;
    expectNear((sailing.distanceNm * M_PER_NM) / greatCircle.distanceM, 1, distanceShare, 'distance');
    expectNearDeg(sailing.courseDeg, greatCircle.courseDeg, courseDeg, 'course');
  });
});

describe('Beaufort numbers', () => {
  winds.each('table', 'row of the table', (row) => {
    expect(beaufortOf(row.lowestKn)).toBe(row.beaufort);
    expect(beaufortOf(row.highestKn ?? 120)).toBe(row.beaufort);
    // The table goes by whole knots: a wind between two rows is rounded first.
    if (row.highestKn === null) return;
    expect([beaufortOf(row.highestKn + 0.49), beaufortOf(row.highestKn + 0.5)]).toEqual([
      row.beaufort,
      row.beaufort + 1,
    ]);
  });

  winds.each('formula', 'middle of a row', (row) => {
    expect(beaufortOf(row.windKn)).toBe(row.beaufort);
  });
});

describe('speeds seen', () => {
  const { speeds: reported, dailyRuns, liftsAHull } = seen;
  const within = (range: readonly number[], value: number) => range[0]! <= value && value <= range[1]!;

  speeds.each('boats', 'an invented boat is one of the reports', ({ id }) => {
    expect([...reported.rows, ...dailyRuns.rows, ...liftsAHull.rows].map(({ boat }) => boat)).toContain(id);
  });

  speeds.each('speeds', 'a speed with its wind, within what was reported', (row) => {
    const { twsKn, awsKn, range, stwKn } = row as { twsKn?: number; awsKn?: number; range?: number[]; stwKn: number };
    expect((twsKn === undefined) !== (awsKn === undefined)).toBe(true);
    expect(within(range ?? [stwKn, stwKn], stwKn)).toBe(true);
  });

  speeds.each('dailyRuns', 'a mean within its range', ({ meanNm, rangeNm }) => {
    expect(within(rangeNm, meanNm)).toBe(true);
  });

  speeds.each('liftsAHull', 'the printed formula', ({ boat, meanWindKn }, { rows }) => {
    const { hullCentresM, displacementKg, sailAreaM2 } = seen.boats.rows.find(({ id }) => id === boat)!;
    const wind = stabilityWindKn({ hullCentresM, displacementKg, sailAreaM2, centreOfEffortM: 9.5 });
    expectNear(wind, meanWindKn, 0.05, 'knots');
    expect(rows.length).toBeGreaterThan(1);
  });
});
