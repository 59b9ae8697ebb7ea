import type { Band, ClothName, Origin } from '../catalogue/catalogue.js';

/**
 * What wears a sail.
 * @example
 * WEAR_CAUSES // ['load', 'ultraviolet', 'handling']
 */
export const WEAR_CAUSES = ['load', 'ultraviolet', 'handling'] as const;
/** One cause of wear. */
export type WearCause = (typeof WEAR_CAUSES)[number];

/** When to have a sail looked at: before the passage, after it, later, or nobody can say. */
export const LOOK_AT = ['before', 'after', 'later', 'unknown'] as const;

/**
 * What a passage takes of one cloth. Shares are of the sail's whole life, 1 is all of it; low and high are the least and the most
 * that any ends of the constants give together. Null: not known.
 */
export interface SailWear {
  /** Id of the cloth; the wear of its other settings counts here. */
  readonly sail: string;
  /** `other`: of such a cloth the catalogue knows nothing, and its wear is null unless the boat file gives its constants. */
  readonly cloth: ClothName | 'other';
  /** Hours it was set. */
  readonly hours: number;
  readonly load: Band | null;
  readonly ultraviolet: Band | null;
  readonly handling: Band | null;
  /** The three together; its ends are nearer than theirs, for what one cause takes more another takes less. */
  readonly total: Band | null;
  /** Used before this passage; null where the boat file tells nothing of it. */
  readonly usedBefore: Band | null;
  /** Left after it, 0 at least. */
  readonly left: Band | null;
  /** Hours set that are left in this kind of sailing: at what this passage takes for each hour set. */
  readonly hoursLeft: Band | null;
  /** The cause that takes most by the middle of the constants; null where nothing wears it. */
  readonly cause: WearCause | null;
  /** Whether it is the same with all ends of the constants. */
  readonly causeIsSure: boolean;
  /** `hours` are set after this passage in the same kind of sailing; null where it is not `later`, or the passage never sets it. */
  readonly lookAt: { readonly when: (typeof LOOK_AT)[number]; readonly hours: number | null };
  /** Hours in gusts over what the cloth is made for: counted as at that, for beyond it is strength that fails, not wear that adds up. */
  readonly overDesignHours: number;
  /** By what an inspection moves the rate of wear; null where none stands beside known use. */
  readonly recalibratedBy: Band | null;
  /** What a new one costs. */
  readonly price: Band | null;
  readonly priceFrom: 'boat-file' | 'default' | null;
  /** Share of the price that this passage takes, and for each mile of it. */
  readonly money: Band | null;
  readonly moneyPerNm: Band | null;
}

/** A constant that wear was reckoned with. */
export interface WearConstant extends Omit<Origin, 'status'> {
  /** A cloth, the id of a sail, or `all`. */
  readonly of: string;
  readonly name: string;
  readonly low: number;
  readonly mid: number;
  readonly high: number;
  /** `boat-file`: the owner's own. */
  readonly status: Origin['status'] | 'boat-file';
}

/** What a passage takes of every sail. */
export interface Wear {
  readonly sails: readonly SailWear[];
  /**
   * The sail that wears out first if all passages were like this one: that of fewest such passages left, by the middle of the
   * constants. A sail of which nobody knows how far it is worn is taken as new, and that is told. Null: nothing wears.
   */
  readonly first: {
    readonly sail: string;
    readonly cause: WearCause;
    readonly causeIsSure: boolean;
    readonly passagesLeft: number;
    readonly takenAsNew: boolean;
    /** Other sails that wear first with other ends of the constants. */
    readonly orElse: readonly string[];
  } | null;
  /** Money that the passage takes of all sails that have a price, in the boat's currency, and for each mile made good. */
  readonly money: {
    readonly currency: string | null;
    readonly passage: Band | null;
    readonly perNm: Band | null;
    /** Sails that wear and have no price. */
    readonly unpriced: readonly string[];
  };
  /** Hours of light air under sail in which nobody knows whether a sea was running: no slatting is counted in them. */
  readonly slattingUnknownHours: number;
  readonly constants: readonly WearConstant[];
}
