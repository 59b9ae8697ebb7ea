import { type GeoPermissibleObjects, geoMercator, geoPath } from 'd3-geo';
import { wrapLon } from '../../units.js';
import type { Box } from '../drawing/box.js';
import { element, textAt } from '../drawing/svg.js';
import { thinned } from './coast.js';

/** A place on the map. */
export interface Place {
  readonly latDeg: number;
  readonly lonDeg: number;
}

/** A map of some places: Mercator, on which a steady course is a straight line. */
export interface MapFrame {
  readonly height: number;
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
  const middle = middleOf(places.map(({ lonDeg }) => lonDeg));
  const projection = geoMercator().rotate([-middle, 0]);
  const margin = Math.min(70, width * 0.11);
  const inner = [LEFT + margin, margin, width - margin, margin + 1000] as const;
  projection.fitWidth(inner[2] - inner[0], pointsOf(places));
  // A passage along a meridian would be all height, one across a bay all scale.
  const [[, top], [, bottom]] = geoPath(projection).bounds(pointsOf(places)) as [[number, number], [number, number]];
  const most = MOST_HIGH * width - 2 * margin;
  const shrink = bottom - top > most ? most / (bottom - top) : 1;
  projection.scale(Math.min(projection.scale() * shrink, MOST_SCALE));
  const [[x0, y0], [x1, y1]] = geoPath(projection).bounds(pointsOf(places)) as [[number, number], [number, number]];
  const height = Math.max(LEAST_HIGH * width, y1 - y0 + 2 * margin);
  const [tx, ty] = projection.translate();
  const box: Box = { left: LEFT, top: 0, width: width - LEFT, height };
  projection.translate([tx + box.left + box.width / 2 - (x0 + x1) / 2, ty + height / 2 - (y0 + y1) / 2]).clipExtent([
    [box.left, 0],
    [width, height],
  ]);
  const path = geoPath({ stream: (sink) => projection.stream(thinned(sink, 0.6)) }).digits(1);
  const at = ({ latDeg, lonDeg }: Place) => projection([lonDeg, latDeg]) as [number, number];
  return {
    height: height + BELOW,
    isInside: (other) =>
      other.left >= box.left &&
      other.left + other.width <= width &&
      other.top >= 0 &&
      other.top + other.height <= height,
    at,
    path: (geometry) => path(geometry) ?? '',
    ground:
      element('rect', { class: 'sea', x: box.left, y: 0, width: box.width, height }) +
      graticule(box, projection.invert!, at),
    border: element('rect', { class: 'border', x: box.left, y: 0, width: box.width, height }),
  };
}

const LEFT = 36;
const BELOW = 20;
const MOST_HIGH = 0.85;
const LEAST_HIGH = 0.42;
/** About 10 Nm on a phone: the coast is no finer. */
const MOST_SCALE = 100_000;

const pointsOf = (places: readonly Place[]): GeoPermissibleObjects => ({
  type: 'MultiPoint',
  coordinates: places.map(({ lonDeg, latDeg }) => [lonDeg, latDeg]),
});

/** The middle longitude of places, across the date line where that is the shorter way. */
function middleOf(lons: readonly number[]): number {
  const [first = 0] = lons;
  const offsets = lons.map((lon) => wrapLon(lon - first));
  return wrapLon(first + (Math.min(0, ...offsets) + Math.max(0, ...offsets)) / 2);
}

function graticule(
  { left, width, height }: Box,
  invert: (point: [number, number]) => [number, number] | null,
  at: (place: Place) => readonly [number, number],
): string {
  const [west = 0, north = 0] = invert([left, 0]) ?? [];
  const [east = 0, south = 0] = invert([left + width, height]) ?? [];
  const across = east >= west ? east - west : east - west + 360;
  const step = STEPS.find((deg) => across / deg <= width / 70) ?? 30;
  const lons = rangeOf(west, west + across, step).map((lonDeg) => ({
    x: at({ latDeg: (north + south) / 2, lonDeg })[0],
    text: degrees(wrapLon(lonDeg), 'E', 'W'),
  }));
  const lats = rangeOf(south, north, step).map((latDeg) => ({
    y: at({ latDeg, lonDeg: west + across / 2 })[1],
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
