import { NEED_IN_WORDS } from '../boat/boat.js';
import { kindOf } from '../catalogue/catalogue.js';
import { withArticle } from '../crossover/crossover.js';
import { describeFault } from '../errors.js';
import type { MeanRange, NextSail } from '../worth/worth.js';
import { behindSections } from './behind.js';
import { CAUTION } from './caution.js';
import { fixed } from './format.js';
import { escaped, table, visible } from './markdown.js';
import type { StudyBehind } from './studyJson.js';
import { moneyText } from './verdictText.js';
import { holeText } from './worthCsv.js';
import { signed, worthFirstLine } from './worthParts.js';

const UNFIT: Readonly<Record<NextSail['leftOut'][number]['why'], string>> = {
  aboard: 'she has one',
  main: 'a main is not set beside hers',
  needs: 'it needs',
  'no-speeds': 'its speeds cannot be estimated',
  unfinished: 'no passage is finished with it',
};

const ANSWERS: Readonly<Record<NextSail['rows'][number]['verdict']['answer'], string>> = {
  pays: 'pays',
  'does-not-pay': 'does not pay',
  'cannot-tell': 'cannot be told: the speeds are estimated',
  'not-in-money': 'faster or quieter, which nothing given puts in money',
  'no-difference': 'changes nothing',
};

const isUnpriced = ({ prices }: NextSail['rows'][number]['comparison']['money']) =>
  prices.price === null &&
  (prices.hourValue.high > 0 || prices.nightChangeValue.high > 0 || prices.litrePrice.high > 0);

/** By what sails are ranked. */
export const rankedText = ({ rankedBy, rows }: NextSail) => {
  const years = rows[0]?.comparison.money.prices.years;
  return rankedBy === 'net'
    ? `Ranked by the net over ${years} years${rows.some(({ saves }) => saves === null) ? '; those without a price are last' : ''}.`
    : `Ranked by the hours saved on a passage: ${rows.some(({ comparison: { money } }) => isUnpriced(money)) ? 'no sail has a price that is known' : 'nothing but sails has a price that would rank them in money'}.`;
};

export const nextSailAnswer = ({ rows, leftOut, rankedBy }: NextSail): string => {
  const [row] = rows;
  if (row === undefined)
    return leftOut.some(({ why }) => why === 'no-speeds' || why === 'unfinished')
      ? 'No sail could be ranked: next-sail.md tells why.'
      : 'No kind of the catalogue fits her.';
  const kind = withArticle(row.kind);
  if ((row.saves ?? 0) > 0)
    return [`${kind.charAt(0).toUpperCase()}${kind.slice(1)} would save most.`, ...fewText(row, rankedBy)].join(' ');
  return rankedBy === 'net' ? 'None of them pays on these passages.' : 'None of them saves time on these passages.';
};

/** What so few passages do not prove of the best; none where even the worst their number allows is a gain. */
function fewText({ comparison }: NextSail['rows'][number], rankedBy: NextSail['rankedBy']): string[] {
  const { passages, money, differences, currency } = comparison;
  if (passages.both === 1) return ['One passage tells of no other: on the next it may be another sail, or none.'];
  const { low, high } = rankedBy === 'net' ? money.net! : savedIn(differences.hours!);
  if (low === null || high === null || low >= 0) return [];
  const text = (value: number) => (rankedBy === 'net' ? moneyText(value, currency) : `${fixed(value, 1)} h`);
  const what = rankedBy === 'net' ? 'its net' : 'what it saves on a passage';
  return [`So few passages leave it open: by their number alone ${what} lies between ${text(low)} and ${text(high)}.`];
}

/** Between what the hours saved lie. */
const savedIn = ({ low, high }: Pick<MeanRange, 'low' | 'high'>) => ({
  low: high === null ? null : 0 - high,
  high: low === null ? null : 0 - low,
});

export const nextSailFirstLine = ({ rows }: NextSail) =>
  rows[0] === undefined
    ? CAUTION
    : worthFirstLine(rows[0].comparison, (rows[0].comparison.differences['climatology-hours']?.a ?? 0) > 0);

/**
 * The ranking on a terminal.
 * @example
 * nextSailText(sample.next, sample.studied) // '… 1. vented-downwind, 140 m²: 8.4 h saved, …'
 */
export function nextSailText(next: NextSail, study: StudyBehind): string {
  const { rows, holesUnknown } = next;
  const lines = [
    nextSailFirstLine(next),
    '',
    `${nextSailAnswer(next)} ${rankedText(next)}`,
    ...rows.map(({ kind, areaM2, comparison: { differences, flown, money, currency }, verdict, fills }, i) =>
      [
        `${`${i + 1}`.padStart(2)}. ${kind}${areaM2 === null ? '' : `, ${fixed(areaM2, 0)} m²`}: ${fixed(-differences.hours!.mid, 1)} h saved, ${signed(differences.changes!.mid, 1)} changes, flew ${fixed(flown[0]?.hours.mean ?? 0, 0)} h`,
        ...(money.net === null ? [] : [`net ${moneyText(money.net.mid, currency)}`]),
        ANSWERS[verdict.answer],
        ...(fills[0] === undefined ? [] : [`fills the hole in ${holeText(fills[0])}`]),
      ].join('; '),
    ),
    ...(holesUnknown === null ? [] : ['', `Holes were not looked for: ${visible(holesUnknown)}`]),
    ...(study.warnings.length === 0
      ? []
      : ['', 'Warnings', ...study.warnings.map((warning) => `  ${describeFault(warning)}`)]),
  ];
  return `${lines.join('\n')}\n`;
}

/**
 * The ranking in Markdown, for people.
 * @example
 * nextSailMarkdown(sample.next, sample.studied) // '…| vented-downwind | 140 |…'
 */
export function nextSailMarkdown(next: NextSail, study: StudyBehind): string {
  const { rows, leftOut, boat, holesUnknown } = next;
  const sections = [
    `**${nextSailFirstLine(next)}**`,
    `# ${escaped(`The next sail for ${boat}`)}`,
    escaped(
      `${nextSailAnswer(next)} ${rankedText(next)} Each was tried once, alone, on the same passages; differences are with it minus without. Prices by area are placeholders without a source.`,
    ),
    table(
      [
        '',
        'kind',
        'm²',
        'hours saved',
        'mean between',
        'changes',
        'by night',
        'flew, h',
        'of passages',
        'price',
        'net',
        'answer',
        'hole it fills',
      ],
      rows.map(({ kind, areaM2, comparison: { differences, flown, money, currency }, verdict, fills }, i) => {
        const { mid } = differences.hours!;
        const { low, high } = savedIn(differences.hours!);
        return [
          `${i + 1}`,
          kind,
          areaM2 === null ? '' : fixed(areaM2, 0),
          fixed(-mid, 2),
          low === null || high === null ? 'one passage cannot tell' : `${fixed(low, 2)} to ${fixed(high, 2)}`,
          signed(differences.changes!.mid, 2),
          signed(differences['night-changes']!.mid, 2),
          fixed(flown[0]?.hours.mean ?? 0, 1),
          `${fixed(100 * (flown[0]?.shareOfPassages ?? 0), 0)} %`,
          money.prices.price === null
            ? 'not known'
            : `${moneyText(money.prices.price.mid, currency)}${money.prices.from.price === 'placeholder' ? ' (a placeholder)' : ''}`,
          money.net === null ? 'not known' : moneyText(money.net.mid, currency),
          ANSWERS[verdict.answer],
          fills.map(holeText).join('; '),
        ];
      }),
    ),
    ...(holesUnknown === null ? [] : [escaped(`Holes were not looked for: ${holesUnknown}`)]),
    ...(leftOut.length === 0
      ? []
      : [
          '## Not tried',
          leftOut
            .map(({ kind, why, said }) => {
              const needs = kindOf(kind).needsOneOf.map((need) => NEED_IN_WORDS[need]);
              const what = why === 'needs' ? ` ${needs.join(' or ')}` : '';
              return `- ${kind}: ${escaped(`${UNFIT[why]}${what}${said === undefined ? '' : ` (${said})`}`)}`;
            })
            .join('\n'),
        ]),
    ...behindSections(study),
  ];
  return `${sections.filter((section) => section !== '').join('\n\n')}\n`;
}
