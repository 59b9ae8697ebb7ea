import geographiclib from 'geographiclib-geodesic';
import { describe, expect, test } from 'vitest';
import {
  type LegKind,
  layTrack,
  type Position,
  placeFrom,
  type Route,
  sailingBetween,
  type Track,
  trackAt,
} from '../src/index.js';
import { expectNear, expectNearDeg, fixture } from './truth/fixture.js';
import geodesics from './truth/geodesics.json' with { type: 'json' };
import sailings from './truth/sailings.json' with { type: 'json' };

const printed = fixture('sailings.json', sailings);
const reference = fixture('geodesics.json', geodesics);

const M_PER_NM = 1852;
const SPACING_NM = 5;
const KINDS: readonly LegKind[] = ['great-circle', 'rhumb'];

// Karney's own code with no flattening: an oracle for the handbook sphere that shares nothing with the library.
const SPHERE = new geographiclib.Geodesic.Geodesic((M_PER_NM * 10800) / Math.PI, 0);
const between = (from: Position, to: Position) => SPHERE.Inverse(from.latDeg, from.lonDeg, to.latDeg, to.lonDeg);
const apartNm = (from: Position, to: Position) => between(from, to).s12! / M_PER_NM;

const RAD = Math.PI / 180;
const mercator = (latDeg: number) => Math.log(Math.tan((45 + latDeg / 2) * RAD));

const routeOf = (kind: LegKind, ...places: readonly Position[]): Route => ({
  waypoints: places.map((place, i) => ({ ...place, name: `${i}`, toNext: kind })),
});
const placesOf = (track: Track): Position[] =>
  Array.from(track.latDeg, (latDeg, i) => ({ latDeg, lonDeg: track.lonDeg[i]! }));

/** The vertex of a great circle: its highest latitude, and the longitude where its course lies due east or west. */
function vertexOf(track: Track): Position {
  const highest = Math.max(...track.latDeg.map(Math.abs));
  const at = trackAt(track);
  const northing = (distanceNm: number) => Math.sign(Math.cos(at(distanceNm).courseDeg * RAD));
  let [low, high] = [0, track.distanceNm.at(-1)!];
  const [before, after] = [northing(low), northing(high)];
  expect(after, 'the course turns over').toBe(-before);
  for (let step = 0; step < 50; step += 1) {
    const middle = (low + high) / 2;
    if (northing(middle) === before) low = middle;
    else high = middle;
  }
  return { latDeg: track.latDeg.find((latDeg) => Math.abs(latDeg) === highest)!, lonDeg: at(high).lonDeg };
}

interface VertexTolerance {
  readonly vertexLatMin: number;
  readonly vertexLonMin: number;
}

function expectVertex(
  row: { from: Position; to: Position; vertexLatDeg: number; vertexLonDeg?: number },
  { vertexLatMin, vertexLonMin }: VertexTolerance,
) {
  const vertex = vertexOf(layTrack(routeOf('great-circle', row.from, row.to)));
  expectNear(vertex.latDeg * 60, row.vertexLatDeg * 60, vertexLatMin, 'latitude of the vertex, minutes');
  if (row.vertexLonDeg === undefined) return;
  expectNearDeg(vertex.lonDeg, row.vertexLonDeg, vertexLonMin / 60, 'longitude of the vertex');
}

describe('great circles with printed answers', () => {
  printed.each('greatCircle', 'course, distance and vertex', (row, { tolerance }) => {
    const sailing = sailingBetween(row.from, row.to, 'great-circle');
    expectNear(sailing.distanceNm, row.distanceNm, tolerance.distanceNm, 'distance');
    if (row.courseDeg !== undefined) expectNearDeg(sailing.courseDeg, row.courseDeg, tolerance.courseDeg, 'course');
    expectVertex(row, tolerance);
  });

  printed.each('greatCircleSphere', 'worked out on the sphere', (row, { tolerance }) => {
    const sailing = sailingBetween(row.from, row.to, 'great-circle');
    expectNear(sailing.distanceNm, row.distanceNm, tolerance.distanceNm, 'distance');
    expectNearDeg(sailing.courseDeg, row.courseDeg, tolerance.courseDeg, 'course');
    expectVertex(row, tolerance);
    const reached = placeFrom(row.from, row.courseDeg, row.distanceNm, 'great-circle');
    expectNear(apartNm(reached, row.to), 0, tolerance.landingNm, 'off the end');
  });

  printed.each('greatCircleLoose', 'course and distance, loosely', (row) => {
    const sailing = sailingBetween(row.from, row.to, 'great-circle');
    expectNear(sailing.distanceNm, row.distanceNm, row.tolerance.distanceNm, 'distance');
    expectNearDeg(sailing.courseDeg, row.courseDeg, row.tolerance.deg, 'course');
  });
});

describe('rhumb lines with printed answers', () => {
  printed.each('rhumbInverse', 'course and distance', (row) => {
    const sailing = sailingBetween(row.from, row.to, 'rhumb');
    expectNearDeg(sailing.courseDeg, row.courseDeg, row.tolerance.courseDeg, 'course');
    expectNear(sailing.distanceNm, row.distanceNm, row.tolerance.distanceNm, 'distance');
  });

  printed.each('rhumbDirect', 'place reached', (row) => {
    const reached = placeFrom(row.from, row.courseDeg, row.distanceNm, 'rhumb');
    expectNear(reached.latDeg * 60, row.to.latDeg * 60, row.tolerance.latMin, 'latitude, minutes');
    expectNearDeg(reached.lonDeg, row.to.lonDeg, row.tolerance.lonMin / 60, 'longitude');
  });

  printed.each('rhumbInverseSphere', 'worked out on the sphere', (row, { tolerance }) => {
    const sailing = sailingBetween(row.from, row.to, 'rhumb');
    expectNearDeg(sailing.courseDeg, row.courseDeg, tolerance.courseDeg, 'course');
    expectNear(sailing.distanceNm, row.distanceNm, tolerance.distanceNm, 'distance');
    const reached = placeFrom(row.from, row.courseDeg, row.distanceNm, 'rhumb');
    expectNear(apartNm(reached, row.to), 0, tolerance.landingNm, 'off the end');
  });

  printed.each('rhumbDirectSphere', 'place reached on the sphere', (row, { tolerance }) => {
    const reached = placeFrom(row.from, row.courseDeg, row.distanceNm, 'rhumb');
    expectNear(reached.latDeg * 60, row.to.latDeg * 60, tolerance.latMin, 'latitude, minutes');
    expectNearDeg(reached.lonDeg, row.to.lonDeg, tolerance.lonMin / 60, 'longitude');
  });
});

describe('legs on the ellipsoid', () => {
  test('18 legs are compared and 7 are left out', () => {
    expect([geodesics.legs.rows.length, geodesics.leftOut.rows.length]).toEqual([18, 7]);
  });

  reference.each('legs', 'great circle', ({ from, to, greatCircle }, { tolerance }) => {
    const sailing = sailingBetween(from, to, 'great-circle');
    expectNear(sailing.distanceNm / (greatCircle.distanceM / M_PER_NM), 1, tolerance.distanceShare, 'distance');
    expectNearDeg(sailing.courseDeg, greatCircle.courseDeg, tolerance.courseDeg, 'course');
    const endCourseDeg = layTrack(routeOf('great-circle', from, to)).courseDeg.at(-1)!;
    expectNearDeg(endCourseDeg, greatCircle.endCourseDeg, tolerance.courseDeg, 'course at the end');
  });

  reference.each('legs', 'rhumb line', ({ from, to, rhumb }, { tolerance }) => {
    const sailing = sailingBetween(from, to, 'rhumb');
    expectNear(sailing.distanceNm / (rhumb.distanceM / M_PER_NM), 1, tolerance.distanceShare, 'distance');
    expectNearDeg(sailing.courseDeg, rhumb.courseDeg, tolerance.courseDeg, 'course');
  });

  reference.each('leftOut', 'pole or antipode, distance only', ({ from, to, distanceM }) => {
    const atPole = Math.max(Math.abs(from.latDeg), Math.abs(to.latDeg)) === 90;
    expect(atPole || between(from, to).a12 > 179).toBe(true);
    const { distanceNm } = sailingBetween(from, to, 'great-circle');
    expectNear(distanceNm / (distanceM / M_PER_NM), 1, geodesics.legs.tolerance.distanceShare, 'distance');
  });

  // On one sphere only rounding is left: 0.2 mm at most, and in the course that of a leg of a metre and a half.
  reference.each('legs', "great circle, Karney's code on the handbook sphere", ({ from, to }) => {
    const truth = between(from, to);
    const sailing = sailingBetween(from, to, 'great-circle');
    expectNear(sailing.distanceNm, truth.s12! / M_PER_NM, 1e-7, 'distance');
    expectNearDeg(sailing.courseDeg, truth.azi1!, 1e-6, 'course');
    const reached = placeFrom(from, truth.azi1!, truth.s12! / M_PER_NM, 'great-circle');
    expectNear(apartNm(reached, to), 0, 1e-7, 'off the end');
  });
});

describe('tracks', () => {
  printed.each('halfWay', 'half-way', (row, { tolerance }) => {
    const track = layTrack(routeOf(row.kind as LegKind, row.from, row.to));
    const middle = trackAt(track)(track.distanceNm.at(-1)! / 2);
    expectNear(middle.latDeg, row.half.latDeg, tolerance.deg, 'latitude');
    expectNearDeg(middle.lonDeg, row.half.lonDeg, tolerance.deg, 'longitude');
  });

  const inRange = ({ latDeg, lonDeg }: Position): Position => ({
    latDeg,
    lonDeg: lonDeg >= 180 ? lonDeg - 360 : lonDeg,
  });
  const legs = geodesics.legs.rows.map(({ name, from, to }) => ({ name, from: inRange(from), to: inRange(to) }));
  const across = legs
    .filter(({ from, to }) => Math.abs(from.lonDeg - to.lonDeg) > 180)
    .flatMap((leg) => [leg, { name: `${leg.name}, back`, from: leg.to, to: leg.from }])
    .flatMap((leg) => KINDS.map((kind) => ({ ...leg, kind })));

  test('5 legs cross the date line', () => {
    expect(across.length / 2 / KINDS.length).toBe(5);
  });

  test.each(across)('$kind across the date line without a jump: $name', ({ from, to, kind }) => {
    const track = layTrack(routeOf(kind, from, to));
    const [places, at] = [placesOf(track), trackAt(track)];
    for (const { lonDeg } of places) {
      expect(lonDeg).toBeGreaterThanOrEqual(-180);
      expect(lonDeg).toBeLessThan(180);
    }
    expectNear(apartNm(places[0]!, from), 0, 1e-9, 'off the start');
    expectNear(apartNm(places.at(-1)!, to), 0, 1e-9, 'off the end');
    let sumNm = 0;
    for (let i = 1; i < places.length; i += 1) {
      const stepNm = apartNm(places[i - 1]!, places[i]!);
      expect(stepNm).toBeLessThanOrEqual(SPACING_NM + 1e-9);
      expectNear(track.distanceNm[i]! - track.distanceNm[i - 1]!, stepNm, 1e-6, 'step');
      sumNm += stepNm;
      // The step that crosses is the one whose middle a careless mean puts on the far side of the globe.
      const middle = at((track.distanceNm[i - 1]! + track.distanceNm[i]!) / 2);
      expect(middle.lonDeg).toBeLessThan(180);
      expectNear(apartNm(places[i - 1]!, middle), stepNm / 2, 1e-3, 'middle of the step');
    }
    // A rhumb line is longer than the chords between its points by less than 1e-7 of itself.
    expectNear(track.distanceNm.at(-1)!, sumNm, kind === 'rhumb' ? 1e-3 : 1e-6, 'sum of the steps');
    expectNear(track.distanceNm.at(-1)!, sailingBetween(from, to, kind).distanceNm, 1e-9, 'length of the leg');
  });

  test.each(KINDS)('a round trip across the date line by %s adds up over its legs', (kind) => {
    const [tonga, fiji] = [across[0]!.from, across[0]!.to];
    const track = layTrack(routeOf(kind, tonga, fiji, tonga));
    const { distanceNm } = sailingBetween(tonga, fiji, kind);
    expectNear(track.distanceNm.at(-1)!, 2 * distanceNm, 1e-9, 'length');
    const turn = trackAt(track)(distanceNm);
    expectNear(apartNm(turn, fiji), 0, 1e-9, 'off the turn');
    expect([turn.leg, trackAt(track)(distanceNm - 1e-6).leg]).toEqual([2, 1]);
  });

  // A place on the date line is the trap of every longitude kept below 180.
  test('120 Nm east from 179°E on the equator end on 179°W', () => {
    for (const kind of KINDS) {
      const reached = placeFrom({ latDeg: 0, lonDeg: 179 }, 90, 120, kind);
      expectNear(reached.lonDeg, -179, 1e-9, 'longitude');
      expectNear(placeFrom({ latDeg: 0, lonDeg: 179 }, 90, 60, kind).lonDeg, -180, 1e-9, 'longitude');
    }
  });

  test.each(legs)('points of a great circle lie on it: $name', ({ from, to }) => {
    const track = layTrack(routeOf('great-circle', from, to));
    const line = SPHERE.InverseLine(from.latDeg, from.lonDeg, to.latDeg, to.lonDeg);
    placesOf(track).forEach((place, i) => {
      const truth = line.Position(track.distanceNm[i]! * M_PER_NM);
      expectNear(apartNm(place, { latDeg: truth.lat2!, lonDeg: truth.lon2! }), 0, 1e-7, `point ${i}`);
      expectNearDeg(track.courseDeg[i]!, truth.azi2!, 1e-6, `course at point ${i}`);
    });
    const lengthNm = track.distanceNm.at(-1)!;
    for (const share of [0.1234, 0.5, 0.8765]) {
      const truth = line.Position(lengthNm * share * M_PER_NM);
      const place = trackAt(track)(lengthNm * share);
      // Straight in latitude and longitude between points 5 Nm apart strays by 3 m at 64°N.
      expectNear(apartNm(place, { latDeg: truth.lat2!, lonDeg: truth.lon2! }) * M_PER_NM, 0, 4, 'metres off');
      expectNearDeg(place.courseDeg, truth.azi2!, 1e-4, 'course between points');
    }
  });

  test.each(legs)('points of a rhumb line lie on it: $name', ({ from, to }) => {
    const track = layTrack(routeOf('rhumb', from, to));
    const eastDeg = ((to.lonDeg - from.lonDeg + 540) % 360) - 180;
    const lengthNm = track.distanceNm.at(-1)!;
    const truthAt = (share: number): Position => {
      const latDeg = from.latDeg + (to.latDeg - from.latDeg) * share;
      const rise = mercator(to.latDeg) - mercator(from.latDeg);
      const eastShare = rise === 0 ? share : (mercator(latDeg) - mercator(from.latDeg)) / rise;
      return { latDeg, lonDeg: from.lonDeg + eastDeg * eastShare };
    };
    placesOf(track).forEach((place, i) => {
      expectNear(apartNm(place, truthAt(track.distanceNm[i]! / lengthNm)), 0, 1e-6, `point ${i}`);
      expect(track.courseDeg[i]).toBe(track.courseDeg[0]);
    });
    for (const share of [0.1234, 0.5, 0.8765]) {
      expectNear(apartNm(trackAt(track)(lengthNm * share), truthAt(share)) * M_PER_NM, 0, 4, 'metres off');
    }
  });
});
