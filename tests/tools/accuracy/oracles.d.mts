interface Place {
  readonly latDeg: number;
  readonly lonDeg: number;
}

interface Line {
  readonly courseDeg: number;
  readonly distanceNm: number;
}

interface Body {
  /** Radius of the equator, metres, and flattening. */
  readonly a: number;
  readonly f: number;
}

export const ELLIPSOID: Body;
export function geodesicBetween(body: Body, from: Place, to: Place): Line;
export function rhumbBetween(body: Body, from: Place, to: Place): Line;
