import * as v from 'valibot';
import { type Fault, type FaultList, shown } from '../errors.js';
import { says } from '../wording.js';

/** What this needs to see of a schema; pipes show the properties of their first part. */
interface Seen {
  readonly type: string;
  readonly message?: unknown;
  readonly entries?: Readonly<Record<string, Seen>>;
  readonly wrapped?: Seen;
  readonly item?: Seen;
  /** Of a union. */
  readonly options?: readonly Seen[];
  /** Of a record. */
  readonly value?: Seen;
}

/** Keys of a record that the schema library passes over, whatever their values are; in a file they are keys like any other. */
const PASSED_OVER = ['__proto__', 'prototype', 'constructor'];

/**
 * Adds a fault for everything in a value that its schema does not allow: every unknown key, and for each place the first
 * thing that is wrong there. The schema's messages are what was expected.
 */
export function addSchemaFaults(schema: v.GenericSchema, value: unknown, file: string, faults: FaultList): void {
  const told = new Set<string>();
  const add = (path: string, said: Pick<Fault, 'code' | 'expected' | 'got'>) => {
    told.add(path);
    faults.add({ file, ...(path === '' ? {} : { path }), ...said });
  };
  const passedOver: Part[] = [];
  addShapeFaults(schema as Seen, value, '', add, passedOver);
  // A place is told when it or anything around it is.
  const isTold = (path: string) =>
    told.has('') || told.has(path) || [...path.matchAll(/[.[]/g)].some(({ index }) => told.has(path.slice(0, index)));
  for (const part of [{ schema, value, path: '' }, ...passedOver]) {
    for (const issue of v.safeParse(part.schema, part.value).issues ?? []) {
      const path = (issue.path ?? []).reduce((at, { key }) => joined(at, key as string | number), part.path);
      const isUnknownKey = issue.type === 'strict_object' && issue.expected === 'never';
      if (!isUnknownKey && !isTold(path)) add(path, saidOf(issue));
    }
  }
}

/** A value within another, and its schema. */
interface Part {
  readonly schema: v.GenericSchema;
  readonly value: unknown;
  readonly path: string;
}

/**
 * Unknown keys, and lists where objects belong: the schema library tells only the first key, and takes a list for an object. Parts that
 * it passes over are listed.
 */
function addShapeFaults(
  schema: Seen,
  value: unknown,
  path: string,
  add: (path: string, said: Pick<Fault, 'code' | 'expected' | 'got'>) => void,
  passedOver: Part[],
): void {
  if (schema.wrapped !== undefined) addShapeFaults(schema.wrapped, value, path, add, passedOver);
  if (schema.item !== undefined && Array.isArray(value)) {
    value.forEach((item, i) => {
      addShapeFaults(schema.item!, item, joined(path, i), add, passedOver);
    });
  }
  if (schema.type === 'record' && Array.isArray(value))
    add(path, says.wrongValue(String(schema.message), shown(value)));
  if (schema.type === 'union' && typeof value === 'object' && !Array.isArray(value)) {
    const record = schema.options?.find(({ type }) => type === 'record');
    if (record !== undefined) addShapeFaults(record, value, path, add, passedOver);
  }
  if (schema.type === 'record' && typeof value === 'object' && value !== null && !Array.isArray(value)) {
    for (const [key, inner] of Object.entries(value)) {
      const at = joined(path, key);
      addShapeFaults(schema.value!, inner, at, add, passedOver);
      if (PASSED_OVER.includes(key))
        passedOver.push({ schema: schema.value as unknown as v.GenericSchema, value: inner, path: at });
    }
  }
  const { entries } = schema;
  if (entries === undefined || typeof value !== 'object' || value === null) return;
  if (Array.isArray(value)) {
    add(path, says.wrongValue(String(schema.message), shown(value)));
    return;
  }
  for (const [key, inner] of Object.entries(value)) {
    if (Object.hasOwn(entries, key)) addShapeFaults(entries[key]!, inner, joined(path, key), add, passedOver);
    else add(joined(path, key), says.unknownKey(key, Object.keys(entries)));
  }
}

function saidOf(issue: v.BaseIssue<unknown>) {
  if (issue.received === 'undefined') return says.missingKey();
  if (issue.type === 'picklist' && typeof issue.input === 'string') {
    return says.choice(issue.message.replace('one of ', '').split(', '), issue.input);
  }
  return says.wrongValue(issue.message, shown(issue.input));
}

function joined(path: string, key: string | number): string {
  if (typeof key === 'number') return `${path}[${key}]`;
  return path === '' ? key : `${path}.${key}`;
}
