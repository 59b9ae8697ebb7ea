import type { ColumnChoice } from '../weather/weather.js';
import { rounded } from './format.js';
import type { PlanToPrint } from './planParts.js';
import { roundedWear } from './wearText.js';

/** What a file is for a plan. */
export const INPUT_ROLES = ['route', 'forecast', 'climatology', 'boat', 'polars'] as const;

/** A file a plan was made from, so that a plan can be traced to its inputs. */
export interface InputDigest {
  readonly role: (typeof INPUT_ROLES)[number];
  readonly file: string;
  readonly sha256: string;
  /** Of a forecast: the member that was chosen of an ensemble. */
  readonly member?: string;
  /** Of a forecast or climatology: columns that were chosen by what they hold. */
  readonly columns?: Readonly<Record<string, ColumnChoice>>;
}

/**
 * The whole plan as JSON. Numbers are rounded to 6 decimals, so that the same plan is the same bytes everywhere.
 * @example
 * JSON.parse(planJson(sample.plan)) // { formatVersion: 1, complete: true, end: '2027-01-28T17:48:51Z', … }
 */
export function planJson({ passage, totals, wear, inputs, route, boat }: PlanToPrint): string {
  const {
    formatVersion,
    complete,
    reason,
    distanceToGoNm,
    departure,
    end,
    options,
    ownRules,
    warnings,
    estimate,
    curve,
    foresight,
    changes,
    squalls,
    synthetic,
    hours,
  } = passage;
  const plan = {
    formatVersion,
    complete,
    reason,
    distanceToGoNm,
    departure,
    end,
    options,
    ...(ownRules === undefined ? {} : { ownRules }),
    inputs,
    boat: boat.name,
    wardrobe: { sails: boat.sails, sailPlans: boat.sailPlans },
    route: route.waypoints,
    warnings,
    ...(estimate === undefined ? {} : { estimate }),
    totals,
    ...(wear === undefined ? {} : { wear: roundedWear(wear) }),
    ...(curve === undefined ? {} : { curve }),
    ...(squalls === undefined ? {} : { squalls }),
    ...(changes === undefined ? {} : { changes }),
    ...(foresight === undefined ? {} : { foresight }),
    ...(synthetic === undefined ? {} : { synthetic }),
    hours,
  };
  return `${JSON.stringify(plan, rounded, 1)}\n`;
}
