import {
  type Boat,
  type DayAndNight,
  type Forecast,
  type Hour,
  type House,
  type Passage,
  type PassageOptions,
  type PlanToPrint,
  type Polar,
  planPassage,
  type Route,
  type Sail,
  totalsOf,
} from '../../src/index.js';
import { isoUtc } from '../../src/time.js';
import { type FieldAt, forecastOf, T0 } from './synthetic.js';

// Small invented boats with round speeds, and skies that are the same everywhere. Invented data. What is said of the handling of sails
// is common practice, no source.

export const HOUR = 3600;
/** Her clock is two hours behind UTC. */
export const LON = -30;

/** What blows and runs; where no gust is given it is the mean wind. */
export interface Sky {
  readonly kn: number;
  readonly fromDeg?: number;
  readonly gustKn?: number;
  readonly waveM?: number;
  readonly currentNorthKn?: number;
}

export const skyFields = ({ kn, fromDeg = 90, gustKn = kn, waveM = 1, currentNorthKn = 0 }: Sky) => {
  const angle = (fromDeg * Math.PI) / 180;
  return {
    windEastKn: -kn * Math.sin(angle),
    windNorthKn: -kn * Math.cos(angle),
    gustKn,
    waveHeightM: waveM,
    currentEastKn: 0,
    currentNorthKn,
  };
};

const LATS = [-20, -10, 0, 10, 20];
const LONS = [-40, -30, -20];

/** The same everywhere, told at some hours after T0 and between them drawn straight; of a run of a model where its hour is given. */
export const blowing = (hours: readonly number[], sky: (hour: number) => Sky, runHour?: number): Forecast => {
  const at: FieldAt = (_lat, _lon, time) => skyFields(sky((time - T0) / HOUR));
  const forecast = forecastOf(
    hours.map((hour) => T0 + hour * HOUR),
    LATS,
    LONS,
    at,
  );
  if (runHour === undefined) return forecast;
  return { ...forecast, grids: forecast.grids.map((grid) => ({ ...grid, runEpochSeconds: T0 + runHour * HOUR })) };
};
/** Several forecasts as one. */
export const together = (...all: readonly Forecast[]): Forecast => ({
  file: 'synthetic',
  grids: all.flatMap(({ grids }) => grids),
});
export const hourly = (last: number, first = 0) => Array.from({ length: last - first + 1 }, (_, i) => first + i);
export const steady = (sky: Sky, last = 96) =>
  blowing(
    hourly(last / 12).map((n) => n * 12),
    () => sky,
  );

/** Up a meridian from the equator: one minute of latitude is a mile. */
export const north = (distanceNm: number): Route => ({
  waypoints: [
    { name: 'A', latDeg: 0, lonDeg: LON },
    { name: 'B', latDeg: distanceNm / 60, lonDeg: LON },
  ],
});

export const OPEN = { awaMinDeg: 0, awaMaxDeg: 180 };
/** An operation that takes as much by night as by day. */
export const op = (minutes: number, hands = 1, keptShare = 0.5): DayAndNight => {
  const effort = { minutes, hands, keptShare };
  return { day: effort, night: effort };
};

/** A speed in any wind, a speed by wind at every angle as [TWS, speed] points, or a polar. */
export type Speeds = number | readonly (readonly [twsKn: number, stwKn: number])[] | Polar;
const polarOf = (by: Speeds): Polar => {
  if (typeof by !== 'number' && 'stwKn' in by) return by;
  const points =
    typeof by === 'number'
      ? ([
          [0.1, by],
          [200, by],
        ] as const)
      : by;
  const stwKn = points.map(([, kn]) => kn);
  return { twsKn: points.map(([tws]) => tws), twaDeg: [0, 180], stwKn: [...stwKn, ...stwKn] };
};
/** The same speed in any wind, by angle: [TWA, speed] points. */
export const byAngle = (points: readonly (readonly [twaDeg: number, stwKn: number])[]): Polar => ({
  twsKn: [0.1, 200],
  twaDeg: points.map(([twa]) => twa),
  stwKn: points.flatMap(([, kn]) => [kn, kn]),
});

export const MAIN: Sail = { id: 'main', kind: 'pin-head-main', window: OPEN };
export const FLYING: Sail = { id: 'flying', kind: 'asymmetric-running', window: OPEN };
export const boatOf = (
  sails: readonly Sail[],
  plans: Readonly<Record<string, readonly string[]>>,
  more: Partial<Boat> = {},
): Boat => ({
  name: 'Test boat',
  hull: { type: 'monohull' },
  polars: 'polars.csv',
  sails,
  sailPlans: Object.entries(plans).map(([id, set]) => ({ id, sails: set })),
  ...more,
});
/** A working plan, and a sail set flying beside it. */
export const withFlying = (flying: Partial<Sail>, more: Partial<Boat> = {}): Boat =>
  boatOf([MAIN, { ...FLYING, ...flying }], { white: ['main'], light: ['main', 'flying'] }, more);

export interface Case {
  readonly boat: Boat;
  readonly speeds: Readonly<Record<string, Speeds>>;
  readonly forecast: Forecast;
  readonly route?: Route;
  /** Hours after T0. */
  readonly departs?: number;
  readonly house?: House;
  readonly options?: Partial<PassageOptions>;
}

/** A passage where changes have no price and gusts are as the forecast has them, but for what is said. */
export const planned = ({ boat, speeds, forecast, route = north(100), departs = 12, house, options }: Case): Passage =>
  planPassage(
    {
      boat,
      forecast,
      route,
      polars: {
        status: 'measured',
        plans: Object.fromEntries(Object.entries(speeds).map(([id, by]) => [id, polarOf(by)])),
      },
    },
    {
      departure: isoUtc(T0 + departs * HOUR),
      ...options,
      house: { pricePerChangeMinutes: 0, gustFactor: 1, ...house },
    },
  );

/** A passage as it is printed. */
export const toPrint = (passage: Passage, { boat, route = north(100) }: Case): PlanToPrint => ({
  passage,
  totals: totalsOf(passage, boat),
  boat,
  route,
  inputs: [],
});

export const epoch = (time: string) => Date.parse(time) / 1000;
export const minutesOf = ({ departure, end }: Passage) => (epoch(end) - epoch(departure)) / 60;
/** Hours after T0. */
export const hoursAt = (time: string) => (epoch(time) - T0) / HOUR;
export const hourOf = ({ time }: Hour) => hoursAt(time);
export const rowAt = ({ hours }: Passage, hour: number): Hour => hours.find((one) => hourOf(one) === hour)!;
export const plansOf = ({ hours }: Passage) => hours.map(({ sailPlan }) => sailPlan);
/** Hours after T0 at which changes are made, and what is then set. */
export const changeTimes = ({ hours }: Passage) =>
  hours.filter(({ sailChange }) => sailChange).map((hour) => [hourOf(hour), hour.sailPlan]);
