import { fixed, type PlanToPrint, position } from '../output/output.js';
import { isLimit, type Window } from '../sail/sail.js';
import type { ChangeShown } from './charts/changesShown.js';
import { whenText } from './charts/instants.js';
import { noons } from './charts/passageMap.js';
import { type Column, dataTable } from './document/dataTable.js';
import type { Figures } from './document/figures.js';

type Hour = PlanToPrint['passage']['hours'][number];
type Curve = NonNullable<PlanToPrint['passage']['curve']>;

const or = (value: number | null, decimals: number) => (value === null ? '' : fixed(value, decimals));

/** Every hour of the log, noons marked. */
export function hoursTable({ passage }: PlanToPrint): string {
  const noon = new Set(noons(passage).map(({ time }) => time));
  const number = (head: string, field: keyof Hour & string, decimals: number): Column<Hour> => ({
    head,
    field,
    text: (hour) => or(hour[field] as number | null, decimals),
    isNumber: true,
  });
  return dataTable<Hour>({
    caption: 'Hour by hour',
    of: 'hours',
    rows: passage.hours,
    columns: [
      { head: 'UTC', field: 'time', text: ({ time }) => whenText(time) },
      { head: 'noon', text: ({ time }) => (noon.has(time) ? 'noon' : '') },
      { head: 'place', field: '', text: ({ latDeg, lonDeg }) => position(latDeg, lonDeg) },
      { head: 'sail plan', field: 'sailPlan', text: ({ sailPlan }) => sailPlan ?? 'hove to' },
      number('TWS, kn', 'twsKn', 1),
      number('from, °', 'twdDeg', 0),
      number('gust, kn', 'gustKn', 1),
      number('TWA, °', 'twaDeg', 0),
      number('AWS, kn', 'awsKn', 1),
      number('AWA, °', 'awaDeg', 0),
      number('through water, kn', 'stwKn', 1),
      number('made good, kn', 'smgKn', 1),
      number('Nm', 'runNm', 1),
      { head: 'next best', field: 'runnerUp', text: ({ runnerUp }) => runnerUp ?? '' },
    ],
  });
}

/** Every sail change with what is done and why; where changes are free, they are hours of the log. */
export function changesTable({ passage }: PlanToPrint, shown: readonly ChangeShown[]): string {
  const { changes } = passage;
  if (shown.length === 0) return '';
  const column = (head: string, field: 'minutes' | 'hands', unit: string): Column<ChangeShown>[] =>
    changes === undefined ? [] : [{ head, field, text: (_, i) => fixed(changes[i]![field], 0), isNumber: true, unit }];
  return dataTable<ChangeShown>({
    caption: 'Sail changes, and why',
    of: changes === undefined ? 'hours' : 'changes',
    rows: shown,
    keyOf: ({ row }, i) => (changes === undefined ? row : i),
    idOf: (_, i) => `change-${i + 1}`,
    columns: [
      { head: 'no.', text: (_, i) => `${i + 1}` },
      { head: 'UTC', field: 'time', text: ({ time }) => whenText(time) },
      { head: 'to', field: changes === undefined ? 'sailPlan' : 'to', text: ({ to }) => to ?? 'hove to' },
      ...column('min', 'minutes', 'min'),
      ...column('hands', 'hands', 'hands'),
      { head: "what and why, by the ship's clock", text: ({ told }) => told, isLong: true },
    ],
  });
}

const tallyColumns = [
  { head: 'hours', field: 'hours', text: ({ hours }: { hours: number }) => fixed(hours, 1), isNumber: true },
  {
    head: 'by day',
    field: 'dayHours',
    text: ({ dayHours }: { dayHours: number }) => fixed(dayHours, 1),
    isNumber: true,
  },
  {
    head: 'by night',
    field: 'nightHours',
    text: ({ nightHours }: { nightHours: number }) => fixed(nightHours, 1),
    isNumber: true,
  },
  {
    head: 'Nm',
    field: 'distanceNm',
    text: ({ distanceNm }: { distanceNm: number }) => fixed(distanceNm, 1),
    isNumber: true,
  },
  {
    head: 'near the limit, h',
    field: 'nearLimitHours',
    text: ({ nearLimitHours }: { nearLimitHours: number }) => fixed(nearLimitHours, 1),
    isNumber: true,
  },
  { head: 'AWS kn, 5 %', field: 'awsKn.p5', text: ({ awsKn }: Tallied) => or(awsKn?.p5 ?? null, 0), isNumber: true },
  { head: '50 %', field: 'awsKn.p50', text: ({ awsKn }: Tallied) => or(awsKn?.p50 ?? null, 0), isNumber: true },
  { head: '95 %', field: 'awsKn.p95', text: ({ awsKn }: Tallied) => or(awsKn?.p95 ?? null, 0), isNumber: true },
] as const;

type Tallied = Pick<PlanToPrint['totals']['sails'][number], 'awsKn'>;

export const sailsTable = ({ totals }: PlanToPrint): string =>
  dataTable({
    caption: 'Hours on each sail',
    of: 'totals.sails',
    rows: totals.sails,
    columns: [{ head: 'sail', field: 'id', text: ({ id }) => id }, ...tallyColumns],
  });

export const planTable = ({ totals }: PlanToPrint): string =>
  dataTable({
    caption: 'Hours under each sail plan',
    of: 'totals.sailPlans',
    rows: totals.sailPlans.flatMap((tally, i) => (tally.hours > 0 ? [{ ...tally, i }] : [])),
    keyOf: ({ i }) => i,
    columns: [{ head: 'sail plan', field: 'id', text: ({ id }) => id }, ...tallyColumns],
  });

export const curveTable = (curve: Curve): string =>
  dataTable({
    caption: 'Earliest arrival by sail changes',
    of: 'curve',
    rows: curve,
    columns: [
      { head: 'changes', field: 'changes', text: ({ changes }) => `${changes}` },
      { head: 'arrival, UTC', field: 'arrival', text: ({ arrival }) => whenText(arrival) },
      { head: 'hours', field: 'hours', text: ({ hours }) => fixed(hours, 2), isNumber: true },
      {
        head: 'mark',
        text: ({ chosen, estimated }) =>
          [...(chosen ? ['chosen'] : []), ...(estimated ? ['estimated'] : [])].join(', '),
      },
    ],
  });

export const runsTable = ({ totals }: PlanToPrint, { told }: Figures): string =>
  dataTable({
    caption: "Day's runs, noon to noon by the ship's clock",
    of: 'totals.runs',
    rows: totals.runs,
    columns: [
      {
        head: 'to',
        text: ({ date }) => date,
        markup: ({ date, whole }, i) =>
          `${told(`totals.runs[${i}].date`, date)} ${whole || i < totals.runs.length - 1 ? 'noon' : 'the end'}`,
      },
      { head: 'day', text: ({ whole }) => (whole ? 'whole' : 'part') },
      { head: 'hours', field: 'hours', text: ({ hours }) => fixed(hours, 1), isNumber: true },
      { head: 'Nm', field: 'distanceNm', text: ({ distanceNm }) => fixed(distanceNm, 1), isNumber: true },
    ],
  });

/** The windows of each sail, full and reefed, as they were sailed. */
export function windowsTable({ boat }: PlanToPrint, { tied }: Figures): string {
  const limit = (value: Window['awsMaxKn']) =>
    !isLimit(value)
      ? 'none'
      : typeof value === 'number'
        ? `${value}`
        : value.map(([deg, kn]) => `${kn} at ${deg}°`).join(', ');
  return dataTable({
    caption: 'Windows of the full sails, limits in the gust; reefs in number, with the limit of the deepest',
    of: 'wardrobe.sails',
    rows: boat.sails,
    columns: [
      { head: 'sail', field: 'id', text: (sail) => sail.id },
      { head: 'AWA from, °', field: 'window.awaMinDeg', text: (sail) => `${sail.window.awaMinDeg}`, isNumber: true },
      { head: 'to, °', field: 'window.awaMaxDeg', text: (sail) => `${sail.window.awaMaxDeg}`, isNumber: true },
      { head: 'AWS from, kn', field: 'window.awsMinKn', text: (sail) => limit(sail.window.awsMinKn), isNumber: true },
      { head: 'to, kn', field: 'window.awsMaxKn', text: (sail) => limit(sail.window.awsMaxKn), isNumber: true },
      { head: 'TWS to, kn', field: 'window.twsMaxKn', text: (sail) => limit(sail.window.twsMaxKn), isNumber: true },
      {
        head: 'reefs',
        text: ({ reefs = [] }) => `${reefs.length || 'none'}`,
        markup: ({ reefs = [] }, i) => tied(`${reefs.length || 'none'}`, `wardrobe.sails[${i}].reefs.length`),
        isNumber: true,
      },
      {
        head: 'deepest to, kn',
        text: ({ reefs }) => limit(reefs?.at(-1)?.awsMaxKn),
        markup({ reefs = [] }, i) {
          const most = reefs.at(-1)?.awsMaxKn;
          const of = `wardrobe.sails[${i}].reefs[${reefs.length - 1}].awsMaxKn`;
          const corners = typeof most === 'object' && most !== null ? most : [];
          return tied(limit(most), of, ...corners.flatMap((_, c) => [`${of}[${c}][1]`, `${of}[${c}][0]`]));
        },
        isNumber: true,
      },
      { head: 'daylight only', field: 'daylightOnly', text: (sail) => (sail.daylightOnly === true ? 'yes' : 'no') },
    ],
  });
}
