import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type Boat,
  boatWith,
  type Comparison,
  type Difference,
  estimatePolars,
  InputError,
  kindsFor,
  METRICS,
  nextSailMarkdown,
  nextSailOf,
  nextSailText,
  type PassageRecord,
  type PolarSet,
  priced,
  readBoat,
  repriced,
  type Study,
  speedsWith,
  studySailer,
  turnedBoats,
  usualRivals,
  type WorthStudy,
  withSail,
  worthCases,
  worthCsv,
  worthJson,
  worthMarkdown,
  worthOf,
  worthText,
} from '../src/index.js';
import { differenceOf, independentOf, studentShare, studentT975 } from '../src/worth/difference.js';
import { breakEven, costOf } from '../src/worth/money.js';
import { resaleShare } from '../src/worth/prices.js';
import { blowing, boatOf, FLYING, hourly, MAIN, north, OPEN, op } from './support/invented.js';
import { T0 } from './support/synthetic.js';

// Invented boats and skies; sums by hand.

const iso = (hours: number) => new Date((T0 + hours * 3600) * 1000).toISOString().replace('.000', '');
const polar = (stwKn: number) => ({ twsKn: [0.1, 200], twaDeg: [0, 180], stwKn: [stwKn, stwKn, stwKn, stwKn] });
const MAIN_LIFE = { ...MAIN, areaM2: 60, price: 6000 };
const KITE = {
  ...FLYING,
  areaM2: 120,
  price: 4000,
  window: { ...OPEN, twsMaxKn: 18 },
  operations: { set: op(20, 2), douse: op(20, 2) },
};
const A = boatOf([MAIN_LIFE], { white: ['main'] }, { crew: 4, currency: 'EUR' });
const B = boatOf(
  [MAIN_LIFE, KITE],
  { white: ['main'], light: ['main', 'flying'], alone: ['flying'] },
  { crew: 4, currency: 'EUR' },
);
const POLARS: PolarSet = { status: 'measured', plans: { white: polar(6), light: polar(8), alone: polar(7) } };
const sky = (seed: number) =>
  blowing(
    hourly(40).map((n) => 6 * n),
    (hour) => ({
      kn: 15 + 6 * Math.sin(seed + hour / 13) + 3 * Math.cos(2 * seed + hour / 5),
      fromDeg: 90 + 20 * Math.sin(hour / 9),
    }),
  );

/** Sails boats over the same passages. */
function sailed(boats: readonly Omit<WorthStudy, 'records'>[], more: Partial<Study> = {}): WorthStudy[] {
  const study: Study = {
    routes: [{ name: 'short', route: north(150) }],
    boats: boats.map((one) => ({ ...one, firmness: true })),
    weathers: [0, 1, 2].map((seed) => ({ name: `sky ${seed}`, weather: { forecast: sky(seed) } })),
    starts: [iso(6), iso(30), iso(54), iso(78)],
    options: {},
    ...more,
  };
  const sail = studySailer(study);
  const each = study.weathers.length * study.starts.length;
  return boats.map((one, i) => ({ ...one, records: Array.from({ length: each }, (_, n) => sail(i * each + n)) }));
}
const [ofA, ofB] = sailed([
  { name: 'a', boat: A, polars: POLARS },
  { name: 'b', boat: B, polars: POLARS },
]) as [WorthStudy, WorthStudy];

/** Every difference of a comparison, under a name. */
const allOf = ({ differences, operations, sails, sailPlans }: Comparison): Record<string, Difference | null> => ({
  ...differences,
  ...operations,
  ...Object.fromEntries(
    sails.flatMap(({ id, hours, operations: ops, wear, money }) => [
      [`hours ${id}`, hours],
      [`operations ${id}`, ops],
      [`wear ${id}`, wear],
      [`money ${id}`, money],
    ]),
  ),
  ...Object.fromEntries(sailPlans.map(({ id, hours }) => [`plan ${id}`, hours])),
});

describe('two wardrobes', () => {
  test('a sail against itself is exactly zero', () => {
    const same = worthOf(ofB, { ...ofB, name: 'again' }, {});
    const all = Object.values(allOf(same)).filter((one) => one !== null);
    expect(all.length).toBeGreaterThan(30);
    for (const { low, mid, high, more, fewer, same: equal } of all)
      expect([low, mid, high, more, fewer, equal]).toEqual([0, 0, 0, 0, 0, 12]);
    expect(same.verdict.answer).toBe('no-difference');
    expect(same.money.savedPerPassage).toMatchObject({ low: 0, mid: 0, high: 0 });
    expect([same.newSails, same.goneSails, same.flown]).toEqual([[], [], []]);
    expect(same.alike).toBe(true);
    expect(worthText(same, BEHIND)).toContain(
      'A and B are the same: b and again have the same sails, rules and speeds.',
    );
    // A price buys nothing then; and keys may stand in any order.
    const turnedKeys = Object.fromEntries(Object.entries(B).reverse()) as unknown as Boat;
    const priced = worthOf(ofB, { ...ofB, name: 'again', boat: turnedKeys }, { price: 4000, hourValue: 10 });
    expect(priced).toMatchObject({ alike: true, verdict: { answer: 'no-difference' }, money: { cost: 0 } });
    expect(worthText(priced, BEHIND)).toMatch(/A and B are the same: b and again/);
    expect(worthText(priced, BEHIND)).not.toMatch(/lost|does not pay|turns/);
    expect(worthMarkdown(priced, BEHIND)).not.toMatch(/are lost|does not pay|## How the answer turns/);
    // Another rule, though nothing comes of it, is another boat; and so are other speeds.
    const ruled = { ...ofB, name: 'again', boat: { ...B, house: { tackMinutes: 5 } } };
    expect(worthOf(ofB, ruled).alike).toBe(false);
    expect(worthText(worthOf(ofB, ruled), BEHIND)).toContain('changes nothing on these passages');
    expect(worthOf(ofB, { ...ofB, polars: { ...POLARS, status: 'designed' } }).alike).toBe(false);
  });

  test('B against A is the negative of A against B', () => {
    const prices = { hourValue: 12, nightChangeValue: 30, litrePrice: 2, tearsPer100Hours: 1, tearCost: 200 };
    const [there, back] = [worthOf(ofA, ofB, prices), worthOf(ofB, ofA, prices)];
    const [own, other] = [allOf(there), allOf(back)];
    expect(Object.keys(own).sort()).toEqual(Object.keys(other).sort());
    const minus = (value: number | null) => (value === null ? null : expect.closeTo(-value, 9));
    for (const [name, one] of Object.entries(own)) {
      if (one === null || other[name] === null) expect([name, other[name]]).toEqual([name, one]);
      else {
        const { low, mid, high, a, b, fewer, more, spread } = other[name]!;
        expect([low, mid, high, a, b, fewer, more]).toEqual([
          minus(one.high),
          minus(one.mid),
          minus(one.low),
          one.b,
          one.a,
          one.more,
          one.fewer,
        ]);
        expect([spread.p5, spread.p50, spread.p95]).toEqual([
          minus(one.spread.p95),
          minus(one.spread.p50),
          minus(one.spread.p5),
        ]);
      }
    }
    // In money too, but for what a sail wears that is not there any more, and for tears of what was not bought.
    for (const part of ['time', 'nightChanges', 'fuel'] as const)
      expect(back.money.parts[part]).toBeCloseTo(-there.money.parts[part], 9);
    const [main, kite] = there.sails;
    expect(there.money.parts.wear).toBeCloseTo(-main!.money!.mid, 9);
    expect(back.money.parts.wear).toBeCloseTo(main!.money!.mid + kite!.money!.mid, 9);
    expect([back.money.parts.repairs, there.money.parts.repairs < 0]).toEqual([0, true]);
    // Nothing is bought: what hours, nights and wear are worth is all there is.
    expect(back.money).toMatchObject({ cost: 0 });
    expect(back.money.net!.mid).toBeCloseTo(back.money.savedPerPassage.mid * back.money.passagesInYears, 6);
    expect(worthText(back, BEHIND)).toContain('Nothing is bought here: over 5 years');
    expect([there.newSails, back.goneSails]).toEqual([['flying'], ['flying']]);
  });

  test('differences are those of the records', () => {
    const worth = worthOf(ofA, ofB, {});
    const meanOf = (records: readonly PassageRecord[], value: (record: PassageRecord) => number) =>
      records.reduce((sum, record) => sum + value(record), 0) / records.length;
    const { differences, sails, sailPlans } = worth;
    expect(differences.hours!.mid).toBeCloseTo(
      meanOf(ofB.records, ({ hours }) => hours) - meanOf(ofA.records, ({ hours }) => hours),
      9,
    );
    expect(differences['hand-hours']!.b).toBeCloseTo(
      meanOf(ofB.records, ({ handHours }) => handHours),
      9,
    );
    expect(differences['without-main-hours']!.a).toBe(0);
    expect(differences['wear-money']!.mid).toBeCloseTo(
      sails.reduce((sum, { money }) => sum + money!.mid, 0),
      6,
    );
    const main = sails.find(({ id }) => id === 'main')!;
    expect(main.hours.mid).toBeCloseTo(
      sailPlans.filter(({ id }) => ['white', 'light'].includes(id)).reduce((sum, { hours }) => sum + hours.mid, 0),
      9,
    );
    expect(differences['knife-edge-hours']).not.toBeNull();
    expect(METRICS.every((metric) => metric in differences)).toBe(true);
  });

  test('what the new sail flew is counted by hours, days, passages and winds', () => {
    const { flown } = worthOf(ofA, ofB, {});
    const [kite] = flown;
    const own = ofB.records.map(({ sails }) => sails.find(({ id }) => id === 'flying')!);
    expect(flown).toHaveLength(1);
    expect(kite!.hours.mean).toBeCloseTo(own.reduce((sum, { hours }) => sum + hours, 0) / 12, 9);
    expect(kite!.shareOfPassages).toBeCloseTo(own.filter(({ hours }) => hours > 0).length / 12, 9);
    expect(kite!.days).toBeCloseTo(own.reduce((sum, { days }) => sum + days, 0) / 12, 9);
    expect(kite!.winds.reduce((sum, { hours }) => sum + hours, 0)).toBeCloseTo(kite!.hours.mean, 6);
    // It stands in gusts up to 18 kn, which here is the mean wind.
    expect(
      kite!.winds.every(({ twsFromKn, twaFromDeg }) => twsFromKn < 20 && twaFromDeg >= 60 && twaFromDeg <= 100),
    ).toBe(true);
    for (const { days, hours } of own) expect(days).toBeLessThanOrEqual(Math.ceil(hours / 24) + 2);
  });

  test('a sail that is never allowed changes nothing', () => {
    const never = { ...KITE, window: { ...OPEN, twsMaxKn: 1 } };
    const boat = boatOf(
      [MAIN_LIFE, never],
      { white: ['main'], light: ['main', 'flying'] },
      { crew: 4, currency: 'EUR' },
    );
    const [plain, other] = sailed([
      { name: 'a', boat: A, polars: POLARS },
      { name: 'b', boat, polars: POLARS },
    ]) as [WorthStudy, WorthStudy];
    const worth = worthOf(plain, other, { price: 4000, hourValue: 1000 });
    for (const [name, one] of Object.entries(allOf(worth)))
      if (one !== null && name !== 'wear flying' && name !== 'money flying')
        expect([name, one.mid, one.more, one.fewer]).toEqual([name, 0, 0, 0]);
    expect(worth.verdict).toMatchObject({ answer: 'does-not-pay', by: 'net' });
    expect(worth.flown[0]).toMatchObject({ shareOfPassages: 0, winds: [] });
    expect(worth.money).toMatchObject({
      passagesToBreakEven: null,
      never: 'saves-nothing',
      costPerHourFlown: null,
      costPerHoist: null,
      hourValueToPay: null,
    });
    expect(worthText(worth, BEHIND)).toContain('never set');
  });

  test('a slower, dearer sail never pays, whatever an hour is worth', () => {
    // It is set instead of the main where nothing else is: she has no other plan in that wind.
    const heavy = { ...A, sails: [{ ...MAIN_LIFE, window: { ...OPEN, twsMaxKn: 14 } }] };
    const slow = boatOf(
      [{ ...MAIN_LIFE, id: 'old', window: OPEN }, KITE],
      { slow: ['old'], light: ['old', 'flying'] },
      { crew: 4, currency: 'EUR' },
    );
    const [fast, dear] = sailed([
      { name: 'fast', boat: { ...heavy, sails: [{ ...MAIN_LIFE, window: OPEN }] }, polars: POLARS },
      { name: 'dear', boat: slow, polars: { status: 'measured', plans: { slow: polar(5), light: polar(5.5) } } },
    ]) as [WorthStudy, WorthStudy];
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 5000, noNaN: true }),
        fc.double({ min: 20_000, max: 1e5, noNaN: true }),
        (hourValue, price) => {
          const { verdict, money } = worthOf(fast, dear, { hourValue, price });
          expect(['does-not-pay', 'not-in-money']).toContain(verdict.answer);
          expect(money.net!.mid).toBeLessThan(0);
          if (hourValue > 0) expect(verdict.answer).toBe('does-not-pay');
        },
      ),
      { numRuns: 50 },
    );
  });
});

const BEHIND = { digest: '0', inputs: [], routes: [], weathers: [], starts: [], options: {}, warnings: [] };

/** Passages of so many hours each, with a kite that wears and one that lasts. */
function constructed(
  hours: readonly (readonly [a: number, b: number])[],
  { flew = 40, wear = 0.02, miles = 1000 } = {},
): [WorthStudy, WorthStudy] {
  const [base] = ofB.records;
  const sail = base!.sails[1]!;
  const of = (name: string, boat: Boat, b: boolean): WorthStudy => ({
    name,
    boat,
    polars: POLARS,
    records: hours.map((pair, i) => ({
      ...base!,
      boat: name,
      departure: iso(1000 * i),
      complete: true,
      hours: pair[b ? 1 : 0]!,
      distanceNm: miles,
      nightChanges: b ? 1 : 3,
      fuelLitres: b ? 10 : 20,
      sails: [
        { ...base!.sails[0]!, money: { low: b ? 80 : 90, mid: b ? 90 : 100, high: b ? 95 : 110 } },
        ...(b
          ? [
              {
                ...sail,
                hours: flew,
                wear: { low: wear / 2, mid: wear, high: 2 * wear },
                money: { low: 1, mid: 1, high: 1 },
                operations: { ...sail.operations, set: 4, unfurl: 0 },
              },
            ]
          : []),
      ],
      sailPlans: b ? [{ id: 'light', hours: flew, winds: [{ twsFromKn: 10, twaFromDeg: 120, hours: flew }] }] : [],
    })),
  });
  return [of('a', A, false), of('b', B, true)];
}

describe('money by hand', () => {
  // Each passage 10 h faster, two night changes fewer, 10 l and 10 of wear less.
  const pair = constructed([
    [200, 190],
    [210, 200],
    [190, 180],
  ]);

  test('what is saved is what the owner puts a value on', () => {
    const none = worthOf(...pair, { price: 4000 });
    expect(none.money.parts).toEqual({ time: 0, nightChanges: 0, fuel: 0, wear: 10, repairs: 0 });
    const { parts, savedPerPassage } = worthOf(...pair, {
      price: 4000,
      hourValue: 15,
      nightChangeValue: 20,
      litrePrice: 2,
      tearsPer100Hours: 0.5,
      tearCost: 300,
    }).money;
    // 10 × 15, 2 × 20, 10 × 2, 100 − 90, and 40 h of 100 at half a tear of 300 each.
    expect(parts).toEqual({ time: 150, nightChanges: 40, fuel: 20, wear: 10, repairs: -60 * 0.01 * 100 });
    expect(savedPerPassage).toMatchObject({ low: 160, mid: 160, high: 160 });
  });

  test('break-even is price less resale over what is saved, in passages and miles', () => {
    // Five years: 0.6 · 0.85⁴ = 0.3132 of 4,000 is got again, 2,747.2 is spent, 160 a passage is saved.
    const { money } = worthOf(...pair, { price: 4000, hourValue: 15, years: 5, milesPerYear: 2000 });
    expect(resaleShare({ firstYear: 0.6, perYear: 0.85, least: 0.1 }, 5)).toBeCloseTo(0.31320375, 8);
    expect(money.savedPerPassage.mid).toBeCloseTo(160, 9);
    expect(money.passagesToBreakEven).toBeCloseTo((4000 * (1 - 0.31320375)) / 160, 6);
    expect(money.milesToBreakEven).toBeCloseTo(1000 * ((4000 * (1 - 0.31320375)) / 160), 3);
    // Ten passages in five years: 1,600 saved, 2,747 spent.
    expect(money.passagesInYears).toBe(10);
    expect(money.cost).toBeCloseTo(4000 * (1 - 0.31320375), 6);
    expect(money.net!.mid).toBeCloseTo(1600 - 4000 * (1 - 0.31320375), 6);
    // All passages alike: no chance in it.
    expect(money.chancePays).toBe(0);
    expect(money.costPerHourFlown).toBeCloseTo(money.cost! / 10 / 40, 9);
    expect(money.costPerHoist).toBeCloseTo(money.cost! / 10 / 4, 9);
    // (274.72 − 10) / 10 h.
    expect(money.hourValueToPay).toBeCloseTo((money.cost! / 10 - 10) / 10, 6);
    const paid = worthOf(...pair, {
      price: 4000,
      hourValue: money.hourValueToPay! + 0.01,
      years: 5,
      milesPerYear: 2000,
    });
    expect(paid.money.net!.mid).toBeGreaterThan(0);
    expect(paid.verdict.answer).toBe('pays');
    expect(paid.money.chancePays).toBe(1);
  });

  test('a sail that wears out before it has paid never pays, and more than one is bought', () => {
    const worn = constructed([[200, 190]], { wear: 0.3 });
    const { money, verdict } = worthOf(...worn, { price: 4000, hourValue: 15, milesPerYear: 2000 });
    // Ten passages of 0.3 are three sails; the last is worn out.
    expect(money).toMatchObject({
      sailsBought: 3,
      resale: 0,
      cost: 12000,
      never: 'wears-out',
      passagesToBreakEven: null,
    });
    expect(verdict.answer).toBe('does-not-pay');
    expect(costOf(1000, 10, 0.02, 0.3)).toEqual({ bought: 1, resale: 300, cost: 700 });
    // Nine tenths used: no more than a tenth of it is left to sell.
    expect(costOf(1000, 9, 0.1, 0.3)).toMatchObject({ bought: 1, resale: expect.closeTo(100, 9) });
    // One and a fifth: of the second, four fifths are left.
    expect(costOf(1000, 12, 0.1, 0.3)).toMatchObject({
      bought: 2,
      resale: expect.closeTo(800, 9),
      cost: expect.closeTo(1200, 9),
    });
    // It costs more, the more it is worn, without a step.
    for (let passages = 1; passages < 40; passages += 1)
      expect(costOf(1000, passages + 1, 0.1, 0.3).cost - costOf(1000, passages, 0.1, 0.3).cost).toBeLessThan(
        100 + 1e-6,
      );
  });

  test('break-even agrees with counting passage by passage', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 10_000, noNaN: true }),
        fc.double({ min: -50, max: 2000, noNaN: true }),
        fc.double({ min: 0, max: 0.9, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (price, saved, wear, share) => {
          const even = breakEven(price, saved, wear, share);
          const netAfter = (passages: number) => passages * saved - costOf(price, passages, wear, share).cost;
          if (typeof even === 'number') {
            if (share < 1) expect(netAfter(even * (1 - 1e-6))).toBeLessThan(1e-6 * price);
            expect(netAfter(even)).toBeGreaterThan(-1e-6 * price);
          } else {
            const counted = Array.from({ length: 400 }, (_, n) => netAfter((n + 1) / 4));
            expect(Math.max(...counted)).toBeLessThan(1e-6 * price);
          }
        },
      ),
      { numRuns: 300 },
    );
  });

  test('a value of nothing invents no money: hours and nights speak', () => {
    const { verdict, money } = worthOf(...pair, { price: 4000 });
    expect(verdict).toMatchObject({ answer: 'not-in-money', by: 'hours' });
    expect(money.parts.time).toBe(0);
    const text = worthText(worthOf(...pair, { price: 4000 }), BEHIND);
    expect(text).toMatch(/In money alone the flying does not pay/);
    expect(text).toMatch(/10\.0 h faster/);
    expect(text).toMatch(/2\.0 fewer changes by night/);
  });

  test('without a price nothing is said of break-even', () => {
    const [a, b] = pair;
    const { price: _, ...kite } = B.sails[1]!;
    const unpriced = { ...b, boat: { ...B, currency: 'USD', sails: [B.sails[0]!, kite] } };
    const { currency: __, ...plain } = A;
    const { money } = worthOf({ ...a, boat: plain }, unpriced, { hourValue: 10 });
    expect(money).toMatchObject({ cost: null, net: null, passagesToBreakEven: null, chancePays: null });
    expect(money.prices.from.price).toBe('none');
    // By the boat file where that has one.
    expect(worthOf(a, b, {}).money.prices).toMatchObject({ price: { mid: 4000 }, from: { price: 'boat-file' } });
  });

  test('no money is without its currency: that of the file, euros where all prices are the catalogue’s, else that of your prices', () => {
    const [a, b] = pair;
    const inNoCurrency = ({ currency: _, ...boat }: Boat): Boat => boat;
    const unpriced = (boat: Boat): Boat => ({ ...boat, sails: boat.sails.map(({ price: _, ...sail }) => sail) });
    const saidOf = (ofA: Boat, ofB: Boat, prices: Parameters<typeof worthOf>[2]) => {
      const worth = worthOf({ ...a, boat: ofA }, { ...b, boat: ofB }, prices);
      return { currency: worth.currency, text: worthText(worth, BEHIND).replaceAll('\n', ' '), worth };
    };
    expect(saidOf(A, B, { hourValue: 1 }).text).toMatch(/\d+ EUR are lost/);
    // Prices in the files of which nobody says in what.
    const unnamed = saidOf(inNoCurrency(A), inNoCurrency(B), { hourValue: 1 });
    expect(unnamed.currency).toBeNull();
    expect(unnamed.text).toMatch(/\d+ in the currency of your prices are lost/);
    expect(unnamed.text).toMatch(/wear of sails, in the currency of your prices {2,}-9 /);
    const md = worthMarkdown(unnamed.worth, BEHIND);
    expect(md).toContain('| value of an hour | 1 in the currency of your prices |');
    expect(md).toContain('| money, in the currency of your prices, B − A |');
    expect(md).toContain('- currency: that of your prices: the boat file names none');
    // No price in any file: wear is in euros, and so is what is given beside it.
    const [plainA, plainB] = [unpriced(inNoCurrency(A)), unpriced(inNoCurrency(B))];
    expect(saidOf(plainA, plainB, { price: 4000, hourValue: 1 }).currency).toBe('EUR');
    expect(saidOf(plainA, { ...plainB, sails: [plainB.sails[0]!, KITE] }, { price: 4000 }).currency).toBe('EUR');
    expect(saidOf(plainA, { ...plainB, sails: [plainB.sails[0]!, KITE] }, {}).currency).toBeNull();
    expect(saidOf(plainA, { ...plainB, sails: [MAIN_LIFE, plainB.sails[1]!] }, { price: 4000 }).currency).toBeNull();
    expect(saidOf(plainA, { ...plainB, currency: 'SEK' }, { price: 4000 }).currency).toBe('SEK');
  });

  test('a price of no known name, or no number, is a fault', () => {
    const wrong = { hourvalue: 10, litrePrice: 'x' } as never;
    expect(() => worthOf(...pair, wrong)).toThrow(
      /prices, hourvalue: expected one of price, hourValue.* got "hourvalue"/,
    );
    expect(() => worthOf(...pair, wrong)).toThrow(
      /prices, litrePrice: expected a number, or one with low, mid and high, got "x"/,
    );
    expect(worthOf(...pair).verdict.answer).toBe('not-in-money');
  });

  test('prices that are none are told, all at once', () => {
    expect(() =>
      worthOf(...pair, {
        price: -1,
        hourValue: { low: 3, mid: 2, high: 1 },
        years: 0,
        resale: { firstYear: 2, perYear: 0, least: 0 },
      }),
    ).toThrow(/prices.price: expected .* got -1|price/);
    try {
      worthOf(...pair, {
        price: -1,
        hourValue: { low: 3, mid: 2, high: 1 },
        years: 0,
        resale: { firstYear: 2, perYear: 0, least: 0 },
      });
    } catch (error) {
      expect((error as InputError).faults.map(({ path }) => path)).toEqual([
        'price',
        'hourValue',
        'years',
        'resale.firstYear',
      ]);
    }
  });
});

describe('spread', () => {
  test("Student's t is that of the printed table", () => {
    // NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.2, t table, 0.975; from memory.
    for (const [freedom, t] of [
      [1, 12.706],
      [2, 4.303],
      [3, 3.182],
      [4, 2.776],
      [5, 2.571],
      [10, 2.228],
      [20, 2.086],
      [30, 2.042],
      [60, 2.0],
      [100, 1.984],
    ] as const)
      expect(Math.abs(studentT975(freedom) - t)).toBeLessThan(0.0006);
    for (let freedom = 1; freedom < 20; freedom += 0.25)
      expect(studentT975(freedom + 0.25)).toBeLessThan(studentT975(freedom));
  });

  test('its share below a value is that of the same table, and of the closed forms of one and two', () => {
    for (const freedom of [1, 2, 3, 5, 10, 30, 100, 299, 301, 1000])
      expect(studentShare(studentT975(freedom), freedom)).toBeCloseTo(0.975, 6);
    for (const t of [-3, -0.5, 0, 0.2, 2, 12]) {
      expect(studentShare(t, 1)).toBeCloseTo(0.5 + Math.atan(t) / Math.PI, 6);
      expect(studentShare(t, 2)).toBeCloseTo(0.5 + t / (2 * Math.sqrt(2 + t * t)), 6);
    }
  });

  test('an interval of 95 % is that of the mean by hand', () => {
    // 1, 2, 3, 4 in four weathers: mean 2.5, deviation 1.2910, standard error 0.6455, t of three 3.182.
    const one = differenceOf({ a: [0, 0, 0, 0], b: [1, 2, 3, 4], series: [0, 1, 2, 3] })!;
    expect(one.mid).toBe(2.5);
    expect(one.deviation).toBeCloseTo(1.29099, 5);
    expect(one.high! - one.mid).toBeCloseTo(3.182 * 0.6455, 2);
    expect(differenceOf({ a: [1], b: [3], series: [0] })).toMatchObject({
      low: null,
      mid: 2,
      high: null,
      deviation: null,
    });
  });

  test('it shrinks with the root of the number of passages', () => {
    const pairsOf = (count: number) => {
      const spread = Array.from({ length: count }, (_, i) => 10 + 3 * Math.sin(78.233 * i * i + i));
      return differenceOf({ a: spread.map(() => 0), b: spread, series: spread.map((_, i) => i) })!;
    };
    const width = (count: number) => {
      const { low, high } = pairsOf(count);
      return high! - low!;
    };
    for (const count of [50, 200, 800]) expect(width(4 * count) / width(count)).toBeCloseTo(0.5, 1);
  });

  test('it holds the mean as often as it says', () => {
    // 1,000 studies of ten passages with normal differences (Box and Muller), mean 2.
    let seed = 7;
    const random = () => {
      seed = (seed * 48_271) % 2_147_483_647;
      return seed / 2_147_483_647;
    };
    let held = 0;
    for (let n = 0; n < 1000; n += 1) {
      const b = Array.from(
        { length: 10 },
        () => 2 + 3 * Math.sqrt(-2 * Math.log(random())) * Math.cos(2 * Math.PI * random()),
      );
      const { low, high } = differenceOf({ a: b.map(() => 0), b, series: b.map((_, i) => i) })!;
      if (low! <= 2 && high! >= 2) held += 1;
    }
    expect(held).toBeGreaterThan(930);
    expect(held).toBeLessThan(970);
  });

  test('neighbouring starts that are alike count as fewer', () => {
    const series = Array<number>(100).fill(0);
    const waves = series.map((_, i) => Math.sin(i / 15));
    expect(independentOf(waves, series)).toBeLessThan(10);
    const apart = series.map((_, i) => Math.sin(78.233 * i * i));
    expect(independentOf(apart, series)).toBeGreaterThan(60);
    // In weathers of their own they are independent.
    expect(
      independentOf(
        waves,
        series.map((_, i) => i),
      ),
    ).toBe(100);
  });
});

describe('what is not known', () => {
  const pair = constructed([
    [200, 190],
    [210, 200],
  ]);

  test('wear of a sail that has a price on one side only is no saving', () => {
    const [a, b] = pair;
    const unpriced = b.records.map((record) => ({
      ...record,
      sails: record.sails.map((sail) => ({ ...sail, money: null })),
    }));
    const { money, differences } = worthOf(a, { ...b, records: unpriced }, { price: 4000 });
    expect(money.parts.wear).toBe(0);
    expect(differences['wear-money']).toBeNull();
  });

  test('several new sails: one of unknown wear does not make the other last for ever', () => {
    const [a, b] = constructed([[200, 190]], { wear: 0.3 });
    const boat = {
      ...B,
      sails: [...B.sails, { ...FLYING, id: 'other', areaM2: 50, life: { cloth: 'other' as const } }],
    };
    const records = b.records.map((record) => ({
      ...record,
      sails: [...record.sails, { ...record.sails[1]!, id: 'other', hours: 5, wear: null, money: null }],
      sailPlans: [...record.sailPlans, { id: 'more', hours: 5, winds: [] }],
    }));
    const more = { ...boat, sailPlans: [...boat.sailPlans, { id: 'more', sails: ['other'] }] };
    const worth = worthOf(a, { ...b, boat: more, records }, { price: 4000, hourValue: 1, milesPerYear: 2000 });
    expect(worth.newSails).toEqual(['flying', 'other']);
    expect(worth.money).toMatchObject({ ownWear: { mid: 0.3 }, sailsBought: 3 });
    expect(worthText(worth, BEHIND).replaceAll('\n', ' ')).toMatch(
      /They flew 40 h \(flying\), 5 h \(other\) of a passage/,
    );
  });

  test('competitors that finish nothing are named and left out', () => {
    const [a, b] = pair;
    const rival = { ...b, name: 'slow', records: b.records.map((record) => ({ ...record, complete: false })) };
    const worth = worthOf(a, b, {}, { rivals: [rival, { ...b, name: 'other' }] });
    expect([worth.rivals.map((one) => one.b), worth.rivalsUnfinished]).toEqual([['other'], ['slow']]);
    expect(worthMarkdown(worth, BEHIND)).toContain('slow finishes none of the passages that A finishes.');
  });

  test('where hours have a value and the sail no price, that is what is said', () => {
    const [a, b] = pair;
    const { price: _, ...kite } = B.sails[1]!;
    const unpriced = { ...b, boat: { ...B, currency: 'USD', sails: [B.sails[0]!, kite] } };
    const { currency: __, ...plain } = A;
    const text = worthText(worthOf({ ...a, boat: plain }, unpriced, { hourValue: 10 }), BEHIND).replaceAll('\n', ' ');
    expect(text).toMatch(/Without its price nobody can say whether the flying pays: it saves 110 USD on a passage/);
    // Sold, nothing is bought.
    const sold = worthText(worthOf({ ...b, boat: { ...B, sails: B.sails } }, a, { hourValue: 0 }), BEHIND);
    expect(sold).not.toContain('does not pay on these passages, for nothing');
  });
});

describe('passages that do not pair', () => {
  test('one that the other did not sail is a fault', () => {
    expect(() => worthOf(ofA, { ...ofB, records: ofB.records.slice(1) }, {})).toThrow(
      /studyA: expected a passage that the other study has too/,
    );
  });

  test('those that one of them did not finish are counted and left out', () => {
    const broken = ofB.records.map((record, i) => (i < 2 ? { ...record, complete: false } : record));
    const { passages } = worthOf(ofA, { ...ofB, records: broken }, {});
    expect(passages).toMatchObject({ paired: 12, both: 10, onlyA: 2, onlyB: 0, neither: 0 });
    expect(() =>
      worthOf(ofA, { ...ofB, records: ofB.records.map((record) => ({ ...record, complete: false })) }, {}),
    ).toThrow(/expected a passage that both boats finish, got none of 12/);
  });
});

const FILE = {
  name: 'Invented',
  currency: 'EUR',
  crew: 4,
  hull: { type: 'catamaran', waterlineM: 12.9, displacementKg: 12600, hullCentresM: 5.9 },
  rig: { iM: 17.1, jM: 5.2, pM: 16.4, eM: 6.1, spritM: 1.2 },
  sails: [
    { id: 'main', kind: 'full-roach-main' },
    { id: 'jib', kind: 'self-tacking-jib' },
  ],
} as const;
const PLAIN = readBoat(JSON.stringify(FILE));

describe('a further sail', () => {
  test('makes the plans of its kind where plans follow, and keeps all others', () => {
    const boat = withSail(PLAIN, { id: 'vented', kind: 'vented-downwind', areaM2: 140 });
    expect(boat.sails.find(({ id }) => id === 'vented')).toMatchObject({ areaM2: 140, window: { awaMaxDeg: 180 } });
    const ids = boat.sailPlans.map(({ id }) => id);
    expect(ids).toEqual(expect.arrayContaining(PLAIN.sailPlans.map(({ id }) => id)));
    expect(ids.filter((id) => id.includes('vented'))).toEqual(['main+vented', 'vented']);
    expect(() => withSail(PLAIN, { id: 'jib', kind: 'gennaker' })).toThrow(InputError);
  });

  test('is added to plans that are given, under ids that are free', () => {
    const given = {
      ...PLAIN,
      sailPlans: [
        { id: 'white', sails: ['main', 'jib'] },
        { id: 'vented', sails: ['main'] },
      ],
    };
    const boat = withSail(given, { id: 'vented', kind: 'vented-downwind' });
    expect(boat.sailPlans.map(({ id }) => id)).toEqual(['white', 'vented', 'main+vented', 'vented-2']);
  });

  test('is estimated on the same hull; the others keep their speeds', () => {
    const polars = estimatePolars(PLAIN);
    const boat = withSail(PLAIN, { id: 'vented', kind: 'vented-downwind' });
    const speeds = speedsWith(PLAIN, polars, boat);
    for (const id of Object.keys(polars.plans)) expect(speeds.plans[id]).toBe(polars.plans[id]);
    const whole = estimatePolars(boat);
    expect(speeds.plans['main+vented']).toEqual(whole.plans['main+vented']);
    expect(speeds.variants!.map(({ instead }) => instead)).toEqual(whole.variants.map(({ instead }) => instead));
    speeds.variants!.forEach(({ plans }, i) => {
      expect(plans['main+vented'] ?? speeds.plans['main+vented']).toEqual(
        whole.variants[i]!.plans['main+vented'] ?? whole.plans['main+vented'],
      );
    });
    expect(speedsWith(PLAIN, polars, PLAIN)).toBe(polars);
  });

  test('beside measured speeds it is to the fastest plan as their estimates are', () => {
    const estimated = estimatePolars(PLAIN);
    // A boat that is a tenth slower than any estimate everywhere, as measured.
    const slower = (by: number): PolarSet => ({
      status: 'measured',
      plans: Object.fromEntries(
        Object.entries(estimated.plans).map(([id, one]) => [id, { ...one, stwKn: one.stwKn.map((kn) => kn * by) }]),
      ),
    });
    const boat = withSail(PLAIN, { id: 'vented', kind: 'vented-downwind' });
    const [usual, slow] = [speedsWith(PLAIN, slower(1), boat), speedsWith(PLAIN, slower(0.9), boat)];
    const own = estimatePolars(boat).plans['main+vented']!;
    const at = ({ plans }: PolarSet, tws: number, twa: number) => {
      const one = plans['main+vented']!;
      return one.stwKn[one.twaDeg.indexOf(twa) * one.twsKn.length + one.twsKn.indexOf(tws)]!;
    };
    for (const [tws, twa] of [
      [10, 150],
      [14, 140],
      [16, 160],
    ] as const) {
      const estimate = own.stwKn[own.twaDeg.indexOf(twa) * own.twsKn.length + own.twsKn.indexOf(tws)]!;
      expect(at(usual, tws, twa) / estimate).toBeGreaterThan(0.99);
      expect(at(usual, tws, twa) / estimate).toBeLessThan(1.01);
      expect(at(slow, tws, twa) / at(usual, tws, twa)).toBeGreaterThan(0.86);
      expect(at(slow, tws, twa) / at(usual, tws, twa)).toBeLessThan(0.94);
    }
    // One polar for the whole boat is no other.
    const best = { ...slower(1), status: 'designed' as const };
    expect(at(speedsWith(PLAIN, best, boat), 14, 140)).toBeCloseTo(at(usual, 14, 140), 9);
    expect(slow.status).toBe('measured');
    expect(slow.variants!.every(({ plans }) => 'main+vented' in plans && !('main' in plans))).toBe(true);
    // Without a rig nobody can say.
    const { rig: _, ...bare } = PLAIN;
    expect(() => speedsWith(bare, slower(1), { ...boat, rig: {} })).toThrow(/needed to estimate|rig/);
  });

  test('is the same whichever angle the polars refer to', () => {
    // Leeway of 5° close-hauled: a polar by the heading gives the speeds that one by the course gives 5° further off.
    const leeway = [
      [0, 5],
      [179, 5],
    ] as const;
    const boat = { ...PLAIN, leeway };
    const twaDeg = Array.from({ length: 35 }, (_, i) => 5 + 5 * i);
    const twsKn = [6, 10, 14, 20];
    const made = (twa: number, tws: number) => 1 + tws / 6 + 1.5 * Math.sin((twa * Math.PI) / 180);
    const polarsBy = (twaReference: 'course' | 'heading'): PolarSet => ({
      status: 'measured',
      plans: Object.fromEntries(
        PLAIN.sailPlans.map(({ id }) => [
          id,
          {
            twsKn,
            twaDeg,
            twaReference,
            stwKn: twaDeg.flatMap((twa) => twsKn.map((tws) => made(twaReference === 'heading' ? twa + 5 : twa, tws))),
          },
        ]),
      ),
    });
    const more = withSail(boat, { id: 'code', kind: 'code-zero' });
    const [byCourse, byHeading] = (['course', 'heading'] as const).map(
      (by) => speedsWith(boat, polarsBy(by), more).plans['main+code']!,
    );
    byCourse!.stwKn.forEach((kn, i) => {
      if (
        byCourse!.twaDeg[Math.floor(i / byCourse!.twsKn.length)]! >= 45 &&
        byCourse!.twaDeg[Math.floor(i / byCourse!.twsKn.length)]! <= 150
      )
        expect(Math.abs(byHeading!.stwKn[i]! / kn - 1)).toBeLessThan(0.03);
    });
  });

  test('of every kind says whether it fits', () => {
    const kinds = new Map(kindsFor(PLAIN).map(({ kind, unfit }) => [kind, unfit]));
    expect(kinds.get('square-top-main')).toBe('main');
    expect(kinds.get('self-tacking-jib')).toBe('aboard');
    expect(kinds.get('twin-headsails')).toBe('needs');
    expect(kinds.get('vented-downwind')).toBeNull();
    expect(kinds.size).toBe(21);
  });

  test('has its usual competitors, the symmetric as large as it', () => {
    expect(usualRivals(PLAIN, 'vented-downwind', 140)).toEqual([
      { kind: 'symmetric-cruising', areaM2: 140 },
      { kind: 'twin-headsails' },
    ]);
    expect(usualRivals(PLAIN, 'staysail', 20)).toEqual([]);
    // A pole for the jib of a boat that has none: it brings one as long as J.
    const mono = readBoat(
      JSON.stringify({
        ...FILE,
        hull: { type: 'monohull', waterlineM: 10, displacementKg: 7000 },
        rig: { ...FILE.rig, spritM: 0 },
      }),
    );
    expect(usualRivals(mono, 'vented-downwind', undefined).map(({ kind }) => kind)).toContain('poled-out-headsail');
    const poled = boatWith(mono, estimatePolars(mono), { kind: 'poled-out-headsail', price: 700 });
    expect(poled.boat.rig!.poleM).toBe(5.2);
    expect(poled.boat.sails.at(-1)).toMatchObject({ kind: 'poled-out-headsail', clothOf: 'jib' });
    expect(poled).toMatchObject({ price: { mid: 700 }, priceFrom: 'given' });
    expect(poled.boat.sailPlans.some(({ id }) => id.includes(poled.sail))).toBe(true);
  });

  test('has a price, by its area where none is told', () => {
    const vented = boatWith(PLAIN, estimatePolars(PLAIN), { kind: 'vented-downwind', areaM2: 100 });
    // 70 to 130 EUR for each m², a placeholder.
    expect(vented).toMatchObject({
      sail: 'vented',
      price: { low: 7000, mid: 10_000, high: 13_000 },
      priceFrom: 'placeholder',
    });
    const told = priced(vented, 8000);
    expect(told.boat.sails.at(-1)).toMatchObject({ price: 8000 });
    const { currency: _, ...unnamed } = PLAIN;
    expect(boatWith(unnamed, estimatePolars(unnamed), { kind: 'gennaker', price: 5000 }).boat.currency).toBe('EUR');
    const record = {
      ...ofB.records[0]!,
      sails: [{ ...ofB.records[0]!.sails[1]!, wear: { low: 0.01, mid: 0.02, high: 0.04 } }],
    };
    expect(repriced(record, 'flying', { low: 100, mid: 100, high: 100 }).sails[0]!.money).toEqual({
      low: 1,
      mid: 2,
      high: 4,
    });
    expect(repriced(record, 'main', { low: 1, mid: 1, high: 1 })).toEqual(record);
  });

  test('that is no kind is a fault', () => {
    expect(() => boatWith(PLAIN, estimatePolars(PLAIN), { kind: 'kite' as 'gennaker' })).toThrow(
      /kind: expected one of full-roach-main/,
    );
  });
});

describe('how the answer turns', () => {
  const turned = turnedBoats({ ...ofA }, { ...ofB }, { speedBandPercent: 10 });

  test('each input moves what it is of, and nothing else', () => {
    expect(turned.map(({ input, end }) => `${input} ${end}`)).toEqual([
      'speed-band low',
      'speed-band high',
      'gust-margin high',
      'night low',
    ]);
    const [slow, fast, gust, night] = turned;
    expect(slow!.b.polars.plans.light!.stwKn[0]).toBeCloseTo(7.2, 9);
    expect(fast!.b.polars.plans.light!.stwKn[0]).toBeCloseTo(8.8, 9);
    expect(slow!.b.polars.plans.white).toBe(POLARS.plans.white);
    expect(slow!.a).toBeNull();
    expect(gust!.a!.boat.house!.gustMargin).toBe(1.15);
    expect(night!.b.boat.sails[1]!.daylightOnly).toBe(true);
    // Measured speeds have no band but what the owner says.
    expect(turnedBoats({ ...ofA }, { ...ofB }).map(({ input }) => input)).toEqual(['gust-margin', 'night']);
    // Of estimates each assumption is moved in both boats alike.
    const polars = estimatePolars(PLAIN);
    const vented = boatWith(PLAIN, polars, { kind: 'vented-downwind' });
    const all = turnedBoats(
      { name: 'a', boat: PLAIN, polars },
      { name: 'b', boat: vented.boat, polars: vented.polars },
    );
    expect([...new Set(all.map(({ input }) => input))]).toEqual([
      'speed-band',
      'set-without-main',
      'shadow',
      'wave-exponent',
      'gust-margin',
      'night',
    ]);
    const waves = all.filter(({ input }) => input === 'wave-exponent');
    expect(waves.map(({ end }) => end)).toEqual(['low', 'high']);
    expect(
      waves.every(({ a, b }) => a !== null && b.polars.plans['main+jib'] !== vented.polars.plans['main+jib']),
    ).toBe(true);
    expect(new Set(all.flatMap(({ a, b }) => [a?.name ?? '', b.name])).size).toBe(
      all.length + all.filter(({ a }) => a !== null).length + 1,
    );
  });

  test('turned boats are sailed on an even sample of the same passages', () => {
    const study = {
      routes: [{ name: 'r', route: north(10) }],
      weathers: [0, 1].map((n) => ({ name: `${n}`, weather: { forecast: sky(n) } })),
      starts: [iso(1), iso(2), iso(3)],
    };
    const sides = [ofA, ofB].map(({ name, boat, polars }) => ({ name, boat, polars }));
    const { boats, cases } = worthCases(study, sides, turned, 3);
    // Two of the four are turned in B alone, the gust in both.
    expect(boats).toHaveLength(2 + 5);
    expect(cases.filter(({ boat }) => boat < 2)).toHaveLength(12);
    expect(cases.filter(({ boat }) => boat === 2)).toHaveLength(3);
    expect(worthCases(study, sides, turned, 100).cases).toHaveLength(7 * 6);
    // A year of months in twenty drawings: every month is in the sample, and most of the drawings.
    const year = {
      ...study,
      weathers: Array.from({ length: 20 }, (_, n) => ({ name: `${n}`, weather: { forecast: sky(0) } })),
      starts: Array.from({ length: 12 }, (_, n) => iso(n)),
    };
    const sample = worthCases(year, sides, turned, 24).cases.filter(({ boat }) => boat === 2);
    expect(sample).toHaveLength(24);
    expect(new Set(sample.map(({ start }) => start)).size).toBeGreaterThanOrEqual(11);
    expect(new Set(sample.map(({ weather }) => weather)).size).toBe(20);
  });

  test('slower and faster turn hours, prices turn money, the strongest first', () => {
    const study = sailed(
      [ofA, ofB, ...turned.flatMap(({ a, b }) => (a === null ? [b] : [a, b]))].map(({ name, boat, polars }) => ({
        name,
        boat,
        polars,
      })),
    );
    const records = (name: string) => study.find((one) => one.name === name)!.records;
    const worth = worthOf(
      ofA,
      ofB,
      { price: 4000, hourValue: { low: 5, mid: 10, high: 40 } },
      {
        turned: turned.map(({ a, b, ...rest }) => ({
          ...rest,
          a: a === null ? null : records(a.name),
          b: records(b.name),
        })),
      },
    );
    const by = new Map(worth.turns.map((turn) => [turn.input, turn]));
    const speed = by.get('speed-band')!;
    expect(speed.low!.hours).toBeGreaterThan(speed.usual.hours);
    expect(speed.high!.hours).toBeLessThan(speed.usual.hours);
    expect(speed.usual.hours).toBeCloseTo(worth.differences.hours!.mid, 9);
    const price = by.get('price')!;
    expect(price.low!.net! - price.usual.net!).toBeCloseTo(0.2 * worth.money.cost!, 6);
    const value = by.get('hour-value')!;
    expect(value.high!.net! - value.usual.net!).toBeCloseTo(
      30 * -worth.differences.hours!.mid * worth.money.passagesInYears,
      6,
    );
    expect(by.get('tears')!.high!.net!).toBeLessThan(by.get('tears')!.usual.net!);
    expect(by.get('resale')!.low!.net!).toBeLessThanOrEqual(by.get('resale')!.usual.net!);
    const effects = worth.turns.map(({ effect }) => effect);
    expect(effects).toEqual([...effects].sort((x, y) => y - x));
    expect(worth.turns.every(({ low, high }) => low !== null || high !== null)).toBe(true);
    // Turned by nothing that holds both signs: measured, and faster all the same.
    expect(worth.verdict.turnedBy).toEqual([]);
    const md = worthMarkdown(worth, BEHIND);
    expect(md).toContain('## How the answer turns');
    expect(JSON.parse(worthJson(worth, BEHIND))).toMatchObject({
      formatVersion: 1,
      differences: { hours: { mid: expect.any(Number) } },
    });
    expect(worthCsv(worth).split('\n')[0]).toBe('what,unit,a,b,low,mid,high,p5,p50,p95,fewer,same,more');
  });

  test('where the band of an estimate holds both signs it cannot be told, and what to measure is', () => {
    const estimated: PolarSet = { ...POLARS, status: 'estimated' };
    const [a, b] = constructed([
      [200, 199],
      [210, 209],
      [190, 189],
    ]);
    const [slow, fast] = [
      constructed([
        [200, 205],
        [210, 214],
        [190, 194],
      ])[1],
      constructed([
        [200, 195],
        [210, 204],
        [190, 185],
      ])[1],
    ];
    const ends = [
      { input: 'speed-band' as const, end: 'low' as const, text: 'slower by 7 %', a: null, b: slow.records },
      { input: 'speed-band' as const, end: 'high' as const, text: 'faster by 7 %', a: null, b: fast.records },
    ];
    const worth = worthOf(a, { ...b, polars: estimated }, { price: 4000 }, { turned: ends });
    expect(worth.verdict).toMatchObject({
      answer: 'cannot-tell',
      by: 'hours',
      estimated: true,
      turnedBy: ['speed-band'],
    });
    expect(worth.verdict.toMeasure).toEqual([
      { plan: 'light', rival: null, twsFromKn: 10, twaFromDeg: 120, hours: 40 },
    ]);
    const text = worthText(worth, BEHIND);
    expect(text.replaceAll('\n', ' ')).toMatch(/It cannot be told whether the flying is faster: speeds are estimated/);
    expect(text.replaceAll('\n', ' ')).toMatch(/an hour under light in 10 to 15 kn at TWA 120 to 140/);
    // By money: the middle of all passages with what the sample moves, whichever side the sample itself is on.
    const whole = constructed([
      [200, 201],
      [210, 200],
      [190, 180],
    ]);
    const moved = (by: number) =>
      whole[1].records.slice(0, 1).map((record) => ({ ...record, hours: record.hours + by }));
    const priced = worthOf(
      whole[0],
      { ...whole[1], polars: estimated },
      { price: 1000, hourValue: 100, milesPerYear: 20_000 },
      {
        turned: [
          { ...ends[0]!, b: moved(1) },
          { ...ends[1]!, b: moved(-1) },
        ],
      },
    );
    expect(priced.verdict).toMatchObject({ answer: 'pays', by: 'net', turnedBy: [] });
    expect(priced.turns.find(({ input }) => input === 'speed-band')!.effect).toBeGreaterThan(0);
    // Never set as it is, and faster if it were: it cannot be told.
    const unset = worthOf(
      a,
      { ...b, records: a.records.map((record) => ({ ...record, boat: 'b' })), polars: estimated },
      { price: 10, hourValue: 100 },
      {
        turned: [{ ...ends[1]!, b: fast.records }],
      },
    );
    expect(unset.verdict).toMatchObject({ answer: 'cannot-tell', turnedBy: ['speed-band'] });
    // Far apart it can.
    const clear = worthOf(
      a,
      { ...b, polars: estimated },
      { price: 4000 },
      { turned: ends.map((one) => ({ ...one, b: fast.records })) },
    );
    expect(clear.verdict.answer).toBe('not-in-money');
  });

  test('what a sample moves is told beside what the sample is, and of how many passages', () => {
    const saidOf = (
      hours: readonly (readonly [number, number])[],
      [slower, faster]: readonly [number, number],
      prices: Parameters<typeof worthOf>[2] = { price: 4000 },
    ) => {
      const [a, b] = constructed(hours);
      const first = (bHours: number) => b.records.slice(0, 1).map((record) => ({ ...record, hours: bHours }));
      const turned = [
        { input: 'speed-band' as const, end: 'low' as const, text: 'slower by 7 %', a: null, b: first(slower) },
        { input: 'speed-band' as const, end: 'high' as const, text: 'faster by 7 %', a: null, b: first(faster) },
      ];
      const worth = worthOf(a, { ...b, polars: { ...POLARS, status: 'estimated' } }, prices, { turned });
      const text = worthText(worth, BEHIND).replaceAll('\n', ' ');
      // The paragraph of the Markdown, and so of the report, is the same.
      expect(worthMarkdown(worth, BEHIND)).toContain(/(?:In money|It cannot)[^.]*\./.exec(text)![0]);
      return text;
    };
    // 4, 6 and 6 h saved; the first alone is sailed anew.
    const pairs = [
      [200, 196],
      [210, 204],
      [190, 184],
    ] as const;
    const text = saidOf(pairs, [199, 193]);
    expect(text).toContain('On a passage it is 5.3 h faster in the mean');
    expect(text).toContain(
      'Speeds are estimated: on the 1 passage on which this was tried it saves 4.0 h as it is, 1.0 h if it is slower by 7 %, 7.0 h if it is faster by 7 %.',
    );
    expect(text).toContain(
      'speed under the new sail (on 1 of 3 passages): -4.00 h, -2597 EUR as it is; slower by 7 %: -1.00 h',
    );
    expect(
      saidOf(
        [
          [200, 203],
          [210, 198],
          [190, 178],
        ],
        [205, 199],
      ),
    ).toContain('it loses 3.0 h as it is, 5.0 h if it is slower by 7 %, saves 1.0 h if it is faster by 7 %.');
    // Of one passage in all there is no other base.
    expect(saidOf([[200, 196]], [199, 193])).toContain(
      'Speeds are estimated: on this passage it saves 4.0 h as it is,',
    );
    // The ends of the sample all save, those of all passages do not.
    expect(
      saidOf(
        [
          [200, 190],
          [210, 213],
          [190, 193],
        ],
        [195, 185],
      ),
    ).toContain(
      'within what they may be off the answer has both signs (on the 1 passage on which this was tried 10.0 h saved as it is; slower by 7 %: 5.0 h saved; faster by 7 %: 15.0 h saved; moved by as much, the mean of all 3 has both signs).',
    );
    expect(saidOf(pairs, [220, 190], { price: 1000, hourValue: 100, milesPerYear: 2000 })).toMatch(
      /It cannot be told whether the flying pays: .* \(on the 1 passage on which this was tried -?\d+ EUR as it is; slower by 7 %: -\d+ EUR; faster by 7 %: \d+ EUR; moved by as much, the mean of all 3 has both signs\)/,
    );
  });
});

describe('the next sail', () => {
  test('is the one that saves most', () => {
    const polars = estimatePolars(PLAIN);
    const tried = (['symmetric-cruising', 'trysail'] as const).map((kind) => ({
      kind,
      sail: boatWith(PLAIN, polars, { kind }),
    }));
    const study = sailed(
      [
        { name: 'plain', boat: PLAIN, polars },
        ...tried.map(({ kind, sail }) => ({ name: kind, boat: sail.boat, polars: sail.polars })),
      ],
      {
        starts: [iso(6)],
        routes: [
          {
            name: 'west',
            route: {
              waypoints: [
                { name: 'a', latDeg: 0, lonDeg: -22 },
                { name: 'b', latDeg: 0, lonDeg: -24 },
              ],
            },
          },
        ],
      },
    );
    const rows = tried.map((one, i) => ({ ...study[i + 1]!, ...one, turned: [] }));
    const holes = [{ kinds: ['symmetric-cruising'], twsKn: [6, 18], twaDeg: [145, 160] }] as never;
    const next = nextSailOf(study[0]!, rows, {}, { holes, holesUnknown: null }, [{ kind: 'gennaker', why: 'needs' }]);
    expect(next.rankedBy).toBe('hours');
    expect(next.rows.map(({ kind }) => kind)).toEqual(['symmetric-cruising', 'trysail']);
    expect(next.rows[0]!.saves).toBeGreaterThan(0);
    expect(next.rows[1]!.saves).toBe(0);
    expect(next.rows[0]!.fills).toHaveLength(1);
    expect(next.rows[0]!.comparison.money.prices.from.price).toBe('placeholder');
    expect(nextSailOf(study[0]!, rows, { hourValue: 50 }, { holes: [], holesUnknown: null }).rankedBy).toBe('net');
    // Of one passage, of few that lie on both sides, and of some that leave no doubt.
    const told = (hours: readonly number[], prices: Parameters<typeof nextSailOf>[2] = {}) => {
      const some = (one: WorthStudy, saved: readonly number[]) => ({
        ...one,
        records: saved.map((by, n) => ({ ...one.records[0]!, departure: iso(1000 * n), hours: 200 - by })),
      });
      const zero = hours.map(() => 0);
      const [kite, trysail] = rows as [(typeof rows)[0], (typeof rows)[0]];
      const tried = [
        { ...kite, ...some(study[1]!, hours) },
        { ...trysail, ...some(study[2]!, zero) },
      ];
      const of = nextSailOf(some(study[0]!, zero), tried, prices, { holes: [], holesUnknown: null });
      return { text: nextSailText(of, BEHIND), md: nextSailMarkdown(of, BEHIND) };
    };
    const one = told([4]);
    expect(one.text).toContain(
      'A symmetric-cruising would save most. One passage tells of no other: on the next it may be another sail, or none. Ranked by the hours saved',
    );
    expect(one.md).toContain('| 4.00 | one passage cannot tell |');
    // Mean 2, t of 95 % and 2 degrees 4.303, deviation 4: 2 ± 4.303 · 4 / √3.
    expect(told([2, -2, 6]).text).toContain(
      'would save most. So few passages leave it open: by their number alone what it saves on a passage lies between -7.9 h and 11.9 h.',
    );
    expect(told([2, -2, 6]).md).toContain('| 2.00 | -7.94 to 11.94 |');
    expect(told([4, 5, 6]).text).toContain('would save most. Ranked by');
    expect(told([2, -2, 6], { hourValue: 1000, milesPerYear: 20_000 }).text).toMatch(
      /would save most\. So few passages leave it open: by their number alone its net lies between -\d+ EUR and \d+ EUR\./,
    );
  });
});
