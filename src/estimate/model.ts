import { type Boat, settingOf } from '../boat/boat.js';
import type { FaultList } from '../errors.js';
import type { Window } from '../sail/sail.js';
import { breachIn } from '../speed/speed.js';
import type { Assumptions } from './assumptions.js';
import { type Particulars, particularsOf } from './particulars.js';
import { type PlanForces, planForces } from './planForces.js';
import { type PlanSet, plansSet } from './sailsSet.js';

/** A boat made ready for the estimator: what is known of her, and her plans as sails that stand. */
export interface Model {
  readonly of: Particulars;
  readonly plans: readonly ModelPlan[];
  readonly mastM: number;
  readonly gustFactor: number;
}

/** A plan with the windows of its sails. */
export interface ModelPlan extends PlanSet {
  readonly windows: readonly Window[];
}

/** A boat made ready; adds a fault for all that is missing. */
export function modelOf(boat: Boat, gustFactor: number, file: string, faults: FaultList): Model {
  const of = particularsOf(boat, file, faults);
  const plans = plansSet(boat, of, file, faults).map((plan, i) => ({
    ...plan,
    windows: boat.sailPlans[i]!.sails.map((text) => settingOf(boat, text)!.window),
  }));
  const { iM, pM, ispM } = boat.rig ?? {};
  const mastM = Math.max(pM === undefined ? 0 : pM + of.boomHeightM, iM ?? 0, ispM ?? 0);
  return { of, plans, mastM, gustFactor };
}

/** The forces of every plan under what is assumed, by its id. */
export function forcesOf(
  { of, plans, mastM, gustFactor }: Model,
  assumed: Assumptions,
): ReadonlyMap<string, PlanForces> {
  return new Map(plans.map((plan) => [plan.id, planForces(plan, of, assumed, mastM, gustFactor)]));
}

/**
 * The plans under sail that may be carried at a true wind, its angle and the speed each would make; all under sail where none may. Bare
 * poles, which have no window, are none that a known speed is of.
 */
export function carried(
  { plans, gustFactor }: Model,
  twsKn: number,
  twaDeg: number,
  speedOf: (plan: ModelPlan) => number,
): readonly ModelPlan[] {
  const underSail = plans.filter(({ sails }) => sails.length > 0);
  const allowed = underSail.filter(
    (plan) => breachIn(plan.windows, twsKn, twaDeg, speedOf(plan), gustFactor) === undefined,
  );
  if (allowed.length > 0) return allowed;
  return underSail.length > 0 ? underSail : plans;
}
