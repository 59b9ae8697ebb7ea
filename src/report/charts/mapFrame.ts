import { type GeoPermissibleObjects, geoMercator, geoPath } from 'd3-geo';
import { RAD_PER_DEG, wrapLon } from '../../units.js';
import type { Box } from '../drawing/box.js';
import { element, textAt } from '../drawing/svg.js';
import { thinned } from './coast.js';
import { extentOf } from './extent.js';

/** A place on the map. */
export interface Place {
  readonly latDeg: number;
  readonly lonDeg: number;
}

/** A map of some places: Mercator, on which a steady course is a straight line. */
export interface MapFrame {
  readonly height: number;
  /** Whether it is drawn for a phone, with smaller marks. */
  readonly isSmall: boolean;
  /** Whether a box lies on the map. */
  readonly isInside: (box: Box) => boolean;
  readonly at: (place: Place) => readonly [x: number, y: number];
  readonly path: (geometry: GeoPermissibleObjects) => string;
  /** Sea, meridians and parallels with their degrees, and the border. */
  readonly ground: string;
  readonly border: string;
}

/** A map that holds all places with some sea around them, of a width and no higher or lower than is good to look at. */
export function mapFrameOf(places: readonly Place[], width: number): MapFrame {
  const [firstLon] = places.map(({ lonDeg }) => lonDeg);
  // Across the date line where that is the shorter way.
  const [west, east] = extentOf(places.map(({ lonDeg }) => wrapLon(lonDeg - (firstLon ?? 0))));
  const [south, north] = extentOf(places.map(({ latDeg }) => mercatorY(latDeg)));
  const middle = wrapLon((firstLon ?? 0) + (west + east) / 2);
  const margin = Math.min(70, width * 0.11);
  const wide = width - LEFT;
  const fitting = Math.min(
    (wide - 2 * margin) / ((east - west) * RAD_PER_DEG),
    (MOST_HIGH * width - 2 * margin) / (north - south),
    MOST_SCALE,
  );
  // No place is shown twice.
  const scale = Math.max(fitting, wide / (2 * Math.PI));
  const height = Math.max(
    width < PHONE ? PHONE_HIGH : LEAST_HIGH * width,
    Math.min(MOST_HIGH * width, scale * (north - south) + 2 * margin),
  );
  const box: Box = { left: LEFT, top: 0, width: wide, height };
  const projection = geoMercator()
    .rotate([-middle, 0])
    .scale(scale)
    .translate([LEFT + wide / 2, height / 2 + (scale * (south + north)) / 2])
    .clipExtent([
      [LEFT, 0],
      [width, height],
    ]);
  const path = geoPath({ stream: (sink) => projection.stream(thinned(sink, 0.6)) }).digits(1);
  const at = ({ latDeg, lonDeg }: Place) => projection([lonDeg, latDeg]) as [number, number];
  const across = wide / scale / RAD_PER_DEG;
  const latAt = (y: number) => (projection.invert?.([LEFT + wide / 2, y]) ?? [0, 0])[1];
  return {
    height: height + BELOW,
    isSmall: width < PHONE,
    isInside: (other) =>
      other.left >= LEFT && other.left + other.width <= width && other.top >= 0 && other.top + other.height <= height,
    at,
    path: (geometry) => path(geometry) ?? '',
    ground:
      element('rect', { class: 'sea', x: LEFT, y: 0, width: wide, height }) +
      graticule(box, { middle, across, south: latAt(height), north: latAt(0) }, at),
    border: element('rect', { class: 'border', x: LEFT, y: 0, width: wide, height }),
  };
}

const LEFT = 36;
const BELOW = 20;
const MOST_HIGH = 0.85;
const LEAST_HIGH = 0.42;
/** On a phone names need a little more of it. */
const PHONE = 500;
const PHONE_HIGH = 210;
/** Dots for a radian of longitude, about 30 to a mile: the coast is no finer. */
const MOST_SCALE = 100_000;

/** How far up a latitude is on the map of a sphere of radius 1. */
const mercatorY = (latDeg: number) => Math.asinh(Math.tan(latDeg * RAD_PER_DEG));

function graticule(
  { left, width, height }: Box,
  seen: { readonly middle: number; readonly across: number; readonly south: number; readonly north: number },
  at: (place: Place) => readonly [number, number],
): string {
  const { middle, across, south, north } = seen;
  const west = middle - across / 2;
  const step = STEPS.find((deg) => across / deg <= width / 70) ?? 30;
  const lons = rangeOf(west, west + across, step).map((lonDeg) => ({
    x: left + ((lonDeg - west) / across) * width,
    text: degrees(wrapLon(lonDeg), 'E', 'W'),
  }));
  const lats = rangeOf(south, north, step).map((latDeg) => ({
    y: at({ latDeg, lonDeg: middle })[1],
    text: degrees(latDeg, 'N', 'S'),
  }));
  return element(
    'g',
    { class: 'axis' },
    ...lons.flatMap(({ x, text }) => [
      element('line', { x1: x, y1: 0, x2: x, y2: height }),
      textAt(x, height + 14, text, { 'text-anchor': 'middle' }),
    ]),
    ...lats.flatMap(({ y, text }) => [
      element('line', { x1: left, y1: y, x2: left + width, y2: y }),
      textAt(left - 4, y + 4, text, { 'text-anchor': 'end' }),
    ]),
  );
}

const STEPS = [0.1, 0.2, 0.5, 1, 2, 5, 10, 20];

const rangeOf = (from: number, to: number, step: number) => {
  const first = Math.ceil(from / step);
  return Array.from({ length: Math.max(0, Math.floor(to / step) - first + 1) }, (_, i) => (first + i) * step);
};

/** `15°W`, `0°`. */
function degrees(value: number, positive: string, negative: string): string {
  const size = Number(Math.abs(value).toFixed(1));
  return `${size}°${size === 0 ? '' : value > 0 ? positive : negative}`;
}
