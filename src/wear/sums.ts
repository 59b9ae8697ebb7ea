/** A stretch in the life of a cloth. */
export interface ClothHour {
  readonly minutes: number;
  /** How often the stretch comes: 1 in a log. */
  readonly times: number;
  /** Share of its area that is set; null: it is not set. */
  readonly areaShare: number | null;
  /** AWS in the gust. */
  readonly gustAwsKn: number;
  /** UV index times hours overhead meanwhile. */
  readonly uvIndexHours: number;
  /** Whether what is not set of it lies furled or stowed in the open; else it is below, out of the sun. */
  readonly inTheOpen: boolean;
  readonly floggingMinutes: number;
  readonly slattingMinutes: number;
}

/**
 * Load on the cloth, as a share of what it is made for: AWS² × √(share of the area). Force for each width of cloth is wind pressure
 * times radius of curvature, as in any membrane, and the radius goes with the size of what is set.
 */
export const loadOf = (gustAwsKn: number, areaShare: number, designAwsKn: number): number =>
  (gustAwsKn / designAwsKn) ** 2 * Math.sqrt(areaShare);

/**
 * Hours set, each weighed with its load to a power, Palmgren-Miner fashion. A load over what the cloth is made for counts as that:
 * the power would make an hour of storm a lifetime, and beyond it a sail bursts rather than wears.
 */
export const loadSum = (hours: readonly ClothHour[], designAwsKn: number, exponent: number): number =>
  sum(hours, ({ minutes, areaShare, gustAwsKn }) =>
    areaShare === null ? 0 : (minutes / 60) * Math.min(1, loadOf(gustAwsKn, areaShare, designAwsKn)) ** exponent,
  );

/** UV-index hours that reach the cloth: what is set in full, what lies in the open through its cover. */
export const uvSum = (hours: readonly ClothHour[], cover: number): number =>
  sum(hours, ({ areaShare, uvIndexHours, inTheOpen }) => {
    const set = areaShare ?? 0;
    return uvIndexHours * (set + (inTheOpen ? (1 - set) * cover : 0));
  });

/** Sailing hours that flogging and slatting count as, by the hours that an hour of each counts as. */
export const handlingSum = (hours: readonly ClothHour[], floggingFactor: number, slattingFactor: number): number =>
  sum(
    hours,
    ({ floggingMinutes, slattingMinutes }) =>
      (floggingMinutes * floggingFactor + slattingMinutes * slattingFactor) / 60,
  );

/** Hours set. */
export const hoursSet = (hours: readonly ClothHour[]): number =>
  sum(hours, ({ minutes, areaShare }) => (areaShare === null ? 0 : minutes / 60));

const sum = (hours: readonly ClothHour[], of: (hour: ClothHour) => number): number =>
  hours.reduce((total, hour) => total + hour.times * of(hour), 0);
