import { open } from 'node:fs/promises';
import { type Boat, noPolarWarnings, readBoat } from '../boat/boat.js';
import {
  boatText,
  climatologyText,
  forecastText,
  HEAD_BYTES,
  kindOfText,
  planFileText,
  polarsText,
  routeText,
  warningsText,
} from '../describe/describe.js';
import { type FaultList, faultList, InputError } from '../errors.js';
import { foreignFormat } from '../foreignFormat.js';
import { landOnTrack } from '../land/land.js';
import { readPolarFiles } from '../load/load.js';
import {
  attemptOnDisk,
  DISK,
  type ForecastFile,
  forecastFile,
  LARGEST_FILES_MIB,
  loadBoat,
  readTextFile,
  worldLand,
} from '../node/node.js';
import { readPlan } from '../output/output.js';
import { readPolars } from '../polar/polar.js';
import { readRoute } from '../route/route.js';
import {
  checkChosen,
  type ReadForecast,
  type ReadForecastOptions,
  readClimatology,
  readForecast,
} from '../weather/weather.js';
import { says } from '../wording.js';
import { type CommandIo, EXIT } from './io.js';
import { type GivenOptions, readOptions } from './options.js';
import { readingProgress } from './progress.js';

/** The options of `check` as they were given. */
export interface CheckOptions extends GivenOptions {
  readonly member?: string;
}

type Reading = Pick<ReadForecastOptions, 'columns' | 'member' | 'onColumns'>;

/**
 * Reads files, says what is in them, and everything that is wrong with them. A boat's polar files are read with her; all
 * forecasts are read together, so that files that contradict each other are found; so are all files of a climatology.
 * @throws InputError with every fault, once what is good has been told
 */
export async function check(paths: readonly string[], given: CheckOptions, io: CommandIo): Promise<number> {
  const { columns, faults: optionFaults } = readOptions(given);
  const { member } = given;
  const faults = faultList();
  for (const fault of optionFaults) faults.add(fault);
  const said: string[] = [];
  const forecasts: string[] = [];
  const climatologies: string[] = [];
  for (const path of paths) {
    await attemptOnDisk(path, faults, async () => {
      const head = await headOf(path);
      const foreign = foreignFormat(head);
      if (foreign !== undefined) throw new InputError([{ file: path, ...says.notText(foreign) }]);
      const kind = kindOfText(head, columns.month?.name);
      if (kind === 'forecast') {
        forecasts.push(path);
        return;
      }
      if (kind === 'climatology') {
        climatologies.push(path);
        return;
      }
      if (kind === undefined) throw new InputError([{ file: path, ...says.kindOfFile() }]);
      const { text } = await readTextFile(path, { largestMiB: LARGEST_FILES_MIB[kind] });
      if (kind === 'route') {
        const route = readRoute(text, path);
        said.push(routeText(path, route, landOnTrack(route, await worldLand(), { file: path })));
      } else if (kind === 'polars') {
        said.push(polarsText(path, readPolars(text, { file: path, sailPlan: 'wide table' })));
      } else if (kind === 'plan') {
        said.push(planFileText(path, readPlan(text, path)));
      } else {
        const boat = readBoat(text, { file: path });
        said.push(boatText(path, boat));
        said.push(
          ...(boat.polars === undefined
            ? await estimateTexts(path, boat, faults)
            : await polarTexts(boat, path, faults)),
        );
      }
    });
  }
  const found = { forecast: [] as string[], climatology: [] as string[] };
  const noting = (into: string[]) => (names: readonly string[]) => {
    // One by one: a header may have more names than a call may have arguments.
    for (const name of names) into.push(name);
  };
  const reading = { columns, onColumns: noting(found.forecast), ...(member === undefined ? {} : { member }) };
  if (forecasts.length > 0) {
    await attemptOnDisk(forecasts.join(' + '), faults, async () => {
      said.push(...(await forecastTexts(forecasts, reading, io, faults)));
    });
  }
  if (climatologies.length > 0) {
    const name = climatologies.join(' + ');
    await attemptOnDisk(name, faults, async () => {
      const { climatology, warnings } = await withSources(climatologies, io, (sources, onProgress) =>
        readClimatology(sources, {
          columns,
          onColumns: noting(found.climatology),
          onProgress,
        }),
      );
      said.push(climatologyText(name, climatology, warnings));
    });
  }
  const files = [...forecasts, ...climatologies];
  // Of a file whose head cannot be read nobody knows what it has.
  const areKnown =
    found.forecast.length > 0 === forecasts.length > 0 && found.climatology.length > 0 === climatologies.length > 0;
  if (files.length > 0 && areKnown) {
    checkChosen(files.join(' + '), [...found.forecast, ...found.climatology], columns, faults);
  }
  io.out(said.join('\n'));
  faults.throwIfAny();
  return EXIT.complete;
}

/** What the polar files of a boat hold, and which of her plans have none. */
async function polarTexts(boat: Boat, boatPath: string, faults: FaultList): Promise<string[]> {
  const before = faults.count;
  const read = await readPolarFiles(DISK, boat, boatPath, faults);
  const texts = read.map(({ file, polars }) => polarsText(file, polars));
  const missing = boat.sailPlans.filter(({ id }) => !read.some(({ polars }) => Object.hasOwn(polars.plans, id)));
  if (faults.count > before || missing.length === 0) return texts;
  const warnings = noPolarWarnings(boat, missing);
  return [...texts, warningsText(warnings)];
}

/** What the estimate for a boat without polars rests on; what it lacks is no fault of a boat that is only looked at. */
async function estimateTexts(path: string, boat: Boat, faults: FaultList): Promise<string[]> {
  try {
    const { polars } = await loadBoat(path);
    return [(polars.basis ?? []).map((line) => `  ${line}\n`).join('')];
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    if (boat.boatPolar === undefined) return [warningsText(error.faults)];
    faults.take(error);
    return [];
  }
}

/** What each forecast holds. Where they are not good together, those that are good alone are told all the same. */
async function forecastTexts(
  paths: readonly string[],
  reading: Reading,
  io: CommandIo,
  faults: FaultList,
): Promise<string[]> {
  try {
    const { forecast, warnings } = await readTogether(paths, reading, io);
    return paths.map((path) => forecastText(path, forecast, warnings));
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    faults.take(error);
  }
  const told: string[] = [];
  if (paths.length > 1) for (const path of paths) told.push(...(await forecastTexts([path], reading, io, faultList())));
  return told;
}

async function readTogether(paths: readonly string[], reading: Reading, io: CommandIo): Promise<ReadForecast> {
  return withSources(paths, io, (sources, onProgress) =>
    readForecast(sources, { ...reading, needsWind: false, onProgress }),
  );
}

/** Reads files with a bar of progress. */
async function withSources<Read>(
  paths: readonly string[],
  io: CommandIo,
  read: (sources: readonly ForecastFile[], onProgress: (_: number, file: string) => void) => Promise<Read>,
): Promise<Read> {
  const progress = readingProgress(io);
  try {
    const sources = await Promise.all(paths.map(forecastFile));
    return await read(sources, (_, file) => {
      const source = sources.find(({ name }) => name === file)!;
      progress.show({ file, bytesRead: source.bytesRead(), bytesTotal: source.sizeBytes });
    });
  } finally {
    progress.clear();
  }
}

async function headOf(path: string): Promise<string> {
  const file = await open(path);
  try {
    const { buffer, bytesRead } = await file.read(Buffer.alloc(HEAD_BYTES), 0, HEAD_BYTES, 0);
    return buffer.toString('utf8', 0, bytesRead);
  } finally {
    await file.close();
  }
}
