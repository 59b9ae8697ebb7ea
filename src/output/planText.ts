import type { Boat } from '../boat/boat.js';
import { describeFault } from '../errors.js';
import type { Hour, Passage } from '../passage/passage.js';
import type { Day, Tally } from '../totals/totals.js';
import { choiceNotes } from './choiceText.js';
import { filledNote } from './filledNote.js';
import { fixed, position } from './format.js';
import { escaped, table, visible } from './markdown.js';
import {
  basisNotes,
  climateLines,
  estimateLines,
  knifeEdgeSection,
  madeFrom,
  type PlanToPrint,
  placeholderNote,
  planFirstLine,
  summary,
  UNDECIDED_TITLE,
  undecidedLines,
} from './planParts.js';
import { daysRunTables, sailmakersTables } from './tallyText.js';
import { watchPlan } from './watchPlan.js';
import { wearLines, wearSection } from './wearText.js';

/**
 * The totals as they are printed on a terminal.
 * @example
 * totalsText(sample.plan) // '…Distance          2784.4 Nm made good along the track…'
 */
export function totalsText(plan: PlanToPrint): string {
  const { passage, totals, boat, route } = plan;
  const lines = [
    planFirstLine(passage),
    ...estimateLines(passage),
    ...climateLines(passage),
    '',
    `${boat.name}: ${route.waypoints[0]!.name} to ${route.waypoints.at(-1)!.name}`,
    ...summary(plan).map(([label, value]) => `${label.padEnd(18)}${value}`),
    '',
    ...choiceNotes(passage),
    '',
    'Hours on each sail',
    ...tallyLines(totals.sails),
    '',
    'Hours under each sail plan',
    ...tallyLines(totals.sailPlans.filter((plan) => plan.hours > 0)),
    ...wearLines(plan.wear),
  ];
  const undecided = undecidedLines(passage);
  if (undecided.length > 0) lines.push('', UNDECIDED_TITLE, ...undecided.map((line) => `  ${line}`));
  lines.push(...[...basisNotes(passage), ...filledNote(boat), ...placeholderNote(plan)].flatMap((note) => ['', note]));
  if (passage.warnings.length > 0)
    for (const line of ['', 'Warnings', ...passage.warnings.map((warning) => `  ${describeFault(warning)}`)])
      lines.push(line);
  return `${lines.map(visible).join('\n')}\n`;
}

/**
 * The plan in Markdown, for people.
 * @example
 * planMarkdown(sample.plan) // '…| Departure | 2027-01-11T12:00:00Z |…'
 */
export function planMarkdown(plan: PlanToPrint): string {
  const { passage, totals, boat, route, inputs } = plan;
  const { hours, warnings } = passage;
  const changes = hours.flatMap((hour, i) =>
    hour.sailChange ? [changeRow(i === 0 ? passage.options.planSet : hours[i - 1]!.sailPlan, hour)] : [],
  );
  const sections = [
    `**${planFirstLine(passage)}**`,
    ...[...estimateLines(passage), ...climateLines(passage)].map((line) => `**${escaped(line)}**`),
    `# ${escaped(boat.name)}: ${escaped(route.waypoints[0]!.name)} to ${escaped(route.waypoints.at(-1)!.name)}`,
    table(['', ''], summary(plan)),
    ...choiceNotes(passage).map(escaped),
    ...knifeEdgeSection(passage),
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
    `${escaped(departureText(passage))} Times are UTC, at the start of the hour; wind is true wind over the water with its limit gust.`,
    changes.length === 0 ? 'None.' : table(['when', 'where', 'from', 'to', 'wind', 'TWA', 'AWA', 'AWS'], changes),
    ...daysRunTables(totals),
    '## Day by day',
    table(['UTC day', 'Nm', 'TWS', 'limit gust', 'AWS', 'under'], totals.days.map(dayRow)),
    ...wearSection(plan.wear),
    ...(warnings.length === 0
      ? []
      : ['## Warnings', warnings.map((warning) => `- ${escaped(describeFault(warning))}`).join('\n')]),
    ...undecidedSection(passage),
    ...[...basisNotes(passage), ...filledNote(boat), ...placeholderNote(plan)].map(escaped),
    '## Made from',
    inputs.map(madeFrom).join('\n'),
    `- options: ${escaped(JSON.stringify(passage.options))}`,
  ];
  return `${sections.filter((section) => section !== '').join('\n\n')}\n`;
}

/** The comparisons an estimate cannot decide: a long list, which its first line points to. */
function undecidedSection(passage: Passage): string[] {
  const lines = undecidedLines(passage);
  return lines.length === 0 ? [] : [`## ${UNDECIDED_TITLE}`, lines.map((line) => `- ${escaped(line)}`).join('\n')];
}

/** What is set before departure, as far as that was told, and what she sets out under. */
function departureText({ hours, options: { planSet } }: Passage): string {
  const under = hours[0]?.sailPlan ?? null;
  if (planSet === null) return `At departure: ${under ?? 'hove to'}.`;
  if (planSet === under) return `Set before departure, and she sets out under it: ${planSet}.`;
  return `Set before departure: ${planSet}; at departure it is ${under === null ? 'taken down' : `changed to ${under}`}, which is the first row.`;
}

/** Which settings count at which cloth, where the boat has such. */
function settingsNote({ sails }: Boat): string[] {
  const settings = sails.filter((sail) => sail.clothOf !== undefined);
  if (settings.length === 0) return [];
  return [`Counted at their cloth: ${settings.map((sail) => escaped(`${sail.id} at ${sail.clothOf}`)).join(', ')}.`];
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
