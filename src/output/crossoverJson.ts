import { answersOf, type Crossover } from '../crossover/crossover.js';
import { rounded } from './format.js';
import type { InputDigest } from './planJson.js';

/**
 * A crossover as JSON, with its answers in words and what it was made from; numbers are rounded to 6 decimals.
 * @example
 * JSON.parse(crossoverJson(sample.crossover))
 * // { formatVersion: 1, boat: 'Invented 45-foot catamaran', status: 'designed', … }
 */
export function crossoverJson(crossover: Crossover, inputs: readonly InputDigest[] = []): string {
  return `${JSON.stringify({ ...crossover, inputs, answers: answersOf(crossover) }, rounded, 1)}\n`;
}
