import { placeFrom, sailingBetween, trackAt } from 'windwardrobe';
import sailings from '../../truth/sailings.json' with { type: 'json' };
import { apartDeg, percentOff, trackOf } from './compare.mjs';

/** Both kinds of line against answers printed in examination keys and books. */
export function printedSailingRows() {
  const keys = sailings.greatCircle.rows;
  const { strength } = sailings.greatCircle.about;
  const fromKey = { comparedWith: 'USCG deck-licence examination keys, great circle exercises', strength };
  const withVertexLon = keys.filter(({ vertexLonDeg }) => vertexLonDeg !== undefined);
  const inverse = sailings.rhumbInverse.rows.map((row) => ({
    row,
    sailing: sailingBetween(row.from, row.to, 'rhumb'),
  }));
  const direct = sailings.rhumbDirect.rows.map((row) => ({
    row,
    reached: placeFrom(row.from, row.courseDeg, row.distanceNm, 'rhumb'),
  }));
  const fromBook = {
    comparedWith: 'Bowditch 2024, art. 910, and merchant-navy exercises in Mercator sailing',
    strength: sailings.rhumbInverse.about.strength,
  };
  return [
    {
      id: 'great-circle-distance-printed',
      quantity: 'Great circle: distance',
      ...fromKey,
      unit: 'Nm',
      errors: keys.map((row) => sailingBetween(row.from, row.to, 'great-circle').distanceNm - row.distanceNm),
      ceiling: 0.5,
      why: 'printed to a whole or half mile; the keys are worked on the same sphere',
    },
    {
      id: 'great-circle-course-printed',
      quantity: 'Great circle: course at the start',
      ...fromKey,
      unit: '°',
      errors: keys
        .filter(({ courseDeg }) => courseDeg !== undefined)
        .map((row) => apartDeg(sailingBetween(row.from, row.to, 'great-circle').courseDeg, row.courseDeg)),
      ceiling: 0.05,
      why: 'printed to 0.1°',
    },
    {
      id: 'vertex-latitude-printed',
      quantity: 'Great circle: latitude of the vertex, on the track as laid out',
      ...fromKey,
      unit: '′',
      errors: keys.map((row) => 60 * (vertexOf(trackOf('great-circle', row)).latDeg - row.vertexLatDeg)),
      ceiling: 1,
      why: 'the keys work it from a course rounded to 0.1°: half of that moves it by up to 2′, here by less',
    },
    {
      id: 'vertex-longitude-printed',
      quantity: 'Great circle: longitude of the vertex, on the track as laid out',
      ...fromKey,
      unit: '′',
      errors: withVertexLon.map(
        (row) => 60 * apartDeg(vertexOf(trackOf('great-circle', row)).lonDeg, row.vertexLonDeg),
      ),
      ceiling: 5,
      why: 'the keys work it from a course rounded to 0.1°: half of that moves it by 3′ and 5′',
    },
    {
      id: 'rhumb-distance-printed',
      quantity: 'Rhumb line: distance',
      ...fromBook,
      unit: '%',
      errors: inverse.map(({ row, sailing }) => percentOff(sailing.distanceNm, row.distanceNm)),
      ceiling: 0.5,
      why: 'the books mix meridional parts of a spheroid with miles of a sphere: up to 0.67 % near east and west on the equator, less here',
    },
    {
      id: 'rhumb-course-printed',
      quantity: 'Rhumb line: course',
      ...fromBook,
      unit: '°',
      errors: inverse.map(({ row, sailing }) => apartDeg(sailing.courseDeg, row.courseDeg)),
      ceiling: 0.18,
      why: 'meridional parts of a sphere for those of a spheroid: up to 0.19° on the equator, less here',
    },
    {
      id: 'rhumb-latitude-printed',
      quantity: 'Rhumb line: latitude reached',
      ...fromBook,
      unit: '′',
      errors: direct.map(({ row, reached }) => 60 * (reached.latDeg - row.to.latDeg)),
      ceiling: 0.05,
      why: 'printed to 0.1′',
    },
    {
      id: 'rhumb-longitude-printed',
      quantity: 'Rhumb line: longitude reached, after up to 4,450 Nm',
      ...fromBook,
      unit: '′',
      errors: direct.map(({ row, reached }) => 60 * apartDeg(reached.lonDeg, row.to.lonDeg)),
      ceiling: 12,
      why: 'meridional parts of the sphere and of the spheroid differ by 23′ over 66° of latitude: 11.6′ of longitude on that course, and the print',
    },
  ];
}

/** The vertex of a great circle: where the course of its track lies due east or west. */
function vertexOf(track) {
  const at = trackAt(track);
  const northing = (distanceNm) => Math.sign(Math.cos((at(distanceNm).courseDeg * Math.PI) / 180));
  let [low, high] = [0, track.distanceNm.at(-1)];
  const before = northing(low);
  for (let step = 0; step < 50; step += 1) {
    const middle = (low + high) / 2;
    if (northing(middle) === before) low = middle;
    else high = middle;
  }
  return at(high);
}
