import type { FaultList } from '../errors.js';
import type { CropBox } from '../route/route.js';
import type { QuantityNames } from './makeGrids.js';
import type { Places } from './places.js';
import type { RowStore } from './rowStore.js';

/** Rows of one run and member. */
export interface RowGroup {
  readonly runEpochSeconds: number | undefined;
  readonly member: string | undefined;
  readonly stores: readonly RowStore[];
}

/** A layout at work: takes the rows of a file, whatever they look like, and keeps them by run and member. */
export interface ForecastTable {
  take(cells: readonly string[], line: number): void;
  readonly places: Places;
  readonly names: QuantityNames;
  /** What was kept, once all rows are in; what is missing in the whole file is added as faults. */
  groups(): readonly RowGroup[];
  /** Whether the file has columns of wind, also where none of its rows is kept. */
  hasWind(): boolean;
  /** What the file holds that is not used. */
  unused(): readonly string[];
  /** The height or depth that the rows are of, where a column says so. */
  readonly level: { readonly name: string; readonly value: string } | undefined;
  /** Every member met, chosen or not. */
  readonly members: ReadonlySet<string>;
}

/** What a layout needs to know. */
export interface TableOptions {
  readonly file: string;
  readonly faults: FaultList;
  readonly box: CropBox | undefined;
  /** The only member to keep; absent: all. */
  readonly member: string | undefined;
}
