import { asGiven } from '../describe/describe.js';
import { describeFaults, type InputError } from '../errors.js';
import type { FaultsOfFile } from './messages.js';

/** Faults by their files, as the command line tells them: at most so many of each, and a count of those that are left out. */
export function faultsByFile(error: InputError): readonly FaultsOfFile[] {
  const { faults, omitted } = asGiven(error);
  const files = [...new Set([...faults.map(({ file }) => file), ...Object.keys(omitted)])];
  return files.map((file) => {
    const told = describeFaults(
      faults.filter((fault) => fault.file === file),
      Object.hasOwn(omitted, file) ? { [file]: omitted[file]! } : {},
    );
    return { file, told: told.split('\n') };
  });
}
