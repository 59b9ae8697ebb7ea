import { existsSync, mkdtempSync, openSync, readFileSync, rmSync, writeFileSync, writeSync } from 'node:fs';
import { request } from 'node:http';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { unzipSync } from 'fflate';
import type { BrowserContext, Frame, Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import type { PlanFile } from '../src/index.js';
import { type ServedPage, servePage } from '../src/node/node.js';
import { browserIn, isSkipped, START_MILLISECONDS } from './support/chromium.js';
import { ran } from './support/command.js';
import { BOAT, changed, FORECAST, ROUTE } from './support/small.js';

const GFS = resolve('../shared/data/gfs1p0_atlantic_trades_20181006_3h.csv');
const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const folder = mkdtempSync(join(tmpdir(), 'windwardrobe-page-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const sample = (name: string) => resolve('data-samples', name);
const SAMPLE = ['route.csv', 'forecast.csv', 'boat.json', 'polars.csv'].map(sample);

/** What axe found, in a line each. */
async function axeIn(place: Page | Frame): Promise<readonly string[]> {
  await place.evaluate(AXE);
  return place.evaluate(async () => {
    const { axe } = globalThis as unknown as {
      axe: { run(): Promise<{ violations: { id: string; help: string; nodes: { html: string }[] }[] }> };
    };
    const { violations } = await axe.run();
    return violations.map(({ id, help, nodes }) => `${id}: ${help}: ${nodes[0]?.html.slice(0, 200)}`);
  });
}

/** A forecast of trade winds of at least so many bytes, on a fine grid. */
function largeForecast(path: string, bytes: number): void {
  const file = openSync(path, 'w');
  let written = writeSync(file, 'time,lat,lon,u10,v10\n');
  for (let t = 0; written < bytes; t += 1) {
    const time = new Date(Date.UTC(2027, 0, 10) + t * 3600_000).toISOString().replace('.000', '');
    const rows: string[] = [];
    for (let y = 0; y < 60; y += 1)
      for (let x = 0; x < 100; x += 1)
        rows.push(
          `${time},${(8 + y * 0.25).toFixed(2)},${(-66 + x * 0.25).toFixed(2)},${(-7 - Math.sin(x / 20 + t / 30)).toFixed(3)},${(-2 + Math.cos(y / 20 - t / 40)).toFixed(3)}`,
        );
    written += writeSync(file, `${rows.join('\n')}\n`);
  }
}

describe.skipIf(isSkipped)('the page', () => {
  let served: ServedPage | undefined;
  let context: BrowserContext | undefined;
  let page: Page;
  const complaints: string[] = [];
  const requests: string[] = [];

  beforeAll(async () => {
    served = await servePage(0);
    context = await browserIn(folder);
    context.on('request', (request) => requests.push(request.url()));
  }, 2 * START_MILLISECONDS);

  afterAll(async () => {
    await context?.close();
    await served?.close();
  });

  beforeEach(async () => {
    await page?.close();
    page = await context!.newPage();
    page.on('console', (message) => {
      if (['error', 'warning'].includes(message.type())) complaints.push(message.text());
    });
    page.on('pageerror', (error) => complaints.push(String(error)));
    await page.goto(served!.url);
  }, START_MILLISECONDS);

  const status = () => page.textContent('#status');
  const isReady = () => page.waitForFunction(() => !document.querySelector<HTMLButtonElement>('#plan')!.disabled);
  const says = (pattern: RegExp) =>
    page.waitForFunction(
      ([source, flags]) => new RegExp(source!, flags).test(document.querySelector('#status')!.textContent ?? ''),
      [pattern.source, pattern.flags] as const,
    );
  const cell = (row: string, column: number) =>
    page.textContent(`#sides tbody tr:has(th:text-is("${row}")) td:nth-of-type(${column})`);
  const report = async () => {
    const frame = (await (await page.waitForSelector('#report')).contentFrame())!;
    await frame.waitForSelector('#behind');
    return frame;
  };
  const taken = async (name: string) => {
    const [download] = await Promise.all([page.waitForEvent('download'), page.click(`a[download="${name}"]`)]);
    return readFileSync((await download.path())!);
  };

  test('by mouse: the sample is planned, and what is taken away is what plan writes, to the last byte', async () => {
    await page.click('#sample');
    await isReady();
    await page.click('#plan');
    await says(/^arrives 2027-01-28 17:48 UTC, 14 sail changes$/);
    const args = [
      '--route',
      SAMPLE[0]!,
      '--forecast',
      SAMPLE[1]!,
      '--boat',
      SAMPLE[2]!,
      '--depart',
      '2027-01-11T12:00Z',
    ];
    expect((await ran('plan', ...args, '--out', join(folder, 'plan'))).code).toBe(0);
    const names = ['hours.csv', 'plan.json', 'plan.md', 'tradeoff.csv', 'track.gpx', 'track.geojson', 'report.html'];
    expect(await page.$$eval('.downloads a', (links) => links.map((link) => link.getAttribute('download')))).toEqual([
      ...names,
      'plan-a.zip',
    ]);
    for (const name of names) {
      // Inputs are in the order in which they were put there, and polars follow the boat everywhere.
      expect((await taken(name)).equals(readFileSync(join(folder, 'plan', name))), name).toBe(true);
    }
    const zipped = unzipSync(await taken('plan-a.zip'));
    expect(Object.keys(zipped)).toEqual(names);
    expect(Buffer.from(zipped['hours.csv']!).equals(readFileSync(join(folder, 'plan', 'hours.csv')))).toBe(true);
    const frame = await report();
    expect(await frame.textContent('.answer li')).toContain('Arrives 2027-01-28 17:48 UTC');
    expect(await page.$$eval('#tradeoff svg.wide .curve:not(.near) :is(.dot, .open)', (dots) => dots.length)).toBe(37);
  });

  test('by keyboard alone: sample, plan, a dearer change, and the trade-off moves', async () => {
    const press = async (id: string, ...keys: readonly string[]) => {
      // As a person does: on with the tabulator until it has the focus.
      for (let n = 0; n < 80; n += 1) {
        if ((await page.evaluate(() => document.activeElement?.id)) === id) break;
        await page.keyboard.press('Tab');
      }
      expect(await page.evaluate(() => document.activeElement?.id)).toBe(id);
      for (const key of keys) await page.keyboard.press(key);
    };
    await press('sample', 'Enter');
    await isReady();
    await press('plan', 'Enter');
    await says(/14 sail changes/);
    const ring = () => page.getAttribute('#tradeoff svg.wide .ring', 'cx');
    const before = await ring();
    await page.evaluate(() => (document.activeElement as HTMLElement).blur());
    await page.focus('#departure');
    await press('price-number', '1', '2', '0', 'Tab');
    await says(/, \d sail changes/);
    expect(Number(await ring())).toBeLessThan(Number(before));
    expect(Number(await cell('Sail changes', 1))).toBeLessThan(14);
    // The report answers the keyboard too: a change leads to its row.
    const frame = await report();
    await frame.focus('#timeline svg.wide a.change');
    expect(await frame.textContent('#tip')).toContain('main+poled-jib');
    await page.keyboard.press('Enter');
    expect(await frame.evaluate(() => document.querySelector('tr:target')?.id)).toBe('change-1');
    await page.keyboard.press('Escape');
    expect(await frame.isHidden('#tip')).toBe(true);
  });

  test('the crew and two wardrobes: rules are kept, and both stand side by side', async () => {
    await page.click('#sample');
    await isReady();
    await page.selectOption('#dark', 'none');
    await page.check('#compare');
    for (const sail of ['vented', 'reacher', 'code']) await page.uncheck(`input[name=sail-1][value=${sail}]`);
    await page.click('#plan');
    await says(/^Wardrobe A: .*Wardrobe B: /);
    expect(await cell('of these by night', 1)).toBe('0');
    expect([await cell('vented, h', 2), await cell('reacher, h', 2)]).toEqual(['ashore', 'ashore']);
    expect(Number(await cell('Hours under way', 2))).toBeGreaterThan(Number(await cell('Hours under way', 1)));
    expect(await page.$$eval('#tradeoff svg.wide .curve:not(.near)', (curves) => curves.length)).toBe(2);
    // A column of what B has more of: of what is shown, with sign and unit.
    const [a, b, more] = [1, 2, 3].map((column) => cell('Hours under way', column));
    expect(await more).toBe(`+${(Number(await b) - Number(await a)).toFixed(1)} h`);
    expect(await cell('vented, h', 3)).toBe(`−${await cell('vented, h', 1)} h`);
    expect(await cell('Hands × hours at them', 3)).toMatch(/^[+−]\d+\.\d h$/);
    const life = (column: number) =>
      page.textContent(`#wear tbody tr:has(th:text-is("vented")) td:nth-of-type(${column})`);
    expect(await life(1)).toMatch(/ \(.* to .*\)\s%$/);
    expect(await life(2)).toMatch(/\s%$/);
    expect(await page.textContent('#wear tbody tr:has(th:text-is("heavy-jib")) td:nth-of-type(2)')).toBe('not known');
    // The files of the two are told apart, in the archive too.
    for (const letter of ['a', 'b']) {
      expect((await taken(`wardrobe-${letter}-plan.md`)).toString()).toContain('Sail changes');
      const zipped = Object.keys(unzipSync(await taken(`wardrobe-${letter}.zip`)));
      expect(zipped).toContain(`wardrobe-${letter}/hours.csv`);
    }
    expect(await page.textContent('.boat-files >> nth=1')).toContain(
      '--without code --without reacher --without vented',
    );
    await page.check('input[name=shown] >> nth=1');
    await page.waitForFunction(() => document.querySelector('iframe')!.title.endsWith('Wardrobe B'));
  });

  test('a sail is added to one of two wardrobes, and where it cannot be the page says what is missing', async () => {
    await page.click('#sample');
    await isReady();
    await page.check('#compare');
    await page.selectOption('#add-1', 'symmetric-cruising');
    await page.click('#plan');
    // The other one is planned all the same, and the file has no fault.
    await says(/^Wardrobe A: arrives .*; Wardrobe B cannot be planned$/);
    expect(await page.textContent('#answer .faults')).toMatch(
      /^boat\.json: expected rig\.pM, rig\.iM, from which the speeds of main\+spinnaker, spinnaker are estimated; or /,
    );
    expect(await page.$$('.files li.bad')).toEqual([]);
    expect(await page.$$eval('#sides thead th', (heads) => heads.map(({ textContent }) => textContent))).toEqual([
      'Wardrobe A',
    ]);
    await page.selectOption('#add-0', 'symmetric-cruising');
    await says(/^It cannot be planned/);
    // It is no fault of the file: without the sail it is planned.
    await page.selectOption('#add-0', '');
    await page.selectOption('#add-1', '');
    await page.click('#plan');
    await says(/Wardrobe B: arrives/);
    await page.getByRole('button', { name: 'Take away polars.csv' }).click();
    await page.click('#sample-plain');
    await says(/^Read\.$/);
    await page.selectOption('#add-1', 'vented-downwind');
    await page.fill('#area-1', '140');
    expect(await page.textContent('#answer')).toBe('The files have changed: plan again.');
    await page.click('#plan');
    await page.waitForSelector('#sides th:text-is("vented, h")');
    expect(await cell('vented, h', 1)).toBe('not aboard');
    expect(Number(await cell('vented, h', 2))).toBeGreaterThan(20);
    expect(Number(await cell('Hours under way', 2))).toBeLessThan(Number(await cell('Hours under way', 1)));
  });

  test('the boat is taken away as she stands on the page, and plans the same when she is read again', async () => {
    const route = join(folder, 'short.csv');
    writeFileSync(route, 'name,lat,lon\nHere,25.5,-18.5\nThere,21.5,-23.5\n');
    await page.setInputFiles('#put', [route, SAMPLE[1]!, sample('no-downwind.json')]);
    await isReady();
    await page.fill('#departure', '2027-01-13T12:00');
    await page.selectOption('#add-0', 'vented-downwind');
    await page.fill('#area-0', '140');
    await page.fill('#crew', '3');
    await page.fill('#night-reef', '18');
    await page.click('#plan');
    await says(/^arrives/);
    const before = await status();
    const [hours, boat] = [await taken('hours.csv'), await taken('no-downwind.json')];
    const path = join(folder, 'again.json');
    writeFileSync(path, boat);
    const asked = ['--depart', '2027-01-13T12:00Z', '--out', join(folder, 'again')];
    expect((await ran('plan', '--route', route, '--forecast', SAMPLE[1]!, '--boat', path, ...asked)).code).toBe(0);
    expect(readFileSync(join(folder, 'again', 'hours.csv')).equals(hours)).toBe(true);
    await page.setInputFiles('#put', path);
    await page.waitForSelector('input[name=sail-0][value=vented]');
    await page.click('#plan');
    await says(/^arrives/);
    expect(await status()).toBe(before);
    expect(await page.inputValue('#crew')).toBe('3');
  });

  test('the boat file is edited: it is read again, and a fault in it stands beside the file', async () => {
    await page.setInputFiles('#put', SAMPLE);
    await isReady();
    await page.click('summary:text-is("Edit the boat file")');
    const text = await page.inputValue('#boat-text');
    await page.fill('#boat-text', text.replace('"square-top-main"', '"square-top-mian"'));
    await page.click('#boat-apply');
    await page.waitForSelector('.files .faults');
    expect(await page.textContent('.files .faults')).toContain('did you mean "square-top-main"?');
    expect(await page.isDisabled('#plan')).toBe(true);
    await page.fill('#boat-text', text.replace('"crew": 4', '"crew": 2'));
    await page.click('#boat-apply');
    await isReady();
    expect(await page.inputValue('#crew')).toBe('2');
  });

  test('bad files: the faults of the command line, beside each file', async () => {
    const bad: Readonly<Record<string, string>> = {
      'bad-route.csv': changed(ROUTE, '11.5', '91.5'),
      'bad-wind.csv': FORECAST.replace('-8', '"-8'),
      'bad-boat.json': changed(BOAT, '"catamaran"', '"catamarn"'),
      'nothing.bin': 'GRIB\0\0\u0001',
    };
    for (const [name, text] of Object.entries(bad)) writeFileSync(join(folder, name), text);
    const home = process.cwd();
    process.chdir(folder);
    const told: string[] = [];
    try {
      // One by one, as they are looked at on the page.
      for (const name of Object.keys(bad)) told.push(...(await ran('check', name)).error.trimEnd().split('\n'));
    } finally {
      process.chdir(home);
    }
    await page.setInputFiles(
      '#put',
      Object.keys(bad).map((name) => join(folder, name)),
    );
    await says(/^There are faults/);
    expect(await page.$$eval('.files .faults li', (items) => items.map((item) => item.textContent))).toEqual(told);
    expect(told.length).toBeGreaterThanOrEqual(4);
    expect(await page.textContent('#wanted')).toBe('Still wanted: a route, a forecast, a boat.');
    await page.getByRole('button', { name: 'Take away nothing.bin' }).click();
    expect(await page.$$eval('.files > li', (items) => items.length)).toBe(3);
  });

  test('polars that the boat names and nobody put there are told, and so is weather that does not reach', async () => {
    await page.setInputFiles('#put', SAMPLE.slice(0, 3));
    await isReady();
    await page.click('#plan');
    await says(/cannot be planned/);
    expect(await page.textContent('#answer .faults')).toBe(
      'polars.csv: expected a file that can be read, got not on this page: put it here too',
    );
    await page.setInputFiles('#put', SAMPLE[3]!);
    await says(/^Read\.$/);
    await page.fill('#departure', '2031-01-01T00:00');
    await page.click('#plan');
    await says(/cannot be planned|faults/);
    expect(await page.textContent('#answer .faults')).toMatch(/expected/);
  });

  test('what is changed while it is planned is what the plan is of', async () => {
    await page.click('#sample');
    await isReady();
    // In one go, so that the plan is surely under way.
    const planAnd = (change: string) =>
      page.evaluate((script) => {
        document.querySelector<HTMLButtonElement>('#plan')!.click();
        new Function(script)();
      }, change);
    await planAnd(`const field = document.querySelector('#price-number');
      field.value = '120';
      field.dispatchEvent(new Event('change', { bubbles: true }));`);
    await says(/, \d sail changes/);
    await page.evaluate(() => {
      document.querySelector<HTMLInputElement>('#price-number')!.value = '';
      document.querySelector<HTMLButtonElement>('#plan')!.click();
      [...document.querySelectorAll<HTMLButtonElement>('.files button')].at(1)!.click();
    });
    expect(await page.textContent('#wanted')).toBe('Still wanted: a forecast.');
    expect(await page.textContent('#answer')).toBe('The files have changed: plan again.');
    // Nothing comes of it later either.
    await page.setInputFiles('#put', SAMPLE[1]!);
    await isReady();
    expect(await page.$('#sides')).toBeNull();
    expect(await status()).toBe('Read.');
  });

  test('many faults of several files: each stands beside its own', async () => {
    const polars = readFileSync(SAMPLE[3]!, 'utf8').replace(/^([^,\n]+),(\d+),(\d+),[\d.]+$/gm, '$1,$2,$3,x');
    writeFileSync(join(folder, 'polars.csv'), polars);
    writeFileSync(join(folder, 'wind.csv'), FORECAST.replace('-8', '"-8'));
    await page.setInputFiles('#put', [SAMPLE[0]!, SAMPLE[1]!, SAMPLE[2]!, join(folder, 'polars.csv')]);
    await says(/^There are faults/);
    await isReady();
    await page.click('#plan');
    await says(/cannot be planned/);
    const beside = await page.$$eval('.files > li', (items) =>
      items.map(
        (item) =>
          [
            item.querySelector('.file-name')!.textContent ?? '',
            [...item.querySelectorAll('.faults li')].map(({ textContent }) => textContent ?? ''),
          ] as const,
      ),
    );
    for (const [name, lines] of beside)
      for (const line of lines)
        expect(line.startsWith(`${name}, line `) || /and \d+ more faults$/.test(line), line).toBe(true);
    expect(beside.find(([name]) => name === 'polars.csv')![1].length).toBeGreaterThan(20);
    expect(beside.find(([name]) => name === 'boat.json')![1]).toEqual([]);
  });

  test('a file with a fault is refused however often it is asked', async () => {
    writeFileSync(join(folder, 'clim.csv'), 'month,lat,lon,u,v,wind_speed\n1,10,-60,x,0,5\n');
    await page.setInputFiles('#put', [...SAMPLE, join(folder, 'clim.csv')]);
    await isReady();
    for (let n = 0; n < 2; n += 1) {
      await page.click('#plan');
      await says(/cannot be planned/);
      expect(await page.textContent('#answer .faults')).toContain('clim.csv, line 2, column u');
    }
  });

  test('the boat file read again keeps what was set on the page', async () => {
    await page.click('#sample');
    await isReady();
    await page.uncheck('input[name=sail-0][value=vented]');
    await page.fill('#crew', '2');
    await page.click('summary:text-is("Edit the boat file")');
    await page.fill('#boat-text', (await page.inputValue('#boat-text')).replace('"areaM2": 78', '"areaM2": 80'));
    await page.click('#boat-apply');
    await page.waitForSelector('small:text-is("square-top-main, 80\u00a0m²")');
    expect(await page.isChecked('input[name=sail-0][value=vented]')).toBe(false);
    expect(await page.inputValue('#crew')).toBe('2');
  });

  test('where no price is written it is that of the crew or of the boat file, and the page says which', async () => {
    const price = async () => [
      await page.getAttribute('#price-number', 'placeholder'),
      await page.inputValue('#price'),
    ];
    expect(await price()).toEqual(['20, by the crew', '20']);
    await page.click('#sample');
    await isReady();
    expect(await price()).toEqual(['10, by the crew', '10']);
    await page.fill('#crew', '1');
    expect(await price()).toEqual(['30, by the crew', '30']);
    await page.click('summary:text-is("Edit the boat file")');
    const text = await page.inputValue('#boat-text');
    await page.fill('#boat-text', text.replace('"house": {', '"house": { "pricePerChangeMinutes": 45,'));
    await page.click('#boat-apply');
    await page.waitForFunction(() => document.querySelector<HTMLInputElement>('#price-number')!.value === '45');
    await page.fill('#price-number', '');
    expect(await price()).toEqual(['45, by the boat file', '45']);
  });

  test('whatever is asked of the server, it stands', async () => {
    const { port } = new URL(served!.url);
    const asked = (path: string) =>
      new Promise<number | undefined>((done, failed) => {
        request({ port, host: '127.0.0.1', path }, (response) => {
          response.resume();
          done(response.statusCode);
        })
          .on('error', failed)
          .end();
      });
    for (const path of ['//', '/..%2f..%2fpackage.json', '/../package.json', '/%', '/?x=//', '/nothing', '/sample'])
      expect([200, 404], path).toContain(await asked(path));
    expect(await asked('/')).toBe(200);
    expect(await asked('/../package.json')).toBe(404);
  });

  test('files are dropped anywhere on the page', async () => {
    const texts = SAMPLE.map((path) => ({ name: path.split('/').at(-1)!, text: readFileSync(path, 'utf8') }));
    const transfer = await page.evaluateHandle((files) => {
      const data = new DataTransfer();
      for (const { name, text } of files) data.items.add(new File([text], name));
      return data;
    }, texts);
    await page.dispatchEvent('body', 'drop', { dataTransfer: transfer });
    await isReady();
    expect(await page.$$eval('.files > li', (items) => items.length)).toBe(4);
  });

  test.skipIf(!existsSync(GFS))('a real forecast along a route of ours', async () => {
    writeFileSync(join(folder, 'west.csv'), 'name,lat,lon\nCape Verde,16.9,-25.0\nBarbados,13.1,-59.6\n');
    await page.setInputFiles('#put', [join(folder, 'west.csv'), GFS, SAMPLE[2]!, SAMPLE[3]!]);
    await isReady();
    expect(await page.inputValue('#departure')).toBe('2018-10-06T18:00');
    await page.click('#plan');
    await says(/^breaks off/);
    const plan = JSON.parse((await taken('plan.json')).toString()) as PlanFile;
    expect([plan.complete, plan.reason]).toEqual([false, 'forecast-ended']);
    expect(await page.textContent('#answer .status')).toMatch(/PLAN INCOMPLETE/);
    expect(await (await report()).textContent('.caution')).toMatch(/^PLAN INCOMPLETE/);
  });

  test('a forecast of 60 MB: the page shows how far it is, answers meanwhile and lets go when it is told to', async () => {
    const path = join(folder, 'large.csv');
    largeForecast(path, 60e6);
    await page.setInputFiles('#put', path);
    // Under way, and the page is alive: what is asked of it is done before the file is read.
    await page.waitForFunction(() => {
      const { value, position } = document.querySelector<HTMLProgressElement>('#progress')!;
      return position > 0 && value < 0.8;
    });
    await page.click('summary:text-is("Edit the boat file")');
    expect(await page.isVisible('#boat-text')).toBe(true);
    expect(await page.isVisible('#progress')).toBe(true);
    await page.click('#stop');
    expect(await status()).toBe('Stopped.');
    expect(await page.isHidden('#progress')).toBe(true);
    // Once more to its end.
    await page.setInputFiles('#put', [path, SAMPLE[0]!, SAMPLE[2]!, SAMPLE[3]!]);
    await isReady();
    expect(await page.textContent('.files')).toContain('large.csv');
  }, 180_000);

  test.each([
    ['phone', 390, 'light'],
    ['tablet', 820, 'dark'],
    ['desk', 1400, 'light'],
    ['desk', 1400, 'dark'],
  ] as const)(
    'on a %s of %i, %s: nothing runs out of the page, and axe finds nothing',
    async (_, width, colorScheme) => {
      await page.setViewportSize({ width, height: 844 });
      await page.emulateMedia({ colorScheme });
      await page.click('#sample');
      await isReady();
      await page.check('#compare');
      await page.uncheck('input[name=sail-1][value=vented]');
      await page.click('#plan');
      await says(/Wardrobe B/);
      const frame = await report();
      const over = (place: Page | Frame) =>
        place.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
      expect(await over(page)).toBe(0);
      expect(await over(frame)).toBe(0);
      expect(await axeIn(page)).toEqual([]);
      expect(await axeIn(frame)).toEqual([]);
      const shown = width < 640 ? 'narrow' : 'wide';
      expect(await frame.isVisible(`#timeline svg.${shown}`)).toBe(true);
      expect(await frame.isHidden(`#timeline svg.${shown === 'wide' ? 'narrow' : 'wide'}`)).toBe(true);
    },
  );

  test('on a phone all that is pressed is large enough for a finger, and the frame follows its report', async () => {
    await page.setViewportSize({ width: 390, height: 844 });
    await page.click('#sample');
    await isReady();
    await page.check('#compare');
    await page.click('#plan');
    await says(/Wardrobe B/);
    const frame = await report();
    const pressed = await page.$$eval(
      'button, select, summary, textarea, label.tick, a, input:not([type=checkbox], [type=radio])',
      (all) =>
        all
          .filter((one) => one.checkVisibility())
          .map((one) => [one.outerHTML.slice(0, 80), one.getBoundingClientRect().height] as const),
    );
    expect(pressed.length).toBeGreaterThan(50);
    expect(pressed.filter(([, high]) => high < 44)).toEqual([]);
    const room = () => frame.evaluate(() => innerHeight - document.body.getBoundingClientRect().height);
    for (const width of [390, 1400, 390]) {
      await page.setViewportSize({ width, height: 844 });
      await expect.poll(async () => Math.abs((await room()) - 4)).toBeLessThan(3);
    }
  });

  test('nothing complained, and nothing was asked of anyone else', () => {
    expect(complaints).toEqual([]);
    expect(requests.filter((url) => !url.startsWith(served!.url) && !url.startsWith('blob:'))).toEqual([]);
    expect(requests.length).toBeGreaterThan(20);
  });
});
