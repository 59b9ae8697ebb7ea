import type { GroupSummary } from '../../study/study.js';
import type { Chart } from '../document/figure.js';
import { gridIn } from './gridChart.js';
import { nameOfMonth } from './instants.js';

/** Hours on each sail by the month of departure. */
export function monthsChart(months: readonly GroupSummary[]): Chart {
  const sails = [...new Set(months.flatMap((month) => month.sails.map(({ id }) => id)))];
  const hours = (id: string, month: GroupSummary) => month.sails.find((sail) => sail.id === id)?.hours.mean ?? 0;
  const used = sails.filter((id) => months.some((month) => hours(id, month) > 0));
  return {
    title: 'Hours on each sail by month',
    says: 'Mean hours of a passage on each sail by the month of departure, the stronger the shade the more.',
    ...(used.length === 0 ? { nothing: 'No sail was set.' } : {}),
    draw: (width) =>
      gridIn(
        {
          rows: used,
          columns: months.map(({ name }) => nameOfMonth(name)),
          values: used.map((id) => months.map((month) => hours(id, month))),
          unit: 'h',
          decimals: 0,
        },
        width,
      ),
  };
}
