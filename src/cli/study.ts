import { createHash } from 'node:crypto';
import { type Fault, InputError } from '../errors.js';
import {
  fileProblem,
  type LoadedStudy,
  type LoadStudyOptions,
  loadStudy,
  openStudyFolder,
  runStudy,
  type StudyFolder,
} from '../node/node.js';
import {
  passagesCsvHeader,
  passagesCsvRow,
  type StudyToPrint,
  studyJson,
  studyMarkdown,
  studyTotalsText,
} from '../output/output.js';
import { mayDepart, type PassageOptions, passagesFrom } from '../passage/passage.js';
import {
  casesIn,
  METRICS,
  type Metric,
  type PassageRecord,
  type Study,
  type SummaryOptions,
  sailNamesOf,
  startsOf,
  summingUp,
} from '../study/study.js';
import { parseInstant } from '../time.js';
import { saidOfInstant, says } from '../wording.js';
import { type CommandIo, EXIT } from './io.js';
import { faultAsGiven, type GivenOptions, numberOf, readOptions } from './options.js';
import { readingProgress, sailingProgress } from './progress.js';
import { version } from './version.js';

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

const MOST_PASSAGES = 1_000_000;
/** Drawings of a climatology that is alone: a bound of our own choice. */
const DEFAULT_DRAWS = 20;
/** Looks as widely as it pays where passages are many: docs/model.md tells what it costs. */
const STUDY_LABELS = 1;

/**
 * Sails many passages from files into a folder; what is there of the same study already is gone on with.
 * @throws InputError with every fault
 */
export async function study(given: StudyOptions, io: CommandIo): Promise<number> {
  const reading = readingProgress(io);
  let loaded: LoadedStudy;
  let whole: Study;
  const faults: Fault[] = [];
  const { columns, windFactor, windShiftHours, numbers, house, faults: ofOptions } = readOptions(given);
  faults.push(...ofOptions);
  onlyOnce('--route', given.route, faults);
  onlyOnce('--boat', given.boat, faults);
  onlyOnce('--forecast', given.forecast ?? [], faults);
  onlyOnce('--member', given.member ?? [], faults);
  const starts = startsGiven(given, faults);
  const draws = drawsGiven(given, starts, faults);
  const threads = wholeNumber(given.threads, '--threads', [1, 256], faults);
  const summaryOptions = {
    ...weightsGiven(given.weight, faults),
    ...limitsGiven(given.limit, faults),
  };
  const options: Omit<PassageOptions, 'departure'> = {
    choice: given.choice,
    labels: STUDY_LABELS,
    ...numbers,
    ...(given.arriveDaylight === undefined ? {} : { arriveDaylight: given.arriveDaylight }),
    house,
    ...(given.without === undefined ? {} : { without: given.without }),
    ...(windFactor === undefined ? {} : { windFactor }),
    ...(windShiftHours === undefined ? {} : { windShiftHours }),
  };
  try {
    loaded = await loadStudy(
      {
        routes: given.route,
        boats: given.boat,
        forecasts: given.forecast ?? [],
        beside: given.beside ?? [],
        climatology: given.climatology ?? [],
      },
      {
        onProgress: reading.show,
        faults,
        columns,
        ...(given.member === undefined ? {} : { members: given.member }),
        ...(draws === undefined ? {} : { draws }),
      },
    );
    whole = { ...loaded.study, starts, options };
    const passages = casesIn(whole);
    if (passages > MOST_PASSAGES)
      throw new InputError([{ file: '--depart-every', ...says.tooManyPassages(MOST_PASSAGES, passages) }]);
    checkStudy(whole);
  } finally {
    reading.clear();
  }
  const passages = casesIn(whole);
  const toPrint: Omit<StudyToPrint, 'summary'> = {
    digest: '',
    routes: whole.routes.map(({ name }) => name),
    boats: whole.boats.map(({ name }) => name),
    weathers: whole.weathers.map(weatherText),
    warnings: loaded.warnings.map(faultAsGiven),
    ...(draws === undefined ? {} : { draws }),
    starts,
    options,
    inputs: loaded.digests,
  };
  const digest = createHash('sha256')
    // Warnings say where a file lies, which changes nothing.
    .update(JSON.stringify([version(), { ...toPrint, warnings: [] }]))
    .digest('hex');
  try {
    const folder = await openStudyFolder(given.out, { digest, passages });
    try {
      const toDo = threads === undefined ? {} : { threads };
      return await sailed(
        whole,
        folder,
        { ...toPrint, digest },
        { ...toDo, summary: summaryOptions, passages },
        given.out,
        io,
      );
    } finally {
      await folder.close();
    }
  } catch (error) {
    const problem = fileProblem(error);
    if (problem === undefined) throw error;
    io.error(`${given.out}: cannot be written to: ${problem}\n`);
    return EXIT.failure;
  }
}

/** Sails what is left and writes what comes of it. */
async function sailed(
  whole: Study,
  folder: StudyFolder,
  toPrint: Omit<StudyToPrint, 'summary'>,
  {
    threads,
    summary,
    passages,
  }: { readonly threads?: number; readonly summary: SummaryOptions; readonly passages: number },
  out: string,
  io: CommandIo,
): Promise<number> {
  if (folder.replaces) io.error(`${out}: the finished study there is replaced when this one is finished.\n`);
  const progress = sailingProgress(io, folder.done, passages);
  if (folder.done > 0)
    io.error(
      folder.done === passages
        ? `All ${passages} passages are there already.\n`
        : `Goes on after passage ${folder.done} of ${passages}.\n`,
    );
  const stop = new AbortController();
  const release = io.onInterrupt?.(() => stop.abort());
  const how = { from: folder.done, signal: stop.signal, ...(threads === undefined ? {} : { threads }) };
  let done = folder.done;
  try {
    for await (const line of runStudy(whole, how)) {
      await folder.append(line);
      done += 1;
      progress.sailed();
    }
  } catch (error) {
    if (!stop.signal.aborted) throw error;
    progress.clear();
    io.error(`Stopped after passage ${done} of ${passages}; ask the same again and it goes on.\n`);
    return EXIT.interrupted;
  } finally {
    release?.();
    progress.clear();
  }
  const sails = sailNamesOf(whole.boats);
  const summing = summingUp(summary);
  async function* csv(): AsyncGenerator<string, void, undefined> {
    yield `${passagesCsvHeader(sails)}\n`;
    for await (const line of folder.lines()) {
      const record = JSON.parse(line) as PassageRecord;
      summing.add(record);
      yield `${passagesCsvRow(record, sails)}\n`;
    }
  }
  let printed: StudyToPrint | undefined;
  await folder.finish({ 'passages.csv': csv() }, () => {
    printed = { ...toPrint, summary: summing.summary() };
    return { 'study.md': studyMarkdown(printed), 'study.json': studyJson(printed) };
  });
  io.out(`${studyTotalsText(printed!)}\nWritten to ${out}: passages.csv, passages.jsonl, study.json, study.md\n`);
  const { all } = printed!.summary;
  return all.complete === all.passages ? EXIT.complete : EXIT.incomplete;
}

const weatherText = ({ name, member, draw }: Study['weathers'][number]) =>
  [name, ...(member === undefined ? [] : [member]), ...(draw === undefined ? [] : [`draw ${draw}`])].join(' ');

function startsGiven(
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
function drawsGiven(
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

function wholeNumber(
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

/** Options that some boat cannot be sailed with, and starts from which some passage cannot: told before anything is sailed. */
function checkStudy({ routes, boats, weathers, starts, options }: Study): void {
  const faults = new Map<string, Fault>();
  const add = (all: readonly Fault[]) => {
    for (const fault of all) faults.set(JSON.stringify(fault), fault);
  };
  for (const { boat, polars } of boats) {
    try {
      passagesFrom({ route: routes[0]!.route, boat, polars }, options);
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      add(error.faults);
    }
  }
  for (const { route } of routes) {
    // Drawings of one climatology have wind at the same places.
    for (const { weather } of weathers.filter(({ draw }) => (draw ?? 1) === 1)) {
      const faultsAt = mayDepart(route, weather, options);
      for (const start of starts) add(faultsAt(start));
    }
  }
  if (faults.size > 0) throw new InputError([...faults.values()]);
}

function weightsGiven(texts: readonly string[] | undefined, faults: Fault[]): Pick<SummaryOptions, 'weights'> {
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
function onlyOnce(file: string, given: readonly string[], faults: Fault[]): void {
  for (const name of new Set(given.filter((one, i) => given.indexOf(one) !== i)))
    faults.push({ file, ...says.wrongValue('each once', `${name} again`) });
}

function limitsGiven(texts: readonly string[] | undefined, faults: Fault[]): Pick<SummaryOptions, 'limits'> {
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
