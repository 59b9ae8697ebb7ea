import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { run } from '../src/cli/cli.js';
import { readForecast, weatherAt } from '../src/index.js';
import cells from './truth/gfs-cells.json' with { type: 'json' };

const GFS = '../shared/data/gfs1p0_atlantic_trades_20181006_3h.csv';
const isHere = existsSync(GFS);
if (!isHere) console.warn(`skipped: the tests on real wind, because ${GFS} is not here`);

const folder = mkdtempSync(join(tmpdir(), 'windwardrobe-'));
afterAll(() => rmSync(folder, { recursive: true }));

describe.skipIf(!isHere)('real wind: a global model over the Atlantic, October 2018', () => {
  let code = -1;
  let printed = '';
  beforeAll(async () => {
    const { writeFileSync } = await import('node:fs');
    writeFileSync(join(folder, 'route.csv'), "name,lat,lon\nCape Verde,16.9,-25.0\nBarbados,13°06.0'N,59°36.0'W\n");
    const args = ['plan', '--route', join(folder, 'route.csv'), '--forecast', GFS, '--boat', 'data-samples/boat.json'];
    code = await run([...args, '--depart', '2018-10-06T20:00Z', '--out', join(folder, 'out')], {
      out: (text) => {
        printed += text;
      },
      error: (text) => {
        printed += text;
      },
      isTerminal: false,
    });
  });

  test('the passage ends at Barbados or where the forecast does', () => {
    const plan = JSON.parse(readFileSync(join(folder, 'out', 'plan.json'), 'utf8'));
    if (code === 0) {
      expect(plan.complete).toBe(true);
      expect(plan.totals.distanceNm).toBeCloseTo(2017.9, 0);
    } else {
      expect(code).toBe(3);
      expect(plan).toMatchObject({ complete: false, reason: 'forecast-ended', end: '2018-10-16T21:00:00Z' });
      expect(printed.split('\n')[0]).toMatch(/^PLAN INCOMPLETE: the forecast ends before the passage does/);
      expect(Date.parse(plan.totals.arrivalEstimate)).toBeGreaterThan(Date.parse(plan.end));
      expect(plan.hours.length).toBe(241);
    }
    // A cruising catamaran's day's runs on a trade-wind crossing: 145 to 194 Nm, one owner's table.
    expect((plan.totals.distanceNm / plan.totals.hours) * 24).toBeGreaterThan(120);
    expect((plan.totals.distanceNm / plan.totals.hours) * 24).toBeLessThan(200);
  });

  test('the 9-hour gap is bridged and said', () => {
    expect(printed).toContain('a gap of 9 h, from 2018-10-10T15:00:00Z to 2018-10-11T00:00:00Z');
    const plan = JSON.parse(readFileSync(join(folder, 'out', 'plan.json'), 'utf8'));
    const bridged = plan.hours
      .filter((hour: { bridged: boolean }) => hour.bridged)
      .map((hour: { time: string }) => hour.time);
    expect(bridged[0]).toBe('2018-10-10T16:00:00Z');
    expect(bridged.at(-1)).toBe('2018-10-10T23:00:00Z');
    expect(bridged.length).toBe(8);
  });

  test('cells transcribed from the file come back at their points, and the mean of two half-way', async () => {
    const { forecast } = await readForecast({ name: 'gfs.csv', open: () => [readFileSync(GFS, 'utf8')] });
    const at = weatherAt(forecast);
    for (const { time, lat, lon, u10, v10 } of cells.cells) {
      const { wind } = at(lat, lon, Date.parse(time) / 1000)!;
      expect(wind.eastKn).toBeCloseTo((u10 * 3600) / 1852, 4);
      expect(wind.northKn).toBeCloseTo((v10 * 3600) / 1852, 4);
    }
    const [a, b] = [cells.cells[0]!, cells.cells[1]!];
    const between = at((a.lat + b.lat) / 2, (a.lon + b.lon) / 2, Date.parse(a.time) / 1000)!.wind;
    expect(between.eastKn).toBeCloseTo((((a.u10 + b.u10) / 2) * 3600) / 1852, 4);
  });
});
