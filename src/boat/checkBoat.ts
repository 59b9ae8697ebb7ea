import * as v from 'valibot';
import type { FaultList } from '../errors.js';
import { addSchemaFaults } from '../json/json.js';
import { says } from '../wording.js';
import type { Boat, BoatFile, SailGiven, SailPlan } from './boat.js';
import { checkEngine } from './checkEngine.js';
import { checkWaveSails } from './checkHouse.js';
import { checkPlans, checkSails, type SailRead } from './checkWardrobe.js';
import { checkWatches } from './checkWatches.js';
import { boatSchema, idSchema, sailPlanSchema, sailSchema } from './schema.js';

const MOST_COMPARED = 1000;
/** Steeper, leeway and apparent wind would chase each other; no boat is like that. */
const STEEPEST_LEEWAY = 0.5;

/** Adds a fault for everything that keeps a boat, read or made in memory, from being one. */
export function checkBoat(json: unknown, file: string, faults: FaultList): void {
  addSchemaFaults(boatSchema, json, file, faults);
  // What can be read is checked further, so that one bad value does not hide a bad reference.
  const sails = itemsOf(json, 'sails').map(sailRead);
  const plans = itemsOf(json, 'sailPlans').map((plan) => (v.is(sailPlanSchema, plan) ? (plan as SailPlan) : undefined));
  checkWatches(json, file, faults);
  checkEngine(json, file, faults);
  checkHull(json, file, faults);
  checkLeeway(json, file, faults);
  checkPolarFiles(json, plans, file, faults);
  checkKnownSpeeds(json, plans, file, faults);
  checkSails(sails, file, faults);
  checkPlans(plans, sails, file, faults);
  checkHouseRules(json, sails, file, faults);
}

/** Adds a fault for everything that keeps a boat made in memory from being sailed. */
export function checkCompleteBoat(boat: Boat, file: string, faults: FaultList): void {
  const before = faults.count;
  checkBoat(boat, file, faults);
  if (faults.count > before) return;
  boat.sails.forEach(({ window, reefs = [], operations = {} }: SailGiven, i) => {
    for (const key of ['awaMinDeg', 'awaMaxDeg'] as const) {
      if (window?.[key] === undefined) faults.add({ file, path: `sails[${i}].window.${key}`, ...says.notComplete() });
    }
    reefs.forEach(({ areaShare }, r) => {
      if (areaShare === undefined)
        faults.add({ file, path: `sails[${i}].reefs[${r}].areaShare`, ...says.notComplete() });
    });
    for (const [name, operation] of Object.entries(operations)) {
      for (const when of ['day', 'night'] as const) {
        for (const key of ['minutes', 'hands', 'keptShare'] as const) {
          const path = `sails[${i}].operations.${name}.${when}.${key}`;
          if (operation[when]?.[key] === undefined) faults.add({ file, path, ...says.notComplete() });
        }
      }
    }
  });
  if (boat.sailPlans === undefined) faults.add({ file, path: 'sailPlans', ...says.notComplete() });
}

function itemsOf(json: unknown, key: 'sails' | 'sailPlans'): readonly unknown[] {
  const items = typeof json === 'object' && json !== null ? (json as Record<string, unknown>)[key] : undefined;
  // A list far beyond what the schema allows is told by the schema; comparing its items would take for ever.
  return Array.isArray(items) && items.length <= MOST_COMPARED ? items : [];
}

function sailRead(item: unknown): SailRead {
  const id = typeof item === 'object' && item !== null && 'id' in item ? item.id : undefined;
  return { id: v.is(idSchema, id) ? id : undefined, sail: v.is(sailSchema, item) ? (item as SailGiven) : undefined };
}

function checkLeeway(json: unknown, file: string, faults: FaultList): void {
  const { leeway } = (json ?? {}) as { leeway?: unknown };
  if (!v.is(boatSchema.entries.leeway.wrapped, leeway)) return;
  leeway.forEach(([awaDeg, leewayDeg], i) => {
    const before = leeway[i - 1];
    if (before === undefined) return;
    const path = `leeway[${i}]`;
    if (awaDeg <= before[0]) faults.add({ file, path, ...says.risingAngles() });
    // A slope of just so much is not to be lost to rounding.
    else if (Math.abs(leewayDeg - before[1]) > STEEPEST_LEEWAY * (awaDeg - before[0]) + 1e-9) {
      faults.add({ file, path, ...says.gentleSlope(STEEPEST_LEEWAY) });
    }
  });
}

function checkPolarFiles(
  json: unknown,
  plans: readonly (SailPlan | undefined)[],
  file: string,
  faults: FaultList,
): void {
  const { polars } = (json ?? {}) as { polars?: unknown };
  if (typeof polars !== 'object' || polars === null) return;
  const paths: unknown[] = Object.values(polars);
  if (Array.isArray(polars) || paths.length === 0) {
    // The schema library takes a list for such an object.
    const schema = boatSchema.entries.polars.wrapped;
    const got = Array.isArray(polars) ? `a list of ${polars.length}` : 'an object';
    if (v.is(schema, polars)) faults.add({ file, path: 'polars', ...says.wrongValue(schema.message, got) });
    return;
  }
  // Plans that follow from the sails are not known yet.
  if ((json as { sailPlans?: unknown }).sailPlans === undefined) return;
  checkPolarPlans(
    polars as BoatFile['polars'],
    plans.flatMap((plan) => plan ?? []),
    file,
    faults,
  );
}

function checkKnownSpeeds(
  json: unknown,
  plans: readonly (SailPlan | undefined)[],
  file: string,
  faults: FaultList,
): void {
  const { polars, boatPolar, knownSpeeds, sailPlans } = (json ?? {}) as Record<string, unknown>;
  if (polars !== undefined && boatPolar !== undefined) {
    faults.add({ file, path: 'boatPolar', ...says.polarsAndBoatPolar() });
  }
  // Plans that follow from the sails are not known yet.
  if (sailPlans === undefined || !v.is(boatSchema.entries.knownSpeeds.wrapped, knownSpeeds)) return;
  checkKnownPlans(
    knownSpeeds,
    plans.flatMap((plan) => plan ?? []),
    file,
    faults,
  );
}

/** Adds a fault for every known speed of a plan the boat does not have. */
export function checkKnownPlans(
  knownSpeeds: BoatFile['knownSpeeds'],
  plans: readonly Pick<SailPlan, 'id'>[],
  file: string,
  faults: FaultList,
): void {
  const ids = plans.map(({ id }) => id);
  knownSpeeds?.forEach(({ sailPlan }, i) => {
    if (sailPlan !== undefined && !ids.includes(sailPlan)) {
      faults.add({ file, path: `knownSpeeds[${i}].sailPlan`, ...says.planOfBoat(ids, sailPlan) });
    }
  });
}

/** Adds a fault for every polar file of a plan the boat does not have. */
export function checkPolarPlans(
  polars: BoatFile['polars'],
  plans: readonly Pick<SailPlan, 'id'>[],
  file: string,
  faults: FaultList,
): void {
  if (polars === undefined || typeof polars === 'string') return;
  const ids = plans.map(({ id }) => id);
  for (const id of Object.keys(polars)) {
    if (!ids.includes(id)) faults.add({ file, path: `polars.${id}`, ...says.planOfBoat(ids, id) });
  }
}

function checkHouseRules(json: unknown, sails: readonly SailRead[], file: string, faults: FaultList): void {
  const { house, sailPlans } = (json ?? {}) as { house?: unknown; sailPlans?: unknown };
  const ids = sails.flatMap(({ id }) => id ?? []);
  // Settings that follow from the sails are not known yet where the plans follow; and an id that cannot be read may be the one meant.
  if (sailPlans !== undefined && ids.length > 0 && ids.length === sails.length)
    checkWaveSails(house, ids, 'house', file, faults);
}

function checkHull(json: unknown, file: string, faults: FaultList): void {
  if (!v.is(boatSchema.entries.hull, (json as { hull?: unknown } | null)?.hull)) return;
  const { type, hullCentresM } = (json as BoatFile).hull;
  if (type === 'monohull' && hullCentresM !== undefined) {
    faults.add({ file, path: 'hull.hullCentresM', ...says.onlyFor('a catamaran', type) });
  }
}
