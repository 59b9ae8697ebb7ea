import type { Sail } from '../boat/boat.js';
import { WEAR } from '../catalogue/catalogue.js';
import type { SailConstants } from './constants.js';
import type { Case, Measure } from './measure.js';

/** Share of a sail's life that is used, and by what an inspection moves the rate at which it wears from then on. */
export interface Used {
  readonly share: number | undefined;
  readonly rateFactor: number;
}

const HOURS_OF_YEAR = 8760;

/**
 * What the boat file tells of a sail's life before the passage. Hours are of the reference use; miles are hours at a stated mean speed;
 * of an age alone they are those of weekends to living aboard. A sail that lies in the open and is older than its hours in the reference
 * had the sun of the rest of its years through its cover. What an inspection saw stands before all that; beside known use it also says
 * how fast this sail wears.
 */
export function usedBefore(life: Sail['life'], constants: SailConstants, measure: Measure, at: Case): Used {
  const known = byUse(life, constants, measure, at);
  if (life?.inspectedLeft === undefined) return { share: known, rateFactor: 1 };
  const seen = seenUsed(life.inspectedLeft, at);
  const [least, most] = WEAR.recalibration.value;
  const rateFactor = known === undefined || known === 0 ? 1 : Math.min(most, Math.max(least, seen / known));
  return { share: seen, rateFactor };
}

/** What an inspection says is used, which may be off by so much as an eye is. */
export function seenUsed(inspectedLeft: number, at: Case): number {
  const error = { low: -1, mid: 0, high: 1 }[at.inspection] * WEAR.inspectionError.value;
  return Math.min(1, Math.max(0, 1 - inspectedLeft + error));
}

function byUse(life: Sail['life'], constants: SailConstants, measure: Measure, at: Case): number | undefined {
  const { usedHours, miles, ageYears } = life ?? {};
  const byAge = ageYears === undefined ? undefined : ageYears * WEAR.hoursPerYear.value[at.hoursPerYear];
  const hours = usedHours ?? (miles === undefined ? byAge : miles / WEAR.milesKn.value);
  if (hours === undefined) return undefined;
  const yearsMore = Math.max(0, (ageYears ?? 0) - hours / WEAR.reference.hoursPerYear.value);
  return hours / constants.lifeHours[at.lifeHours] + yearsMore * HOURS_OF_YEAR * measure.stowedAnHour(at);
}
