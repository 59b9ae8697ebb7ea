import { type Boat, type BoatFile, completeBoat, hasNeed, type Sail } from '../boat/boat.js';
import { isStormSail, KINDS, kindOf } from '../catalogue/catalogue.js';
import type { SailKind } from '../sail/sail.js';

/** A boat with her own mains and one sail of every other kind that she could set, and the kind of each new sail by its id. */
export interface CatalogueBoat {
  readonly boat: Boat;
  readonly kindOf: ReadonlyMap<string, SailKind>;
}

/** What a boat would be with the catalogue aboard: kinds she has already are left out; so are mains and storm sails. */
export function catalogueBoat(boat: Boat): CatalogueBoat | undefined {
  const aboard = new Set(boat.sails.map(({ kind }) => kind));
  const kinds = KINDS.filter(
    (entry) =>
      !aboard.has(entry.kind) &&
      FOR_SPEED.includes(entry.place) &&
      !isStormSail(entry) &&
      (entry.needsOneOf.length === 0 || entry.needsOneOf.some((need) => hasNeed(boat, need))),
  ).map(({ kind }) => kind);
  if (kinds.length === 0) return undefined;
  // Short ids of their own: plans that follow join them.
  const mains = boat.sails.filter(isMain).map((sail, i) => ({ ...sail, id: `main-${i}` }));
  const { sailPlans: _, polars: __, boatPolar: ___, knownSpeeds: ____, ...rest } = boat;
  const file: BoatFile = { ...rest, sails: [...mains, ...kinds.map((kind) => ({ id: `new-${kind}`, kind }))] };
  return { boat: completeBoat(file), kindOf: new Map(kinds.map((kind) => [`new-${kind}`, kind])) };
}

const FOR_SPEED = ['forestay', 'inner-stay', 'flying', 'winged', 'twins'];

const isMain = ({ kind, clothOf }: Sail) => kindOf(kind).place === 'mast' && clothOf === undefined;
