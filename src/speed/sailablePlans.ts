import { type Boat, plansWithout, settingOf } from '../boat/boat.js';
import type { PolarSet } from '../polar/polar.js';
import type { Window } from '../sail/sail.js';
import { type PlanSpeed, planSpeed } from './planSpeed.js';

/**
 * Speed at sea over that of the polars, by what they are. Polars made by a designer, or estimated from coefficients, are of a clean
 * hull in flat water under sails that are always trimmed: 0.9 of them is a placeholder without a source.
 */
export const SKIPPER_FACTOR = { measured: 1, designed: 0.9, estimated: 0.9 } as const satisfies Record<
  PolarSet['status'],
  number
>;

/** A sail plan ready to be sailed: its speeds, and the windows of all its sails. */
export interface SailablePlan {
  readonly id: string;
  readonly speed: PlanSpeed | undefined;
  readonly windows: readonly Window[];
  readonly daylightOnly: boolean;
}

/** The plans of a boat that set none of some sails, with their speeds at sea; undefined where a plan has no polar. */
export function sailablePlans(
  boat: Boat,
  polars: PolarSet,
  skipperFactor: number,
  without: readonly string[] = [],
): SailablePlan[] {
  return plansWithout(boat, without).map(({ id, sails }) => {
    const settings = sails.map((text) => settingOf(boat, text)!);
    return {
      id,
      speed: Object.hasOwn(polars.plans, id) ? planSpeed(polars.plans[id]!, skipperFactor, boat.leeway) : undefined,
      windows: settings.map((setting) => setting.window),
      daylightOnly: settings.some((setting) => setting.sail.daylightOnly === true),
    };
  });
}
