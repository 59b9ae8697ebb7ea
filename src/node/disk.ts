import { basename, dirname, resolve } from 'node:path';
import type { FaultList } from '../errors.js';
import {
  attempt,
  type FileStore,
  type InputPaths,
  type LoadedBoat,
  type LoadedInputs,
  type LoadOptions,
  loadBoat as loadBoatFrom,
  loadInputs as loadInputsFrom,
} from '../load/load.js';
import { worldLand } from './coast.js';
import { fileProblem, forecastFile, readTextFile } from './files.js';

/**
 * The files of this machine, by their paths.
 * @internal
 */
export const DISK: FileStore = {
  readText: readTextFile,
  open: forecastFile,
  besides: (path, name) => resolve(dirname(path), name),
  baseName: (path) => basename(path),
  problemOf: fileProblem,
  land: worldLand,
};

/**
 * Reads route, forecast, climatology, boat and polars. A bad file does not hide the faults of the others.
 * @throws InputError with every fault of every file, or where a path or an option is none
 *
 * @example
 * const { inputs, warnings } = await loadInputs({
 *   route: sample.path('route.csv'),
 *   forecast: sample.path('forecast.csv'),
 *   boat: sample.path('boat.json'),
 * });
 * planPassage(inputs, { departure: '2027-01-11T12:00Z' }).end // '2027-01-28T17:48:51Z'
 * warnings // []
 */
export const loadInputs = (paths: InputPaths, options: LoadOptions = {}): Promise<LoadedInputs> =>
  loadInputsFrom(DISK, paths, options);

/**
 * Reads a boat and the polars her file names; where it names none, speeds are estimated.
 * @throws InputError with every fault of every file
 *
 * @example
 * const { boat, polars, digests } = await loadBoat(sample.path('boat.json'));
 * polars.status // 'designed'
 * digests.map(({ role }) => role) // ['boat', 'polars']
 */
export const loadBoat = (path: string): Promise<LoadedBoat> => loadBoatFrom(DISK, path);

/**
 * Runs a reader; what is wrong with its input or file is added to the faults, and undefined comes back.
 * @internal
 */
export const attemptOnDisk = <Result>(
  name: string,
  faults: FaultList,
  action: () => Promise<Result>,
): Promise<Result | undefined> => attempt(DISK, name, faults, action);
