import { faultList } from '../errors.js';
import { addSchemaFaults, parseJson } from '../json/json.js';
import { says } from '../wording.js';
import { type PlanFile, planSchema } from './planSchema.js';

const FORMAT_VERSION = 1;

/**
 * Reads a plan that `planJson` wrote.
 * @throws InputError with every fault of the file; a file of a newer format version is refused for that alone
 * @example
 * readPlan(planJson(sample.plan)) // { complete: true, end: '2027-01-28T17:48:51Z', … }
 * readPlan('{ "formatVersion": 2 }')
 * // throws plan.json, formatVersion: expected a format version up to 1, got 2: written by a newer windwardrobe
 */
export function readPlan(text: string, file = 'plan.json'): PlanFile {
  const faults = faultList();
  const json = parseJson(text, file, faults);
  faults.throwIfAny();
  const version = typeof json === 'object' && json !== null && 'formatVersion' in json ? json.formatVersion : undefined;
  if (typeof version === 'number' && version > FORMAT_VERSION) {
    faults.add({ file, path: 'formatVersion', ...says.newerFormat(FORMAT_VERSION, version) });
  } else addSchemaFaults(planSchema, json, file, faults);
  faults.throwIfAny();
  return json as PlanFile;
}
