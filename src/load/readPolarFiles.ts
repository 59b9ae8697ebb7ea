import { type Boat, polarFilesOf } from '../boat/boat.js';
import { type FaultList, InputError } from '../errors.js';
import { type Polar, type PolarSet, readPolars } from '../polar/polar.js';
import { says } from '../wording.js';
import { attempt } from './attempt.js';
import { type FileStore, LARGEST_FILES_MIB } from './store.js';

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
  store: FileStore,
  boat: Boat | Pick<Boat, 'polars'>,
  boatPath: string,
  faults: FaultList,
): Promise<readonly PolarFile[]> {
  const read: PolarFile[] = [];
  for (const { file, sailPlan } of polarFilesOf(boat)) {
    const polarFile = await attempt(store, file, faults, async () => {
      const { text, sha256 } = await store.readText(store.besides(boatPath, file), {
        name: file,
        largestMiB: LARGEST_FILES_MIB.polars,
      });
      return { file, sha256, polars: readPolars(text, { file, ...optionsOf(boat, sailPlan) }) };
    });
    if (polarFile !== undefined) read.push(polarFile);
  }
  return read;
}

/**
 * The one polar of a whole boat: a wide table, or a tidy one of a single plan, whatever it is called there.
 * @throws InputError where the file holds several or is bad
 * @internal
 */
export async function readBoatPolar(
  store: FileStore,
  { polarWindHeightM, polarTwaReference }: Boat,
  file: string,
  boatPath: string,
): Promise<{ readonly file: string; readonly sha256: string; readonly polar: Polar }> {
  const { text, sha256 } = await store.readText(store.besides(boatPath, file), {
    name: file,
    largestMiB: LARGEST_FILES_MIB.polars,
  });
  const read = readPolars(text, { file, sailPlan: 'boat' });
  const [polar, ...more] = Object.values(read.plans);
  if (more.length > 0) throw new InputError([{ file, ...says.onePolar(Object.keys(read.plans)) }]);
  return {
    file,
    sha256,
    polar: {
      ...(polarWindHeightM === undefined ? {} : { windHeightM: polarWindHeightM }),
      ...(polarTwaReference === undefined ? {} : { twaReference: polarTwaReference }),
      ...polar!,
    },
  };
}

function optionsOf(boat: Boat | Pick<Boat, 'polars'>, sailPlan: string | undefined) {
  // Of a faulty boat the plans are not known: any will do, for what is read is not used.
  if (!('sailPlans' in boat)) return { sailPlan: sailPlan ?? 'unknown' };
  // A file for one plan may hold that plan only.
  return sailPlan === undefined ? { boat } : { boat: { ...boat, sailPlans: [{ id: sailPlan }] }, sailPlan };
}
