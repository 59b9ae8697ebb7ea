import {
  climateNotes,
  type StudyToPrint,
  studyFirstLine,
  studyJson,
  studyMarkdown,
  weightText,
} from '../output/output.js';
import { chancesChart } from './charts/chancesChart.js';
import { nameOfMonth, whenText } from './charts/instants.js';
import { monthsChart } from './charts/monthsChart.js';
import { type NamedRoute, routesMap } from './charts/routesMap.js';
import { sailsSpreadChart, wornSpreadChart } from './charts/spreadBars.js';
import { startsChart } from './charts/startsChart.js';
import { behindMarkup } from './document/behind.js';
import { documentOf, type Section } from './document/document.js';
import { captioned, figureOf, folded } from './document/figure.js';
import { type Figures, figuresOf } from './document/figures.js';
import { tag } from './document/html.js';
import { markdownHtml } from './document/markdownHtml.js';
import { markdownParts } from './document/markdownParts.js';
import { valueAt } from './document/valueAt.js';
import type { ReportOptions } from './planReport.js';
import { studyAnswer, studyTitle } from './studyAnswer.js';
import { chancesTable, type Groups, groupsTable, sailsByGroup, spreadTable } from './studyTables.js';

/** What the report of many passages takes beside the records it shows. */
export interface StudyReportOptions extends ReportOptions {
  /** The routes, for a map of them; absent: there is none. */
  readonly routes?: readonly NamedRoute[];
  /** What the boats are called, for the title; absent: the names of their files stand there. */
  readonly boatNames?: readonly string[];
}

/**
 * Many passages as one self-contained file of HTML for people: the answer, the routes, the starts, hours on each sail, chances, wear, and
 * every group of passages. Every figure in it stands in `studyJson` of the same study.
 *
 * @example
 * studyReport(sample.studied) // '<!doctype html>…'
 */
export function studyReport(
  study: StudyToPrint,
  { land, version, routes = [], boatNames = [] }: StudyReportOptions = {},
): string {
  const { summary } = study;
  const { all, starts, months, bestStarts } = summary;
  const json: unknown = JSON.parse(studyJson(study));
  const figures = figuresOf(json);
  const byStart: Groups = { caption: 'Starts', of: 'summary.starts', groups: starts, nameText: whenText };
  const byMonth: Groups = {
    caption: 'Months of departure',
    of: 'summary.months',
    groups: months,
    nameText: nameOfMonth,
  };
  const section = (isShown: boolean, id: string, title: string, ...markup: readonly (() => string)[]): Section[] =>
    isShown ? [{ id, title, markup: markup.map((part) => part()).join('') }] : [];
  const best = starts.findIndex(({ name }) => name === bestStarts[0]);
  const sections: Section[] = [
    ...section(routes.length > 0, 'map', 'The routes', () => figureOf(routesMap(routes, land), [])),
    ...section(
      starts.length > 1,
      'starts',
      'Start by start',
      () =>
        figureOf(
          captioned(
            startsChart(starts, bestStarts[0]),
            figures,
            `summary.starts[${best}].name`,
            `summary.starts[${best}].hours.mean`,
          ),
          [],
          folded('Starts as a table', groupsTable(byStart), sailsByGroup({ ...byStart, caption: HOURS }, figures)),
        ),
      () =>
        tag(
          'p',
          {},
          figures.tied(weightText(study), ...Object.keys(summary.weights).map((m) => `summary.weights.${m}`)),
        ),
    ),
    ...section(months.length > 0, 'months', 'Hours on each sail by month', () =>
      figureOf(
        monthsChart(months),
        [],
        folded('Months as a table', groupsTable(byMonth), sailsByGroup({ ...byMonth, caption: HOURS }, figures)),
      ),
    ),
    ...section(true, 'sails', 'Hours on each sail, per passage', () =>
      figureOf(sailsSpreadChart(all.sails), [], spreadTable(all.sails)),
    ),
    ...section(all.chances.length > 0, 'chances', 'Chances', () =>
      figureOf(chancesChart(all.chances), [], chancesTable(all, figures)),
    ),
    ...section(worn(study).length > 0, 'wear', 'Wear, per passage', () =>
      figureOf(wornSpreadChart(worn(study)), [], folded('Wear as a table', wearMarkup(study, figures))),
    ),
    ...section(true, 'groups', 'Passages by route, boat and weather', () =>
      [
        { caption: 'All passages', of: 'summary', groups: [all], keyOf: () => 'all' },
        { caption: 'By route', of: 'summary.routes', groups: summary.routes },
        { caption: 'By boat', of: 'summary.boats', groups: summary.boats },
        { caption: 'By weather', of: 'summary.weathers', groups: summary.weathers },
      ]
        .filter(({ groups }) => groups.length > 0)
        .map(groupsTable)
        .join(''),
    ),
    ...section(true, 'behind', 'What it is made from', () =>
      behindMarkup({
        ...study,
        formatVersion: valueAt(json, 'formatVersion') as number,
        ...(version === undefined ? {} : { version }),
      }),
    ),
  ];
  return documentOf({
    title: studyTitle(study, routes, boatNames),
    firstLine: studyFirstLine(summary),
    status: climateNotes(study),
    answer: studyAnswer(study, figures),
    sections,
    fills: [],
  });
}

const HOURS = 'Mean hours of a passage on each sail';

const worn = ({ summary: { all } }: StudyToPrint) => all.sails.filter(({ wear }) => wear !== null && wear.p95 > 0);

/** The part of `study.md` on wear. */
function wearMarkup(study: StudyToPrint, figures: Figures): string {
  const { sails } = study.summary.all;
  const part = markdownParts(studyMarkdown(study)).find(({ title }) => title === 'Wear, per passage');
  return markdownHtml([part?.text ?? ''], 1, {
    figures,
    pathsOf: (cell) =>
      cell === undefined
        ? ['slatting-unknown-hours.mean', 'wear-money.mean', 'wear-money.p5', 'wear-money.p95'].map(
            (path) => `~summary.all.metrics.${path}`,
          )
        : cell.column === 0
          ? []
          : [`~summary.all.sails[${sails.findIndex(({ id }) => id === cell.label)}].wear.${SPREAD[cell.column - 1]}`],
  });
}

const SPREAD = ['mean', 'p5', 'p50', 'p95'];
