import { CLOTH_LIVES, KINDS, type KindOfSail, SOURCES, WEAR } from '../catalogue/catalogue.js';
import { InputError } from '../errors.js';
import { SAIL_KINDS } from '../sail/sail.js';
import { says } from '../wording.js';
import { kindText, sourcesText, tableText } from './catalogueText.js';
import { type CommandIo, EXIT } from './io.js';
import { jsonText } from './jsonText.js';

/**
 * Prints the catalogue of kinds as a table, or one kind in full; as JSON for programs.
 * @throws InputError where there is no such kind
 */
export function sails(kind: string | undefined, { json = false }: { readonly json?: boolean }, io: CommandIo): number {
  const kinds = kind === undefined ? KINDS : [found(kind)];
  if (json) io.out(jsonText({ formatVersion: 1, kinds, cloths: CLOTH_LIVES, wear: WEAR, sources: SOURCES }));
  else if (kind === undefined) io.out(tableText());
  else io.out(`${kindText(kinds[0]!)}\n${sourcesText(kinds)}`);
  return EXIT.complete;
}

function found(kind: string): KindOfSail {
  const entry = KINDS.find((candidate) => candidate.kind === kind);
  if (entry === undefined) throw new InputError([{ file: 'kind', ...says.choice(SAIL_KINDS, kind) }]);
  return entry;
}
