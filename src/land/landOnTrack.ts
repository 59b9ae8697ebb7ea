import type { Fault } from '../errors.js';
import { type Position, positionText, sailingBetween } from '../geo/geo.js';
import { checkTypes, mustBeGiven } from '../given.js';
import { layTrack, type Route, type Track } from '../route/route.js';
import { wrap180, wrapLon } from '../units.js';
import { says } from '../wording.js';
import type { Land } from './landOf.js';
import { overLand } from './overLand.js';

/** How to look for land on a route. */
export interface LandOptions {
  /** Land this near to a waypoint is not warned of: ports lie there, and a coast in a file is coarse. Default 10 Nm. */
  readonly waypointMarginNm?: number;
  /** Name of the route's file in warnings. Default `route`. */
  readonly file?: string;
}

const WAYPOINT_MARGIN_NM = 10;
const SAMPLE_NM = 0.5;

/**
 * A warning for each stretch of a route that lies over land: its legs, where it begins, its length in Nm. The track is
 * looked at every 0.5 Nm at most, so a spit narrower than that may be missed, and so is all that the land given is too
 * coarse for: a route without a warning may still be aground.
 *
 * Land within 10 Nm (an option) of the start or the destination is passed over, and land as near to an end of its own leg;
 * there the margin is no more than a quarter of the longer leg that meets it, so that a route of many close points is
 * looked at as well.
 * @throws InputError where the route, the land or an option is none, or the route cannot be laid out
 * @example
 * const acrossTheTrack = [[[-30, 10], [-29, 10], [-29, 30], [-30, 30], [-30, 10]]];
 * const [warning] = landOnTrack(sample.route, landOf({ type: 'Polygon', coordinates: acrossTheTrack }));
 * warning // { code: 'on-land', got: 'land on leg 3 ("Turning point in the trades" to "Saint Lucia…', … }
 */
export function landOnTrack(route: Route, land: Land, options: LandOptions = {}): readonly Fault[] {
  checkTypes(options, { waypointMarginNm: 'number?', file: 'string?' });
  const { waypointMarginNm = WAYPOINT_MARGIN_NM, file = 'route' } = options;
  mustBeGiven(land, 'polygons', 'land', 'landOf or worldLand');
  const track = layTrack(route);
  const [isLand, isNearWaypoint] = [overLand(land), nearWaypoint(route, track, waypointMarginNm)];
  const warnings: Fault[] = [];
  let stretch: { first: Sample; last: Sample } | undefined;
  const tell = () => {
    if (stretch !== undefined) warnings.push({ file, ...saidOf(route, stretch.first, stretch.last) });
    stretch = undefined;
  };
  for (const sample of samplesOf(track)) {
    if (!isLand(sample)) tell();
    else if (!isNearWaypoint(sample)) stretch = { first: stretch?.first ?? sample, last: sample };
  }
  tell();
  return warnings;
}

/** A place on the track, looked at for itself and for the way to the next one. */
interface Sample extends Position {
  readonly distanceNm: number;
  readonly nextNm: number;
  readonly leg: number;
}

function saidOf({ waypoints }: Route, first: Sample, last: Sample) {
  const lengthNm = last.distanceNm + last.nextNm - first.distanceNm;
  return says.onLand(
    first.leg,
    last.leg,
    waypoints[first.leg - 1]!.name,
    waypoints[last.leg]!.name,
    positionText(first.latDeg, first.lonDeg),
    lengthNm < 10 ? Math.max(0.1, Math.round(lengthNm * 10) / 10) : Math.round(lengthNm),
  );
}

/** Places at most 0.5 Nm apart, straight in latitude and longitude between the points of the track as `trackAt` has it. */
function* samplesOf({ distanceNm, latDeg, lonDeg, leg }: Track): Generator<Sample> {
  const end = distanceNm.length - 1;
  for (let i = 0; i < end; i += 1) {
    const spanNm = distanceNm[i + 1]! - distanceNm[i]!;
    const steps = Math.ceil(spanNm / SAMPLE_NM);
    const eastDeg = wrap180(lonDeg[i + 1]! - lonDeg[i]!);
    for (let step = 0; step < steps; step += 1) {
      const share = step / steps;
      yield {
        latDeg: latDeg[i]! + (latDeg[i + 1]! - latDeg[i]!) * share,
        lonDeg: wrapLon(lonDeg[i]! + eastDeg * share),
        distanceNm: distanceNm[i]! + spanNm * share,
        nextNm: spanNm / steps,
        leg: leg[i]!,
      };
    }
  }
  yield { latDeg: latDeg[end]!, lonDeg: lonDeg[end]!, distanceNm: distanceNm[end]!, nextNm: 0, leg: leg[end]! };
}

/** Whether a place is within the margin of the route's ends or of those of its leg. */
function nearWaypoint({ waypoints }: Route, track: Track, marginNm: number): (sample: Sample) => boolean {
  const [start, destination] = [waypoints[0]!, waypoints.at(-1)!];
  // Distance from the start at which each waypoint stands.
  const standsNm = [0];
  track.leg.forEach((leg, i) => {
    standsNm[leg] = track.distanceNm[i]!;
  });
  const margins = standsNm.map((atNm, i) => {
    const [before, behind] = [atNm - (standsNm[i - 1] ?? atNm), (standsNm[i + 1] ?? atNm) - atNm];
    return Math.min(marginNm, Math.max(before, behind) / 4);
  });
  const isWithin = (place: Position, waypoint: Position) =>
    sailingBetween(place, waypoint, 'great-circle').distanceNm < marginNm;
  return (sample) =>
    sample.distanceNm - standsNm[sample.leg - 1]! < margins[sample.leg - 1]! ||
    standsNm[sample.leg]! - sample.distanceNm < margins[sample.leg]! ||
    isWithin(sample, start) ||
    isWithin(sample, destination);
}
