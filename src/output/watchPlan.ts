import { type Boat, HOVE_TO, settingOf } from '../boat/boat.js';
import { kindOf } from '../catalogue/catalogue.js';
import { DEFAULT_WATCHES, watchBegan } from '../change/change.js';
import type { Hour, SailChange } from '../passage/passage.js';
import { parseInstant } from '../time.js';
import type { ShipDay } from '../totals/totals.js';
import { zoneClock, zoneLabel } from '../zoneTime.js';
import { changeTold, named } from './changeReasons.js';
import { fixed } from './format.js';
import { escaped, table } from './markdown.js';
import type { PlanToPrint } from './planParts.js';
import { clockOf, type ShipsClock, shipsClock } from './shipsClock.js';

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

function changeLine(change: SailChange, clockAt: ShipsClock): string {
  return `- **${clockAt(change.time).clock}** ${changeTold(change, clockAt).map(escaped).join(' ')}`;
}

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
