import { classByMidGirth, foreTriangleM2, kindOf, type Need, stormSailLimits } from '../catalogue/catalogue.js';
import type { Fault } from '../errors.js';
import { mustBeGiven } from '../given.js';
import { commonAngles } from '../sail/sail.js';
import { tenth } from '../units.js';
import { says } from '../wording.js';
import type { Boat, Sail, SailPlan } from './boat.js';
import { hasNeed } from './hasNeed.js';
import { settingOf } from './setting.js';

/**
 * What an owner should know about her wardrobe: sails that need what the boat has not, storm sails over the rules' limits, a
 * self-tacking jib larger than the fore-triangle, a sail that measures as another kind, a plan whose angles do not meet, a
 * sail in no plan. Never faults: owners know better. Of a boat without a rig in her file nobody knows what she has.
 * @throws InputError where she is no complete boat
 * @example
 * wardrobeWarnings(sample.boat).length // 0
 */
export function wardrobeWarnings(boat: Boat, file = 'boat'): Fault[] {
  mustBeGiven(boat, 'sailPlans', file, 'readBoat');
  const apart = boat.sailPlans.flatMap((plan, i) =>
    haveCommonAngles(boat, plan) ? [] : [{ file, path: `sailPlans[${i}]`, ...says.noCommonAngle(plan.id) }],
  );
  const ofSails = boat.sails.flatMap((sail, i) => {
    const path = `sails[${i}]`;
    return [
      ...needWarning(sail, boat, { file, path }),
      ...areaWarnings(sail, boat, { file, path }),
      ...classWarning(sail, { file, path }),
    ];
  });
  const used = new Set(boat.sailPlans.flatMap((plan) => plan.sails.map((text) => settingOf(boat, text)!.cloth)));
  const unused = boat.sails.flatMap((sail, i) =>
    used.has(sail.clothOf ?? sail.id) ? [] : [{ file, path: `sails[${i}]`, ...says.sailUnused() }],
  );
  return [...ofSails, ...apart, ...unused];
}

/** Whether there is an angle at which all sails of a plan may be carried. */
function haveCommonAngles(boat: Boat, { sails }: SailPlan): boolean {
  const [fromDeg, toDeg] = commonAngles(sails.map((text) => settingOf(boat, text)!.window));
  return fromDeg <= toDeg;
}

/** What follows is rounded to a tenth, and what is told too. */
const ROUNDING = 0.0501;

type Place = Pick<Fault, 'file' | 'path'>;

function needWarning({ id, kind }: Sail, boat: Boat, place: Place): Fault[] {
  const { needsOneOf } = kindOf(kind);
  if (!isTold(boat.rig) || needsOneOf.length === 0 || needsOneOf.some((need) => hasNeed(boat, need))) return [];
  return [
    {
      ...place,
      ...says.needLacking(
        `${id} (${kind})`,
        needsOneOf.map((need) => NEED_IN_WORDS[need]),
      ),
    },
  ];
}

/** What a sail may need, in words. */
export const NEED_IN_WORDS: Readonly<Record<Need, string>> = {
  sprit: 'a sprit',
  pole: 'a pole',
  'inner forestay': 'an inner forestay',
  'two bows': 'two bows',
};

/** Whether the file tells of the rig: a starting file has only words for people there. */
function isTold(rig: Boat['rig']): rig is NonNullable<Boat['rig']> {
  return rig !== undefined && Object.keys(rig).join() !== 'comment';
}

function areaWarnings({ kind, areaM2, luffM }: Sail, { rig }: Boat, place: Place): Fault[] {
  if (rig?.iM === undefined) return [];
  const limits = stormSailLimits(rig.iM);
  const over = (what: string, value: number | undefined, most: number, unit: string): Fault[] =>
    value === undefined || value <= most + ROUNDING
      ? []
      : [{ ...place, ...says.overRule(what, tenth(most), tenth(value), unit) }];
  if (kind === 'storm-jib') {
    return [
      ...over('the area of a storm jib (0.05 · I²)', areaM2, limits.stormJibM2, 'm²'),
      ...over('the luff of a storm jib (0.65 · I)', luffM, limits.stormJibLuffM, 'm'),
    ];
  }
  if (kind === 'heavy-weather-jib') {
    return over('the area of a heavy-weather jib (0.135 · I²)', areaM2, limits.heavyWeatherJibM2, 'm²');
  }
  if (kind === 'self-tacking-jib' && rig.jM !== undefined) {
    const most = foreTriangleM2(rig.iM, rig.jM);
    return over('the area of a self-tacking jib (the fore-triangle, 0.5 · I · J)', areaM2, most, 'm²');
  }
  return [];
}

function classWarning({ kind, midGirthRatio }: Sail, place: Place): Fault[] {
  if (midGirthRatio === undefined || kindOf(kind).place !== 'flying' || kind === 'code-zero') return [];
  return classByMidGirth(midGirthRatio) === 'spinnaker'
    ? []
    : [{ ...place, ...says.measuresAsCode(kind, midGirthRatio) }];
}
