import { describeFault, type Fault, type FaultList, faultList } from '../errors.js';
import { landOnTrack } from '../land/land.js';
import { type FileStore, type LoadedWeather, loadBoatInto, loadWeather, readTextInput } from '../load/load.js';
import { type InputDigest, planFirstLine } from '../output/output.js';
import { type PassageInputs, planPassage } from '../passage/passage.js';
import { type CurveShown, planFiles, tradeoffFigure } from '../report/report.js';
import { layTrack, readRoute } from '../route/route.js';
import { totalsOf } from '../totals/totals.js';
import { wearOf } from '../wear/wear.js';
import { boatWith } from '../worth/worth.js';
import { droppedFiles } from './dropped.js';
import type { PutFile, Rules, Side, Wanted, Wardrobe } from './messages.js';

/** What was read, for every wardrobe. */
interface Read {
  readonly inputs: PassageInputs;
  readonly digests: readonly InputDigest[];
  readonly warnings: readonly Fault[];
  readonly boatFile: string;
}

/** How far it has come: in words, and the share of what can be counted. */
export type OnProgress = (text: string, share?: number) => void;

/** What came of it: each wardrobe, and their trade-offs over the same axes as markup. */
export interface Planned {
  readonly sides: readonly Side[];
  readonly tradeoff: string;
}

/**
 * Plans one wardrobe after another. What was read of the weather is kept for the next time, when none of its files has changed and the
 * route is the same. Throws an InputError with every fault of every file.
 */
export function planner(): (wanted: Wanted, onProgress: OnProgress) => Promise<Planned> {
  const kept: Kept = {};
  return async ({ files, rules, wardrobes, version }, onProgress) => {
    const store = droppedFiles(files.map(({ file }) => file));
    const read = await readAll(store, files, kept, onProgress);
    const sides: Side[] = [];
    const curves: CurveShown[] = [];
    for (const wardrobe of wardrobes) {
      onProgress(wardrobes.length === 1 ? 'Planning' : `Planning ${wardrobe.name}`);
      const { side, curve } = await sailedWith(store, read, wardrobe, rules, version);
      sides.push(side);
      if (curve !== undefined) curves.push({ name: wardrobes.length === 1 ? '' : wardrobe.name, curve });
    }
    return { sides, tradeoff: curves.length === 0 ? '' : tradeoffFigure(curves) };
  };
}

async function readAll(store: FileStore, files: readonly PutFile[], kept: Kept, onProgress: OnProgress): Promise<Read> {
  const faults = faultList();
  const digests: InputDigest[] = [];
  const pathOf = (kind: PutFile['kind']) => files.find((one) => one.kind === kind)?.file.name;
  const [routeFile, boatFile] = [pathOf('route'), pathOf('boat')];
  if (routeFile === undefined || boatFile === undefined) throw new Error('asked without a route or a boat');
  const route = await readTextInput(store, 'route', routeFile, readRoute, digests, faults);
  const { boat, polars } = await loadBoatInto(store, boatFile, digests, faults);
  const track = route && [layTrack(route)];
  const weather = await weatherOf(files, JSON.stringify(route), kept, faults, async (paths, ofWeather) =>
    loadWeather(
      store,
      paths,
      track,
      {
        onProgress: ({ file, bytesRead, bytesTotal }) =>
          onProgress(`Reading ${file}`, bytesRead / Math.max(1, bytesTotal)),
      },
      ofWeather,
      faults,
    ),
  );
  faults.throwIfAny();
  if (route === undefined || boat === undefined || polars === undefined)
    throw new Error('an input is missing without a fault');
  const { forecast, climatology } = weather;
  const sky = {
    ...(forecast === undefined ? {} : { forecast }),
    ...(climatology === undefined ? {} : { climatology }),
  } as Pick<PassageInputs, 'forecast'>;
  return {
    inputs: { route, boat, polars, ...sky } as PassageInputs,
    digests: [...digests, ...weather.digests],
    warnings: [...landOnTrack(route, await store.land(), { file: routeFile }), ...weather.warnings],
    boatFile,
  };
}

type Weather = LoadedWeather & { readonly digests: readonly InputDigest[] };

/** The weather that was read last, and of what. */
interface Kept {
  /** The files by their numbers on the page, and the route. */
  of?: string;
  weather?: Weather;
}

/** The weather as it was read last, or read anew where a file or the route is another. */
async function weatherOf(
  files: readonly PutFile[],
  route: string,
  kept: Kept,
  faults: FaultList,
  load: (
    paths: { readonly forecast: readonly string[]; readonly climatology: readonly string[] },
    digests: InputDigest[],
  ) => Promise<LoadedWeather>,
): Promise<Weather> {
  const of = files.filter(({ kind }) => kind === 'forecast' || kind === 'climatology');
  const key = JSON.stringify([of.map(({ id }) => id), route]);
  if (kept.of === key && kept.weather !== undefined) return kept.weather;
  delete kept.weather;
  const before = faults.count;
  const digests: InputDigest[] = [];
  const named = (kind: PutFile['kind']) => of.filter((one) => one.kind === kind).map(({ file }) => file.name);
  const loaded = await load({ forecast: named('forecast'), climatology: named('climatology') }, digests);
  const weather = { ...loaded, digests };
  // What had a fault is read again.
  if (faults.count === before) {
    kept.of = key;
    kept.weather = weather;
  }
  return weather;
}

/** One wardrobe sailed, and all that `plan` writes of it. */
async function sailedWith(
  store: FileStore,
  { inputs, digests, warnings, boatFile }: Read,
  { name, without, add }: Wardrobe,
  { departure, arriveDaylight, crew, house }: Rules,
  version: string,
): Promise<{ readonly side: Side; readonly curve: CurveShown['curve'] | undefined }> {
  const { boat, polars } = add === undefined ? inputs : boatWith(inputs.boat, inputs.polars, add, boatFile);
  const sailed = planPassage(
    { ...inputs, boat, polars },
    { departure, arriveDaylight, house, without, ...(crew === undefined ? {} : { crew }) },
  );
  const passage = { ...sailed, warnings: [...warnings, ...sailed.warnings] };
  const totals = totalsOf(passage, boat);
  const toPrint = { passage, totals, wear: wearOf(passage, boat), boat, route: inputs.route, inputs: digests };
  const side = {
    name,
    firstLine: planFirstLine(passage),
    complete: passage.complete,
    end: passage.end,
    hours: totals.hours,
    changes: totals.sailChanges,
    nightChanges: totals.changesAt.night,
    priceMinutes: passage.options.house.pricePerChangeMinutes,
    sails: totals.sails.map(({ id, hours }) => ({ id, hours: without.includes(id) ? null : hours })),
    warnings: passage.warnings.map(describeFault),
    files: planFiles(toPrint, { land: await store.land(), version }),
  };
  return { side, curve: passage.curve };
}
