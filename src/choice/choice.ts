export { type CurvePoint, chosenOf, curveOf } from './curve.js';
export type { ChoiceProblem, InHand } from './problem.js';
export { type Ending, searched } from './search.js';
