import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { planPassage, readBoat, readPolars, readRoute, totalsOf } from '../src/index.js';
import { loadInputs } from '../src/node/node.js';
import { everyHours, forecastOf, LATS, LONS, steadyWind } from './support/synthetic.js';

const PATHS = {
  route: 'data-samples/route.csv',
  forecast: 'data-samples/forecast.csv',
  boat: 'data-samples/monohull.json',
};
const DEPARTURE = { departure: '2027-01-11T12:00Z', choice: 'fastest' } as const;
const boat = readBoat(readFileSync(PATHS.boat, 'utf8'));
const polars = readPolars(readFileSync('data-samples/monohull-polars.csv', 'utf8'), { boat });

describe('a catamaran of kinds alone', () => {
  test('plans the sample with the plainest polars', async () => {
    const kinds = ['full-roach-main', 'self-tacking-jib', 'code-zero', 'vented-downwind', 'storm-jib', 'trysail'];
    const text = JSON.stringify({
      name: 'Kinds',
      hull: { type: 'catamaran' },
      sails: kinds.map((kind) => ({ id: kind, kind })),
    });
    const plain = readBoat(text);
    // 5 kn, and a tenth of a knot more for each sail of a plan: whatever may be carried is sailed.
    const rows = plain.sailPlans.flatMap(({ id, sails }) =>
      [4, 60].flatMap((tws) => [35, 180].map((twa) => `${id},${tws},${twa},${5 + sails.length / 10}`)),
    );
    const speeds = readPolars(`sail_plan,tws_kn,twa_deg,stw_kn\n${rows.join('\n')}\n`, { boat: plain });
    const { inputs } = await loadInputs({ ...PATHS, boat: 'data-samples/boat.json' });
    const passage = planPassage({ ...inputs, boat: plain, polars: speeds }, DEPARTURE);
    const totals = totalsOf(passage, plain);
    expect(passage.complete).toBe(true);
    expect(totals.hoveToHours).toBe(0);
    const flown = totals.sails.filter(({ hours }) => hours > 0).map(({ id }) => id);
    expect(flown).toEqual(expect.arrayContaining(['full-roach-main', 'vented-downwind']));
    expect(totals.sails.find(({ id }) => id === 'vented-downwind')!.nightHours).toBe(0);
  });
});

describe('the monohull of kinds', () => {
  test('her file holds no plan, and no window but one given in part', () => {
    const file = JSON.parse(readFileSync(PATHS.boat, 'utf8')) as { sailPlans?: unknown; sails: { window?: unknown }[] };
    expect(file.sailPlans).toBeUndefined();
    expect(file.sails.filter(({ window }) => window !== undefined)).toHaveLength(1);
    expect(boat.sailPlans.every(({ derived }) => derived === true)).toBe(true);
    expect(Object.keys(polars.plans).sort()).toEqual(boat.sailPlans.map(({ id }) => id).sort());
  });

  test('crosses with genoa, poled-out genoa and gennaker, at the pace of her kind', async () => {
    const { inputs, warnings } = await loadInputs(PATHS);
    expect(warnings).toEqual([]);
    const passage = planPassage(inputs, DEPARTURE);
    const totals = totalsOf(passage, inputs.boat);
    expect(passage.complete).toBe(true);
    expect(passage.warnings.map(({ code }) => code).filter((code) => code !== 'arrival-dark')).toEqual([]);
    // A rally fleet takes 14 to 21 days for 2,700 Nm (Yachting World, as quoted in the reference).
    expect(totals.hours / 24).toBeGreaterThan(14);
    expect(totals.hours / 24).toBeLessThan(21);
    const hoursOf = (id: string) => totals.sails.find((tally) => tally.id === id)!;
    expect(hoursOf('genoa').hours).toBeGreaterThan(200);
    expect(hoursOf('gennaker').hours).toBeGreaterThan(5);
    expect(hoursOf('gennaker').nightHours).toBe(0);
    const winged = totals.sailPlans
      .filter(({ id }) => id.includes('poled-genoa'))
      .reduce((sum, { hours }) => sum + hours, 0);
    expect(winged).toBeGreaterThan(100);
  });

  // TWS, TWA and what a sailor would expect up; steady wind for six hours of a March forenoon.
  test.each([
    [10, 50, /^main\+genoa$/],
    [20, 60, /^main\.[12]\+(genoa\.[12]|staysail)$/],
    [10, 110, /gennaker/],
    [16, 175, /poled-genoa/],
    [30, 60, /^main\.3\+(genoa\.2|staysail)$/],
    [42, 100, /^(trysail|trysail\+storm-jib|storm-jib)$/],
    [60, 170, /^bare-poles$/],
  ])('%d kn at %d degrees: %s', (twsKn, twaDeg, plan) => {
    const route = readRoute('name,lat,lon\nA,12,-50\nB,16,-50\n');
    const forecast = forecastOf(everyHours(6, 3), LATS, LONS, steadyWind(twsKn, twaDeg));
    const [hour] = planPassage(
      { route, forecast, boat, polars },
      { departure: '2027-03-01T12:00Z', choice: 'fastest' },
    ).hours;
    expect(hour!.sailPlan).toMatch(plan);
  });
});
