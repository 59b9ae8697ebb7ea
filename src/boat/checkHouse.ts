import * as v from 'valibot';
import type { FaultList } from '../errors.js';
import { addSchemaFaults, keyPath } from '../json/json.js';
import { says } from '../wording.js';
import type { House } from './boat.js';
import { houseSchema } from './schema.js';

/**
 * Adds a fault for every house rule that is none, as the boat file would have it, and for sails that are not aboard where it is
 * known which are.
 */
export function checkHouse(house: House, file: string, faults: FaultList, sailIds?: readonly string[]): void {
  addSchemaFaults(v.strictObject({ house: houseSchema }), { house }, file, faults);
  if (sailIds !== undefined) checkWaveSails(house, sailIds, 'house', file, faults);
}

const { waveMaxM: WAVES } = houseSchema.entries;

/** Adds a fault for every limit by waves of a sail that is not aboard. */
export function checkWaveSails(
  house: unknown,
  sailIds: readonly string[],
  path: string,
  file: string,
  faults: FaultList,
): void {
  const waves = wavesOf(house);
  if (waves === undefined || Array.isArray(waves)) return;
  for (const id of Object.keys(waves)) {
    if (!sailIds.includes(id)) {
      faults.add({ file, path: keyPath(keyPath(path, 'waveMaxM'), id), ...says.sailAboard(sailIds, id) });
    }
  }
}

/** The limits by waves as far as the schema takes them for such. */
function wavesOf(house: unknown): object | undefined {
  const { waveMaxM } = (house ?? {}) as { waveMaxM?: unknown };
  return v.is(WAVES.wrapped, waveMaxM) ? waveMaxM : undefined;
}
