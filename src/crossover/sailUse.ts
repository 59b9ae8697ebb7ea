import { type Boat, plansWithout, settingOf } from '../boat/boat.js';
import { isStormSail, kindOf } from '../catalogue/catalogue.js';
import type { PolarSet } from '../polar/polar.js';
import type { Ranking } from './ranking.js';
import type { Cell, Nearest, SailUse, SettledCrossoverOptions } from './record.js';

interface Variant {
  readonly instead: string;
  readonly ranking: Ranking;
}

/** How every cloth aboard fares: where it is part of the fastest plan, or where it comes nearest to it. */
export function sailUseOf(
  boat: Boat,
  polars: PolarSet,
  options: SettledCrossoverOptions,
  cells: readonly Cell[],
  ranking: Ranking,
  variants: readonly Variant[],
): readonly SailUse[] {
  const { twsKn, twaDeg } = options;
  const clothsOf = new Map(
    boat.sailPlans.map(({ id, sails }) => [id, new Set(sails.map((text) => settingOf(boat, text)!.cloth))]),
  );
  const sets = (plan: string | null, cloth: string) => plan !== null && clothsOf.get(plan)!.has(cloth);
  return boat.sails
    .filter(({ clothOf }) => clothOf === undefined)
    .map(({ id, kind }) => {
      const bestCells = cells.filter(({ sailPlan }) => sets(sailPlan, id)).length;
      const use = { id, kind, isStormSail: isStormSail(kindOf(kind)), bestCells };
      if (bestCells > 0) return { ...use, nearest: null, setNowhere: null };
      const nearest = nearestOf(id, ranking, cells, sets);
      if (nearest === undefined) return { ...use, nearest: null, setNowhere: whyNowhere(id, boat, polars, options) };
      const bestIf = variants
        .filter((variant) =>
          twaDeg.some((angle) => twsKn.some((wind) => sets(variant.ranking(wind, angle)[0]?.id ?? null, id))),
        )
        .map(({ instead }) => instead);
      return { ...use, nearest: { ...nearest, bestIf }, setNowhere: null };
    });
}

function whyNowhere(
  cloth: string,
  boat: Boat,
  polars: PolarSet,
  { without, night }: SettledCrossoverOptions,
): NonNullable<SailUse['setNowhere']> {
  const setting = (plans: Boat['sailPlans']) =>
    plans.filter(({ sails }) => sails.some((text) => settingOf(boat, text)!.cloth === cloth));
  if (setting(boat.sailPlans).length === 0) return 'no-plan';
  const left = setting(plansWithout(boat, without));
  if (left.length === 0) return 'left-out';
  const isDark = ({ sails }: Boat['sailPlans'][number]) =>
    sails.some((text) => settingOf(boat, text)!.sail.daylightOnly === true);
  const byNow = left.filter((plan) => !(night && isDark(plan)));
  if (byNow.length === 0) return 'night';
  return byNow.some(({ id }) => Object.hasOwn(polars.plans, id)) ? 'not-carried' : 'no-speeds';
}

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
