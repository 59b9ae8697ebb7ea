import { type FaultList, InputError } from '../errors.js';
import { says } from '../wording.js';
import type { FileStore } from './store.js';

/**
 * Runs a reader; what is wrong with its input or file is added to the faults, and undefined comes back.
 * @internal
 */
export async function attempt<Result>(
  store: Pick<FileStore, 'problemOf'>,
  name: string,
  faults: FaultList,
  action: () => Promise<Result>,
): Promise<Result | undefined> {
  try {
    return await action();
  } catch (error) {
    const problem = store.problemOf(error);
    if (error instanceof InputError) faults.take(error);
    else if (problem !== undefined) faults.add({ file: name, ...says.unreadable(problem) });
    else throw error;
    return undefined;
  }
}
