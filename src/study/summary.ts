import { mean } from 'simple-statistics';
import { faultList, shown } from '../errors.js';
import { checkTypes, mustBeGiven } from '../given.js';
import { isoUtc, parseInstant } from '../time.js';
import { type Percentiles, percentilesOf } from '../totals/totals.js';
import { says } from '../wording.js';
import { METRICS, type Metric, metricOf } from './metrics.js';
import type { PassageRecord } from './record.js';

/** How a figure is spread over passages. */
export interface Spread extends Percentiles {
  readonly mean: number;
}

/** How many of some passages are over a limit, and the chance of it that this leaves open: Wilson's interval of 95 %. */
export interface Chance {
  readonly metric: Metric;
  readonly limit: number;
  readonly over: number;
  /** Passages of which it is known: not those that broke off before they were over it. */
  readonly of: number;
  readonly share: number | null;
  readonly shareLow: number | null;
  readonly shareHigh: number | null;
}

/** Some passages together. */
export interface GroupSummary {
  readonly name: string;
  readonly passages: number;
  readonly complete: number;
  /** Of those that arrive; null where none does. */
  readonly hours: Spread | null;
  /** Arrivals of passages of one start: the instants of the percentiles of hours. */
  readonly arrivals: { readonly p5: string; readonly p50: string; readonly p95: string } | null;
  /**
   * Of those that arrive; where none does, of all, up to where they broke off (`hours` then to the estimated arrival). Null where it is
   * known of none.
   */
  readonly metrics: Readonly<Record<Metric, Spread | null>>;
  /** Hours per sail and passage, of the same passages. */
  readonly sails: readonly {
    readonly id: string;
    readonly hours: Spread;
    /** Share of its life that a passage takes, by the middle of the constants; null where nobody knows. */
    readonly wear: Spread | null;
  }[];
  readonly chances: readonly Chance[];
  /** The means by the weights, added up over all passages, those that broke off as far as they came: the less the better. Null where a passage cannot be weighed. */
  readonly score: number | null;
}

/** All passages of a study, and by what they are told apart. */
export interface StudySummary {
  readonly all: GroupSummary;
  /** Groups of more than one kind only. */
  readonly routes: readonly GroupSummary[];
  readonly boats: readonly GroupSummary[];
  readonly weathers: readonly GroupSummary[];
  /** By the month of departure (UTC), where there are several. */
  readonly months: readonly GroupSummary[];
  /** By start, in the order of time. */
  readonly starts: readonly GroupSummary[];
  /** Names of the starts from the best by the weights: those whose passages all arrive before the others; those that cannot be weighed are left out. */
  readonly bestStarts: readonly string[];
  readonly weights: Readonly<Partial<Record<Metric, number>>>;
}

/** How passages are summed up. */
export interface SummaryOptions {
  /** What a unit of each metric is worth. Default an hour for an hour and half an hour for a sail change. */
  readonly weights?: Readonly<Partial<Record<Metric, number>>>;
  /** The chance to be over each of these is told. Default any hour over 34 kn, hove to, or without a plan that fits. */
  readonly limits?: readonly (readonly [metric: Metric, limit: number])[];
}

/** Placeholders: of our own choice, without a source. */
const DEFAULT_WEIGHTS: Readonly<Partial<Record<Metric, number>>> = { hours: 1, changes: 0.5 };
const DEFAULT_LIMITS: readonly (readonly [Metric, number])[] = [
  ['hours-over-34', 0],
  ['hove-to-hours', 0],
  ['no-plan-hours', 0],
];

/** Takes in passages one by one, of which it keeps a few numbers each, and sums them up. */
export interface Summing {
  add(record: PassageRecord): void;
  summary(): StudySummary;
}

/**
 * Sums up the passages of a study.
 * @throws InputError where the records or an option are none, or a weight or limit is of no metric
 * @example
 * const { all, bestStarts } = summaryOf(sample.records, { weights: { hours: 1, changes: 2 } });
 * all.hours // { mean: 411.0…, … }
 * bestStarts // ['2027-01-12T12:00:00Z', '2027-01-11T12:00:00Z']
 */
export function summaryOf(records: Iterable<PassageRecord>, options: SummaryOptions = {}): StudySummary {
  const summing = summingUp(options);
  mustBeGiven(records, Symbol.iterator, 'records', 'studySailer');
  for (const record of records) summing.add(record);
  return summing.summary();
}

/**
 * Nothing summed up yet.
 * @throws InputError where an option is none, a weight or limit is of no metric, or what is added is no record
 * @example
 * const summing = summingUp();
 * for (const record of sample.records) summing.add(record);
 * summing.summary().all.passages // 2
 */
export function summingUp(options: SummaryOptions = {}): Summing {
  checkTypes(options, { weights: 'object?', limits: 'list[]?' });
  const { weights = DEFAULT_WEIGHTS, limits = DEFAULT_LIMITS } = options;
  const faults = faultList();
  for (const [path, named] of [
    ['weights', Object.entries(weights)],
    ['limits', limits],
  ] as const)
    for (const [metric, value] of named) {
      if (!METRICS.includes(metric as Metric))
        faults.add({ file: 'options', path, ...says.choice(METRICS, String(metric)) });
      else if (!Number.isFinite(value))
        faults.add({ file: 'options', path, ...says.wrongValue(`a number for ${metric}`, shown(value)) });
    }
  faults.throwIfAny();
  const passages: Passages = {
    departures: [],
    complete: [],
    metrics: new Map(METRICS.map((metric) => [metric, []])),
    sails: new Map(),
  };
  const groups = KINDS.map(() => new Map<string, number[]>());
  const all: number[] = [];
  const take = (kind: number, alone: boolean) => {
    const named = groups[kind]!;
    return named.size < 2 && !alone
      ? []
      : [...named].map(([name, rows]) => groupOf(name, rows, passages, weights, limits));
  };
  const inTime = (some: readonly GroupSummary[]) => [...some].sort((a, b) => (a.name < b.name ? -1 : 1));
  return {
    add(record) {
      mustBeGiven(record, 'departure', 'record', 'studySailer');
      const row = passages.departures.length;
      all.push(row);
      passages.departures.push(record.departure);
      passages.complete.push(record.complete);
      for (const [metric, values] of passages.metrics) values.push(metricOf(record, metric) ?? Number.NaN);
      for (const { id, hours, wear } of record.sails) {
        let of = passages.sails.get(id);
        if (of === undefined) {
          of = { hours: [], wear: [] };
          passages.sails.set(id, of);
        }
        of.hours[row] = hours;
        if (wear !== null) of.wear[row] = wear.mid;
      }
      KINDS.forEach((nameOf, kind) => {
        const name = nameOf(record);
        const known = groups[kind]!.get(name);
        if (known === undefined) groups[kind]!.set(name, [row]);
        else known.push(row);
      });
    },
    summary() {
      const [routes, boats, weathers, months] = [take(0, false), take(1, false), take(2, false), take(3, false)];
      const starts = inTime(take(4, true));
      return {
        all: groupOf('all', all, passages, weights, limits),
        routes,
        boats,
        weathers,
        months: inTime(months),
        starts,
        bestStarts: starts
          .filter(({ score }) => score !== null)
          .sort((a, b) => missing(a) - missing(b) || a.score! - b.score!)
          .map(({ name }) => name),
        weights,
      };
    },
  };
}

/** Passages that broke off sort a start behind those that arrive. */
const missing = ({ passages, complete }: GroupSummary) => Number(complete < passages);

/** By what passages are told apart: route, boat, weather, month and start. */
const KINDS: readonly ((record: PassageRecord) => string)[] = [
  ({ route }) => route,
  ({ boat }) => boat,
  ({ weather, member }) => (member === null ? weather : `${weather} ${member}`),
  ({ departure }) => departure.slice(5, 7),
  ({ departure }) => departure,
];

/** What is kept of the passages, in columns; NaN where a metric is not known. */
interface Passages {
  readonly departures: string[];
  readonly complete: boolean[];
  readonly metrics: ReadonlyMap<Metric, number[]>;
  /** Holes where a boat has no such sail, or nobody knows how it wears. */
  readonly sails: Map<string, { readonly hours: number[]; readonly wear: number[] }>;
}

function groupOf(
  name: string,
  rows: readonly number[],
  { departures, complete, metrics, sails }: Passages,
  weights: NonNullable<SummaryOptions['weights']>,
  limits: NonNullable<SummaryOptions['limits']>,
): GroupSummary {
  const arrived = rows.filter((row) => complete[row]!);
  const counted = arrived.length > 0 ? arrived : rows;
  const valuesOf = (metric: Metric, of: readonly number[]) =>
    of.map((row) => metrics.get(metric)![row]!).filter((value) => !Number.isNaN(value));
  // What broke off before it was over a limit might have come over it.
  const knownOf = (metric: Metric, limit: number) =>
    rows.filter((row) => complete[row]! || metric === 'hours' || metrics.get(metric)![row]! > limit);
  const hours = spreadOf(arrived.map((row) => metrics.get('hours')![row]!));
  const departure = departures[rows[0] ?? -1];
  const isOneStart = departure !== undefined && rows.every((row) => departures[row] === departure);
  return {
    name,
    passages: rows.length,
    complete: arrived.length,
    hours,
    arrivals: hours !== null && isOneStart ? arrivalsOf(departure, hours) : null,
    metrics: Object.fromEntries(METRICS.map((metric) => [metric, spreadOf(valuesOf(metric, counted))])) as Record<
      Metric,
      Spread | null
    >,
    sails: [...sails].flatMap(([id, of]) => {
      const spread = spreadOf(counted.flatMap((row) => of.hours[row] ?? []));
      return spread === null
        ? []
        : [{ id, hours: spread, wear: spreadOf(counted.flatMap((row) => of.wear[row] ?? [])) }];
    }),
    chances: limits.map(([metric, limit]) => chanceOf(metric, limit, valuesOf(metric, knownOf(metric, limit)))),
    score: scoreOf(rows, metrics, weights),
  };
}

function spreadOf(values: readonly number[]): Spread | null {
  const percentiles = percentilesOf(values);
  return percentiles && { mean: mean(values as number[]), ...percentiles };
}

function arrivalsOf(departure: string, { p5, p50, p95 }: Spread) {
  const start = parseInstant(departure) as number;
  const at = (hours: number) => isoUtc(start + hours * 3600);
  return { p5: at(p5), p50: at(p50), p95: at(p95) };
}

/** The mean of the weighed passages; null where one of them cannot be. */
function scoreOf(
  rows: readonly number[],
  metrics: Passages['metrics'],
  weights: NonNullable<SummaryOptions['weights']>,
): number | null {
  let sum = 0;
  for (const [metric, weight] of Object.entries(weights).filter(([, worth]) => worth !== 0) as [Metric, number][])
    for (const row of rows) sum += weight * metrics.get(metric)![row]!;
  return rows.length === 0 || Number.isNaN(sum) ? null : sum / rows.length;
}

/** Normal quantile of an interval of 95 %. */
const Z = 1.959964;

/** Wilson 1927, Journal of the American Statistical Association 22, 209: the interval of a share, also of none and of all. */
function chanceOf(metric: Metric, limit: number, values: readonly number[]): Chance {
  const over = values.filter((value) => value > limit).length;
  const of = values.length;
  if (of === 0) return { metric, limit, over, of, share: null, shareLow: null, shareHigh: null };
  const share = over / of;
  const spread = 1 + (Z * Z) / of;
  const middle = (share + (Z * Z) / (2 * of)) / spread;
  const half = (Z * Math.sqrt((share * (1 - share)) / of + (Z * Z) / (4 * of * of))) / spread;
  return {
    metric,
    limit,
    over,
    of,
    share,
    shareLow: over === 0 ? 0 : Math.max(0, middle - half),
    shareHigh: over === of ? 1 : Math.min(1, middle + half),
  };
}
