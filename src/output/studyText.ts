import { describeFault } from '../errors.js';
import { COMPUTED_BY } from '../passage/passage.js';
import type { Chance, GroupSummary, Metric, Spread } from '../study/study.js';
import { DEFAULT_E_FOLD_HOURS, DEFAULT_SPREAD_SHARES, UNSTEADY_UNDER } from '../weather/weather.js';
import { behindSections } from './behind.js';
import { CAUTION } from './caution.js';
import { duration, fixed, twoDigits, UNNAMED_CURRENCY } from './format.js';
import { escaped, table, visible } from './markdown.js';
import type { StudyToPrint } from './studyJson.js';

/** The first line: how many passages do not arrive, and the caution. */
export function studyFirstLine({ all }: StudyToPrint['summary']): string {
  const missing = all.passages - all.complete;
  const parts = [
    ...(missing === 0 ? [] : [`${missing} OF ${all.passages} PASSAGES INCOMPLETE.`]),
    ...((all.metrics['climatology-hours']?.mean ?? 0) > 0
      ? ['NOT A FORECAST, or not alone: wind of a climatology, without gales, squalls or calms.']
      : []),
    CAUTION,
  ];
  return parts.join(' ');
}

const BEST_TOLD = 5;

export const passagesText = (count: number) => (count === 1 ? '1 passage' : `${count} passages`);

/**
 * A study as it is printed on a terminal.
 * @example
 * studyTotalsText(sample.studied) // '…2 passages: 1 route × 1 boat × 1 weather × 2 starts…'
 */
export function studyTotalsText(study: StudyToPrint): string {
  const { summary } = study;
  const { all } = summary;
  const lines = [
    studyFirstLine(summary),
    '',
    `${passagesText(all.passages)}: ${counted(study)}`,
    ...(all.hours === null ? [] : [`Under way         ${spreadText(all.hours, duration)}`]),
    ...(all.metrics.changes === null ? [] : [`Sail changes      ${spreadText(all.metrics.changes, whole)}`]),
    ...all.chances.map((chance) => `${`${chancePassed(chance)}:`.padEnd(CHANCE_WIDTH)}${chanceCounted(chance)}`),
    ...climateNotes(study).flatMap((note) => ['', note]),
    '',
    'Hours per passage on each sail: mean, and the middle nine tenths',
    ...all.sails.map(({ id, hours }) => `  ${visible(id).padEnd(16)}${sailText(hours)}`),
    '',
    ...bestLines(study),
    ...(study.warnings.length === 0
      ? []
      : ['Warnings', ...study.warnings.map((warning) => `  ${describeFault(warning)}`), '']),
  ];
  return `${lines.join('\n')}\n`;
}

/**
 * A study in Markdown, for people.
 * @example
 * studyMarkdown(sample.studied) // '…1 route × 1 boat × 1 weather × 2 starts…'
 */
export function studyMarkdown(study: StudyToPrint): string {
  const { summary } = study;
  const { all } = summary;
  const sections = [
    `**${studyFirstLine(summary)}**`,
    `# ${passagesText(all.passages)}`,
    escaped(`${counted(study)}.`),
    groupTable([all]),
    ...climateNotes(study).map(escaped),
    ...pricedNote(study).map(escaped),
    ...named('By route', summary.routes),
    ...named('By boat', summary.boats),
    ...named('By weather', summary.weathers),
    ...named('By month of departure', summary.months),
    ...(summary.months.length === 0 ? [] : ['### Hours on each sail by month, mean', sailTable(summary.months)]),
    '## Hours on each sail, per passage',
    table(
      ['sail', 'mean', '5 %', '25 %', '50 %', '75 %', '95 %'],
      all.sails.map(({ id, hours }) => [id, ...spreadCells(hours, 1)]),
    ),
    ...wearSection(all, study.currencies),
    '## Chances',
    'Of these passages, but for those that broke off before they were over it; in brackets between what the chance may lie, by their number alone (95 %).',
    table(
      ['what', 'in passages', 'chance'],
      all.chances.map((chance) => [
        chancePassed(chance),
        `${chance.over} of ${chance.of}`,
        chanceShare(chance) ?? 'not known',
      ]),
    ),
    '## Start by start',
    escaped(weightText(study)),
    startTable(study),
    '### Hours on each sail by start, mean',
    sailTable(summary.starts),
    ...behindSections(study),
  ];
  return `${sections.filter((section) => section !== '').join('\n\n')}\n`;
}

/** How many of what a study is made of. */
function counted({ routes, boats, weathers, starts }: StudyToPrint): string {
  const several = (list: readonly string[], what: string) =>
    list.length === 1 ? `1 ${what}` : `${list.length} ${what}s`;
  return [
    several(routes, 'route'),
    several(boats, 'boat'),
    several(weathers, 'weather'),
    several(starts, 'start'),
  ].join(' × ');
}

/** What a climatology is and is not, where passages were sailed in one. */
export function climateNotes({ draws, summary: { all } }: StudyToPrint): string[] {
  const { steadiness, 'climatology-hours': hours, 'unsteady-hours': unsteady } = all.metrics;
  if (steadiness === null || hours === null || unsteady === null) return [];
  const steady = `${fixed(hours.mean, 0)} h a passage are by a monthly climatology, whose wind has a steadiness of ${fixed(steadiness.mean, 2)} in the mean; ${fixed(unsteady.mean, 0)} h are unsteady (under ${UNSTEADY_UNDER}), where its direction says little.`;
  if (draws === undefined)
    return [`${steady} It is the mean wind of the month: gales, calms and squalls are not in it, nor is any spread.`];
  const { passage, weather, observation } = draws.shares ?? DEFAULT_SPREAD_SHARES;
  const percent = (share: number) => `${fixed(100 * share, 0)} %`;
  return [
    steady,
    `That wind is synthetic: ${draws.count} drawings (seed ${draws.seed} and on) from the means of the month, whose spread is at most what the means imply; of its variance ${percent(passage)} stay the same over a drawing, ${percent(weather)} come and go within ${draws.eFoldHours ?? DEFAULT_E_FOLD_HOURS} h, ${percent(observation)} are taken for errors of observation and dropped (placeholders without a source). Squalls and lulls are not in it.`,
  ];
}

/** What `plan` looks at unless asked otherwise. */
const LABELS_OF_PLAN = COMPUTED_BY.labels;

/** Why the plan of a start may be another than `plan` gives; none where both search alike. */
function pricedNote({ options: { choice, arriveDaylight, labels = LABELS_OF_PLAN } }: StudyToPrint): string[] {
  if (choice === 'fastest') return [];
  const otherwise =
    'So the plan of one start may be another there, by minutes of arrival and a change or two (docs/model.md).';
  // To arrive by daylight the whole trade-off is searched here too.
  if (arriveDaylight === true)
    return labels >= LABELS_OF_PLAN
      ? []
      : [`Each passage is searched with labels ${labels}, \`plan\` with ${LABELS_OF_PLAN}. ${otherwise}`];
  return [
    `Each passage is planned by the price of a change alone, which is quick (labels ${labels}); \`plan\` searches the whole trade-off of changes and arrival (labels ${LABELS_OF_PLAN}). ${otherwise}`,
  ];
}

/** What a passage takes of the sails, where anything is known of it. */
function wearSection({ sails, metrics }: GroupSummary, currencies: StudyToPrint['currencies'] = [null]): string[] {
  const worn = sails.flatMap(({ id, wear }) => (wear === null || wear.p95 <= 0 ? [] : [{ id, wear }]));
  if (worn.length === 0) return [];
  const money = metrics['wear-money'];
  const unknown = metrics['slatting-unknown-hours'];
  const percent = (value: number) => `${twoDigits(100 * value)} %`;
  return [
    '## Wear, per passage',
    'Share of each sail’s life that a passage takes, by the middle of constants that are mostly placeholders without a source: `plan.md` of one passage lists them, with how far they may be off.',
    table(
      ['sail', 'mean', '5 %', '50 %', '95 %'],
      worn.map(({ id, wear }) => [id, ...[wear.mean, wear.p5, wear.p50, wear.p95].map(percent)]),
    ),
    ...(unknown === null || unknown.mean < 0.5
      ? []
      : [
          `In ${fixed(unknown.mean, 0)} h a passage the air is light and the waves are not known: no slatting is counted in them.`,
        ]),
    ...(money === null ? [] : [wearMoneyText(money, [...new Set(currencies)])]),
  ];
}

/** What a passage takes of new sails, in one currency: a mean over several is none. */
function wearMoneyText({ mean, p5, p95 }: Spread, [currency = null, ...more]: readonly (string | null)[]): string {
  if (more.length > 0)
    return `The money that is, passage by passage, stands in passages.csv: the boats’ prices are in several currencies (${[currency, ...more].map((one) => one ?? 'one that is not named').join(', ')}), which have no mean.`;
  const [unit, unnamed] = currency === null ? ['', `, ${UNNAMED_CURRENCY}`] : [` ${currency}`, ''];
  return `Of new sails ${twoDigits(mean)}${unit} a passage in the mean, ${twoDigits(p5)} to ${twoDigits(p95)} in nine of ten${unnamed}.`;
}

const named = (title: string, groups: readonly GroupSummary[]): string[] =>
  groups.length === 0 ? [] : [`## ${title}`, groupTable(groups)];

const whole = (value: number) => fixed(value, 0);

const spreadText = ({ mean, p5, p95 }: Spread, text: (value: number) => string) =>
  `${text(mean)} in the mean, ${text(p5)} to ${text(p95)} in nine of ten`;

const spreadCells = ({ mean, p5, p25, p50, p75, p95 }: Spread, decimals: number) =>
  [mean, p5, p25, p50, p75, p95].map((value) => fixed(value, decimals));

const sailText = ({ mean, p5, p95 }: Spread) =>
  `${fixed(mean, 0).padStart(5)} h  ${fixed(p5, 0)} to ${fixed(p95, 0)} h`;

function groupTable(groups: readonly GroupSummary[]): string {
  return table(
    [
      '',
      'passages',
      'complete',
      'hours, mean',
      '5 %',
      '50 %',
      '95 %',
      'changes',
      'by night',
      'highest gust, mean kn',
      'steadiness',
      'score',
    ],
    groups.map(({ name, passages, complete, hours, metrics, score }) => [
      name,
      `${passages}`,
      `${complete}`,
      ...(hours === null
        ? ['', '', '', '']
        : [hours.mean, hours.p5, hours.p50, hours.p95].map((value) => fixed(value, 1))),
      meanText(metrics.changes, 1),
      meanText(metrics['night-changes'], 1),
      meanText(metrics['gust-max'], 0),
      meanText(metrics.steadiness, 2),
      score === null ? '' : fixed(score, 1),
    ]),
  );
}

const meanText = (spread: Spread | null, decimals: number) => (spread === null ? '' : fixed(spread.mean, decimals));

function sailTable(groups: readonly GroupSummary[]): string {
  const sails = [...new Set(groups.flatMap((group) => group.sails.map(({ id }) => id)))];
  return table(
    ['', ...sails],
    groups.map((group) => [
      group.name,
      ...sails.map((id) => meanText(group.sails.find((sail) => sail.id === id)?.hours ?? null, 1)),
    ]),
  );
}

/** Every start side by side: of one passage each what it is, else the means. */
function startTable({ summary: { starts, bestStarts } }: StudyToPrint): string {
  return table(
    [
      'start',
      'rank',
      'complete',
      'arrival, 50 %',
      'hours',
      'changes',
      'by night',
      'over 28 kn, h',
      'near the limit, h',
      'highest gust, kn',
      'score',
    ],
    starts.map(({ name, passages, complete, arrivals, metrics, score }) => {
      const rank = bestStarts.indexOf(name);
      return [
        name,
        rank < 0 ? '' : `${rank + 1}`,
        passages === 1 ? (complete === 1 ? 'yes' : 'no') : `${complete} of ${passages}`,
        arrivals?.p50 ?? '',
        meanText(metrics.hours, 1),
        meanText(metrics.changes, 1),
        meanText(metrics['night-changes'], 1),
        meanText(metrics['hours-over-28'], 1),
        meanText(metrics['near-limit-hours'], 1),
        meanText(metrics['gust-max'], 0),
        score === null ? '' : fixed(score, 1),
      ];
    }),
  );
}

export function weightText({ summary: { weights } }: StudyToPrint): string {
  const worth = Object.entries(weights) as [Metric, number][];
  const told = worth.map(([metric, weight]) => `${weight} × ${metric}`).join(' + ');
  return `Ranked by ${told}, the less the better; the weights are yours to set (by default an hour counts as one and a sail change as half, a placeholder without a source). Starts with incomplete passages come last: the hours of such a passage are those to its estimated arrival, all else is up to where it broke off.`;
}

function bestLines(study: StudyToPrint): string[] {
  const { starts, bestStarts } = study.summary;
  if (starts.length < 2) return [];
  const byName = new Map(starts.map((start) => [start.name, start]));
  return [
    'Best starts by the weights',
    ...bestStarts.slice(0, BEST_TOLD).map((name) => {
      const { metrics, score, passages, complete } = byName.get(name)!;
      const open = complete === passages ? '' : `; ${passages - complete} of ${passages} incomplete`;
      return `  ${name}  ${meanText(metrics.hours, 1)} h, ${meanText(metrics.changes, 1)} changes, score ${fixed(score!, 1)}${open}`;
    }),
    '',
  ];
}

const NAMES: Readonly<Partial<Record<Metric, string>>> = {
  hours: 'h under way',
  changes: 'sail changes',
  'night-changes': 'changes by night',
  'waking-changes': 'changes waking the watch',
  'motor-hours': 'h under engine',
  'fuel-litres': 'l of fuel',
  'near-limit-hours': 'h near the limit',
  'wind-max': 'kn of wind',
  'gust-max': 'kn in the gust',
  'wave-max': 'm of waves',
  'hours-over-34': 'h over 34 kn',
  'hours-over-28': 'h over 28 kn',
  'hours-over-48': 'h over 48 kn',
  'hove-to-hours': 'h hove to',
  'no-plan-hours': 'h in which no plan fitted',
};

/** What is over its limit, in words that tell which way it goes. */
export const chancePassed = (chance: Chance) =>
  chance.limit === 0 && NAMES[chance.metric]?.startsWith('h ') === true
    ? `some time ${NAMES[chance.metric]!.slice(2)}`
    : `more than ${chanceName(chance)}`;

/** In how many passages it was, and what chance that is. */
function chanceCounted({ over, of, ...chance }: Chance): string {
  const share = chanceShare(chance);
  return share === null ? 'not known' : `in ${over} of ${passagesText(of)}, ${share}`;
}

const CHANCE_WIDTH = 35;

const chanceName = ({ metric, limit }: Chance) => `${limit} ${NAMES[metric] ?? metric}`;

export function chanceText({ over, of, ...chance }: Chance): string {
  const share = chanceShare(chance);
  return share === null ? 'not known' : `${share}, ${over} of ${of}`;
}

/** A chance and between what it may lie; null where it is not known. */
function chanceShare({ share, shareLow, shareHigh }: Pick<Chance, 'share' | 'shareLow' | 'shareHigh'>): string | null {
  if (share === null || shareLow === null || shareHigh === null) return null;
  const percent = (value: number) => `${fixed(100 * value, 0)} %`;
  return `${percent(share)} (${percent(shareLow)} to ${percent(shareHigh)})`;
}
