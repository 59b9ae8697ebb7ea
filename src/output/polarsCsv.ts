import type { Polar } from '../polar/polar.js';
import { fixed, text } from './format.js';

/**
 * Polars as tidy CSV, as `readPolars` reads them; speeds to a hundredth of a knot.
 * @example
 * polarsCsv(sample.polars.plans).split('\n')[1] // 'main+jib,6,40,2.67'
 */
export function polarsCsv(plans: Readonly<Record<string, Polar>>): string {
  return polarRows(plans, (stwKn) => fixed(stwKn, 2));
}

/**
 * The same with every digit of a speed, for a plan that is to come out the same.
 * @internal
 */
export const exactPolarsCsv = (plans: Readonly<Record<string, Polar>>): string => polarRows(plans, String);

function polarRows(plans: Readonly<Record<string, Polar>>, speedText: (stwKn: number) => string): string {
  const isOther = Object.values(plans).some(
    ({ windHeightM = 10, twaReference = 'course' }) => windHeightM !== 10 || twaReference !== 'course',
  );
  const header = `sail_plan,tws_kn,twa_deg,stw_kn${isOther ? ',wind_height_m,twa_reference' : ''}`;
  const rows = Object.entries(plans).flatMap(
    ([id, { twsKn, twaDeg, stwKn, windHeightM = 10, twaReference = 'course' }]) =>
      twaDeg.flatMap((angle, i) =>
        twsKn.map((wind, j) => {
          const cells = [text(id), `${wind}`, `${angle}`, speedText(stwKn[i * twsKn.length + j]!)];
          return [...cells, ...(isOther ? [`${windHeightM}`, twaReference] : [])].join(',');
        }),
      ),
  );
  return `${[header, ...rows].join('\n')}\n`;
}
