import type { Boat, Watches } from '../boat/boat.js';
import { handsOnDeck, isNearWatchChange, watchBegan } from '../change/change.js';
import type { Passage } from '../passage/passage.js';
import { parseInstant } from '../time.js';
import { zoneMinutesOfDay } from '../zoneTime.js';

/** Sail changes of a passage by when they were made. */
export interface ChangesAt {
  readonly day: number;
  readonly night: number;
  /** By the watch of the ship's clock in which they were made; empty where the boat file tells of no watches. */
  readonly watches: readonly ChangesInWatch[];
  /** Those that took more hands than were on deck; 0 where nobody says how many they are, or they stand no watches. */
  readonly wakingWatch: number;
}

/** The changes of one watch. */
export interface ChangesInWatch {
  /** By the ship's clock, `HH:MM`. */
  readonly from: string;
  readonly to: string;
  readonly changes: number;
}

/** When sail changes were made. */
export function changesAtOf({ hours, options: { crew } }: Passage, boat: Boat): ChangesAt {
  const made = hours.filter(({ sailChange }) => sailChange);
  const { watches } = boat;
  const clockOf = ({ time, zoneHours }: (typeof made)[number]) =>
    zoneMinutesOfDay(parseInstant(time) as number, zoneHours);
  const waking =
    watches === undefined || crew === null
      ? []
      : made.filter((hour) => hour.hands > handsOnDeck(boat, crew, isNearWatchChange(watches, clockOf(hour))));
  return {
    day: made.filter(({ daylight }) => daylight).length,
    night: made.filter(({ daylight }) => !daylight).length,
    watches: watches === undefined ? [] : inWatches(watches, made.map(clockOf)),
    wakingWatch: waking.length,
  };
}

function inWatches(watches: Watches, clocks: readonly number[]): readonly ChangesInWatch[] {
  const began = clocks.map((minutes) => clockText(watchBegan(watches, minutes)));
  return watches.changes.map((from, i) => ({
    from,
    to: watches.changes[(i + 1) % watches.changes.length]!,
    changes: began.filter((clock) => clock === from).length,
  }));
}

const clockText = (minutes: number) =>
  [Math.floor(minutes / 60), minutes % 60].map((part) => `${part}`.padStart(2, '0')).join(':');
