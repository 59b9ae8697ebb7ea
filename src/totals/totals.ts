import { type Boat, settingOf } from '../boat/boat.js';
import { mustBeGiven } from '../given.js';
import { type BarReason, fuelOf, type Hour, type Passage, STRONG_WINDS } from '../passage/passage.js';
import type { Window } from '../sail/sail.js';
import { isoUtc, parseInstant } from '../time.js';
import { byAwa, byAws, type HoursBand, type Percentiles, percentilesOf } from './bands.js';
import { type ChangesAt, changesAtOf } from './changesAt.js';
import { countOf, handledIn, type OperationCounts, turnsOf } from './handled.js';
import { isNearLimit } from './nearLimit.js';
import { type DaysRun, noonRunsOf } from './noonRuns.js';
import { type ShipDay, shipDaysOf } from './shipDays.js';

export { type HoursBand, type Percentiles, percentilesOf } from './bands.js';
export type { ChangesAt, ChangesInWatch } from './changesAt.js';
export type { OperationCounts } from './handled.js';
export { isOnKnifeEdge } from './knifeEdge.js';
export type { DaysRun } from './noonRuns.js';
export type { ShipDay } from './shipDays.js';

/** Hours and distance of a sail or a sail plan, and the wind in them. Day and night go by the sun at the start of each hour of the log. */
export interface Tally {
  readonly id: string;
  readonly hours: number;
  readonly dayHours: number;
  readonly nightHours: number;
  /** Distance made good along the track meanwhile. */
  readonly distanceNm: number;
  /** Hours in gusts over four fifths of what its window allows, as apparent or as true wind; of a plan that of any of its sails. */
  readonly nearLimitHours: number;
  /** Hours by AWS in bands of 5 kn, and by AWA on either side in bands of 20°. */
  readonly byAws: readonly HoursBand[];
  readonly byAwa: readonly HoursBand[];
  /** AWS over the rows of the log; null where there are none. */
  readonly awsKn: Percentiles | null;
  /** Tacks and gybes flown under it. */
  readonly tacks: number;
  readonly gybes: number;
}

/** A sail's hours and how often it was handled. */
export interface SailTally extends Tally {
  readonly operations: OperationCounts;
}

/** A sail plan's hours and how often it was gone over to. */
export interface PlanTally extends Tally {
  readonly timesSet: number;
  /** Operations of going over to it. */
  readonly operations: OperationCounts;
}

/** One day by the UTC date. */
export interface Day {
  readonly date: string;
  readonly distanceNm: number;
  readonly twsMinKn: number;
  readonly twsMaxKn: number;
  readonly gustMaxKn: number;
  readonly awsMaxKn: number;
  /** Sail plans in the order they were first set; null is hove to. */
  readonly sailPlans: readonly (string | null)[];
}

/** What a passage adds up to. */
export interface Totals {
  readonly hours: number;
  /** Distance made good along the track. */
  readonly distanceNm: number;
  /** Distance over hours; null where no time passed. */
  readonly meanSpeedKn: number | null;
  /** Null when the passage is incomplete. */
  readonly arrival: string | null;
  /** For an incomplete passage: distance left over the mean speed so far; null where there is none. */
  readonly arrivalEstimate: string | null;
  /** Changes of sail plan; setting sail after lying hove to is one, and so is heaving to. */
  readonly sailChanges: number;
  /** Sail changes between plans of the same sails: another reef only. They are among `sailChanges`. */
  readonly reefChanges: number;
  /** Tacks and gybes: one each time the wind changes side, and those of beating and running on alternate tacks. */
  readonly tacks: number;
  readonly gybes: number;
  readonly hoveToHours: number;
  /** Hours in which no sail plan fitted, by its windows, the gust, the waves, the dark or for want of speed, however she went in them. */
  readonly noPlanHours: number;
  /** Operations of all sail changes. */
  readonly operations: OperationCounts;
  /** When sail changes were made. */
  readonly changesAt: ChangesAt;
  /** Day's runs noon to noon by the ship's clock, and of the whole ones the best and the worst; null where there is none. */
  readonly runs: readonly DaysRun[];
  readonly bestRun: DaysRun | null;
  readonly worstRun: DaysRun | null;
  /** Hours under engine, and how often it was started for them. */
  readonly motorHours: number;
  readonly motorStarts: number;
  /** Burnt under engine and for the batteries, litres; 0 where the boat file tells of no engine. */
  readonly fuelLitres: number;
  /** Hours of mean wind over the ground above 28, 34 and 48 kn. */
  readonly strongWind: readonly { readonly overKn: number; readonly hours: number }[];
  /** The farthest a pair of headings leads off the track. */
  readonly offTrackNm: number;
  /** Every cloth of the wardrobe; the hours of another setting count at its cloth. */
  readonly sails: readonly SailTally[];
  readonly sailPlans: readonly PlanTally[];
  readonly days: readonly Day[];
  readonly shipDays: readonly ShipDay[];
}

/**
 * Adds up a passage.
 * @throws InputError where the passage or the boat is none
 * @example
 * const { arrival, sails } = totalsOf(sample.passage, sample.boat);
 * arrival // '2027-01-28T17:48:51Z'
 * sails.find(({ id }) => id === 'vented') // { hours: 23.81…, nightHours: 0, … }
 */
export function totalsOf(passage: Passage, boat: Boat): Totals {
  const sums = sumsOf(passage, boat);
  const { hours } = passage;
  return {
    ...sums,
    shipDays: shipDaysOf(passage),
    days: [...new Set(hours.map(dateOf))].map((date) =>
      dayOf(
        date,
        hours.filter((hour) => dateOf(hour) === date),
      ),
    ),
  };
}

/** What a passage adds up to but its days one by one. */
export type Sums = Omit<Totals, 'days' | 'shipDays'>;

/**
 * The same without the days one by one, for those who add up many.
 * @throws InputError where the passage or the boat is none
 * @example
 * sumsOf(sample.passage, sample.boat) // { hours: 413.8…, distanceNm: 2784.4…, sailChanges: 14, … }
 */
export function sumsOf(passage: Passage, boat: Boat): Sums {
  mustBeGiven(passage, 'hours', 'passage', 'planPassage');
  mustBeGiven(boat, 'sailPlans', 'boat', 'readBoat');
  const { hours, complete, end, options } = passage;
  const settings = new Map(boat.sailPlans.map((plan) => [plan.id, plan.sails.map((text) => settingOf(boat, text)!)]));
  const cloths = boat.sails.filter((sail) => sail.clothOf === undefined);
  const handled = handledIn(passage, boat);
  const runs = noonRunsOf(passage);
  const whole = runs.filter((run) => run.whole);
  const hoursWhere = (isOf: (hour: Hour) => boolean) => hoursIn(hours.filter(isOf));
  const distanceNm = distanceIn(hours);
  const inAll = hoursIn(hours);
  /** Of one sail or plan: the windows of its own sails that stand in an hour. */
  const tallyOf = (id: string, windowsIn: (hour: Hour) => readonly Window[] | undefined): Tally => {
    const own = hours.flatMap((hour) => {
      const windows = windowsIn(hour);
      return windows === undefined ? [] : [{ hour, windows }];
    });
    const rows = own.map(({ hour }) => hour);
    return {
      id,
      hours: hoursIn(rows),
      dayHours: hoursIn(rows.filter(({ daylight }) => daylight)),
      nightHours: hoursIn(rows.filter(({ daylight }) => !daylight)),
      distanceNm: distanceIn(rows),
      nearLimitHours: hoursIn(
        own.flatMap(({ hour, windows }) => (windows.some((window) => isNearLimit(window, hour)) ? [hour] : [])),
      ),
      byAws: byAws(rows),
      byAwa: byAwa(rows),
      awsKn: percentilesOf(rows.map(({ awsKn }) => awsKn)),
      ...turnsOf(passage, (hour) => windowsIn(hour) !== undefined),
    };
  };
  return {
    hours: inAll,
    distanceNm,
    meanSpeedKn: inAll > 0 ? distanceNm / inAll : null,
    arrival: complete ? end : null,
    arrivalEstimate: complete ? null : estimateOf(passage, inAll, distanceNm),
    sailChanges: hours.filter((hour) => hour.sailChange).length,
    reefChanges: hours.filter(
      (hour, i) =>
        hour.sailChange && isReefOnly(settings, i === 0 ? options.planSet : hours[i - 1]!.sailPlan, hour.sailPlan),
    ).length,
    ...turnsOf(passage),
    hoveToHours: hoursWhere(({ manner }) => manner === 'hove-to'),
    noPlanHours: hoursWhere(
      ({ sailPlan, runnerUp, barred }) =>
        !settings.has(sailPlan ?? '') && runnerUp === null && !barred.some(({ reason }) => BY_CHANGE.has(reason)),
    ),
    operations: countOf(handled.flat()),
    changesAt: changesAtOf(passage, boat),
    runs,
    bestRun: whole.reduce<DaysRun | null>((best, run) => (best === null || rate(run) > rate(best) ? run : best), null),
    worstRun: whole.reduce<DaysRun | null>(
      (worst, run) => (worst === null || rate(run) < rate(worst) ? run : worst),
      null,
    ),
    ...motoring(hours, boat),
    strongWind: STRONG_WINDS.map(({ overKn }) => ({
      overKn,
      hours: hoursWhere(({ groundTwsKn }) => groundTwsKn > overKn),
    })),
    offTrackNm: hours.reduce((most, hour) => Math.max(most, hour.offTrackNm), 0),
    sails: cloths.map(({ id }) => ({
      ...tallyOf(id, ({ sailPlan }) => {
        const own = settings.get(sailPlan ?? '')?.filter(({ cloth }) => cloth === id) ?? [];
        return own.length === 0 ? undefined : own.map(({ window }) => window);
      }),
      operations: countOf(handled.flatMap((steps) => steps.filter(({ cloth }) => cloth === id))),
    })),
    sailPlans: [...settings.keys(), ...withoutSails(hours, boat)].map((id) => ({
      ...tallyOf(id, ({ sailPlan }) =>
        sailPlan === id ? (settings.get(id) ?? []).map(({ window }) => window) : undefined,
      ),
      timesSet: hours.filter(({ sailPlan, sailChange }) => sailChange && sailPlan === id).length,
      operations: countOf(handled.flatMap((steps, row) => (hours[row]!.sailPlan === id ? steps : []))),
    })),
  };
}

/** Bars of the change to a plan, not of the plan. */
const BY_CHANGE: ReadonlySet<BarReason> = new Set(['crew', 'setting']);

const hoursIn = (rows: readonly Hour[]) => rows.reduce((sum, { minutes }) => sum + minutes / 60, 0);
const distanceIn = (rows: readonly Hour[]) => rows.reduce((sum, { runNm }) => sum + runNm, 0);
/** Of a day's run when the clock was set: miles over hours. */
const rate = ({ distanceNm, hours }: DaysRun) => distanceNm / hours;

/** Engine and bare poles, where she went under them. */
function withoutSails(hours: readonly Hour[], boat: Boat): string[] {
  const own = new Set<string | null>([null, ...boat.sailPlans.map(({ id }) => id)]);
  return [...new Set(hours.map(({ sailPlan }) => sailPlan))].filter((id): id is string => !own.has(id));
}

function motoring(hours: readonly Hour[], boat: Boat): Pick<Totals, 'motorHours' | 'motorStarts' | 'fuelLitres'> {
  const isMotor = (hour: Hour | undefined) => hour?.manner === 'motor';
  const { motorHours, motorLitres, chargingLitres } = fuelOf(hours, boat);
  return {
    motorHours,
    motorStarts: hours.filter((hour, i) => isMotor(hour) && !isMotor(hours[i - 1])).length,
    fuelLitres: motorLitres + chargingLitres,
  };
}

const dateOf = (hour: Hour) => hour.time.slice(0, 10);

function dayOf(date: string, hours: readonly Hour[]): Day {
  const most = (value: (hour: Hour) => number) => Math.max(...hours.map(value));
  return {
    date,
    distanceNm: hours.reduce((sum, hour) => sum + hour.runNm, 0),
    twsMinKn: Math.min(...hours.map((hour) => hour.twsKn)),
    twsMaxKn: most((hour) => hour.twsKn),
    gustMaxKn: most((hour) => hour.gustKn),
    awsMaxKn: most((hour) => hour.awsKn),
    sailPlans: [...new Set(hours.map((hour) => hour.sailPlan))],
  };
}

function estimateOf({ end, distanceToGoNm }: Passage, hours: number, distanceNm: number): string | null {
  const instant = parseInstant(end);
  const meanKn = hours > 0 ? distanceNm / hours : 0;
  if (typeof instant !== 'number' || meanKn <= 0) return null;
  const hoursToGo = distanceToGoNm / meanKn;
  // Beyond a year it is not an estimate of anything.
  return hoursToGo > 8760 ? null : isoUtc(instant + hoursToGo * 3600);
}

type Settings = ReadonlyMap<string, readonly { readonly sail: { readonly id: string } }[]>;

function isReefOnly(settings: Settings, from: string | null, to: string | null): boolean {
  const sailsOf = (plan: string | null) =>
    settings
      .get(plan ?? '')
      ?.map((setting) => setting.sail.id)
      .sort()
      .join(' ');
  return sailsOf(from) !== undefined && sailsOf(from) === sailsOf(to);
}
