// Takes the comments out of the built code: they stand in the declarations beside it, and twice they would be a fifth of the package.
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { transformSync } from 'esbuild';

const DIST = fileURLToPath(new URL('../dist', import.meta.url));
for (const name of readdirSync(DIST, { recursive: true })) {
  if (!name.endsWith('.js')) continue;
  const path = join(DIST, name);
  const { code } = transformSync(readFileSync(path, 'utf8'), { legalComments: 'none', target: 'es2022' });
  writeFileSync(path, code);
}
