import { createHash } from 'node:crypto';
import { type Fault, InputError } from '../errors.js';
import { fileProblem, type LoadedStudy, loadStudy, openStudyFolder, runStudy, type StudyFolder } from '../node/node.js';
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
  type PassageRecord,
  type Study,
  type SummaryOptions,
  sailNamesOf,
  summingUp,
} from '../study/study.js';
import { says } from '../wording.js';
import { type CommandIo, EXIT } from './io.js';
import { faultAsGiven, readOptions } from './options.js';
import { readingProgress, sailingProgress } from './progress.js';
import {
  drawsGiven,
  limitsGiven,
  MOST_PASSAGES,
  onlyOnce,
  type StudyOptions,
  startsGiven,
  weightsGiven,
  wholeNumber,
} from './studyOptions.js';
import { version } from './version.js';

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
