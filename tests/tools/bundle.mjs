import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { build } from 'esbuild';

const PACKAGE = fileURLToPath(new URL('../..', import.meta.url));
/** What a page writes that takes all of the entry, one that reads the inputs, plans, adds up and logs, and one whose boats have no polars. */
const ENTRIES = {
  all: "export * from 'windwardrobe';",
  'main path':
    "export { readRoute, readForecast, readBoat, readPolars, planPassage, totalsOf, hoursCsv } from 'windwardrobe';",
  'without polars':
    "export { readRoute, readForecast, readBoat, estimatePolars, planPassage, totalsOf, hoursCsv, crossoverOf, answersOf } from 'windwardrobe';",
};

// The catalogue of kinds, by which a boat of kinds alone is completed, weighs 9 kB of them; estimator and crossover 12 kB, which a
// page that has polars does not load; climatologies and drawings from them 3 kB, their reader and what is said of them 3 more; rules of a program's own 0.7 kB, for they are asked where sails are.
export const GZIP_TARGET_BYTES = { all: 165_000, 'main path': 102_000, 'without polars': 113_000 };

/**
 * The core as a developer who embeds it would bundle it for a browser: the built package by its own name, with
 * nothing left to import. `format` `iife` puts it in a variable `windwardrobe`.
 */
export async function bundle({ minify = true, format = 'esm', entry = 'all' } = {}) {
  const { outputFiles, metafile } = await build({
    stdin: { contents: ENTRIES[entry], resolveDir: PACKAGE },
    absWorkingDir: PACKAGE,
    bundle: true,
    platform: 'browser',
    conditions: ['browser'],
    format,
    ...(format === 'iife' ? { globalName: 'windwardrobe' } : {}),
    minify,
    metafile: true,
    write: false,
    logLevel: 'silent',
  });
  const code = outputFiles[0].text;
  const [output] = Object.values(metafile.outputs);
  const imports = [...Object.values(metafile.inputs), output].flatMap((entry) => entry.imports);
  return {
    code,
    bytes: outputFiles[0].contents.length,
    gzipBytes: gzipSync(code, { level: 9 }).length,
    externalImports: imports.filter(({ external }) => external === true).map(({ path }) => path),
    modules: modulesOf(output.inputs),
  };
}

function modulesOf(inputs) {
  const sums = new Map();
  for (const [path, { bytesInOutput }] of Object.entries(inputs)) {
    const name =
      /node_modules\/((?:@[^/]+\/)?[^/]+)\/(?!.*node_modules\/)/.exec(path)?.[1] ?? path.replace(/^dist\//, '');
    sums.set(name, (sums.get(name) ?? 0) + bytesInOutput);
  }
  return [...sums]
    .filter(([, bytes]) => bytes > 0)
    .map(([name, bytes]) => ({ name, bytes }))
    .sort((a, b) => b.bytes - a.bytes);
}
