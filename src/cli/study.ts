import type { Fault } from '../errors.js';
import type { CommandIo } from './io.js';
import { checkStudy, readStudy } from './studyAsked.js';
import { onlyOnce, type StudyOptions } from './studyOptions.js';
import { sailInto } from './studySailed.js';

/**
 * Sails many passages from files into a folder; what is there of the same study already is gone on with.
 * @throws InputError with every fault
 */
export async function study(given: StudyOptions, io: CommandIo): Promise<number> {
  const faults: Fault[] = [];
  onlyOnce('--boat', given.boat, faults);
  const asked = await readStudy(given, io, faults);
  checkStudy(asked.study);
  return sailInto(given.out, asked, io);
}
