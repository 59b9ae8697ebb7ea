import type { Boat } from '../boat/boat.js';
import { describeFault } from '../errors.js';
import { HOVE_TO_KN, type Hour, type IncompleteReason, type Passage } from '../passage/passage.js';
import type { Assumption } from '../polar/polar.js';
import type { Route } from '../route/route.js';
import type { Day, Tally, Totals } from '../totals/totals.js';
import type { Wear } from '../wear/wear.js';
import { CAUTION } from './caution.js';
import { choiceNotes, knifeEdgeLines, landfallText } from './choiceText.js';
import { filledNote } from './filledNote.js';
import { duration, fixed, position } from './format.js';
import { escaped, table, visible } from './markdown.js';
import type { InputDigest } from './planJson.js';
import { daysRunTables, passageRows, sailmakersTables } from './tallyText.js';
import { watchPlan } from './watchPlan.js';
import { wearLines, wearSection } from './wearText.js';

/** What a plan is printed from. */
export interface PlanToPrint {
  readonly passage: Passage;
  readonly totals: Totals;
  readonly boat: Boat;
  readonly route: Route;
  readonly inputs: readonly InputDigest[];
  /** Absent: nothing is said of it. */
  readonly wear?: Wear;
}

const REASONS: Readonly<Record<IncompleteReason, string>> = {
  'forecast-ended': 'the forecast ends before the passage does',
  'no-wind-data': 'no wind is known where the boat is then',
  'too-slow': 'she takes longer than 2 kn and ten days would',
  'no-plan-allowed': 'no sail plan was ever allowed and the boat could go nowhere',
};

/** The first line: whether the plan is complete, and the caution. */
function firstLine({ complete, reason, distanceToGoNm, end }: Passage): string {
  if (complete || reason === null) return CAUTION;
  return `PLAN INCOMPLETE: ${REASONS[reason]}, at ${end} with ${fixed(distanceToGoNm, 0)} Nm to go. ${CAUTION}`;
}

const MOST_TOLD = 5;

/** What people must know of estimated speeds, right after the caution; none where speeds come from polars. */
function estimateLines({ estimate }: Passage): string[] {
  if (estimate === undefined) return [];
  return [`SPEEDS ARE ESTIMATED. ${estimate.basis[0] ?? ''}`, undecidedText(estimate)].map(visible);
}

/** That hours are sailed in no forecast, right after the caution; none where all are. */
function climateLines({ hours, synthetic }: Passage): string[] {
  const minutesOf = (some: readonly Hour[]) => some.reduce((sum, { minutes }) => sum + minutes, 0);
  const by = minutesOf(hours.filter(({ weather }) => weather === 'climatology'));
  if (by === 0) return [];
  const howLong = `in ${duration(by / 60)} of ${duration(minutesOf(hours) / 60)}`;
  return synthetic === undefined
    ? [`NOT A FORECAST ${howLong}: the wind is the mean of the month, without gales, squalls or calms.`]
    : [`SYNTHETIC WEATHER ${howLong} (seed ${synthetic.seed}): one drawing of what monthly means imply, no forecast.`];
}

/** What else an estimate rests on. */
const estimateNotes = ({ estimate }: Passage): string[] => estimate?.basis.slice(1) ?? [];

const ASSUMPTION_WORDS: Readonly<Record<Assumption, string>> = {
  'coefficient-edition': 'the edition of the coefficients',
  'set-without-main': 'what a flying sail gains without a main',
  shadow: 'the shadow of the main',
  'wave-exponent': 'how waves grow with speed',
};

/** The comparisons an estimate cannot decide, those of most hours first. */
function undecidedText({ undecided }: NonNullable<Passage['estimate']>): string {
  if (undecided.length === 0)
    return 'No comparison of plans in this passage turns within the bands of what is assumed.';
  const told = undecided
    .slice(0, MOST_TOLD)
    .map(
      ({ sailPlan, rival, hours, assumptions }) =>
        `${sailPlan} or ${rival} (${fixed(hours, 0)} h; hangs on ${assumptions.map((name) => ASSUMPTION_WORDS[name]).join(', ')})`,
    );
  const more = undecided.length - told.length;
  return `The estimate cannot decide: ${told.join('; ')}${more > 0 ? `; and ${more} more in plan.json` : ''}.`;
}

/** The totals as they are printed on a terminal. */
export function totalsText(plan: PlanToPrint): string {
  const { passage, totals, boat, route } = plan;
  const lines = [
    firstLine(passage),
    ...estimateLines(passage),
    ...climateLines(passage),
    '',
    `${visible(boat.name)}: ${visible(route.waypoints[0]!.name)} to ${visible(route.waypoints.at(-1)!.name)}`,
    ...summary(plan).map(([label, value]) => `${label.padEnd(18)}${value}`),
    '',
    ...choiceNotes(passage),
    '',
    'Hours on each sail',
    ...tallyLines(totals.sails),
    '',
    'Hours under each sail plan',
    ...tallyLines(totals.sailPlans.filter((plan) => plan.hours > 0)),
    ...wearLines(plan.wear).map(visible),
  ];
  lines.push(
    ...[...estimateNotes(passage), ...filledNote(boat), ...placeholderNote(plan)].flatMap((note) => [
      '',
      visible(note),
    ]),
  );
  if (passage.warnings.length > 0)
    lines.push('', 'Warnings', ...passage.warnings.map((warning) => `  ${describeFault(warning)}`));
  return `${lines.join('\n')}\n`;
}

/** The plan in Markdown, for people. */
export function planMarkdown(plan: PlanToPrint): string {
  const { passage, totals, boat, route, inputs } = plan;
  const { hours, warnings } = passage;
  const changes = hours.flatMap((hour, i) =>
    hour.sailChange ? [changeRow(i === 0 ? passage.options.planSet : hours[i - 1]!.sailPlan, hour)] : [],
  );
  const sections = [
    `**${firstLine(passage)}**`,
    ...[...estimateLines(passage), ...climateLines(passage)].map((line) => `**${escaped(line)}**`),
    `# ${escaped(boat.name)}: ${escaped(route.waypoints[0]!.name)} to ${escaped(route.waypoints.at(-1)!.name)}`,
    table(['', ''], summary(plan)),
    ...choiceNotes(passage).map(escaped),
    ...knifeEdge(passage),
    '## Hours on each sail',
    table(['sail', 'hours', 'by day', 'by night', 'Nm'], totals.sails.map(tallyRow)),
    ...settingsNote(boat),
    '## Hours under each sail plan',
    table(
      ['sail plan', 'hours', 'by day', 'by night', 'Nm'],
      totals.sailPlans.filter((tally) => tally.hours > 0).map(tallyRow),
    ),
    ...sailmakersTables(totals),
    ...watchPlan(plan),
    '## Sail changes',
    `At departure: ${escaped(hours[0]?.sailPlan ?? 'hove to')}. Times are UTC, at the start of the hour; wind is true wind over the water with its limit gust.`,
    changes.length === 0 ? 'None.' : table(['when', 'where', 'from', 'to', 'wind', 'TWA', 'AWA', 'AWS'], changes),
    ...daysRunTables(totals),
    '## Day by day',
    table(['UTC day', 'Nm', 'TWS', 'limit gust', 'AWS', 'under'], totals.days.map(dayRow)),
    ...wearSection(plan.wear),
    ...(warnings.length === 0
      ? []
      : ['## Warnings', warnings.map((warning) => `- ${escaped(describeFault(warning))}`).join('\n')]),
    ...[...estimateNotes(passage), ...filledNote(boat), ...placeholderNote(plan)].map(escaped),
    '## Made from',
    inputs.map(madeFrom).join('\n'),
    `- options: ${escaped(JSON.stringify(passage.options))}`,
  ];
  return `${sections.filter((section) => section !== '').join('\n\n')}\n`;
}

/** The hours whose plan hangs on little. */
function knifeEdge({ hours }: Passage): string[] {
  const lines = knifeEdgeLines(hours);
  if (lines.length === 0) return [];
  return [
    "## On a knife's edge",
    'The plan of these hours stands in less than half of eight winds 10° and 20 % either side of the forecast: look at them again when they come near.',
    lines.map((line) => `- ${escaped(line)}`).join('\n'),
  ];
}

function madeFrom({ role, file, sha256, member, columns }: InputDigest): string {
  const chosen = Object.entries(columns ?? {}).map(
    ([held, { name, unit }]) => `${held}=${name}${unit === undefined ? '' : `:${unit}`}`,
  );
  const how = [...(member === undefined ? [] : [`member ${member}`]), ...chosen];
  return `- ${role}: ${escaped([file, ...how].join(', '))} (SHA-256 ${sha256})`;
}

/** Defaults without a source that this plan rests on; none where the skipper set them all and she never lay hove to. */
function placeholderNote({ passage, totals }: PlanToPrint): string[] {
  const { house, placeholders } = passage.options;
  const used = [
    ...placeholders.map((rule) => `${rule} ${house[rule]}`),
    ...(totals.hoveToHours > 0 ? [`${HOVE_TO_KN} kn to leeward hove to`] : []),
  ];
  if (used.length === 0) return [];
  return [
    `Placeholders without a source; the house rules among them are yours to set in the boat file: ${used.join(', ')}.`,
  ];
}

/** Which settings count at which cloth, where the boat has such. */
function settingsNote({ sails }: Boat): string[] {
  const settings = sails.filter((sail) => sail.clothOf !== undefined);
  if (settings.length === 0) return [];
  return [`Counted at their cloth: ${settings.map((sail) => escaped(`${sail.id} at ${sail.clothOf}`)).join(', ')}.`];
}

function summary({ passage, totals, boat }: PlanToPrint): [string, string][] {
  const { sailChanges, reefChanges } = totals;
  const arrival: [string, string][] =
    totals.arrival === null
      ? [
          [
            'Arrival',
            totals.arrivalEstimate === null ? 'none' : `none; about ${totals.arrivalEstimate} at the mean speed so far`,
          ],
        ]
      : [['Arrival', totals.arrival]];
  const when = landfallText(passage);
  const landfall: [string, string][] = when === undefined ? [] : [['Landfall', when]];
  return [
    ['Departure', passage.departure],
    ...arrival,
    ...landfall,
    ['Under way', duration(totals.hours)],
    ['Distance', `${fixed(totals.distanceNm, 1)} Nm made good along the track`],
    ['Mean speed', totals.meanSpeedKn === null ? 'none' : `${fixed(totals.meanSpeedKn, 2)} kn`],
    ['Sail changes', `${sailChanges}, of which ${reefChanges} only reefs`],
    ...passageRows(totals),
    ['Tacks, gybes', `${totals.tacks}, ${totals.gybes}`],
    ['Hove to', duration(totals.hoveToHours)],
    ...(boat.engine === undefined
      ? []
      : [
          [
            'Engine',
            `${duration(totals.motorHours)}, ${totals.motorStarts} starts, ${fixed(totals.fuelLitres, 0)} l of ${fixed(boat.engine.fuelLitres, 0)} l with charging`,
          ] as [string, string],
        ]),
    ...otherwise(passage.options),
    ['Off the track', `at most ${fixed(totals.offTrackNm, 1)} Nm`],
  ];
}

/** What the navigator asked for that the forecast and the boat file do not say. */
function otherwise({ windFactor, windShiftHours, planSet, without }: Passage['options']): [string, string][] {
  const rows: [string, string | false][] = [
    ['Wind', windFactor !== 1 && `the forecast's × ${windFactor}`],
    [
      'Weather',
      windShiftHours !== 0 && `${Math.abs(windShiftHours)} h ${windShiftHours > 0 ? 'later' : 'earlier'} than forecast`,
    ],
    ['Set at departure', planSet !== null && planSet],
    ['Without', without.length > 0 && without.join(', ')],
  ];
  return rows.filter((row): row is [string, string] => row[1] !== false);
}

const tallyCells = ({ hours, dayHours, nightHours, distanceNm }: Tally) =>
  [hours, dayHours, nightHours, distanceNm].map((value) => fixed(value, 1));
const tallyRow = (tally: Tally) => [tally.id, ...tallyCells(tally)];

function tallyLines(tallies: readonly Tally[]): string[] {
  const width = Math.max(10, ...tallies.map(({ id }) => id.length)) + 2;
  const row = (id: string, cells: readonly string[]) =>
    `  ${id.padEnd(width)}${cells.map((cell) => cell.padStart(10)).join('')}`;
  return [row('', ['hours', 'by day', 'by night', 'Nm']), ...tallies.map((tally) => row(tally.id, tallyCells(tally)))];
}

function changeRow(setBefore: string | null, hour: Hour): string[] {
  const angle = (deg: number | null) => (deg === null ? '' : `${fixed(Math.abs(deg), 0)}° ${hour.tack}`);
  return [
    hour.time,
    position(hour.latDeg, hour.lonDeg),
    setBefore ?? 'hove to',
    hour.sailPlan ?? 'hove to',
    `${fixed(hour.twsKn, 0)} kn, gust ${fixed(hour.gustKn, 0)}`,
    angle(hour.twaDeg),
    hour.awaDeg === null ? '' : `${fixed(Math.abs(hour.awaDeg), 0)}°`,
    `${fixed(hour.awsKn, 0)} kn`,
  ];
}

function dayRow(day: Day): string[] {
  return [
    day.date,
    fixed(day.distanceNm, 1),
    `${fixed(day.twsMinKn, 0)} to ${fixed(day.twsMaxKn, 0)} kn`,
    `to ${fixed(day.gustMaxKn, 0)} kn`,
    `to ${fixed(day.awsMaxKn, 0)} kn`,
    day.sailPlans.map((plan) => plan ?? 'hove to').join(', '),
  ];
}
