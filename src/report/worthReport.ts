import {
  endsText,
  endText,
  fixed,
  INPUTS,
  isByClimatology,
  moneyText,
  passagesText,
  type StudyBehind,
  signed,
  TOLD,
  verdictLines,
  worthFirstLine,
  worthMarkdown,
} from '../output/output.js';
import type { Difference, Flown, Turn, Worth } from '../worth/worth.js';
import { barsIn } from './charts/bars.js';
import { type DifferenceShown, differencesChart } from './charts/differencesChart.js';
import { gridIn } from './charts/gridChart.js';
import { routesMap } from './charts/routesMap.js';
import { behindMarkup } from './document/behind.js';
import { type Column, dataTable } from './document/dataTable.js';
import { documentOf, type Section } from './document/document.js';
import { type Chart, figureOf, folded } from './document/figure.js';
import { markdownHtml } from './document/markdownHtml.js';
import { markdownParts } from './document/markdownParts.js';
import { escaped } from './drawing/svg.js';
import type { StudyReportOptions } from './studyReport.js';

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
  const { a, b, differences, flown, turns, sails } = worth;
  const [headline = '', first = '', ...more] = verdictLines(worth, study.warnings);
  const shown = TOLD.flatMap(([metric, name, decimals]) => {
    const one = differences[metric];
    return one === null || (one.a === 0 && one.b === 0) ? [] : [{ metric, name, decimals, one }];
  });
  const parts = new Map(markdownParts(worthMarkdown(worth, study)).map(({ title, text }) => [title, text]));
  const told = (title: string) => markdownHtml([parts.get(title) ?? ''], 1);
  const sections: Section[] = [
    ...(routes.length === 0 ? [] : [{ id: 'map', title: 'The routes', markup: figureOf(routesMap(routes, land), []) }]),
    {
      id: 'changes',
      title: 'What it changes on a passage',
      markup: figureOf(
        differencesChart(
          shown.map(({ name, decimals, one }) => differenceShown(name, decimals, one)),
          a,
        ),
        [],
        folded('The same in a table, with the competitors', told('What it changes on a passage')),
      ),
    },
    ...flown.flatMap((one, i) =>
      one.winds.length === 0
        ? []
        : [
            {
              id: `flew-${i + 1}`,
              title: `Where ${one.id} flew`,
              markup: figureOf(flownChart(one), [], folded('The same in a table', windsTable(one, i))),
            },
          ],
    ),
    {
      id: 'sails',
      title: 'Hours on each sail, A and B',
      markup: figureOf(
        sailsChart(sails, a, b),
        [],
        folded('The same in a table, with wear', told('Hours on each sail, and what they wear')),
      ),
    },
    { id: 'money', title: 'Money', markup: figureOf(moneyChart(worth), [], told('Money')) },
    ...(turns.length === 0
      ? []
      : [
          {
            id: 'turns',
            title: 'How the answer turns',
            markup: figureOf(turnsChart(worth), [], folded('The same in a table', told('How the answer turns'))),
          },
        ]),
    ...[...parts]
      .filter(([title]) => !SHOWN.has(title))
      .map(([title, text], i) => ({ id: `more-${i + 1}`, title, markup: markdownHtml([text], 1) })),
    {
      id: 'behind',
      title: 'What it is made from',
      markup: behindMarkup({
        ...study,
        formatVersion: worth.formatVersion,
        of: 'study.',
        ...(version === undefined ? {} : { version }),
      }),
    },
  ];
  return documentOf({
    title: `Is it worth its price: ${b} against ${a}`,
    firstLine: worthFirstLine(worth, isByClimatology(worth)),
    status: [],
    answer: [headline, first, more.join(' ')].filter((line) => line !== '').map(escaped),
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

const differenceShown = (name: string, decimals: number, one: Difference): DifferenceShown => {
  const ends = endsText(one, decimals);
  return {
    name,
    text: `${signed(one.mid, decimals)}${ends === '' ? '' : ` (${ends})`}`,
    mid: one.mid,
    low: one.low,
    high: one.high,
    p5: one.spread.p5,
    p95: one.spread.p95,
  };
};

function flownChart({ id, winds, hours, shareOfPassages }: Flown): Chart {
  const speeds = [...new Set(winds.map(({ twsFromKn }) => twsFromKn))].sort((one, other) => one - other);
  const angles = [...new Set(winds.map(({ twaFromDeg }) => twaFromDeg))].sort((one, other) => one - other);
  const hoursAt = (tws: number, twa: number) =>
    winds.find(({ twsFromKn, twaFromDeg }) => twsFromKn === tws && twaFromDeg === twa)?.hours ?? 0;
  return {
    title: `Where ${id} flew`,
    says: `${id} flew ${fixed(hours.mean, 1)} h of a passage in the mean, in ${fixed(100 * shareOfPassages, 0)} % of them; below by true wind speed to the right and angle downwards, the darker the more.`,
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

function sailsChart(sails: Worth['sails'], a: string, b: string): Chart {
  const used = sails.filter(({ hours }) => hours.a > 0 || hours.b > 0);
  return {
    title: 'Hours on each sail, A and B',
    says: `Mean hours of a passage: plain for A (${a}), hatched for B (${b}).`,
    draw: (width) =>
      barsIn(
        {
          unit: 'hours of a passage',
          bars: used.flatMap(({ id, hours }) => [
            {
              name: `${id}, A`,
              text: `${fixed(hours.a, 1)} h`,
              parts: [{ from: 0, to: hours.a, look: 'low-part', told: `${id}, A: ${fixed(hours.a, 1)} h` }],
            },
            {
              name: `${id}, B`,
              text: `${fixed(hours.b, 1)} h (${signed(hours.mid, 1)})`,
              parts: [{ from: 0, to: hours.b, look: 'high-part', told: `${id}, B: ${fixed(hours.b, 1)} h` }],
            },
          ]),
        },
        width,
      ),
  };
}

const MONEY_PARTS = [
  ['time', 'time'],
  ['nightChanges', 'night changes'],
  ['fuel', 'fuel'],
  ['wear', 'wear of A’s sails'],
  ['repairs', 'repairs'],
] as const;

function moneyChart({ money, currency, passages }: Worth): Chart {
  const { parts, savedPerPassage: saved, net, prices } = money;
  const of = (value: number) => moneyText(value, currency);
  const bar = (name: string, value: number) => ({
    name,
    text: of(value),
    parts: [
      {
        from: Math.min(0, value),
        to: Math.max(0, value),
        look: value < 0 ? 'taken-part' : 'day-part',
        told: `${name}: ${of(value)}`,
      },
    ],
  });
  const whole =
    net === null
      ? 'Without its price there is no net.'
      : `Over ${prices.years} years ${of(Math.abs(net.mid))} are ${net.mid < 0 ? 'lost' : 'left'}, all reckoned.`;
  return {
    title: 'Saved on a passage',
    says: `What B saves against A on one of ${passagesText(passages.both)}, without what it spends on itself: ${of(saved.mid)}; the line is between what the mean lies by their number. ${whole}`,
    draw: (width) =>
      barsIn(
        {
          unit: currency ?? 'the currency of the boat file',
          bars: [
            ...MONEY_PARTS.filter(([name]) => Math.abs(parts[name]) > 0).map(([name, words]) =>
              bar(`by ${words}`, parts[name]),
            ),
            {
              ...bar('all together', saved.mid),
              ...(saved.low === null || saved.high === null ? {} : { range: { low: saved.low, high: saved.high } }),
            },
          ],
        },
        width,
      ),
  };
}

function turnsChart(worth: Worth): Chart {
  const { turns, verdict } = worth;
  const inNet = verdict.by === 'net';
  const answerAt = (end: Turn['usual']) => (inNet ? (end.net ?? 0) : end.hours);
  return {
    title: 'How the answer turns',
    says: `One input at a time, all others as they are: the mark is the answer as it is, the bar what it goes to at the ends of the input; ${inNet ? 'the net over the years, which pays right of zero' : 'hours of a passage, B minus A, which are saved left of zero'}.`,
    draw: (width) =>
      barsIn(
        {
          unit: inNet ? `net${worth.currency === null ? '' : `, ${worth.currency}`}` : 'hours, B minus A',
          bars: turns.map((turn) => {
            const ends = [turn.low, turn.high].flatMap((end) => (end === null ? [] : [end]));
            const values = [turn.usual, ...ends].map(answerAt);
            const told = ends.map((end) => `${end.text}: ${endText(end, worth)}`).join('; ');
            return {
              name: INPUTS[turn.input],
              text: told,
              parts: [
                {
                  from: Math.min(...values),
                  to: Math.max(...values),
                  look: 'band-part',
                  told: `${INPUTS[turn.input]}: ${told}`,
                },
              ],
              mark: answerAt(turn.usual),
            };
          }),
        },
        width,
      ),
  };
}
