import type { Boat } from '../boat/boat.js';
import { type Fault, faultList, InputError } from '../errors.js';
import { checkTypes } from '../given.js';
import type { PolarSet } from '../polar/polar.js';
import { layTrack, type Route, type Track, trackAt } from '../route/route.js';
import { sailablePlans } from '../speed/speed.js';
import { isoUtc } from '../time.js';
import { DEFAULT_MAX_GAP_HOURS } from '../weather/weather.js';
import { type Changes, changesBetween } from './changes.js';
import { checkInputs, checkVoyage, checkWeather } from './checkInputs.js';
import { checkedDeparture } from './departure.js';
import { baselineMeans, fastestPassage } from './fastestPassage.js';
import { type Foresight, knownWeather } from './foresight.js';
import { fuelWarning } from './fuel.js';
import type { Moment, Waters } from './hour.js';
import { idleSettings } from './idleSettings.js';
import type { Hour } from './log.js';
import { logged, loggedBriefly } from './logged.js';
import { lastStormKn, type Means, meansOf } from './means.js';
import { checkOptions, checkRanges, type PassageOptions, type SettledOptions, settle } from './options.js';
import { barredByOf, checkOwnRules, type OwnRule } from './ownRules.js';
import { type PlannedPassage, plannedPassage, type ToPlan } from './plannedPassage.js';
import { type MeansTables, tablesOf } from './ranked.js';
import type { SailedPassage } from './sailed.js';
import { arrivalWarning, handsWarning, windWarnings } from './seamanship.js';
import {
  climateWarning,
  lastInstantOf,
  type Sky,
  type SkyInputs,
  type Synthetic,
  skyOf,
  syntheticOf,
  weatherOf,
} from './sky.js';
import { type Squalls, squallsOf } from './squallsMet.js';
import { type TradeoffPoint, tradeoffOf } from './tradeoff.js';
import { type Undecided, undecidedTally } from './undecided.js';
import { noFlags, warningsOf, windAbsent } from './warnings.js';
import { type SailChange, whyOf } from './why.js';

/** What a passage is planned from: route, boat and speeds, and a forecast, a monthly climatology, or both. */
export type PassageInputs = SkyInputs & {
  readonly route: Route;
  readonly boat: Boat;
  readonly polars: PolarSet;
};

/** Why a passage did not reach its end; `too-slow`: with a climatology, which never ends, it takes longer than 2 kn and ten days. */
export type IncompleteReason = 'forecast-ended' | 'no-wind-data' | 'no-plan-allowed' | 'too-slow';

/** One route sailed at one time with one boat: the log, and how it ended. */
export interface Passage {
  readonly formatVersion: 1;
  readonly complete: boolean;
  readonly reason: IncompleteReason | null;
  readonly distanceToGoNm: number;
  readonly departure: string;
  /** The last instant of the log: arrival, or where it broke off. */
  readonly end: string;
  readonly options: SettledOptions;
  /** Names of the caller's own rules, where it was planned under such. */
  readonly ownRules?: readonly string[];
  readonly warnings: readonly Fault[];
  /** Where speeds are estimated: what they rest on, and which comparisons of plans they cannot decide. */
  readonly estimate?: { readonly basis: readonly string[]; readonly undecided: readonly Undecided[] };
  /** Of a planned choice: the earliest arrival for every number of sail changes, as it stood at departure. */
  readonly curve?: readonly TradeoffPoint[];
  /** Of a planned choice: squalls to be expected, and whether they are allowed for. */
  readonly squalls?: Squalls;
  /** Of a planned choice: every sail change and why it is made. */
  readonly changes?: readonly SailChange[];
  /** Where it was planned with a horizon. The curve is then of the passage with all weather known, its chosen row that of as many changes as are sailed. */
  readonly foresight?: Foresight;
  /** Where the wind, or some of it, is synthetic: what it was drawn with. */
  readonly synthetic?: Synthetic;
  readonly hours: readonly Hour[];
}

/**
 * Sails a route hour by hour and picks for every hour the sail plan with the most distance made good among those allowed.
 * Where nothing is allowed the boat heaves to. Where wind is absent or the forecast ends the passage ends, incomplete; with a climatology
 * behind the forecast, or alone, it goes on.
 * @throws InputError where the departure is outside the forecast's times, the start outside its grid, or an input, record, option or
 * rule is none
 * @example
 * const { hours, end } = planPassage(sample, { departure: '2027-01-11T12:00Z', crew: 4 });
 * hours[0] // { sailPlan: 'main+reacher', awsKn: 8.75…, awaDeg: -80.27…, … }
 * end // '2027-01-28T17:48:51Z'
 * planPassage(sample, { departure: '11 January' })
 * // throws departure: expected a time in ISO 8601, like 2018-10-06T20:00Z, got "11 January"
 */
export function planPassage(inputs: PassageInputs, options: PassageOptions, own: PassageRules = {}): Passage {
  checkInputs(inputs);
  checkTypes(own, {}, 'rules');
  const { rules = [] } = own;
  const { boat, polars } = inputs;
  const prepared = preparedFor(fittedOut(inputs, options, rules), inputs);
  const { sky, settled, tables } = prepared;
  const { forecast } = sky;
  const { waters, start, planned, sailed, foresight } = sailedFrom(prepared, options.departure, false);
  const departureEpochSeconds = start.epochSeconds;
  const { end: now, endedBy } = sailed;
  const flags = noFlags();
  const undecided = undecidedTally(polars);
  const hours: Hour[] = [];
  for (const sailedHour of sailed.hours) {
    const { hour, met, tried } = logged(sailedHour, sailed.sails, tables, waters, hours.at(-1), options.planSet);
    hours.push(hour);
    flags.note(hour, sailedHour.under.run!, met.weather);
    if (sailedHour.under.means.kind === 'sails')
      undecided.note(sailedHour.under, tried, met.conditions.twsKn, hour.minutes / 60);
  }
  const complete = endedBy === 'arrival';
  const changes = planned && whyOf(planned.parts, sailed.hours, hours);
  return {
    ...outcomeOf(prepared, waters, start, sailed, hours),
    warnings: [
      ...(endedBy === 'no-wind-data' ? [windAbsent(sky, waters.trackAt(now.distanceNm), now, settled)] : []),
      ...climateWarning(hours, sky),
      ...windWarnings(hours, forecast, settled),
      ...(complete ? arrivalWarning(waters.trackAt(now.distanceNm), now) : []),
      ...fuelWarning(hours, boat),
      ...handsWarning(changes ?? [], settled.crew),
      ...idleSettings(options, boat, settled),
      ...warningsOf(flags, boat, polars, forecast, settled),
    ],
    ...(polars.status === 'estimated' ? { estimate: { basis: polars.basis ?? [], undecided: undecided.list() } } : {}),
    ...(planned?.chosen === undefined
      ? {}
      : {
          curve: tradeoffOf(
            planned.curve,
            planned.chosen,
            departureEpochSeconds,
            minutesOf(planned, start),
            changesOf(sailed),
          ),
        }),
    ...(changes === undefined ? {} : { squalls: squallsOf(hours, waters), changes }),
    ...(foresight === undefined ? {} : { foresight }),
    ...syntheticOf(sky),
    hours,
  };
}

/**
 * What a passage is planned under that is no plain data. It stands apart from the options, which are told with the result and cross
 * threads: a study, which may run in threads, takes none.
 */
export interface PassageRules {
  /** House rules of one's own, beside those of the boat file and the options; of a result only their names are told. */
  readonly rules?: readonly OwnRule[];
}

/** What of a brief log is worked out. */
export interface BriefOptions extends PassageRules {
  /** Whether it tells how firmly each hour's plan stands (`standsShare` and what goes with it): it takes half as long again and more. */
  readonly firmness?: boolean;
}

/** What passages are sailed in. */
export type PassageWeather = SkyInputs;

/**
 * Passages of one route with one boat, each in the weather and from the departure it is then given, for those who sail many: the plan at
 * the price of a change alone, without the trade-off, and a log without comparisons. Of every hour sailed under a plan `runnerUp`,
 * `marginKn` and, unless it is asked for, what tells how firmly it stands are null and `barred` is empty; warnings, curve, squalls, foresight, reasons of changes
 * and what an estimate cannot decide are left out. A weather is known again by its record: pass the same one, and it is prepared once.
 * @throws InputError as `planPassage` does, of weather and departure when they are given
 * @example
 * const sail = passagesFrom(sample, { choice: 'fastest' });
 * sail({ forecast: sample.forecast }, '2027-01-12T12:00Z') // { complete: true, end: '2027-01-29T03:59:37Z', … }
 */
export function passagesFrom(
  voyage: Pick<PassageInputs, 'route' | 'boat' | 'polars'>,
  options: Omit<PassageOptions, 'departure'>,
  brief: BriefOptions = {},
): (weather: PassageWeather, departure: string) => Passage {
  checkTypes(brief, { firmness: 'boolean?' });
  const { firmness = false, rules = [] } = brief;
  if (options !== undefined) checkTypes(options, {});
  const fitted = fittedOut(voyage, { ...options, departure: '' }, rules);
  let last: { readonly weather: PassageWeather; readonly prepared: Prepared } | undefined;
  return (weather, departure) => {
    if (last?.weather !== weather) {
      checkWeather(weather);
      last = { weather, prepared: preparedFor(fitted, weather) };
    }
    const { prepared } = last;
    const { waters, start, sailed } = sailedFrom(prepared, departure, true);
    const tables = firmness ? prepared.tables : undefined;
    const hours: Hour[] = [];
    for (const sailedHour of sailed.hours)
      hours.push(loggedBriefly(sailedHour, sailed.sails, tables, waters, hours.at(-1), options.planSet));
    return { ...outcomeOf(prepared, waters, start, sailed, hours), warnings: [], ...syntheticOf(prepared.sky), hours };
  };
}

/**
 * Asks of departures of a route in some weather why a passage cannot start there; empty where it can.
 * @throws InputError where the route, the weather or an option is none
 * @example
 * const why = mayDepart(sample.route, { forecast: sample.forecast }, {});
 * why('2027-01-11T12:00Z') // []
 * why('2028-01-11T12:00Z')[0]
 * // { code: 'departure-outside', expected: 'a departure from 2027-01-10T00:00:00Z and before 2027-02-03T…', … }
 */
export function mayDepart(
  route: Route,
  weather: PassageWeather,
  options: Omit<PassageOptions, 'departure'>,
): (departure: string) => readonly Fault[] {
  checkWeather(weather);
  checkTypes(options, {});
  const faults = faultList();
  checkRanges(options, ['maxGapHours', 'windFactor', 'windShiftHours'], faults);
  faults.throwIfAny();
  const { maxGapHours = DEFAULT_MAX_GAP_HOURS, windFactor = 1, windShiftHours = 0 } = options;
  const sky = skyOf(weather, { windFactor, windShiftHours });
  const at = weatherOf(sky, maxGapHours);
  const track = layTrack(route);
  return (departure) => {
    try {
      checkedDeparture(departure, sky, at, track, { windShiftHours });
      return [];
    } catch (error) {
      if (error instanceof InputError) return error.faults;
      throw error;
    }
  };
}

/** What all passages of one route with one boat and set of options have in common. */
interface FittedOut {
  readonly boat: Boat;
  readonly track: Track;
  readonly settled: Omit<SettledOptions, 'departure'>;
  readonly means: readonly Means[];
  readonly tables: readonly MeansTables[];
  readonly changes: Changes;
  readonly lastStormKn: number;
  readonly rules: readonly OwnRule[];
}

function fittedOut(
  voyage: Pick<PassageInputs, 'route' | 'boat' | 'polars'>,
  options: PassageOptions,
  rules: readonly OwnRule[],
): FittedOut {
  checkVoyage(voyage);
  const { route, boat, polars } = voyage;
  checkOptions(options, boat);
  checkOwnRules(rules);
  const settled = settle(options, boat, polars);
  const plans = sailablePlans(boat, polars, settled.house.skipperFactor, settled.without);
  const barredBy = barredByOf(rules, boat);
  const means = settled.choice === 'fastest' ? baselineMeans(plans, barredBy) : meansOf(boat, plans, settled, barredBy);
  const changes = changesBetween(boat, means, settled);
  const byDay = { dark: false, bothWatches: true };
  const hoveTo = means.findIndex(({ kind }) => kind === 'hove-to');
  const isBeyondCrew = (i: number) =>
    settled.choice === 'planned' && means[i]!.kind === 'sails' && changes(hoveTo, i, byDay).forbidden === 'crew';
  return {
    boat,
    track: layTrack(route),
    settled,
    means,
    tables: means.map((one, i) => ({ ...tablesOf(one, settled.house), beyondCrew: isBeyondCrew(i) })),
    changes,
    lastStormKn: lastStormKn(plans),
    rules,
  };
}

/** The same in some weather. */
interface Prepared extends FittedOut {
  readonly sky: Sky;
  /** Without the last instant, which hangs on the departure. */
  readonly waters: Omit<Waters, 'lastEpochSeconds'>;
}

function preparedFor(fitted: FittedOut, weather: PassageWeather): Prepared {
  const { track, settled } = fitted;
  const sky = skyOf(weather, settled);
  const waters = {
    trackAt: trackAt(track),
    lengthNm: track.distanceNm.at(-1)!,
    weatherAt: weatherOf(sky, settled.maxGapHours),
    options: settled,
    lastStormKn: fitted.lastStormKn,
  };
  return { ...fitted, sky, waters };
}

/** A passage as it is sailed from a departure. */
function sailedFrom(
  { boat, track, sky, settled, waters: around, means, tables, changes }: Prepared,
  departure: string,
  briefly: boolean,
): {
  readonly waters: Waters;
  readonly start: Moment;
  readonly planned?: PlannedPassage;
  readonly sailed: SailedPassage;
  readonly foresight?: Foresight;
} {
  const epochSeconds = checkedDeparture(departure, sky, around.weatherAt, track, settled);
  const start: Moment = { distanceNm: 0, epochSeconds };
  const waters: Waters = { ...around, lastEpochSeconds: lastInstantOf(sky, epochSeconds, around.lengthNm) };
  const sailed =
    settled.choice === 'fastest'
      ? { sailed: fastestPassage(means, start, waters, settled.planSet) }
      : plannedWith({ boat, means, tables, changes, start, waters, briefly }, settled, sky);
  return { waters, start, ...sailed };
}

/** How a passage ended. */
function outcomeOf(
  { sky, settled, rules }: Prepared,
  { lengthNm }: Waters,
  { epochSeconds }: Moment,
  { end, endedBy }: SailedPassage,
  hours: readonly Hour[],
): Pick<
  Passage,
  'formatVersion' | 'complete' | 'reason' | 'distanceToGoNm' | 'departure' | 'end' | 'options' | 'ownRules'
> {
  const complete = endedBy === 'arrival';
  const departure = isoUtc(epochSeconds);
  return {
    formatVersion: 1,
    complete,
    reason: complete
      ? null
      : hours.every(({ manner }) => manner === 'hove-to' || manner === 'bare-poles')
        ? 'no-plan-allowed'
        : endedBy === 'forecast-ended' && sky.climatology !== undefined
          ? 'too-slow'
          : endedBy,
    distanceToGoNm: complete ? 0 : lengthNm - end.distanceNm,
    departure,
    end: isoUtc(end.epochSeconds),
    options: { ...settled, departure },
    ...(rules.length === 0 ? {} : { ownRules: rules.map(({ name }) => name) }),
  };
}

/** The passage by plan; with a horizon also what it would have been with all weather known. */
function plannedWith(
  all: Omit<ToPlan, 'options'>,
  settled: Omit<SettledOptions, 'departure'>,
  sky: Sky,
): { readonly planned: PlannedPassage; readonly sailed: SailedPassage; readonly foresight?: Foresight } {
  const { horizonHours, replanHours } = settled;
  const { start } = all;
  const known = () => knownWeather(sky, settled.maxGapHours);
  if (horizonHours !== null && replanHours !== null && all.briefly) {
    const sailed = plannedPassage({ ...all, options: settled }, known());
    return { planned: sailed, sailed };
  }
  const planned = plannedPassage({ ...all, options: { ...settled, horizonHours: null } });
  if (horizonHours === null || replanHours === null) return { planned, sailed: planned };
  const sailed = plannedPassage({ ...all, options: settled }, known());
  const [whole, real] = [minutesOf(planned, start), minutesOf(sailed, start)];
  const cost = whole === undefined || real === undefined ? null : real - whole;
  const priced = priceMinutesOf(sailed, settled) - priceMinutesOf(planned, settled);
  const foresight: Foresight = {
    horizonHours,
    replanHours,
    wholeKnownEnd: isoUtc(planned.end.epochSeconds),
    wholeKnownComplete: whole !== undefined,
    costHours: cost === null ? null : cost / 60,
    costWithPricesHours: cost === null ? null : (cost + priced) / 60,
  };
  return { planned, sailed, foresight };
}

/** From start to arrival; undefined where it does not arrive. */
const minutesOf = ({ end, endedBy }: SailedPassage, { epochSeconds }: Moment): number | undefined =>
  endedBy === 'arrival' ? (end.epochSeconds - epochSeconds) / 60 : undefined;

/** Sail changes of a passage. */
const changesOf = ({ hours }: SailedPassage): number => hours.filter(({ change }) => change !== undefined).length;

/** What a passage cost beyond its time, minutes. */
function priceMinutesOf({ hours }: SailedPassage, { house }: Pick<SettledOptions, 'house'>): number {
  return hours.reduce((sum, { start, under: { means, run }, change }) => {
    const lasting = (run!.end.epochSeconds - start.epochSeconds) / 3600;
    const motored = means.kind === 'motor' ? house.motorPriceMinutes * lasting : 0;
    return sum + motored + (change === undefined ? 0 : change.price + house.pricePerChangeMinutes);
  }, 0);
}
