import type { FaultList } from '../errors.js';
import { says } from '../wording.js';
import { type ColumnChoice, type ColumnChoices, type ColumnRole, isSameName } from './columnChoices.js';

/** Adds a fault for each column that is chosen and stands in no file: beside other faults it may be why. */
export function checkChosen(file: string, names: readonly string[], choices: ColumnChoices, faults: FaultList): void {
  const known = [...new Set(names)];
  for (const [role, { name }] of Object.entries(choices) as [ColumnRole, ColumnChoice][]) {
    if (known.some((other) => isSameName(other, name))) continue;
    faults.add({ file, column: name, ...says.chosenColumn(role, known) });
  }
}
