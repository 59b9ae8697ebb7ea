import { lastAtMost } from '../rising.js';
import type { TrackPoint } from '../route/route.js';

/**
 * Weather, and speeds with it, are tabled at this distance along the track; between its knots they run straight. Forecasts on grids of
 * a quarter of a degree and more hold nothing finer; half the distance moved no arrival of the sample by a second.
 */
const KNOT_NM = 20;
/**
 * On a route round the world further apart: tables stay within memory, and what is chosen is sailed without them. Of more legs than
 * this, as a recorded track has, those that follow one another are tabled as one, for the same reason.
 */
const MOST_KNOTS = 600;

/** Where along the track tables are filled. */
export interface Knots {
  readonly distanceNm: Float64Array;
  readonly points: readonly TrackPoint[];
  readonly legEndNm: Float64Array;
  /** The last knot at or before a distance that has another after it on the same leg. */
  before(distanceNm: number): number;
}

/** Knots every twenty miles or less, on routes over 12 000 Nm further apart; a waypoint between legs is two, so that nothing is drawn across a turn. */
export function knotsOf(trackAt: (distanceNm: number) => TrackPoint, lengthNm: number): Knots {
  const points: TrackPoint[] = [];
  const legStarts: number[] = [];
  const legStartNm: number[] = [];
  const legEndsNm: number[] = [];
  const knotNm = Math.max(KNOT_NM, lengthNm / MOST_KNOTS);
  let startNm = 0;
  for (const legEndNm of legEndsOf(trackAt, lengthNm)) {
    const cells = Math.max(1, Math.ceil((legEndNm - startNm) / knotNm));
    legStarts.push(points.length);
    legStartNm.push(startNm);
    for (let cell = 0; cell < cells; cell += 1) points.push(trackAt(startNm + ((legEndNm - startNm) * cell) / cells));
    // At the very waypoint the course is that of the next leg.
    points.push({ ...trackAt(legEndNm - 1e-6), distanceNm: legEndNm });
    while (legEndsNm.length < points.length) legEndsNm.push(legEndNm);
    startNm = legEndNm;
  }
  const distanceNm = Float64Array.from(points, (point) => point.distanceNm);
  const legStartsNm = Float64Array.from(legStartNm);
  return {
    distanceNm,
    points,
    legEndNm: Float64Array.from(legEndsNm),
    before(wantedNm) {
      const leg = Math.max(0, lastAtMost(legStartsNm, wantedNm));
      const first = legStarts[leg]!;
      const last = (legStarts[leg + 1] ?? points.length) - 2;
      const spacing = distanceNm[first + 1]! - distanceNm[first]!;
      return Math.min(last, Math.max(first, first + Math.floor((wantedNm - distanceNm[first]!) / spacing)));
    },
  };
}

/** Where legs end; of very many short ones, where so many of them do that few are left. */
function legEndsOf(trackAt: (distanceNm: number) => TrackPoint, lengthNm: number): readonly number[] {
  const ends: number[] = [];
  for (let startNm = 0; startNm < lengthNm; ) {
    startNm = trackAt(startNm).legEndNm;
    ends.push(startNm);
  }
  if (ends.length <= MOST_KNOTS) return ends;
  const leastNm = lengthNm / MOST_KNOTS;
  let startNm = 0;
  return ends.filter((endNm, i) => {
    if (endNm - startNm < leastNm && i < ends.length - 1) return false;
    startNm = endNm;
    return true;
  });
}
