import { type Boat, plansWithout, type Sail, settingOf } from '../boat/boat.js';
import { describeFault, InputError } from '../errors.js';
import { type EstimatedPolars, estimatePolars } from '../estimate/estimate.js';
import type { PolarSet } from '../polar/polar.js';
import { SKIPPER_FACTOR } from '../speed/speed.js';
import { says } from '../wording.js';
import { alongKn, bestAnglesOf } from './bestAngles.js';
import { type CatalogueBoat, catalogueBoat } from './catalogueBoat.js';
import { rankingOf } from './ranking.js';
import type { BestAngles, CellHole, SettledCrossoverOptions } from './record.js';

/** The hole at each wind and angle, by angle and then by wind, null where there is none; and why none could be looked for. */
export interface HolesLookedFor {
  readonly holes: readonly (CellHole | null)[];
  readonly unknown: string | null;
}

/**
 * Holes by the estimate, for what is aboard as for the catalogue: measured speeds of the one beside estimates of the other would tell of
 * the estimate and not of the sail. Where tacking or gybing makes more along a course than sailing it straight, that counts.
 */
export function holesIn(boat: Boat, polars: PolarSet, given: SettledCrossoverOptions): HolesLookedFor {
  // What is left out is not aboard any more; and both sides are estimates.
  const options = { ...given, without: [], skipperFactor: SKIPPER_FACTOR.estimated };
  const places = options.twaDeg.flatMap((twaDeg) => options.twsKn.map((twsKn) => ({ twsKn, twaDeg })));
  const none = places.map(() => null);
  try {
    const left = boatLeft(boat, given.without);
    const other = catalogueBoat(left);
    if (other === undefined) return { holes: none, unknown: null };
    const grid = { twsKn: options.twsKn, twaDeg: FINE_TWA_DEG };
    // One polar of the whole boat moves what is aboard and not the catalogue: both are estimated before any split.
    const hull = isEstimate(polars) ? { hullOf: polars.estimate } : {};
    const aboard = estimatePolars(left, { ...grid, ...hull });
    const hullOf = aboard.estimate;
    const catalogue = estimatePolars(other.boat, { ...grid, hullOf, bands: false });
    const own = alongUnder(left, aboard, options);
    const others = alongUnder(other.boat, catalogue, options);
    const found = places.map(({ twsKn, twaDeg }) =>
      twaDeg < CLOSEST_DEG ? null : holeAt(own(twsKn, twaDeg), others(twsKn, twaDeg), other, options),
    );
    const at = places.filter((_, i) => found[i] !== null);
    if (at.length === 0) return { holes: none, unknown: null };
    // Bands of those plans alone that are faster in some hole than what is aboard: of the others nobody asks.
    const ranked = rankingOf(other.boat, catalogue, options);
    const faster = new Set(
      at.flatMap(({ twsKn, twaDeg }) => {
        const aboardKn = own(twsKn, twaDeg)?.stwKn ?? 0;
        const boards = bestAnglesOf(ranked, twsKn);
        const direct = ranked(twsKn, twaDeg).flatMap(({ id, stwKn }) => (stwKn > aboardKn ? [id] : []));
        return [...direct, ...[boards.up, boards.down].flatMap((board) => board?.sailPlan ?? [])];
      }),
    );
    const filling = other.boat.sailPlans.filter(({ id }) => faster.has(id));
    const filled = { ...other.boat, sailPlans: filling };
    const banded = estimatePolars(filled, { ...grid, hullOf });
    const cases = aboard.variants.map((_, i) => ({
      own: alongUnder(left, variantOf(aboard, i), options),
      others: alongUnder(filled, variantOf(banded, i), options),
    }));
    return {
      holes: places.map(({ twsKn, twaDeg }, i) => {
        const hole = found[i]!;
        if (hole === null) return null;
        const { sailPlan: _, ...rest } = hole;
        const certain = cases.every(
          (one) => (one.others(twsKn, twaDeg)?.stwKn ?? 0) > (one.own(twsKn, twaDeg)?.stwKn ?? 0),
        );
        return { ...rest, certain };
      }),
      unknown: null,
    };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return { holes: none, unknown: lackingIn(error) };
  }
}

function holeAt(
  own: Made | undefined,
  best: Made | undefined,
  { boat, kindOf }: CatalogueBoat,
  { holePercent }: SettledCrossoverOptions,
) {
  const sails = boat.sailPlans.find(({ id }) => id === best?.sailPlan)?.sails ?? [];
  const [kind] = sails.flatMap((text) => {
    const { cloth, sail } = settingOf(boat, text)!;
    return kindOf.get(cloth) ?? kindOf.get(sail.id) ?? [];
  });
  if (best === undefined || kind === undefined) return null;
  const aboardKn = own?.stwKn ?? 0;
  const slowerPercent = 100 * (1 - aboardKn / best.stwKn);
  return slowerPercent < holePercent
    ? null
    : { kind, stwKn: best.stwKn, aboardKn, slowerPercent, sailPlan: best.sailPlan };
}

/** Closer nobody steers: a placeholder. */
const CLOSEST_DEG = 40;

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

const variantOf = (polars: EstimatedPolars, i: number): PolarSet => ({
  ...polars,
  plans: { ...polars.plans, ...polars.variants[i]!.plans },
});

/** What is made along a course, and under which plan. */
interface Made {
  readonly stwKn: number;
  readonly sailPlan: string;
}

/** The most a boat makes along courses, by some polars; the best angles of each wind are looked for once. */
function alongUnder(boat: Boat, polars: PolarSet, options: SettledCrossoverOptions) {
  const ranking = rankingOf(boat, polars, options);
  const angles = new Map<number, BestAngles>();
  return (twsKn: number, twaDeg: number): Made | undefined => {
    const best = angles.get(twsKn) ?? bestAnglesOf(ranking, twsKn);
    angles.set(twsKn, best);
    const [straight] = ranking(twsKn, twaDeg);
    const stwKn = alongKn(straight?.stwKn ?? 0, twaDeg, best);
    const board = twaDeg < 90 ? best.up : best.down;
    const sailPlan = stwKn > (straight?.stwKn ?? 0) ? board?.sailPlan : straight?.id;
    return sailPlan === undefined || stwKn <= 0 ? undefined : { stwKn, sailPlan };
  };
}
