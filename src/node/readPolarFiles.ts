import { resolve } from 'node:path';
import { type Boat, polarFilesOf } from '../boat/boat.js';
import type { FaultList } from '../errors.js';
import { type PolarSet, readPolars } from '../polar/polar.js';
import { attempt } from './attempt.js';
import { readTextFile } from './files.js';

/**
 * A polar file as a boat file names it, read.
 * @internal
 */
export interface PolarFile {
  readonly file: string;
  readonly sha256: string;
  readonly polars: PolarSet;
}

/**
 * Reads the polar files of a boat, or of what could be read of a faulty one; those that are bad are left out.
 * @internal
 */
export async function readPolarFiles(
  boat: Boat | Pick<Boat, 'polars'>,
  folder: string,
  faults: FaultList,
): Promise<readonly PolarFile[]> {
  const read: PolarFile[] = [];
  for (const { file, sailPlan } of polarFilesOf(boat)) {
    const polarFile = await attempt(file, faults, async () => {
      const { text, sha256 } = await readTextFile(resolve(folder, file));
      return { file, sha256, polars: readPolars(text, { file, ...optionsOf(boat, sailPlan) }) };
    });
    if (polarFile !== undefined) read.push(polarFile);
  }
  return read;
}

function optionsOf(boat: Boat | Pick<Boat, 'polars'>, sailPlan: string | undefined) {
  // Of a faulty boat the plans are not known: any will do, for what is read is not used.
  if (!('sailPlans' in boat)) return { sailPlan: sailPlan ?? 'unknown' };
  // A file for one plan may hold that plan only.
  return sailPlan === undefined ? { boat } : { boat: { ...boat, sailPlans: [{ id: sailPlan }] }, sailPlan };
}
