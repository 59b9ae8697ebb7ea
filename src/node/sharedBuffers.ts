/**
 * The same record with its typed arrays in memory that threads share, so that each thread does not hold a copy of a forecast.
 * @internal
 */
export function inSharedBuffers<Value>(value: Value): Value {
  return shared(value) as Value;
}

function shared(value: unknown): unknown {
  if (value instanceof Float32Array) return copied(value, new Float32Array(new SharedArrayBuffer(value.byteLength)));
  if (value instanceof Float64Array) return copied(value, new Float64Array(new SharedArrayBuffer(value.byteLength)));
  if (Array.isArray(value)) return value.map(shared);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, shared(inner)]));
}

function copied<Typed extends Float32Array | Float64Array>(from: ArrayLike<number>, into: Typed): Typed {
  into.set(from);
  return into;
}
