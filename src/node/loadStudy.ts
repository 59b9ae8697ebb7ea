import { basename } from 'node:path';
import { type Fault, faultList } from '../errors.js';
import type { InputDigest } from '../output/output.js';
import { layTrack, readRoute } from '../route/route.js';
import type { Study, StudyWeather } from '../study/study.js';
import { memberOf } from '../weather/weather.js';
import { loadBoatInto } from './loadBoat.js';
import { type LoadOptions, loadForecast } from './loadInputs.js';
import { readTextInput } from './readTextInput.js';

/** Paths of the files of a study. */
export interface StudyPaths {
  readonly routes: readonly string[];
  readonly boats: readonly string[];
  /** Each a weather of its own, or one for each of its members. */
  readonly forecasts: readonly string[];
  /** Read with each of the forecasts: currents, waves. */
  readonly beside?: readonly string[];
}

/** How to load the files of a study. */
export interface LoadStudyOptions extends Omit<LoadOptions, 'from' | 'member'> {
  /** Members of ensembles to sail in; absent: all. */
  readonly members?: readonly string[];
}

/** The files of a study as read, with their digests. */
export interface LoadedStudy {
  readonly study: Pick<Study, 'routes' | 'boats' | 'weathers'>;
  readonly digests: readonly InputDigest[];
  readonly warnings: readonly Fault[];
}

/**
 * Reads the routes, boats and forecasts of a study, each forecast for the waters of all routes.
 * @throws InputError with every fault of every file
 */
export async function loadStudy(paths: StudyPaths, options: LoadStudyOptions = {}): Promise<LoadedStudy> {
  const faults = faultList();
  for (const fault of options.faults ?? []) faults.add(fault);
  const digests: InputDigest[] = [];
  const warnings: Fault[] = [];
  const routes: Study['routes'][number][] = [];
  for (const [i, path] of paths.routes.entries()) {
    const route = await readTextInput('route', path, readRoute, digests, faults);
    if (route !== undefined) routes.push({ name: nameOf(paths.routes, i), route });
  }
  const boats: Study['boats'][number][] = [];
  for (const [i, path] of paths.boats.entries()) {
    const { boat, polars } = await loadBoatInto(path, digests, faults);
    if (boat !== undefined && polars !== undefined) boats.push({ name: nameOf(paths.boats, i), boat, polars });
  }
  const tracks = routes.length < paths.routes.length ? undefined : routes.map(({ route }) => layTrack(route));
  const weathers: StudyWeather[] = [];
  for (const [i, path] of paths.forecasts.entries()) {
    const read = await loadForecast([path, ...(paths.beside ?? [])], tracks, options, digests, faults);
    if (read === undefined) continue;
    const { forecast } = read;
    warnings.push(...read.warnings);
    const name = nameOf(paths.forecasts, i);
    const wanted = options.members ?? forecast.members ?? [];
    if (forecast.members === undefined && options.members === undefined) weathers.push({ name, weather: { forecast } });
    else
      for (const member of wanted) weathers.push({ name, member, weather: { forecast: memberOf(forecast, member) } });
  }
  faults.throwIfAny();
  return { study: { routes, boats, weathers }, digests, warnings };
}

/** A file is told by its own name; one of several of a name by its path. */
function nameOf(paths: readonly string[], i: number): string {
  const own = basename(paths[i]!);
  return paths.filter((path) => basename(path) === own).length > 1 ? paths[i]! : own;
}
