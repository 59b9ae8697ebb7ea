import type { Hour, Passage } from '../passage/passage.js';
import { isoUtc, parseInstant } from '../time.js';
import { zoneClock } from '../zoneTime.js';

/** A day's run: the distance made good from noon to noon by the ship's clock; the first from departure, the last to the end. */
export interface DaysRun {
  /** Date of the noon, or of the end, by the ship's clock. */
  readonly date: string;
  readonly from: string;
  readonly to: string;
  readonly hours: number;
  readonly distanceNm: number;
  /** Whether it runs from noon to noon: 24 hours, but for the hour by which the clock was set. */
  readonly whole: boolean;
}

const NOON_SECONDS = 12 * 3600;
const DAY_SECONDS = 24 * 3600;

/** Day's runs by the ship's clock; within a row the way is drawn straight. */
export function noonRunsOf({ hours }: Pick<Passage, 'hours'>): readonly DaysRun[] {
  if (hours.length === 0) return [];
  const starts = hours.map(({ time }) => parseInstant(time) as number);
  const last = hours.at(-1)!;
  const end = starts.at(-1)! + last.minutes * 60;
  const cuts = [
    { at: starts[0]!, isNoon: sinceMidnight(starts[0]!, hours[0]!.zoneHours) === NOON_SECONDS },
    ...noonsOf(hours, starts, end).map((at) => ({ at, isNoon: true })),
    { at: end, isNoon: false },
  ];
  return cuts.slice(1).flatMap(({ at, isNoon }, i) => {
    const before = cuts[i]!;
    const { zoneHours } = hours[rowAt(starts, at)]!;
    if (at <= before.at) return [];
    return [
      {
        date: zoneClock(at, zoneHours).date,
        from: isoUtc(before.at),
        to: isoUtc(at),
        hours: (at - before.at) / 3600,
        distanceNm: distanceAt(hours, starts, at) - distanceAt(hours, starts, before.at),
        whole: before.isNoon && isNoon,
      },
    ];
  });
}

/**
 * Noons between start and end, each by the clock as it stands then: it is set when it comes to noon. One set back comes to noon again an
 * hour later, which is none.
 */
function noonsOf(hours: readonly Hour[], starts: readonly number[], end: number): readonly number[] {
  const noons: number[] = [];
  hours.forEach(({ zoneHours }, row) => {
    const from = starts[row]!;
    const toNoon = (NOON_SECONDS - sinceMidnight(from, zoneHours) + DAY_SECONDS) % DAY_SECONDS || DAY_SECONDS;
    const at = from + toNoon;
    if (at <= (starts[row + 1] ?? end) && !(at - (noons.at(-1) ?? Number.NEGATIVE_INFINITY) < NOON_SECONDS))
      noons.push(at);
  });
  return noons;
}

/** Seconds since midnight by the zone's clock. */
const sinceMidnight = (epochSeconds: number, zoneHours: number) =>
  (((epochSeconds + zoneHours * 3600) % DAY_SECONDS) + DAY_SECONDS) % DAY_SECONDS;

/** The row that holds an instant; the last at the end. */
function rowAt(starts: readonly number[], at: number): number {
  let row = starts.length - 1;
  while (row > 0 && starts[row]! > at) row -= 1;
  return row;
}

function distanceAt(hours: readonly Hour[], starts: readonly number[], at: number): number {
  const row = rowAt(starts, at);
  const { distanceNm, runNm, minutes } = hours[row]!;
  return distanceNm + (minutes > 0 ? (runNm * (at - starts[row]!)) / (minutes * 60) : runNm);
}
