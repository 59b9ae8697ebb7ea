import { type Fault, InputError } from '../errors.js';
import { type LoadedStudy, loadStudy } from '../node/node.js';
import { mayDepart, type PassageOptions, passagesFrom } from '../passage/passage.js';
import { casesIn, type Study, type SummaryOptions } from '../study/study.js';
import { says } from '../wording.js';
import type { CommandIo } from './io.js';
import { readOptions } from './options.js';
import { readingProgress } from './progress.js';
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

/** Looks as widely as it pays where passages are many: docs/model.md tells what it costs. */
const STUDY_LABELS = 1;

/** Faults of starts that are looked for, a bound of our own choice. */
const MOST_START_FAULTS = 1000;

/** What was asked for, read. */
export interface StudyAsked {
  readonly loaded: LoadedStudy;
  readonly study: Study;
  readonly draws: ReturnType<typeof drawsGiven>;
  readonly threads: number | undefined;
  readonly summary: SummaryOptions;
}

/**
 * Reads the options and files of a study.
 * @throws InputError with every fault, those that were found before among them
 */
export async function readStudy(
  given: StudyOptions,
  io: CommandIo,
  before: readonly Fault[] = [],
): Promise<StudyAsked> {
  const faults: Fault[] = [...before];
  const { columns, windFactor, windShiftHours, numbers, house, faults: ofOptions } = readOptions(given);
  faults.push(...ofOptions);
  onlyOnce('--route', given.route, faults);
  onlyOnce('--forecast', given.forecast ?? [], faults);
  onlyOnce('--member', given.member ?? [], faults);
  const starts = startsGiven(given, faults);
  const draws = drawsGiven(given, starts, faults);
  const threads = wholeNumber(given.threads, '--threads', [1, 256], faults);
  const summary = {
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
  const reading = readingProgress(io);
  try {
    const loaded = await loadStudy(
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
    return { loaded, study: { ...loaded.study, starts, options }, draws, threads, summary };
  } finally {
    reading.clear();
  }
}

/**
 * Checks that all of a study can be sailed, before any of it is; of many boats that are much alike some are enough.
 * @throws InputError where it is too much, a boat cannot be sailed with the options, or a passage cannot start
 */
export function checkStudy(study: Study, boats: Study['boats'] = study.boats): void {
  const passages = casesIn(study);
  if (passages > MOST_PASSAGES)
    throw new InputError([{ file: '--depart-every', ...says.tooManyPassages(MOST_PASSAGES, passages) }]);
  const { routes, weathers, starts, options } = study;
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
      for (const start of starts) {
        // Starts may be a million: who reads the first of their faults knows enough.
        if (faults.size >= MOST_START_FAULTS) break;
        add(faultsAt(start));
      }
    }
  }
  if (faults.size > 0) throw new InputError([...faults.values()]);
}
