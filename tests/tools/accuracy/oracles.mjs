import geographiclib from 'geographiclib-geodesic';
import manifest from '../../../package.json' with { type: 'json' };

/** Karney's geodesics on the ellipsoid, and on the handbook sphere: shared with nothing of the library. */
export const M_PER_NM = 1852;
export const ELLIPSOID = geographiclib.Geodesic.WGS84;
export const KARNEY = `geographiclib-geodesic ${manifest.devDependencies['geographiclib-geodesic']}`;
export const SPHERE = new geographiclib.Geodesic.Geodesic((M_PER_NM * 10800) / Math.PI, 0);

export const RANDOM_LEGS = 500;
export const RANDOM_CROSSINGS = 300;

const RAD = Math.PI / 180;
const SEED = 20261125;

/** Course and distance of the shortest line on a body of revolution. */
export function geodesicBetween(body, from, to) {
  const { s12, azi1 } = body.Inverse(from.latDeg, from.lonDeg, to.latDeg, to.lonDeg);
  return { distanceNm: s12 / M_PER_NM, courseDeg: azi1 };
}

/**
 * Course and distance of a rhumb line on a body of revolution: the course from the difference of isometric latitude
 * ψ = asinh(tan φ) − e·atanh(e·sin φ), the distance from the meridian arc, which is a geodesic.
 */
export function rhumbBetween(body, from, to) {
  const e = Math.sqrt(body.f * (2 - body.f));
  const isometric = (latDeg) => Math.asinh(Math.tan(latDeg * RAD)) - e * Math.atanh(e * Math.sin(latDeg * RAD));
  const rise = isometric(to.latDeg) - isometric(from.latDeg);
  const east = ((((to.lonDeg - from.lonDeg) % 360) + 540) % 360) * RAD - Math.PI;
  const arcM = Math.sign(rise) * body.Inverse(from.latDeg, 0, to.latDeg, 0).s12;
  const sin = Math.sin(from.latDeg * RAD);
  const parallelRadiusM = (body.a * Math.cos(from.latDeg * RAD)) / Math.sqrt(1 - e * e * sin * sin);
  const distanceM = Math.hypot(rise, east) * (rise === 0 ? parallelRadiusM : arcM / rise);
  return { distanceNm: distanceM / M_PER_NM, courseDeg: Math.atan2(east, rise) / RAD };
}

/** Legs of 5 to 5,000 Nm from anywhere within 60° of the equator, as many between 5 and 50 Nm as between 500 and 5,000. */
export function randomLegs(count) {
  const random = randomOf(SEED);
  const legs = [];
  while (legs.length < count) {
    const from = { latDeg: Math.asin((2 * random() - 1) * Math.sin(60 * RAD)) / RAD, lonDeg: 360 * random() - 180 };
    const end = SPHERE.Direct(from.latDeg, from.lonDeg, 360 * random(), 5 * 1000 ** random() * M_PER_NM);
    if (Math.abs(end.lat2) <= 70) legs.push({ from, to: { latDeg: end.lat2, lonDeg: end.lon2 } });
  }
  return legs;
}

/** Crossings westward by 25° to 60° of longitude, between 8° and 28° on one side of the equator, at most 15° of latitude apart. */
export function randomTradeWindCrossings(count) {
  const random = randomOf(SEED + 1);
  const legs = [];
  while (legs.length < count) {
    const side = random() < 0.5 ? -1 : 1;
    const [first, second] = [8 + 20 * random(), 8 + 20 * random()];
    const lonDeg = 360 * random() - 180;
    const west = 25 + 35 * random();
    if (Math.abs(first - second) > 15) continue;
    const wrapped = ((lonDeg - west + 540) % 360) - 180;
    legs.push({ from: { latDeg: side * first, lonDeg }, to: { latDeg: side * second, lonDeg: wrapped } });
  }
  return legs;
}

/** A small generator of random numbers 0 to 1 (mulberry32, public domain). */
function randomOf(seed) {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}
