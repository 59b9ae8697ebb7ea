import { type Boat, hasNeed, type SailGiven, withSail } from '../boat/boat.js';
import { type Band, KINDS, kindOf } from '../catalogue/catalogue.js';
import { InputError } from '../errors.js';
import { checkTypes, mustBeGiven } from '../given.js';
import type { PolarSet } from '../polar/polar.js';
import { SAIL_KINDS, type SailKind } from '../sail/sail.js';
import { priceOf } from '../wear/wear.js';
import { says } from '../wording.js';
import { addedTo } from './added.js';
import { speedsWith } from './speedsWith.js';

/** A sail that is thought of: its kind, and what is known of it. */
export interface SailWanted {
  readonly kind: SailKind;
  readonly areaM2?: number;
  /** In the boat's currency. */
  readonly price?: number;
  /** Absent: what such a sail is usually called, or the next free of it. */
  readonly id?: string;
  readonly lifeHours?: number;
}

/** A boat with a sail that is thought of. */
export interface BoatWith {
  readonly boat: Boat;
  readonly polars: PolarSet;
  /** Id of the sail. */
  readonly sail: string;
  /** What it costs, and on what ground: as told, or by its area and kind from the catalogue, a placeholder; null where nobody can say. */
  readonly price: Band | null;
  readonly priceFrom: 'given' | 'placeholder' | null;
}

const WANTED = { kind: 'string', areaM2: 'number?', price: 'number?', id: 'string?', lifeHours: 'number?' } as const;

/** @throws InputError where a kind of sail is none */
function checkKind(kind: SailKind): void {
  if (!SAIL_KINDS.includes(kind))
    throw new InputError([{ file: 'options', path: 'kind', ...says.choice(SAIL_KINDS, String(kind)) }]);
}

/**
 * A boat with a further sail, with the speeds of the plans it makes (`speedsWith`). A poled-out headsail is a setting of the headsail on
 * the forestay, and brings a pole as long as J where she has none (common practice, no source).
 * @throws InputError where the boat or what is wanted is none, there is no such kind, she cannot set it, or her file lacks what its speeds are estimated from
 * @example
 * const { without } = sample;
 * const { boat, price } = boatWith(without.boat, without.polars, { kind: 'vented-downwind', areaM2: 140, price: 9000 });
 * boat.sails.at(-1) // { id: 'vented', kind: 'vented-downwind', areaM2: 140, … }
 * price // { low: 9000, mid: 9000, high: 9000 }
 */
export function boatWith(boat: Boat, polars: PolarSet, wanted: SailWanted, file = 'boat'): BoatWith {
  mustBeGiven(boat, 'sailPlans', file, 'readBoat');
  checkTypes(wanted, WANTED);
  const { kind, areaM2, price, lifeHours } = wanted;
  checkKind(kind);
  const { id = freeId(boat, kind) } = wanted;
  const isPoled = kindOf(kind).place === 'winged';
  const cloth = isPoled
    ? boat.sails.find((sail) => sail.clothOf === undefined && kindOf(sail.kind).place === 'forestay')
    : undefined;
  if (isPoled && cloth === undefined) throw new InputError([{ file, ...says.noForestaySail() }]);
  if (isPoled && areaM2 !== undefined)
    throw new InputError([
      {
        file: 'options',
        path: 'areaM2',
        ...says.wrongValue(`none: ${kind} is a setting of ${cloth!.id}`, `${areaM2}`),
      },
    ]);
  const sail: SailGiven = {
    id,
    kind,
    ...(areaM2 === undefined ? {} : { areaM2 }),
    ...(cloth === undefined ? {} : { clothOf: cloth.id }),
    ...(lifeHours === undefined ? {} : { life: { lifeHours } }),
  };
  const rigged =
    isPoled && boat.rig?.jM !== undefined && !hasNeed(boat, 'pole')
      ? { ...boat, rig: { ...boat.rig, poleM: boat.rig.jM } }
      : boat;
  const whole = withSail(rigged, sail, file);
  const usual = cloth === undefined ? priceOf(whole.sails.find((one) => one.id === id)!, boat)?.price : undefined;
  const plain: BoatWith = {
    boat: whole,
    polars: speedsWith(boat, polars, whole, file),
    sail: id,
    price: usual ?? null,
    priceFrom: usual === undefined ? null : 'placeholder',
  };
  return price === undefined ? plain : priced(plain, price);
}

/**
 * The same with a price. A boat file without currency and prices is then taken for one in euros, as the prices of the catalogue are.
 * @throws InputError where the boat or the price is none
 * @example
 * priced(sample.vented, 8000).price // { low: 8000, mid: 8000, high: 8000 }
 */
export function priced(boatWithSail: BoatWith, price: number): BoatWith {
  mustBeGiven(boatWithSail, 'sail', 'boat', 'boatWith');
  checkTypes({ price }, { price: 'number' });
  const { boat, polars, sail } = boatWithSail;
  const isCloth = boat.sails.some(({ id, clothOf }) => id === sail && clothOf === undefined);
  const currency = boat.currency ?? (boat.sails.every((one) => one.price === undefined) ? 'EUR' : undefined);
  return {
    boat: {
      ...boat,
      ...(currency === undefined ? {} : { currency }),
      sails: isCloth ? boat.sails.map((one) => (one.id === sail ? { ...one, price } : one)) : boat.sails,
    },
    polars,
    sail,
    price: { low: price, mid: price, high: price },
    priceFrom: 'given',
  };
}

function freeId({ sails }: Boat, kind: SailKind): string {
  const taken = new Set(sails.map(({ id }) => id));
  const { usualId } = kindOf(kind);
  for (let n = 1; ; n += 1) {
    const id = n === 1 ? usualId : `${usualId}-${n}`;
    if (!taken.has(id)) return id;
  }
}

/** Why a kind is no further sail for a boat: she has one, it is a main, or it wants what she has not. */
export type Unfit = 'aboard' | 'main' | 'needs';

/**
 * Every kind of the catalogue, and why it does not fit where it does not.
 * @throws InputError where the boat is none
 * @example
 * kindsFor(sample.boat).find(({ kind }) => kind === 'full-roach-main') // { kind: 'full-roach-main', unfit: 'main' }
 */
export function kindsFor(boat: Boat): readonly { readonly kind: SailKind; readonly unfit: Unfit | null }[] {
  mustBeGiven(boat, 'sails', 'boat', 'readBoat');
  const aboard = new Set(boat.sails.map(({ kind }) => kind));
  return KINDS.map(({ kind, place, needsOneOf }) => ({
    kind,
    unfit:
      place === 'mast'
        ? 'main'
        : aboard.has(kind)
          ? 'aboard'
          : needsOneOf.length > 0 && !needsOneOf.some((need) => hasNeed(boat, need))
            ? 'needs'
            : null,
  }));
}

/** What the trade holds against a downwind sail (common practice, no source): a plain symmetric of the same area, twin headsails, a pole for the jib. */
const RIVALS: readonly SailKind[] = ['symmetric-cruising', 'twin-headsails', 'poled-out-headsail'];

/** A sail that is set on a dead run or near it. */
const isDownwind = ({ place, window }: ReturnType<typeof kindOf>) =>
  ['flying', 'winged', 'twins'].includes(place) && window.awaMaxDeg.value >= DOWNWIND_DEG;
/** Of our own choice. */
const DOWNWIND_DEG = 150;

/**
 * The usual competitors of a new downwind sail that a boat has not and could set; the symmetric of the same area.
 * @throws InputError where the boat is none, or there is no such kind
 * @example
 * usualRivals(sample.kinds, 'vented-downwind', 140).map(({ kind }) => kind) // ['symmetric-cruising', 'twin-headsails']
 */
export function usualRivals(boat: Boat, kind: SailKind, areaM2: number | undefined): readonly SailWanted[] {
  mustBeGiven(boat, 'sails', 'boat', 'readBoat');
  checkKind(kind);
  if (!isDownwind(kindOf(kind))) return [];
  const aboard = new Set([kind, ...boat.sails.map((sail) => sail.kind)]);
  return RIVALS.filter((rival) => !aboard.has(rival)).map((rival) => ({
    kind: rival,
    ...(rival === 'symmetric-cruising' && areaM2 !== undefined ? { areaM2 } : {}),
  }));
}

/** The most hands that it takes to set a boat's further sails or to take them down, where that is more than her crew: they are never set. */
export function beyondCrew(
  a: Boat,
  b: Boat,
  crew: number | undefined,
): readonly { readonly sail: string; readonly hands: number }[] {
  return addedTo(a, b).flatMap(({ id, operations = {} }) => {
    const hands = Math.max(0, ...Object.values(operations).map(({ day }) => day.hands));
    return crew === undefined || hands <= crew ? [] : [{ sail: id, hands }];
  });
}
