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
  | { readonly answer: 'planned'; readonly run: number; readonly sides: readonly Side[]; readonly tradeoff: string }
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

/** One wardrobe, planned. */
export interface Side {
  readonly name: string;
  readonly firstLine: string;
  readonly complete: boolean;
  readonly end: string;
  readonly hours: number;
  readonly changes: number;
  readonly nightChanges: number;
  /** Hours on each sail; null for one left ashore. */
  readonly sails: readonly { readonly id: string; readonly hours: number | null }[];
  readonly warnings: readonly string[];
  /** All that `plan` writes, by name. */
  readonly files: Readonly<Record<string, string>>;
}
