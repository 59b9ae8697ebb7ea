import { describeFault, type Fault } from '../../errors.js';
import type { InputDigest } from '../../output/output.js';
import { escaped } from '../drawing/svg.js';
import { dataTable } from './dataTable.js';
import { listOf, paragraphOf, tag } from './html.js';

/** What a report is made of, beside its figures. */
export interface Behind {
  readonly warnings: readonly Fault[];
  readonly inputs: readonly Pick<InputDigest, 'role' | 'file' | 'sha256' | 'member'>[];
  readonly options: object;
  /** Names of options whose default has no source. */
  readonly placeholders?: readonly string[];
  /** The version of this program; absent: not told. */
  readonly version?: string;
  readonly formatVersion?: number;
  /** Where in the JSON inputs and options are: `study.`; absent: at its root. */
  readonly of?: string;
}

/** Warnings, inputs with their digests, options and versions. */
export function behindMarkup({
  warnings,
  inputs,
  options,
  placeholders = [],
  version,
  formatVersion,
  of = '',
}: Behind): string {
  const settings = flattened(options);
  return [
    tag('h3', {}, 'Warnings'),
    warnings.length === 0 ? paragraphOf('None.') : listOf(warnings.map(describeFault)),
    dataTable({
      caption: 'Inputs',
      of: `${of}inputs`,
      rows: inputs,
      columns: [
        { head: 'input', text: ({ role }) => role },
        {
          head: 'file',
          field: 'file',
          text: ({ file, member }) => `${file}${member === undefined ? '' : `, member ${member}`}`,
        },
        { head: 'SHA-256', field: 'sha256', text: ({ sha256 }) => sha256 },
      ],
    }),
    dataTable({
      caption: 'Options',
      of: `${of}options`,
      rows: settings,
      columns: [
        { head: 'option', text: ({ path }) => path },
        { head: 'value', field: '', text: ({ value }) => value },
        {
          head: 'mark',
          text: ({ path }) =>
            placeholders.some((name) => path === name || path.endsWith(`.${name}`))
              ? 'default, a placeholder without a source'
              : '',
        },
      ],
      keyOf: ({ path }) => path,
    }),
    tag('h3', {}, 'Versions'),
    tag(
      'p',
      {},
      escaped(
        [
          version === undefined ? 'windwardrobe, its version not told' : `windwardrobe ${version}`,
          ...(formatVersion === undefined ? [] : [`format ${formatVersion} of the JSON beside it`]),
        ].join('; '),
      ),
    ),
  ].join('');
}

/** Every option by its path, with its value as JSON has it. */
function flattened(value: object, before = ''): { readonly path: string; readonly value: string }[] {
  return Object.entries(value).flatMap(([key, one]: [string, unknown]) => {
    const path = `${before}${key}`;
    if (one !== null && typeof one === 'object' && !Array.isArray(one) && Object.keys(one).length > 0)
      return flattened(one, `${path}.`);
    return [{ path, value: typeof one === 'string' ? one : JSON.stringify(one) }];
  });
}
