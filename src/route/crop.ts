import { mustBeGiven } from '../given.js';
import { RAD_PER_DEG, wrap180 } from '../units.js';
import type { Track } from './track.js';

/**
 * The part of a forecast a track needs: latitudes, and longitudes from `lonWestDeg` eastwards over `lonWidthDeg` (across
 * the date line if need be).
 */
export interface CropBox {
  readonly latMinDeg: number;
  readonly latMaxDeg: number;
  readonly lonWestDeg: number;
  readonly lonWidthDeg: number;
}

/** The smallest box around the waters of several tracks, of which none lies half a world from the first. */
export function cropBoxAround(tracks: readonly Track[], marginDeg: number): CropBox {
  const [first, ...rest] = tracks.map((track) => cropBoxOf(track, marginDeg));
  return rest.reduce((around, box) => {
    const toWest = wrap180(box.lonWestDeg - around.lonWestDeg);
    const lonWestDeg = around.lonWestDeg + Math.min(0, toWest);
    const east = Math.max(around.lonWidthDeg, toWest + box.lonWidthDeg);
    return {
      latMinDeg: Math.min(around.latMinDeg, box.latMinDeg),
      latMaxDeg: Math.max(around.latMaxDeg, box.latMaxDeg),
      lonWestDeg,
      lonWidthDeg: Math.min(360, east - Math.min(0, toWest)),
    };
  }, first!);
}

/**
 * The box of a track's waters with a margin on every side, in degrees of arc. One box, not a band that bends with the
 * track, because a grid in memory is a box anyway.
 * @throws InputError where the track is none
 * @example
 * cropBoxOf(layTrack(sample.route), 3)
 * // { latMinDeg: 11.11…, latMaxDeg: 31.13…, lonWestDeg: -64.35…, lonWidthDeg: 52.50… }
 */
export function cropBoxOf(track: Track, marginDeg: number): CropBox {
  mustBeGiven(track, 'courseDeg', 'track', 'layTrack');
  let [latMin, latMax, east, eastMin, eastMax] = [90, -90, 0, 0, 0];
  track.latDeg.forEach((latDeg, i) => {
    latMin = Math.min(latMin, latDeg);
    latMax = Math.max(latMax, latDeg);
    if (i > 0) east += wrap180(track.lonDeg[i]! - track.lonDeg[i - 1]!);
    eastMin = Math.min(eastMin, east);
    eastMax = Math.max(eastMax, east);
  });
  const farthest = Math.min(85, Math.max(Math.abs(latMin), Math.abs(latMax)));
  const lonMargin = marginDeg / Math.cos(farthest * RAD_PER_DEG);
  return {
    latMinDeg: latMin - marginDeg,
    latMaxDeg: latMax + marginDeg,
    lonWestDeg: track.lonDeg[0]! + eastMin - lonMargin,
    lonWidthDeg: Math.min(360, eastMax - eastMin + 2 * lonMargin),
  };
}
