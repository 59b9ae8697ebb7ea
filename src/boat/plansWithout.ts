import type { Boat, SailPlan } from './boat.js';
import { settingOf } from './setting.js';

/** The sail plans that set none of some sails: with a cloth go all its settings, with a setting it alone. */
export function plansWithout(boat: Pick<Boat, 'sails' | 'sailPlans'>, sails: readonly string[]): readonly SailPlan[] {
  return boat.sailPlans.filter((plan) =>
    plan.sails.every((text) => {
      const setting = settingOf(boat, text);
      return setting === undefined || !(sails.includes(setting.sail.id) || sails.includes(setting.cloth));
    }),
  );
}
