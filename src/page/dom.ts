type Props = Readonly<Record<string, string | number | boolean | ((event: Event) => void) | undefined>>;

/** An element with attributes, listeners (`onclick`) and what stands in it; texts are texts, never markup. */
export function h<Name extends keyof HTMLElementTagNameMap>(
  name: Name,
  props: Props = {},
  ...inside: readonly (Node | string)[]
): HTMLElementTagNameMap[Name] {
  const element = document.createElement(name);
  for (const [key, value] of Object.entries(props)) {
    if (value === undefined || value === false) continue;
    if (typeof value === 'function') element.addEventListener(key.slice(2), value);
    else element.setAttribute(key, value === true ? '' : `${value}`);
  }
  element.append(...inside);
  return element;
}

/** The element of an id that the page has. */
export function byId<Kind extends HTMLElement = HTMLElement>(id: string): Kind {
  const found = document.getElementById(id);
  if (found === null) throw new Error(`the page has no #${id}`);
  return found as Kind;
}

/** The least and the most that a field takes. */
export function limit(field: HTMLInputElement, [min, max]: readonly [number, number]): void {
  field.min = `${min}`;
  field.max = `${max}`;
}
