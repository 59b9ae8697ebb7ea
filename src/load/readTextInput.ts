import { type FileKind, kindOfText } from '../describe/describe.js';
import type { FaultList } from '../errors.js';
import type { InputDigest } from '../output/output.js';
import { says } from '../wording.js';
import { attempt } from './attempt.js';
import { type FileStore, LARGEST_FILES_MIB } from './store.js';

/** Of others the looks say too little: any table may be a forecast. */
const SURE: readonly (FileKind | undefined)[] = ['route', 'boat', 'plan'];

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
    let record: Record;
    try {
      record = read(text, path);
    } catch (error) {
      const looks = kindOfText(text);
      if (looks !== role && SURE.includes(looks)) faults.add({ file: path, ...says.otherKind(role, looks!) });
      throw error;
    }
    digests.push({ role, file: store.baseName(path), sha256 });
    return record;
  });
}
