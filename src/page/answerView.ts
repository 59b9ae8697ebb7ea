import { comparisonOf, instant, isCompared } from './comparison.js';
import { byId, h } from './dom.js';
import { boatToTake, filesToTake, release } from './downloads.js';
import { faultList } from './filesView.js';
import type { Planned, Side } from './messages.js';
import { reports } from './reportView.js';

/** Shows what came of it: the answer, the trade-off, what to take away, and the report. */
export function showAnswer({ sides, refused, tradeoff }: Planned): void {
  release();
  const tradeoffPlace = h('div', { id: 'tradeoff' });
  // Markup of the library, in which every name is escaped.
  tradeoffPlace.innerHTML = tradeoff;
  const isOne = sides.length === 1 && refused.length === 0;
  byId('answer').replaceChildren(
    ...refused.flatMap(({ name, faults }) => [
      h('h3', {}, `${name} cannot be planned`),
      faultList(faults.flatMap(({ told }) => told)),
    ]),
    ...sides
      .filter(({ complete }) => !complete)
      .map(({ name, firstLine }) => h('p', { class: 'status' }, isOne ? firstLine : `${name}: ${firstLine}`)),
    ...sides.flatMap(({ name, warnings }) =>
      warnings.length === 0 ? [] : [h('h3', {}, isOne ? 'Warnings' : `Warnings of ${name}`), faultList(warnings)],
    ),
    sidesTable(sides),
    wearTable(sides),
    ...(tradeoff === '' ? [] : [h('h3', {}, 'What sail changes buy'), tradeoffPlace]),
    ...sides.flatMap((side) => [
      h('h3', {}, isOne ? 'Take it away' : `Files of ${side.name}`),
      filesToTake(side),
      boatToTake(side),
    ]),
    ...reports(sides),
  );
}

/** Nothing came of it, and why. */
export function showFaults(lines: readonly string[]): void {
  release();
  byId('answer').replaceChildren(h('h3', {}, 'It cannot be planned'), faultList(lines));
}

/** Nothing is shown but a sentence. */
export function showText(text: string): void {
  release();
  byId('answer').replaceChildren(h('p', {}, text));
}

/** When each arrives, and with how many changes. */
export const inShort = ({ sides, refused }: Planned) =>
  [
    ...sides.map(({ name, complete, end, changes }) => {
      const who = sides.length + refused.length === 1 ? '' : `${name}: `;
      return `${who}${complete ? 'arrives' : 'breaks off'} ${instant(end)} UTC, ${changes} sail changes`;
    }),
    ...refused.map(({ name }) => `${name} cannot be planned`),
  ].join('; ');

const number = (text: string) => h('td', { class: 'number' }, text);
const head = (text: string, span?: number) =>
  h('th', { scope: span === undefined ? 'col' : 'colgroup', class: 'number', colspan: span }, text);

/** Wardrobes in columns, and how they differ. */
function sidesTable(sides: readonly Side[]): HTMLElement {
  const columns = [...sides.map(({ name }) => name), ...(isCompared(sides) ? ['B less A'] : [])];
  return scrolling(
    'The plan in numbers',
    h(
      'table',
      { id: 'sides' },
      h('caption', {}, 'The plan in numbers'),
      h('thead', {}, h('tr', {}, h('td', {}), ...columns.map((text) => head(text)))),
      h(
        'tbody',
        {},
        ...comparisonOf(sides).map(({ name, cells, difference = '' }) =>
          h(
            'tr',
            {},
            h('th', { scope: 'row' }, name),
            ...cells.map(number),
            ...(isCompared(sides) ? [number(difference)] : []),
          ),
        ),
      ),
    ),
  );
}

/** What the passage takes of each sail's life, and what is left. */
function wearTable(sides: readonly Side[]): HTMLElement {
  const sails = [...new Set(sides.flatMap(({ worn }) => worn.map(({ sail }) => sail)))];
  const heads = h('tr', {}, ...sides.flatMap(() => [head('takes'), head('left')]));
  const cellsOf = ({ worn }: Side, id: string) => {
    const one = worn.find(({ sail }) => sail === id);
    if (one === undefined) return [number('not aboard'), number('')];
    return [number(one.takes ?? 'not known'), number(one.left ?? 'not known')];
  };
  const names = sides.length === 1 ? [] : [h('tr', {}, h('td', {}), ...sides.map(({ name }) => head(name, 2)))];
  heads.prepend(h('td', {}));
  return scrolling(
    'Life of the sails',
    h(
      'table',
      { id: 'wear' },
      h(
        'caption',
        {},
        'Life of the sails: what the passage takes of it, and what is left (least and most in brackets)',
      ),
      h('thead', {}, ...names, heads),
      h(
        'tbody',
        {},
        ...sails.map((id) => h('tr', {}, h('th', { scope: 'row' }, id), ...sides.flatMap((side) => cellsOf(side, id)))),
      ),
    ),
  );
}

const scrolling = (label: string, table: HTMLElement) =>
  h('div', { class: 'scrolls', role: 'group', 'aria-label': label, tabindex: 0 }, table);
