import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { build } from 'esbuild';

const PACKAGE = fileURLToPath(new URL('../..', import.meta.url));
/** What a page that embeds the core would write. */
const ENTRY = "export * from 'windwardrobe';";

export const GZIP_TARGET_BYTES = 60_000;

/**
 * The core, all of it, as a developer who embeds it would bundle it for a browser: the built package by its own name, with
 * nothing left to import. `format` `iife` puts it in a variable `windwardrobe`.
 */
export async function bundle({ minify = true, format = 'esm' } = {}) {
  const { outputFiles, metafile } = await build({
    stdin: { contents: ENTRY, resolveDir: PACKAGE },
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
