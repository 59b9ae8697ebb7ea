import { escaped, rounded } from '../drawing/svg.js';

/** Attributes of an element; undefined and false are left out, true stands without a value. */
export type HtmlAttributes = Readonly<Record<string, string | number | boolean | undefined>>;

/** An element of HTML with what stands in it, which is markup already; texts go through `escaped` first. */
export function tag(name: string, attributes: HtmlAttributes, ...inside: readonly string[]): string {
  const written = Object.entries(attributes).flatMap(([key, value]) => {
    if (value === undefined || value === false) return [];
    if (value === true) return ` ${key}`;
    return ` ${key}="${typeof value === 'number' ? rounded(value) : escaped(value)}"`;
  });
  const start = `<${name}${written.join('')}>`;
  return VOID.has(name) ? start : `${start}${inside.join('')}</${name}>`;
}

/** Elements that hold nothing and have no end tag. */
const VOID: ReadonlySet<string> = new Set(['br', 'col', 'hr', 'input', 'link', 'meta']);

export const paragraphOf = (text: string) => tag('p', {}, escaped(text));

export const listOf = (items: readonly string[]) => tag('ul', {}, ...items.map((item) => tag('li', {}, escaped(item))));
