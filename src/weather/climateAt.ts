import { type Climatology, MONTHS } from './climatology.js';
import { type Locator, locatorOf } from './locate.js';
import { noiseOf } from './noise.js';
import { spreadShare } from './rice.js';

/** What `ClimateAt` reads into its last argument. */
export const EAST = 0;
export const NORTH = 1;
export const STEADINESS = 2;

/** Wind of a climatology at a place and instant, knots, and its steadiness, into `out`; false where it has none. */
export type ClimateAt = (latDeg: number, lonDeg: number, epochSeconds: number, out: Float64Array) => boolean;

/**
 * A look-up in a climatology: bilinear in place and linear in time between the middles of months, on components and on the mean speed; by the
 * rule of forecasts where cells are absent, and the same in time. The wind has the direction of the mean vector and the mean speed;
 * from the north where the vector is nought. Of a drawing it is the mean vector with the drawing's disturbance, whose spread follows
 * from mean vector and mean speed as they are there and then, so that it keeps both between cells as well.
 */
export function climateAt(climatology: Climatology): ClimateAt {
  const { lats, lons, wraps, windEastKn, windNorthKn, meanSpeedKn, laterSeconds = 0, draw } = climatology;
  const locator = locatorOf({ epochSeconds: new Float64Array(MONTHS), lats, lons, wraps, fields: {} });
  const months = monthsAround();
  const noise = draw === undefined ? undefined : noiseOf(draw);
  const disturbance = new Float64Array(2);
  return (latDeg, lonDeg, epochSeconds, out) => {
    if (!locator.locate(latDeg, lonDeg)) return false;
    const seconds = epochSeconds - laterSeconds;
    if (!Number.isFinite(seconds)) return false;
    months.seek(seconds);
    const { after } = months;
    let { before, share } = months;
    const firstEast = locator.read(windEastKn, before);
    const secondEast = locator.read(windEastKn, after);
    let eastKn = firstEast * (1 - share) + secondEast * share;
    if (Number.isNaN(eastKn)) {
      // The month that is nearer must be there; both where they are equally near.
      if (Number.isNaN(firstEast) ? share < 0.5 || Number.isNaN(secondEast) : share > 0.5) return false;
      eastKn = Number.isNaN(firstEast) ? secondEast : firstEast;
      if (Number.isNaN(firstEast)) before = after;
      share = 0;
    }
    const northKn = between(locator, windNorthKn, before, after, share);
    const vectorKn = Math.sqrt(eastKn * eastKn + northKn * northKn);
    // A vector longer than the speed is of a few observations; a wind of it has at least its length.
    const speedKn = Math.max(vectorKn, between(locator, meanSpeedKn, before, after, share));
    const steadiness = speedKn > 0 ? vectorKn / speedKn : 0;
    out[STEADINESS] = steadiness;
    if (noise === undefined) {
      const scale = vectorKn > 0 ? speedKn / vectorKn : 0;
      out[EAST] = eastKn * scale;
      out[NORTH] = vectorKn > 0 ? northKn * scale : 0 - speedKn;
    } else {
      noise(seconds, disturbance);
      const spread = speedKn * spreadShare(steadiness);
      out[EAST] = eastKn + spread * disturbance[0]!;
      out[NORTH] = northKn + spread * disturbance[1]!;
    }
    return true;
  };
}

/** A value between two months at the located place. */
function between(locator: Locator, values: Float32Array, before: number, after: number, share: number): number {
  const first = locator.read(values, before);
  return share === 0 ? first : first * (1 - share) + locator.read(values, after) * share;
}

/** The two months whose middles lie about an instant, and how far it is from the first to the second. */
function monthsAround() {
  let [from, to] = [Number.NaN, Number.NaN];
  const around = {
    before: 0,
    after: 0,
    share: 0,
    seek(epochSeconds: number) {
      if (!(epochSeconds >= from && epochSeconds < to)) {
        const date = new Date(epochSeconds * 1000);
        const [year, month] = [date.getUTCFullYear(), date.getUTCMonth()];
        const first = epochSeconds < middleOf(year, month) ? month - 1 : month;
        [from, to] = [middleOf(year, first), middleOf(year, first + 1)];
        around.before = (first + MONTHS) % MONTHS;
        around.after = (first + 1) % MONTHS;
      }
      around.share = (epochSeconds - from) / (to - from);
    },
  };
  return around;
}

/** The middle of a month in seconds; months beyond a year are those of the next or the last. */
const middleOf = (year: number, month: number) => (Date.UTC(year, month, 1) + Date.UTC(year, month + 1, 1)) / 2000;
