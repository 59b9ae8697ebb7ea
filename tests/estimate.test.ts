import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Boat, type BoatFile, completeBoat, type SailGiven } from '../src/boat/boat.js';
import { GUST_OVER_MEAN, kindOf } from '../src/catalogue/catalogue.js';
import { faultList, InputError } from '../src/errors.js';
import { MID } from '../src/estimate/assumptions.js';
import { balanceOf } from '../src/estimate/balance.js';
import { type EstimatedPolars, type EstimateOptions, estimatePolars } from '../src/estimate/estimate.js';
import { forceTables } from '../src/estimate/forceTables.js';
import { forcesOf, type Model, modelOf } from '../src/estimate/model.js';
import { limitMomentNm, type PlanForces } from '../src/estimate/planForces.js';
import { resistanceN } from '../src/estimate/resistance.js';
import { gradientAt } from '../src/estimate/windFelt.js';
import type { Polar } from '../src/polar/polar.js';
import type { SailKind } from '../src/sail/sail.js';
import { apparentWind } from '../src/wind/wind.js';
import aero from './truth/aero.json' with { type: 'json' };

/** Knots in a metre a second. */
const KN = 3600 / 1852;
const RAD = Math.PI / 180;

/** A grid that is quickly estimated. */
const GRID = { twsKn: [6, 14, 24, 36], twaDeg: [0, 30, 60, 90, 115, 135, 155, 180] } as const;

const HEADSAILS: readonly SailKind[] = ['self-tacking-jib', 'overlapping-genoa', 'heavy-weather-jib', 'staysail'];
const FLYING: readonly SailKind[] = [
  'code-zero',
  'gennaker',
  'asymmetric-reaching-light',
  'asymmetric-reaching',
  'asymmetric-running',
  'symmetric-cruising',
  'vented-downwind',
];
const STORM: readonly SailKind[] = ['storm-jib', 'trysail', 'twin-headsails'];

const between = (min: number, max: number) =>
  fc.integer({ min: Math.round(min * 1000), max: Math.round(max * 1000) }).map((thousandths) => thousandths / 1000);
const sailOf = (kind: SailKind): SailGiven => ({ id: kindOf(kind).usualId, kind });
const round = (value: number, to: number) => Math.round(value / to) * to;

/** Boats of 8 to 20 m on the waterline, in the proportions of cruising boats (common practice, no source). */
const anyBoat: fc.Arbitrary<BoatFile> = fc
  .record({
    isCatamaran: fc.boolean(),
    waterlineM: between(8, 20),
    // A catamaran of 13 m weighs 7 to 18 t, a monohull of 11 m 5 to 14 t.
    ofCube: between(3.2, 8),
    more: between(1, 1.3),
    rig: fc.record({ p: between(1.0, 1.35), e: between(0.33, 0.48), i: between(0.95, 1.15), j: between(0.3, 0.42) }),
    centres: between(0.42, 0.52),
    main: fc.constantFrom<SailKind>('full-roach-main', 'square-top-main', 'pin-head-main', 'wing-sail'),
    headsail: fc.constantFrom(...HEADSAILS),
    flying: fc.uniqueArray(fc.constantFrom(...FLYING), { maxLength: 2 }),
    storm: fc.uniqueArray(fc.constantFrom(...STORM), { maxLength: 1 }),
    hasPole: fc.boolean(),
  })
  .map(({ isCatamaran, waterlineM, ofCube, more, rig, centres, main, headsail, flying, storm, hasPole }) => ({
    name: 'Any boat',
    hull: {
      type: isCatamaran ? 'catamaran' : 'monohull',
      waterlineM,
      displacementKg: round(ofCube * (isCatamaran ? 1 : more) * waterlineM ** 3, 1),
      ...(isCatamaran ? { hullCentresM: centres * waterlineM } : {}),
    },
    rig: {
      pM: rig.p * waterlineM,
      eM: rig.e * waterlineM,
      iM: rig.i * rig.p * waterlineM,
      jM: rig.j * waterlineM,
      spritM: 1,
      innerForestay: true,
      ...(hasPole ? { poleM: rig.j * waterlineM } : {}),
    },
    sails: [main, headsail, ...flying, ...storm].map(sailOf),
  }));

interface Case {
  readonly boat: Boat;
  readonly estimated: EstimatedPolars;
  readonly model: Model;
  readonly forces: ReadonlyMap<string, PlanForces>;
}

const modelFor = (boat: Boat) => modelOf(boat, boat.house?.gustFactor ?? GUST_OVER_MEAN, 'boat', faultList());

function caseOf(boat: Boat, options: EstimateOptions = GRID): Case {
  const model = modelFor(boat);
  return { boat, estimated: estimatePolars(boat, options), model, forces: forcesOf(model, MID) };
}

/** The properties come by the same boats, because they have one seed: each is estimated once. */
const estimatedOnce = (() => {
  const known = new Map<string, Case>();
  return (given: BoatFile): Case => {
    const key = JSON.stringify(given);
    const one = known.get(key) ?? caseOf(completeBoat(given));
    known.set(key, one);
    return one;
  };
})();

interface Point {
  readonly twsKn: number;
  readonly twaDeg: number;
  readonly stwKn: number;
}

const pointsOf = ({ twsKn, twaDeg, stwKn }: Polar): Point[] =>
  twaDeg.flatMap((angle, i) =>
    twsKn.map((wind, j) => ({ twsKn: wind, twaDeg: angle, stwKn: stwKn[i * twsKn.length + j]! })),
  );

/** How far drive and resistance are apart at each point with a speed, as a share; drive at rest where there is none. */
function imbalances({ boat, estimated, model, forces }: Case): string[] {
  return boat.sailPlans.flatMap(({ id }) =>
    pointsOf(estimated.plans[id]!).flatMap(({ twsKn, twaDeg, stwKn }) => {
      const { driveN, flat, eased } = forces.get(id)!(twsKn, twaDeg, stwKn);
      const where = `${id}, TWS ${twsKn}, TWA ${twaDeg}, ${stwKn} kn, flat ${flat}, eased ${eased}`;
      if (stwKn === 0) return driveN > 0 ? [`${where}: ${driveN} N at rest`] : [];
      // Slower than a hundredth of a knot there is no friction, for the ITTC line has a pole there.
      if (stwKn < 0.01) return [];
      const off = driveN / resistanceN(stwKn / KN, model.of, estimated.estimate.resistance) - 1;
      return Math.abs(off) > 0.005 ? [`${where}: off by ${off}`] : [];
    }),
  );
}

const CATAMARAN: BoatFile = {
  name: 'Catamaran',
  hull: { type: 'catamaran', waterlineM: 13.1, displacementKg: 12_400, hullCentresM: 6.1 },
  rig: { iM: 17.1, jM: 5.2, pM: 16.4, eM: 6.1, spritM: 1.2 },
  sails: (['full-roach-main', 'self-tacking-jib', 'gennaker', 'code-zero', 'vented-downwind'] as const).map(sailOf),
};
const MONOHULL: BoatFile = {
  name: 'Monohull',
  hull: { type: 'monohull', waterlineM: 10.9, displacementKg: 8900 },
  rig: { iM: 15.6, jM: 4.6, pM: 13.9, eM: 4.9, poleM: 4.7, spritM: 1, innerForestay: true },
  sails: (['pin-head-main', 'overlapping-genoa', 'gennaker', 'symmetric-cruising'] as const).map(sailOf),
};

describe('any boat', () => {
  const always = (check: (one: Case, given: BoatFile) => void, numRuns = 10) =>
    fc.assert(
      fc.property(anyBoat, (given) => {
        check(estimatedOnce(given), given);
      }),
      { numRuns },
    );

  test('every speed is a number from 0 to 60, and the bands hold it', () => {
    always(({ boat, estimated: { plans, low, high, variants, estimate } }) => {
      expect(Object.keys(plans).sort()).toEqual(boat.sailPlans.map(({ id }) => id).sort());
      for (const [id, { twsKn, twaDeg, stwKn }] of Object.entries(plans)) {
        expect([twsKn, twaDeg]).toEqual([GRID.twsKn, GRID.twaDeg]);
        expect(stwKn).toHaveLength(twsKn.length * twaDeg.length);
        stwKn.forEach((speed, i) => {
          expect(speed).toBeGreaterThanOrEqual(0);
          expect(speed).toBeLessThanOrEqual(60);
          expect(low[id]!.stwKn[i]!).toBeGreaterThanOrEqual(0);
          expect(low[id]!.stwKn[i]!).toBeLessThanOrEqual(speed);
          expect(high[id]!.stwKn[i]!).toBeGreaterThanOrEqual(speed);
          expect(high[id]!.stwKn[i]!).toBeLessThanOrEqual(60);
          for (const variant of variants) {
            const other = variant.plans[id]?.stwKn[i] ?? speed;
            expect(other).toBeGreaterThanOrEqual(low[id]!.stwKn[i]! - 1e-9);
            expect(other).toBeLessThanOrEqual(high[id]!.stwKn[i]! + 1e-9);
          }
        });
        // Into the wind there is none.
        expect(stwKn.slice(0, twsKn.length).every((speed) => speed === 0)).toBe(true);
      }
      expect(estimate.fittedTo).toBe('nothing');
      expect(estimate.pointsWithout.every(({ noEnd }) => noEnd === 0)).toBe(true);
      for (const { sailPlan, noDrive } of estimate.pointsWithout) {
        expect(noDrive).toBe(plans[sailPlan]!.stwKn.filter((speed) => speed === 0).length);
      }
    });
  });

  test('drive is resistance at every speed', () => {
    always((one) => expect(imbalances(one)).toEqual([]));
  });

  test('she heels no more than she may', () => {
    const factorAt = (flat: number) => {
      const { rows } = aero.dragByFlat;
      const upper = Math.max(
        1,
        rows.findIndex((row) => row.flat >= flat - 1e-12),
      );
      const [a, b] = [rows[upper - 1]!, rows[upper]!];
      return a.factor + ((b.factor - a.factor) * (flat - a.flat)) / (b.flat - a.flat);
    };
    const at = (table: Float64Array, awaDeg: number) => {
      const i = Math.min(179, Math.floor(awaDeg));
      return table[i]! + (awaDeg - i) * (table[i + 1]! - table[i]!);
    };
    always(({ boat, estimated, model, forces }) => {
      const { of, plans, gustFactor } = model;
      const limitNm = limitMomentNm(of);
      for (const plan of plans) {
        const areaM2 = plan.sails.reduce((sum, sail) => sum + sail.areaM2, 0);
        if (areaM2 === 0) continue;
        const effortM = plan.sails.reduce((sum, sail) => sum + sail.areaM2 * sail.centreOfEffortM, 0) / areaM2;
        const { liftM2, dragM2, ofLiftM2 } = forceTables(plan, MID, of.boomLimitDeg);
        for (const { twsKn, twaDeg, stwKn } of pointsOf(estimated.plans[plan.id]!)) {
          const { flat, eased, heelingNm, awaDeg, awsKn } = forces.get(plan.id)!(twsKn, twaDeg, stwKn);
          // Once more from coefficients, wind and height; a catamaran in the gust.
          const windKn = twsKn * gradientAt(effortM);
          expect(awaDeg).toBeCloseTo(apparentWind(windKn, twaDeg, stwKn).awaDeg, 6);
          expect(awsKn).toBeCloseTo(apparentWind(windKn, twaDeg, stwKn).awsKn, 6);
          const felt = apparentWind(windKn * (boat.hull.type === 'catamaran' ? gustFactor : 1), twaDeg, stwKn);
          const pressure = 0.5 * 1.225 * (felt.awsKn / KN) ** 2;
          // Close to the wind a sail that is eased keeps its drag.
          const kept = eased + (1 - eased) * Math.max(0, Math.cos(awaDeg * RAD));
          const lift = at(liftM2, felt.awaDeg) * flat * eased;
          const drag = at(dragM2, felt.awaDeg) * factorAt(flat) * kept + at(ofLiftM2, felt.awaDeg) * flat ** 2 * eased;
          const side = pressure * (lift * Math.cos(felt.awaDeg * RAD) + drag * Math.sin(felt.awaDeg * RAD));
          const heightM = effortM * (1 - 0.406 * (1 - flat) - 0.902 * (1 - flat) * (1 - plan.fraction));
          expect(heelingNm).toBeCloseTo(side * heightM, 0);
          // With the sheets let go there is no more to ease.
          if (eased > 0) expect(heelingNm).toBeLessThanOrEqual(limitNm * 1.001);
        }
      }
    });
  });

  test('a headsail behind a main has nothing left at 170, a spinnaker all', () => {
    always(({ boat, model }) => {
      const plan = (...sails: readonly string[]) =>
        model.plans[boat.sailPlans.findIndex((one) => one.sails.join() === sails.join())];
      for (const { sails } of boat.sailPlans) {
        if (sails.length !== 2) continue;
        const [main, other] = sails.map((text) => boat.sails.find(({ id }) => id === text.split(':')[0])!);
        const place = kindOf(other!.kind).place;
        if (main!.kind === 'trysail') continue;
        const [both, atMast, ahead] = [plan(...sails), plan(sails[0]!), plan(sails[1]!)].map(
          (one) => one && forceTables(one, MID, model.of.boomLimitDeg),
        );
        for (let awaDeg = 0; awaDeg <= 180; awaDeg += 1) {
          const added = {
            lift: both!.liftM2[awaDeg]! - atMast!.liftM2[awaDeg]!,
            drag: both!.dragM2[awaDeg]! - atMast!.dragM2[awaDeg]!,
          };
          if (place === 'flying' && other!.kind !== 'code-zero') {
            expect(added.lift).toBeCloseTo(ahead!.liftM2[awaDeg]! / MID.setWithoutMain, 6);
            expect(added.drag).toBeCloseTo(ahead!.dragM2[awaDeg]! / MID.setWithoutMain, 6);
          } else if (place === 'winged') {
            expect(added.drag).toBeCloseTo(ahead!.dragM2[awaDeg]!, 6);
          } else if (place !== 'flying') {
            if (awaDeg >= 170) expect(added).toEqual({ lift: 0, drag: 0 });
            else if (awaDeg <= 135) expect(added.drag).toBeCloseTo(ahead!.dragM2[awaDeg]!, 6);
            else expect(added.drag).toBeLessThan(ahead!.dragM2[awaDeg]!);
          }
        }
      }
    }, 8);
  });

  test('a larger sail is never slower off the wind, while there is no need to depower', () => {
    let compared = 0;
    always(({ boat, estimated, model, forces }) => {
      boat.sails.forEach((sail, i) => {
        const plan = boat.sailPlans.find(({ sails }) => sails.join() === sail.id);
        if (plan === undefined) return;
        const sails = boat.sails.map((one, k) => (k === i ? { ...one, areaM2: one.areaM2! * 1.2 } : one));
        const larger = forcesOf(modelFor({ ...boat, sails }), MID).get(plan.id)!;
        const isEasy = (of: PlanForces, { twsKn, twaDeg, stwKn }: Point) => {
          const { awaDeg, flat, eased, heelingNm } = of(twsKn, twaDeg, stwKn);
          return awaDeg >= 90 && flat === 1 && eased === 1 && heelingNm < 0.85 * limitMomentNm(model.of);
        };
        for (const point of pointsOf(estimated.plans[plan.id]!)) {
          const { resistance } = estimated.estimate;
          const { stwKn } = balanceOf(larger, model.of, resistance, point.twsKn, point.twaDeg);
          if (!isEasy(forces.get(plan.id)!, point) || !isEasy(larger, { ...point, stwKn })) continue;
          compared += 1;
          expect(stwKn, JSON.stringify([boat, plan, point])).toBeGreaterThanOrEqual(point.stwKn - 1e-6);
        }
      });
    });
    expect(compared).toBeGreaterThan(200);
  });

  test('a heavier boat is never faster, while there is no need to depower', () => {
    // Where there is, she may be: what rights her grows with her weight.
    let compared = 0;
    always(({ estimated, model, forces, boat }, given) => {
      const hull = { ...given.hull, displacementKg: given.hull.displacementKg! * 1.15 };
      const heavier = estimatePolars(completeBoat({ ...given, hull }), GRID);
      for (const { id } of boat.sailPlans) {
        pointsOf(estimated.plans[id]!).forEach(({ twsKn, twaDeg, stwKn }, i) => {
          const { heelingNm, eased } = forces.get(id)!(twsKn, twaDeg, stwKn);
          if (eased < 1 || heelingNm > 0.85 * limitMomentNm(model.of)) return;
          compared += 1;
          expect(heavier.plans[id]!.stwKn[i]!).toBeLessThanOrEqual(stwKn + 1e-6);
        });
      }
    });
    expect(compared).toBeGreaterThan(200);
  });

  test('the order of plans is nothing to the speeds', () => {
    always(({ boat, estimated }) => {
      const turned = estimatePolars({ ...boat, sailPlans: [...boat.sailPlans].reverse() }, GRID);
      expect(turned.plans).toEqual(estimated.plans);
      expect([turned.low, turned.high]).toEqual([estimated.low, estimated.high]);
    }, 6);
  });

  test('boat and estimate are plain data', () => {
    always(({ boat, estimated }) => {
      expect(structuredClone(estimated)).toEqual(estimated);
      expect(estimatePolars(structuredClone(boat), GRID)).toEqual(estimated);
      expect(JSON.parse(JSON.stringify(estimated))).toEqual(estimated);
    }, 6);
  });
});

describe('two boats in strong wind', () => {
  test.each([
    ['catamaran', CATAMARAN],
    ['monohull', MONOHULL],
  ])('drive is resistance also where the limit binds off the wind: %s', (_, given) => {
    const twsKn = Array.from({ length: 31 }, (__, i) => 25 + i / 2);
    const one = caseOf(completeBoat(given), { twsKn, twaDeg: [100, 110, 120, 125, 130, 135, 140, 150] });
    expect(imbalances(one)).toEqual([]);
  });
});

describe('a vented sail by itself', () => {
  const withMain = (given: BoatFile): Boat => {
    const boat = completeBoat({ ...given, sails: [sailOf('pin-head-main'), sailOf('vented-downwind')] });
    const areaM2 = boat.sails.find(({ kind }) => kind === 'vented-downwind')!.areaM2!;
    return {
      ...boat,
      sails: boat.sails.map((sail) => (sail.kind === 'pin-head-main' ? { ...sail, areaM2: 0.55 * areaM2 } : sail)),
    };
  };

  test('is not slower than a main of 0.55 of its area from 150 on', () => {
    let compared = 0;
    fc.assert(
      fc.property(anyBoat, (given) => {
        const boat = withMain(given);
        const { plans } = estimatePolars(boat, {
          twsKn: [6, 10, 15, 20],
          twaDeg: [150, 155, 160, 165, 170, 175, 180],
        });
        const vented = pointsOf(plans.vented!);
        pointsOf(plans.main!).forEach(({ twsKn, twaDeg, stwKn }, i) => {
          const slower = Math.min(stwKn, vented[i]!.stwKn);
          if (apparentWind(twsKn, twaDeg, slower).awaDeg < 150) return;
          compared += 1;
          expect(vented[i]!.stwKn, JSON.stringify([given, twsKn, twaDeg])).toBeGreaterThanOrEqual(stwKn);
        });
      }),
      { numRuns: 15 },
    );
    expect(compared).toBeGreaterThan(200);
  });
});

describe('boats at the ends of what a file may say', () => {
  const RIGGED = { iM: 16, jM: 5, pM: 15, eM: 6, spritM: 1, poleM: 5, innerForestay: true };
  const KINDS: readonly SailKind[] = ['pin-head-main', 'overlapping-genoa', 'code-zero', 'vented-downwind', 'trysail'];
  const boatOf = (more: Partial<BoatFile> = {}, areaM2?: number): BoatFile => ({
    name: 'Extreme boat',
    hull: { type: 'catamaran', waterlineM: 12, displacementKg: 10_000, hullCentresM: 6 },
    rig: RIGGED,
    sails: KINDS.map(sailOf).map((sail) => (areaM2 === undefined ? sail : { ...sail, areaM2 })),
    ...more,
  });
  const hull = (more: Partial<BoatFile['hull']>): Partial<BoatFile> => ({ hull: { ...boatOf().hull, ...more } });
  const { hullCentresM: _, ...oneHull } = boatOf().hull;
  const monohull = (more: Partial<BoatFile['hull']> = {}): Partial<BoatFile> => ({
    hull: { ...oneHull, type: 'monohull', ...more },
  });
  const rig = (more: NonNullable<BoatFile['rig']>): Partial<BoatFile> => ({ rig: { ...RIGGED, ...more } });

  /** Every number of a value, however deep. */
  function numbersOf(value: unknown): number[] {
    if (typeof value === 'number') return [value];
    return typeof value === 'object' && value !== null ? Object.values(value).flatMap(numbersOf) : [];
  }

  function expectSound(
    given: BoatFile,
    options: EstimateOptions = { twsKn: [0, 2, 12, 40, 200], twaDeg: [0, 40, 90, 135, 180] },
  ) {
    try {
      const estimated = estimatePolars(completeBoat(given), options);
      expect(numbersOf(estimated).filter((value) => !Number.isFinite(value))).toEqual([]);
      for (const { stwKn } of Object.values(estimated.plans)) {
        expect(Math.min(...stwKn)).toBeGreaterThanOrEqual(0);
        expect(Math.max(...stwKn)).toBeLessThanOrEqual(60);
      }
      expect(estimated.basis.join('\n')).not.toMatch(/NaN|undefined|Infinity|\[object/);
      return estimated;
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      expect(error.message).not.toMatch(/undefined|\[object/);
      return undefined;
    }
  }

  const EXTREMES: Readonly<Record<string, readonly [more: Partial<BoatFile>, areaM2?: number]>> = {
    'shortest waterline': [hull({ waterlineM: 3 })],
    'longest waterline': [hull({ waterlineM: 100 })],
    lightest: [hull({ displacementKg: 200 })],
    heaviest: [hull({ displacementKg: 1_000_000 })],
    'heaviest and shortest': [hull({ displacementKg: 1_000_000, waterlineM: 3 })],
    'lightest and longest': [hull({ displacementKg: 200, waterlineM: 100 })],
    'hulls closest': [hull({ hullCentresM: 1, stabilityShare: 0.05 })],
    'hulls widest': [hull({ hullCentresM: 30, stabilityShare: 1 })],
    'lowest freeboard': [hull({ freeboardM: 0.2, lengthM: 3, beamM: 0.5 })],
    'highest freeboard': [hull({ freeboardM: 10, lengthM: 120, beamM: 50 })],
    'least wetted': [hull({ wettedAreaM2: 1 })],
    'most wetted': [hull({ wettedAreaM2: 3000 })],
    'a tender monohull': [monohull({ metacentricHeightM: 0.2, heelLimitDeg: 5 })],
    'a stiff monohull': [monohull({ metacentricHeightM: 10, heelLimitDeg: 45 })],
    'smallest rig': [rig({ iM: 1, jM: 0.5, pM: 1, eM: 0.5, ispM: 1, boomHeightM: 0 }), 10],
    'largest rig': [rig({ iM: 100, jM: 50, pM: 100, eM: 50, ispM: 100, boomHeightM: 10 }), 10],
    'high main, low stay': [rig({ iM: 1, pM: 100 }), 10],
    'low main, high stay': [rig({ iM: 100, pM: 1 }), 10],
    'boom hardly off': [rig({ boomLimitDeg: 40 })],
    'boom square off': [rig({ boomLimitDeg: 90 })],
    'smallest sails': [{}, 0.5],
    'largest sails': [{}, 2000],
    'largest sails, lightest boat': [hull({ displacementKg: 200, hullCentresM: 30, stabilityShare: 1 }), 2000],
    'largest sails on a tender monohull': [monohull({ metacentricHeightM: 0.2, heelLimitDeg: 5 }), 2000],
    'most leeway': [
      {
        leeway: [
          [0, 20],
          [180, 20],
        ],
      },
    ],
    'one leeway': [{ leeway: [[90, 0]] }],
    'no gusts': [{ house: { gustFactor: 1 } }],
    'strongest gusts': [{ house: { gustFactor: 3 } }],
    'slow in a gale': [{ knownSpeeds: [{ twsKn: 60, twaDeg: 90, stwKn: 0.5, sailPlan: 'main' }] }],
    'fast in a calm': [{ knownSpeeds: [{ twsKn: 2, twaDeg: 90, stwKn: 40 }] }],
    'known close to the wind': [{ knownSpeeds: [{ twsKn: 10, twaDeg: 20, stwKn: 0.5, sailPlan: 'main+genoa' }] }],
    'known twice and not the same': [
      {
        knownSpeeds: [
          { twsKn: 10, twaDeg: 90, stwKn: 2, sailPlan: 'main' },
          { twsKn: 10, twaDeg: 90, stwKn: 7, sailPlan: 'main' },
        ],
      },
    ],
    'known to go slower in more wind': [
      {
        knownSpeeds: [
          { twsKn: 5, twaDeg: 90, stwKn: 5, sailPlan: 'main' },
          { twsKn: 10, twaDeg: 90, stwKn: 3, sailPlan: 'main' },
          { twsKn: 20, twaDeg: 90, stwKn: 1, sailPlan: 'main' },
        ],
      },
    ],
    'bare poles alone': [{ sailPlans: [{ id: 'bare-poles', sails: [] }] }],
  };

  test.each(Object.entries(EXTREMES))('%s', (_, [more, areaM2]) => {
    expectSound(boatOf(more, areaM2));
  });

  const POLARS: Readonly<Record<string, Polar>> = {
    'one wind, two angles': { twsKn: [10], twaDeg: [0, 180], stwKn: [0, 5] },
    'nothing but zeros': { twsKn: [5, 10], twaDeg: [60, 120], stwKn: [0, 0, 0, 0] },
    'a row of no wind': { twsKn: [0, 5, 10], twaDeg: [60, 120], stwKn: [0, 3, 5, 0, 3, 5] },
    'slow everywhere': { twsKn: [5, 30], twaDeg: [60, 120], stwKn: [1, 1, 1, 1] },
    'faster than sails drive': { twsKn: [5, 10], twaDeg: [60, 120], stwKn: [90, 90, 90, 90] },
    'a storm': { twsKn: [100, 200], twaDeg: [40, 180], stwKn: [5, 5, 20, 20] },
    'wind at a mast of 60 m': { twsKn: [5, 10], twaDeg: [60, 120], stwKn: [3, 5, 3, 5], windHeightM: 60 },
    'wind at 1 m': { twsKn: [5, 10], twaDeg: [60, 120], stwKn: [3, 5, 3, 5], windHeightM: 1 },
    'fast close to the wind': { twsKn: [8, 16], twaDeg: [25, 30, 90], stwKn: [6, 9, 6, 9, 7, 10] },
    'no list of winds': { twsKn: [], twaDeg: [60, 120], stwKn: [] },
    'falling angles': { twsKn: [5], twaDeg: [120, 60], stwKn: [3, 5] },
    'no numbers': { twsKn: [Number.NaN], twaDeg: [60, 120], stwKn: [3, 5] },
  };

  test.each(Object.entries(POLARS))('a polar of the boat: %s', (_, boatPolar) => {
    expectSound(boatOf(), { boatPolar });
  });

  test('every end of every range at once, either way', () => {
    const ends: readonly (readonly [string, readonly [number, number]])[] = [
      ['waterlineM', [3, 100]],
      ['displacementKg', [200, 1_000_000]],
      ['hullCentresM', [1, 30]],
      ['freeboardM', [0.2, 10]],
      ['wettedAreaM2', [1, 3000]],
      ['stabilityShare', [0.05, 1]],
    ];
    const ofRig: readonly (readonly [string, readonly [number, number]])[] = [
      ['iM', [1, 100]],
      ['jM', [0.5, 50]],
      ['pM', [1, 100]],
      ['eM', [0.5, 50]],
      ['boomHeightM', [0, 10]],
      ['boomLimitDeg', [40, 90]],
    ];
    const ended = (list: typeof ends, bits: number) =>
      Object.fromEntries(list.map(([key, [low, high]], i) => [key, (bits >> i) & 1 ? high : low]));
    fc.assert(
      fc.property(
        fc.nat(63),
        fc.nat(63),
        fc.constantFrom(0.5, 40, 2000),
        fc.boolean(),
        (ofHull, bits, areaM2, isMonohull) => {
          const { hullCentresM, stabilityShare, ...more } = ended(ends, ofHull);
          const given = isMonohull
            ? monohull(more)
            : hull({ ...more, hullCentresM: hullCentresM!, stabilityShare: stabilityShare! });
          expectSound(boatOf({ ...given, ...rig(ended(ofRig, bits)) }, areaM2), {
            twsKn: [3, 40],
            twaDeg: [25, 90, 180],
          });
        },
      ),
      { numRuns: 20 },
    );
  });

  test('winds and angles that are none are told as faults', () => {
    for (const options of [
      { twsKn: [Number.NaN] },
      { twsKn: [] },
      { twsKn: [-5, 5] },
      { twsKn: [10, 5] },
      { twaDeg: [] },
      { twaDeg: [-40, 40] },
      { twaDeg: [90, 200] },
      { twaDeg: [90, 60] },
    ]) {
      expect(() => estimatePolars(completeBoat(CATAMARAN), options), JSON.stringify(options)).toThrow(InputError);
    }
  });
});
