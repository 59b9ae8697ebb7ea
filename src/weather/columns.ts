import { distance } from 'fastest-levenshtein';
import type { FaultList } from '../errors.js';
import { says } from '../wording.js';
import {
  ALIASES,
  LAT_NAMES,
  LEVEL_NAMES,
  LON_NAMES,
  MEMBER_NAMES,
  RUN_NAMES,
  SILENT_NAMES,
  TIME_NAMES,
} from './aliases.js';
import { type Dimension, QUANTITIES, type Quantity, RULES, UNITS, unitNamed } from './quantities.js';

/** A column with numbers: where it stands, how it becomes the library's unit, and what it may hold. */
export interface NumberColumn {
  readonly index: number;
  readonly name: string;
  readonly factor: number;
  /** Added after the factor: 180 turns a direction "to" into one "from". */
  readonly offset: number;
  readonly min: number;
  readonly max: number;
}

/** What the head of a forecast says. */
export interface ForecastColumns {
  readonly cellCount: number;
  readonly time: NamedColumn;
  /** Whether a time without a zone is UTC, because the head says so. */
  readonly timeIsUtc: boolean;
  readonly run: NamedColumn | undefined;
  readonly lat: NumberColumn;
  readonly lon: NumberColumn;
  readonly member: number | undefined;
  /** A height or depth, of which a file may have one only. */
  readonly level: NamedColumn | undefined;
  readonly quantities: Readonly<Partial<Record<Quantity, NumberColumn>>>;
  /** Columns that are not used. */
  readonly unused: readonly string[];
}

export interface NamedColumn {
  readonly index: number;
  readonly name: string;
}

/** A quantity, or the time, place, run or member, and the column that holds it in a file: `water_u` in `m/s`. */
export interface ColumnChoice {
  readonly name: string;
  readonly unit?: string;
}

/** What may be found under another name. */
export type ColumnRole = Quantity | 'time' | 'run_time' | 'lat' | 'lon' | 'member';

export const COLUMN_ROLES: readonly ColumnRole[] = [...QUANTITIES, 'time', 'run_time', 'lat', 'lon', 'member'];

/** Columns by what they hold, where a file calls them otherwise than the plain layout and the known publishers do. */
export type ColumnChoices = Readonly<Partial<Record<ColumnRole, ColumnChoice>>>;

/** Beside components a speed says nothing more and is not used; a direction is held against them. */
export const BESIDE_COMPONENTS: readonly (readonly [speed: Quantity, component: Quantity])[] = [
  ['wind_speed', 'u10'],
  ['current_speed', 'current_u'],
];

/** Whether two texts name the same column: case and blanks around do not count. */
export const isSameName = (one: string, other: string) => one.trim().toLowerCase() === other.trim().toLowerCase();

/** The head of a forecast: names of columns, units stated in brackets behind them or in a row below. */
export interface Head {
  readonly names: readonly string[];
  readonly units: readonly (string | undefined)[];
  readonly line: number;
  /** The row of units, where there is one. */
  readonly unitsLine?: number;
}

/** The head of a forecast from its first row, and the second where that is a row of units. */
export function headOf(
  first: readonly string[],
  second: readonly string[] | undefined,
  line: number,
  secondLine: number,
): Head {
  const bracketed = first.map((cell) => /^(.*\S)\s*\(([^()]*)\)$/.exec(cell.trim()));
  const names = first.map((cell, i) => (bracketed[i]?.[1] ?? cell).trim().toLowerCase());
  const hasUnitsRow = second !== undefined && isUnitsRow(names, second);
  const stated = (i: number) => (hasUnitsRow ? second[i]!.trim() : bracketed[i]?.[2]?.trim());
  const units = names.map((_, i) => (/^1?$/.test(stated(i) ?? '') ? undefined : stated(i)));
  return { names, units, line, ...(hasUnitsRow ? { unitsLine: secondLine } : {}) };
}

/** Whether a row holds units: words where place and time would be, as `UTC,degrees_north,degrees_east,m s-1`. */
function isUnitsRow(names: readonly string[], cells: readonly string[]): boolean {
  if (cells.length !== names.length) return false;
  const cellOf = (known: readonly string[]) => cells[names.findIndex((name) => known.includes(name))]?.trim() ?? '';
  const [time, lat, lon] = [cellOf(TIME_NAMES), cellOf(LAT_NAMES), cellOf(LON_NAMES)];
  return [lat, lon].every((cell) => /^deg|^$/i.test(cell)) && (/^utc$|since/i.test(time) || lat !== '');
}

/** Reads the head of a forecast; faults are added, and undefined comes back where rows cannot be read. */
export function forecastColumns(
  head: Head,
  choices: ColumnChoices,
  file: string,
  faults: FaultList,
): ForecastColumns | undefined {
  const { names, line } = head;
  const before = faults.count;
  const indexOfChoice = (role: ColumnRole) => {
    const choice = choices[role];
    const index = choice === undefined ? -1 : names.findIndex((name) => isSameName(name, choice.name));
    return index < 0 ? undefined : index;
  };
  const taken = new Set<number>();
  const optional = (role: ColumnRole | undefined, known: readonly string[]) => {
    const chosen = role === undefined ? undefined : indexOfChoice(role);
    const found =
      chosen === undefined ? names.flatMap((name, i) => (known.includes(name) && !taken.has(i) ? [i] : [])) : [chosen];
    if (found.length > 1) faults.add({ file, line, column: names[found[1]!]!, ...says.columnTwice(names[found[0]!]!) });
    for (const index of found) taken.add(index);
    return found[0];
  };
  const place = (role: ColumnRole, known: readonly string[]) => {
    const found = optional(role, known);
    if (found === undefined) faults.add({ file, line, column: known[0]!, ...says.missingColumn(names) });
    return found ?? -1;
  };
  // Where a file has a valid time beside a time, the time is that of the run.
  const hasValidTime = names.includes('valid_time') && names.includes('time') && indexOfChoice('time') === undefined;
  const time = place('time', hasValidTime ? ['valid_time'] : TIME_NAMES);
  const run = optional('run_time', hasValidTime ? ['time', ...RUN_NAMES] : RUN_NAMES);
  const [lat, lon] = [place('lat', LAT_NAMES), place('lon', LON_NAMES)];
  const member = optional('member', MEMBER_NAMES);
  const { quantities, unused } = quantitiesOf(head, choices, taken, file, faults);
  // A column of that name may have been chosen for something else: a "height" of waves.
  for (const { index } of Object.values(quantities)) taken.add(index);
  addOddUnits(choices, line, file, faults);
  const levels = names.flatMap((name, i) => (LEVEL_NAMES.has(name) && !taken.has(i) ? [i] : []));
  if (faults.count > before) return undefined;
  const named = (index: number) => ({ index, name: names[index]! });
  return {
    cellCount: names.length,
    time: named(time),
    timeIsUtc: /^utc$/i.test(choices.time?.unit ?? head.units[time] ?? ''),
    run: run === undefined ? undefined : named(run),
    lat: { ...named(lat), factor: 1, offset: 0, min: -90, max: 90 },
    lon: { ...named(lon), factor: 1, offset: 0, min: -180, max: 360 },
    member,
    level: levels[0] === undefined ? undefined : named(levels[0]),
    quantities,
    unused,
  };
}

/** Of what is no quantity only times have a unit, and that is UTC: it says that a time without a zone is. */
function addOddUnits(choices: ColumnChoices, line: number, file: string, faults: FaultList): void {
  for (const role of ['time', 'run_time', 'lat', 'lon', 'member'] as const) {
    const { name, unit } = choices[role] ?? {};
    if (name === undefined || unit === undefined || (/time/.test(role) && /^utc$/i.test(unit))) continue;
    faults.add({ file, line, column: name, ...says.unitUnknown(/time/.test(role) ? ['UTC'] : ['none'], unit) });
  }
}

/** What a column holds, how well its name says so (0 best), and the unit its name gives it. */
interface Meant {
  readonly quantity: Quantity;
  readonly rank: number;
  readonly unit?: string;
  readonly turnDeg?: number;
  /** The unit where nothing else states one. */
  readonly usualUnit?: string;
}

function quantitiesOf(head: Head, choices: ColumnChoices, taken: ReadonlySet<number>, file: string, faults: FaultList) {
  const { names, line } = head;
  const unused: string[] = [];
  const candidates: (Meant & { readonly index: number })[] = [];
  names.forEach((name, index) => {
    if (taken.has(index)) return;
    const meant = meaningOf(name, choices);
    if (meant !== undefined) candidates.push({ ...meant, index });
    else {
      const misspelt = misspeltUnitOf(name);
      if (misspelt !== undefined)
        faults.add({ file, line, column: name, ...says.unitUnknown(misspelt.units, misspelt.unit) });
      else if (!SILENT_NAMES.has(name) && !LEVEL_NAMES.has(name)) unused.push(name);
    }
  });
  const best = new Map<Quantity, (typeof candidates)[number]>();
  for (const candidate of candidates) {
    const rival = best.get(candidate.quantity);
    const [name, rivalName] = [names[candidate.index]!, rival === undefined ? '' : names[rival.index]!];
    if (rival === undefined || candidate.rank < rival.rank) {
      best.set(candidate.quantity, candidate);
      if (rival !== undefined) unused.push(rivalName);
    } else if (candidate.rank === rival.rank) {
      faults.add({ file, line, column: name, ...says.columnTwice(rivalName) });
    } else unused.push(name);
  }
  for (const [speed, component] of BESIDE_COMPONENTS) {
    const index = best.get(speed)?.index;
    if (index === undefined || !best.has(component)) continue;
    unused.push(names[index]!);
    best.delete(speed);
  }
  const quantities: Partial<Record<Quantity, NumberColumn>> = {};
  for (const [quantity, meant] of best) {
    const unit = unitOf(quantity, meant, head, best.has('u10'), file, faults);
    if (unit === undefined) continue;
    const { min, max, dimension } = RULES[quantity];
    const factor = UNITS[dimension][unit]!;
    quantities[quantity] = {
      index: meant.index,
      name: names[meant.index]!,
      factor,
      offset: meant.turnDeg ?? 0,
      min: Math.round(min / factor),
      max: Math.round(max / factor),
    };
  }
  checkTogether(
    new Map([...best].map(([quantity, { index }]) => [quantity, names[index]!])),
    names,
    file,
    line,
    faults,
  );
  return { quantities, unused };
}

function meaningOf(name: string, choices: ColumnChoices): Meant | undefined {
  for (const quantity of QUANTITIES) {
    const choice = choices[quantity];
    if (choice !== undefined && isSameName(choice.name, name)) {
      return { quantity, rank: 0, ...(choice.unit === undefined ? {} : { unit: choice.unit }) };
    }
  }
  for (const quantity of QUANTITIES) {
    if (name === quantity) return { quantity, rank: 1 };
    const unit = name.startsWith(`${quantity}_`) ? name.slice(quantity.length + 1) : '';
    if (Object.hasOwn(UNITS[RULES[quantity].dimension], unit)) return { quantity, rank: 1, unit };
  }
  if (!Object.hasOwn(ALIASES, name)) return undefined;
  const { quantity, unit, turnDeg } = ALIASES[name]!;
  return {
    quantity,
    rank: 2 + Object.keys(ALIASES).indexOf(name),
    ...(unit === undefined ? {} : { usualUnit: unit }),
    ...(turnDeg === undefined ? {} : { turnDeg }),
  };
}

/** The unit of a quantity's column: as chosen or named, else as its head states, else as is usual; a fault where none is. */
function unitOf(
  quantity: Quantity,
  { index, rank, unit, usualUnit }: Meant & { readonly index: number },
  { names, units, line, unitsLine }: Head,
  besideComponents: boolean,
  file: string,
  faults: FaultList,
): string | undefined {
  const { dimension, unit: ruled } = RULES[quantity];
  const column = names[index]!;
  const stated = unit ?? units[index];
  const inHead = units[index] === undefined ? undefined : unitNamed(units[index], dimension);
  // One that was chosen stands before that of the head; one behind a name must fit it.
  if (rank > 0 && unit !== undefined && inHead !== undefined && !isSameUnit(unit, inHead, dimension)) {
    faults.add({ file, line: unitsLine ?? line, column, ...says.unitTwice(unit, units[index]!) });
  }
  if (stated !== undefined) {
    const named = unitNamed(stated, dimension);
    const at = unit === undefined ? (unitsLine ?? line) : line;
    if (named === undefined)
      faults.add({ file, line: at, column, ...says.unitUnknown(Object.keys(UNITS[dimension]), stated) });
    return named;
  }
  const usual = usualUnit ?? (quantity === 'gust' && besideComponents ? 'mps' : ruled);
  // The plain name, because only that takes a unit behind it.
  if (usual === undefined) faults.add({ file, line, column, ...says.unitNeeded(quantity) });
  return usual;
}

const isSameUnit = (a: string, b: string, dimension: Dimension) => UNITS[dimension][a] === UNITS[dimension][b];

/** A known quantity with what is one letter off a unit: passing it over as an unknown column would lose it silently. */
function misspeltUnitOf(name: string): { unit: string; units: readonly string[] } | undefined {
  for (const quantity of QUANTITIES) {
    const unit = name.startsWith(`${quantity}_`) ? name.slice(quantity.length + 1) : '';
    const units = Object.keys(UNITS[RULES[quantity].dimension]);
    if (unit !== '' && units.some((known) => distance(known, unit) === 1)) return { unit, units };
  }
  return undefined;
}

/** Adds a fault for every quantity whose partner is missing; with components a direction by itself is well. */
function checkTogether(
  found: ReadonlyMap<Quantity, string>,
  names: readonly string[],
  file: string,
  line: number,
  faults: FaultList,
): void {
  // A partner whose unit is misspelt has its own fault already.
  const isThere = (quantity: Quantity) =>
    found.has(quantity) || names.some((name) => name.startsWith(`${quantity}_`) && misspeltUnitOf(name) !== undefined);
  const besideComponents = (quantity: Quantity) =>
    BESIDE_COMPONENTS.some(([speed, component]) => RULES[quantity].with === speed && isThere(component));
  for (const [quantity, column] of found) {
    const other = RULES[quantity].with;
    if (other !== undefined && !isThere(other) && !besideComponents(quantity)) {
      faults.add({ file, line, column, ...says.columnPair(other) });
    }
  }
  if (found.size === 0 && !QUANTITIES.some(isThere)) faults.add({ file, line, ...says.quantityColumns(names) });
}
