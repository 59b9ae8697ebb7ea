// The library in a browser: bundles browser/page.js with a general bundler (npm install esbuild) into a folder for any web server,
//   node examples/browser.mjs site
// and, without a folder, plans with the same code in a bare context that has what browsers have and nothing of Node.
import { cp, mkdir, readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { constants, createContext, runInContext } from 'node:vm';

const { build } = await import('esbuild').catch((error) => {
  if (error.code !== 'ERR_MODULE_NOT_FOUND') throw error;
  console.error('This example needs a bundler: npm install esbuild');
  process.exit(1);
});
const here = (path) => fileURLToPath(new URL(path, import.meta.url));
const common = { bundle: true, minify: true, platform: 'browser', logLevel: 'warning' };
const NAMES = ['route.csv', 'forecast.csv', 'boat.json', 'polars.csv'];
const [folder] = process.argv.slice(2);

if (folder === undefined) {
  const entryPoints = [here('browser/plan.js')];
  const { outputFiles } = await build({ ...common, entryPoints, format: 'iife', globalName: 'page', write: false });
  const texts = {};
  for (const name of NAMES) texts[name] = await readFile(here(`../data-samples/${name}`), 'utf8');
  // Older versions of Node 20 do not know the constant, and are slower.
  const world = createContext(constants?.DONT_CONTEXTIFY ?? {});
  Object.assign(world, { TextDecoder, TextEncoder, URL, AbortController, setTimeout, queueMicrotask, texts });
  const script = `${outputFiles[0].text}; page.planned(texts, '2027-01-11T12:00Z')`;
  console.log(await runInContext(script, world));
} else {
  await mkdir(`${folder}/data-samples`, { recursive: true });
  await build({ ...common, entryPoints: [here('browser/page.js')], format: 'esm', outfile: `${folder}/page.js` });
  await cp(here('browser/index.html'), `${folder}/index.html`);
  for (const name of NAMES) await cp(here(`../data-samples/${name}`), `${folder}/data-samples/${name}`);
}
