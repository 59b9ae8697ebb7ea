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
}

/** Measures of a sail from which its area and class follow. */
export interface SailMeasures {
  /** Area of a main over that of its triangle P, E. */
  readonly roachFactor?: number;
  /** LP %: luff perpendicular over J. */
  readonly overlapPercent?: number;
  /** Half width over foot. */
  readonly midGirthRatio?: number;
  readonly luffM?: number;
  /** Luff perpendicular. */
  readonly lpM?: number;
  /** Width from the middle of the luff to the middle of the leech. */
  readonly halfWidthM?: number;
  readonly footM?: number;
}
