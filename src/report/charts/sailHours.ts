import { duration, fixed, type PlanToPrint } from '../../output/output.js';
import type { Chart } from '../document/figure.js';
import { barsIn } from './bars.js';

/** Hours on each sail, by day and by night. */
export function sailHoursChart({ totals }: PlanToPrint): Chart {
  const sails = totals.sails.filter(({ hours }) => hours > 0);
  const most = [...sails].sort((a, b) => b.hours - a.hours)[0];
  return {
    title: 'Hours on each sail',
    says: `${most?.id} is set longest, ${fixed(most?.hours ?? 0, 0)} of ${fixed(totals.hours, 0)} h. Plain is by day, hatched by night.`,
    ...(most === undefined ? { nothing: 'No sail was set.' } : {}),
    draw: (width) =>
      barsIn(
        {
          unit: 'hours',
          bars: sails.map(({ id, hours, dayHours, nightHours }) => ({
            name: id,
            text: `${fixed(hours, 1)} h`,
            parts: [
              { from: 0, to: dayHours, look: 'day-part', told: `${id}: ${duration(dayHours)} by day` },
              {
                from: dayHours,
                to: dayHours + nightHours,
                look: 'night-part',
                told: `${id}: ${duration(nightHours)} by night`,
              },
            ],
          })),
        },
        width,
      ),
  };
}
