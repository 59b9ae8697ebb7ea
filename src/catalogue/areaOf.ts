import {
  dimensions,
  foreTriangleM2,
  headsailM2,
  headsailOnStayM2,
  mainM2,
  stormSailLimits,
  symmetricM2,
  trysailM2,
} from './areas.js';
import { isOnStay, type KindOfSail } from './kinds.js';
import type { Rig, SailMeasures } from './measures.js';
import { codeSailOf } from './scales.js';

/**
 * Area of a sail, m², by the rule of its kind; undefined where the rig or the sail lacks what the rule needs. Luff, LP and half
 * width of a headsail, where all are given, stand before its kind's rule. The area of a poled-out headsail is its cloth's.
 * @example
 * areaOf(kindOf('pin-head-main'), {}, { pM: 13.9, eM: 4.9 }) // 36.77…
 */
export function areaOf(
  { kind, place, area }: Pick<KindOfSail, 'kind' | 'place' | 'area'>,
  measures: SailMeasures,
  rig: Rig | undefined,
): number | undefined {
  const of = (name: keyof SailMeasures) => measures[name] ?? area.measures?.[name]?.value;
  const share = area.share?.value ?? 1;
  if (isMeasured({ place }, measures)) return headsailM2(measures.luffM!, measures.lpM!, measures.halfWidthM!);
  const [spars, stay] = [dimensions(rig, 'pM', 'eM'), dimensions(rig, 'iM', 'jM')];
  if (place === 'mast') return spars && mainM2(spars.pM, spars.eM, of('roachFactor')!);
  if (place === 'storm-mast') return spars && trysailM2(spars.pM, spars.eM);
  if (kind === 'storm-jib') return rig?.iM === undefined ? undefined : stormSailLimits(rig.iM).stormJibM2;
  if (place === 'flying') {
    const hoistM = rig?.ispM ?? rig?.iM;
    if (hoistM === undefined || rig?.jM === undefined) return undefined;
    const ofSymmetric = kind === 'code-zero' ? codeSailOf(of('midGirthRatio')!).areaShare : share;
    return ofSymmetric * symmetricM2(hoistM, rig.jM);
  }
  if (stay === undefined) return undefined;
  const { iM, jM } = stay;
  switch (kind) {
    case 'self-tacking-jib':
      return Math.min(headsailOnStayM2(iM, jM, of('overlapPercent')!), foreTriangleM2(iM, jM));
    case 'overlapping-genoa':
      return headsailOnStayM2(iM, jM, of('overlapPercent')!);
    case 'staysail':
      return share * foreTriangleM2(iM, jM);
    case 'heavy-weather-jib':
      return Math.min(stormSailLimits(iM).heavyWeatherJibM2, foreTriangleM2(iM, jM));
    case 'twin-headsails':
      return 2 * headsailOnStayM2(iM, jM, 100);
    default:
      return headsailOnStayM2(iM, jM, 100);
  }
}

/**
 * Whether a sail is a headsail on a stay of which luff, LP and half width are known.
 * @example
 * isMeasured(kindOf('overlapping-genoa'), { luffM: 15, lpM: 6, halfWidthM: 3.2 }) // true
 * isMeasured(kindOf('overlapping-genoa'), { luffM: 15 }) // false
 */
export function isMeasured({ place }: Pick<KindOfSail, 'place'>, { luffM, lpM, halfWidthM }: SailMeasures): boolean {
  return isOnStay(place) && luffM !== undefined && lpM !== undefined && halfWidthM !== undefined;
}
