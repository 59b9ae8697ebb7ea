import type { Land } from '../../land/land.js';
import { fixed, hourLines, type PlanToPrint, position } from '../../output/output.js';
import { parseInstant } from '../../time.js';
import { zoneClock } from '../../zoneTime.js';
import type { Chart } from '../document/figure.js';
import { type Box, boxRound, overlapOf } from '../drawing/box.js';
import { CODE_HEIGHT, codeAt, codeWidth } from '../drawing/codePlate.js';
import { element, rounded, textAt } from '../drawing/svg.js';
import { widthOf } from '../drawing/wrapped.js';
import { coastOf } from './coast.js';
import { dayText } from './instants.js';
import { type MapFrame, mapFrameOf, type Place } from './mapFrame.js';
import { type PlanInLog, stretches } from './plansInLog.js';
import { tip } from './plot.js';

/** The passage on a map: the track by sail plan, wind, noon positions, sail changes, waypoints, coast. */
export function passageMap(
  plan: PlanToPrint,
  plans: readonly PlanInLog[],
  reasons: readonly string[],
  land: Land | undefined,
): Chart {
  const { passage, route } = plan;
  const coast = land === undefined ? undefined : coastOf(land);
  const lines = hourLines(passage, route);
  const [start, goal] = [route.waypoints[0]!, route.waypoints.at(-1)!];
  return {
    title: 'Map of the passage',
    says: `From ${start.name} (${position(start.latDeg, start.lonDeg)}) to ${goal.name} (${position(goal.latDeg, goal.lonDeg)}). The line is coloured and dashed by sail plan, with its letter where it is set; arrows fly with the wind, the longer the stronger; rings are noon by the ship's clock${(passage.changes ?? []).length === 0 ? '' : '; diamonds are sail changes'}${passage.hours.some(({ sailPlan }) => sailPlan === null) ? '; a dotted line is hove to' : ''}. ${coast === undefined ? 'No coast is drawn.' : 'The coast is coarse (1:50 million): no chart.'}`,
    hasLinks: true,
    draw(width) {
      const frame = mapFrameOf([...route.waypoints, ...lines.flat()], width);
      const marks = marksOf(plan, frame, reasons);
      const codes = codesOf(plan, plans, frame, marks.boxes);
      return {
        markup: [
          frame.ground,
          ...(coast === undefined ? [] : [element('path', { class: 'land', d: frame.path(coast) })]),
          trackOf(plan, lines, plans, frame),
          windOf(plan, frame, width),
          marks.markup,
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
function windOf({ passage }: PlanToPrint, { at }: MapFrame, width: number): string {
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
    const d = `M${from(half)}L${from(-half)}M${from(5 - half, 3)}L${from(-half)}L${from(5 - half, -3)}`;
    return [element('path', { d }, tip(`${hour.time}: ${fixed(hour.twsKn, 0)} kn from ${fixed(hour.twdDeg, 0)}°`))];
  });
  return element('g', { class: 'arrow' }, ...arrows);
}

const ARROW_ROOM = 26;
const ARROW_PER_KN = 1.1;
const BESIDE = 22;

/** Waypoints are no nearer to each other, dots. */
const APART = 5;

/** Noons, sail changes and waypoints, and where their texts stand. */
function marksOf({ passage, route }: PlanToPrint, { at, isInside }: MapFrame, reasons: readonly string[]) {
  const boxes: Box[] = [];
  const parts: string[] = [];
  const placed = (x: number, y: number, text: string, className: string) => {
    const wide = widthOf(text, 11);
    const spots = [
      [x, y + 17],
      [x, y - 9],
      [x + wide / 2 + 8, y + 4],
      [x - wide / 2 - 8, y + 4],
    ]
      .map(([cx = 0, cy = 0]) => ({ cx, cy, box: boxRound(cx, cy - 4, wide + 4, 14) }))
      .filter(({ box }) => isInside(box));
    const free = spots.find(({ box }) => boxes.every((other) => overlapOf(box, other) === 0));
    if (free === undefined) return;
    boxes.push(free.box);
    parts.push(textAt(free.cx, free.cy, text, { class: className, 'text-anchor': 'middle' }));
  };
  const ends = [route.waypoints[0]!, route.waypoints.at(-1)!];
  let last: readonly [number, number] | undefined;
  for (const waypoint of route.waypoints) {
    const [x, y] = at(waypoint);
    // Of a recorded track only points that can be told apart.
    if (last !== undefined && Math.abs(x - last[0]) + Math.abs(y - last[1]) < APART) continue;
    last = [x, y];
    boxes.push(boxRound(x, y, 10, 10));
    parts.push(element('rect', { class: 'waypoint', x: x - 3.5, y: y - 3.5, width: 7, height: 7 }, tip(waypoint.name)));
  }
  for (const waypoint of ends) placed(...at(waypoint), waypoint.name, 'place-name');
  const byTime = new Map(passage.hours.map((hour) => [hour.time, hour]));
  (passage.changes ?? []).forEach((change, i) => {
    const hour = byTime.get(change.time);
    if (hour === undefined) return;
    const [x, y] = at(hour);
    boxes.push(boxRound(x, y, 10, 10));
    parts.push(
      element(
        'a',
        { href: `#change-${i + 1}`, class: 'change' },
        tip(`${i + 1}. ${reasons[i] ?? ''}`),
        element('path', { d: `M${rounded(x)} ${rounded(y - 5.5)}l5.5 5.5l-5.5 5.5l-5.5 -5.5z` }),
      ),
    );
  });
  for (const hour of noons(passage)) {
    const [x, y] = at(hour);
    parts.push(
      element(
        'circle',
        { class: 'noon', cx: x, cy: y, r: 3.4 },
        tip(`Noon ${hour.date}: ${position(hour.latDeg, hour.lonDeg)}`),
      ),
    );
    placed(x, y, dayText(hour.date), 'noon-name');
  }
  return { markup: parts.join(''), boxes };
}

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
function codesOf(
  { passage }: PlanToPrint,
  plans: readonly PlanInLog[],
  { at, isInside }: MapFrame,
  taken: readonly Box[],
): string {
  const boxes = [...taken];
  const known = new Map(plans.map((plan) => [plan.id, plan]));
  const placed = stretches(passage.hours, ({ sailPlan }) => sailPlan).flatMap(({ key, from, to }) => {
    const plan = known.get(key ?? '');
    if (plan === undefined) return [];
    const [x, y] = at(passage.hours[Math.floor((from + to) / 2)]!);
    const wide = codeWidth(plan.code);
    const spot = [32, 48, -42, -58]
      .map((far) => [x, y + far] as const)
      .find(([cx, cy]) => {
        const box = boxRound(cx, cy, wide + 4, CODE_HEIGHT + 4);
        return isInside(box) && boxes.every((other) => overlapOf(box, other) === 0);
      });
    if (spot === undefined) return [];
    boxes.push(boxRound(...spot, wide + 4, CODE_HEIGHT + 4));
    return [element('line', { class: 'leader', x1: x, y1: y, x2: spot[0], y2: spot[1] }), codeAt(...spot, plan.code)];
  });
  return placed.join('');
}
