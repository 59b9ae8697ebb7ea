import type { Fault } from '../errors.js';
import { isoUtc } from '../time.js';
import { wrapLon } from '../units.js';
import { says } from '../wording.js';
import { shownDeg } from './axis.js';
import type { Grid } from './forecast.js';

/** So many neighbours in a row with both components exactly 0 are no calm: a model's calm is a few hundredths of a knot. */
const RUN = 3;

/** A warning of runs of neighbouring points, along a latitude or a longitude, where the wind is exactly 0, 0; `said` words a time. */
export function zeroRuns(grids: readonly Grid[], file: string, said: (time: number) => string = isoUtc): Fault[] {
  let points = 0;
  let first: readonly [time: string, latDeg: number, lonDeg: number] | undefined;
  for (const { epochSeconds, lats, lons, fields } of grids) {
    const { windEastKn: u, windNorthKn: v } = fields;
    if (u === undefined || v === undefined) continue;
    const slice = lats.length * lons.length;
    for (let time = 0; time < epochSeconds.length; time += 1) {
      const start = time * slice;
      const isInRun = inRuns(lats.length, lons.length, (point) => u[start + point] === 0 && v[start + point] === 0);
      for (let point = 0; point < slice; point += 1) {
        if (isInRun[point] !== 1) continue;
        points += 1;
        first ??= [
          said(epochSeconds[time]!),
          shownDeg(lats[Math.floor(point / lons.length)]!),
          shownDeg(wrapLon(lons[point % lons.length]!)),
        ];
      }
    }
  }
  return first === undefined ? [] : [{ file, ...says.zeroRun(points, ...first) }];
}

/** 1 for each point of a field that stands in a run of at least three along a latitude or a longitude. */
function inRuns(lats: number, lons: number, isZero: (point: number) => boolean): Uint8Array {
  const found = new Uint8Array(lats * lons);
  const walk = (start: number, step: number, count: number) => {
    let run = 0;
    for (let i = 0; i <= count; i += 1) {
      if (i < count && isZero(start + i * step)) run += 1;
      else {
        if (run >= RUN) for (let back = run; back > 0; back -= 1) found[start + (i - back) * step] = 1;
        run = 0;
      }
    }
  };
  for (let lat = 0; lat < lats; lat += 1) walk(lat * lons, 1, lons);
  for (let lon = 0; lon < lons; lon += 1) walk(lon, lons, lats);
  return found;
}
