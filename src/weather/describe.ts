import { mustBeGiven } from '../given.js';
import { fromDirectionOf, speedOf, towardsDirectionOf } from '../wind/wind.js';
import type { Coverage, Field, Forecast, Grid } from './forecast.js';
import { median } from './median.js';
import type { TimeGap } from './sample.js';
import { isLongStep, stepsOf, usualStepAt } from './steps.js';

/** What a forecast has of one quantity. */
export interface QuantitySummary extends Coverage {
  readonly quantity: 'wind' | 'gust' | 'current' | 'wave height' | 'wave period' | 'wave direction';
  readonly unit: 'kn' | 'm' | 's' | 'deg';
  /** Lowest and highest value, of wind and current the speed; of a direction none. */
  readonly min: number | null;
  readonly max: number | null;
  /** Direction of the mean vector over all points and times: wind from, current to; null for other quantities and in a calm. */
  readonly meanDirectionDeg: number | null;
  /** Speed of the mean vector over the mean speed: 1 where all blows one way. */
  readonly steadiness: number | null;
  /** Share of grid points and times without a value. */
  readonly absentShare: number;
  /** Different sets of latitudes and longitudes; what follows is of the finest. */
  readonly grids: number;
  readonly lats: number;
  readonly lons: number;
  /** Usual steps between neighbours; null where there is one only. */
  readonly latStepDeg: number | null;
  readonly lonStepDeg: number | null;
  readonly times: number;
  readonly stepHours: number | null;
  /** Steps in time more than half as long again as the median of those around, four each side. */
  readonly gaps: readonly TimeGap[];
  /** Model runs that are told apart; 0 where no run time is known. */
  readonly runs: number;
  readonly members: number;
}

const QUANTITIES: readonly (readonly [QuantitySummary['quantity'], QuantitySummary['unit'], Field, Field?])[] = [
  ['wind', 'kn', 'windEastKn', 'windNorthKn'],
  ['gust', 'kn', 'gustKn'],
  ['current', 'kn', 'currentEastKn', 'currentNorthKn'],
  ['wave height', 'm', 'waveHeightM'],
  ['wave period', 's', 'wavePeriodSeconds'],
  ['wave direction', 'deg', 'waveFromEast'],
];

/**
 * What a forecast holds, a summary for each quantity that it has.
 * @throws InputError where it is none
 * @example
 * describeForecast(sample.forecast)[0]
 * // { quantity: 'wind', unit: 'kn', max: 28.10…, latStepDeg: 2.5, stepHours: 6, … }
 */
export function describeForecast(forecast: Forecast): readonly QuantitySummary[] {
  mustBeGiven(forecast, 'grids', 'forecast', 'readForecast');
  return QUANTITIES.flatMap(([quantity, unit, field, other]) => {
    const grids = forecast.grids.filter((grid) => grid.fields[field] !== undefined);
    return grids.length === 0 ? [] : [{ quantity, unit, ...extentOf(grids), ...rangeOf(grids, field, other) }];
  });
}

function extentOf(grids: readonly Grid[]) {
  const lines = (grid: Grid) => `${grid.lats.join(' ')} ${grid.lons.join(' ')}`;
  const cellOf = ({ lats }: Grid) => stepOf(lats) ?? Number.POSITIVE_INFINITY;
  const finest = grids.reduce((a, b) => (cellOf(b) < cellOf(a) ? b : a));
  const times = Float64Array.from(new Set(grids.flatMap((grid) => [...grid.epochSeconds]))).sort();
  const stepSeconds = stepOf(times);
  return {
    grids: new Set(grids.map(lines)).size,
    lats: finest.lats.length,
    lons: finest.lons.length,
    latStepDeg: stepOf(finest.lats),
    lonStepDeg: stepOf(finest.lons),
    latMinDeg: finest.lats[0]!,
    latMaxDeg: finest.lats.at(-1)!,
    lonWestDeg: finest.lons[0]!,
    lonEastDeg: finest.wraps ? finest.lons[0]! + 360 : finest.lons.at(-1)!,
    times: times.length,
    fromEpochSeconds: times[0]!,
    toEpochSeconds: times.at(-1)!,
    stepHours: stepSeconds === null ? null : stepSeconds / 3600,
    gaps: gapsOf(times),
    runs: new Set(grids.flatMap((grid) => grid.runEpochSeconds ?? [])).size,
    members: new Set(grids.flatMap((grid) => grid.member ?? [])).size,
  };
}

function rangeOf(grids: readonly Grid[], field: Field, other: Field | undefined) {
  let [min, max, absent, cells, east, north, speeds] = [
    Number.POSITIVE_INFINITY,
    Number.NEGATIVE_INFINITY,
    0,
    0,
    0,
    0,
    0,
  ];
  for (const grid of grids) {
    const [x, y] = [grid.fields[field]!, other === undefined ? undefined : grid.fields[other]];
    cells += x.length;
    for (let i = 0; i < x.length; i += 1) {
      const value = y === undefined ? x[i]! : Math.sqrt(x[i]! * x[i]! + y[i]! * y[i]!);
      if (Number.isNaN(value)) absent += 1;
      else {
        if (value < min) min = value;
        if (value > max) max = value;
        if (y !== undefined) {
          east += x[i]!;
          north += y[i]!;
          speeds += value;
        }
      }
    }
  }
  const isDirection = field === 'waveFromEast';
  const shown = (value: number) => (isDirection || !Number.isFinite(value) ? null : value);
  const mean = { eastKn: east, northKn: north };
  const meanDirectionDeg = field === 'windEastKn' ? fromDirectionOf(mean) : towardsDirectionOf(mean);
  return {
    min: shown(min),
    max: shown(max),
    meanDirectionDeg: speeds > 0 ? meanDirectionDeg : null,
    steadiness: speeds > 0 ? speedOf(mean) / speeds : null,
    absentShare: cells === 0 ? 0 : absent / cells,
  };
}

function stepOf(rising: Float64Array): number | null {
  return rising.length < 2 ? null : median(stepsOf(rising));
}

function gapsOf(times: Float64Array): readonly TimeGap[] {
  const steps = stepsOf(times);
  return steps.flatMap((step, i) =>
    isLongStep(step, usualStepAt(steps, i)) ? [{ fromEpochSeconds: times[i]!, toEpochSeconds: times[i + 1]! }] : [],
  );
}
