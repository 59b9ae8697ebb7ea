import { basename } from 'node:path';
import type { FaultList } from '../errors.js';
import type { InputDigest } from '../output/output.js';
import { attempt } from './attempt.js';
import { readTextFile } from './files.js';

/**
 * A text file read into a record, its digest noted; undefined after a fault.
 * @internal
 */
export async function readTextInput<Record>(
  role: InputDigest['role'],
  path: string,
  read: (text: string, file: string) => Record,
  digests: InputDigest[],
  faults: FaultList,
): Promise<Record | undefined> {
  return attempt(path, faults, async () => {
    const { text, sha256 } = await readTextFile(path);
    const record = read(text, path);
    digests.push({ role, file: basename(path), sha256 });
    return record;
  });
}
