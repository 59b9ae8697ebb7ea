import { SAME_LINE_DEG } from './axis.js';
import type { Field, Grid } from './forecast.js';
import { type Locator, locatorOf } from './locate.js';
import { isLongStep, stepsOf, usualStepAt } from './steps.js';

/** One time of one grid. */
export interface Slot {
  readonly locator: Locator;
  readonly time: number;
  /** Whether the step to the grid's next time is longer than those around it. */
  readonly gapAfter: boolean;
  /** The usual step between times around: the grid's, or the layer's where the grid has one time only. */
  readonly usualStepSeconds: number;
}

/** Times in rising order, each with the grids that have it, the better first. */
export interface Layer {
  readonly times: Float64Array;
  readonly slots: readonly (readonly Slot[])[];
}

type Knots = Map<number, Slot[]>;
type Span = readonly [from: number, to: number];

/** Runs on the same lines, joined from the newest to the oldest. */
interface Chain {
  /** A grid of those lines; undefined where the newest run's own grids lie on several. */
  readonly lines: Grid | undefined;
  readonly knots: Knots;
  /** Times of older runs that fall among a newer one's. */
  readonly passedOver: Knots;
  /** From the first to the last time of each run, those that touch made one. */
  spans: Span[];
}

/** Grids of no known run are told apart from all runs and come last. */
const UNKNOWN = Number.NEGATIVE_INFINITY;

/**
 * The grids that have a field, newest run first. Grids of one run are one layer, those with finer cells first. An older
 * run on the same lines fills the times beyond the newer one's, so that a chain of short runs is one series; what it has
 * among the newer one's times is a layer behind, for places and times that the newer one lacks.
 */
export function layersOf(grids: readonly Grid[], field: Field, locators: ReadonlyMap<Grid, Locator>): readonly Layer[] {
  const byRun = new Map<number, Grid[]>();
  for (const grid of grids) {
    if (grid.fields[field] === undefined) continue;
    const run = grid.runEpochSeconds ?? UNKNOWN;
    const ofRun = byRun.get(run);
    if (ofRun === undefined) byRun.set(run, [grid]);
    else ofRun.push(grid);
  }
  const chains: Chain[] = [];
  for (const run of [...byRun.keys()].sort((a, b) => b - a)) {
    const ofRun = byRun.get(run)!;
    const [knots, lines] = [knotsOf(finerFirst(ofRun, field), locators), commonLines(ofRun)];
    const newer = chains.at(-1);
    if (newer?.lines !== undefined && lines !== undefined && haveSameLines(newer.lines, lines)) fold(newer, knots);
    else chains.push({ lines, knots, passedOver: new Map(), spans: [spanOf(knots)] });
  }
  return chains.flatMap(({ knots, passedOver }) => [knots, passedOver].filter(({ size }) => size > 0).map(layerOf));
}

function knotsOf(grids: readonly Grid[], locators: ReadonlyMap<Grid, Locator>): Knots {
  const knots: Knots = new Map();
  for (const grid of grids) {
    const steps = stepsOf(grid.epochSeconds);
    const locator = locators.get(grid) ?? locatorOf(grid);
    grid.epochSeconds.forEach((epochSeconds, time) => {
      const usualStepSeconds = usualStepAt(steps, time);
      const gapAfter = time < steps.length && isLongStep(steps[time]!, usualStepSeconds);
      addSlots(knots, epochSeconds, [{ locator, time, gapAfter, usualStepSeconds }]);
    });
  }
  return knots;
}

/** Joins an older run to a chain. */
function fold(chain: Chain, older: Knots): void {
  for (const [time, slots] of older) {
    const isAmong = !chain.knots.has(time) && chain.spans.some(([from, to]) => time > from && time < to);
    addSlots(isAmong ? chain.passedOver : chain.knots, time, slots);
  }
  const own = spanOf(older);
  // Nothing falls among the times of a run of one.
  if (own[0] === own[1]) return;
  const touching = new Set(chain.spans.filter((span) => span[1] >= own[0] && span[0] <= own[1]));
  if (touching.size > 0) chain.spans = chain.spans.filter((span) => !touching.has(span));
  chain.spans.push([...touching].reduce(([from, to], span) => [Math.min(from, span[0]), Math.max(to, span[1])], own));
}

function layerOf(knots: Knots): Layer {
  const times = Float64Array.from(knots.keys()).sort();
  const steps = stepsOf(times);
  const slots = Array.from(times, (time, k) =>
    knots
      .get(time)!
      .map((slot) => (slot.usualStepSeconds > 0 ? slot : { ...slot, usualStepSeconds: usualStepAt(steps, k) })),
  );
  return { times, slots };
}

function addSlots(knots: Knots, time: number, slots: readonly Slot[]): void {
  const same = knots.get(time);
  if (same === undefined) knots.set(time, [...slots]);
  else for (const slot of slots) same.push(slot);
}

function spanOf(knots: Knots): Span {
  let [from, to] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const time of knots.keys()) [from, to] = [Math.min(from, time), Math.max(to, time)];
  return [from, to];
}

/** One of several grids if all lie on the same lines. */
function commonLines(grids: readonly Grid[]): Grid | undefined {
  const [first, ...rest] = grids;
  return first !== undefined && rest.every((grid) => haveSameLines(grid, first)) ? first : undefined;
}

// Not to the last bit: longitudes of 0 to 360 brought to −180 to 180 differ there from those written so.
function haveSameLines(one: Grid, other: Grid): boolean {
  const same = (a: Float64Array, b: Float64Array) =>
    a.length === b.length && a.every((value, i) => Math.abs(value - b[i]!) < SAME_LINE_DEG);
  return same(one.lats, other.lats) && same(one.lons, other.lons);
}

/** Grids by the size of their cells; those of one size by their numbers, so that the order of files never matters. */
function finerFirst(grids: readonly Grid[], field: Field): readonly Grid[] {
  return [...grids].sort(
    (a, b) =>
      cellSize(a) - cellSize(b) ||
      byNumbers(a.epochSeconds, b.epochSeconds) ||
      byNumbers(a.lats, b.lats) ||
      byNumbers(a.lons, b.lons) ||
      byNumbers(a.fields[field]!, b.fields[field]!),
  );
}

/** The order of two lists by the first numbers in which they differ; none comes after any. */
function byNumbers(a: Float64Array | Float32Array, b: Float64Array | Float32Array): number {
  for (let i = 0; i < Math.min(a.length, b.length); i += 1) {
    const [x, y] = [a[i]!, b[i]!];
    if (x !== y && !(Number.isNaN(x) && Number.isNaN(y))) return Number.isNaN(x) ? 1 : Number.isNaN(y) ? -1 : x - y;
  }
  return a.length - b.length;
}

const cellSize = ({ lats, lons }: Grid) =>
  Math.max(
    lats.length < 2 ? 0 : (lats.at(-1)! - lats[0]!) / (lats.length - 1),
    lons.length < 2 ? 0 : (lons.at(-1)! - lons[0]!) / (lons.length - 1),
  );
