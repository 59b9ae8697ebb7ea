import { WEAR } from '../catalogue/catalogue.js';
import { uvIndexHours } from '../sun/sun.js';
import type { ClothHour } from './sums.js';

/** How a sail is kept, which tells what its reference use is. */
export interface Keeping {
  /** Whether it lies furled or stowed in the open when it is not set. */
  readonly inTheOpen: boolean;
  readonly daylightOnly: boolean;
}

/** What the cloth of the reference use is made for. */
export const REFERENCE_DESIGN_KN = 1;

const MONTHS_DAY = ['2027-03-15', '2027-06-15', '2027-09-15', '2027-12-15'];
const HOURS_OF_YEAR = 8760;

/**
 * A year of the reference use, as the hours of a log: on board in a warm sea, under way on whole days with the stated winds, turns
 * and reefs, and else stowed. A sail that is not set in the dark has the same hours set, all of them by day. Its wind is told as a
 * share of what the cloth is made for: it is that of a cloth made for 1 kn.
 */
export function referenceYear({ inTheOpen, daylightOnly }: Keeping): ClothHour[] {
  const { hoursPerYear, latDeg, winds, perDay, daylight } = WEAR.reference;
  const { floggingMinutes: flogging, ozoneDu } = WEAR;
  const [from, to] = daylight.value;
  const floggingADay =
    perDay.sets.value * (flogging.set.value + flogging.douse.value) +
    perDay.reefs.value * (flogging.reef.value + flogging.shakeOut.value) +
    perDay.turns.value * ((flogging.tack.value + flogging.gybe.value) / 2);
  const quarter = 1 / MONTHS_DAY.length;
  return MONTHS_DAY.flatMap((date) =>
    Array.from({ length: 24 }, (_, hour) => {
      const isSet = !daylightOnly || (hour >= from && hour < to);
      const setHours = isSet ? (hoursPerYear.value * quarter) / (daylightOnly ? to - from : 24) : 0;
      const sun = uvIndexHours(Date.parse(`${date}T00:00Z`) / 1000 + hour * 3600, 1, latDeg.value, 0, ozoneDu.value);
      const row = { minutes: 60, uvIndexHours: sun, inTheOpen, floggingMinutes: 0, slattingMinutes: 0 };
      return [
        ...winds.value.map(([ofDesign, share]) => ({
          ...row,
          times: setHours * share,
          areaShare: 1,
          gustAwsKn: ofDesign * REFERENCE_DESIGN_KN,
          floggingMinutes: floggingADay / 24,
          slattingMinutes: (perDay.slattingHours.value * 60) / 24,
        })),
        { ...row, times: (HOURS_OF_YEAR * quarter) / 24 - setHours, areaShare: null, gustAwsKn: 0 },
      ];
    }).flat(),
  );
}
