/**
 * One thing that is wrong with an input, as data. Warnings have the same shape.
 *
 * `file` is the name of the input as the caller gave it (or the option, `--depart`), `line` counts from 1, `column` is
 * the column's name in a table, `path` the place in a JSON file (`sailPlans[3].sails[1]`), `code` a short word that
 * programs may test, `expected` and `got` are for people.
 */
export interface Fault {
  readonly file: string;
  readonly line?: number;
  readonly column?: string;
  readonly path?: string;
  readonly code: string;
  readonly expected: string;
  readonly got: string;
}

/** How many faults of one file are kept as data; those beyond are counted only. */
const FAULTS_KEPT_PER_FILE = 1000;
/** How many faults of one file are printed. */
const FAULTS_PRINTED_PER_FILE = 20;

/**
 * Thrown by every reader when its input is bad: all the faults found, at once.
 * @example
 * const error = new InputError([{ file: 'route.csv', line: 2, code: 'none', expected: 'a waypoint', got: 'nothing' }]);
 * error.message // 'route.csv, line 2: expected a waypoint, got nothing'
 * error.faults[0].line // 2
 */
export class InputError extends Error {
  /** The faults found, in the order of the files and of the places in them. */
  readonly faults: readonly Fault[];
  /** How many more faults each file has that are not in `faults`. */
  readonly omitted: Readonly<Record<string, number>>;

  constructor(faults: readonly Fault[], omitted: Readonly<Record<string, number>> = {}) {
    super(describeFaults(faults, omitted));
    this.name = 'InputError';
    this.faults = faults;
    this.omitted = omitted;
  }
}

/** Collects faults while an input is read, and throws them together at the end. */
export interface FaultList {
  add(fault: Fault): void;
  /** Takes over the faults of another reader. */
  take(error: InputError): void;
  readonly count: number;
  throwIfAny(): void;
}

/** A new, empty list of faults. */
export function faultList(): FaultList {
  const faults: Fault[] = [];
  const kept = new Map<string, number>();
  const omitted = new Map<string, number>();
  const raise = (file: string, counts: Map<string, number>, by: number) =>
    counts.set(file, (counts.get(file) ?? 0) + by);
  let count = 0;
  return {
    add(fault) {
      count += 1;
      if ((kept.get(fault.file) ?? 0) >= FAULTS_KEPT_PER_FILE) {
        raise(fault.file, omitted, 1);
        return;
      }
      raise(fault.file, kept, 1);
      faults.push(fault);
    },
    take(error) {
      for (const fault of error.faults) this.add(fault);
      for (const [file, more] of Object.entries(error.omitted)) {
        count += more;
        raise(file, omitted, more);
      }
    },
    get count() {
      return count;
    },
    throwIfAny() {
      if (count > 0) throw new InputError(faults, Object.fromEntries(omitted));
    },
  };
}

/**
 * `forecast.csv, line 418, column gust_kn: expected a number from 0 to 200, got "12,5"`.
 * @example
 * const fault = { file: 'wind.csv', line: 418, column: 'gust_kn', code: 'number', expected: 'a number', got: '"12,5"' };
 * describeFault(fault) // 'wind.csv, line 418, column gust_kn: expected a number, got "12,5"'
 */
export function describeFault(fault: Fault): string {
  const place = [fault.file];
  if (fault.line !== undefined) place.push(`line ${fault.line}`);
  if (fault.column !== undefined) place.push(`column ${fault.column}`);
  if (fault.path !== undefined) place.push(fault.path);
  return withoutUnseen(`${place.join(', ')}: expected ${fault.expected}, got ${fault.got}`);
}

/**
 * All faults as text, one a line, at most 20 a file and then a count.
 * @example
 * const fault = { file: 'boat.json', path: 'crew', code: 'number', expected: 'a number', got: '"two"' };
 * describeFaults([fault], { 'boat.json': 3 })
 * // 'boat.json, crew: expected a number, got "two"\nboat.json: and 3 more faults'
 */
export function describeFaults(faults: readonly Fault[], omitted: Readonly<Record<string, number>> = {}): string {
  const lines: string[] = [];
  const files = [...new Set([...faults.map((fault) => fault.file), ...Object.keys(omitted)])];
  for (const file of files) {
    const ofFile = faults.filter((fault) => fault.file === file);
    for (const fault of ofFile.slice(0, FAULTS_PRINTED_PER_FILE)) lines.push(describeFault(fault));
    const more =
      Math.max(0, ofFile.length - FAULTS_PRINTED_PER_FILE) + (Object.hasOwn(omitted, file) ? omitted[file]! : 0);
    if (more > 0) lines.push(`${withoutUnseen(file)}: and ${more} more ${more === 1 ? 'fault' : 'faults'}`);
  }
  return lines.join('\n');
}

const QUOTED_LENGTH = 60;

/** A text of an input as it is shown in a fault: quoted, cut at 60 characters. */
export function quoted(text: string): string {
  const cut = text.length > QUOTED_LENGTH ? `${text.slice(0, QUOTED_LENGTH)}…` : text;
  return JSON.stringify(cut);
}

/** A value of an input or of a program as it is shown in a fault: texts quoted and cut, all that is larger by what it is. */
export function shown(value: unknown): string {
  if (typeof value === 'string') return quoted(value);
  if (Array.isArray(value)) return `a list of ${value.length}`;
  if (typeof value === 'function') return 'a function';
  if (typeof value !== 'object' || value === null) return value === undefined ? 'nothing' : String(value);
  return value instanceof Promise ? 'a promise' : ArrayBuffer.isView(value) ? 'bytes' : 'an object';
}

/** What a terminal would obey or not show: controls, marks of writing direction, joiners, spaces that are none of 32. */
const UNSEEN = /[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]|(?! )\p{Zs}/gu;

/** A text with every character that cannot be seen replaced: by its code (`\u202e`), or by what is given. */
export function withoutUnseen(text: string, by?: string): string {
  return text.replace(UNSEEN, (mark) => by ?? `\\u${mark.codePointAt(0)!.toString(16).padStart(4, '0')}`);
}
