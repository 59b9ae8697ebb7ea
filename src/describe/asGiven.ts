import { type Fault, InputError } from '../errors.js';

/** Options of the command line that are numbers, by what they set; house rules among them have their ranges in the boat file's schema. */
export const NUMBER_OPTIONS = {
  crew: 'crew',
  horizonHours: 'horizon',
  replanHours: 'replanEvery',
  labels: 'labels',
} as const;
export const HOUSE_OPTIONS = {
  pricePerChangeMinutes: 'pricePerChange',
  squallChance: 'squallChance',
  gustMargin: 'gustMargin',
  leastHoursBetweenChanges: 'leastHours',
  nightReefAboveKn: 'nightReefAbove',
  motorBelowKn: 'motorBelow',
} as const;

/** `pricePerChange` as it is given: `--price-per-change`. */
export const optionNamed = (option: string) => `--${option.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`)}`;

/** What a program sets by name is told by the option that a person gives for it. */
const OPTIONS: Readonly<Record<string, string>> = {
  planSet: '--plan-set',
  without: '--without',
  changesInDark: '--changes-in-dark',
  arriveDaylight: '--arrive-daylight',
  waveMaxM: '--wave-max',
  areaM2: '--area',
  ...Object.fromEntries(
    [...Object.entries(NUMBER_OPTIONS), ...Object.entries(HOUSE_OPTIONS)].map(([name, option]) => [
      name,
      optionNamed(option),
    ]),
  ),
};

/** The same faults, those of what was asked for under the options as they were given. */
export function asGiven({ faults, omitted }: InputError): InputError {
  return new InputError(faults.map(faultAsGiven), omitted);
}

/** The same of one. */
export function faultAsGiven(fault: Fault): Fault {
  if (fault.file === 'position') return { ...fault, file: '--from' };
  if (fault.code === 'no-weather') return { ...fault, file: '--forecast' };
  const { path = '', ...rest } = fault;
  const option = fault.file === 'options' ? OPTIONS[path.replace(/^house\./, '').replace(/[[.].*/, '')] : undefined;
  return option === undefined ? fault : { ...rest, file: option };
}
