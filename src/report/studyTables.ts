import { chancePassed, chanceText, fixed } from '../output/output.js';
import type { GroupSummary } from '../study/study.js';
import { whenText } from './charts/instants.js';
import { type Column, dataTable } from './document/dataTable.js';
import type { Figures } from './document/figures.js';
import { escaped } from './drawing/svg.js';

type Sail = GroupSummary['sails'][number];

/** Some groups of passages: `of` is their list in the JSON. */
export interface Groups {
  readonly caption: string;
  readonly of: string;
  readonly groups: readonly GroupSummary[];
  readonly nameText?: (name: string) => string;
  /** Where in it a group stands, when it is no list. */
  readonly keyOf?: () => string;
}

/** A row for each of some groups of passages. */
export function groupsTable({ caption, of, groups, nameText = String, keyOf }: Groups): string {
  const mean = (head: string, metric: keyof GroupSummary['metrics'], decimals: number): Column<GroupSummary>[] =>
    groups.every(({ metrics }) => metrics[metric] === null)
      ? []
      : [
          {
            head,
            field: `metrics.${metric}.mean`,
            text: ({ metrics }) => (metrics[metric] === null ? '' : fixed(metrics[metric].mean, decimals)),
            isNumber: true,
          },
        ];
  const hour = (head: string, key: 'mean' | 'p5' | 'p50' | 'p95'): Column<GroupSummary> => ({
    head,
    field: `hours.${key}`,
    text: ({ hours }) => (hours === null ? '' : fixed(hours[key], 1)),
    isNumber: true,
  });
  return dataTable<GroupSummary>({
    caption,
    of,
    rows: groups,
    ...(keyOf === undefined ? {} : { keyOf }),
    columns: [
      { head: 'of', field: 'name', text: ({ name }) => nameText(name) },
      { head: 'passages', field: 'passages', text: ({ passages }) => `${passages}`, isNumber: true },
      { head: 'complete', field: 'complete', text: ({ complete }) => `${complete}`, isNumber: true },
      ...(groups.every(({ arrivals }) => arrivals === null)
        ? []
        : [
            {
              head: 'arrival, 50 %, UTC',
              field: 'arrivals.p50',
              text: ({ arrivals }: GroupSummary) => whenText(arrivals?.p50 ?? ''),
            },
          ]),
      hour('hours', 'mean'),
      hour('5 %', 'p5'),
      hour('50 %', 'p50'),
      hour('95 %', 'p95'),
      ...mean('changes', 'changes', 1),
      ...mean('by night', 'night-changes', 1),
      ...mean('over 28 kn, h', 'hours-over-28', 1),
      ...mean('near the limit, h', 'near-limit-hours', 1),
      ...mean('highest gust, kn', 'gust-max', 0),
      ...mean('steadiness', 'steadiness', 2),
      { head: 'score', field: 'score', text: ({ score }) => (score === null ? '' : fixed(score, 1)), isNumber: true },
    ],
  });
}

/** Mean hours on each sail, a row for each of some groups. */
export function sailsByGroup({ caption, of, groups, nameText = String }: Groups, { told }: Figures): string {
  const ids = [...new Set(groups.flatMap(({ sails }) => sails.map(({ id }) => id)))];
  const text = (group: GroupSummary, id: string) => {
    const sail = group.sails.find((one) => one.id === id);
    return sail === undefined ? '' : fixed(sail.hours.mean, 1);
  };
  return dataTable<GroupSummary>({
    caption,
    of,
    rows: groups,
    columns: [
      { head: 'of', field: 'name', text: ({ name }) => nameText(name) },
      ...ids.map(
        (id): Column<GroupSummary> => ({
          head: id,
          text: (group) => text(group, id),
          markup(group, i) {
            const own = group.sails.findIndex((one) => one.id === id);
            return own < 0 ? '' : told(`${of}[${i}].sails[${own}].hours.mean`, text(group, id));
          },
          isNumber: true,
        }),
      ),
    ],
  });
}

/** The spread of hours on each sail. */
export function spreadTable(sails: readonly Sail[]): string {
  const column = (head: string, part: keyof Sail['hours']) => ({
    head,
    field: `hours.${part}`,
    text: ({ hours }: Sail) => fixed(hours[part], 1),
    isNumber: true,
  });
  return dataTable({
    caption: 'Hours of a passage',
    of: 'summary.all.sails',
    rows: sails,
    columns: [
      { head: 'sail', field: 'id', text: ({ id }) => id },
      column('mean', 'mean'),
      column('5 %', 'p5'),
      column('25 %', 'p25'),
      column('50 %', 'p50'),
      column('75 %', 'p75'),
      column('95 %', 'p95'),
    ],
  });
}

/** Every chance with its passages. */
export function chancesTable({ chances }: GroupSummary, { tied }: Figures): string {
  const of = 'summary.all.chances';
  return dataTable({
    caption: 'Chances; in brackets between what it lies by the number of passages (95 %)',
    of,
    rows: chances,
    columns: [
      {
        head: 'what',
        text: chancePassed,
        markup: (chance, i) => tied(chancePassed(chance), `${of}[${i}].limit`),
      },
      {
        head: 'chance',
        text: chanceText,
        markup: (chance, i) =>
          chance.share === null
            ? escaped(chanceText(chance))
            : tied(
                chanceText(chance),
                ...['share', 'shareLow', 'shareHigh', 'over', 'of'].map((key) => `${of}[${i}].${key}`),
              ),
      },
    ],
  });
}
