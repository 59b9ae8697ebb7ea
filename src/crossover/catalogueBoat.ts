import { type Boat, type BoatFile, completeBoat, hasNeed, type Sail } from '../boat/boat.js';
import { KINDS, kindOf } from '../catalogue/catalogue.js';
import type { SailKind } from '../sail/sail.js';

/** A boat with her own mains and one sail of every other kind that she could set, and the kind of each new sail. */
export interface CatalogueBoat {
  readonly boat: Boat;
  readonly kindOf: ReadonlyMap<string, SailKind>;
}

/** What a boat would be with the catalogue aboard: kinds she has already are left out; so are mains and storm sails. */
export function catalogueBoat(boat: Boat): CatalogueBoat | undefined {
  const aboard = new Set(boat.sails.map(({ kind }) => kind));
  const kinds = KINDS.filter(
    ({ kind, place, needsOneOf }) =>
      !aboard.has(kind) &&
      FOR_SPEED.includes(place) &&
      (needsOneOf.length === 0 || needsOneOf.some((need) => hasNeed(boat, need))),
  ).map(({ kind }) => kind);
  if (kinds.length === 0) return undefined;
  const mains = boat.sails.filter(isMain);
  const { sailPlans: _, polars: __, boatPolar: ___, knownSpeeds: ____, ...rest } = boat;
  const file: BoatFile = { ...rest, sails: [...mains, ...kinds.map((kind) => ({ id: `new-${kind}`, kind }))] };
  return { boat: completeBoat(file), kindOf: new Map(kinds.map((kind) => [`new-${kind}`, kind])) };
}

const FOR_SPEED = ['forestay', 'inner-stay', 'flying', 'winged', 'twins'];

const isMain = ({ kind, clothOf }: Sail) => kindOf(kind).place === 'mast' && clothOf === undefined;
