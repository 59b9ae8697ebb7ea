import { type Fault, InputError } from '../errors.js';
import { loadBoat } from '../node/node.js';
import { polarsCsv } from '../output/output.js';
import { says } from '../wording.js';
import { type CommandIo, EXIT } from './io.js';
import { jsonText } from './jsonText.js';
import { speedsText } from './speedsText.js';
import { writeNew } from './writeOut.js';

/** The options of `boat speeds` as they were given. */
export interface SpeedsCommand {
  readonly plan?: readonly string[];
  readonly out?: string;
  readonly json?: boolean;
}

/**
 * Prints the speeds of a boat's plans, estimated where her file names no polars, or writes them as a polar file to start from.
 * @throws InputError with every fault
 */
export async function speeds(path: string, { plan, out, json = false }: SpeedsCommand, io: CommandIo): Promise<number> {
  const { boat, polars } = await loadBoat(path);
  const known = boat.sailPlans.map(({ id }) => id);
  const faults = (plan ?? []).flatMap((id): Fault[] =>
    known.includes(id) ? [] : [{ file: '--plan', ...says.planAsked(known, id) }],
  );
  if (faults.length > 0) throw new InputError(faults);
  const ids = plan ?? known.filter((id) => Object.hasOwn(polars.plans, id));
  if (out === undefined) {
    // What it is first, then the long tables.
    const { plans, low, high, variants, ...about } = polars;
    const all = { formatVersion: 1, boat: boat.name, ...about, plans, low, high, variants };
    io.out(json ? jsonText(all) : speedsText(boat, polars, ids));
    return EXIT.complete;
  }
  const plans = Object.fromEntries(
    ids.flatMap((id) => (polars.plans[id] === undefined ? [] : [[id, polars.plans[id]]])),
  );
  const note =
    polars.status === 'estimated'
      ? 'They are estimates: correct what you know better, then name the file under "polars" in the boat file, with "polarStatus": "designed".'
      : `They are ${polars.status}.`;
  return writeNew(out, polarsCsv(plans), note, io);
}
