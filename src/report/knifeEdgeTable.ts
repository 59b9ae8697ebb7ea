import { fixed, knifeEdgeSection, type PlanToPrint } from '../output/output.js';
import { isOnKnifeEdge } from '../totals/totals.js';
import { shipsTime, whenText } from './charts/instants.js';
import { stretches } from './charts/plansInLog.js';
import { dataTable } from './document/dataTable.js';
import type { Figures } from './document/figures.js';
import { paragraphOf, tag } from './document/html.js';

/** The hours whose plan hangs on little, a row for hours in a row under the same plan; nothing where there are none. */
export function knifeEdgeMarkup({ passage }: PlanToPrint, { told }: Figures): string {
  const { hours } = passage;
  // Its first two parts are the heading and what the hours have in common; the third lists them by UTC.
  const [, said = ''] = knifeEdgeSection(passage);
  const rows = stretches(hours, (hour) => (isOnKnifeEdge(hour) ? (hour.sailPlan ?? '') : undefined))
    .filter(({ key }) => key !== undefined)
    .map(({ from, to }) => {
      const shares = hours.slice(from, to).map(({ standsShare }) => standsShare ?? 1);
      return { from, to, least: from + shares.indexOf(Math.min(...shares)) };
    });
  if (rows.length === 0) return '';
  const shareText = (row: number) => `${fixed(100 * (hours[row]!.standsShare ?? 1), 0)} %`;
  return [
    tag('h3', {}, "On a knife's edge"),
    paragraphOf(said),
    dataTable({
      caption: "Hours on a knife's edge",
      of: 'hours',
      rows,
      keyOf: ({ from }) => from,
      columns: [
        { head: "from, ship's clock", text: ({ from }) => shipsTime(hours[from]!) },
        { head: 'UTC', field: 'time', text: ({ from }) => whenText(hours[from]!.time) },
        {
          head: 'the last, UTC',
          text: () => '',
          markup: ({ to }) => told(`hours[${to - 1}].time`, whenText(hours[to - 1]!.time)),
        },
        { head: 'sail plan', field: 'sailPlan', text: ({ from }) => hours[from]!.sailPlan ?? 'hove to' },
        {
          head: 'stands in',
          text: ({ least }) => shareText(least),
          markup: ({ least }) => told(`hours[${least}].standsShare`, shareText(least)),
          isNumber: true,
        },
      ],
    }),
  ].join('');
}
