export { type Adjustment, adjustedForecast } from './adjust.js';
export { checkForecast } from './checkForecast.js';
export { COLUMN_ROLES, type ColumnChoice, type ColumnChoices, type ColumnRole } from './columnChoices.js';
export { describeForecast, type QuantitySummary } from './describe.js';
export { type Coverage, coverageOf, type Field, type Forecast, type Grid, memberOf } from './forecast.js';
export type { Quantity } from './quantities.js';
export { type ForecastSource, type ReadForecast, type ReadForecastOptions, readForecast } from './readForecast.js';
export { DEFAULT_MAX_GAP_HOURS, type TimeGap, type Weather, type WeatherAt, weatherAt } from './sample.js';
export { type StrongWind, type StrongWindNear, strongWindNear } from './strongWind.js';
