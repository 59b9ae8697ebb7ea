import { crossoverOf } from '../crossover/crossover.js';
import { type Fault, InputError } from '../errors.js';
import { loadBoat } from '../node/node.js';
import { crossoverCsv, crossoverJson, crossoverText } from '../output/output.js';
import { crossoverReport, crossoverSvg } from '../report/report.js';
import { type CommandIo, EXIT } from './io.js';
import { numberOf } from './options.js';
import { version } from './version.js';
import { writeOut } from './writeOut.js';

/** The options of `crossover` as they were given. */
export interface CrossoverCommand {
  readonly boat: string;
  readonly out?: string;
  readonly night?: boolean;
  readonly without?: readonly string[];
  readonly gustFactor?: string;
}

/**
 * Says which sail stays in the bag and where there is none, and writes the crossover as CSV, JSON and a chart.
 * @throws InputError with every fault
 */
export async function crossover(given: CrossoverCommand, io: CommandIo): Promise<number> {
  const faults: Fault[] = [];
  const gustFactor = numberOf(given.gustFactor, '--gust-factor', [1, 3], faults);
  if (faults.length > 0) throw new InputError(faults);
  const { boat, polars, digests } = await loadBoat(given.boat);
  const found = crossoverOf(boat, polars, {
    ...(given.night === undefined ? {} : { night: given.night }),
    ...(given.without === undefined ? {} : { without: given.without }),
    ...(gustFactor === undefined ? {} : { gustFactor }),
  });
  const printed = crossoverText(found);
  if (given.out === undefined) {
    io.out(printed);
    return EXIT.complete;
  }
  const files = {
    'crossover.csv': crossoverCsv(found),
    'crossover.json': crossoverJson(found, digests),
    'crossover.svg': crossoverSvg(found),
    'report.html': crossoverReport(found, digests, { version: version() }),
  };
  return writeOut(given.out, files, printed, io);
}
