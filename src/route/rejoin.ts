import { faultList } from '../errors.js';
import { type Position, sailingBetween } from '../geo/geo.js';
import { checkTypes, mustBeGiven } from '../given.js';
import { RAD_PER_DEG, wrapLon } from '../units.js';
import { says } from '../wording.js';
import { checkWaypoints } from './checkWaypoints.js';
import { layTrack, type Track } from './track.js';
import { legKindOf, type Route, type Waypoint } from './waypoint.js';

/** What is left of a route at a position. */
export interface RouteLeft {
  /** From the position, as waypoint `Position`, to the destination. */
  readonly route: Route;
  /** Distance from the position to the nearest point of the route. */
  readonly offTrackNm: number;
  /** How many waypoints are left behind, the start included. */
  readonly passed: number;
}

/** A waypoint as near as this counts as passed. */
const PASSED_WITHIN_NM = 0.1;
/** Points of the track whose distances differ by less are equally near: rounding must not choose between two legs. */
const EQUALLY_NEAR_NM = 1e-3;

/**
 * The part of a route still ahead of a boat at a position (degrees), which need not be on the track. She is taken to be on
 * the leg that passes nearest, of equally near ones on the earliest; its kind (rhumb line or great circle) is kept for the
 * leg from the position to the leg's end. A waypoint within 0.1 Nm counts as passed.
 * @throws InputError where nothing is left, where the route or the position is none, or where the route cannot be sailed from it
 * @example
 * routeFrom(sample.route, { latDeg: 24, lonDeg: -21 }) // { offTrackNm: 14.24…, passed: 2, … }
 */
export function routeFrom(route: Route, position: Position): RouteLeft {
  mustBeGiven(route, 'waypoints', 'route', 'readRoute');
  const file = 'position';
  checkTypes(position, {}, file);
  const faults = faultList();
  const { latDeg, lonDeg } = position;
  if (!(Math.abs(latDeg) <= 90)) faults.add({ file, ...says.latitude(String(latDeg)) });
  if (!Number.isFinite(lonDeg)) faults.add({ file, ...says.longitude(String(lonDeg)) });
  faults.throwIfAny();

  const { waypoints } = route;
  const { leg, offTrackNm } = nearestOf(layTrack(route), position);
  let passed = leg;
  while (passed < waypoints.length && distanceNm(position, waypoints[passed]!) <= PASSED_WITHIN_NM) passed += 1;
  const ahead = waypoints.slice(passed);
  if (ahead.length === 0) {
    faults.add({ file, ...says.arrived(waypoints.at(-1)!.name, PASSED_WITHIN_NM) });
    faults.throwIfAny();
  }
  const toNext = legKindOf(waypoints[passed - 1]!, ahead[0]!);
  const here: Waypoint = { name: 'Position', latDeg, lonDeg: wrapLon(lonDeg), toNext };
  checkWaypoints([here, ...ahead], () => ({ file }), faults);
  faults.throwIfAny();
  return { route: { waypoints: [here, ...ahead] }, offTrackNm, passed };
}

const distanceNm = (from: Position, to: Position) => sailingBetween(from, to, 'great-circle').distanceNm;

/** The leg that passes nearest to a position, and how near: each piece of the track, 5 Nm at most, is taken as an arc. */
function nearestOf(track: Track, position: Position): { leg: number; offTrackNm: number } {
  const here = unitVector(position.latDeg, position.lonDeg);
  let nearest = { leg: 1, offTrackNm: Number.POSITIVE_INFINITY };
  let from = unitVector(track.latDeg[0]!, track.lonDeg[0]!);
  for (let i = 1; i < track.leg.length; i += 1) {
    const to = unitVector(track.latDeg[i]!, track.lonDeg[i]!);
    const offTrackNm = arcDistanceNm(here, from, to);
    if (offTrackNm < nearest.offTrackNm - EQUALLY_NEAR_NM) nearest = { leg: track.leg[i]!, offTrackNm };
    else if (offTrackNm < nearest.offTrackNm && track.leg[i] === nearest.leg) nearest = { ...nearest, offTrackNm };
    from = to;
  }
  return nearest;
}

type Vector = readonly [x: number, y: number, z: number];

function unitVector(latDeg: number, lonDeg: number): Vector {
  const [lat, lon] = [latDeg * RAD_PER_DEG, lonDeg * RAD_PER_DEG];
  return [Math.cos(lat) * Math.cos(lon), Math.cos(lat) * Math.sin(lon), Math.sin(lat)];
}

const dot = (a: Vector, b: Vector) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const minus = (a: Vector, b: Vector, times = 1): Vector => [
  a[0] - b[0] * times,
  a[1] - b[1] * times,
  a[2] - b[2] * times,
];

/** Distance from a point to a short arc of a great circle. */
function arcDistanceNm(point: Vector, from: Vector, to: Vector): number {
  const chord = minus(to, from);
  const share = dot(minus(point, from), chord) / dot(chord, chord);
  const foot = share > 0 ? minus(from, chord, -Math.min(1, share)) : from;
  return ((2 * Math.asin(Math.min(1, Math.hypot(...minus(point, foot)) / 2))) / RAD_PER_DEG) * 60;
}
