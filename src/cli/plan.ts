import { type Fault, InputError } from '../errors.js';
import { fileProblem, loadInputs, writeFiles } from '../node/node.js';
import { hoursCsv, planJson, planMarkdown, totalsText } from '../output/output.js';
import { type Choice, type Passage, planPassage } from '../passage/passage.js';
import { parseInstant } from '../time.js';
import { totalsOf } from '../totals/totals.js';
import { saidOfInstant } from '../wording.js';
import { type CommandIo, EXIT } from './io.js';
import { readingProgress } from './progress.js';

/** The options of `plan` as they were given. */
export interface PlanOptions {
  readonly route: string;
  readonly forecast: string;
  readonly boat: string;
  readonly depart: string;
  readonly out: string;
  readonly choice: Choice;
}

/** Plans a passage from files into files. Nothing is written where the input is bad. */
export async function plan(options: PlanOptions, io: CommandIo): Promise<number> {
  const progress = readingProgress(io);
  let files: Readonly<Record<string, string>>;
  let printed: string;
  let passage: Passage;
  try {
    const { inputs, digests, warnings } = await loadInputs(options, {
      onProgress: progress.show,
      faults: departFaults(options.depart),
    });
    const sailed = planPassage(inputs, { departure: options.depart, choice: options.choice });
    passage = { ...sailed, warnings: [...warnings, ...sailed.warnings] };
    const totals = totalsOf(passage, inputs.boat);
    const toPrint = { passage, totals, boat: inputs.boat, route: inputs.route, inputs: digests };
    printed = totalsText(toPrint);
    files = {
      'hours.csv': hoursCsv(passage),
      'plan.json': planJson(passage, totals, digests),
      'plan.md': planMarkdown(toPrint),
    };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    io.error(`${error.message}\n`);
    return EXIT.badInput;
  } finally {
    progress.clear();
  }
  try {
    await writeFiles(options.out, files);
  } catch (error) {
    const problem = fileProblem(error);
    if (problem === undefined) throw error;
    const place =
      error instanceof Error && 'path' in error && problem === 'a folder' ? String(error.path) : options.out;
    io.error(`${place}: cannot be written to: ${problem}\n`);
    return EXIT.failure;
  }
  io.out(`${printed}\nWritten to ${options.out}: ${Object.keys(files).join(', ')}\n`);
  return passage.complete ? EXIT.complete : EXIT.incomplete;
}

function departFaults(depart: string): Fault[] {
  const instant = parseInstant(depart);
  if (typeof instant === 'number') return [];
  return [{ file: '--depart', ...saidOfInstant(instant, depart) }];
}
