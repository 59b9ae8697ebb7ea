import { distance } from 'fastest-levenshtein';
import type { FaultList } from '../errors.js';
import { KN_PER_MPS, M_PER_FOOT } from '../units.js';
import { says } from '../wording.js';

/** A quantity of the plain layout, as a column holds it. */
export type Quantity =
  | 'u10'
  | 'v10'
  | 'wind_speed'
  | 'wind_from_direction'
  | 'gust'
  | 'current_u'
  | 'current_v'
  | 'current_speed'
  | 'current_to_direction'
  | 'wave_height'
  | 'wave_period'
  | 'wave_from_direction';

/** A column with numbers: where it stands, how it becomes the library's unit, and what it may hold. */
export interface NumberColumn {
  readonly index: number;
  readonly name: string;
  readonly factor: number;
  readonly min: number;
  readonly max: number;
}

/** What the header of a forecast says. */
export interface ForecastColumns {
  readonly cellCount: number;
  readonly time: number;
  readonly lat: NumberColumn;
  readonly lon: NumberColumn;
  readonly member: number | undefined;
  readonly quantities: Readonly<Partial<Record<Quantity, NumberColumn>>>;
  /** Columns that are not used. */
  readonly unused: readonly string[];
}

type Dimension = 'speed' | 'direction' | 'length' | 'time';

const KN_PER_KMH = 1 / 1.852;
const KN_PER_MPH = 1609.344 / 1852;

const UNITS: Readonly<Record<Dimension, Readonly<Record<string, number>>>> = {
  speed: {
    kn: 1,
    kt: 1,
    kts: 1,
    knots: 1,
    mps: KN_PER_MPS,
    m_s: KN_PER_MPS,
    kmh: KN_PER_KMH,
    km_h: KN_PER_KMH,
    mph: KN_PER_MPH,
  },
  direction: { deg: 1, degrees: 1 },
  length: { m: 1, ft: M_PER_FOOT },
  time: { s: 1 },
};

/** Range in the library's unit, and the unit meant where the name gives none; without one the unit must be stated. */
interface QuantityRule {
  readonly dimension: Dimension;
  readonly min: number;
  readonly max: number;
  readonly unit?: string;
  readonly with?: Quantity;
}

const RULES: Readonly<Record<Quantity, QuantityRule>> = {
  u10: { dimension: 'speed', min: -200, max: 200, unit: 'mps', with: 'v10' },
  v10: { dimension: 'speed', min: -200, max: 200, unit: 'mps', with: 'u10' },
  wind_speed: { dimension: 'speed', min: 0, max: 200, with: 'wind_from_direction' },
  wind_from_direction: { dimension: 'direction', min: 0, max: 360, unit: 'deg', with: 'wind_speed' },
  // Metres a second beside u10, whose publishers give it so; beside wind_speed the unit must be stated.
  gust: { dimension: 'speed', min: 0, max: 200 },
  current_u: { dimension: 'speed', min: -20, max: 20, unit: 'mps', with: 'current_v' },
  current_v: { dimension: 'speed', min: -20, max: 20, unit: 'mps', with: 'current_u' },
  current_speed: { dimension: 'speed', min: 0, max: 20, with: 'current_to_direction' },
  current_to_direction: { dimension: 'direction', min: 0, max: 360, unit: 'deg', with: 'current_speed' },
  wave_height: { dimension: 'length', min: 0, max: 40, unit: 'm' },
  wave_period: { dimension: 'time', min: 0, max: 60, unit: 's' },
  wave_from_direction: { dimension: 'direction', min: 0, max: 360, unit: 'deg' },
};

const QUANTITIES = Object.keys(RULES) as Quantity[];
const LAT_NAMES = ['lat', 'latitude'];
const LON_NAMES = ['lon', 'longitude'];

/** Reads the header of the plain layout; faults are added, and undefined comes back where rows cannot be read. */
export function forecastColumns(
  header: readonly string[],
  file: string,
  line: number,
  faults: FaultList,
): ForecastColumns | undefined {
  const names = header.map((name) => name.trim().toLowerCase());
  const before = faults.count;
  const optional = (known: readonly string[]) => {
    const found = names.flatMap((name, i) => (known.includes(name) ? [i] : []));
    if (found.length > 1) faults.add({ file, line, column: names[found[1]!]!, ...says.columnTwice(names[found[0]!]!) });
    return found[0];
  };
  const place = (known: readonly string[]) => {
    const found = optional(known);
    if (found === undefined) faults.add({ file, line, column: known[0]!, ...says.missingColumn(names) });
    return found ?? -1;
  };
  const [time, lat, lon, member] = [place(['time']), place(LAT_NAMES), place(LON_NAMES), optional(['member'])];
  const quantities: Partial<Record<Quantity, NumberColumn>> = {};
  const unused: string[] = [];
  names.forEach((name, index) => {
    if (index === time || name === 'member' || LAT_NAMES.includes(name) || LON_NAMES.includes(name)) return;
    const meant = quantityOf(name);
    if (meant === undefined) {
      const misspelt = misspeltUnitOf(name);
      if (misspelt === undefined) unused.push(name);
      else faults.add({ file, line, column: name, ...says.unitUnknown(misspelt.units, misspelt.unit) });
      return;
    }
    const rule = RULES[meant.quantity];
    const unit =
      meant.unit ??
      (meant.quantity === 'gust' && names.some((other) => quantityOf(other)?.quantity === 'u10') ? 'mps' : rule.unit);
    if (unit === undefined) {
      faults.add({ file, line, column: name, ...says.unitNeeded(name) });
      return;
    }
    const earlier = quantities[meant.quantity];
    if (earlier !== undefined) faults.add({ file, line, column: name, ...says.columnTwice(earlier.name) });
    const factor = UNITS[rule.dimension][unit]!;
    quantities[meant.quantity] = {
      index,
      name,
      factor,
      min: Math.round(rule.min / factor),
      max: Math.round(rule.max / factor),
    };
  });
  checkTogether(names, quantities, file, line, faults);
  if (faults.count > before) return undefined;
  return {
    cellCount: names.length,
    time,
    lat: { index: lat, name: names[lat]!, factor: 1, min: -90, max: 90 },
    lon: { index: lon, name: names[lon]!, factor: 1, min: -180, max: 360 },
    member,
    quantities,
    unused,
  };
}

function quantityOf(name: string): { quantity: Quantity; unit?: string } | undefined {
  for (const quantity of QUANTITIES) {
    if (name === quantity) return { quantity };
    const unit = name.startsWith(`${quantity}_`) ? name.slice(quantity.length + 1) : '';
    if (Object.hasOwn(UNITS[RULES[quantity].dimension], unit)) return { quantity, unit };
  }
  return undefined;
}

/** A known quantity with what is one letter off a unit: passing it over as an unknown column would lose it silently. */
function misspeltUnitOf(name: string): { unit: string; units: readonly string[] } | undefined {
  for (const quantity of QUANTITIES) {
    const unit = name.startsWith(`${quantity}_`) ? name.slice(quantity.length + 1) : '';
    const units = Object.keys(UNITS[RULES[quantity].dimension]);
    if (unit !== '' && units.some((known) => distance(known, unit) === 1)) return { unit, units };
  }
  return undefined;
}

function checkTogether(
  names: readonly string[],
  quantities: Readonly<Partial<Record<Quantity, NumberColumn>>>,
  file: string,
  line: number,
  faults: FaultList,
): void {
  const named = new Set(
    names.map((name) => quantityOf(name)?.quantity ?? QUANTITIES.find((quantity) => name.startsWith(`${quantity}_`))),
  );
  for (const quantity of QUANTITIES) {
    const other = RULES[quantity].with;
    const column = quantities[quantity];
    if (column !== undefined && other !== undefined && !named.has(other)) {
      faults.add({ file, line, column: column.name, ...says.columnPair(other) });
    }
  }
  if (!named.has('u10') && !named.has('wind_speed')) faults.add({ file, line, ...says.windColumns(names) });
  const [wind, current] = [quantities.wind_speed, quantities.current_speed];
  if (quantities.u10 !== undefined && wind !== undefined)
    faults.add({ file, line, column: wind.name, ...says.columnTwice('u10') });
  if (quantities.current_u !== undefined && current !== undefined) {
    faults.add({ file, line, column: current.name, ...says.columnTwice('current_u') });
  }
}
