import {
  fixed,
  moneyText,
  nextSailAnswer,
  nextSailFirstLine,
  nextSailJson,
  nextSailMarkdown,
  rankedText,
  type StudyBehind,
  UNNAMED_CURRENCY,
} from '../output/output.js';
import type { NextSail } from '../worth/worth.js';
import { barsIn } from './charts/bars.js';
import { behindMarkup } from './document/behind.js';
import { dataTable } from './document/dataTable.js';
import { documentOf } from './document/document.js';
import { type Chart, figureOf } from './document/figure.js';
import { type Figures, figuresOf } from './document/figures.js';
import { markdownHtml } from './document/markdownHtml.js';
import { markdownParts } from './document/markdownParts.js';
import type { ReportOptions } from './planReport.js';

/**
 * The ranking of further sails as one self-contained file of HTML for people. Every figure in it stands in `nextSailJson` of the same ranking.
 *
 * @example
 * nextSailReport(sample.next, sample.studied) // '<!doctype html>…'
 */
export function nextSailReport(
  next: NextSail,
  study: StudyBehind,
  { version }: Pick<ReportOptions, 'version'> = {},
): string {
  const { rows, boat, formatVersion } = next;
  const figures = figuresOf(JSON.parse(nextSailJson(next, study)));
  const [first] = rows;
  return documentOf({
    title: `The next sail for ${boat}`,
    firstLine: nextSailFirstLine(next),
    status: [],
    answer: [
      nextSailAnswer(next),
      rankedText(next),
      ...(first === undefined
        ? []
        : [
            `${first.kind}: ${fixed(-first.comparison.differences.hours!.mid, 1)} h saved on a passage, flown ${fixed(first.comparison.flown[0]?.hours.mean ?? 0, 1)} h of it.`,
          ]),
    ].map((line) =>
      figures.tied(
        line,
        ...['money.prices.years', 'differences.hours.mid', 'flown[0].hours.mean'].map(
          (of) => `rows[0].comparison.${of}`,
        ),
      ),
    ),
    sections: [
      { id: 'ranking', title: 'The ranking', markup: figureOf(rankingChart(next), [], rankingTable(next, figures)) },
      ...markdownParts(nextSailMarkdown(next, study))
        .filter(({ title }) => title !== 'Warnings' && title !== 'Made from')
        .map(({ title, text }, i) => ({ id: `more-${i + 1}`, title, markup: markdownHtml([text], 1) })),
      {
        id: 'behind',
        title: 'What it is made from',
        markup: behindMarkup({ ...study, formatVersion, of: 'study.', ...(version === undefined ? {} : { version }) }),
      },
    ],
    fills: [],
  });
}

/** What sails are ranked by: the net, or the hours that each saves. */
function rankingChart({ rows, rankedBy }: NextSail): Chart {
  const byNet = rankedBy === 'net';
  const { currency = null, money } = rows[0]?.comparison ?? {};
  const unit = byNet
    ? `net over ${money?.prices.years} years, ${currency ?? UNNAMED_CURRENCY}`
    : 'hours saved on a passage';
  return {
    title: byNet ? 'Net over the years' : 'Hours saved on a passage',
    says: `${byNet ? 'The net of each sail over the years' : 'Mean hours that each sail saves on a passage'}, tried once and alone, best first; the line is between what it lies by the number of passages.`,
    ...(rows.length === 0 ? { nothing: 'No sail was tried.' } : {}),
    draw: (width) =>
      barsIn(
        {
          unit,
          bars: rows.map((row) => {
            const { hours } = row.comparison.differences;
            const { net } = row.comparison.money;
            const value = byNet ? (net?.mid ?? null) : -hours!.mid;
            const [low, high] = byNet
              ? [net?.low ?? null, net?.high ?? null]
              : [negative(hours!.high), negative(hours!.low)];
            const text = byNet ? netText(row) : `${fixed(value ?? 0, 1)} h`;
            return {
              name: row.kind,
              text,
              parts:
                value === null
                  ? []
                  : [
                      {
                        from: Math.min(0, value),
                        to: Math.max(0, value),
                        look: value < 0 ? 'taken-part' : 'day-part',
                        told: `${row.kind}: ${text}`,
                      },
                    ],
              ...(low === null || high === null ? {} : { range: { low, high } }),
            };
          }),
        },
        width,
      ),
  };
}

const negative = (value: number | null) => (value === null ? null : -value);

function rankingTable({ rows }: NextSail, { tied }: Figures): string {
  return dataTable({
    caption: 'Sails that were tried, best first; hours are with it minus without',
    of: 'rows',
    rows,
    columns: [
      { head: 'kind', field: 'kind', text: ({ kind }) => kind },
      { head: 'm²', field: 'areaM2', text: ({ areaM2 }) => (areaM2 === null ? '' : fixed(areaM2, 0)), isNumber: true },
      {
        head: 'hours',
        field: 'comparison.differences.hours.mid',
        text: ({ comparison }) => fixed(comparison.differences.hours!.mid, 2),
        isNumber: true,
      },
      {
        head: 'changes',
        field: 'comparison.differences.changes.mid',
        text: ({ comparison }) => fixed(comparison.differences.changes!.mid, 2),
        isNumber: true,
      },
      {
        head: 'by night',
        field: 'comparison.differences.night-changes.mid',
        text: ({ comparison }) => fixed(comparison.differences['night-changes']!.mid, 2),
        isNumber: true,
      },
      {
        head: 'flew, h',
        text: flewText,
        markup: (row, i) => tied(flewText(row), `rows[${i}].comparison.flown[0].hours.mean`),
        isNumber: true,
      },
      {
        head: 'net',
        text: netText,
        markup: (row, i) => tied(netText(row), `rows[${i}].comparison.money.net.mid`),
        isNumber: true,
      },
    ],
  });
}

type Row = NextSail['rows'][number];

const flewText = ({ comparison: { flown } }: Row) => (flown[0] === undefined ? '' : fixed(flown[0].hours.mean, 1));

const netText = ({ comparison: { money, currency } }: Row) =>
  money.net === null ? 'not known' : moneyText(money.net.mid, currency);
