import { describe, expect, test } from 'vitest';
import { checkCompleteBoat, checkHouse } from '../src/boat/boat.js';
import { kindOf } from '../src/catalogue/catalogue.js';
import { faultList } from '../src/errors.js';
import { type Boat, type BoatFile, completeBoat, type House, type SailGiven } from '../src/index.js';
import { ran, workFolder } from './support/command.js';
import { faultsOf } from './support/faults.js';

const boatOf = (more: Partial<BoatFile> = {}, jib: Partial<SailGiven> = {}): BoatFile => ({
  name: 'Test boat',
  crew: 4,
  hull: { type: 'catamaran' },
  sails: [
    { id: 'main', kind: 'full-roach-main' },
    { id: 'jib', kind: 'self-tacking-jib', ...jib },
  ],
  ...more,
});

const faultsOfBoat = (more: Partial<BoatFile>) => faultsOf(() => completeBoat(boatOf(more)));

describe('the share of the speed that is kept', () => {
  const keptBy = (kind: Parameters<typeof kindOf>[0]) =>
    Object.fromEntries(
      Object.entries(kindOf(kind).operations).map(([name, { day, night }]) => {
        expect(night.keptShare.value).toBe(day.keptShare.value);
        return [name, day.keptShare.value];
      }),
    );

  test('by the kind: a reef and a douse cost most, a furler least', () => {
    expect(keptBy('full-roach-main')).toEqual({ set: 0.8, douse: 0.7, reef: 0.7, shakeOut: 0.7 });
    expect(keptBy('self-tacking-jib')).toEqual({ unfurl: 0.9, furl: 0.9, reef: 0.9, shakeOut: 0.9 });
    expect(keptBy('storm-jib')).toEqual({ set: 0.8, douse: 0.7 });
    expect(keptBy('code-zero')).toEqual({ set: 0.9, douse: 0.7, unfurl: 0.9, furl: 0.9 });
    expect(keptBy('gennaker')).toEqual({ set: 0.9, douse: 0.7 });
    expect(keptBy('vented-downwind')).toEqual({ set: 0.9, douse: 0.7 });
    expect(keptBy('poled-out-headsail')).toMatchObject({ set: 0.8, douse: 0.8 });
  });

  test('of the day alone in the file: the night keeps as much', () => {
    const { operations, derived } = completeBoat(
      boatOf({}, { operations: { furl: { day: { keptShare: 0.5 } }, unfurl: { night: { keptShare: 0.4 } } } }),
    ).sails[1]!;
    expect(operations!.furl).toEqual({
      day: { minutes: 2, hands: 1, keptShare: 0.5 },
      night: { minutes: 3, hands: 1, keptShare: 0.5 },
    });
    expect([operations!.unfurl!.day.keptShare, operations!.unfurl!.night.keptShare]).toEqual([0.9, 0.4]);
    expect(derived).not.toHaveProperty(['operations.furl.day.keptShare']);
    expect(derived!['operations.furl.night.keptShare']).toEqual({ status: 'placeholder', basis: 'as by day' });
  });

  test('no more than all, no less than none', () => {
    for (const keptShare of [0, 1]) {
      expect(
        faultsOfBoat({ sails: [{ ...boatOf().sails[1]!, operations: { furl: { day: { keptShare } } } }] }),
      ).toEqual([]);
    }
    expect(
      faultsOfBoat({ sails: [{ ...boatOf().sails[1]!, operations: { furl: { day: { keptShare: 1.1 } } } }] }),
    ).toEqual(['boat, sails[0].operations.furl.day.keptShare: expected a number from 0 to 1, got 1.1']);
  });

  test('a complete boat has it for every operation she has', () => {
    const boat = completeBoat(boatOf());
    const faults = (given: Boat) => {
      const list = faultList();
      checkCompleteBoat(given, 'boat', list);
      return faultsOf(() => list.throwIfAny());
    };
    expect(faults(boat)).toEqual([]);
    const [main, jib] = boat.sails;
    // As she was written before there were shares.
    const { keptShare: _, ...old } = jib!.operations!.furl!.night;
    const furl = { ...jib!.operations!.furl!, night: old };
    const earlier = {
      ...boat,
      sails: [main!, { ...jib!, operations: { ...jib!.operations, furl } }, ...boat.sails.slice(2)],
    };
    expect(faults(earlier as unknown as Boat)).toEqual([
      'boat, sails[1].operations.furl.night.keptShare: expected a complete boat, as readBoat and completeBoat give her, got nothing here',
    ]);
    expect(faults(completeBoat(earlier as unknown as Boat))).toEqual([]);
  });

  test('boat show and sails print it', async () => {
    const folder = workFolder();
    folder.write({ 'boat.json': JSON.stringify(boatOf({}, { operations: { furl: { day: { keptShare: 0.5 } } } })) });
    const shown = await ran('boat', 'show', 'boat.json');
    expect(shown.out).toMatch(/jib +furl +2 minp?[^\n]*, keeps 0\.5 [^\n]*, keeps 0\.5p/);
    const kind = await ran('sails', 'gennaker');
    expect(kind.out).toContain('0.7 of her speed kept (placeholder)');
    folder.leave();
  });
});

describe('watches and engine', () => {
  const changes = ['00:00', '04:00', '08:00', '12:00', '16:00', '20:00', '23:59'];

  test('come back as they were given', () => {
    const given = boatOf({
      watches: { changes, teams: 4 },
      engine: {
        cruiseKn: 6,
        litresPerHour: 3,
        fuelLitres: 300,
        reserveLitres: 300,
        chargingHoursPerDay: 1,
        comment: 'Two',
      },
    });
    expect(completeBoat(given)).toMatchObject({ watches: given.watches, engine: given.engine });
    expect(completeBoat(boatOf({ watches: { changes: ['06:00'] } })).watches).toEqual({ changes: ['06:00'] });
  });

  test('nobody knows whether a crew that is not told is enough', () => {
    const { crew: _, ...unmanned } = boatOf({ watches: { changes, teams: 6 } });
    expect(faultsOf(() => completeBoat(unmanned))).toEqual([]);
  });

  test('an empty tank has no reserve', () => {
    const engine = { cruiseKn: 6, litresPerHour: 3, fuelLitres: 0 };
    expect(faultsOfBoat({ engine })).toEqual([]);
    expect(faultsOfBoat({ engine: { ...engine, reserveLitres: 0 } })).toEqual([]);
    expect(faultsOfBoat({ engine: { ...engine, reserveLitres: 1 } })).toHaveLength(1);
  });

  test.each([null, 3, 'abc', [], {}])('things that are neither: %o', (thing) => {
    const faults = faultsOfBoat({ watches: thing, engine: thing } as unknown as Partial<BoatFile>);
    expect(faults.join('\n')).toMatch(/boat, watches[.:]/);
    expect(faults.join('\n')).toMatch(/boat, engine[.:]/);
  });
});

describe('house rules', () => {
  const ALL: Required<Omit<House, keyof typeof OLDER>> = {
    pricePerChangeMinutes: 30,
    wakeMinutes: 20,
    leastHoursBetweenChanges: 2,
    changesInDark: 'not-flying',
    nightReefAboveKn: null,
    waveMaxM: { jib: 4, 'winged-jib': 2.5 },
    gybesByDay: true,
    squalls: false,
    squallFactor: 1.4,
    squallChance: null,
    squallThreshold: 0.2,
    motorBelowKn: null,
    motorPriceMinutes: 90,
  };
  const OLDER = {
    gustFactor: 1.3,
    gustMargin: 1,
    tackMinutes: 3,
    gybeMinutes: 6,
    tackEveryHours: 2,
    gybeEveryHours: 12,
    skipperFactor: 1,
  };

  const faultsOfHouse = (house: unknown, sailIds?: readonly string[]) => {
    const faults = faultList();
    checkHouse(house as House, 'options', faults, sailIds);
    return faultsOf(() => faults.throwIfAny());
  };

  test('come back as they were given', () => {
    const house = { ...OLDER, ...ALL };
    expect(completeBoat(boatOf({ house })).house).toEqual(house);
    expect(faultsOfHouse(house)).toEqual([]);
    expect(faultsOfHouse({})).toEqual([]);
    expect(
      faultsOfHouse({ nightReefAboveKn: 18, squallChance: 0.3, motorBelowKn: 2.5, changesInDark: 'none' }),
    ).toEqual([]);
  });

  test.each([
    ['pricePerChangeMinutes', 0, 1_000_000],
    ['wakeMinutes', 0, 10_000],
    ['nightReefAboveKn', 1, 100],
    ['squallFactor', 1, 4],
    ['squallChance', 0, 1],
    ['squallThreshold', 0, 1],
    ['motorBelowKn', 0, 20],
    ['motorPriceMinutes', 0, 10_000],
  ])('%s from %d to %d', (rule, min, max) => {
    for (const value of [min, max]) expect(faultsOfHouse({ [rule]: value })).toEqual([]);
    for (const value of [min - 0.1, max + 0.1, Number.NaN]) {
      expect(faultsOfHouse({ [rule]: value })).toEqual([
        `options, house.${rule}: expected a number from ${min} to ${max}, got ${value}`,
      ]);
    }
  });

  test('as an option the boat may be known or not', () => {
    const house = { waveMaxM: { jibb: 3 } };
    expect(faultsOfHouse(house)).toEqual([]);
    expect(faultsOfHouse(house, ['main', 'jib'])).toEqual([
      'options, house.waveMaxM.jibb: expected the id of a sail aboard, got "jibb" (did you mean "jib"?)',
    ]);
  });

  test('limits by waves that are none', () => {
    const inNumbers = 'expected a number from 0.2 to 30';
    expect(faultsOfHouse({ waveMaxM: { jib: 0.1, main: null } }, ['jib', 'main'])).toEqual([
      `options, house.waveMaxM.jib: ${inNumbers}, got 0.1`,
      `options, house.waveMaxM.main: ${inNumbers}, got null`,
    ]);
    const inWords = 'expected wave heights by the ids of sails';
    for (const [waveMaxM, got] of [
      [3, '3'],
      [null, 'null'],
      [[], 'a list of 0'],
      [[3], 'a list of 1'],
    ]) {
      expect(faultsOfHouse({ waveMaxM }, ['jib'])).toEqual([`options, house.waveMaxM: ${inWords}, got ${got}`]);
      expect(faultsOfBoat({ house: { waveMaxM } } as unknown as Partial<BoatFile>)).toEqual([
        `boat, house.waveMaxM: ${inWords}, got ${got}`,
      ]);
    }
  });

  test('a sail may be called what every object has', () => {
    const sails: SailGiven[] = [{ id: 'constructor', kind: 'full-roach-main' }];
    const waves = (waveMaxM: unknown) => faultsOfBoat({ sails, house: { waveMaxM } } as unknown as Partial<BoatFile>);
    expect(waves({ constructor: 3 })).toEqual([]);
    expect(waves({ constructor: 'high' })).toEqual([
      'boat, house.waveMaxM.constructor: expected a number from 0.2 to 30, got "high"',
    ]);
    expect(waves({ prototype: 3 })).toEqual([
      'boat, house.waveMaxM.prototype: expected the id of a sail aboard, got "prototype"',
    ]);
  });

  test('an id that cannot be read may be the one that is meant', () => {
    const faults = faultsOfBoat({
      sails: [{ id: 'Main', kind: 'full-roach-main' }],
      sailPlans: [{ id: 'bare', sails: [] }],
      house: { waveMaxM: { main: 3 } },
    });
    expect(faults).toEqual([expect.stringMatching(/^boat, sails\[0\]\.id: /)]);
  });
});
