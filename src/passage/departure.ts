import { faultList } from '../errors.js';
import type { Track } from '../route/route.js';
import { isoUtc, parseInstant } from '../time.js';
import { wrap360 } from '../units.js';
import { type Climatology, type Coverage, coverageOf, type Forecast, type WeatherAt } from '../weather/weather.js';
import { saidOfInstant, says } from '../wording.js';
import type { SettledOptions } from './options.js';

/** The first and last instant at which a forecast has wind; undefined if it has none. */
export function windTimesOf(forecast: Forecast): Pick<Coverage, 'fromEpochSeconds' | 'toEpochSeconds'> | undefined {
  const winds = forecast.grids.filter((grid) => grid.fields.windEastKn !== undefined);
  if (winds.length === 0) return undefined;
  return winds.reduce(
    (times, { epochSeconds }) => ({
      fromEpochSeconds: Math.min(times.fromEpochSeconds, epochSeconds[0]!),
      toEpochSeconds: Math.max(times.toEpochSeconds, epochSeconds.at(-1)!),
    }),
    { fromEpochSeconds: Number.POSITIVE_INFINITY, toEpochSeconds: Number.NEGATIVE_INFINITY },
  );
}

/** The departure in seconds, or every reason why the passage cannot start. */
export function checkedDeparture(
  departure: string,
  { forecast, climatology }: { readonly forecast: Forecast; readonly climatology: Climatology | undefined },
  weatherAt: WeatherAt,
  track: Track,
  { windShiftHours }: Pick<SettledOptions, 'windShiftHours'>,
): number {
  const faults = faultList();
  const { file } = forecast;
  const text = String(departure);
  const instant = parseInstant(text);
  if (typeof instant === 'string') faults.add({ file: 'departure', ...saidOfInstant(instant, text) });
  const [latDeg, lonDeg] = [track.latDeg[0]!, track.lonDeg[0]!];
  const place = `${latDeg.toFixed(2)}, ${lonDeg.toFixed(2)}`;
  const checkWind = (at: number) => {
    if (weatherAt(latDeg, lonDeg, at) !== undefined) return;
    const got = `none at ${place} at ${isoUtc(at)} (a point on land, or a gap too long to bridge)`;
    faults.add({ file, ...says.startWindless(got) });
  };
  // A climatology knows all times: it is enough that there is wind at the start.
  if (climatology !== undefined) {
    if (typeof instant === 'number') checkWind(instant);
    faults.throwIfAny();
    return instant as number;
  }
  const covers = coverageOf(forecast);
  if (covers === undefined) faults.add({ file, ...says.noWindRows() });
  if (covers === undefined || typeof instant === 'string') {
    faults.throwIfAny();
    return Number.NaN;
  }
  // A crop far from the forecast keeps nothing: then the file's own times are told, with the place it covers.
  const times = windTimesOf(forecast) ?? covers;
  const [from, to] = [isoUtc(times.fromEpochSeconds), isoUtc(times.toEpochSeconds)];
  if (from === to) faults.add({ file, ...says.oneTime(from) });
  const inTime = instant >= times.fromEpochSeconds && instant < times.toEpochSeconds;
  if (!inTime && from !== to) faults.add({ file, ...says.departureOutside(from, to, windShiftHours, isoUtc(instant)) });
  if (!isInside(covers, latDeg, lonDeg)) faults.add({ file, ...says.startOutside(coverageText(covers), place) });
  faults.throwIfAny();
  checkWind(instant);
  faults.throwIfAny();
  return instant;
}

// Rounding in longitudes that were turned round the globe is no step outside.
const EDGE_DEG = 1e-6;

function isInside(covers: Coverage, latDeg: number, lonDeg: number): boolean {
  const eastOfWest = wrap360(lonDeg - covers.lonWestDeg);
  const inLon = eastOfWest <= covers.lonEastDeg - covers.lonWestDeg + EDGE_DEG || eastOfWest >= 360 - EDGE_DEG;
  return latDeg >= covers.latMinDeg - EDGE_DEG && latDeg <= covers.latMaxDeg + EDGE_DEG && inLon;
}

function coverageText({ latMinDeg, latMaxDeg, lonWestDeg, lonEastDeg }: Coverage): string {
  const shown = (value: number) => `${Number(value.toFixed(3))}`;
  return `latitude ${shown(latMinDeg)} to ${shown(latMaxDeg)}, longitude ${shown(lonWestDeg)} to ${shown(lonEastDeg)}`;
}
