import type { TrackPoint } from '../route/route.js';
import { isOver, type Window } from '../sail/sail.js';
import type { Conditions } from '../sailing/sailing.js';
import { type Met, type PlanTable, planTable } from '../tabled/tabled.js';
import { wrap180 } from '../units.js';
import { partsOf } from '../wind/wind.js';
import type { Means } from './means.js';
import type { SettledOptions } from './options.js';
import { ruleMoment } from './ownRules.js';

/** The speed tables of a means: as it is, and as it may be carried by night in strong wind. */
export interface MeansTables {
  readonly usual?: PlanTable;
  readonly byNight?: PlanTable;
  /** That it takes more hands than she has to set it or to take it down: it stands only where it stood at departure. */
  readonly beyondCrew?: boolean;
}

/** The tables of a means; none hove to, under bare poles, or without a polar. */
export function tablesOf({ plan, nightPlan }: Means, house: SettledOptions['house']): MeansTables {
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

/** Conditions as the tables take them. */
export function metOf({ courseDeg, twdDeg, twsKn, gustTwsKn, current }: Conditions): Met {
  const { alongKn, acrossKn } = partsOf(current, courseDeg);
  return { twsKn, angleDeg: wrap180(twdDeg - courseDeg), gustTwsKn, alongKn, acrossKn };
}

/** Light and waves, as they bar and reef sails. */
export interface Sea {
  readonly dark: boolean;
  readonly waveHeightM: number;
}

type NightRule = Pick<SettledOptions['house'], 'nightReefAboveKn'>;

/** Whether the main is reefed further than by day. */
const isReefedFurther = ({ nightReefAboveKn }: NightRule, { dark }: Sea, { twsKn }: Met): boolean =>
  dark && nightReefAboveKn !== null && twsKn > nightReefAboveKn;

/** The table that holds for a means in light and waves; undefined where the waves bar it or it has none. Of the dark only the reef is asked. */
export function tableIn(
  { waveMaxM }: Means,
  { usual, byNight }: MeansTables,
  sea: Sea,
  met: Met,
  house: NightRule,
): PlanTable | undefined {
  if (waveMaxM !== undefined && isOver(sea.waveHeightM, waveMaxM)) return undefined;
  return (isReefedFurther(house, sea, met) ? byNight : undefined) ?? usual;
}

/** Sail plans in conditions that are not quite those of the hour. */
export interface Ranking {
  /** Speed made good of every sail plan, NaN where it may not be carried; whether it is dark and the waves stay as they are. */
  smgKn(met: Met): Float64Array;
  /** The same of one on one heading, without a pair. */
  directSmgKn(index: number, met: Met): number;
  /** The windows that hold for one. */
  windows(index: number, met: Met): readonly Window[];
  readonly sails: readonly Means[];
}

/** Where and when it is asked what else might stand. */
export interface Whereabouts {
  readonly point: TrackPoint;
  readonly epochSeconds: number;
  /** Whether it is dark so many minutes after the hour's end: by then what is not set in the dark is to be down. */
  readonly isDarkAfter: (minutes: number) => boolean;
}

/** The sail plans in an hour's light and waves, asked in other winds by the tables; of what her crew cannot handle only that which is set. */
export function rankingIn(
  isSet: Means,
  sails: readonly Means[],
  tables: readonly MeansTables[],
  sea: Sea,
  house: NightRule,
  { point, epochSeconds, isDarkAfter }: Whereabouts,
): Ranking {
  const tableOf = (index: number, met: Met): PlanTable | undefined => {
    const means = sails[index]!;
    if (tables[index]!.beyondCrew === true && means !== isSet) return undefined;
    if (means.barredBy?.(ruleMoment(point, epochSeconds, met, sea)) !== undefined) return undefined;
    const { downMinutes } = means;
    if (downMinutes !== undefined && (sea.dark || isDarkAfter(downMinutes))) return undefined;
    return tableIn(means, tables[index]!, sea, met, house);
  };
  return {
    sails,
    smgKn: (met) => Float64Array.from(sails, (_, index) => tableOf(index, met)?.smgAt(met) ?? Number.NaN),
    directSmgKn: (index, met) => tableOf(index, met)?.directSmgAt(met) ?? Number.NaN,
    windows(index, met) {
      const { plan, nightPlan } = sails[index]!;
      return ((isReefedFurther(house, sea, met) ? nightPlan : undefined) ?? plan)?.windows ?? [];
    },
  };
}
