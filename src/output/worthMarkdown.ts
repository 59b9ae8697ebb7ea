import type { Comparison, Difference, Flown, Turn, Worth } from '../worth/worth.js';
import { behindSections } from './behind.js';
import { fixed, twoDigits, UNNAMED_CURRENCY } from './format.js';
import { escaped, table } from './markdown.js';
import type { StudyBehind } from './studyJson.js';
import { passagesText } from './studyText.js';
import { moneyText, verdictText, windText } from './verdictText.js';
import {
  endsText,
  endText,
  flownText,
  INPUTS,
  isByClimatology,
  nameIn,
  sharePercent,
  signed,
  TOLD,
  unfinishedLines,
  worthFirstLine,
} from './worthParts.js';

/**
 * The answer in Markdown, for people.
 * @example
 * worthMarkdown(sample.worth, sample.studied) // '…# Is it worth its price: with against without…'
 */
export function worthMarkdown(worth: Worth, study: StudyBehind): string {
  const { a, b, passages, differences, flown, rivals, sails, sailPlans, money, currency, turns, verdict } = worth;
  const all = [worth, ...rivals];
  const rivalHeads = rivals.map((rival) => rival.b);
  const rivalCells = (of: (comparison: Comparison) => string) => rivals.map(of);
  const sections = [
    `**${worthFirstLine(worth, isByClimatology(worth))}**`,
    `# ${escaped(`Is it worth its price: ${b} against ${a}`)}`,
    escaped(verdictText(worth, study.warnings)),
    '## What it changes on a passage',
    escaped(
      `B minus A, means over ${passagesText(passages.both)} of ${fixed(passages.milesNm, 0)} Nm that both finish, which count as ${fixed(passages.independent, 0)} independent ones; then between what the mean lies by their number (95 %), and what nine of ten passages lie between. Competitors are against A too.`,
    ),
    table(
      ['', 'A', 'B', 'B − A', 'mean between', 'nine of ten', 'less / same / more', ...rivalHeads],
      TOLD.flatMap((told) => {
        const [metric, , decimals] = told;
        const one = differences[metric];
        if (
          one === null ||
          all.every((of) => (of.differences[metric]?.a ?? 0) === 0 && (of.differences[metric]?.b ?? 0) === 0)
        )
          return [];
        return [
          [
            nameIn(told, worth),
            fixed(one.a, decimals),
            fixed(one.b, decimals),
            signed(one.mid, decimals),
            endsText(one, decimals),
            `${fixed(one.spread.p5, decimals)} to ${fixed(one.spread.p95, decimals)}`,
            `${one.fewer} / ${one.same} / ${one.more}`,
            ...rivalCells((rival) => meanText(rival.differences[metric], decimals)),
          ],
        ];
      }),
    ),
    ...(flown.length === 0 ? [] : ['## What it flew', ...flown.map((one) => escaped(flownText(one)))]),
    ...flown
      .filter(({ winds }) => winds.length > 0)
      .flatMap(({ id, winds }) => [`### ${escaped(`${id} by wind and angle, hours of a passage`)}`, windTable(winds)]),
    '## Hours on each sail, and what they wear',
    'Hours and operations of a passage, B minus A; of the life of each sail what a passage takes, and the money that is, by constants that are mostly placeholders without a source (`windwardrobe plan` lists them); in brackets by the ends of the constants.',
    table(
      [
        'sail',
        '',
        'hours, A',
        'hours, B',
        'B − A',
        'operations, B − A',
        'life, A',
        'life, B',
        `money, ${currency ?? UNNAMED_CURRENCY}, B − A`,
        ...rivalHeads.map((name) => `hours, ${name}`),
      ],
      sails.map((sail) => [
        sail.id,
        { new: 'new', gone: 'not in B', both: '', changed: 'changed' }[sail.of],
        fixed(sail.hours.a, 1),
        fixed(sail.hours.b, 1),
        signed(sail.hours.mid, 1),
        signed(sail.operations.mid, 1),
        lifeText(sail.wear?.a),
        lifeText(sail.wear?.b),
        sail.money === null
          ? 'not known'
          : `${signed(twoDigits(sail.money.mid), 0)}${sail.moneyByConstants === null ? '' : ` (${fixed(twoDigits(sail.moneyByConstants.low), 0)} to ${fixed(twoDigits(sail.moneyByConstants.high), 0)})`}`,
        ...rivalCells((rival) => meanText(rival.sails.find(({ id }) => id === sail.id)?.hours ?? null, 1)),
      ]),
    ),
    '### By sail plan',
    table(
      ['plan', 'hours, A', 'hours, B', 'B − A'],
      sailPlans.map(({ id, hours }) => [id, fixed(hours.a, 1), fixed(hours.b, 1), signed(hours.mid, 1)]),
    ),
    '## Money',
    ...moneySection(worth),
    ...(rivals.length === 0 ? [] : ['### Competitors', rivalTable(rivals)]),
    ...unfinishedLines(worth).map(escaped),
    ...(turns.length === 0 || worth.alike
      ? []
      : [
          '## How the answer turns',
          escaped(
            `One input at a time, all others as they are, the one that moves it most first; hours are B minus A on a passage${money.net === null ? '' : `, money the net over ${money.prices.years} years`}. What is sailed anew for it is a sample of the passages, as they are and with the input moved.`,
          ),
          turnTable(worth),
        ]),
    ...(verdict.toMeasure.length === 0
      ? []
      : [
          '## What would settle it',
          'Measured speeds in these winds, an hour under each plan, in steady wind and on the same course:',
          table(
            ['plan', 'against', 'wind', 'hours of a passage'],
            verdict.toMeasure.map((one) => [one.plan, one.rival ?? '', windText(one), fixed(one.hours, 1)]),
          ),
        ]),
    '## What it does not say',
    LIMITS.map((limit) => `- ${limit}`).join('\n'),
    ...behindSections(study),
    `- currency: ${currency ?? 'that of your prices: the boat file names none'}`,
  ];
  return `${sections.filter((section) => section !== '').join('\n\n')}\n`;
}

const LIMITS = [
  'It holds for these passages, this weather and this crew. Passages of neighbouring starts share their weather; the interval takes that in only as far as they are alike from start to start.',
  'A forecast on a grid and a climatology hold no squalls, and an estimate no waves: a sail that is taken in late is dearer than all of this.',
  'Whether a sail is safe to set is no matter of money. The skipper decides.',
];

const lifeText = (share: number | undefined) => (share === undefined ? 'not known' : `${twoDigits(100 * share)} %`);
const meanText = (one: Difference | null, decimals: number) => (one === null ? '' : signed(one.mid, decimals));

function windTable(winds: Flown['winds']): string {
  const [speeds, angles] = [
    [...new Set(winds.map(({ twsFromKn }) => twsFromKn))].sort((a, b) => a - b),
    [...new Set(winds.map(({ twaFromDeg }) => twaFromDeg))].sort((a, b) => a - b),
  ];
  const hours = (tws: number, twa: number) =>
    winds.find(({ twsFromKn, twaFromDeg }) => twsFromKn === tws && twaFromDeg === twa)?.hours ?? 0;
  return table(
    ['TWA', ...speeds.map((tws) => `${tws} to ${tws + 5} kn`)],
    angles.map((twa) => [`${twa} to ${twa + 20}`, ...speeds.map((tws) => fixed(hours(tws, twa), 1))]),
  );
}

function moneySection(worth: Worth): string[] {
  const { money, currency, flown } = worth;
  const { prices, parts, savedPerPassage: saved } = money;
  const of = (value: number | null) => (value === null ? 'not known' : moneyText(value, currency));
  const ranged = (band: typeof prices.hourValue | null) =>
    band === null || band.low === band.high
      ? of(band?.mid ?? null)
      : `${of(band.mid)} (${fixed(band.low, 0)} to ${fixed(band.high, 0)})`;
  const from = (name: keyof typeof prices.from) =>
    ({
      given: '',
      'boat-file': ' (boat file)',
      placeholder: ' (a placeholder without a source)',
      none: ' (not given)',
    })[prices.from[name]];
  const ends = endsText(saved, 0);
  const rows: string[][] = [
    ['price', `${ranged(prices.price)}${from('price')}`],
    ['value of an hour', `${ranged(prices.hourValue)}${from('hourValue')}`],
    ['value of a night change', `${ranged(prices.nightChangeValue)}${from('nightChangeValue')}`],
    ['price of a litre', `${ranged(prices.litrePrice)}${from('litrePrice')}`],
    ['years', `${prices.years}${from('years')}`],
    ['miles a year', `${fixed(prices.milesPerYear.mid, 0)}${from('milesPerYear')}`],
    [
      'tears',
      `${prices.tearsPer100Hours.mid} in 100 h flown${from('tearsPer100Hours')}, each ${of(prices.tearCost?.mid ?? null)}${from('tearCost')}`,
    ],
    [
      'resale',
      `${sharePercent(prices.resale.firstYear)} after a year, ${sharePercent(prices.resale.perYear)} of that each year after, ${sharePercent(prices.resale.least)} at least${from('resale')}`,
    ],
    [
      'saved on a passage',
      `${of(saved.mid)}${ends === '' ? '' : `, the mean between ${ends}`}; nine of ten passages ${fixed(saved.spread.p5, 0)} to ${fixed(saved.spread.p95, 0)}`,
    ],
    ['of this by time', of(parts.time)],
    ['by night changes', of(parts.nightChanges)],
    ['by fuel', of(parts.fuel)],
    ['by wear of A’s sails', of(twoDigits(parts.wear))],
    ['by repairs', of(parts.repairs)],
    ...(flown.length === 0
      ? []
      : [
          [
            'it spends on itself',
            money.ownWear === null
              ? 'not known how it wears'
              : `${lifeText(money.ownWear.mid)} of its life on a passage (${lifeText(money.ownWear.low)} to ${lifeText(money.ownWear.high)})${prices.price === null ? '' : `, ${of(twoDigits(money.ownWear.mid * prices.price.mid))}`}`,
          ],
        ]),
    ['passages in the years', fixed(money.passagesInYears, 1)],
    ...(money.cost === null
      ? []
      : [
          [
            'bought in the years',
            `${money.sailsBought}, with ${of(money.resale)} got for the last: ${of(money.cost)} in all`,
          ],
          [
            'net over the years',
            `${of(money.net!.mid)}${endsText(money.net!, 0) === '' ? '' : ` (${endsText(money.net!, 0)})`}`,
          ],
          [
            'break-even',
            money.passagesToBreakEven === null
              ? money.never === 'wears-out'
                ? 'never: a passage takes more of the sail’s life than it saves'
                : 'never: nothing is left of what it saves'
              : `after ${fixed(money.passagesToBreakEven, 1)} passages, ${fixed(money.milesToBreakEven!, 0)} Nm`,
          ],
          [
            'chance that it pays in the years',
            money.chancePays === null ? 'one passage cannot tell' : sharePercent(money.chancePays),
          ],
          ['cost of an hour flown', of(money.costPerHourFlown)],
          ['cost of a hoist', of(money.costPerHoist)],
          [
            'it would pay if an hour were worth',
            money.hourValueToPay === null ? 'it is no faster' : of(money.hourValueToPay),
          ],
        ]),
  ];
  return [table(['', ''], rows)];
}

function rivalTable(rivals: readonly Comparison[]): string {
  return table(
    ['', 'hours', 'changes', 'by night', 'flew, h', 'price', 'saved on a passage', 'net', 'break-even, passages'],
    rivals.map(({ b, differences, flown, money, currency }) => [
      b,
      meanText(differences.hours, 2),
      meanText(differences.changes, 2),
      meanText(differences['night-changes'], 2),
      fixed(
        flown.reduce((sum, one) => sum + one.hours.mean, 0),
        1,
      ),
      money.prices.price === null
        ? 'not known'
        : `${moneyText(money.prices.price.mid, currency)}${money.prices.from.price === 'placeholder' ? ' (a placeholder)' : ''}`,
      moneyText(money.savedPerPassage.mid, currency),
      money.net === null ? 'not known' : moneyText(money.net.mid, currency),
      money.passagesToBreakEven === null
        ? money.cost === null
          ? 'not known'
          : 'never'
        : fixed(money.passagesToBreakEven, 1),
    ]),
  );
}

function turnTable(worth: Worth): string {
  const told = (end: Turn['low']) => (end === null ? '' : `${end.text}: ${endText(end, worth)}`);
  return table(
    ['input', 'as it is', 'low', 'high', 'passages'],
    worth.turns.map((turn) => [
      INPUTS[turn.input],
      endText(turn.usual, worth),
      told(turn.low),
      told(turn.high),
      `${turn.passages}`,
    ]),
  );
}
