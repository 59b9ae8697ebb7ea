import type { TwaReference } from '../polar/polar.js';
import type { SailKind, Window } from '../sail/sail.js';

export { plansWithout } from './plansWithout.js';
export { polarFileOf, polarFilesOf } from './polarFiles.js';
export { checkBoat, checkHouse, type ReadBoatOptions, readBoat } from './readBoat.js';
export { settingOf } from './setting.js';

/** A boat and her wardrobe, as her file gives them. */
export interface Boat {
  readonly name: string;
  /** Currency of every sum of money, ISO 4217; nothing is converted. */
  readonly currency?: string;
  /** People who stand watches. */
  readonly crew?: number;
  readonly hull: Hull;
  /** Path of the polar file, relative to the boat file; or one for each sail plan, by its id. */
  readonly polars: string | Readonly<Record<string, string>>;
  /** Height of the wind that the polars refer to, where their file states none. Default 10 m. */
  readonly polarWindHeightM?: number;
  /** What TWA in the polars is counted from, where their file does not say. Default the course through the water. */
  readonly polarTwaReference?: TwaReference;
  /** Whether the polars were measured at sea (default) or designed; sets the default of the skipper's factor. */
  readonly polarStatus?: 'measured' | 'designed';
  /** Absent: none is reckoned with. */
  readonly leeway?: LeewayByAngle;
  readonly sails: readonly Sail[];
  readonly sailPlans: readonly SailPlan[];
  readonly house?: House;
  /** Where an editor finds the JSON Schema; not used. */
  readonly $schema?: string;
}

/** Leeway by AWA: [awaDeg, leewayDeg] points in rising angle, linear between, held beyond the ends. */
export type LeewayByAngle = readonly (readonly [awaDeg: number, leewayDeg: number])[];

/** The hull. */
export interface Hull {
  readonly type: 'catamaran' | 'monohull';
  readonly waterlineM?: number;
  readonly displacementKg?: number;
  /** Distance between the centrelines of a catamaran's hulls. */
  readonly hullCentresM?: number;
}

/** One cloth of the wardrobe, or another setting of one (`clothOf`). */
export interface Sail {
  readonly id: string;
  readonly kind: SailKind;
  readonly areaM2?: number;
  /** Not set in the dark. */
  readonly daylightOnly?: boolean;
  /** The sail this is another setting of (a poled-out jib): its hours count there. */
  readonly clothOf?: string;
  /** Code zero: half width over foot, 0.50 to 0.75. */
  readonly midGirthRatio?: number;
  /** Overlapping genoa: luff perpendicular over J, 100 to 150 %. */
  readonly overlapPercent?: number;
  readonly window: Window;
  /** First reef to deepest. */
  readonly reefs?: readonly Reef[];
}

/** A reef: keeps the sail's angles and collapse speed; its gust limits are its own, an absent one is no limit. */
export interface Reef {
  /** Area left, as a share of the full sail. */
  readonly areaShare: number;
  readonly awsMaxKn?: Window['awsMaxKn'];
  readonly twsMaxKn?: number;
}

/** What is set at one time: ids of sails, with `:n` for the n-th reef (`main:1`). */
export interface SailPlan {
  readonly id: string;
  readonly sails: readonly string[];
}

/** House rules and settings of the skipper; each has a default. */
export interface House {
  /** Gust over mean wind where the forecast has no gust. */
  readonly gustFactor?: number;
  /** Factor on the gust for safety. */
  readonly gustMargin?: number;
  /** Minutes without way that a tack costs. */
  readonly tackMinutes?: number;
  /** Minutes without way that a gybe costs. */
  readonly gybeMinutes?: number;
  /** Hours between tacks when beating. */
  readonly tackEveryHours?: number;
  /** Hours between gybes when running on alternate gybes. */
  readonly gybeEveryHours?: number;
  /** Factor on the speeds of the polars at sea. */
  readonly skipperFactor?: number;
}
