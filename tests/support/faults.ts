import { describeFault, InputError } from '../../src/index.js';

/** Faults as they are printed; none where nothing is wrong. */
export function faultsOf(action: () => unknown): string[] {
  try {
    action();
    return [];
  } catch (error) {
    if (error instanceof InputError) return error.faults.map(describeFault);
    throw error;
  }
}
