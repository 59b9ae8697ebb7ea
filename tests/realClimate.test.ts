import { createReadStream, existsSync, readFileSync } from 'node:fs';
import { beforeAll, describe, expect, test } from 'vitest';
import {
  boatWith,
  type Climatology,
  describeClimatology,
  drawnFrom,
  estimatePolars,
  type Forecast,
  planPassage,
  readBoat,
  readClimatology,
  readPolars,
  readRoute,
  startsOf,
  studySailer,
  totalsOf,
  weatherAt,
} from '../src/index.js';
import { fromDirectionOf, speedOf } from '../src/wind/wind.js';
import { middle } from './support/monthly.js';
import { T0 } from './support/synthetic.js';
import coads from './truth/coads-cells.json' with { type: 'json' };
import { expectNear, expectNearDeg, fixture } from './truth/fixture.js';

/** Knots in a metre a second: 3600 s in an hour, 1852 m in a nautical mile. */
const KN = 3600 / 1852;
const NO_FORECAST: Forecast = { file: 'none', grids: [] };

const COADS = '../shared/data/coads_climatology_monthly_global_2deg.csv';
const isHere = existsSync(COADS);
if (!isHere) console.warn(`skipped: the tests on a real climatology, because ${COADS} is not here`);

describe('a real climatology: ship observations by month', () => {
  const truth = fixture('coads-cells.json', coads);
  let climatology: Climatology;
  beforeAll(async () => {
    if (isHere) ({ climatology } = await readClimatology({ name: 'coads.csv', open: () => createReadStream(COADS) }));
  });

  truth.each(
    'cells',
    'mean vector, speed and steadiness',
    ({ month, lat, lon, wspd, vectorKn, fromDeg, steadiness }) => {
      if (!isHere) return;
      const weather = weatherAt(NO_FORECAST, 12, climatology)(lat, lon, middle(2027, month))!;
      expectNear(speedOf(weather.wind), wspd * KN, 1e-4, 'speed');
      // Rounded to four and five places; the grid holds 32-bit numbers.
      expectNear(weather.steadiness!, steadiness, 1e-5, 'steadiness');
      expectNear(weather.steadiness! * speedOf(weather.wind), vectorKn, 1e-4, 'vector');
      expectNearDeg(fromDirectionOf(weather.wind)!, fromDeg, 1e-3, 'from');
    },
  );

  truth.each('belt', 'within the bands', ({ month, latDeg, lonDeg, fromDeg, meanKn, steadiness }) => {
    if (!isHere) return;
    const { lats, lons, windEastKn, windNorthKn, meanSpeedKn } = climatology;
    let [east, north, speed, cells] = [0, 0, 0, 0];
    lats.forEach((lat, y) => {
      lons.forEach((lon, x) => {
        const cell = ((month - 1) * lats.length + y) * lons.length + x;
        if (lat < latDeg[0]! || lat > latDeg[1]! || lon < lonDeg[0]! || lon > lonDeg[1]!) return;
        east += windEastKn[cell]!;
        north += windNorthKn[cell]!;
        speed += meanSpeedKn[cell]!;
        cells += 1;
      });
    });
    expect(cells).toBe(30);
    const inBand = (value: number, [low, high]: readonly number[], what: string) => {
      expect(value, what).toBeGreaterThanOrEqual(low!);
      expect(value, what).toBeLessThanOrEqual(high!);
    };
    inBand(speed / cells, meanKn, 'kn');
    inBand(fromDirectionOf({ eastKn: east, northKn: north })!, fromDeg, 'from');
    inBand(Math.hypot(east, north) / speed, steadiness, 'steadiness');
  });

  test.skipIf(!isHere)('it goes round the globe, with voids over land', () => {
    expect(climatology.wraps).toBe(true);
    expect([climatology.lats.length, climatology.lons.length]).toEqual([66, 180]);
    expect(describeClimatology(climatology)).toMatchObject({ cells: 99096, withoutSpread: 736 });
    const at = weatherAt(NO_FORECAST, 12, climatology);
    expect(at(45, 5, T0)).toBeUndefined();
    expect(at(-15, 180, T0)).toBeDefined();
    expect(at(-15, -179.9, T0)).toBeDefined();
  });

  /** Canaries to Barbados by the sample's boat, on the first of each month. */
  test.skipIf(!isHere)('when to go: the trade-wind crossing in every month of a year', () => {
    const boat = readBoat(readFileSync('data-samples/boat.json', 'utf8'));
    const polars = readPolars(readFileSync('data-samples/polars.csv', 'utf8'), { boat });
    const route = readRoute('name,lat,lon\nCanaries,27.9,-15.8\nBarbados,13.1,-59.5\n');
    const byMonth = Array.from({ length: 12 }, (_, i) => {
      const departure = `2027-${`${i + 1}`.padStart(2, '0')}-01T12:00Z`;
      const passage = planPassage({ route, boat, polars, climatology }, { departure });
      const totals = totalsOf(passage, boat);
      const steady = passage.hours.map(({ steadiness }) => steadiness!);
      return {
        passage,
        totals,
        steadiness: steady.reduce((sum, one) => sum + one, 0) / steady.length,
        unsteady: steady.filter((one) => one < 0.7).length,
      };
    });
    const ids = boat.sails
      .map(({ id }) => id)
      .filter((id) => byMonth.some(({ totals }) => totals.sails.some((sail) => sail.id === id && sail.hours > 0)));
    console.log(
      [
        `month  days  steadiness  unsteady h  ${ids.join('  ')}`,
        ...byMonth.map(({ totals, steadiness, unsteady }, i) =>
          [
            i + 1,
            (totals.hours / 24).toFixed(1),
            steadiness.toFixed(2),
            unsteady,
            ...ids.map((id) => totals.sails.find((sail) => sail.id === id)!.hours.toFixed(0)),
          ].join('  '),
        ),
      ].join('\n'),
    );
    for (const { passage, totals, steadiness } of byMonth) {
      expect(passage).toMatchObject({ complete: true });
      expect(passage.hours.every(({ weather }) => weather === 'climatology')).toBe(true);
      expect(totals.hours).toBeGreaterThan(12 * 24);
      expect(totals.hours).toBeLessThan(30 * 24);
      expect(steadiness).toBeLessThanOrEqual(1);
    }
    // The belt's steadiest trades are 10 to 25 N (Maury 1864, sec. 813); the winter's way leads through the gap west of the Canaries.
    const [january, july] = [byMonth[0]!, byMonth[6]!];
    for (const { passage } of [january, july]) {
      const belt = passage.hours.filter(({ latDeg, lonDeg }) => latDeg < 20 && lonDeg < -40);
      expect(belt.length).toBeGreaterThan(50);
      for (const hour of belt) expect(hour.steadiness, hour.time).toBeGreaterThan(0.7);
    }
    expect(july.steadiness).toBeGreaterThan(january.steadiness);
  });

  /** docs/worth.md: the last three columns of its table by month are those of the first drawing. */
  test.skipIf(!isHere)('the worked example of a vented sail through a year', () => {
    const boat = readBoat(readFileSync('data-samples/no-downwind.json', 'utf8'));
    const polars = estimatePolars(boat);
    const vented = boatWith(boat, polars, { kind: 'vented-downwind', areaM2: 140 });
    const starts = startsOf(Date.UTC(2027, 0, 15, 12) / 1000, Date.UTC(2027, 11, 16, 12) / 1000, 730.5);
    const drawn = drawnFrom(climatology, { seed: 1, fromEpochSeconds: Date.UTC(2027, 0, 15, 12) / 1000 });
    const sail = studySailer({
      routes: [{ name: 'route', route: readRoute(readFileSync('data-samples/route.csv', 'utf8')) }],
      boats: [
        { name: 'without', boat, polars },
        { name: 'with', boat: vented.boat, polars: vented.polars },
      ],
      weathers: [{ name: 'drawing 1', draw: 1, weather: { climatology: drawn } }],
      starts,
      options: { labels: 1 },
    });
    const rows = readFileSync('docs/worth.md', 'utf8')
      .split('\n')
      .filter((line) =>
        /^\| (January|February|March|April|May|June|July|August|September|October|November|December) /.test(line),
      )
      .map((line) => line.split('|').slice(-4, -1).map(Number));
    expect(rows).toHaveLength(12);
    const sailed = starts.map((_, n) => {
      const [a, b] = [sail(n), sail(n + 12)];
      return [a.hours, b.hours, b.sails.find(({ id }) => id === vented.sail)!.hours];
    });
    sailed.forEach((hours, month) => {
      hours.forEach((value, i) => {
        expectNear(value, rows[month]![i]!, 0.051, `month ${month + 1}`);
      });
    });
  });
});
