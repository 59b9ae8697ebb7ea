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
  const fileOf = (path: string): File => {
    const file = byName.get(path);
    if (file === undefined) throw new NotHere(path);
    return file;
  };
  return {
    async readText(path, { name = path, largestMiB = LARGEST_FILES_MIB.plan } = {}) {
      const file = fileOf(path);
      if (file.size > largestMiB * 2 ** 20) throw new InputError([{ file: name, ...says.tooLarge(largestMiB) }]);
      const bytes = new Uint8Array(await file.arrayBuffer());
      const digest = digesting();
      digest.add(bytes);
      return { text: new TextDecoder().decode(bytes), sha256: digest.hex() };
    },
    open: async (path) => streamed(fileOf(path)),
    // A page knows no folders: a file is the one of that name.
    besides: (_, name) => baseName(name),
    baseName,
    problemOf: (error) => (error instanceof NotHere ? 'not on this page: put it here too' : readProblem(error)),
    land,
  };
}

/** A file that another names and nobody put on the page. */
class NotHere extends Error {}

/** A file that was changed or taken away since it was put here. */
const readProblem = (error: unknown) =>
  error instanceof DOMException &&
  ['NotReadableError', 'NotFoundError', 'SecurityError', 'EncodingError'].includes(error.name)
    ? 'changed or gone since it was put here: put it here again'
    : undefined;

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
        const { done, value } = await reader.read();
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
