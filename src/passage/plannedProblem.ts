import type { Boat } from '../boat/boat.js';
import type { ChoiceProblem, InHand } from '../choice/choice.js';
import { daylightAt } from '../sun/sun.js';
import type { ChangeAt } from './changeAt.js';
import { type Changes, isAllowed } from './changes.js';
import type { Moment, Waters } from './hour.js';
import type { Means } from './means.js';
import type { SettledOptions } from './options.js';
import type { RouteTable } from './routeTable.js';
import type { ClockSet } from './shipsClock.js';

/** What a passage is planned with. */
export interface PlannedParts {
  readonly boat: Boat;
  readonly waters: Waters;
  readonly means: readonly Means[];
  readonly changes: Changes;
  readonly changeAt: ChangeAt;
  readonly table: RouteTable;
  /** When stages begin, and at last the end of the last. */
  readonly stageEpochSeconds: Float64Array;
  readonly options: Omit<SettledOptions, 'departure'>;
  /** Minutes after sunrise and before sunset that an arrival by daylight keeps to. */
  readonly daylightMarginMinutes: number;
  /** Whether only the plan at the price of a change is wanted. */
  readonly briefly: boolean;
}

/** Where a boat stands when the rest of her passage is planned. */
export interface Standing {
  readonly stage: number;
  readonly now: Moment;
  /** Index of what is set; undefined where nothing is known to be. */
  readonly set: number | undefined;
  readonly inHand: InHand;
  /** The ship's clock. */
  readonly clock: ClockSet;
}

/** The search's problem from where the boat stands. */
export function problemOf(parts: PlannedParts, { stage: first, now, set, inHand }: Standing): ChoiceProblem {
  const { boat, waters, means, changeAt, table, stageEpochSeconds, options } = parts;
  const { house, decisionMinutes, horizonHours } = options;
  const stagesLeft = stageEpochSeconds.length - 1 - first;
  const stages =
    horizonHours === null ? stagesLeft : Math.min(stagesLeft, Math.round((horizonHours * 60) / decisionMinutes));
  const minutesOf = (stage: number) => (stageEpochSeconds[stage + 1]! - stageEpochSeconds[stage]!) / 60;
  const mostKn = means.map(({ plan }) => (plan?.speed?.mostKn ?? MOST_DRIFT_KN) + MOST_CURRENT_KN);
  const motor = means.findIndex(({ kind }) => kind === 'motor');
  const motorRules =
    motor < 0
      ? {}
      : fuelRules(boat, motor, house.motorPriceMinutes, decisionMinutes, first, chargedTo(parts, first, now, motor));
  const end = waters.trackAt(waters.lengthNm);
  return {
    stages,
    options: means.length,
    from: now.distanceNm,
    goal: waters.lengthNm,
    ...(set === undefined ? {} : { setBefore: set }),
    inHand,
    minutes: (stage) => minutesOf(first + stage),
    way: (stage, option, from) => table.way(first + stage, option, from),
    mostWay: (stage, option) => (mostKn[option]! * minutesOf(first + stage)) / 60,
    change(stage, before, after, from) {
      const change = changeAt(first + stage, before, after, from);
      return isAllowed(change, means[after]!) ? change : undefined;
    },
    leastStages: leastStages(options),
    ...motorRules,
    ...(options.arriveDaylight
      ? {
          mayArrive(stage: number, minutesIn: number) {
            const arrival = stageEpochSeconds[first + stage]! + minutesIn * 60;
            const margin = parts.daylightMarginMinutes * 60;
            return (
              daylightAt(arrival - margin, end.latDeg, end.lonDeg) &&
              daylightAt(arrival + margin, end.latDeg, end.lonDeg)
            );
          },
        }
      : {}),
  };
}

/** Stages that lie between two changes. */
export const leastStages = ({ house, decisionMinutes }: PlannedParts['options']): number =>
  Math.ceil((house.leastHoursBetweenChanges * 60) / decisionMinutes);

/** Bounds on what helps a boat on besides her own speed, never met. */
const MOST_CURRENT_KN = 10;
const MOST_DRIFT_KN = 10;

/** Slow going, where a speed must be assumed: a bound of our own choice, without a source. */
export const SLOW_KN = 4;

/**
 * The stage to which the batteries are charged at least. As early as she could be there if changes took no time; so the search does not
 * look at fuel that is not hers to burn. With a horizon what is left is reckoned at a slow speed.
 */
function chargedTo(
  { boat, waters, means, table, stageEpochSeconds, options: { decisionMinutes, horizonHours } }: PlannedParts,
  first: number,
  { distanceNm }: Moment,
  motor: number,
): number {
  if (horizonHours !== null)
    return Math.ceil(first + (((waters.lengthNm - distanceNm) / SLOW_KN) * 60) / decisionMinutes);
  let motored = 0;
  let stage = first;
  for (let place = distanceNm; stage < stageEpochSeconds.length - 2 && place < waters.lengthNm; stage += 1) {
    let [best, most] = [-1, 0];
    for (let index = 0; index < means.length; index += 1) {
      if (index === motor && motored >= motorStages(boat, decisionMinutes, stage)) continue;
      const way = table.way(stage, index, place);
      if (way > most) [best, most] = [index, way];
    }
    if (best === motor) motored += 1;
    place += most;
  }
  return stage;
}

/** Fuel as a store of motor hours: what is aboard less the reserve, and less what the batteries take by then. */
function fuelRules(
  boat: Boat,
  motor: number,
  priceMinutes: number,
  decisionMinutes: number,
  first: number,
  keptTo: number,
) {
  return {
    storeAt: (stage: number) => motorStages(boat, decisionMinutes, Math.max(first + stage, keptTo)),
    storeUsed: (option: number) => (option === motor ? 1 : 0),
    stagePrice: (option: number) => (option === motor ? (priceMinutes * decisionMinutes) / 60 : 0),
  };
}

/** Stages under engine for which there is fuel where the batteries are charged to the end of a stage. */
export function motorStages({ engine }: Boat, decisionMinutes: number, stage: number): number {
  const { litresPerHour, fuelLitres, reserveLitres = 0, chargingHoursPerDay = 0 } = engine!;
  const days = ((stage + 1) * decisionMinutes) / 1440;
  const left = fuelLitres - reserveLitres - days * chargingHoursPerDay * litresPerHour;
  return Math.min(MOST_MOTOR_STAGES, Math.max(0, Math.floor((left * 60) / (litresPerHour * decisionMinutes) + 1e-9)));
}

/** More hours under engine are not looked at: a bound on the search. */
const MOST_MOTOR_STAGES = 240;
