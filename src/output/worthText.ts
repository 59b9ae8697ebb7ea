import { describeFault } from '../errors.js';
import type { Metric } from '../study/study.js';
import type { Comparison, Difference, Flown, MeanRange, Turn, Worth } from '../worth/worth.js';
import { CAUTION } from './caution.js';
import { fixed, twoDigits } from './format.js';
import { escaped, table, visible } from './markdown.js';
import type { StudyBehind } from './studyJson.js';
import { passagesText } from './studyText.js';
import { moneyText, verdictText, windText } from './verdictText.js';

/** How many of the passages were not compared, and the caution. */
export function worthFirstLine({ passages }: Pick<Comparison, 'passages'>, hasClimatology: boolean): string {
  const { paired, both, onlyA, onlyB } = passages;
  return [
    ...(both === paired
      ? []
      : [
          `${paired - both} OF ${paired} PASSAGES NOT COMPARED: ${onlyA} only A finished, ${onlyB} only B, ${paired - both - onlyA - onlyB} neither.`,
        ]),
    ...(hasClimatology ? ['NOT A FORECAST, or not alone: wind of a climatology.'] : []),
    CAUTION,
  ].join(' ');
}

/** Metrics as a table tells them, in their order. */
const TOLD: readonly (readonly [Metric, string, number])[] = [
  ['hours', 'hours under way', 2],
  ['changes', 'sail changes', 2],
  ['night-changes', 'of these by night', 2],
  ['waking-changes', 'of these waking the watch', 2],
  ['operations', 'operations', 2],
  ['hand-hours', 'hands × hours at them', 2],
  ['reefs', 'reefs taken', 2],
  ['tacks', 'tacks', 2],
  ['gybes', 'gybes', 2],
  ['motor-hours', 'motor hours', 2],
  ['fuel-litres', 'fuel, l', 2],
  ['without-main-hours', 'hours without main', 2],
  ['knife-edge-hours', 'hours on a knife’s edge', 2],
  ['near-limit-hours', 'hours near the limit', 2],
  ['hove-to-hours', 'hours hove to', 2],
  ['wear-money', 'wear of sails, money', 0],
];

/** The ends of a mean in brackets; nothing where they are not known. */
const endsText = ({ low, high }: MeanRange, decimals: number) =>
  low === null || high === null ? '' : `${fixed(low, decimals)} to ${fixed(high, decimals)}`;

const sharePercent = (share: number) => `${fixed(100 * share, 0)} %`;

/** The answer on a terminal. */
export function worthText(worth: Worth, study: StudyBehind): string {
  const { a, b, passages, differences, flown, rivals, turns } = worth;
  const lines = [
    worthFirstLine(worth, isByClimatology(worth)),
    '',
    ...wrapped(verdictText(worth, study.warnings)),
    '',
    `${visible(b)} against ${visible(a)}, ${passagesText(passages.both)} of ${fixed(passages.milesNm, 0)} Nm${passages.both === 1 ? '' : `, which count as ${fixed(passages.independent, 0)}`}: mean, and between what it lies by their number (95 %)`,
    ...TOLD.flatMap(([metric, name, decimals]) => differenceLine(name, differences[metric], decimals)),
    ...flown.flatMap((one) => ['', ...wrapped(flownText(one))]),
    ...unfinishedLines(worth),
    ...(rivals.length === 0
      ? []
      : ['', 'Beside it', ...rivals.map((rival) => `  ${visible(rival.b)}: ${rivalText(rival)}`)]),
    ...(turns.length === 0
      ? []
      : ['', 'What turns the answer most', ...turns.slice(0, TURNS_TOLD).map((turn) => `  ${turnText(turn, worth)}`)]),
    ...(study.warnings.length === 0
      ? []
      : ['', 'Warnings', ...study.warnings.map((warning) => `  ${describeFault(warning)}`)]),
  ];
  return `${lines.join('\n')}\n`;
}

/** Competitors of which nothing can be told. */
const unfinishedLines = ({ rivalsUnfinished }: Worth): string[] =>
  rivalsUnfinished.map((name) => `${visible(name)} finishes none of the passages that A finishes.`);

const TURNS_TOLD = 5;
const WIDTH = 120;

/** A paragraph in lines of a terminal. */
function wrapped(text: string): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of visible(text).split(' ')) {
    if (line !== '' && line.length + word.length + 1 > WIDTH) {
      lines.push(line);
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  return [...lines, line];
}

const isByClimatology = ({ differences }: Comparison) => (differences['climatology-hours']?.a ?? 0) > 0;

function differenceLine(name: string, one: Difference | null, decimals: number): string[] {
  if (one === null || (one.a === 0 && one.b === 0)) return [];
  const ends = endsText(one, decimals);
  return [
    `  ${name.padEnd(26)}${signed(one.mid, decimals).padStart(8)}${ends === '' ? '' : `  (${ends})`}  ${fixed(one.a, decimals)} → ${fixed(one.b, decimals)}`,
  ];
}

/** With its sign; nothing of a zero. */
export const signed = (value: number, decimals: number): string =>
  `${Number(value.toFixed(decimals)) > 0 ? '+' : ''}${fixed(value, decimals)}`;

/** What a new sail did. */
function flownText({ id, hours, days, nightHours, shareOfHours, shareOfPassages, hoists, winds }: Flown): string {
  if (hours.mean === 0) return `${id} was never set.`;
  const [first, ...more] = winds.slice(0, 3).map((cell) => `${windText(cell)} (${fixed(cell.hours, 1)} h)`);
  const by = [
    `${id} flew ${fixed(hours.mean, 1)} h of a passage${fixed(hours.p5, 0) === fixed(hours.p95, 0) ? '' : ` (${fixed(hours.p5, 0)} to ${fixed(hours.p95, 0)} in nine of ten)`}, ${sharePercent(shareOfHours)} of the hours, in ${sharePercent(shareOfPassages)} of the passages`,
    ...(days === null ? [] : [`on ${fixed(days, 1)} days`]),
    ...(nightHours === null ? [] : [`${fixed(nightHours, 1)} h by night`]),
    ...(hoists === null ? [] : [`set ${fixed(hoists, 1)} times on the way`]),
  ].join(', ');
  return first === undefined ? `${by}.` : `${by}; most in ${[first, ...more].join(', ')}.`;
}

function rivalText({ differences, flown, money, currency }: Comparison): string {
  const hours = differences.hours!;
  const nights = differences['night-changes']!;
  const flew =
    flown.length === 0
      ? ''
      : `, flew ${fixed(
          flown.reduce((sum, one) => sum + one.hours.mean, 0),
          1,
        )} h`;
  const price = money.prices.price?.mid ?? null;
  const cost =
    price === null
      ? 'price not known'
      : `${moneyText(price, currency)}${money.prices.from.price === 'placeholder' ? ' (a placeholder)' : ''}, net ${moneyText(money.net?.mid ?? 0, currency)}`;
  return `${signed(hours.mid, 1)} h, ${signed(differences.changes!.mid, 1)} changes, ${signed(nights.mid, 1)} by night${flew}; ${cost}`;
}

/** What an input is called. */
const INPUTS: Readonly<Record<Turn['input'], string>> = {
  'speed-band': 'speed under the new sail',
  'coefficient-edition': 'edition of the coefficients',
  'set-without-main': 'force of a sail set flying without a main',
  shadow: 'shadow of the main',
  'wave-exponent': 'wave resistance',
  'gust-margin': 'margin on gusts',
  night: 'nights',
  price: 'price',
  'hour-value': 'value of an hour',
  'night-change-value': 'value of a night change',
  'litre-price': 'price of a litre',
  tears: 'chance of tearing it',
  resale: 'resale',
  'miles-per-year': 'miles a year',
  'own-wear': 'wear of the new sail',
  'wear-of-others': 'wear of the other sails',
};

const byNet = ({ verdict }: Worth) => verdict.by === 'net';

function turnText(turn: Turn, worth: Worth): string {
  const told = (end: Turn['low']) => (end === null ? [] : [`${end.text}: ${endText(end, worth)}`]);
  return `${INPUTS[turn.input]}: ${endText(turn.usual, worth)} as it is; ${[...told(turn.low), ...told(turn.high)].join('; ')}`;
}

const endText = ({ hours, net }: Turn['usual'], worth: Worth) =>
  byNet(worth) || (hours === 0 && net !== null)
    ? moneyText(net ?? 0, worth.currency)
    : `${signed(hours, 2)} h${net === null ? '' : `, ${moneyText(net, worth.currency)}`}`;

/** The answer in Markdown, for people. */
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
      TOLD.flatMap(([metric, name, decimals]) => {
        const one = differences[metric];
        if (
          one === null ||
          all.every((of) => (of.differences[metric]?.a ?? 0) === 0 && (of.differences[metric]?.b ?? 0) === 0)
        )
          return [];
        return [
          [
            name,
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
        `money, B − A`,
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
    ...(turns.length === 0
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
    ...(study.warnings.length === 0
      ? []
      : ['## Warnings', study.warnings.map((warning) => `- ${escaped(describeFault(warning))}`).join('\n')]),
    '## Made from',
    study.inputs.map(({ role, file, sha256 }) => `- ${role}: ${escaped(file)} (SHA-256 ${sha256})`).join('\n'),
    `- options: ${escaped(JSON.stringify(study.options))}`,
    `- currency: ${escaped(currency ?? 'as in the boat file, which names none')}`,
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
