import { feature } from 'topojson-client';
import type { GeometryCollection, Topology } from 'topojson-specification';
import { InputError } from '../errors.js';
import { type Land, landOf } from '../land/land.js';
import { type FileStore, type ForecastFile, LARGEST_FILES_MIB } from '../load/load.js';
import { says } from '../wording.js';
import { digesting } from './digest.js';

/** Files that were put on a page, by their names: they are read here and go nowhere. */
export function droppedFiles(files: readonly File[]): FileStore {
  const byName = new Map(files.map((file) => [file.name, file]));
  const fileOf = (path: string, name = path): File => {
    const file = byName.get(path);
    if (file === undefined) throw new InputError([{ file: name, ...says.notOnPage() }]);
    return file;
  };
  return {
    async readText(path, { name = path, largestMiB = LARGEST_FILES_MIB.plan } = {}) {
      const file = fileOf(path, name);
      if (file.size > largestMiB * 2 ** 20) throw new InputError([{ file: name, ...says.tooLarge(largestMiB) }]);
      const bytes = new Uint8Array(await orGone(file.arrayBuffer(), name));
      const digest = digesting();
      digest.add(bytes);
      return { text: new TextDecoder().decode(bytes), sha256: digest.hex() };
    },
    open: async (path) => streamed(fileOf(path)),
    // A page knows no folders: a file is the one of that name.
    besides: (_, name) => baseName(name),
    baseName,
    // What is wrong with a file is an input error already.
    problemOf: () => undefined,
    land,
  };
}

/** The beginning of a file, as text. */
export const headOf = async (file: File, bytes: number): Promise<string> =>
  new TextDecoder().decode(await orGone(file.slice(0, bytes).arrayBuffer(), file.name));

/** What is read of a file, or that it was changed or taken away since it was put here. */
async function orGone<Read>(reading: Promise<Read>, name: string): Promise<Read> {
  try {
    return await reading;
  } catch (error) {
    if (error instanceof DOMException && GONE.has(error.name))
      throw new InputError([{ file: name, ...says.goneFromPage() }]);
    throw error;
  }
}

const GONE: ReadonlySet<string> = new Set(['NotReadableError', 'NotFoundError', 'SecurityError', 'EncodingError']);

const baseName = (path: string) => path.slice(Math.max(path.lastIndexOf('/'), path.lastIndexOf('\\')) + 1);

function streamed(file: File): ForecastFile {
  let digest = digesting();
  let read = 0;
  return {
    name: file.name,
    sizeBytes: file.size,
    async *open() {
      digest = digesting();
      read = 0;
      const reader = file.stream().getReader();
      for (;;) {
        const { done, value } = await orGone(reader.read(), file.name);
        if (done) return;
        digest.add(value);
        read += value.length;
        yield value;
      }
    },
    sha256: () => digest.hex(),
    bytesRead: () => read,
  };
}

let coast: Promise<Land> | undefined;

/** The coast as it lies beside the page: the numbers of an arc in a row, x and y in turn. */
interface FlatCoast extends Omit<Topology<{ land: GeometryCollection }>, 'arcs'> {
  readonly arcs: readonly (readonly number[])[];
}

function land(): Promise<Land> {
  coast ??= fetch(new URL('land.json', self.location.href)).then(async (response) => {
    const { arcs, ...rest } = (await response.json()) as FlatCoast;
    const topology = { ...rest, arcs: arcs.map(inPairs) };
    return landOf(feature(topology, topology.objects.land));
  });
  return coast;
}

const inPairs = (numbers: readonly number[]) =>
  Array.from({ length: numbers.length / 2 }, (_, i) => [numbers[2 * i]!, numbers[2 * i + 1]!]);
