import * as v from 'valibot';
import { type Fault, type FaultList, faultList, quoted } from '../errors.js';
import type { LimitByAngle, Window } from '../sail/sail.js';
import { says } from '../wording.js';
import type { Boat, Sail } from './boat.js';
import { boatSchema } from './schema.js';
import { parseSetting } from './setting.js';

/** How to read a boat. */
export interface ReadBoatOptions {
  /** Name of the file in faults. Default `boat.json`. */
  readonly file?: string;
}

/**
 * Reads a boat from JSON: hull, wardrobe, sail plans and house rules. Unknown keys are faults.
 * @throws InputError with every fault of the file
 */
export function readBoat(text: string, options: ReadBoatOptions = {}): Boat {
  const file = options.file ?? 'boat.json';
  const faults = faultList();
  const json = parseJson(text, file, faults);
  faults.throwIfAny();
  const result = v.safeParse(boatSchema, json);
  if (!result.success) {
    for (const issue of result.issues) faults.add({ file, ...faultOf(issue) });
  } else {
    checkSails(result.output, file, faults);
    checkPlans(result.output, file, faults);
  }
  faults.throwIfAny();
  return result.output as Boat;
}

function parseJson(text: string, file: string, faults: FaultList): unknown {
  try {
    return JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch (error) {
    // Engines tell the place as "position 120" or as "line 4 column 7".
    const message = error instanceof Error ? error.message : '';
    const position = /position (\d+)/.exec(message)?.[1];
    const line =
      position === undefined ? /line (\d+)/.exec(message)?.[1] : text.slice(0, Number(position)).split('\n').length;
    const got = text.trim() === '' ? 'nothing' : message.replace(/ in JSON.*| \(line.*/s, '');
    faults.add({ file, ...(line === undefined ? {} : { line: Number(line) }), ...says.json(got) });
    return undefined;
  }
}

function faultOf(issue: v.BaseIssue<unknown>): Omit<Fault, 'file'> {
  const path = pathOf(issue.path ?? []);
  const place = path === '' ? {} : { path };
  const key = issue.path?.at(-1)?.key;
  if (issue.type === 'strict_object' && issue.expected === 'never') {
    return { ...place, ...says.unknownKey(String(key), issue.message.split(', ')) };
  }
  if (issue.received === 'undefined') return { ...place, ...says.missingKey() };
  if (issue.type === 'strict_object')
    return { ...place, ...says.wrongValue(`an object with ${issue.message}`, shown(issue.input)) };
  if (issue.type === 'picklist' && typeof issue.input === 'string') {
    return { ...place, ...says.choice(issue.message.replace('one of ', '').split(', '), issue.input) };
  }
  return { ...place, ...says.wrongValue(issue.message, shown(issue.input)) };
}

function pathOf(items: readonly v.IssuePathItem[]): string {
  return items
    .map(({ key }) => (typeof key === 'number' ? `[${key}]` : `.${String(key)}`))
    .join('')
    .replace(/^\./, '');
}

function shown(value: unknown): string {
  if (Array.isArray(value)) return `a list of ${value.length}`;
  if (typeof value === 'string') return quoted(value);
  return typeof value === 'object' && value !== null ? 'an object' : String(value);
}

type ParsedBoat = v.InferOutput<typeof boatSchema>;

function checkSails(boat: ParsedBoat, file: string, faults: FaultList): void {
  const ids = boat.sails.map((sail) => sail.id);
  if (boat.hull.type === 'monohull' && boat.hull.hullCentresM !== undefined) {
    faults.add({ file, path: 'hull.hullCentresM', ...says.onlyFor('a catamaran', boat.hull.type) });
  }
  boat.sails.forEach((parsed, i) => {
    const sail = parsed as Sail;
    const path = `sails[${i}]`;
    const { id, kind, clothOf, window, reefs = [] } = sail;
    if (ids.indexOf(id) !== i) faults.add({ file, path: `${path}.id`, ...says.newId(id) });
    if (sail.midGirthRatio !== undefined && kind !== 'code-zero') {
      faults.add({ file, path: `${path}.midGirthRatio`, ...says.onlyFor('a code-zero', kind) });
    }
    if (sail.overlapPercent !== undefined && kind !== 'overlapping-genoa') {
      faults.add({ file, path: `${path}.overlapPercent`, ...says.onlyFor('an overlapping-genoa', kind) });
    }
    if (clothOf !== undefined) {
      const cloth = boat.sails.find((other) => other.id === clothOf);
      if (cloth === undefined) faults.add({ file, path: `${path}.clothOf`, ...says.sailAboard(ids, clothOf) });
      else if (cloth.clothOf !== undefined || clothOf === id)
        faults.add({ file, path: `${path}.clothOf`, ...says.clothChain(clothOf) });
    }
    if (window.awaMinDeg >= window.awaMaxDeg) {
      const expected = `an angle over awaMinDeg (${window.awaMinDeg})`;
      faults.add({ file, path: `${path}.window.awaMaxDeg`, ...says.wrongValue(expected, `${window.awaMaxDeg}`) });
    }
    checkLimit(window.awsMaxKn, `${path}.window.awsMaxKn`, file, faults);
    reefs.forEach((reef, r) => {
      checkLimit(reef.awsMaxKn, `${path}.reefs[${r}].awsMaxKn`, file, faults);
      const before = reefs[r - 1];
      if (before !== undefined && reef.areaShare >= before.areaShare) {
        faults.add({ file, path: `${path}.reefs[${r}].areaShare`, ...says.smallerReef() });
      }
    });
  });
}

function checkLimit(limit: Window['awsMaxKn'], path: string, file: string, faults: FaultList): void {
  if (limit === undefined || typeof limit === 'number') return;
  const points: LimitByAngle = limit;
  points.forEach(([angle], i) => {
    if (i > 0 && angle <= points[i - 1]![0]) faults.add({ file, path: `${path}[${i}]`, ...says.risingAngles() });
  });
}

function checkPlans(boat: ParsedBoat, file: string, faults: FaultList): void {
  const ids = boat.sails.map((sail) => sail.id);
  const planIds = boat.sailPlans.map((plan) => plan.id);
  boat.sailPlans.forEach((plan, i) => {
    if (planIds.indexOf(plan.id) !== i) faults.add({ file, path: `sailPlans[${i}].id`, ...says.newId(plan.id) });
    const cloths = new Set<string>();
    plan.sails.forEach((text, s) => {
      const path = `sailPlans[${i}].sails[${s}]`;
      const { id, reef } = parseSetting(text);
      const sail = boat.sails.find((candidate) => candidate.id === id);
      if (sail === undefined) {
        faults.add({ file, path, ...says.sailAboard(ids, id) });
        return;
      }
      const reefCount = sail.reefs?.length ?? 0;
      if (!(reef <= reefCount)) faults.add({ file, path, ...says.reefOf(reefCount, text) });
      const cloth = sail.clothOf ?? sail.id;
      if (cloths.has(cloth)) faults.add({ file, path, ...says.clothTwice(cloth, text) });
      cloths.add(cloth);
    });
  });
}
