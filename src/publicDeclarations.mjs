// Takes away the declarations that no entry of the package reaches: nobody can import what they declare, and they were a quarter of all.
// Those of the package's own imports stay, for the sources are checked against them.
import { existsSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const ROOT = fileURLToPath(new URL('..', import.meta.url));
const { exports, imports } = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8'));

const reached = new Set();
const entries = Object.values(exports).flatMap(({ types }) => types ?? []);
const own = Object.values(imports).flatMap((paths) =>
  Object.values(paths).map((path) => path.replace(/\.js$/, '.d.ts')),
);
const left = [...entries, ...own].map((path) => join(ROOT, path));
for (let path = left.pop(); path !== undefined; path = left.pop()) {
  if (reached.has(path) || !existsSync(path)) continue;
  reached.add(path);
  for (const [, name] of readFileSync(path, 'utf8').matchAll(/(?:from|import\()\s*["'](\.[^"']+)\.js["']/g))
    left.push(`${join(dirname(path), name)}.d.ts`);
}
const DIST = join(ROOT, 'dist');
for (const name of readdirSync(DIST, { recursive: true }))
  if (name.endsWith('.d.ts') && !reached.has(join(DIST, name))) rmSync(join(DIST, name));
