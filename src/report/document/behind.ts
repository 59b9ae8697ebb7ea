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
  /** Where each option comes from, by its path; absent: all were given. */
  readonly marks?: Readonly<Record<string, string>>;
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
  marks = {},
  version,
  formatVersion,
  of = '',
}: Behind): string {
  // What is itself a mark of others is told beside them.
  const settings = flattened(options).filter(({ path }) => !/^placeholders\b/.test(path));
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
          text: ({ path }) => marks[path] ?? 'given',
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
