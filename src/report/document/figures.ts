import { escaped } from '../drawing/svg.js';
import { tag } from './html.js';
import { valueAt } from './valueAt.js';

/** The figures of a report: what is shown of a record, each with the place it has in the JSON of that record. */
export interface Figures {
  /** A number or an instant in a sentence, as it is told; `path` is where the JSON has it: `totals.hours`, `curve[3].hours`. */
  readonly told: (path: string, text: string) => string;
}

/**
 * Figures read from a JSON that is written beside the report, so that a reader can go from any of them to its place there, and a test can hold
 * the two against each other.
 * @throws Error where the JSON has no such place: a figure that no file holds is not to be shown
 */
export function figuresOf(json: unknown): Figures {
  return {
    told(path, text) {
      const value = valueAt(json, path);
      if (typeof value !== 'number' && typeof value !== 'string') throw new Error(`the JSON has no figure at ${path}`);
      return tag('data', { value: `${value}`, 'data-of': path }, escaped(text));
    },
  };
}
