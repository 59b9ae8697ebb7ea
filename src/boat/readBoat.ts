import { parse as parseJsonTree, type ValueNode } from '@humanwhocodes/momoa';
import * as v from 'valibot';
import { type FaultList, faultList, quoted } from '../errors.js';
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
  const json = parseJson(text.replace(/^\uFEFF/, ''), file, faults);
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

function parseJson(text: string, file: string, faults: FaultList): unknown {
  try {
    const json: unknown = JSON.parse(text);
    checkRepeatedKeys(parseJsonTree(text, { mode: 'json' }).body, file, faults);
    return json;
  } catch (error) {
    faults.add({ file, ...jsonFlaw(error, text) });
    return undefined;
  }
}

function jsonFlaw(error: unknown, text: string) {
  if (text.trim() === '') return says.json('nothing');
  // What overflows the stack is not wrong as JSON, but no boat.
  if (error instanceof RangeError) return says.json('one nested too deeply');
  const offset = offsetOf(error, text);
  const rest = text.slice(offset).split('\n')[0]!.trim();
  return { line: lineAt(text, offset), ...says.json(rest === '' ? 'its end too early' : `a fault at ${quoted(rest)}`) };
}

/** Adds a fault for every key that an object has twice: a JSON parser keeps the last one and says nothing. */
function checkRepeatedKeys(node: ValueNode, file: string, faults: FaultList): void {
  if (node.type === 'Array') for (const { value } of node.elements) checkRepeatedKeys(value, file, faults);
  if (node.type !== 'Object') return;
  const met = new Set<string>();
  for (const { name, value } of node.members) {
    const key = name.type === 'String' ? name.value : name.name;
    if (met.has(key)) faults.add({ file, line: name.loc.start.line, path: key, ...says.repeatedKey() });
    met.add(key);
    checkRepeatedKeys(value, file, faults);
  }
}

function lineAt(text: string, offset: number): number {
  return text.slice(0, offset).split('\n').length;
}

/** Where a JSON text breaks: as the engine tells, which not all do and not always, else as a parser with places finds it. */
function offsetOf(error: unknown, text: string): number {
  const told = /position (\d+)/.exec(error instanceof Error ? error.message : '')?.[1];
  if (told !== undefined) return Number(told);
  try {
    parseJsonTree(text, { mode: 'json' });
  } catch (found) {
    if (found instanceof Error && 'offset' in found) return Number(found.offset);
  }
  return text.length;
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
