import { type Boat, settingOf } from '../boat/boat.js';
import { fuelOf, type Hour, type Passage, STRONG_WINDS } from '../passage/passage.js';
import { isoUtc, parseInstant } from '../time.js';
import { type ShipDay, shipDaysOf } from './shipDays.js';

export type { ShipDay } from './shipDays.js';

/** Hours and distance of a sail or a sail plan. Day and night go by the sun at the start of each hour of the log. */
export interface Tally {
  readonly id: string;
  readonly hours: number;
  readonly dayHours: number;
  readonly nightHours: number;
  /** Distance made good along the track meanwhile. */
  readonly distanceNm: number;
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
  readonly sails: readonly Tally[];
  readonly sailPlans: readonly Tally[];
  readonly days: readonly Day[];
  readonly shipDays: readonly ShipDay[];
}

/** Adds up a passage. */
export function totalsOf(passage: Passage, boat: Boat): Totals {
  const { hours, complete, end } = passage;
  const settings = new Map(boat.sailPlans.map((plan) => [plan.id, plan.sails.map((text) => settingOf(boat, text)!)]));
  const clothsOf = (plan: string | null) => (settings.get(plan ?? '') ?? []).map((setting) => setting.cloth);
  const cloths = boat.sails.filter((sail) => sail.clothOf === undefined);
  const all = tally('', hours);
  return {
    hours: all.hours,
    distanceNm: all.distanceNm,
    meanSpeedKn: all.hours > 0 ? all.distanceNm / all.hours : null,
    arrival: complete ? end : null,
    arrivalEstimate: complete ? null : estimateOf(passage, all),
    sailChanges: hours.filter((hour) => hour.sailChange).length,
    reefChanges: hours.filter(
      (hour, i) =>
        hour.sailChange &&
        isReefOnly(settings, i === 0 ? passage.options.planSet : hours[i - 1]!.sailPlan, hour.sailPlan),
    ).length,
    ...manoeuvresOf(passage),
    hoveToHours: tally(
      '',
      hours.filter((hour) => hour.manner === 'hove-to'),
    ).hours,
    ...motoring(hours, boat),
    strongWind: STRONG_WINDS.map(({ overKn }) => ({
      overKn,
      hours: tally(
        '',
        hours.filter((hour) => hour.groundTwsKn > overKn),
      ).hours,
    })),
    offTrackNm: hours.reduce((most, hour) => Math.max(most, hour.offTrackNm), 0),
    sails: cloths.map(({ id }) =>
      tally(
        id,
        hours.filter((hour) => clothsOf(hour.sailPlan).includes(id)),
      ),
    ),
    sailPlans: [...boat.sailPlans.map(({ id }) => id), ...withoutSails(hours, boat)].map((id) =>
      tally(
        id,
        hours.filter((hour) => hour.sailPlan === id),
      ),
    ),
    shipDays: shipDaysOf(passage),
    days: [...new Set(hours.map(dateOf))].map((date) =>
      dayOf(
        date,
        hours.filter((hour) => dateOf(hour) === date),
      ),
    ),
  };
}

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

function tally(id: string, hours: readonly Hour[]): Tally {
  const sum = (some: readonly Hour[], value: (hour: Hour) => number) =>
    some.reduce((total, hour) => total + value(hour), 0);
  const length = (hour: Hour) => hour.minutes / 60;
  return {
    id,
    hours: sum(hours, length),
    dayHours: sum(
      hours.filter((hour) => hour.daylight),
      length,
    ),
    nightHours: sum(
      hours.filter((hour) => !hour.daylight),
      length,
    ),
    distanceNm: sum(hours, (hour) => hour.runNm),
  };
}

function estimateOf({ end, distanceToGoNm }: Passage, so: Tally): string | null {
  const instant = parseInstant(end);
  const meanKn = so.hours > 0 ? so.distanceNm / so.hours : 0;
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

function manoeuvresOf({ hours, options }: Passage): Pick<Totals, 'tacks' | 'gybes'> {
  const { tackEveryHours, gybeEveryHours } = options.house;
  const held = (manner: Hour['manner']) =>
    hours.filter((hour) => hour.manner === manner).reduce((sum, hour) => sum + hour.minutes / 60, 0);
  // A change of side between two hours sailed direct; those between the boards of a pair are counted by time.
  const turns = hours.filter((hour, i) => {
    const before = hours[i - 1];
    return before?.manner === 'direct' && hour.manner === 'direct' && before.tack !== hour.tack;
  });
  const through = (hour: Hour) => (Math.abs(hour.twaDeg ?? 0) < 90 ? 'tack' : 'gybe');
  return {
    tacks: Math.round(held('tacking') / tackEveryHours) + turns.filter((hour) => through(hour) === 'tack').length,
    gybes: Math.round(held('gybing') / gybeEveryHours) + turns.filter((hour) => through(hour) === 'gybe').length,
  };
}
