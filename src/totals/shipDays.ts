import type { Hour, Passage } from '../passage/passage.js';
import { type MoonPhase, moonAt, moonTimesAt, sunTimesAt, twilightAt } from '../sun/sun.js';
import { isoUtc, parseInstant } from '../time.js';
import { zoneClock } from '../zoneTime.js';

/** One day by the ship's clock, and its lights where she is at those times; before departure and after arrival where she is then. Instants are UTC; null where there is none that day. */
export interface ShipDay {
  readonly date: string;
  /** What the clock is ahead of UTC at the day's first hour. */
  readonly zoneHours: number;
  /** Rows of the log: the first, and the one after the last. */
  readonly fromRow: number;
  readonly toRow: number;
  readonly dawn: string | null;
  readonly sunrise: string | null;
  readonly sunset: string | null;
  readonly dusk: string | null;
  readonly moonPhase: MoonPhase;
  readonly moonLitShare: number;
  readonly moonrise: string | null;
  readonly moonset: string | null;
}

/** The days of a passage by the ship's clock. */
export function shipDaysOf({ hours }: Pick<Passage, 'hours'>): ShipDay[] {
  const starts = hours.flatMap((hour, row) => (row === 0 || dateOf(hour) !== dateOf(hours[row - 1]!) ? [row] : []));
  return starts.map((fromRow, n) => {
    const toRow = starts[n + 1] ?? hours.length;
    const rows = hours.slice(fromRow, toRow);
    const middle = rows[rows.length >> 1]!;
    const instant = parseInstant(middle.time) as number;
    const moon = moonAt(instant, middle.latDeg, middle.lonDeg);
    /** When it comes for the middle of the day, and then for where she is at that time. */
    const told = (timeAt: (epochSeconds: number, latDeg: number, lonDeg: number) => number | undefined) => {
      const about = timeAt(instant, middle.latDeg, middle.lonDeg);
      if (about === undefined) return null;
      const { latDeg, lonDeg } = rows.filter(({ time }) => (parseInstant(time) as number) <= about).at(-1) ?? rows[0]!;
      const there = timeAt(instant, latDeg, lonDeg);
      return there === undefined ? null : isoUtc(there);
    };
    return {
      date: dateOf(hours[fromRow]!),
      zoneHours: hours[fromRow]!.zoneHours,
      fromRow,
      toRow,
      dawn: told((...at) => twilightAt(...at).dawnEpochSeconds),
      sunrise: told((...at) => sunTimesAt(...at).sunriseEpochSeconds),
      sunset: told((...at) => sunTimesAt(...at).sunsetEpochSeconds),
      dusk: told((...at) => twilightAt(...at).duskEpochSeconds),
      moonPhase: moon.phase,
      moonLitShare: moon.illuminatedShare,
      moonrise: told((...at) => moonTimesAt(...at).moonriseEpochSeconds),
      moonset: told((...at) => moonTimesAt(...at).moonsetEpochSeconds),
    };
  });
}

const dateOf = ({ time, zoneHours }: Hour) => zoneClock(parseInstant(time) as number, zoneHours).date;
