import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import {
  type Climatology,
  describeClimatology,
  describeFault,
  type Forecast,
  hoursCsv,
  type Passage,
  type PassageInputs,
  planJson,
  planMarkdown,
  planPassage,
  readClimatology,
  totalsOf,
  totalsText,
  weatherAt,
} from '../src/index.js';
import { readPlan } from '../src/node/node.js';
import { isoUtc } from '../src/time.js';
import { fromDirectionOf, speedOf } from '../src/wind/wind.js';
import { ran, rowsOf, workFolder } from './support/command.js';
import { type Mean, MONTHLY, meanFrom, middle, monthly, monthlyCsv } from './support/monthly.js';
import { BOAT as BOAT_FILE, FORECAST, POLARS as POLAR_FILE, ROUTE, TIMES } from './support/small.js';
import { BOAT, everyHours, forecastOf, LATS, LONS, POLARS, steadyWind, T0, WEST } from './support/synthetic.js';
import climate from './truth/climate.json' with { type: 'json' };
import { expectNear, expectNearDeg, fixture } from './truth/fixture.js';

/** Knots in a metre a second: 3600 s in an hour, 1852 m in a nautical mile. */
const KN = 3600 / 1852;
const HOUR = 3600;
const NO_FORECAST: Forecast = { file: 'none', grids: [] };
const atOf = (climatology: Climatology) => weatherAt(NO_FORECAST, 12, climatology);

const readText = (text: string, options = {}) => readClimatology({ name: 'months.csv', open: () => [text] }, options);

describe('reading', () => {
  test('months, points, mean vector and mean speed become knots on a grid', async () => {
    const text = monthlyCsv('u,v,wspd,slp_hpa', (month, lat, lon) => [-month, lat / 10, 12 + lon / 100, 1013]);
    const { climatology, warnings } = await readText(text);
    expect([...climatology.lats]).toEqual([10, 12]);
    expect([...climatology.lons]).toEqual([-62, -60]);
    expect(climatology.wraps).toBe(false);
    let cell = 0;
    for (let month = 1; month <= 12; month += 1) {
      for (const lat of [10, 12]) {
        for (const lon of [-62, -60]) {
          expect(climatology.windEastKn[cell]).toBeCloseTo(-month * KN, 4);
          expect(climatology.windNorthKn[cell]).toBeCloseTo((lat / 10) * KN, 5);
          expect(climatology.meanSpeedKn[cell]).toBeCloseTo((12 + lon / 100) * KN, 4);
          cell += 1;
        }
      }
    }
    expect(cell).toBe(climatology.windEastKn.length);
    expect(warnings.map(describeFault)).toEqual([
      'months.csv, column slp_hpa: expected a column of a known quantity, got another one: it is not used',
      // In December the vector is 12.04 or 12.06 m/s long.
      expect.stringMatching(
        /^months\.csv: expected a mean speed no lower than the length of the mean vector, got a lower one in 4 of 48 cells and months, first 22.12 under 23.41 kn for month 12 at 10, -62: /,
      ),
    ]);
    expect(structuredClone(climatology)).toEqual(climatology);
  });

  const usual = monthlyCsv('u,v,wspd', (month) => [-6, 1, 7 + month / 10]);
  const head = 'month,lat,lon,u,v,wspd';
  const reversed = (text: string) => {
    const [first, ...rows] = text.trimEnd().split('\n');
    return `${[first, ...rows.reverse()].join('\n')}\n`;
  };
  const inKnots = monthlyCsv('u10_kn,v10_kn,wind_speed_kn', (month) => [-6 * KN, KN, (7 + month / 10) * KN]);
  const dated = usual
    .replace(/^(\d+),/gm, (_, month) => `0001-${month.padStart(2, '0')}-16T06:00:00Z,`)
    .replace('month', 'time');
  test.each([
    ['u10, v10 and wind_speed', usual.replace(head, 'month,lat,lon,u10,v10,wind_speed')],
    ['names of publishers', usual.replace(head, 'MONTH,Latitude,LONGITUDE,uwnd,vwnd,speed')],
    ['names of the CF standard', usual.replace(head, 'month,lat,lon,eastward_wind,northward_wind,mean_speed')],
    ['a scalar wind', usual.replace(head, 'month,lat,lon,u,v,scalar_wind')],
    ['a row of units', usual.replace(head, `${head}\n,degrees_north,degrees_east,m s-1,m s-1,m/s`)],
    [
      'units in brackets',
      usual.replace(head, 'month,lat (degrees_north),lon (degrees_east),u (m/s),v (m/s),wspd (m/s)'),
    ],
    ['knots by suffixes', inKnots],
    ['knots behind other names', inKnots.replace('u10_kn,v10_kn,wind_speed_kn', 'u_kn,vwnd_kn,wspd_kn')],
    ['knots in square brackets', inKnots.replace('u10_kn,v10_kn,wind_speed_kn', 'u [kn],v [kn],wspd [kn]')],
    ['another order of rows', reversed(usual)],
    ['semicolons', usual.replaceAll(',', ';')],
    [
      'longitudes of 0 to 360',
      usual
        .replaceAll(',-6', ',29')
        .replaceAll(',292,', ',298,')
        .replaceAll(',290,', ',300,')
        .replaceAll(',29,', ',-6,'),
    ],
    ['dates of a year of no calendar', dated],
    ['dates of no day', dated.replaceAll('-16T06:00:00Z', '')],
    ['the same rows twice', `${usual}${usual.slice(usual.indexOf('\n') + 1)}`],
    ['blank lines and a point behind the month', usual.replaceAll('\n1,', '\n\n1.0,')],
  ])('%s', async (_, text) => {
    const { climatology, warnings } = await readText(text);
    const { climatology: plain } = await readText(usual);
    expect(warnings).toEqual([]);
    expect([...climatology.lats]).toEqual([...plain.lats]);
    expect([...climatology.lons].map((lon) => (lon > 180 ? lon - 360 : lon))).toEqual([...plain.lons]);
    for (const field of ['windEastKn', 'windNorthKn', 'meanSpeedKn'] as const) {
      expect(climatology[field].length).toBe(48);
      for (const [i, value] of climatology[field].entries()) expectNear(value, plain[field][i]!, 1e-5, `${field} ${i}`);
    }
  });

  test('columns that are chosen, with their units', async () => {
    const text = inKnots.replace('month,lat,lon,u10_kn,v10_kn,wind_speed_kn', 'mes,lat,lon,zonal,merid,W');
    const { climatology } = await readText(text, {
      columns: {
        month: { name: 'Mes' },
        u10: { name: 'zonal', unit: 'kn' },
        v10: { name: 'merid', unit: 'knots' },
        wind_speed: { name: 'w', unit: 'kt' },
      },
    });
    expect(climatology.meanSpeedKn[0]).toBeCloseTo(7.1 * KN, 4);
    expect(climatology.windEastKn[0]).toBeCloseTo(-6 * KN, 4);
  });

  test('one file a month, on one grid', async () => {
    const [first, ...rows] = MONTHLY.trimEnd().split('\n');
    const sources = Array.from({ length: 12 }, (_, i) => ({
      name: `month-${i + 1}.csv`,
      open: () => [`${[first, ...rows.filter((row) => row.startsWith(`${12 - i},`))].join('\n')}\n`],
    }));
    const { climatology } = await readClimatology(sources);
    const { climatology: whole } = await readText(MONTHLY);
    expect(climatology.file).toMatch(/^month-1\.csv \+ .* \+ month-12\.csv$/);
    expect({ ...climatology, file: '' }).toEqual({ ...whole, file: '' });
  });

  test('what is cropped is the same where it is kept', async () => {
    const wide = monthlyCsv('u,v,wspd', () => [-6, 0, 7]);
    const crop = () => ({ latMinDeg: 11, latMaxDeg: 13, lonWestDeg: -61, lonWidthDeg: 2 });
    const { climatology } = await readText(wide, { crop });
    expect([...climatology.lats]).toEqual([12]);
    expect([...climatology.lons]).toEqual([-60]);
    expect(climatology.meanSpeedKn.length).toBe(12);
  });

  test('cells wider than the margin are cropped by their own width', async () => {
    const rows = Array.from({ length: 12 }, (_, i) =>
      [-10, 0, 10, 20].flatMap((lat) => [-70, -60, -50, -40].map((lon) => `${i + 1},${lat},${lon},-6,0,7`)),
    ).flat();
    const crop = (marginDeg: number) => ({
      latMinDeg: 4 - marginDeg,
      latMaxDeg: 5 + marginDeg,
      lonWestDeg: -56 - marginDeg,
      lonWidthDeg: 1 + 2 * marginDeg,
    });
    const { climatology } = await readText(`month,lat,lon,u,v,wspd\n${rows.join('\n')}\n`, { crop });
    expect([...climatology.lats]).toEqual([0, 10]);
    expect([...climatology.lons]).toEqual([-60, -50]);
  });

  test('is stopped, and tells how far it has come', async () => {
    const read: [number, string][] = [];
    await readText(MONTHLY, { onProgress: (characters: number, file: string) => read.push([characters, file]) });
    expect(read.at(-1)).toEqual([MONTHLY.length, 'months.csv']);
    await expect(readText(MONTHLY, { signal: AbortSignal.abort() })).rejects.toThrow(/abort/);
  });

  test('is told in numbers', async () => {
    const { climatology } = await readText(
      monthlyCsv('u,v,wspd', (_, lat, lon) =>
        lat === 12 ? [3, 4, lon === -60 ? 5 : 10] : lon === -60 ? [0, -8, 10] : ['', '', ''],
      ),
    );
    const { steadiness, unsteadyShare, meanSpeedMinKn, meanSpeedMaxKn, ...rest } = describeClimatology(climatology);
    expect(rest).toEqual({
      lats: 2,
      lons: 2,
      latMinDeg: 10,
      latMaxDeg: 12,
      lonWestDeg: -62,
      lonEastDeg: -60,
      latStepDeg: 2,
      lonStepDeg: 2,
      cells: 36,
      absentShare: 0.25,
      withoutSpread: 12,
    });
    // 0.5, 1 and 0.8.
    expect(steadiness).toBeCloseTo(2.3 / 3, 6);
    expect(unsteadyShare).toBeCloseTo(1 / 3, 10);
    expect([meanSpeedMinKn, meanSpeedMaxKn]).toEqual([expect.closeTo(5 * KN, 4), expect.closeTo(10 * KN, 4)]);
  });
});

describe('sampling', () => {
  const grid = monthly([0, 2, 4], [-34, -32, -30], (month, lat, lon) => ({
    eastKn: -10 - month / 10 + lat,
    northKn: lon + 32,
    speedKn: 20 + month + lat / 2,
  }));

  test('the direction of the mean vector with the mean speed', () => {
    const at = atOf(monthly([0, 2], [0, 2], () => ({ eastKn: -6, northKn: -8, speedKn: 15 })));
    const { wind, steadiness, ...rest } = at(1, 1, T0)!;
    expect(fromDirectionOf(wind)).toBeCloseTo(36.8699, 4);
    expect(speedOf(wind)).toBeCloseTo(15, 5);
    expect(steadiness).toBeCloseTo(10 / 15, 6);
    expect(rest).toEqual({});
  });

  test('in the middle of a month it is that month', () => {
    const at = atOf(grid);
    for (let month = 1; month <= 12; month += 1) {
      // 2028 is a leap year: the middle of its February is another.
      for (const year of [2027, 2028]) {
        const { wind } = at(2, -32, middle(year, month))!;
        expect(speedOf(wind), `${year}-${month}`).toBeCloseTo(21 + month, 5);
      }
    }
  });

  test('between, it runs straight, also from December to January', () => {
    const at = atOf(grid);
    for (let month = 1; month <= 12; month += 1) {
      const [from, to] = [middle(2027, month), middle(month === 12 ? 2028 : 2027, (month % 12) + 1)];
      for (const share of [0.25, 0.5, 0.9]) {
        const expected = 21 + month * (1 - share) + ((month % 12) + 1) * share;
        expect(speedOf(at(2, -32, from + share * (to - from))!.wind), `${month} ${share}`).toBeCloseTo(expected, 4);
      }
    }
  });

  test('in place bilinear on components and on speed', () => {
    const { wind, steadiness } = atOf(grid)(0.5, -31.5, middle(2027, 5))!;
    // East −10.5 + 0.5, north 0.5, speed 25.25.
    const vector = Math.hypot(10, 0.5);
    expect(speedOf(wind)).toBeCloseTo(25.25, 4);
    expect(fromDirectionOf(wind)).toBeCloseTo(180 - (Math.atan2(10, 0.5) * 180) / Math.PI, 3);
    expect(steadiness).toBeCloseTo(vector / 25.25, 5);
  });

  test('over the date line, and all round', () => {
    const two = monthly([0, 2], [178, 180, 182], (_, __, lon) => ({ eastKn: -lon, northKn: 0, speedKn: lon }));
    expect(speedOf(atOf(two)(1, -179, T0)!.wind)).toBeCloseTo(181, 3);
    expect(atOf(two)(1, -177, T0)).toBeUndefined();
    const lons = Array.from({ length: 36 }, (_, i) => -180 + 10 * i);
    const round = monthly(
      [0, 2],
      lons,
      (_, __, lon) => ({ eastKn: -50 + lon / 10, northKn: 0, speedKn: 100 + lon / 10 }),
      true,
    );
    // Half-way from 170 E (117) to 180 (82).
    expect(speedOf(atOf(round)(1, 175, T0)!.wind)).toBeCloseTo(99.5, 4);
    expect(speedOf(atOf(round)(1, -185, T0)!.wind)).toBeCloseTo(99.5, 4);
  });

  test('nothing is extrapolated in place', () => {
    const at = atOf(grid);
    expect(at(4.1, -32, T0)).toBeUndefined();
    expect(at(2, -34.1, T0)).toBeUndefined();
    expect(at(4, -34, T0)).toBeDefined();
    expect(at(2, -32, Number.NaN)).toBeUndefined();
    expect(at(2, -32, Number.POSITIVE_INFINITY)).toBeUndefined();
    expect(at(Number.NaN, -32, T0)).toBeUndefined();
  });

  test('absent corners: the others stand for them where the nearest is present', () => {
    const at = atOf(
      monthly([0, 2], [0, 2], (_, lat, lon) =>
        lat === 0 && lon === 0 ? undefined : meanFrom(10 + lat + lon, 90, 0.8),
      ),
    );
    // Nearest is the absent corner.
    expect(at(0.9, 0.9, T0)).toBeUndefined();
    expect(at(0, 0, T0)).toBeUndefined();
    // Weights 0.25 · 0.25, then 0.25 · 0.75 twice and 0.75 · 0.75 of 12, 12 and 14.
    expect(speedOf(at(1.5, 1.5, T0)!.wind)).toBeCloseTo((2 * 0.1875 * 12 + 0.5625 * 14) / 0.9375, 4);
  });

  test('an absent month: the nearer of the two must be there', () => {
    const at = atOf(monthly([0, 2], [0, 2], (month) => (month === 3 ? undefined : meanFrom(10 + month, 90, 0.8))));
    const [february, march] = [middle(2027, 2), middle(2027, 3)];
    const kn = (share: number) => {
      const weather = at(1, 1, february + share * (march - february));
      return weather && speedOf(weather.wind);
    };
    expect(kn(0.4)).toBeCloseTo(12, 5);
    expect(kn(0.5)).toBeCloseTo(12, 5);
    expect(kn(0.6)).toBeUndefined();
    expect(kn(1)).toBeUndefined();
    const april = middle(2027, 4);
    expect(speedOf(at(1, 1, march + 0.6 * (april - march))!.wind)).toBeCloseTo(14, 5);
    expect(at(1, 1, march + 0.4 * (april - march))).toBeUndefined();
  });

  test('where the vector is longer than the speed its length is the speed; a calm is a calm', () => {
    const long = atOf(monthly([0, 2], [0, 2], () => ({ eastKn: -10, northKn: 0, speedKn: 9 })))(1, 1, T0)!;
    expect(speedOf(long.wind)).toBeCloseTo(10, 6);
    expect(long.steadiness).toBe(1);
    const still = atOf(monthly([0, 2], [0, 2], () => ({ eastKn: 0, northKn: 0, speedKn: 0 })))(1, 1, T0)!;
    expect(still).toEqual({ wind: { eastKn: 0, northKn: 0 }, steadiness: 0 });
    const crossed = atOf(monthly([0, 2], [0, 2], () => ({ eastKn: 0, northKn: 0, speedKn: 8 })))(1, 1, T0)!;
    expect(crossed).toEqual({ wind: { eastKn: 0, northKn: -8 }, steadiness: 0 });
  });

  test('steadiness is never above 1, and speed never under the vector', () => {
    const kn = fc.double({ min: -40, max: 40, noNaN: true });
    fc.assert(
      fc.property(
        fc.array(fc.tuple(kn, kn, kn), { minLength: 48, maxLength: 48 }),
        fc.double({ min: 0, max: 2, noNaN: true }),
        fc.double({ min: 0, max: 2, noNaN: true }),
        fc.integer({ min: 0, max: 366 }),
        (cells, lat, lon, day) => {
          let cell = 0;
          const at = atOf(
            monthly([0, 2], [0, 2], () => {
              const [eastKn, northKn, speed] = cells[cell]!;
              cell += 1;
              return { eastKn, northKn, speedKn: Math.abs(speed) };
            }),
          );
          const { wind, steadiness } = at(lat, lon, T0 + day * 86400)!;
          expect(steadiness).toBeGreaterThanOrEqual(0);
          expect(steadiness).toBeLessThanOrEqual(1);
          expect(Number.isFinite(speedOf(wind))).toBe(true);
        },
      ),
    );
  });
});

describe('steadiness', () => {
  const truth = fixture('climate.json: steadiness', { steadiness: climate.steadiness });
  truth.each('steadiness', 'of a few winds', ({ winds, speedKn, fromDeg, steadiness }) => {
    const sums = winds.map(({ kn, fromDeg: from }) => meanFrom(kn, from, 1));
    const mean = (pick: (mean: Mean) => number) => sums.reduce((sum, one) => sum + pick(one), 0) / sums.length;
    const of: Mean = {
      eastKn: mean((one) => one.eastKn),
      northKn: mean((one) => one.northKn),
      speedKn: mean((one) => one.speedKn),
    };
    const weather = atOf(monthly([0, 2], [0, 2], () => of))(1, 1, T0)!;
    // Rounded to five places; the grid holds 32-bit numbers.
    expectNear(weather.steadiness!, steadiness, 1e-5, 'steadiness');
    expectNear(speedOf(weather.wind), speedKn, 1e-4, 'speed');
    if (fromDeg !== null) expectNearDeg(fromDirectionOf(weather.wind)!, fromDeg, 1e-4, 'from');
  });
});

describe('behind a forecast', () => {
  const days = (count: number) => everyHours(3, count);
  const forecast = forecastOf(days(1), LATS, LONS, (lat, lon, time) => ({
    ...steadyWind(15, 70)(lat, lon, time),
    gustKn: 18,
    currentEastKn: -0.5,
    currentNorthKn: 0,
    waveHeightM: 2,
  }));
  const climatology = monthly(LATS, LONS, () => meanFrom(16, 95, 0.8));
  const inputs = { route: WEST, boat: BOAT, polars: POLARS };
  const plan = (weather: Pick<PassageInputs, 'forecast' | 'climatology'>, options = {}) =>
    planPassage({ ...inputs, ...weather } as PassageInputs, { departure: isoUtc(T0), ...options });
  const codes = ({ warnings }: Passage) => warnings.map(({ code }) => code);
  const end = T0 + 86400;

  const checkHours = (passage: Passage) => {
    for (const hour of passage.hours) {
      const isForecast = Date.parse(hour.time) / 1000 <= end;
      expect(hour.weather, hour.time).toBe(isForecast ? 'forecast' : 'climatology');
      expect(hour.groundTwsKn, hour.time).toBeCloseTo(isForecast ? 15 : 16, 4);
      expectNearDeg(hour.groundTwdDeg, isForecast ? 70 : 95, 1e-3, hour.time);
      expect(hour.gustFrom, hour.time).toBe(isForecast ? 'forecast' : 'factor');
      if (isForecast) expect(hour.steadiness).toBeNull();
      else expect(hour.steadiness).toBeCloseTo(0.8, 5);
    }
  };

  test.each(['planned', 'fastest'] as const)('every hour says which it is of: %s', (choice) => {
    const alone = plan({ forecast }, { choice });
    expect(alone).toMatchObject({ complete: false, reason: 'forecast-ended' });
    expect(alone.hours.every(({ weather, steadiness }) => weather === 'forecast' && steadiness === null)).toBe(true);
    const passage = plan({ forecast, climatology }, { choice });
    expect(passage).toMatchObject({ complete: true, reason: null });
    checkHours(passage);
    expect(passage.hours.filter(({ weather }) => weather === 'climatology').length).toBeGreaterThan(20);
    // An hour that the forecast's end used to cut is whole now.
    expect(passage.hours.slice(0, -1).every(({ minutes }) => Math.abs(minutes - 60) < 1e-9)).toBe(true);
    expect(passage.synthetic).toBeUndefined();
  });

  test('is warned of, with its unsteady hours', () => {
    const passage = plan({ forecast, climatology });
    const byClimate = passage.hours.filter(({ weather }) => weather === 'climatology');
    const hours = Number((byClimate.reduce((sum, { minutes }) => sum + minutes, 0) / 60).toFixed(1));
    const said = (of: Passage) => of.warnings.filter(({ code }) => code === 'by-climatology').map(describeFault);
    expect(said(passage)).toEqual([
      `months.csv: expected a forecast for every hour, got none in ${hours} h: the mean wind of the month instead, with a steadiness under 0.7 in 0 h, where it says little of a day. Gales, squalls and calms are not in a mean`,
    ]);
    const unsteady = plan({ forecast, climatology: monthly(LATS, LONS, () => meanFrom(16, 95, 0.69)) });
    expect(said(unsteady)[0]).toContain(`under 0.7 in ${hours} h,`);
    expect(codes(plan({ forecast: forecastOf(days(9), LATS, LONS, steadyWind(15, 70)), climatology }))).not.toContain(
      'by-climatology',
    );
  });

  test('currents and waves of the forecast hold where its wind does not', () => {
    const waters = forecastOf(days(9), LATS, LONS, () => ({ currentEastKn: -1, currentNorthKn: 0, waveHeightM: 3 }));
    const passage = plan({
      forecast: {
        file: 'two',
        grids: [
          ...forecast.grids.map((grid) => ({
            ...grid,
            fields: { windEastKn: grid.fields.windEastKn!, windNorthKn: grid.fields.windNorthKn! },
          })),
          ...waters.grids,
        ],
      },
      climatology,
    });
    expect(passage.complete).toBe(true);
    expect(new Set(passage.hours.map(({ weather }) => weather)).size).toBe(2);
    for (const { driftKn, setDeg, waveHeightM } of passage.hours)
      expect([driftKn, setDeg, waveHeightM]).toEqual([1, 270, expect.closeTo(3, 9)]);
    expect(codes(passage)).not.toContain('current-absent');
  });

  test('a gap too long to bridge, and a forecast that is too small, are filled', () => {
    const gap = forecastOf([T0, T0 + 6 * HOUR, T0 + 30 * HOUR, T0 + 36 * HOUR], LATS, LONS, steadyWind(15, 70));
    const filled = plan({ forecast: gap, climatology });
    expect(filled.hours.map(({ weather }) => weather).slice(0, 37)).toEqual([
      ...Array(7).fill('forecast'),
      ...Array(23).fill('climatology'),
      ...Array(7).fill('forecast'),
    ]);
    const small = forecastOf(days(9), LATS, [-50, -47, -44], steadyWind(15, 70));
    const passage = plan({ forecast: small, climatology });
    expect(passage.complete).toBe(true);
    for (const { lonDeg, weather } of passage.hours)
      expect(weather, `${lonDeg}`).toBe(lonDeg >= -50 ? 'forecast' : 'climatology');
  });

  test('a departure at any time, and without a forecast', () => {
    for (const departure of ['2020-02-29T00:00Z', '2031-12-31T23:00Z']) {
      const passage = plan({ climatology }, { departure });
      expect(passage).toMatchObject({ complete: true, departure: isoUtc(Date.parse(departure) / 1000) });
      expect(passage.hours.every(({ weather }) => weather === 'climatology')).toBe(true);
      expect(plan({ forecast, climatology }, { departure }).hours).toEqual(passage.hours);
    }
  });

  test('of runs of a model those are known that have begun, and then the climatology', () => {
    const run = (from: number, hours: number, kn: number): Forecast => {
      const times = Array.from({ length: hours / 3 + 1 }, (_, i) => from + i * 3 * HOUR);
      const made = forecastOf(times, LATS, LONS, steadyWind(kn, 70));
      return { ...made, grids: made.grids.map((grid) => ({ ...grid, runEpochSeconds: from })) };
    };
    const runs = { file: 'runs', grids: [...run(T0, 24, 15).grids, ...run(T0 + 24 * HOUR, 24, 18).grids] };
    const passage = plan({ forecast: runs, climatology }, { horizonHours: 48, replanHours: 12 });
    expect(passage.complete).toBe(true);
    expect(passage.foresight).toMatchObject({ horizonHours: 48, wholeKnownComplete: true });
    expect(passage.hours.filter(({ weather }) => weather === 'forecast').length).toBe(49);
  });

  test('wind factor and shift are of it too', () => {
    const passage = plan({ climatology }, { windFactor: 1.25 });
    expect(passage.hours[0]!.groundTwsKn).toBeCloseTo(20, 4);
    expect(passage.hours[0]!.steadiness).toBeCloseTo(0.8, 5);
    const months = monthly(LATS, LONS, (month) => meanFrom(10 + month, 95, 0.8));
    const middleOfMarch = middle(2027, 3);
    const shifted = plan(
      { climatology: months },
      { departure: isoUtc(middleOfMarch + 240 * HOUR), windShiftHours: 240 },
    );
    expect(shifted.hours[0]!.groundTwsKn).toBeCloseTo(13, 4);
  });

  test('where it has no wind either the passage ends', () => {
    const coast = monthly(LATS, LONS, (_, __, lon) => (lon < -50 ? undefined : meanFrom(16, 95, 0.8)));
    const passage = plan({ forecast, climatology: coast });
    expect(passage).toMatchObject({ complete: false, reason: 'no-wind-data' });
    expect(codes(passage)).toContain('wind-absent');
    expect(() => plan({ climatology: coast }, { departure: isoUtc(T0) })).not.toThrow();
    const elsewhere = monthly([50, 52], [0, 2], () => meanFrom(16, 95, 0.8));
    expect(() => plan({ climatology: elsewhere })).toThrow(/wind in the forecast at the start/);
  });

  test('what takes longer than 2 kn and ten days is given up', () => {
    const light = monthly(LATS, LONS, () => meanFrom(0.8, 0, 0.8));
    const passage = plan({ climatology: light });
    expect(passage).toMatchObject({ complete: false, reason: 'too-slow' });
    const hours = (Date.parse(passage.end) - Date.parse(passage.departure)) / 3_600_000;
    const { distanceNm } = passage.hours.at(-1)!;
    const lengthNm = passage.distanceToGoNm + distanceNm + passage.hours.at(-1)!.runNm;
    expect(hours).toBeCloseTo(lengthNm / 2 + 240, 2);
  });

  test('round half the world it is not given up for memory', () => {
    const lons = Array.from({ length: 36 }, (_, i) => -180 + 10 * i);
    const world = monthly([-60, -40, -20, 0, 20], lons, () => meanFrom(18, 270, 0.9), true);
    const route = {
      waypoints: [-170, -60, 50, 110].map((lonDeg, i) => ({
        name: `${i}`,
        latDeg: -45,
        lonDeg,
        toNext: 'rhumb' as const,
      })),
    };
    const passage = planPassage(
      { route, boat: BOAT, polars: POLARS, climatology: world },
      { departure: isoUtc(T0), labels: 1 },
    );
    expect(passage.complete).toBe(true);
    expect(passage.hours.length).toBeGreaterThan(1000);
  });

  test('is written, read back, and told in the first lines', () => {
    const passage = plan({ forecast, climatology });
    const totals = totalsOf(passage, BOAT);
    const toPrint = {
      passage,
      totals,
      boat: BOAT,
      route: WEST,
      inputs: [{ role: 'climatology' as const, file: 'months.csv', sha256: 'x' }],
    };
    const back = readPlan(planJson(toPrint));
    expect(back.hours.map(({ weather }) => weather)).toEqual(passage.hours.map(({ weather }) => weather));
    expect(back.hours.at(-1)!.steadiness).toBeCloseTo(0.8, 5);
    const rows = rowsOf(hoursCsv(passage));
    expect(rows[0]).toMatchObject({ weather: 'forecast', steadiness: '' });
    expect(rows.at(-1)).toMatchObject({ weather: 'climatology', steadiness: '0.800' });
    expect(totalsText(toPrint).split('\n')[1]).toMatch(
      /^NOT A FORECAST in \d+ d .* of .*: the wind is the mean of the month/,
    );
    expect(planMarkdown(toPrint)).toContain('**NOT A FORECAST in ');
    const forecastOnly = plan({ forecast });
    expect(totalsText({ ...toPrint, passage: forecastOnly })).not.toContain('NOT A FORECAST');
  });
});

describe('the command', () => {
  let folder: ReturnType<typeof workFolder>;
  beforeAll(() => {
    folder = workFolder();
    folder.write({
      'route.csv': ROUTE,
      'boat.json': BOAT_FILE,
      'polars.csv': POLAR_FILE,
      'forecast.csv': FORECAST,
      'months.csv': MONTHLY,
      'meses.csv': MONTHLY.replace('month,lat,lon,u,v,wspd', 'mes,lat,lon,u,v,wind'),
    });
  });
  afterAll(() => folder.leave());
  const given = ['--route', 'route.csv', '--boat', 'boat.json', '--out', 'out'];

  test('plans behind a forecast, and without one', async () => {
    const behind = await ran(
      'plan',
      ...given,
      '--forecast',
      'forecast.csv',
      '--climatology',
      'months.csv',
      '--depart',
      TIMES[3]!,
    );
    expect(behind.error).toBe('');
    expect(behind.code).toBe(0);
    const plan = readPlan(folder.read('out/plan.json'));
    expect(plan.inputs.map(({ role }) => role)).toEqual(['route', 'boat', 'polars', 'forecast', 'climatology']);
    expect(new Set(plan.hours.map(({ weather }) => weather))).toEqual(new Set(['forecast', 'climatology']));
    const alone = await ran('plan', ...given, '--climatology', 'months.csv', '--depart', '2030-07-01T00:00Z');
    expect(alone.code).toBe(0);
    expect(readPlan(folder.read('out/plan.json')).hours.every(({ weather }) => weather === 'climatology')).toBe(true);
  });

  test('a chosen column stands in one of the files', async () => {
    const columns = ['--column', 'month=mes', '--column', 'wind_speed=wind:m/s', '--column', 'gust=gust:m/s'];
    const both = ['--forecast', 'forecast.csv', '--climatology', 'meses.csv', '--depart', TIMES[3]!];
    const ok = await ran('plan', ...given, ...both, ...columns);
    expect(ok.error).toBe('');
    expect(ok.code).toBe(0);
    expect(folder.read('out/plan.md')).toContain('climatology: meses.csv, month=mes, ');
    const wrong = await ran('plan', ...given, ...both, ...columns, '--column', 'wave_period=tp');
    expect(wrong.code).toBe(2);
    expect(wrong.error).toBe(
      'forecast.csv + meses.csv, column tp: expected this column for wave_period in the head of a forecast or climatology file, got only "time, lat, lon, u10, v10, gust, current_u, current_v, wave_h…"\n',
    );
  });

  test('check tells what it holds', async () => {
    const { out, code } = await ran('check', 'months.csv', 'forecast.csv');
    expect(code).toBe(0);
    expect(out).toContain('months.csv: a climatology, mean wind of twelve months\n');
    expect(out).toContain(
      "  wind: 2 × 2 points of 2° × 2°, 10°00.0'N 062°00.0'W to 12°00.0'N 060°00.0'W, mean speed 13.77 to 15.55 kn, 48 cells and months\n",
    );
    expect(out).toMatch(/ {2}steadiness: 0\.8\d on the mean, under 0\.7 in 0\.0 % of them\n/);
    expect(out).toContain('  without spread: 0, whose mean vector is as long as the mean speed\n');
    const chosen = await ran('check', '--column', 'month=mes', '--column', 'wind_speed=wind:m/s', 'meses.csv');
    expect(chosen).toMatchObject({ code: 0, error: '' });
    expect(chosen.out).toContain('meses.csv: a climatology');
    const wrong = await ran('check', '--column', 'gust=nothing', 'months.csv', 'forecast.csv');
    expect(wrong.code).toBe(2);
    expect(wrong.error).toMatch(/^forecast\.csv \+ months\.csv, column nothing: expected this column for gust/);
  });
});
