import type { Boat } from '../boat/boat.js';
import { type CurvePoint, chosenOf, curveOf, type InHand, searched } from '../choice/choice.js';
import { planTable } from '../tabled/tabled.js';
import { changesBetween } from './changes.js';
import type { Moment, Waters } from './hour.js';
import type { Means } from './means.js';
import type { SettledOptions } from './options.js';
import { byItself, inOrder, type SailedByOrder } from './plannedHour.js';
import { type PlannedParts, problemOf, type Standing } from './plannedProblem.js';
import { type MeansTables, routeTable } from './routeTable.js';
import type { SailedHour, SailedPassage } from './sailed.js';

/** A passage sailed by plan. */
export interface PlannedPassage extends SailedPassage {
  /** The trade-off between changes and arrival, as it stood at departure. */
  readonly curve: readonly CurvePoint[];
  /** Hours in which what had been planned could not be sailed and was planned again. */
  readonly mends: number;
}

/** Shares of the way that may be made instead of all of it. */
const HOLD_SHARES = [0.75, 0.5, 0.25];
const SPACING_NM = 0.5;
/** Bars that tables do not hold are learnt and the passage is planned again so often; then only from where they are met. */
const MOST_LESSONS = 12;

/** Plans a passage by tables and sails the plan without them. */
export function plannedPassage(
  boat: Boat,
  means: readonly Means[],
  start: Moment,
  waters: Waters,
  options: Omit<SettledOptions, 'departure'>,
): PlannedPassage {
  const { house, planSet } = options;
  const stageEpochSeconds = stagesOf(start, waters);
  const table = routeTable({
    ...waters,
    stageEpochSeconds,
    means,
    tables: means.map((one) => tablesOf(one, house)),
    house,
  });
  const parts: PlannedParts = {
    boat,
    waters,
    means,
    changes: changesBetween(boat, means, options),
    table,
    stageEpochSeconds,
    options,
  };
  const standing: Standing = {
    stage: 0,
    now: start,
    set: planSet === null ? undefined : means.findIndex(({ id }) => id === planSet),
    inHand: {},
  };
  for (let lessons = 0; ; lessons += 1) {
    const sailed = sailOnce(parts, standing, lessons < MOST_LESSONS);
    if ('bar' in sailed) table.bar(sailed.bar.stage, sailed.bar.means, sailed.bar.distanceNm);
    else return sailed;
  }
}

/** When stages begin, to the end of the forecast. */
function stagesOf({ epochSeconds }: Moment, { lastEpochSeconds, options: { decisionMinutes } }: Waters): Float64Array {
  const seconds = decisionMinutes * 60;
  const stages = Math.ceil((lastEpochSeconds - epochSeconds) / seconds);
  return Float64Array.from({ length: stages + 1 }, (_, stage) =>
    Math.min(lastEpochSeconds, epochSeconds + stage * seconds),
  );
}

function tablesOf({ plan, nightPlan }: Means, house: SettledOptions['house']): MeansTables {
  if (plan?.speed === undefined) return {};
  const keptShare = {
    up: 1 - Math.min(1, house.tackMinutes / 60 / house.tackEveryHours),
    down: 1 - Math.min(1, house.gybeMinutes / 60 / house.gybeEveryHours),
  };
  return {
    usual: planTable(plan.speed, plan.windows, keptShare),
    ...(nightPlan === undefined ? {} : { byNight: planTable(plan.speed, nightPlan.windows, keptShare) }),
  };
}

interface Lesson {
  readonly bar: { readonly stage: number; readonly means: number; readonly distanceNm: number };
}

/** Plans and sails; gives instead the first bar that is met where the plan has none, if that is asked for. */
function sailOnce(parts: PlannedParts, start: Standing, teach: boolean): PlannedPassage | Lesson {
  const { means, options } = parts;
  const { horizonHours, replanHours, decisionMinutes } = options;
  const replanStages =
    horizonHours === null ? Number.POSITIVE_INFINITY : Math.max(1, Math.round((replanHours! * 60) / decisionMinutes));
  const sails = means.filter(({ kind, onlyLeft }) => kind === 'sails' && onlyLeft !== true);
  const hours: SailedHour[] = [];
  let curve: readonly CurvePoint[] | undefined;
  let standing = start;
  let mends = 0;
  for (;;) {
    const problem = problemOf(parts, standing);
    const search = searched(problem, {
      labels: options.labels,
      spacing: SPACING_NM,
      holdShares: options.labels > 1 || options.arriveDaylight ? HOLD_SHARES : [],
    });
    curve ??= curveOf(search, problem);
    const steps = chosenOf(search, problem, options.house.pricePerChangeMinutes)?.steps() ?? [];
    const plannedAt = standing.stage;
    for (;;) {
      const step = steps[standing.stage - plannedAt];
      const sailed = step === undefined ? byItself(parts, standing) : inOrder(parts, standing, step.option, step.held);
      const { under, heldShare, change } = sailed;
      if (under.run === undefined) {
        const bar = { stage: standing.stage, means: step!.option, distanceNm: standing.now.distanceNm };
        if (teach && horizonHours === null) return { bar };
        // Once more from here, knowing that.
        parts.table.bar(bar.stage, bar.means, bar.distanceNm);
        mends += 1;
        break;
      }
      const { run } = under;
      if (run.moments.length > 0) {
        hours.push({ start: standing.now, under, heldShare, ...(change === undefined ? {} : { change }) });
      }
      if (run.endedBy !== 'hour') return { hours, sails, end: run.end, endedBy: run.endedBy, curve, mends };
      standing = {
        stage: standing.stage + 1,
        now: run.end,
        set: means.indexOf(under.means),
        inHand: inHandAfter(standing, sailed),
      };
      if (step === undefined || standing.stage - plannedAt >= replanStages) break;
    }
  }
}

function inHandAfter({ inHand }: Standing, { under, change, busy }: SailedByOrder): InHand {
  return {
    since: change === undefined ? (inHand.since ?? LONG_AGO) + 1 : 1,
    used: (inHand.used ?? 0) + (under.means.kind === 'motor' ? 1 : 0),
    ...(busy === undefined ? {} : { busy }),
  };
}

const LONG_AGO = 1000;
