import type { Boat } from '../boat/boat.js';
import { type CurvePoint, chosenOf, curveOf, type Ending, type InHand, searched } from '../choice/choice.js';
import type { WeatherAt } from '../weather/weather.js';
import { changesOnWay } from './changeAt.js';
import type { Changes } from './changes.js';
import { isDay, type Moment, type Waters } from './hour.js';
import type { Means } from './means.js';
import type { SettledOptions } from './options.js';
import { byItself, inOrder, notNow, type SailedByOrder } from './plannedHour.js';
import { type PlannedParts, problemOf, SLOW_KN, type Standing } from './plannedProblem.js';
import type { MeansTables } from './ranked.js';
import { type RouteTable, routeTable } from './routeTable.js';
import type { SailedHour, SailedPassage } from './sailed.js';
import { clockAfter } from './shipsClock.js';

/** A passage sailed by plan. */
export interface PlannedPassage extends SailedPassage {
  /** The trade-off between changes and arrival, as it stood at departure, and the point that was chosen of it. */
  readonly curve: readonly CurvePoint[];
  readonly chosen?: Ending;
  /** With what it was planned. */
  readonly parts: PlannedParts;
}

/** A passage to be planned. */
export interface ToPlan {
  readonly boat: Boat;
  readonly means: readonly Means[];
  readonly tables: readonly MeansTables[];
  readonly changes: Changes;
  readonly start: Moment;
  readonly waters: Waters;
  readonly options: Omit<SettledOptions, 'departure'>;
  /** At the price of a change alone: the curve is then empty, and what could not be gone over to is not told. */
  readonly briefly: boolean;
}

/** So fast she is taken to go until more of the way is known: way and the price of changes are weighed by it. */
const LIKELY_KN = 6;
const SPACING_NM = 0.5;
/** So near the end ways are kept that wait for daylight, and so many: two days' sailing and half a mile each, of our own choice. */
const WAITING_NM = 300;
const WAITING_LABELS = 64;
/**
 * Minutes of daylight about an arrival that tables are asked for, as they differ from what is sailed by minutes: doubled where it came
 * out dark all the same.
 */
const DAYLIGHT_MARGIN_MINUTES = 5;
const MOST_DAYLIGHT_MARGIN_MINUTES = 80;
/** Bars that tables do not hold are learnt and the passage is planned again so often; then only from where they are met. */
const MOST_LESSONS = 12;

/**
 * Plans a passage by tables and sails the plan without them. With a horizon it is planned again and again, each time with the weather
 * as it was known then (`knownAt`), and sailed in the weather that came.
 */
export function plannedPassage(
  { boat, means, tables, changes, start, waters, options, briefly }: ToPlan,
  knownAt?: (epochSeconds: number) => WeatherAt,
): PlannedPassage {
  const { house, planSet } = options;
  const stageEpochSeconds = stagesOf(start, waters);
  const tableOf = (weatherAt: WeatherAt) =>
    routeTable({
      ...waters,
      weatherAt,
      stageEpochSeconds,
      stepMinutes: options.stepMinutes,
      means,
      tables,
      house,
    });
  const table = tableOf(waters.weatherAt);
  const parts: Omit<PlannedParts, 'daylightMarginMinutes'> = {
    boat,
    waters,
    means,
    changes,
    changeAt: changesOnWay({ boat, waters, changes, table, stageEpochSeconds }),
    table,
    stageEpochSeconds,
    options,
    briefly,
  };
  const standing: Standing = {
    stage: 0,
    now: start,
    set: planSet === null ? undefined : means.findIndex(({ id }) => id === planSet),
    inHand: {},
    clock: clockAfter(undefined, start.epochSeconds, waters.trackAt(start.distanceNm)),
  };
  let daylightMarginMinutes = DAYLIGHT_MARGIN_MINUTES;
  for (let lessons = 0; ; lessons += 1) {
    const sailed = sailOnce(
      { ...parts, daylightMarginMinutes },
      standing,
      lessons < MOST_LESSONS,
      knownAt && ((epochSeconds) => tableOf(knownAt(epochSeconds))),
    );
    if ('bar' in sailed) table.bar(sailed.bar.stage, sailed.bar.means, sailed.bar.distanceNm);
    else if (isTooDark(sailed, waters, options) && daylightMarginMinutes < MOST_DAYLIGHT_MARGIN_MINUTES)
      daylightMarginMinutes *= 2;
    else return sailed;
  }
}

/** Whether she arrives in the dark where daylight was asked for. */
function isTooDark(
  { end, endedBy }: SailedPassage,
  { trackAt }: Waters,
  { arriveDaylight }: Pick<SettledOptions, 'arriveDaylight'>,
) {
  return arriveDaylight && endedBy === 'arrival' && !isDay(trackAt(end.distanceNm), end);
}

/** When stages begin, to the end of the forecast. */
function stagesOf({ epochSeconds }: Moment, { lastEpochSeconds, options: { decisionMinutes } }: Waters): Float64Array {
  const seconds = decisionMinutes * 60;
  const stages = Math.ceil((lastEpochSeconds - epochSeconds) / seconds);
  return Float64Array.from({ length: stages + 1 }, (_, stage) =>
    Math.min(lastEpochSeconds, epochSeconds + stage * seconds),
  );
}

interface Lesson {
  readonly bar: { readonly stage: number; readonly means: number; readonly distanceNm: number };
}

/** Plans and sails; gives instead the first bar that is met where the plan has none, if that is asked for. */
function sailOnce(
  whole: PlannedParts,
  start: Standing,
  teach: boolean,
  tableAt?: (epochSeconds: number) => RouteTable,
): PlannedPassage | Lesson {
  const { means, options } = whole;
  const { horizonHours, replanHours, decisionMinutes } = options;
  const replanStages =
    horizonHours === null ? Number.POSITIVE_INFINITY : Math.max(1, Math.round((replanHours! * 60) / decisionMinutes));
  const sails = means.filter(({ kind, onlyLeft }) => kind === 'sails' && onlyLeft !== true);
  const hours: SailedHour[] = [];
  let atDeparture: Pick<PlannedPassage, 'curve' | 'chosen'> | undefined;
  let standing = start;
  let parts = whole;
  let again = false;
  for (;;) {
    // What was met against the forecast known is learnt by the table of this planning.
    if (!again && tableAt !== undefined) parts = { ...whole, table: tableAt(standing.now.epochSeconds) };
    again = false;
    const { curve, chosen, steps } = planFrom(parts, standing);
    atDeparture ??= { curve: curve(), ...(chosen === undefined ? {} : { chosen }) };
    const plannedAt = standing.stage;
    for (;;) {
      const step = steps[standing.stage - plannedAt];
      const sailed = step === undefined ? byItself(parts, standing) : inOrder(parts, standing, step);
      const { under, change } = sailed;
      if (under.run === undefined) {
        const bar = { stage: standing.stage, means: step!, distanceNm: standing.now.distanceNm };
        if (teach && tableAt === undefined) return { bar };
        // Once more from here, knowing that.
        parts.table.bar(bar.stage, bar.means, bar.distanceNm);
        again = true;
        break;
      }
      const { run } = under;
      if (run.moments.length > 0) {
        hours.push({
          start: standing.now,
          under,
          // Of an hour under a plan a brief log compares nothing.
          ...(parts.briefly && under.means.kind === 'sails' ? {} : { notNow: notNow(parts, standing) }),
          ...(change === undefined ? {} : { change }),
        });
      }
      if (run.endedBy !== 'hour')
        return { hours, sails, end: run.end, endedBy: run.endedBy, ...atDeparture, parts: whole };
      standing = {
        stage: standing.stage + 1,
        now: run.end,
        set: means.indexOf(under.means),
        inHand: inHandAfter(standing, sailed),
        clock: clockAfter(standing.clock, run.end.epochSeconds, whole.waters.trackAt(run.end.distanceNm)),
      };
      if (step === undefined || standing.stage - plannedAt >= replanStages) break;
    }
  }
}

/** Searches the rest of a passage. */
function planFrom(parts: PlannedParts, standing: Standing) {
  const { waters, options } = parts;
  const problem = problemOf(parts, standing);
  const search = searched(problem, {
    labels: options.labels,
    spacing: SPACING_NM,
    // A price is worth at least as much time at a slow speed.
    wayPerPrice: SLOW_KN / 60,
    // To arrive by daylight ways must wait for one another, which one price does not show.
    ...(parts.briefly && !options.arriveDaylight
      ? { atPrice: { pricePerChange: options.house.pricePerChangeMinutes, likelyWayPerMinute: LIKELY_KN / 60 } }
      : {}),
    ...(options.arriveDaylight ? { widely: { from: waters.lengthNm - WAITING_NM, labels: WAITING_LABELS } } : {}),
  });
  const chosen = chosenOf(search, problem, options.house.pricePerChangeMinutes);
  return { curve: () => (parts.briefly ? [] : curveOf(search, problem)), chosen, steps: chosen?.steps() ?? [] };
}

function inHandAfter({ inHand }: Standing, { under, change, busy }: SailedByOrder): InHand {
  return {
    since: change === undefined ? (inHand.since ?? LONG_AGO) + 1 : 1,
    used: (inHand.used ?? 0) + (under.means.kind === 'motor' ? 1 : 0),
    ...(busy === undefined ? {} : { busy }),
  };
}

const LONG_AGO = 1000;
