import { median } from 'simple-statistics';
import type { VelocityKn } from '../wind/wind.js';
import { fromDirectionOf } from '../wind/wind.js';
import type { Field, Forecast, Grid } from './forecast.js';

/** The weather at a place and time. Wind is over the ground, at 10 m. What the forecast does not have is absent. */
export interface Weather {
  readonly wind: VelocityKn;
  readonly gustKn?: number;
  readonly current?: VelocityKn;
  readonly waveHeightM?: number;
  readonly wavePeriodSeconds?: number;
  readonly waveFromDeg?: number;
  /** The gap in the wind's times that this instant lies in and that was bridged. */
  readonly bridged?: TimeGap;
}

/** A step between two times of a grid that is longer than the steps around it. */
export interface TimeGap {
  readonly fromEpochSeconds: number;
  readonly toEpochSeconds: number;
}

/** Weather at a place and instant; undefined where there is no wind: outside the grid or its times, or on absent points. */
export type WeatherAt = (latDeg: number, lonDeg: number, epochSeconds: number) => Weather | undefined;

/** Longest step between times that is bridged, hours. */
export const DEFAULT_MAX_GAP_HOURS = 12;

/**
 * A look-up in a forecast: bilinear in place and linear in time, on components and never on a direction. Where corners
 * of a cell are absent, the weights of the present ones are scaled up if the nearest corner is present, else the sample
 * is absent. Steps in time up to `maxGapHours` are bridged, longer ones are not. Nothing is extrapolated.
 */
export function weatherAt(forecast: Forecast, maxGapHours = DEFAULT_MAX_GAP_HOURS): WeatherAt {
  const samplers = forecast.grids.map((grid) => gridSampler(grid, maxGapHours * 3600));
  const having = (field: Field) => samplers.filter((sampler) => sampler.grid.fields[field] !== undefined);
  const [winds, gusts, currents] = [having('windEastKn'), having('gustKn'), having('currentEastKn')];
  const [heights, periods, directions] = [having('waveHeightM'), having('wavePeriodSeconds'), having('waveFromEast')];
  return (latDeg, lonDeg, epochSeconds) => {
    const placed = samplers.filter((sampler) => sampler.place(latDeg, lonDeg, epochSeconds));
    const scalar = (having: readonly GridSampler[], field: Field) => {
      for (const sampler of having) {
        if (!placed.includes(sampler)) continue;
        const value = sampler.read(field);
        if (!Number.isNaN(value)) return value;
      }
      return undefined;
    };
    const vector = (having: readonly GridSampler[], east: Field, north: Field): VelocityKn | undefined => {
      const eastKn = scalar(having, east);
      const northKn = scalar(having, north);
      return eastKn === undefined || northKn === undefined ? undefined : { eastKn, northKn };
    };
    const wind = vector(winds, 'windEastKn', 'windNorthKn');
    if (wind === undefined) return undefined;
    const gustKn = scalar(gusts, 'gustKn');
    const current = vector(currents, 'currentEastKn', 'currentNorthKn');
    const waveHeightM = scalar(heights, 'waveHeightM');
    const wavePeriodSeconds = scalar(periods, 'wavePeriodSeconds');
    const waveFrom = vector(directions, 'waveFromEast', 'waveFromNorth');
    const bridged = winds.find((sampler) => placed.includes(sampler))?.gap();
    return {
      wind,
      ...(gustKn === undefined ? {} : { gustKn }),
      ...(current === undefined ? {} : { current }),
      ...(waveHeightM === undefined ? {} : { waveHeightM }),
      ...(wavePeriodSeconds === undefined ? {} : { wavePeriodSeconds }),
      // The unit vector points to where the waves come from; as a wind it would blow the other way.
      ...(waveFrom === undefined
        ? {}
        : { waveFromDeg: fromDirectionOf({ eastKn: -waveFrom.eastKn, northKn: -waveFrom.northKn }) }),
      ...(bridged === undefined ? {} : { bridged }),
    };
  };
}

/** Reads one grid: `place` finds cell and weights for an instant and says whether there are any; `read` then reads fields. */
interface GridSampler {
  readonly grid: Grid;
  place(latDeg: number, lonDeg: number, epochSeconds: number): boolean;
  read(field: Field): number;
  gap(): TimeGap | undefined;
}

// A place this little beyond the edge is on it: rounding in longitudes that were turned round the globe.
const EDGE_DEG = 1e-6;

function gridSampler(grid: Grid, maxGapSeconds: number): GridSampler {
  const { epochSeconds: times, lats, lons } = grid;
  const slice = lats.length * lons.length;
  const gaps = gapsOf(times);
  const corners = new Int32Array(4);
  const weights = new Float64Array(4);
  const [lonCell, latCell, timeCell] = [
    { i: 0, share: 0 },
    { i: 0, share: 0 },
    { i: 0, share: 0 },
  ];

  const sliceValue = (values: Float32Array, start: number) => {
    let [sum, weight, heaviest, heaviestPresent] = [0, 0, 0, 0];
    for (let c = 0; c < 4; c += 1) {
      const w = weights[c]!;
      if (w <= 0) continue;
      if (w > heaviest) heaviest = w;
      const value = values[start + corners[c]!]!;
      if (Number.isNaN(value)) continue;
      sum += w * value;
      weight += w;
      if (w > heaviestPresent) heaviestPresent = w;
    }
    // Corners equally near count as nearest each: half-way, one of them is enough.
    return weight > 0 && heaviestPresent >= heaviest - 1e-9 ? sum / weight : Number.NaN;
  };

  return {
    grid,
    place(latDeg, lonDeg, epochSeconds) {
      if (!find(times, epochSeconds, 0, timeCell)) return false;
      const { i: before, share } = timeCell;
      if (share > 0 && times[before + 1]! - times[before]! > maxGapSeconds) return false;
      if (!find(lats, latDeg, EDGE_DEG, latCell) || !findLon(grid, lonDeg, lonCell)) return false;
      const [y, x] = [latCell.i, lonCell.i];
      const east = x + 1 < lons.length ? x + 1 : 0;
      const north = Math.min(y + 1, lats.length - 1);
      const [fy, fx] = [latCell.share, lonCell.share];
      corners[0] = y * lons.length + x;
      corners[1] = y * lons.length + east;
      corners[2] = north * lons.length + x;
      corners[3] = north * lons.length + east;
      weights[0] = (1 - fy) * (1 - fx);
      weights[1] = (1 - fy) * fx;
      weights[2] = fy * (1 - fx);
      weights[3] = fy * fx;
      return true;
    },
    read(field) {
      const values = grid.fields[field];
      if (values === undefined) return Number.NaN;
      const { i, share } = timeCell;
      if (share === 0) return sliceValue(values, i * slice);
      return sliceValue(values, i * slice) * (1 - share) + sliceValue(values, (i + 1) * slice) * share;
    },
    gap() {
      const { i, share } = timeCell;
      return share > 0 && gaps[i] === 1 ? { fromEpochSeconds: times[i]!, toEpochSeconds: times[i + 1]! } : undefined;
    },
  };
}

/** The cell of a rising axis that holds a value and the share of it that lies below; false outside the axis. */
function find(axis: Float64Array, value: number, tolerance: number, cell: { i: number; share: number }): boolean {
  const last = axis.length - 1;
  if (last < 0 || !(value >= axis[0]! - tolerance && value <= axis[last]! + tolerance)) return false;
  let [low, high] = [0, last];
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (axis[middle]! <= value) low = middle;
    else high = middle - 1;
  }
  cell.i = low;
  cell.share = low === last || value <= axis[low]! ? 0 : (value - axis[low]!) / (axis[low + 1]! - axis[low]!);
  return true;
}

function findLon({ lons, wraps }: Grid, lonDeg: number, cell: { i: number; share: number }): boolean {
  const west = lons[0];
  if (west === undefined) return false;
  const turned = west + ((((lonDeg - west) % 360) + 360) % 360);
  if (find(lons, turned, EDGE_DEG, cell)) return true;
  if (turned > west + 360 - EDGE_DEG) return find(lons, west, 0, cell);
  if (!wraps) return false;
  const last = lons.length - 1;
  cell.i = last;
  cell.share = (turned - lons[last]!) / (west + 360 - lons[last]!);
  return true;
}

/** Marks the steps that are gaps: more than half as long again as the median of the steps around them, four each side. */
function gapsOf(times: Float64Array): Uint8Array {
  const steps = Array.from(times.subarray(1), (time, i) => time - times[i]!);
  return Uint8Array.from(steps, (step, i) => {
    const around = steps.slice(Math.max(0, i - 4), i + 5);
    return step > 1.5 * median(around) ? 1 : 0;
  });
}
