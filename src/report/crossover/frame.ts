import { scaleLinear } from 'd3-scale';
import type { Box } from '../drawing/box.js';

/** Where winds and angles lie on the page. */
export interface Frame {
  readonly box: Box;
  readonly x: (twsKn: number) => number;
  readonly y: (twaDeg: number) => number;
  /** Left edges of the columns and the right edge of the last. */
  readonly columnEdges: readonly number[];
  /** Upper edges of the rows and the lower edge of the last. */
  readonly rowEdges: readonly number[];
  readonly twsTicks: readonly number[];
  readonly twaTicks: readonly number[];
}

/** A frame that holds a grid of winds and angles, which may be uneven: a cell reaches half way to its neighbours. */
export function frameOf(twsKn: readonly number[], twaDeg: readonly number[], box: Box): Frame {
  const [windEdges, angleEdges] = [edgesOf(twsKn), edgesOf(twaDeg)];
  const x = scaleLinear(endsOf(windEdges), [box.left, box.left + box.width]);
  const y = scaleLinear(endsOf(angleEdges), [box.top, box.top + box.height]);
  const [from, to] = endsOf(angleEdges);
  const step = ANGLE_STEPS.find((deg) => (to - from) / deg <= MOST_ANGLES) ?? 10;
  const first = Math.ceil(from / step);
  return {
    box,
    x,
    y,
    columnEdges: windEdges.map(x),
    rowEdges: angleEdges.map(y),
    twsTicks: x.ticks(Math.min(MOST_WINDS, box.width / WIND_ROOM)),
    twaTicks: Array.from({ length: Math.floor(to / step) - first + 1 }, (_, i) => (first + i) * step),
  };
}

const ANGLE_STEPS = [1, 2, 5, 10];
const MOST_ANGLES = 20;
const MOST_WINDS = 18;
/** A number with room beside it. */
const WIND_ROOM = 34;

function edgesOf(values: readonly number[]): readonly number[] {
  const [first, last] = [values[0], values.at(-1)];
  if (first === undefined || last === undefined) return [];
  if (first === last) return [first - 0.5, first + 0.5];
  return [first, ...values.slice(1).map((value, i) => (values[i]! + value) / 2), last];
}

const endsOf = (edges: readonly number[]): [number, number] => [edges[0] ?? 0, edges.at(-1) ?? 1];
