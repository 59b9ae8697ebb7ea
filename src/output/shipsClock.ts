import type { Hour } from '../passage/passage.js';
import { parseInstant } from '../time.js';
import { type ZoneClock, zoneClock } from '../zoneTime.js';

/** What the ship's clock says at an instant. */
export type ShipsClock = (time: string) => ZoneClock;

/** The clock of a passage: that of the last row begun by then. */
export function shipsClock(hours: readonly Hour[]): ShipsClock {
  const sets = hours.filter(({ zoneHours }, i) => zoneHours !== hours[i - 1]?.zoneHours);
  return (time) => clockOf(time, (sets.filter((set) => set.time <= time).at(-1) ?? sets[0]!).zoneHours);
}

export const clockOf = (time: string, zoneHours: number): ZoneClock =>
  zoneClock(parseInstant(time) as number, zoneHours);
