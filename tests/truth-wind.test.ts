import { describe, expect, test } from 'vitest';
import { apparentWind, DEFAULT_HOUSE, type Forecast, type VelocityKn, type Weather, weatherAt } from '../src/index.js';
import { sailAlong } from '../src/sailing/along.js';
import { type Conditions, conditionsAt } from '../src/sailing/conditions.js';
import { planSpeed } from '../src/speed/planSpeed.js';
import type { SailablePlan } from '../src/speed/speed.js';
import { KN_PER_MPS, wrap180, wrap360, wrapLon } from '../src/units.js';
import {
  flowTowards,
  fromDirectionOf,
  limitGust,
  sailingWind,
  speedOf,
  towardsDirectionOf,
  windFrom,
} from '../src/wind/wind.js';
import circular from './truth/circular.json' with { type: 'json' };
import current from './truth/current.json' with { type: 'json' };
import { expectNear, expectNearDeg, fixture } from './truth/fixture.js';
import gust from './truth/gust.json' with { type: 'json' };
import wind from './truth/wind.json' with { type: 'json' };

const winds = fixture('wind.json', wind);
const gusts = fixture('gust.json', gust);
const currents = fixture('current.json', current);
const means = fixture('circular.json', circular);

const HOUSE = { ...DEFAULT_HOUSE, skipperFactor: 1 };

describe('apparent wind', () => {
  winds.each('coaps', 'from true wind and way over the ground', (row, { tolerance }) => {
    const felt = apparentWind(row.trueSpeed, row.trueFromDeg - row.courseDeg, row.groundSpeed);
    expectNear(felt.awsKn, row.apparentSpeed, tolerance.speed, 'speed');
    const vector = sailingWind(windFrom(row.trueSpeed, row.trueFromDeg), flowTowards(row.groundSpeed, row.courseDeg));
    expectNear(speedOf(vector), row.apparentSpeed, tolerance.speed, 'speed of the vector');
    if (row.noDirection !== undefined) return expect(felt.awaDeg).toBe(0);
    // Angles come off the course made good; turned by drift angle they come off the bow.
    const offBowDeg = felt.awaDeg + row.courseDeg - row.headingDeg;
    expectNearDeg(offBowDeg, row.apparentOffBowDeg, tolerance.deg, 'off the bow');
    expectNearDeg(offBowDeg + row.headingDeg, row.apparentFromDeg, tolerance.deg, 'from true north');
    expectNearDeg(fromDirectionOf(vector), row.apparentFromDeg, tolerance.deg, 'direction of the vector');
  });

  winds.each('printed', 'printed answer', (row) => {
    const felt = apparentWind(row.twsKn, row.twdDeg - row.headingDeg, row.stwKn);
    expectNear(felt.awsKn, row.awsKn, row.tolerance.awsKn, 'AWS');
    expectNearDeg(felt.awaDeg, row.awaDeg, row.tolerance.awaDeg, 'AWA');
  });

  winds.each('computed', 'worked out exactly', (row, { tolerance }) => {
    const felt = apparentWind(row.twsKn, row.twdDeg - row.headingDeg, row.stwKn);
    expectNear(felt.awsKn, row.awsKn, tolerance.awsKn, 'AWS');
    expectNearDeg(felt.awaDeg, row.awaDeg, tolerance.awaDeg, 'AWA');
  });

  winds.each('printedAws', 'true wind speed and apparent angle given', (row) => {
    // The true wind outruns the boat, so AWA rises with TWA.
    let [low, high] = [0, 180];
    for (let step = 0; step < 50; step += 1) {
      const middle = (low + high) / 2;
      if (apparentWind(row.twsKn, middle, row.stwKn).awaDeg < row.awaDeg) low = middle;
      else high = middle;
    }
    const felt = apparentWind(row.twsKn, high, row.stwKn);
    expectNearDeg(felt.awaDeg, row.awaDeg, 1e-9, 'AWA');
    expectNear(felt.awsKn, row.awsKn, row.tolerance.awsKn, 'AWS');
    expectNear(felt.awsKn, row.computedAwsKn, row.tolerance.computedAwsKn, 'AWS worked out exactly');
  });

  winds.each('formula', 'formula', (row, { tolerance }) => {
    const felt = apparentWind(row.twsKn, row.twaDeg, row.stwKn);
    expectNear(felt.awsKn, row.awsKn, tolerance.awsKn, 'AWS');
    expectNear(felt.awaDeg, row.awaDeg, tolerance.awaDeg, 'AWA');
    const onPort = apparentWind(row.twsKn, -row.twaDeg, row.stwKn);
    expectNear(onPort.awsKn, row.awsKn, tolerance.awsKn, 'AWS on port');
    expectNearDeg(onPort.awaDeg, -row.awaDeg, tolerance.awaDeg, 'AWA on port');
  });

  // Arithmetic: a boat adrift on 3 kn of current in still air feels 3 kn from where the current takes her.
  test('still air over a current is a wind over the water', () => {
    const met = conditionsOf({ wind: windFrom(0, 0), current: flowTowards(3, 70) }, 70);
    expectNear(met.twsKn, 3, 1e-12, 'TWS over the water');
    expectNearDeg(met.twdDeg, 70, 1e-9, 'TWD over the water');
  });

  winds.each('units', 'knots and metres a second', ({ kn, mps }, { tolerance }) => {
    expectNear((mps * KN_PER_MPS) / kn, 1, tolerance.relative, 'ratio');
  });
});

function conditionsOf(weather: Weather, courseDeg: number): Conditions {
  const point = { latDeg: 0, lonDeg: 0, distanceNm: 0, courseDeg, leg: 1, legEndNm: 1 };
  return conditionsAt(point, weather, HOUSE);
}

describe('gusts', () => {
  // Where a forecast has no gust, its wind of the hour is the mean of that hour.
  gusts.each('overAnHour', 'default factor', (row) => {
    expect(DEFAULT_HOUSE.gustFactor).toBe(row.atSea);
    const met = conditionsOf({ wind: windFrom(20, 50) }, 0);
    expectNear(met.gustTwsKn, 20 * row.atSea, 1e-9, 'gust');
    expectNearDeg(fromDirectionOf(met.gustWind), 50, 1e-9, 'direction');
  });

  gusts.each('overTenMinutes', 'mean and gust', (row, { factor, tolerance }) => {
    const gustWind = limitGust(windFrom(row.meanKn, 120), undefined, factor, 1);
    expectNear(speedOf(gustWind), row.gustKn, tolerance.kn, 'gust');
  });
});

interface Stream {
  readonly courseDeg: number;
  readonly setDeg: number;
  readonly driftKn: number;
}

/** A boat with one speed at every angle and in every wind, sailed along a course over a current. */
function sailed({ courseDeg, setDeg, driftKn }: Stream, stwKn: number) {
  const polar = { twsKn: [0, 40], twaDeg: [0, 180], stwKn: [stwKn, stwKn, stwKn, stwKn] };
  const plan: SailablePlan = { id: 'any', speed: planSpeed(polar, 1), windows: [], daylightOnly: false };
  // Wind square to the course: of a pair of tacks or gybes neither side could make it good, so one heading must do.
  const twdDeg = wrap360(courseDeg + 90);
  const conditions: Conditions = {
    courseDeg,
    twdDeg,
    twsKn: 12,
    gustWind: windFrom(15, twdDeg),
    gustTwsKn: 15,
    current: flowTowards(driftKn, setDeg),
  };
  return sailAlong(plan, conditions, HOUSE);
}

interface Steered {
  readonly headingDeg: number;
  readonly smgKn: number;
}

function expectSteered(actual: ReturnType<typeof sailed>, truth: Steered, tolerance: Steered) {
  if (typeof actual === 'string') throw new Error(`barred: ${actual}`);
  expect(actual.manner).toBe('direct');
  expectNearDeg(actual.headingDeg, truth.headingDeg, tolerance.headingDeg, 'course to steer');
  expectNear(actual.smgKn, truth.smgKn, tolerance.smgKn, 'speed made good');
}

describe('current', () => {
  currents.each('courseToSteer', 'course to steer', (row, { tolerance }) => {
    expectSteered(sailed(row, row.stwKn), row.printed, tolerance.printed);
    expectSteered(sailed(row, row.stwKn), row.exact, tolerance.exact);
  });

  currents.each('requiredSpeed', 'speed required', (row, { tolerance }) => {
    const { headingDeg } = row.printed;
    expectSteered(sailed(row, row.printed.stwKn), { headingDeg, smgKn: row.smgKn }, tolerance.printed);
    expectSteered(sailed(row, row.exact.stwKn), { ...row.exact, smgKn: row.smgKn }, tolerance.exact);
  });

  currents.each('examSteer', 'examination, course to steer', (row, { tolerance }) => {
    expectSteered(sailed(row, row.stwKn), row, tolerance);
  });

  currents.each('edge', 'at the limit', (row, { tolerance }) => {
    const actual = sailed(row, row.stwKn);
    if (typeof row.expected === 'string') expect(actual).toBe(row.expected);
    else expectSteered(actual, row.expected, tolerance);
  });

  currents.each('examMadeGood', 'examination, course made good', (row, { tolerance }) => {
    const madeGood = sumOf([flowTowards(row.stwKn, row.headingDeg), flowTowards(row.driftKn, row.setDeg)]);
    expectNearDeg(towardsDirectionOf(madeGood), row.cmgDeg, tolerance.cmgDeg, 'course made good');
    expectNear(speedOf(madeGood), row.smgKn, tolerance.smgKn, 'speed made good');
  });

  currents.each('setAndDrift', 'set and drift from a fix', (row, { tolerance }) => {
    const perHour = 60 / row.minutes;
    const flow: VelocityKn = { eastKn: row.offEastNm * perHour, northKn: row.offNorthNm * perHour };
    expectNearDeg(towardsDirectionOf(flow), row.setDeg, tolerance.setDeg, 'set');
    expectNear(speedOf(flow), row.printedDriftKn, tolerance.printedDriftKn, 'drift');
    expectNear(speedOf(flow), row.exactDriftKn, tolerance.exactDriftKn, 'drift worked out exactly');
  });
});

function sumOf(velocities: readonly VelocityKn[]): VelocityKn {
  const sum = (part: keyof VelocityKn) => velocities.reduce((total, velocity) => total + velocity[part], 0);
  return { eastKn: sum('eastKn'), northKn: sum('northKn') };
}

function meanOf(velocities: readonly VelocityKn[]): VelocityKn {
  const { eastKn, northKn } = sumOf(velocities);
  return { eastKn: eastKn / velocities.length, northKn: northKn / velocities.length };
}

/** Winds at the ends of a step in latitude, in longitude or in time, sampled half-way. */
function halfWay(axis: 'lat' | 'lon' | 'time', [first, second]: readonly [VelocityKn, VelocityKn]): VelocityKn {
  const axisOf = (name: typeof axis, step: number) => Float64Array.from(name === axis ? [0, step] : [0]);
  const forecast: Forecast = {
    file: 'two-points',
    grids: [
      {
        epochSeconds: axisOf('time', 3600),
        lats: axisOf('lat', 1),
        lons: axisOf('lon', 1),
        wraps: false,
        fields: {
          windEastKn: Float32Array.of(first.eastKn, second.eastKn),
          windNorthKn: Float32Array.of(first.northKn, second.northKn),
        },
      },
    ],
  };
  const middle = (name: typeof axis, step: number) => (name === axis ? step / 2 : 0);
  return weatherAt(forecast)(middle('lat', 1), middle('lon', 1), middle('time', 3600))!.wind;
}

interface MeanWind {
  readonly kn: number;
  readonly fromDeg: number | null;
}

function expectWind(actual: VelocityKn, truth: MeanWind, tolerance: { kn: number; deg: number }) {
  expectNear(speedOf(actual), truth.kn, tolerance.kn, 'speed');
  if (truth.fromDeg !== null) expectNearDeg(fromDirectionOf(actual), truth.fromDeg, tolerance.deg, 'direction');
}

const AXES = ['lat', 'lon', 'time'] as const;

describe('mean winds', () => {
  means.each('unitMean', 'directions', (row, { tolerance }) => {
    const mean = meanOf(row.fromDeg.map((fromDeg) => windFrom(1, fromDeg)));
    expectNear(speedOf(mean), row.resultant, tolerance.resultant, 'resultant');
    if (row.meanFromDeg !== null) expectNearDeg(fromDirectionOf(mean), row.meanFromDeg, tolerance.deg, 'direction');
  });

  means.each('vectorMean', 'winds', (row, { tolerance }) => {
    const velocities = row.winds.map(({ kn, fromDeg }) => windFrom(kn, fromDeg));
    const mean = meanOf(velocities);
    expectNear(mean.eastKn, row.eastKn, tolerance.kn, 'east');
    expectNear(mean.northKn, row.northKn, tolerance.kn, 'north');
    expectWind(mean, row, tolerance);
    const [first, second, third] = velocities;
    if (third !== undefined) return;
    for (const axis of AXES) expectWind(halfWay(axis, [first!, second!]), row, tolerance);
  });

  means.each('halfWay', 'half-way between two grid points', (row, { tolerance }) => {
    const [first, second] = row.winds.map(({ kn, fromDeg }) => windFrom(kn, fromDeg));
    for (const axis of AXES) expectWind(halfWay(axis, [first!, second!]), row, tolerance);
  });

  const reciprocal = (deg: number) => fromDirectionOf(flowTowards(1, deg));
  const WRAPS: Readonly<Record<string, (deg: number) => number>> = { reciprocal, wrap180, wrap360, wrapLon };

  means.each('angles', 'angle', ({ wrap, deg, expected }) => {
    // Not round the circle: 360 is not 0 here.
    expectNear(WRAPS[wrap]!(deg), expected, 1e-9, wrap);
  });
});
