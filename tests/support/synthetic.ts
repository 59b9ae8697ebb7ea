import type { Boat, Field, Forecast, Grid, PolarSet, Route } from '../../src/index.js';

/** Midnight UTC of a day in the middle of no one's summer. */
export const T0 = Date.UTC(2027, 2, 1) / 1000;

export type FieldAt = (latDeg: number, lonDeg: number, epochSeconds: number) => Partial<Record<Field, number>>;

/** A forecast whose fields are a function of place and time. */
export function forecastOf(
  times: readonly number[],
  lats: readonly number[],
  lons: readonly number[],
  at: FieldAt,
): Forecast {
  const fields: Partial<Record<Field, Float32Array>> = {};
  let cell = 0;
  const cells = times.length * lats.length * lons.length;
  for (const time of times) {
    for (const lat of lats) {
      for (const lon of lons) {
        for (const [field, value] of Object.entries(at(lat, lon, time)) as [Field, number][]) {
          fields[field] ??= new Float32Array(cells).fill(Number.NaN);
          fields[field][cell] = value;
        }
        cell += 1;
      }
    }
  }
  const grid: Grid = {
    epochSeconds: Float64Array.from(times),
    lats: Float64Array.from(lats),
    lons: Float64Array.from(lons),
    wraps: false,
    fields,
  };
  return { file: 'synthetic', grids: [grid] };
}

/** A wind that blows everywhere the same from one direction. */
export function steadyWind(twsKn: number, fromDeg: number): FieldAt {
  const angle = (fromDeg * Math.PI) / 180;
  return () => ({ windEastKn: -twsKn * Math.sin(angle), windNorthKn: -twsKn * Math.cos(angle) });
}

/** Every so many hours from T0. */
export function everyHours(step: number, days: number): number[] {
  return Array.from({ length: Math.floor((days * 24) / step) + 1 }, (_, i) => T0 + i * step * 3600);
}

export const LATS = [8, 10, 12, 14, 16, 18, 20, 22];
export const LONS = [-62, -59, -56, -53, -50, -47, -44, -41];

export const WEST: Route = {
  waypoints: [
    { name: 'A', latDeg: 16, lonDeg: -45 },
    { name: 'B', latDeg: 14, lonDeg: -55 },
  ],
};

/** A boat with a working plan, a light one for daylight, and a small one for a blow. */
export const BOAT: Boat = {
  name: 'Test boat',
  hull: { type: 'catamaran' },
  polars: 'polars.csv',
  sails: [
    {
      id: 'main',
      kind: 'square-top-main',
      window: { awaMinDeg: 28, awaMaxDeg: 150, awsMaxKn: 26, twsMaxKn: 26 },
      reefs: [{ areaShare: 0.6, awsMaxKn: 40 }],
    },
    { id: 'jib', kind: 'self-tacking-jib', window: { awaMinDeg: 28, awaMaxDeg: 120, awsMaxKn: 38 } },
    {
      id: 'vented',
      kind: 'vented-downwind',
      daylightOnly: true,
      window: {
        awaMinDeg: 100,
        awaMaxDeg: 180,
        awsMinKn: 3,
        awsMaxKn: [
          [100, 17],
          [180, 25],
        ],
        twsMaxKn: 30,
      },
    },
    {
      id: 'poled-jib',
      kind: 'poled-out-headsail',
      clothOf: 'jib',
      window: { awaMinDeg: 140, awaMaxDeg: 180, awsMaxKn: 32 },
    },
  ],
  sailPlans: [
    { id: 'main+jib', sails: ['main', 'jib'] },
    { id: 'reef1+jib', sails: ['main:1', 'jib'] },
    { id: 'vented', sails: ['vented'] },
    { id: 'poled-jib', sails: ['poled-jib'] },
  ],
};

const TWS = [5, 10, 15, 20, 30];
const TWA = [40, 60, 90, 120, 150, 180];
const table = (byAngle: readonly number[], full: number) => ({
  twsKn: TWS,
  twaDeg: TWA,
  stwKn: TWA.flatMap((_, i) =>
    TWS.map((tws) => Math.round(100 * full * byAngle[i]! * Math.min(1.25, (tws / 15) ** 0.7)) / 100),
  ),
});

export const POLARS: PolarSet = {
  status: 'measured',
  plans: {
    'main+jib': table([0.6, 0.85, 1, 0.95, 0.7, 0.6], 8),
    'reef1+jib': table([0.58, 0.8, 0.92, 0.86, 0.62, 0.54], 8),
    vented: table([0, 0, 0.6, 0.9, 0.98, 0.9], 8),
    'poled-jib': table([0, 0, 0, 0.5, 0.6, 0.58], 8),
  },
};
