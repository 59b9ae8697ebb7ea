import type { FaultList } from '../errors.js';
import { says } from '../wording.js';

/** What the numbers of a polar file may be. */
const RANGES = { tws_kn: [0, 120], twa_deg: [0, 180], stw_kn: [0, 60], wind_height_m: [1, 60] } as const;

/** A cell's number; undefined after a fault. `column` is what the cell is called there. */
export function readCell(
  cell: string,
  what: keyof typeof RANGES,
  column: string,
  file: string,
  line: number,
  faults: FaultList,
): number | undefined {
  const [min, max] = RANGES[what];
  const value = cell === '' ? Number.NaN : Number(cell);
  // Adding 0 turns −0 into 0.
  if (value >= min && value <= max) return value + 0;
  faults.add({ file, line, column, ...says.number(min, max, cell) });
  return undefined;
}
