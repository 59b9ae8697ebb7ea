import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { bbox, booleanPointInPolygon, polygon as polygonFeature } from '@turf/turf';
import fc from 'fast-check';
import { feature } from 'topojson-client';
import type { GeometryObject, Topology } from 'topojson-specification';
import { describe, expect, test } from 'vitest';
import { describeFault, type LegKind, type Position, parsePosition, type Route } from '../src/index.js';
import { type LandOptions, landOf, landOnTrack } from '../src/land/land.js';
import { overLand } from '../src/land/overLand.js';
import { faultsOf } from './support/faults.js';

const require = createRequire(import.meta.url);
const coastOf = (scale: string) => {
  const text = readFileSync(require.resolve(`world-atlas/land-${scale}.json`), 'utf8');
  const topology = JSON.parse(text) as Topology<{ land: GeometryObject }>;
  return landOf(feature(topology, topology.objects.land));
};
const LAND = coastOf('50m');

type Place = readonly [name: string, latDeg: number, lonDeg: number, toNext?: LegKind];
const routeOf = (...places: readonly Place[]): Route => ({
  waypoints: places.map(([name, latDeg, lonDeg, toNext]) => ({
    name,
    latDeg,
    lonDeg,
    ...(toNext === undefined ? {} : { toNext }),
  })),
});
const warningsOf = (route: Route, options?: LandOptions) => landOnTrack(route, LAND, options).map(describeFault);
const told = (legs: string, from: string, to: string, place: string, length: string) =>
  `route: expected water along the route, got land on ${legs} ("${from}" to "${to}") from ${place} for ${length} Nm`;

/** Where a warning says that land begins, and how far it goes. */
function placeIn(warning: string): { place: Position; lengthNm: number } {
  const [, place, length] = /from (\S+ \S+) for (\S+) Nm$/.exec(warning)!;
  return { place: parsePosition(place!)!, lengthNm: Number(length) };
}

describe('a leg across an island', () => {
  // Limits of the islands as any atlas has them.
  test.each<[string, Route, readonly [number, number], readonly [number, number], readonly [number, number]]>([
    ['Fuerteventura', routeOf(['A', 28.3, -15], ['B', 28.4, -13]), [28, 28.8], [-14.6, -13.8], [10, 20]],
    ['Barbados', routeOf(['A', 13.15, -59], ['B', 13.15, -60.5]), [13, 13.4], [-59.7, -59.4], [8, 16]],
    ['Viti Levu', routeOf(['A', -17.8, 176.5], ['B', -17.8, -178.5]), [-18.3, -17.3], [177.2, 178.7], [60, 80]],
    [
      'Viti Levu, westwards',
      routeOf(['A', -17.8, -178.5], ['B', -17.8, 176.5]),
      [-18.3, -17.3],
      [177.2, 178.7],
      [60, 80],
    ],
    [
      'Taveuni on the date line',
      routeOf(['A', -16.85, 179], ['B', -16.85, -179]),
      [-17, -16.7],
      [179.7, 180.2],
      [5, 20],
    ],
    [
      'Taveuni on the date line, westwards',
      routeOf(['A', -16.85, -179], ['B', -16.85, 179]),
      [-17, -16.7],
      [179.7, 180.2],
      [5, 20],
    ],
    [
      'Ireland on a great circle',
      routeOf(['A', 45, -40, 'great-circle'], ['B', 53.8, -5.2]),
      [51.4, 54.5],
      [-10.5, -5.9],
      [100, 200],
    ],
  ])('%s', (_, route, [south, north], [west, east], [shortest, longest]) => {
    const warnings = warningsOf(route);
    expect(warnings.length).toBe(1);
    const { place, lengthNm } = placeIn(warnings[0]!);
    const lonDeg = place.lonDeg < 0 && east > 180 ? place.lonDeg + 360 : place.lonDeg;
    expect(place.latDeg > south && place.latDeg < north && lonDeg > west && lonDeg < east, warnings[0]).toBe(true);
    expect(lengthNm).toBeGreaterThan(shortest);
    expect(lengthNm).toBeLessThan(longest);
    expect(overLand(LAND)(place)).toBe(true);
  });

  test('is told by its number and waypoints, each stretch for itself', () => {
    // Vanua Levu, and the islands beyond Natewa Bay.
    const route = routeOf(['Start', -16, 176], ['A', -16.6, 178], ['B', -16.6, -179], ['C', -16, -178]);
    expect(warningsOf(route)).toEqual([
      told('leg 2', 'A', 'B', "16°36.0'S 178°49.9'E", '43'),
      told('leg 2', 'A', 'B', "16°36.0'S 179°44.9'E", '8.9'),
    ]);
    expect(warningsOf(route, { file: 'route.gpx' })[0]).toMatch(/^route\.gpx: expected water along the route, got /);
    expect(landOnTrack(route, LAND)[0]).toMatchObject({ file: 'route', code: 'on-land' });
  });

  test('a stretch over several legs is told once', () => {
    const route = routeOf(['West', 40, -11], ['A', 40, -6], ['B', 41, -3], ['East', 40, 2]);
    const warnings = warningsOf(route);
    expect(warnings.length).toBe(1);
    expect(warnings[0]).toContain('got land on legs 1 to 3 ("West" to "East") from 40°00.0\'N 008°');
    expect(placeIn(warnings[0]!).lengthNm).toBeGreaterThan(400);
  });
});

describe('no warning', () => {
  test.each([
    [
      'an ocean crossing from port to port',
      routeOf(['Mindelo', 16.9, -25.01], ['South Point', 12.95, -59.5], ['Bridgetown', 13.1, -59.62]),
    ],
    ['a great circle over the Pacific', routeOf(['San Diego', 32.6, -117.3], ['Hiva Oa', -9.8, -139])],
    // A coast that jumps from 180 to −180 makes of these latitudes a band round the world if taken as it stands.
    ['at the latitudes of the islands on the date line', routeOf(['A', -16.5, 10], ['B', -16.5, -34])],
    ['at the latitudes of the far east of Siberia', routeOf(['A', 66.5, -10], ['B', 66.5, 8])],
    ['across the date line eastwards', routeOf(['A', -20, 178], ['B', -20, -176])],
    ['across the date line westwards', routeOf(['A', 30, -178], ['B', 30, 178])],
    ['along the date line', routeOf(['A', 10, 180], ['B', 40, 180])],
    ['on the lines of the cells', routeOf(['A', -20, -120], ['B', -20, -100], ['C', -35, -100])],
  ])('%s', (_, route) => {
    expect(warningsOf(route)).toEqual([]);
  });

  test('within 10 Nm of the ends of a route, unless asked for', () => {
    // Both ends lie ashore.
    const route = routeOf(['Las Palmas', 28.1, -15.48], ['East', 27.7, -14.8], ['Mindelo', 16.86, -24.98]);
    expect(warningsOf(route)).toEqual([]);
    const [first, second, ...more] = warningsOf(route, { waypointMarginNm: 0 });
    expect(more).toEqual([]);
    expect(first).toContain(`land on leg 1 ("Las Palmas" to "East") from 28°06.0'N 015°28.8'W for `);
    expect(second).toContain('land on leg 2 ("East" to "Mindelo") from ');
    for (const warning of [first!, second!]) expect(placeIn(warning).lengthNm).toBeLessThan(10);
    expect(overLand(LAND)(route.waypoints[2]!)).toBe(true);
  });

  test('within 10 Nm of a waypoint between long legs', () => {
    // The light on the north cape of Barbados, rounded too closely.
    const rounded = (waypointMarginNm?: number) =>
      warningsOf(
        routeOf(['A', 14, -55], ['Cape', 13.3, -59.6], ['B', 12, -63]),
        waypointMarginNm === undefined ? {} : { waypointMarginNm },
      );
    expect(rounded()).toEqual([]);
    expect(rounded(0).length).toBe(1);
  });

  test('but a route of many close points is looked at all the same', () => {
    const steps = Array.from({ length: 41 }, (_, i): Place => [`${i}`, 28.3 + i / 400, -15 + i / 20]);
    const warnings = warningsOf(routeOf(...steps));
    expect(warnings.length).toBe(1);
    expect(warnings[0]).toMatch(/land on legs \d+ to \d+ /);
    expect(placeIn(warnings[0]!).lengthNm).toBeGreaterThan(12);
  });
});

describe('the look-up of land', () => {
  const isLand = overLand(LAND);
  test.each<[string, number, number, boolean]>([
    ['Chukotka west of the date line', 67, 179, true],
    ['Chukotka on the date line', 67, -180, true],
    ['Chukotka east of the date line', 66.5, -173, true],
    ['the Norwegian Sea at its latitude', 67, 5, false],
    ['Lapland at its latitude', 67, 25, true],
    ['Baffin Bay at its latitude', 68.5, -60, false],
    ['Wrangel Island', 71.2, -179.5, true],
    ['the Barents Sea at its latitude', 71.2, 40, false],
    ['the South Atlantic at the latitude of Fiji', -16.51, 6.6, false],
    ['the Sahara on the corner of four cells', 25, 10, true],
    ['the middle of the Sahara', 23.3, 12.1, true],
    ['Null Island', 0, 0, false],
    ['Antarctica', -80, -60, true],
    ['the Ross Sea', -76, -175, false],
  ])('%s', (_, latDeg, lonDeg, land) => {
    expect(isLand({ latDeg, lonDeg })).toBe(land);
  });

  test('finds what looking at the whole polygons finds', () => {
    const whole = LAND.polygons.map((rings) => {
      const coordinates = rings.map((ring) => ring.map(([lon, lat]) => [lon, lat]));
      return polygonFeature(coordinates, {}, { bbox: bbox({ type: 'Polygon', coordinates }) });
    });
    // Between the latitudes of the outlines that jump at the date line, which stand as they are here.
    const thousandths = (limit: number) => fc.noBias(fc.integer({ min: -limit * 1000, max: limit * 1000 - 1 }));
    const latDeg = thousandths(60)
      .map((n) => n / 1000)
      .filter((lat) => lat < -17 || lat > -16);
    const lonDeg = thousandths(180).map((n) => n / 1000);
    let ashore = 0;
    fc.assert(
      fc.property(latDeg, lonDeg, (lat, lon) => {
        const expected = whole.some((shape) => booleanPointInPolygon([lon, lat], shape));
        expect(isLand({ latDeg: lat, lonDeg: lon })).toBe(expected);
        ashore += expected ? 1 : 0;
      }),
      { seed: 20270110, numRuns: 2000 },
    );
    expect(ashore).toBeGreaterThan(100);
  });

  test('finds the same on coasts of other scales away from the shore', () => {
    const [fine, coarse] = [overLand(coastOf('10m')), overLand(coastOf('110m'))];
    for (const [latDeg, lonDeg, land] of [
      [67, 179, true],
      [67, -175, true],
      [67, 5, false],
      [71, 40, false],
      [-16.9, 10, false],
      [-25, 135, true],
      [-16.5, -120, false],
    ] as const) {
      expect([fine({ latDeg, lonDeg }), coarse({ latDeg, lonDeg })]).toEqual([land, land]);
    }
  });

  const square = (west: number, east: number, south: number, north: number): [number, number][] => [
    [west, south],
    [east, south],
    [east, north],
    [west, north],
    [west, south],
  ];

  test('holes are water, on either side of the date line', () => {
    for (const [outer, hole] of [
      [square(170, 190, 0, 20), square(178, 183, 5, 15)],
      [square(170, 190, 0, 20), square(-182, -177, 5, 15)],
      [square(-190, -170, 0, 20), square(178, 183, 5, 15)],
    ] as const) {
      const isSquare = overLand({ polygons: [[outer, hole]] });
      const found = [175, 179, -180, -178, -175, -165, 165].map((lonDeg) => isSquare({ latDeg: 10, lonDeg }));
      expect(found).toEqual([true, false, false, false, true, false, false]);
    }
  });

  test('an outline cut at the date line, one that jumps there, and one that runs on are the same', () => {
    const cut = [[square(170, 180, 0, 20)], [square(-180, -170, 0, 20)]];
    const jumps = [[square(170, -170, 0, 20)]];
    const runsOn = [[square(170, 190, 0, 20)]];
    for (const polygons of [cut, jumps, runsOn]) {
      const isSquare = overLand({ polygons });
      for (const [lonDeg, land] of [
        [169, false],
        [171, true],
        [-180, true],
        [-171, true],
        [-169, false],
        [0, false],
      ] as const)
        expect(isSquare({ latDeg: 10, lonDeg })).toBe(land);
    }
  });

  test('land of nothing, of empty polygons and of rings left open', () => {
    expect(overLand({ polygons: [] })({ latDeg: 0, lonDeg: 0 })).toBe(false);
    expect(overLand({ polygons: [[], [[]]] })({ latDeg: 0, lonDeg: 0 })).toBe(false);
    expect(overLand({ polygons: [[square(-1, 1, -1, 1).slice(0, 4)]] })({ latDeg: 0, lonDeg: 0 })).toBe(true);
  });
});

describe('land from GeoJSON', () => {
  const RING = [
    [0, 0],
    [1, 0],
    [1, 1],
    [0, 0],
  ] as const;
  const polygon = { type: 'Polygon', coordinates: [RING] };
  const multi = { type: 'MultiPolygon', coordinates: [[RING], [RING]] };

  test.each([
    ['a polygon', polygon, 1],
    ['several', multi, 2],
    ['a feature', { type: 'Feature', properties: null, geometry: multi }, 2],
    ['a collection of geometries', { type: 'GeometryCollection', geometries: [polygon, multi] }, 3],
    [
      'a collection of features',
      {
        type: 'FeatureCollection',
        features: [
          { type: 'Feature', geometry: polygon },
          { type: 'Feature', geometry: { type: 'GeometryCollection', geometries: [multi] } },
        ],
      },
      3,
    ],
  ])('%s', (_, geojson, count) => {
    expect(landOf(geojson)).toEqual({ polygons: Array.from({ length: count }, () => [RING]) });
  });

  test.each<[string, unknown, readonly string[]]>([
    ['no object', undefined, ['land: expected an object of GeoJSON, got nothing']],
    [
      'no polygon',
      { type: 'GeometryCollection', geometries: [] },
      ['land: expected at least one polygon of land, got none'],
    ],
    [
      'a line',
      { type: 'GeometryCollection', geometries: [polygon, { type: 'LineString', coordinates: RING }] },
      ['land, geometries[1].type: expected one of Polygon, MultiPolygon, got "LineString"'],
    ],
    [
      'a coast as it stands in its file',
      { type: 'Topology', objects: {} },
      [
        'land, type: expected one of FeatureCollection, Feature, Polygon, MultiPolygon, GeometryCollection, got "Topology"',
      ],
    ],
    [
      'no list of geometries',
      { type: 'GeometryCollection' },
      ['land, geometries: expected a list of geometries, got nothing'],
    ],
    [
      'collections within collections',
      { type: 'GeometryCollection', geometries: [{ type: 'GeometryCollection', geometries: [] }] },
      ['land, geometries[0].type: expected one of Polygon, MultiPolygon, got "GeometryCollection"'],
    ],
    [
      'bad coordinates',
      { type: 'MultiPolygon', coordinates: [[RING.slice(0, 3), 5], 'x', [[...RING, [0, 91]]]] },
      [
        'land, coordinates[0][0]: expected a ring of at least 4 positions, got 3',
        'land, coordinates[0][1]: expected a list of positions, got 5',
        'land, coordinates[1]: expected a list of rings, got "x"',
        'land, coordinates[2][0][4]: expected [longitude from -180 to 360, latitude from -90 to 90], got [0, 91]',
      ],
    ],
    ['no polygons', { type: 'MultiPolygon' }, ['land, coordinates: expected a list of polygons, got nothing']],
  ])('%s', (_, geojson, messages) => {
    expect(faultsOf(() => landOf(geojson))).toEqual(messages);
  });
});
