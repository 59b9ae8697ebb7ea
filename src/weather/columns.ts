import type { FaultList } from '../errors.js';
import { says } from '../wording.js';
import { LAT_NAMES, LEVEL_NAMES, LON_NAMES, MEMBER_NAMES, RUN_NAMES, TIME_NAMES } from './aliases.js';
import { type ColumnChoices, type ColumnRole, isSameName } from './columnChoices.js';
import type { Head } from './head.js';
import type { Quantity } from './quantities.js';
import { type NumberColumn, quantitiesOf } from './quantityColumns.js';

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

/** Finds the columns of a head that are no quantities: of when and where. */
export function columnFinder({ names, line }: Head, choices: ColumnChoices, file: string, faults: FaultList) {
  const indexOfChoice = (role: ColumnRole) => {
    const choice = choices[role];
    const index = choice === undefined ? -1 : names.findIndex((name) => isSameName(name, choice.name));
    return index < 0 ? undefined : index;
  };
  const taken = new Set<number>();
  const optional = (role: ColumnRole, known: readonly string[]) => {
    const chosen = indexOfChoice(role);
    const found =
      chosen === undefined ? names.flatMap((name, i) => (known.includes(name) && !taken.has(i) ? [i] : [])) : [chosen];
    if (found.length > 1) faults.add({ file, line, column: names[found[1]!]!, ...says.columnTwice(names[found[0]!]!) });
    for (const index of found) taken.add(index);
    return found[0];
  };
  return {
    /** Columns that are found. */
    taken,
    isChosen: (role: ColumnRole) => indexOfChoice(role) !== undefined,
    /** The column of a role, as chosen or by one of its names; undefined where there is none. */
    optional,
    /** The same of one that must be there; −1 after a fault. */
    place(role: ColumnRole, known: readonly string[]): number {
      const found = optional(role, known);
      if (found === undefined) faults.add({ file, line, column: known[0]!, ...says.missingColumn(names) });
      return found ?? -1;
    },
  };
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
  const { taken, isChosen, optional, place } = columnFinder(head, choices, file, faults);
  // Where a file has a valid time beside a time, the time is that of the run.
  const hasValidTime = names.includes('valid_time') && names.includes('time') && !isChosen('time');
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
export function addOddUnits(choices: ColumnChoices, line: number, file: string, faults: FaultList): void {
  for (const role of ['time', 'run_time', 'month', 'lat', 'lon', 'member'] as const) {
    const { name, unit } = choices[role] ?? {};
    if (name === undefined || unit === undefined || (/time/.test(role) && /^utc$/i.test(unit))) continue;
    faults.add({ file, line, column: name, ...says.unitUnknown(/time/.test(role) ? ['UTC'] : ['none'], unit) });
  }
}
