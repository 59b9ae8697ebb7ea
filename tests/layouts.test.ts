import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  describeFault,
  type Forecast,
  InputError,
  memberOf,
  type ReadForecastOptions,
  readForecast,
  type Weather,
  weatherAt,
} from '../src/index.js';
import { ALIASES } from '../src/weather/aliases.js';

/** Knots in a metre a second: 3600 s in an hour, 1852 m in a nautical mile. */
const KN = 3600 / 1852;
const T0 = Date.UTC(2027, 0, 10) / 1000;
const HOUR = 3600;

const iso = (hour: number) => new Date((T0 + hour * HOUR) * 1000).toISOString().replace('.000Z', 'Z');
/** `2027-01-10 06:00:00`, which says nothing of a zone. */
const zoneless = (hour: number) => iso(hour).replace('T', ' ').replace('Z', '');

type Cell = string | number;
type Point = readonly [hour: number, lat: number, lon: number];

const source = (text: string, name = 'f.csv') => ({ name, open: () => [text] });
const read = async (text: string, options: ReadForecastOptions = {}) => readForecast(source(text), options);
const lines = (rows: readonly (readonly Cell[])[]) => `${rows.map((row) => row.join(',')).join('\n')}\n`;
const table = (head: string, points: readonly Point[], cells: (...point: Point) => readonly Cell[]) =>
  `${head}\n${lines(points.map((point) => cells(...point)))}`;

/** What reading says: its faults, else its warnings, as they are printed. */
async function saidOf(sources: Parameters<typeof readForecast>[0], options: ReadForecastOptions = {}) {
  try {
    return (await readForecast(sources, options)).warnings.map(describeFault);
  } catch (error) {
    if (error instanceof InputError) return error.faults.map(describeFault);
    throw error;
  }
}
const said = (text: string, options: ReadForecastOptions = {}) => saidOf(source(text), options);

/** All points of a grid, times outermost. */
const pointsOf = (hours: readonly number[], lats: readonly number[], lons: readonly number[]): Point[] =>
  hours.flatMap((hour) => lats.flatMap((lat) => lons.map((lon): Point => [hour, lat, lon])));

const at = (forecast: Forecast, lat: number, lon: number, hour: number): Weather | undefined =>
  weatherAt(forecast)(lat, lon, T0 + hour * HOUR);
/** The wind's component towards east, which the files of these tests tell apart by. */
const eastAt = (forecast: Forecast, lat: number, lon: number, hour: number) =>
  at(forecast, lat, lon, hour)?.wind.eastKn;

/** Expects the same grid, and values to a rounding in knots; which run it is of may be said or not. */
function expectSame(actual: Forecast, expected: Forecast, tolerance: number) {
  expect(actual.grids.length).toBe(expected.grids.length);
  actual.grids.forEach((grid, g) => {
    const other = expected.grids[g]!;
    for (const axis of ['epochSeconds', 'lats', 'lons'] as const) {
      expect(grid[axis].length).toBe(other[axis].length);
      grid[axis].forEach((value, i) => {
        expect(Math.abs(value - other[axis][i]!), `${axis}[${i}]`).toBeLessThan(1e-9);
      });
    }
    expect(grid.wraps).toBe(other.wraps);
    expect(Object.keys(grid.fields).sort()).toEqual(Object.keys(other.fields).sort());
    for (const [field, values] of Object.entries(grid.fields)) {
      values.forEach((value, i) => {
        const truth = other.fields[field as keyof typeof other.fields]![i]!;
        if (Number.isNaN(truth)) expect(value).toBeNaN();
        else expect(Math.abs(value - truth), `${field}[${i}]`).toBeLessThan(tolerance);
      });
    }
  });
}

const HOURS = [0, 3, 6, 12];
const LATS = [10, 11, 12.5];
const LONS = [-62, -60.5, -59];
// One point is never there, as land is not.
const POINTS = pointsOf(HOURS, LATS, LONS).filter(([, lat, lon]) => lat !== 10 || lon !== -59);

/** A wind in m/s to two decimals. */
const windMps = (hour: number, lat: number, lon: number): readonly [east: number, north: number] => [
  Math.round(100 * (-8 + 0.7 * (lat - 10) + 0.31 * hour - 0.2 * (lon + 60))) / 100,
  Math.round(100 * (1.5 - 0.4 * (lat - 10) + 0.17 * hour + 0.5 * (lon + 60))) / 100,
];
const scaled = (factor: number) => (hour: number, lat: number, lon: number) =>
  windMps(hour, lat, lon).map((mps) => (mps * factor).toFixed(7));
const speedAndFrom = (factor: number) => (hour: number, lat: number, lon: number) => {
  const [east, north] = windMps(hour, lat, lon);
  const from = ((Math.atan2(-east, -north) * 180) / Math.PI + 360) % 360;
  return [(Math.hypot(east, north) * factor).toFixed(7), from.toFixed(7)];
};
const gribRow = (
  run: number,
  hour: number,
  name: string,
  level: string,
  lat: number,
  lon: number,
  value: Cell,
): readonly Cell[] => [
  `"${zoneless(run)}"`,
  `"${zoneless(hour)}"`,
  `"${name}"`,
  `"${level}"`,
  lon,
  lat,
  typeof value === 'number' ? Number(value.toPrecision(6)) : value,
];
const TEN_M = '10 m above ground';

/** The plain file. */
const PLAIN = table('time,lat,lon,u10,v10', POINTS, (hour, lat, lon) => [
  iso(hour),
  lat,
  lon,
  ...windMps(hour, lat, lon),
]);

describe('one wind in every layout', () => {
  const LAYOUTS: Readonly<Record<string, string>> = {
    'latitudes falling': table(
      'time,lat,lon,u10,v10',
      pointsOf(HOURS, [...LATS].reverse(), LONS).filter(([, lat, lon]) => lat !== 10 || lon !== -59),
      (hour, lat, lon) => [iso(hour), lat, lon, ...windMps(hour, lat, lon)],
    ),
    'longitudes 0 to 360': table('time,lat,lon,u10,v10', POINTS, (hour, lat, lon) => [
      iso(hour),
      lat,
      lon + 360,
      ...windMps(hour, lat, lon),
    ]),
    'columns in another order, names in capitals, blanks around': table(
      ' V10 ,LONGITUDE,Time,U10, Latitude',
      POINTS,
      (hour, lat, lon) => {
        const [east, north] = windMps(hour, lat, lon);
        return [north, ` ${lon}`, iso(hour), `${east} `, lat];
      },
    ),
    'rows backwards': `time,lat,lon,u10,v10\n${PLAIN.trim().split('\n').slice(1).reverse().join('\n')}\n`,
    'points without a value as NaN, nothing, fill values': `${PLAIN}${lines(
      HOURS.map((hour, i) => [
        iso(hour),
        10,
        -59,
        ...[
          ['NaN', 'nan'],
          ['', ''],
          [-9999, 1e20],
          ['9.96921e+36', -999],
        ][i]!,
      ]),
    )}`,
    'a value of one component only': `${PLAIN}${lines(HOURS.map((hour, i) => [iso(hour), 10, -59, ...(i % 2 === 0 ? [3, ''] : ['', 3])]))}`,
    'times in another zone': table('time,lat,lon,u10,v10', POINTS, (hour, lat, lon) => [
      iso(hour - 4).replace('Z', '-04:00'),
      lat,
      lon,
      ...windMps(hour, lat, lon),
    ]),
    semicolons: PLAIN.replaceAll(',', ';'),
    tabs: PLAIN.replaceAll(',', '\t'),
    'a byte order mark, and lines that end as on Windows': `\uFEFF${PLAIN.replaceAll('\n', '\r\n')}`,
    'blank lines': PLAIN.replaceAll('\n', '\n\n'),
    'no line end at the end': PLAIN.trimEnd(),
    'components in knots': table('time,lat,lon,u10_kn,v10_kn', POINTS, (...point) => [
      iso(point[0]),
      point[1],
      point[2],
      ...scaled(KN)(...point),
    ]),
    'speed in knots and direction': table('time,lat,lon,wind_speed_kn,wind_from_direction', POINTS, (...point) => [
      iso(point[0]),
      point[1],
      point[2],
      ...speedAndFrom(KN)(...point),
    ]),
    'speed in km/h and direction': table('time,lat,lon,wind_speed_kmh,wind_from_direction', POINTS, (...point) => [
      iso(point[0]),
      point[1],
      point[2],
      ...speedAndFrom(3.6)(...point),
    ]),
    'a row of units': table(
      'time,latitude,longitude,ugrd10m,vgrd10m\nUTC,degrees_north,degrees_east,m s-1,m s-1',
      POINTS,
      (hour, lat, lon) => [iso(hour), lat, lon + 360, ...windMps(hour, lat, lon)],
    ),
    'a row of units: UTC for times without a zone': table(
      'time,latitude,longitude,u10,v10\nUTC,degrees_north,degrees_east,m s-1,m s-1',
      POINTS,
      (hour, lat, lon) => [zoneless(hour), lat, lon, ...windMps(hour, lat, lon)],
    ),
    'a row of units: knots': table(
      'time,latitude,longitude,u10,v10\nUTC,degrees_north,degrees_east,knots,knots',
      POINTS,
      (...point) => [iso(point[0]), point[1], point[2], ...scaled(KN)(...point)],
    ),
    'a row of units: cm s-1': table(
      'time,latitude,longitude,u10,v10\nUTC,degrees_north,degrees_east,cm s-1,cm s-1',
      POINTS,
      (...point) => [iso(point[0]), point[1], point[2], ...scaled(100)(...point)],
    ),
    'a row of units: blank and 1 are none': table(
      'time,latitude,longitude,u10,v10\nUTC,degrees_north,degrees_east,,1',
      POINTS,
      (hour, lat, lon) => [iso(hour), lat, lon, ...windMps(hour, lat, lon)],
    ),
    'a row of units: of a speed and its direction': table(
      'time,latitude,longitude,wind_speed,wind_from_direction\nUTC,degrees_north,degrees_east,km h-1,degrees_true',
      POINTS,
      (...point) => [iso(point[0]), point[1], point[2], ...speedAndFrom(3.6)(...point)],
    ),
    'units in brackets': table(
      'time (UTC),latitude (degrees_north),longitude (degrees_east),ugrd10m (m s-1),vgrd10m (m s-1)',
      POINTS,
      (hour, lat, lon) => [zoneless(hour), lat, lon + 360, ...windMps(hour, lat, lon)],
    ),
    'standard names': table('time,lat,lon,eastward_wind,northward_wind', POINTS, (hour, lat, lon) => [
      iso(hour),
      lat,
      lon,
      ...windMps(hour, lat, lon),
    ]),
    'valid_time beside time': table('time,step,valid_time,lat,lon,u10,v10', POINTS, (hour, lat, lon) => [
      iso(-6),
      `${hour + 6} hours`,
      iso(hour),
      lat,
      lon,
      ...windMps(hour, lat, lon),
    ]),
    wgrib2: lines(
      HOURS.flatMap((hour) =>
        ['UGRD', 'VGRD'].flatMap((name, i) =>
          POINTS.filter((point) => point[0] === hour).map(([, lat, lon]) =>
            gribRow(0, hour, name, TEN_M, lat, lon, windMps(hour, lat, lon)[i]!),
          ),
        ),
      ),
    ),
    'wgrib2, undefined points told': lines([
      ...['UGRD', 'VGRD'].flatMap((name, i) =>
        POINTS.map(([hour, lat, lon]) => gribRow(0, hour, name, TEN_M, lat, lon, windMps(hour, lat, lon)[i]!)),
      ),
      ...HOURS.map((hour) => gribRow(0, hour, 'UGRD', TEN_M, 10, -59, 9.999e20)),
    ]),
  };
  // 7 decimals of cm/s or m/s, and Float32 of up to 40 kn: half an ulp is 2e-6.
  const ROUNDING_KN = 1e-5;

  test('the plain file itself', async () => {
    const { forecast, warnings } = await read(PLAIN);
    expect(warnings).toEqual([]);
    const [grid, ...others] = forecast.grids;
    expect(others).toEqual([]);
    expect([...grid!.epochSeconds]).toEqual(HOURS.map((hour) => T0 + hour * HOUR));
    expect([...grid!.lats]).toEqual(LATS);
    expect([...grid!.lons]).toEqual(LONS);
    expect(grid!.fields.windEastKn![2]).toBeNaN();
    for (const [hour, lat, lon] of POINTS) {
      const { wind } = at(forecast, lat, lon, hour)!;
      expect(wind.eastKn).toBeCloseTo(windMps(hour, lat, lon)[0] * KN, 5);
      expect(wind.northKn).toBeCloseTo(windMps(hour, lat, lon)[1] * KN, 5);
    }
  });

  test.each(Object.entries(LAYOUTS))('%s', async (_, text) => {
    const { forecast, warnings } = await read(text);
    // A last row without line end may have been cut.
    expect(warnings.map(({ code }) => code)).toEqual(/[\r\n]\s*$/.test(text) ? [] : ['last-line-open']);
    expectSame(forecast, (await read(PLAIN)).forecast, ROUNDING_KN);
  });

  test.each(Object.entries(LAYOUTS))('%s, in pieces of 7 bytes and of 1', async (_, text) => {
    const whole = await read(text);
    const bytes = new TextEncoder().encode(text);
    for (const size of [7, 1]) {
      const pieces = Array.from({ length: Math.ceil(bytes.length / size) }, (_, i) =>
        bytes.subarray(i * size, (i + 1) * size),
      );
      expect(await readForecast({ name: 'f.csv', open: () => pieces })).toEqual(whole);
    }
  });
});

describe('the head', () => {
  const ROW = `${iso(0)},10,-60,-8,1\n`;
  const UNITS = 'UTC,degrees_north,degrees_east';

  test.each([
    ['none', ''],
    ['only', 'time,lat,lon,u10,v10\n'],
    ['and units only', `time,lat,lon,u10,v10\n${UNITS},m s-1,m s-1\n`],
    ['with units in brackets only', 'time (UTC),lat,lon,u10 (m s-1),v10 (m s-1)\n'],
  ])('%s', async (_, text) => {
    const got = text === '' ? 'none' : 'only a header line';
    const messages = [`f.csv: expected a header line and at least one row, got ${got}`];
    expect(await said(text)).toEqual(messages);
    const pieces = Array.from({ length: Math.ceil(text.length / 7) }, (_, i) => text.slice(i * 7, (i + 1) * 7));
    expect(await saidOf({ name: 'f.csv', open: () => pieces })).toEqual(messages);
  });

  test('what is wrong with a head is told also where no row follows', async () => {
    expect(await said('time,lat,lon,u10\n')).toEqual([
      'f.csv, line 1, column u10: expected v10 beside it, got it alone',
    ]);
    expect(await said(`time,lat,lon,u10,v10\n${UNITS},m s-1,furlongs\n`)).toEqual([
      'f.csv, line 2, column v10: expected a unit of kn, kt, kts, knots, mps, m_s, cmps, kmh, km_h, mph, got "furlongs"',
    ]);
  });

  test('an unknown unit is told at the line that states it', async () => {
    const rest =
      'column u10: expected a unit of kn, kt, kts, knots, mps, m_s, cmps, kmh, km_h, mph, got "knot s" (did you mean "knots"?)';
    expect(await said(`time,lat,lon,u10,v10\n${UNITS},knot s,kn\n${ROW}`)).toEqual([`f.csv, line 2, ${rest}`]);
    expect(await said(`\n\ntime,lat,lon,u10,v10\n\n${UNITS},knot s,kn\n${ROW}`)).toEqual([`f.csv, line 5, ${rest}`]);
    expect(await said(`time (UTC),lat,lon,u10 (knot s),v10 (kn)\n${ROW}`)).toEqual([`f.csv, line 1, ${rest}`]);
    // Of a column that is not used nobody asks the unit.
    expect(await said(`time,lat,lon,u10,v10,pressure\n${UNITS},kn,kn,furlongs\n${iso(0)},10,-60,-8,1,3\n`)).toEqual([
      'f.csv, column pressure: expected a column of a known quantity, got another one: it is not used',
    ]);
  });

  test('a speed by itself needs its unit, and the message names a column that is known', async () => {
    const wind = (name: string) => `time,lat,lon,${name},wind_from_direction\n${ROW.replace('-8,1', '8,90')}`;
    expect(await said(wind('wind_speed'))).toEqual([
      "f.csv, line 1, column wind_speed: expected the unit in the column's name, like wind_speed_kn or wind_speed_mps, got none",
    ]);
    for (const name of ['wind_speed_kn', 'wind_speed_mps', 'wind_speed (kn)', 'Wind_Speed (m/s)']) {
      expect(await said(wind(name))).toEqual([]);
    }
    const gust = (name: string) =>
      `time,lat,lon,wind_speed_kn,wind_from_direction,${name}\n${ROW.replace('-8,1', '8,90,11')}`;
    expect(await said(gust('wind_speed_of_gust'))).toEqual([
      "f.csv, line 1, column wind_speed_of_gust: expected the unit in the column's name, like gust_kn or gust_mps, got none",
    ]);
    for (const name of ['gust_kn', 'gust_mps']) expect(await said(gust(name))).toEqual([]);
  });

  test.each([
    ['no units', 'time,lat,lon,u10,v10', 2],
    [
      'a row of units that says nothing of the time',
      `time,lat,lon,u10,v10\n,degrees_north,degrees_east,m s-1,m s-1`,
      3,
    ],
    ['brackets behind others', 'time,lat,lon,u10 (m s-1),v10 (m s-1)', 2],
  ])('a time without a zone is refused where the head does not say UTC: %s', async (_, head, line) => {
    expect(await said(`${head}\n${zoneless(0)},10,-60,-8,1\n`)).toEqual([
      `f.csv, line ${line}, column time: expected a time that states UTC by Z or gives its offset, like 2018-10-06T20:00Z (or --column time=time:UTC where it is UTC), got "${zoneless(0)}"`,
    ]);
  });

  test('a stated offset counts also where the head says UTC', async () => {
    const { forecast } = await read(`time (UTC),lat,lon,u10,v10\n2027-01-10T02:00+02:00,10,-60,-8,1\n`);
    expect([...forecast.grids[0]!.epochSeconds]).toEqual([T0]);
  });

  test('seconds since a day are no instants', async () => {
    const units = 'seconds since 1970-01-01T00:00:00Z,degrees_north,degrees_east,m s-1,m s-1';
    expect(await said(`time,latitude,longitude,u10,v10\n${units}\n${T0},10,-60,-8,1\n`)).toEqual([
      `f.csv, line 3, column time: expected a time in ISO 8601, like 2018-10-06T20:00Z, got "${T0}"`,
    ]);
  });

  test('beside valid_time the time is that of the run', async () => {
    const rows = [-6, 0].flatMap((run) => [0, 6].map((hour) => [iso(run), iso(hour), 10, -60, run, 1]));
    const { forecast } = await read(`time,valid_time,latitude,longitude,u10,v10\n${lines(rows)}`);
    expect(forecast.grids.map((grid) => grid.runEpochSeconds)).toEqual([T0 - 6 * HOUR, T0]);
    expect(forecast.grids.map((grid) => [...grid.epochSeconds])).toEqual([
      [T0, T0 + 6 * HOUR],
      [T0, T0 + 6 * HOUR],
    ]);
    expect(eastAt(forecast, 10, -60, 3)).toBe(0);
  });

  test('two times of validity are a fault', async () => {
    expect(await said(`time,datetime,lat,lon,u10,v10\n${iso(0)},${iso(0)},10,-60,-8,1\n`)).toEqual([
      'f.csv, line 1, column datetime: expected one column for each quantity, got time as well',
    ]);
  });

  // Units as publishers spell them; the factors by definition: 1 Nm = 1852 m, 1 mile = 1609.344 m, 1 ft = 0.3048 m.
  test.each([
    ['kn', 1],
    ['knots', 1],
    ['Knot', 1],
    ['kt', 1],
    ['m s-1', KN],
    ['m  s-1', KN],
    ['m/s', KN],
    ['m s**-1', KN],
    ['m s^-1', KN],
    ['meters per second', KN],
    ['cm s-1', KN / 100],
    ['cm/s', KN / 100],
    ['km/h', 1 / 1.852],
    ['km h-1', 1 / 1.852],
    ['mph', 1609.344 / 1852],
  ])('speeds in %s', async (unit, factor) => {
    const row = `${iso(0)},10,-60,-8,1,20,0.5,0.25\n`;
    const { forecast } = await read(
      `time,lat,lon,u10,v10,gust,current_u,current_v\n${UNITS},m s-1,m s-1,${unit},${unit},${unit}\n${row}`,
    );
    const weather = at(forecast, 10, -60, 0)!;
    expect(weather.gustKn).toBeCloseTo(20 * factor, 5);
    expect(weather.current!.eastKn).toBeCloseTo(0.5 * factor, 6);
    expect(weather.current!.northKn).toBeCloseTo(0.25 * factor, 6);
  });

  test.each([
    ['m', 's', 'degree', 1],
    ['meters', 'seconds', 'degrees', 1],
    ['ft', 'sec', 'degrees_true', 0.3048],
    ['feet', 'second', 'degree_true', 0.3048],
  ])('waves in %s, %s, %s', async (length, time, direction, metres) => {
    const { forecast } = await read(
      `time (UTC),lat,lon,u10,v10,wave_height (${length}),wave_period (${time}),wave_from_direction (${direction})\n${iso(0)},10,-60,-8,1,5,9,75\n`,
    );
    const weather = at(forecast, 10, -60, 0)!;
    expect(weather.waveHeightM).toBeCloseTo(5 * metres, 5);
    expect(weather.wavePeriodSeconds).toBe(9);
    expect(weather.waveFromDeg).toBeCloseTo(75, 4);
  });

  test('a fill value is none also where a unit makes it small', async () => {
    // −999 cm/s is 19 kn, less than the fastest current that is believed.
    const { forecast } = await read(
      `time,lat,lon,u10,v10,current_u (cm/s),current_v (cm/s)\n${iso(0)},10,-60,-8,1,-999,-999\n${iso(0)},10,-59,-8,1,-99,98\n`,
    );
    expect(at(forecast, 10, -60, 0)!.current).toBeUndefined();
    expect(at(forecast, 10, -59, 0)!.current!.northKn).toBeCloseTo(0.98 * KN, 5);
  });

  test('rows that disagree are told with the longitude as people write it', async () => {
    expect(await said(`time,lat,lon,u10,v10\n${iso(0)},10,298.4,-8,1\n${iso(0)},10,298.4,-7,1\n`)).toEqual([
      `f.csv, line 3: expected rows of one point and time to agree, got another value for ${iso(0)} at 10, -61.6`,
    ]);
  });

  test('rows of one height only; a height that was chosen as that of waves is none', async () => {
    const rows = (first: Cell, second: Cell) =>
      lines([
        [iso(0), first, 10, -60, -8, 1],
        [iso(0), second, 10, -59, -8, 1],
      ]);
    for (const name of ['height', 'heightAboveGround', 'depth', 'level', 'altitude']) {
      expect(await said(`time,${name},lat,lon,u10,v10\n${rows(10, 10)}`)).toEqual([]);
      expect(await said(`time,${name},lat,lon,u10,v10\n${rows(10, 100)}`)).toEqual([
        `f.csv, line 3, column ${name.toLowerCase()}: expected rows of one height or depth ("10"), got "100"`,
      ]);
    }
    const columns = { wave_height: { name: 'Height', unit: 'ft' } };
    const { forecast, warnings } = await read(`time,height,lat,lon,u10,v10\n${rows(5, 10)}`, { columns });
    expect(warnings).toEqual([]);
    expect(at(forecast, 10, -59.5, 0)!.waveHeightM).toBeCloseTo(7.5 * 0.3048, 5);
  });
});

describe('wgrib2', () => {
  const WIND = [0, 6].flatMap((hour) => [
    gribRow(0, hour, 'UGRD', TEN_M, 10, -60, -8),
    gribRow(0, hour, 'VGRD', TEN_M, 10, -60, 1),
  ]);
  const unused = (label: string) =>
    `f.csv, column ${label}: expected a column of a known quantity, got another one: it is not used`;

  test('the wind is that at 10 m, in whatever order the levels come', async () => {
    const high = ['100 m above ground', '80 m above ground', '850 mb', 'planetary boundary layer'].flatMap((level) => [
      gribRow(0, 0, 'UGRD', level, 10, -60, -50),
      gribRow(0, 0, 'VGRD', level, 10, -60, 50),
    ]);
    for (const rows of [
      [...high, ...WIND],
      [...WIND, ...high],
    ]) {
      const { forecast, warnings } = await read(lines(rows));
      expect(at(forecast, 10, -60, 0)!.wind.eastKn).toBeCloseTo(-8 * KN, 5);
      expect(warnings.map(describeFault)).toEqual(
        [
          'UGRD at 100 m above ground',
          'VGRD at 100 m above ground',
          'UGRD at 80 m above ground',
          'VGRD at 80 m above ground',
          'UGRD at 850 mb',
          'VGRD at 850 mb',
          'UGRD at planetary boundary layer',
          'VGRD at planetary boundary layer',
        ].map(unused),
      );
    }
    expect(await said(lines(high))).toEqual([
      expect.stringMatching(
        /^f\.csv: expected wind, gust, current or waves under a known name .*, got "UGRD at 100 m above ground, VGRD at 100 m/,
      ),
    ]);
  });

  test('wind of a wave model stands at the surface, and gives way to that at 10 m', async () => {
    const surface = [gribRow(0, 0, 'UGRD', 'surface', 10, -60, -6), gribRow(0, 0, 'VGRD', 'surface', 10, -60, 2)];
    const alone = await read(lines(surface));
    expect(alone.warnings).toEqual([]);
    expect(at(alone.forecast, 10, -60, 0)!.wind.northKn).toBeCloseTo(2 * KN, 5);
    for (const rows of [
      [...surface, ...WIND],
      [...WIND, ...surface],
    ]) {
      const { forecast, warnings } = await read(lines(rows));
      expect(at(forecast, 10, -60, 0)!.wind.northKn).toBeCloseTo(KN, 5);
      expect(warnings.map(describeFault)).toEqual([unused('UGRD at surface'), unused('VGRD at surface')]);
    }
  });

  test('gust, current and waves', async () => {
    const { forecast, warnings } = await read(
      lines([
        ...WIND,
        gribRow(0, 0, 'GUST', 'surface', 10, -60, 12),
        gribRow(0, 0, 'UOGRD', 'surface', 10, -60, -0.5),
        gribRow(0, 0, 'VOGRD', 'surface', 10, -60, 0.25),
        gribRow(0, 0, 'HTSGW', 'surface', 10, -60, 2.5),
        gribRow(0, 0, 'PERPW', 'surface', 10, -60, 9),
        gribRow(0, 0, 'DIRPW', 'surface', 10, -60, 75),
      ]),
    );
    expect(warnings).toEqual([]);
    const weather = at(forecast, 10, -60, 0)!;
    expect(weather.gustKn).toBeCloseTo(12 * KN, 4);
    expect(weather.current!.eastKn).toBeCloseTo(-0.5 * KN, 6);
    expect(weather.current!.northKn).toBeCloseTo(0.25 * KN, 6);
    expect(weather.waveHeightM).toBe(2.5);
    expect(weather.wavePeriodSeconds).toBe(9);
    expect(weather.waveFromDeg).toBeCloseTo(75, 4);
  });

  test('wind by speed and direction; beside components the speed is not used', async () => {
    const speed = [gribRow(0, 0, 'WIND', TEN_M, 10, -60, 8), gribRow(0, 0, 'WDIR', TEN_M, 10, -60, 90)];
    expect(eastAt((await read(lines(speed))).forecast, 10, -60, 0)).toBeCloseTo(-8 * KN, 5);
    // As where the highest wind of an hour stands beside its components.
    const highest = gribRow(0, 0, 'WIND', TEN_M, 10, -60, 14);
    expect(await said(lines([highest, ...WIND]))).toEqual([unused('WIND at 10 m above ground')]);
    expect(eastAt((await read(lines([highest, ...WIND]))).forecast, 10, -60, 0)).toBeCloseTo(-8 * KN, 5);
    expect(await said(lines([...WIND, gribRow(0, 0, 'WDIR', TEN_M, 10, -60, 277)]))).toEqual([
      `f.csv, line 5, column WDIR: expected a direction that fits the components beside it (wind from, current to), got one 180° off for ${iso(0)} at 10, -60`,
    ]);
  });

  test('names that are not known are told once each', async () => {
    const others = [0, 6].flatMap((hour) => [
      gribRow(0, hour, 'PRMSL', 'mean sea level', 10, -60, 101325),
      gribRow(0, hour, 'TMP', '2 m above ground', 10, -60, 300),
    ]);
    expect(await said(lines([...WIND, ...others]))).toEqual([
      unused('PRMSL at mean sea level'),
      unused('TMP at 2 m above ground'),
    ]);
    expect(await said(lines(others))).toEqual([
      'f.csv: expected wind, gust, current or waves under a known name (docs/file-formats.md lists them; --column names another), got "PRMSL at mean sea level, TMP at 2 m above ground"',
    ]);
  });

  const cases: readonly (readonly [what: string, text: string, messages: readonly string[]])[] = [
    [
      'one component only',
      lines(WIND.filter((row) => row[2] === '"UGRD"')),
      ['f.csv, column UGRD: expected v10 beside it, got it alone'],
    ],
    [
      'waves only',
      lines([gribRow(0, 0, 'HTSGW', 'surface', 10, -60, 2)]),
      ['f.csv: expected u10 and v10, or wind_speed with its unit and wind_from_direction, got "HTSGW"'],
    ],
    [
      'a ragged row',
      `${lines(WIND)}"${zoneless(6)}","${zoneless(6)}","UGRD"\n`,
      ['f.csv, line 5: expected 7 cells, got 3'],
    ],
    [
      'a time on a day there is not',
      lines(WIND).replace(`"${zoneless(0)}","${zoneless(0)}"`, `"${zoneless(0)}","2027-02-30 00:00:00"`),
      [
        'f.csv, line 1, column valid time: expected a time in ISO 8601, like 2018-10-06T20:00Z, got "2027-02-30 00:00:00"',
      ],
    ],
    [
      'a run on a day there is not, told once',
      lines(WIND).replaceAll(`"${zoneless(0)}","${zoneless(6)}"`, `"2027-02-30 00:00:00","${zoneless(6)}"`),
      [
        'f.csv, line 3, column run time: expected a time in ISO 8601, like 2018-10-06T20:00Z, got "2027-02-30 00:00:00"',
      ],
    ],
    [
      'text for numbers',
      lines([...WIND, gribRow(0, 6, 'UGRD', TEN_M, 10, -59, 'calm'), gribRow(0, 6, 'VGRD', TEN_M, 100, -59, 1)]),
      [
        'f.csv, line 5, column UGRD: expected a number from -103 to 103, got "calm"',
        'f.csv, line 6, column lat: expected a number from -90 to 90, got "100"',
      ],
    ],
    [
      'rows that disagree',
      lines([...WIND, gribRow(0, 6, 'VGRD', TEN_M, 10, 300, 2)]),
      [`f.csv, line 5: expected rows of one point and time to agree, got another value for ${iso(6)} at 10, -60`],
    ],
  ];
  test.each(cases)('%s', async (_, text, messages) => {
    expect(await said(text)).toEqual(messages);
  });

  test('of several runs in a file the newer is taken', async () => {
    const rows = [0, 6].flatMap((run) =>
      [0, 6, 12].flatMap((step) => [
        gribRow(run, run + step, 'UGRD', TEN_M, 10, -60, run),
        gribRow(run, run + step, 'VGRD', TEN_M, 10, -60, 1),
      ]),
    );
    const { forecast } = await read(lines(rows));
    expect([0, 6, 12, 18].map((hour) => eastAt(forecast, 10, -60, hour))).toEqual(
      [0, 6, 6, 6].map((mps) => (mps === 0 ? 0 : expect.closeTo(mps * KN, 5))),
    );
  });
});

/** What a column may hold. */
type Kind =
  | 'u'
  | 'v'
  | 'speed'
  | 'from'
  | 'to'
  | 'gust'
  | 'cu'
  | 'cv'
  | 'cspeed'
  | 'cto'
  | 'cfrom'
  | 'height'
  | 'period'
  | 'wfrom'
  | 'wto';

/**
 * What publishers' names mean, written down apart from the table of the source. CF standard names with their units and
 * directions: the CF standard name table (names of wind read there; of sea water and waves at second hand); `ugrd`, `vgrd`,
 * `gust` of NCEP: WMO GRIB2 code tables 4.2-0-2 and 4.2-10-0; all the others from memory.
 */
const NAMES: Readonly<Record<Kind, readonly string[]>> = {
  u: 'eastward_wind ugrd10m ugrd_10maboveground 10u u10m u10n u-component_of_wind_height_above_ground uas'.split(' '),
  v: 'northward_wind vgrd10m vgrd_10maboveground 10v v10m v10n v-component_of_wind_height_above_ground vas'.split(' '),
  speed: ['si10', '10si', 'sfcwind'],
  from: ['wdir10', '10wdir'],
  to: ['wind_to_direction'],
  gust: 'wind_speed_of_gust gustsfc gust_surface fg10 10fg 10fg3 fg310 10fg6 fg610 wind_speed_gust_surface i10fg'.split(
    ' ',
  ),
  cu: 'eastward_sea_water_velocity surface_eastward_sea_water_velocity water_u uo utotal uogrd ocu uoe ucurr'.split(
    ' ',
  ),
  cv: 'northward_sea_water_velocity surface_northward_sea_water_velocity water_v vo vtotal vogrd ocv von vcurr'.split(
    ' ',
  ),
  cspeed: ['sea_water_speed'],
  cto: ['sea_water_velocity_to_direction'],
  cfrom: ['sea_water_velocity_from_direction'],
  height: 'sea_surface_wave_significant_height vhm0 swh htsgw htsgwsfc htsgw_surface'.split(' '),
  period:
    'sea_surface_wave_period_at_variance_spectral_density_maximum sea_surface_wave_mean_period vtpk pp1d perpw perpwsfc perpw_surface vtm10 vtm02 mwp'.split(
      ' ',
    ),
  wfrom: 'sea_surface_wave_from_direction vmdr mwd dirpw dirpwsfc dirpw_surface'.split(' '),
  wto: ['sea_surface_wave_to_direction'],
};

describe('names of publishers', () => {
  // Wind of 20 kn from 60, gusts of 30 kn, a current of 1.5 kn setting to 300, waves of 2.5 m and 9 s from 75.
  const rad = Math.PI / 180;
  const CELLS: Readonly<Record<Kind, number>> = {
    u: (-20 * Math.sin(60 * rad)) / KN,
    v: (-20 * Math.cos(60 * rad)) / KN,
    speed: 20 / KN,
    from: 60,
    to: 240,
    gust: 30 / KN,
    cu: (1.5 * Math.sin(300 * rad)) / KN,
    cv: (1.5 * Math.cos(300 * rad)) / KN,
    cspeed: 1.5 / KN,
    cto: 300,
    cfrom: 120,
    height: 2.5,
    period: 9,
    wfrom: 75,
    wto: 255,
  };
  const PLAIN_NAMES: Readonly<Partial<Record<Kind, string>>> = {
    u: 'u10',
    v: 'v10',
    speed: 'wind_speed_mps',
    from: 'wind_from_direction',
    gust: 'gust_mps',
    cu: 'current_u',
    cv: 'current_v',
    cspeed: 'current_speed_mps',
    cto: 'current_to_direction',
    height: 'wave_height',
    period: 'wave_period',
    wfrom: 'wave_from_direction',
  };
  /** A file of one row with all quantities, one of them under a given name. */
  const fileOf = (kind: Kind, name: string) => {
    const windBy: readonly Kind[] =
      kind === 'speed' ? ['speed', 'from'] : kind === 'from' || kind === 'to' ? ['speed', kind] : ['u', 'v'];
    const currentBy: readonly Kind[] =
      kind === 'cspeed' ? ['cspeed', 'cto'] : kind === 'cto' || kind === 'cfrom' ? ['cspeed', kind] : ['cu', 'cv'];
    const kinds: readonly Kind[] = [
      ...windBy,
      'gust',
      ...currentBy,
      'height',
      'period',
      kind === 'wto' ? 'wto' : 'wfrom',
    ];
    const names = kinds.map((one) => (one === kind ? name : PLAIN_NAMES[one]!));
    return lines([
      ['time', 'lat', 'lon', ...names],
      [iso(0), 10, -60, ...kinds.map((one) => CELLS[one])],
    ]);
  };
  /** Names that say nothing of a unit, as the plain speeds do not. */
  const needsUnit = (name: string) => name === 'sea_water_speed';
  const all = (Object.entries(NAMES) as [Kind, readonly string[]][]).flatMap(([kind, names]) =>
    names.map((name) => [name, kind] as const),
  );

  test('are all of the table', () => {
    expect(all.map(([name]) => name).sort()).toEqual(Object.keys(ALIASES).sort());
  });

  test.each(all)('%s is %s', async (name, kind) => {
    const unit = needsUnit(name) ? ' (m s-1)' : '';
    for (const written of [`${name}${unit}`, `${name.toUpperCase()}${unit}`]) {
      const { forecast, warnings } = await read(fileOf(kind, written));
      expect(warnings).toEqual([]);
      const weather = at(forecast, 10, -60, 0)!;
      expect(weather.wind.eastKn).toBeCloseTo(-20 * Math.sin(60 * rad), 4);
      expect(weather.wind.northKn).toBeCloseTo(-10, 4);
      expect(weather.gustKn).toBeCloseTo(30, 4);
      expect(weather.current!.eastKn).toBeCloseTo(1.5 * Math.sin(300 * rad), 5);
      expect(weather.current!.northKn).toBeCloseTo(0.75, 5);
      expect(weather.waveHeightM).toBeCloseTo(2.5, 6);
      expect(weather.wavePeriodSeconds).toBeCloseTo(9, 6);
      expect(weather.waveFromDeg).toBeCloseTo(75, 4);
    }
  });

  test.each(['sea_water_speed'])('%s needs its unit stated', async (name) => {
    expect(await said(fileOf('cspeed', name))).toEqual([
      `f.csv, line 1, column ${name}: expected the unit in the column's name, like current_speed_kn or current_speed_mps, got none`,
    ]);
  });

  test('of two for one quantity the better is used and the other told, in whatever order they stand', async () => {
    const other = (name: string) =>
      `f.csv, column ${name}: expected a column of a known quantity, got another one: it is not used`;
    const row = (cells: string) => `${iso(0)},10,-60,${cells}\n`;
    // The plain name before any other.
    for (const text of [
      `time,lat,lon,u10,v10,uas,vas\n${row('-8,1,3,3')}`,
      `time,lat,lon,uas,vas,u10,v10\n${row('3,3,-8,1')}`,
    ]) {
      expect(await said(text)).toEqual([other('uas'), other('vas')]);
      expect(eastAt((await read(text)).forecast, 10, -60, 0)).toBeCloseTo(-8 * KN, 5);
    }
    // The period of the peak before the mean, as the table says.
    for (const text of [
      `time,lat,lon,u10,v10,vtpk,vtm10\n${row('-8,1,12,9')}`,
      `time,lat,lon,u10,v10,vtm10,vtpk\n${row('-8,1,9,12')}`,
    ]) {
      expect(await said(text)).toEqual([other('vtm10')]);
      expect(at((await read(text)).forecast, 10, -60, 0)!.wavePeriodSeconds).toBe(12);
    }
    expect(await said(`time,lat,lon,u10,v10,mwp,MWP\n${row('-8,1,12,9')}`)).toEqual([
      'f.csv, line 1, column mwp: expected one column for each quantity, got mwp as well',
    ]);
  });
});

describe('columns that are chosen', () => {
  test('a time that is chosen as UTC may leave its zone out, and nothing else has such a unit', async () => {
    const text = `time,lat,lon,u10,v10\n${zoneless(0)},10,-60,-8,1\n${zoneless(3)},10,-60,-8,1\n`;
    const columns = { time: { name: 'time', unit: 'UTC' } };
    expect((await read(text, { columns })).forecast.grids[0]!.epochSeconds).toEqual(Float64Array.of(T0, T0 + 3 * HOUR));
    expect(await said(text, { columns: { time: { name: 'time', unit: 'CET' } } })).toEqual([
      'f.csv, line 1, column time: expected a unit of UTC, got "CET"',
    ]);
    expect(await said(text, { columns: { ...columns, lat: { name: 'lat', unit: 'deg' } } })).toEqual([
      'f.csv, line 1, column lat: expected a unit of none, got "deg"',
    ]);
  });

  const unused = (name: string) =>
    `f.csv, column ${name}: expected a column of a known quantity, got another one: it is not used`;

  test('for quantities, times and places', async () => {
    const text = `Valid At,Y,X,east,north,Run,Ens,t\n${iso(0)},10,-60,-8,1,${iso(-6)},07,26\n`;
    const columns = {
      time: { name: 'valid at' },
      lat: { name: 'y' },
      lon: { name: ' X ' },
      u10: { name: 'EAST', unit: 'knots' },
      v10: { name: 'North', unit: 'm/s' },
      run_time: { name: 'run' },
      member: { name: 'ens' },
    };
    const { forecast, warnings } = await read(text, { columns });
    expect(warnings.map(describeFault)).toEqual([unused('t')]);
    expect(at(forecast, 10, -60, 0)!.wind).toEqual({ eastKn: -8, northKn: expect.closeTo(KN, 5) });
    expect(forecast.grids[0]!.runEpochSeconds).toBe(T0 - 6 * HOUR);
    expect(forecast.members).toEqual(['07']);
  });

  test('before the known names, which are then not used', async () => {
    const text = `time,lat,lon,u10,v10,u10_max,v10_max\n${iso(0)},10,-60,-8,1,-12,2\n`;
    const columns = { u10: { name: 'u10_max' }, v10: { name: 'v10_max' } };
    const { forecast, warnings } = await read(text, { columns });
    expect(at(forecast, 10, -60, 0)!.wind.eastKn).toBeCloseTo(-12 * KN, 5);
    expect(warnings.map(describeFault)).toEqual([unused('u10'), unused('v10')]);
  });

  test('their unit before that of the head', async () => {
    const text = `time,lat,lon,u10 (m s-1),v10 (m s-1)\n${iso(0)},10,-60,-8,1\n`;
    const { forecast } = await read(text, { columns: { u10: { name: 'u10', unit: 'kn' } } });
    expect(at(forecast, 10, -60, 0)!.wind).toEqual({ eastKn: -8, northKn: expect.closeTo(KN, 5) });
  });

  test('in a unit that is none', async () => {
    const text = `time,lat,lon,u10,v10,g\n${iso(0)},10,-60,-8,1,20\n`;
    expect(await said(text, { columns: { gust: { name: 'g', unit: 'm' } } })).toEqual([
      'f.csv, line 1, column g: expected a unit of kn, kt, kts, knots, mps, m_s, cmps, kmh, km_h, mph, got "m"',
    ]);
    expect(await said(text, { columns: { gust: { name: 'g' } } })).toEqual([]);
  });

  test('of wgrib2: name and unit, at any level, those meant for the quantity first', async () => {
    const rows = (level: string, scale: number) => [
      gribRow(0, 0, 'UWIND', level, 10, -60, -8 * scale),
      gribRow(0, 0, 'VWIND', level, 10, -60, scale),
      gribRow(0, 0, 'UGRD', level, 10, -60, -3 * scale),
      gribRow(0, 0, 'VGRD', level, 10, -60, -3 * scale),
    ];
    const columns = { u10: { name: 'uwind', unit: 'kn' }, v10: { name: 'Vwind' } };
    for (const levels of [
      ['100 m above ground', TEN_M],
      [TEN_M, '100 m above ground'],
    ]) {
      const text = lines(levels.flatMap((level) => rows(level, level === TEN_M ? 1 : 4)));
      const { forecast, warnings } = await read(text, { columns });
      expect(at(forecast, 10, -60, 0)!.wind).toEqual({ eastKn: -8, northKn: expect.closeTo(KN, 5) });
      expect(warnings.map(({ column }) => column).sort()).toEqual(
        ['UGRD', 'VGRD']
          .flatMap((name) => [`${name} at 10 m above ground`, `${name} at 100 m above ground`])
          .concat(['UWIND at 100 m above ground', 'VWIND at 100 m above ground'])
          .sort(),
      );
    }
    // A name known anyway is no word for the wind at 100 m.
    const known = { u10: { name: 'UGRD' }, v10: { name: 'VGRD' } };
    const both = lines([...rows('100 m above ground', 4), ...rows(TEN_M, 1)]);
    expect(at((await read(both, { columns: known })).forecast, 10, -60, 0)!.wind.eastKn).toBeCloseTo(-3 * KN, 5);
    const high = said(lines(rows('100 m above ground', 4).slice(2)), { columns: known });
    expect((await high)[0]).toMatch(/^f\.csv: expected wind, gust, current or waves under a known name/);
    expect(await said(lines(rows('surface', 1)), { columns: { u10: { name: 'UWIND', unit: 'm' } } })).toEqual([
      'f.csv, line 1, column UWIND: expected a unit of kn, kt, kts, knots, mps, m_s, cmps, kmh, km_h, mph, got "m"',
    ]);
  });

  test('that are in no file', async () => {
    expect(await said(PLAIN, { columns: { gust: { name: 'squall' } } })).toEqual([
      'f.csv, column squall: expected this column for gust in the head of a forecast or climatology file, got only "time, lat, lon, u10, v10"',
    ]);
    const grib = lines([gribRow(0, 0, 'UGRD', TEN_M, 10, -60, -8), gribRow(0, 0, 'VGRD', TEN_M, 10, -60, 1)]);
    expect(await said(grib, { columns: { gust: { name: 'squall' } } })).toEqual([
      'f.csv, column squall: expected this column for gust in the head of a forecast or climatology file, got only "UGRD, VGRD"',
    ]);
  });

  test('that are in one of two files only', async () => {
    const waves = `time,lat,lon,sig\n${iso(0)},10,-60,2\n`;
    const { forecast } = await readForecast([source(PLAIN, 'wind.csv'), source(waves, 'waves.csv')], {
      columns: { wave_height: { name: 'sig', unit: 'm' } },
    });
    expect(at(forecast, 10, -60, 0)!.waveHeightM).toBe(2);
  });
});

describe('directions beside components', () => {
  const row = (cells: readonly Cell[]) => lines([[iso(0), 10, -60, ...cells]]);
  const contradiction = (column: string, off: number) =>
    `f.csv, line 2, column ${column}: expected a direction that fits the components beside it (wind from, current to), got one ${off}° off for ${iso(0)} at 10, -60`;

  test('a speed beside components is not used, and told', async () => {
    const text = `time,lat,lon,u10,v10,wind_speed,current_u,current_v,current_speed\n${row([-8, 0, 99, 0.5, 0, 9])}`;
    const { forecast, warnings } = await read(text);
    expect(warnings.map(({ column }) => column)).toEqual(['wind_speed', 'current_speed']);
    expect(at(forecast, 10, -60, 0)!.wind.eastKn).toBeCloseTo(-8 * KN, 5);
    expect(at(forecast, 10, -60, 0)!.current!.eastKn).toBeCloseTo(0.5 * KN, 6);
  });

  const wind = (u: Cell, v: Cell, from: Cell) => `time,lat,lon,u10,v10,wind_from_direction\n${row([u, v, from])}`;
  const current = (u: Cell, v: Cell, to: Cell) =>
    `time,lat,lon,u10,v10,current_u,current_v,current_to_direction\n${row([-8, 1, u, v, to])}`;

  test('that agree, or are absent', async () => {
    for (const text of [wind(-8, 0, 90), wind(-8, 0, ''), wind('', '', 90), wind(0, -8, 0), wind(0, -8, 360)]) {
      expect((await said(text)).filter((message) => message.includes('fits'))).toEqual([]);
    }
    for (const text of [current(0.5, 0, 90), current(0, 0.5, 360), current(0.5, 0, 'NaN')]) {
      expect(await said(text)).toEqual([]);
    }
  });

  test('that contradict', async () => {
    expect(await said(wind(-8, 0, 270))).toEqual([contradiction('wind_from_direction', 180)]);
    expect(await said(wind(-8, 0, 130))).toEqual([contradiction('wind_from_direction', 40)]);
    expect(await said(wind(0, -8, 340))).toEqual([contradiction('wind_from_direction', 20)]);
    // Most currents are slow; where they come from instead of where they set is seen all the same.
    expect(await said(current(0.4, 0, 270))).toEqual([contradiction('current_to_direction', 180)]);
    expect(await said(current(-2, 2, 135))).toEqual([contradiction('current_to_direction', 180)]);
  });

  test('under a publisher’s name', async () => {
    const text = `time,lat,lon,u10,v10,wind_to_direction\n${row([-8, 0, 90])}`;
    expect(await said(text)).toEqual([contradiction('wind_to_direction', 180)]);
    expect(await said(text.replace(',90\n', ',270\n'))).toEqual([]);
  });

  test('that differ in a light wind or a slack current', async () => {
    for (const text of [wind(-1, 0.5, 270), current(0.1, 0, 270), wind(0, 0, 123)])
      expect(await said(text)).toEqual([]);
  });

  const speed = fc.double({ min: 3.1 / KN, max: 40, noNaN: true });
  const angle = fc.double({ min: 0, max: 360, noNaN: true, maxExcluded: true });

  test('that are rounded to the 16 points of a compass beside components of whole m/s', async () => {
    await fc.assert(
      fc.asyncProperty(speed, angle, async (mps, from) => {
        const [u, v] = [Math.sin, Math.cos].map((part) => Math.round(-mps * part((from * Math.PI) / 180)));
        expect(
          (await said(wind(u!, v!, (Math.round(from / 22.5) * 22.5) % 360))).filter((it) => it.includes('fits')),
        ).toEqual([]);
      }),
      { numRuns: 300 },
    );
  });

  test('the opposite direction is always seen from 3 kn of wind and half a knot of current on', async () => {
    await fc.assert(
      fc.asyncProperty(speed, angle, async (mps, from) => {
        const [u, v] = [Math.sin, Math.cos].map((part) => -mps * part((from * Math.PI) / 180));
        expect(await said(wind(u!, v!, ((from + 180) % 360).toFixed(3)))).toEqual([
          contradiction('wind_from_direction', 180),
        ]);
        const slow = 0.52 / KN / mps;
        expect(await said(current(-u! * slow, -v! * slow, from.toFixed(3)))).toEqual([]);
        expect(await said(current(u! * slow, v! * slow, from.toFixed(3)))).toEqual([
          contradiction('current_to_direction', 180),
        ]);
      }),
      { numRuns: 100 },
    );
  });
});

/** A file of a wind whose component towards east is told apart by `east`, over a small grid. */
interface FileOf {
  readonly name?: string;
  readonly hours: readonly number[];
  readonly lats?: readonly number[];
  readonly lons?: readonly number[];
  readonly run?: number;
  readonly member?: string;
  /** Towards east, in knots; nothing where the file has no row there. */
  readonly east?: (hour: number, lat: number, lon: number) => Cell | undefined;
}

const SQUARE = [10, 11] as const;
const SQUARE_LONS = [-60, -59] as const;

function windFile({
  name = 'f.csv',
  hours,
  lats = SQUARE,
  lons = SQUARE_LONS,
  run,
  member,
  east = (hour, lat, lon) => hour + lat - lon,
}: FileOf) {
  const more = [...(run === undefined ? [] : ['run_time']), ...(member === undefined ? [] : ['member'])];
  const cells = [...(run === undefined ? [] : [iso(run)]), ...(member === undefined ? [] : [member])];
  const rows = pointsOf(hours, lats, lons).flatMap(([hour, lat, lon]) => {
    const value = east(hour, lat, lon);
    return value === undefined ? [] : [[iso(hour), lat, lon, value, value === '' ? '' : 1, ...cells]];
  });
  return source(`${['time', 'lat', 'lon', 'u10_kn', 'v10_kn', ...more].join(',')}\n${lines(rows)}`, name);
}

const readAll = async (...sources: readonly ReturnType<typeof source>[]) => (await readForecast(sources)).forecast;
const MIDDLE = [10.5, -59.5] as const;
const east = (forecast: Forecast, hours: readonly number[], [lat, lon] = MIDDLE as readonly [number, number]) =>
  hours.map((hour) => {
    const value = eastAt(forecast, lat, lon, hour);
    return value === undefined ? undefined : Number(value.toFixed(4));
  });

describe('members of an ensemble', () => {
  const ensemble = (members: readonly string[], column = 'member') =>
    `time,lat,lon,u10_kn,v10_kn,${column}\n${lines(
      members.flatMap((member, i) =>
        [0, 6].flatMap((hour) =>
          SQUARE.flatMap((lat) => SQUARE_LONS.map((lon) => [iso(hour), lat, lon, 10 * (i + 1), 1, member])),
        ),
      ),
    )}`;

  test('all are kept, and one is picked later', async () => {
    const { forecast, warnings } = await read(ensemble(['c00', 'p01', 'p02']));
    expect(warnings).toEqual([]);
    expect(forecast.members).toEqual(['c00', 'p01', 'p02']);
    expect(forecast.grids.map(({ member }) => member)).toEqual(['c00', 'p01', 'p02']);
    for (const [i, member] of ['c00', 'p01', 'p02'].entries()) {
      const one = memberOf(forecast, member);
      expect(one.members).toEqual([member]);
      expect(east(one, [0, 3])).toEqual([10 * (i + 1), 10 * (i + 1)]);
    }
    expect(() => memberOf(forecast, 'p03')).toThrow(
      'f.csv, column member: expected one of c00, p01, p02, got "p03" (did you mean "p01"?)',
    );
  });

  test('one is kept where it is asked for, and is the same as if picked later', async () => {
    const text = ensemble(['c00', 'p01', 'p02']);
    const { forecast } = await read(text, { member: 'p01' });
    expect(forecast).toEqual(memberOf((await read(text)).forecast, 'p01'));
    expect(await said(text, { member: 'p1' })).toEqual([
      'f.csv, column member: expected one of c00, p01, p02, got "p1" (did you mean "p01"?)',
    ]);
  });

  test.each(['number', 'Realization', 'ensemble_member'])('in a column %s', async (column) => {
    expect((await read(ensemble(['1', '2'], column))).forecast.members).toEqual(['1', '2']);
  });

  test('rows of different members never disagree, of one they do', async () => {
    const text = ensemble(['1', '2']);
    expect(await said(text)).toEqual([]);
    expect(await said(`${text}${iso(0)},10,-60,11,1,1\n`)).toEqual([
      `f.csv, line 18: expected rows of one point and time to agree, got another value for ${iso(0)} at 10, -60`,
    ]);
  });

  test('a file of no ensemble serves every member', async () => {
    const waves = `time,lat,lon,wave_height\n${lines(pointsOf([0, 6], SQUARE, SQUARE_LONS).map(([hour, lat, lon]) => [iso(hour), lat, lon, 2]))}`;
    const forecast = await readAll(source(ensemble(['1', '2'])), source(waves, 'waves.csv'));
    for (const member of ['1', '2']) expect(at(memberOf(forecast, member), ...MIDDLE, 3)!.waveHeightM).toBe(2);
    const one = await readForecast([source(ensemble(['1', '2'])), source(waves, 'waves.csv')], { member: '2' });
    expect(at(one.forecast, ...MIDDLE, 3)).toMatchObject({ waveHeightM: 2, wind: { eastKn: 20 } });
  });

  test('a member that one of two ensembles lacks', async () => {
    const [wind, later] = [
      source(ensemble(['1', '2']), 'a.csv'),
      windFile({ name: 'b.csv', hours: [12], member: '1' }),
    ];
    expect(await saidOf([wind, later], { member: '2' })).toEqual([
      'b.csv, column member: expected one of 1, got "2" (did you mean "1"?)',
    ]);
    expect((await readForecast([wind, later], { member: '1' })).forecast.members).toEqual(['1']);
  });

  test('a wind of no ensemble must agree with that of the members', async () => {
    const other = windFile({ name: 'b.csv', hours: [0], east: () => 10 });
    expect(await saidOf([source(ensemble(['1'])), other])).toEqual([]);
    expect(await saidOf([source(ensemble(['1', '2'])), other])).toEqual([
      `b.csv, windEastKn: expected the values of "f.csv" where both files have them, or a run time in both, got others at 4 points and times, first 10.00 against 20.00 for ${iso(0)} at 10, -60`,
    ]);
  });
});

describe('runs in a file', () => {
  test('the newer is taken, the older fills what it lacks in time and place', async () => {
    const run = (start: number, steps: readonly number[], lons: readonly number[]) =>
      pointsOf(
        steps.map((step) => start + step),
        SQUARE,
        lons,
      ).map(([hour, lat, lon]) => [iso(hour), lat, lon, start + 1, 1, iso(start)]);
    const text = `time,lat,lon,u10_kn,v10_kn,forecast_reference_time\n${lines([
      ...run(0, [0, 3, 6, 9, 12], [-60, -59, -58]),
      ...run(6, [0, 3], [-60, -59]),
    ])}`;
    const { forecast } = await read(text);
    expect(forecast.grids.map(({ runEpochSeconds }) => runEpochSeconds)).toEqual([T0, T0 + 6 * HOUR]);
    expect(east(forecast, [0, 3, 6, 7.5, 9, 12])).toEqual([1, 1, 7, 7, 7, 1]);
    expect(east(forecast, [0, 6, 9, 12], [10.5, -58.5])).toEqual([1, 1, 1, 1]);
  });

  test('a run time without its zone, or that is none', async () => {
    const text = (run: string) => `time,lat,lon,u10,v10,run_time\n${iso(0)},10,-60,-8,1,${run}\n`;
    expect(await said(text('2027-01-10'))).toEqual([
      'f.csv, line 2, column run_time: expected a time that states UTC by Z or gives its offset, like 2018-10-06T20:00Z (or --column time=run_time:UTC where it is UTC), got "2027-01-10"',
    ]);
    expect(await said(text('yesterday'))).toEqual([
      'f.csv, line 2, column run_time: expected a time in ISO 8601, like 2018-10-06T20:00Z, got "yesterday"',
    ]);
  });
});

describe('several files', () => {
  test('later times on the same lines', async () => {
    const both = await readAll(windFile({ hours: [6, 9], name: 'b.csv' }), windFile({ hours: [0, 3], name: 'a.csv' }));
    const one = await readAll(windFile({ hours: [0, 3, 6, 9] }));
    const hours = [-1, 0, 1, 3, 4.5, 6, 8, 9, 10];
    expect(east(both, hours)).toEqual(east(one, hours));
    expect(both.file).toBe('b.csv + a.csv');
    expect(both.covers).toEqual(one.covers);
    expect(at(both, ...MIDDLE, 4.5)!.bridged).toBeUndefined();
  });

  test('later times on other lines: drawn straight across the seam', async () => {
    const coarse = { lats: [8, 12], lons: [-64, -56] };
    const flat = (value: number) => () => value;
    const both = await readAll(
      windFile({ hours: [0, 3], east: flat(10), name: 'a.csv' }),
      windFile({ hours: [6, 12], ...coarse, east: flat(16), name: 'b.csv' }),
    );
    expect(east(both, [0, 3, 4, 5, 6, 12])).toEqual([10, 10, 12, 14, 16, 16]);
    // Outside the first file's grid there is wind only from the second's first time on.
    expect(east(both, [3, 5.9, 6, 9], [9, -60])).toEqual([undefined, undefined, 16, 16]);
  });

  test('a file for each time is no row of gaps', async () => {
    const files = [0, 3, 6, 9, 12, 15].map((hour) => windFile({ hours: [hour], name: `f${hour}.csv` }));
    const forecast = await readAll(...files);
    for (let hour = 0; hour <= 15; hour += 0.5) {
      expect(east(forecast, [hour])[0]).toBeCloseTo(hour + 70, 4);
      expect(at(forecast, ...MIDDLE, hour)!.bridged).toBeUndefined();
    }
    const holed = await readAll(...files.filter((_, i) => i !== 3));
    expect(at(holed, ...MIDDLE, 8)!.bridged).toEqual({
      fromEpochSeconds: T0 + 6 * HOUR,
      toEpochSeconds: T0 + 12 * HOUR,
    });
    expect(at(holed, ...MIDDLE, 5)!.bridged).toBeUndefined();
    // The same where each is a run of its own.
    const runs = await readAll(
      ...[0, 6, 12, 18].map((hour) => windFile({ hours: [hour], run: hour, name: `r${hour}.csv` })),
    );
    expect(at(runs, ...MIDDLE, 9)!.bridged).toBeUndefined();
  });

  test('a gap that a second file fills', async () => {
    const holed = windFile({ hours: [0, 3, 18, 21], name: 'a.csv' });
    expect(east(await readAll(holed), [3, 6, 12, 18])).toEqual([73, undefined, undefined, 88]);
    const filled = await readAll(holed, windFile({ hours: [6, 9, 12, 15], name: 'b.csv' }));
    expect(east(filled, [3, 6, 10.5, 17, 18])).toEqual([73, 76, 80.5, 87, 88]);
    expect(at(filled, ...MIDDLE, 10.5)!.bridged).toBeUndefined();
    const bridged = await readAll(windFile({ hours: [0, 3, 12, 15], name: 'a.csv' }));
    expect(at(bridged, ...MIDDLE, 6)!.bridged).toEqual({
      fromEpochSeconds: T0 + 3 * HOUR,
      toEpochSeconds: T0 + 12 * HOUR,
    });
  });

  test('waves and currents on other grids and at other times', async () => {
    const waves = `time,latitude,longitude,VHM0,VTPK,VMDR\n${lines(
      pointsOf([-6, 6], [9, 12], [298, 304]).map(([hour, lat, lon]) => [
        iso(hour),
        lat,
        lon,
        2 + hour / 6,
        8,
        lon < 300 ? 350 : 10,
      ]),
    )}`;
    const currents = `time,lat,lon,water_u,water_v\n${lines(
      pointsOf([1, 2, 3], [10.4, 10.6], [-59.6, -59.4]).map(([hour, lat, lon]) =>
        [iso(hour), lat, lon, hour / 10, 'NaN'].map((cell) => (cell === 'NaN' ? 0.1 : cell)),
      ),
    )}`;
    const forecast = await readAll(
      source(waves, 'waves.csv'),
      windFile({ hours: [0, 6] }),
      source(currents, 'currents.csv'),
    );
    const weather = at(forecast, ...MIDDLE, 2.5)!;
    expect(weather.wind.eastKn).toBeCloseTo(72.5, 4);
    expect(weather.waveHeightM).toBeCloseTo(2 + 2.5 / 6, 5);
    expect(weather.wavePeriodSeconds).toBe(8);
    expect(weather.current!.eastKn).toBeCloseTo(0.25 * KN, 5);
    // Outside their own grid or times they are absent, and the wind is not.
    expect(at(forecast, 10.1, -59.9, 2.5)).not.toHaveProperty('current');
    expect(at(forecast, ...MIDDLE, 0.5)).not.toHaveProperty('current');
    expect(at(forecast, ...MIDDLE, 6)).toHaveProperty('waveHeightM');
    expect(at(forecast, ...MIDDLE, 6)).not.toHaveProperty('current');
    // What the forecast covers is where it has wind.
    expect(forecast.covers).toMatchObject({ fromEpochSeconds: T0, toEpochSeconds: T0 + 6 * HOUR, latMinDeg: 10 });
  });

  test('overlapping runs: the newer wins where it has wind', async () => {
    const newer = windFile({ hours: [6, 9, 12], run: 6, east: () => 20, name: 'new.csv' });
    const older = windFile({ hours: [0, 3, 6, 9, 12, 15, 18], run: 0, east: () => 10, name: 'old.csv' });
    const hours = [0, 3, 4.5, 6, 7, 9, 12, 13.5, 15, 18, 19];
    // Between two runs' times the line is straight from one to the other.
    const expected = [10, 10, 15, 20, 20, 20, 20, 15, 10, 10, undefined];
    expect(east(await readAll(newer, older), hours)).toEqual(expected);
    expect(east(await readAll(older, newer), hours)).toEqual(expected);
  });

  test('the older fills what the newer lacks in place, and in a gap too long to bridge', async () => {
    const older = windFile({ hours: [0, 6, 12, 18, 24, 30], run: 0, east: () => 10, name: 'old.csv' });
    const holed = windFile({ hours: [6, 12, 18], run: 6, east: (_, lat) => (lat === 10 ? '' : 20), name: 'new.csv' });
    expect(east(await readAll(holed, older), [6, 9, 12], [10, -60])).toEqual([10, 10, 10]);
    expect(east(await readAll(holed, older), [6, 9, 12], [11, -60])).toEqual([20, 20, 20]);
    const gap = windFile({ hours: [0, 3, 27, 30], run: 6, east: () => 20, name: 'new.csv' });
    for (const files of [
      [gap, older],
      [older, gap],
    ]) {
      const hours = [0, 3, 4.5, 6, 12, 18, 24, 25.5, 27, 30];
      expect(east(await readAll(...files), hours)).toEqual([20, 20, 15, 10, 10, 10, 10, 15, 20, 20]);
    }
    // Times of the older that fall among the newer's serve where the newer has nothing at all.
    const between = windFile({ hours: [3, 9, 15], run: 0, east: () => 10, name: 'old.csv' });
    expect(east(await readAll(holed, between), [3, 9, 12], [10, -60])).toEqual([10, 10, 10]);
  });

  test('on other lines each run stands by itself, the newer first', async () => {
    const newer = windFile({ hours: [6, 12], run: 6, lats: [10, 10.5, 11], east: () => 20, name: 'new.csv' });
    const older = windFile({
      hours: [0, 6, 12, 18],
      run: 0,
      lats: [8, 12],
      lons: [-62, -56],
      east: () => 10,
      name: 'old.csv',
    });
    for (const files of [
      [newer, older],
      [older, newer],
    ]) {
      const forecast = await readAll(...files);
      expect(east(forecast, [0, 5, 6, 9, 12, 13])).toEqual([10, 10, 20, 20, 20, 10]);
      expect(east(forecast, [0, 6, 9, 18], [9, -60])).toEqual([10, 10, 10, 10]);
    }
  });

  test('where no run has both sides, the line is straight between the nearest times of any', async () => {
    const newer = windFile({ hours: [6, 9], run: 6, lats: [10, 10.5, 11], east: () => 20, name: 'new.csv' });
    const older = windFile({ hours: [0, 3], run: 0, east: () => 10, name: 'old.csv' });
    for (const files of [
      [newer, older],
      [older, newer],
    ]) {
      expect(east(await readAll(...files), [2, 3, 4, 5, 6])).toEqual([10, 10, 13.3333, 16.6667, 20]);
    }
    expect(east(await readAll(windFile({ hours: [16, 19], run: 6, name: 'later.csv' }), older), [3, 9.5])).toEqual([
      10,
      undefined,
    ]);
  });

  test('runs whose lines differ by rounding only are on the same lines', async () => {
    // 298.4 − 360 is not −61.6 to the last bit.
    const newer = windFile({ hours: [6, 9], run: 6, lons: [298.4, 299.2], east: () => 20, name: 'new.csv' });
    const older = windFile({ hours: [0, 3, 6, 9], run: 0, lons: [-61.6, -60.8], east: () => 10, name: 'old.csv' });
    expect(east(await readAll(newer, older), [3, 4.5, 6], [10.5, -61])).toEqual([10, 15, 20]);
  });

  test('a chain of short runs is one series, also where lines differ by rounding', async () => {
    const lons = (from: number) => [from + 298.4, from + 299.2, from + 300];
    const chain = [0, 6, 12, 18].map((run, i) =>
      windFile({
        hours: [run, run + 3],
        run,
        lons: lons(i % 2 === 0 ? 0 : -360).map((lon) => Number(lon.toFixed(1))),
        east: (hour) => hour,
        name: `${run}.csv`,
      }),
    );
    const forecast = await readAll(...chain);
    for (let hour = 0; hour <= 21; hour += 0.75) {
      expect(eastAt(forecast, 10.5, -61, hour)).toBeCloseTo(hour, 4);
      expect(at(forecast, 10.5, -61, hour)!.bridged).toBeUndefined();
    }
    expect(east(forecast, [21.5], [10.5, -61])).toEqual([undefined]);
  });

  test('grids of one run that lie in each other: the finer where it reaches', async () => {
    const fine = windFile({ hours: [0, 3, 6], run: 0, east: () => 20, name: 'fine.csv' });
    const wide = windFile({
      hours: [0, 3, 6],
      run: 0,
      lats: [8, 12],
      lons: [-62, -57],
      east: () => 10,
      name: 'wide.csv',
    });
    for (const files of [
      [fine, wide],
      [wide, fine],
    ]) {
      const forecast = await readAll(...files);
      expect(east(forecast, [0, 2, 6])).toEqual([20, 20, 20]);
      expect(east(forecast, [0, 2, 6], [9, -59])).toEqual([10, 10, 10]);
    }
  });

  const DISAGREE = (got: string, other: string, points: number) =>
    `b.csv, windEastKn: expected the values of "a.csv" where both files have them, or a run time in both, got others at ${points} points and times, first ${got} against ${other} for ${iso(3)} at 10, -60`;

  test.each([
    ['neither says its run', {}, {}],
    ['both are of one run', { run: 0 }, { run: 0 }],
    ['one does not say its run', { run: 0 }, {}],
    ['the other does not say its run', {}, { run: 6 }],
  ])('that disagree where %s', async (_, a, b) => {
    const first = windFile({ name: 'a.csv', hours: [0, 3], east: () => 10, ...a });
    const second = windFile({ name: 'b.csv', hours: [3, 6], east: () => 12, ...b });
    expect(await saidOf([first, second])).toEqual([DISAGREE('12.00', '10.00', 4)]);
    // Where they agree as far as two decimals of m/s tell, all is well.
    const near = windFile({ name: 'b.csv', hours: [3, 6], east: () => 10.02, ...b });
    expect(await saidOf([first, near])).toEqual([]);
  });

  test('that disagree at one point only, whatever way their longitudes are written', async () => {
    const lons = [-60, -0.7, 0, 0.7];
    const first = windFile({ name: 'a.csv', hours: [3], lons, east: () => 10 });
    for (const turn of [0, 360]) {
      for (const odd of lons) {
        const second = windFile({
          name: 'b.csv',
          hours: [3],
          lons: lons.map((lon) => (lon < 0 ? lon + turn : lon)),
          east: (_, lat, lon) => (lat === 11 && Math.abs(lon - (odd < 0 ? odd + turn : odd)) < 1e-9 ? 12 : 10),
        });
        expect(await saidOf([first, second])).toEqual([
          `b.csv, windEastKn: expected the values of "a.csv" where both files have them, or a run time in both, got others at 1 point and time, first 12.00 against 10.00 for ${iso(3)} at 11, ${odd}`,
        ]);
      }
    }
  });

  test('that disagree across the date line', async () => {
    const first = windFile({ name: 'a.csv', hours: [3], lons: [178, 179, -180, -179], east: () => 10 });
    const second = windFile({
      name: 'b.csv',
      hours: [3],
      lons: [-180, -179],
      east: (_, lat) => (lat === 11 ? 12 : 10),
    });
    expect(await saidOf([first, second])).toEqual([
      `b.csv, windEastKn: expected the values of "a.csv" where both files have them, or a run time in both, got others at 2 points and times, first 12.00 against 10.00 for ${iso(3)} at 11, -180`,
    ]);
  });

  test('the same file twice, and parts that overlap and agree', async () => {
    const file = windFile({ hours: [0, 3, 6] });
    const hours = [0, 1, 3, 5, 6];
    expect(east(await readAll(file, file), hours)).toEqual(east(await readAll(file), hours));
    const parts = await readAll(windFile({ hours: [0, 3], name: 'a.csv' }), windFile({ hours: [3, 6], name: 'b.csv' }));
    expect(east(parts, hours)).toEqual(east(await readAll(file), hours));
  });

  test('faults of all files are told, and a file that cannot be read does not hide those of another', async () => {
    const ragged = source(`time,lat,lon,u10,v10\n${iso(0)},10\n`, 'b.csv');
    expect(await saidOf([source('', 'a.csv'), ragged])).toEqual([
      'a.csv: expected a header line and at least one row, got none',
      'b.csv, line 2: expected 5 cells, got 2',
    ]);
  });

  test('waves alone are no forecast, nor is no file', async () => {
    const waves = `time,lat,lon,wave_height\n${iso(0)},10,-60,2\n`;
    const without =
      'expected u10 and v10, or wind_speed with its unit and wind_from_direction, got "time, lat, lon, wave_height"';
    expect(await said(waves)).toEqual([`f.csv, line 1: ${without}`]);
    expect(await saidOf([source(waves, 'a.csv'), source(waves, 'b.csv')])).toEqual([
      `a.csv, line 1: ${without}`,
      `b.csv, line 1: ${without}`,
    ]);
    expect(await saidOf([])).toEqual(['forecast: expected a header line and at least one row, got none']);
  });

  test('the order of files never matters', async () => {
    const hourList = fc.subarray([0, 3, 6, 9, 12, 18, 24, 30], { minLength: 1 });
    const grid = fc.constantFrom<Partial<FileOf>>(
      {},
      { lats: [10, 10.5, 11] },
      { lats: [9, 11, 13], lons: [-62, -60, -58] },
      { lats: [9.5, 10.5], lons: [300.5, 301.5] },
    );
    const file = fc.tuple(hourList, grid, fc.option(fc.constantFrom(0, 6, 12), { nil: undefined }), fc.nat(6));
    await fc.assert(
      fc.asyncProperty(
        fc
          .array(file, { minLength: 2, maxLength: 4 })
          .chain((files) =>
            fc.tuple(fc.constant(files), fc.shuffledSubarray([...files.keys()], { minLength: files.length })),
          ),
        async ([files, order]) => {
          // Files of one run, or of none, agree where they overlap; every seventh value is absent.
          const anyUnsaid = files.some(([, , run]) => run === undefined);
          const sources = files.map(([hours, lines, run, hole], f) =>
            windFile({
              ...lines,
              hours,
              ...(run === undefined ? {} : { run }),
              name: `${f}.csv`,
              east: (hour, lat, lon) =>
                Math.round(2 * (hour + lat + lon)) % 7 === hole
                  ? ''
                  : hour + 2 * lat - (lon > 180 ? lon - 360 : lon) + (anyUnsaid ? 0 : (run ?? 0)),
            }),
          );
          const readAs = async (list: typeof sources) => {
            try {
              return await readAll(...list);
            } catch (error) {
              if (error instanceof InputError) return [...error.faults].map(describeFault).sort();
              throw error;
            }
          };
          const [one, other] = [await readAs(sources), await readAs(order.map((i) => sources[i]!))];
          if (Array.isArray(one) || Array.isArray(other)) {
            expect(other).toEqual(one);
            return;
          }
          for (const lat of [9, 9.7, 10, 10.25, 10.5, 11, 12]) {
            for (const lon of [-62, -60, -59.75, -59.5, -59, -58.5]) {
              for (const hour of [0, 2, 3, 7, 12, 16, 24, 29]) {
                expect(at(other, lat, lon, hour)).toEqual(at(one, lat, lon, hour));
              }
            }
          }
        },
      ),
      { numRuns: 80 },
    );
  });

  test('runs on the same lines and steps: at each point and time the newest that has a value, straight lines between', async () => {
    const value = fc.oneof(
      { weight: 5, arbitrary: fc.integer({ min: -40, max: 40 }) },
      { weight: 1, arbitrary: fc.constant('') },
    );
    const run = fc.record({
      start: fc.integer({ min: 0, max: 4 }),
      steps: fc.integer({ min: 1, max: 4 }),
      values: fc.array(value, { minLength: 20, maxLength: 20 }),
    });
    await fc.assert(
      fc.asyncProperty(
        fc.uniqueArray(run, { minLength: 1, maxLength: 4, selector: ({ start }) => start }),
        async (runs) => {
          const cellOf = ({ start, values }: (typeof runs)[number], hour: number, lat: number, lon: number) => {
            const cell = values[4 * (hour / 3 - start) + 2 * (lat - 10) + (lon + 60)]!;
            // A time without any value would be none of the run's, and a gap that it bridges.
            return cell === '' && lat === 10 && lon === -60 ? start : cell;
          };
          const sources = runs.map((one) =>
            windFile({
              hours: Array.from({ length: one.steps + 1 }, (_, i) => 3 * (one.start + i)),
              run: 3 * one.start,
              name: `${one.start}.csv`,
              east: (hour, lat, lon) => cellOf(one, hour, lat, lon),
            }),
          );
          const forecast = await readAll(...sources);
          const newestFirst = [...runs].sort((a, b) => b.start - a.start);
          const truth = (hour: number, lat: number, lon: number) => {
            const having = newestFirst.filter(({ start, steps }) => hour / 3 >= start && hour / 3 <= start + steps);
            return having.map((one) => cellOf(one, hour, lat, lon)).find((cell) => cell !== '') as number | undefined;
          };
          for (const lat of SQUARE) {
            for (const lon of SQUARE_LONS) {
              for (let hour = 0; hour <= 24; hour += 3) {
                const [now, next] = [truth(hour, lat, lon), truth(hour + 3, lat, lon)];
                if (now !== undefined) expect(eastAt(forecast, lat, lon, hour)).toBe(now);
                if (now === undefined || next === undefined) continue;
                expect(eastAt(forecast, lat, lon, hour + 1)).toBeCloseTo((2 * now + next) / 3, 9);
              }
            }
          }
        },
      ),
      { numRuns: 200 },
    );
  });
});

describe('sampling a single file', () => {
  test('is as a plain implementation has it', async () => {
    const cell = fc.oneof(
      { weight: 6, arbitrary: fc.double({ min: -60, max: 60, noNaN: true }).map((value) => value.toFixed(2)) },
      { weight: 1, arbitrary: fc.constantFrom('', 'NaN', '-9999') },
      { weight: 1, arbitrary: fc.constant(undefined) },
    );
    const axis = (min: number, max: number, step: number) =>
      fc
        .uniqueArray(fc.integer({ min: 0, max: Math.round((max - min) / step) }), { minLength: 1, maxLength: 4 })
        .map((steps) => steps.sort((a, b) => a - b).map((i) => Number((min + i * step).toFixed(3))));
    const share = fc.oneof(
      fc.integer({ min: -50, max: 1050 }).map((i) => i / 1000),
      fc.constantFrom(0, 0.5, 1),
    );
    await fc.assert(
      fc.asyncProperty(
        axis(0, 40, 1),
        axis(-12, 12, 0.5),
        // Across the date line, too, and in either way of writing.
        axis(160, 200, 0.8),
        fc.boolean(),
        fc.array(cell, { minLength: 64, maxLength: 64 }),
        fc.array(fc.tuple(share, share, share), { minLength: 12, maxLength: 12 }),
        async (hours, lats, lons, isTurned, cells, places) => {
          let next = 0;
          const rows: { hour: number; lat: number; lon: number; east: string }[] = [];
          for (const [hour, lat, lon] of pointsOf(hours, lats, lons)) {
            const east = cells[next++ % cells.length];
            if (east !== undefined) rows.push({ hour, lat, lon, east });
          }
          if (rows.every(({ east }) => !(Math.abs(Number(east)) <= 60 && east !== ''))) return;
          const text = `time,lat,lon,u10_kn,v10_kn\n${lines(
            rows.map(({ hour, lat, lon, east }) => [
              iso(hour),
              lat,
              isTurned && lon >= 180 ? Number((lon - 360).toFixed(3)) : lon,
              east,
              east,
            ]),
          )}`;
          const { forecast } = await read(text);
          const end = (values: readonly number[], part: number) => values[0]! + part * (values.at(-1)! - values[0]!);
          for (const [a, b, c] of places) {
            const [hour, lat, lon] = [end(hours, a), end(lats, b), end(lons, c)];
            const ours = eastAt(forecast, lat, lon, hour);
            const theirs = plainSample(rows, hour, lat, lon);
            if (theirs === undefined) expect(ours).toBeUndefined();
            else expect(ours).toBeCloseTo(theirs, 4);
          }
        },
      ),
      { numRuns: 600 },
    );
  });
});

interface PlainRow {
  readonly hour: number;
  readonly lat: number;
  readonly lon: number;
  readonly east: string;
}

/**
 * The rule of sampling written as plainly as can be, on the rows of a file: lines where any row stands, times at which any
 * point has a value; the cell around the place, the weights of present corners scaled up where the nearest is present; no
 * value where the two times around are more than 12 h apart or either has none at the place.
 */
function plainSample(rows: readonly PlainRow[], hour: number, lat: number, lon: number): number | undefined {
  const numberOf = ({ east }: PlainRow) =>
    east === '' || east === 'NaN' || east === '-9999' ? undefined : Number(east);
  const rising = (values: readonly number[]) => [...new Set(values)].sort((a, b) => a - b);
  const around = (values: readonly number[], value: number) => {
    const near = 1e-6;
    if (!(value >= values[0]! - near && value <= values.at(-1)! + near)) return undefined;
    const held = Math.min(values.at(-1)!, Math.max(values[0]!, value));
    const low = values.filter((one) => one <= held).at(-1)!;
    const high = values.find((one) => one > held) ?? low;
    return { low, high, share: high === low ? 0 : (held - low) / (high - low) };
  };
  const times = rising(rows.filter((row) => numberOf(row) !== undefined).map((row) => row.hour));
  const [y, x] = [around(rising(rows.map((row) => row.lat)), lat), around(rising(rows.map((row) => row.lon)), lon)];
  if (y === undefined || x === undefined || times.length === 0 || hour < times[0]! || hour > times.at(-1)!)
    return undefined;
  const atTime = (time: number) => {
    const corners = [
      { lat: y.low, lon: x.low, weight: (1 - y.share) * (1 - x.share) },
      { lat: y.low, lon: x.high, weight: (1 - y.share) * x.share },
      { lat: y.high, lon: x.low, weight: y.share * (1 - x.share) },
      { lat: y.high, lon: x.high, weight: y.share * x.share },
    ].filter(({ weight }) => weight > 0);
    const nearest = Math.max(...corners.map(({ weight }) => weight));
    let [sum, weights, isNearestThere] = [0, 0, false];
    for (const corner of corners) {
      const row = rows.find((one) => one.hour === time && one.lat === corner.lat && one.lon === corner.lon);
      const value = row === undefined ? undefined : numberOf(row);
      if (value === undefined) continue;
      sum += corner.weight * value;
      weights += corner.weight;
      if (corner.weight >= nearest - 1e-9) isNearestThere = true;
    }
    return isNearestThere ? sum / weights : undefined;
  };
  const before = times.filter((time) => time <= hour).at(-1)!;
  const after = times.find((time) => time >= hour)!;
  if (after - before > 12) return undefined;
  const [first, last] = [atTime(before), atTime(after)];
  if (first === undefined || last === undefined) return undefined;
  return before === after ? first : first + ((last - first) * (hour - before)) / (after - before);
}

describe('a wind of exactly nothing', () => {
  const lats = [10, 11, 12, 13];
  const lons = [-60, -59, -58, -57];
  const withZeros = (zeros: readonly (readonly [lat: number, lon: number])[], extra: readonly number[] = []) =>
    table('time,lat,lon,u10,v10', pointsOf([0, ...extra], lats, lons), (hour, lat, lon) => {
      const isZero = zeros.some(([zeroLat, zeroLon]) => zeroLat === lat && zeroLon === lon);
      return [iso(hour), lat, lon, ...(isZero ? [0, 0] : [0, 1])];
    });
  const warned = (points: number, lat: number, lon: number) =>
    `f.csv: expected wind that is exactly 0 at single points at most, got ${points} neighbouring points and times with both components exactly 0, first for ${iso(0)} at ${lat}, ${lon}: rather a fill value or land than a calm`;

  test.each([
    ['one point', [[10, -60]]],
    [
      'two neighbours',
      [
        [10, -60],
        [10, -59],
      ],
    ],
    [
      'two and two',
      [
        [10, -60],
        [10, -59],
        [11, -60],
        [11, -59],
      ],
    ],
    [
      'three across the corners',
      [
        [10, -60],
        [11, -59],
        [12, -58],
      ],
    ],
    [
      'two, a gap, and another',
      [
        [10, -60],
        [10, -59],
        [10, -57],
      ],
    ],
    [
      'the end of one line and the start of the next',
      [
        [10, -58],
        [10, -57],
        [11, -60],
      ],
    ],
  ] as const)('%s is not told', async (_, zeros) => {
    expect(await said(withZeros(zeros))).toEqual([]);
  });

  test.each([
    [
      'three along a latitude',
      [
        [11, -60],
        [11, -59],
        [11, -58],
      ],
      warned(3, 11, -60),
    ],
    [
      'three along a longitude',
      [
        [11, -57],
        [12, -57],
        [13, -57],
      ],
      warned(3, 11, -57),
    ],
    [
      'a cross, its middle once',
      [
        [10, -59],
        [11, -60],
        [11, -59],
        [11, -58],
        [12, -59],
      ],
      warned(5, 10, -59),
    ],
    [
      'four in a row',
      [
        [13, -60],
        [13, -59],
        [13, -58],
        [13, -57],
      ],
      warned(4, 13, -60),
    ],
  ] as const)('%s are told', async (_, zeros, message) => {
    expect(await said(withZeros(zeros))).toEqual([message]);
  });

  test('times are counted too, and points at different times are no neighbours', async () => {
    expect(
      await said(
        withZeros(
          [
            [11, -60],
            [11, -59],
            [11, -58],
          ],
          [3, 6],
        ),
      ),
    ).toEqual([warned(9, 11, -60)]);
    expect(await said(withZeros([[11, -60]], [3, 6, 9]))).toEqual([]);
  });

  test('a component of nothing by itself is a wind', async () => {
    expect(
      await said(
        table('time,lat,lon,u10,v10', pointsOf([0], lats, lons), (hour, lat, lon) => [iso(hour), lat, lon, 0, -7]),
      ),
    ).toEqual([]);
  });
});

describe('a file of as many runs, members or lines as rows', () => {
  const minute = (i: number) => new Date((T0 + i * 60) * 1000).toISOString();
  const rows = (count: number, row: (i: number) => string) =>
    Array.from({ length: count }, (_, i) => row(i)).join('\n');

  test('members and runs', async () => {
    const text = `time,lat,lon,u10,v10,member,run_time\n${rows(10_000, (i) => `${minute(i)},10,-60,-8,1,m${i % 100},${minute(i)}`)}\n`;
    const { forecast } = await read(text);
    expect(forecast.members!.length).toBe(100);
    expect(forecast.grids.length).toBe(10_000);
    expect(at(memberOf(forecast, 'm7'), 10, -60, 5)!.wind.eastKn).toBeCloseTo(-8 * KN, 5);
  });

  test('small scattered members are refused as one large is', async () => {
    const scattered = Array.from({ length: 20 }, (_, member) =>
      rows(150, (i) => `${minute(i * 10)},${i / 10},${i / 8},-8,1,${member}`),
    ).join('\n');
    expect(await said(`time,lat,lon,u10,v10,member\n${scattered}\n`)).toEqual([
      'f.csv: expected points on the lines of a grid, got 150 rows spread over 3375000 grid points and times',
    ]);
  });

  test('more latitudes than an axis takes', async () => {
    const text = `time,lat,lon,u10,v10\n${rows(150_000, (i) => `${iso(0)},${(i * 0.0005).toFixed(4)},-60,-8,1`)}\n`;
    expect(await said(text)).toEqual([
      'f.csv, line 65537: expected at most 65535 different times, latitudes and longitudes each, got more',
    ]);
  });
});
