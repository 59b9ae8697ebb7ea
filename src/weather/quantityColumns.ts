import { distance } from 'fastest-levenshtein';
import type { FaultList } from '../errors.js';
import { says } from '../wording.js';
import { ALIASES, type Alias, LEVEL_NAMES, SILENT_NAMES } from './aliases.js';
import { type ColumnChoices, isSameName } from './columnChoices.js';
import type { Head } from './head.js';
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

/** Beside components a speed says nothing more and is not used; a direction is held against them. */
export const BESIDE_COMPONENTS: readonly (readonly [speed: Quantity, component: Quantity])[] = [
  ['wind_speed', 'u10'],
  ['current_speed', 'current_u'],
];

/** What is looked for among the columns of a sort of file. */
export interface Sought {
  readonly quantities: readonly Quantity[];
  /** Other names of them, the better first. */
  readonly aliases: Readonly<Record<string, Alias>>;
  /** Whether a speed beside components is a quantity by itself: a mean speed, in m/s like the components where nothing says otherwise. */
  readonly hasMeanSpeed: boolean;
}

const OF_FORECASTS: Sought = { quantities: QUANTITIES, aliases: ALIASES, hasMeanSpeed: false };

/** What a column holds, how well its name says so (0 best), and the unit its name gives it. */
interface Meant {
  readonly quantity: Quantity;
  readonly rank: number;
  readonly unit?: string;
  readonly turnDeg?: number;
  /** The unit where nothing else states one. */
  readonly usualUnit?: string;
}

/** The columns of quantities of a head, and those that are not used; faults are added. */
export function quantitiesOf(
  head: Head,
  choices: ColumnChoices,
  taken: ReadonlySet<number>,
  file: string,
  faults: FaultList,
  sought: Sought = OF_FORECASTS,
) {
  const { names, line } = head;
  const unused: string[] = [];
  const candidates: (Meant & { readonly index: number })[] = [];
  names.forEach((name, index) => {
    if (taken.has(index)) return;
    const meant = meaningOf(name, choices, sought);
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
    if (index === undefined || !best.has(component) || sought.hasMeanSpeed) continue;
    unused.push(names[index]!);
    best.delete(speed);
  }
  const quantities: Partial<Record<Quantity, NumberColumn>> = {};
  for (const [quantity, meant] of best) {
    const unit = unitOf(quantity, meant, head, usualBeside(quantity, best.has('u10'), sought), file, faults);
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
    sought,
  );
  return { quantities, unused };
}

/** The unit of a speed beside components, whose publishers give all in one. */
function usualBeside(quantity: Quantity, besideComponents: boolean, { hasMeanSpeed }: Sought): string | undefined {
  return besideComponents && (quantity === 'gust' || (hasMeanSpeed && quantity === 'wind_speed')) ? 'mps' : undefined;
}

function meaningOf(
  name: string,
  choices: ColumnChoices,
  { quantities, aliases, hasMeanSpeed }: Sought,
): Meant | undefined {
  for (const quantity of quantities) {
    const choice = choices[quantity];
    if (choice !== undefined && isSameName(choice.name, name)) {
      const { unit } = choice;
      const behind = unitNamed(name.slice(name.lastIndexOf('_') + 1), RULES[quantity].dimension);
      const usual = name.includes('_') && behind !== undefined ? { usualUnit: behind } : {};
      return { quantity, rank: 0, ...(unit === undefined ? usual : { unit }) };
    }
  }
  for (const quantity of quantities) {
    if (name === quantity) return { quantity, rank: 1 };
    const unit = name.startsWith(`${quantity}_`) ? name.slice(quantity.length + 1) : '';
    if (Object.hasOwn(UNITS[RULES[quantity].dimension], unit)) return { quantity, rank: 1, unit };
  }
  if (!Object.hasOwn(aliases, name)) return hasMeanSpeed ? aliasWithUnit(name, aliases) : undefined;
  const { quantity, unit, turnDeg } = aliases[name]!;
  return {
    quantity,
    rank: 2 + Object.keys(aliases).indexOf(name),
    ...(unit === undefined ? {} : { usualUnit: unit }),
    ...(turnDeg === undefined ? {} : { turnDeg }),
  };
}

/** `u_kn`: another name with a unit behind it, as people write climatologies. */
function aliasWithUnit(name: string, aliases: Sought['aliases']): Meant | undefined {
  const known = Object.keys(aliases);
  const rank = known.findIndex((alias) => {
    const unit = name.startsWith(`${alias}_`) ? name.slice(alias.length + 1) : '';
    return Object.hasOwn(UNITS[RULES[aliases[alias]!.quantity].dimension], unit);
  });
  if (rank < 0) return undefined;
  const { quantity, turnDeg } = aliases[known[rank]!]!;
  const unit = name.slice(known[rank]!.length + 1);
  return { quantity, rank: 2 + rank, unit, ...(turnDeg === undefined ? {} : { turnDeg }) };
}

/** The unit of a quantity's column: as chosen or named, else as its head states, else as is usual; a fault where none is. */
function unitOf(
  quantity: Quantity,
  { index, rank, unit, usualUnit }: Meant & { readonly index: number },
  { names, units, line, unitsLine }: Head,
  usualThere: string | undefined,
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
  const usual = usualUnit ?? usualThere ?? ruled;
  // The plain name, because only that takes a unit behind it.
  if (usual === undefined) {
    faults.add({
      file,
      line,
      column,
      ...(rank === 0 ? says.unitOfChoice(quantity, column) : says.unitNeeded(quantity)),
    });
  }
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
  { hasMeanSpeed }: Sought,
): void {
  // A partner whose unit is misspelt has its own fault already.
  const isThere = (quantity: Quantity) =>
    found.has(quantity) || names.some((name) => name.startsWith(`${quantity}_`) && misspeltUnitOf(name) !== undefined);
  const besideComponents = (quantity: Quantity) =>
    BESIDE_COMPONENTS.some(([speed, component]) => RULES[quantity].with === speed && isThere(component));
  for (const [quantity, column] of found) {
    const other = RULES[quantity].with;
    const isMeanSpeed = hasMeanSpeed && quantity === 'wind_speed';
    if (other !== undefined && !isThere(other) && !besideComponents(quantity) && !isMeanSpeed) {
      faults.add({ file, line, column, ...says.columnPair(other) });
    }
  }
  if (hasMeanSpeed) addMissingMean(isThere, names, file, line, faults);
  else if (found.size === 0 && !QUANTITIES.some(isThere)) faults.add({ file, line, ...says.quantityColumns(names) });
}

/** A climatology has all three or tells nothing: the vector alone is too weak a wind, the speed alone has no direction. */
function addMissingMean(
  isThere: (quantity: Quantity) => boolean,
  names: readonly string[],
  file: string,
  line: number,
  faults: FaultList,
): void {
  const hasVector = isThere('u10') || isThere('v10');
  if (!hasVector) faults.add({ file, line, ...says.meanVectorColumns(names) });
  if (!isThere('wind_speed')) faults.add({ file, line, ...says.meanSpeedColumn(names) });
}
