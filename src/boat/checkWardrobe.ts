import { kindOf, SPINNAKER_MID_GIRTH, STAYS } from '../catalogue/catalogue.js';
import type { FaultList } from '../errors.js';
import { highestLimit, isLimit, type LimitByAngle, type Window } from '../sail/sail.js';
import { says } from '../wording.js';
import type { SailGiven, SailPlan } from './boat.js';
import { completeSail } from './completeSail.js';
import { isTaken } from './planIds.js';
import { LEAST_MID_GIRTH, MOST_MID_GIRTH } from './schema.js';
import { parseSetting } from './setting.js';

/** A sail as far as it could be read: its id alone where the rest is faulty, or nothing. */
export interface SailRead {
  readonly id: string | undefined;
  readonly sail: SailGiven | undefined;
}

/** Adds a fault for everything in the sails that contradicts itself or another sail. */
export function checkSails(sails: readonly SailRead[], file: string, faults: FaultList): void {
  const ids = sails.map(({ id }) => id);
  sails.forEach(({ id, sail }, i) => {
    const path = `sails[${i}]`;
    if (id !== undefined && ids.indexOf(id) !== i) faults.add({ file, path: `${path}.id`, ...says.newId(id) });
    if (sail === undefined) return;
    const { clothOf, reefs = [] } = sail;
    checkMeasures(sail, path, file, faults);
    checkLife(sail, path, file, faults);
    if (clothOf !== undefined) {
      const cloth = sails.find((other) => other.id === clothOf);
      if (cloth === undefined) addUnknownSail(clothOf, sails, `${path}.clothOf`, file, faults);
      else if (cloth.sail?.clothOf !== undefined || clothOf === id) {
        faults.add({ file, path: `${path}.clothOf`, ...says.clothChain(clothOf) });
      }
    }
    if (sail.window !== undefined) checkWindow(sail.window, `${path}.window`, file, faults);
    reefs.forEach((reef, r) => {
      checkLimit(reef.awsMaxKn, `${path}.reefs[${r}].awsMaxKn`, file, faults);
      const { awaMaxDeg } = sail.window ?? {};
      if (reef.awaMinDeg !== undefined && awaMaxDeg !== undefined && reef.awaMinDeg >= awaMaxDeg) {
        const expected = `an angle under awaMaxDeg of the sail (${awaMaxDeg})`;
        faults.add({ file, path: `${path}.reefs[${r}].awaMinDeg`, ...says.wrongValue(expected, `${reef.awaMinDeg}`) });
      }
      const before = reefs[r - 1];
      if (before?.areaShare !== undefined && reef.areaShare !== undefined && reef.areaShare >= before.areaShare) {
        faults.add({ file, path: `${path}.reefs[${r}].areaShare`, ...says.smallerReef() });
      }
    });
  });
}

/** Adds a fault for every plan whose id is taken, or that sets what is not aboard or one cloth twice. */
export function checkPlans(
  plans: readonly (SailPlan | undefined)[],
  sails: readonly SailRead[],
  file: string,
  faults: FaultList,
): void {
  const planIds = plans.map((plan) => plan?.id);
  plans.forEach((plan, i) => {
    if (plan === undefined) return;
    if (planIds.indexOf(plan.id) !== i) faults.add({ file, path: `sailPlans[${i}].id`, ...says.newId(plan.id) });
    if (isTaken(plan.id, plan.sails.length)) faults.add({ file, path: `sailPlans[${i}].id`, ...says.freeId(plan.id) });
    const cloths = new Set<string>();
    plan.sails.forEach((text, s) => {
      const path = `sailPlans[${i}].sails[${s}]`;
      const { id, reef } = parseSetting(text);
      const found = sails.find((candidate) => candidate.id === id);
      if (found === undefined) {
        addUnknownSail(id, sails, path, file, faults);
        return;
      }
      const { sail } = found;
      if (sail === undefined) return;
      const reefCount = reefCountOf(sail);
      if (!(reef <= reefCount)) faults.add({ file, path, ...says.reefOf(reefCount, text) });
      const cloth = sail.clothOf ?? sail.id;
      if (cloths.has(cloth)) faults.add({ file, path, ...says.clothTwice(cloth, text) });
      cloths.add(cloth);
    });
  });
}

/** Reefs of a sail, those of its kind where none are given. */
function reefCountOf(sail: SailGiven): number {
  return (sail.reefs ?? completeSail(sail, { hull: { type: 'catamaran' }, sails: [] }).reefs)?.length ?? 0;
}

function addUnknownSail(got: string, sails: readonly SailRead[], path: string, file: string, faults: FaultList): void {
  const ids = sails.flatMap(({ id }) => (id === undefined ? [] : [id]));
  // Where a sail's own id could not be read, it may be the one that is meant.
  if (ids.length === sails.length) faults.add({ file, path, ...says.sailAboard(ids, got) });
}

/** Which measures a kind takes, and what is said of another kind. */
const MEASURES = {
  midGirthRatio: ['a sail set flying', ['flying']],
  footM: ['a sail set flying', ['flying']],
  halfWidthM: ['a headsail or a sail set flying', ['flying', ...STAYS]],
  lpM: ['a headsail', STAYS],
  luffM: ['a headsail', STAYS],
  roachFactor: ['a main', ['mast']],
} as const;

function checkMeasures(sail: SailGiven, path: string, file: string, faults: FaultList): void {
  const { kind, overlapPercent, midGirthRatio, halfWidthM, footM } = sail;
  const { place } = kindOf(kind);
  for (const [name, [what, places]] of Object.entries(MEASURES)) {
    if (sail[name as keyof typeof MEASURES] !== undefined && !(places as readonly string[]).includes(place)) {
      faults.add({ file, path: `${path}.${name}`, ...says.onlyFor(what, kind) });
    }
  }
  if (overlapPercent !== undefined && kind !== 'overlapping-genoa') {
    faults.add({ file, path: `${path}.overlapPercent`, ...says.onlyFor('an overlapping-genoa', kind) });
  }
  if (place !== 'flying') return;
  const most = kind === 'code-zero' ? SPINNAKER_MID_GIRTH : MOST_MID_GIRTH;
  if (midGirthRatio !== undefined && midGirthRatio > most) {
    faults.add({ file, path: `${path}.midGirthRatio`, ...says.number(LEAST_MID_GIRTH, most, `${midGirthRatio}`) });
  }
  const ratio = halfWidthM !== undefined && footM !== undefined ? halfWidthM / footM : LEAST_MID_GIRTH;
  if (!(ratio >= LEAST_MID_GIRTH && ratio <= most)) {
    const expected = `from ${LEAST_MID_GIRTH} to ${most} times footM (${footM})`;
    faults.add({ file, path: `${path}.halfWidthM`, ...says.wrongValue(expected, `${halfWidthM}`) });
  }
}

/** Hours of the longest year: no sail was set for longer than it is old. */
const HOURS_OF_YEAR = 8784;

function checkLife({ clothOf, life, price }: SailGiven, path: string, file: string, faults: FaultList): void {
  if (clothOf !== undefined) {
    if (life !== undefined) faults.add({ file, path: `${path}.life`, ...says.atTheCloth(clothOf) });
    if (price !== undefined) faults.add({ file, path: `${path}.price`, ...says.atTheCloth(clothOf) });
  }
  const { usedHours, miles, ageYears } = life ?? {};
  if (usedHours !== undefined && miles !== undefined) {
    faults.add({ file, path: `${path}.life.miles`, ...says.eitherOf('usedHours', 'miles') });
  }
  const most = (ageYears ?? Number.POSITIVE_INFINITY) * HOURS_OF_YEAR;
  if (usedHours !== undefined && usedHours > most) {
    const expected = `at most the hours of its ageYears (${Math.floor(most)})`;
    faults.add({ file, path: `${path}.life.usedHours`, ...says.wrongValue(expected, `${usedHours}`) });
  }
}

function checkWindow(window: NonNullable<SailGiven['window']>, path: string, file: string, faults: FaultList): void {
  const { awaMinDeg, awaMaxDeg, awsMinKn, awsMaxKn } = window;
  if (awaMinDeg !== undefined && awaMaxDeg !== undefined && awaMinDeg >= awaMaxDeg) {
    const expected = `an angle over awaMinDeg (${awaMinDeg})`;
    faults.add({ file, path: `${path}.awaMaxDeg`, ...says.wrongValue(expected, `${awaMaxDeg}`) });
  }
  checkLimit(awsMaxKn, `${path}.awsMaxKn`, file, faults);
  const highest = highestLimit(awsMaxKn);
  if (isLimit(awsMinKn) && highest !== undefined && awsMinKn >= highest) {
    faults.add({
      file,
      path: `${path}.awsMinKn`,
      ...says.wrongValue(`less than awsMaxKn (${highest})`, `${awsMinKn}`),
    });
  }
}

function checkLimit(limit: Window['awsMaxKn'], path: string, file: string, faults: FaultList): void {
  if (!isLimit(limit) || typeof limit === 'number') return;
  const points: LimitByAngle = limit;
  points.forEach(([angle], i) => {
    if (i > 0 && angle <= points[i - 1]![0]) faults.add({ file, path: `${path}[${i}]`, ...says.risingAngles() });
  });
}
