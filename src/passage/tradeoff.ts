import type { CurvePoint, Ending } from '../choice/choice.js';
import { isoUtc } from '../time.js';

/** The earliest arrival with at most so many sail changes. */
export interface TradeoffPoint {
  readonly changes: number;
  readonly arrival: string;
  /** From departure. */
  readonly hours: number;
  /** Whether the passage is sailed with so many. */
  readonly chosen: boolean;
  /** Whether it does not arrive within the forecast: what is left is reckoned at the mean speed so far. */
  readonly estimated: boolean;
}

/** Arrivals beyond this many hours are estimates of nothing. */
const LONGEST_HOURS = 8760;

/**
 * The curve as a record. Its arrivals are the search's, by tables; the chosen one is sailed without them, and what it differs
 * by, minutes mostly, is added to all. With a horizon she may be sailed with another number of changes than was chosen with all known.
 */
export function tradeoffOf(
  curve: readonly CurvePoint[],
  chosen: Ending,
  departureEpochSeconds: number,
  sailedMinutes: number | undefined,
  sailedChanges: number,
): TradeoffPoint[] {
  const last = curve.at(-1);
  // A price by watch may choose more changes than the fewest that arrive as early.
  const added = last === undefined ? 0 : Math.max(0, chosen.changes - last.changes, sailedChanges - last.changes);
  const points = [...curve, ...Array.from({ length: added }, (_, i) => ({ ...last!, changes: last!.changes + i + 1 }))];
  const tabled = points.find(({ changes }) => changes === chosen.changes);
  const shift =
    tabled === undefined || tabled.estimated || sailedMinutes === undefined ? 0 : sailedMinutes - tabled.minutes;
  return points.flatMap(({ changes, minutes, estimated }) => {
    const hours = (minutes + shift) / 60;
    if (!(hours <= LONGEST_HOURS)) return [];
    const arrival = isoUtc(departureEpochSeconds + hours * 3600);
    return [{ changes, arrival, hours, chosen: changes === sailedChanges, estimated }];
  });
}
