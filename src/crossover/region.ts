import type { Cell, Region, SettledCrossoverOptions, WindsAndAngles } from './record.js';

type Grid = Pick<SettledCrossoverOptions, 'twsKn' | 'twaDeg'>;

/** How far a region reaches, and where it is whole. */
export function regionOf(region: readonly Cell[], grid: Grid): Region {
  return {
    cells: region.length,
    twsKn: spanOf(region.map(({ twsKn }) => twsKn)),
    twaDeg: spanOf(region.map(({ twaDeg }) => twaDeg)),
    throughout: largestWhole(region, grid),
  };
}

/** The least and the greatest of some numbers. */
export const spanOf = (values: readonly number[]) => [Math.min(...values), Math.max(...values)] as const;

/** The rectangle of most cells that a region fills; of several the one of the lightest wind. */
function largestWhole(region: readonly Cell[], { twsKn, twaDeg }: Grid): WindsAndAngles {
  const has = new Set(region.map((cell) => `${cell.twsKn} ${cell.twaDeg}`));
  let [best, most]: [WindsAndAngles | undefined, number] = [undefined, 0];
  twsKn.forEach((from, first) => {
    let open: readonly boolean[] = twaDeg.map(() => true);
    twsKn.slice(first).forEach((to, further) => {
      open = open.map((isOpen, i) => isOpen && has.has(`${to} ${twaDeg[i]!}`));
      const [start, length] = longestRun(open);
      if (length * (further + 1) <= most) return;
      most = length * (further + 1);
      best = { twsKn: [from, to], twaDeg: [twaDeg[start]!, twaDeg[start + length - 1]!] };
    });
  });
  return best!;
}

/** Where the longest run of what holds begins, and how long it is. */
function longestRun(holds: readonly boolean[]): readonly [start: number, length: number] {
  let best: readonly [number, number] = [0, 0];
  let length = 0;
  holds.forEach((held, i) => {
    length = held ? length + 1 : 0;
    if (length > best[1]) best = [i - length + 1, length];
  });
  return best;
}
