import {
  chanceName,
  chanceText,
  climateNotes,
  duration,
  fixed,
  passagesText,
  type StudyToPrint,
  studyFirstLine,
  studyJson,
  studyMarkdown,
  weightText,
} from '../output/output.js';
import type { GroupSummary } from '../study/study.js';
import { barsIn } from './charts/bars.js';
import { gridIn } from './charts/gridChart.js';
import { nameOfMonth, whenText } from './charts/instants.js';
import { type NamedRoute, routesMap } from './charts/routesMap.js';
import { startsChart } from './charts/startsChart.js';
import { behindMarkup } from './document/behind.js';
import { type Column, dataTable } from './document/dataTable.js';
import { documentOf, type Section } from './document/document.js';
import { type Chart, figureOf, folded } from './document/figure.js';
import { type Figures, figuresOf } from './document/figures.js';
import { paragraphOf } from './document/html.js';
import { markdownHtml } from './document/markdownHtml.js';
import { markdownParts } from './document/markdownParts.js';
import { escaped } from './drawing/svg.js';
import type { ReportOptions } from './planReport.js';

/** What the report of many passages takes beside the records it shows. */
export interface StudyReportOptions extends ReportOptions {
  /** The routes, for a map of them; absent: there is none. */
  readonly routes?: readonly NamedRoute[];
}

/**
 * Many passages as one self-contained file of HTML for people: the answer, the routes, the starts, hours on each sail, chances, wear, and all
 * of `study.md`. Every figure in it stands in `studyJson` of the same study.
 *
 * @example
 * studyReport(sample.studied) // '<!doctype html>…'
 */
export function studyReport(study: StudyToPrint, { land, version, routes = [] }: StudyReportOptions = {}): string {
  const { summary } = study;
  const { all, starts, months, bestStarts } = summary;
  const figures = figuresOf(JSON.parse(studyJson(study)));
  const worn = all.sails.filter(({ wear }) => wear !== null && wear.p95 > 0);
  const sections: Section[] = [
    ...(routes.length === 0 ? [] : [{ id: 'map', title: 'The routes', markup: figureOf(routesMap(routes, land), []) }]),
    ...(starts.length < 2
      ? []
      : [
          {
            id: 'starts',
            title: 'Start by start',
            markup:
              figureOf(
                startsChart(starts, bestStarts[0]),
                [],
                folded('Starts as a table', groupsTable('Starts', 'summary.starts', starts, whenText)),
              ) + paragraphOf(weightText(study)),
          },
        ]),
    ...(months.length === 0
      ? []
      : [
          {
            id: 'months',
            title: 'Hours on each sail by month',
            markup: figureOf(
              monthsChart(months),
              [],
              folded('Months as a table', groupsTable('Months of departure', 'summary.months', months, nameOfMonth)),
            ),
          },
        ]),
    {
      id: 'sails',
      title: 'Hours on each sail, per passage',
      markup: figureOf(sailsChart(all), [], spreadTable('Hours of a passage', all.sails, 'hours', 1)),
    },
    ...(all.chances.length === 0
      ? []
      : [{ id: 'chances', title: 'Chances', markup: figureOf(chancesChart(all), [], chancesTable(all)) }]),
    ...(worn.length === 0
      ? []
      : [
          {
            id: 'wear',
            title: 'Wear, per passage',
            markup: figureOf(wornChart(worn), [], folded('Wear as a table', markdownOf(study, ['Wear, per passage']))),
          },
        ]),
    {
      id: 'more',
      title: 'All of it in tables',
      markup: markdownParts(studyMarkdown(study))
        .filter(({ title }) => !SHOWN.has(title))
        .map(({ title, text }) => folded(title, markdownHtml([text], 1)))
        .join(''),
    },
    {
      id: 'behind',
      title: 'What it is made from',
      markup: behindMarkup({ ...study, formatVersion: 1, ...(version === undefined ? {} : { version }) }),
    },
  ];
  return documentOf({
    title: titleOf(study),
    firstLine: studyFirstLine(summary),
    status: climateNotes(study),
    answer: answerOf(study, figures),
    sections,
    fills: [],
  });
}

const SHOWN: ReadonlySet<string> = new Set(['Warnings', 'Made from', 'Wear, per passage']);

const markdownOf = (study: StudyToPrint, titles: readonly string[]) =>
  markdownHtml(
    markdownParts(studyMarkdown(study))
      .filter(({ title }) => titles.includes(title))
      .map(({ text }) => text),
  );

const titleOf = ({ routes, boats, summary }: StudyToPrint) =>
  `${passagesText(summary.all.passages)}: ${routes.join(', ')}, ${boats.join(', ')}`;

/** How long it takes and when to go, what it does to the sails, and what the chances are. */
function answerOf({ summary }: StudyToPrint, { told }: Figures): readonly string[] {
  const { all, starts, bestStarts } = summary;
  const { hours } = all;
  const under =
    hours === null
      ? 'No passage arrives.'
      : `A passage takes ${told('summary.all.hours.mean', duration(hours.mean))} in the mean, ${told('summary.all.hours.p5', duration(hours.p5))} to ${told('summary.all.hours.p95', duration(hours.p95))} in nine of ten.`;
  const best = starts.findIndex(({ name }) => name === bestStarts[0]);
  const bestHours = starts[best]?.hours ?? null;
  const when =
    starts.length < 2 || bestHours === null
      ? ''
      : ` Best start by the weights: ${told(`summary.starts[${best}].name`, whenText(starts[best]!.name))} UTC, ${told(`summary.starts[${best}].hours.mean`, duration(bestHours.mean))}.`;
  const most = all.sails
    .map((sail, i) => ({ ...sail, i }))
    .sort((a, b) => b.hours.mean - a.hours.mean)
    .slice(0, 3)
    .map(
      ({ id, hours: set, i }) =>
        `${escaped(id)} ${told(`summary.all.sails[${i}].hours.mean`, `${fixed(set.mean, 0)} h`)}`,
    );
  const { changes } = all.metrics;
  const sails = `Set longest: ${most.join(', ')} a passage${changes === null ? '' : `; ${told('summary.all.metrics.changes.mean', fixed(changes.mean, 1))} sail changes`}.`;
  const chances = all.chances.map((chance, i) =>
    chance.share === null
      ? `more than ${escaped(chanceName(chance))}: not known`
      : `more than ${escaped(chanceName(chance))}: ${told(`summary.all.chances[${i}].share`, `${fixed(100 * chance.share, 0)} %`)}`,
  );
  return [`${under}${when}`, sails, ...(chances.length === 0 ? [] : [`Chances: ${chances.join('; ')}.`])];
}

/** A row for each of some groups of passages. */
function groupsTable(
  caption: string,
  of: string,
  groups: readonly GroupSummary[],
  nameText: (name: string) => string,
): string {
  const mean = (head: string, metric: keyof GroupSummary['metrics'], decimals: number): Column<GroupSummary> => ({
    head,
    field: `metrics.${metric}.mean`,
    text: ({ metrics }) => (metrics[metric] === null ? '' : fixed(metrics[metric].mean, decimals)),
    isNumber: true,
  });
  const hour = (head: string, key: 'mean' | 'p5' | 'p95'): Column<GroupSummary> => ({
    head,
    field: `hours.${key}`,
    text: ({ hours }) => (hours === null ? '' : fixed(hours[key], 1)),
    isNumber: true,
  });
  return dataTable<GroupSummary>({
    caption,
    of,
    rows: groups,
    columns: [
      { head: 'of', field: 'name', text: ({ name }) => nameText(name) },
      { head: 'passages', field: 'passages', text: ({ passages }) => `${passages}`, isNumber: true },
      { head: 'complete', field: 'complete', text: ({ complete }) => `${complete}`, isNumber: true },
      hour('hours', 'mean'),
      hour('5 %', 'p5'),
      hour('95 %', 'p95'),
      mean('changes', 'changes', 1),
      mean('by night', 'night-changes', 1),
      mean('over 28 kn, h', 'hours-over-28', 1),
      mean('highest gust, kn', 'gust-max', 0),
      { head: 'score', field: 'score', text: ({ score }) => (score === null ? '' : fixed(score, 1)), isNumber: true },
    ],
  });
}

function monthsChart(months: readonly GroupSummary[]): Chart {
  const sails = [...new Set(months.flatMap((month) => month.sails.map(({ id }) => id)))];
  const hours = (id: string, month: GroupSummary) => month.sails.find((sail) => sail.id === id)?.hours.mean ?? 0;
  const used = sails.filter((id) => months.some((month) => hours(id, month) > 0));
  return {
    title: 'Hours on each sail by month',
    says: 'Mean hours of a passage on each sail by the month of departure, the darker the more.',
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

const spreadBar = (id: string, { mean, p5, p95 }: { mean: number; p5: number; p95: number }, text: string) => ({
  name: id,
  text,
  parts: [{ from: p5, to: p95, look: 'band-part', told: `${id}: ${text}` }],
  mark: mean,
});

function sailsChart({ sails }: GroupSummary): Chart {
  const used = sails.filter(({ hours }) => hours.p95 > 0 || hours.mean > 0);
  return {
    title: 'Hours on each sail, per passage',
    says: 'The mark is the mean, the bar what nine of ten passages lie between.',
    draw: (width) =>
      barsIn(
        {
          unit: 'hours of a passage',
          bars: used.map(({ id, hours }) =>
            spreadBar(id, hours, `${fixed(hours.mean, 0)} h (${fixed(hours.p5, 0)} to ${fixed(hours.p95, 0)})`),
          ),
        },
        width,
      ),
  };
}

function spreadTable(caption: string, sails: GroupSummary['sails'], key: 'hours', decimals: number): string {
  const column = (head: string, part: 'mean' | 'p5' | 'p25' | 'p50' | 'p75' | 'p95') => ({
    head,
    field: `${key}.${part}`,
    text: (sail: GroupSummary['sails'][number]) => fixed(sail[key][part], decimals),
    isNumber: true,
  });
  return dataTable({
    caption,
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

function chancesChart({ chances }: GroupSummary): Chart {
  return {
    title: 'Chances',
    says: 'The chance of a passage to have more than this, of the passages that were sailed; the line is between what it lies by their number (95 %).',
    draw: (width) =>
      barsIn(
        {
          unit: '% of passages',
          reach: [0, 100],
          bars: chances.map((chance) => {
            const { share, shareLow, shareHigh } = chance;
            const name = `more than ${chanceName(chance)}`;
            const told = `${name}: ${chanceText(chance)}`;
            return {
              name,
              text: chanceText(chance),
              parts: share === null ? [] : [{ from: 0, to: 100 * share, look: 'day-part', told }],
              ...(shareLow === null || shareHigh === null
                ? {}
                : { range: { low: 100 * shareLow, high: 100 * shareHigh } }),
            };
          }),
        },
        width,
      ),
  };
}

function chancesTable({ chances }: GroupSummary): string {
  return dataTable({
    caption: 'Chances',
    of: 'summary.all.chances',
    rows: chances,
    columns: [
      { head: 'more than', text: (chance) => chanceName(chance) },
      { head: 'passages', field: 'over', text: ({ over }) => `${over}`, isNumber: true },
      { head: 'of', field: 'of', text: ({ of }) => `${of}`, isNumber: true },
      { head: 'chance, between', text: (chance) => chanceText(chance) },
    ],
  });
}

function wornChart(sails: GroupSummary['sails']): Chart {
  const percent = (share: number) => `${Number((100 * share).toPrecision(2))} %`;
  return {
    title: 'Wear, per passage',
    says: "Share of each sail's life that a passage takes, by the middle of constants that are mostly placeholders without a source: the mark is the mean, the bar what nine of ten passages lie between.",
    draw: (width) =>
      barsIn(
        {
          unit: '% of its life',
          bars: sails.flatMap(({ id, wear }) =>
            wear === null
              ? []
              : [
                  spreadBar(
                    id,
                    { mean: 100 * wear.mean, p5: 100 * wear.p5, p95: 100 * wear.p95 },
                    `${percent(wear.mean)} (${percent(wear.p5)} to ${percent(wear.p95)})`,
                  ),
                ],
          ),
        },
        width,
      ),
  };
}
