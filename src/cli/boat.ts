import { readBoat, startingBoatFile, wardrobeWarnings } from '../boat/boat.js';
import { type Rig, SOURCES } from '../catalogue/catalogue.js';
import { type Fault, faultList, InputError } from '../errors.js';
import { LARGEST_FILES_MIB } from '../load/load.js';
import { attemptOnDisk, readTextFile } from '../node/node.js';
import { SAIL_KINDS, type SailKind } from '../sail/sail.js';
import { says } from '../wording.js';
import { boatShowText } from './boatText.js';
import { type CommandIo, EXIT } from './io.js';
import { escapeUnseen, jsonText } from './jsonText.js';
import { numberOf } from './options.js';
import { writeNew } from './writeOut.js';

/**
 * Prints a boat with everything that follows from the kinds of her sails and her rig, each value marked; as JSON for programs.
 * @throws InputError with every fault of the file
 */
export async function showBoat(
  path: string,
  { json = false }: { readonly json?: boolean },
  io: CommandIo,
): Promise<number> {
  const faults = faultList();
  const boat = await attemptOnDisk(path, faults, async () =>
    readBoat((await readTextFile(path, { largestMiB: LARGEST_FILES_MIB.boat })).text, { file: path }),
  );
  faults.throwIfAny();
  const warnings = wardrobeWarnings(boat!, path);
  io.out(json ? jsonText({ formatVersion: 1, boat, warnings, sources: SOURCES }) : boatShowText(boat!, warnings));
  return EXIT.complete;
}

/** The options of `boat new` as they were given. */
export interface NewBoatOptions {
  readonly hull: 'catamaran' | 'monohull';
  readonly name?: string;
  readonly crew?: string;
  readonly rig?: string;
  readonly waterline?: string;
  readonly displacement?: string;
  readonly hullCentres?: string;
  readonly sprit?: string;
  readonly pole?: string;
  readonly innerForestay?: boolean;
  readonly sail?: readonly string[];
  readonly out?: string;
}

/**
 * Writes a commented boat file to start from, or prints it where no file is named. A file that is there is never written over.
 * @throws InputError with every option that is none
 */
export async function newBoat(options: NewBoatOptions, io: CommandIo): Promise<number> {
  const faults: Fault[] = [];
  const { hull, name, crew, out } = options;
  const rig = rigOf(options, faults);
  const size = sizeOf(options, faults);
  const kinds = options.sail?.map((kind) => kindOfOption(kind, faults));
  const hands = numberOf(crew, '--crew', [1, 100], faults);
  if (faults.length > 0) throw new InputError(faults);
  const text = startingBoatFile({
    hull,
    rig,
    size,
    ...(name === undefined ? {} : { name }),
    ...(hands === undefined ? {} : { crew: hands }),
    ...(kinds === undefined ? {} : { kinds: kinds as readonly SailKind[] }),
  });
  // What is written is read first: a name too long, say, is told before there is a file.
  readAsGiven(text);
  if (out === undefined) {
    io.out(escapeUnseen(text));
    return EXIT.complete;
  }
  return writeNew(out, text, `Add what you know, then: windwardrobe boat show ${out}`, io);
}

function sizeOf({ waterline, displacement, hullCentres }: NewBoatOptions, faults: Fault[]) {
  const waterlineM = numberOf(waterline, '--waterline', [3, 100], faults);
  const displacementKg = numberOf(displacement, '--displacement', [200, 1_000_000], faults);
  const hullCentresM = numberOf(hullCentres, '--hull-centres', [1, 30], faults);
  return {
    ...(waterlineM === undefined ? {} : { waterlineM }),
    ...(displacementKg === undefined ? {} : { displacementKg }),
    ...(hullCentresM === undefined ? {} : { hullCentresM }),
  };
}

/** Reads the text; what is wrong with it is told by the option that gave it. */
function readAsGiven(text: string): void {
  try {
    readBoat(text, { file: '--sail' });
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    const named = error.faults.map(({ path = '', ...fault }) => ({
      ...fault,
      file:
        path === 'name' || path === 'crew'
          ? `--${path}`
          : path.startsWith('rig')
            ? '--rig'
            : path === 'hull.hullCentresM'
              ? '--hull-centres'
              : fault.file,
    }));
    throw new InputError(named);
  }
}

const RIG_KEYS = ['iM', 'jM', 'pM', 'eM'] as const;

function rigOf({ rig, sprit, pole, innerForestay }: NewBoatOptions, faults: Fault[]): Rig {
  const cells = rig?.split(',') ?? [];
  const isWhole = rig === undefined || cells.length === RIG_KEYS.length;
  if (!isWhole) faults.push({ file: '--rig', ...says.wrongValue('four lengths in metres: I,J,P,E', rig) });
  const lengths = isWhole ? cells.map((cell) => numberOf(cell, '--rig', [0.5, 100], faults)) : [];
  const spritM = numberOf(sprit, '--sprit', [0, 20], faults);
  const poleM = numberOf(pole, '--pole', [0, 50], faults);
  return {
    ...Object.fromEntries(RIG_KEYS.flatMap((key, i) => (lengths[i] === undefined ? [] : [[key, lengths[i]]]))),
    ...(spritM === undefined ? {} : { spritM }),
    ...(poleM === undefined ? {} : { poleM }),
    ...(innerForestay === true ? { innerForestay } : {}),
  };
}

function kindOfOption(text: string, faults: Fault[]): SailKind | undefined {
  const kind = SAIL_KINDS.find((known) => known === text);
  if (kind === undefined) faults.push({ file: '--sail', ...says.choice(SAIL_KINDS, text) });
  return kind;
}
