import type { FaultList } from '../errors.js';
import type { InputDigest } from '../output/output.js';
import { attempt } from './attempt.js';
import { type FileStore, LARGEST_FILES_MIB } from './store.js';

/**
 * A text file read into a record, its digest noted; undefined after a fault.
 * @internal
 */
export async function readTextInput<Record>(
  store: FileStore,
  role: 'route' | 'boat',
  path: string,
  read: (text: string, file: string) => Record,
  digests: InputDigest[],
  faults: FaultList,
): Promise<Record | undefined> {
  return attempt(store, path, faults, async () => {
    const { text, sha256 } = await store.readText(path, { largestMiB: LARGEST_FILES_MIB[role] });
    const record = read(text, path);
    digests.push({ role, file: store.baseName(path), sha256 });
    return record;
  });
}
