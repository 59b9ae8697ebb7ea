import { execFileSync } from 'node:child_process';
import { createReadStream, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import * as library from '../src/index.js';
import { browserIn, isSkipped, START_MILLISECONDS } from './support/chromium.js';
import { BOAT, changed, FORECAST, POLARS, ROUTE } from './support/small.js';
import { bundle } from './tools/bundle.mjs';

const GFS = '../shared/data/gfs1p0_atlantic_trades_20181006_3h.csv';
const folder = mkdtempSync(join(tmpdir(), 'windwardrobe-browser-'));
const site = join(folder, 'site');
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** What a passage is planned from: an origin, and names of files there. */
interface Voyage {
  readonly origin: string;
  readonly route: string;
  readonly forecast: string;
  readonly departure: string;
}
const SAMPLE = { route: 'route.csv', forecast: 'forecast.csv', departure: '2027-01-11T12:00Z' };
const LONG = { route: 'west.csv', forecast: 'long.csv', departure: '2018-10-07T00:00Z' };

/** The file behind each name. */
const FILES: Readonly<Record<string, string>> = {
  ...Object.fromEntries(
    ['route.csv', 'forecast.csv', 'boat.json', 'polars.csv'].map((name) => [name, `data-samples/${name}`]),
  ),
  'west.csv': join(folder, 'west.csv'),
  'long.csv': existsSync(GFS) ? GFS : join(folder, 'long.csv'),
};

/** Trade winds on a grid of 1° every 3 hours, as large as the real file. */
function syntheticForecast(): string {
  const rows = ['time,lat,lon,u10,v10'];
  for (let t = 0; t < 80; t += 1) {
    const time = new Date(Date.UTC(2018, 9, 6, 18) + t * 3 * 3600_000).toISOString().replace('.000', '');
    for (let y = 0; y < 28; y += 1) {
      for (let x = 0; x < 55; x += 1) {
        const [u, v] = [-7 - 2 * Math.sin(x / 9 + t / 30), -2 + Math.cos(y / 5 - t / 40)];
        rows.push(`${time},${32 - y},${x - 64},${u.toFixed(2)},${v.toFixed(2)}`);
      }
    }
  }
  return `${rows.join('\n')}\n`;
}

describe.skipIf(isSkipped)('in a browser', () => {
  let server: Server | undefined;
  let context: BrowserContext | undefined;
  let page: Page;
  let origin = '';
  const complaints: string[] = [];
  const requests: string[] = [];

  beforeAll(async () => {
    writeFileSync(FILES['west.csv']!, 'name,lat,lon\nCape Verde,16.9,-25.0\nBarbados,13.1,-59.6\n');
    if (FILES['long.csv'] !== GFS) {
      console.warn(`on a synthetic forecast, because ${GFS} is not here`);
      writeFileSync(FILES['long.csv']!, syntheticForecast());
    }
    const { code } = await bundle();
    server = createServer((request, response) => {
      const name = (request.url ?? '/').slice(1);
      const send = (type: string, body: string) => response.setHeader('content-type', type).end(body);
      if (name === '') send('text/html', PAGE);
      else if (name === 'windwardrobe.js') send('text/javascript', code);
      else if (name === 'site/index.html') send('text/html', readFileSync(join(folder, name), 'utf8'));
      else if (name === 'site/page.js') send('text/javascript', readFileSync(join(folder, name), 'utf8'));
      else if (name.startsWith('site/data-samples/')) createReadStream(join(folder, name)).pipe(response);
      else if (FILES[name] !== undefined) createReadStream(FILES[name]).pipe(response);
      else response.writeHead(name === 'favicon.ico' ? 204 : 404).end();
    });
    await new Promise<void>((done) => server!.listen(0, '127.0.0.1', done));
    origin = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
    context = await browserIn(folder);
    context.on('request', (request) => requests.push(request.url()));
    page = await context.newPage();
    page.on('console', (message) => {
      if (['error', 'warning'].includes(message.type())) complaints.push(message.text());
    });
    page.on('pageerror', (error) => complaints.push(String(error)));
    await page.goto(origin);
    await page.waitForFunction(() => 'windwardrobe' in globalThis);
  }, 2 * START_MILLISECONDS);

  afterAll(async () => {
    await context?.close();
    server?.closeAllConnections();
    server?.close();
  });

  test.each([
    ['the sample', SAMPLE, true],
    ['ten days of a global model', LONG, false],
  ] as const)('%s: the same hours as in Node, to the last byte', async (_, files, isComplete) => {
    const there = await page.evaluate(plan, { origin, ...files });
    const here = await plan({ origin, ...files });
    expect(there.isComplete).toBe(isComplete);
    expect(there.summary).toBe(here.summary);
    expect(there.hours).toBe(here.hours);
    expect(there.hours.split('\n').length).toBeGreaterThan(200);
    // Progress rises, and ends with all characters of the file.
    expect(there.progress.length).toBeGreaterThan(0);
    expect([...there.progress].sort((a, b) => a - b)).toEqual(there.progress);
    expect(there.progress.at(-1)).toBe(here.progress.at(-1));
  });

  test('without what is of Node', async () => {
    const ofNode = () => ['Buffer', 'process', 'require', 'global'].map((name) => typeof Reflect.get(globalThis, name));
    expect(new Set(await page.evaluate(ofNode))).toEqual(new Set(['undefined']));
  });

  test('reading can be aborted', async () => {
    expect(await page.evaluate(abort, { origin, ...LONG })).toEqual({ name: 'AbortError', calls: 1 });
  });

  test('bad files are told in the same words', async () => {
    const bad: BadFiles = {
      routes: [
        changed(ROUTE, '11.5', '91.5'),
        changed(ROUTE, 'End', '"End'),
        '<gpx><rte></gpx>',
        '{"type":"LineString","coordinates":[[0,0],[1]]}',
        '{"type":"LineString","coordinates":[[0,0],}',
        '',
      ],
      boats: [
        changed(BOAT, '"jib", "kind"', '"jib" "kind"'),
        changed(BOAT, '"catamaran"', '"catamarn"'),
        '{',
        '['.repeat(1e5),
      ],
      polars: [changed(POLARS, 'main,6,40,3\n', 'main,6,40,x\n'), 'a;b'],
      forecasts: [
        FORECAST.replace('-8', '"-8'),
        FORECAST.replace('-8', '8 kn').replace('u10', 'u10_kx'),
        '\ufeff\r\n;\r\n',
        `time,lat,lon,u10,v10\r\n${'x,'.repeat(5)}`,
      ],
    };
    const there = await page.evaluate(faultsOf, bad);
    expect(there).toEqual(await faultsOf(bad));
    expect(there.filter((text) => !/: expected .*, got /.test(text))).toEqual([]);
  });

  test('the example page prints in the browser what examples/browser.mjs prints without one', async () => {
    execFileSync('node', ['examples/browser.mjs', site]);
    await page.goto(`${origin}/site/index.html`);
    await page.waitForSelector('pre[data-done]');
    expect(`${await page.textContent('pre')}\n`).toBe(readFileSync('examples/browser.txt', 'utf8'));
  });

  test('nothing complained, and nothing was asked of anyone else', () => {
    expect(complaints).toEqual([]);
    expect(requests.filter((url) => new URL(url).origin !== origin)).toEqual([]);
    expect(requests.length).toBeGreaterThan(8);
  });
});

const PAGE = `<!doctype html><meta charset="utf-8"><title>windwardrobe</title>
<script type="module">import * as windwardrobe from './windwardrobe.js'; globalThis.windwardrobe = windwardrobe;</script>`;

interface BadFiles {
  readonly routes: readonly string[];
  readonly boats: readonly string[];
  readonly polars: readonly string[];
  readonly forecasts: readonly string[];
}

// The functions below run in the page as well as in Node: all that they know is the library under a global name.

Object.assign(globalThis, { windwardrobe: library });
declare const windwardrobe: typeof library;

async function plan({ origin, route: routeName, forecast: forecastName, departure }: Voyage) {
  const textOf = async (name: string) => (await fetch(`${origin}/${name}`)).text();
  const route = windwardrobe.readRoute(await textOf(routeName));
  const boat = windwardrobe.readBoat(await textOf('boat.json'));
  const polars = windwardrobe.readPolars(await textOf('polars.csv'), { boat });
  const track = windwardrobe.layTrack(route);
  const progress: number[] = [];
  const open = async function* () {
    yield* (await fetch(`${origin}/${forecastName}`)).body!;
  };
  const { forecast, warnings } = await windwardrobe.readForecast(
    { name: forecastName, open },
    {
      crop: (marginDeg) => windwardrobe.cropBoxOf(track, marginDeg),
      onProgress: (charactersRead) => progress.push(charactersRead),
    },
  );
  const passage = windwardrobe.planPassage({ route, forecast, boat, polars }, { departure });
  const totals = windwardrobe.totalsOf(passage, boat);
  return {
    isComplete: passage.complete,
    summary: `${windwardrobe.totalsText({ passage, totals, boat, route, inputs: [] })}${windwardrobe.describeFaults(warnings)}`,
    hours: windwardrobe.hoursCsv(passage),
    progress,
  };
}

async function abort({ origin, forecast: forecastName }: Voyage) {
  const controller = new AbortController();
  let calls = 0;
  const open = async function* () {
    yield* (await fetch(`${origin}/${forecastName}`)).body!;
  };
  const onProgress = () => {
    calls += 1;
    controller.abort();
  };
  try {
    await windwardrobe.readForecast({ name: forecastName, open }, { signal: controller.signal, onProgress });
    return { name: 'no error', calls };
  } catch (error) {
    return { name: (error as Error).name, calls };
  }
}

async function faultsOf({ routes, boats, polars, forecasts }: BadFiles): Promise<string[]> {
  const told: string[] = [];
  const tell = async (read: () => unknown) => {
    try {
      await read();
      told.push('no fault');
    } catch (error) {
      told.push(error instanceof windwardrobe.InputError ? error.message : `another error: ${error}`);
    }
  };
  for (const text of routes) await tell(() => windwardrobe.readRoute(text));
  for (const text of boats) await tell(() => windwardrobe.readBoat(text));
  for (const text of polars) await tell(() => windwardrobe.readPolars(text));
  for (const text of forecasts)
    await tell(() => windwardrobe.readForecast({ name: 'forecast.csv', open: () => [text] }));
  return told;
}
