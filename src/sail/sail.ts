import { heldBetween } from '../rising.js';

/**
 * Every kind of sail a boat file may name.
 * @example
 * SAIL_KINDS // ['full-roach-main', 'square-top-main', 'pin-head-main', …]
 */
export const SAIL_KINDS = [
  'full-roach-main',
  'square-top-main',
  'pin-head-main',
  'wing-sail',
  'trysail',
  'self-tacking-jib',
  'overlapping-genoa',
  'staysail',
  'heavy-weather-jib',
  'storm-jib',
  'code-zero',
  'gennaker',
  'asymmetric-reaching-light',
  'asymmetric-reaching',
  'asymmetric-reaching-heavy',
  'asymmetric-running',
  'asymmetric-running-heavy',
  'symmetric-cruising',
  'vented-downwind',
  'poled-out-headsail',
  'twin-headsails',
] as const;

/** What sort of sail. */
export type SailKind = (typeof SAIL_KINDS)[number];

/** A limit by apparent wind angle: [angle, knots] points in rising angle, linear between, held beyond the ends. */
export type LimitByAngle = readonly (readonly [awaDeg: number, awsKn: number])[];

/**
 * The apparent wind a sail may be carried in. `awsMaxKn` and `twsMaxKn` are limits in the gust, `awsMaxKn` read at the
 * mean AWA; `awsMinKn` is the mean AWS under which the sail collapses. What is null or absent is no limit; in a boat file
 * null says so, and what is absent follows from the kind.
 */
export interface Window {
  readonly awaMinDeg: number;
  readonly awaMaxDeg: number;
  readonly awsMinKn?: number | null;
  readonly awsMaxKn?: number | LimitByAngle | null;
  readonly twsMaxKn?: number | null;
}

/** What a sail is asked about: mean apparent wind, and the limit gust as apparent and as true wind over the water. */
export interface WindOnSail {
  readonly awaDeg: number;
  readonly awsKn: number;
  readonly gustAwsKn: number;
  readonly gustTwsKn: number;
}

/** Why a sail may not be carried: its angles or collapse speed (`window`), or the limit gust (`gust`). */
export type WindowBreach = 'window' | 'gust';

/** The first breach of a window, angles and collapse speed before gusts; undefined where the sail may be carried. */
export function windowBreach(window: Window, wind: WindOnSail): WindowBreach | undefined {
  const awa = Math.abs(wind.awaDeg);
  if (awa < window.awaMinDeg || awa > window.awaMaxDeg) return 'window';
  const { awsMinKn, awsMaxKn, twsMaxKn } = window;
  if (isLimit(awsMinKn) && wind.awsKn < awsMinKn) return 'window';
  if (isLimit(awsMaxKn) && isOver(wind.gustAwsKn, awsLimitAt(awsMaxKn, awa))) return 'gust';
  if (isLimit(twsMaxKn) && isOver(wind.gustTwsKn, twsMaxKn)) return 'gust';
  return undefined;
}

/** Whether a gust or wave is over a limit, and not by rounding: forecasts are held in single precision, 2.2 m as a hair more. */
export const isOver = (met: number, limit: number): boolean => met > limit + 1e-6 * Math.max(1, limit);

/** Whether a limit is one, and not none. */
export const isLimit = <Limit>(limit: Limit | null | undefined): limit is Limit =>
  limit !== undefined && limit !== null;

/** The highest of a limit by angle; undefined where it is none. */
export function highestLimit(limit: Window['awsMaxKn']): number | undefined {
  if (!isLimit(limit)) return undefined;
  return typeof limit === 'number' ? limit : Math.max(...limit.map(([, kn]) => kn));
}

/** The apparent wind angles at which all of some windows are open; the first over the second where there is none. */
export const commonAngles = (windows: readonly Window[]): readonly [fromDeg: number, toDeg: number] => [
  Math.max(0, ...windows.map(({ awaMinDeg }) => awaMinDeg)),
  Math.min(180, ...windows.map(({ awaMaxDeg }) => awaMaxDeg)),
];

/** The AWS limit at an apparent wind angle, 0 to 180. */
export function awsLimitAt(limit: number | LimitByAngle, awaDeg: number): number {
  if (typeof limit === 'number') return limit;
  return heldBetween(limit, awaDeg) ?? Number.POSITIVE_INFINITY;
}
