import * as v from 'valibot';
import type { FaultList } from '../errors.js';
import { says } from '../wording.js';
import type { Engine } from './boat.js';
import { engineSchema } from './schema.js';

/** Adds a fault for more fuel in reserve than there is aboard. */
export function checkEngine(json: unknown, file: string, faults: FaultList): void {
  const { fuelLitres, reserveLitres } = ((json as { engine?: Partial<Engine> | null } | null)?.engine ??
    {}) as Partial<Engine>;
  if (!v.is(engineSchema.entries.fuelLitres, fuelLitres)) return;
  if (v.is(engineSchema.entries.reserveLitres.wrapped, reserveLitres) && reserveLitres > fuelLitres) {
    faults.add({ file, path: 'engine.reserveLitres', ...says.reserveAboard(fuelLitres, reserveLitres) });
  }
}
