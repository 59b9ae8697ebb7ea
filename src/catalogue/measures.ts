/** Rig dimensions, metres, by the usual letters; each may be absent. */
export interface Rig {
  /** I: height of the fore-triangle, from the deck to the forestay at the mast. */
  readonly iM?: number;
  /** J: base of the fore-triangle, from the mast to the forestay at the deck. */
  readonly jM?: number;
  /** P: hoist of the main along the mast. */
  readonly pM?: number;
  /** E: foot of the main along the boom. */
  readonly eM?: number;
  /** Height to which flying sails are hoisted; absent: I. */
  readonly ispM?: number;
  /** How far a bowsprit reaches beyond the forestay; 0: none. */
  readonly spritM?: number;
  /** Length of the spinnaker or whisker pole; 0: none. */
  readonly poleM?: number;
  /** Whether there is an inner forestay, fixed or to be rigged. */
  readonly innerForestay?: boolean;
  /** Height of the boom over the deck at the mast. */
  readonly boomHeightM?: number;
  /** How far the boom goes off the centreline before it meets a shroud. */
  readonly boomLimitDeg?: number;
}

/** Measures of a sail from which its area, class and window follow. */
export interface SailMeasures {
  /** Mains: area over that of the triangle P, E. */
  readonly roachFactor?: number;
  /** Overlapping genoa: luff perpendicular over J (LP %), 100 to 150 %. */
  readonly overlapPercent?: number;
  /** Sails set flying: half width over foot; of a code zero 0.50 to 0.75. */
  readonly midGirthRatio?: number;
  /** Headsails: with `lpM` and `halfWidthM` it gives the area. */
  readonly luffM?: number;
  /** Luff perpendicular: from the clew square to the luff. */
  readonly lpM?: number;
  /** From the middle of the luff to the middle of the leech. */
  readonly halfWidthM?: number;
  /** Sails set flying: with `halfWidthM` it gives the mid-girth ratio. */
  readonly footM?: number;
}
