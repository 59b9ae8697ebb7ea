import type { BarReason, Passage, SailChange } from '../passage/passage.js';
import { duration, fixed } from './format.js';
import { type ShipsClock, shipsClock } from './shipsClock.js';

/** What each sail change of a passage is, what is done for it and why, as plain text: date and clock of the ship first. */
export function changeReasons({ hours, changes = [] }: Passage): readonly string[] {
  const clockAt = shipsClock(hours);
  return changes.map((change) => {
    const { date, clock } = clockAt(change.time);
    return `${date} ${clock} ${changeTold(change, clockAt).join(' ')}`;
  });
}

/** What is done, what for, and until when it can be, in sentences. */
export function changeTold(change: SailChange, clockAt: ShipsClock): readonly string[] {
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

/** A gust so near the limit of a plan that it is the cause: a placeholder. */
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

/** A sail plan, or none. */
export const named = (plan: string | null) => plan ?? 'hove to';

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
