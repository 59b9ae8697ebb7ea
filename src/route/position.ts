import type { Position } from '../geo/geo.js';
import { wrapLon } from '../units.js';

const DECIMAL = /^[+-]?\d+(?:\.\d+)?$/;
// Degrees, minutes and seconds with the marks sailors use, the hemisphere before or behind: 16°52.8'N, N 16 52.8, 16-52-48 N.
const DEGREES_MINUTES =
  /^([NSEW])?\s*(\d{1,3}(?:\.\d+)?)(?:\s*[°º*d\s-]\s*(?:(\d{1,2}(?:\.\d+)?)\s*(?:['’′m\s-]\s*(?:(\d{1,2}(?:\.\d+)?)\s*["”″]?\s*)?)?)?)?([NSEW])?$/i;

// The pattern tries blanks in several places, so a cell full of them would take for ever.
const LONGEST_ANGLE = 40;

// A blank parts two angles only where a letter makes clear what belongs to which.
const PARTED = [/^([^,;]*)[,;]([^,;]*)$/, /^(.*[NS])\s+([^NS]+)$/i, /^([NS][^EW]*)\s([EW].*)$/i];

/**
 * Reads a position `LAT,LON` in degrees: decimal, or degrees and minutes with a hemisphere (`16.88,-24.98`,
 * `16°52.8'N 024°59.0'W`). A comma or semicolon parts the two, or a blank where latitude or longitude bear letters.
 * Undefined if it is none.
 * @example
 * parsePosition("16°52.8'N 24°59.0'W") // { latDeg: 16.88, lonDeg: -24.98… }
 * parsePosition('north of here') // undefined
 */
export function parsePosition(text: string): Position | undefined {
  const trimmed = text.trim();
  if (trimmed.length > 2 * LONGEST_ANGLE) return undefined;
  for (const parted of PARTED) {
    const [, lat, lon] = parted.exec(trimmed) ?? [];
    const [latDeg, lonDeg] = [parseLatitude(lat ?? ''), parseLongitude(lon ?? '')];
    if (latDeg !== undefined && lonDeg !== undefined) return { latDeg, lonDeg };
  }
  return undefined;
}

/** Reads a latitude in decimal degrees (north positive) or degrees and minutes; undefined if it is not one. */
export function parseLatitude(text: string): number | undefined {
  const value = parseAngle(text, 'N', 'S');
  return value !== undefined && Math.abs(value) <= 90 ? value : undefined;
}

/** Reads a longitude (east positive, −180 to 180 or 0 to 360) into −180 ≤ x < 180; undefined if it is not one. */
export function parseLongitude(text: string): number | undefined {
  const value = parseAngle(text, 'E', 'W');
  return value !== undefined && value >= -180 && value <= 360 ? wrapLon(value) : undefined;
}

function parseAngle(text: string, positive: string, negative: string): number | undefined {
  const trimmed = text.trim();
  // Adding 0 turns −0 into 0, and so does taking from it below.
  if (DECIMAL.test(trimmed)) return Number(trimmed) + 0;
  if (trimmed.length > LONGEST_ANGLE) return undefined;
  const match = DEGREES_MINUTES.exec(trimmed);
  if (match === null) return undefined;
  const [, before, degrees, minutes, seconds, behind] = match;
  const letter = (before ?? behind)?.toUpperCase();
  if (letter === undefined || (before !== undefined && behind !== undefined)) return undefined;
  if (letter !== positive && letter !== negative) return undefined;
  const [min, sec] = [Number(minutes ?? 0), Number(seconds ?? 0)];
  if (min >= 60 || sec >= 60) return undefined;
  // A fraction belongs to the last part given.
  if ((minutes !== undefined && degrees!.includes('.')) || (seconds !== undefined && minutes!.includes('.')))
    return undefined;
  const size = Number(degrees) + min / 60 + sec / 3600;
  if (size > 180) return undefined;
  return letter === positive ? size : 0 - size;
}
