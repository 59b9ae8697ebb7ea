import { faultList } from '../errors.js';
import { checkTypes } from '../given.js';
import { parseJson } from '../json/json.js';
import type { Boat, BoatFile } from './boat.js';
import { completeBoat } from './completeBoat.js';

/** How to read a boat. */
export interface ReadBoatOptions {
  /** Name of the file in faults. Default `boat.json`. */
  readonly file?: string;
}

/**
 * Reads a boat from JSON: hull, rig, wardrobe, sail plans and house rules; what it leaves out of sails and sail plans follows from
 * the kinds and the rig (`completeBoat`). Unknown keys are faults.
 * @throws InputError with every fault of the file, or where the text or an option is none
 * @example
 * readBoat(sample.boatJson).sailPlans.length // 16
 * readBoat('{ "name": "Invented", "sails": [] }') // throws boat.json, hull: expected a value, got nothing…
 */
export function readBoat(text: string, options: ReadBoatOptions = {}): Boat {
  checkTypes(options, { file: 'string?' });
  const file = options.file ?? 'boat.json';
  const faults = faultList();
  const json = parseJson(text, file, faults);
  faults.throwIfAny();
  return completeBoat(json as BoatFile, file);
}
