import { faultAsGiven } from '../describe/describe.js';
import { loadInputs, worldLand } from '../node/node.js';
import { totalsText } from '../output/output.js';
import { type Choice, type Passage, planPassage } from '../passage/passage.js';
import { planFiles } from '../report/report.js';
import { totalsOf } from '../totals/totals.js';
import { wearOf } from '../wear/wear.js';
import { type CommandIo, EXIT } from './io.js';
import { type GivenOptions, readOptions } from './options.js';
import { readingProgress } from './progress.js';
import { version } from './version.js';
import { writeOut } from './writeOut.js';

/** The options of `plan` as they were given. */
export interface PlanOptions extends GivenOptions {
  readonly route: string;
  readonly forecast?: readonly string[];
  readonly climatology?: readonly string[];
  readonly boat: string;
  readonly depart: string;
  readonly out: string;
  readonly choice: Choice;
  readonly arriveDaylight?: boolean;
  readonly planSet?: string;
  readonly without?: readonly string[];
  readonly member?: string;
}

/**
 * Plans a passage from files into files. Nothing is written where the input is bad.
 * @throws InputError with every fault
 */
export async function plan(options: PlanOptions, io: CommandIo): Promise<number> {
  const progress = readingProgress(io);
  let files: Readonly<Record<string, string>>;
  let printed: string;
  let passage: Passage;
  try {
    const { columns, from, windFactor, windShiftHours, numbers, house, faults } = readOptions(options);
    const { planSet, without, member } = options;
    const { inputs, digests, warnings } = await loadInputs(options, {
      onProgress: progress.show,
      faults,
      columns,
      ...(from === undefined ? {} : { from }),
      ...(member === undefined ? {} : { member }),
    });
    const sailed = planPassage(inputs, {
      departure: options.depart,
      choice: options.choice,
      ...numbers,
      ...(options.arriveDaylight === undefined ? {} : { arriveDaylight: options.arriveDaylight }),
      house,
      ...(planSet === undefined ? {} : { planSet }),
      ...(without === undefined ? {} : { without }),
      ...(windFactor === undefined ? {} : { windFactor }),
      ...(windShiftHours === undefined ? {} : { windShiftHours }),
    });
    passage = { ...sailed, warnings: [...warnings, ...sailed.warnings.map(faultAsGiven)] };
    const totals = totalsOf(passage, inputs.boat);
    const wear = wearOf(passage, inputs.boat);
    const toPrint = { passage, totals, wear, boat: inputs.boat, route: inputs.route, inputs: digests };
    printed = totalsText(toPrint);
    files = planFiles(toPrint, { land: await worldLand(), version: version() });
  } finally {
    progress.clear();
  }
  const code = await writeOut(options.out, files, printed, io);
  return code !== EXIT.complete || passage.complete ? code : EXIT.incomplete;
}
