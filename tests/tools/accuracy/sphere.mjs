import { placeFrom, sailingBetween, trackAt } from 'windwardrobe';
import crossings from '../../truth/crossings.json' with { type: 'json' };
import geodesics from '../../truth/geodesics.json' with { type: 'json' };
import sailings from '../../truth/sailings.json' with { type: 'json' };
import { apartDeg, apartM, trackOf } from './compare.mjs';
import { geodesicBetween, KARNEY, M_PER_NM, RANDOM_LEGS, randomLegs, rhumbBetween, SPHERE } from './oracles.mjs';

/** The same sphere worked out twice: the library's lines, places and tracks against others' arithmetic. */
export function sphereRows() {
  const legs = [...geodesics.legs.rows, ...crossings.crossings.rows, ...randomLegs(RANDOM_LEGS)];
  const sameSphere = { strength: 'reference library', comparedWith: `${KARNEY} with flattening 0` };
  const mercator = { strength: 'computed', comparedWith: 'meridional parts of the sphere, worked out apart' };
  const between = { 'great-circle': geodesicBetween, rhumb: rhumbBetween };
  const ours = (kind) =>
    legs.map((leg) => [leg, sailingBetween(leg.from, leg.to, kind), between[kind](SPHERE, leg.from, leg.to)]);
  const rounding = 'rounding of the arithmetic only';
  const rowsOf = (kind, line, from) => [
    {
      id: `${kind}-distance-sphere`,
      quantity: `${line}: distance on the sphere itself`,
      ...from,
      unit: 'm',
      errors: ours(kind).map(([, mine, truth]) => (mine.distanceNm - truth.distanceNm) * M_PER_NM),
      ceiling: 0.001,
      shownFrom: 0.001,
      why: rounding,
    },
    {
      id: `${kind}-course-sphere`,
      quantity: `${line}: course on the sphere itself`,
      ...from,
      unit: '°',
      errors: ours(kind).map(([, mine, truth]) => apartDeg(mine.courseDeg, truth.courseDeg)),
      ceiling: 0.000001,
      shownFrom: 0.000001,
      why: `${rounding}, on a leg of 1.5 m`,
    },
    {
      id: `${kind}-place-sphere`,
      quantity: `${line}: place reached on the sphere itself`,
      ...from,
      unit: 'm',
      errors: ours(kind).map(([{ from: start, to }, , truth]) =>
        apartM(placeFrom(start, truth.courseDeg, truth.distanceNm, kind), to),
      ),
      ceiling: 0.001,
      shownFrom: 0.001,
      why: rounding,
    },
  ];
  return [
    ...rowsOf('great-circle', 'Great circle', sameSphere),
    ...rowsOf('rhumb', 'Rhumb line', mercator),
    {
      id: 'track-between-points',
      quantity: 'Track: place along a great circle, half-way between points 5 Nm apart',
      ...sameSphere,
      unit: 'm',
      errors: [...geodesics.legs.rows, ...crossings.crossings.rows].flatMap(offTheLine),
      ceiling: 5,
      why: 'latitude and longitude run straight between points: up to 1.94 m × tan(latitude), 5 m in 69°',
    },
    {
      id: 'track-half-way',
      quantity: 'Track: half-way along a great circle and a rhumb line',
      comparedWith: '@turf/turf 7.4.0, the midpoint of its own lines (the library takes its angles from there too)',
      strength: sailings.halfWay.about.strength,
      unit: '°',
      errors: sailings.halfWay.rows.flatMap((row) => {
        const track = trackOf(row.kind, row);
        const middle = trackAt(track)(track.distanceNm.at(-1) / 2);
        return [middle.latDeg - row.half.latDeg, apartDeg(middle.lonDeg, row.half.lonDeg)];
      }),
      ceiling: 0.00055,
      why: 'printed to 0.001°, and the 2 m a track may stray between its points',
    },
  ];
}

/** How far a track stands off its great circle half-way between its points, where it strays most, in metres. */
function offTheLine({ from, to }) {
  const track = trackOf('great-circle', { from, to });
  const at = trackAt(track);
  const line = SPHERE.InverseLine(from.latDeg, from.lonDeg, to.latDeg, to.lonDeg);
  return Array.from(track.distanceNm.subarray(1), (endNm, i) => {
    const middleNm = (track.distanceNm[i] + endNm) / 2;
    const { lat2, lon2 } = line.Position(middleNm * M_PER_NM);
    return apartM(at(middleNm), { latDeg: lat2, lonDeg: lon2 });
  });
}
