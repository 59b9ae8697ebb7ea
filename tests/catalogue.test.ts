import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  areaOf,
  blockLoadFactor,
  classByMidGirth,
  codeSailOf,
  type Figure,
  foreTriangleM2,
  GUST_OVER_MEAN,
  genoaOf,
  headsailByGirthsM2,
  headsailM2,
  headsailOnStayM2,
  heavyWeatherJibByForestayM2,
  KINDS,
  type KindOfSail,
  kindOf,
  luffPerpendicularM,
  mainM2,
  mainsheetLoadKg,
  type Rig,
  reefLadder,
  type SailMeasures,
  SOURCES,
  SPINNAKER_MID_GIRTH,
  selfTackerFits,
  sheetLoadKg,
  spinnakerSheetLoadKg,
  stormSailLimits,
  symmetricM2,
  trysailM2,
} from '../src/catalogue/catalogue.js';
import { type LimitByAngle, planPassage, readBoat, SAIL_KINDS, type SailKind, type Window } from '../src/index.js';
import { windowBreach } from '../src/sail/sail.js';
import { faultsOf } from './support/faults.js';
import { everyHours, forecastOf, steadyWind } from './support/synthetic.js';
import { expectNear, fixture } from './truth/fixture.js';
import gust from './truth/gust.json' with { type: 'json' };
import sails from './truth/sails.json' with { type: 'json' };

const truth = fixture('sails.json', sails);

const STATUSES = ['source', 'derived', 'common-practice', 'placeholder'];
const kindsOf = (kinds: readonly string[]) => kinds.map((kind) => kindOf(kind as SailKind));
const inTheGust = (meanKn: number) => Math.round(meanKn * 13) / 10;
const kn = fc.double({ min: 0.1, max: 60, noNaN: true });

/** Every figure within a part of the catalogue, by its path; a number or flag that is no figure goes to `bare`. */
function figuresIn(part: unknown, path: string, bare: string[] = []): { path: string; figure: Figure<unknown> }[] {
  if (typeof part === 'number' || typeof part === 'boolean') bare.push(path);
  if (typeof part !== 'object' || part === null) return [];
  if ('status' in part) return [{ path, figure: part as Figure<unknown> }];
  return Object.entries(part).flatMap(([key, inner]) => figuresIn(inner, `${path}.${key}`, bare));
}

/** The limit at an angle, worked out apart from the code under test. */
function limitAt(limit: number | LimitByAngle, awaDeg: number): number {
  if (typeof limit === 'number') return limit;
  const [[a, low], [b, high]] = [limit[0]!, limit.at(-1)!];
  const share = Math.min(1, Math.max(0, (awaDeg - a) / (b - a)));
  return low + share * (high - low);
}

const widest = (limit: number | LimitByAngle) => (typeof limit === 'number' ? limit : limit.at(-1)![1]);

describe('every kind has its entry', () => {
  test('each kind a boat file may name stands once, in the same order', () => {
    expect(KINDS.map(({ kind }) => kind)).toEqual([...SAIL_KINDS]);
    for (const kind of SAIL_KINDS) expect(kindOf(kind).kind).toBe(kind);
  });

  describe.each(KINDS.map((entry) => [entry.kind, entry] as const))('%s', (kind, { withMainReefs: _, ...entry }) => {
    const bare: string[] = [];
    const figures = figuresIn(entry, kind, bare);

    test('every number says where it comes from', () => {
      expect(bare).toEqual([]);
      for (const { path, figure } of figures) {
        expect(STATUSES, path).toContain(figure.status);
        expect(figure.value, path).toBeDefined();
        const keys = Object.keys(figure).filter((key) => !['value', 'status', 'source', 'basis'].includes(key));
        expect(keys, path).toEqual([]);
        if (figure.status === 'source') expect(figure.source, path).toBeDefined();
        // What has no source may name one in its basis only, where words tell what of it is meant.
        if (figure.status === 'common-practice' || figure.status === 'placeholder')
          expect(figure.source, path).toBeUndefined();
        if (figure.status === 'derived') expect(figure.basis, path).toMatch(/\w/);
      }
    });

    test('has a figure for all that is used of it', () => {
      const paths = new Set(figures.map(({ path }) => path));
      const wanted = ['window.awaMinDeg', 'window.awaMaxDeg', 'window.awsMaxKn', 'cloth.material', 'daylightOnly'];
      for (const path of [...wanted, 'cloth.weightGPerM2', 'gybe.minutes', 'gybe.hands', 'gybe.byNight'])
        expect(paths).toContain(`${kind}.${path}`);
      for (const [i, reef] of (entry.reefs ?? []).entries()) {
        expect(paths).toContain(`${kind}.reefs.${i}.areaShare`);
        expect(reef.areaShare.value).toBeLessThan(1);
      }
      for (const operation of Object.keys(entry.operations))
        for (const when of ['day', 'night'])
          for (const name of ['minutes', 'hands', 'keptShare'])
            expect(paths).toContain(`${kind}.operations.${operation}.${when}.${name}`);
    });

    test('every source named is in the list', () => {
      const said = JSON.stringify(entry).match(/\bS\d+\b/g) ?? [];
      for (const id of said) expect(Object.keys(SOURCES)).toContain(id);
    });

    test('window and reefs make sense', () => {
      const { awaMinDeg, awaMaxDeg, awsMinKn, awsMaxKn, twsMaxKn } = entry.window;
      expect(awaMinDeg.value).toBeGreaterThanOrEqual(20);
      expect(awaMaxDeg.value).toBeLessThanOrEqual(180);
      expect(awaMinDeg.value).toBeLessThan(awaMaxDeg.value);
      if (typeof awsMaxKn.value !== 'number') {
        const angles = awsMaxKn.value.map(([angle]) => angle);
        expect(angles).toEqual([awaMinDeg.value, awaMaxDeg.value]);
        // A sail that heels the boat most when it is sheeted closest stands less there.
        expect(awsMaxKn.value[0]![1]).toBeLessThan(awsMaxKn.value[1]![1]);
      }
      if (awsMinKn !== undefined)
        expect(awsMinKn.value).toBeLessThan(limitAt(awsMaxKn.value, awaMinDeg.value) / GUST_OVER_MEAN);
      // Sails set flying and mains by reef: running fast hides the wind.
      const { place } = kindOf(kind);
      if (place === 'flying' || place === 'mast' || place === 'winged' || place === 'twins')
        expect(twsMaxKn).toBeDefined();
      let before = { share: 1, awa: awaMinDeg.value, aws: widest(awsMaxKn.value), tws: twsMaxKn?.value };
      for (const reef of entry.reefs ?? []) {
        expect(reef.areaShare.value).toBeLessThan(before.share);
        expect(reef.awaMinDeg?.value ?? before.awa).toBeGreaterThanOrEqual(before.awa);
        expect(reef.awsMaxKn.value).toBeGreaterThan(before.aws);
        expect(reef.twsMaxKn === undefined).toBe(before.tws === undefined);
        if (reef.twsMaxKn !== undefined) expect(reef.twsMaxKn.value).toBeGreaterThanOrEqual(before.tws!);
        before = {
          share: reef.areaShare.value,
          awa: reef.awaMinDeg?.value ?? before.awa,
          aws: reef.awsMaxKn.value,
          tws: reef.twsMaxKn?.value,
        };
      }
    });

    test('has the operations of how it is set, and by night none is quicker', () => {
      const { operations, setBy, place, reefs = [] } = kindOf(kind);
      if (setBy === 'snuffer' || setBy === 'halyard' || setBy === 'track' || place === 'winged' || place === 'twins')
        expect(operations).toMatchObject({ set: {}, douse: {} });
      else expect(operations).toMatchObject({ unfurl: {}, furl: {} });
      if (reefs.length > 0) expect(operations).toMatchObject({ reef: {}, shakeOut: {} });
      for (const { day, night } of Object.values(operations)) {
        expect(night.minutes.value).toBeGreaterThanOrEqual(day.minutes.value);
        expect(night.hands.value).toBeGreaterThanOrEqual(day.hands.value);
        // No published shares were found, and by night none is higher.
        expect([day.keptShare.status, night.keptShare.status]).toEqual(['placeholder', 'placeholder']);
        expect(day.keptShare.value).toBeGreaterThan(0);
        expect(day.keptShare.value).toBeLessThanOrEqual(1);
        expect(night.keptShare.value).toBeLessThanOrEqual(day.keptShare.value);
        // No published minutes were found.
        expect([day.minutes.status, night.minutes.status]).toEqual(['placeholder', 'placeholder']);
      }
    });

    test('what may not stand in the dark is not gybed in it', () => {
      const { daylightOnly, gybe } = kindOf(kind);
      if (daylightOnly.value) expect(gybe.byNight.value).toBe(false);
    });
  });
});

describe('sources', () => {
  truth.each('sources', 'is the work it should be', ({ id, text }) => {
    expect(SOURCES[id as keyof typeof SOURCES]).toBe(text);
  });

  test('none but those of the truth file', () => {
    expect(Object.keys(SOURCES).sort()).toEqual(sails.sources.rows.map(({ id }) => id).sort());
  });

  const texts = ['src/catalogue', 'src/estimate']
    .flatMap((folder) => readdirSync(folder).map((file) => `${folder}/${file}`))
    .filter((file) => !file.endsWith('/sources.ts'))
    .map((file) => readFileSync(file, 'utf8'))
    .join('\n');

  /** How a comment names a source other than by its id. */
  const IN_WORDS: Readonly<Record<string, string>> = {
    S29: 'a book on downwind sailing',
    S45: "The Complete Rigger's Apprentice",
  };

  test.each(Object.keys(SOURCES))('%s is used', (id) => {
    expect(new RegExp(`\\b${id}\\b`).test(texts) || texts.includes(IN_WORDS[id] ?? id)).toBe(true);
  });

  test('none is named that is not in the list', () => {
    const named = new Set(texts.match(/\bS\d+\b/g));
    expect([...named].filter((id) => !(id in SOURCES))).toEqual([]);
  });

  test('a gust over the mean is as in the published table', () => {
    expect(GUST_OVER_MEAN).toBe(gust.overAnHour.rows[0]!.atSea);
  });
});

interface RangeRow {
  readonly kinds: readonly string[];
  readonly reef?: number | undefined;
  readonly overlapPercent?: number | undefined;
  readonly midGirthRatio?: number | undefined;
}

/** The window a boat gets that names nothing but kind, measures and reefs, and what is said of its numbers. */
function windowAboard(kind: SailKind, { reef = 0, overlapPercent, midGirthRatio }: Omit<RangeRow, 'kinds'>) {
  const measures = {
    ...(overlapPercent === undefined ? {} : { overlapPercent }),
    ...(midGirthRatio === undefined ? {} : { midGirthRatio }),
  };
  const boat = boatOf({ kind, ...measures }, 0);
  const { window, reefs = [], derived = {} } = boat.sails[0]!;
  if (reef === 0) return { window, derived };
  const { areaShare: _, ...taken } = reefs[reef - 1]!;
  return { window: { ...window, ...taken }, derived };
}

/** The same said by the catalogue itself, where it has a number for the row. */
const entryWindow = ({ window, reefs = [] }: KindOfSail, reef = 0) =>
  reef === 0 ? window : { ...window, ...reefs[reef - 1] };

/** Rows that a default of the catalogue stands for, and not a scale. */
const isDefault = ({ overlapPercent, midGirthRatio }: Omit<RangeRow, 'kinds'>) =>
  overlapPercent === undefined && (midGirthRatio === undefined || midGirthRatio === 0.65);

describe('windows against what is published and practised', () => {
  truth.each('anglesPrinted', 'angles', (row) => {
    for (const entry of kindsOf(row.kinds)) {
      const { window } = windowAboard(entry.kind, row);
      expect(window.awaMaxDeg).toBe(row.awaMaxDeg);
      if (row.awaMinDeg !== undefined) expect(window.awaMinDeg).toBe(row.awaMinDeg);
      if (!isDefault(row)) continue;
      const { awaMinDeg, awaMaxDeg } = entry.window;
      expect(awaMaxDeg).toMatchObject({ value: row.awaMaxDeg, status: 'source' });
      expect(row.sources).toContain(awaMaxDeg.source);
      if (row.awaMinDeg === undefined) expect(awaMinDeg.status).toBe('placeholder');
      else {
        expect(awaMinDeg).toMatchObject({ value: row.awaMinDeg, status: 'source' });
        expect(row.sources).toContain(awaMinDeg.source);
      }
    }
  });

  truth.each('anglesPractice', 'angles', (row) => {
    for (const entry of kindsOf(row.kinds)) {
      const { window, derived } = windowAboard(entry.kind, row);
      if (row.beside) {
        expect(entry.alsoHeard).toMatchObject({
          awaMinDeg: { value: row.awaMinDeg, status: 'common-practice' },
          awaMaxDeg: { value: row.awaMaxDeg, status: 'common-practice' },
        });
      } else if (row.midGirthRatio !== undefined) {
        // The rows of code sails do not rise with the mid-girth, the scale does: what departs has no authority.
        for (const angle of ['awaMinDeg', 'awaMaxDeg'] as const)
          if (window[angle] !== row[angle]) expect(derived[`window.${angle}`]!.status).toBe('placeholder');
      } else {
        expect(window.awaMinDeg).toBe(row.awaMinDeg);
        expect(window.awaMaxDeg).toBe(row.awaMaxDeg);
        if (!isDefault(row)) continue;
        const { awaMinDeg, awaMaxDeg } = entryWindow(entry, row.reef);
        expect(awaMinDeg).toMatchObject({ value: row.awaMinDeg, status: 'common-practice' });
        expect(awaMaxDeg).toMatchObject({ value: row.awaMaxDeg, status: 'common-practice' });
      }
    }
  });

  interface LimitRow extends RangeRow {
    readonly awsKn?: readonly number[] | undefined;
    readonly twsKn?: readonly number[] | undefined;
    readonly sources?: readonly string[] | undefined;
  }

  function expectLimits(row: LimitRow) {
    for (const entry of kindsOf(row.kinds)) {
      const { window } = windowAboard(entry.kind, row);
      const { awsMaxKn, twsMaxKn } = entryWindow(entry, row.reef);
      if (row.awsKn !== undefined) {
        // Of a range the cautious end.
        const meanKn = Math.min(...row.awsKn);
        expect(widest(window.awsMaxKn!)).toBe(inTheGust(meanKn));
        if (isDefault(row)) expectGustLimit(awsMaxKn, meanKn, row.sources);
      }
      if (row.twsKn !== undefined) {
        const meanKn = Math.min(...row.twsKn);
        expect(window.twsMaxKn).toBe(inTheGust(meanKn));
        if (isDefault(row)) expectGustLimit(twsMaxKn!, meanKn, row.sources);
      }
    }
  }

  function expectGustLimit(
    { value, status, source, basis }: Figure<number | LimitByAngle>,
    meanKn: number,
    sources: readonly string[] | undefined,
  ) {
    expect(widest(value)).toBe(inTheGust(meanKn));
    // A limit by angle has a close end of which nothing is published.
    expect(status).toBe(typeof value === 'number' ? 'derived' : 'placeholder');
    expect(basis).toContain(`1.3 × ${meanKn} kn`);
    if (typeof value !== 'number') return;
    if (sources === undefined) expect(source).toBeUndefined();
    else expect(sources).toContain(source);
  }

  truth.each('limitsPrinted', 'gust limits', expectLimits);
  truth.each('limitsPractice', 'gust limits', expectLimits);

  truth.each('bestUnder', 'where a sail is best is told and no limit', ({ kind, said }) => {
    const { awsMaxKn } = kindOf(kind as SailKind).window;
    expect(awsMaxKn.basis).toContain(said);
    expect(widest(awsMaxKn.value)).toBeGreaterThan(13);
  });

  test('a true limit that only an AWS is published for, or the other way, is a placeholder', () => {
    for (const kind of ['asymmetric-reaching', 'asymmetric-reaching-heavy'] as const)
      expect(kindOf(kind).window.twsMaxKn!.status).toBe('placeholder');
    for (const kind of ['poled-out-headsail', 'twin-headsails'] as const)
      expect(kindOf(kind).window.awsMaxKn.status).toBe('placeholder');
  });

  test('an upper end that nobody published is a placeholder', () => {
    for (const kind of ['storm-jib', 'trysail', 'heavy-weather-jib', 'wing-sail'] as const) {
      const { awsMaxKn, twsMaxKn } = kindOf(kind).window;
      expect(awsMaxKn.status).toBe('placeholder');
      expect(twsMaxKn?.status ?? 'placeholder').toBe('placeholder');
    }
  });

  test('no collapse speed is published', () => {
    for (const { window } of KINDS) expect(window.awsMinKn?.status ?? 'placeholder').toBe('placeholder');
  });

  test('nothing of a wing sail has a source', () => {
    for (const { path, figure } of figuresIn(kindOf('wing-sail').window, 'window').concat(
      figuresIn(kindOf('wing-sail').reefs, 'reefs'),
      figuresIn(kindOf('wing-sail').area, 'area'),
      figuresIn(kindOf('wing-sail').cloth, 'cloth'),
    ))
      expect(figure.status, path).toBe('placeholder');
  });

  test('a vented sail is carried from 100 to 180, and more is heard beside it', () => {
    const { window, alsoHeard } = kindOf('vented-downwind');
    expect([window.awaMinDeg.value, window.awaMaxDeg.value]).toEqual([100, 180]);
    expect([alsoHeard!.awaMinDeg.value, alsoHeard!.awaMaxDeg.value]).toEqual([70, 180]);
    expect(alsoHeard!.awaMinDeg.basis).toContain('sceptic');
  });

  test('the default genoa is within a degree of the published size it falls in, and under its limits', () => {
    const { window } = kindOf('overlapping-genoa');
    expectNear(window.awaMinDeg.value, 28, 1, 'close angle');
    expectNear(window.awaMaxDeg.value, 140, 1, 'wide angle');
    expect(window.awsMaxKn.value).toBeLessThan(inTheGust(20));
  });

  truth.each('nylon', 'cloth', ({ kinds, weightGPerM2 }) => {
    for (const { cloth } of kindsOf(kinds))
      expect(cloth.weightGPerM2).toMatchObject({ value: weightGPerM2, status: 'common-practice' });
  });

  truth.each('crews', 'rule of a crew', ({ rule, hands, source }) => {
    const spinnakers = KINDS.filter(({ setBy }) => setBy === 'snuffer');
    if (rule === 'daylight') {
      expect(spinnakers).toHaveLength(8);
      for (const { daylightOnly, gybe } of spinnakers) {
        expect(daylightOnly).toMatchObject({ value: true, status: 'source', source });
        expect(gybe.byNight).toMatchObject({ value: false, status: 'source', source });
      }
      for (const { setBy, daylightOnly } of KINDS)
        if (setBy !== 'snuffer') expect(daylightOnly).toMatchObject({ value: false, status: 'placeholder' });
    } else {
      const { day, night } = kindOf('vented-downwind').operations.douse!;
      for (const effort of [day, night])
        expect(effort.hands).toMatchObject({ value: hands!, status: 'source', source });
    }
  });
});

describe('windows are kept to the limit', () => {
  const plain = ({ window }: KindOfSail): Window => ({
    awaMinDeg: window.awaMinDeg.value,
    awaMaxDeg: window.awaMaxDeg.value,
    awsMaxKn: window.awsMaxKn.value,
    ...(window.awsMinKn === undefined ? {} : { awsMinKn: window.awsMinKn.value }),
    ...(window.twsMaxKn === undefined ? {} : { twsMaxKn: window.twsMaxKn.value }),
  });
  const HAIR = 1e-6;
  // Forecasts are single precision: gusts have room of a millionth of the limit.
  const GUST_HAIR = 1e-4;

  describe.each(KINDS.map((entry) => [entry.kind, plain(entry)] as const))('%s', (_, window) => {
    const { awaMinDeg, awaMaxDeg, awsMinKn, awsMaxKn, twsMaxKn } = window;
    const middleDeg = (awaMinDeg + awaMaxDeg) / 2;
    const easy = { awsKn: awsMinKn ?? 1, gustAwsKn: 5, gustTwsKn: 5 };
    const breach = (awaDeg: number, wind: Partial<typeof easy> = {}) => {
      const felt = { ...easy, ...wind };
      const [starboard, port] = [
        windowBreach(window, { ...felt, awaDeg }),
        windowBreach(window, { ...felt, awaDeg: -awaDeg }),
      ];
      expect(port).toBe(starboard);
      return starboard;
    };

    test('by its angles', () => {
      expect(breach(middleDeg)).toBeUndefined();
      expect(breach(awaMinDeg)).toBeUndefined();
      expect(breach(awaMinDeg - HAIR)).toBe('window');
      expect(breach(awaMaxDeg)).toBeUndefined();
      if (awaMaxDeg < 180) expect(breach(awaMaxDeg + HAIR)).toBe('window');
      expect(breach(0)).toBe('window');
    });

    test('by its collapse speed', () => {
      if (typeof awsMinKn !== 'number') return expect(breach(middleDeg, { awsKn: 0 })).toBeUndefined();
      expect(breach(middleDeg, { awsKn: awsMinKn })).toBeUndefined();
      expect(breach(middleDeg, { awsKn: awsMinKn - HAIR })).toBe('window');
      // The mean alone tells of a collapse.
      expect(breach(middleDeg, { awsKn: awsMinKn, gustAwsKn: 0, gustTwsKn: 0 })).toBeUndefined();
    });

    test('by the AWS in the gust, at every angle', () => {
      for (const share of [0, 0.1, 0.25, 0.5, 0.75, 0.9, 1]) {
        const awaDeg = awaMinDeg + share * (awaMaxDeg - awaMinDeg);
        const limitKn = limitAt(awsMaxKn!, awaDeg);
        expect(breach(awaDeg, { gustAwsKn: limitKn - 1e-9 })).toBeUndefined();
        expect(breach(awaDeg, { gustAwsKn: limitKn + GUST_HAIR })).toBe('gust');
        // The mean is no matter of the gust limit.
        expect(breach(awaDeg, { awsKn: limitKn + 20 })).toBeUndefined();
      }
      for (const awaDeg of [awaMinDeg, awaMaxDeg])
        expect(breach(awaDeg, { gustAwsKn: limitAt(awsMaxKn!, awaDeg) })).toBeUndefined();
    });

    test('by the true gust, if it has such a limit', () => {
      if (typeof twsMaxKn !== 'number') return expect(breach(middleDeg, { gustTwsKn: 150 })).toBeUndefined();
      expect(breach(middleDeg, { gustTwsKn: twsMaxKn })).toBeUndefined();
      expect(breach(middleDeg, { gustTwsKn: twsMaxKn + GUST_HAIR })).toBe('gust');
    });

    test('angles and collapse are told before the gust', () => {
      const blow = { gustAwsKn: 150, gustTwsKn: 150 };
      expect(breach(awaMinDeg - HAIR, blow)).toBe('window');
      if (typeof awsMinKn === 'number') expect(breach(middleDeg, { ...blow, awsKn: awsMinKn - HAIR })).toBe('window');
      expect(breach(middleDeg, blow)).toBe('gust');
    });
  });
});

describe('rules of areas', () => {
  truth.each('luffPerpendicular', 'LP', ({ jFt, overlapPercent, lpFt }) => {
    expect(luffPerpendicularM(jFt, overlapPercent)).toBeCloseTo(lpFt, 12);
  });

  truth.each('areas', 'rule', (row, { tolerance }) => {
    const { iM, jM, pM, eM, roachFactor, forestayM, luffM, lpM, halfWidthM, threeQuarterWidthM, upperWidthM } = row;
    const byFormula: Readonly<Record<string, () => number>> = {
      '0.5*I*J': () => foreTriangleM2(iM!, jM!),
      '0.5*P*E*roach factor': () => mainM2(pM!, eM!, roachFactor!),
      '0.5*sqrt(I^2+J^2)*LPG': () => headsailOnStayM2(iM!, jM!, (100 * lpM!) / jM!),
      // SL from a halyard as high as I to a tack J before the mast: 13 m.
      '1.15*SL*J': () => symmetricM2(iM!, jM!),
      '0.05*IG^2': () => stormSailLimits(iM!).stormJibM2,
      '0.65*IG': () => stormSailLimits(iM!).stormJibLuffM,
      '0.135*IG^2': () => stormSailLimits(iM!).heavyWeatherJibM2,
      '0.135*(FL^2-J^2)': () => heavyWeatherJibByForestayM2(forestayM!, jM!),
      '0.255*luff*(LP+2*half width)': () => headsailM2(luffM!, lpM!, halfWidthM!),
      '0.0625*LL*(4*LP+6*HHW+2*HTW+2*HUW+0.09)': () =>
        headsailByGirthsM2({
          luffM: luffM!,
          lpM: lpM!,
          halfWidthM: halfWidthM!,
          threeQuarterWidthM: threeQuarterWidthM!,
          upperWidthM: upperWidthM!,
        }),
    };
    expectNear(byFormula[row.formula]!(), row.value, tolerance.value, row.formula);
  });

  truth.each('trysail', 'rule from memory', ({ pM, eM, m2 }) => {
    expect(trysailM2(pM, eM)).toBeCloseTo(m2, 9);
    expect(areaOf(kindOf('trysail'), {}, { pM, eM })).toBeCloseTo(m2, 9);
    expect(kindOf('trysail').area.rule).toContain('from memory');
    expect(kindOf('trysail').area.share).toMatchObject({ value: 0.175, status: 'placeholder' });
  });

  truth.each('midGirth', 'a spinnaker from 75 % of the foot', (row) => {
    expect(classByMidGirth(row.ratio)).toBe(row.class);
    expect(SPINNAKER_MID_GIRTH).toBe(0.75);
  });

  truth.each('lessThanSymmetric', 'less than a symmetric', ({ kinds, less: [least, most] }) => {
    const rig = { iM: 17, jM: 5.5, ispM: 18 };
    const symmetric = areaOf(kindOf('symmetric-cruising'), {}, rig)!;
    for (const entry of kindsOf(kinds)) {
      const less = 1 - areaOf(entry, {}, rig)! / symmetric;
      expect(less).toBeGreaterThanOrEqual(least!);
      expect(less).toBeLessThanOrEqual(most!);
    }
  });

  test('a self-tacking jib fits up to the fore-triangle', () => {
    expect(selfTackerFits(37.5, 15, 5)).toBe(true);
    expect(selfTackerFits(37.51, 15, 5)).toBe(false);
  });
});

describe('rules of loads', () => {
  const M2_PER_FT2 = 0.3048 ** 2;
  const KG_PER_LB = 0.45359237;

  truth.each('sheetLoads', 'sheet', ({ areaM2, awsKn, kg }, { tolerance }) => {
    expectNear(sheetLoadKg(areaM2, awsKn), kg, tolerance.kg, 'sheet load');
  });

  truth.each('sheetFormula', 'sheet, in pounds and feet', ({ lbPerFt2Kn2, kgPerM2Kn2 }, { tolerance }) => {
    for (const [areaM2, awsKn] of [
      [45, 20],
      [12, 45],
      [150, 8],
    ] as const) {
      const byPounds = lbPerFt2Kn2 * (areaM2 / M2_PER_FT2) * awsKn ** 2 * KG_PER_LB;
      const byKilograms = kgPerM2Kn2 * areaM2 * awsKn ** 2;
      for (const kg of [byPounds, byKilograms])
        expectNear(sheetLoadKg(areaM2, awsKn) / kg, 1, tolerance.share, 'share of the printed formula');
    }
  });

  truth.each('spinnakerClew', 'half on each clew', ({ areaM2, awsKn, kg }, { tolerance }) => {
    expectNear(spinnakerSheetLoadKg(areaM2, awsKn), kg, tolerance.kg, 'clew load');
    expect(spinnakerSheetLoadKg(areaM2, awsKn)).toBe(sheetLoadKg(areaM2, awsKn) / 2);
  });

  test('mainsheet, worked by hand in feet and pounds', () => {
    // P 45 ft, E 18 ft, D 2 ft, 20 kn: 18² · 45² = 656100; · 0.00431 · 20² = 1131116.4;
    // √(45² + 18²) = √2349 = 48.46648; · (18 − 2) = 775.4637; 1131116.4 / 775.4637 = 1458.632 lb = 661.624 kg.
    expect(mainsheetLoadKg(45 * 0.3048, 18 * 0.3048, 2 * 0.3048, 20)).toBeCloseTo(661.624, 2);
    // Sheeted at the clew, D 0: 1131116.4 / (48.46648 · 18) = 1296.562 lb = 588.110 kg.
    expect(mainsheetLoadKg(45 * 0.3048, 18 * 0.3048, 0, 20)).toBeCloseTo(588.11, 2);
  });

  test('a mainsheet at the mast or before it holds nothing', () => {
    expect(mainsheetLoadKg(14, 5, 5, 20)).toBeUndefined();
    expect(mainsheetLoadKg(14, 5, 6, 20)).toBeUndefined();
    expect(mainsheetLoadKg(14, 5, 4.99, 20)).toBeGreaterThan(mainsheetLoadKg(14, 5, 4, 20)!);
  });

  truth.each('blockLoads', 'block', ({ turnDeg, factor }, { tolerance }) => {
    expectNear(blockLoadFactor(turnDeg), factor, tolerance.factor, 'factor');
  });

  test('loads go with the area and the square of the wind', () => {
    const area = fc.double({ min: 1, max: 500, noNaN: true });
    fc.assert(
      fc.property(area, kn, (areaM2, awsKn) => {
        const load = sheetLoadKg(areaM2, awsKn);
        expect(sheetLoadKg(areaM2, 2 * awsKn) / load).toBeCloseTo(4, 9);
        expect(sheetLoadKg(3 * areaM2, awsKn) / load).toBeCloseTo(3, 9);
        expect(mainsheetLoadKg(15, 5, 0.5, 2 * awsKn)! / mainsheetLoadKg(15, 5, 0.5, awsKn)!).toBeCloseTo(4, 9);
      }),
    );
  });
});

describe('reef ladder', () => {
  truth.each('ladder', 'by day', ({ reefs, toKn }) => {
    expect(reefLadder(3)[reefs]).toEqual({ reef: reefs, meanMaxKn: toKn, gustMaxKn: inTheGust(toKn) });
    const main = kindOf('full-roach-main');
    const { awsMaxKn, twsMaxKn } = entryWindow(main, reefs);
    expect([awsMaxKn.value, twsMaxKn!.value]).toEqual([inTheGust(toKn), inTheGust(toKn)]);
  });

  truth.each('firstReef', 'first reef', ({ by, atKn }) => {
    expect(reefLadder(3, by as 'day' | 'night')[0]!.meanMaxKn).toBe(atKn);
  });

  test('goes on for as many reefs as there are, by night always earlier', () => {
    expect(reefLadder(0)).toEqual([{ reef: 0, meanMaxKn: 18, gustMaxKn: 23.4 }]);
    expect(reefLadder(4).map(({ meanMaxKn }) => meanMaxKn)).toEqual([18, 24, 30, 36, 42]);
    const [day, night] = [reefLadder(4), reefLadder(4, 'night')];
    night.forEach((step, i) => {
      expect(step.meanMaxKn).toBeLessThan(day[i]!.meanMaxKn);
      expect(step.gustMaxKn).toBe(inTheGust(step.meanMaxKn));
    });
  });
});

describe('scales', () => {
  /** Expects an output to rise, or to fall, and not to jump over small steps; rounding is to a tenth. */
  function expectSmooth(
    at: (x: number) => number,
    [from, to]: readonly [number, number],
    sign: 1 | -1,
    steepest: number,
  ) {
    const step = (to - from) / 2000;
    for (let i = 0; i < 2000; i += 1) {
      const rise = sign * (at(from + (i + 1) * step) - at(from + i * step));
      expect(rise).toBeGreaterThanOrEqual(-1e-9);
      expect(rise).toBeLessThanOrEqual(steepest * step + 0.1 + 1e-9);
    }
    expect(sign * (at(to) - at(from))).toBeGreaterThan(0);
  }

  test.each([
    ['the closest angle rises', (ratio: number) => codeSailOf(ratio).awaMinDeg, 1, 60],
    ['the widest angle rises', (ratio: number) => codeSailOf(ratio).awaMaxDeg, 1, 250],
    ['the AWS limit at the close end falls', (ratio: number) => codeSailOf(ratio).awsMaxKn[0]![1], -1, 50],
    ['the AWS limit at the wide end falls', (ratio: number) => codeSailOf(ratio).awsMaxKn[1]![1], -1, 50],
    ['the true limit falls', (ratio: number) => codeSailOf(ratio).twsMaxKn, -1, 50],
    ['the best angle rises', (ratio: number) => codeSailOf(ratio).bestAwaDeg, 1, 200],
    ['the area rises', (ratio: number) => codeSailOf(ratio).areaShare, 1, 1],
  ] as const)('with the mid-girth of a code sail %s', (_, at, sign, steepest) => {
    expectSmooth(at, [0.5, 0.75], sign, steepest);
  });

  test.each([0.49, 0.751, 65, Number.NaN])('no code sail of mid-girth %d, no genoa of so little overlap', (ratio) => {
    expect(faultsOf(() => codeSailOf(ratio))).toEqual([
      `midGirthRatio: expected a number from 0.5 to 0.75, got "${ratio}"`,
    ]);
    expect(faultsOf(() => genoaOf(ratio))).toEqual([
      `overlapPercent: expected a number from 100 to 150, got "${ratio}"`,
    ]);
  });

  test('no ladder of more reefs than a main has', () => {
    expect(faultsOf(() => reefLadder(21))).toEqual(['reefs: expected a number from 0 to 20, got "21"']);
  });

  test('the limits of a code sail stand at its angles', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.5, max: 0.75, noNaN: true }), (ratio) => {
        const code = codeSailOf(ratio);
        expect(code.awsMaxKn.map(([angle]) => angle)).toEqual([code.awaMinDeg, code.awaMaxDeg]);
        expect(code.awsMaxKn[0]![1]).toBeLessThan(code.awsMaxKn[1]![1]);
        expect(code.bestAwaDeg).toBeGreaterThan(code.awaMinDeg);
        expect(code.bestAwaDeg).toBeLessThan(code.awaMaxDeg);
      }),
    );
  });

  test('at 0.65 it is the default code zero, whose angles and wind are published', () => {
    const { window, bestAwaDeg, area } = kindOf('code-zero');
    const code = codeSailOf(0.65);
    expect(code).toMatchObject({ awaMinDeg: 45, awaMaxDeg: 130, twsMaxKn: inTheGust(25) });
    expect(code.awsMaxKn[1]).toEqual([130, inTheGust(15)]);
    expect(window.awsMaxKn.value).toEqual(code.awsMaxKn);
    expect(window.twsMaxKn!.value).toBe(code.twsMaxKn);
    expect(bestAwaDeg!.value).toBe(code.bestAwaDeg);
    expect(area.measures!.midGirthRatio!.value).toBe(0.65);
  });

  test.each([
    ['the closest angle rises', (percent: number) => genoaOf(percent).awaMinDeg, 1, [110, 150]],
    ['the widest angle rises', (percent: number) => genoaOf(percent).awaMaxDeg, 1, [110, 140]],
    ['the limit falls', (percent: number) => genoaOf(percent).awsMaxKn, -1, [110, 150]],
  ] as const)('with the overlap of a genoa %s', (_, at, sign, range) => {
    expectSmooth(at, range, sign, 0.5);
    expectSmooth(at, [100, 150], sign, 0.5);
  });

  test('a genoa is held below 110 %, and passes the sizes known', () => {
    expect(genoaOf(100)).toEqual(genoaOf(110));
    expect(genoaOf(110)).toEqual({ awaMinDeg: 25, awaMaxDeg: 135, awsMaxKn: inTheGust(20) });
    expect(genoaOf(140)).toMatchObject({ awaMinDeg: 28, awaMaxDeg: 140 });
    expect(genoaOf(150)).toEqual({ awaMinDeg: 30, awaMaxDeg: 140, awsMaxKn: inTheGust(15) });
  });
});

describe('areas by rig and measures', () => {
  const length = fc.double({ min: 0.5, max: 100, noNaN: true });
  const DIMENSIONS = ['iM', 'jM', 'pM', 'eM', 'ispM'] as const;
  type Dimension = (typeof DIMENSIONS)[number];
  const wholeRig = fc.record({ iM: length, jM: length, pM: length, eM: length, ispM: length });
  const someRig = fc.record(
    { iM: length, jM: length, pM: length, eM: length, ispM: length },
    { requiredKeys: [] },
  ) as fc.Arbitrary<Rig>;
  const headsail = fc.record({
    luffM: fc.double({ min: 1, max: 40, noNaN: true }),
    lpM: fc.double({ min: 0.5, max: 15, noNaN: true }),
    halfWidthM: fc.double({ min: 0.3, max: 10, noNaN: true }),
  });
  const ON_STAY: readonly SailKind[] = [
    'self-tacking-jib',
    'overlapping-genoa',
    'staysail',
    'heavy-weather-jib',
    'storm-jib',
  ];

  /** What the rule of a kind is made of. */
  function dimensionsOf({ kind, place }: KindOfSail): readonly Dimension[] {
    if (place === 'mast' || place === 'storm-mast') return ['pM', 'eM'];
    if (kind === 'storm-jib') return ['iM'];
    return ['iM', 'jM'];
  }

  test.each(KINDS.map((entry) => [entry.kind, entry] as const))('%s has an area where its rig is known', (_, entry) => {
    expect(areaOf(entry, {}, undefined)).toBeUndefined();
    fc.assert(
      fc.property(someRig, (rig) => {
        // A sail set flying whose hoist stands for I is asked about by itself.
        fc.pre(!(entry.place === 'flying' && rig.ispM !== undefined && rig.iM === undefined));
        const area = areaOf(entry, {}, rig);
        if (dimensionsOf(entry).some((name) => rig[name] === undefined)) expect(area).toBeUndefined();
        else {
          expect(area).toBeGreaterThan(0);
          expect(area).toBeLessThan(Number.POSITIVE_INFINITY);
        }
      }),
    );
  });

  test('a sail set flying wants its hoist and J, and no I where the hoist is known', () => {
    for (const entry of KINDS.filter(({ place }) => place === 'flying')) {
      const [whole, hoisted] = [areaOf(entry, {}, { iM: 15, jM: 5, ispM: 18 }), areaOf(entry, {}, { jM: 5, ispM: 18 })];
      expect(whole).toBeCloseTo(areaOf(entry, {}, { iM: 18, jM: 5 })!, 12);
      expect(hoisted, entry.kind).toBe(whole);
    }
  });

  test.each(KINDS.map((entry) => [entry.kind, entry] as const))('%s grows with its rig', (_, entry) => {
    const used = dimensionsOf(entry);
    fc.assert(
      fc.property(wholeRig, fc.double({ min: 1.01, max: 3, noNaN: true }), ({ ispM, ...plain }, factor) => {
        const rig: Rig = entry.place === 'flying' ? { ...plain, ispM } : plain;
        const area = areaOf(entry, {}, rig)!;
        for (const name of DIMENSIONS) {
          if (rig[name] === undefined) continue;
          const larger = areaOf(entry, {}, { ...rig, [name]: rig[name] * factor })!;
          // Hoisted higher than I, a sail set flying knows nothing of I.
          const isUsed = entry.place === 'flying' ? name === 'ispM' || name === 'jM' : used.includes(name);
          // The rule of a heavy-weather jib goes by I alone where it is under the fore-triangle.
          const mayStay = entry.kind === 'heavy-weather-jib' && name === 'jM';
          if (isUsed && !mayStay) expect(larger, name).toBeGreaterThan(area);
          else if (mayStay) expect(larger, name).toBeGreaterThanOrEqual(area);
          else expect(larger, name).toBe(area);
        }
      }),
    );
  });

  test('grows with roach, overlap and mid-girth', () => {
    const rig = { iM: 16, jM: 5, pM: 15, eM: 6 };
    const measured = (kind: SailKind, measures: SailMeasures) => areaOf(kindOf(kind), measures, rig)!;
    for (const kind of ['full-roach-main', 'square-top-main', 'pin-head-main', 'wing-sail'] as const)
      expect(measured(kind, { roachFactor: 1.3 })).toBeCloseTo(1.3 * 0.5 * 15 * 6, 9);
    expect(measured('overlapping-genoa', { overlapPercent: 150 })).toBeCloseTo(
      1.5 * measured('overlapping-genoa', { overlapPercent: 100 }),
      9,
    );
    expect(measured('self-tacking-jib', { overlapPercent: 80 })).toBeLessThan(measured('self-tacking-jib', {}));
    expect(measured('code-zero', { midGirthRatio: 0.7 })).toBeGreaterThan(measured('code-zero', {}));
    // A main's roach and a genoa's overlap are no measures of the other.
    expect(measured('overlapping-genoa', { roachFactor: 2 })).toBe(measured('overlapping-genoa', {}));
    expect(measured('full-roach-main', { overlapPercent: 150 })).toBe(measured('full-roach-main', {}));
  });

  test('a self-tacking jib never exceeds the fore-triangle, whatever its overlap', () => {
    fc.assert(
      fc.property(wholeRig, fc.double({ min: 10, max: 300, noNaN: true }), (rig, overlapPercent) => {
        const area = areaOf(kindOf('self-tacking-jib'), { overlapPercent }, rig)!;
        expect(area).toBeGreaterThan(0);
        expect(area).toBeLessThanOrEqual(0.5 * rig.iM * rig.jM);
        expect(selfTackerFits(area, rig.iM, rig.jM)).toBe(true);
      }),
    );
  });

  test('storm and heavy-weather jibs never exceed the rule', () => {
    fc.assert(
      fc.property(wholeRig, (rig) => {
        const [storm, heavy] = [
          areaOf(kindOf('storm-jib'), {}, rig)!,
          areaOf(kindOf('heavy-weather-jib'), {}, rig)!,
        ] as const;
        expect(storm).toBeLessThanOrEqual(0.05 * rig.iM ** 2 * (1 + 1e-12));
        expect(heavy).toBeLessThanOrEqual(0.135 * rig.iM ** 2 * (1 + 1e-12));
        expect(heavy).toBeLessThanOrEqual(0.5 * rig.iM * rig.jM);
      }),
    );
  });

  test('a code zero is 25 to 50 % smaller than the symmetric of the rig', () => {
    fc.assert(
      fc.property(wholeRig, fc.double({ min: 0.5, max: 0.75, noNaN: true }), (rig, midGirthRatio) => {
        const symmetric = areaOf(kindOf('symmetric-cruising'), {}, rig)!;
        expect(symmetric).toBeCloseTo(symmetricM2(rig.ispM, rig.jM), 9);
        const less = 1 - areaOf(kindOf('code-zero'), { midGirthRatio }, rig)! / symmetric;
        expect(less).toBeGreaterThanOrEqual(0.25 - 1e-9);
        expect(less).toBeLessThanOrEqual(0.5 + 1e-9);
      }),
    );
  });

  test('a measured headsail is as it is measured, with a rig or without, and no other sail is', () => {
    fc.assert(
      fc.property(headsail, fc.option(someRig, { nil: undefined }), (measures, rig) => {
        for (const entry of KINDS) {
          const area = areaOf(entry, measures, rig);
          if (ON_STAY.includes(entry.kind))
            expect(area).toBeCloseTo(0.255 * measures.luffM * (measures.lpM + 2 * measures.halfWidthM), 9);
          else expect(area).toBe(areaOf(entry, {}, rig));
        }
        // Part of the measures is none.
        const { lpM, luffM } = measures;
        for (const kind of ON_STAY)
          expect(areaOf(kindOf(kind), { lpM, luffM }, rig)).toBe(areaOf(kindOf(kind), {}, rig));
      }),
    );
  });

  test('a light sail is no smaller than its heavy sister, and twins are two', () => {
    const rig = { iM: 16, jM: 5 };
    const area = (kind: SailKind) => areaOf(kindOf(kind), {}, rig)!;
    expect(area('asymmetric-reaching-heavy')).toBeLessThan(area('asymmetric-reaching'));
    expect(area('asymmetric-running-heavy')).toBeLessThan(area('asymmetric-running'));
    expect(area('storm-jib')).toBeLessThan(area('heavy-weather-jib'));
    expect(area('twin-headsails')).toBe(2 * area('poled-out-headsail'));
  });
});

/** A boat whose file names one sail by its kind; the plans are the full sail and that with so many reefs. */
function boatOf(sail: { readonly kind: SailKind; readonly [measure: string]: string | number }, reefs: number) {
  return readBoat(
    JSON.stringify({
      name: 'Test boat',
      hull: { type: 'catamaran' },
      sails: [{ id: 'sail', ...sail }],
      sailPlans: Array.from({ length: reefs + 1 }, (_, i) => ({
        id: `plan-${i}`,
        sails: [i === 0 ? 'sail' : `sail:${i}`],
      })),
      // An hour lost in every half hour: no pair of headings makes way, so that the course itself is asked about.
      house: { tackMinutes: 60, tackEveryHours: 0.5, gybeMinutes: 60, gybeEveryHours: 0.5 },
    }),
  );
}

/** What is felt aboard: the mean AWA and AWS, boat speed, and the gust over the mean true wind. */
interface Felt {
  readonly awaDeg: number;
  readonly awsKn: number;
  readonly stwKn: number;
  readonly gustFactor: number;
}

/** The true wind and the gust behind what is felt, by the triangle turned round. */
function windBehind({ awaDeg, awsKn, stwKn, gustFactor }: Felt) {
  const angle = (awaDeg * Math.PI) / 180;
  const [ahead, across] = [awsKn * Math.cos(angle) - stwKn, awsKn * Math.sin(angle)];
  return {
    twsKn: Math.hypot(ahead, across),
    twaDeg: (Math.atan2(across, ahead) * 180) / Math.PI,
    gustTwsKn: gustFactor * Math.hypot(ahead, across),
    gustAwsKn: Math.hypot(stwKn + gustFactor * ahead, gustFactor * across),
  };
}

describe('every kind is sailed by its window', () => {
  const COURSE_DEG = 270;
  const [DAY, NIGHT] = ['2027-03-01T14:00Z', '2027-03-01T03:00Z'];
  const route = {
    waypoints: [
      { name: 'A', latDeg: 15, lonDeg: -45, toNext: 'rhumb' },
      { name: 'B', latDeg: 15, lonDeg: -46 },
    ],
  } as const;

  /** The first hour under the kind's plan at so many reefs, with the wind that makes what is felt, on one tack. */
  function firstHour(kind: SailKind, reef: number, felt: Felt, tack: 1 | -1 = 1, departure = DAY) {
    const { twsKn, twaDeg, gustTwsKn } = windBehind(felt);
    const plan = `plan-${reef}`;
    const constant = { twsKn: [0.01, 200], twaDeg: [0, 180], stwKn: Array(4).fill(felt.stwKn) };
    const [hour] = planPassage(
      {
        route,
        boat: boatOf({ kind }, reef),
        polars: { status: 'measured', plans: { [plan]: constant } },
        forecast: forecastOf(everyHours(6, 1), [10, 20], [-50, -40], () => ({
          ...steadyWind(twsKn, COURSE_DEG + tack * twaDeg)(0, 0, 0),
          gustKn: gustTwsKn,
        })),
      },
      { departure, choice: 'fastest' },
    ).hours;
    return { hour: hour!, bar: hour!.barred.find(({ sailPlan }) => sailPlan === plan)?.reason, plan };
  }

  const SPEEDS = [3, 1, 6, 10, 14, 18, 24];
  const FACTORS = [1.3, 1.1, 1];
  /** How far beyond a limit, and within it, a sail is asked about; degrees or knots. */
  const BEYOND = 0.05;
  /** How far the other limits are kept clear. */
  const CLEAR = 0.15;

  const settings = KINDS.flatMap((entry) =>
    [0, ...(entry.reefs ?? []).map((_, i) => i + 1)].map((reef) => {
      const { awaMinDeg, awaMaxDeg, awsMinKn, awsMaxKn, twsMaxKn } = {
        ...entry.window,
        ...(reef === 0 ? {} : entry.reefs![reef - 1]!),
      };
      const window = {
        awaMinDeg: awaMinDeg.value,
        awaMaxDeg: awaMaxDeg.value,
        awsMinKn: awsMinKn?.value ?? 0,
        awsMaxKn: awsMaxKn.value,
        twsMaxKn: twsMaxKn?.value ?? Number.POSITIVE_INFINITY,
      };
      return [reef === 0 ? entry.kind : `${entry.kind}:${reef}`, entry.kind, reef, window] as const;
    }),
  );

  describe.each(settings)('%s', (_, kind, reef, { awaMinDeg, awaMaxDeg, awsMinKn, awsMaxKn, twsMaxKn }) => {
    const insideDeg = Math.min(awaMaxDeg, 179.5) - 0.5;
    const ANGLES = [0, 0.25, 0.5, 0.75, 1].map((share) => awaMinDeg + 0.5 + share * (insideDeg - awaMinDeg - 0.5));

    /** Clear of every limit but the angles. */
    const isClear = (felt: Felt, clear: Partial<Record<'collapse' | 'aws' | 'tws', false>> = {}) => {
      const { gustAwsKn, gustTwsKn } = windBehind(felt);
      return (
        (clear.collapse === false || felt.awsKn > awsMinKn + CLEAR) &&
        (clear.aws === false || gustAwsKn < limitAt(awsMaxKn, felt.awaDeg) - CLEAR) &&
        (clear.tws === false || gustTwsKn < twsMaxKn - CLEAR)
      );
    };
    /** A wind well inside the window at an angle. */
    function easyAt(awaDeg: number): Felt {
      const limitKn = limitAt(awsMaxKn, awaDeg);
      const tried = SPEEDS.flatMap((stwKn) =>
        [0.5, 0.6, 0.7, 0.4].map((share) => ({ awaDeg, awsKn: share * limitKn, stwKn, gustFactor: 1.2 })),
      );
      return tried.find((felt) => isClear(felt))!;
    }
    function expectSet(felt: Felt, tack: 1 | -1, departure = DAY) {
      const { hour, bar, plan } = firstHour(kind, reef, felt, tack, departure);
      expect(bar).toBeUndefined();
      expect(hour).toMatchObject({ sailPlan: plan, manner: 'direct', tack: tack === 1 ? 'starboard' : 'port' });
      expect(Math.abs(hour.awaDeg!)).toBeCloseTo(felt.awaDeg, 3);
      expect(hour.awsKn).toBeCloseTo(felt.awsKn, 3);
      expect(hour.gustAwsKn).toBeCloseTo(windBehind(felt).gustAwsKn, 3);
    }
    function expectBarred(felt: Felt, reason: 'window' | 'gust' | 'night', tack: 1 | -1, departure = DAY) {
      const { hour, bar } = firstHour(kind, reef, felt, tack, departure);
      expect(bar).toBe(reason);
      expect(hour.sailPlan).toBeNull();
    }
    const onBothTacks = (check: (tack: 1 | -1) => void) => {
      check(1);
      check(-1);
    };

    test('between its angles', () => {
      onBothTacks((tack) => {
        for (const awaDeg of ANGLES) expectSet(easyAt(awaDeg), tack);
        expectSet(easyAt(awaMinDeg + BEYOND), tack);
        expectBarred({ ...easyAt(awaMinDeg), awaDeg: awaMinDeg - BEYOND }, 'window', tack);
        if (awaMaxDeg === 180) return expectSet(easyAt(180 - BEYOND), tack);
        expectSet(easyAt(awaMaxDeg - BEYOND), tack);
        expectBarred({ ...easyAt(awaMaxDeg), awaDeg: awaMaxDeg + BEYOND }, 'window', tack);
      });
    });

    test('down to its collapse speed', () => {
      for (const awaDeg of ANGLES) {
        const felt = { awaDeg, stwKn: 3, gustFactor: 1 };
        if (awsMinKn === 0) {
          expectSet({ ...felt, awsKn: 0.5 }, 1);
          continue;
        }
        onBothTacks((tack) => {
          expectSet({ ...felt, awsKn: awsMinKn + BEYOND }, tack);
          expectBarred({ ...felt, awsKn: awsMinKn - BEYOND }, 'window', tack);
        });
      }
    });

    /** What is felt where the AWS in the gust is so much, by halving. */
    function atGustAws(awaDeg: number, gustAwsKn: number, stwKn: number, gustFactor: number): Felt {
      let [low, high] = [0, 200];
      for (let i = 0; i < 60; i += 1) {
        const awsKn = (low + high) / 2;
        if (windBehind({ awaDeg, awsKn, stwKn, gustFactor }).gustAwsKn < gustAwsKn) low = awsKn;
        else high = awsKn;
      }
      return { awaDeg, awsKn: low, stwKn, gustFactor };
    }

    test('up to its AWS in the gust', () => {
      const met = ANGLES.flatMap((awaDeg) => {
        const limitKn = limitAt(awsMaxKn, awaDeg);
        for (const gustFactor of FACTORS) {
          for (const stwKn of SPEEDS) {
            const [within, beyond] = [-1, 1].map((side) =>
              atGustAws(awaDeg, limitKn + side * BEYOND, stwKn, gustFactor),
            ) as [Felt, Felt];
            if (![within, beyond].every((felt) => isClear(felt, { aws: false }))) continue;
            onBothTacks((tack) => {
              expectSet(within, tack);
              expectBarred(beyond, 'gust', tack);
            });
            return [awaDeg];
          }
        }
        return [];
      });
      // Aft of the beam the true limit may be met first, at some angle the AWS limit is.
      expect(met).not.toEqual([]);
    });

    test('up to its true gust, if it has such a limit', () => {
      if (!Number.isFinite(twsMaxKn)) {
        expect(kindOf(kind).window.twsMaxKn).toBeUndefined();
        return;
      }
      const met = ANGLES.flatMap((awaDeg) => {
        for (const gustFactor of FACTORS) {
          for (const stwKn of SPEEDS) {
            const [within, beyond] = [-1, 1].map((side): Felt => {
              const twsKn = (twsMaxKn + side * BEYOND) / gustFactor;
              const angle = (awaDeg * Math.PI) / 180;
              const awsKn = Math.sqrt(twsKn ** 2 - (stwKn * Math.sin(angle)) ** 2) - stwKn * -Math.cos(angle);
              return { awaDeg, awsKn, stwKn, gustFactor };
            }) as [Felt, Felt];
            if (![within, beyond].every((felt) => felt.awsKn > 0 && isClear(felt, { tws: false }))) continue;
            onBothTacks((tack) => {
              expectSet(within, tack);
              expectBarred(beyond, 'gust', tack);
            });
            return [awaDeg];
          }
        }
        return [];
      });
      expect(met).not.toEqual([]);
    });

    test('in the dark if it may', () => {
      const felt = easyAt((awaMinDeg + insideDeg) / 2);
      if (kindOf(kind).daylightOnly.value) expectBarred(felt, 'night', 1, NIGHT);
      else expectSet(felt, 1, NIGHT);
    });
  });
});
