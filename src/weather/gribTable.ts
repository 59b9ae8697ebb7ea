import { says } from '../wording.js';
import { GRIB_NAMES } from './aliases.js';
import { readQuantity } from './cells.js';
import { type ColumnChoices, isSameName } from './columnChoices.js';
import { placesOf, readInstant } from './places.js';
import { QUANTITIES, type Quantity, RULES, UNITS, unitNamed } from './quantities.js';
import { BESIDE_COMPONENTS, type NumberColumn } from './quantityColumns.js';
import { type RowStore, rowStore } from './rowStore.js';
import type { ForecastTable, RowGroup, TableOptions } from './table.js';

const CELLS = 7;
const VALUE = 6;
const ZONELESS = /^\d{4}-\d{2}-\d{2} \d{2}:\d{2}:\d{2}$/;

/** Whether a first row is one of wgrib2's `-csv`: run time, time, name, level, longitude, latitude, value; no header. */
export function isGribRow(cells: readonly string[]): boolean {
  return cells.length === CELLS && [cells[0]!, cells[1]!].every((cell) => ZONELESS.test(cell.trim()));
}

/** What one name at one level holds. */
interface Series {
  readonly label: string;
  readonly quantity: Quantity;
  readonly column: NumberColumn;
  /** How well the level fits, the lowest best. */
  readonly rank: number;
  readonly stores: Map<number, RowStore>;
}

/**
 * The layout of wgrib2's `-csv`: a row is one value of one quantity, times are UTC without a zone, points without a value
 * are left out. Wind is that at 10 m; what stands at other levels is not used.
 */
export function gribTable(choices: ColumnChoices, { file, faults, box }: TableOptions): ForecastTable {
  const columns = {
    time: { index: 1, name: 'valid time' },
    timeIsUtc: true,
    lon: { index: 4, name: 'lon', factor: 1, offset: 0, min: -180, max: 360 },
    lat: { index: 5, name: 'lat', factor: 1, offset: 0, min: -90, max: 90 },
  };
  const places = placesOf(columns, box, file, faults);
  const all = new Map<string, Series | undefined>();
  const unused = new Set<string>();
  const runs = new Map<string, number | undefined>();
  const values = new Float64Array(1);

  const seriesOf = (name: string, level: string, line: number): Series | undefined => {
    const label = `${name} at ${level}`;
    const meant = meaningOf(name, level, choices);
    if (meant === undefined) {
      unused.add(label);
      return undefined;
    }
    const { quantity, unit, rank } = meant;
    const { dimension, min, max } = RULES[quantity];
    const named = unitNamed(unit, dimension);
    if (named === undefined) {
      faults.add({ file, line, column: name, ...says.unitUnknown(Object.keys(UNITS[dimension]), unit) });
    }
    // After a fault it is taken as usual, so that its partner is not told to be alone.
    const factor = UNITS[dimension][named ?? usualUnit(quantity)]!;
    const range = { min: Math.round(min / factor), max: Math.round(max / factor) };
    return { label, quantity, column: { index: VALUE, name, factor, offset: 0, ...range }, rank, stores: new Map() };
  };
  const runOf = (cell: string, line: number) => {
    if (!runs.has(cell)) runs.set(cell, readInstant(cell, true, 'run time', file, line, faults));
    return runs.get(cell);
  };
  /** For each quantity the series at the level that fits best. */
  const best = () => {
    const found = QUANTITIES.flatMap((quantity) => {
      const ofIt = [...all.values()].filter((series) => series?.quantity === quantity) as Series[];
      const [first, ...others] = ofIt.sort((a, b) => a.rank - b.rank);
      for (const { label } of others) unused.add(label);
      return first === undefined ? [] : [first];
    });
    const needless = BESIDE_COMPONENTS.flatMap(([speed, component]) =>
      found.some(({ quantity }) => quantity === component) ? [speed] : [],
    );
    for (const { quantity, label } of found) if (needless.includes(quantity)) unused.add(label);
    return found.filter(({ quantity }) => !needless.includes(quantity));
  };

  return {
    places,
    members: new Set(),
    level: undefined,
    get names() {
      return Object.fromEntries(best().map(({ quantity, column }) => [quantity, column.name]));
    },
    hasWind: () => best().some(({ quantity }) => quantity === 'u10' || quantity === 'wind_speed'),
    unused: () => {
      best();
      return [...unused];
    },
    groups() {
      const series = best();
      if (series.length === 0) faults.add({ file, ...says.quantityColumns([...unused]) });
      for (const { quantity, column } of series) {
        const partner = RULES[quantity].with;
        const isAlone = partner !== undefined && series.every((other) => other.quantity !== partner);
        const besideComponents = BESIDE_COMPONENTS.some(
          ([speed, component]) => speed === partner && series.some((other) => other.quantity === component),
        );
        if (isAlone && !besideComponents) faults.add({ file, column: column.name, ...says.columnPair(partner) });
      }
      const byRun = [...new Set(series.flatMap(({ stores }) => [...stores.keys()]))];
      return byRun.map((runEpochSeconds): RowGroup => {
        const stores = series.flatMap((one) => one.stores.get(runEpochSeconds) ?? []);
        return { runEpochSeconds, member: undefined, stores };
      });
    },
    take(cells, line) {
      if (cells.length !== CELLS) {
        faults.add({ file, line, ...says.cellCount(CELLS, cells.length) });
        return;
      }
      const [name, level] = [cells[2]!, cells[3]!];
      const key = `${name} at ${level}`;
      let series = all.get(key);
      if (series === undefined && !all.has(key)) {
        series = seriesOf(name, level, line);
        all.set(key, series);
      }
      const isKept = places.find(cells[1]!, cells[5]!, cells[4]!, line);
      const run = runOf(cells[0]!, line);
      if (series === undefined) return;
      values[0] = readQuantity(cells[VALUE]!, series.column, file, line, faults);
      if (!isKept || run === undefined) return;
      let store = series.stores.get(run);
      if (store === undefined) {
        store = rowStore([series.quantity]);
        series.stores.set(run, store);
      }
      store.add(places.time, places.lat, places.lon, values, line);
    },
  };
}

function meaningOf(name: string, level: string, choices: ColumnChoices) {
  const plain = name.trim().toLowerCase();
  const known = Object.hasOwn(GRIB_NAMES, plain) ? GRIB_NAMES[plain]! : undefined;
  for (const quantity of QUANTITIES) {
    const choice = choices[quantity];
    if (choice === undefined || !isSameName(choice.name, plain)) continue;
    const rank = rankOfChosen(quantity, level.trim(), known?.quantity === quantity);
    return rank === undefined ? undefined : { quantity, unit: choice.unit ?? usualUnit(quantity), rank };
  }
  if (known === undefined) return undefined;
  const { quantity, unit, levels } = known;
  const rank = levels.indexOf(level.trim());
  return rank < 0 ? undefined : { quantity, unit: unit ?? usualUnit(quantity), rank };
}

/**
 * A name chosen comes before those known, and may stand at any level; of several levels those meant for the quantity come
 * first. A name known for the quantity anyway is no word for its wind at 100 m.
 */
function rankOfChosen(quantity: Quantity, level: string, isKnown: boolean): number | undefined {
  const levels = Object.values(GRIB_NAMES).find((known) => known.quantity === quantity)?.levels ?? [];
  const fit = levels.indexOf(level);
  if (fit >= 0) return fit - levels.length - 1;
  return isKnown ? undefined : -1;
}

/** GRIB holds speeds in metres a second. */
const usualUnit = (quantity: Quantity) => RULES[quantity].unit ?? 'mps';
