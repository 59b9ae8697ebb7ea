import { type Fault, InputError } from '../errors.js';
import { fileProblem, servePage } from '../node/node.js';
import { type CommandIo, EXIT } from './io.js';
import { numberOf } from './options.js';

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
  const number = numberOf(port, '--port', [0, 65_535], faults);
  if (number === undefined) throw new InputError(faults);
  let served: Awaited<ReturnType<typeof servePage>>;
  try {
    served = await servePage(Math.trunc(number));
  } catch (error) {
    const problem = fileProblem(error);
    if (problem === undefined) throw error;
    io.error(`port ${port}: cannot be served at: ${problem}\n`);
    return EXIT.failure;
  }
  io.out(`The page is at ${served.url}, for this machine alone. Stop it with Ctrl+C.\n`);
  await new Promise<void>((done) => {
    io.onInterrupt?.(done);
  });
  await served.close();
  return EXIT.complete;
}
