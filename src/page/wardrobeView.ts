import { AREA_M2 } from '../boat/boat.js';
import { byId, h } from './dom.js';
import type { BoatSeen, Wardrobe } from './messages.js';

const NAMES = ['Wardrobe A', 'Wardrobe B'] as const;

/** Draws the wardrobes anew for a boat: sails to leave ashore, and one to add; what was changed stays so, as far as she has it. */
export function showWardrobes(boat: BoatSeen | undefined, onChange: () => void): void {
  const before = boat === undefined ? [] : NAMES.map((_, i) => changesIn(i));
  for (const i of NAMES.keys()) {
    const place = byId(`wardrobe-${i}`);
    if (boat === undefined) {
      place.replaceChildren(h('p', {}, 'Put a boat file here first.'));
      continue;
    }
    place.replaceChildren(
      h('p', {}, 'Untick what stays ashore.'),
      h(
        'div',
        { class: 'ticks' },
        ...boat.sails.map(({ id, kind, areaM2 }) =>
          h(
            'label',
            { class: 'tick' },
            h('input', {
              type: 'checkbox',
              checked: !before[i]!.ashore.has(id),
              name: `sail-${i}`,
              value: id,
              onchange: onChange,
            }),
            h('span', {}, `${id} `, h('small', {}, `${kind}${areaM2 === undefined ? '' : `, ${areaM2}\u00a0m²`}`)),
          ),
        ),
      ),
      h(
        'div',
        { class: 'row' },
        h(
          'label',
          { for: `add-${i}` },
          'Add a sail',
          h(
            'select',
            { id: `add-${i}`, onchange: onChange },
            h('option', { value: '' }, 'none'),
            ...boat.kinds.map((kind) => h('option', { value: kind, selected: kind === before[i]!.add }, kind)),
          ),
        ),
        h(
          'label',
          { for: `area-${i}` },
          'of m² (empty: by her rig)',
          h('input', {
            id: `area-${i}`,
            type: 'number',
            value: before[i]!.area,
            min: AREA_M2[0],
            max: AREA_M2[1],
            step: 'any',
            onchange: onChange,
          }),
        ),
      ),
    );
  }
}

/** What was changed of a wardrobe, where it stands on the page. */
function changesIn(i: number): { readonly ashore: ReadonlySet<string>; readonly add: string; readonly area: string } {
  const ticks = [...document.querySelectorAll<HTMLInputElement>(`input[name=sail-${i}]`)];
  return {
    ashore: new Set(ticks.flatMap(({ checked, value }) => (checked ? [] : [value]))),
    add: document.querySelector<HTMLSelectElement>(`#add-${i}`)?.value ?? '',
    area: document.querySelector<HTMLInputElement>(`#area-${i}`)?.value ?? '',
  };
}

/** The wardrobes as they stand on the page: the second where it is compared. */
export function wardrobesOn(page: Document, compares: boolean): readonly Wardrobe[] {
  return NAMES.slice(0, compares ? 2 : 1).map((name, i) => {
    const ticks = [...page.querySelectorAll<HTMLInputElement>(`input[name=sail-${i}]`)];
    const kind = byId<HTMLSelectElement>(`add-${i}`).value as NonNullable<Wardrobe['add']>['kind'] | '';
    const area = byId<HTMLInputElement>(`area-${i}`).valueAsNumber;
    return {
      name,
      without: ticks.filter(({ checked }) => !checked).map(({ value }) => value),
      ...(kind === '' ? {} : { add: { kind, ...(Number.isNaN(area) ? {} : { areaM2: area }) } }),
    };
  });
}
