import type { ColumnChoice } from '../weather/weather.js';
import { rounded } from './format.js';
import type { PlanToPrint } from './planText.js';

/** A file a plan was made from, so that a plan can be traced to its inputs. */
export interface InputDigest {
  readonly role: 'route' | 'forecast' | 'boat' | 'polars';
  readonly file: string;
  readonly sha256: string;
  /** Of a forecast: the member that was chosen of an ensemble. */
  readonly member?: string;
  /** Of a forecast: columns that were chosen by what they hold. */
  readonly columns?: Readonly<Record<string, ColumnChoice>>;
}

/** The whole plan as JSON. Numbers are rounded to 6 decimals, so that the same plan is the same bytes everywhere. */
export function planJson({ passage, totals, inputs, route, boat }: PlanToPrint): string {
  const {
    formatVersion,
    complete,
    reason,
    distanceToGoNm,
    departure,
    end,
    options,
    warnings,
    estimate,
    curve,
    foresight,
    changes,
    squalls,
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
    inputs,
    boat: boat.name,
    wardrobe: { sails: boat.sails, sailPlans: boat.sailPlans },
    route: route.waypoints,
    warnings,
    ...(estimate === undefined ? {} : { estimate }),
    totals,
    ...(curve === undefined ? {} : { curve }),
    ...(squalls === undefined ? {} : { squalls }),
    ...(changes === undefined ? {} : { changes }),
    ...(foresight === undefined ? {} : { foresight }),
    hours,
  };
  return `${JSON.stringify(plan, rounded, 1)}\n`;
}
