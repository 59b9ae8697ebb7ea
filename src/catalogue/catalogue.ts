/**
 * Every kind of sail a boat file may name, with defaults whose numbers each say where they come from, and the rules of the trade
 * that a table cannot hold. Metres, square metres, knots, degrees off the bow, kilograms.
 * `sample` in examples is explained with `windwardrobe` itself.
 * @packageDocumentation
 */

import type { SailKind } from '../sail/sail.js';
import { KINDS, type KindOfSail } from './kinds.js';

export { areaOf, isMeasured } from './areaOf.js';
export {
  foreTriangleM2,
  type HeadsailGirths,
  headsailByGirthsM2,
  headsailM2,
  headsailOnStayM2,
  heavyWeatherJibByForestayM2,
  luffPerpendicularM,
  mainM2,
  type StormSailLimits,
  selfTackerFits,
  stormSailLimits,
  symmetricM2,
  trysailM2,
} from './areas.js';
export { type Band, CLOTHS, type ClothName } from './cloths.js';
export {
  derived,
  type Figure,
  GUST_OVER_MEAN,
  type Origin,
  placeholder,
  practice,
  type SourceId,
  type Status,
  sourced,
} from './figure.js';
export {
  type DayAndNight,
  type Effort,
  type Gybe,
  NIGHT_OVER_DAY,
  OPERATIONS,
  type Operation,
  type Operations,
  SET_BY,
  type SetBy,
} from './handling.js';
export {
  type DefaultReef,
  type DefaultWindow,
  isOnStay,
  isStormSail,
  KINDS,
  type KindOfSail,
  type Need,
  type Place,
  STAYS,
} from './kinds.js';
export { CLOTH_LIVES, type ClothLife, type Flogging, WEAR } from './life.js';
export { blockLoadFactor, mainsheetLoadKg, sheetLoadKg, spinnakerSheetLoadKg } from './loads.js';
export type { Rig, SailMeasures } from './measures.js';
export { type LadderStep, reefLadder } from './reefLadder.js';
export {
  type CodeSail,
  classByMidGirth,
  codeSailOf,
  type GenoaByOverlap,
  genoaOf,
  SPINNAKER_MID_GIRTH,
} from './scales.js';
export { SOURCES } from './sources.js';

/**
 * What is known of a kind.
 * @example
 * kindOf('vented-downwind') // { usualId: 'vented', place: 'flying', … }
 */
export function kindOf(kind: SailKind): KindOfSail {
  return KINDS.find((entry) => entry.kind === kind)!;
}
