import {
  endsText,
  fixed,
  isByClimatology,
  nameIn,
  type StudyBehind,
  signed,
  TOLD,
  verdictLines,
  worthFirstLine,
  worthJson,
  worthMarkdown,
} from '../output/output.js';
import type { Difference, Flown, Worth } from '../worth/worth.js';
import { type DifferenceShown, differencesChart } from './charts/differencesChart.js';
import { flownChart } from './charts/flownChart.js';
import { moneyChart } from './charts/moneyChart.js';
import { routesMap } from './charts/routesMap.js';
import { sailsComparedChart } from './charts/sailsCompared.js';
import { turnsChart } from './charts/turnsChart.js';
import { behindMarkup } from './document/behind.js';
import { type Column, dataTable } from './document/dataTable.js';
import { documentOf, type Section } from './document/document.js';
import { captioned, figureOf, folded } from './document/figure.js';
import { figuresOf } from './document/figures.js';
import { markdownHtml } from './document/markdownHtml.js';
import { markdownParts } from './document/markdownParts.js';
import type { StudyReportOptions } from './studyReport.js';
import { worthPlaces } from './worthPlaces.js';

/**
 * Whether a further sail is worth its price as one self-contained file of HTML for people: the answer, what it changes, where it flew, the
 * money and how the answer turns, and all of `worth.md`. Every figure in it stands in `worthJson` of the same answer.
 *
 * @example
 * worthReport(sample.worth, sample.studied) // '<!doctype html>…'
 */
export function worthReport(
  worth: Worth,
  study: StudyBehind,
  { land, version, routes = [] }: StudyReportOptions = {},
): string {
  const { a, b, flown, turns } = worth;
  const figures = figuresOf(JSON.parse(worthJson(worth, study)));
  const places = worthPlaces(worth);
  const [headline = '', first = '', ...more] = verdictLines(worth, study.warnings);
  const parts = markdownParts(worthMarkdown(worth, study));
  const told = (title: string) =>
    markdownHtml([parts.find((part) => part.title === title)?.text ?? ''], 1, {
      figures,
      pathsOf: places.parts[title] ?? (() => []),
    });
  const section = (isShown: boolean, id: string, title: string, markup: () => string): Section[] =>
    isShown ? [{ id, title, markup: markup() }] : [];
  const sections: Section[] = [
    ...section(routes.length > 0, 'map', 'The routes', () => figureOf(routesMap(routes, land), [])),
    ...section(true, 'changes', 'What it changes on a passage', () =>
      figureOf(
        differencesChart(differencesShown(worth), a),
        [],
        folded('The same in a table, with the competitors', told('What it changes on a passage')),
      ),
    ),
    ...flown.flatMap((one, i) =>
      section(one.winds.length > 0, `flew-${i + 1}`, `Where ${one.id} flew`, () => {
        const of = `flown[${i}]`;
        const chart = captioned(flownChart(one), figures, `${of}.hours.mean`, `${of}.shareOfPassages`);
        return figureOf(chart, [], folded('The same in a table', windsTable(one, i)));
      }),
    ),
    ...section(true, 'sails', 'Hours on each sail, A and B', () =>
      figureOf(
        sailsComparedChart(worth),
        [],
        folded('The same in a table, with wear', told('Hours on each sail, and what they wear')),
      ),
    ),
    ...section(true, 'money', 'Money', () =>
      figureOf(captioned(moneyChart(worth), figures, ...places.answer), [], told('Money')),
    ),
    ...section(turns.length > 0, 'turns', 'How the answer turns', () =>
      figureOf(turnsChart(worth), [], folded('The same in a table', told('How the answer turns'))),
    ),
    ...parts
      .filter(({ title }) => !SHOWN.has(title))
      .map(({ title }, i) => ({ id: `more-${i + 1}`, title, markup: told(title) })),
    ...section(true, 'behind', 'What it is made from', () =>
      behindMarkup({
        ...study,
        formatVersion: worth.formatVersion,
        of: 'study.',
        ...(version === undefined ? {} : { version }),
      }),
    ),
  ];
  return documentOf({
    title: `Is it worth its price: ${b} against ${a}`,
    firstLine: worthFirstLine(worth, isByClimatology(worth)),
    status: [],
    answer: [headline, first, more.join(' ')]
      .filter((line) => line !== '')
      .map((line) => figures.tied(line, ...places.answer)),
    sections,
    fills: [],
  });
}

/** Parts of the text that stand behind charts, or elsewhere. */
const SHOWN: ReadonlySet<string> = new Set([
  'What it changes on a passage',
  'What it flew',
  'Hours on each sail, and what they wear',
  'Money',
  'How the answer turns',
  'Warnings',
  'Made from',
]);

const differencesShown = (worth: Worth): readonly DifferenceShown[] =>
  TOLD.flatMap((told) => {
    const one = worth.differences[told[0]];
    return one === null || (one.a === 0 && one.b === 0) ? [] : [differenceShown(nameIn(told, worth), told[2], one)];
  });

function differenceShown(name: string, decimals: number, one: Difference): DifferenceShown {
  const { mid, low, high, spread } = one;
  const ends = endsText(one, decimals);
  const text = `${signed(mid, decimals)}${ends === '' ? '' : ` (${ends})`}`;
  return { name, text, mid, low, high, p5: spread.p5, p95: spread.p95 };
}

const windsTable = ({ id, winds }: Flown, index: number): string =>
  dataTable({
    caption: `Hours of a passage under ${id} by true wind`,
    of: `flown[${index}].winds`,
    rows: winds,
    columns: [
      { head: 'TWS from, kn', field: 'twsFromKn', text: ({ twsFromKn }) => `${twsFromKn}` },
      { head: 'TWA from', field: 'twaFromDeg', text: ({ twaFromDeg }) => `${twaFromDeg}`, isNumber: true },
      { head: 'hours', field: 'hours', text: ({ hours }) => fixed(hours, 2), isNumber: true },
    ] satisfies Column<Flown['winds'][number]>[],
  });
