export { HOVE_TO_KN } from './drift.js';
export type { Foresight } from './foresight.js';
export { fuelOf } from './fuel.js';
export { BAR_REASONS, type BarReason } from './hour.js';
export { type Barred, type Hour, MANNERS, WEATHERS } from './log.js';
export { optionMarks } from './optionMarks.js';
export {
  CHOICES,
  type Choice,
  COMPUTED_BY,
  DEFAULT_HOUSE,
  OPTION_RANGES,
  type PassageOptions,
  priceByCrew,
  type SettledOptions,
} from './options.js';
export type { OwnRule, RuleMoment } from './ownRules.js';
export {
  type BriefOptions,
  type IncompleteReason,
  mayDepart,
  type Passage,
  type PassageInputs,
  type PassageRules,
  type PassageWeather,
  passagesFrom,
  planPassage,
} from './planPassage.js';
export { STRONG_WINDS } from './seamanship.js';
export type { SkyInputs, Synthetic } from './sky.js';
export type { Squalls } from './squallsMet.js';
export type { TradeoffPoint } from './tradeoff.js';
export type { Undecided } from './undecided.js';
export type { ChangeStep, SailChange } from './why.js';
