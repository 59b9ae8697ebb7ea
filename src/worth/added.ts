import type { Boat, Sail } from '../boat/boat.js';
import { mustBeGiven } from '../given.js';

/** Less is rounding. */
const SAME_M2 = 0.05;

/**
 * Sails and settings of sails that B has and A has not: of another id, or of the same and another kind, cloth or area.
 * @throws InputError where one of them is no boat
 * @example
 * addedTo(sample.without.boat, sample.withVented.boat).map(({ id }) => id) // ['vented']
 */
export function addedTo(a: Boat, b: Boat): readonly Sail[] {
  mustBeGiven(a, 'sails', 'a', 'readBoat');
  mustBeGiven(b, 'sails', 'b', 'readBoat');
  const known = new Map(a.sails.map((sail) => [sail.id, sail]));
  return b.sails.filter((sail) => {
    const own = known.get(sail.id);
    return (
      own === undefined ||
      own.kind !== sail.kind ||
      own.clothOf !== sail.clothOf ||
      own.life?.cloth !== sail.life?.cloth ||
      Math.abs((own.areaM2 ?? 0) - (sail.areaM2 ?? 0)) > SAME_M2
    );
  });
}

/** Their ids. */
export const addedIn = (a: Boat, b: Boat): readonly string[] => addedTo(a, b).map(({ id }) => id);
