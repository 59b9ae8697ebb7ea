import type { Boat } from '../boat/boat.js';
import type { PolarSet } from '../polar/polar.js';
import { aboardOn, breachOf, sailablePlans } from '../speed/speed.js';
import { windFrom } from '../wind/wind.js';
import type { SettledCrossoverOptions } from './record.js';

/** A plan at a wind and angle where it may be carried and makes way. */
export interface Ranked {
  readonly id: string;
  readonly stwKn: number;
  readonly awaDeg: number;
  readonly awsKn: number;
  readonly gustAwsKn: number;
}

/** The plans that may be carried at a wind and an angle to the course, the fastest first. */
export type Ranking = (twsKn: number, twaDeg: number) => readonly Ranked[];

/** Ranks a boat's plans by their speed through the water by some polars; steady course and speed in the limit gust, no current. */
export function rankingOf(
  boat: Boat,
  polars: PolarSet,
  { skipperFactor, without, night, gustFactor }: SettledCrossoverOptions,
): Ranking {
  const plans = sailablePlans(boat, polars, skipperFactor, without).filter(
    ({ daylightOnly }) => !(night && daylightOnly),
  );
  return (twsKn, twaDeg) => {
    const gustTwsKn = twsKn * gustFactor;
    // The wind from north: a course at an angle to it on the port tack, its apparent wind from starboard.
    const winds = { twsKn, gustTwsKn, gustWind: windFrom(gustTwsKn, 0) };
    const ranked: Ranked[] = [];
    for (const { id, speed, windows } of plans) {
      const stwKn = speed?.at(twsKn, twaDeg);
      if (speed === undefined || stwKn === undefined || stwKn <= 0) continue;
      const felt = aboardOn(speed, winds, (360 - twaDeg) % 360, twaDeg, stwKn);
      if (breachOf(windows, felt) !== undefined) continue;
      ranked.push({ id, stwKn, awaDeg: Math.abs(felt.awaDeg), awsKn: felt.awsKn, gustAwsKn: felt.gustAwsKn });
    }
    return ranked.sort((a, b) => b.stwKn - a.stwKn);
  };
}
