import type { Boat } from '../boat/boat.js';
import { WEAR } from '../catalogue/catalogue.js';
import { InputError } from '../errors.js';
import { checkTypes, mustBeGiven } from '../given.js';
import type { Passage } from '../passage/passage.js';
import { says } from '../wording.js';
import { clothHoursOf, slats } from './clothHours.js';
import { measures } from './measure.js';
import type { Wear } from './record.js';
import { sailWear, scaled, type Worn } from './sailWear.js';
import { usedConstants } from './usedConstants.js';

export { LOOK_AT, type SailWear, WEAR_CAUSES, type Wear, type WearCause, type WearConstant } from './record.js';
export { currencyOf, priceOf, scaled } from './sailWear.js';
export { commonConstants } from './usedConstants.js';

/** No column of ozone on earth is out of this. */
const OZONE_DU = [50, 800] as const;

/** What wear is reckoned with that neither the log nor the boat file says. */
export interface WearOptions {
  /** Ozone overhead, Dobson units, 50 to 800. Default 300. */
  readonly ozoneDu?: number;
}

/**
 * What a passage takes of every sail aboard: load, ultraviolet and handling as shares of its life, kept apart and added, each with low,
 * mid and high; what was used before, what is left, what wears first, when to have it looked at, and the money.
 *
 * Load: hours set, weighed by (AWS² in the gust × √(share of the area) over what the cloth is made for) to a power; the margin on the gust and the allowance for squalls are no wind and taken off. Ultraviolet: the sun's
 * height hour by hour, in full while set, through the cover while furled or stowed in the open, none below. Handling: minutes of flogging in
 * sail changes, tacks and gybes, setting sail at departure and taking it down on arrival among them, and slatting. Constants are scaled so
 * that a stated reference use sums to 1 at the hours that a sail lasts (docs/model.md). Nothing in harbour is counted.
 * @throws InputError where the passage, the boat or an option is none
 * @example
 * wearOf(sample.passage, sample.boat).sails[0] // { sail: 'main', hours: 390, cause: 'load', … }
 */
export function wearOf(passage: Passage, boat: Boat, options: WearOptions = {}): Wear {
  return wearFor(boat, options)(passage);
}

/**
 * The same for many passages of one boat: what hangs on the boat alone is worked out once.
 * @throws InputError where the passage, the boat or an option is none
 * @example
 * const wearIn = wearFor(sample.boat);
 * wearIn(sample.passage).first // { sail: 'jib', cause: 'load', … }
 */
export function wearFor(boat: Boat, options: WearOptions = {}): (passage: Passage) => Wear {
  mustBeGiven(boat, 'sailPlans', 'boat', 'readBoat');
  checkTypes(options, {});
  const { ozoneDu = WEAR.ozoneDu.value } = options;
  const [least, most] = OZONE_DU;
  if (!(typeof ozoneDu === 'number' && ozoneDu >= least && ozoneDu <= most))
    throw new InputError([{ file: 'options', path: 'ozoneDu', ...says.number(least, most, String(ozoneDu)) }]);
  const measureFor = measures();
  const cloths = boat.sails.filter(({ clothOf }) => clothOf === undefined);
  const constants = usedConstants(cloths, boat, ozoneDu);
  return (passage) => {
    mustBeGiven(passage, 'hours', 'passage', 'planPassage');
    const { hours } = passage;
    const distanceNm = hours.reduce((sum, { runNm }) => sum + runNm, 0);
    const logs = clothHoursOf(passage, boat, ozoneDu);
    const worn = cloths.map((sail) => sailWear(sail, logs.get(sail.id)!, distanceNm, boat, measureFor));
    const sails = worn.map(({ row }) => row);
    const sets = new Set(boat.sailPlans.flatMap(({ id, sails }) => (sails.length > 0 ? [id] : [])));
    const unknown = hours.filter((hour) => sets.has(hour.sailPlan ?? '') && slats(hour) === undefined);
    return {
      sails,
      first: firstOf(worn),
      money: moneyOf(worn, distanceNm, boat),
      slattingUnknownHours: unknown.reduce((sum, { minutes }) => sum + minutes / 60, 0),
      constants,
    };
  };
}

function firstOf(all: readonly Worn[]): Wear['first'] {
  const worn = all.filter(({ passagesLeft }) => passagesLeft.length > 0);
  const [none] = worn;
  if (none === undefined) return null;
  const firstAt = none.passagesLeft.map((_, at) =>
    worn.reduce((first, one) => (one.passagesLeft[at]! < first.passagesLeft[at]! ? one : first)),
  );
  const { row, passagesLeft } = firstAt[0]!;
  const { sail, cause, causeIsSure, usedBefore } = row;
  return {
    sail,
    cause: cause!,
    causeIsSure,
    passagesLeft: passagesLeft[0]!,
    takenAsNew: usedBefore === null,
    orElse: [...new Set(firstAt.map((one) => one.row.sail))].filter((id) => id !== sail),
  };
}

function moneyOf(all: readonly Worn[], distanceNm: number, { currency }: Boat): Wear['money'] {
  const wearing = all.filter(({ passagesLeft }) => passagesLeft.length > 0).map(({ row }) => row);
  const priced = wearing.flatMap(({ money }) => money ?? []);
  const sum = (end: 'low' | 'mid' | 'high') => priced.reduce((total, money) => total + money[end], 0);
  const passage = priced.length === 0 ? null : { low: sum('low'), mid: sum('mid'), high: sum('high') };
  return {
    // Prices of the catalogue are in euros.
    currency: currency ?? (wearing.some(({ priceFrom }) => priceFrom === 'default') ? 'EUR' : null),
    passage,
    perNm: passage === null || distanceNm <= 0 ? null : scaled(passage, 1 / distanceNm),
    unpriced: wearing.filter(({ money }) => money === null).map(({ sail }) => sail),
  };
}
