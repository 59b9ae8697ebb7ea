import type { Boat } from './boat.js';

/** Every polar file a boat file names, and the sail plan it is for where it is for one only. */
export function polarFilesOf({
  polars = {},
}: Pick<Boat, 'polars'>): readonly { readonly file: string; readonly sailPlan?: string }[] {
  if (typeof polars === 'string') return [{ file: polars }];
  return Object.entries(polars).map(([sailPlan, file]) => ({ file, sailPlan }));
}

/** The polar file of a sail plan as the boat file names it. */
export function polarFileOf({ polars = {} }: Pick<Boat, 'polars'>, sailPlan: string): string {
  if (typeof polars === 'string') return polars;
  return Object.hasOwn(polars, sailPlan) ? polars[sailPlan]! : 'polars';
}
