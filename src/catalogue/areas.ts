import type { Rig } from './measures.js';

/**
 * Area of the fore-triangle, m²: 0.5 · I · J (measurement rules).
 * @example
 * foreTriangleM2(15.6, 4.6) // 35.87…
 */
export const foreTriangleM2 = (iM: number, jM: number): number => 0.5 * iM * jM;

/**
 * Luff perpendicular, metres, from LP %: a share of J (100 · LP / J; J 10 ft at 135 % gives LP 13.5 ft).
 * @example
 * luffPerpendicularM(4.6, 135) // 6.21
 */
export const luffPerpendicularM = (jM: number, overlapPercent: number): number => (jM * overlapPercent) / 100;

/**
 * Area of a headsail on the forestay, m²: half of luff × LP, the luff as long as the stay, √(I² + J²) (Hazen 1980).
 * @example
 * headsailOnStayM2(15.6, 4.6, 135) // 50.49…
 */
export const headsailOnStayM2 = (iM: number, jM: number, overlapPercent: number): number =>
  0.5 * Math.hypot(iM, jM) * luffPerpendicularM(jM, overlapPercent);

/**
 * Area of a measured headsail, m²: 0.255 · luff · (LP + 2 · half width) (World Sailing rule after 2011).
 * @example
 * headsailM2(15, 6, 3.2) // 47.43…
 */
export const headsailM2 = (luffM: number, lpM: number, halfWidthM: number): number =>
  0.255 * luffM * (lpM + 2 * halfWidthM);

/** Girths of a headsail, metres: luff, LP, and widths at half, three quarters and seven eighths of the height. */
export interface HeadsailGirths {
  readonly luffM: number;
  readonly lpM: number;
  readonly halfWidthM: number;
  readonly threeQuarterWidthM: number;
  readonly upperWidthM: number;
}

/**
 * Area of a headsail of all its girths, m²: 0.0625 · LL · (4 LP + 6 HHW + 2 HTW + 2 HUW + 0.09) (IRC).
 * @example
 * headsailByGirthsM2({ luffM: 15, lpM: 6, halfWidthM: 3.2, threeQuarterWidthM: 1.7, upperWidthM: 0.9 }) // 45.45…
 */
export const headsailByGirthsM2 = ({ luffM, lpM, halfWidthM, threeQuarterWidthM, upperWidthM }: HeadsailGirths) =>
  0.0625 * luffM * (4 * lpM + 6 * halfWidthM + 2 * threeQuarterWidthM + 2 * upperWidthM + 0.09);

/**
 * Area of a main, m²: the triangle P, E by its roach (Hazen 1980).
 * @example
 * mainM2(13.9, 4.9, 1.1) // 37.46…
 */
export const mainM2 = (pM: number, eM: number, roachFactor: number): number => 0.5 * pM * eM * roachFactor;

/**
 * Area of a symmetric spinnaker, m²: 1.15 · SL · J (Hazen 1980), the luff SL as long as from its halyard to the tack.
 * @example
 * symmetricM2(16, 5) // 96.38…
 */
export const symmetricM2 = (hoistM: number, jM: number): number => 1.15 * Math.hypot(hoistM, jM) * jM;

/**
 * Whether a self-tacking jib keeps inside the fore-triangle, which its sheet on a track before the mast asks for.
 * @example
 * selfTackerFits(33, 15.6, 4.6) // true
 * selfTackerFits(40, 15.6, 4.6) // false
 */
export const selfTackerFits = (areaM2: number, iM: number, jM: number): boolean =>
  areaM2 <= foreTriangleM2(iM, jM) + 1e-9;

/** Largest storm sails of the rules. */
export interface StormSailLimits {
  /** 0.05 · I². */
  readonly stormJibM2: number;
  /** 0.65 · I. */
  readonly stormJibLuffM: number;
  /** 0.135 · I². */
  readonly heavyWeatherJibM2: number;
}

/**
 * Largest storm jib and heavy-weather jib, m² and metres, by the height of the fore-triangle (World Sailing Offshore Special
 * Regulations 4.26/4.27). The rules are minimum standards of seaworthiness: a smaller sail is often the better one.
 * @example
 * stormSailLimits(17) // { stormJibM2: 14.45…, stormJibLuffM: 11.05, heavyWeatherJibM2: 39.01… }
 */
export const stormSailLimits = (iM: number): StormSailLimits => ({
  stormJibM2: 0.05 * iM ** 2,
  stormJibLuffM: 0.65 * iM,
  heavyWeatherJibM2: 0.135 * iM ** 2,
});

/**
 * Largest heavy-weather jib as IRC has it, m², by the length of the forestay: 0.135 · (FL² − J²).
 * @example
 * heavyWeatherJibByForestayM2(16.3, 4.6) // 33.01…
 */
export const heavyWeatherJibByForestayM2 = (forestayM: number, jM: number): number =>
  0.135 * (forestayM ** 2 - jM ** 2);

/** Trysail over P · E: a rule from memory, not found in a text. */
export const TRYSAIL_SHARE = 0.175;

/**
 * Area of a trysail, m²: 17.5 % of P · E, from memory.
 * @example
 * trysailM2(13.9, 4.9) // 11.91…
 */
export const trysailM2 = (pM: number, eM: number): number => TRYSAIL_SHARE * pM * eM;

/** The dimensions of a rig that a rule wants; undefined where one is missing. */
export function dimensions<Key extends 'iM' | 'jM' | 'pM' | 'eM'>(
  rig: Rig | undefined,
  ...keys: readonly Key[]
): Readonly<Record<Key, number>> | undefined {
  return keys.every((key) => rig?.[key] !== undefined) ? (rig as Record<Key, number>) : undefined;
}
