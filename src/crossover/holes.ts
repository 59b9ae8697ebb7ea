import { type Boat, plansWithout, type Sail, settingOf } from '../boat/boat.js';
import { describeFault, InputError } from '../errors.js';
import { type EstimatedPolars, estimatePolars } from '../estimate/estimate.js';
import type { PolarSet } from '../polar/polar.js';
import type { SailKind } from '../sail/sail.js';
import { SKIPPER_FACTOR, sailablePlans } from '../speed/speed.js';
import { says } from '../wording.js';
import { alongKn, bestAnglesOf } from './bestAngles.js';
import { catalogueBoat } from './catalogueBoat.js';
import { type Ranking, rankingOf } from './ranking.js';
import type { BestAngles, Cell, CellHole, Hole, SettledCrossoverOptions } from './record.js';

/** The hole at a wind and angle, null where there is none; and why none could be looked for. */
export interface HolesLookedFor {
  readonly holes: (twsKn: number, twaDeg: number) => CellHole | null;
  readonly unknown: string | null;
}

const NONE: HolesLookedFor['holes'] = () => null;

/**
 * Holes by the estimate, for what is aboard as for the catalogue: measured speeds of the one beside estimates of the other would tell of
 * the estimate and not of the sail. Where tacking or gybing makes more along a course than sailing it straight, that counts.
 */
export function holesIn(boat: Boat, polars: PolarSet, options: SettledCrossoverOptions): HolesLookedFor {
  try {
    const left = boatLeft(boat, options.without);
    const other = catalogueBoat(left);
    if (other === undefined) return { holes: NONE, unknown: null };
    const grid = { twsKn: options.twsKn, twaDeg: FINE_TWA_DEG };
    // One polar of the whole boat moves what is aboard and not the catalogue: both are estimated before any split.
    const hull = isEstimate(polars) ? { hullOf: polars.estimate } : {};
    const aboard = estimatePolars(left, { ...grid, ...hull });
    const catalogue = estimatePolars(other.boat, { ...grid, hullOf: aboard.estimate });
    return { holes: holesBetween(left, aboard, other.boat, catalogue, other.kindOf, options), unknown: null };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return { holes: NONE, unknown: lackingIn(error) };
  }
}

const LACKING = [says.neededToEstimate().code, says.areaToEstimate().code];

/** What an estimate lacks, in words. Areas that are missing may be those of catalogue sails, which follow from the rig. */
function lackingIn({ faults }: InputError): string {
  const other = faults.find(({ code }) => !LACKING.includes(code));
  if (other !== undefined) return `there is something in the way: ${describeFault(other)}`;
  const paths = faults.map(({ path = '' }) => (path.startsWith('sails') ? 'rig dimensions or areas of sails' : path));
  return `the boat file lacks ${[...new Set(paths)].join(', ')}`;
}

const FINE_TWA_DEG = Array.from({ length: 37 }, (_, i) => i * 5);

const isEstimate = (polars: PolarSet): polars is EstimatedPolars =>
  polars.status === 'estimated' && 'estimate' in polars;

/** A boat without the sails that are left out and the plans that set them, and without a word of her polars. */
function boatLeft(boat: Boat, without: readonly string[]): Boat {
  const { polars: _, boatPolar: __, ...rest } = boat;
  const isLeft = ({ id, clothOf }: Sail) => !without.includes(id) && !without.includes(clothOf ?? id);
  const sailPlans = plansWithout(boat, without);
  const knownSpeeds = boat.knownSpeeds?.filter(
    ({ sailPlan }) => sailPlan === undefined || sailPlans.some(({ id }) => id === sailPlan),
  );
  const sails = boat.sails.filter(isLeft);
  const known = knownSpeeds === undefined || knownSpeeds.length === 0 ? {} : { knownSpeeds };
  const { knownSpeeds: ___, ...left } = rest;
  return { ...left, ...known, sails, sailPlans };
}

function holesBetween(
  boat: Boat,
  aboard: EstimatedPolars,
  other: Boat,
  catalogue: EstimatedPolars,
  kinds: ReadonlyMap<string, SailKind>,
  options: SettledCrossoverOptions,
): HolesLookedFor['holes'] {
  const { gustFactor, night, holePercent } = options;
  const ranking = (whose: Boat, polars: PolarSet) =>
    rankingOf(
      sailablePlans(whose, polars, SKIPPER_FACTOR.estimated).filter(({ daylightOnly }) => !(night && daylightOnly)),
      gustFactor,
    );
  const cases = [undefined, ...aboard.variants.map((_, i) => i)].map((i) => {
    const under = (polars: EstimatedPolars) =>
      i === undefined ? polars : { ...polars, plans: { ...polars.plans, ...polars.variants[i]!.plans } };
    return { own: remembered(ranking(boat, under(aboard))), others: remembered(ranking(other, under(catalogue))) };
  });
  const newKindOf = new Map(
    other.sailPlans.map(({ id, sails }) => [
      id,
      sails.flatMap(
        (text) => kinds.get(settingOf(other, text)!.cloth) ?? kinds.get(settingOf(other, text)!.sail.id) ?? [],
      )[0],
    ]),
  );
  const [mid, ...variants] = cases as [Case, ...Case[]];
  return (twsKn, twaDeg) => {
    const best = mid.others.along(twsKn, twaDeg);
    const own = mid.own.along(twsKn, twaDeg);
    const kind = best === undefined ? undefined : newKindOf.get(best.sailPlan);
    if (best === undefined || kind === undefined) return null;
    const aboardKn = own?.stwKn ?? 0;
    const slowerPercent = 100 * (1 - aboardKn / best.stwKn);
    if (slowerPercent < holePercent) return null;
    const certain = variants.every(
      (one) => (one.others.along(twsKn, twaDeg)?.stwKn ?? 0) > (one.own.along(twsKn, twaDeg)?.stwKn ?? 0),
    );
    return { kind, stwKn: best.stwKn, aboardKn, slowerPercent, certain };
  };
}

interface Case {
  readonly own: Along;
  readonly others: Along;
}

interface Along {
  along(twsKn: number, twaDeg: number): { readonly stwKn: number; readonly sailPlan: string } | undefined;
}

/** A ranking asked along courses; the best angles of each wind are looked for once. */
function remembered(ranking: Ranking): Along {
  const angles = new Map<number, BestAngles>();
  return {
    along(twsKn, twaDeg) {
      const best = angles.get(twsKn) ?? bestAnglesOf(ranking, twsKn);
      angles.set(twsKn, best);
      const [straight] = ranking(twsKn, twaDeg);
      const stwKn = alongKn(straight?.stwKn ?? 0, twaDeg, best);
      const board = twaDeg < 90 ? best.up : best.down;
      const sailPlan = stwKn > (straight?.stwKn ?? 0) ? board?.sailPlan : straight?.id;
      return sailPlan === undefined || stwKn <= 0 ? undefined : { stwKn, sailPlan };
    },
  };
}

/** Smaller regions are the edge of a grid cell, not a hole. */
const LEAST_CELLS = 3;

/** Holes that touch are one region; the largest first. */
export function regionsOf(cells: readonly Cell[], { twsKn, twaDeg }: SettledCrossoverOptions): readonly Hole[] {
  const columns = twsKn.length;
  const seen = new Set<number>();
  const regions: Cell[][] = [];
  cells.forEach(({ hole }, start) => {
    if (hole === null || seen.has(start)) return;
    const region: Cell[] = [];
    const waiting = [start];
    seen.add(start);
    while (waiting.length > 0) {
      const at = waiting.pop()!;
      region.push(cells[at]!);
      const [row, column] = [Math.floor(at / columns), at % columns];
      const near = [
        ...(row > 0 ? [at - columns] : []),
        ...(row < twaDeg.length - 1 ? [at + columns] : []),
        ...(column > 0 ? [at - 1] : []),
        ...(column < columns - 1 ? [at + 1] : []),
      ];
      for (const next of near) {
        if (seen.has(next) || cells[next]!.hole === null) continue;
        seen.add(next);
        waiting.push(next);
      }
    }
    if (region.length >= LEAST_CELLS) regions.push(region);
  });
  return regions.sort((a, b) => b.length - a.length).map(holeOf);
}

function holeOf(region: readonly Cell[]): Hole {
  const span = (values: readonly number[]) => [Math.min(...values), Math.max(...values)] as const;
  const deepest = region.reduce((most, cell) => (cell.hole!.slowerPercent > most.hole!.slowerPercent ? cell : most));
  const awas = region.flatMap(({ awaDeg }) => awaDeg ?? []);
  const counts = new Map<SailKind, number>();
  for (const { hole } of region) counts.set(hole!.kind, (counts.get(hole!.kind) ?? 0) + 1);
  return {
    cells: region.length,
    twsKn: span(region.map((cell) => cell.twsKn)),
    twaDeg: span(region.map((cell) => cell.twaDeg)),
    awaDeg: awas.length === 0 ? null : span(awas),
    kinds: [...counts].sort((a, b) => b[1] - a[1]).map(([kind]) => kind),
    deepest: { ...deepest.hole!, twsKn: deepest.twsKn, twaDeg: deepest.twaDeg, sailPlan: deepest.sailPlan },
    certain: region.every(({ hole }) => hole!.certain),
  };
}
