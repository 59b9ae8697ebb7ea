import { withoutUnseen } from '../../errors.js';

/** Attributes of an element; numbers are written with at most 2 decimals, undefined ones are left out. */
export type Attributes = Readonly<Record<string, string | number | undefined>>;

/** An element with what stands in it, which is markup already; texts go through `escaped` first. */
export function element(name: string, attributes: Attributes, ...inside: readonly string[]): string {
  const written = Object.entries(attributes).flatMap(([key, value]) =>
    value === undefined ? [] : ` ${key}="${typeof value === 'number' ? rounded(value) : escaped(value)}"`,
  );
  const start = `<${name}${written.join('')}`;
  return inside.length === 0 ? `${start}/>` : `${start}>${inside.join('')}</${name}>`;
}

/** A text at a place, with y at its baseline. */
export function textAt(x: number, y: number, text: string, attributes: Attributes = {}): string {
  return element('text', { x, y, ...attributes }, escaped(text));
}

/** A number with at most 2 decimals; never "-0". */
export const rounded = (value: number) => `${Number(value.toFixed(2)) + 0}`;

/** A text of an input as it may be shown: nothing unseen, nothing that XML cannot hold, one space at a time. */
export const shown = (text: string) => withoutUnseen(text, ' ').replace(UNHOLDABLE, ' ').replace(/ +/g, ' ').trim();

/** Halves of a pair without the other, and the two code points that XML 1.0 forbids beyond the controls. */
const UNHOLDABLE = /[\p{Cs}\ufffe\uffff]/gu;

/** A text as it stands between tags or in an attribute. */
export const escaped = (text: string) => shown(text).replace(/[&<>"']/g, (mark) => ENTITIES[mark] ?? ' ');

const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&apos;',
};
