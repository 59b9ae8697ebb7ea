import type { Climatology } from './climatology.js';
import type { Coverage, Field, Forecast, Grid } from './forecast.js';

/** What a navigator tries instead of the forecast as it stands. */
export interface Adjustment {
  /** Factor on wind and gusts. */
  readonly windFactor: number;
  /** Hours by which wind, gusts and waves come later than forecast; negative: earlier. Currents stay. */
  readonly windShiftHours: number;
}

const WIND: readonly Field[] = ['windEastKn', 'windNorthKn', 'gustKn'];
const CURRENT: readonly Field[] = ['currentEastKn', 'currentNorthKn'];

/** A forecast with its wind scaled, and its weather early or late. */
export function adjustedForecast(forecast: Forecast, { windFactor, windShiftHours }: Adjustment): Forecast {
  if (windFactor === 1 && windShiftHours === 0) return forecast;
  const shiftSeconds = windShiftHours * 3600;
  const { covers } = forecast;
  const shifted: Coverage | undefined = covers && {
    ...covers,
    fromEpochSeconds: covers.fromEpochSeconds + shiftSeconds,
    toEpochSeconds: covers.toEpochSeconds + shiftSeconds,
  };
  return {
    ...forecast,
    ...(shifted === undefined ? {} : { covers: shifted }),
    grids: forecast.grids.flatMap((grid) => adjusted(grid, windFactor, shiftSeconds)),
  };
}

/** The same of a climatology: its wind scaled, and its calendar and drawing early or late. */
export function adjustedClimatology(climatology: Climatology, adjustment: Adjustment): Climatology {
  const { windFactor, windShiftHours } = adjustment;
  if (windFactor === 1 && windShiftHours === 0) return climatology;
  const scaled = (values: Float32Array) => (windFactor === 1 ? values : values.map((value) => value * windFactor));
  return {
    ...climatology,
    windEastKn: scaled(climatology.windEastKn),
    windNorthKn: scaled(climatology.windNorthKn),
    meanSpeedKn: scaled(climatology.meanSpeedKn),
    laterSeconds: (climatology.laterSeconds ?? 0) + windShiftHours * 3600,
  };
}

function adjusted(grid: Grid, factor: number, shiftSeconds: number): Grid[] {
  const fields = Object.entries(grid.fields) as [Field, Float32Array][];
  const currents = fields.filter(([field]) => CURRENT.includes(field));
  const weather = fields
    .filter(([field]) => !CURRENT.includes(field))
    .map(
      ([field, values]) =>
        [field, WIND.includes(field) && factor !== 1 ? values.map((value) => value * factor) : values] as const,
    );
  const epochSeconds = grid.epochSeconds.map((time) => time + shiftSeconds);
  return [
    ...(weather.length === 0 ? [] : [{ ...grid, epochSeconds, fields: Object.fromEntries(weather) }]),
    ...(currents.length === 0 ? [] : [{ ...grid, fields: Object.fromEntries(currents) }]),
  ];
}
