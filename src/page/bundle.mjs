// Makes of the built library what a browser loads: dist/static, a folder that any server may serve as it is.
import { createHash } from 'node:crypto';
import { copyFileSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { CAUTION } from '../../dist/index.js';
import { REPORT_SCRIPT, REPORT_STYLE } from '../../dist/report/report.js';

const PACKAGE = fileURLToPath(new URL('../..', import.meta.url));
const FROM = join(PACKAGE, 'src/page');
const TO = join(PACKAGE, 'dist/static');
const SAMPLE = ['route.csv', 'forecast.csv', 'boat.json', 'polars.csv', 'no-downwind.json'];

rmSync(TO, { recursive: true, force: true });
mkdirSync(join(TO, 'sample'), { recursive: true });
const { metafile } = await build({
  entryPoints: { page: join(PACKAGE, 'dist/page/main.js'), worker: join(PACKAGE, 'dist/page/worker.js') },
  outdir: TO,
  absWorkingDir: PACKAGE,
  bundle: true,
  minify: true,
  format: 'esm',
  platform: 'browser',
  conditions: ['browser'],
  target: ['chrome115', 'firefox115', 'safari16.4'],
  legalComments: 'none',
  metafile: true,
  logLevel: 'warning',
});
const { version } = JSON.parse(readFileSync(join(PACKAGE, 'package.json'), 'utf8'));
// A report that is shown in the page brings its script, which the page's policy knows by its digest.
const digest = createHash('sha256').update(REPORT_SCRIPT).digest('base64');
const page = readFileSync(join(FROM, 'index.html'), 'utf8')
  .replace('%SCRIPT%', `sha256-${digest}`)
  .replace('%VERSION%', version)
  .replace('%CAUTION%', CAUTION);
writeFileSync(join(TO, 'index.html'), page);
writeFileSync(join(TO, 'report.css'), REPORT_STYLE);
copyFileSync(join(FROM, 'page.css'), join(TO, 'page.css'));
// Without a bracket round every point the coast is a twelfth less to load, packed.
const atlas = createRequire(import.meta.url).resolve('world-atlas/land-50m.json');
const { arcs, ...topology } = JSON.parse(readFileSync(atlas, 'utf8'));
writeFileSync(join(TO, 'land.json'), JSON.stringify({ ...topology, arcs: arcs.map((arc) => arc.flat()) }));
for (const name of SAMPLE) copyFileSync(join(PACKAGE, 'data-samples', name), join(TO, 'sample', name));
const used = Object.values(metafile.outputs).flatMap(({ inputs }) =>
  Object.entries(inputs).flatMap(([path, { bytesInOutput }]) => (bytesInOutput > 0 ? [path] : [])),
);
writeFileSync(join(TO, 'licences.txt'), licences(used));

/** What is in the bundle of others, with their licences, which ask to go with it. */
function licences(inputs) {
  const found = inputs.flatMap((path) => /^(.*node_modules\/(?:@[^/]+\/)?[^/]+)\//.exec(path)?.[1] ?? []);
  const folders = [...new Set([...found, 'node_modules/world-atlas'])].sort();
  const parts = folders.map((folder) => {
    const { name, version: own, license } = JSON.parse(readFileSync(join(PACKAGE, folder, 'package.json'), 'utf8'));
    const file =
      existsSync(join(PACKAGE, folder)) && readdirSync(join(PACKAGE, folder)).find((one) => /^licen[cs]e/i.test(one));
    const text = file ? readFileSync(join(PACKAGE, folder, file), 'utf8').trim() : '';
    return `${name} ${own} (${license})\n\n${text}\n`;
  });
  return `What this page is made of beside windwardrobe, with its licences.\n\n${parts.join('\n----\n\n')}`;
}
