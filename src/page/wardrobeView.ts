import { byId, h } from './dom.js';
import type { BoatSeen, Wardrobe } from './messages.js';

const NAMES = ['Wardrobe A', 'Wardrobe B'] as const;

/** Draws the wardrobes anew for a boat: sails to leave ashore, and one to add. */
export function showWardrobes(boat: BoatSeen | undefined, onChange: () => void): void {
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
            h('input', { type: 'checkbox', checked: true, name: `sail-${i}`, value: id, onchange: onChange }),
            ` ${id} `,
            h('small', {}, `${kind}${areaM2 === undefined ? '' : `, ${areaM2} m²`}`),
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
            ...boat.kinds.map((kind) => h('option', { value: kind }, kind)),
          ),
        ),
        h(
          'label',
          { for: `area-${i}` },
          'of m² (empty: by her rig)',
          h('input', { id: `area-${i}`, type: 'number', min: 1, max: 2000, step: 'any', onchange: onChange }),
        ),
      ),
    );
  }
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
