import type { Boat } from '../boat/boat.js';
import { InputError } from '../errors.js';
import { checkTypes, mustBeGiven } from '../given.js';
import { type PassageOptions, type PassageWeather, passagesFrom } from '../passage/passage.js';
import type { PolarSet } from '../polar/polar.js';
import type { Route } from '../route/route.js';
import { wearFor } from '../wear/wear.js';
import { says } from '../wording.js';
import { type PassageRecord, recordOf } from './record.js';

/** A weather of a study, under the name it is told by. */
export interface StudyWeather {
  readonly name: string;
  /** Of an ensemble. */
  readonly member?: string;
  /** Which drawing of a climatology, from 1. */
  readonly draw?: number;
  readonly weather: PassageWeather;
}

/** A boat of a study, under the name it is told by. */
export interface StudyBoat {
  readonly name: string;
  readonly boat: Boat;
  readonly polars: PolarSet;
  /** Whether hours on a knife's edge are counted, which takes half as long again. */
  readonly firmness?: boolean;
}

/** What is sailed: each route with each boat in each weather from each start. */
export interface Study {
  readonly routes: readonly { readonly name: string; readonly route: Route }[];
  readonly boats: readonly StudyBoat[];
  readonly weathers: readonly StudyWeather[];
  /** ISO 8601 with Z or an offset. */
  readonly starts: readonly string[];
  readonly options: Omit<PassageOptions, 'departure'>;
  /** Absent: all that routes, boats, weathers and starts make together. Those of one boat on one route are best told in a row. */
  readonly cases?: readonly Case[];
}

/** One passage of a study, by what it is made of. */
export interface Case {
  readonly route: number;
  readonly boat: number;
  readonly weather: number;
  readonly start: number;
}

/**
 * How many passages there are.
 * @throws InputError where the study is none
 * @example
 * casesIn(sample.study) // 2
 */
export function casesIn(study: Omit<Study, 'options'>): number {
  checkTypes(study, PARTS, 'study');
  const { routes, boats, weathers, starts, cases } = study;
  return cases?.length ?? routes.length * boats.length * weathers.length * starts.length;
}

const PARTS = {
  routes: 'object[]',
  boats: 'object[]',
  weathers: 'object[]',
  starts: 'string[]',
  cases: 'object[]?',
} as const;

/**
 * The n-th passage, from 0: where cases are not told, starts follow one another, then weathers, boats and routes.
 * @throws InputError where the study is none
 * @example
 * caseOf(sample.study, 1) // { start: 1, weather: 0, boat: 0, route: 0 }
 */
export function caseOf(study: Omit<Study, 'options'>, n: number): Case {
  mustBeGiven(study, 'weathers', 'study', 'loadStudy');
  const { boats, weathers, starts, cases } = study;
  if (cases !== undefined) return cases[n]!;
  const [start, byStart] = [n % starts.length, Math.floor(n / starts.length)];
  const [weather, byWeather] = [byStart % weathers.length, Math.floor(byStart / weathers.length)];
  return { start, weather, boat: byWeather % boats.length, route: Math.floor(byWeather / boats.length) };
}

/**
 * Sails the passages of a study one by one, by their numbers; each comes out the same whatever was sailed before it.
 * @throws InputError where the study, an option or a number is none, or a passage cannot start
 * @example
 * const passage = studySailer(sample.study);
 * passage(1) // { n: 1, departure: '2027-01-12T12:00:00Z', complete: true, … }
 */
export function studySailer(study: Study): (n: number) => PassageRecord {
  const most = casesIn(study) - 1;
  let last:
    | {
        readonly key: number;
        readonly sail: ReturnType<typeof passagesFrom>;
        readonly wearIn: ReturnType<typeof wearFor>;
      }
    | undefined;
  return (n) => {
    if (!(Number.isInteger(n) && n >= 0 && n <= most))
      throw new InputError([
        { file: 'study', path: 'n', ...says.wrongValue(`a passage from 0 to ${most}`, String(n)) },
      ]);
    const { route, boat, weather, start } = caseOf(study, n);
    const key = route * study.boats.length + boat;
    const one = study.boats[boat]!;
    // Routes and boats follow one another: what was sailed is seldom come back to.
    if (last?.key !== key) {
      const { boat, polars, firmness = false } = one;
      const sail = passagesFrom({ route: study.routes[route]!.route, boat, polars }, study.options, { firmness });
      last = { key, sail, wearIn: wearFor(boat) };
    }
    const { name, member, draw, weather: blowing } = study.weathers[weather]!;
    const passage = last.sail(blowing, study.starts[start]!);
    return recordOf(passage, one.boat, last.wearIn(passage), {
      n,
      route: study.routes[route]!.name,
      boat: one.name,
      weather: name,
      member: member ?? null,
      draw: draw ?? null,
    });
  };
}
