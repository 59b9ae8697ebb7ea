import {
  fixed,
  moneyText,
  nextSailAnswer,
  nextSailFirstLine,
  nextSailMarkdown,
  rankedText,
  type StudyBehind,
} from '../output/output.js';
import type { NextSail } from '../worth/worth.js';
import { barsIn } from './charts/bars.js';
import { behindMarkup } from './document/behind.js';
import { dataTable } from './document/dataTable.js';
import { documentOf } from './document/document.js';
import { type Chart, figureOf } from './document/figure.js';
import { markdownHtml } from './document/markdownHtml.js';
import { markdownParts } from './document/markdownParts.js';
import { escaped } from './drawing/svg.js';
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
    ].map(escaped),
    sections: [
      { id: 'ranking', title: 'The ranking', markup: figureOf(rankingChart(next), [], rankingTable(next)) },
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

function rankingChart({ rows }: NextSail): Chart {
  return {
    title: 'Hours saved on a passage',
    says: 'Mean hours that each sail, tried once and alone, saves on a passage; the line is between what the mean lies by the number of passages.',
    draw: (width) =>
      barsIn(
        {
          unit: 'hours saved on a passage',
          bars: rows.map(({ kind, comparison: { differences } }) => {
            const { low, mid, high } = differences.hours!;
            return {
              name: kind,
              text: `${fixed(-mid, 1)} h`,
              parts: [
                {
                  from: Math.min(0, -mid),
                  to: Math.max(0, -mid),
                  look: mid > 0 ? 'taken-part' : 'day-part',
                  told: `${kind}: ${fixed(-mid, 2)} h saved`,
                },
              ],
              ...(low === null || high === null ? {} : { range: { low: -high, high: -low } }),
            };
          }),
        },
        width,
      ),
  };
}

function rankingTable({ rows }: NextSail): string {
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
      { head: 'flew, h', text: ({ comparison }) => fixed(comparison.flown[0]?.hours.mean ?? 0, 1), isNumber: true },
      {
        head: 'net',
        text: ({ comparison: { money, currency } }) =>
          money.net === null ? 'not known' : moneyText(money.net.mid, currency),
        isNumber: true,
      },
    ],
  });
}
