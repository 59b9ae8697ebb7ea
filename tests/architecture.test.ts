import { readdirSync, readFileSync } from 'node:fs';
import { join, relative, resolve } from 'node:path';
import { constants, createContext, runInContext } from 'node:vm';
import { describe, expect, test } from 'vitest';
import { bundle, GZIP_TARGET_BYTES } from './tools/bundle.mjs';

const SRC = resolve('src');

/** Folders in the order data flows; a folder imports only from those before it. Files of src/ itself come first. */
const ORDER = [
  '',
  'choice',
  'csv',
  'json',
  'geo',
  'wind',
  'sun',
  'sail',
  'catalogue',
  'polar',
  'route',
  'land',
  'weather',
  'boat',
  'change',
  'speed',
  'estimate',
  'crossover',
  'tabled',
  'sailing',
  'passage',
  'totals',
  'wear',
  'study',
  'worth',
  'output',
  'report',
  'describe',
  'load',
  'node',
  'cli',
  'page',
];
const CALLERS = ['node', 'cli'];

const files = (readdirSync(SRC, { recursive: true }) as string[]).filter((file) => file.endsWith('.ts')).sort();
const folderOf = (file: string) => (file.includes('/') ? file.slice(0, file.indexOf('/')) : '');
const importsOf = (file: string) =>
  [...readFileSync(join(SRC, file), 'utf8').matchAll(/(?:from|import\()\s*'([^']+)'/g)].map((match) => match[1]!);

describe('layout', () => {
  test('every folder stands in the order of flow', () => {
    expect([...new Set(files.map(folderOf))].sort()).toEqual([...ORDER].sort());
  });

  test('a folder imports only from folders above it, and only their faces', () => {
    const wrong = files.flatMap((file) =>
      importsOf(file)
        .filter((name) => name.startsWith('.'))
        .map((name) => relative(SRC, resolve(SRC, file, '..', name)).replace(/\.js$/, '.ts'))
        .filter((target) => {
          const [from, to] = [folderOf(file), folderOf(target)];
          if (file === 'index.ts' || from === to) return false;
          const isFace = to === '' || target === `${to}/${to}.ts`;
          return !isFace || ORDER.indexOf(to) > ORDER.indexOf(from);
        })
        .map((target) => `${file} imports ${target}`),
    );
    expect(wrong).toEqual([]);
  });

  test('the core knows no Node, no clock and no chance', () => {
    const wrong = files
      .filter((file) => !CALLERS.includes(folderOf(file)))
      .flatMap((file) => {
        const text = readFileSync(join(SRC, file), 'utf8');
        const found = [
          ...text.matchAll(
            /'node:|\bprocess\.|\bBuffer\b|Date\.now|new Date\(\)|Math\.random|performance\.|console\./g,
          ),
        ];
        return found.map((match) => `${file}: ${match[0]}`);
      });
    expect(wrong).toEqual([]);
  });
});

describe('the browser', () => {
  test.each(['all', 'main path', 'without polars'] as const)(
    'the core bundles with no external import and stays small: %s',
    async (entry) => {
      const { externalImports, gzipBytes, modules } = await bundle({ entry });
      expect(externalImports).toEqual([]);
      const largest = modules.slice(0, 20).map(({ name, bytes }) => `${name} ${bytes}`);
      expect(gzipBytes, `bytes before gzip: ${largest.join(', ')}`).toBeLessThan(GZIP_TARGET_BYTES[entry]);
    },
  );

  test('the bundle plans the sample without Node', async () => {
    const { code } = await bundle({ minify: false, format: 'iife' });
    // A world with what browsers have and Node's own things left out.
    const world = createContext(constants.DONT_CONTEXTIFY);
    Object.assign(world, {
      TextDecoder,
      TextEncoder,
      structuredClone,
      URL,
      AbortController,
      setTimeout,
      queueMicrotask,
    });
    const sample = (name: string) => JSON.stringify(readFileSync(`data-samples/${name}`, 'utf8'));
    const script = `${code}
      (async () => {
        const w = windwardrobe;
        const route = w.readRoute(${sample('route.csv')});
        const boat = w.readBoat(${sample('boat.json')});
        const polars = w.readPolars(${sample('polars.csv')}, { boat });
        const bytes = new TextEncoder().encode(${sample('forecast.csv')});
        const open = () => [bytes.subarray(0, 100001), bytes.subarray(100001)];
        const { forecast } = await w.readForecast({ name: 'forecast.csv', open });
        const passage = w.planPassage({ route, forecast, boat, polars }, { departure: '2027-01-11T12:00Z' });
        return [typeof process, typeof Buffer, passage.complete, w.hoursCsv(passage).split('\\n').length].join(' ');
      })()`;
    expect(await runInContext(script, world)).toMatch(/^undefined undefined true 4\d\d$/);
  });
});
