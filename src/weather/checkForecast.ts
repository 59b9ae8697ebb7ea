import type { FaultList } from '../errors.js';
import { isGiven } from '../given.js';
import { says } from '../wording.js';
import type { Field, Forecast } from './forecast.js';

const PAIRS: readonly (readonly [Field, Field])[] = [
  ['windEastKn', 'windNorthKn'],
  ['currentEastKn', 'currentNorthKn'],
  ['waveFromEast', 'waveFromNorth'],
];

/** Adds a fault for several members, and for every grid made in memory whose axes do not rise or whose arrays do not fit. */
export function checkForecast(forecast: Forecast, faults: FaultList): void {
  if (!isGiven(forecast, 'grids', 'forecast', 'readForecast', faults)) return;
  const { file, grids } = forecast;
  const members = [...new Set(grids.flatMap(({ member }) => member ?? []))];
  if (members.length > 1) faults.add({ file, column: 'member', ...says.chooseMember(members) });
  grids.forEach((grid, g) => {
    const add = (path: string, expected: string, got: string) => {
      faults.add({ file, path: `grids[${g}].${path}`, ...says.wrongValue(expected, got) });
    };
    for (const axis of ['epochSeconds', 'lats', 'lons'] as const) {
      const values = grid[axis];
      const isRising = values.every((value, i) => Number.isFinite(value) && !(value <= values[i - 1]!));
      if (values.length === 0 || !isRising) add(axis, 'rising numbers', values.length === 0 ? 'none' : 'others');
    }
    const cells = grid.epochSeconds.length * grid.lats.length * grid.lons.length;
    for (const [field, values] of Object.entries(grid.fields)) {
      if (values.length !== cells) add(`fields.${field}`, `${cells} numbers`, `${values.length}`);
    }
    for (const [one, other] of PAIRS) {
      if ((grid.fields[one] === undefined) !== (grid.fields[other] === undefined)) {
        add('fields', `${one} and ${other} together`, 'one of them');
      }
    }
  });
}
