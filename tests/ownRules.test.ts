import { describe, expect, test } from 'vitest';
import {
  type Hour,
  hoursCsv,
  type OwnRule,
  type PassageInputs,
  type PassageOptions,
  passagesFrom,
  planJson,
  planPassage,
  type RuleMoment,
  readPolars,
  type Study,
  studySailer,
  totalsOf,
} from '../src/index.js';
import { readPlan, runStudy } from '../src/node/node.js';
import { changeTimes, epoch, hourOf, LON, north, plansOf, steady, withFlying } from './support/invented.js';
import { T0 } from './support/synthetic.js';

// Rules that a program brings along, on an invented boat whose light sail is always the faster.
const boat = withFlying({});
const polars = readPolars(
  `sail_plan,tws_kn,twa_deg,stw_kn
${['white', 'light'].flatMap((plan, i) => [0, 180].flatMap((twa) => [0.1, 100].map((tws) => `${plan},${tws},${twa},${6 + 2 * i}`))).join('\n')}
`,
  { boat },
);
const inputs: PassageInputs = { route: north(200), boat, polars, forecast: steady({ kn: 12, waveM: 1.5 }) };
const departure = new Date((T0 + 12 * 3600) * 1000).toISOString();
const house = { pricePerChangeMinutes: 0, gustFactor: 1, skipperFactor: 1, gybesByDay: false } as const;
const options: PassageOptions = { departure, house };

const bars = (name: string, when: (at: RuleMoment) => boolean): OwnRule => ({
  name,
  bars: ({ sails }, at) => sails.includes('flying') && when(at),
});
const hourAt = ({ epochSeconds }: RuleMoment) => (epochSeconds - T0) / 3600;
const barredIn = ({ barred }: Hour) => barred.find(({ sailPlan }) => sailPlan === 'light');

describe('rules of a program', () => {
  test('without a rule the faster sail stands all the way', () => {
    const passage = planPassage(inputs, options);
    expect(new Set(plansOf(passage))).toEqual(new Set(['light']));
    expect(passage).not.toHaveProperty('ownRules');
    expect(hoursCsv(planPassage(inputs, options, { rules: [] }))).toBe(hoursCsv(passage));
  });

  test.each(['planned', 'fastest'] as const)(
    '%s: what a rule bars by the clock is not set then, and is told',
    (choice) => {
      const rule = bars('not from 18 to 20 h', (at) => hourAt(at) >= 18 && hourAt(at) < 20);
      const passage = planPassage(inputs, { ...options, choice }, { rules: [rule] });
      expect(changeTimes(passage)).toEqual([
        [18, 'white'],
        [20, 'light'],
      ]);
      for (const hour of passage.hours) {
        const expected = { sailPlan: 'light', reason: 'rule', rule: 'not from 18 to 20 h' };
        expect(barredIn(hour), hour.time).toEqual([18, 19].includes(hourOf(hour)) ? expected : undefined);
      }
      expect(passage.ownRules).toEqual(['not from 18 to 20 h']);
    },
  );

  test('by the place: the sail is down before the boat is there', () => {
    const rule = bars('not beyond a degree north', ({ latDeg }) => latDeg > 1);
    const passage = planPassage(inputs, options, { rules: [rule] });
    const flown = passage.hours.filter(({ sailPlan }) => sailPlan === 'light');
    // 60 Nm at 8 kn: seven whole hours, and in the eighth she would come over it.
    expect(flown.length).toBe(7);
    for (const { latDeg, runNm } of flown) expect(latDeg + runNm / 60).toBeLessThanOrEqual(1 + 1e-9);
    expect(passage.changes!.at(-1)).toMatchObject({ from: 'light', to: 'white', barred: { reason: 'rule' } });
  });

  test('in a place and a time between those the search tables', () => {
    const brief = bars('twelve minutes', (at) => Math.abs(hourAt(at) - 15.5) < 0.1);
    const narrow = bars('two miles', ({ distanceNm }) => Math.abs(distanceNm - 90) < 1);
    const passage = planPassage(inputs, options, { rules: [brief, narrow] });
    const down = passage.hours.filter(({ sailPlan }) => sailPlan === 'white');
    expect(down.map((hour) => barredIn(hour)?.rule)).toEqual(['twelve minutes', 'two miles']);
  });

  test('it is asked of every plan, with what is met there', () => {
    const asked = new Map<string, RuleMoment>();
    const listens: OwnRule = {
      name: 'listens',
      bars: ({ id }, at) => {
        if (at.epochSeconds === T0 + 12 * 3600 && at.twsKn === 12 && !asked.has(id)) asked.set(id, at);
        return false;
      },
    };
    const passage = planPassage(inputs, options, { rules: [listens] });
    expect([...asked.keys()].sort()).toEqual(['light', 'white']);
    const { white } = Object.fromEntries(asked);
    expect(white).toEqual({
      epochSeconds: epoch(passage.hours[0]!.time),
      latDeg: 0,
      lonDeg: LON,
      distanceNm: 0,
      leg: 1,
      courseDeg: 0,
      twsKn: expect.closeTo(12, 6),
      twdDeg: expect.closeTo(90, 6),
      windOffCourseDeg: expect.closeTo(90, 6),
      gustKn: expect.closeTo(12, 6),
      waveHeightM: 1.5,
      daylight: passage.hours[0]!.daylight,
    });
    // It bars nothing: the plan is that of no rule.
    expect(hoursCsv(passage)).toBe(hoursCsv(planPassage(inputs, options)));
  });

  test('where all plans are barred she lies hove to', () => {
    const all: OwnRule = { name: 'none at all', bars: (_, at) => hourAt(at) < 14 };
    const { hours } = planPassage(inputs, options, { rules: [all] });
    expect(hours.slice(0, 3).map(({ manner }) => manner)).toEqual(['hove-to', 'hove-to', 'direct']);
  });

  test('what to go to beyond the plan is asked too', () => {
    const limited = withFlying({ window: { awaMinDeg: 0, awaMaxDeg: 180, twsMaxKn: 20 } });
    const over = (rules: readonly OwnRule[]) =>
      planPassage({ ...inputs, boat: limited }, options, { rules }).hours[0]!.overGust;
    expect(over([])).toBe('white');
    const inStrong: OwnRule = {
      name: 'no white sails in strong wind',
      bars: ({ id }, at) => id === 'white' && at.twsKn > 15,
    };
    expect(over([inStrong])).toBe('hove-to');
  });

  test('a result is plain data, is written, and is read again', () => {
    const rule = bars('not after 18 h', (at) => hourAt(at) >= 18);
    const passage = planPassage(inputs, options, { rules: [rule] });
    expect(structuredClone(passage)).toEqual(passage);
    const text = planJson({ passage, totals: totalsOf(passage, boat), boat, route: inputs.route, inputs: [] });
    const read = readPlan(text);
    expect(read.ownRules).toEqual(['not after 18 h']);
    expect(read.hours.at(-1)!.barred).toEqual(passage.hours.at(-1)!.barred);
  });

  test('many passages in one thread take rules; a study, which is plain data, refuses them', async () => {
    const rule = bars('not from 18 to 20 h', (at) => hourAt(at) >= 18 && hourAt(at) < 20);
    const passage = passagesFrom(inputs, { house }, { rules: [rule] })({ forecast: inputs.forecast! }, departure);
    expect(changeTimes(passage)).toEqual(changeTimes(planPassage(inputs, options, { rules: [rule] })));
    expect(passage.ownRules).toEqual([rule.name]);
    const study = {
      routes: [{ name: 'route', route: inputs.route }],
      boats: [{ name: 'boat', boat, polars }],
      weathers: [{ name: 'forecast', weather: { forecast: inputs.forecast! } }],
      starts: [departure],
      options: { rules: [rule] },
    } as Study;
    const apart =
      /^options, rules: expected a program's own rules beside the options: .*, got rules among the options$/;
    expect(() => studySailer(study)(0)).toThrow(apart);
    expect(() => planPassage(inputs, { ...options, rules: [rule] } as PassageOptions)).toThrow(apart);
    await expect(runStudy(study, { threads: 1 }).next()).rejects.toThrow(apart);
  });

  test('a rule that is none is refused', () => {
    const none = [{ name: '', bars: true }, null] as unknown as readonly OwnRule[];
    const refused = (rules: readonly OwnRule[]) => () => planPassage(inputs, options, { rules });
    expect(refused(none)).toThrow('rules, [0].name: expected a name, got an empty text');
    expect(refused(none)).toThrow('rules, [0].bars: expected a function, got true');
    expect(refused(none)).toThrow('rules, [1]: expected an object, got null');
    expect(refused('no' as unknown as readonly OwnRule[])).toThrow('rules: expected a list of rules, got "no"');
  });
});
