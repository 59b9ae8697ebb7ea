import { faultList, InputError } from '../errors.js';
import { foreignFormat } from '../foreignFormat.js';
import { checkTypes, mustBeGiven, mustBeText } from '../given.js';
import { says } from '../wording.js';
import type { PolarSet, TwaReference } from './polar.js';
import { readTidyPolars } from './tidyPolars.js';
import { readWidePolar, wideRowsOf } from './widePolar.js';

/** How to read polars. */
export interface ReadPolarsOptions {
  /** Name of the file in faults. Default `polars.csv`. */
  readonly file?: string;
  /**
   * The boat they are for: a polar of a plan she does not have is a fault, her `polarStatus` says whether the speeds
   * were measured at sea or designed, and her wind height and reference of TWA hold where the file states none. Absent: any
   * plan, measured, 10 m, TWA to the course through the water.
   */
  readonly boat?: {
    readonly sailPlans: readonly { readonly id: string }[];
    readonly polarStatus?: 'measured' | 'designed';
    readonly polarWindHeightM?: number;
    readonly polarTwaReference?: TwaReference;
  };
  /** The plan of a wide table; absent: the only one of the boat. */
  readonly sailPlan?: string;
}

/**
 * Reads polars from CSV, either of
 *
 * - tidy: `sail_plan,tws_kn,twa_deg,stw_kn`, one row a speed, in any order, and optionally `wind_height_m` and
 *   `twa_reference` (`course` or `heading`), one value a plan. Each plan needs a speed for each of its winds at each angle;
 * - a wide table of one plan: TWA down, TWS across, the first cell free; commas, semicolons or tabs.
 *
 * @throws InputError with every fault of the file, or where the text, the boat or an option is none
 * @example
 * readPolars(sample.polarsCsv, { boat: sample.boat }).status // 'designed'
 * readPolars('sail_plan,tws_kn,twa_deg,stw_kn\nmain,12,90,fast\n')
 * // throws polars.csv, line 2, column stw_kn: expected a number from 0 to 60, got "fast"
 */
export function readPolars(text: string, options: ReadPolarsOptions = {}): PolarSet {
  checkTypes(options, { file: 'string?', boat: 'object?', sailPlan: 'string?' });
  const file = options.file ?? 'polars.csv';
  const { boat } = options;
  if (boat !== undefined) mustBeGiven(boat, 'sailPlans', 'boat', 'readBoat');
  mustBeText(text, file);
  const foreign = foreignFormat(text);
  if (foreign !== undefined) throw new InputError([{ file, ...says.notText(foreign) }]);
  const faults = faultList();
  const wideRows = wideRowsOf(text);
  const plans =
    wideRows === undefined
      ? readTidyPolars(text, boat?.sailPlans, file, faults)
      : readWidePolar(wideRows, options.sailPlan, boat?.sailPlans, file, faults);
  faults.throwIfAny();
  const usual = {
    ...(boat?.polarWindHeightM === undefined ? {} : { windHeightM: boat.polarWindHeightM }),
    ...(boat?.polarTwaReference === undefined ? {} : { twaReference: boat.polarTwaReference }),
  };
  return {
    plans: Object.fromEntries(plans.map(([id, polar]) => [id, { ...usual, ...polar }])),
    status: boat?.polarStatus ?? 'measured',
  };
}
