import type { Boat } from '../../boat/boat.js';
import { type Origin, SOURCES } from '../../catalogue/catalogue.js';
import type { WearConstant } from '../../wear/wear.js';
import { dataTable } from './dataTable.js';
import { folded } from './figure.js';
import { paragraphOf } from './html.js';
import { valueAt } from './valueAt.js';

/** What marks of a value mean, in words. */
const MARKS: Readonly<Record<Origin['status'], string>> = {
  source: 'from a source',
  derived: 'derived',
  'common-practice': 'common practice, no source',
  placeholder: 'PLACEHOLDER without a source',
};

/** Every value of the wardrobe that the boat file left out, with its source or mark. */
export function wardrobeMarks(sails: Boat['sails']): string {
  const rows = sails.flatMap((sail, i) =>
    Object.entries(sail.derived ?? {}).map(([path, origin]) => ({
      i,
      id: sail.id,
      path,
      origin,
      value: valueAt(sail, path),
    })),
  );
  if (rows.length === 0) return paragraphOf('The boat file says all of the wardrobe itself: nothing was filled in.');
  const placeholders = rows.filter(({ origin }) => origin.status === 'placeholder').length;
  return folded(
    `Values of the wardrobe that the boat file left out: ${rows.length}, of which ${placeholders} are placeholders without a source`,
    dataTable({
      caption: 'Filled in by kind and rig',
      of: 'wardrobe.sails',
      rows,
      columns: [
        { head: 'sail', text: ({ id }) => id },
        { head: 'what', text: ({ path }) => path },
        {
          head: 'value',
          field: '',
          text: ({ value }) => (typeof value === 'string' ? value : JSON.stringify(value ?? null)),
        },
        { head: 'mark', text: ({ origin }) => MARKS[origin.status] },
        { head: 'source', text: ({ origin }) => sourceText(origin) },
      ],
      keyOf: ({ i, path }) => `${i}.${path}`,
    }),
  );
}

/** The constants of wear with their marks. */
export function wearMarks(constants: readonly WearConstant[]): string {
  if (constants.length === 0) return '';
  const placeholders = constants.filter(({ status }) => status === 'placeholder').length;
  const number = (value: number) => `${Number(value.toPrecision(6))}`;
  return folded(
    `Constants of wear: ${constants.length}, of which ${placeholders} are placeholders without a source`,
    dataTable({
      caption: 'Constants of wear',
      of: 'wear.constants',
      rows: constants,
      columns: [
        { head: 'of', text: ({ of }) => of },
        { head: 'constant', text: ({ name }) => name },
        { head: 'low', field: 'low', text: ({ low }) => number(low), isNumber: true },
        { head: 'mid', field: 'mid', text: ({ mid }) => number(mid), isNumber: true },
        { head: 'high', field: 'high', text: ({ high }) => number(high), isNumber: true },
        { head: 'mark', text: ({ status }) => (status === 'boat-file' ? 'the boat file' : MARKS[status]) },
        { head: 'source', text: (constant) => sourceText(constant) },
      ],
    }),
  );
}

function sourceText({ source, basis }: Pick<Origin, 'source' | 'basis'>): string {
  return [...(source === undefined ? [] : [SOURCES[source]]), ...(basis === undefined ? [] : [basis])].join('; ');
}
