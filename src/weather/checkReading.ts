import { InputError } from '../errors.js';
import { checkTypes } from '../given.js';
import { says } from '../wording.js';
import type { ReadForecastOptions } from './readForecast.js';
import type { ForecastSource } from './readRows.js';

/**
 * The files to read, after a look at what a caller without types gave for them and for the options: a file's text, say.
 * @throws InputError where they are none
 */
export function sourcesGiven(
  sources: ForecastSource | readonly ForecastSource[],
  options: ReadForecastOptions,
  file: string,
): readonly ForecastSource[] {
  const list: readonly ForecastSource[] = Array.isArray(sources) ? sources : [sources as ForecastSource];
  for (const source of list as readonly (Partial<ForecastSource> | null | undefined)[])
    if (typeof source?.name !== 'string' || typeof source.open !== 'function')
      throw new InputError([{ file, ...says.fileSource(source) }]);
  checkTypes(options, {
    crop: 'function?',
    columns: 'object?',
    onColumns: 'function?',
    needsWind: 'boolean?',
    member: 'string?',
    signal: 'object?',
    onProgress: 'function?',
  });
  for (const [role, choice] of Object.entries(options.columns ?? {}))
    checkTypes(choice, { name: 'string', unit: 'string?' }, 'options', `columns.${role}`);
  return list;
}
