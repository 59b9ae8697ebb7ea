import {
  classByMidGirth,
  foreTriangleM2,
  kindOf,
  type Need,
  selfTackerFits,
  stormSailLimits,
} from '../catalogue/catalogue.js';
import type { Fault } from '../errors.js';
import { says } from '../wording.js';
import type { Boat, Sail } from './boat.js';

/**
 * What an owner should know about her wardrobe: sails that need what the boat has not, storm sails over the rules' limits, a
 * self-tacking jib larger than the fore-triangle, a sail that measures as another kind. Never faults: owners know better. Of a boat
 * without a rig in her file nobody knows what she has.
 */
export function wardrobeWarnings(boat: Boat, file = 'boat'): Fault[] {
  return boat.sails.flatMap((sail, i) => {
    const path = `sails[${i}]`;
    return [
      ...needWarning(sail, boat, { file, path }),
      ...areaWarnings(sail, boat, { file, path }),
      ...classWarning(sail, { file, path }),
    ];
  });
}

type Place = Pick<Fault, 'file' | 'path'>;

function needWarning({ kind }: Sail, { hull, rig }: Boat, place: Place): Fault[] {
  const { needsOneOf } = kindOf(kind);
  const has: Readonly<Record<Need, boolean>> = {
    sprit: (rig?.spritM ?? 0) > 0,
    pole: (rig?.poleM ?? 0) > 0,
    'inner forestay': rig?.innerForestay === true,
    'two bows': hull.type === 'catamaran',
  };
  if (rig === undefined || needsOneOf.length === 0 || needsOneOf.some((need) => has[need])) return [];
  return [
    {
      ...place,
      ...says.needLacking(
        kind,
        needsOneOf.map((need) => IN_WORDS[need]),
      ),
    },
  ];
}

const IN_WORDS: Readonly<Record<Need, string>> = {
  sprit: 'a sprit',
  pole: 'a pole',
  'inner forestay': 'an inner forestay',
  'two bows': 'two bows',
};

function areaWarnings({ kind, areaM2, luffM, derived = {} }: Sail, { rig }: Boat, place: Place): Fault[] {
  if (rig?.iM === undefined) return [];
  const limits = stormSailLimits(rig.iM);
  const over = (what: string, value: number | undefined, most: number, unit: string): Fault[] =>
    value === undefined || value <= most + 0.05
      ? []
      : [{ ...place, ...says.overRule(what, round(most), round(value), unit) }];
  const given = 'areaM2' in derived ? undefined : areaM2;
  if (kind === 'storm-jib') {
    return [
      ...over('the area of a storm jib (0.05 · I²)', areaM2, limits.stormJibM2, 'm²'),
      ...over('the luff of a storm jib (0.65 · I)', luffM, limits.stormJibLuffM, 'm'),
    ];
  }
  if (kind === 'heavy-weather-jib') {
    return over('the area of a heavy-weather jib (0.135 · I²)', areaM2, limits.heavyWeatherJibM2, 'm²');
  }
  if (
    kind === 'self-tacking-jib' &&
    given !== undefined &&
    rig.jM !== undefined &&
    !selfTackerFits(given, rig.iM, rig.jM)
  ) {
    return over(
      'the area of a self-tacking jib (the fore-triangle, 0.5 · I · J)',
      given,
      foreTriangleM2(rig.iM, rig.jM),
      'm²',
    );
  }
  return [];
}

function classWarning({ kind, midGirthRatio }: Sail, place: Place): Fault[] {
  if (midGirthRatio === undefined || kindOf(kind).place !== 'flying' || kind === 'code-zero') return [];
  return classByMidGirth(midGirthRatio) === 'spinnaker'
    ? []
    : [{ ...place, ...says.measuresAsCode(kind, midGirthRatio) }];
}

const round = (value: number) => Math.round(value * 10) / 10;
