import type { Boat } from '../boat/boat.js';
import { GUST_OVER_MEAN } from '../catalogue/catalogue.js';
import { faultList } from '../errors.js';
import { checkTypes, mustBeGiven } from '../given.js';
import { checkPolars, type PolarVariant } from '../polar/polar.js';
import { says } from '../wording.js';
import { ASSUMED, type Assumptions, LEAST_BAND, MID, SCENARIOS } from './assumptions.js';
import { bandOf } from './bands.js';
import { basisOf } from './basis.js';
import { modelOf } from './model.js';
import type { Estimate, EstimatedPolars, EstimateOptions } from './record.js';
import type { Resistance } from './resistance.js';
import { ESTIMATED_TWA_DEG, ESTIMATED_TWS_KN, estimatedUnder, type Under } from './underAssumptions.js';
import { windageAssumed } from './windage.js';

/**
 * Speeds of every sail plan of a boat without polars: at each wind and angle the speed at which the drive of her sails and windage is
 * the resistance of her hull. Sail forces are those of the ORC coefficients of 2023 on cloth area, added as the rating rule adds them,
 * flattened, twisted and eased so far that the heeling moment stays allowed; resistance is ITTC-57 friction and a wave term, fitted
 * to the speeds the boat file knows (`knownSpeeds`) or to one polar for the whole boat. docs/model.md has the equations.
 *
 * Steady, in flat water, with a clean hull: at sea a skipper's factor of 0.9 is taken. `low` and `high` add up what each assumption may
 * make; `variants` has them singly, so that two plans can be compared under the same assumption.
 *
 * @throws InputError where the boat or an option is none, her file lacks what speeds are estimated from, or a known speed is beyond what
 * her sails drive
 * @example
 * const { plans, basis } = estimatePolars(sample.kinds, { twsKn: [12, 16], twaDeg: [90, 150], bands: false });
 * polarSpeed(plans.vented)(16, 150) // 6.86…
 * basis[0] // 'Boat speeds are estimated from published sail force coeffici…'
 */
export function estimatePolars(boat: Boat, options: EstimateOptions = {}): EstimatedPolars {
  checkTypes(options, {
    file: 'string?',
    boatPolar: 'object?',
    hullOf: 'object?',
    bands: 'boolean?',
    twsKn: 'number[]?',
    twaDeg: 'number[]?',
  });
  const { file = 'boat', boatPolar } = options;
  mustBeGiven(boat, 'sailPlans', file, 'readBoat');
  if (boatPolar !== undefined) checkTypes(boatPolar, POLAR, 'options', 'boatPolar');
  const faults = faultList();
  const gustFactor = boat.house?.gustFactor ?? GUST_OVER_MEAN;
  const model = modelOf(boat, gustFactor, file, faults);
  if (boatPolar !== undefined) {
    checkPolars({ plans: { boatPolar }, status: 'measured' }, file, faults);
    if (boatPolar.twaReference === 'heading') {
      faults.add({ file, path: 'boatPolar', ...says.wrongValue('angles to the course', 'angles to the heading') });
    }
  }
  if (boat.boatPolar !== undefined && boatPolar === undefined && options.hullOf === undefined) {
    faults.add({ file, path: 'boatPolar', ...says.boatPolarToGive() });
  }
  const { twsKn = ESTIMATED_TWS_KN, twaDeg = ESTIMATED_TWA_DEG } = options;
  const grid = { twsKn, twaDeg, stwKn: twaDeg.flatMap(() => twsKn.map(() => 0)) };
  checkPolars({ plans: { grid }, status: 'estimated' }, 'options', faults);
  faults.throwIfAny();
  const { hullOf } = options;
  const estimated = (assumed: Assumptions, hull: Resistance | undefined, mid?: Under) =>
    estimatedUnder(assumed, model, boat.knownSpeeds ?? [], options, hull, mid);
  const mid = estimated(MID, hullOf?.resistance);
  for (const [i, known] of mid.impossible) {
    faults.add({ file, path: `knownSpeeds[${i}].stwKn`, ...says.knownSpeedTooFast(known) });
  }
  const { scale } = mid.hull;
  if (mid.fittedTo !== undefined && (scale < SCALES[0] || scale > SCALES[1])) {
    const path = boatPolar === undefined ? 'knownSpeeds' : 'boatPolar';
    faults.add({ file, path, ...says.resistanceOff(SCALES, scale) });
  }
  if (mid.fittedTo === undefined) faults.add({ file, path: 'boatPolar', ...says.boatPolarTooFast() });
  faults.throwIfAny();
  const scenarios = options.bands === false ? [] : SCENARIOS;
  const under = scenarios.map(({ assumed }, i) => estimated(assumed, hullOf?.variantResistances[i], mid));
  const variants = scenarios.map(({ assumption, instead }, i): PolarVariant => {
    const { plans } = under[i]!;
    const moved = Object.entries(plans).filter(([id, { stwKn }]) =>
      stwKn.some((speed, i) => Math.abs(speed - mid.plans[id]!.stwKn[i]!) > 1e-6),
    );
    return { assumption, instead, plans: Object.fromEntries(moved) };
  });
  const estimate: Estimate = {
    fittedTo: mid.fittedTo!,
    resistance: mid.hull,
    variantResistances: under.map(({ hull }) => hull),
    knownSpeeds: mid.knownSpeeds,
    ...(mid.misfit === undefined ? {} : { misfit: mid.misfit }),
    gustFactor,
    filledIn: { ...model.of.filledIn, ...windageAssumed(model.of), ...ASSUMED },
    pointsWithout: mid.pointsWithout,
  };
  const polars = { plans: mid.plans, ...bandOf(mid.plans, variants, scenarios.length > 0 ? LEAST_BAND : 0) };
  return {
    ...polars,
    status: 'estimated',
    variants,
    basis: basisOf(estimate, polars, boatPolar !== undefined, scenarios.length > 0),
    estimate,
  };
}

const POLAR = { twsKn: 'number[]', twaDeg: 'number[]', stwKn: 'number[]' } as const;

/** Beyond these the resistance of no hull is: a slip in the file. */
const SCALES = [0.2, 6] as const;
