import { type Boat, checkCompleteBoat } from '../boat/boat.js';
import { type Fault, faultList } from '../errors.js';
import { checkPolars, type PolarSet } from '../polar/polar.js';
import { layTrack, type Route, trackAt } from '../route/route.js';
import { sailablePlans } from '../speed/speed.js';
import { isoUtc } from '../time.js';
import { adjustedForecast, checkForecast, type Forecast, weatherAt } from '../weather/weather.js';
import { checkedDeparture, windTimesOf } from './departure.js';
import { baselineMeans, fastestPassage } from './fastestPassage.js';
import { type Foresight, knownWeather } from './foresight.js';
import { fuelWarning } from './fuel.js';
import type { Moment, Waters } from './hour.js';
import { idleSettings } from './idleSettings.js';
import type { Hour } from './log.js';
import { logged } from './logged.js';
import { lastStormKn, type Means, meansOf } from './means.js';
import { checkOptions, type PassageOptions, type SettledOptions, settle } from './options.js';
import { type PlannedPassage, plannedPassage } from './plannedPassage.js';
import { type MeansTables, tablesOf } from './ranked.js';
import type { SailedPassage } from './sailed.js';
import { arrivalWarning, handsWarning, windWarnings } from './seamanship.js';
import { type Squalls, squallsOf } from './squallsMet.js';
import { type TradeoffPoint, tradeoffOf } from './tradeoff.js';
import { type Undecided, undecidedTally } from './undecided.js';
import { noFlags, warningsOf, windAbsent } from './warnings.js';
import { type SailChange, whyOf } from './why.js';

/** What a passage is planned from. */
export interface PassageInputs {
  readonly route: Route;
  readonly forecast: Forecast;
  readonly boat: Boat;
  readonly polars: PolarSet;
}

/** Why a passage did not reach its end. */
export type IncompleteReason = 'forecast-ended' | 'no-wind-data' | 'no-plan-allowed';

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
  readonly hours: readonly Hour[];
}

/**
 * Sails a route hour by hour and picks for every hour the sail plan with the most distance made good among those allowed.
 * Where nothing is allowed the boat heaves to. Where wind is absent or the forecast ends the passage ends, incomplete.
 * @throws InputError where the departure is outside the forecast's times, the start outside its grid, or a record or option made
 * in memory is none
 */
export function planPassage(inputs: PassageInputs, options: PassageOptions): Passage {
  const { route, boat, polars } = inputs;
  checkInputs(inputs);
  checkOptions(options, boat);
  const track = layTrack(route);
  const settled = settle(options, boat, polars);
  const forecast = adjustedForecast(inputs.forecast, settled);
  const departureEpochSeconds = checkedDeparture(options.departure, forecast, track, settled);
  const plans = sailablePlans(boat, polars, settled.house.skipperFactor, settled.without);
  const waters: Waters = {
    trackAt: trackAt(track),
    lengthNm: track.distanceNm.at(-1)!,
    weatherAt: weatherAt(forecast, settled.maxGapHours),
    lastEpochSeconds: windTimesOf(forecast)!.toEpochSeconds,
    options: settled,
    lastStormKn: lastStormKn(plans),
  };
  const start: Moment = { distanceNm: 0, epochSeconds: departureEpochSeconds };
  const means = settled.choice === 'fastest' ? baselineMeans(plans) : meansOf(boat, plans, settled);
  const tables = means.map((one) => tablesOf(one, settled.house));
  const { planned, sailed, foresight } =
    settled.choice === 'fastest'
      ? { sailed: fastestPassage(means, start, waters, settled.planSet) }
      : plannedWith(boat, means, tables, start, waters, settled, forecast);
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
    formatVersion: 1,
    complete,
    reason: complete
      ? null
      : hours.every(({ manner }) => manner === 'hove-to' || manner === 'bare-poles')
        ? 'no-plan-allowed'
        : endedBy,
    distanceToGoNm: complete ? 0 : waters.lengthNm - now.distanceNm,
    departure: isoUtc(departureEpochSeconds),
    end: isoUtc(now.epochSeconds),
    options: { ...settled, departure: isoUtc(departureEpochSeconds) },
    warnings: [
      ...(endedBy === 'no-wind-data' ? [windAbsent(forecast, waters.trackAt(now.distanceNm), now, settled)] : []),
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
    hours,
  };
}

/** The passage by plan; with a horizon also what it would have been with all weather known. */
function plannedWith(
  boat: Boat,
  means: readonly Means[],
  tables: readonly MeansTables[],
  start: Moment,
  waters: Waters,
  settled: Omit<SettledOptions, 'departure'>,
  forecast: Forecast,
): { readonly planned: PlannedPassage; readonly sailed: SailedPassage; readonly foresight?: Foresight } {
  const { horizonHours, replanHours } = settled;
  const planned = plannedPassage(boat, means, tables, start, waters, { ...settled, horizonHours: null });
  if (horizonHours === null || replanHours === null) return { planned, sailed: planned };
  const sailed = plannedPassage(
    boat,
    means,
    tables,
    start,
    waters,
    settled,
    knownWeather(forecast, settled.maxGapHours),
  );
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

/** Records made in memory pass no reader's door: they are checked here, so that no number of the log can be none. */
function checkInputs({ forecast, boat, polars }: PassageInputs): void {
  const faults = faultList();
  checkCompleteBoat(boat, 'boat', faults);
  checkPolars(polars, 'polars', faults);
  checkForecast(forecast, faults);
  faults.throwIfAny();
}
