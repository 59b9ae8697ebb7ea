/** What a way has cost so far, how far it got, and how long since its last change. */
export interface Level {
  readonly price: number;
  readonly used: number;
  readonly since: number;
  readonly place: number;
}

/**
 * Of many levels, in rising order of price and then of the store used, those that are best at some worth of a minute and of the store:
 * the corners of the line over them. Of these at most so many, evenly, the cheapest and the furthest among them. Levels that may change
 * at different times are no rivals, and are told apart.
 */
export function levelsKept<T extends Level>(levels: readonly T[], most: number): readonly T[] {
  if (levels.length <= most) return levels;
  const sinces = [...new Set(levels.map(({ since }) => since))];
  const each = Math.max(2, Math.floor(most / sinces.length));
  return sinces.flatMap((own) => spread(corners(levels.filter(({ since }) => since === own)), each));
}

/** Where nothing is paid for what is used up, levels differ in what they used alone; else it only settles ties. */
const STEP_COST = 1e-3;
const costOf = ({ price, used }: Level) => price + used * STEP_COST;

/** The corners of the upper hull of places over costs. */
function corners<T extends Level>(levels: readonly T[]): readonly T[] {
  const hull: T[] = [];
  const slope = (a: Level, b: Level) => (b.place - a.place) / (costOf(b) - costOf(a));
  for (const level of levels) {
    if (hull.length > 0 && costOf(level) <= costOf(hull.at(-1)!)) continue;
    while (hull.length > 1 && slope(hull.at(-2)!, hull.at(-1)!) <= slope(hull.at(-1)!, level)) hull.pop();
    hull.push(level);
  }
  return hull;
}

/** At most so many of a list, evenly over it, the first and the last among them. */
const spread = <T>(list: readonly T[], most: number): readonly T[] =>
  list.length <= most
    ? list
    : Array.from({ length: most }, (_, i) => list[Math.round((i * (list.length - 1)) / (most - 1))]!);
