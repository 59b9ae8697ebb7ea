import { dsvFormat } from 'd3-dsv';

/** The same rows as `parseRows` gives in Node. */
export function parseRows(text: string, delimiter: string): string[][] {
  return dsvFormat(delimiter).parseRows(text);
}
