import { describe, expect, test } from 'vitest';
import {
  type Boat,
  type BoatFile,
  completeBoat,
  type KnownSpeed,
  type SailGiven,
  settingOf,
} from '../src/boat/boat.js';
import { GUST_OVER_MEAN, kindOf } from '../src/catalogue/catalogue.js';
import { faultList, InputError } from '../src/errors.js';
import { MID, SCENARIOS } from '../src/estimate/assumptions.js';
import {
  type EstimatedPolars,
  type EstimateOptions,
  estimatePolars,
  type Resistance,
} from '../src/estimate/estimate.js';
import { fittedBy } from '../src/estimate/fit.js';
import { forcesOf, modelOf } from '../src/estimate/model.js';
import { resistanceN } from '../src/estimate/resistance.js';
import type { Polar } from '../src/polar/polar.js';
import { type SailKind, windowBreach } from '../src/sail/sail.js';
import { apparentWind } from '../src/wind/wind.js';
import { faultsOf } from './support/faults.js';
import windHeight from './truth/windHeight.json' with { type: 'json' };

const KN = 3600 / 1852;

const sail = (kind: SailKind, more: Partial<SailGiven> = {}): SailGiven => ({
  id: kindOf(kind).usualId,
  kind,
  ...more,
});

const CATAMARAN: BoatFile = {
  name: 'Catamaran',
  hull: { type: 'catamaran', waterlineM: 12.9, displacementKg: 12_600, hullCentresM: 5.9 },
  rig: { iM: 17.1, jM: 5.2, pM: 16.4, eM: 6.1, spritM: 1.2 },
  sails: [
    sail('full-roach-main'),
    sail('self-tacking-jib'),
    sail('code-zero'),
    sail('gennaker'),
    sail('vented-downwind'),
  ],
};
const { hullCentresM: _, ...ONE_HULL } = CATAMARAN.hull;
const MONOHULL: BoatFile = {
  name: 'Monohull',
  hull: { ...ONE_HULL, type: 'monohull', waterlineM: 10.9, displacementKg: 8900 },
  rig: { iM: 15.6, jM: 4.6, pM: 13.9, eM: 4.9, poleM: 4.7, spritM: 1 },
  sails: [sail('pin-head-main'), sail('overlapping-genoa'), sail('gennaker'), sail('symmetric-cruising')],
};
const BOATS = [
  ['catamaran', CATAMARAN, 'main+jib'],
  ['monohull', MONOHULL, 'main+genoa'],
] as const;

const GRID = { twsKn: [6, 10, 16, 24], twaDeg: [45, 90, 120, 150, 180] } as const;
const knowing = (given: BoatFile, ...knownSpeeds: readonly KnownSpeed[]): Boat =>
  completeBoat({ ...given, knownSpeeds });
const modelFor = (boat: Boat) => modelOf(boat, GUST_OVER_MEAN, 'boat', faultList());

/** Whether the windows of the sails of a plan are kept at a speed, the gust being 1.3 times the mean. */
function mayCarry(boat: Boat, sails: readonly string[], twsKn: number, twaDeg: number, stwKn: number): boolean {
  const gustTwsKn = twsKn * GUST_OVER_MEAN;
  const gustAwsKn = apparentWind(gustTwsKn, twaDeg, stwKn).awsKn;
  const felt = { ...apparentWind(twsKn, twaDeg, stwKn), gustTwsKn, gustAwsKn };
  return sails.every((text) => windowBreach(settingOf(boat, text)!.window, felt) === undefined);
}

/** The estimate of a boat whose hull is known. */
const ofHull = (boat: Boat, resistance: Resistance, options: EstimateOptions): EstimatedPolars =>
  estimatePolars(boat, { ...options, hullOf: { resistance, variantResistances: SCENARIOS.map(() => resistance) } });

const speedAt = ({ twsKn, twaDeg, stwKn }: Polar, wind: number, angle: number) =>
  stwKn[twaDeg.indexOf(angle) * twsKn.length + twsKn.indexOf(wind)]!;

describe('a known speed', () => {
  test.each(BOATS)('of a %s is met and leaves the shape of the resistance', (_, given, sailPlan) => {
    const unknown = estimatePolars(completeBoat(given), GRID);
    for (const stwKn of [5.5, 6.5, 8.5]) {
      const { plans, estimate } = estimatePolars(knowing(given, { sailPlan, twsKn: 16, twaDeg: 90, stwKn }), GRID);
      expect(speedAt(plans[sailPlan]!, 16, 90)).toBeCloseTo(stwKn, 2);
      expect(estimate).toMatchObject({ fittedTo: 'scale', knownSpeeds: [{ sailPlan, stwKn }] });
      expect(Math.abs(estimate.knownSpeeds[0]!.misfitPercent)).toBeLessThan(0.1);
      const { waveShare, waveExponent } = unknown.estimate.resistance;
      expect(estimate.resistance).toMatchObject({ waveShare, waveExponent });
      // In every variant as well, so that the bands have no width there.
      expect(estimate.variantResistances).toHaveLength(SCENARIOS.length);
      estimate.variantResistances.forEach((hull, i) => {
        expect(hull).toMatchObject({ waveShare, waveExponent: SCENARIOS[i]!.assumed.waveExponent });
      });
    }
  });

  test.each(BOATS)('of a %s has the least band about it', (_, given, sailPlan) => {
    const { low, high } = estimatePolars(knowing(given, { sailPlan, twsKn: 16, twaDeg: 90, stwKn: 7.5 }), GRID);
    // No assumption moves it; 7 % is told of any.
    expect(speedAt(low[sailPlan]!, 16, 90)).toBeCloseTo(7.5 * 0.93, 2);
    expect(speedAt(high[sailPlan]!, 16, 90)).toBeCloseTo(7.5 * 1.07, 2);
  });

  test('faster is less resistance', () => {
    const scaleOf = (stwKn: number) =>
      estimatePolars(knowing(CATAMARAN, { sailPlan: 'main+jib', twsKn: 14, twaDeg: 90, stwKn }), GRID).estimate
        .resistance.scale;
    expect(scaleOf(6)).toBeGreaterThan(scaleOf(7));
    expect(scaleOf(7)).toBeGreaterThan(scaleOf(9));
  });

  test('two that contradict each other are met between them', () => {
    const known = [6, 8].map((stwKn) => ({ sailPlan: 'main+jib', twsKn: 14, twaDeg: 90, stwKn }));
    const { estimate } = estimatePolars(knowing(CATAMARAN, ...known), GRID);
    const [slow, fast] = estimate.knownSpeeds;
    expect(slow!.estimatedKn).toBe(fast!.estimatedKn);
    expect(slow!.misfitPercent).toBeGreaterThan(1);
    expect(fast!.misfitPercent).toBeLessThan(-1);
  });

  test('of no plan is taken to be under the one of most drive that may be carried', () => {
    const boat = knowing(CATAMARAN, { twsKn: 12, twaDeg: 110, stwKn: 8 });
    const { estimate } = estimatePolars(boat, { twsKn: [12], twaDeg: [110, 120] });
    const { sailPlan, estimatedKn } = estimate.knownSpeeds[0]!;
    expect(estimatedKn).toBeCloseTo(8, 2);
    const model = modelFor(boat);
    const may = boat.sailPlans.filter(({ sails }) => mayCarry(boat, sails, 12, 110, 8)).map(({ id }) => id);
    expect(may).toContain(sailPlan);
    expect(may.length).toBeLessThan(boat.sailPlans.length);
    const drives = may.map((id) => forcesOf(model, MID).get(id)!(12, 110, 8).driveN);
    expect(forcesOf(model, MID).get(sailPlan)!(12, 110, 8).driveN).toBe(Math.max(...drives));
  });

  test('beyond what her sails drive is a fault', () => {
    const known = [
      { sailPlan: 'main+jib', twsKn: 14, twaDeg: 90, stwKn: 8 },
      { sailPlan: 'main', twsKn: 8, twaDeg: 40, stwKn: 30 },
      { twsKn: 10, twaDeg: 180, stwKn: 20 },
    ];
    expect(faultsOf(() => estimatePolars(knowing(CATAMARAN, ...known), { ...GRID, file: 'mine.json' }))).toEqual([
      expect.stringMatching(/^mine\.json, knownSpeeds\[1\]\.stwKn: expected .*"main"/),
      expect.stringMatching(/^mine\.json, knownSpeeds\[2\]\.stwKn: /),
    ]);
  });
});

describe('known speeds of several strengths of wind', () => {
  test('so many fix so much', () => {
    expect([0, 1, 2, 3, 7].map(fittedBy)).toEqual([
      'nothing',
      'scale',
      'scale and waves',
      'scale, waves and exponent',
      'scale, waves and exponent',
    ]);
    const fittedTo = (...winds: readonly number[]) =>
      estimatePolars(
        knowing(CATAMARAN, ...winds.map((twsKn) => ({ sailPlan: 'main', twsKn, twaDeg: 90, stwKn: twsKn / 3 }))),
        { twsKn: [10], twaDeg: [90, 120] },
      ).estimate.fittedTo;
    expect(fittedTo(10)).toBe('scale');
    expect(fittedTo(10, 12.4)).toBe('scale');
    expect(fittedTo(12.5, 10)).toBe('scale and waves');
    // 10 and 12 are one strength, and so are 12 and 14; from 10 on 14 is another.
    expect(fittedTo(14, 12, 10)).toBe('scale and waves');
    expect(fittedTo(8, 10, 12.5)).toBe('scale, waves and exponent');
  });

  const points = (winds: readonly number[]) =>
    winds.flatMap((twsKn) => [60, 90, 130].map((twaDeg) => ({ twsKn, twaDeg })));

  /** Speeds that a boat of another hull makes are known; how far the estimate misses her speeds anywhere between, percent. */
  function worstMiss(given: BoatFile, sailPlan: string, hull: Resistance, winds: readonly number[], fittedTo: string) {
    const boat = completeBoat(given);
    const grid = { twsKn: [7, 10, 14, 20], twaDeg: [60, 90, 110, 130] };
    const truth = ofHull(boat, hull, grid).plans[sailPlan]!;
    const known = points(winds).map((point) => ({
      ...point,
      sailPlan,
      stwKn: speedAt(
        ofHull(boat, hull, { twsKn: [point.twsKn], twaDeg: [point.twaDeg, 180] }).plans[sailPlan]!,
        point.twsKn,
        point.twaDeg,
      ),
    }));
    const { plans, estimate } = estimatePolars(knowing(given, ...known), grid);
    expect(estimate.fittedTo).toBe(fittedTo);
    const misses = plans[sailPlan]!.stwKn.map((speed, i) => 100 * Math.abs(speed / truth.stwKn[i]! - 1));
    return Math.max(...misses, ...estimate.knownSpeeds.map(({ misfitPercent }) => Math.abs(misfitPercent)));
  }

  test.each(BOATS)('two give back the speeds of a %s of another share of waves', (_, given, sailPlan) => {
    const { waveShare } = estimatePolars(completeBoat(given), GRID).estimate.resistance;
    for (const [scale, factor] of [
      [0.8, 2.2],
      [1.3, 0.4],
    ] as const) {
      const hull = { scale, waveShare: factor * waveShare, waveExponent: 5 };
      expect(worstMiss(given, sailPlan, hull, [7, 16], 'scale and waves')).toBeLessThan(2);
    }
  });

  test.each(BOATS)('three give back the speeds of a %s of another exponent too', (_, given, sailPlan) => {
    const { waveShare } = estimatePolars(completeBoat(given), GRID).estimate.resistance;
    for (const [scale, factor, waveExponent] of [
      [0.9, 1.8, 3.4],
      [1.2, 0.6, 7],
    ] as const) {
      const hull = { scale, waveShare: factor * waveShare, waveExponent };
      expect(worstMiss(given, sailPlan, hull, [6, 11, 20], 'scale, waves and exponent')).toBeLessThan(2);
    }
  });
});

describe('one polar for the whole boat', () => {
  const OPEN = { awaMinDeg: 0, awaMaxDeg: 180, awsMinKn: null, awsMaxKn: null, twsMaxKn: null };
  const winds = [5, 8, 12, 18, 25];
  const angles = [40, 60, 90, 120, 150, 180];

  /** Without windows every plan may be carried everywhere. */
  function openBoat(given: BoatFile): Boat {
    const boat = completeBoat({ ...given, sails: given.sails.map((one) => ({ ...one, window: OPEN, reefs: [] })) });
    return { ...boat, sails: boat.sails.map((one) => ({ ...one, window: OPEN })) };
  }

  /** The fastest of all plans everywhere. */
  const envelopeOf = ({ plans }: EstimatedPolars): Polar => ({
    twsKn: winds,
    twaDeg: angles,
    stwKn: angles.flatMap((_, i) =>
      winds.map((__, j) => Math.max(...Object.values(plans).map(({ stwKn }) => stwKn[i * winds.length + j]!))),
    ),
  });

  test.each(BOATS)('of a %s that is the estimate itself comes back', (_, given) => {
    const open = openBoat(given);
    const plain = estimatePolars(open, { twsKn: winds, twaDeg: angles });
    const split = estimatePolars(open, { boatPolar: envelopeOf(plain) });
    expect(split.estimate.fittedTo).toBe('scale, waves and exponent');
    expect(split.estimate.misfit!.meanPercent).toBeLessThan(0.01);
    expect(Math.abs(split.estimate.misfit!.worstPercent)).toBeLessThan(0.1);
    for (const [id, { twsKn, twaDeg, stwKn }] of Object.entries(split.plans)) {
      expect([twsKn, twaDeg]).toEqual([winds, angles]);
      stwKn.forEach((speed, i) => {
        expect(speed).toBeCloseTo(plain.plans[id]!.stwKn[i]!, 3);
      });
    }
  });

  /** A polar such as a designer might give: no estimate of ours. */
  const polarOf = (more: Partial<Polar> = {}): Polar => ({
    twsKn: winds,
    twaDeg: angles,
    stwKn: angles.flatMap((angle) =>
      winds.map((wind) => 9 * (1 - Math.exp(-wind / 9)) * (0.55 + 0.45 * Math.sin(((angle - 5) * Math.PI) / 200))),
    ),
    ...more,
  });

  test.each(BOATS)('of a %s is what the best plan makes that may be carried', (_, given) => {
    const boat = completeBoat(given);
    const boatPolar = polarOf();
    const { plans, low, high, estimate, basis } = estimatePolars(boat, { boatPolar });
    expect(estimate.misfit!.points).toBe(boatPolar.stwKn.length);
    const unsplit = estimatePolars(boat, { hullOf: estimate, twsKn: winds, twaDeg: angles }).plans;
    angles.forEach((angle, i) => {
      winds.forEach((wind, j) => {
        const at = i * winds.length + j;
        const shares = boat.sailPlans.flatMap(({ id }) => {
          const [own, before] = [plans[id]!.stwKn[at]!, unsplit[id]!.stwKn[at]!];
          expect(low[id]!.stwKn[at]!).toBeLessThanOrEqual(own);
          expect(high[id]!.stwKn[at]!).toBeGreaterThanOrEqual(own);
          expect(own).toBeLessThanOrEqual(boatPolar.stwKn[at]! + 1e-9);
          // A plan that is held at the polar is moved by less.
          return before === 0 || own > boatPolar.stwKn[at]! - 1e-9 ? [] : [own / before];
        });
        // Every plan is moved by as much.
        if (shares.length > 0) expect(Math.max(...shares) / Math.min(...shares)).toBeCloseTo(1, 9);
        // Close-hauled a polar knows nothing of windows: those of her mains may be shut where it has her sail.
        if (angle < 60) return;
        const may = boat.sailPlans.filter(({ id, sails }) =>
          mayCarry(boat, sails, wind, angle, unsplit[id]!.stwKn[at]!),
        );
        expect(Math.max(...may.map(({ id }) => plans[id]!.stwKn[at]!)), `TWS ${wind}, TWA ${angle}`).toBeCloseTo(
          boatPolar.stwKn[at]!,
          6,
        );
      });
    });
    expect(basis.join('\n')).toMatch(/one polar of the boat/);
  });

  test('its fit is the least squares of resistance over drive: no other share or exponent on a grid is nearer', () => {
    const boat = openBoat(CATAMARAN);
    const boatPolar = polarOf();
    const model = modelFor(boat);
    const forces = forcesOf(model, MID);
    const { resistance } = estimatePolars(boat, { boatPolar }).estimate;
    const points = angles.flatMap((twaDeg, i) =>
      winds.map((twsKn, j) => ({ twsKn, twaDeg, stwKn: boatPolar.stwKn[i * winds.length + j]! })),
    );
    const drives = points
      .filter(({ stwKn }) => stwKn >= 1)
      .map(({ twsKn, twaDeg, stwKn }) => ({
        stwKn,
        driveN: Math.max(...[...forces.values()].map((of) => of(twsKn, twaDeg, stwKn).driveN)),
      }))
      .filter(({ driveN }) => driveN > 0);
    const offOf = (hull: Resistance) =>
      drives.reduce(
        (sum, { stwKn, driveN }) => sum + Math.log(driveN / resistanceN(stwKn / KN, model.of, hull)) ** 2,
        0,
      );
    const own = offOf(resistance);
    for (const scale of [0.97, 1, 1.03]) {
      for (const share of [0.8, 1, 1.25]) {
        for (const more of [-0.3, 0, 0.3]) {
          const waveExponent = resistance.waveExponent + more;
          if (waveExponent < 3 || waveExponent > 8) continue;
          const other = { scale: scale * resistance.scale, waveShare: share * resistance.waveShare, waveExponent };
          expect(offOf(other), JSON.stringify(other)).toBeGreaterThanOrEqual(own - 1e-6);
        }
      }
    }
  });

  test('whose wind stands at another height is brought to 10 m', () => {
    const boat = completeBoat(CATAMARAN);
    const { factor, heightM } = windHeight.powerLaw.rows.find((row) => row.heightM === 20)!;
    const { plans } = estimatePolars(boat, { boatPolar: polarOf({ windHeightM: heightM }) });
    const there = estimatePolars(boat, { boatPolar: polarOf({ twsKn: winds.map((wind) => wind / factor!) }) });
    for (const [id, { twsKn, stwKn, windHeightM }] of Object.entries(plans)) {
      expect(windHeightM).toBeUndefined();
      twsKn.forEach((wind, j) => {
        expect(wind).toBeCloseTo(winds[j]! / factor!, 4);
      });
      stwKn.forEach((speed, i) => {
        expect(speed).toBeCloseTo(there.plans[id]!.stwKn[i]!, 2);
      });
    }
  });

  test('that counts its angles from the heading is refused, and so is one that is no table', () => {
    const boat = completeBoat(CATAMARAN);
    expect(faultsOf(() => estimatePolars(boat, { boatPolar: polarOf({ twaReference: 'heading' }) }))).toEqual([
      expect.stringMatching(/^boat, boatPolar: expected angles to the course, got angles to the heading/),
    ]);
    const broken = polarOf({ twsKn: [10, 5, 12, 18, 25], stwKn: [1, 2] });
    expect(faultsOf(() => estimatePolars(boat, { boatPolar: broken })).map((text) => text.split(':')[0])).toEqual([
      'boat, boatPolar.twsKn',
      'boat, boatPolar.stwKn',
    ]);
  });

  test('beyond what any of her sails drive is a fault', () => {
    const boat = completeBoat(CATAMARAN);
    const boatPolar = polarOf({ stwKn: polarOf().stwKn.map(() => 80) });
    expect(faultsOf(() => estimatePolars(boat, { boatPolar }))).toEqual([expect.stringMatching(/^boat, boatPolar: /)]);
  });

  test('makes no plan twice as fast as the boat', () => {
    // Her own estimate, the fastest of all plans everywhere, as a designer gives it: full sail in winds in which her windows are shut.
    const boat = completeBoat(CATAMARAN);
    const grid = { twsKn: [6, 12, 20, 30, 40], twaDeg: [36, 40, 60, 90, 135, 180] };
    const plain = estimatePolars(boat, grid);
    const stwKn = plain.plans.main!.stwKn.map((_, i) =>
      Math.max(...Object.values(plain.plans).map((polar) => polar.stwKn[i]!)),
    );
    const { plans, estimate } = estimatePolars(boat, { boatPolar: { ...grid, stwKn } });
    const tooFast = Object.entries(plans).flatMap(([id, polar]) =>
      polar.stwKn.flatMap((speed, i) =>
        speed > 2 * stwKn[i]!
          ? [`${id}, TWS ${grid.twsKn[i % 5]}, TWA ${grid.twaDeg[Math.floor(i / 5)]}: ${speed} of ${stwKn[i]} kn`]
          : [],
      ),
    );
    expect(tooFast).toEqual([]);
    // She is not thought to be under bare poles where her mains' windows are shut.
    expect(estimate.misfit!.worstPercent).toBeGreaterThan(-50);
  });

  test('of which one wind alone says something fixes the scale alone', () => {
    const boat = completeBoat(CATAMARAN);
    // In the two light winds the polar has nothing: there is one strength of wind to fit.
    const boatPolar: Polar = {
      twsKn: [0, 2, 4, 12],
      twaDeg: [60, 90, 120],
      stwKn: [0, 0, 0, 7, 0, 0, 0, 8, 0, 0, 0, 7.5],
    };
    expect(estimatePolars(boat, { boatPolar }).estimate.fittedTo).toBe('scale');
  });
});

describe('the hull of another estimate', () => {
  test('is taken as it is, known speeds or none', () => {
    const known = { sailPlan: 'main+jib', twsKn: 14, twaDeg: 90, stwKn: 8 };
    const { estimate, plans } = estimatePolars(knowing(CATAMARAN, known), GRID);
    const other = completeBoat({ ...CATAMARAN, sails: [...CATAMARAN.sails, sail('asymmetric-reaching')] });
    const of = estimatePolars(other, { ...GRID, hullOf: estimate });
    expect(of.estimate.resistance).toEqual(estimate.resistance);
    expect(of.estimate.variantResistances).toEqual(estimate.variantResistances);
    for (const [id, polar] of Object.entries(plans)) expect(of.plans[id]).toEqual(polar);
  });
});

describe('what an estimate cannot do without', () => {
  const pathsOf = (boat: Boat) => {
    try {
      estimatePolars(boat, GRID);
      return [];
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      return error.faults.map(({ path }) => path);
    }
  };

  test('is told all at once', () => {
    const boat = completeBoat({
      name: 'Bare',
      hull: { type: 'catamaran' },
      sails: [
        sail('full-roach-main'),
        sail('self-tacking-jib', { areaM2: 40 }),
        sail('gennaker'),
        sail('trysail', { areaM2: 9 }),
      ],
    });
    expect(pathsOf(boat).sort()).toEqual([
      'hull.displacementKg',
      'hull.hullCentresM',
      'hull.waterlineM',
      'rig.iM',
      'rig.pM',
      'sails[0].areaM2',
      'sails[2].areaM2',
      // The jib held out to windward has the area of its cloth, and none is missing.
    ]);
  });

  test('is less for a monohull, and for sails that no plan sets', () => {
    const boat = completeBoat({
      name: 'Bare',
      hull: { type: 'monohull', waterlineM: 11, displacementKg: 8000 },
      rig: { iM: 15 },
      sails: [sail('full-roach-main'), sail('self-tacking-jib', { areaM2: 30 })],
      sailPlans: [{ id: 'jib', sails: ['jib'] }],
    });
    expect(pathsOf(boat)).toEqual([]);
  });

  test('of a rig with a hoist of its own for spinnakers is no I', () => {
    const boat = completeBoat({
      name: 'Bare',
      hull: { type: 'monohull', waterlineM: 11, displacementKg: 8000 },
      rig: { ispM: 15 },
      sails: [sail('gennaker', { areaM2: 90 })],
    });
    expect(pathsOf(boat)).toEqual([]);
  });

  test('what is filled in is told, what is given is not', () => {
    const { estimate } = estimatePolars(completeBoat(CATAMARAN), GRID);
    expect(estimate.filledIn).toMatchObject({
      'hull.lengthM': { status: 'placeholder' },
      'hull.freeboardM': { status: 'placeholder' },
      'rig.boomLimitDeg': { value: 70, status: 'placeholder' },
      waveShare: { status: 'placeholder' },
      edition: { value: 2023, status: 'source', source: 'S1' },
    });
    expect(estimate.filledIn).not.toHaveProperty(['hull.metacentricHeightM']);
    const given = completeBoat({ ...CATAMARAN, hull: { ...CATAMARAN.hull, freeboardM: 1.4 }, leeway: [[0, 5]] });
    const more = estimatePolars(given, GRID).estimate.filledIn;
    expect(Object.keys(more).sort()).toEqual(
      Object.keys(estimate.filledIn)
        .filter((path) => path !== 'hull.freeboardM' && path !== 'leeway')
        .sort(),
    );
  });
});
