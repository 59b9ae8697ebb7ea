export { type CurvePoint, chosenOf, curveOf } from './curve.js';
export type { ChoiceProblem, InHand, SearchSettings } from './problem.js';
export { type Ending, type Search, searched } from './search.js';
