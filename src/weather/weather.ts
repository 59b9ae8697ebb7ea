export { type Adjustment, adjustedClimatology, adjustedForecast } from './adjust.js';
export { checkChosen } from './checkChosen.js';
export { checkForecast } from './checkForecast.js';
export { type Climatology, checkClimatology } from './climatology.js';
export { COLUMN_ROLES, type ColumnChoice, type ColumnChoices, type ColumnRole } from './columnChoices.js';
export { describeForecast, type QuantitySummary } from './describe.js';
export { type ClimatologySummary, describeClimatology, UNSTEADY_UNDER } from './describeClimatology.js';
export {
  DEFAULT_E_FOLD_HOURS,
  DEFAULT_SPREAD_SHARES,
  type Draw,
  type DrawOptions,
  drawnFrom,
  keptMeanSpeedKn,
  type SpreadShares,
} from './drawn.js';
export { type Coverage, coverageOf, type Field, type Forecast, type Grid, memberOf } from './forecast.js';
export type { Quantity } from './quantities.js';
export { type ReadClimatology, type ReadClimatologyOptions, readClimatology } from './readClimatology.js';
export { type ForecastSource, type ReadForecast, type ReadForecastOptions, readForecast } from './readForecast.js';
export { riceMeanKn, spreadKn } from './rice.js';
export { DEFAULT_MAX_GAP_HOURS, type TimeGap, type Weather, type WeatherAt, weatherAt } from './sample.js';
export { type StrongWind, strongWindNear } from './strongWind.js';
