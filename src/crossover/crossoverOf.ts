import { type Boat, checkCompleteBoat } from '../boat/boat.js';
import { faultList } from '../errors.js';
import { checkPolars, type PolarSet } from '../polar/polar.js';
import { bestAnglesOf } from './bestAngles.js';
import { regionsOf, withoutSailIn } from './holeRegions.js';
import { holesIn } from './holes.js';
import { type CrossoverOptions, settledCrossover } from './options.js';
import { type Ranked, rankingOf } from './ranking.js';
import type { Cell, Crossover } from './record.js';
import { sailUseOf } from './sailUse.js';

/**
 * Which sail plan is the fastest that may be carried, over true wind speed and angle: steady, in flat water, without current, all sails
 * in their windows in the limit gust. With it the margin over the next, the best angles up and down, the sails that are never best,
 * and holes: where every plan aboard is much slower than the best sail of the catalogue would be on this boat, both by the estimate.
 *
 * @throws InputError where an option, the boat or the polars are none
 * @example
 * const { cells } = crossoverOf(sample.boat, sample.polars, { twsKn: [12, 16], twaDeg: [90, 135] });
 * cells.find(({ twsKn, twaDeg }) => twsKn === 16 && twaDeg === 135)
 * // { sailPlan: 'main+reacher', stwKn: 7.96…, runnerUp: 'vented', marginKn: 0.560…, … }
 */
export function crossoverOf(boat: Boat, polars: PolarSet, options: CrossoverOptions = {}): Crossover {
  const faults = faultList();
  checkCompleteBoat(boat, 'boat', faults);
  checkPolars(polars, 'polars', faults);
  faults.throwIfAny();
  const settled = settledCrossover(options, boat, polars);
  const ranking = rankingOf(boat, polars, settled);
  const variants = (polars.variants ?? []).map(({ instead, plans }) => ({
    instead,
    ranking: rankingOf(boat, { ...polars, plans: { ...polars.plans, ...plans } }, settled),
  }));
  const { holes, unknown } = holesIn(boat, polars, settled);
  const cells = settled.twaDeg.flatMap((twaDeg, i) =>
    settled.twsKn.map((twsKn, j): Cell => {
      const [fastest, second] = ranking(twsKn, twaDeg);
      const undecided =
        fastest !== undefined && variants.some((variant) => variant.ranking(twsKn, twaDeg)[0]?.id !== fastest.id);
      return { twsKn, twaDeg, ...told(fastest, second), undecided, hole: holes[i * settled.twsKn.length + j]! };
    }),
  );
  return {
    formatVersion: 1,
    boat: boat.name,
    status: polars.status,
    basis: polars.basis ?? [],
    options: settled,
    cells,
    bestAngles: settled.twsKn.map((twsKn) => bestAnglesOf(ranking, twsKn)),
    sails: sailUseOf(boat, polars, settled, cells, ranking, variants),
    holes: regionsOf(cells, settled),
    withoutSail: withoutSailIn(cells, boat.sailPlans, settled),
    holesUnknown: unknown,
  };
}

function told(fastest: Ranked | undefined, second: Ranked | undefined) {
  const marginKn = fastest === undefined || second === undefined ? null : fastest.stwKn - second.stwKn;
  return {
    sailPlan: fastest?.id ?? null,
    stwKn: fastest?.stwKn ?? null,
    awaDeg: fastest?.awaDeg ?? null,
    awsKn: fastest?.awsKn ?? null,
    gustAwsKn: fastest?.gustAwsKn ?? null,
    runnerUp: second?.id ?? null,
    marginKn,
    marginPercent: marginKn === null ? null : (100 * marginKn) / fastest!.stwKn,
  };
}
