import type { Hour } from '../passage/passage.js';
import { awsLimitAt, isLimit, isOver, type Window } from '../sail/sail.js';

/** Hours in gusts over this share of a limit are told. */
const NEAR_SHARE = 0.8;

/** Whether the gust of an hour is over four fifths of what a window allows, as apparent or as true wind. */
export function isNearLimit({ awsMaxKn, twsMaxKn }: Window, { awaDeg, gustAwsKn, gustKn }: Hour): boolean {
  if (awaDeg !== null && isLimit(awsMaxKn) && isOver(gustAwsKn, NEAR_SHARE * awsLimitAt(awsMaxKn, Math.abs(awaDeg))))
    return true;
  return isLimit(twsMaxKn) && isOver(gustKn, NEAR_SHARE * twsMaxKn);
}
