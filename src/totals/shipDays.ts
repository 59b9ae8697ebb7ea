import type { Hour, Passage } from '../passage/passage.js';
import { type MoonPhase, moonAt, moonTimesAt, sunTimesAt, twilightAt } from '../sun/sun.js';
import { isoUtc, parseInstant } from '../time.js';
import { zoneClock } from '../zoneTime.js';

/** One day by the ship's clock, and its lights where she is at its middle. Instants are UTC; null where there is none that day. */
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
    const { latDeg, lonDeg, time } = hours[(fromRow + toRow) >> 1]!;
    const at = [parseInstant(time) as number, latDeg, lonDeg] as const;
    const [sun, twilight, moon, moonTimes] = [sunTimesAt(...at), twilightAt(...at), moonAt(...at), moonTimesAt(...at)];
    const told = (epochSeconds: number | undefined) => (epochSeconds === undefined ? null : isoUtc(epochSeconds));
    return {
      date: dateOf(hours[fromRow]!),
      zoneHours: hours[fromRow]!.zoneHours,
      fromRow,
      toRow,
      dawn: told(twilight.dawnEpochSeconds),
      sunrise: told(sun.sunriseEpochSeconds),
      sunset: told(sun.sunsetEpochSeconds),
      dusk: told(twilight.duskEpochSeconds),
      moonPhase: moon.phase,
      moonLitShare: moon.illuminatedShare,
      moonrise: told(moonTimes.moonriseEpochSeconds),
      moonset: told(moonTimes.moonsetEpochSeconds),
    };
  });
}

const dateOf = ({ time, zoneHours }: Hour) => zoneClock(parseInstant(time) as number, zoneHours).date;
