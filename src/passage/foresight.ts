import type { WeatherAt } from '../weather/weather.js';
import { type Sky, weatherOf } from './sky.js';

/** What it cost not to know the weather of the whole passage at departure. */
export interface Foresight {
  readonly horizonHours: number;
  readonly replanHours: number;
  /** Of the same passage planned with all its weather known: its end, and whether it arrives. */
  readonly wholeKnownEnd: string;
  readonly wholeKnownComplete: boolean;
  /** How much later this one arrives; null where one of them does not. */
  readonly costHours: number | null;
  /** The same with the prices of changes, waking and the engine: by what the choice goes. */
  readonly costWithPricesHours: number | null;
}

/**
 * The weather as it was known at an instant: of runs of a model those begun by then, and what tells of no run. Where that has no wind
 * then, the climatology behind it, or without one all of it: something must be known.
 */
export function knownWeather(sky: Sky, maxGapHours: number): (epochSeconds: number) => WeatherAt {
  const { forecast, climatology } = sky;
  const all = weatherOf(sky, maxGapHours);
  const bySize = new Map<number, WeatherAt>();
  return (now) => {
    const grids = forecast.grids.filter(({ runEpochSeconds = Number.NEGATIVE_INFINITY }) => runEpochSeconds <= now);
    const hasWind =
      climatology !== undefined ||
      grids.some(
        ({ fields, epochSeconds }) =>
          fields.windEastKn !== undefined && epochSeconds[0]! <= now && epochSeconds.at(-1)! > now,
      );
    if (!hasWind || grids.length === forecast.grids.length) return all;
    // Runs only join as time goes on, so that their number tells which they are.
    const known = bySize.get(grids.length) ?? weatherOf({ forecast: { ...forecast, grids }, climatology }, maxGapHours);
    bySize.set(grids.length, known);
    return known;
  };
}
