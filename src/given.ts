import { type FaultList, faultList, InputError, shown } from './errors.js';
import { says } from './wording.js';

// A caller without types may leave out a record or an option, or give another thing: that is a fault with a name, at the door.

const isKnown = (record: unknown, field: PropertyKey) =>
  typeof record === 'object' && record !== null && field in record;

/**
 * Whether what was given for a record has the field by which it is known. A caller without types may have left it out, or given the text
 * or the path of a file: that is a fault, and nothing more of it can be checked.
 */
export function isGiven(record: unknown, field: PropertyKey, file: string, reader: string, faults: FaultList): boolean {
  const known = isKnown(record, field);
  if (!known) faults.add({ file, ...says.notRecord(reader, record) });
  return known;
}

/** The same for a function that checks nothing else of it. @throws InputError where it has not */
export function mustBeGiven(record: unknown, field: PropertyKey, file: string, reader: string): void {
  if (!isKnown(record, field)) throw new InputError([{ file, ...says.notRecord(reader, record) }]);
}

/** @throws InputError where what was given for the text of a file is none */
export function mustBeText(text: unknown, file: string): void {
  if (typeof text !== 'string') throw new InputError([{ file, ...says.notText(shown(text)) }]);
}

const WORDS = {
  number: 'a number',
  string: 'a text',
  boolean: 'true or false',
  function: 'a function',
  object: 'an object',
  list: 'a list',
};
type Kind = keyof typeof WORDS;

/** What a member of an object is to be, written as in its type: `number`, `string[]`; with `?` it may be absent. */
type Wanted = `${Kind}${'' | '[]'}${'' | '?'}`;

/** Of what is no number that can be reckoned with, and of null, nothing. */
const kindOf = (value: unknown) =>
  Array.isArray(value)
    ? 'list'
    : value === null || (typeof value === 'number' && !Number.isFinite(value))
      ? undefined
      : typeof value;

/** Adds a fault where a value is no object, and for each of those members that is not as it is to be; ranges are the caller's to check. */
export function addTypeFaults(
  value: unknown,
  members: Readonly<Record<string, Wanted>>,
  file: string,
  faults: FaultList,
  within?: string,
): void {
  const check = (path: string | undefined, kind: Kind, got: unknown, words = WORDS[kind]) => {
    const isOf = kindOf(got) === kind;
    if (!isOf) faults.add({ file, ...(path === undefined ? {} : { path }), ...says.wrongValue(words, shown(got)) });
    return isOf;
  };
  if (!check(within, 'object', value)) return;
  for (const [key, wanted] of Object.entries(members)) {
    const member = (value as Readonly<Record<string, unknown>>)[key];
    const path = within === undefined ? key : `${within}.${key}`;
    const [kind, isMany] = wanted.split(/\b/) as [Kind, string?];
    if (member === undefined) {
      if (!wanted.endsWith('?')) faults.add({ file, path, ...says.missingKey() });
    } else if (isMany?.startsWith('[') !== true) check(path, kind, member);
    else if (check(path, 'list', member, `a list, each ${WORDS[kind]}`))
      (member as readonly unknown[]).forEach((one, i) => {
        check(`${path}[${i}]`, kind, one);
      });
  }
}

/** The same for a caller that has no other faults to tell with them. @throws InputError with every one */
export function checkTypes(
  value: unknown,
  members: Readonly<Record<string, Wanted>>,
  file = 'options',
  within?: string,
): void {
  const faults = faultList();
  addTypeFaults(value, members, file, faults, within);
  faults.throwIfAny();
}
