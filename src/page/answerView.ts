import { strToU8, zipSync } from 'fflate';
import { byId, h } from './dom.js';
import { faultList } from './filesView.js';
import type { Side } from './messages.js';

/** Shows what came of it: the answer, the trade-off, what to take away, and the report. */
export function showAnswer(sides: readonly Side[], tradeoff: string): void {
  const place = byId('answer');
  release();
  const tradeoffPlace = h('div', { id: 'tradeoff' });
  // Markup of the library, in which every name is escaped.
  tradeoffPlace.innerHTML = tradeoff;
  place.replaceChildren(
    ...sides
      .filter(({ complete }) => !complete)
      .map(({ name, firstLine }) => h('p', { class: 'status' }, `${name}: ${firstLine}`)),
    sidesTable(sides),
    ...(tradeoff === '' ? [] : [h('h3', {}, 'What sail changes buy'), tradeoffPlace]),
    ...sides.flatMap((side) => [
      h('h3', {}, sides.length === 1 ? 'Take it away' : `Take ${side.name} away`),
      downloads(side),
      ...(side.warnings.length === 0
        ? []
        : [h('h3', {}, sides.length === 1 ? 'Warnings' : `Warnings of ${side.name}`), faultList(side.warnings)]),
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
export const inShort = (sides: readonly Side[]) =>
  sides
    .map(({ name, complete, end, changes }) => {
      const who = sides.length === 1 ? '' : `${name}: `;
      return `${who}${complete ? 'arrives' : 'breaks off'} ${instant(end)} UTC, ${changes} sail changes`;
    })
    .join('; ');

const instant = (time: string) => time.slice(0, 16).replace('T', ' ');

/** Wardrobes in columns. */
function sidesTable(sides: readonly Side[]): HTMLElement {
  const row = (name: string, cell: (side: Side) => string) =>
    h('tr', {}, h('th', { scope: 'row' }, name), ...sides.map((side) => h('td', { class: 'number' }, cell(side))));
  const sails = [...new Set(sides.flatMap((side) => side.sails.map(({ id }) => id)))];
  const hoursOf = (side: Side, id: string) => side.sails.find((sail) => sail.id === id)?.hours;
  return h(
    'div',
    { class: 'scrolls', role: 'group', 'aria-label': 'The plan in numbers', tabindex: 0 },
    h(
      'table',
      { id: 'sides' },
      h('caption', {}, 'The plan in numbers'),
      h(
        'thead',
        {},
        h('tr', {}, h('td', {}), ...sides.map(({ name }) => h('th', { scope: 'col', class: 'number' }, name))),
      ),
      h(
        'tbody',
        {},
        row('Ends, UTC', ({ end }) => instant(end)),
        row('Arrives', ({ complete }) => (complete ? 'yes' : 'no')),
        row('Hours under way', ({ hours }) => hours.toFixed(1)),
        row('Sail changes', ({ changes }) => `${changes}`),
        row('of these by night', ({ nightChanges }) => `${nightChanges}`),
        ...sails.map((id) =>
          row(`${id}, h`, (side) => {
            const hours = hoursOf(side, id);
            if (hours === undefined) return 'not aboard';
            return hours === null ? 'ashore' : hours.toFixed(1);
          }),
        ),
      ),
    ),
  );
}

const TYPES: Readonly<Record<string, string>> = {
  csv: 'text/csv',
  json: 'application/json',
  md: 'text/markdown',
  gpx: 'application/gpx+xml',
  geojson: 'application/geo+json',
  html: 'text/html',
  zip: 'application/zip',
};

const held: string[] = [];

/** What an earlier answer held to be taken away. */
function release(): void {
  for (const url of held.splice(0)) URL.revokeObjectURL(url);
}

function link(name: string, part: BlobPart, text: string): HTMLElement {
  const url = URL.createObjectURL(new Blob([part], { type: TYPES[name.split('.').at(-1) ?? ''] ?? 'text/plain' }));
  held.push(url);
  return h('a', { href: url, download: name }, text);
}

function downloads({ name, files }: Side): HTMLElement {
  const letter = name.split(' ').at(-1)?.toLowerCase() ?? 'a';
  const zipped = zipSync(Object.fromEntries(Object.entries(files).map(([file, text]) => [file, strToU8(text)])));
  return h(
    'ul',
    { class: 'downloads' },
    ...Object.entries(files).map(([file, text]) => h('li', {}, link(file, text, file))),
    h('li', {}, link(`plan-${letter}.zip`, new Uint8Array(zipped), 'all of them, zipped')),
  );
}

/** The report of a wardrobe, chosen where there are two. */
function reports(sides: readonly Side[]): readonly HTMLElement[] {
  const frame = h('iframe', { title: 'Report of the plan', id: 'report' });
  const show = (side: Side) => {
    frame.title = sides.length === 1 ? 'Report of the plan' : `Report of the plan with ${side.name}`;
    frame.srcdoc = side.files['report.html'] ?? '';
  };
  const reachAll = () => {
    const page = frame.contentDocument?.documentElement;
    if (page !== undefined) frame.style.height = `${page.scrollHeight + 4}px`;
  };
  frame.addEventListener('load', () => {
    reachAll();
    const page = frame.contentDocument?.body;
    if (page !== undefined && page !== null) new ResizeObserver(reachAll).observe(page);
  });
  show(sides[0]!);
  const choice =
    sides.length === 1
      ? []
      : [
          h(
            'fieldset',
            { class: 'row' },
            h('legend', {}, 'Show the report of'),
            ...sides.map((side, i) =>
              h(
                'label',
                { class: 'tick' },
                h('input', { type: 'radio', name: 'shown', checked: i === 0, onchange: () => show(side) }),
                ` ${side.name}`,
              ),
            ),
          ),
        ];
  return [h('h3', {}, 'The report'), ...choice, frame];
}
