export { type BarReason, HOVE_TO_KN } from './hour.js';
export type { Barred, Hour } from './log.js';
export { type Choice, DEFAULT_HOUSE, OPTION_RANGES, type PassageOptions, type SettledOptions } from './options.js';
export { type IncompleteReason, type Passage, type PassageInputs, planPassage } from './planPassage.js';
export { STRONG_WINDS } from './seamanship.js';
export type { Undecided } from './undecided.js';
