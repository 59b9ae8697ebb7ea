// The tables that the search asks against the sailing that the log is made of: two ways to the same numbers.
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { planPassage, readBoat, readForecast, readPolars, readRoute } from '../src/index.js';
import { metOf } from '../src/passage/ranked.js';
import { type Conditions, sailAlong } from '../src/sailing/sailing.js';
import { planSpeed, sailablePlans } from '../src/speed/speed.js';
import { planTable } from '../src/tabled/tabled.js';

const sample = (name: string) => readFileSync(new URL(`../data-samples/${name}`, import.meta.url), 'utf8');
const boat = readBoat(sample('boat.json'));
const polars = readPolars(sample('polars.csv'), { boat });
const RULES = { tackMinutes: 3, gybeMinutes: 6, tackEveryHours: 2, gybeEveryHours: 6 };
const plans = sailablePlans(boat, polars, 0.9, []).map((plan) => ({
  plan,
  table: planTable(plan.speed!, plan.windows, { up: 1 - 3 / 120, down: 1 - 6 / 360 }),
}));

/** Evenly between two: doubles of fast-check are most often next to nothing. */
const number = (min: number, max: number) =>
  fc.integer({ min: 0, max: 1_000_000 }).map((share) => min + ((max - min) * share) / 1_000_000);
const KN_PER_DEG = Math.PI / 180;
const vectorTo = (kn: number, deg: number) => ({
  eastKn: kn * Math.sin(deg * KN_PER_DEG),
  northKn: kn * Math.cos(deg * KN_PER_DEG),
});
/** Winds over the water, the gust along the mean wind. */
const seas = (mostCurrentKn: number): fc.Arbitrary<Conditions> =>
  fc
    .record({
      courseDeg: number(0, 359),
      twdDeg: number(0, 359),
      twsKn: number(2, 40),
      factor: number(1, 1.6),
      setDeg: number(0, 359),
      driftKn: number(0, mostCurrentKn),
    })
    .map(({ courseDeg, twdDeg, twsKn, factor, setDeg, driftKn }) => ({
      courseDeg,
      twdDeg,
      twsKn,
      gustWind: vectorTo(-twsKn * factor, twdDeg),
      gustTwsKn: twsKn * factor,
      current: vectorTo(driftKn, setDeg),
    }));

describe('tables of plans', () => {
  // Pairs are tabled at their best angle only: a course just outside their reach, barred to the direct heading by the gust, may be
  // made good at wider angles faster than the table says.
  test.each([
    ['without current', 0, 0.003],
    ['in up to 1.5 kn of current', 1.5, 0.02],
  ])('make good what sailing does, %s', (name, mostCurrentKn, mostApart) => {
    const errors: Record<'direct' | 'pair', number[]> = { direct: [], pair: [] };
    let [count, apart] = [0, 0];
    fc.assert(
      fc.property(seas(mostCurrentKn), (sea) => {
        for (const { plan, table } of plans) {
          const sailed = sailAlong(plan, sea, RULES);
          const tabled = table.smgAt(metOf(sea));
          count += 1;
          if ((typeof sailed === 'string') !== Number.isNaN(tabled)) apart += 1;
          else if (typeof sailed !== 'string')
            errors[sailed.manner === 'direct' ? 'direct' : 'pair'].push(Math.abs(sailed.smgKn - tabled));
        }
      }),
      { numRuns: 1500, seed: 20270110 },
    );
    const partOf = (manner: 'direct' | 'pair') => {
      const sorted = errors[manner].sort((a, b) => a - b);
      expect(sorted.length).toBeGreaterThan(1000);
      return {
        mean: sorted.reduce((sum, error) => sum + error, 0) / sorted.length,
        most: sorted[Math.floor(sorted.length * 0.98)]!,
      };
    };
    const [direct, pair] = [partOf('direct'), partOf('pair')];
    const share = apart / count;
    const told = ({ mean, most }: typeof direct) => `mean ${mean.toFixed(4)} kn, 98 % under ${most.toFixed(3)} kn`;
    console.log(
      `tables against sailing, ${name}: direct ${told(direct)}; pairs ${told(pair)}; barred in one only ${(100 * share).toFixed(2)} % of ${count}`,
    );
    expect(direct.mean).toBeLessThan(0.01);
    expect(direct.most).toBeLessThan(0.05);
    expect(pair.mean).toBeLessThan(0.1);
    expect(share).toBeLessThan(mostApart);
  });
});

describe('a plan that is gybed, near its limit gust', () => {
  // Its window ends forward of the course, so that it is gybed or not sailed at all. The limit stands on no half knot.
  const limitKn = 23.4;
  const speed = planSpeed({ twsKn: [5, 30], twaDeg: [60, 180], stwKn: [5, 8, 5, 8] }, 1);
  const windows = [{ awaMinDeg: 30, awaMaxDeg: 140, twsMaxKn: limitKn }];
  const table = planTable(speed, windows, { up: 1, down: 1 });
  const met = (twsKn: number, gustTwsKn: number) => ({ twsKn, gustTwsKn, angleDeg: 175, alongKn: 0, acrossKn: 0 });

  test.each([17.2, 17.93, 18])('stands up to the limit and not over it, in %s kn', (twsKn) => {
    const wellBelow = table.smgAt(met(twsKn, 20));
    expect(wellBelow).toBeGreaterThan(3);
    for (const gustKn of [23, 23.27, 23.39]) expect(table.smgAt(met(twsKn, gustKn))).toBeCloseTo(wellBelow, 2);
    for (const gustKn of [23.41, 24]) expect(table.smgAt(met(twsKn, gustKn))).toBeNaN();
  });
});

describe('the plan against the log', () => {
  test('what the curve says of other numbers of changes is what is sailed where they are chosen', async () => {
    const { forecast } = await readForecast({ name: 'forecast.csv', open: () => [sample('forecast.csv')] });
    const inputs = { route: readRoute(sample('route.csv')), boat, polars, forecast };
    let mostMinutes = 0;
    for (const departure of ['2027-01-10T12:00Z', '2027-01-13T06:00Z']) {
      const passages = [0, 10, 60, 400].map((pricePerChangeMinutes) =>
        planPassage(inputs, { departure, labels: 1, house: { pricePerChangeMinutes } }),
      );
      const numbers = passages.map(({ curve }) => curve!.find(({ chosen }) => chosen)!.changes);
      expect(new Set(numbers).size).toBe(4);
      for (const told of passages) {
        passages.forEach(({ end }, i) => {
          const point = told.curve!.find(({ changes }) => changes === numbers[i])!;
          const apart = Math.abs(Date.parse(point.arrival) - Date.parse(end)) / 60_000;
          mostMinutes = Math.max(mostMinutes, apart);
        });
      }
    }
    console.log(`curve against passages sailed: at most ${mostMinutes.toFixed(1)} min apart`);
    expect(mostMinutes).toBeLessThan(15);
  });
});
