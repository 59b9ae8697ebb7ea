import type { Fault } from '../errors.js';
import type { LoadStudyOptions } from '../node/node.js';
import { METRICS, type Metric, type SummaryOptions, startsOf } from '../study/study.js';
import { parseInstant } from '../time.js';
import { saidOfInstant, says } from '../wording.js';
import { type GivenOptions, numberOf } from './options.js';

/** The options of `study` as they were given. */
export interface StudyOptions extends Omit<GivenOptions, 'depart' | 'from'> {
  readonly route: readonly string[];
  readonly forecast?: readonly string[];
  readonly climatology?: readonly string[];
  readonly draws?: string;
  readonly seed?: string;
  readonly beside?: readonly string[];
  readonly boat: readonly string[];
  readonly departFrom: string;
  readonly departTo?: string;
  readonly departEvery: string;
  readonly out: string;
  readonly threads?: string;
  readonly choice: 'planned' | 'fastest';
  readonly member?: readonly string[];
  readonly arriveDaylight?: boolean;
  readonly without?: readonly string[];
  readonly weight?: readonly string[];
  readonly limit?: readonly string[];
}

/** More than anyone has time for: a bound of our own choice. */
export const MOST_PASSAGES = 1_000_000;
/** Drawings of a climatology that is alone: a bound of our own choice. */
const DEFAULT_DRAWS = 20;

/** The starts that were asked for; none after a fault. */
export function startsGiven(
  { departFrom, departTo = departFrom, departEvery }: StudyOptions,
  faults: Fault[],
): readonly string[] {
  const instants = (
    [
      ['--depart-from', departFrom],
      ['--depart-to', departTo],
    ] as const
  ).map(([file, text], i) => {
    const instant = parseInstant(text);
    if (typeof instant === 'number') return instant;
    // The first alone is meant where no last is given.
    if (i === 0 || text !== departFrom) faults.push({ file, ...saidOfInstant(instant, text) });
    return Number.NaN;
  });
  const everyHours = numberOf(departEvery, '--depart-every', [0.1, 10_000], faults);
  const [from, to] = [instants[0]!, instants[1]!];
  if (to < from) faults.push({ file: '--depart-to', ...says.startsOrder(departFrom, departTo) });
  if (Number.isNaN(from) || !(to >= from) || everyHours === undefined) return [];
  if ((to - from) / 3600 / everyHours > MOST_PASSAGES) {
    faults.push({
      file: '--depart-every',
      ...says.tooManyPassages(MOST_PASSAGES, Math.floor((to - from) / 3600 / everyHours)),
    });
    return [];
  }
  return startsOf(from, to, everyHours);
}

/** Drawings of a climatology: by default some where it is alone, for its mean wind has no spread; behind a forecast its mean. */
export function drawsGiven(
  { forecast, climatology, draws, seed }: StudyOptions,
  starts: readonly string[],
  faults: Fault[],
): LoadStudyOptions['draws'] {
  const count = wholeNumber(draws, '--draws', [0, 10_000], faults);
  const first = wholeNumber(seed, '--seed', [0, 1_000_000_000], faults);
  if (climatology === undefined) {
    for (const [file, value] of [
      ['--draws', draws],
      ['--seed', seed],
    ] as const)
      if (value !== undefined) faults.push({ file, ...says.wrongValue('a climatology (--climatology)', 'none') });
    return undefined;
  }
  const settled = count ?? (forecast === undefined ? DEFAULT_DRAWS : 0);
  if (settled === 0 || starts.length === 0) return undefined;
  // One weather for all starts of a drawing: its days are counted from the first.
  return { count: settled, seed: first ?? 1, fromEpochSeconds: parseInstant(starts[0]!) as number };
}

/** A whole number from text, a fault where it is none; absent stays so. */
export function wholeNumber(
  text: string | undefined,
  file: string,
  range: readonly [number, number],
  faults: Fault[],
): number | undefined {
  const value = numberOf(text, file, range, faults);
  if (value === undefined || Number.isInteger(value)) return value;
  faults.push({ file, ...says.wrongValue(`a whole number from ${range[0]} to ${range[1]}`, text!) });
  return undefined;
}

/** What was given to rank starts by. */
export function weightsGiven(texts: readonly string[] | undefined, faults: Fault[]): Pick<SummaryOptions, 'weights'> {
  if (texts === undefined) return {};
  const given = texts.flatMap((text) => metricGiven(text, '--weight', faults));
  onlyOnce(
    '--weight',
    given.map(([metric]) => metric),
    faults,
  );
  return { weights: Object.fromEntries(given) };
}

/** What is given twice would count twice, or one of two would be lost. */
export function onlyOnce(file: string, given: readonly string[], faults: Fault[]): void {
  for (const name of new Set(given.filter((one, i) => given.indexOf(one) !== i)))
    faults.push({ file, ...says.wrongValue('each once', `${name} again`) });
}

/** The limits whose chance is to be told. */
export function limitsGiven(texts: readonly string[] | undefined, faults: Fault[]): Pick<SummaryOptions, 'limits'> {
  if (texts === undefined) return {};
  return { limits: texts.flatMap((text) => metricGiven(text, '--limit', faults)) };
}

/** `changes=0.5`. */
function metricGiven(text: string, file: string, faults: Fault[]): (readonly [Metric, number])[] {
  const [what = '', value = '', ...rest] = text.split('=').map((part) => part.trim());
  const metric = METRICS.find((known) => known === what);
  const number = value === '' || rest.length > 0 ? Number.NaN : Number(value);
  if (metric !== undefined && Number.isFinite(number)) return [[metric, number]];
  faults.push({ file, ...says.metricOption(METRICS, text) });
  return [];
}
