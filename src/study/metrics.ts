import { InputError } from '../errors.js';
import { mustBeGiven } from '../given.js';
import { parseInstant } from '../time.js';
import { says } from '../wording.js';
import type { PassageRecord } from './record.js';

/** What passages are weighed and held against limits by, under the names of the command line. */
export type Metric =
  | 'hours'
  | 'changes'
  | 'night-changes'
  | 'waking-changes'
  | 'reefs'
  | 'operations'
  | 'hand-hours'
  | 'tacks'
  | 'gybes'
  | 'without-main-hours'
  | 'knife-edge-hours'
  | 'motor-hours'
  | 'fuel-litres'
  | 'hove-to-hours'
  | 'no-plan-hours'
  | 'near-limit-hours'
  | 'hours-over-28'
  | 'hours-over-34'
  | 'hours-over-48'
  | 'wind-max'
  | 'gust-max'
  | 'wave-max'
  | 'climatology-hours'
  | 'unsteady-hours'
  | 'steadiness'
  | 'wear-money'
  | 'slatting-unknown-hours';

const over = ({ strongWind }: PassageRecord, kn: number) => strongWind.find(({ overKn }) => overKn === kn)?.hours ?? 0;

const VALUES: Readonly<Record<Metric, (record: PassageRecord) => number | undefined>> = {
  hours: hoursOf,
  changes: ({ sailChanges }) => sailChanges,
  'night-changes': ({ nightChanges }) => nightChanges,
  'waking-changes': ({ wakingChanges }) => wakingChanges,
  reefs: ({ operations }) => operations.reef,
  operations: ({ operations }) => Object.values(operations).reduce((sum, count) => sum + count, 0),
  'hand-hours': ({ handHours }) => handHours,
  tacks: ({ tacks }) => tacks,
  gybes: ({ gybes }) => gybes,
  'without-main-hours': ({ withoutMainHours }) => withoutMainHours,
  'knife-edge-hours': ({ knifeEdgeHours }) => knifeEdgeHours ?? undefined,
  'motor-hours': ({ motorHours }) => motorHours,
  'fuel-litres': ({ fuelLitres }) => fuelLitres,
  'hove-to-hours': ({ hoveToHours }) => hoveToHours,
  'no-plan-hours': ({ noPlanHours }) => noPlanHours,
  'near-limit-hours': ({ nearLimitHours }) => nearLimitHours,
  'hours-over-28': (record) => over(record, 28),
  'hours-over-34': (record) => over(record, 34),
  'hours-over-48': (record) => over(record, 48),
  'wind-max': ({ twsMaxKn }) => twsMaxKn,
  'gust-max': ({ gustMaxKn }) => gustMaxKn,
  'wave-max': ({ waveMaxM }) => waveMaxM ?? undefined,
  'climatology-hours': ({ climatologyHours }) => climatologyHours,
  'unsteady-hours': ({ unsteadyHours }) => unsteadyHours,
  steadiness: ({ steadiness }) => steadiness ?? undefined,
  'wear-money': ({ wearMoney }) => wearMoney?.mid,
  'slatting-unknown-hours': ({ slattingUnknownHours }) => slattingUnknownHours,
};

/**
 * Every metric of a passage, by the names of `--weight` and `--limit`.
 * @example
 * METRICS // ['hours', 'changes', 'night-changes', …]
 */
export const METRICS = Object.keys(VALUES) as readonly Metric[];

/**
 * A passage by a metric; undefined where it is not known: waves that no forecast has, hours to an arrival that cannot be estimated.
 * @throws InputError where the record or the metric is none
 * @example
 * metricOf(sample.records[0], 'changes') // 14
 */
export function metricOf(record: PassageRecord, metric: Metric): number | undefined {
  mustBeGiven(record, 'departure', 'record', 'studySailer');
  if (!METRICS.includes(metric)) throw new InputError([{ file: 'metric', ...says.choice(METRICS, String(metric)) }]);
  return VALUES[metric](record);
}

/** Hours to arrival, those of an incomplete passage with what is left at its mean speed so far. */
function hoursOf({ complete, hours, departure, arrivalEstimate }: PassageRecord): number | undefined {
  if (complete) return hours;
  if (arrivalEstimate === null) return undefined;
  return ((parseInstant(arrivalEstimate) as number) - (parseInstant(departure) as number)) / 3600;
}
