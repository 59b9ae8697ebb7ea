import { type Boat, settingOf } from '../boat/boat.js';
import { GUST_OVER_MEAN } from '../catalogue/catalogue.js';
import { withoutUnseen } from '../errors.js';
import type { Polar, PolarSet } from '../polar/polar.js';
import type { Window } from '../sail/sail.js';
import { breachIn } from '../speed/speed.js';
import { textTable } from './textTable.js';

/** Winds and angles that are printed, the nearest of those there are. */
const TWS_KN = [6, 8, 10, 12, 16, 20, 25, 30, 36];
const TWA_DEG = [40, 50, 60, 75, 90, 105, 120, 135, 150, 165, 180];

/** Speeds of plans through the water as tables, TWA down and TWS across; of estimates with their band. */
export function speedsText(boat: Boat, polars: PolarSet, ids: readonly string[]): string {
  const { basis = [], status, low, high } = polars;
  const gustFactor = boat.house?.gustFactor ?? GUST_OVER_MEAN;
  const tables = ids.flatMap((id) => {
    const polar = polars.plans[id];
    return polar === undefined
      ? [`${id}: no polar`, '']
      : [id, tableOf(polar, windowsOf(boat, id), gustFactor, low?.[id], high?.[id]), ''];
  });
  return [
    withoutUnseen(
      `${boat.name}: speed through the water, knots, ${status}; TWA down, TWS across${low === undefined ? '' : '; in brackets low to high'}; * outside the windows of its sails in a gust of ${gustFactor} times the mean`,
      ' ',
    ),
    ...basis.map((line) => withoutUnseen(line, ' ')),
    '',
    ...tables,
  ].join('\n');
}

const windowsOf = (boat: Boat, id: string): readonly Window[] =>
  boat.sailPlans.find((plan) => plan.id === id)!.sails.map((text) => settingOf(boat, text)!.window);

function tableOf(
  { twsKn, twaDeg, stwKn }: Polar,
  windows: readonly Window[],
  gustFactor: number,
  low?: Polar,
  high?: Polar,
): string {
  const columns = [...new Set(TWS_KN.map((wind) => nearest(twsKn, wind)))];
  const rows = [...new Set(TWA_DEG.map((angle) => nearest(twaDeg, angle)))];
  const cell = (i: number, j: number) => {
    const at = i * twsKn.length + j;
    const band =
      low === undefined || high === undefined ? '' : ` (${low.stwKn[at]!.toFixed(1)}-${high.stwKn[at]!.toFixed(1)})`;
    const star = breachIn(windows, twsKn[j]!, twaDeg[i]!, stwKn[at]!, gustFactor) !== undefined ? '*' : '';
    return `${stwKn[at]!.toFixed(1)}${star}${band}`;
  };
  return textTable([
    ['', ...columns.map((j) => shown(twsKn[j]!))],
    ...rows.map((i) => [shown(twaDeg[i]!), ...columns.map((j) => cell(i, j))]),
  ]);
}

const shown = (value: number) => `${Number(value.toFixed(1))}`;

const nearest = (values: readonly number[], wanted: number): number =>
  values.reduce((best, value, i) => (Math.abs(value - wanted) < Math.abs(values[best]! - wanted) ? i : best), 0);
