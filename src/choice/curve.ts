import type { ChoiceProblem } from './problem.js';
import type { Ending, Search } from './search.js';

/** The best that can be done with at most so many changes. */
export interface CurvePoint {
  readonly changes: number;
  readonly minutes: number;
  /** Whether the minutes are an estimate: the way does not arrive before the stages end. */
  readonly estimated: boolean;
  readonly ending: Ending;
}

/**
 * For every number of changes the earliest ending with at most so many, from the fewest with which there is one to the most
 * that still gain. Where ways do not arrive, the place left over the mean speed so far of the furthest of them is added.
 */
export function curveOf(search: Search, problem: Pick<ChoiceProblem, 'from' | 'goal'>): CurvePoint[] {
  const points = endingsOf(search, problem).sort(
    (a, b) => a.changes - b.changes || a.minutes - b.minutes || a.ending.price - b.ending.price,
  );
  const curve: CurvePoint[] = [];
  for (const point of points) {
    const best = curve.at(-1);
    if (best !== undefined && !(point.minutes < best.minutes - SAME_MINUTES)) continue;
    // The numbers of changes between, with which nothing more is gained.
    if (best !== undefined)
      for (let changes = best.changes + 1; changes < point.changes; changes += 1) curve.push({ ...best, changes });
    curve.push(point);
  }
  return curve;
}

/** The ending of least time, constant price of changes and price together; arrivals before ways that do not arrive. */
export function chosenOf(
  search: Search,
  problem: Pick<ChoiceProblem, 'from' | 'goal'>,
  pricePerChange: number,
): Ending | undefined {
  const points = endingsOf(search, problem);
  const arrived = points.filter(({ ending }) => ending.arrived);
  // No change costs nothing at any price, even one without bound.
  const cost = ({ changes, minutes, ending }: CurvePoint) =>
    minutes + ending.price + (changes === 0 ? 0 : pricePerChange * changes);
  const isBetter = (one: CurvePoint, than: CurvePoint) => {
    const [ours, theirs] = [cost(one), cost(than)];
    if (ours !== theirs && !(Math.abs(ours - theirs) < SAME_MINUTES)) return ours < theirs;
    return (one.changes - than.changes || one.ending.price - than.ending.price || one.minutes - than.minutes) < 0;
  };
  return (arrived.length > 0 ? arrived : points).reduce<CurvePoint | undefined>(
    (best, point) => (best === undefined || isBetter(point, best) ? point : best),
    undefined,
  )?.ending;
}

const SAME_MINUTES = 1e-7;

function endingsOf(
  { arrivals, unfinished }: Search,
  { from, goal }: Pick<ChoiceProblem, 'from' | 'goal'>,
): CurvePoint[] {
  const rate = Math.max(0, ...unfinished.map(({ place, minutes }) => (minutes > 0 ? (place - from) / minutes : 0)));
  return [
    ...arrivals.map((ending) => ({ changes: ending.changes, minutes: ending.minutes, estimated: false, ending })),
    // What got stuck on the way is no rival to what arrives.
    ...unfinished
      .filter(({ stuck }) => !stuck || arrivals.length === 0)
      .map((ending) => ({
        changes: ending.changes,
        minutes: rate > 0 ? ending.minutes + (goal - ending.place) / rate : Number.POSITIVE_INFINITY,
        estimated: true,
        ending,
      })),
  ];
}
