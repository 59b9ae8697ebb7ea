import type { Boat, SailPlan } from '../boat/boat.js';
import { faultList, shown } from '../errors.js';
import { addTypeFaults } from '../given.js';
import type { TrackPoint } from '../route/route.js';
import type { Met } from '../tabled/tabled.js';
import { wrap360 } from '../units.js';
import { says } from '../wording.js';

/** A place on the track and an instant, and the weather there, as a rule of one's own is asked about them. Wind is over the water, at 10 m. */
export interface RuleMoment {
  /** Seconds since 1970 in UTC; `new Date(epochSeconds * 1000)` is the instant, `zoneClock` the ship's clock. */
  readonly epochSeconds: number;
  readonly latDeg: number;
  readonly lonDeg: number;
  /** From the start along the track. */
  readonly distanceNm: number;
  /** Counted from 1. */
  readonly leg: number;
  readonly courseDeg: number;
  readonly twsKn: number;
  /** Where the wind is from. */
  readonly twdDeg: number;
  /** True wind off the course, positive to starboard. */
  readonly windOffCourseDeg: number;
  /** Limit gust, with the margins of the house rules. */
  readonly gustKn: number;
  /** Significant height, metres; 0 where the forecast has no waves, as `waveMaxM` takes it. */
  readonly waveHeightM: number;
  /** Whether the sun is up. */
  readonly daylight: boolean;
}

/**
 * A house rule of one's own: what bars a sail plan at a place and time, and what it is called. The name is told as the reason. `bars`
 * has to be pure, the same answer to the same question: it is asked tens of thousands of times for a passage.
 */
export interface OwnRule {
  readonly name: string;
  /** Whether the plan may not stand there and then. */
  readonly bars: (sailPlan: SailPlan, at: RuleMoment) => boolean;
}

/** The name of the rule that bars a sail plan there and then; undefined where none does. */
export type BarredBy = (at: RuleMoment) => string | undefined;

/** The rules as each sail plan of a boat is asked by them; undefined without rules. */
export function barredByOf(rules: readonly OwnRule[], boat: Boat): ((planId: string) => BarredBy) | undefined {
  if (rules.length === 0) return undefined;
  return (planId) => {
    const sailPlan = boat.sailPlans.find(({ id }) => id === planId)!;
    return (at) => rules.find(({ bars }) => bars(sailPlan, at))?.name;
  };
}

/** Checks rules of one's own. */
export function checkOwnRules(rules: readonly OwnRule[]): void {
  const faults = faultList();
  const file = 'rules';
  if (!Array.isArray(rules)) faults.add({ file, ...says.wrongValue('a list of rules', shown(rules)) });
  else
    rules.forEach((rule: Partial<OwnRule> | null, i) => {
      addTypeFaults(rule, { name: 'string', bars: 'function' }, file, faults, `[${i}]`);
      if (rule?.name === '') faults.add({ file, path: `[${i}].name`, ...says.wrongValue('a name', 'an empty text') });
    });
  faults.throwIfAny();
}

/** A moment as rules are asked about it. */
export function ruleMoment(
  point: TrackPoint,
  epochSeconds: number,
  { twsKn, angleDeg, gustTwsKn }: Met,
  sea: { readonly dark: boolean; readonly waveHeightM: number },
): RuleMoment {
  const { latDeg, lonDeg, distanceNm, leg, courseDeg } = point;
  return {
    epochSeconds,
    latDeg,
    lonDeg,
    distanceNm,
    leg,
    courseDeg,
    twsKn,
    twdDeg: wrap360(courseDeg + angleDeg),
    windOffCourseDeg: angleDeg,
    gustKn: gustTwsKn,
    waveHeightM: sea.waveHeightM,
    daylight: !sea.dark,
  };
}
