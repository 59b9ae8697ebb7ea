import type { SailKind } from '../sail/sail.js';

/** Which sail plan is the fastest over true wind speed and angle, and what follows for the sails aboard. */
export interface Crossover {
  readonly formatVersion: 1;
  readonly boat: string;
  /** What the speeds are. */
  readonly status: 'measured' | 'designed' | 'estimated';
  /** Of estimated speeds: what they rest on. */
  readonly basis: readonly string[];
  readonly options: SettledCrossoverOptions;
  /** One for each wind at each angle, by angle and then by wind. */
  readonly cells: readonly Cell[];
  readonly bestAngles: readonly BestAngles[];
  /** Every cloth aboard. */
  readonly sails: readonly SailUse[];
  /** Regions without a good sail, the largest first. */
  readonly holes: readonly Hole[];
  /** Off the wind, from TWA 60: where no plan under sail may be carried and makes way, the largest region first. */
  readonly withoutSail: readonly WithoutSail[];
  /** Why holes could not be looked for; null where they were. */
  readonly holesUnknown: string | null;
}

/** The options a crossover was really made with. */
export interface SettledCrossoverOptions {
  readonly twsKn: readonly number[];
  readonly twaDeg: readonly number[];
  /** Limit gust over mean wind. */
  readonly gustFactor: number;
  readonly skipperFactor: number;
  /** Whether sails that are not set in the dark are left out. */
  readonly night: boolean;
  /** Ids of sails left out: with a cloth go all its settings. */
  readonly without: readonly string[];
  /** How much slower than the best catalogue sail, percent, makes a hole. */
  readonly holePercent: number;
}

/** One wind and angle; TWA to the course, apparent wind at 10 m off the bow. What does not apply is null. */
export interface Cell {
  readonly twsKn: number;
  readonly twaDeg: number;
  /** The fastest plan that may be carried; null where none makes way. */
  readonly sailPlan: string | null;
  readonly stwKn: number | null;
  readonly awaDeg: number | null;
  readonly awsKn: number | null;
  readonly gustAwsKn: number | null;
  /** The next fastest. */
  readonly runnerUp: string | null;
  readonly marginKn: number | null;
  /** Of the fastest's speed. */
  readonly marginPercent: number | null;
  /** Whether another plan is the fastest if one assumption of an estimate is moved within its band. */
  readonly undecided: boolean;
  readonly hole: CellHole | null;
}

/** A catalogue sail that would be much faster at a wind and angle. */
export interface CellHole {
  readonly kind: SailKind;
  /** What the catalogue plan would make along the course, by the estimate, tacking or gybing where that is better. */
  readonly stwKn: number;
  /** What the best plan aboard makes by the same estimate. */
  readonly aboardKn: number;
  readonly slowerPercent: number;
  /** Whether it stays so under every assumption in its band. */
  readonly certain: boolean;
}

/** The best speeds made good against the wind and before it, at one wind; null where none is made. */
export interface BestAngles {
  readonly twsKn: number;
  readonly up: BestAngle | null;
  readonly down: BestAngle | null;
}

/** The angle of the best speed made good, and what is set. */
export interface BestAngle {
  readonly twaDeg: number;
  readonly sailPlan: string;
  readonly stwKn: number;
  readonly vmgKn: number;
  readonly awaDeg: number;
  readonly awsKn: number;
}

/** How a cloth fares. */
export interface SailUse {
  readonly id: string;
  readonly kind: SailKind;
  /** For strong wind and safety, not for speed. */
  readonly isStormSail: boolean;
  /** In how many cells it is part of the fastest plan. */
  readonly bestCells: number;
  /** Where it is nearest to being so, if never; null where it is, or is set nowhere. */
  readonly nearest: Nearest | null;
  /** Why it is set nowhere: left out, not set in the dark, its plans have no speeds, or they may nowhere be carried; null where it is. */
  readonly setNowhere: 'left-out' | 'night' | 'no-plan' | 'no-speeds' | 'not-carried' | null;
}

/** Where a sail that is never best comes nearest. */
export interface Nearest {
  readonly twsKn: number;
  readonly twaDeg: number;
  readonly sailPlan: string;
  readonly fastest: string;
  readonly slowerPercent: number;
  /** What, assumed instead, would make it the fastest somewhere; empty where nothing does. */
  readonly bestIf: readonly string[];
}

/** Winds and angles, from and to, both among them. */
export interface WindsAndAngles {
  readonly twsKn: readonly [from: number, to: number];
  readonly twaDeg: readonly [from: number, to: number];
}

/** A region of winds and angles: it lies within the spans told, and rarely fills them. */
export interface Region extends WindsAndAngles {
  readonly cells: number;
  /** The most of it that is whole: here it is at every wind and angle. The spans of the region where it fills them. */
  readonly throughout: WindsAndAngles;
}

/** A region of winds and angles at which nothing can be set. */
export type WithoutSail = Region;

/** A region of winds and angles without a good sail. */
export interface Hole extends Region {
  /** Apparent wind angles of the best plan aboard there; null where none makes way. */
  readonly awaDeg: readonly [from: number, to: number] | null;
  /** Kinds that would fill it, the one of most cells first. */
  readonly kinds: readonly SailKind[];
  /** Where it is deepest. */
  readonly deepest: CellHole & { readonly twsKn: number; readonly twaDeg: number; readonly sailPlan: string | null };
  /** Whether all of it stays so under every assumption in its band. */
  readonly certain: boolean;
}
