import type { FaultList } from '../errors.js';
import type { CropBox } from '../route/route.js';
import { says } from '../wording.js';
import { CLIMATE_ALIASES, CLIMATE_QUANTITIES, LAT_NAMES, LON_NAMES, MONTH_NAMES, TIME_NAMES } from './aliases.js';
import { readQuantity } from './cells.js';
import type { ColumnChoices } from './columnChoices.js';
import { addOddUnits, columnFinder } from './columns.js';
import type { Head } from './head.js';
import { type Lines, type Places, placesOf } from './places.js';
import type { Quantity } from './quantities.js';
import { type NumberColumn, quantitiesOf } from './quantityColumns.js';
import type { RowTable } from './readRows.js';
import { type RowStore, rowStore } from './rowStore.js';

/** The rows of a climatology: months and points with mean vector and mean speed. */
export interface ClimateTable extends RowTable {
  readonly places: Places;
  readonly store: RowStore;
  readonly unused: readonly string[];
}

/** What a climatology's table needs to know; the lines are those of all its files. */
export interface ClimateTableOptions {
  readonly file: string;
  readonly faults: FaultList;
  readonly box: CropBox | undefined;
  readonly lines: Lines;
  readonly columns: ColumnChoices;
}

/** The table of a head; undefined after faults. */
export function climateTable(head: Head, options: ClimateTableOptions): ClimateTable | undefined {
  const { file, faults, box, lines, columns: choices } = options;
  const { names, line } = head;
  const before = faults.count;
  const { taken, optional, place } = columnFinder(head, choices, file, faults);
  const month = optional('month', MONTH_NAMES);
  const date = optional('time', TIME_NAMES);
  const time = month ?? date;
  if (time === undefined) faults.add({ file, line, column: MONTH_NAMES[0], ...says.monthColumn(names) });
  const [lat, lon] = [place('lat', LAT_NAMES), place('lon', LON_NAMES)];
  const { quantities, unused } = quantitiesOf(head, choices, taken, file, faults, {
    quantities: CLIMATE_QUANTITIES,
    aliases: CLIMATE_ALIASES,
    hasMeanSpeed: true,
  });
  addOddUnits(choices, line, file, faults);
  if (faults.count > before || time === undefined) return undefined;

  const named = (index: number) => ({ index, name: names[index]! });
  const column = named(time).name;
  const monthOf = (cell: string, row: number): number | undefined => {
    const found = month === undefined ? monthOfDate(cell) : wholeMonth(cell);
    if (found === undefined) {
      faults.add({ file, line: row, column, ...(month === undefined ? says.monthOfDate(cell) : says.month(cell)) });
    }
    return found;
  };
  const places = placesOf(
    {
      time: named(time),
      timeIsUtc: true,
      lat: { ...named(lat), factor: 1, offset: 0, min: -90, max: 90 },
      lon: { ...named(lon), factor: 1, offset: 0, min: -180, max: 360 },
    },
    box,
    file,
    faults,
    { lines, readTime: monthOf },
  );
  const read = Object.entries(quantities) as [Quantity, NumberColumn][];
  const store = rowStore(
    read.map(([quantity]) => quantity),
    file,
  );
  const values = new Float64Array(read.length);
  return {
    places,
    store,
    unused,
    take(cells, row) {
      if (cells.length !== names.length) {
        faults.add({ file, line: row, ...says.cellCount(names.length, cells.length) });
        return;
      }
      const isKept = places.find(cells[time]!, cells[lat]!, cells[lon]!, row);
      for (let q = 0; q < read.length; q += 1) {
        const of = read[q]![1];
        values[q] = readQuantity(cells[of.index]!, of, file, row, faults);
      }
      if (isKept) store.add(places.time, places.lat, places.lon, values, row);
    },
  };
}

/** Months of a year, 1 to 12; a decimal point with nothing behind is let pass. */
function wholeMonth(cell: string): number | undefined {
  const month = cell.trim() === '' ? Number.NaN : Number(cell);
  return Number.isInteger(month) && month >= 1 && month <= 12 ? month : undefined;
}

// Climatologies have years of no calendar (0000, 0001), which are no instants.
const DATE = /^\d{4}-(0[1-9]|1[0-2])(?:-\d{2}(?:[T ].*)?)?$/;

function monthOfDate(cell: string): number | undefined {
  const match = DATE.exec(cell.trim());
  return match === null ? undefined : Number(match[1]);
}
