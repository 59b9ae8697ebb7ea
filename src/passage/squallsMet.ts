import type { Waters } from './hour.js';
import type { Hour } from './log.js';
import { squallChance, squallFactor } from './squalls.js';

/** What of squalls a passage has: a forecast on a grid shows none. */
export interface Squalls {
  /** Whether the limit gust allows for them. */
  readonly allowedFor: boolean;
  /** How many are to be expected on the way, by their chance in every hour. */
  readonly expected: number;
  /** Hours in which the limit gust allows for them. */
  readonly hours: number;
}

/** The squalls to be expected in the hours of a passage; their chances by latitude are placeholders. */
export function squallsOf(hours: readonly Hour[], { options: { house } }: Waters): Squalls {
  let [expected, allowedHours] = [0, 0];
  for (const { latDeg, daylight, minutes } of hours) {
    const dark = !daylight;
    expected += (squallChance(house, latDeg, dark) * minutes) / 60;
    if (squallFactor(house, latDeg, dark) > 0) allowedHours += minutes / 60;
  }
  return { allowedFor: house.squalls, expected, hours: allowedHours };
}
