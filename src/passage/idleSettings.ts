import type { Boat, House } from '../boat/boat.js';
import type { Fault } from '../errors.js';
import { says } from '../wording.js';
import type { PassageOptions, SettledOptions } from './options.js';

/** What only a planned choice asks. */
const OF_THE_PLAN: readonly (keyof PassageOptions)[] = [
  'crew',
  'labels',
  'horizonHours',
  'replanHours',
  'arriveDaylight',
];
const HOUSE_OF_THE_PLAN: readonly (keyof House)[] = [
  'pricePerChangeMinutes',
  'wakeMinutes',
  'leastHoursBetweenChanges',
  'changesInDark',
  'nightReefAboveKn',
  'waveMaxM',
  'gybesByDay',
  'motorBelowKn',
  'motorPriceMinutes',
];
// Their chance counts all the same: for how many are to be expected.
const HOUSE_OF_SQUALLS: readonly (keyof House)[] = ['squallFactor', 'squallThreshold'];

/** Settings that were asked for and do nothing, for want of what they count with. Of the boat file's rules that for an engine alone is told. */
export function idleSettings(options: PassageOptions, boat: Boat, { house }: Pick<SettledOptions, 'house'>): Fault[] {
  const idle = (path: string, needed: string, got: string, file = 'options'): Fault => ({
    file,
    path,
    ...says.noEffect(needed, got),
  });
  const given = (rules: readonly (keyof House)[]) => rules.filter((rule) => options.house?.[rule] !== undefined);
  if (options.choice === 'fastest') {
    const named = [
      ...OF_THE_PLAN.filter((key) => options[key] !== undefined),
      ...given(HOUSE_OF_THE_PLAN).map((rule) => `house.${rule}`),
    ];
    return named.map((path) => idle(path, 'the choice "planned"', '"fastest"'));
  }
  return [
    ...(boat.engine === undefined && house.motorBelowKn !== null
      ? [
          given(['motorBelowKn']).length > 0
            ? idle('house.motorBelowKn', 'an engine in the boat file', 'none')
            : idle('house.motorBelowKn', 'an engine', 'none', 'boat'),
        ]
      : []),
    ...(options.replanHours !== undefined && options.horizonHours === undefined
      ? [idle('replanHours', 'a horizon', 'none')]
      : []),
    ...(house.squalls
      ? []
      : given(HOUSE_OF_SQUALLS).map((rule) => idle(`house.${rule}`, 'squalls to be allowed for', 'that they are not'))),
  ];
}
