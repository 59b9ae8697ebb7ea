import { faultAsGiven } from '../describe/describe.js';
import { describeFault, InputError } from '../errors.js';
import {
  type FileStore,
  type LoadedInputs,
  type LoadedWeather,
  loadInputs,
  loadWeather,
  type ReadingProgress,
  type WeatherReader,
} from '../load/load.js';
import { type InputDigest, planFirstLine } from '../output/output.js';
import { planPassage } from '../passage/passage.js';
import { type CurveShown, planFiles, tradeoffFigure } from '../report/report.js';
import { totalsOf } from '../totals/totals.js';
import { wearOf } from '../wear/wear.js';
import { boatWith } from '../worth/worth.js';
import { boatFiles } from './boatFile.js';
import { droppedFiles } from './dropped.js';
import { faultsByFile } from './faultsByFile.js';
import { figuresOf, wornIn } from './figures.js';
import type { Planned, PutFile, Rules, Side, Wanted, Wardrobe } from './messages.js';

/** What was read, for every wardrobe. */
type Read = LoadedInputs & { readonly boatFile: string; readonly boatText: string };

/** How far it has come: in words, and the share of what can be counted. */
export type OnProgress = (text: string, share?: number) => void;

/**
 * Plans one wardrobe after another. What was read of the weather is kept for the next time, when none of its files has changed and the
 * route is the same. Of two wardrobes the one is planned though the other cannot be.
 * Throws an InputError with every fault of every file, or of the first wardrobe where none can be planned.
 */
export function planner(): (wanted: Wanted, onProgress: OnProgress) => Promise<Planned> {
  const kept: Kept = {};
  return async ({ files, rules, wardrobes, version }, onProgress) => {
    const store = droppedFiles(files.map(({ file }) => file));
    const read = await readAll(store, files, kept, onProgress);
    const sides: Side[] = [];
    const refused: { readonly name: string; readonly error: InputError }[] = [];
    const curves: CurveShown[] = [];
    const isOne = wardrobes.length === 1;
    for (const wardrobe of wardrobes) {
      const { name } = wardrobe;
      onProgress(isOne ? 'Planning' : `Planning ${name}`);
      try {
        const { side, curve } = await sailedWith(store, read, wardrobe, rules, {
          version,
          prefix: isOne ? '' : `${name.toLowerCase().replaceAll(' ', '-')}-`,
        });
        sides.push(side);
        if (curve !== undefined) curves.push({ name: isOne ? '' : name, curve });
      } catch (error) {
        if (!(error instanceof InputError)) throw error;
        refused.push({ name, error });
      }
    }
    if (sides.length === 0) throw refused[0]!.error;
    return {
      sides,
      refused: refused.map(({ name, error }) => ({ name, faults: faultsByFile(error) })),
      tradeoff: curves.length === 0 ? '' : tradeoffFigure(curves),
    };
  };
}

async function readAll(store: FileStore, files: readonly PutFile[], kept: Kept, onProgress: OnProgress): Promise<Read> {
  const named = (kind: PutFile['kind']) => files.flatMap((one) => (one.kind === kind ? [one.file.name] : []));
  const [[route], [boat]] = [named('route'), named('boat')];
  if (route === undefined || boat === undefined) throw new Error('asked without a route or a boat');
  const paths = { route, boat, forecast: named('forecast'), climatology: named('climatology') };
  const how = {
    onProgress: ({ file, bytesRead, bytesTotal }: ReadingProgress) =>
      onProgress(`Reading ${file}`, bytesRead / Math.max(1, bytesTotal)),
  };
  const loaded = await loadInputs(store, paths, how, keepingWeather(kept, files));
  return { ...loaded, boatFile: boat, boatText: (await store.readText(boat)).text };
}

/** The weather that was read last, and of which files and route, by their numbers on the page. */
interface Kept {
  of?: string;
  weather?: LoadedWeather & { readonly digests: readonly InputDigest[] };
}

/** The weather as it was read last, or read anew where a file or the route is another. */
const keepingWeather =
  (kept: Kept, files: readonly PutFile[]): WeatherReader =>
  async (store, paths, tracks, options, digests, faults) => {
    const of = JSON.stringify(files.flatMap(({ kind, id }) => (OF_WEATHER.has(kind) ? [id] : [])));
    if (kept.of !== of) {
      delete kept.of;
      delete kept.weather;
    }
    const before = faults.count;
    const own: InputDigest[] = [];
    const weather = kept.weather ?? {
      ...(await loadWeather(store, paths, tracks, options, own, faults)),
      digests: own,
    };
    // What had a fault is read again.
    if (faults.count === before) Object.assign(kept, { of, weather });
    digests.push(...weather.digests);
    return weather;
  };

/** What is read of the weather depends on these; of the route, for it is cropped to it. */
const OF_WEATHER: ReadonlySet<PutFile['kind']> = new Set(['route', 'forecast', 'climatology']);

/** One wardrobe sailed, all that `plan` writes of it, and the boat as she sailed. */
async function sailedWith(
  store: FileStore,
  { inputs, digests, warnings, boatFile, boatText }: Read,
  { name, without, add }: Wardrobe,
  { departure, arriveDaylight, crew, house }: Rules,
  { version, prefix }: { readonly version: string; readonly prefix: string },
): Promise<{ readonly side: Side; readonly curve: CurveShown['curve'] | undefined }> {
  const whole = add === undefined ? undefined : boatWith(inputs.boat, inputs.polars, add, boatFile);
  const { boat, polars } = whole ?? inputs;
  const ofCrew = crew === undefined ? {} : { crew };
  const sailed = planPassage({ ...inputs, boat, polars }, { departure, arriveDaylight, house, without, ...ofCrew });
  const passage = { ...sailed, warnings: [...warnings, ...sailed.warnings.map(faultAsGiven)] };
  const totals = totalsOf(passage, boat);
  const wear = wearOf(passage, boat);
  const toPrint = { passage, totals, wear, boat, route: inputs.route, inputs: digests };
  const side = {
    name,
    prefix,
    firstLine: planFirstLine(passage),
    complete: passage.complete,
    end: passage.end,
    changes: totals.sailChanges,
    figures: figuresOf(passage, boat, wear),
    sails: totals.sails.map(({ id, hours }) => ({ id, hours: without.includes(id) ? null : hours })),
    worn: wornIn(wear),
    warnings: passage.warnings.map(describeFault),
    files: planFiles(toPrint, { land: await store.land(), version }),
    boatFiles: boatFiles({
      boat: inputs.boat,
      text: boatText,
      file: boatFile,
      ...(whole === undefined ? {} : { whole }),
      rules: { ...ofCrew, house },
      prefix,
    }),
  };
  return { side, curve: passage.curve };
}
