import { faultList } from '../errors.js';
import { says } from '../wording.js';
import type { Boat, BoatFile } from './boat.js';
import { checkBoat, checkKnownPlans, checkPolarPlans } from './checkBoat.js';
import { checkFilled } from './checkFilled.js';
import { checkWaveSails } from './checkHouse.js';
import { completeSail } from './completeSail.js';
import { derivePlans } from './derivePlans.js';
import { LONGEST_ID, MOST_PLANS } from './schema.js';
import { wingedSettings } from './wingedSettings.js';

/**
 * A boat whose file may leave out windows, areas, operations and sail plans: what is missing follows from the kinds of her sails and
 * her rig, and is marked as `derived`. What is given stays as it is, and so does what was filled in before: a complete boat comes
 * back as she was. After a change of kinds or rig complete the boat file again, not the complete boat.
 * @throws InputError where the boat is none, or where what is given contradicts what would be filled in
 * @example
 * const { sails, sailPlans } = completeBoat({
 *   name: 'Invented',
 *   hull: { type: 'monohull' },
 *   rig: { iM: 15.6, jM: 4.6, pM: 13.9, eM: 4.9 },
 *   sails: [{ id: 'main', kind: 'pin-head-main' }, { id: 'genoa', kind: 'overlapping-genoa' }],
 * });
 * sails[1].window // { awaMinDeg: 28, awaMaxDeg: 140, … }
 * sailPlans.map(({ id }) => id) // ['main+genoa', 'main+genoa.1', 'main.1+genoa', …]
 */
export function completeBoat(given: BoatFile, file = 'boat'): Boat {
  const faults = faultList();
  checkBoat(given, file, faults);
  faults.throwIfAny();
  const sails = given.sails.map((sail) => completeSail(sail, given));
  sails.forEach((sail, i) => {
    checkFilled(sail, given.sails[i]!, `sails[${i}]`, file, faults);
  });
  faults.throwIfAny();
  if (given.sailPlans !== undefined) return { ...given, sails, sailPlans: given.sailPlans };
  const settings = [...sails, ...wingedSettings(sails, given)];
  const sailPlans = derivePlans(settings);
  const tooMany = sailPlans.length > MOST_PLANS;
  const longest = tooMany ? 0 : Math.max(...sailPlans.map(({ id }) => id.length));
  if (tooMany) faults.add({ file, path: 'sailPlans', ...says.tooManyPlans(MOST_PLANS, sailPlans.length) });
  else if (longest > LONGEST_ID) faults.add({ file, path: 'sailPlans', ...says.longPlanId(LONGEST_ID, longest) });
  else {
    checkPolarPlans(given.polars, sailPlans, file, faults);
    checkKnownPlans(given.knownSpeeds, sailPlans, file, faults);
  }
  const ids = settings.map(({ id }) => id);
  checkWaveSails(given.house, ids, 'house', file, faults);
  faults.throwIfAny();
  return { ...given, sails: settings, sailPlans };
}
