import { isoUtc } from '../time.js';

/** Starts every so many hours from the first to the last instant, both among them where they fall on it; ISO 8601 in UTC. */
export function startsOf(fromEpochSeconds: number, toEpochSeconds: number, everyHours: number): readonly string[] {
  const count = Math.floor((toEpochSeconds - fromEpochSeconds) / (everyHours * 3600) + 1e-9) + 1;
  return Array.from({ length: Math.max(0, count) }, (_, n) => isoUtc(fromEpochSeconds + n * everyHours * 3600));
}
