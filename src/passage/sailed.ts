import type { Change } from './changes.js';
import type { BarReason, HourUnder, Moment } from './hour.js';
import type { Means } from './means.js';

/** One hour as it was sailed. */
export interface SailedHour {
  readonly start: Moment;
  /** With its run. */
  readonly under: HourUnder;
  /** Every sail plan in that hour, where they were tried. */
  readonly tried?: readonly HourUnder[];
  /** What could not be gone over to at its start, and why. */
  readonly notNow?: ReadonlyMap<Means, BarReason>;
  /** The change at its start. */
  readonly change?: Change;
}

/** A passage as it was sailed, up to where it ends. */
export interface SailedPassage {
  readonly hours: readonly SailedHour[];
  /** The sail plans there were to choose from. */
  readonly sails: readonly Means[];
  readonly end: Moment;
  readonly endedBy: 'arrival' | 'forecast-ended' | 'no-wind-data';
}
