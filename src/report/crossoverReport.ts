import { answersOf, type BestAngles, type Crossover } from '../crossover/crossover.js';
import { crossoverJson, fixed, type InputDigest } from '../output/output.js';
import { polarChart } from './charts/polarChart.js';
import { chartOf } from './crossover/chart.js';
import { assumedIn, statusOf, titleOf } from './crossover/heading.js';
import { keyOf } from './crossover/key.js';
import { shareOf } from './crossover/legend.js';
import { type PlanShown, plansShown } from './crossover/plansShown.js';
import { behindMarkup } from './document/behind.js';
import { dataTable } from './document/dataTable.js';
import { documentOf } from './document/document.js';
import { type Chart, captioned, figureOf, folded } from './document/figure.js';
import { figuresOf } from './document/figures.js';
import { listOf, paragraphOf, tag } from './document/html.js';
import { keysOf } from './document/keys.js';
import { element, escaped } from './drawing/svg.js';
import type { ReportOptions } from './planReport.js';

/**
 * A crossover as one self-contained file of HTML for people: which sail stays in the bag, where there is none, the chart, the polar and the best
 * angles. Every figure in it stands in `crossoverJson` of the same crossover.
 *
 * @example
 * crossoverReport(sample.crossover) // '<!doctype html>…'
 */
export function crossoverReport(
  crossover: Crossover,
  inputs: readonly InputDigest[] = [],
  { version }: Pick<ReportOptions, 'version'> = {},
): string {
  const { status, basis, options, formatVersion, holesUnknown } = crossover;
  const figures = figuresOf(JSON.parse(crossoverJson(crossover, inputs)));
  const { told, tied } = figures;
  const plans = plansShown(crossover);
  const places = answerPlaces(crossover);
  const { staysInTheBag, noSail } = answersOf(crossover);
  const [first] = plans;
  const cells = crossover.cells.length;
  const leading =
    first === undefined
      ? 'No plan makes way anywhere on the chart.'
      : `Fastest over the largest part of the chart: ${escaped(first.id)}; of ${told('options.twsKn.0', `${options.twsKn[0]}`)} to ${told(`options.twsKn.${options.twsKn.length - 1}`, `${options.twsKn.at(-1)} kn`)} of true wind.`;
  return documentOf({
    title: titleOf(crossover),
    status: status === 'measured' ? [] : [statusOf(crossover)],
    answer: [
      tied(`Stays in the bag: ${firstOf(staysInTheBag)}`, ...places),
      tied(`No sail for it: ${firstOf(noSail)}`, ...places),
      leading,
    ],
    sections: [
      {
        id: 'chart',
        title: 'Which sail plan is the fastest',
        markup:
          figureOf(
            crossoverChart(crossover, plans),
            [keysOf(plans.map((plan) => ({ ...plan, told: shareOf(plan.cells, cells) })))],
            folded('Every wind and angle as a table', cellsTable(crossover, plans)),
          ) +
          paragraphOf(assumedIn(crossover)) +
          tag('h3', {}, 'Which of my sails stays in the bag?') +
          listOf(staysInTheBag) +
          tag('h3', {}, 'Where have I no sail?') +
          listOf(noSail),
      },
      {
        id: 'polar',
        title: 'How fast',
        markup: figureOf(
          captioned(polarChart(crossover), figures, ...options.twsKn.map((_, i) => `options.twsKn[${i}]`)),
          [],
          anglesTable(crossover.bestAngles),
        ),
      },
      {
        id: 'sails',
        title: 'Every sail aboard',
        markup: dataTable({
          caption: 'In how much of the chart each sail is part of the fastest plan',
          of: 'sails',
          rows: crossover.sails,
          columns: [
            { head: 'sail', field: 'id', text: ({ id }) => id },
            { head: 'winds and angles', field: 'bestCells', text: ({ bestCells }) => `${bestCells}`, isNumber: true },
            { head: 'for a storm', text: ({ isStormSail }) => (isStormSail ? 'yes' : '') },
          ],
        }),
      },
      {
        id: 'behind',
        title: 'What it is made from',
        markup: [
          ...(basis.length === 0 ? [] : [tag('h3', {}, 'What the speeds rest on'), listOf(basis)]),
          ...(holesUnknown === null ? [] : [paragraphOf(`Holes were not looked for: ${holesUnknown}`)]),
          behindMarkup({ warnings: [], inputs, options, formatVersion, ...(version === undefined ? {} : { version }) }),
        ].join(''),
      },
    ],
    fills: plans.map(({ fill }) => fill),
  });
}

/** The first of some answers, and that there are more. */
const firstOf = ([first = '', ...more]: readonly string[]) => `${first}${more.length === 0 ? '' : ' More below.'}`;

/** Where the figures of the answers are in the JSON: the first sail that is never best, the first winds without a sail, the first hole. */
const answerPlaces = ({ sails }: Crossover): readonly string[] => [
  ...sails.flatMap((_, i) => ['twsKn', 'twaDeg', 'slowerPercent'].map((key) => `sails[${i}].nearest.${key}`)),
  ...['withoutSail[0]', 'holes[0]'].flatMap((of) =>
    ['twsKn[0]', 'twsKn[1]', 'twaDeg[0]', 'twaDeg[1]', 'awaDeg[0]', 'awaDeg[1]'].map((key) => `${of}.${key}`),
  ),
  ...['twsKn', 'twaDeg', 'aboardKn', 'stwKn'].map((key) => `holes[0].deepest.${key}`),
  'options.holePercent',
];

/** The chart with its key below; what of it is drawn on the page itself has the page's ink. */
function crossoverChart(crossover: Crossover, plans: readonly PlanShown[]): Chart {
  return {
    title: 'Crossover chart',
    says: `True wind speed to the right, true wind angle downwards: each wind and angle is filled as its fastest plan, by letter and pattern. Boat: ${crossover.boat}.`,
    draw(width) {
      const chart = chartOf(crossover, plans, 6, 10, width - 20, Math.min(680, width * 1.15));
      const key = keyOf(crossover, 10, chart.bottom + 12, width - 20);
      return {
        markup: element('g', { class: 'crossing' }, chart.markup, key.markup),
        height: key.bottom + 10,
      };
    },
  };
}

/** The letter of the fastest plan and its speed, angles down and winds across. */
function cellsTable({ cells, options }: Crossover, plans: readonly PlanShown[]): string {
  const codes = new Map(plans.map(({ id, code }) => [id, code]));
  const { twsKn, twaDeg } = options;
  return dataTable({
    caption: 'Letter of the fastest plan and speed through the water, kn, by TWA down and TWS across',
    of: 'cells',
    rows: twaDeg,
    keyOf: (_, r) => r * twsKn.length,
    columns: [
      { head: 'TWA', text: (deg) => `${deg}°` },
      ...twsKn.map((kn, c) => ({
        head: `${kn} kn`,
        field: `+${c}.stwKn`,
        text: (_: number, r: number) => {
          const cell = cells[r * twsKn.length + c];
          return cell?.stwKn === undefined || cell.stwKn === null
            ? ''
            : `${codes.get(cell.sailPlan ?? '') ?? ''} ${fixed(cell.stwKn, 1)}`;
        },
        isNumber: true,
      })),
    ],
  });
}

function anglesTable(bestAngles: readonly BestAngles[]): string {
  const side = (way: 'up' | 'down') => [
    {
      head: `${way}: TWA`,
      field: `${way}.twaDeg`,
      text: (row: BestAngles) => (row[way] === null ? '' : fixed(row[way].twaDeg, 0)),
      isNumber: true,
    },
    {
      head: 'made good, kn',
      field: `${way}.vmgKn`,
      text: (row: BestAngles) => (row[way] === null ? '' : fixed(row[way].vmgKn, 1)),
      isNumber: true,
    },
    { head: 'under', field: `${way}.sailPlan`, text: (row: BestAngles) => row[way]?.sailPlan ?? '' },
  ];
  return dataTable({
    caption: 'Best angles up and down',
    of: 'bestAngles',
    rows: bestAngles,
    columns: [
      { head: 'TWS, kn', field: 'twsKn', text: ({ twsKn }) => fixed(twsKn, 0) },
      ...side('up'),
      ...side('down'),
    ],
  });
}
