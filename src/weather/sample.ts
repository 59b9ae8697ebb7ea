import { mustBeGiven } from '../given.js';
import { fromDirectionOf, type VelocityKn } from '../wind/wind.js';
import { climateAt, EAST, NORTH, STEADINESS } from './climateAt.js';
import type { Climatology } from './climatology.js';
import type { Field, Forecast } from './forecast.js';
import { layersOf } from './layers.js';
import { locatorOf } from './locate.js';
import { type Series, seriesOf } from './series.js';

/**
 * The weather at a place and time. Wind is over the ground, at 10 m, by the forecast or by the monthly climatology behind it; the rest is the
 * forecast's. What it does not have is absent.
 */
export interface Weather {
  readonly wind: VelocityKn;
  readonly gustKn?: number;
  readonly current?: VelocityKn;
  readonly waveHeightM?: number;
  readonly wavePeriodSeconds?: number;
  readonly waveFromDeg?: number;
  /** Where the wind is that of the climatology: length of the mean vector over the mean speed, 0 to 1. Absent: it is the forecast's. */
  readonly steadiness?: number;
  /** The gap in the wind's times that this instant lies in and that was bridged. */
  readonly bridged?: TimeGap;
}

/** A step between two times of a forecast that is longer than the steps around it. */
export interface TimeGap {
  readonly fromEpochSeconds: number;
  readonly toEpochSeconds: number;
}

/** Weather at a place and instant; undefined where there is no wind: outside the grid or its times, or on absent points. */
export type WeatherAt = (latDeg: number, lonDeg: number, epochSeconds: number) => Weather | undefined;

/** Longest step between times that is bridged, hours. */
export const DEFAULT_MAX_GAP_HOURS = 12;

/**
 * A look-up in a forecast of one member: bilinear in place and linear in time, on components and never on a direction.
 * Where corners of a cell are absent, the weights of the present ones are scaled up if the nearest corner is present, else
 * there is no value. Steps in time up to `maxGapHours` are bridged, longer ones are not. Nothing is extrapolated.
 *
 * Each quantity comes from the newest run that has it on both sides of the instant, where runs on the same lines are joined to
 * one series; where none has, from the nearest times of any.
 *
 * A monthly climatology gives the wind where the forecast has none: outside its grid and times, and in gaps that are not bridged. It has no
 * gusts; current and waves stay the forecast's.
 * @throws InputError where the forecast is none
 * @example
 * const at = weatherAt(sample.forecast);
 * at(20, -30, Date.UTC(2027, 0, 15) / 1000)
 * // { wind: { eastKn: -15.10…, northKn: -7.40… }, gustKn: 22.23…, waveHeightM: 1.83…, … }
 * at(60, -30, Date.UTC(2027, 0, 15) / 1000) // undefined
 */
export function weatherAt(
  forecast: Forecast,
  maxGapHours = DEFAULT_MAX_GAP_HOURS,
  climatology?: Climatology,
): WeatherAt {
  mustBeGiven(forecast, 'grids', 'forecast', 'readForecast');
  const locators = new Map(forecast.grids.map((grid) => [grid, locatorOf(grid)]));
  const of = (...fields: readonly [Field, ...Field[]]): Series | undefined => {
    const layers = layersOf(forecast.grids, fields[0], locators);
    return layers.length === 0 ? undefined : seriesOf(layers, fields, maxGapHours * 3600);
  };
  const winds = of('windEastKn', 'windNorthKn');
  const [gusts, currents] = [of('gustKn'), of('currentEastKn', 'currentNorthKn')];
  const [heights, periods, directions] = [
    of('waveHeightM'),
    of('wavePeriodSeconds'),
    of('waveFromEast', 'waveFromNorth'),
  ];
  const [one, two] = [new Float64Array(1), new Float64Array(2)];
  const climate = climatology === undefined ? undefined : climateAt(climatology);
  const three = new Float64Array(3);
  const hasMore = [currents, heights, periods, directions].some((series) => series !== undefined);
  return (latDeg, lonDeg, epochSeconds) => {
    let wind = winds === undefined ? undefined : vectorIn(winds, latDeg, lonDeg, epochSeconds, two);
    let steadiness: number | undefined;
    if (wind === undefined) {
      if (climate?.(latDeg, lonDeg, epochSeconds, three) !== true) return undefined;
      wind = { eastKn: three[EAST]!, northKn: three[NORTH]! };
      steadiness = three[STEADINESS]!;
      if (!hasMore) return { wind, steadiness };
    }
    const scalar = (series: Series | undefined) =>
      series?.read(latDeg, lonDeg, epochSeconds, one) === true ? one[0]! : undefined;
    // A gust belongs to the wind it is a gust of.
    const gustKn = steadiness === undefined ? scalar(gusts) : undefined;
    const bridged = steadiness === undefined ? winds!.gap() : undefined;
    const current = currents && vectorIn(currents, latDeg, lonDeg, epochSeconds, two);
    const waveHeightM = scalar(heights);
    const wavePeriodSeconds = scalar(periods);
    const waveFrom = directions && vectorIn(directions, latDeg, lonDeg, epochSeconds, two);
    // Written one by one: asked for millions of times, and a record put together of parts takes several times as long.
    const weather: { -readonly [Key in keyof Weather]: Weather[Key] } = { wind };
    if (gustKn !== undefined) weather.gustKn = gustKn;
    if (current !== undefined) weather.current = current;
    if (waveHeightM !== undefined) weather.waveHeightM = waveHeightM;
    if (wavePeriodSeconds !== undefined) weather.wavePeriodSeconds = wavePeriodSeconds;
    // The unit vector points to where the waves come from; as a wind it would blow the other way.
    if (waveFrom !== undefined)
      weather.waveFromDeg = fromDirectionOf({ eastKn: -waveFrom.eastKn, northKn: -waveFrom.northKn });
    if (steadiness !== undefined) weather.steadiness = steadiness;
    if (bridged !== undefined) weather.bridged = bridged;
    return weather;
  };
}

function vectorIn(
  series: Series,
  latDeg: number,
  lonDeg: number,
  epochSeconds: number,
  out: Float64Array,
): VelocityKn | undefined {
  return series.read(latDeg, lonDeg, epochSeconds, out) ? { eastKn: out[0]!, northKn: out[1]! } : undefined;
}
