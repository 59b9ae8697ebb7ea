import { type Boat, HOVE_TO, settingOf } from '../boat/boat.js';
import { kindOf } from '../catalogue/catalogue.js';
import { DEFAULT_WATCHES, watchBegan } from '../change/change.js';
import type { BarReason, Hour, Passage, SailChange } from '../passage/passage.js';
import { parseInstant } from '../time.js';
import type { ShipDay } from '../totals/totals.js';
import { type ZoneClock, zoneClock, zoneLabel } from '../zoneTime.js';
import { duration, fixed } from './format.js';
import { escaped, table } from './markdown.js';
import type { PlanToPrint } from './planParts.js';

const REASON_WORDS: Readonly<Record<BarReason, string>> = {
  window: 'its angles or too little wind',
  gust: 'the gust',
  wave: 'the waves',
  night: 'the dark',
  'no-speed': 'no speed there',
  crew: 'too few hands',
  setting: 'the last change being too near',
  rule: 'a rule of your own',
};

/** By ship's day and watch: what is up, what to steer, what will be done, what breaks it and what to do then. */
export function watchPlan({ passage, totals, boat }: PlanToPrint): string[] {
  const { hours, changes = [] } = passage;
  if (hours.length === 0) return [];
  const byTime = new Map(changes.map((change) => [change.time, change]));
  const clockAt = shipsClock(hours);
  const known = boat.watches !== undefined;
  return [
    '## Watch plan',
    `By the ship's clock, which is set to the zone of her longitude at noon; UTC beside it. AWA is what to steer by, as far as the wind is as forecast.${known ? '' : ' The boat file gives no watches: they are taken to change every four hours (placeholder).'}`,
    ...runningBefore(hours, boat),
    ...totals.shipDays.flatMap((day) => dayLines(day, hours, byTime, boat, clockAt)),
  ];
}

/** From here on the wind may get behind a main by a wave or a shift alone. */
const DEAD_BEFORE_DEG = 165;

/** What is to be said where she runs with the wind dead aft under a main. */
function runningBefore(hours: readonly Hour[], boat: Boat): readonly string[] {
  const withMain = new Set(
    boat.sailPlans
      .filter(({ sails }) => sails.some((text) => kindOf(settingOf(boat, text)!.sail.kind).place === 'mast'))
      .map(({ id }) => id),
  );
  const isRunning = ({ awaDeg, sailPlan }: Hour) =>
    awaDeg !== null && sailPlan !== null && Math.abs(awaDeg) >= DEAD_BEFORE_DEG && withMain.has(sailPlan);
  return hours.some(isRunning)
    ? [
        'With the wind so far aft (AWA 165° and more) a wave or a shift gybes the main by itself: rig a preventer, stay clear of the boom (common practice, no source).',
      ]
    : [];
}

/** What the ship's clock says at an instant. */
type ShipsClock = (time: string) => ZoneClock;

/** The clock of a passage: that of the last row begun by then. */
function shipsClock(hours: readonly Hour[]): ShipsClock {
  const sets = hours.filter(({ zoneHours }, i) => zoneHours !== hours[i - 1]?.zoneHours);
  return (time) => clockOf(time, (sets.filter((set) => set.time <= time).at(-1) ?? sets[0]!).zoneHours);
}

function dayLines(
  day: ShipDay,
  hours: readonly Hour[],
  byTime: ReadonlyMap<string, SailChange>,
  boat: Boat,
  clockAt: ShipsClock,
): string[] {
  const rows = hours.slice(day.fromRow, day.toRow);
  const changes = rows.flatMap((hour) => {
    const change = byTime.get(hour.time);
    return change === undefined ? [] : [changeLine(change, clockAt)];
  });
  const due = [...byTime.values()].flatMap((change) => dueBefore(change, day.date, clockAt));
  return [
    `### ${day.date} (${zoneLabel(day.zoneHours)})`,
    lights(day, clockAt),
    ...clockSet(rows),
    ...(changes.length + due.length === 0 ? [] : [[...changes, ...due].join('\n')]),
    table(
      ['watch', 'UTC', 'set', 'steer', 'wind', 'holds within', 'beyond that'],
      segments(rows, boat).map(segmentRow),
    ),
  ];
}

/** A change of the next night that can be made by daylight in a day. */
function dueBefore(
  { time, lastByDaylight, from, to }: SailChange,
  date: string,
  clockAt: ShipsClock,
): readonly string[] {
  if (lastByDaylight === null) return [];
  const [made, light] = [clockAt(time), clockAt(lastByDaylight)];
  if (light.date !== date || made.date === date) return [];
  return [
    `- By daylight until **${light.clock}**, or in the dark at ${made.clock} on ${made.date}: ${escaped(`${named(from)} to ${named(to)}`)}.`,
  ];
}

const named = (plan: string | null) => plan ?? 'hove to';

/** That the clock is set in a day, which the watch of that noon feels. */
function clockSet(rows: readonly Hour[]): string[] {
  const set = rows.findIndex((row, i) => i > 0 && row.zoneHours !== rows[i - 1]!.zoneHours);
  if (set < 0) return [];
  const { time, zoneHours } = rows[set]!;
  const back = rows[set - 1]!.zoneHours - zoneHours;
  const was = clockOf(time, rows[set - 1]!.zoneHours).clock;
  return [
    `At ${was} the clock goes ${back > 0 ? 'back' : 'on'} to ${clockOf(time, zoneHours).clock} (${zoneLabel(zoneHours)}): that watch is ${Math.abs(back)} h ${back > 0 ? 'longer' : 'shorter'}, and what comes after is by the new time.`,
  ];
}

function lights(
  { sunrise, sunset, dawn, dusk, moonPhase, moonLitShare, moonrise, moonset }: ShipDay,
  clockAt: ShipsClock,
): string {
  const at = (time: string | null) => (time === null ? 'none' : clockAt(time).clock);
  return `Dawn ${at(dawn)}, sunrise ${at(sunrise)}, sunset ${at(sunset)}, dusk ${at(dusk)}. Moon ${moonPhase}, ${fixed(100 * moonLitShare, 0)} % lit, rises ${at(moonrise)}, sets ${at(moonset)}.`;
}

const clockOf = (time: string, zoneHours: number): ZoneClock => zoneClock(parseInstant(time) as number, zoneHours);

/** What each sail change of a passage is, what is done for it and why, as plain text: date and clock of the ship first. */
export function changeReasons({ hours, changes = [] }: Passage): readonly string[] {
  const clockAt = shipsClock(hours);
  return changes.map((change) => {
    const { date, clock } = clockAt(change.time);
    return `${date} ${clock} ${changeTold(change, clockAt).join(' ')}`;
  });
}

function changeLine(change: SailChange, clockAt: ShipsClock): string {
  return `- **${clockAt(change.time).clock}** ${changeTold(change, clockAt).map(escaped).join(' ')}`;
}

function changeTold(change: SailChange, clockAt: ShipsClock): readonly string[] {
  const { time, from, to, minutes, hands, steps, hours, gainKn, barred, runnerUp, fasterBarred } = change;
  const clock = (at: string) => {
    const { date, clock: own } = clockAt(at);
    return date === clockAt(time).date ? own : `${date} ${own}`;
  };
  const done = stepsText(steps);
  const why = [
    `${duration(hours)} under ${named(to)}`,
    ...(barred === null
      ? []
      : [`${named(from)} is barred from ${clock(barred.time)} by ${REASON_WORDS[barred.reason]}`]),
    ...(gainKn === null || (barred !== null && gainKn <= 0)
      ? []
      : [`${fixed(Math.abs(gainKn), 1)} kn ${gainKn < 0 ? 'slower' : 'better'} than ${named(from)}`]),
  ];
  return [
    `(${time.slice(11, 16)} UTC)${change.daylight ? '' : ', in the dark'}: ${named(from)} to ${named(to)}. ${done.length === 0 ? 'Nothing to handle' : done.join(', ')}: ${fixed(minutes, 0)} min, ${hands} ${hands === 1 ? 'hand' : 'hands'}${change.handsShort > 0 ? `, ${change.handsShort} MORE THAN THERE ARE` : ''}${change.wakesWatch ? ', wakes the watch below' : ''}${change.inNeed ? ', AGAINST A HOUSE RULE, in need' : ''}${change.tooSoon ? ', sooner after the last than the house rule has it, because what was set may not stand' : ''}.`,
    `For ${[...why, ...reefReason(change)].join('; ')}.`,
    ...(runnerUp === null
      ? []
      : [
          `Next best ${runnerUp.sailPlan === from ? `to leave ${named(from)}` : named(runnerUp.sailPlan)}, ${runnerUpText(runnerUp.costMinutes)}.`,
        ]),
    ...(fasterBarred.length === 0
      ? []
      : [
          `Faster but barred: ${[
            ...fasterBarred
              .slice(0, MOST_BARRED)
              .map(({ sailPlan, reason }) => `${sailPlan} (${REASON_WORDS[reason]})`),
            ...(fasterBarred.length > MOST_BARRED ? [`${fasterBarred.length - MOST_BARRED} more in plan.json`] : []),
          ].join(', ')}.`,
        ]),
    byDaylight(change, clock),
  ];
}

/** Until when it can be made by daylight, or for how long wait for it. */
function byDaylight({ time, lastByDaylight, firstByDaylight }: SailChange, clock: (at: string) => string): string {
  const wait = firstByDaylight === null ? undefined : `wait for daylight until ${clock(firstByDaylight)}`;
  if (lastByDaylight === null) return wait === undefined ? 'Not to be made by daylight.' : `May ${wait}.`;
  if (lastByDaylight === time) return 'Not later, by daylight.';
  return `By daylight until ${clock(lastByDaylight)}${wait === undefined ? '' : `; or may ${wait}`}.`;
}

/** A gust so near the limit of a plan that it is the cause. */
const NEAR_LIMIT = 0.9;

/** Why a reef goes in though no gust bars what was set. */
function reefReason({ steps, barred, gustShare, fasterBarred }: SailChange): readonly string[] {
  if (!steps.some(({ operation }) => operation === 'reef')) return [];
  if (barred !== null && barred.reason !== 'window') return [];
  if (gustShare !== null && gustShare >= NEAR_LIMIT)
    return [
      `the gust is near the limit of what was set${barred === null ? '' : ', which leaves it no angle to be gybed at'}`,
    ];
  const isForAngle = barred?.reason === 'window' || fasterBarred.some(({ reason }) => reason === 'window');
  const isForGust = fasterBarred.some(({ reason }) => reason === 'gust');
  return isForAngle && !isForGust ? ['reefed for the angle alone: slower, she has the wind further aft'] : [];
}

/** What the runner-up would have cost. Followed by itself it may reckon better than the whole plan of which the choice is part. */
function runnerUpText(costMinutes: number): string {
  if (costMinutes >= 0) return `${fixed(costMinutes, 0)} min dearer in time and price`;
  const better = -costMinutes > DAY_MINUTES ? 'better' : `${fixed(-costMinutes, 0)} min better`;
  return `which by itself reckons ${better}, but is no part of the best whole that was found`;
}

const DAY_MINUTES = 1440;

/** The fastest of barred plans that a line tells of. */
const MOST_BARRED = 3;

/** What is done, the same again and again once with how often. */
function stepsText(steps: SailChange['steps']): string[] {
  const told = new Map<string, number>();
  for (const { operation, sail } of steps) {
    const what = `${operation === 'shakeOut' ? 'shake out a reef of' : operation} ${sail}`;
    told.set(what, (told.get(what) ?? 0) + 1);
  }
  return [...told].map(([what, times]) => (times === 1 ? what : `${what} ${times} times`));
}

/** Hours that follow each other in one watch under one plan on one tack. */
function segments(rows: readonly Hour[], boat: Boat): Hour[][] {
  const watches = boat.watches ?? DEFAULT_WATCHES;
  const parts: Hour[][] = [];
  let last = '';
  for (const hour of rows) {
    const began = watchBegan(watches, clockOf(hour.time, hour.zoneHours).minutesOfDay);
    const key = JSON.stringify([began, hour.sailPlan, hour.manner, hour.tack]);
    if (key === last) parts.at(-1)!.push(hour);
    else parts.push([hour]);
    last = key;
  }
  return parts;
}

function segmentRow(hours: readonly Hour[]): string[] {
  const [first, last] = [hours[0]!, hours.at(-1)!];
  const end = (parseInstant(last.time) as number) + last.minutes * 60;
  const range = (values: readonly number[], unit: string) => {
    const [low, high] = [Math.min(...values), Math.max(...values)].map((value) => fixed(value, 0));
    return low === high ? `${low}${unit}` : `${low} to ${high}${unit}`;
  };
  const limits = hours.flatMap(({ gustLimitKn }) => gustLimitKn ?? []);
  const awas = hours.flatMap(({ awaDeg }) => (awaDeg === null ? [] : [Math.abs(awaDeg)]));
  const [awaFrom, awaTo] = [first.awaFromDeg, first.awaToDeg];
  const holds = [
    ...(limits.length === 0 ? [] : [`gust to ${fixed(Math.min(...limits), 0)} kn`]),
    ...(awaFrom === null || awaTo === null ? [] : [`AWA ${fixed(awaFrom, 0)} to ${fixed(awaTo, 0)}°`]),
  ];
  const plans = (of: readonly (string | null)[]) =>
    [...new Set(of.flatMap((plan) => (plan === HOVE_TO ? 'heave to' : (plan ?? []))))].join(' or ');
  const overAngles = hours.flatMap(({ overAngle }) => overAngle ?? []);
  const then = [
    ...(limits.length === 0 ? [] : [`gust: ${plans(hours.map(({ overGust }) => overGust))}`]),
    ...(overAngles.length === 0 ? [] : [`angle: ${plans(overAngles)}`]),
  ];
  return [
    `${clockOf(first.time, first.zoneHours).clock} to ${zoneClock(end, last.zoneHours).clock}`,
    first.time.slice(11, 16),
    first.sailPlan ?? 'hove to',
    [
      ...(first.manner === 'direct' ? [] : [first.manner]),
      ...(first.tack === null ? [] : [first.tack]),
      ...(awas.length === 0 ? [] : [`AWA ${range(awas, '°')}`]),
    ].join(' '),
    `${range(
      hours.map(({ twsKn }) => twsKn),
      '',
    )} kn, gust ${fixed(Math.max(...hours.map(({ gustKn }) => gustKn)), 0)}`,
    holds.join(', '),
    then.join('; '),
  ];
}
