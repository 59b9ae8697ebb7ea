import { describe, expect, test } from 'vitest';
import { InputError } from '../src/errors.js';
import { faultsByFile } from '../src/page/faultsByFile.js';
import type { Looked } from '../src/page/messages.js';
import {
  askedToLook,
  askedToPlan,
  boatOn,
  EMPTY,
  faultsWith,
  filesToPlan,
  isAwaited,
  isFollowing,
  letGo,
  lookedAt,
  mayPlan,
  type PageState,
  planned,
  refused,
  takenAway,
  wantedIn,
} from '../src/page/pageState.js';

const looked = (name: string, kind: NonNullable<Looked['kind']>, more: Partial<Looked> = {}): Looked => ({
  file: new File([''], name),
  kind,
  told: '',
  faults: [],
  ...more,
});
const BOAT_SEEN = { sails: [], kinds: [], house: {}, text: '{}' };
const ROUTE = looked('route.csv', 'route');
const WIND = looked('wind.csv', 'forecast');
const BOAT = looked('boat.json', 'boat', { boat: BOAT_SEEN });
const READY = lookedAt(askedToLook(EMPTY), [ROUTE, WIND, BOAT]);
const namesIn = ({ files }: PageState) => files.map(({ file }) => file.name);

describe('what may be pressed', () => {
  test('a plan wants a route, weather and a boat, all of them without a fault', () => {
    expect(wantedIn(EMPTY)).toEqual(['a route', 'a forecast', 'a boat']);
    expect(mayPlan(EMPTY)).toBe(false);
    expect(wantedIn(READY)).toEqual([]);
    expect(mayPlan(READY)).toBe(true);
    const climate = lookedAt(EMPTY, [ROUTE, looked('months.csv', 'climatology'), BOAT]);
    expect(mayPlan(climate)).toBe(true);
    const faulty = lookedAt(READY, [looked('boat.json', 'boat', { faults: ['no hull'] })]);
    expect(wantedIn(faulty)).toEqual(['a boat']);
  });

  test('not while files are looked at, however many at once', () => {
    const twice = askedToLook(askedToLook(READY));
    expect(mayPlan(twice)).toBe(false);
    expect(mayPlan(lookedAt(twice, [WIND]))).toBe(false);
    expect(mayPlan(lookedAt(lookedAt(twice, [WIND]), [WIND]))).toBe(true);
    // Nobody answers any more, so nothing is waited for.
    expect(mayPlan(letGo(twice))).toBe(true);
    expect(letGo(twice).looking).toBe(0);
  });

  test('a change is followed by a plan where one is shown or under way', () => {
    const asked = askedToPlan(READY);
    expect([READY, asked, planned(asked), refused(asked, [])].map(isFollowing)).toEqual([false, true, true, false]);
    // What is shown stays, though what was asked for since was stopped.
    expect(isFollowing(letGo(askedToPlan(planned(asked))))).toBe(true);
  });
});

describe('files', () => {
  test('one of the same name, and of routes and boats one of the same kind, makes way', () => {
    const again = lookedAt(READY, [looked('other.csv', 'route'), looked('wind.csv', 'forecast')]);
    expect(namesIn(again)).toEqual(['boat.json', 'other.csv', 'wind.csv']);
    expect(namesIn(lookedAt(again, [looked('waves.csv', 'forecast')]))).toContain('wind.csv');
    expect(namesIn(takenAway(again, again.files[0]!))).toEqual(['other.csv', 'wind.csv']);
  });

  test('no number is given twice, so that a file of the same name is known for another', () => {
    const ids = [...READY.files, ...lookedAt(READY, [WIND]).files.slice(-1)].map(({ id }) => id);
    expect(new Set(ids).size).toBe(4);
  });

  test('what is no input of a plan stays out of it', () => {
    const state = lookedAt(READY, [
      looked('plan.json', 'plan'),
      { file: new File([], 'x.bin'), told: '', faults: ['?'] },
    ]);
    expect(namesIn(state).length).toBe(5);
    expect(filesToPlan(state).map(({ file }) => file.name)).toEqual(['route.csv', 'wind.csv', 'boat.json']);
  });

  test('the boat is the one that could be read', () => {
    expect(boatOn(EMPTY)).toBeUndefined();
    expect(boatOn(READY)).toBe(BOAT_SEEN);
    expect(boatOn(lookedAt(READY, [looked('boat.json', 'boat', { faults: ['no hull'] })]))).toBeUndefined();
  });
});

describe('which answer belongs to which request', () => {
  test('only the answer to what was asked last is awaited, and once', () => {
    const first = askedToPlan(READY);
    const second = askedToPlan(first);
    expect([first.run, second.run].map((run) => isAwaited(second, run))).toEqual([false, true]);
    expect(isAwaited(planned(second), second.run)).toBe(false);
    expect(isAwaited(refused(second, []), second.run)).toBe(false);
  });

  test('of files that have changed since, of what was stopped and of what failed nothing is awaited', () => {
    const asked = askedToPlan(READY);
    for (const after of [lookedAt(asked, [WIND]), takenAway(asked, WIND), letGo(asked)])
      expect(isAwaited(after, asked.run)).toBe(false);
    // Nor is it taken for the answer to what is asked then.
    expect(isAwaited(askedToPlan(letGo(asked)), asked.run)).toBe(false);
  });

  test('a plan of other files is no longer shown', () => {
    const shown = planned(askedToPlan(READY));
    expect([lookedAt(shown, [WIND]).isShown, takenAway(shown, WIND).isShown]).toEqual([false, false]);
  });
});

describe('faults', () => {
  const asked = askedToPlan(lookedAt(READY, [looked('waves.csv', 'forecast')]));
  const faulty = refused(asked, [
    { file: 'wind.csv + waves.csv', told: ['they contradict each other'] },
    { file: 'wind.csv', told: ['it ends', 'it has a gap'] },
    { file: 'polars.csv', told: ['not here'] },
  ]);
  const beside = (name: string, state = faulty) =>
    faultsWith(state, state.files.find(({ file }) => file.name === name)!);

  test('stand beside each file they are of, behind its own', () => {
    expect(beside('wind.csv')).toEqual(['they contradict each other', 'it ends', 'it has a gap']);
    expect(beside('waves.csv')).toEqual(['they contradict each other']);
    expect(beside('boat.json')).toEqual([]);
    const own = lookedAt(EMPTY, [looked('a.csv', 'route', { faults: ['no name'] })]);
    expect(beside('a.csv', refused(askedToPlan(own), [{ file: 'a.csv', told: ['too long'] }]))).toEqual([
      'no name',
      'too long',
    ]);
  });

  test('are told as the command line tells them: by options, twenty of a file and a count', () => {
    const fault = { code: 'x', expected: 'a number', got: 'none' };
    const many = Array.from({ length: 25 }, (_, i) => ({ file: 'wind.csv', line: i + 2, ...fault }));
    const told = faultsByFile(
      new InputError([{ file: 'options', path: 'without[1]', ...fault }, ...many], { 'wind.csv': 7 }),
    );
    expect(told[0]).toEqual({ file: '--without', told: ['--without: expected a number, got none'] });
    expect(told[1]!.told.length).toBe(21);
    expect(told[1]!.told.at(-1)).toBe('wind.csv: and 12 more faults');
  });

  test('go when it is planned again or the files change', () => {
    for (const after of [askedToPlan(faulty), lookedAt(faulty, [BOAT]), takenAway(faulty, BOAT)])
      expect(after.faultsOfPlan).toEqual([]);
  });
});
