import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { planPassage, readBoat, readPolars, sailingBetween, totalsOf } from '../src/index.js';
import { loadInputs } from '../src/node/node.js';
import { everyHours, forecastOf, LATS, LONS, steadyWind } from './support/synthetic.js';

const SAMPLE = {
  route: 'data-samples/route.csv',
  forecast: 'data-samples/forecast.csv',
  boat: 'data-samples/boat.json',
};
const folder = mkdtempSync(join(tmpdir(), 'windwardrobe-'));
afterAll(() => rmSync(folder, { recursive: true }));

describe('the sample', () => {
  test('is what its generator writes', () => {
    execFileSync('node', ['data-samples/generate.mjs', folder]);
    for (const file of ['forecast.csv', 'climatology.csv', 'polars.csv', 'monohull-polars.csv']) {
      expect(readFileSync(join(folder, file), 'utf8')).toBe(readFileSync(`data-samples/${file}`, 'utf8'));
    }
  });

  test('in light wind under engine: the fuel is kept, and at no change does the next best reckon better', async () => {
    const { inputs } = await loadInputs(SAMPLE);
    const house = { motorBelowKn: 4 };
    const passage = planPassage(inputs, { departure: '2027-01-11T12:00Z', labels: 1, windFactor: 0.5, house });
    const { fuelLitres, reserveLitres = 0 } = inputs.boat.engine!;
    const totals = totalsOf(passage, inputs.boat);
    expect(totals.motorHours).toBeGreaterThan(24);
    expect(totals.fuelLitres).toBeLessThanOrEqual(fuelLitres - reserveLitres);
    expect(passage.curve!.filter(({ chosen }) => chosen)).toMatchObject([{ changes: totals.sailChanges }]);
    for (const { time, runnerUp } of passage.changes!)
      expect(runnerUp?.costMinutes ?? 0, time).toBeGreaterThanOrEqual(0);
  });

  test('is a trade-wind crossing of more than 2,500 Nm and 13 days, in 24 days of forecast of less than 2 MB', async () => {
    const { inputs, warnings } = await loadInputs(SAMPLE);
    expect(warnings).toEqual([]);
    const passage = planPassage(inputs, { departure: '2027-01-11T12:00Z', choice: 'fastest' });
    const totals = totalsOf(passage, inputs.boat);
    expect(passage.complete).toBe(true);
    expect(passage.warnings.map(({ code }) => code)).toEqual(['arrival-dark']);
    expect(totals.distanceNm).toBeGreaterThan(2500);
    expect(totals.hours).toBeGreaterThan(13 * 24);
    const { fromEpochSeconds, toEpochSeconds } = inputs.forecast!.covers!;
    expect((toEpochSeconds - fromEpochSeconds) / 86400).toBe(24);
    expect(readFileSync(SAMPLE.forecast).length).toBeLessThan(2_000_000);
    expect(inputs.boat.sails.filter((sail) => sail.clothOf === undefined).length).toBe(8);
    expect(inputs.boat.sailPlans.length).toBeGreaterThanOrEqual(12);
    // Trades of 12 to 24 kn for most of it, a lull and a squally spell within.
    const tws = passage.hours.map((hour) => hour.twsKn);
    expect(tws.filter((kn) => kn >= 12 && kn <= 24.5).length / tws.length).toBeGreaterThan(0.7);
    expect(Math.min(...tws)).toBeLessThan(8);
    expect(Math.max(...passage.hours.map((hour) => hour.gustKn / hour.twsKn))).toBeGreaterThan(1.6);
    expect(
      passage.hours.every((hour) => hour.driftKn !== null && hour.waveHeightM !== null && hour.gustFrom === 'forecast'),
    ).toBe(true);
  });

  test('the sample boat sails on at TWA 60 in 28 kn true', () => {
    const boat = readBoat(readFileSync(SAMPLE.boat, 'utf8'));
    const polars = readPolars(readFileSync('data-samples/polars.csv', 'utf8'), { boat });
    const [from, to] = [
      { latDeg: 12, lonDeg: -50 },
      { latDeg: 18, lonDeg: -50 },
    ];
    expect(sailingBetween(from, to, 'rhumb').courseDeg).toBe(0);
    const [hour] = planPassage(
      {
        route: {
          waypoints: [
            { name: 'A', ...from },
            { name: 'B', ...to },
          ],
        },
        forecast: forecastOf(everyHours(6, 3), LATS, LONS, steadyWind(28, 60)),
        boat,
        polars,
      },
      { departure: '2027-03-01T00:00Z' },
    ).hours;
    expect(hour!.sailPlan).not.toBeNull();
    expect(hour!.manner).toBe('direct');
    expect(hour!.twaDeg).toBeCloseTo(60, 3);
    expect(hour!.twsKn).toBeCloseTo(28, 3);
    expect(hour!.smgKn).toBeGreaterThan(5);
  });
});
