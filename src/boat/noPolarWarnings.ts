import type { Fault } from '../errors.js';
import { says } from '../wording.js';
import type { Boat } from './boat.js';
import { polarFileOf } from './polarFiles.js';

/** What is said of plans without a polar: of each by itself if the boat file has it, of those that follow from the sails in one. */
export function noPolarWarnings(boat: Boat, plans: Boat['sailPlans']): Fault[] {
  const followed = plans.filter(({ derived }) => derived === true).map(({ id }) => id);
  return [
    ...plans
      .filter(({ derived }) => derived !== true)
      .map(({ id }) => ({ file: polarFileOf(boat, id), path: id, ...says.noPolar() })),
    ...(followed.length === 0 ? [] : [{ file: polarFileOf(boat, followed[0]!), ...says.noPolars(followed) }]),
  ];
}
