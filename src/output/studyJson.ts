import type { PassageOptions } from '../passage/passage.js';
import type { StudySummary } from '../study/study.js';
import { rounded } from './format.js';
import type { InputDigest } from './planJson.js';

/** What a study was made of, and what came of it. */
export interface StudyToPrint {
  /** Of everything the passages depend on. */
  readonly digest: string;
  readonly routes: readonly string[];
  readonly boats: readonly string[];
  readonly weathers: readonly string[];
  readonly starts: readonly string[];
  readonly options: Omit<PassageOptions, 'departure'>;
  readonly inputs: readonly InputDigest[];
  readonly summary: StudySummary;
}

/** `study.json`: what a study was made of and its summary. Numbers are rounded to 6 decimals. */
export function studyJson({ digest, summary, ...study }: StudyToPrint): string {
  const { passages, complete } = summary.all;
  return `${JSON.stringify({ formatVersion: 1, digest, passages, complete, ...study, summary }, rounded, 1)}\n`;
}
