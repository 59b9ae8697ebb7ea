export { checkForecast } from './checkForecast.js';
export { type Coverage, coverageOf, type Field, type Forecast, type Grid } from './forecast.js';
export { type ForecastSource, type ReadForecast, type ReadForecastOptions, readForecast } from './readForecast.js';
export { DEFAULT_MAX_GAP_HOURS, type TimeGap, type Weather, type WeatherAt, weatherAt } from './sample.js';
