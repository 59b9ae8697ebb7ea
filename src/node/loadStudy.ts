import { basename } from 'node:path';
import { type Fault, faultList } from '../errors.js';
import { checkTypes } from '../given.js';
import { landOnTrack } from '../land/land.js';
import {
  attempt,
  checkLoading,
  type LoadedWeather,
  type LoadOptions,
  loadBoatInto,
  loadWeather,
  readTextInput,
} from '../load/load.js';
import type { InputDigest } from '../output/output.js';
import { layTrack, readRoute } from '../route/route.js';
import type { Study, StudyWeather } from '../study/study.js';
import { type Climatology, type DrawOptions, drawnFrom, type Forecast, memberOf } from '../weather/weather.js';
import { says } from '../wording.js';
import { worldLand } from './coast.js';
import { DISK } from './disk.js';

/** Paths of the files of a study. */
export interface StudyPaths {
  readonly routes: readonly string[];
  readonly boats: readonly string[];
  /** Each a weather of its own, or one for each of its members. May be empty where there is a climatology. */
  readonly forecasts: readonly string[];
  /** Monthly climatology behind each forecast, or alone: one file or several. */
  readonly climatology?: string | readonly string[];
  /** Read with each of the forecasts: currents, waves. */
  readonly beside?: readonly string[];
}

/** How to load the files of a study. */
export interface LoadStudyOptions extends Omit<LoadOptions, 'from' | 'member'> {
  /** Members of ensembles to sail in; absent: all. */
  readonly members?: readonly string[];
  /** So many drawings of the climatology, each a weather of its own with each forecast; absent or 0: its mean wind. */
  readonly draws?: DrawOptions & { readonly count: number };
}

/** The files of a study as read, with their digests. */
export interface LoadedStudy {
  readonly study: Pick<Study, 'routes' | 'boats' | 'weathers'>;
  readonly digests: readonly InputDigest[];
  readonly warnings: readonly Fault[];
}

/**
 * Reads the routes, boats and forecasts of a study, each forecast for the waters of all routes.
 * @throws InputError with every fault of every file, or where a path or an option is none
 * @example
 * const { study } = await loadStudy({
 *   routes: [sample.path('route.csv')],
 *   boats: [sample.path('boat.json')],
 *   forecasts: [sample.path('forecast.csv')],
 * });
 * study.weathers.map(({ name }) => name) // ['forecast.csv']
 */
export async function loadStudy(paths: StudyPaths, options: LoadStudyOptions = {}): Promise<LoadedStudy> {
  checkTypes(paths, PATHS, 'paths');
  checkLoading(options);
  checkTypes(options, { members: 'string[]?', draws: 'object?' });
  const faults = faultList();
  for (const fault of options.faults ?? []) faults.add(fault);
  const digests: InputDigest[] = [];
  const warnings: Fault[] = [];
  const routes: Study['routes'][number][] = [];
  for (const [i, path] of paths.routes.entries()) {
    const route = await readTextInput(DISK, 'route', path, readRoute, digests, faults);
    if (route === undefined) continue;
    routes.push({ name: nameOf(paths.routes, i), route });
    warnings.push(...landOnTrack(route, await worldLand(), { file: path }));
  }
  const boats: Study['boats'][number][] = [];
  for (const [i, path] of paths.boats.entries()) {
    const { boat, polars } = await loadBoatInto(DISK, path, digests, faults);
    if (boat !== undefined && polars !== undefined) boats.push({ name: nameOf(paths.boats, i), boat, polars });
  }
  const tracks = routes.length < paths.routes.length ? undefined : routes.map(({ route }) => layTrack(route));
  const weathers: StudyWeather[] = [];
  let hasMembers = false;
  const beside = paths.beside ?? [];
  const climatologies = typeof paths.climatology === 'string' ? [paths.climatology] : (paths.climatology ?? []);
  // Without a forecast the climatology is all there is.
  const named = paths.forecasts.length > 0 ? paths.forecasts : [undefined];
  for (const [i, path] of named.entries()) {
    const forecast = path === undefined ? beside : [path, ...beside];
    const read = await loadWeather(DISK, { forecast, climatology: climatologies }, tracks, options, digests, faults);
    warnings.push(...read.warnings);
    hasMembers ||= read.forecast?.members !== undefined;
    const name =
      path === undefined ? climatologies.map((one) => basename(one)).join(' + ') : nameOf(paths.forecasts, i);
    const all = await attempt(DISK, name, faults, async () => weathersOf(name, read, options));
    for (const weather of all ?? []) weathers.push(weather);
  }
  if (options.members !== undefined && !hasMembers && faults.count === 0)
    faults.add({ file: 'member', ...says.wrongValue('a forecast of several members', 'none') });
  faults.throwIfAny();
  return { study: { routes, boats, weathers }, digests: once(digests), warnings: once(warnings) };
}

const PATHS = {
  routes: 'string[]',
  boats: 'string[]',
  forecasts: 'string[]',
  beside: 'string[]?',
} as const;

/** The members of a forecast, or it alone, with each drawing of the climatology behind it, or its mean. */
function weathersOf(
  name: string,
  { forecast, climatology }: LoadedWeather,
  { members, draws }: LoadStudyOptions,
): readonly StudyWeather[] {
  // One that is of no ensemble serves beside those that are.
  const known = forecast?.members === undefined ? undefined : (members ?? forecast.members);
  const forecasts =
    forecast === undefined || known === undefined
      ? [{ forecast, member: undefined }]
      : known.map((member) => ({ forecast: memberOf(forecast, member), member }));
  const drawn = Array.from({ length: climatology === undefined ? 0 : (draws?.count ?? 0) }, (_, n) => ({
    climatology: drawnFrom(climatology!, { ...draws!, seed: draws!.seed + n }),
    draw: n + 1,
  }));
  const behind = drawn.length > 0 ? drawn : [{ climatology, draw: undefined }];
  return forecasts.flatMap(({ forecast: own, member }) =>
    behind.flatMap(({ climatology: mean, draw }): StudyWeather[] => {
      const weather = skyIn(own, mean);
      if (weather === undefined) return [];
      return [{ name, ...(member === undefined ? {} : { member }), ...(draw === undefined ? {} : { draw }), weather }];
    }),
  );
}

function skyIn(
  forecast: Forecast | undefined,
  climatology: Climatology | undefined,
): StudyWeather['weather'] | undefined {
  if (forecast !== undefined) return { forecast, ...(climatology === undefined ? {} : { climatology }) };
  return climatology === undefined ? undefined : { climatology };
}

/** A file that was read with several others is told once. */
const once = <Told>(all: readonly Told[]): readonly Told[] => [
  ...new Map(all.map((one) => [JSON.stringify(one), one])).values(),
];

/** A file is told by its own name; one of several of a name by its path. */
function nameOf(paths: readonly string[], i: number): string {
  const own = basename(paths[i]!);
  return paths.filter((path) => basename(path) === own).length > 1 ? paths[i]! : own;
}
