import type { Fault } from '../errors.js';
import type { Position } from '../geo/geo.js';
import { positionText } from '../geo/geo.js';
import { daylightAt, nightAround } from '../sun/sun.js';
import { isoUtc, parseInstant } from '../time.js';
import { wrap360 } from '../units.js';
import { type Forecast, type StrongWind, strongWindNear } from '../weather/weather.js';
import { says } from '../wording.js';
import type { Moment } from './hour.js';
import type { Hour } from './log.js';
import type { SettledOptions } from './options.js';
import type { SailChange } from './why.js';

/** Mean winds that a navigator is told of: the lower ends of forces 7, 8 and 10 in the WMO's table, knots. */
export const STRONG_WINDS = [
  { overKn: 28, name: 'near gale' },
  { overKn: 34, name: 'gale' },
  { overKn: 48, name: 'storm' },
] as const;

const GALE_KN = 34;
const LOOK_OUT_NM = 200;

/** Warnings of strong mean wind over the ground: on the track, and within 200 Nm of the boat at that time. */
export function windWarnings(
  hours: readonly Hour[],
  forecast: Forecast,
  { maxGapHours }: Pick<SettledOptions, 'maxGapHours'>,
): Fault[] {
  const { file } = forecast;
  const onTrack = STRONG_WINDS.flatMap(({ overKn, name }): Fault[] => {
    const strong = hours.filter((hour) => hour.groundTwsKn > overKn);
    if (strong.length === 0) return [];
    const most = strong.reduce((a, b) => (b.groundTwsKn > a.groundTwsKn ? b : a));
    const [first, highest] = [whenWhere(strong[0]!), `${most.groundTwsKn.toFixed(1)} kn ${whenWhere(most)}`];
    return [{ file, ...says.strongWind(overKn, name, hoursOf(strong), first, highest) }];
  });
  return [...onTrack, ...galeNearby(hours, forecast, maxGapHours)];
}

function galeNearby(hours: readonly Hour[], forecast: Forecast, maxGapHours: number): Fault[] {
  const near = strongWindNear(forecast, GALE_KN, LOOK_OUT_NM, maxGapHours);
  const seen = hours.flatMap((hour) => {
    const gale = near(hour.latDeg, hour.lonDeg, parseInstant(hour.time) as number);
    return gale === undefined ? [] : [{ hour, gale }];
  });
  if (seen.length === 0) return [];
  const nearest = seen.reduce((a, b) => (b.gale.distanceNm < a.gale.distanceNm ? b : a));
  const strongest = seen.reduce((a, b) => (b.gale.strongestKn > a.gale.strongestKn ? b : a));
  const whereTo = ({ distanceNm, bearingDeg }: StrongWind) =>
    distanceNm === 0 ? 'on the boat' : `${distanceNm.toFixed(0)} Nm off, bearing ${wrap360(Math.round(bearingDeg))}°,`;
  return [
    {
      file: forecast.file,
      ...says.galeNear(
        GALE_KN,
        LOOK_OUT_NM,
        hoursOf(seen.map(({ hour }) => hour)),
        `${whereTo(nearest.gale)} at ${nearest.hour.time}`,
        `${strongest.gale.strongestKn.toFixed(1)} kn at ${strongest.hour.time}`,
      ),
    },
  ];
}

/** A warning of an arrival in the dark, with the minutes to lose or gain; none by daylight. */
export function arrivalWarning({ latDeg, lonDeg }: Position, { epochSeconds }: Moment): Fault[] {
  if (daylightAt(epochSeconds, latDeg, lonDeg)) return [];
  const { sunsetEpochSeconds: sunset, sunriseEpochSeconds: sunrise } = nightAround(epochSeconds, latDeg, lonDeg);
  const toLose =
    sunrise === undefined
      ? 'no sunrise within two days'
      : `${Math.ceil((sunrise - epochSeconds) / 60)} min to lose until sunrise at ${isoUtc(sunrise)}`;
  const toGain =
    sunset === undefined
      ? 'no sunset in the two days before'
      : `${Math.ceil((epochSeconds - sunset) / 60)} min to gain for sunset at ${isoUtc(sunset)}`;
  return [{ file: 'passage', ...says.arrivalDark(isoUtc(epochSeconds), toLose, toGain) }];
}

/** A warning of changes that want more hands than there are. */
export function handsWarning(changes: readonly SailChange[], crew: number | null): Fault[] {
  const short = changes.filter(({ handsShort }) => handsShort > 0);
  if (crew === null || short.length === 0) return [];
  return [{ file: 'passage', ...says.handsShort(crew, short.length, short[0]!.time) }];
}

const whenWhere = ({ time, latDeg, lonDeg }: Hour) => `at ${time} at ${positionText(latDeg, lonDeg)}`;

const hoursOf = (hours: readonly Hour[]) =>
  Number((hours.reduce((sum, hour) => sum + hour.minutes, 0) / 60).toFixed(1));
