import type {
  ClothName,
  DayAndNight,
  Effort,
  Gybe,
  Operation,
  Operations,
  Origin,
  Rig,
  SailMeasures,
  SetBy,
} from '../catalogue/catalogue.js';
import type { TwaReference } from '../polar/polar.js';
import type { SailKind, Window } from '../sail/sail.js';

export { checkCompleteBoat } from './checkBoat.js';
export { checkHouse } from './checkHouse.js';
export { completeBoat } from './completeBoat.js';
export { hasNeed } from './hasNeed.js';
export { noPolarWarnings } from './noPolarWarnings.js';
export { BARE_POLES, HOVE_TO, MOTOR } from './planIds.js';
export { plansWithout } from './plansWithout.js';
export { polarFileOf, polarFilesOf } from './polarFiles.js';
export { AREA_M2, HOUSE_RANGES } from './ranges.js';
export { type ReadBoatOptions, readBoat } from './readBoat.js';
export { sailPlanSchema, sailSchema } from './schema.js';
export { settingOf } from './setting.js';
export { startingBoatFile } from './startingFile.js';
export { NEED_IN_WORDS, wardrobeWarnings } from './wardrobeWarnings.js';
export { withSail } from './withSail.js';

/**
 * A boat and her wardrobe as her file gives them. What it leaves out of her sails and sail plans follows from their kinds and
 * her rig (`completeBoat`).
 */
export interface BoatFile {
  readonly name: string;
  readonly comment?: Comment;
  /** Currency of every sum of money, ISO 4217; nothing is converted. */
  readonly currency?: string;
  /** People who stand watches. */
  readonly crew?: number;
  /** Absent: all of the crew are on deck for a sail change. */
  readonly watches?: Watches;
  /** Absent: she sails only. */
  readonly engine?: Engine;
  readonly hull: Hull;
  readonly rig?: Rig & { readonly comment?: Comment };
  /** Path of the polar file, relative to the boat file; or one for each sail plan, by its id. */
  readonly polars?: string | Readonly<Record<string, string>>;
  /** Path of the one polar of the whole boat, under whatever sails are best: the estimator splits it between the sail plans. */
  readonly boatPolar?: string;
  /** Speeds the owner knows, to which estimated polars are fitted. */
  readonly knownSpeeds?: readonly KnownSpeed[];
  /** Height of the wind that the polars refer to, where their file states none. Default 10 m. */
  readonly polarWindHeightM?: number;
  /** What TWA in the polars is counted from, where their file does not say. Default the course through the water. */
  readonly polarTwaReference?: TwaReference;
  /** Whether the polars were measured at sea (default) or designed; sets the default of the skipper's factor. */
  readonly polarStatus?: 'measured' | 'designed';
  /** Absent: none is reckoned with. */
  readonly leeway?: LeewayByAngle;
  readonly sails: readonly SailGiven[];
  /** Absent: those that follow from the sails. */
  readonly sailPlans?: readonly SailPlan[];
  readonly house?: House & { readonly comment?: Comment };
  /** Where an editor finds the JSON Schema; not used. */
  readonly $schema?: string;
}

/** A boat whose sails have their windows and which has sail plans: her file, completed by kinds and rig. */
export interface Boat extends Omit<BoatFile, 'sails' | 'sailPlans'> {
  readonly sails: readonly Sail[];
  readonly sailPlans: readonly SailPlan[];
}

/** Words for people, passed over by the program. */
export type Comment = string | readonly string[];

/** How the crew stands watches. */
export interface Watches {
  /** When the watch changes, `HH:MM` in the ship's zone time, rising within the day. */
  readonly changes: readonly string[];
  /** Into how many watches the crew is divided, no more than she has people. Default 2. */
  readonly teams?: number;
}

/** The engine and its fuel. */
export interface Engine {
  /** Speed through flat water under engine. */
  readonly cruiseKn: number;
  /** What it burns at that speed. */
  readonly litresPerHour: number;
  /** Fuel aboard at departure. */
  readonly fuelLitres: number;
  /** Fuel that is not burnt. Default none. */
  readonly reserveLitres?: number;
  /** Hours a day that it runs for the batteries. Default none. */
  readonly chargingHoursPerDay?: number;
  readonly comment?: Comment;
}

/** Leeway by AWA: [awaDeg, leewayDeg] points in rising angle, linear between, held beyond the ends. */
export type LeewayByAngle = readonly (readonly [awaDeg: number, leewayDeg: number])[];

/** A speed through the water that the owner knows, at a true wind at 10 m and its angle to the course. */
export interface KnownSpeed {
  /** Absent: under the best sail plan that may be carried. */
  readonly sailPlan?: string;
  readonly twsKn: number;
  readonly twaDeg: number;
  readonly stwKn: number;
  readonly comment?: Comment;
}

/** The hull. All but its type serves estimated speeds only; what is left out of it there is told with them. */
export interface Hull {
  readonly type: 'catamaran' | 'monohull';
  readonly comment?: Comment;
  readonly waterlineM?: number;
  readonly displacementKg?: number;
  /** Distance between the centrelines of a catamaran's hulls. */
  readonly hullCentresM?: number;
  /** Length overall. */
  readonly lengthM?: number;
  /** Beam overall. */
  readonly beamM?: number;
  /** Mean height of the topsides over the water. */
  readonly freeboardM?: number;
  /** Wetted area of hulls, keels and rudders. */
  readonly wettedAreaM2?: number;
  /** Of a monohull: metacentric height. */
  readonly metacentricHeightM?: number;
  /** Of a catamaran: the heeling moment that is allowed in the gust, as a share of the most she can right. */
  readonly stabilityShare?: number;
  /** Of a monohull: the steady heel that is allowed. */
  readonly heelLimitDeg?: number;
}

/** What a boat file says of a sail; all but id and kind follow from the kind and the rig where it does not say. */
export interface SailGiven extends SailMeasures {
  readonly id: string;
  readonly kind: SailKind;
  readonly comment?: Comment;
  readonly areaM2?: number;
  /** Not set in the dark. */
  readonly daylightOnly?: boolean;
  /** The sail this is another setting of (a poled-out jib): its hours count there. */
  readonly clothOf?: string;
  readonly window?: Partial<Window>;
  /** First reef to deepest, or part-furled settings of a headsail; empty: it has none. */
  readonly reefs?: readonly Partial<Reef>[];
  readonly setBy?: SetBy;
  readonly operations?: OperationsGiven;
  readonly gybe?: Partial<Gybe>;
  readonly life?: LifeGiven;
  /** What a new one costs, in the boat's currency. */
  readonly price?: number;
  /** Which values follow from the kind and the rig, by their path in the sail (`window.awaMinDeg`), and on what ground. */
  readonly derived?: Readonly<Record<string, Origin>>;
}

/** What an owner knows of how a sail lives and how far it is worn, all of it optional; the rest follows from its cloth. */
export interface LifeGiven {
  /** What it is made of, where it is not what its kind usually is; `other`: nothing the catalogue knows of. */
  readonly cloth?: ClothName | 'other';
  readonly weightGPerM2?: number;
  /** Hours it has been set. */
  readonly usedHours?: number;
  /** Miles it has been set for, where nobody counted hours. */
  readonly miles?: number;
  readonly ageYears?: number;
  /** Share of its life left, 0 to 1, as an owner or a sailmaker saw it. */
  readonly inspectedLeft?: number;
  /** Hours it lasts, of the reference use. */
  readonly lifeHours?: number;
  /** AWS in the gust that the full sail is made for. */
  readonly designAwsKn?: number;
  /** Wear goes with the load to this power. */
  readonly loadExponent?: number;
  /** Share of its strength that it loses in a month in the open, unprotected. */
  readonly uvLossPerMonth?: number;
  /** Share of the ultraviolet that reaches it furled or stowed in the open: 1 without a cover. */
  readonly uvCover?: number;
  /** Sailing hours that an hour of flogging counts as. */
  readonly floggingFactor?: number;
}

/** Operations as far as a boat file gives them. */
export type OperationsGiven = Readonly<
  Partial<Record<Operation, Partial<Readonly<Record<keyof DayAndNight, Partial<Effort>>>>>>
>;

/** One cloth of the wardrobe, or another setting of one (`clothOf`). */
export interface Sail extends Omit<SailGiven, 'window' | 'reefs' | 'operations' | 'gybe'> {
  readonly window: Window;
  readonly reefs?: readonly Reef[];
  readonly operations?: Operations;
  readonly gybe?: Gybe;
}

/**
 * A reef: keeps the sail's angles, unless it has a close angle of its own, and its collapse speed; its gust limits are its own.
 * In a complete boat an absent limit or null is none; in a boat file what is absent follows from the kind, null is none.
 */
export interface Reef {
  /** Area left, as a share of the full sail. */
  readonly areaShare: number;
  readonly awaMinDeg?: number;
  readonly awsMaxKn?: Window['awsMaxKn'];
  readonly twsMaxKn?: number | null;
}

/** What is set at one time: ids of sails, with `:n` for the n-th reef (`main:1`); none for bare poles. */
export interface SailPlan {
  readonly id: string;
  readonly sails: readonly string[];
  readonly comment?: Comment;
  /** Whether it follows from the sails aboard and is not in the boat file. */
  readonly derived?: boolean;
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
  /** What each sail change is worth, in minutes of arrival time. */
  readonly pricePerChangeMinutes?: number;
  /** What a change that wakes the watch below is worth beyond that, in minutes of arrival time. */
  readonly wakeMinutes?: number;
  /** Whole hours from one sail change to the next, at least. */
  readonly leastHoursBetweenChanges?: number;
  /** What may be changed in the dark: anything, all but sails set flying, or nothing. */
  readonly changesInDark?: 'any' | 'not-flying' | 'none';
  /** Mean true wind above which, by night, the main is reefed a step further than by day; null: none. */
  readonly nightReefAboveKn?: number | null;
  /** Highest waves in which a sail is carried, by its id. */
  readonly waveMaxM?: Readonly<Record<string, number>>;
  /** Whether sails that are not gybed by night (`gybe.byNight` false) are gybed by daylight only. */
  readonly gybesByDay?: boolean;
  /** Whether squalls are reckoned with where the forecast cannot hold them. */
  readonly squalls?: boolean;
  /** Wind in a squall over the mean wind. */
  readonly squallFactor?: number;
  /** Chance of a squall, 0 to 1; null: by latitude. */
  readonly squallChance?: number | null;
  /** Chance of a squall from which on it counts. */
  readonly squallThreshold?: number;
  /** The boat motors below this speed made good, where no sail plan makes as much; null: never. */
  readonly motorBelowKn?: number | null;
  /** What an hour under engine is worth, in minutes of arrival time. */
  readonly motorPriceMinutes?: number;
}
