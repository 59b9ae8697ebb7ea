import { sailDirect } from '../../../dist/sailing/direct.js';
import { planSpeed } from '../../../dist/speed/planSpeed.js';
import { flowTowards, speedOf, towardsDirectionOf } from '../../../dist/wind/wind.js';
import current from '../../truth/current.json' with { type: 'json' };
import { apartDeg } from './compare.mjs';

/** Course to steer, and way made good, over a current. */
export function currentRows() {
  const { courseToSteer, requiredSpeed, examSteer, examMadeGood } = current;
  const printed = [
    ...courseToSteer.rows.map((row) => steered(row, row.stwKn, row.printed)),
    ...requiredSpeed.rows.map((row) => steered(row, row.printed.stwKn, { ...row.printed, smgKn: row.smgKn })),
  ];
  const exact = [
    ...courseToSteer.rows.map((row) => steered(row, row.stwKn, row.exact)),
    ...examSteer.rows.map((row) => steered(row, row.stwKn, row)),
  ];
  const madeGood = examMadeGood.rows.map((row) => {
    const [way, flow] = [flowTowards(row.stwKn, row.headingDeg), flowTowards(row.driftKn, row.setDeg)];
    const sum = { eastKn: way.eastKn + flow.eastKn, northKn: way.northKn + flow.northKn };
    return { course: apartDeg(towardsDirectionOf(sum), row.cmgDeg), speed: speedOf(sum) - row.smgKn };
  });
  const plotted = {
    comparedWith: 'practice-chart answers, and one worked problem',
    strength: courseToSteer.about.strength,
  };
  const worked = {
    comparedWith: 'the same and examination triangles worked out exactly',
    strength: examSteer.about.strength,
  };
  return [
    {
      id: 'course-to-steer-printed',
      quantity: 'Current: course to steer',
      ...plotted,
      unit: '°',
      errors: printed.map(({ course }) => course),
      ceiling: 2.5,
      why: 'plotted on paper and read to 5°',
    },
    {
      id: 'speed-made-good-printed',
      quantity: 'Current: speed made good',
      ...plotted,
      unit: 'kn',
      errors: printed.map(({ speed }) => speed),
      ceiling: 0.1,
      why: 'plotted on paper and read to 0.1 kn, on a course read to 5°',
    },
    {
      id: 'course-to-steer-exact',
      quantity: 'Current: course to steer, course made good',
      ...worked,
      unit: '°',
      errors: [...exact, ...madeGood].map(({ course }) => course),
      ceiling: 0.005,
      why: 'rounded to 0.01°',
    },
    {
      id: 'speed-made-good-exact',
      quantity: 'Current: speed made good',
      ...worked,
      unit: 'kn',
      errors: [...exact, ...madeGood].map(({ speed }) => speed),
      ceiling: 0.0005,
      why: 'rounded to 0.001 kn',
    },
  ];
}

/** How far the heading and speed of a boat that makes one speed at every angle are off the true ones. */
function steered({ courseDeg, setDeg, driftKn }, stwKn, truth) {
  const polar = { twsKn: [0, 40], twaDeg: [0, 180], stwKn: [stwKn, stwKn, stwKn, stwKn] };
  const conditions = {
    courseDeg,
    twdDeg: (courseDeg + 90) % 360,
    twsKn: 12,
    gustWind: { eastKn: 0, northKn: 0 },
    gustTwsKn: 0,
    current: flowTowards(driftKn, setDeg),
  };
  const sailing = sailDirect([], planSpeed(polar, 1), conditions);
  return { course: apartDeg(sailing.headingDeg, truth.headingDeg), speed: sailing.smgKn - truth.smgKn };
}
