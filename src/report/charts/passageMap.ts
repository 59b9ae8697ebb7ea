import type { Land } from '../../land/land.js';
import { fixed, hourLines, type PlanToPrint, position } from '../../output/output.js';
import { parseInstant } from '../../time.js';
import { zoneClock } from '../../zoneTime.js';
import type { Chart } from '../document/figure.js';
import { boxRound } from '../drawing/box.js';
import { CODE_HEIGHT, codeAt, codeWidth } from '../drawing/codePlate.js';
import { element, rounded } from '../drawing/svg.js';
import type { ChangeShown } from './changesShown.js';
import { coastOf } from './coast.js';
import { dayText } from './instants.js';
import { type MapFrame, mapFrameOf, type Place } from './mapFrame.js';
import { type Names, namesOn } from './names.js';
import { type PlanInLog, stretches } from './plansInLog.js';
import { tip } from './plot.js';

/** The passage on a map: the track by sail plan, wind, noon positions, sail changes, waypoints, coast. */
export function passageMap(
  plan: PlanToPrint,
  plans: readonly PlanInLog[],
  changes: readonly ChangeShown[],
  land: Land | undefined,
): Chart {
  const { passage, route } = plan;
  const coast = land === undefined ? undefined : coastOf(land);
  const lines = hourLines(passage, route);
  const [start, goal] = [route.waypoints[0]!, route.waypoints.at(-1)!];
  return {
    title: 'Map of the passage',
    says: `From ${start.name} (${position(start.latDeg, start.lonDeg)}) to ${goal.name} (${position(goal.latDeg, goal.lonDeg)}). The line is coloured and dashed by sail plan, with its letter where it is set; arrows fly with the wind, the longer the stronger; rings are noon by the ship's clock${changes.length === 0 ? '' : '; diamonds are sail changes'}${passage.hours.some(({ sailPlan }) => sailPlan === null) ? '; a dotted line is hove to' : ''}. ${coast === undefined ? 'No coast is drawn.' : 'The coast is coarse (1:50 million): no chart.'}`,
    hasLinks: true,
    draw(width) {
      const frame = mapFrameOf([...route.waypoints, ...lines.flat()], width);
      const names = namesOn(frame);
      const wind = windOf(plan, frame, width, names);
      const marks = marksOf(plan, frame, changes, lines.flat(), names);
      const codes = codesOf(plan, plans, frame, names);
      return {
        markup: [
          frame.ground,
          ...(coast === undefined ? [] : [element('path', { class: 'land', d: frame.path(coast) })]),
          trackOf(plan, lines, plans, frame),
          wind,
          marks,
          codes,
          frame.border,
        ].join(''),
        height: frame.height,
      };
    },
  };
}

/** How lines of plans are dashed, those of most hours first: they are told apart in grey too. */
const DASHES = [undefined, '9 4', '2 3.5', '14 4 2 4', '5 5', '9 3 2 3 2 3', '1.5 6', '18 6'];

/** The line sailed, stretch by stretch of one plan, on a darker line that edges it. */
function trackOf(
  { passage, route }: PlanToPrint,
  lines: ReturnType<typeof hourLines>,
  plans: readonly PlanInLog[],
  frame: MapFrame,
): string {
  const path = (places: readonly Place[]) =>
    frame.path({ type: 'LineString', coordinates: places.map(({ lonDeg, latDeg }) => [lonDeg, latDeg]) });
  const ranks = new Map(plans.map(({ id }, rank) => [id, rank]));
  return [
    element('path', { class: 'route', d: path(route.waypoints) }),
    ...stretches(passage.hours, ({ sailPlan }) => sailPlan).flatMap(({ key, from, to }) => {
      const d = path(lines.slice(from, to).flat());
      const rank = ranks.get(key ?? '');
      const told = tip(key ?? 'hove to');
      if (rank === undefined) return [element('path', { class: 'track bare', d }, told)];
      return [
        element('path', { class: 'track edge', d }),
        element(
          'path',
          { class: 'track', d, stroke: plans[rank]!.fill.colour, 'stroke-dasharray': DASHES[rank % DASHES.length] },
          told,
        ),
      ];
    }),
  ].join('');
}

/** Arrows that fly with the wind, some hours apart, beside the line so that it does not hide them. */
function windOf({ passage }: PlanToPrint, { at }: MapFrame, width: number, names: Names): string {
  const { hours } = passage;
  const every = Math.max(1, Math.ceil(hours.length / (width / ARROW_ROOM)));
  const arrows = hours.flatMap((hour, i) => {
    if (i % every !== Math.floor(every / 2)) return [];
    const [onX, onY] = at(hour);
    // To the right of the course where she sails west, to the left where she sails east: above the line; texts stand below.
    const course = (hour.courseDeg * Math.PI) / 180;
    const side = Math.sin(course) <= 0 ? 1 : -1;
    const [x, y] = [onX + side * Math.cos(course) * BESIDE, onY + side * Math.sin(course) * BESIDE];
    const angle = (hour.twdDeg * Math.PI) / 180;
    const [east, north] = [Math.sin(angle), Math.cos(angle)];
    const half = Math.max(4, (hour.twsKn * ARROW_PER_KN) / 2);
    const from = (far: number, aside = 0) =>
      `${rounded(x + east * far + north * aside)} ${rounded(y - north * far + east * aside)}`;
    names.take(boxRound(x, y, Math.abs(east) * half * 1.6 + 4, Math.abs(north) * half * 1.6 + 4));
    const d = `M${from(half)}L${from(-half)}M${from(5 - half, 3)}L${from(-half)}L${from(5 - half, -3)}`;
    return [element('path', { d }, tip(`${hour.time}: ${fixed(hour.twsKn, 0)} kn from ${fixed(hour.twdDeg, 0)}°`))];
  });
  return element('g', { class: 'arrow' }, ...arrows);
}

const ARROW_ROOM = 26;
const ARROW_PER_KN = 1.1;
const BESIDE = 20;

/** Waypoints are no nearer to each other, dots. */
const APART = 5;

/** Noons, sail changes and waypoints, and their names where there is room beside the line. */
function marksOf(
  { passage, route }: PlanToPrint,
  frame: MapFrame,
  changes: readonly ChangeShown[],
  line: readonly Place[],
  names: Names,
): string {
  const { at, isSmall } = frame;
  const parts: string[] = [];
  const half = isSmall ? 3.8 : 5;
  for (const place of line) names.take(boxRound(...at(place), 6, 6));
  let last: readonly [number, number] | undefined;
  for (const waypoint of route.waypoints) {
    const [x, y] = at(waypoint);
    // Of a recorded track only points that can be told apart.
    if (last !== undefined && Math.abs(x - last[0]) + Math.abs(y - last[1]) < APART) continue;
    last = [x, y];
    names.take(boxRound(x, y, 9, 9));
    parts.push(element('rect', { class: 'waypoint', x: x - 3.5, y: y - 3.5, width: 7, height: 7 }, tip(waypoint.name)));
  }
  changes.forEach(({ row, told }, i) => {
    const hour = passage.hours[row];
    if (hour === undefined) return;
    const [x, y] = at(hour);
    names.take(boxRound(x, y, 10, 10));
    parts.push(
      element(
        'a',
        { href: `#change-${i + 1}`, class: 'change' },
        tip(`${i + 1}. ${told}`),
        element('path', {
          d: `M${rounded(x)} ${rounded(y - half)}l${half} ${half}l${-half} ${half}l${-half} ${-half}z`,
        }),
      ),
    );
  });
  const days = noons(passage);
  for (const hour of days) {
    const [cx, cy] = at(hour);
    names.take(boxRound(cx, cy, 7, 7));
    const told = `Noon ${hour.date}: ${position(hour.latDeg, hour.lonDeg)}`;
    parts.push(element('circle', { class: 'noon', cx, cy, r: isSmall ? 2.2 : 3 }, tip(told)));
  }
  for (const waypoint of [route.waypoints[0]!, route.waypoints.at(-1)!])
    parts.push(names.put(at(waypoint), waypoint.name, 'place-name'));
  // The dates of so many noons as there is room for, evenly.
  const across = Math.hypot(
    ...[0, 1].map((axis) => at(route.waypoints.at(-1)!)[axis]! - at(route.waypoints[0]!)[axis]!),
  );
  const every = Math.max(1, Math.ceil(days.length / Math.max(1, across / NAME_ROOM)));
  days.forEach((hour, i) => {
    if (i % every === 0) parts.push(names.put(at(hour), dayText(hour.date), 'noon-name'));
  });
  return parts.join('');
}

/** A date is about so wide, with a little room beside it. */
const NAME_ROOM = 44;

/** The row of the log at each noon by the ship's clock, or the first after it. */
export function noons({ hours }: PlanToPrint['passage']) {
  const noon = 12 * 60;
  const clocks = hours.map((hour) => ({ hour, ...zoneClock(parseInstant(hour.time) as number, hour.zoneHours) }));
  return clocks.flatMap(({ hour, date, minutesOfDay }, i) => {
    const before = clocks[i - 1];
    const isFirstAfter =
      minutesOfDay >= noon && (before === undefined || before.date !== date || before.minutesOfDay < noon);
    // She may depart in the afternoon, which is no noon.
    return isFirstAfter && (before !== undefined || minutesOfDay === noon) ? [{ ...hour, date }] : [];
  });
}

/** The letter of each plan beside the line where it is set, where there is room. */
function codesOf({ passage }: PlanToPrint, plans: readonly PlanInLog[], { at }: MapFrame, names: Names): string {
  const known = new Map(plans.map((plan) => [plan.id, plan]));
  const placed = stretches(passage.hours, ({ sailPlan }) => sailPlan).flatMap(({ key, from, to }) => {
    const plan = known.get(key ?? '');
    if (plan === undefined) return [];
    const [x, y] = at(passage.hours[Math.floor((from + to) / 2)]!);
    const wide = codeWidth(plan.code);
    const spot = [32, 48, -42, -58]
      .map((far) => [x, y + far] as const)
      .find(([cx, cy]) => names.isFree(boxRound(cx, cy, wide + 4, CODE_HEIGHT + 4)));
    if (spot === undefined) return [];
    names.take(boxRound(...spot, wide + 4, CODE_HEIGHT + 4));
    return [element('line', { class: 'leader', x1: x, y1: y, x2: spot[0], y2: spot[1] }), codeAt(...spot, plan.code)];
  });
  return placed.join('');
}
