import { applyEdits, type JSONPath, type ModificationOptions, modify } from 'jsonc-parser';
import { type Boat, type BoatFile, readBoat, type Sail } from '../boat/boat.js';
import { exactPolarsCsv } from '../output/output.js';
import type { BoatWith } from '../worth/worth.js';
import type { Rules } from './messages.js';

/** What of a boat was set on the page. */
export interface SetOnPage {
  /** The boat as she was read, and the text of her file. */
  readonly boat: Boat;
  readonly text: string;
  readonly file: string;
  /** Her with the sail that was added; absent: none was. */
  readonly whole?: BoatWith;
  readonly rules: Pick<Rules, 'crew' | 'house'>;
  /** What the names of files begin with. */
  readonly prefix: string;
}

/**
 * The boat file as she stands on the page, with all that was not changed as a person wrote it. Where her speeds are polars of her plans, those
 * with the added sail go into a polar file beside it, which has every digit, so that a plan comes out the same.
 */
export function boatFiles({ boat, text, file, whole, rules, prefix }: SetOnPage): Readonly<Record<string, string>> {
  const name = `${prefix}${file}`;
  let edited = text.replace(/^\uFEFF/, '');
  const put = (path: JSONPath, value: unknown, how: ModificationOptions = {}) => {
    edited = applyEdits(edited, modify(edited, path, value, { formattingOptions: FORMAT, ...how }));
  };
  const append = (list: 'sails' | 'sailPlans', value: unknown) => put([list, -1], value, { isArrayInsertion: true });
  if (rules.crew !== undefined) put(['crew'], rules.crew);
  for (const [rule, value] of Object.entries(rules.house)) put(['house', rule], value);
  if (whole === undefined) return { [name]: edited };

  const before = JSON.parse(edited) as BoatFile;
  if (whole.boat.rig?.poleM !== boat.rig?.poleM) put(['rig', 'poleM'], whole.boat.rig?.poleM);
  const bare = edited;
  const add = ({ id, kind, clothOf, areaM2, derived = {} }: Sail) =>
    append('sails', { id, kind, clothOf, ...(Object.hasOwn(derived, 'areaM2') ? {} : { areaM2 }) });
  const added = whole.boat.sails.find(({ id }) => id === whole.sail)!;
  add(added);
  // A setting that followed from her sails and does not follow with the new one is written down too.
  const follow = new Set(readBoat(edited, { file }).sails.map(({ id }) => id));
  const lost = whole.boat.sails.filter(({ id }) => !follow.has(id));
  if (lost.length > 0) {
    edited = bare;
    for (const sail of [...lost, added]) add(sail);
  }
  // Where her file has no plans they follow from her sails, those with the new one too.
  if (before.sailPlans !== undefined) {
    const had = new Set(boat.sailPlans.map(({ id }) => id));
    for (const { id, sails } of whole.boat.sailPlans) if (!had.has(id)) append('sailPlans', { id, sails });
  }
  if (before.polars === undefined) return { [name]: edited };
  const polars = `${prefix}polars-with-${whole.sail}.csv`;
  put(['polars'], polars);
  return { [name]: edited, [polars]: exactPolarsCsv(whole.polars.plans) };
}

const FORMAT = { insertSpaces: true, tabSize: 2, eol: '\n' };
