import type { Fault } from '../errors.js';
import type { PassageOptions } from '../passage/passage.js';
import type { StudySummary } from '../study/study.js';
import type { DrawOptions } from '../weather/weather.js';
import { rounded } from './format.js';
import type { InputDigest } from './planJson.js';

/** What a study was made of, and what came of it. */
export interface StudyToPrint {
  /** Of everything the passages depend on. */
  readonly digest: string;
  readonly routes: readonly string[];
  readonly boats: readonly string[];
  /** In what the money of each boat is, null where her file has prices and does not say; absent: nothing is said of it. */
  readonly currencies?: readonly (string | null)[];
  readonly weathers: readonly string[];
  readonly starts: readonly string[];
  readonly options: Omit<PassageOptions, 'departure'>;
  readonly inputs: readonly InputDigest[];
  readonly warnings: readonly Fault[];
  /** Of synthetic weather: how it was drawn. */
  readonly draws?: DrawOptions & { readonly count: number };
  readonly summary: StudySummary;
}

/** The study that an answer rests on. */
export type StudyBehind = Pick<
  StudyToPrint,
  'digest' | 'inputs' | 'routes' | 'weathers' | 'starts' | 'options' | 'warnings'
>;

/**
 * `study.json`: what a study was made of and its summary. Numbers are rounded to 6 decimals.
 * @example
 * JSON.parse(studyJson(sample.studied))
 * // { formatVersion: 1, starts: ['2027-01-11T12:00:00Z', '2027-01-12T12:00:00Z'], … }
 */
export function studyJson({ digest, summary, ...study }: StudyToPrint): string {
  const { passages, complete } = summary.all;
  return `${JSON.stringify({ formatVersion: 1, digest, passages, complete, ...study, summary }, rounded, 1)}\n`;
}
