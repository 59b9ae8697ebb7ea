import { createReadStream, existsSync, readdirSync, readFileSync } from 'node:fs';
import { beforeAll, describe, expect, test } from 'vitest';
import {
  cropBoxOf,
  describeFault,
  type Forecast,
  type Grid,
  layTrack,
  type Passage,
  planPassage,
  type ReadForecast,
  readBoat,
  readForecast,
  readPolars,
  readRoute,
  weatherAt,
} from '../src/index.js';
import { fixture } from './truth/fixture.js';
import tradeWinds from './truth/tradeWinds.json' with { type: 'json' };

const FOLDER = '../shared/data';
const isHere = existsSync(FOLDER);
if (!isHere) console.warn(`skipped: the tests on real data, because ${FOLDER} is not here`);

/** Knots in a metre a second: 3600 s in an hour, 1852 m in a nautical mile. */
const KN = 3600 / 1852;
const pathOf = (name: string) => `${FOLDER}/${name}.csv`;
const sourceOf = (name: string) => ({ name: `${name}.csv`, open: () => createReadStream(pathOf(name)) });

const GFS = 'gfs1p0_atlantic_trades_20181006_3h';
const ERDDAP = 'erddap_style_gfs_trades_20181006';
const WGRIB2 = 'wgrib2_csv_style_gfs_trades_20181006';
const FIJI = 'gfs1p0_fiji_dateline_20181006_3h_pm180';
const FNOC = 'fnoc_atlantic_19880110_6h';
const CURRENT = 'hycom_current_java_sea_20240501_3h';
const WAVES = 'cmems_waves_java_sea_20240501_3h';

/** A value as it stands in a file. */
interface PlainCell {
  readonly epochSeconds: number;
  readonly lat: number;
  /** −180 ≤ lon < 180. */
  readonly lon: number;
  readonly name: string;
  readonly value: number;
}

/** A file by lines and commas and nothing else. */
function plainCells(name: string): PlainCell[] {
  const rows = readFileSync(pathOf(name), 'utf8')
    .split('\n')
    .filter((line) => line !== '')
    .map((line) => line.split(','));
  const numberOf = (cell: string) => (cell === 'NaN' ? Number.NaN : Number.parseFloat(cell));
  const west = (lon: number) => (lon >= 180 ? lon - 360 : lon);
  const secondsOf = (cell: string) => Date.parse(cell) / 1000;
  if (name === WGRIB2) {
    return rows.map(([, time, quantity, , lon, lat, value]) => ({
      epochSeconds: secondsOf(`${time!.replaceAll('"', '').replace(' ', 'T')}Z`),
      lat: Number.parseFloat(lat!),
      lon: west(Number.parseFloat(lon!)),
      name: quantity!.replaceAll('"', ''),
      value: numberOf(value!),
    }));
  }
  const [head, ...body] = rows;
  return body
    .filter((cells) => !cells[0]!.startsWith('UTC'))
    .flatMap(([time, lat, lon, ...values]) =>
      values.map((value, i) => ({
        epochSeconds: secondsOf(time!),
        lat: Number.parseFloat(lat!),
        lon: west(Number.parseFloat(lon!)),
        name: head![i + 3]!,
        value: numberOf(value),
      })),
    );
}

const distinct = (values: readonly number[]) => [...new Set(values)].sort((a, b) => a - b);

interface Known {
  readonly file: string;
  /** What it has by the names in the file; the field each becomes, and how many values are missing. */
  readonly columns: Readonly<Record<string, { readonly field: keyof Grid['fields']; readonly missing: number }>>;
  readonly times: number;
  readonly lats: number;
  readonly lons: number;
  readonly first: string;
  readonly last: string;
  readonly runs?: number;
  readonly unused?: readonly string[];
}

const wind = (east: string, north: string): Known['columns'] => ({
  [east]: { field: 'windEastKn', missing: 0 },
  [north]: { field: 'windNorthKn', missing: 0 },
});

// Counted apart, with a script in another language.
const KNOWN: readonly Known[] = [
  {
    file: GFS,
    columns: wind('u10', 'v10'),
    times: 80,
    lats: 28,
    lons: 55,
    first: '2018-10-06T18:00:00Z',
    last: '2018-10-16T21:00:00Z',
  },
  {
    file: ERDDAP,
    columns: wind('ugrd10m', 'vgrd10m'),
    times: 34,
    lats: 21,
    lons: 48,
    first: '2018-10-06T18:00:00Z',
    last: '2018-10-11T03:00:00Z',
  },
  {
    file: WGRIB2,
    columns: wind('UGRD', 'VGRD'),
    times: 34,
    lats: 21,
    lons: 48,
    first: '2018-10-06T18:00:00Z',
    last: '2018-10-11T03:00:00Z',
    runs: 17,
  },
  {
    file: FIJI,
    columns: wind('u10', 'v10'),
    times: 80,
    lats: 21,
    lons: 31,
    first: '2018-10-06T18:00:00Z',
    last: '2018-10-16T21:00:00Z',
  },
  {
    file: FNOC,
    columns: wind('u10', 'v10'),
    times: 16,
    lats: 17,
    lons: 21,
    first: '1988-01-10T00:00:00Z',
    last: '1988-01-13T18:00:00Z',
  },
  {
    file: CURRENT,
    columns: {
      water_u: { field: 'currentEastKn', missing: 7568 },
      water_v: { field: 'currentNorthKn', missing: 7568 },
    },
    times: 88,
    lats: 25,
    lons: 20,
    first: '2024-05-01T00:00:00Z',
    last: '2024-05-11T21:00:00Z',
  },
  {
    file: WAVES,
    columns: {
      VHM0: { field: 'waveHeightM', missing: 33000 },
      VTPK: { field: 'wavePeriodSeconds', missing: 33000 },
      VMDR: { field: 'waveFromEast', missing: 30008 },
    },
    times: 88,
    lats: 28,
    lons: 39,
    first: '2024-05-01T00:00:00Z',
    last: '2024-05-11T21:00:00Z',
    unused: ['vhm0_sw1', 'vhm0_ww'],
  },
];

/** A steady wind over the Java Sea, for which the real files have none. */
const JAVA_WIND = {
  name: 'wind.csv',
  open: () => [
    `time,lat,lon,u10_kn,v10_kn\n${Array.from({ length: 23 }, (_, i) =>
      new Date(Date.UTC(2024, 4, 1, 12 * i)).toISOString(),
    )
      .flatMap((time) => [-8, -4].flatMap((lat) => [106, 110].map((lon) => `${time},${lat},${lon},-10,3\n`)))
      .join('')}`,
  ],
};

const read = new Map<string, ReadForecast>();
const forecastOf = (name: string): Forecast => read.get(name)!.forecast;

describe.skipIf(!isHere)('real files', () => {
  beforeAll(async () => {
    for (const { file } of KNOWN) {
      const source = sourceOf(file);
      read.set(file, await readForecast(file === CURRENT || file === WAVES ? [JAVA_WIND, source] : source));
    }
  });

  describe.each(KNOWN)('$file', ({ file, columns, times, lats, lons, first, last, runs = 0, unused = [] }) => {
    const names = Object.keys(columns);
    const gridsOf = () => forecastOf(file).grids.filter((grid) => grid.fields[columns[names[0]!]!.field] !== undefined);

    test('has its points, times and missing values', () => {
      const grids = gridsOf();
      expect(grids.length).toBe(Math.max(1, runs));
      expect(grids.filter((grid) => grid.runEpochSeconds !== undefined).length).toBe(runs);
      expect(grids.every((grid) => grid.lats.length === lats && grid.lons.length === lons && !grid.wraps)).toBe(true);
      const all = grids.flatMap((grid) => [...grid.epochSeconds]);
      expect(all.length).toBe(times);
      expect([Math.min(...all), Math.max(...all)]).toEqual([Date.parse(first) / 1000, Date.parse(last) / 1000]);
      for (const { field, missing } of Object.values(columns)) {
        const values = grids.flatMap((grid) => [...grid.fields[field]!]);
        expect(values.length).toBe(times * lats * lons);
        expect(values.filter(Number.isNaN).length, field).toBe(missing);
      }
    });

    test('says nothing but which columns are not used', () => {
      expect(read.get(file)!.warnings.map(describeFault)).toEqual(
        unused.map(
          (column) =>
            `${file}.csv, column ${column}: expected a column of a known quantity, got another one: it is not used`,
        ),
      );
    });

    test('is what lines and commas say, value by value', () => {
      const cells = plainCells(file);
      const [cellTimes, cellLats] = [
        distinct(cells.map((cell) => cell.epochSeconds)),
        distinct(cells.map((cell) => cell.lat)),
      ];
      // Eastwards from 165: no file here reaches round to it.
      const cellLons = distinct(cells.map((cell) => (cell.lon < 165 ? cell.lon + 360 : cell.lon)));
      expect([cellTimes.length, cellLats.length, cellLons.length]).toEqual([times, lats, lons]);
      const grids = gridsOf();
      grids.forEach((grid) => {
        expect([...grid.lats]).toEqual(cellLats);
        grid.lons.forEach((lon, i) => {
          expect((((cellLons[i]! - lon) % 360) + 360) % 360).toBeCloseTo(0, 9);
        });
      });
      const placeOf = new Map(
        grids.flatMap((grid) => [...grid.epochSeconds].map((time, i) => [time, { grid, i }] as const)),
      );
      const [latIndex, lonIndex] = [
        new Map(cellLats.map((lat, i) => [lat, i])),
        new Map(cellLons.map((lon, i) => [lon, i])),
      ];
      let compared = 0;
      let [farthest, missing] = [0, 0];
      for (const { epochSeconds, lat, lon, name, value } of cells) {
        const column = columns[name];
        if (column === undefined) continue;
        const { grid, i } = placeOf.get(epochSeconds)!;
        const index = (i * lats + latIndex.get(lat)!) * lons + lonIndex.get(lon < 165 ? lon + 360 : lon)!;
        const ours = grid.fields[column.field]![index]!;
        const factor = column.field.endsWith('Kn') ? KN : 1;
        const truth = column.field === 'waveFromEast' ? Math.sin((value * Math.PI) / 180) : value * factor;
        compared += 1;
        if (Number.isNaN(truth) || Number.isNaN(ours)) {
          expect(Number.isNaN(ours)).toBe(Number.isNaN(truth));
          missing += 1;
        } else farthest = Math.max(farthest, Math.abs(ours - truth));
      }
      expect(compared).toBe(names.length * times * lats * lons);
      expect(missing).toBe(Object.values(columns).reduce((sum, column) => sum + column.missing, 0));
      // Float32 of up to 68 kn: half an ulp is 4e-6.
      expect(farthest).toBeLessThan(4e-6);
    });
  });

  test('are all that lie there, but for a climatology, which is no forecast', () => {
    const files = readdirSync(FOLDER).filter((name) => name.endsWith('.csv') && !name.startsWith('coads_climatology'));
    expect(files.sort()).toEqual(KNOWN.map(({ file }) => `${file}.csv`).sort());
  });

  test('the gap of 9 hours is bridged and said, in each layout', () => {
    const gap = {
      fromEpochSeconds: Date.UTC(2018, 9, 10, 15) / 1000,
      toEpochSeconds: Date.UTC(2018, 9, 11, 0) / 1000,
    };
    for (const file of [GFS, ERDDAP, WGRIB2]) {
      const at = weatherAt(forecastOf(file));
      const times = distinct(forecastOf(file).grids.flatMap((grid) => [...grid.epochSeconds]));
      const steps = times.slice(1).map((time, i) => (time - times[i]!) / 3600);
      expect(steps.filter((step) => step !== 3)).toEqual([9]);
      for (let hour = 0; hour < 24; hour += 0.5) {
        const epochSeconds = Date.UTC(2018, 9, 10, 9) / 1000 + hour * 3600;
        // The files of the crop end at 03 h.
        if (epochSeconds > times.at(-1)!) continue;
        const isInside = epochSeconds > gap.fromEpochSeconds && epochSeconds < gap.toEpochSeconds;
        expect(at(15.5, -40.5, epochSeconds)?.bridged, `${file} ${hour}`).toEqual(isInside ? gap : undefined);
      }
      // Eight hours are too few for it.
      expect(weatherAt(forecastOf(file), 8)(15.5, -40.5, gap.fromEpochSeconds + 3600)).toBeUndefined();
    }
  });

  test('across the date line the grid is whole', () => {
    const at = weatherAt(forecastOf(FIJI));
    const epochSeconds = Date.UTC(2018, 9, 8, 12) / 1000;
    const cell = (lat: number, lon: number, name: string) =>
      plainFiji.find(
        (one) => one.epochSeconds === epochSeconds && one.lat === lat && one.lon === lon && one.name === name,
      )!.value * KN;
    const plainFiji = plainCells(FIJI);
    for (const lat of [-20, -17]) {
      for (const [between, west, east] of [
        [179.5, 179, -180],
        [-179.5, -180, -179],
      ] as const) {
        expect(at(lat, between, epochSeconds)!.wind.eastKn).toBeCloseTo(
          (cell(lat, west, 'u10') + cell(lat, east, 'u10')) / 2,
          4,
        );
        expect(at(lat, between, epochSeconds)!.wind.northKn).toBeCloseTo(
          (cell(lat, west, 'v10') + cell(lat, east, 'v10')) / 2,
          4,
        );
      }
      expect(at(lat, 180, epochSeconds)).toEqual(at(lat, -180, epochSeconds));
    }
    expect(at(-20, -164.9, epochSeconds)).toBeUndefined();
    expect(at(-20, 164.9, epochSeconds)).toBeUndefined();
  });

  test('waves and currents of the Java Sea beside a wind, on their own grids', async () => {
    for (const sources of [
      [JAVA_WIND, sourceOf(CURRENT), sourceOf(WAVES)],
      [sourceOf(WAVES), JAVA_WIND, sourceOf(CURRENT)],
    ]) {
      const at = weatherAt((await readForecast(sources)).forecast);
      const epochSeconds = Date.UTC(2024, 4, 4, 9) / 1000;
      const now = (name: string) => plainCells(name).filter((cell) => cell.epochSeconds === epochSeconds);
      const cellsOf = (cells: readonly PlainCell[], name: string) => cells.filter((cell) => cell.name === name);
      const [currents, waves] = [now(CURRENT), now(WAVES)];
      let [currentsOnLand, wavesOnLand] = [0, 0];
      for (const { lat, lon, value } of cellsOf(currents, 'water_u')) {
        const { wind: blowing, current } = at(lat, lon, epochSeconds)!;
        expect(blowing.eastKn).toBeCloseTo(-10, 9);
        if (Number.isNaN(value)) currentsOnLand += 1;
        else expect(current!.eastKn).toBeCloseTo(value * KN, 5);
        expect(current === undefined).toBe(Number.isNaN(value));
      }
      for (const { lat, lon, value } of cellsOf(waves, 'VHM0')) {
        const { waveHeightM } = at(lat, lon, epochSeconds)!;
        if (Number.isNaN(value)) wavesOnLand += 1;
        else expect(waveHeightM).toBeCloseTo(value, 6);
        expect(waveHeightM === undefined).toBe(Number.isNaN(value));
      }
      for (const { lat, lon, value } of cellsOf(waves, 'VMDR')) {
        if (!Number.isNaN(value)) expect(at(lat, lon, epochSeconds)!.waveFromDeg).toBeCloseTo(value, 4);
      }
      // 86 of 500 points of the current are land, and 375 of 1092 of the waves.
      expect([currentsOnLand, wavesOnLand]).toEqual([86, 375]);
    }
  });

  test('waves or currents alone are no forecast', async () => {
    await expect(readForecast([sourceOf(CURRENT), sourceOf(WAVES)])).rejects.toThrow(
      /^hycom_current.*, line 1: expected u10 and v10, or wind_speed with its unit and wind_from_direction, got "time, lat, lon, water_u, water_v"\ncmems_waves.*, line 1: /,
    );
  });

  test('winds of other waters and times do not disturb each other', async () => {
    const { forecast } = await readForecast([sourceOf(FNOC), sourceOf(FIJI), sourceOf(GFS)]);
    const at = weatherAt(forecast);
    for (const [file, lat, lon, time] of [
      [FNOC, 20.3, -40.2, Date.UTC(1988, 0, 11, 5)],
      [FIJI, -17.7, -179.3, Date.UTC(2018, 9, 9, 4)],
      [GFS, 17.7, -39.3, Date.UTC(2018, 9, 9, 4)],
    ] as const) {
      expect(at(lat, lon, time / 1000)).toEqual(weatherAt(forecastOf(file))(lat, lon, time / 1000));
    }
  });
});

describe.skipIf(!isHere)('one wind in three layouts', () => {
  const LAYOUTS = [GFS, ERDDAP, WGRIB2];
  const HOURS_IN_COMMON = Date.UTC(2018, 9, 11, 3) / 1000;

  test('samples differ by what was printed', () => {
    const [plain, erddap, grib] = LAYOUTS.map((file) => weatherAt(forecastOf(file)));
    let [toErddap, toGrib, count] = [0, 0, 0];
    for (let hour = 0; hour < 105; hour += 0.7) {
      for (let lat = 8; lat <= 28; lat += 1.3) {
        for (let lon = -62; lon <= -15; lon += 3.1) {
          const epochSeconds = Date.UTC(2018, 9, 6, 18) / 1000 + hour * 3600;
          const [a, b, c] = [plain, erddap, grib].map((at) => at!(lat, lon, epochSeconds)!.wind);
          toErddap = Math.max(toErddap, Math.abs(a!.eastKn - b!.eastKn), Math.abs(a!.northKn - b!.northKn));
          toGrib = Math.max(toGrib, Math.abs(b!.eastKn - c!.eastKn), Math.abs(b!.northKn - c!.northKn));
          count += 1;
        }
      }
    }
    expect(count).toBe(38400);
    // Two decimals of m/s against seven; six significant digits of at most 28 m/s against those.
    expect(toErddap).toBeLessThan(0.005 * KN + 1e-5);
    expect(toGrib).toBeLessThan(0.00005 * KN + 1e-5);
  });

  test('from Cape Verde towards Barbados the hours and the sail plans are the same', async () => {
    const route = readRoute("name,lat,lon\nCape Verde,16.9,-25.0\nBarbados,13°06.0'N,59°36.0'W\n");
    const boat = readBoat(readFileSync('data-samples/boat.json', 'utf8'));
    const polars = readPolars(readFileSync('data-samples/polars.csv', 'utf8'), { boat });
    const plans: Passage[] = [];
    for (const file of LAYOUTS) {
      const { forecast } = await readForecast(sourceOf(file), { crop: (margin) => cropBoxOf(layTrack(route), margin) });
      plans.push(planPassage({ route, forecast, boat, polars }, { departure: '2018-10-06T20:00Z' }));
    }
    const [plain, ...others] = plans.map(({ hours }) =>
      hours.filter((hour) => Date.parse(hour.time) / 1000 < HOURS_IN_COMMON),
    );
    // From 6 October, 20 h, to the 11th, 03 h.
    expect(plain!.length).toBe(103);
    let [wind, apparent, plansUnlike] = [0, 0, 0];
    /** Knots across the wind that an angle off makes. */
    const arcKn = (speedKn: number, aDeg: number, bDeg: number) =>
      (speedKn * Math.abs(((((aDeg - bDeg) % 360) + 540) % 360) - 180) * Math.PI) / 180;
    for (const other of others) {
      expect(other.map(({ time }) => time)).toEqual(plain!.map(({ time }) => time));
      expect(other.map(({ bridged }) => bridged)).toEqual(plain!.map(({ bridged }) => bridged));
      plain!.forEach((hour, i) => {
        const its = other[i]!;
        wind = Math.max(wind, Math.abs(hour.twsKn - its.twsKn), arcKn(hour.twsKn, hour.twdDeg, its.twdDeg));
        if (hour.sailPlan !== its.sailPlan) {
          plansUnlike += 1;
          expect(Math.min(hour.marginKn!, its.marginKn!), hour.time).toBeLessThanOrEqual(0.05);
          return;
        }
        apparent = Math.max(apparent, Math.abs(hour.awsKn - its.awsKn), arcKn(hour.awsKn, hour.awaDeg!, its.awaDeg!));
      });
    }
    // Rounding to two decimals of m/s turns the wind by 0.014 kn at most; the rest is the way the boats have drifted apart.
    expect(wind).toBeLessThan(0.05);
    expect(apparent).toBeLessThan(0.05);
    expect(plansUnlike).toBe(0);
  });
});

/** Mean wind over a box and all times, at the file's own points. */
function meanWind(file: string, [south, north]: readonly number[], [west, east]: readonly number[]) {
  const [grid] = forecastOf(file).grids;
  const at = weatherAt(forecastOf(file));
  let [u, v, speed, count] = [0, 0, 0, 0];
  for (const epochSeconds of grid!.epochSeconds) {
    for (const lat of grid!.lats) {
      for (const lon of grid!.lons) {
        if (lat < south! || lat > north! || lon < west! || lon > east!) continue;
        const { wind } = at(lat, lon, epochSeconds)!;
        u += wind.eastKn;
        v += wind.northKn;
        speed += Math.hypot(wind.eastKn, wind.northKn);
        count += 1;
      }
    }
  }
  return {
    count,
    meanKn: speed / count,
    fromDeg: ((Math.atan2(-u, -v) * 180) / Math.PI + 360) % 360,
    steadiness: Math.hypot(u, v) / speed,
  };
}

describe('trade winds', () => {
  const truth = fixture('tradeWinds.json', tradeWinds);
  beforeAll(async () => {
    for (const file of isHere ? [GFS, FNOC] : []) {
      if (!read.has(file)) read.set(file, await readForecast(sourceOf(file)));
    }
  });

  /** Bands are not widened: they are wide already. */
  const inBand = (value: number, [low, high]: readonly number[], what: string) => {
    expect(value, what).toBeGreaterThanOrEqual(low!);
    expect(value, what).toBeLessThanOrEqual(high!);
  };

  truth.each('printed', 'mean speed', ({ file, latDeg, lonDeg, meanKn }) => {
    if (!isHere) return;
    inBand(meanWind(file, latDeg, lonDeg).meanKn, meanKn, 'kn');
  });

  truth.each('bands', 'speed, direction and steadiness', ({ file, latDeg, lonDeg, meanKn, fromDeg, steadiness }) => {
    if (!isHere) return;
    const mean = meanWind(file, latDeg, lonDeg);
    inBand(mean.meanKn, meanKn, 'kn');
    inBand(mean.fromDeg, fromDeg, 'from');
    inBand(mean.steadiness, steadiness, 'steadiness');
  });

  truth.each('constancy', 'steadiness', ({ file, latDeg, lonDeg, steadiness }) => {
    if (!isHere) return;
    inBand(meanWind(file, latDeg, lonDeg).steadiness, steadiness, 'steadiness');
  });

  truth.each('easterlies', 'direction', ({ file, latDeg, lonDeg, fromDeg }) => {
    if (!isHere) return;
    inBand(meanWind(file, latDeg, lonDeg).fromDeg, fromDeg, 'from');
  });
});
