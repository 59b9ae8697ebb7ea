import { InputError } from '../errors.js';
import { mustBeGiven } from '../given.js';
import { says } from '../wording.js';

/**
 * A quantity held on a grid. Wind and current are components towards east and north; wave direction is the unit vector
 * that points to where the waves come from, so that directions are never averaged as angles.
 */
export type Field =
  | 'windEastKn'
  | 'windNorthKn'
  | 'gustKn'
  | 'currentEastKn'
  | 'currentNorthKn'
  | 'waveHeightM'
  | 'wavePeriodSeconds'
  | 'waveFromEast'
  | 'waveFromNorth';

/**
 * Fields on one set of times, latitudes and longitudes. All three axes rise; longitudes run eastwards and may pass 180
 * (165 … 195). `fields[f][(time * lats.length + lat) * lons.length + lon]`; NaN marks an absent point.
 */
export interface Grid {
  readonly epochSeconds: Float64Array;
  readonly lats: Float64Array;
  readonly lons: Float64Array;
  /** Whether the last longitude is the western neighbour of the first. */
  readonly wraps: boolean;
  readonly fields: Readonly<Partial<Record<Field, Float32Array>>>;
  /** Name of the file it came from. */
  readonly file?: string;
  /** When the run of the model began, where the file says so. */
  readonly runEpochSeconds?: number;
  /** Member of an ensemble; absent: the grid is of no ensemble and serves every member. */
  readonly member?: string;
}

/** What a forecast covers, over all its points. Longitudes from west to east; east may pass 180. */
export interface Coverage {
  readonly fromEpochSeconds: number;
  readonly toEpochSeconds: number;
  readonly latMinDeg: number;
  readonly latMaxDeg: number;
  readonly lonWestDeg: number;
  readonly lonEastDeg: number;
}

/**
 * A gridded forecast. Each quantity is taken from the newest run that has it around the place and time, grids of no known
 * run last; grids of one run are one series in time.
 */
export interface Forecast {
  /** Name of the file it came from, for messages. */
  readonly file: string;
  readonly grids: readonly Grid[];
  /** What the whole file covers, where the grids hold only the waters of a route. */
  readonly covers?: Coverage;
  /** Members of an ensemble, in the order they were met; absent where there is none. A passage is sailed in one of them. */
  readonly members?: readonly string[];
}

/**
 * The forecast of one member of an ensemble: its grids, and those that are of no ensemble (waves beside a wind ensemble).
 * @throws InputError where the forecast is none or has no such member
 * @example
 * const grids = ['0', '1'].flatMap((member) => sample.forecast.grids.map((grid) => ({ ...grid, member })));
 * memberOf({ file: 'ensemble.csv', grids, members: ['0', '1'] }, '1').grids.length // 1
 */
export function memberOf(forecast: Forecast, member: string): Forecast {
  mustBeGiven(forecast, 'grids', 'forecast', 'readForecast');
  const { members = [], ...rest } = forecast;
  if (!members.includes(member)) {
    throw new InputError([{ file: forecast.file, column: 'member', ...says.choice(members, String(member)) }]);
  }
  const grids = forecast.grids.filter((grid) => grid.member === undefined || grid.member === member);
  return { ...rest, grids, members: [member] };
}

/**
 * What a forecast covers: as its file said, else the extent of its wind grids.
 * @throws InputError where it is none
 * @example
 * coverageOf(sample.forecast) // { latMinDeg: 10, latMaxDeg: 32.5, lonWestDeg: -65, lonEastDeg: -10, … }
 */
export function coverageOf(forecast: Forecast): Coverage | undefined {
  mustBeGiven(forecast, 'grids', 'forecast', 'readForecast');
  if (forecast.covers !== undefined) return forecast.covers;
  const grids = forecast.grids.filter((grid) => grid.fields.windEastKn !== undefined);
  const ends = (pick: (grid: Grid) => Float64Array) =>
    grids.reduce(([low, high], grid) => [Math.min(low, pick(grid)[0]!), Math.max(high, pick(grid).at(-1)!)] as const, [
      Number.POSITIVE_INFINITY,
      Number.NEGATIVE_INFINITY,
    ] as const);
  if (grids.length === 0) return undefined;
  const [fromEpochSeconds, toEpochSeconds] = ends((grid) => grid.epochSeconds);
  const [latMinDeg, latMaxDeg] = ends((grid) => grid.lats);
  const [lonWestDeg, lonEastDeg] = grids.some((grid) => grid.wraps)
    ? ([-180, 180] as const)
    : ends((grid) => grid.lons);
  return { fromEpochSeconds, toEpochSeconds, latMinDeg, latMaxDeg, lonWestDeg, lonEastDeg };
}
