import { type FaultList, faultList } from '../errors.js';
import { isLimit } from '../sail/sail.js';
import { says } from '../wording.js';
import type { Boat, BoatFile, Sail, SailGiven } from './boat.js';
import { checkBoat, checkPolarPlans } from './checkBoat.js';
import { completeSail } from './completeSail.js';
import { derivePlans } from './derivePlans.js';
import { LONGEST_ID, MOST_PLANS } from './schema.js';

/**
 * A boat whose file may leave out windows, areas, operations and sail plans: what is missing follows from the kinds of her sails and
 * her rig, and is marked as `derived`. What is given stays as it is; a complete boat comes back as she was.
 * @throws InputError where the boat is none, or where what is given contradicts what would be filled in
 */
export function completeBoat(given: BoatFile, file = 'boat'): Boat {
  const faults = faultList();
  checkBoat(given, file, faults);
  faults.throwIfAny();
  const sails = given.sails.map((sail) => completeSail(sail, given));
  sails.forEach((sail, i) => {
    checkFilledWindow(sail, given.sails[i]!, `sails[${i}].window`, file, faults);
  });
  faults.throwIfAny();
  if (given.sailPlans !== undefined) return { ...given, sails, sailPlans: given.sailPlans };
  const settings = [...sails, ...poledSettings(sails, given)];
  const sailPlans = derivePlans(settings);
  const tooMany = sailPlans.length > MOST_PLANS;
  const longest = tooMany ? 0 : Math.max(...sailPlans.map(({ id }) => id.length));
  if (tooMany) faults.add({ file, path: 'sailPlans', ...says.tooManyPlans(MOST_PLANS, sailPlans.length) });
  else if (longest > LONGEST_ID) faults.add({ file, path: 'sailPlans', ...says.longPlanId(LONGEST_ID, longest) });
  else checkPolarPlans(given.polars, sailPlans, file, faults);
  faults.throwIfAny();
  return { ...given, sails: settings, sailPlans };
}

/** Adds a fault for everything that keeps a boat made in memory from being sailed. */
export function checkCompleteBoat(boat: Boat, file: string, faults: FaultList): void {
  const before = faults.count;
  checkBoat(boat, file, faults);
  if (faults.count > before) return;
  boat.sails.forEach(({ window }: SailGiven, i) => {
    for (const key of ['awaMinDeg', 'awaMaxDeg'] as const) {
      if (window?.[key] === undefined) faults.add({ file, path: `sails[${i}].window.${key}`, ...says.notComplete() });
    }
  });
  if (boat.sailPlans === undefined) faults.add({ file, path: 'sailPlans', ...says.notComplete() });
}

/** Poled-out settings of the headsails on the forestay, where there is a pole and the file names none. */
function poledSettings(sails: readonly Sail[], boat: BoatFile): Sail[] {
  if (!((boat.rig?.poleM ?? 0) > 0) || sails.some(({ kind }) => kind === 'poled-out-headsail')) return [];
  const ids = new Set(sails.map(({ id }) => id));
  return sails
    .filter(({ kind, clothOf }) => clothOf === undefined && POLED.includes(kind))
    .map(({ id }) => {
      let poled = `poled-${id}`.slice(0, LONGEST_ID);
      while (ids.has(poled)) poled = `${poled.slice(0, LONGEST_ID - 2)}-2`;
      ids.add(poled);
      const setting = completeSail({ id: poled, kind: 'poled-out-headsail', clothOf: id }, { ...boat, sails });
      const whole = { status: 'derived', basis: `${id} on the pole` } as const;
      return { ...setting, derived: { id: whole, kind: whole, clothOf: whole, ...setting.derived } };
    });
}

const POLED: readonly Sail['kind'][] = ['self-tacking-jib', 'overlapping-genoa'];

/** What is given in part may contradict what the kind would fill in: nobody can guess which is meant. */
function checkFilledWindow(
  { window, kind, derived = {} }: Sail,
  given: SailGiven,
  path: string,
  file: string,
  faults: FaultList,
) {
  const { awaMinDeg, awaMaxDeg, awsMinKn, awsMaxKn } = window;
  if (awaMinDeg >= awaMaxDeg) {
    const [own, other] =
      given.window?.awaMinDeg === undefined ? ['awaMaxDeg', 'awaMinDeg'] : ['awaMinDeg', 'awaMaxDeg'];
    const side = own === 'awaMinDeg' ? 'less' : 'more';
    const said = says.besideDefault(side, other!, window[other as 'awaMinDeg'], kind, `${window[own as 'awaMinDeg']}`);
    faults.add({ file, path: `${path}.${own}`, ...said });
  }
  const highest = typeof awsMaxKn === 'number' ? awsMaxKn : Math.max(...(awsMaxKn ?? []).map(([, kn]) => kn));
  if (isLimit(awsMinKn) && isLimit(awsMaxKn) && awsMinKn >= highest && 'window.awsMaxKn' in derived) {
    faults.add({
      file,
      path: `${path}.awsMinKn`,
      ...says.besideDefault('less', 'awsMaxKn', highest, kind, `${awsMinKn}`),
    });
  }
}
