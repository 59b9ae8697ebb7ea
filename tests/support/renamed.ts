/** Names in test inputs that are to be made hostile begin so: a word of small letters. */
const MARKED = /qq[a-z]+/g;

/** A record, or a text, in which a text stands before every marked name, in keys too. */
export function renamed<Value>(value: Value, before: string): Value {
  if (typeof value === 'string') return value.replace(MARKED, (name) => before + name) as Value;
  if (Array.isArray(value)) return value.map((item) => renamed(item, before)) as Value;
  if (typeof value !== 'object' || value === null || Object.getPrototypeOf(value) !== Object.prototype) return value;
  return Object.fromEntries(
    Object.entries(value).map(([key, inner]) => [renamed(key, before), renamed(inner, before)]),
  ) as Value;
}
