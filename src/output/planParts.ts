import type { Boat } from '../boat/boat.js';
import { HOVE_TO_KN, type Hour, type IncompleteReason, type Passage } from '../passage/passage.js';
import type { Assumption } from '../polar/polar.js';
import type { Route } from '../route/route.js';
import type { Totals } from '../totals/totals.js';
import type { Wear } from '../wear/wear.js';
import { CAUTION } from './caution.js';
import { knifeEdgeLines, landfallText } from './choiceText.js';
import { duration, fixed } from './format.js';
import { escaped, visible } from './markdown.js';
import type { InputDigest } from './planJson.js';
import { passageRows } from './tallyText.js';

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
export function planFirstLine({ complete, reason, distanceToGoNm, end }: Passage): string {
  if (complete || reason === null) return CAUTION;
  return `PLAN INCOMPLETE: ${REASONS[reason]}, at ${end} with ${fixed(distanceToGoNm, 0)} Nm to go. ${CAUTION}`;
}

/** What people must know of estimated speeds, right after the caution; none where speeds come from polars. */
export function estimateLines({ estimate }: Passage): string[] {
  if (estimate === undefined) return [];
  const { basis, undecided } = estimate;
  const open = `${undecided.length} ${undecided.length === 1 ? 'comparison' : 'comparisons'} of plans cannot be decided, listed at the end`;
  return [
    visible(
      undecided.length === 0
        ? `SPEEDS ARE ESTIMATED. ${basis[0] ?? ''} No comparison of plans in this passage turns within the bands of what is assumed.`
        : `SPEEDS ARE ESTIMATED: ${open}. ${basis[0] ?? ''}`,
    ),
  ];
}

/** That hours are sailed in no forecast, right after the caution; none where all are. */
export function climateLines({ hours, synthetic }: Passage): string[] {
  const minutesOf = (some: readonly Hour[]) => some.reduce((sum, { minutes }) => sum + minutes, 0);
  const by = minutesOf(hours.filter(({ weather }) => weather === 'climatology'));
  if (by === 0) return [];
  const howLong = `in ${duration(by / 60)} of ${duration(minutesOf(hours) / 60)}`;
  return synthetic === undefined
    ? [`NOT A FORECAST ${howLong}: the wind is the mean of the month, without gales, squalls or calms.`]
    : [`SYNTHETIC WEATHER ${howLong} (seed ${synthetic.seed}): one drawing of what monthly means imply, no forecast.`];
}

/** What else an estimate rests on. */
export const basisNotes = ({ estimate }: Passage): string[] => estimate?.basis.slice(1) ?? [];

/** All that stands at the end of a plan on an estimate: what it cannot decide, and what it rests on. */
export function estimateNotes(passage: Passage): string[] {
  const lines = undecidedLines(passage);
  return [...(lines.length === 0 ? [] : [`The estimate cannot decide: ${lines.join('; ')}.`]), ...basisNotes(passage)];
}

const ASSUMPTION_WORDS: Readonly<Record<Assumption, string>> = {
  'coefficient-edition': 'the edition of the coefficients',
  'set-without-main': 'what a flying sail gains without a main',
  shadow: 'the shadow of the main',
  'wave-exponent': 'how waves grow with speed',
};

/** The comparisons an estimate cannot decide, those of most hours first. */
export const undecidedLines = ({ estimate }: Passage): string[] =>
  (estimate?.undecided ?? []).map(({ sailPlan, rival, hours, assumptions }) =>
    visible(
      `${sailPlan} or ${rival} (${fixed(hours, 0)} h; hangs on ${assumptions.map((name) => ASSUMPTION_WORDS[name]).join(', ')})`,
    ),
  );

/** The section that names them. */
export const UNDECIDED_TITLE = 'What the estimate cannot decide';

/** The hours whose plan hangs on little. */
export function knifeEdgeSection({ hours }: Passage): string[] {
  const lines = knifeEdgeLines(hours);
  if (lines.length === 0) return [];
  return [
    "## On a knife's edge",
    'The plan of these hours stands in less than half of eight winds 10° and 20 % either side of the forecast: look at them again when they come near.',
    lines.map((line) => `- ${escaped(line)}`).join('\n'),
  ];
}

export function madeFrom({ role, file, sha256, member, columns }: InputDigest): string {
  const chosen = Object.entries(columns ?? {}).map(
    ([held, { name, unit }]) => `${held}=${name}${unit === undefined ? '' : `:${unit}`}`,
  );
  const how = [...(member === undefined ? [] : [`member ${member}`]), ...chosen];
  return `- ${role}: ${escaped([file, ...how].join(', '))} (SHA-256 ${sha256})`;
}

/** Defaults without a source that this plan rests on; none where the skipper set them all and she never lay hove to. */
export function placeholderNote({ passage, totals }: PlanToPrint): string[] {
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

export function summary({ passage, totals, boat }: PlanToPrint): [string, string][] {
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
