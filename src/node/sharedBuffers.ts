/**
 * The same record with its typed arrays in memory that threads share, so that each thread does not hold a copy of a forecast.
 * @internal
 */
export function inSharedBuffers<Value>(value: Value): Value {
  // What several records have in common, as the drawings of a climatology, they go on having in common.
  const copies = new Map<object, unknown>();
  const copyOf = <Typed extends Float32Array | Float64Array>(from: Typed, into: () => Typed) => {
    if (!copies.has(from)) copies.set(from, copied(from, into()));
    return copies.get(from);
  };
  const shared = (value: unknown): unknown => {
    if (value instanceof Float32Array)
      return copyOf(value, () => new Float32Array(new SharedArrayBuffer(value.byteLength)));
    if (value instanceof Float64Array)
      return copyOf(value, () => new Float64Array(new SharedArrayBuffer(value.byteLength)));
    if (Array.isArray(value)) return value.map(shared);
    if (typeof value !== 'object' || value === null) return value;
    return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, shared(inner)]));
  };
  return shared(value) as Value;
}

function copied<Typed extends Float32Array | Float64Array>(from: ArrayLike<number>, into: Typed): Typed {
  into.set(from);
  return into;
}
