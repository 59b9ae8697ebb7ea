import type { Hour, Passage } from '../passage/passage.js';
import { flowTowards, sailingWind, speedOf, type VelocityKn, windFrom } from '../wind/wind.js';

type Rules = Pick<Passage['options']['house'], 'gustFactor' | 'gustMargin' | 'squalls' | 'squallFactor'>;

/** Speeds apart by less are one: a plan read from a file has 6 decimals. */
const ALIKE_KN = 1e-3;

/**
 * AWS in the gust that is to be met, where the limit gust of the log has the skipper's care in it. The margin on the gust and the
 * allowance for squalls are to keep her within her limits; they are no wind that blows, and a sail does not wear by them. The margin is taken
 * off the gust over the ground; where a squall stands before it nobody knows from the log what gust was forecast, and the mean times the
 * gust factor is taken.
 */
export function gustAwsMet(hour: Hour, { gustFactor, gustMargin, squalls, squallFactor }: Rules): number {
  const {
    headingDeg,
    leewayDeg,
    twaDeg,
    stwKn,
    gustAwsKn,
    gustKn,
    groundTwdDeg,
    groundTwsKn: meanKn,
    setDeg,
    driftKn,
  } = hour;
  if ((gustMargin === 1 && !squalls) || headingDeg === null || stwKn === null) return gustAwsKn;
  const current = flowTowards(driftKn ?? 0, setDeg ?? 0);
  const limitKn = overTheGround(gustKn, groundTwdDeg, current);
  const isSquall = squalls && Math.abs(limitKn - meanKn * squallFactor) < ALIKE_KN;
  const forecastKn = limitKn / gustMargin;
  const metKn = Math.max(meanKn, isSquall ? Math.min(forecastKn, meanKn * gustFactor) : forecastKn);
  const wind = sailingWind(windFrom(metKn, groundTwdDeg), current);
  const courseDeg = headingDeg - ((twaDeg ?? 0) < 0 ? -1 : 1) * (leewayDeg ?? 0);
  return Math.min(gustAwsKn, speedOf(sailingWind(wind, flowTowards(stwKn, courseDeg))));
}

/** The speed over the ground of a wind from a direction that has a given speed over the water. */
function overTheGround(overWaterKn: number, fromDeg: number, current: VelocityKn): number {
  const unit = windFrom(1, fromDeg);
  const along = unit.eastKn * current.eastKn + unit.northKn * current.northKn;
  return along + Math.sqrt(Math.max(0, overWaterKn ** 2 - speedOf(current) ** 2 + along ** 2));
}
