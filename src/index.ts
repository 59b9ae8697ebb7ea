/**
 * From a route, a gridded forecast and a boat with her wardrobe to every hour's apparent wind and best sail plan, the
 * hours on each sail and the sail changes. Pure functions over plain records; nothing of Node.
 *
 * Speeds are knots, distances nautical miles, durations hours unless the name says minutes, angles degrees; directions
 * are true, wind from, current to; angles off the bow are positive to starboard; instants are UTC.
 * @packageDocumentation
 */

export {
  type Boat,
  type BoatFile,
  type Comment,
  completeBoat,
  type Engine,
  type House,
  type Hull,
  type KnownSpeed,
  type LeewayByAngle,
  type OperationsGiven,
  type ReadBoatOptions,
  type Reef,
  readBoat,
  type Sail,
  type SailGiven,
  type SailPlan,
  type Watches,
  wardrobeWarnings,
} from './boat/boat.js';
export type {
  DayAndNight,
  Effort,
  Gybe,
  Operation,
  Operations,
  Origin,
  Rig,
  SailMeasures,
  SetBy,
  SourceId,
  Status,
} from './catalogue/catalogue.js';
export {
  type Answers,
  answersOf,
  type BestAngle,
  type BestAngles,
  type Cell,
  type CellHole,
  type Crossover,
  type CrossoverOptions,
  crossoverOf,
  type Hole,
  type Nearest,
  type SailUse,
  type SettledCrossoverOptions,
  type WithoutSail,
} from './crossover/crossover.js';
export type { TextSource } from './csv/csv.js';
export { describeFault, describeFaults, type Fault, InputError } from './errors.js';
export {
  type Estimate,
  type EstimatedPolars,
  type EstimateOptions,
  estimatePolars,
  type FittedTo,
  type KnownSpeedMet,
  type Misfit,
  type PointsWithout,
  type Resistance,
  stabilityWindKn,
} from './estimate/estimate.js';
export { type LegKind, type Position, placeFrom, type Sailing, sailingBetween } from './geo/geo.js';
export {
  CAUTION,
  crossoverCsv,
  crossoverJson,
  crossoverText,
  hoursCsv,
  type InputDigest,
  type PlanFile,
  type PlanToPrint,
  planJson,
  planMarkdown,
  polarsCsv,
  totalsText,
  trackGeojson,
  trackGpx,
  tradeoffCsv,
} from './output/output.js';
export {
  BAR_REASONS,
  type BarReason,
  type Barred,
  type ChangeStep,
  type Choice,
  DEFAULT_HOUSE,
  type Foresight,
  type Hour,
  type IncompleteReason,
  type Passage,
  type PassageInputs,
  type PassageOptions,
  passagesFrom,
  planPassage,
  type SailChange,
  type SettledOptions,
  type Squalls,
  type TradeoffPoint,
  type Undecided,
} from './passage/passage.js';
export {
  type Assumption,
  type Polar,
  type PolarSet,
  type PolarSpeed,
  type PolarVariant,
  polarSpeed,
  type ReadPolarsOptions,
  readPolars,
  type TwaReference,
} from './polar/polar.js';
export {
  type CropBox,
  cropBoxOf,
  layTrack,
  parsePosition,
  type Route,
  type RouteLeft,
  readRoute,
  routeFrom,
  type Track,
  type TrackPoint,
  trackAt,
  type Waypoint,
} from './route/route.js';
export { type LimitByAngle, SAIL_KINDS, type SailKind, type Window } from './sail/sail.js';
export {
  daylightAt,
  MOON_PHASES,
  type Moon,
  type MoonPhase,
  type MoonTimes,
  moonAt,
  moonTimesAt,
  type SunTimes,
  sunTimesAt,
  type Twilight,
  twilightAt,
} from './sun/sun.js';
export { type Day, type ShipDay, type Tally, type Totals, totalsOf } from './totals/totals.js';
export {
  type ColumnChoice,
  type ColumnChoices,
  type ColumnRole,
  type Coverage,
  coverageOf,
  describeForecast,
  type Field,
  type Forecast,
  type ForecastSource,
  type Grid,
  memberOf,
  type Quantity,
  type QuantitySummary,
  type ReadForecast,
  type ReadForecastOptions,
  readForecast,
  type TimeGap,
  type Weather,
  type WeatherAt,
  weatherAt,
} from './weather/weather.js';
export { type ApparentWind, apparentWind, beaufortOf, type VelocityKn } from './wind/wind.js';
export { type ZoneClock, zoneClock, zoneHoursAt, zoneLabel } from './zoneTime.js';
