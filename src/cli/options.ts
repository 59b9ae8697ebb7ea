import { checkHouse, type House } from '../boat/boat.js';
import { HOUSE_OPTIONS, NUMBER_OPTIONS, optionNamed } from '../describe/describe.js';
import { type Fault, faultList, type InputError } from '../errors.js';
import type { Position } from '../geo/geo.js';
import { OPTION_RANGES, type PassageOptions } from '../passage/passage.js';
import { parsePosition } from '../route/route.js';
import { parseInstant } from '../time.js';
import { COLUMN_ROLES, type ColumnChoice, type ColumnChoices, type ColumnRole } from '../weather/weather.js';
import { saidOfInstant, says } from '../wording.js';

/** Options that are read from text, and what was wrong with them. */
export interface ReadOptions {
  readonly columns: ColumnChoices;
  readonly from: Position | undefined;
  readonly windFactor: number | undefined;
  readonly windShiftHours: number | undefined;
  /** Settings of the choice that are numbers. */
  readonly numbers: Pick<PassageOptions, NumberOption>;
  readonly house: House;
  readonly faults: readonly Fault[];
}

/** Options as they were given, all text. */
export interface GivenOptions {
  readonly depart?: string;
  readonly column?: readonly string[];
  readonly from?: string;
  readonly windFactor?: string;
  readonly windShiftHours?: string;
  readonly pricePerChange?: string;
  readonly crew?: string;
  readonly horizon?: string;
  readonly replanEvery?: string;
  readonly labels?: string;
  readonly squalls?: boolean;
  readonly squallChance?: string;
  readonly gustMargin?: string;
  readonly leastHours?: string;
  readonly changesInDark?: string;
  readonly nightReefAbove?: string;
  readonly waveMax?: readonly string[];
  readonly gybesInDark?: boolean;
  readonly motorBelow?: string;
}

type NumberOption = 'crew' | 'horizonHours' | 'replanHours' | 'labels';

/** Reads the options that are more than a text. */
export function readOptions(given: GivenOptions): ReadOptions {
  const faults: Fault[] = [];
  if (given.depart !== undefined) {
    const instant = parseInstant(given.depart);
    if (typeof instant !== 'number') faults.push({ file: '--depart', ...saidOfInstant(instant, given.depart) });
  }
  const from = given.from === undefined ? undefined : parsePosition(given.from);
  if (given.from !== undefined && from === undefined) faults.push({ file: '--from', ...says.position(given.from) });
  return {
    columns: columnsOf(given.column ?? [], faults),
    from,
    windFactor: numberOf(given.windFactor, '--wind-factor', OPTION_RANGES.windFactor, faults),
    windShiftHours: numberOf(given.windShiftHours, '--wind-shift-hours', OPTION_RANGES.windShiftHours, faults),
    numbers: Object.fromEntries(
      Object.entries(NUMBER_OPTIONS satisfies Record<NumberOption, keyof GivenOptions>).flatMap(([name, option]) => {
        const value = numberOf(given[option], optionNamed(option), OPTION_RANGES[name as NumberOption], faults);
        return value === undefined ? [] : [[name, value]];
      }),
    ),
    house: houseOf(given, faults),
    faults,
  };
}

/** The house rules that were given, checked as those of the boat file are. */
function houseOf(given: GivenOptions, faults: Fault[]): House {
  const numbers = Object.entries(HOUSE_OPTIONS satisfies Partial<Record<keyof House, keyof GivenOptions>>).flatMap(
    ([rule, option]) => {
      const text = given[option];
      if (text === undefined) return [];
      const isNumber = text.trim() !== '' && !Number.isNaN(Number(text));
      return [[rule, isNumber ? Number(text) : text]];
    },
  );
  const waves = (given.waveMax ?? []).flatMap((text) => {
    const [sail = '', metres, ...rest] = text.split('=');
    const value = metres === undefined || rest.length > 0 || metres.trim() === '' ? Number.NaN : Number(metres);
    if (!Number.isNaN(value)) return [[sail.trim(), value] as const];
    faults.push({ file: '--wave-max', ...says.waveOption(text) });
    return [];
  });
  const house: House = {
    ...(Object.fromEntries(numbers) as House),
    ...(waves.length === 0 ? {} : { waveMaxM: Object.fromEntries(waves) }),
    ...(given.changesInDark === undefined ? {} : { changesInDark: given.changesInDark as 'any' }),
    ...(given.squalls === undefined ? {} : { squalls: given.squalls }),
    ...(given.gybesInDark === undefined ? {} : { gybesByDay: !given.gybesInDark }),
  };
  const rules = faultList();
  checkHouse(house, 'options', rules);
  try {
    rules.throwIfAny();
  } catch (error) {
    faults.push(...(error as InputError).faults);
  }
  return house;
}

/** A number from text, a fault under the option's name where it is none; absent stays so. */
export function numberOf(
  text: string | undefined,
  file: string,
  [min, max]: readonly [number, number],
  faults: Fault[],
): number | undefined {
  if (text === undefined) return undefined;
  const value = text.trim() === '' ? Number.NaN : Number(text);
  if (value >= min && value <= max) return value;
  faults.push({ file, ...says.number(min, max, text) });
  return undefined;
}

/** `current_u=water_u:m/s`: what it holds, the column's name, and its unit if need be. */
function columnsOf(texts: readonly string[], faults: Fault[]): ColumnChoices {
  const choices: Partial<Record<ColumnRole, ColumnChoice>> = {};
  for (const text of texts) {
    const match = /^\s*([^=]+?)\s*=\s*(.+?)\s*(?::\s*([^:]+?)\s*)?$/.exec(text);
    const role = COLUMN_ROLES.find((known) => known === match?.[1]?.toLowerCase());
    if (match === null || role === undefined)
      faults.push({ file: '--column', ...says.columnOption(COLUMN_ROLES, text) });
    else if (choices[role] !== undefined) faults.push({ file: '--column', ...says.columnTwice(choices[role].name) });
    else choices[role] = { name: match[2]!, ...(match[3] === undefined ? {} : { unit: match[3] }) };
  }
  return choices;
}
