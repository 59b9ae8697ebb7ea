import { createHash } from 'node:crypto';
import { faultAsGiven } from '../describe/describe.js';
import { withoutUnseen } from '../errors.js';
import { fileProblem, openStudyFolder, runStudy, type StudyFolder, worldLand } from '../node/node.js';
import {
  passagesCsvHeader,
  passagesCsvRow,
  type StudyToPrint,
  studyJson,
  studyMarkdown,
  studyTotalsText,
} from '../output/output.js';
import { studyReport } from '../report/report.js';
import { casesIn, type PassageRecord, type Study, sailNamesOf, summingUp } from '../study/study.js';
import { currencyOf } from '../wear/wear.js';
import { type CommandIo, EXIT } from './io.js';
import { sailingProgress } from './progress.js';
import type { StudyAsked } from './studyAsked.js';
import { version } from './version.js';

/** What more comes of the passages of a study than its own files. */
export interface MoreOfStudy {
  /** What the passages depend on beyond the study's files and options: another means another study. */
  readonly dependsOn: unknown;
  /** Takes in every passage. */
  add(record: PassageRecord): void;
  /** Further files, what is printed instead of the study's totals, and whether all that counts arrives. */
  finish(study: StudyToPrint): {
    readonly files: Readonly<Record<string, string>>;
    readonly printed: string;
    readonly isComplete: boolean;
  };
}

/**
 * Sails a study into a folder, or goes on with what is there of it, and writes what comes of it. Gives the exit code.
 * @throws InputError where the folder holds another study that is not finished
 */
export async function sailInto(out: string, asked: StudyAsked, io: CommandIo, more?: MoreOfStudy): Promise<number> {
  const { study: whole, loaded, draws } = asked;
  const toPrint: Omit<StudyToPrint, 'summary'> = {
    digest: '',
    routes: whole.routes.map(({ name }) => name),
    boats: whole.boats.map(({ name }) => name),
    weathers: whole.weathers.map(weatherText),
    warnings: loaded.warnings.map(faultAsGiven),
    ...(draws === undefined ? {} : { draws }),
    starts: whole.starts,
    options: whole.options,
    inputs: loaded.digests,
  };
  const digest = createHash('sha256')
    // Warnings say where a file lies, which changes nothing.
    .update(JSON.stringify([version(), { ...toPrint, warnings: [] }, ...(more === undefined ? [] : [more.dependsOn])]))
    .digest('hex');
  try {
    const folder = await openStudyFolder(out, { digest, passages: casesIn(whole) });
    try {
      return await sailed(out, asked, folder, { ...toPrint, digest }, io, more);
    } finally {
      await folder.close();
    }
  } catch (error) {
    const problem = fileProblem(error);
    if (problem === undefined) throw error;
    io.error(`${withoutUnseen(out)}: cannot be written to: ${problem}\n`);
    return EXIT.failure;
  }
}

/** Sails what is left and writes what comes of it. */
async function sailed(
  out: string,
  { study: whole, threads, summary }: StudyAsked,
  folder: StudyFolder,
  toPrint: Omit<StudyToPrint, 'summary'>,
  io: CommandIo,
  more: MoreOfStudy | undefined,
): Promise<number> {
  const passages = casesIn(whole);
  const shown = withoutUnseen(out);
  if (folder.replaces) io.error(`${shown}: the finished study there is replaced when this one is finished.\n`);
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
  const sails = sailNamesOf(whole.boats);
  const summing = summingUp(summary);
  async function* csv(): AsyncGenerator<string, void, undefined> {
    yield `${passagesCsvHeader(sails)}\n`;
    for await (const line of folder.lines()) {
      const record = JSON.parse(line) as PassageRecord;
      summing.add(record);
      more?.add(record);
      yield `${passagesCsvRow(record, sails)}\n`;
    }
  }
  const land = await worldLand();
  let printed = '';
  let written = ['passages.csv', 'passages.jsonl', 'study.json', 'study.md'];
  let isComplete = true;
  const files = () => {
    const currencies = whole.boats.slice(0, toPrint.boats.length).map(({ boat }) => currencyOf(boat));
    const print: StudyToPrint = { ...toPrint, currencies, summary: summing.summary() };
    const further = more?.finish(print);
    printed = further?.printed ?? studyTotalsText(print);
    written = [...written, ...Object.keys(further?.files ?? { 'report.html': '' })];
    const { all } = print.summary;
    isComplete = further?.isComplete ?? all.complete === all.passages;
    return {
      'study.md': studyMarkdown(print),
      'study.json': studyJson(print),
      ...(further?.files ?? {
        'report.html': studyReport(print, {
          land,
          routes: whole.routes,
          boatNames: whole.boats.map(({ boat }) => boat.name),
          version: version(),
        }),
      }),
    };
  };
  try {
    for await (const line of runStudy(whole, how)) {
      await folder.append(line);
      done += 1;
      progress.sailed();
    }
    await folder.finish({ 'passages.csv': csv() }, files, stop.signal);
  } catch (error) {
    if (!stop.signal.aborted) throw error;
    progress.clear();
    io.error(`Stopped after passage ${done} of ${passages}; ask the same again and it goes on.\n`);
    return EXIT.interrupted;
  } finally {
    release?.();
    progress.clear();
  }
  io.out(`${printed}\nWritten to ${shown}: ${written.join(', ')}\n`);
  return isComplete ? EXIT.complete : EXIT.incomplete;
}

const weatherText = ({ name, member, draw }: Study['weathers'][number]) =>
  [name, ...(member === undefined ? [] : [member]), ...(draw === undefined ? [] : [`draw ${draw}`])].join(' ');
