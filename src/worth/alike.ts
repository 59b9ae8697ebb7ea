import type { Boat } from '../boat/boat.js';
import type { PolarSet } from '../polar/polar.js';

/** A boat as she is sailed. */
interface AsSailed {
  readonly boat: Boat;
  readonly polars: PolarSet;
}

/** Whether two boats are the same but for their names: then there is nothing to compare, and nothing is bought. */
export const areAlike = (a: AsSailed, b: AsSailed): boolean => toldOf(a) === toldOf(b);

/** All that is sailed and paid by; keys in one order, for files are written in any. */
const toldOf = ({ boat: { name: _, ...boat }, polars: { status, plans } }: AsSailed) =>
  JSON.stringify({ boat, status, plans }, (_key, value: unknown) =>
    typeof value === 'object' && value !== null && !Array.isArray(value)
      ? Object.fromEntries(Object.entries(value).sort(([x], [y]) => (x < y ? -1 : 1)))
      : value,
  );
