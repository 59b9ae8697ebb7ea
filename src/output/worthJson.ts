import type { NextSail, Worth } from '../worth/worth.js';
import { inTwoDigits, rounded } from './format.js';
import type { StudyBehind } from './studyJson.js';

/** What of a study an answer rests on. */
const restsOn = ({ digest, inputs, routes, weathers, starts, options, warnings }: StudyBehind) => ({
  digest,
  routes,
  weathers,
  starts,
  options,
  inputs,
  warnings,
});

type Compared = Pick<Worth, 'money'>;

/** What a sail wears by constants without a source is told to two digits. */
const inDigits = <One extends Compared>(one: One): One => ({
  ...one,
  money: { ...one.money, ownWear: inTwoDigits(one.money.ownWear) },
});

/**
 * `worth.json`: every difference B minus A, the money, how the answer turns, and the study it rests on. Numbers to 6 decimals.
 * @example
 * JSON.parse(worthJson(sample.worth, sample.studied)) // { formatVersion: 1, … }
 */
export const worthJson = ({ rivals, ...worth }: Worth, study: StudyBehind): string =>
  `${JSON.stringify({ ...inDigits(worth), rivals: rivals.map(inDigits), study: restsOn(study) }, rounded, 1)}\n`;

/**
 * `next-sail.json`: every sail that was tried, the one that saves most first, and the study it rests on.
 * @example
 * JSON.parse(nextSailJson(sample.next, sample.studied)) // { formatVersion: 1, rankedBy: 'net', … }
 */
export const nextSailJson = ({ rows, ...next }: NextSail, study: StudyBehind): string =>
  `${JSON.stringify(
    {
      ...next,
      rows: rows.map(({ comparison, ...row }) => ({ ...row, comparison: inDigits(comparison) })),
      study: restsOn(study),
    },
    rounded,
    1,
  )}\n`;
