import type { Figure, Origin } from '../catalogue/catalogue.js';

/** Where each filled-in value comes from, by its path in the sail. */
export type Marks = Record<string, Origin>;

/** Defaults of a part of a sail: figures, or parts of parts. */
export type Defaults = { readonly [key: string]: Figure<unknown> | Defaults | undefined };

/** What is given, and for each field that is not, its default with a mark. */
export function filled(given: unknown, defaults: Defaults, path: string, marks: Marks): Record<string, unknown> {
  const part: Record<string, unknown> = {};
  const from = (given ?? {}) as Record<string, unknown>;
  for (const key of new Set([...Object.keys(defaults), ...Object.keys(from)])) {
    const [value, usual] = [from[key], defaults[key]];
    const at = path === '' ? key : `${path}.${key}`;
    if (usual === undefined) {
      if (value !== undefined) part[key] = value;
    } else if (!isFigure(usual)) part[key] = filled(value, usual, at, marks);
    else if (value !== undefined) part[key] = value;
    // That there is no limit is no value that could be doubted.
    else part[key] = usual.value === null ? null : marked(usual, at, marks);
  }
  return part;
}

const isFigure = (part: Figure<unknown> | Defaults): part is Figure<unknown> => typeof part.status === 'string';

function marked<Value>({ value, ...origin }: Figure<Value>, path: string, marks: Marks): Value {
  marks[path] = origin;
  return value;
}
