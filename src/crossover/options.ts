import type { Boat } from '../boat/boat.js';
import { GUST_OVER_MEAN } from '../catalogue/catalogue.js';
import { faultList } from '../errors.js';
import { checkTypes } from '../given.js';
import type { PolarSet } from '../polar/polar.js';
import { SKIPPER_FACTOR } from '../speed/speed.js';
import { says } from '../wording.js';
import type { SettledCrossoverOptions } from './record.js';

/** What a caller may set for a crossover. */
export interface CrossoverOptions {
  /** Winds, rising, 1 to 60 kn; absent: 4 to 40 by 2. */
  readonly twsKn?: readonly number[];
  /** Angles, rising, 0 to 180°; absent: by 5. */
  readonly twaDeg?: readonly number[];
  /** Absent: the boat's house rule, or 1.3. */
  readonly gustFactor?: number;
  /** Absent: the boat's house rule, or what goes with the polars. */
  readonly skipperFactor?: number;
  /** Leaves out sails that are not set in the dark. */
  readonly night?: boolean;
  /** Ids of sails to leave out: with a cloth go all its settings. */
  readonly without?: readonly string[];
  /** How much slower than the best catalogue sail makes a hole; absent: 15 %, a placeholder. */
  readonly holePercent?: number;
}

/** A placeholder: what a sailor would call much slower. */
const HOLE_PERCENT = 15;
const steps = (from: number, to: number, step: number) =>
  Array.from({ length: (to - from) / step + 1 }, (_, i) => from + i * step);
const MOST_POINTS = 400;

/** Fills in every default. @throws InputError with every option that is none */
export function settledCrossover(options: CrossoverOptions, boat: Boat, polars: PolarSet): SettledCrossoverOptions {
  checkTypes(options, {
    twsKn: 'number[]?',
    twaDeg: 'number[]?',
    night: 'boolean?',
    without: 'string[]?',
  });
  const faults = faultList();
  const file = 'options';
  const number = (path: 'gustFactor' | 'skipperFactor' | 'holePercent', min: number, max: number) => {
    const value = options[path];
    if (value !== undefined && !(typeof value === 'number' && value >= min && value <= max)) {
      faults.add({ file, path, ...says.number(min, max, String(value)) });
    }
  };
  number('gustFactor', 1, 3);
  number('skipperFactor', 0.3, 1.5);
  number('holePercent', 1, 90);
  const axis = (path: 'twsKn' | 'twaDeg', min: number, max: number) => {
    const values = options[path];
    const isRising = values?.every((value, i) => value >= min && value <= max && !(value <= values[i - 1]!)) ?? true;
    if (values !== undefined && (!isRising || values.length < 2 || values.length > MOST_POINTS)) {
      faults.add({
        file,
        path,
        ...says.wrongValue(
          `2 to ${MOST_POINTS} rising numbers from ${min} to ${max}`,
          `[${values.slice(0, 9).join(', ')}]`,
        ),
      });
    }
  };
  axis('twsKn', 1, 60);
  axis('twaDeg', 0, 180);
  const ids = boat.sails.map(({ id }) => id);
  (options.without ?? []).forEach((id, i) => {
    if (!ids.includes(id)) faults.add({ file, path: `without[${i}]`, ...says.sailAboard(ids, id) });
  });
  faults.throwIfAny();
  return {
    twsKn: options.twsKn ?? steps(4, 40, 2),
    twaDeg: options.twaDeg ?? steps(0, 180, 5),
    gustFactor: options.gustFactor ?? boat.house?.gustFactor ?? GUST_OVER_MEAN,
    skipperFactor: options.skipperFactor ?? boat.house?.skipperFactor ?? SKIPPER_FACTOR[polars.status],
    night: options.night ?? false,
    without: options.without ?? [],
    holePercent: options.holePercent ?? HOLE_PERCENT,
  };
}
