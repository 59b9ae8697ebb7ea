import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Field, type Forecast, type Grid, readForecast, weatherAt } from '../src/index.js';
import { forecastOf, T0 } from './support/synthetic.js';

const FIELDS: readonly Field[] = [
  'windEastKn',
  'windNorthKn',
  'gustKn',
  'currentEastKn',
  'currentNorthKn',
  'waveHeightM',
];

/** Rising numbers with uneven steps. */
const axis = (from: number, min: number, max: number) =>
  fc
    .array(fc.double({ min, max, noNaN: true }), { minLength: 1, maxLength: 5 })
    .map((steps) => [from, ...steps].map((_, i) => from + steps.slice(0, i).reduce((sum, step) => sum + step, 0)));

const HOUR = 3600;
const place = fc.tuple(
  fc.double({ min: 0, max: 1, noNaN: true }),
  fc.double({ min: 0, max: 1, noNaN: true }),
  fc.double({ min: 0, max: 1, noNaN: true }),
);
const within = (values: readonly number[], share: number) => values[0]! + (values.at(-1)! - values[0]!) * share;

describe('sampling', () => {
  test('a field linear in place and time comes back to Float32', () => {
    fc.assert(
      fc.property(
        axis(T0, HOUR, 12 * HOUR),
        axis(-20, 0.5, 3),
        axis(170, 0.5, 3),
        place,
        fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: 4, maxLength: 4 }),
        (times, lats, lons, [a, b, c], [k0, kLat, kLon, kTime]) => {
          const linear = (lat: number, lon: number, time: number) =>
            20 + k0! + kLat! * (lat + 20) + kLon! * (lon - 170) + (kTime! * (time - T0)) / (6 * HOUR);
          const forecast = forecastOf(times, lats, lons, (lat, lon, time) => ({
            windEastKn: linear(lat, lon, time),
            windNorthKn: -linear(lat, lon, time),
          }));
          const [lat, lon, time] = [within(lats, a), within(lons, b), within(times, c)];
          const wind = weatherAt(forecast)(lat, lon, time)!.wind;
          // Float32 holds 24 bits: half an ulp of the largest value around, once for each corner that is read.
          const tolerance = 4 * 64 * 2 ** -24;
          expect(Math.abs(wind.eastKn - linear(lat, lon, time))).toBeLessThan(tolerance);
          expect(Math.abs(wind.northKn + linear(lat, lon, time))).toBeLessThan(tolerance);
        },
      ),
      { numRuns: 300 },
    );
  });

  test('an independent implementation agrees on random grids with holes', () => {
    const value = fc.oneof(
      { weight: 4, arbitrary: fc.double({ min: -40, max: 40, noNaN: true }) },
      { weight: 1, arbitrary: fc.constant(Number.NaN) },
    );
    fc.assert(
      fc.property(
        axis(T0, HOUR, 20 * HOUR),
        axis(-10, 0.5, 3),
        axis(-179, 0.5, 3),
        place,
        fc.array(value, { minLength: 36, maxLength: 36 }),
        (times, lats, lons, [a, b, c], pool) => {
          let next = 0;
          const forecast = forecastOf(times, lats, lons, () => {
            const wind = pool[next++ % pool.length]!;
            return { windEastKn: wind, windNorthKn: wind / 2 };
          });
          const [lat, lon, time] = [within(lats, a), within(lons, b), within(times, c)];
          const ours = weatherAt(forecast)(lat, lon, time)?.wind.eastKn;
          const theirs = plainSample(forecast.grids[0]!, 'windEastKn', lat, lon, time, 12 * HOUR);
          if (theirs === undefined) expect(ours).toBeUndefined();
          else expect(ours).toBeCloseTo(theirs, 9);
        },
      ),
      { numRuns: 1500 },
    );
  });

  test('outside the grid or its times there is no weather', () => {
    const forecast = forecastOf([T0, T0 + 6 * HOUR], [10, 12], [-50, -48], () => ({ windEastKn: 1, windNorthKn: 1 }));
    const at = weatherAt(forecast);
    expect(at(11, -49, T0)).toBeDefined();
    expect(at(9.99, -49, T0)).toBeUndefined();
    expect(at(11, -47.99, T0)).toBeUndefined();
    expect(at(11, -49, T0 - 1)).toBeUndefined();
    expect(at(11, -49, T0 + 6 * HOUR)).toBeDefined();
    expect(at(11, -49, T0 + 6 * HOUR + 1)).toBeUndefined();
  });

  test('a gap of 12 h is bridged and said, a longer one is not', () => {
    const times = [0, 3, 6, 9, 21, 24, 27, 30, 43, 46, 49].map((hours) => T0 + hours * HOUR);
    const forecast = forecastOf(times, [10, 12], [-50, -48], (_lat, _lon, time) => ({
      windEastKn: (time - T0) / HOUR,
      windNorthKn: 0,
    }));
    const at = weatherAt(forecast);
    expect(at(11, -49, T0 + 15 * HOUR)).toMatchObject({
      wind: { eastKn: 15 },
      bridged: { fromEpochSeconds: T0 + 9 * HOUR, toEpochSeconds: T0 + 21 * HOUR },
    });
    expect(at(11, -49, T0 + 4 * HOUR)?.bridged).toBeUndefined();
    expect(at(11, -49, T0 + 31 * HOUR)).toBeUndefined();
    expect(at(11, -49, T0 + 43 * HOUR)?.wind.eastKn).toBe(43);
    expect(weatherAt(forecast, 13)(11, -49, T0 + 31 * HOUR)?.wind.eastKn).toBeCloseTo(31, 5);
  });

  test('steps that change for good are no gap', () => {
    const times = [0, 3, 6, 9, 12, 18, 24, 30, 36, 42].map((hours) => T0 + hours * HOUR);
    const forecast = forecastOf(times, [10, 12], [-50, -48], () => ({ windEastKn: 1, windNorthKn: 1 }));
    expect(weatherAt(forecast)(11, -49, T0 + 15 * HOUR)?.bridged).toBeUndefined();
  });

  test('a global grid wraps, and the date line is no edge', () => {
    const lons = Array.from({ length: 36 }, (_, i) => -180 + i * 10);
    const forecast = forecastOf([T0, T0 + HOUR], [0, 10], lons, (_lat, lon) => ({
      windEastKn: Math.abs(lon),
      windNorthKn: 0,
    }));
    const wrapped: Forecast = { ...forecast, grids: forecast.grids.map((grid) => ({ ...grid, wraps: true })) };
    expect(weatherAt(wrapped)(5, 175, T0)?.wind.eastKn).toBeCloseTo(175, 4);
    expect(weatherAt(forecast)(5, 175, T0)).toBeUndefined();
    const pacific = forecastOf([T0, T0 + HOUR], [0, 10], [170, 180, 190], (_lat, lon) => ({
      windEastKn: lon,
      windNorthKn: 0,
    }));
    expect(weatherAt(pacific)(5, -175, T0)?.wind.eastKn).toBeCloseTo(185, 4);
    expect(weatherAt(pacific)(5, 175, T0)?.wind.eastKn).toBeCloseTo(175, 4);
    expect(weatherAt(pacific)(5, -169, T0)).toBeUndefined();
  });
});

describe('reading', () => {
  const rows: string[] = [];
  for (const time of ['2027-03-01T00:00Z', '2027-03-01T06:00Z', '2027-03-01T09:00Z']) {
    for (const lat of [20, 17.5, 16]) {
      for (const lon of [355, 358, 0, 1]) {
        if (lat === 16 && lon === 0) continue;
        const wave = time.endsWith('06:00Z') ? 'NaN' : `${lat / 10}`;
        rows.push([time, lat, lon, (lat - lon / 100).toFixed(2), -3.5, 9, 0.1, -0.2, wave].join(','));
      }
    }
  }
  const header = 'time,lat,lon,u10,v10,gust,current_u,current_v,wave_height';
  const read = async (body: readonly string[]) => {
    const text = `${[header, ...body].join('\n')}\n`;
    return (await readForecast({ name: 'f.csv', open: () => [text] })).forecast;
  };

  test('axes rise, absent points are NaN, fields with times of their own get a grid of their own', async () => {
    const { grids } = await read(rows);
    const wind = grids.find((grid) => grid.fields.windEastKn !== undefined)!;
    const wave = grids.find((grid) => grid.fields.waveHeightM !== undefined)!;
    expect([...wind.lats]).toEqual([16, 17.5, 20]);
    expect([...wind.lons]).toEqual([-5, -2, 0, 1]);
    expect(wind.epochSeconds.length).toBe(3);
    expect(wave.epochSeconds.length).toBe(2);
    expect(wind.fields.windEastKn![2]).toBeNaN();
    expect(wind.fields.windEastKn![0]).toBeCloseTo((16 - 3.55) * (3600 / 1852), 4);
    const between = weatherAt({ file: '', grids })(18, -3, Date.UTC(2027, 2, 1, 6) / 1000)!;
    expect(between.waveHeightM).toBeCloseTo(1.8, 5);
    expect(between.gustKn).toBeCloseTo(9 * (3600 / 1852), 4);
  });

  test('row order never matters', async () => {
    const once = await read(rows);
    await fc.assert(
      fc.asyncProperty(fc.shuffledSubarray(rows, { minLength: rows.length }), async (shuffled) => {
        expect(await read(shuffled)).toEqual(once);
      }),
      { numRuns: 50 },
    );
  });

  test('however the bytes are cut, the grid is the same', async () => {
    const once = await read(rows);
    const bytes = new TextEncoder().encode(`\uFEFF${[header, ...rows].join('\r\n')}\r\n`);
    await fc.assert(
      fc.asyncProperty(fc.integer({ min: 1, max: 200 }), async (size) => {
        const chunks = Array.from({ length: Math.ceil(bytes.length / size) }, (_, i) =>
          bytes.subarray(i * size, (i + 1) * size),
        );
        expect((await readForecast({ name: 'f.csv', open: () => chunks })).forecast).toEqual(once);
      }),
      { numRuns: 40 },
    );
  });

  test('the crop keeps a cell more than it needs, also of a coarse grid', async () => {
    const lines = ['time,lat,lon,u10,v10'];
    for (const time of ['2027-03-01T00:00Z', '2027-03-01T06:00Z']) {
      for (let lat = -80; lat <= 80; lat += 8)
        for (let lon = 0; lon < 360; lon += 10)
          lines.push(`${time},${lat},${lon},${lat},${lon}`.replace(/,(\d+)$/, ',5'));
    }
    const box = { latMinDeg: 10, latMaxDeg: 20, lonWestDeg: 175, lonWidthDeg: 10 };
    const asked: number[] = [];
    const crop = (marginDeg: number) => {
      asked.push(marginDeg);
      return {
        latMinDeg: box.latMinDeg - marginDeg,
        latMaxDeg: box.latMaxDeg + marginDeg,
        lonWestDeg: box.lonWestDeg - marginDeg,
        lonWidthDeg: box.lonWidthDeg + 2 * marginDeg,
      };
    };
    const { forecast } = await readForecast({ name: 'f.csv', open: () => [`${lines.join('\n')}\n`] }, { crop });
    expect(asked).toEqual([5, 10.1]);
    const [grid] = forecast.grids;
    expect([...grid!.lats]).toEqual([0, 8, 16, 24]);
    expect([...grid!.lons]).toEqual([170, 180, 190]);
    const at = weatherAt(forecast);
    expect(at(12, 178, Date.UTC(2027, 2, 1) / 1000)?.wind.eastKn).toBeCloseTo(12 * (3600 / 1852), 4);
    expect(forecast.covers).toMatchObject({ latMinDeg: -80, latMaxDeg: 80 });
  });

  test('wind and current by speed and direction become components, and units are turned to knots', async () => {
    const text = [
      'time,lat,lon,wind_speed_kmh,wind_from_direction,gust_kn,current_speed_kn,current_to_direction,wave_height_ft,wave_from_direction',
      '2027-03-01T00:00Z,10,20,37.04,90,25,1.5,180,10,350',
      '2027-03-01T00:00Z,10,21,0,,25,0,,10,10',
      '2027-03-01T03:00Z,10,20,37.04,90,25,1.5,180,10,350',
      '2027-03-01T03:00Z,10,21,37.04,90,25,1.5,180,10,10',
    ].join('\n');
    const { forecast } = await readForecast({ name: 'f.csv', open: () => [text] });
    const at = weatherAt(forecast);
    const weather = at(10, 20, Date.UTC(2027, 2, 1) / 1000)!;
    expect(weather.wind.eastKn).toBeCloseTo(-20, 5);
    expect(weather.wind.northKn).toBeCloseTo(0, 5);
    expect(weather.current!.northKn).toBeCloseTo(-1.5, 6);
    expect(weather.waveHeightM).toBeCloseTo(3.048, 5);
    expect(at(10, 21, Date.UTC(2027, 2, 1) / 1000)?.wind).toEqual({ eastKn: 0, northKn: 0 });
    // Half-way between 350 and 10 the waves come from the north, not from the south.
    const between = at(10, 20.5, Date.UTC(2027, 2, 1) / 1000)!.waveFromDeg!;
    expect(Math.min(between, 360 - between)).toBeLessThan(1e-4);
  });
});

/** The rule of sampling written again as plainly as can be, with searches instead of cells and objects instead of arrays. */
function plainSample(
  grid: Grid,
  field: Field,
  lat: number,
  lon: number,
  time: number,
  maxGap: number,
): number | undefined {
  const bracket = (values: Float64Array, value: number) => {
    const all = [...values];
    const below = all.filter((x) => x <= value).length - 1;
    if (below < 0 || value > all.at(-1)!) return undefined;
    const above = Math.min(below + 1, all.length - 1);
    return { below, above, share: above === below ? 0 : (value - all[below]!) / (all[above]! - all[below]!) };
  };
  const [t, y, x] = [bracket(grid.epochSeconds, time), bracket(grid.lats, lat), bracket(grid.lons, lon)];
  if (t === undefined || y === undefined || x === undefined) return undefined;
  if (t.share > 0 && grid.epochSeconds[t.above]! - grid.epochSeconds[t.below]! > maxGap) return undefined;
  const atTime = (i: number) => {
    const corners = [
      { weight: (1 - y.share) * (1 - x.share), row: y.below, column: x.below },
      { weight: (1 - y.share) * x.share, row: y.below, column: x.above },
      { weight: y.share * (1 - x.share), row: y.above, column: x.below },
      { weight: y.share * x.share, row: y.above, column: x.above },
    ].map((corner) => ({
      ...corner,
      value: grid.fields[field]![(i * grid.lats.length + corner.row) * grid.lons.length + corner.column]!,
    }));
    const used = corners.filter((corner) => corner.weight > 0);
    const present = used.filter((corner) => !Number.isNaN(corner.value));
    const heaviest = Math.max(...used.map((corner) => corner.weight));
    if (!present.some((corner) => corner.weight >= heaviest - 1e-9)) return undefined;
    return present.reduce((sum, c) => sum + c.weight * c.value, 0) / present.reduce((sum, c) => sum + c.weight, 0);
  };
  const first = atTime(t.below);
  if (t.share === 0) return first;
  const second = atTime(t.above);
  return first === undefined || second === undefined ? undefined : first * (1 - t.share) + second * t.share;
}

test('every field of a row reaches its own array', () => {
  const values = Object.fromEntries(FIELDS.map((field, i) => [field, i + 1]));
  const forecast = forecastOf([T0, T0 + HOUR], [10, 12], [-50, -48], () => values);
  expect(weatherAt(forecast)(11, -49, T0)).toEqual({
    wind: { eastKn: 1, northKn: 2 },
    gustKn: 3,
    current: { eastKn: 4, northKn: 5 },
    waveHeightM: 6,
  });
});
