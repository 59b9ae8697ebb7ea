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

/** A gridded forecast. Each quantity is taken from the first grid that has it at the place and time. */
export interface Forecast {
  /** Name of the file it came from, for messages. */
  readonly file: string;
  readonly grids: readonly Grid[];
  /** What the whole file covers, where the grids hold only the waters of a route. */
  readonly covers?: Coverage;
}

/** What a forecast covers: as its file said, else the extent of its wind grids. */
export function coverageOf(forecast: Forecast): Coverage | undefined {
  if (forecast.covers !== undefined) return forecast.covers;
  const grids = forecast.grids.filter((grid) => grid.fields.windEastKn !== undefined);
  const ends = (pick: (grid: Grid) => Float64Array) =>
    [Math.min(...grids.map((grid) => pick(grid)[0]!)), Math.max(...grids.map((grid) => pick(grid).at(-1)!))] as const;
  if (grids.length === 0) return undefined;
  const [fromEpochSeconds, toEpochSeconds] = ends((grid) => grid.epochSeconds);
  const [latMinDeg, latMaxDeg] = ends((grid) => grid.lats);
  const [lonWestDeg, lonEastDeg] = grids.some((grid) => grid.wraps)
    ? ([-180, 180] as const)
    : ends((grid) => grid.lons);
  return { fromEpochSeconds, toEpochSeconds, latMinDeg, latMaxDeg, lonWestDeg, lonEastDeg };
}
