import { codeAt } from '../drawing/codePlate.js';
import type { Fill } from '../drawing/palette.js';
import { element, escaped } from '../drawing/svg.js';
import { tag } from './html.js';

/** What a fill in charts stands for. */
export interface Key {
  readonly id: string;
  readonly code: string;
  readonly fill: Fill;
  /** What is told behind the name. */
  readonly told: string;
}

/** The letters, patterns and names of sail plans. */
export function keysOf(keys: readonly Key[]): string {
  return tag(
    'ul',
    { class: 'keys' },
    ...keys.map(({ id, code, fill, told }) =>
      tag(
        'li',
        {},
        tag(
          'svg',
          { width: 46, height: 22, 'aria-hidden': 'true' },
          element('rect', { x: 0.5, y: 0.5, width: 45, height: 21, fill: fill.tint }),
          element('rect', { class: 'edge', x: 0.5, y: 0.5, width: 45, height: 21, fill: `url(#${fill.id})` }),
          codeAt(23, 11, code),
        ),
        tag('span', {}, `${tag('b', {}, escaped(code))} ${escaped(id)} ${escaped(told)}`),
      ),
    ),
  );
}
