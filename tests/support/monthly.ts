import type { Climatology } from '../../src/index.js';

/** Mean wind of a month at a place, knots; undefined where there is none. */
export interface Mean {
  readonly eastKn: number;
  readonly northKn: number;
  readonly speedKn: number;
}

export type MeanAt = (month: number, latDeg: number, lonDeg: number) => Mean | undefined;

/** A climatology in memory; months are 1 to 12. */
export function monthly(lats: readonly number[], lons: readonly number[], at: MeanAt, wraps = false): Climatology {
  const cells = 12 * lats.length * lons.length;
  const [windEastKn, windNorthKn, meanSpeedKn] = [0, 1, 2].map(() => new Float32Array(cells).fill(Number.NaN));
  let cell = 0;
  for (let month = 1; month <= 12; month += 1) {
    for (const lat of lats) {
      for (const lon of lons) {
        const mean = at(month, lat, lon);
        if (mean !== undefined) {
          windEastKn![cell] = mean.eastKn;
          windNorthKn![cell] = mean.northKn;
          meanSpeedKn![cell] = mean.speedKn;
        }
        cell += 1;
      }
    }
  }
  return {
    file: 'months.csv',
    lats: Float64Array.from(lats),
    lons: Float64Array.from(lons),
    wraps,
    windEastKn: windEastKn!,
    windNorthKn: windNorthKn!,
    meanSpeedKn: meanSpeedKn!,
  };
}

/** A mean wind from a direction, of which the vector has a share. */
export function meanFrom(speedKn: number, fromDeg: number, steadiness: number): Mean {
  const angle = (fromDeg * Math.PI) / 180;
  const vectorKn = speedKn * steadiness;
  return { eastKn: -vectorKn * Math.sin(angle), northKn: -vectorKn * Math.cos(angle), speedKn };
}

/** A climatology as CSV: for every month four rows, (10, -62), (10, -60), (12, -62), (12, -60); cells after month, latitude and longitude. */
export function monthlyCsv(
  columns: string,
  cells: (month: number, latDeg: number, lonDeg: number) => readonly (string | number)[],
): string {
  const rows = Array.from({ length: 12 }, (_, i) => i + 1).flatMap((month) =>
    [10, 12].flatMap((lat) => [-62, -60].map((lon) => [month, lat, lon, ...cells(month, lat, lon)].join(','))),
  );
  return `${[`month,lat,lon,${columns}`, ...rows].join('\n')}\n`;
}

/** Easterlies of steadiness 0.79 to 0.89. */
export const MONTHLY = monthlyCsv('u,v,wspd', (month) => [-6.3, 0, 7 + month / 12]);

/** The middle of a month in seconds, by the calendar: half-way from its first midnight to that of the next. */
export const middle = (year: number, month: number) =>
  (Date.parse(`${year}-${`${month}`.padStart(2, '0')}-01T00:00Z`) +
    Date.parse(`${year + (month === 12 ? 1 : 0)}-${`${(month % 12) + 1}`.padStart(2, '0')}-01T00:00Z`)) /
  2000;
