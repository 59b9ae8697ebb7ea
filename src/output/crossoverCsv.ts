import type { Cell, Crossover } from '../crossover/crossover.js';
import { amount, flag, offBow, text } from './format.js';

/** The columns in their order. */
const COLUMNS: readonly (readonly [name: string, cell: (cell: Cell) => string])[] = [
  ['tws_kn', (cell) => amount(cell.twsKn)],
  ['twa_deg', (cell) => offBow(cell.twaDeg)],
  ['sail_plan', (cell) => text(cell.sailPlan)],
  ['stw_kn', (cell) => amount(cell.stwKn)],
  ['runner_up', (cell) => text(cell.runnerUp)],
  ['margin_kn', (cell) => amount(cell.marginKn)],
  ['margin_percent', (cell) => amount(cell.marginPercent)],
  ['awa_deg', (cell) => offBow(cell.awaDeg)],
  ['aws_kn', (cell) => amount(cell.awsKn)],
  ['gust_aws_kn', (cell) => amount(cell.gustAwsKn)],
  ['undecided', (cell) => flag(cell.undecided)],
  ['hole', (cell) => flag(cell.hole !== null)],
  ['hole_kind', (cell) => text(cell.hole?.kind ?? null)],
  ['hole_stw_kn', (cell) => amount(cell.hole?.stwKn ?? null)],
  ['hole_slower_percent', (cell) => amount(cell.hole?.slowerPercent ?? null)],
];

/**
 * A crossover as CSV: one row a wind and angle. What does not apply is empty; true and false are 1 and 0.
 * @example
 * crossoverCsv(sample.crossover).split('\n')[0] // 'tws_kn,twa_deg,sail_plan,stw_kn,runner_u…'
 */
export function crossoverCsv({ cells }: Crossover): string {
  const rows = cells.map((cell) => COLUMNS.map(([, value]) => value(cell)).join(','));
  return `${[COLUMNS.map(([name]) => name).join(','), ...rows].join('\n')}\n`;
}
