import { says } from '../wording.js';
import { readQuantity } from './cells.js';
import type { ForecastColumns } from './columns.js';
import { placesOf, readInstant } from './places.js';
import type { Quantity } from './quantities.js';
import type { NumberColumn } from './quantityColumns.js';
import { type RowStore, rowStore } from './rowStore.js';
import type { ForecastTable, RowGroup, TableOptions } from './table.js';

/** The layouts with a header: a row is a grid point and time, and a column a quantity. */
export function plainTable(columns: ForecastColumns, { file, faults, box, member }: TableOptions): ForecastTable {
  const read = Object.entries(columns.quantities) as [Quantity, NumberColumn][];
  const quantities = read.map(([quantity]) => quantity);
  const places = placesOf(columns, box, file, faults);
  const groups = new Map<string, RowGroup & { readonly store: RowStore }>();
  const members = new Set<string>();
  const values = new Float64Array(read.length);
  let group: (RowGroup & { readonly store: RowStore }) | undefined;
  let [lastRun, lastMember, firstLevel]: (string | undefined)[] = [];

  const groupOf = (runCell: string | undefined, memberCell: string | undefined, line: number) => {
    const run =
      runCell === undefined || columns.run === undefined
        ? undefined
        : readInstant(runCell, columns.timeIsUtc, columns.run.name, file, line, faults);
    if (memberCell !== undefined) members.add(memberCell);
    const key = `${run} ${memberCell}`;
    const known = groups.get(key);
    if (known !== undefined) return known;
    const store = rowStore(quantities);
    const made = { runEpochSeconds: run, member: memberCell, stores: [store], store };
    groups.set(key, made);
    return made;
  };

  return {
    places,
    members,
    names: Object.fromEntries(read.map(([quantity, { name }]) => [quantity, name])),
    hasWind: () => quantities.includes('u10') || quantities.includes('wind_speed'),
    get level() {
      return columns.level === undefined || firstLevel === undefined
        ? undefined
        : { name: columns.level.name, value: firstLevel };
    },
    unused: () => columns.unused,
    groups: () =>
      [...groups.values()].filter(
        (made) => member === undefined || made.member === undefined || made.member === member,
      ),
    take(cells, line) {
      if (cells.length !== columns.cellCount) {
        faults.add({ file, line, ...says.cellCount(columns.cellCount, cells.length) });
        return;
      }
      const isKept = places.find(
        cells[columns.time.index]!,
        cells[columns.lat.index]!,
        cells[columns.lon.index]!,
        line,
      );
      for (let q = 0; q < read.length; q += 1) {
        const column = read[q]![1];
        values[q] = readQuantity(cells[column.index]!, column, file, line, faults);
      }
      const runCell = columns.run === undefined ? undefined : cells[columns.run.index]!;
      const memberCell = columns.member === undefined ? undefined : cells[columns.member]!.trim();
      if (group === undefined || runCell !== lastRun || memberCell !== lastMember) {
        group = groupOf(runCell, memberCell, line);
        [lastRun, lastMember] = [runCell, memberCell];
      }
      if (columns.level !== undefined) {
        const level = cells[columns.level.index]!.trim();
        firstLevel ??= level;
        if (level !== firstLevel) {
          faults.add({ file, line, column: columns.level.name, ...says.oneLevel(firstLevel, level) });
          return;
        }
      }
      if (isKept && (member === undefined || memberCell === undefined || memberCell === member)) {
        group.store.add(places.time, places.lat, places.lon, values, line);
      }
    },
  };
}
