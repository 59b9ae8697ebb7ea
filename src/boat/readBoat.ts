import * as v from 'valibot';
import { type FaultList, faultList } from '../errors.js';
import { parseJson } from '../json/json.js';
import { says } from '../wording.js';
import type { Boat, House, Sail, SailPlan } from './boat.js';
import { checkPlans, checkSails, type SailRead } from './checkWardrobe.js';
import { boatSchema, houseSchema, idSchema, sailPlanSchema, sailSchema } from './schema.js';
import { addSchemaFaults } from './schemaFaults.js';

const MOST_COMPARED = 1000;

/** How to read a boat. */
export interface ReadBoatOptions {
  /** Name of the file in faults. Default `boat.json`. */
  readonly file?: string;
}

/**
 * Reads a boat from JSON: hull, wardrobe, sail plans and house rules. Unknown keys are faults.
 * @throws InputError with every fault of the file
 */
export function readBoat(text: string, options: ReadBoatOptions = {}): Boat {
  const file = options.file ?? 'boat.json';
  const faults = faultList();
  const json = parseJson(text, file, faults);
  faults.throwIfAny();
  checkBoat(json, file, faults);
  faults.throwIfAny();
  return json as Boat;
}

/** Adds a fault for everything that keeps a boat, read or made in memory, from being one. */
export function checkBoat(json: unknown, file: string, faults: FaultList): void {
  addSchemaFaults(boatSchema, json, file, faults);
  // What can be read is checked further, so that one bad value does not hide a bad reference.
  const sails = itemsOf(json, 'sails').map(sailRead);
  const plans = itemsOf(json, 'sailPlans').map((plan) => (v.is(sailPlanSchema, plan) ? (plan as SailPlan) : undefined));
  checkHull(json, file, faults);
  checkSails(sails, file, faults);
  checkPlans(plans, sails, file, faults);
}

/** Adds a fault for every house rule that is none, as the boat file would have it. */
export function checkHouse(house: House, file: string, faults: FaultList): void {
  addSchemaFaults(houseSchema, house, file, faults);
}

function itemsOf(json: unknown, key: 'sails' | 'sailPlans'): readonly unknown[] {
  const items = typeof json === 'object' && json !== null ? (json as Record<string, unknown>)[key] : undefined;
  // A list far beyond what the schema allows is told by the schema; comparing its items would take for ever.
  return Array.isArray(items) && items.length <= MOST_COMPARED ? items : [];
}

function sailRead(item: unknown): SailRead {
  const id = typeof item === 'object' && item !== null && 'id' in item ? item.id : undefined;
  return { id: v.is(idSchema, id) ? id : undefined, sail: v.is(sailSchema, item) ? (item as Sail) : undefined };
}

function checkHull(json: unknown, file: string, faults: FaultList): void {
  if (!v.is(boatSchema.entries.hull, (json as { hull?: unknown } | null)?.hull)) return;
  const { type, hullCentresM } = (json as Boat).hull;
  if (type === 'monohull' && hullCentresM !== undefined) {
    faults.add({ file, path: 'hull.hullCentresM', ...says.onlyFor('a catamaran', type) });
  }
}
