import { isDeepStrictEqual } from 'node:util';
import type { Boat } from '../boat/boat.js';
import { describeFault, type Fault, InputError } from '../errors.js';
import type { PassageRecord, Study, StudyBoat } from '../study/study.js';
import { says } from '../wording.js';
import {
  addedTo,
  type BoatWith,
  beyondCrew,
  boatWith,
  priced,
  repriced,
  type SailWanted,
  type Turned,
  type TurnedRecords,
  usualRivals,
  type WorthStudy,
} from '../worth/worth.js';

/** A boat that is compared: as she is sailed, and with the price of a sail that was asked for, which changes no passage. */
export interface Side {
  readonly name: string;
  /** As she is sailed. */
  readonly boat: Boat;
  readonly polars: StudyBoat['polars'];
  /** With a sail that she has not by her file. */
  readonly wanted?: SailWanted;
  readonly sail?: BoatWith;
}

/** A boat with a sail that is thought of. */
export function sideWith(a: Side, wanted: SailWanted, file: string, taken: readonly string[] = []): Side {
  const { price, ...unpriced } = wanted;
  const sail = boatWith(a.boat, a.polars, unpriced, file);
  const { boat, polars } = sail;
  // Passages are told apart by the names of their boats.
  const plain = `${a.name} + ${wanted.kind}${wanted.areaM2 === undefined ? '' : ` ${wanted.areaM2} m²`}`;
  let name = plain;
  for (let n = 2; taken.includes(name); n += 1) name = `${plain} (${n})`;
  return { name, boat, polars, wanted, sail: price === undefined ? sail : priced(sail, price) };
}

/**
 * What passages depend on must stand in the boats where it is turned: a gust margin that was asked for goes from the options of the study
 * to its boats.
 */
export function withMargins({ boats, options, ...rest }: Study): Study {
  const { gustMargin, ...house } = options.house ?? {};
  const own = ({ boat, ...one }: StudyBoat): StudyBoat => ({
    ...one,
    boat: gustMargin === undefined ? boat : { ...boat, house: { ...boat.house, gustMargin } },
  });
  return { ...rest, boats: boats.map(own), options: { ...options, house } };
}

/** The passages of a study by the boats that sailed them. */
export interface Gathered {
  add(record: PassageRecord): void;
  /** Of a boat with a sail that was asked for, in the money of its price. */
  studyOf(side: Side): WorthStudy;
  turned(turned: Turned, a: Side, b: Side): TurnedRecords;
  /** Whether some boats finished all of their passages. */
  areComplete(sides: readonly Side[]): boolean;
}

export function gathering(): Gathered {
  const all = new Map<string, PassageRecord[]>();
  const of = (name: string, { sail }: Side): readonly PassageRecord[] => {
    const records = all.get(name) ?? [];
    if (sail?.priceFrom !== 'given') return records;
    return records.map((record) => repriced(record, sail.sail, sail.price!));
  };
  return {
    add(record) {
      const own = all.get(record.boat);
      if (own === undefined) all.set(record.boat, [record]);
      else own.push(record);
    },
    studyOf: (side) => ({
      name: side.name,
      boat: side.sail?.boat ?? side.boat,
      polars: side.polars,
      records: of(side.name, side),
    }),
    areComplete: (sides) => sides.every(({ name }) => (all.get(name) ?? []).every(({ complete }) => complete)),
    turned: ({ input, end, text, a: ofA, b: ofB }, a, b) => ({
      input,
      end,
      text,
      a: ofA === null ? null : of(ofA.name, a),
      b: of(ofB.name, b),
    }),
  };
}

/** What of a sail that is thought of changes its passages: not its price. */
export function unpriced(wanted: SailWanted | undefined): Omit<SailWanted, 'price'> | null {
  if (wanted === undefined) return null;
  const { price: _, ...rest } = wanted;
  return rest;
}

/** What of two boats should be alike where their wardrobes are compared. */
const ALIKE = ['hull', 'rig', 'crew', 'watches', 'engine', 'house', 'leeway', 'knownSpeeds'] as const;

/** What else differs between two boats than their wardrobes. */
export const unlikeWarnings = (a: Pick<Side, 'boat'>, b: Pick<Side, 'boat'>, file: string): Fault[] =>
  ALIKE.filter((key) => !isDeepStrictEqual(a.boat[key], b.boat[key])).map((key) => ({
    file,
    path: key,
    ...says.unlikeBoats(),
  }));

/** Sails that the crew cannot handle, which would seem to be of no use. */
export const crewWarnings = (
  a: Pick<Side, 'boat'>,
  side: Pick<Side, 'boat' | 'name'>,
  crew: number | undefined,
): Fault[] =>
  beyondCrew(a.boat, side.boat, crew).map(({ sail, hands }) => ({
    file: side.name,
    ...says.beyondCrew(sail, hands, crew!),
  }));

/** Competitors: those that were asked for, or the usual ones of a single new sail as far as she can set them. */
export function rivalsOf(
  a: Side,
  b: Side,
  asked: readonly SailWanted[] | undefined,
  file: string,
): { readonly rivals: readonly Side[]; readonly warnings: readonly Fault[] } {
  // A setting that comes with the new sail is no second one.
  const [added, ...more] = addedTo(a.boat, b.boat).filter(({ clothOf }) => clothOf === undefined);
  const usual = added === undefined || more.length > 0 ? [] : usualRivals(a.boat, added.kind, added.areaM2);
  const warnings: Fault[] = [];
  const taken = [a.name, b.name];
  const rivals = (asked ?? usual).flatMap((wanted): Side[] => {
    try {
      const side = sideWith(a, wanted, file, taken);
      taken.push(side.name);
      return [side];
    } catch (error) {
      if (!(error instanceof InputError) || asked !== undefined) throw error;
      warnings.push({ file, ...says.rivalLeftOut(wanted.kind, describeFault(error.faults[0]!)) });
      return [];
    }
  });
  return { rivals, warnings };
}
