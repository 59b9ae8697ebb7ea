import { faultList } from '../errors.js';
import { mustBeGiven } from '../given.js';
import { says } from '../wording.js';
import type { Boat, SailGiven, SailPlan } from './boat.js';
import { completeBoat } from './completeBoat.js';
import { derivePlans } from './derivePlans.js';
import { settingOf } from './setting.js';

/**
 * A boat with a further sail, completed by its kind and her rig. Where her plans follow from her sails those with the new one do too;
 * where her file gives them they stay as they are, and those that the new sail makes with the others are added.
 * @throws InputError where the boat or the sail is none, its id is taken, or she cannot set it with anything
 * @example
 * withSail(sample.without.boat, { id: 'vented', kind: 'vented-downwind', areaM2: 140 }).sails.at(-1)
 * // { id: 'vented', kind: 'vented-downwind', areaM2: 140, … }
 */
export function withSail(boat: Boat, sail: SailGiven, file = 'boat'): Boat {
  mustBeGiven(boat, 'sailPlans', file, 'readBoat');
  const { sailPlans, ...rest } = boat;
  const sails = [...boat.sails, sail];
  const isGiven = sailPlans.some(({ derived }) => derived !== true);
  const complete = completeBoat({ ...rest, sails, ...(isGiven ? { sailPlans } : {}) }, file);
  const added = isGiven ? plansMadeBy(sail.id, complete) : [];
  const whole = { ...complete, sailPlans: [...complete.sailPlans, ...added] };
  if (!whole.sailPlans.some((plan) => sets(whole, plan, sail.id))) {
    const faults = faultList();
    faults.add({ file, path: `sails[${boat.sails.length}]`, ...says.sailUnused() });
    faults.throwIfAny();
  }
  return whole;
}

const sets = (boat: Boat, { sails }: SailPlan, id: string) =>
  sails.some((text) => settingOf(boat, text)?.sail.id === id);

/** The plans that follow from the sails and set one of them, under ids that are free. */
function plansMadeBy(id: string, boat: Boat): readonly SailPlan[] {
  const taken = new Set(boat.sailPlans.map((plan) => plan.id));
  return derivePlans(boat.sails)
    .filter((plan) => sets(boat, plan, id))
    .map((plan) => {
      let free = plan.id;
      for (let n = 2; taken.has(free); n += 1) free = `${plan.id}-${n}`;
      taken.add(free);
      return { ...plan, id: free };
    });
}
