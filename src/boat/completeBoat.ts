import { kindOf } from '../catalogue/catalogue.js';
import { type FaultList, faultList } from '../errors.js';
import { isLimit } from '../sail/sail.js';
import { says } from '../wording.js';
import type { Boat, BoatFile, Sail, SailGiven } from './boat.js';
import { checkBoat, checkPolarPlans } from './checkBoat.js';
import { completeSail } from './completeSail.js';
import { derivePlans } from './derivePlans.js';
import { LONGEST_ID, MOST_PLANS, MOST_SAILS } from './schema.js';

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
  else checkPolarPlans(given.polars, sailPlans, file, faults);
  faults.throwIfAny();
  return { ...given, sails: settings, sailPlans };
}

/** Adds a fault for everything that keeps a boat made in memory from being sailed. */
export function checkCompleteBoat(boat: Boat, file: string, faults: FaultList): void {
  const before = faults.count;
  checkBoat(boat, file, faults);
  if (faults.count > before) return;
  boat.sails.forEach(({ window, reefs = [] }: SailGiven, i) => {
    for (const key of ['awaMinDeg', 'awaMaxDeg'] as const) {
      if (window?.[key] === undefined) faults.add({ file, path: `sails[${i}].window.${key}`, ...says.notComplete() });
    }
    reefs.forEach(({ areaShare }, r) => {
      if (areaShare === undefined)
        faults.add({ file, path: `sails[${i}].reefs[${r}].areaShare`, ...says.notComplete() });
    });
  });
  if (boat.sailPlans === undefined) faults.add({ file, path: 'sailPlans', ...says.notComplete() });
}

/**
 * Settings of the headsails on the forestay held out to windward, where the file names none: on a pole, or on a catamaran by a
 * line to the bow (one held a self-tacking jib so, S55).
 */
function wingedSettings(sails: readonly Sail[], boat: BoatFile): Sail[] {
  const hasPole = (boat.rig?.poleM ?? 0) > 0;
  if (!hasPole && boat.hull.type !== 'catamaran') return [];
  if (sails.some(({ kind }) => kindOf(kind).place === 'winged')) return [];
  const [prefix, how] = hasPole ? ['poled', 'on the pole'] : ['winged', 'held out by a line to the bow'];
  const ids = new Set(sails.map(({ id }) => id));
  return sails
    .filter(({ kind, clothOf }) => clothOf === undefined && WINGED.includes(kind))
    .slice(0, MOST_SAILS - sails.length)
    .map((cloth) => {
      let id = `${prefix}-${cloth.id}`.slice(0, LONGEST_ID);
      for (let n = 2; ids.has(id); n += 1) id = `${`${prefix}-${cloth.id}`.slice(0, LONGEST_ID - 4)}-${n}`;
      ids.add(id);
      const setting = completeSail({ id, kind: 'poled-out-headsail', clothOf: cloth.id }, { ...boat, sails });
      const whole = { status: 'derived', basis: `${cloth.id} ${how}` } as const;
      return { ...setting, derived: { id: whole, kind: whole, clothOf: whole, ...setting.derived } };
    });
}

const WINGED: readonly Sail['kind'][] = ['self-tacking-jib', 'overlapping-genoa'];

/** What is given in part may contradict what the kind would fill in: nobody can guess which is meant. */
function checkFilled(
  { window, kind, reefs = [], derived = {} }: Sail,
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
    faults.add({ file, path: `${path}.window.${own}`, ...said });
  }
  const { awaMaxDeg: wide } = given.window ?? {};
  reefs.forEach((reef, r) => {
    const before = reefs[r - 1];
    if (
      before !== undefined &&
      reef.areaShare >= before.areaShare &&
      given.reefs?.[r - 1]?.areaShare !== given.reefs?.[r]?.areaShare
    ) {
      faults.add({ file, path: `${path}.reefs[${r}].areaShare`, ...says.smallerReef() });
    }
    if (wide !== undefined || reef.awaMinDeg === undefined || reef.awaMinDeg < awaMaxDeg) return;
    const said = says.besideDefault('less', 'awaMaxDeg', awaMaxDeg, kind, `${reef.awaMinDeg}`);
    faults.add({ file, path: `${path}.reefs[${r}].awaMinDeg`, ...said });
  });
  const highest = typeof awsMaxKn === 'number' ? awsMaxKn : Math.max(...(awsMaxKn ?? []).map(([, kn]) => kn));
  if (isLimit(awsMinKn) && isLimit(awsMaxKn) && awsMinKn >= highest && 'window.awsMaxKn' in derived) {
    faults.add({
      file,
      path: `${path}.window.awsMinKn`,
      ...says.besideDefault('less', 'awsMaxKn', highest, kind, `${awsMinKn}`),
    });
  }
}
