import type { FaultList } from './errors.js';
import { says } from './wording.js';

/**
 * Whether what was given for a record has the field by which it is known. A caller without types may have left it out, or given the text
 * or the path of a file: that is a fault, and nothing more of it can be checked.
 */
export function isGiven(record: unknown, field: string, file: string, reader: string, faults: FaultList): boolean {
  const isKnown = typeof record === 'object' && record !== null && field in record;
  if (!isKnown) faults.add({ file, ...says.notRecord(reader, record) });
  return isKnown;
}
