import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import {
  type Boat,
  daylightAt,
  describeFault,
  type Fault,
  type Forecast,
  type PassageOptions,
  type PolarSet,
  planPassage,
  type Route,
  sunTimesAt,
  totalsOf,
} from '../src/index.js';
import { loadInputs } from '../src/node/node.js';
import { STRONG_WINDS } from '../src/passage/passage.js';
import { arrivalWarning } from '../src/passage/seamanship.js';
import { isoUtc } from '../src/time.js';
import { workFolder } from './support/command.js';
import { type FieldAt, forecastOf, T0 } from './support/synthetic.js';
import beaufort from './truth/beaufort.json' with { type: 'json' };

const HOUR = 3600;

/** She goes at 6 kn in any wind at any angle, so that where she is at each hour is known. */
const SPEED_KN = 6;
const BOAT: Boat = {
  name: 'Test boat',
  hull: { type: 'monohull' },
  polars: 'polars.csv',
  sails: [{ id: 'main', kind: 'pin-head-main', window: { awaMinDeg: 0, awaMaxDeg: 180 } }],
  sailPlans: [{ id: 'main', sails: ['main'] }],
};
const POLARS: PolarSet = {
  status: 'measured',
  plans: { main: { twsKn: [0.1, 200], twaDeg: [0, 180], stwKn: [SPEED_KN, SPEED_KN, SPEED_KN, SPEED_KN] } },
};

/** A meridian or the equator, where places and bearings are plain arithmetic: one minute of arc is a mile. */
const north = (latDeg: number, lonDeg: number, distanceNm: number): Route => ({
  waypoints: [
    { name: 'A', latDeg, lonDeg },
    { name: 'B', latDeg: latDeg + distanceNm / 60, lonDeg },
  ],
});

function planned(forecast: Forecast, route: Route, options: Partial<PassageOptions> = {}) {
  return planPassage({ route, forecast, boat: BOAT, polars: POLARS }, { departure: isoUtc(T0), ...options });
}

const told = (warnings: readonly Fault[], ...codes: readonly string[]) =>
  warnings.filter(({ code }) => codes.includes(code)).map(describeFault);

const lineOf = (from: number, to: number, step: number) =>
  Array.from({ length: Math.round((to - from) / step) + 1 }, (_, i) => from + i * step);

/** Wind from the north, so that its speed is one component and exact in single precision where it is in binary. */
const northerly = (kn: number) => ({
  windEastKn: 0,
  windNorthKn: -kn,
  gustKn: kn,
  currentEastKn: 0,
  currentNorthKn: 0,
  waveHeightM: 1,
});

describe('strong wind on the track', () => {
  test('warnings begin where the forces of the wind do', () => {
    // World Meteorological Organization: near gale, gale and storm are forces 7, 8 and 10.
    const lowest = (force: number) => beaufort.table.rows.find((row) => row.beaufort === force)!.lowestKn;
    expect(STRONG_WINDS).toEqual([
      { overKn: lowest(7), name: 'near gale' },
      { overKn: lowest(8), name: 'gale' },
      { overKn: lowest(10), name: 'storm' },
    ]);
  });

  /** One wind for each hour from departure, the same everywhere; northwards along 30 W from the equator. */
  const blowing = (winds: readonly number[], options: Partial<PassageOptions> = {}) => {
    const times = winds.map((_, hour) => T0 + hour * HOUR);
    const at: FieldAt = (_lat, _lon, time) => northerly(winds[(time - T0) / HOUR]!);
    return planned(
      forecastOf(times, [-10, 0, 10], [-40, -30, -20], at),
      north(0, -30, 6 * (winds.length - 1)),
      options,
    );
  };

  const WINDS = [12, 28, 28.5, 30, 34, 34.25, 40, 48, 48.5, 60.25, 36, 34, 29, 28, 12, 29.5, 12, 12];
  const [NEAR, GALE, STORM] = [28, 34, 48].map((limit) => WINDS.filter((kn) => kn > limit).length);

  test('hours strictly over each limit are counted, with the first and the most', () => {
    const passage = blowing(WINDS);
    const place = (hour: number) =>
      `2027-03-01T${`${hour}`.padStart(2, '0')}:00:00Z at 00°${(6 * hour).toFixed(1).padStart(4, '0')}'N 030°00.0'W`;
    expect([NEAR, GALE, STORM]).toEqual([12, 6, 2]);
    expect(told(passage.warnings, 'strong-wind')).toEqual([
      `synthetic: expected mean wind of no more than 28 kn (near gale), got ${NEAR} h above it, first at ${place(2)}; most 60.3 kn at ${place(9)}`,
      `synthetic: expected mean wind of no more than 34 kn (gale), got ${GALE} h above it, first at ${place(5)}; most 60.3 kn at ${place(9)}`,
      `synthetic: expected mean wind of no more than 48 kn (storm), got ${STORM} h above it, first at ${place(8)}; most 60.3 kn at ${place(9)}`,
    ]);
    expect(totalsOf(passage, BOAT).strongWind).toEqual([
      { overKn: 28, hours: NEAR },
      { overKn: 34, hours: GALE },
      { overKn: 48, hours: STORM },
    ]);
  });

  test('at a limit it is not over it; nothing is said of what does not come', () => {
    expect(told(blowing([28, 28, 28, 28]).warnings, 'strong-wind')).toEqual([]);
    expect(told(blowing([34, 34, 34, 34]).warnings, 'strong-wind').length).toBe(1);
    expect(told(blowing([48, 48, 48, 48]).warnings, 'strong-wind').length).toBe(2);
    expect(told(blowing([12, 20, 27.5, 12]).warnings, 'strong-wind', 'gale-near')).toEqual([]);
  });

  test('the last row counts for what it is long', () => {
    const times = lineOf(0, 4, 1).map((hour) => T0 + hour * HOUR);
    const passage = planned(
      forecastOf(times, [-10, 0, 10], [-40, -30, -20], () => northerly(30)),
      north(0, -30, 15),
    );
    expect(passage.hours.map(({ minutes }) => Math.round(minutes))).toEqual([60, 60, 30]);
    expect(told(passage.warnings, 'strong-wind')[0]).toMatch(/got 2\.5 h above it/);
  });

  test('it is the wind over the ground that is meant, not that over the water', () => {
    const times = lineOf(0, 12, 1).map((hour) => T0 + hour * HOUR);
    // With the current the wind over the water is 3 kn more, or less.
    const along = (kn: number, currentKn: number) =>
      planned(
        forecastOf(times, [-10, 0, 10], [-40, -30, -20], () => ({ ...northerly(kn), currentNorthKn: currentKn })),
        north(0, -30, 30),
      );
    const less = along(28.5, -3);
    expect(less.hours[0]!.twsKn).toBeCloseTo(25.5, 5);
    expect(told(less.warnings, 'strong-wind').length).toBe(1);
    const more = along(27.5, 3);
    expect(more.hours[0]!.twsKn).toBeCloseTo(30.5, 5);
    expect(told(more.warnings, 'strong-wind')).toEqual([]);
  });

  test('as the navigator scales and shifts it', () => {
    expect(told(blowing([20, 20, 20, 20]).warnings, 'strong-wind', 'gale-near')).toEqual([]);
    expect(told(blowing([20, 20, 20, 20], { windFactor: 1.5 }).warnings, 'strong-wind')[0]).toMatch(/most 30\.0 kn/);
    const first = (options: Partial<PassageOptions>) =>
      told(blowing([12, 12, 12, 12, 12, 30, 12, 12, 12, 12], options).warnings, 'strong-wind')[0];
    expect(first({})).toMatch(/got 1 h above it, first at 2027-03-01T05:00:00Z/);
    expect(first({ windShiftHours: -3 })).toMatch(/got 1 h above it, first at 2027-03-01T02:00:00Z/);
  });
});

/** Distance (Nm) and bearing on the sphere, by the cosine formula and atan2. */
function seen(fromLat: number, fromLon: number, toLat: number, toLon: number) {
  const rad = Math.PI / 180;
  const [a, b, d] = [fromLat * rad, toLat * rad, (toLon - fromLon) * rad];
  const cosine = Math.sin(a) * Math.sin(b) + Math.cos(a) * Math.cos(b) * Math.cos(d);
  const bearing =
    Math.atan2(Math.sin(d) * Math.cos(b), Math.cos(a) * Math.sin(b) - Math.sin(a) * Math.cos(b) * Math.cos(d)) / rad;
  return { nm: (Math.acos(cosine) / rad) * 60, deg: ((bearing % 360) + 360) % 360 };
}

/** The warning of a gale near by. */
const galeNear = (hours: number, nearest: string, strongest: string) =>
  `synthetic: expected no mean wind of 34 kn (gale) within 200 Nm of the boat, got some in ${hours} h, nearest ${nearest}; strongest ${strongest}`;
const off = (nm: number, deg: number, hour: number) =>
  `${nm.toFixed(0)} Nm off, bearing ${Math.round(deg) % 360}°, at ${isoUtc(T0 + hour * HOUR)}`;
const blows = (kn: number, hour: number) => `${kn.toFixed(1)} kn at ${isoUtc(T0 + hour * HOUR)}`;

describe('a gale near by', () => {
  const TIMES = lineOf(0, 24, 3).map((hour) => T0 + hour * HOUR);

  /** 12 kn, and stronger at single points of the grid at single times. */
  interface Blob {
    readonly hour: number;
    readonly latDeg: number;
    readonly lonDeg: number;
    readonly kn: number;
  }
  const withBlobs = (lats: readonly number[], lons: readonly number[], blobs: readonly Blob[], times = TIMES) =>
    forecastOf(times, lats, lons, (lat, lon, time) => {
      const blob = blobs.find((one) => one.latDeg === lat && one.lonDeg === lon && T0 + one.hour * HOUR === time);
      return northerly(blob?.kn ?? 12);
    });
  const LATS = lineOf(-6, 8, 1);
  const LONS = lineOf(-36, -24, 1);
  const galesOf = (...blobs: readonly Blob[]) =>
    told(planned(withBlobs(LATS, LONS, blobs), north(0, -30, 60)).warnings, 'strong-wind', 'gale-near');

  test('nothing where there is none', () => {
    expect(galesOf()).toEqual([]);
    expect(galesOf({ hour: 6, latDeg: 2, lonDeg: -28, kn: 33.9375 })).toEqual([]);
  });

  test.each([
    ['north', { latDeg: 3, lonDeg: -30 }],
    ['north-east', { latDeg: 2, lonDeg: -28 }],
    ['east', { latDeg: 0, lonDeg: -27 }],
    ['south-east', { latDeg: -1, lonDeg: -28 }],
    ['south', { latDeg: -2, lonDeg: -30 }],
    ['west', { latDeg: 1, lonDeg: -33 }],
    ['north-west', { latDeg: 2, lonDeg: -32 }],
  ])('to the %s, at one time: how far, where and when', (_, { latDeg, lonDeg }) => {
    // At 6 h she is 36 Nm north of the equator. At 5 h and 7 h the wind there is not yet and no more a gale.
    const { nm, deg } = seen(36 / 60, -30, latDeg, lonDeg);
    expect(nm).toBeLessThan(199);
    expect(galesOf({ hour: 6, latDeg, lonDeg, kn: 40 })).toEqual([galeNear(1, off(nm, deg, 6), blows(40, 6))]);
  });

  test('a bearing a little west of north is 0 and not 360', () => {
    const lons = [...LONS, -30.01].sort((a, b) => a - b);
    const forecast = withBlobs(LATS, lons, [{ hour: 6, latDeg: 3, lonDeg: -30.01, kn: 40 }]);
    const { nm, deg } = seen(36 / 60, -30, 3, -30.01);
    expect(deg).toBeGreaterThan(359.5);
    expect(told(planned(forecast, north(0, -30, 60)).warnings, 'gale-near')).toEqual([
      galeNear(1, off(nm, 0, 6), blows(40, 6)),
    ]);
  });

  test('within 200 Nm and not beyond', () => {
    // Due north of where she is at 6 h, 0.6° N.
    for (const [nm, isTold] of [
      [190, true],
      [199.9, true],
      [200.1, false],
      [240, false],
    ] as const) {
      const latDeg = 0.6 + nm / 60;
      const forecast = withBlobs([-6, 0, 3, latDeg, 8], LONS, [{ hour: 6, latDeg, lonDeg: -30, kn: 42 }]);
      const said = told(planned(forecast, north(0, -30, 60)).warnings, 'gale-near');
      expect(said, `${nm}`).toEqual(isTold ? [galeNear(1, off(nm, 0, 6), blows(42, 6))] : []);
    }
  });

  test('a gale begins at 34 kn', () => {
    expect(galesOf({ hour: 6, latDeg: 2, lonDeg: -30, kn: 34 }).length).toBe(1);
  });

  test('between two times of the forecast it is drawn straight', () => {
    // 60 kn at 6 h, 12 kn at 3 h and 9 h: 44 kn at 5 h and 7 h, 28 kn an hour further.
    const at = (hour: number) => seen(hour / 10, -30, 3, -30);
    expect(galesOf({ hour: 6, latDeg: 3, lonDeg: -30, kn: 60 })).toEqual([
      galeNear(3, off(at(7).nm, 0, 7), blows(60, 6)),
    ]);
    // At 6 h no time of the forecast is met: departure half an hour later meets 36 kn, 52 kn, 20 kn.
    const passage = planned(withBlobs(LATS, LONS, [{ hour: 6, latDeg: 3, lonDeg: -30, kn: 60 }]), north(0, -30, 60), {
      departure: isoUtc(T0 + HOUR / 2),
    });
    const half = (hour: number) => seen((hour - 0.5) / 10, -30, 3, -30);
    expect(told(passage.warnings, 'gale-near')).toEqual([galeNear(4, off(half(7.5).nm, 0, 7.5), blows(52, 5.5))]);
  });

  test('of a gale that moves the nearest and the strongest are told, each with its time', () => {
    const blobs: Blob[] = [
      { hour: 3, latDeg: 3, lonDeg: -29, kn: 38 },
      { hour: 6, latDeg: 2, lonDeg: -28, kn: 41 },
      { hour: 9, latDeg: 1, lonDeg: -29, kn: 37 },
      // Too far by now.
      { hour: 12, latDeg: -5, lonDeg: -29, kn: 70 },
    ];
    const { nm, deg } = seen(0.9, -30, 1, -29);
    expect(galesOf(...blobs)).toEqual([galeNear(3, off(nm, deg, 9), blows(41, 6))]);
  });

  test('before she sails and after she arrived it is none of hers', () => {
    // 60 Nm at 6 kn: from 0 h to 10 h.
    expect(galesOf({ hour: 12, latDeg: 2, lonDeg: -30, kn: 34.5 })).toEqual([]);
    const later = planned(withBlobs(LATS, LONS, [{ hour: 0, latDeg: 2, lonDeg: -30, kn: 40 }]), north(0, -30, 60), {
      departure: isoUtc(T0 + 3 * HOUR),
    });
    expect(told(later.warnings, 'gale-near')).toEqual([]);
  });

  test('on the boat herself', () => {
    // A front that stands over all of the waters for an hour.
    const times = lineOf(0, 24, 1).map((hour) => T0 + hour * HOUR);
    const front = forecastOf(times, LATS, LONS, (_lat, _lon, time) => northerly(time === T0 + 4 * HOUR ? 50 : 12));
    expect(told(planned(front, north(0, -30, 60)).warnings, 'gale-near')).toEqual([
      galeNear(1, `on the boat at ${isoUtc(T0 + 4 * HOUR)}`, blows(50, 4)),
    ]);
  });

  test.each([
    ['eastwards', 179.5, -178.5],
    ['westwards', -179.5, 178.5],
    ['from the date line itself', 180, -177.5],
  ])('across the date line, %s', (_, boatLon, galeLon) => {
    const lons = lineOf(172, 188, 0.5);
    const at = (lon: number) => (lon < 0 ? lon + 360 : lon);
    const forecast = withBlobs(lineOf(-20, -12, 1), lons, [{ hour: 3, latDeg: -16, lonDeg: at(galeLon), kn: 42 }]);
    const { nm, deg } = seen(-16.7, at(boatLon), -16, at(galeLon));
    expect(nm).toBeLessThan(200);
    const passage = planned(forecast, north(-17, boatLon === 180 ? -180 : boatLon, 40));
    expect(told(passage.warnings, 'gale-near')).toEqual([galeNear(1, off(nm, deg, 3), blows(42, 3))]);
  });

  test('on a global grid too, over the seam', () => {
    const lons = lineOf(0, 355, 5);
    const plain = withBlobs(lineOf(-4, 4, 1), lons, [{ hour: 3, latDeg: 0, lonDeg: 355, kn: 42 }]);
    const forecast = { ...plain, grids: plain.grids.map((grid) => ({ ...grid, wraps: true })) };
    const { nm, deg } = seen(0.3, 358, 0, 355);
    expect(told(planned(forecast, north(0, -2, 40)).warnings, 'gale-near')).toEqual([
      galeNear(1, off(nm, deg, 3), blows(42, 3)),
    ]);
  });

  test.each([60, 70, 78])('at %s° of latitude meridians are near to each other', (latDeg) => {
    // Due east, 190 Nm off along the parallel or a little less on the great circle; and just as much too far.
    const lonOff = (nm: number) => nm / 60 / Math.cos((latDeg * Math.PI) / 180);
    for (const [nm, isTold] of [
      [190, true],
      [215, false],
    ] as const) {
      const lons = [-60, -30, -30 + lonOff(nm), 30];
      const forecast = withBlobs([latDeg - 2, latDeg, latDeg + 2], lons, [
        { hour: 0, latDeg, lonDeg: -30 + lonOff(nm), kn: 42 },
      ]);
      const at = seen(latDeg, -30, latDeg, -30 + lonOff(nm));
      const passage = planned(forecast, north(latDeg, -30, 40));
      expect(told(passage.warnings, 'gale-near'), `${nm}`).toEqual(
        isTold ? [galeNear(1, off(at.nm, at.deg, 0), blows(42, 0))] : [],
      );
    }
  });

  test('what a newer run has not is not warned of', () => {
    const [older, newer] = [
      withBlobs(LATS, LONS, [{ hour: 6, latDeg: 2, lonDeg: -30, kn: 50 }]),
      withBlobs(LATS, LONS, []),
    ].map(({ grids }, i) => ({ ...grids[0]!, runEpochSeconds: T0 - (2 - i) * 6 * HOUR }));
    const runs = (...grids: Forecast['grids']) =>
      told(planned({ file: 'synthetic', grids }, north(0, -30, 60)).warnings, 'gale-near');
    expect(runs(older!, newer!)).toEqual([]);
    expect(runs(newer!, older!)).toEqual([]);
    expect(runs(older!).length).toBe(1);
    expect(runs({ ...older!, runEpochSeconds: T0 }, newer!).length).toBe(1);
  });

  test('points without wind are passed over', () => {
    const forecast = forecastOf(TIMES, LATS, LONS, (lat, lon, time) =>
      lat >= 3
        ? { windEastKn: Number.NaN, windNorthKn: Number.NaN }
        : northerly(lat === 2 && lon === -28 && time === T0 + 6 * HOUR ? 40 : 12),
    );
    const { nm, deg } = seen(0.6, -30, 2, -28);
    const [said] = told(planned(forecast, north(0, -30, 60)).warnings, 'gale-near');
    expect(said).toBe(galeNear(1, off(nm, deg, 6), blows(40, 6)));
  });

  test('scaled and shifted with the wind', () => {
    const blob = { hour: 9, latDeg: 2, lonDeg: -28, kn: 32 };
    const at = (hour: number) => seen(hour / 10, -30, 2, -28);
    const passage = planned(withBlobs(LATS, LONS, [blob]), north(0, -30, 60), { windFactor: 1.25, windShiftHours: -3 });
    expect(told(passage.warnings, 'gale-near')).toEqual([galeNear(1, off(at(6).nm, at(6).deg, 6), blows(40, 6))]);
  });

  describe('in a file cropped to the route', () => {
    let folder: ReturnType<typeof workFolder>;
    beforeAll(() => {
      folder = workFolder();
    });
    afterAll(() => folder.leave());

    const BOAT_FILE = JSON.stringify({ ...BOAT, polars: 'polars.csv' });
    const POLAR_FILE = 'sail_plan,tws_kn,twa_deg,stw_kn\nmain,1,0,6\nmain,1,180,6\nmain,99,0,6\nmain,99,180,6\n';

    /** The warnings of a passage from a file whose wind is 36 kn at one point at departure and 12 kn else. */
    const warnedOf = async (
      route: Route,
      lats: readonly number[],
      lons: readonly number[],
      galeLat: number,
      galeLon: number,
    ) => {
      const rows = [0, 6, 12].flatMap((hour) =>
        lats.flatMap((lat) =>
          lons.map(
            (lon) =>
              `${isoUtc(T0 + hour * HOUR)},${lat},${lon},0,${hour === 0 && lat === galeLat && lon === galeLon ? -36 : -12}\n`,
          ),
        ),
      );
      folder.write({
        'route.csv': `name,lat,lon\n${route.waypoints.map(({ name, latDeg, lonDeg }) => `${name},${latDeg},${lonDeg}\n`).join('')}`,
        'boat.json': BOAT_FILE,
        'polars.csv': POLAR_FILE,
        'forecast.csv': `time,lat,lon,u10_kn,v10_kn\n${rows.join('')}`,
      });
      const { inputs } = await loadInputs({ route: 'route.csv', forecast: 'forecast.csv', boat: 'boat.json' });
      const kept = inputs.forecast!.grids[0]!;
      return {
        said: told(planPassage(inputs, { departure: isoUtc(T0) }).warnings, 'gale-near'),
        isCropped: kept.lats.length < lats.length || kept.lons.length < lons.length,
      };
    };

    test.each([
      ['north', 0, -30, 195 / 60, 0],
      ['south', 0, -30, -195 / 60, 0],
      ['east', 0, -30, 0, 195 / 60],
      ['west', 0, -30, 0, -195 / 60],
      ['east at 60° N', 60, -30, 0, 195 / 30],
      ['west at 75° N', 75, -30, 0, -11],
      ['north-east', 40, -30, 2, 3],
      ['east across the date line', -17, 179.5, 0, 3],
      ['west across the date line', -17, -179.5, 0, -3],
    ])('what is within 200 Nm to the %s is kept', async (_, lat, lon, latOff, lonOff) => {
      const [galeLat, galeLon] = [lat + latOff, lon + lonOff];
      const at = (values: readonly number[], value: number) => [...new Set([...values, value])].sort((a, b) => a - b);
      const lats = at(lineOf(lat - 12, Math.min(89, lat + 12), 1), galeLat);
      const east = (deg: number) => (deg >= 180 ? deg - 360 : deg < -180 ? deg + 360 : deg);
      const lons = at(lineOf(lon - 60, lon + 60, 1), galeLon).map(east);
      const { nm, deg } = seen(lat, lon, galeLat, galeLon);
      expect(nm).toBeGreaterThan(150);
      expect(nm).toBeLessThan(200);
      const { said, isCropped } = await warnedOf(north(lat, lon, 18), lats, lons, galeLat, east(galeLon));
      expect(isCropped).toBe(true);
      expect(said).toEqual([galeNear(1, off(nm, deg, 0), blows(36, 0)).replace('synthetic', 'forecast.csv')]);
    });

    test('with cells wider than that its neighbours are kept', async () => {
      const { nm, deg } = seen(9, -30, 10, -30);
      const { said } = await warnedOf(north(9, -30, 18), lineOf(-40, 60, 10), lineOf(-90, 30, 10), 10, -30);
      // A tenth of the way to 12 kn it is 33.6 kn where she is: no gale, but its point is near.
      expect(nm).toBeCloseTo(60, 6);
      expect(said).toEqual([galeNear(1, off(nm, deg, 0), blows(36, 0)).replace('synthetic', 'forecast.csv')]);
    });
  });
});

describe('arrival in the dark', () => {
  const DAY = 86400;
  const warned = (latDeg: number, lonDeg: number, epochSeconds: number) =>
    arrivalWarning({ latDeg, lonDeg }, { distanceNm: 0, epochSeconds }).map(describeFault);
  const MINUTES =
    /^passage: expected arrival by daylight, got arrival in the dark at (\S+): (\d+) min to lose until sunrise at (\S+), (\d+) min to gain for sunset at (\S+)$/;

  test('at midnight in March: minutes by the times of the sun', () => {
    const midnight = T0 + 2 * DAY + 2 * HOUR;
    const [evening, morning] = [sunTimesAt(midnight - 12 * HOUR, 16, -30), sunTimesAt(midnight + 12 * HOUR, 16, -30)];
    const [sunset, sunrise] = [evening.sunsetEpochSeconds!, morning.sunriseEpochSeconds!];
    expect(warned(16, -30, midnight)).toEqual([
      `passage: expected arrival by daylight, got arrival in the dark at ${isoUtc(midnight)}: ${Math.ceil((sunrise - midnight) / 60)} min to lose until sunrise at ${isoUtc(sunrise)}, ${Math.ceil((midnight - sunset) / 60)} min to gain for sunset at ${isoUtc(sunset)}`,
    ]);
  });

  test('by daylight nothing is said, to the second', () => {
    const { sunriseEpochSeconds: sunrise, sunsetEpochSeconds: sunset } = sunTimesAt(T0 + 14 * HOUR, 16, -30);
    expect(warned(16, -30, sunrise! + 1)).toEqual([]);
    expect(warned(16, -30, (sunrise! + sunset!) / 2)).toEqual([]);
    expect(warned(16, -30, sunset! - 1)).toEqual([]);
    expect(warned(16, -30, sunrise! - 1)[0]).toMatch(/: 1 min to lose until sunrise/);
    expect(warned(16, -30, sunset! + 1)[0]).toMatch(/, 1 min to gain for sunset/);
  });

  test('whoever loses or gains the minutes told arrives by daylight, and one less is too few', () => {
    const place = fc.tuple(fc.integer({ min: -60, max: 60 }), fc.integer({ min: -180, max: 179 }));
    fc.assert(
      fc.property(place, fc.integer({ min: 0, max: 365 * 1440 }), ([lat, lon], minute) => {
        const arrival = T0 + minute * 60;
        const said = warned(lat, lon, arrival);
        expect(said.length).toBe(daylightAt(arrival, lat, lon) ? 0 : 1);
        if (said.length === 0) return;
        const [, when, lose, sunrise, gain, sunset] = MINUTES.exec(said[0]!)!;
        expect(when).toBe(isoUtc(arrival));
        const [toLose, toGain] = [Number(lose), Number(gain)];
        expect(daylightAt(arrival + toLose * 60 + 1, lat, lon)).toBe(true);
        expect(daylightAt(arrival + (toLose - 1) * 60, lat, lon)).toBe(false);
        expect(daylightAt(arrival - toGain * 60 - 1, lat, lon)).toBe(true);
        expect(daylightAt(arrival - (toGain - 1) * 60, lat, lon)).toBe(false);
        // Dark all the way between, and no longer than a night is at 60°: 19 hours.
        expect(toLose + toGain).toBeLessThan(19 * 60);
        expect(Math.abs(Date.parse(sunrise!) / 1000 - arrival - toLose * 60)).toBeLessThanOrEqual(61);
        expect(Math.abs(arrival - Date.parse(sunset!) / 1000 - toGain * 60)).toBeLessThanOrEqual(61);
        for (const share of [0.2, 0.5, 0.8]) {
          const between = arrival - (toGain - 1) * 60 + share * (toGain + toLose - 2) * 60;
          expect(daylightAt(between, lat, lon)).toBe(false);
        }
      }),
      { numRuns: 400 },
    );
  });

  const on = (date: string) => Date.parse(date) / 1000;

  test('in the polar night there is no sunrise to wait for', () => {
    expect(warned(75, 20, on('2027-12-21T12:00:00Z'))).toEqual([
      'passage: expected arrival by daylight, got arrival in the dark at 2027-12-21T12:00:00Z: no sunrise within two days, no sunset in the two days before',
    ]);
    expect(warned(-75, 20, on('2027-06-21T12:00:00Z')).length).toBe(1);
  });

  test('in the polar day nothing is said at midnight', () => {
    expect(warned(75, 20, on('2027-06-21T00:00:00Z'))).toEqual([]);
    expect(warned(-75, 20, on('2027-12-21T00:00:00Z'))).toEqual([]);
  });

  test('at the ends of the polar night one of the two is there', () => {
    // At 70° N the sun stays away from late November to mid January.
    const days = Array.from({ length: 90 }, (_, day) => warned(70, 20, on('2027-11-05T22:40:00Z') + day * DAY)[0]!);
    const kindOf = (said: string) =>
      `${/min to lose/.test(said) ? 'sunrise' : 'none'} ${/min to gain/.test(said) ? 'sunset' : 'none'}`;
    const kinds = days.map(kindOf).filter((kind, i, all) => kind !== all[i - 1]);
    expect(kinds).toEqual(['sunrise sunset', 'none sunset', 'none none', 'sunrise none', 'sunrise sunset']);
    for (const said of days) {
      const lose = /: (\d+) min to lose/.exec(said);
      const gain = /, (\d+) min to gain/.exec(said);
      for (const match of [lose, gain]) if (match !== null) expect(Number(match[1])).toBeLessThan(3 * 1440);
    }
  });

  const TIMES = lineOf(0, 48, 6).map((hour) => T0 + hour * HOUR);
  const calm = forecastOf(TIMES, lineOf(-6, 8, 1), lineOf(-36, -24, 1), () => northerly(12));

  test('of a passage it is the arrival that is told, once; of an incomplete one nothing', () => {
    // Six in the evening to eleven in the evening, at 30 W two hours behind.
    const night = planned(calm, north(0, -30, 30), { departure: isoUtc(T0 + 20 * HOUR) });
    expect(night.end).toBe(isoUtc(T0 + 25 * HOUR));
    const [said, ...more] = told(night.warnings, 'arrival-dark');
    expect(more).toEqual([]);
    expect(said).toMatch(new RegExp(`at ${night.end}: \\d+ min to lose`));
    const day = planned(calm, north(0, -30, 30), { departure: isoUtc(T0 + 8 * HOUR) });
    expect(told(day.warnings, 'arrival-dark')).toEqual([]);
    const cut = planned(calm, north(0, -30, 400), { departure: isoUtc(T0 + 24 * HOUR) });
    expect(cut.complete).toBe(false);
    expect(told(cut.warnings, 'arrival-dark')).toEqual([]);
  });
});

describe('gaps that are bridged', () => {
  const BRIDGED = (max: number, what: string, from: number, to: number) =>
    `synthetic: expected times without gaps (up to ${max} h are bridged), got ${what} of ${to - from} h, from ${isoUtc(T0 + from * HOUR)} to ${isoUtc(T0 + to * HOUR)}: wind in between is drawn straight from one end to the other`;
  const at = (hours: readonly number[]) =>
    forecastOf(
      hours.map((hour) => T0 + hour * HOUR),
      lineOf(-6, 8, 1),
      lineOf(-36, -24, 1),
      (_lat, _lon, time) => northerly(12 + (time - T0) / HOUR / 8),
    );
  const hours = (...gaps: readonly (readonly [number, number])[]) =>
    lineOf(0, 60, 1).filter((hour) => gaps.every(([from, to]) => hour <= from || hour >= to));
  const gapsOf = (forecast: Forecast, options: Partial<PassageOptions> = {}) =>
    told(planned(forecast, north(0, -30, 240), options).warnings, 'gap-bridged');

  test('none', () => {
    expect(gapsOf(at(hours()))).toEqual([]);
    expect(gapsOf(at(lineOf(0, 60, 6)))).toEqual([]);
  });

  test('one, and the longest of several', () => {
    expect(gapsOf(at(hours([5, 9])))).toEqual([BRIDGED(12, 'a gap', 5, 9)]);
    expect(gapsOf(at(hours([5, 9], [15, 24], [30, 36])))).toEqual([BRIDGED(12, '3 gaps, the longest', 15, 24)]);
    // Of equally long ones the first.
    expect(gapsOf(at(hours([5, 11], [20, 26])))).toEqual([BRIDGED(12, '2 gaps, the longest', 5, 11)]);
  });

  test('those she does not sail in are not told', () => {
    // 240 Nm at 6 kn: from 10 h on she is there at 50 h.
    expect(gapsOf(at(hours([2, 8], [30, 34], [52, 58])), { departure: isoUtc(T0 + 10 * HOUR) })).toEqual([
      BRIDGED(12, 'a gap', 30, 34),
    ]);
  });

  test('as many hours as may be bridged, shifted with the weather', () => {
    const forecast = at(hours([15, 27]));
    expect(gapsOf(forecast)).toEqual([BRIDGED(12, 'a gap', 15, 27)]);
    expect(gapsOf(forecast, { maxGapHours: 24 })).toEqual([BRIDGED(24, 'a gap', 15, 27)]);
    expect(gapsOf(forecast, { windShiftHours: -6 })).toEqual([BRIDGED(12, 'a gap', 9, 21)]);
    const cut = planned(forecast, north(0, -30, 240), { maxGapHours: 11 });
    expect(cut).toMatchObject({ complete: false, reason: 'no-wind-data', end: isoUtc(T0 + 15 * HOUR + 600) });
    expect(told(cut.warnings, 'gap-bridged')).toEqual([]);
  });
});
