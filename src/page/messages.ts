import type { House } from '../boat/boat.js';
import type { FileKind } from '../describe/describe.js';
import type { SailKind } from '../sail/sail.js';

/** What a page asks of its worker, which reads and plans so that the page does not stand still. */
export type Ask =
  | { readonly ask: 'look'; readonly files: readonly File[] }
  | { readonly ask: 'plan'; readonly run: number; readonly wanted: Wanted };

/** A file that was put on the page, and what it is taken for. */
export interface PutFile {
  readonly file: File;
  readonly kind: FileKind;
  /** Its number on the page: a file of the same name may have been another. */
  readonly id: number;
}

/** What is to be planned. */
export interface Wanted {
  readonly files: readonly PutFile[];
  readonly rules: Rules;
  /** One wardrobe, or two side by side. */
  readonly wardrobes: readonly Wardrobe[];
  /** The version of the page, for its reports. */
  readonly version: string;
}

/** Rules of the crew and the price of a change; what is absent is as the boat file has it. */
export interface Rules {
  readonly departure: string;
  readonly arriveDaylight: boolean;
  readonly crew?: number;
  readonly house: House;
}

/** The boat's wardrobe as it is changed on the page. */
export interface Wardrobe {
  readonly name: string;
  /** Ids of sails left ashore. */
  readonly without: readonly string[];
  /** A further sail. */
  readonly add?: { readonly kind: SailKind; readonly areaM2?: number };
}

/** What the worker answers. */
export type Answer =
  | { readonly answer: 'progress'; readonly text: string; readonly share?: number }
  | { readonly answer: 'looked'; readonly looked: readonly Looked[] }
  | ({ readonly answer: 'planned'; readonly run: number } & Planned)
  | { readonly answer: 'faults'; readonly run: number; readonly faults: readonly FaultsOfFile[] }
  | { readonly answer: 'failed'; readonly text: string };

/** What is wrong with a file, as the command line tells it, line by line; `a.csv + b.csv` are files that are read together. */
export interface FaultsOfFile {
  readonly file: string;
  readonly told: readonly string[];
}

/** What a file is, what is in it, and what is wrong with it. */
export interface Looked {
  readonly file: File;
  /** Undefined where it is nothing that is known. */
  readonly kind?: FileKind;
  readonly told: string;
  readonly faults: readonly string[];
  /** Of a forecast: its first instant. */
  readonly from?: string;
  readonly boat?: BoatSeen;
}

/** What of a boat is changed on the page. */
export interface BoatSeen {
  readonly sails: readonly { readonly id: string; readonly kind: string; readonly areaM2?: number }[];
  /** Kinds that she may be given. */
  readonly kinds: readonly SailKind[];
  readonly crew?: number;
  readonly house: House;
  readonly text: string;
}

/** What came of it: each wardrobe, and their trade-offs over the same axes as markup. */
export interface Planned {
  readonly sides: readonly Side[];
  /** Wardrobes that cannot be planned beside one that can. */
  readonly refused: readonly RefusedSide[];
  readonly tradeoff: string;
}

/** A wardrobe that cannot be planned, and why. */
export interface RefusedSide {
  readonly name: string;
  readonly faults: readonly FaultsOfFile[];
}

/** One wardrobe, planned. */
export interface Side {
  readonly name: string;
  readonly firstLine: string;
  readonly complete: boolean;
  readonly end: string;
  readonly changes: number;
  readonly figures: readonly Figure[];
  /** Hours on each sail; null for one left ashore. */
  readonly sails: readonly { readonly id: string; readonly hours: number | null }[];
  readonly worn: readonly Worn[];
  readonly warnings: readonly string[];
  /** What the names of its files begin with where there are two; else nothing. */
  readonly prefix: string;
  /** All that `plan` writes, by name. */
  readonly files: Readonly<Record<string, string>>;
  /** The boat file, and her polars where they are others, under the names by which they know each other. */
  readonly boatFiles: Readonly<Record<string, string>>;
}

/** Something that a passage adds up to. */
export interface Figure {
  readonly name: string;
  /** Empty for a count. */
  readonly unit: string;
  readonly decimals: number;
  /** Null where it is not known. */
  readonly value: number | null;
}

/** What a passage takes of a sail's life and what is left, as ranges in percent; null where that is not known. */
export interface Worn {
  readonly sail: string;
  readonly takes: string | null;
  readonly left: string | null;
}
