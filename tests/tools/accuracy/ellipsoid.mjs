import { sailingBetween } from 'windwardrobe';
import crossings from '../../truth/crossings.json' with { type: 'json' };
import geodesics from '../../truth/geodesics.json' with { type: 'json' };
import { apartDeg, percentOff } from './compare.mjs';
import {
  ELLIPSOID,
  geodesicBetween,
  KARNEY,
  M_PER_NM,
  RANDOM_CROSSINGS,
  RANDOM_LEGS,
  randomLegs,
  randomTradeWindCrossings,
  rhumbBetween,
} from './oracles.mjs';

/** Three of the legs of geodesics.json; the other trade-wind crossings are in crossings.json. */
const TRADE_WIND_LEGS = [
  'Canaries to St Lucia (trade wind crossing)',
  'Cape Verde to Barbados',
  'Galapagos to Marquesas',
];

/** What the handbook sphere costs: both kinds of line against the ellipsoid, everywhere and in the trades. */
export function ellipsoidRows() {
  const { legs } = geodesics;
  const tradeWind = [
    ...legs.rows.filter(({ name }) => TRADE_WIND_LEGS.includes(name)),
    ...crossings.crossings.rows.filter((row) => row.tradeWind),
    ...randomTradeWindCrossings(RANDOM_CROSSINGS),
  ];
  const everywhere = [...legs.rows, ...crossings.crossings.rows, ...randomLegs(RANDOM_LEGS)];
  const shortest = { strength: 'reference library', comparedWith: `${KARNEY} on WGS84` };
  const oneCourse = {
    strength: 'computed',
    comparedWith: 'meridian arcs and isometric latitudes of WGS84, which agree with RhumbSolve to 1 mm on its 18 legs',
  };
  const karneysRhumb = legs.rows.map((row) => ({ row, sailing: sailingBetween(row.from, row.to, 'rhumb') }));
  const rhumbSolve = {
    strength: legs.about.strength,
    comparedWith: 'RhumbSolve of GeographicLib on WGS84, Debian 12 geographiclib-tools',
  };
  const anywhere = {
    where: 'all legs',
    distance: [0.52, 'the radii of WGS84: no great circle can read more than 0.49 % long or 0.51 % short'],
    course: [0.2, 'latitude taken as if on a sphere turns a course by up to 0.19°, near 45° on the equator'],
  };
  const trades = {
    where: 'trade-wind crossings',
    distance: [
      0.26,
      'a parallel in 28° is 0.25 % longer than on the sphere; a change of latitude takes some of it back',
    ],
    course: [0.16, 'as for all legs, and less on courses near west'],
  };
  return [
    ...againstEllipsoid('great-circle', everywhere, anywhere, shortest, geodesicBetween),
    ...againstEllipsoid('great-circle', tradeWind, trades, shortest, geodesicBetween),
    {
      id: 'rhumb-distance-rhumbsolve',
      quantity: 'Rhumb line: distance on the ellipsoid, legs of a reference program',
      ...rhumbSolve,
      unit: '%',
      errors: karneysRhumb.map(({ row, sailing }) => percentOff(sailing.distanceNm, row.rhumb.distanceM / M_PER_NM)),
      ceiling: anywhere.distance[0],
      why: anywhere.distance[1],
    },
    {
      id: 'rhumb-course-rhumbsolve',
      quantity: 'Rhumb line: course on the ellipsoid, legs of a reference program',
      ...rhumbSolve,
      unit: '°',
      errors: karneysRhumb.map(({ row, sailing }) => apartDeg(sailing.courseDeg, row.rhumb.courseDeg)),
      ceiling: anywhere.course[0],
      why: anywhere.course[1],
    },
    ...againstEllipsoid('rhumb', everywhere, anywhere, oneCourse, rhumbBetween),
    ...againstEllipsoid('rhumb', tradeWind, trades, oneCourse, rhumbBetween),
  ];
}

function againstEllipsoid(kind, legs, { where, distance, course }, from, between) {
  const pairs = legs.map((leg) => [sailingBetween(leg.from, leg.to, kind), between(ELLIPSOID, leg.from, leg.to)]);
  const line = kind === 'rhumb' ? 'Rhumb line' : 'Great circle';
  const id = (quantity) => `${kind}-${quantity}-ellipsoid-${where.replaceAll(' ', '-')}`;
  return [
    {
      id: id('distance'),
      quantity: `${line}: distance on the ellipsoid, ${where}`,
      ...from,
      unit: '%',
      errors: pairs.map(([ours, theirs]) => percentOff(ours.distanceNm, theirs.distanceNm)),
      ceiling: distance[0],
      why: distance[1],
    },
    {
      id: id('course'),
      quantity: `${line}: course on the ellipsoid, ${where}`,
      ...from,
      unit: '°',
      errors: pairs.map(([ours, theirs]) => apartDeg(ours.courseDeg, theirs.courseDeg)),
      ceiling: course[0],
      why: course[1],
    },
  ];
}
