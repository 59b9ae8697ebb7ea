import type { Boat, Watches } from '../boat/boat.js';

/** Two watches, turn about: common practice of a small crew. */
const USUAL_TEAMS = 2;

/**
 * People on deck for a sail change: the watch, at least one; near a change of watch the team that goes below and the one that comes up;
 * the whole crew where the boat file tells of no watches.
 */
export function handsOnDeck({ watches }: Pick<Boat, 'watches'>, crew: number, bothWatches = false): number {
  if (watches === undefined) return crew;
  const teamsAbout = bothWatches ? 2 : 1;
  return Math.min(crew, Math.max(1, Math.floor((crew * teamsAbout) / (watches.teams ?? USUAL_TEAMS))));
}

const MINUTES_OF_DAY = 1440;
/** Both watches are awake for so long on either side of the change: a placeholder. */
const NEAR_MINUTES = 30;

/**
 * Whether a time of day, in minutes of the ship's zone time, is within half an hour of a change of watch, its ends among it; never
 * without watches.
 */
export function isNearWatchChange(watches: Watches | undefined, minutesOfDay: number): boolean {
  return (watches?.changes ?? []).some((change) => {
    const apart = Math.abs(minutesOfDay - minutesOf(change)) % MINUTES_OF_DAY;
    return Math.min(apart, MINUTES_OF_DAY - apart) <= NEAR_MINUTES;
  });
}

const minutesOf = (time: string): number => Number(time.slice(0, 2)) * 60 + Number(time.slice(3));

/** Watches of four hours: common practice, a placeholder where the boat file gives none. */
export const DEFAULT_WATCHES: Watches = { changes: ['00:00', '04:00', '08:00', '12:00', '16:00', '20:00'] };

/** When the watch on deck at a time of day began, in minutes of the day. */
export function watchBegan({ changes }: Watches, minutesOfDay: number): number {
  const began = changes.map(minutesOf);
  return began.filter((minutes) => minutes <= minutesOfDay).at(-1) ?? began.at(-1)!;
}
