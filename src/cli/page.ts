import { type Fault, InputError } from '../errors.js';
import { fileProblem, type ServedPage, servePage } from '../node/node.js';
import { type CommandIo, EXIT } from './io.js';
import { wholeNumber } from './studyOptions.js';

/** The options of `page` as they were given. */
export interface PageOptions {
  readonly port: string;
}

/**
 * Serves the page on this machine until a person interrupts.
 * @throws InputError where the port is none
 */
export async function page({ port }: PageOptions, io: CommandIo): Promise<number> {
  const faults: Fault[] = [];
  const number = wholeNumber(port, '--port', [0, 65_535], faults);
  if (number === undefined) throw new InputError(faults);
  let served: ServedPage;
  try {
    served = await servePage(number);
  } catch (error) {
    // That it is not built is no fault of what was asked.
    const problem = error instanceof InputError ? error.message : fileProblem(error);
    if (problem === undefined) throw error;
    io.error(error instanceof InputError ? `${problem}\n` : `port ${port}: cannot be served at: ${problem}\n`);
    return EXIT.failure;
  }
  io.out(`The page is at ${served.url}, for this machine alone. Stop it with Ctrl+C.\n`);
  await new Promise<void>((done) => {
    io.onInterrupt?.(done);
  });
  await served.close();
  return EXIT.complete;
}
