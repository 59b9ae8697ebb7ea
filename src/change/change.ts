/**
 * What it takes to go from one sail plan to another: operations on sails, their minutes and hands, and who is on deck for them.
 * @packageDocumentation
 */
export { changeOf, type Step } from './changeOf.js';
export { effortOf } from './effortOf.js';
export { DEFAULT_WATCHES, handsOnDeck, isNearWatchChange, watchBegan } from './watch.js';
