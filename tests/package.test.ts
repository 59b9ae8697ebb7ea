import { execFileSync } from 'node:child_process';
import {
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { gzipSync } from 'node:zlib';
import { build } from 'esbuild';
import { publint } from 'publint';
import { formatMessage } from 'publint/utils';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';

// The package as it would be published: packed, unpacked into a project of its own, which has its dependencies and nothing else of ours.

const PACKAGE = JSON.parse(readFileSync('package.json', 'utf8')) as {
  readonly name: string;
  readonly version: string;
  readonly bin: Readonly<Record<string, string>>;
  readonly exports: Readonly<Record<string, unknown>>;
  readonly dependencies: Readonly<Record<string, string>>;
};
const ENTRIES = Object.keys(PACKAGE.exports).filter((path) => !/\*|package\.json/.test(path));
const importName = (path: string) => path.replace('.', PACKAGE.name);

const scratch = mkdtempSync(join(tmpdir(), 'windwardrobe-package-'));
afterAll(() => rmSync(scratch, { recursive: true, force: true }));
const modules = join(scratch, 'node_modules');
const installed = join(modules, PACKAGE.name);
let tarball = '';

const node = (args: readonly string[], cwd = scratch) =>
  execFileSync(process.execPath, args, { cwd, encoding: 'utf8', stdio: ['ignore', 'pipe', 'pipe'] });
/** Without scripts: what is packed is what was built and tested. */
const pack = (folder: string, into: string): string => {
  const before = new Set(readdirSync(into));
  const npm = process.platform === 'win32' ? 'npm.cmd' : 'npm';
  execFileSync(npm, ['pack', '--ignore-scripts', '--silent', '--pack-destination', into], { cwd: folder });
  return join(into, readdirSync(into).find((name) => !before.has(name) && name.endsWith('.tgz'))!);
};

/** The packages that a project gets with this one: those it names, those they name, and so on. */
function dependencies(): ReadonlySet<string> {
  const found = new Set<string>();
  const add = (names: Readonly<Record<string, string>> = {}) => {
    for (const name of Object.keys(names)) {
      if (found.has(name)) continue;
      found.add(name);
      const { dependencies } = JSON.parse(readFileSync(join('node_modules', name, 'package.json'), 'utf8')) as {
        readonly dependencies?: Readonly<Record<string, string>>;
      };
      add(dependencies);
    }
  };
  add(PACKAGE.dependencies);
  return found;
}

beforeAll(() => {
  writeFileSync(join(scratch, 'package.json'), '{ "name": "consumer", "private": true, "type": "module" }\n');
  tarball = pack('.', scratch);
  mkdirSync(installed, { recursive: true });
  execFileSync('tar', ['-xzf', tarball, '-C', installed, '--strip-components=1']);
  for (const name of [...dependencies(), '@types/node', 'undici-types']) {
    mkdirSync(dirname(join(modules, name)), { recursive: true });
    symlinkSync(resolve('node_modules', name), join(modules, name), 'junction');
  }
});

describe('the packed package', () => {
  test('publint has nothing to say', async () => {
    const bytes = readFileSync(tarball);
    const { messages, pkg } = await publint({
      strict: true,
      pack: { tarball: bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength) },
    });
    expect(pkg?.name).toBe(PACKAGE.name);
    expect(messages.map((message) => formatMessage(message, pkg!))).toEqual([]);
  });

  test('attw finds the types of every entry, as ESM', () => {
    const attw = resolve('node_modules/@arethetypeswrong/cli/dist/index.js');
    const told = JSON.parse(node([attw, tarball, '--profile', 'esm-only', '--format', 'json'])) as {
      readonly analysis: { readonly entrypoints: Readonly<Record<string, unknown>> };
      readonly problems?: Readonly<Record<string, unknown>>;
    };
    expect(Object.keys(told.analysis.entrypoints)).toEqual(expect.arrayContaining(ENTRIES));
  });

  test('every entry is imported by its name and has its names; the schemas are there', () => {
    writeFileSync(
      join(scratch, 'entries.mjs'),
      `import { createRequire } from 'node:module';
      const told = {};
      for (const name of ${JSON.stringify(ENTRIES.map(importName))}) told[name] = Object.keys(await import(name));
      const { title } = createRequire(import.meta.url)('windwardrobe/schemas/plan.schema.json');
      console.log(JSON.stringify({ told, title, path: import.meta.resolve('windwardrobe') }));`,
    );
    const { told, path } = JSON.parse(node(['entries.mjs'])) as {
      told: Record<string, readonly string[]>;
      path: string;
    };
    // Not this repository's own, which bears the same name.
    expect(path).toContain('windwardrobe-package-');
    const declared = readFileSync('docs/api.txt', 'utf8').split(/^# /m).slice(1);
    expect(declared.length).toBe(ENTRIES.length);
    const values = declared.flatMap((part) => [...part.matchAll(/^export declare (?:const|function|class) (\w+)/gm)]);
    const missing = new Set(values.map(([, name]) => name!));
    for (const names of Object.values(told)) for (const name of names) missing.delete(name);
    expect([...missing]).toEqual([]);
  });

  test.each(
    ['typescript-5.4', 'typescript'].flatMap((compiler) =>
      ['nodenext', 'bundler'].map((resolution) => [compiler, resolution] as const),
    ),
  )('a program compiles with %s, %s resolution', (compiler, resolution) => {
    const tsc = resolve('node_modules', compiler, 'bin/tsc');
    const version = node([tsc, '--version']);
    if (compiler === 'typescript-5.4') expect(version).toMatch(/^Version 5\.4\./);
    writeFileSync(join(scratch, 'consumer.ts'), CONSUMER);
    const project = {
      compilerOptions: {
        strict: true,
        noEmit: true,
        // What the package declares is checked too, not only how it is used.
        skipLibCheck: false,
        exactOptionalPropertyTypes: true,
        noUncheckedIndexedAccess: true,
        target: 'es2022',
        lib: ['es2022', 'dom', 'dom.asynciterable', 'dom.iterable'],
        module: resolution === 'bundler' ? 'esnext' : 'nodenext',
        moduleResolution: resolution,
        types: ['node'],
      },
      files: ['consumer.ts'],
    };
    writeFileSync(join(scratch, 'tsconfig.json'), JSON.stringify(project));
    expect(outputOf(() => node([tsc, '-p', '.']))).toBe('');
  });

  test('a bundler makes one file of it for a browser, with nothing left to import', async () => {
    const { bytes, code, externals } = await bundled(
      CONSUMER.replace(/^.*(?:windwardrobe\/node|inNode|loadInputs).*$/gm, ''),
    );
    expect(externals).toEqual([]);
    expect(code).not.toMatch(/\brequire\(|node:|\bprocess\.|from ?"/);
    expect(bytes).toBeGreaterThan(50_000);
  });

  test('one function of it weighs little: apparentWind alone under 3 kB, minified and gzipped', async () => {
    const { code, gzipBytes } = await bundled("export { apparentWind } from 'windwardrobe';");
    expect(code).toContain('Math.cos');
    expect(gzipBytes).toBeLessThan(3000);
  });

  test('the tarball is under 1 MB without the samples', () => {
    const all = statSync(tarball).size;
    const bare = join(scratch, 'bare');
    mkdirSync(bare);
    execFileSync('tar', ['-xzf', tarball, '-C', bare, '--strip-components=1']);
    // The page brings the samples too.
    for (const samples of ['data-samples', 'dist/static/sample']) rmSync(join(bare, samples), { recursive: true });
    const bytes = statSync(pack(bare, join(scratch, 'bare'))).size;
    expect(bytes).toBeLessThan(all - 100_000);
    expect(bytes).toBeLessThan(1_000_000);
  });

  describe('the command', () => {
    const bin = () => join(installed, PACKAGE.bin.windwardrobe!);

    test('tells its version, and can be run as it is', () => {
      expect(node([bin(), '--version']).trim()).toBe(PACKAGE.version);
      expect(readFileSync(bin(), 'utf8')).toMatch(/^#!\/usr\/bin\/env node\n/);
    });

    test('plans the sample from the tarball', () => {
      const sample = (name: string) => join(installed, 'data-samples', name);
      const inputs = ['route.csv', 'forecast.csv', 'boat.json'].flatMap((name) => [
        `--${name.split('.')[0]}`,
        sample(name),
      ]);
      const printed = node([bin(), 'plan', ...inputs, '--depart', '2027-01-11T12:00Z', '--out', 'plan']);
      expect(printed).toContain('Las Palmas de Gran Canaria to Saint Lucia');
      const { complete, hours } = JSON.parse(readFileSync(join(scratch, 'plan/plan.json'), 'utf8')) as {
        readonly complete: boolean;
        readonly hours: readonly unknown[];
      };
      expect(complete).toBe(true);
      expect(hours.length).toBe(readFileSync(join(scratch, 'plan/hours.csv'), 'utf8').trim().split('\n').length - 1);
    });

    test('an example runs where it lies', () => {
      expect(node([join(installed, 'examples/plan-passage.mjs')])).toBe(
        readFileSync('examples/plan-passage.txt', 'utf8'),
      );
    });
  });
});

/** What a command printed, failing or not. */
function outputOf(action: () => string): string {
  try {
    return action();
  } catch (error) {
    return (error as { stdout: string }).stdout;
  }
}

async function bundled(contents: string) {
  const { outputFiles, metafile } = await build({
    stdin: { contents, resolveDir: scratch, loader: 'ts' },
    absWorkingDir: scratch,
    bundle: true,
    minify: true,
    platform: 'browser',
    format: 'esm',
    metafile: true,
    write: false,
    logLevel: 'silent',
  });
  const [{ text, contents: bytes } = { text: '', contents: new Uint8Array() }] = outputFiles;
  const [output] = Object.values(metafile.outputs);
  const imports = [...Object.values(metafile.inputs), output!].flatMap((one) => one.imports);
  return {
    code: text,
    bytes: bytes.length,
    gzipBytes: gzipSync(text, { level: 9 }).length,
    externals: imports.filter(({ external }) => external === true).map(({ path }) => path),
  };
}

const CONSUMER = `
import { type Forecast, type Hour, InputError, type OwnRule, type Passage, planPassage, readBoat, readForecast, readPolars, readRoute, totalsOf } from 'windwardrobe';
import { landOf, landOnTrack } from 'windwardrobe/land';
import { loadInputs } from 'windwardrobe/node';
import { crossoverSvg } from 'windwardrobe/report';
import { kindOf } from 'windwardrobe/sails';

const start: string = '2027-01-11T12:00Z';
const rule: OwnRule = { name: 'no main', bars: ({ sails }, { twsKn }) => twsKn > 30 && sails.includes('main') };
export async function plan(texts: Record<'route' | 'boat' | 'polars' | 'forecast', string>): Promise<readonly Hour[]> {
  try {
    const route = readRoute(texts.route);
    const boat = readBoat(texts.boat);
    const polars = readPolars(texts.polars, { boat });
    const read = await readForecast({ name: 'forecast.csv', open: () => [texts.forecast] });
    const forecast: Forecast = read.forecast;
    const passage: Passage = planPassage({ route, forecast, boat, polars }, { departure: start, crew: 2 }, { rules: [rule] });
    const arrival: string | null = totalsOf(passage, boat).arrival;
    return arrival === null ? [] : passage.hours;
  } catch (error) {
    if (error instanceof InputError) return error.faults.length > 0 ? [] : [];
    throw error;
  }
}
// Types that are not found would be any, and forgive these: then the compiler says that nothing is to be expected.
// @ts-expect-error a number is no place
landOf(5).polygons.nowhere;
// @ts-expect-error no kind of sail
kindOf('bedsheet');
// @ts-expect-error a crossover is no text
crossoverSvg('text');
// @ts-expect-error a route is a text
readRoute(5);
// @ts-expect-error paths are texts
loadInputs({ route: 5, boat: '' });
export const area: number = kindOf('trysail').window.awaMinDeg.value;
export const others = { landOf, landOnTrack, crossoverSvg };
export const inNode = loadInputs;
`;
