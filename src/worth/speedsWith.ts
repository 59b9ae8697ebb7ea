import { median } from 'simple-statistics';
import { type Boat, settingOf } from '../boat/boat.js';
import { GUST_OVER_MEAN } from '../catalogue/catalogue.js';
import { InputError } from '../errors.js';
import { ESTIMATED_TWA_DEG, ESTIMATED_TWS_KN, type EstimatedPolars, estimatePolars } from '../estimate/estimate.js';
import { mustBeGiven } from '../given.js';
import type { Polar, PolarSet, PolarVariant } from '../polar/polar.js';
import { breachIn, planSpeed } from '../speed/speed.js';
import { says } from '../wording.js';

/**
 * The speeds of a boat with further sails: her plans keep theirs, and those she did not have are estimated on the same hull. Beside
 * measured or designed speeds, or one polar of the whole boat, an estimate is brought to them: a new plan is to the fastest plan she
 * had there as their estimates are to one another. The variants of an estimate come with the new plans, so that both are moved alike.
 *
 * @throws InputError where a boat or the polars are none, or the boat file lacks what speeds are estimated from
 * @example
 * const { plans } = speedsWith(sample.without.boat, sample.without.polars, sample.withVented.boat);
 * 'vented' in sample.without.polars.plans // false
 * polarSpeed(plans.vented)(16, 150) // 7.69…
 */
export function speedsWith(before: Boat, polars: PolarSet, after: Boat, file = 'boat'): PolarSet {
  mustBeGiven(before, 'sailPlans', 'before', 'readBoat');
  mustBeGiven(polars, 'plans', 'polars', 'readPolars or estimatePolars');
  mustBeGiven(after, 'sailPlans', 'after', 'boatWith or withSail');
  const plans = after.sailPlans.filter(({ id }) => !Object.hasOwn(polars.plans, id) && isNew(before, id));
  if (plans.length === 0) return polars;
  const bare = unsaidSpeeds(after);
  const fresh = { ...bare, sailPlans: plans };
  if (isPlainEstimate(polars)) {
    // Of one without its bands there are no variants either.
    const bands = polars.variants.length > 0;
    const estimated = estimatePolars(fresh, { file, hullOf: polars.estimate, bands });
    return {
      ...polars,
      plans: { ...polars.plans, ...estimated.plans },
      low: { ...polars.low, ...estimated.low },
      high: { ...polars.high, ...estimated.high },
      variants: together(polars.variants, estimated.variants),
    };
  }
  const grid = { twsKn: windsOf(polars), twaDeg: ESTIMATED_TWA_DEG };
  const own = { ...bare, sails: before.sails, sailPlans: before.sailPlans };
  const best = fastestOf(before, polars, grid);
  const [ofOwn, ofNew] = sayingWhatIsNeeded(fresh, file, () => {
    const hullOf = hullFittedTo(own, best, file);
    return [own, fresh].map((boat) => estimatePolars(boat, { file, ...grid, hullOf })) as [
      EstimatedPolars,
      EstimatedPolars,
    ];
  });
  const brought = (ownPlans: Plans, newPlans: Plans): Plans => {
    const shares = best.map((one, i) => {
      const estimated = one === undefined ? 0 : (ownPlans[one.id]?.stwKn[i] ?? 0);
      return estimated < LEAST_KN ? undefined : one!.stwKn / estimated;
    });
    const known = shares.flatMap((share) => share ?? []);
    const usual = known.length === 0 ? 1 : median(known);
    return Object.fromEntries(
      Object.entries(newPlans).map(([id, polar]) => [
        id,
        { ...polar, stwKn: polar.stwKn.map((speed, i) => speed * (shares[i] ?? usual)) },
      ]),
    );
  };
  const mid = brought(ofOwn.plans, ofNew.plans);
  const under = (of: EstimatedPolars, i: number): Plans => ({ ...of.plans, ...of.variants[i]!.plans });
  const variants = ofNew.variants.map(({ assumption, instead }, i) => ({
    assumption,
    instead,
    plans: brought(under(ofOwn, i), under(ofNew, i)),
  }));
  return { ...polars, plans: { ...polars.plans, ...mid }, variants: together(polars.variants ?? [], variants) };
}

type Plans = Readonly<Record<string, Polar>>;

/** Who has polars is not told to go without: what an estimate lacks is one way out, and polars of the new plans are the other. */
function sayingWhatIsNeeded<Result>({ sailPlans }: Boat, file: string, estimate: () => Result): Result {
  try {
    return estimate();
  } catch (error) {
    if (!(error instanceof InputError) || !error.faults.every(({ code }) => LACKING.has(code))) throw error;
    const lacking = error.faults.flatMap(({ path }) => path ?? []);
    const plans = sailPlans.map(({ id }) => id);
    throw new InputError([{ file, ...says.neededBesidePolars(lacking, plans) }]);
  }
}

const LACKING: ReadonlySet<string> = new Set([says.neededToEstimate().code, says.areaToEstimate().code]);

const isNew = ({ sailPlans }: Boat, id: string) => !sailPlans.some((plan) => plan.id === id);

/** Estimated plan by plan, and not split from one polar of the boat. */
const isPlainEstimate = (polars: PolarSet): polars is EstimatedPolars =>
  polars.status === 'estimated' && 'estimate' in polars && (polars as EstimatedPolars).estimate.misfit === undefined;

/** A boat without a word of her speeds: they are known otherwise. */
function unsaidSpeeds(boat: Boat): Boat {
  const { polars: _, boatPolar: __, knownSpeeds: ___, ...rest } = boat;
  return rest;
}

/** Slower than this an estimate is no measure: of our own choice. */
const LEAST_KN = 1;

/** The usual winds as far as some polars reach. */
function windsOf({ plans }: PolarSet): readonly number[] {
  const all = Object.values(plans).flatMap(({ twsKn }) => twsKn);
  const [least, most] = [Math.min(...all), Math.max(...all)];
  const within = ESTIMATED_TWS_KN.filter((tws) => tws >= least && tws <= most);
  return within.length > 1 ? within : ESTIMATED_TWS_KN;
}

/** A plan's speed at a wind and an angle. */
interface Fastest {
  readonly id: string;
  readonly twsKn: number;
  readonly twaDeg: number;
  readonly stwKn: number;
}

/** The fastest plan that may be carried at every angle and wind, by the polars alone. */
function fastestOf(
  boat: Boat,
  { plans }: PolarSet,
  { twsKn, twaDeg }: Pick<Polar, 'twsKn' | 'twaDeg'>,
): readonly (Fastest | undefined)[] {
  const gustFactor = boat.house?.gustFactor ?? GUST_OVER_MEAN;
  const known = boat.sailPlans
    .filter(({ id, sails }) => sails.length > 0 && Object.hasOwn(plans, id))
    .map(({ id, sails }) => ({
      id,
      speed: planSpeed(plans[id]!, 1, boat.leeway).at,
      windows: sails.map((text) => settingOf(boat, text)!.window),
    }));
  return twaDeg.flatMap((twa) =>
    twsKn.map((tws) => {
      let fastest: Fastest | undefined;
      for (const { id, speed, windows } of known) {
        const stwKn = speed(tws, twa) ?? 0;
        if (stwKn <= (fastest?.stwKn ?? 0) || breachIn(windows, tws, twa, stwKn, gustFactor) !== undefined) continue;
        fastest = { id, twsKn: tws, twaDeg: twa, stwKn };
      }
      return fastest;
    }),
  );
}

/** Closer to the wind than this an estimate is little worth, and a boat file takes no known speeds. */
const CLOSEST_DEG = 35;
/** So many fix a hull well enough: of our own choice. */
const MOST_POINTS = 90;

/** The hull that goes with the speeds of some plans; those beyond what the sails drive are passed over. */
function hullFittedTo(boat: Boat, points: readonly (Fastest | undefined)[], file: string): EstimatedPolars['estimate'] {
  const all = points.flatMap((one) =>
    one !== undefined && one.twaDeg >= CLOSEST_DEG && one.stwKn >= LEAST_KN ? [one] : [],
  );
  const every = Math.max(1, Math.ceil(all.length / MOST_POINTS));
  const known = all
    .filter((_, i) => i % every === 0)
    .map(({ id, twsKn, twaDeg, stwKn }) => ({ sailPlan: id, twsKn, twaDeg, stwKn }));
  try {
    return estimatePolars({ ...boat, knownSpeeds: known }, { file }).estimate;
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    const tooFast = new Set(
      error.faults.flatMap(({ code, path = '' }) =>
        code === TOO_FAST ? [Number(/^knownSpeeds\[(\d+)\]/.exec(path)?.[1])] : [],
      ),
    );
    if (tooFast.size === 0) throw error;
    return estimatePolars({ ...boat, knownSpeeds: known.filter((_, i) => !tooFast.has(i)) }, { file }).estimate;
  }
}

const TOO_FAST = says.knownSpeedTooFast('').code;

/** The plans of variants of the same assumptions, in their order. */
function together(some: readonly PolarVariant[], others: readonly PolarVariant[]): readonly PolarVariant[] {
  if (some.length === 0) return others;
  return some.map((variant, i) => ({ ...variant, plans: { ...variant.plans, ...others[i]?.plans } }));
}
