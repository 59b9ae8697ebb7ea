import { fixed } from '../../output/output.js';
import type { Flown } from '../../worth/worth.js';
import type { Chart } from '../document/figure.js';
import { gridIn } from './gridChart.js';

/** In which winds and at which angles a new sail flew. */
export function flownChart({ id, winds, hours, shareOfPassages }: Flown): Chart {
  const speeds = [...new Set(winds.map(({ twsFromKn }) => twsFromKn))].sort((one, other) => one - other);
  const angles = [...new Set(winds.map(({ twaFromDeg }) => twaFromDeg))].sort((one, other) => one - other);
  const hoursAt = (tws: number, twa: number) =>
    winds.find(({ twsFromKn, twaFromDeg }) => twsFromKn === tws && twaFromDeg === twa)?.hours ?? 0;
  return {
    title: `Where ${id} flew`,
    says: `${id} flew ${fixed(hours.mean, 1)} h of a passage in the mean, in ${fixed(100 * shareOfPassages, 0)} % of them; by true wind speed to the right and angle downwards, the stronger the shade the more.`,
    draw: (width) =>
      gridIn(
        {
          rows: angles.map((twa) => `TWA ${twa} to ${twa + 20}°`),
          columns: speeds.map((tws) => `${tws}-${tws + 5} kn`),
          values: angles.map((twa) => speeds.map((tws) => hoursAt(tws, twa))),
          unit: 'h',
          decimals: 1,
        },
        width,
      ),
  };
}
