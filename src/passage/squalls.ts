import type { SettledOptions } from './options.js';

type SquallRules = Pick<SettledOptions['house'], 'squalls' | 'squallFactor' | 'squallChance' | 'squallThreshold'>;

/**
 * Chance of a squall in an hour by latitude, north or south: placeholders without a source. They fall from the doldrums to the
 * edge of the trades.
 */
const CHANCE_BY_LATITUDE = [
  { toDeg: 5, chance: 0.03 },
  { toDeg: 15, chance: 0.015 },
  { toDeg: 25, chance: 0.006 },
  { toDeg: 90, chance: 0.002 },
] as const;

/** By night more often than by day: a placeholder, common practice without a source. */
const NIGHT_OVER_DAY = 1.5;

/** Chance of a squall in an hour at a latitude; that of the house rule stands for all places and hours. */
export function squallChance({ squallChance: own }: SquallRules, latDeg: number, dark: boolean): number {
  if (own !== null) return own;
  const byDay = CHANCE_BY_LATITUDE.find(({ toDeg }) => Math.abs(latDeg) <= toDeg)!.chance;
  return dark ? byDay * NIGHT_OVER_DAY : byDay;
}

/**
 * The factor on the mean wind that the limit gust allows for squalls: where their chance comes to the threshold, else 0. Twice the
 * mean wind for a quarter of an hour is what trade-wind squalls often bring (S48); an hourly forecast on a grid does not hold them.
 */
export function squallFactor(rules: SquallRules, latDeg: number, dark: boolean): number {
  return rules.squalls && squallChance(rules, latDeg, dark) >= rules.squallThreshold ? rules.squallFactor : 0;
}
