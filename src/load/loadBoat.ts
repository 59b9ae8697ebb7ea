import { type Boat, readBoat } from '../boat/boat.js';
import { type FaultList, faultList } from '../errors.js';
import { estimatePolars } from '../estimate/estimate.js';
import type { InputDigest } from '../output/output.js';
import type { PolarSet } from '../polar/polar.js';
import { attempt } from './attempt.js';
import { readBoatPolar, readPolarFiles } from './readPolarFiles.js';
import { readTextInput } from './readTextInput.js';
import { type FileStore, LARGEST_FILES_MIB } from './store.js';

/** A boat with the speeds of her plans, as read from files, with their digests. */
export interface LoadedBoat {
  readonly boat: Boat;
  readonly polars: PolarSet;
  readonly digests: readonly InputDigest[];
}

/**
 * Reads a boat and the polars her file names; where it names none, speeds are estimated.
 * @throws InputError with every fault of every file
 */
export async function loadBoat(store: FileStore, path: string): Promise<LoadedBoat> {
  const faults = faultList();
  const digests: InputDigest[] = [];
  const { boat, polars } = await loadBoatInto(store, path, digests, faults);
  faults.throwIfAny();
  if (boat === undefined || polars === undefined) throw new Error('an input is missing without a fault');
  return { boat, polars, digests };
}

/**
 * The same among other files; what could not be read is undefined, and has its fault.
 * @internal
 */
export async function loadBoatInto(
  store: FileStore,
  path: string,
  digests: InputDigest[],
  faults: FaultList,
): Promise<{ readonly boat: Boat | undefined; readonly polars: PolarSet | undefined }> {
  const boat = await readTextInput(store, 'boat', path, (text, file) => readBoat(text, { file }), digests, faults);
  return { boat, polars: await loadPolars(store, path, boat, digests, faults) };
}

async function loadPolars(
  store: FileStore,
  boatPath: string,
  boat: Boat | undefined,
  digests: InputDigest[],
  faults: FaultList,
) {
  if (boat !== undefined && boat.polars === undefined) return estimatedFor(store, boat, boatPath, digests, faults);
  const polars = boat === undefined ? await polarsNamedBy(store, boatPath) : boat.polars;
  if (polars === undefined) return undefined;
  const before = faults.count;
  const read = await readPolarFiles(store, boat ?? { polars }, boatPath, faults);
  if (faults.count > before) return undefined;
  for (const { file, sha256 } of read) digests.push({ role: 'polars', file: store.baseName(file), sha256 });
  const sets = read.map((one) => one.polars);
  return { plans: Object.assign({}, ...sets.map(({ plans }) => plans)), status: sets[0]?.status ?? 'measured' };
}

/** The speeds of a boat without polars of her plans, estimated; split from her one polar where the boat file names such. */
async function estimatedFor(store: FileStore, boat: Boat, boatPath: string, digests: InputDigest[], faults: FaultList) {
  return attempt(store, boatPath, faults, async () => {
    const { boatPolar } = boat;
    const read =
      boatPolar === undefined
        ? undefined
        : await attempt(store, boatPolar, faults, () => readBoatPolar(store, boat, boatPolar, boatPath));
    if (boatPolar !== undefined && read === undefined) return undefined;
    if (read !== undefined) digests.push({ role: 'polars', file: store.baseName(read.file), sha256: read.sha256 });
    return estimatePolars(boat, { file: boatPath, ...(read === undefined ? {} : { boatPolar: read.polar }) });
  });
}

/** The polar files a boat file names even where it is faulty otherwise, so that its polars are checked too. */
async function polarsNamedBy(store: FileStore, boatPath: string): Promise<Boat['polars'] | undefined> {
  try {
    const { polars } = JSON.parse(
      (await store.readText(boatPath, { largestMiB: LARGEST_FILES_MIB.boat })).text.replace(/^\uFEFF/, ''),
    ) as { polars?: unknown };
    if (typeof polars === 'string') return polars === '' ? undefined : polars;
    if (typeof polars !== 'object' || polars === null || Array.isArray(polars)) return undefined;
    return Object.fromEntries(Object.entries(polars).filter(([, file]) => typeof file === 'string' && file !== ''));
  } catch {
    return undefined;
  }
}
