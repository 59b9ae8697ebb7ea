import { readBoat } from '../boat/boat.js';
import {
  boatText,
  climatologyText,
  forecastText,
  HEAD_BYTES,
  kindOfText,
  planFileText,
  polarsText,
  routeText,
} from '../describe/describe.js';
import { InputError } from '../errors.js';
import { foreignFormat } from '../foreignFormat.js';
import { landOnTrack } from '../land/land.js';
import { type FileStore, LARGEST_FILES_MIB } from '../load/load.js';
import { readPlan } from '../output/output.js';
import { readPolars } from '../polar/polar.js';
import { readRoute } from '../route/route.js';
import { isoUtc } from '../time.js';
import { readClimatology, readForecast } from '../weather/weather.js';
import { says } from '../wording.js';
import { kindsFor } from '../worth/worth.js';
import { droppedFiles, headOf } from './dropped.js';
import type { Looked } from './messages.js';

/** What a file is and what is in it, and every fault of it: what `check` tells on the command line. */
export async function look(file: File, onProgress: (share: number) => void): Promise<Looked> {
  const store = droppedFiles([file]);
  let kind: Looked['kind'];
  try {
    const head = await headOf(file, HEAD_BYTES);
    const foreign = foreignFormat(head);
    if (foreign !== undefined) throw new InputError([{ file: file.name, ...says.notText(foreign) }]);
    kind = kindOfText(head);
    if (kind === undefined) throw new InputError([{ file: file.name, ...says.kindOfFile() }]);
    return { file, kind, faults: [], ...(await seen(file, kind, store, onProgress)) };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    // Line by line, and a count of those that are left out.
    return { file, ...(kind === undefined ? {} : { kind }), told: '', faults: error.message.split('\n') };
  }
}

async function seen(
  file: File,
  kind: NonNullable<Looked['kind']>,
  store: FileStore,
  onProgress: (share: number) => void,
): Promise<Pick<Looked, 'told' | 'from' | 'boat'>> {
  const { name } = file;
  if (kind === 'forecast' || kind === 'climatology') {
    const source = await store.open(name);
    const how = { onProgress: () => onProgress(source.bytesRead() / Math.max(1, source.sizeBytes)) };
    if (kind === 'climatology') {
      const { climatology, warnings } = await readClimatology([source], how);
      return { told: climatologyText(name, climatology, warnings) };
    }
    const { forecast, warnings } = await readForecast([source], { ...how, needsWind: false });
    const starts = forecast.grids.flatMap(({ epochSeconds }) => epochSeconds[0] ?? []);
    return {
      told: forecastText(name, forecast, warnings),
      ...(starts.length === 0 ? {} : { from: isoUtc(Math.min(...starts)) }),
    };
  }
  const { text } = await store.readText(name, { largestMiB: LARGEST_FILES_MIB[kind] });
  switch (kind) {
    case 'route': {
      const route = readRoute(text, name);
      return { told: routeText(name, route, landOnTrack(route, await store.land(), { file: name })) };
    }
    case 'polars':
      return { told: polarsText(name, readPolars(text, { file: name, sailPlan: 'wide table' })) };
    case 'plan':
      return { told: planFileText(name, readPlan(text, name)) };
    case 'boat': {
      const boat = readBoat(text, { file: name });
      const sails = boat.sails.map(({ id, kind: own, areaM2 }) => ({
        id,
        kind: own,
        ...(areaM2 === undefined ? {} : { areaM2 }),
      }));
      return {
        told: boatText(name, boat),
        boat: {
          sails,
          kinds: kindsFor(boat).flatMap(({ kind: own, unfit }) => (unfit === null ? [own] : [])),
          ...(boat.crew === undefined ? {} : { crew: boat.crew }),
          house: boat.house ?? {},
          text,
        },
      };
    }
  }
}
