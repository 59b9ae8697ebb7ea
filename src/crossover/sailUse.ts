import { type Boat, settingOf } from '../boat/boat.js';
import { kindOf } from '../catalogue/catalogue.js';
import type { Ranking } from './ranking.js';
import type { Cell, Nearest, SailUse, SettledCrossoverOptions } from './record.js';

interface Variant {
  readonly instead: string;
  readonly ranking: Ranking;
}

/** How every cloth aboard fares: where it is part of the fastest plan, or where it comes nearest to it. */
export function sailUseOf(
  boat: Boat,
  { twsKn, twaDeg }: SettledCrossoverOptions,
  cells: readonly Cell[],
  ranking: Ranking,
  variants: readonly Variant[],
): readonly SailUse[] {
  const clothsOf = new Map(
    boat.sailPlans.map(({ id, sails }) => [id, new Set(sails.map((text) => settingOf(boat, text)!.cloth))]),
  );
  const sets = (plan: string | null, cloth: string) => plan !== null && clothsOf.get(plan)!.has(cloth);
  return boat.sails
    .filter(({ clothOf }) => clothOf === undefined)
    .map(({ id, kind }) => {
      const bestCells = cells.filter(({ sailPlan }) => sets(sailPlan, id)).length;
      const isStormSail = STORM_KINDS.includes(kind) || kindOf(kind).place.startsWith('storm');
      if (bestCells > 0) return { id, kind, isStormSail, bestCells, nearest: null };
      const nearest = nearestOf(id, ranking, cells, sets);
      const bestIf = variants
        .filter((variant) =>
          twaDeg.some((angle) => twsKn.some((wind) => sets(variant.ranking(wind, angle)[0]?.id ?? null, id))),
        )
        .map(({ instead }) => instead);
      return { id, kind, isStormSail, bestCells, nearest: nearest === undefined ? null : { ...nearest, bestIf } };
    });
}

const STORM_KINDS: readonly SailUse['kind'][] = ['heavy-weather-jib'];

function nearestOf(
  cloth: string,
  ranking: Ranking,
  cells: readonly Cell[],
  sets: (plan: string | null, cloth: string) => boolean,
): Omit<Nearest, 'bestIf'> | undefined {
  let nearest: Omit<Nearest, 'bestIf'> | undefined;
  for (const { twsKn, twaDeg } of cells) {
    const all = ranking(twsKn, twaDeg);
    const mine = all.find(({ id }) => sets(id, cloth));
    if (mine === undefined) continue;
    const slowerPercent = 100 * (1 - mine.stwKn / all[0]!.stwKn);
    if (nearest === undefined || slowerPercent < nearest.slowerPercent) {
      nearest = { twsKn, twaDeg, sailPlan: mine.id, fastest: all[0]!.id, slowerPercent };
    }
  }
  return nearest;
}
